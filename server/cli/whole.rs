//! What `backup`, `restore`, `copy` and `verify` have in common: all of a database, gone through.

use super::told;
use crate::db::Db;
use crate::db::copy::copy;
use crate::exchange::whole::{Examined, examine};
use crate::hex;
use anyhow::{Context, bail, ensure};
use std::io::IsTerminal;
use std::path::Path;

/// Copies all of a database into an empty one, and lets it last only when both sides say the same when they are gone through:
/// as many rows, the same audit trails, the same results.
pub(super) async fn copied(from: &Db, to: &Db) -> anyhow::Result<Vec<Examined>> {
    let mut from = from.snapshot().await.context("the database cannot be read")?;
    let mut to = to.begin().await.context("nothing can be written")?;
    let shows = std::io::stderr().is_terminal();
    let mut rows = 0;
    let mut tell = |table: &str, copied: u64| {
        rows += copied;
        if shows {
            eprint!("\r\x1b[K{rows} rows copied ({table})");
        }
    };
    let done = copy(&mut from, &mut to, &mut tell).await;
    if shows {
        eprint!("\r\x1b[K");
    }
    done?;
    let there = examine(&mut from.cx()).await.map_err(|error| told(&error))?;
    let here = examine(&mut to.cx()).await.map_err(|error| told(&error))?;
    ensure!(there == here, "what came to stand there is not what was copied, so it was undone");
    let broken = to.cx().broken().await?;
    ensure!(broken.is_empty(), "what came to stand there is broken, so it was undone: {}", broken.join("; "));
    to.commit().await.context("what was copied cannot be made to last")?;
    Ok(here)
}

/// Prints a line for each fault and for each organization without one; an error when there are faults.
pub(super) fn report(examined: &[Examined], broken: &[String]) -> anyhow::Result<()> {
    for says in broken {
        println!("the database file: {says}");
    }
    for Examined { name, checked, .. } in examined {
        for fault in &checked.faults {
            println!("{name}: {fault}");
        }
        if let (true, Some(head)) = (checked.faults.is_empty(), &checked.head) {
            println!(
                "{name}: nothing is wrong. The audit trail fits up to its line {}, {}; {} calibrations and {} quantities were computed again.",
                head.seq,
                hex::written(&head.hash),
                checked.calibrations,
                checked.values
            );
        }
    }
    match broken.len() + examined.iter().map(|one| one.checked.faults.len()).sum::<usize>() {
        0 => Ok(()),
        1 => bail!("one fault was found"),
        faults => bail!("{faults} faults were found"),
    }
}

/// Opening makes a database that is missing, which is no help to who wants to read one.
pub(super) fn is_there(url: &str) -> anyhow::Result<()> {
    if let Some(file) = url.strip_prefix("sqlite://").or_else(|| url.strip_prefix("sqlite:")) {
        ensure!(file.is_empty() || Path::new(file).exists(), "there is no database {file}");
    }
    Ok(())
}
