//! `sowmark organization add`, `export`, `import`.

use super::{Place, parse_id, told};
use crate::exchange::whole::export::Export;
use crate::exchange::whole::{self, Refused};
use crate::people::act;
use anyhow::Context;
use sowmark_core::ids::OrganizationId;
use std::fs::File;
use std::io::{BufReader, Write};
use std::path::{Path, PathBuf};

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
    /// Write an organization to standard output, whole, for `import` on another server.
    Export {
        #[arg(value_name = "ID")]
        organization: String,
    },
    /// Take in an organization that was exported, whole or not at all, and print a one-time link for each of its people.
    Import { file: PathBuf },
}

pub(super) async fn run(place: &Place, command: Command) -> anyhow::Result<()> {
    match command {
        Command::Add { name, time_zone, units } => add(place, &name, &time_zone, &units).await,
        Command::Export { organization } => export(place, &organization).await,
        Command::Import { file } => import(place, &file).await,
    }
}

async fn add(place: &Place, name: &str, time_zone: &str, units: &str) -> anyhow::Result<()> {
    let draft = serde_json::json!({ "name": name, "time_zone": time_zone, "units": units });
    let draft = crate::web::input::read(&draft).map_err(|error| told(&error))?;
    let id = act::add_organization(&place.db, &place.clock, draft).await.map_err(|error| told(&error))?;
    println!("{id}");
    Ok(())
}

async fn export(place: &Place, organization: &str) -> anyhow::Result<()> {
    let organization = OrganizationId(parse_id(organization, "the organization")?);
    let (pieces, mut received) = tokio::sync::mpsc::channel(2);
    let export = Export::begin(&place.db, organization, pieces).await.map_err(|error| told(&error))?;
    let sent = tokio::spawn(export.send(place.clock.now()));
    while let Some(piece) = received.recv().await {
        std::io::stdout().write_all(&piece?).context("standard output cannot be written to")?;
    }
    sent.await?;
    std::io::stdout().flush().context("standard output cannot be written to")
}

async fn import(place: &Place, file: &Path) -> anyhow::Result<()> {
    let opened = File::open(file).with_context(|| format!("{} cannot be opened", file.display()))?;
    let taken = whole::import(&place.db, &place.clock, &mut BufReader::new(opened)).await;
    let taken = taken.map_err(|refused| match refused {
        Refused::Failed(error) => told(&error),
        refused => anyhow::anyhow!("nothing was imported: {refused}"),
    })?;
    println!("{}", taken.organization);
    for (email, code) in taken.links {
        println!(
            "{email} sets a password here, once, within a week: /set-password/{code} (after the server's address)"
        );
    }
    Ok(())
}
