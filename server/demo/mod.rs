//! A made-up contractor to look around in: two farms, nine seeders, four crews, thirty lots and two seasons of records with
//! the troubles of real life, so that every page and every trigger has something to show.
//!
//! The same for the same date, but for the sign-in secrets. People, machines and seed are data (`people.rs`, `fleet.rs`,
//! `seed.rs`); the seasons are stories (`first_season.rs`, `second_season.rs`, `carts.rs`, `office.rs`) told of units that
//! know what they truly deliver (`line.rs`, `catch.rs`). They make a script, a list of acts with their moments
//! (`script.rs`), which `play.rs` does through the features' own acts. Nothing here writes to the database.

mod calendar;
mod carts;
mod catch;
mod first_season;
mod fleet;
mod founding;
mod line;
mod office;
mod people;
mod play;
mod script;
mod second_season;
mod seed;

use self::calendar::{Calendar, ZONE};
use self::play::Player;
use self::script::{BEGINS, Script};
use crate::access::Role;
use crate::access::password::Hasher;
use crate::clock::Clock;
use crate::config::Config;
use crate::db::Db;
use crate::web::door::App;
use crate::web::error::Error;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use serde_json::json;
use sowmark_core::ids::{AccountId, OrganizationId};
use std::sync::Arc;

/// Somebody who can sign in.
#[derive(Clone, Debug)]
pub struct Account {
    pub account: AccountId,
    pub name: &'static str,
    pub email: &'static str,
    pub role: Role,
}

/// The organization that was made.
#[derive(Clone, Debug)]
pub struct Made {
    pub organization: OrganizationId,
    /// The office first.
    pub accounts: Vec<Account>,
}

/// Why there is no demonstration: an act refused what the script says.
#[derive(Debug, thiserror::Error)]
#[error("what happens at {at} is refused, {what}: {}", said(.error))]
pub struct Fault {
    at: Timestamp,
    what: String,
    error: Error,
}

fn said(error: &Error) -> String {
    let problem = error.problem();
    let faults = problem.errors.iter().map(|fault| format!(" {}: {}", fault.pointer, fault.detail));
    format!("{}{}", problem.detail, faults.collect::<String>())
}

/// The zone in which the made-up contractor's days begin and end.
///
/// # Errors
/// When this program does not know it.
pub fn zone() -> Result<TimeZone, jiff::Error> {
    TimeZone::get(ZONE)
}

/// A moment of the day at which everything has happened, whenever on that day one looks: its noon.
#[must_use]
pub fn noon(date: Date, zone: &TimeZone) -> Timestamp {
    Calendar::of(date, zone.clone()).at(0, (12, 0))
}

/// Makes the organization up as it is on a date, everybody with the same password. Everything has happened by the
/// beginning of that day.
///
/// # Errors
/// What the database says, and what the acts refuse.
pub async fn make(db: &Db, date: Date, zone: TimeZone, password: &str) -> Result<Made, Fault> {
    let mut script = Script::new(Calendar::of(date, zone));
    founding::write(&mut script);
    office::policy(&mut script);
    let lines = first_season::write(&mut script);
    second_season::write(&mut script, lines);
    office::stock(&mut script);

    let begins = script.at(BEGINS, (8, 0));
    // Another seed makes other ids of accounts; everything else has its id from its name.
    let clock = Clock::repeatable(begins, 1);
    let app = App { db: db.clone(), clock, hasher: Hasher::new(), config: Arc::new(Config::default()) };
    let draft = json!({ "name": "Fallowmere Sowing", "time_zone": ZONE, "units": "metric" });
    let founding = |error| Fault { at: begins, what: "the organization".to_owned(), error };
    let mut player = Player::found(&app, password, draft).await.map_err(founding)?;
    player.play(script.events()).await?;
    let accounts = people::PEOPLE.iter().filter_map(|person| player.account(person)).collect();
    Ok(Made { organization: player.organization(), accounts })
}
