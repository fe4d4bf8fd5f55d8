//! Time and chance: the one place where the clock is read and random bytes are drawn. Everything else is handed a
//! [`Clock`], so that a test can say what time it is.

use jiff::Timestamp;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};
use uuid::Uuid;

/// A moment as it was stated: the instant, and the offset from UTC that it was written with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stamp {
    pub at: Timestamp,
    pub offset_seconds: i32,
}

impl Stamp {
    /// A moment of the server's own, in UTC.
    #[must_use]
    pub fn utc(at: Timestamp) -> Self {
        Self { at, offset_seconds: 0 }
    }

    /// RFC 3339 with the offset it was stated with.
    #[must_use]
    pub fn rfc3339(self) -> String {
        let offset = jiff::tz::Offset::from_seconds(self.offset_seconds).unwrap_or(jiff::tz::Offset::UTC);
        self.at.display_with_offset(offset).to_string()
    }
}

/// Tells the time and makes ids and secrets.
#[derive(Clone, Debug)]
pub struct Clock(Source);

#[derive(Clone, Debug)]
enum Source {
    System,
    /// Microseconds since 1970, moved by hand.
    Manual(Arc<AtomicI64>),
}

impl Clock {
    /// The system's clock.
    #[must_use]
    pub fn system() -> Self {
        Self(Source::System)
    }

    /// A clock that stands still until [`Clock::set`] moves it.
    #[must_use]
    pub fn standing_at(at: Timestamp) -> Self {
        Self(Source::Manual(Arc::new(AtomicI64::new(at.as_microsecond()))))
    }

    /// Moves a standing clock; a system clock cannot be moved.
    pub fn set(&self, at: Timestamp) {
        if let Source::Manual(micros) = &self.0 {
            micros.store(at.as_microsecond(), Ordering::SeqCst);
        }
    }

    /// The time, to the microsecond: what both databases keep.
    #[must_use]
    #[allow(clippy::disallowed_methods)]
    pub fn now(&self) -> Timestamp {
        match &self.0 {
            Source::System => {
                let now = Timestamp::now();
                Timestamp::from_microsecond(now.as_microsecond()).unwrap_or(now)
            }
            Source::Manual(micros) => {
                Timestamp::from_microsecond(micros.load(Ordering::SeqCst)).unwrap_or(Timestamp::UNIX_EPOCH)
            }
        }
    }

    /// A new id, `UUIDv7`.
    ///
    /// # Errors
    /// When the operating system gives no random bytes.
    pub fn new_id(&self) -> Result<Uuid, NoRandomness> {
        let mut chance = [0; 10];
        fill(&mut chance)?;
        let millis = u64::try_from(self.now().as_millisecond()).unwrap_or(0);
        Ok(uuid::Builder::from_unix_timestamp_millis(millis, &chance).into_uuid())
    }

    /// 32 random bytes: the secret behind a session, a token or a one-time link.
    ///
    /// # Errors
    /// When the operating system gives no random bytes.
    pub fn secret(&self) -> Result<[u8; 32], NoRandomness> {
        let mut bytes = [0; 32];
        fill(&mut bytes)?;
        Ok(bytes)
    }
}

#[allow(clippy::disallowed_methods)]
fn fill(bytes: &mut [u8]) -> Result<(), NoRandomness> {
    getrandom::fill(bytes).map_err(|_| NoRandomness)
}

/// The operating system gave no random bytes.
#[derive(Debug, thiserror::Error)]
#[error("the operating system gives no random bytes")]
pub struct NoRandomness;
