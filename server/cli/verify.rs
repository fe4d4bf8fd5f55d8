//! `sowmark verify`: whether what is kept still fits together.

use super::whole::report;
use super::{Place, told};
use crate::exchange::whole::examine;
use anyhow::Context;

pub(super) async fn run(place: &Place) -> anyhow::Result<()> {
    let mut snapshot = place.db.snapshot().await.context("the database cannot be read")?;
    let broken = snapshot.cx().broken().await?;
    let examined = examine(&mut snapshot.cx()).await.map_err(|error| told(&error))?;
    report(&examined, &broken)
}
