//! `sowmark serve`.

use super::{Place, told};
use crate::access::password::Hasher;
use crate::access::{has_accounts, link};
use crate::app;
use crate::config::Config;
use crate::texts;
use crate::web::accept;
use crate::web::door::App;
use anyhow::Context;
use std::net::SocketAddr;
use std::sync::Arc;
use tokio::net::TcpListener;
use tracing_subscriber::EnvFilter;

#[derive(Debug, clap::Args)]
pub(super) struct Options {
    /// The address to serve on.
    #[arg(long, env = "SOWMARK_LISTEN", default_value = "127.0.0.1:8080", value_name = "HOST:PORT")]
    listen: String,
    /// The address under which people reach it, such as <https://seed.example>, where a proxy stands in front.
    #[arg(long, env = "SOWMARK_PUBLIC_URL", value_name = "URL")]
    public_url: Option<String>,
}

/// The log goes to standard error, one JSON line each where it is no terminal. `RUST_LOG` sets how much.
pub(super) fn start_log() {
    use std::io::IsTerminal;
    let filter = EnvFilter::try_from_default_env().unwrap_or_else(|_| EnvFilter::new("warn,sowmark=info"));
    let log = tracing_subscriber::fmt().with_env_filter(filter).with_writer(std::io::stderr);
    if std::io::stderr().is_terminal() {
        log.compact().init();
    } else {
        log.json().init();
    }
}

pub(super) async fn run(place: &Place, options: Options) -> anyhow::Result<()> {
    let bound = Bound::to(options).await?;
    println!("Sowmark serves on {}", bound.url);
    bound.warn();
    print_set_up_link(place, &bound.url).await?;
    bound.serve(place, told_to_stop()).await;
    Ok(())
}

/// A server that has its address and does not answer yet.
pub(super) struct Bound {
    listener: TcpListener,
    address: SocketAddr,
    config: Config,
    /// Where people reach it.
    pub(super) url: String,
}

impl Bound {
    pub(super) async fn to(options: Options) -> anyhow::Result<Self> {
        texts::check().context("the texts are broken")?;
        // An empty setting, as a compose file passes on an unset variable, is none.
        let public_url =
            options.public_url.map(|url| url.trim_end_matches('/').to_owned()).filter(|url| !url.is_empty());
        let config = Config { public_url };
        let listener =
            TcpListener::bind(&options.listen).await.with_context(|| format!("cannot serve on {}", options.listen))?;
        let address = listener.local_addr().context("the listening socket has no address")?;
        let url = config.public_url.clone().unwrap_or_else(|| format!("http://{address}"));
        Ok(Self { listener, address, config, url })
    }

    /// Warns where passwords would travel readable.
    pub(super) fn warn(&self) {
        let address = self.address;
        if !address.ip().is_loopback() && !self.config.is_https() {
            eprintln!(
                "Warning: others can reach {address} without TLS, so passwords travel readable. Put a TLS proxy in front and give --public-url https://…"
            );
        }
    }

    /// Answers until it is told to stop.
    pub(super) async fn serve(self, place: &Place, stop: impl Future<Output = ()>) {
        let Self { listener, config, .. } = self;
        let app =
            App { db: place.db.clone(), clock: place.clock.clone(), hasher: Hasher::new(), config: Arc::new(config) };
        accept::serve(listener, app::router(app), stop).await;
    }
}

async fn print_set_up_link(place: &Place, url: &str) -> anyhow::Result<()> {
    let empty = {
        let mut conn = place.db.read().await?;
        !has_accounts(&mut conn.cx()).await.map_err(|error| told(&error))?
    };
    if empty {
        let code = link::add_set_up(&place.db, &place.clock).await.map_err(|error| told(&error))?;
        println!(
            "Nobody has an account yet. Make the first office account here, once, within a day: {url}/set-up/{code}"
        );
    }
    Ok(())
}

/// Ends when somebody presses Ctrl-C or tells the program to stop.
pub(super) async fn told_to_stop() {
    let interrupt = async {
        if tokio::signal::ctrl_c().await.is_err() {
            std::future::pending::<()>().await;
        }
    };
    let terminate = async {
        match tokio::signal::unix::signal(tokio::signal::unix::SignalKind::terminate()) {
            Ok(mut signal) => {
                signal.recv().await;
            }
            Err(_) => std::future::pending().await,
        }
    };
    tokio::select! { () = interrupt => {}, () = terminate => {} }
}
