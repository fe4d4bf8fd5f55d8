//! `sowmark backup`, and `sowmark restore` of what it wrote.
//!
//! A backup is an SQLite file with every row, whichever database it comes from. It holds what lets people in (hashes of
//! passwords, sessions and tokens), so nobody but its owner may read it.

use super::Place;
use super::whole::{copied, report};
use crate::db::Db;
use crate::db::copy::is_used;
use anyhow::{Context, bail, ensure};
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

/// How every SQLite file begins.
const MAGIC: &[u8; 16] = b"SQLite format 3\0";

#[derive(Debug, clap::Args)]
pub(super) struct Options {
    /// An SQLite file with everything. To restore from one of an earlier Sowmark brings its tables up to date.
    pub file: PathBuf,
}

/// Writes the backup beside its place first: what has its name is whole.
pub(super) async fn backup(place: &Place, Options { file }: Options) -> anyhow::Result<()> {
    ensure!(!file.exists(), "{} is there already: a backup overwrites nothing, so give another name", file.display());
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let unfinished = tempfile::Builder::new()
        .prefix(".sowmark-backup-")
        .tempfile_in(folder)
        .with_context(|| format!("nothing can be written in {}", folder.display()))?;
    let name = unfinished.path().to_str().with_context(|| format!("the name {} is no UTF-8", file.display()))?;
    let into = Db::open_file(name).await?;
    let done = copied(&place.db, &into).await;
    into.close().await;
    let examined = done?;
    let lasts = || -> anyhow::Result<()> {
        unfinished.as_file().sync_all()?;
        unfinished.persist_noclobber(&file)?;
        // The name lasts when its folder does.
        File::open(folder)?.sync_all()?;
        Ok(())
    };
    lasts().with_context(|| format!("{} cannot be written", file.display()))?;
    report(&examined, &[])
        .with_context(|| format!("{} is written, whole; what is wrong was wrong before", file.display()))
}

/// Restores from a copy, since opening an earlier backup changes it.
pub(super) async fn restore(place: &Place, Options { file }: Options) -> anyhow::Result<()> {
    let cannot = || format!("{} cannot be read", file.display());
    let mut begins = Vec::new();
    File::open(&file).and_then(|opened| opened.take(16).read_to_end(&mut begins)).with_context(cannot)?;
    ensure!(begins == MAGIC, "{} is no backup: it is no SQLite file", file.display());
    let folder = tempfile::Builder::new().prefix("sowmark-restore-").tempdir().context("no folder can be made")?;
    let copy = folder.path().join("backup.db");
    std::fs::copy(&file, &copy).with_context(cannot)?;
    let from = Db::open(&format!("sqlite://{}", copy.display()))
        .await
        .with_context(|| format!("{} is no backup", file.display()))?;
    let done = restored(place, &from, &file).await;
    from.close().await;
    done
}

async fn restored(place: &Place, from: &Db, file: &Path) -> anyhow::Result<()> {
    if !is_used(&mut from.read().await?.cx()).await? {
        bail!("{} holds no organization: there is nothing to restore", file.display());
    }
    let examined = copied(from, &place.db).await?;
    report(&examined, &[]).context("all of it was restored; what is wrong was wrong in the backup")
}
