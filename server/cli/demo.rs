//! `sowmark demo`: a made-up fleet, served from a database that is thrown away after.

use super::serve::{self, Bound};
use super::{Place, told};
use crate::access::Role;
use crate::clock::Clock;
use crate::db::Db;
use crate::demo::{self, Made};
use crate::people::act;
use anyhow::{Context, bail};
use jiff::civil::Date;
use tempfile::TempDir;

#[derive(Debug, clap::Args)]
pub(super) struct DemoOptions {
    #[command(flatten)]
    serve: serve::Options,
    /// The day on which one looks; today unless told. The server's clock then runs from its noon, whatever the day is.
    #[arg(long, value_name = "YYYY-MM-DD")]
    date: Option<Date>,
}

/// The years for which a fleet is made up: records of two seasons must lie within those that can be recorded.
const YEARS: std::ops::RangeInclusive<i16> = 2001..=2099;

/// Makes the fleet up and serves it. A database named on the command line itself is used, if it is empty, and kept; the
/// environment's is somebody's own and is left alone.
pub(super) async fn run(database: Option<String>, options: DemoOptions) -> anyhow::Result<()> {
    let zone = demo::zone().context("the time zone of the demonstration is not known here")?;
    let clock = match options.date {
        Some(date) if !YEARS.contains(&date.year()) => {
            bail!("--date {date} is out of reach: give a day from 2001 to 2099")
        }
        Some(date) => Clock::running_from(demo::noon(date, &zone)),
        None => Clock::system(),
    };
    let date = zone.to_datetime(clock.now()).date();
    let bound = Bound::to(options.serve.without_mail()).await?;
    // Dropped at the end, and the folder goes with it.
    let folder = if database.is_some() { None } else { Some(folder()?) };
    let url = match (&database, &folder) {
        (Some(url), _) => url.clone(),
        (None, Some(folder)) => format!("sqlite://{}", folder.path().join("demo.db").display()),
        (None, None) => bail!("there is no place for the database"),
    };
    let place = Place { db: Db::open(&url).await?, clock };
    let served = serve_made_up(bound, &place, date, zone).await;
    place.db.close().await;
    served
}

fn folder() -> anyhow::Result<TempDir> {
    tempfile::Builder::new().prefix("sowmark-demo-").tempdir().context("no folder can be made for the database")
}

async fn serve_made_up(bound: Bound, place: &Place, date: Date, zone: jiff::tz::TimeZone) -> anyhow::Result<()> {
    if !act::is_unused(&place.db).await.map_err(|error| told(&error))? {
        bail!("the database is not empty: a made-up fleet goes into one of its own, so give a new --database, or none");
    }
    let password = password(&place.clock)?;
    // Stopped while it is still at it, it must not leave its folder behind.
    let mut stop = Box::pin(serve::told_to_stop());
    let made = tokio::select! {
        made = demo::make(&place.db, date, zone, &password) => made.context("the fleet cannot be made up")?,
        () = &mut stop => return Ok(()),
    };
    println!("Sowmark shows a made-up fleet on {}", bound.url);
    print_accounts(&made, &password);
    bound.warn();
    bound.serve(place, stop).await;
    Ok(())
}

/// A password for this once: nobody can have it from another run.
fn password(clock: &Clock) -> anyhow::Result<String> {
    const LETTERS: &[u8; 32] = b"abcdefghijkmnpqrstuvwxyz23456789";
    let secret = clock.secret()?;
    let letters: Vec<char> = secret.iter().take(12).map(|byte| char::from(LETTERS[usize::from(byte % 32)])).collect();
    Ok(letters.chunks(4).map(|part| part.iter().collect::<String>()).collect::<Vec<_>>().join("-"))
}

fn print_accounts(made: &Made, password: &str) {
    println!("\nSign in as one of these; it is all invented and gone when this program ends (Ctrl-C).\n");
    println!("  {:<11} {:<20} {:<26} password", "role", "who", "e-mail");
    for account in &made.accounts {
        let role = match account.role {
            Role::Office => "office",
            Role::Crew => "crew",
            Role::Agronomist => "agronomist",
        };
        println!("  {role:<11} {:<20} {:<26} {password}", account.name, account.email);
    }
    println!();
}
