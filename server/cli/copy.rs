//! `sowmark copy`: everything from one database to another.

use super::whole::{copied, is_there, report};
use crate::db::Db;
use anyhow::{Context, ensure};

#[derive(Debug, clap::Args)]
pub(super) struct Options {
    /// The database that is read; it may be in use.
    #[arg(long, value_name = "URL")]
    from: String,
    /// The database that takes everything; it must be empty.
    #[arg(long, value_name = "URL")]
    to: String,
}

pub(super) async fn run(options: Options) -> anyhow::Result<()> {
    ensure!(options.from != options.to, "--from and --to are the same database");
    is_there(&options.from).context("--from")?;
    let from = Db::open(&options.from).await.context("--from")?;
    let to = Db::open(&options.to).await.context("--to")?;
    let done = copied(&from, &to).await;
    from.close().await;
    to.close().await;
    report(&done?, &[]).context("all of it was copied; what is wrong was wrong before")
}
