//! Makes guessing slow: how long an address must wait after failures, and the memory of addresses that have no account.
//!
//! An account's failures are in the database, where every server sees them. An address without an account is made to
//! wait the same way, or the wait itself would tell who has one; that memory is small and of this process only.

use jiff::{SignedDuration, Timestamp};
use sha2::{Digest, Sha256};
use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

/// After this many failures in a row, each further try waits twice as long as the one before.
pub const FREE_TRIES: i64 = 4;
const LONGEST_WAIT_SECONDS: i64 = 900;
/// How many addresses are remembered; then the memory begins anew.
const REMEMBERED: usize = 10_000;

/// How long to wait after so many failures in a row.
#[must_use]
pub fn wait_seconds(failed: i64) -> i64 {
    if failed <= FREE_TRIES {
        return 0;
    }
    let doublings = u32::try_from((failed - FREE_TRIES - 1).clamp(0, 10)).unwrap_or(0);
    (1_i64 << doublings).min(LONGEST_WAIT_SECONDS)
}

/// An address, hashed: what strangers type may be somebody's password.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Key([u8; 32]);

impl Key {
    #[must_use]
    pub fn of(address: &str) -> Self {
        Self(Sha256::digest(address.as_bytes()).into())
    }
}

#[derive(Clone, Copy, Debug, Default)]
struct Tried {
    failed: i64,
    after: i64,
}

/// Addresses without an account that somebody tried to sign in with.
#[derive(Clone, Debug, Default)]
pub struct Strangers(Arc<Mutex<HashMap<Key, Tried>>>);

impl Strangers {
    /// Until when an address must wait, in microseconds since 1970.
    #[must_use]
    pub fn after(&self, key: Key) -> i64 {
        let tried = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        tried.get(&key).map_or(0, |tried| tried.after)
    }

    /// Counts a failure.
    pub fn note_failure(&self, key: Key, now: Timestamp) {
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if all.len() >= REMEMBERED {
            all.clear();
        }
        let tried = all.entry(key).or_default();
        tried.failed += 1;
        tried.after = (now + SignedDuration::from_secs(wait_seconds(tried.failed))).as_microsecond();
    }
}
