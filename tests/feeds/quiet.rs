//! The secret of an address never reaches the log, at the most talkative level.

use super::{fetched, made};
use crate::people::browser::Browser;
use crate::world::World;
use sowmark::access::Role;
use std::io::Write;
use std::sync::{Arc, Mutex};

/// Everything that is logged.
#[derive(Clone, Default)]
struct Log(Arc<Mutex<Vec<u8>>>);

impl Write for Log {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.lock().unwrap().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// On SQLite alone: PostgreSQL's own log lies with the host, and its statements are the same ones with the same hash.
#[tokio::test]
async fn the_secret_is_never_logged() {
    let log = Log::default();
    let writer = log.clone();
    let subscriber = tracing_subscriber::fmt()
        .with_max_level(tracing::Level::TRACE)
        .with_span_events(tracing_subscriber::fmt::format::FmtSpan::FULL)
        .with_writer(move || writer.clone())
        .finish();
    let guard = tracing::subscriber::set_default(subscriber);
    let world = World::on_sqlite().await;
    let ana = world.ana().await;
    let mut browser = Browser::of(&world, &ana, Role::Office).await;
    let address = made(&world, &mut browser).await;
    let secret = address.trim_start_matches("/feeds/").to_owned();
    for file in ["due.ics", "due.atom"] {
        assert_eq!(fetched(&world, &format!("{address}/{file}")).await.status, 200);
    }
    let wrong = secret.chars().rev().collect::<String>();
    assert_eq!(fetched(&world, &format!("/feeds/{wrong}/due.ics")).await.status, 404);
    drop(guard);
    let logged = String::from_utf8_lossy(&log.0.lock().unwrap()).into_owned();
    assert!(logged.contains("/feeds/{code}/due.ics"), "requests are logged by their pattern");
    assert!(!logged.contains(&secret) && !logged.contains(&wrong), "the secret stands in the log");
}
