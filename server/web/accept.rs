//! Takes connections. axum's own loop sets no limit on how long a request's head may take, so that a handful of silent
//! connections could hold a server for ever; this one closes them, caps their number, and drains on the way out.

use axum::Router;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use hyper_util::service::TowerToHyperService;
use std::future::Future;
use std::sync::Arc;
use std::time::Duration;
use tokio::net::TcpListener;
use tokio::sync::Semaphore;

/// How long a request's head may take, and with it how long a kept connection may idle.
const HEAD: Duration = Duration::from_secs(30);
/// How long requests under way may take after the server was told to stop.
const DRAIN: Duration = Duration::from_secs(25);
const CONNECTIONS: usize = 1024;

/// Serves until `stop` resolves, then lets what is under way finish.
pub async fn serve(listener: TcpListener, router: Router, stop: impl Future<Output = ()>) {
    let mut builder = http1::Builder::new();
    builder.timer(TokioTimer::new()).header_read_timeout(HEAD).max_buf_size(64 * 1024);
    let graceful = GracefulShutdown::new();
    let places = Arc::new(Semaphore::new(CONNECTIONS));
    tokio::pin!(stop);
    loop {
        tokio::select! {
            accepted = listener.accept() => {
                let Ok((stream, _)) = accepted else {
                    // Out of file descriptors, most likely: trying again at once would spin.
                    tokio::time::sleep(Duration::from_millis(50)).await;
                    continue;
                };
                let Ok(place) = places.clone().try_acquire_owned() else { continue };
                let service = TowerToHyperService::new(router.clone());
                let connection = graceful.watch(builder.serve_connection(TokioIo::new(stream), service));
                tokio::spawn(async move {
                    if let Err(error) = connection.await {
                        tracing::debug!(%error, "connection ended");
                    }
                    drop(place);
                });
            }
            () = &mut stop => break,
        }
    }
    drop(listener);
    if tokio::time::timeout(DRAIN, graceful.shutdown()).await.is_err() {
        tracing::warn!("stopped with requests still under way");
    }
}
