//! `sowmark organization add`.

use super::{Place, told};
use crate::people::act;

#[derive(Debug, clap::Subcommand)]
pub(super) enum Command {
    /// Make an organization; prints its id.
    Add {
        name: String,
        /// The time zone of its days and seasons, by its IANA name.
        #[arg(long, default_value = "UTC", value_name = "IANA")]
        time_zone: String,
        /// The units that its people read.
        #[arg(long, default_value = "metric", value_parser = ["metric", "us"])]
        units: String,
    },
}

pub(super) async fn run(place: &Place, command: Command) -> anyhow::Result<()> {
    let Command::Add { name, time_zone, units } = command;
    let draft = serde_json::json!({ "name": name, "time_zone": time_zone, "units": units });
    let draft = crate::web::input::read(&draft).map_err(|error| told(&error))?;
    let id = act::add_organization(&place.db, &place.clock, draft).await.map_err(|error| told(&error))?;
    println!("{id}");
    Ok(())
}
