//! Takes a batch in: each entry through the act of its kind, in its own transaction, whatever becomes of the others.

use super::entry::{Batch, Entry, in_order};
use super::refused;
use crate::access::{Actor, Origin, Sending};
use crate::db::Outcome;
use crate::web::door::Signed;
use crate::web::error::{Error, Problem};
use std::sync::Arc;

/// What became of an entry.
#[derive(Clone, Debug)]
pub enum Taken {
    Stored,
    AlreadyStored,
    Refused(Problem),
}

/// Takes entries in; answers what became of each, in the order in which they were sent.
///
/// An entry is refused for what its sender can mend, and for a failure that sending it again would meet again. When the
/// database is only busy, nobody has to mend anything: what is stored by then stays stored, and the whole batch is to be
/// sent again, which changes nothing of what is there.
///
/// # Errors
/// 503 when the database does not answer.
pub async fn take_in(signed: &Signed, batch: &Batch) -> Result<Vec<(Entry, Taken)>, Error> {
    let sending = Sending { sent_at: batch.sent_at, received_at: signed.app.clock.now(), device: batch.device.clone() };
    let origin = Arc::new(Origin { sending: Some(sending), mends: None });
    let sender = Signed { app: signed.app.clone(), actor: Actor { origin, ..signed.actor.clone() } };
    let entries: Vec<Entry> = batch.entries.iter().map(Entry::read).collect();
    let mut taken: Vec<Option<Taken>> = vec![None; entries.len()];
    for position in in_order(&entries) {
        taken[position] = Some(take(&sender, &entries[position]).await?);
    }
    Ok(entries.into_iter().zip(taken).filter_map(|(entry, taken)| Some((entry, taken?))).collect())
}

async fn take(sender: &Signed, entry: &Entry) -> Result<Taken, Error> {
    match record(sender, entry).await {
        Ok(Outcome::Stored(_)) => Ok(Taken::Stored),
        Ok(Outcome::AlreadyStored(_)) => Ok(Taken::AlreadyStored),
        Err(error) if error.will_pass() => Err(error),
        Err(error) => {
            error.log();
            refused::keep(sender, entry, &error).await?;
            Ok(Taken::Refused(error.problem_in(sender.actor.told_in())))
        }
    }
}

pub(super) async fn record(sender: &Signed, entry: &Entry) -> Result<Outcome, Error> {
    match (entry.kind, entry.parent) {
        (Some(kind), Some(parent)) if entry.faults.is_empty() => {
            kind.record(sender, parent, entry.record.clone()).await
        }
        _ => Err(Error::Faults(entry.faults.clone())),
    }
}
