//! Time and chance: the one place where the clock is read and random bytes are drawn. Everything else is handed a
//! [`Clock`], so that a test can say what time it is.

use jiff::{SignedDuration, Timestamp};
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};
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

/// Measures how long something takes, whatever the clock is set to meanwhile.
#[derive(Clone, Copy, Debug)]
pub struct Stopwatch(std::time::Instant);

impl Stopwatch {
    #[must_use]
    #[allow(clippy::disallowed_methods)]
    pub fn start() -> Self {
        Self(std::time::Instant::now())
    }

    #[must_use]
    pub fn elapsed(self) -> std::time::Duration {
        self.0.elapsed()
    }
}

/// Tells the time and makes ids and secrets.
#[derive(Clone, Debug)]
pub struct Clock(Source);

#[derive(Clone, Debug)]
enum Source {
    System,
    /// The system's, this far ahead of it or behind.
    Shifted(SignedDuration),
    /// Microseconds since 1970, moved by hand.
    Manual(Arc<AtomicI64>),
    /// Moved by hand, with ids that come out the same every time.
    Repeatable(Arc<AtomicI64>, Chance),
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

    /// A standing clock whose ids follow from the seed: what is done by it twice comes out alike. Its secrets do not.
    #[must_use]
    pub fn repeatable(at: Timestamp, seed: u64) -> Self {
        Self(Source::Repeatable(Arc::new(AtomicI64::new(at.as_microsecond())), Chance::seeded(seed)))
    }

    /// A clock that tells this time now and runs on from it.
    #[must_use]
    pub fn running_from(at: Timestamp) -> Self {
        Self(Source::Shifted(at.duration_since(Self::system().now())))
    }

    /// Moves a standing clock; one that runs cannot be moved.
    pub fn set(&self, at: Timestamp) {
        if let Source::Manual(micros) | Source::Repeatable(micros, _) = &self.0 {
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
            Source::Shifted(by) => {
                let now = Self::system().now();
                now.checked_add(*by).unwrap_or(now)
            }
            Source::Manual(micros) | Source::Repeatable(micros, _) => {
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
        match &self.0 {
            Source::Repeatable(_, repeatable) => repeatable.fill(&mut chance),
            _ => fill(&mut chance)?,
        }
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

/// Numbers that look like chance and come out the same for the same seed, for what is made up. Never for a secret.
///
/// `SplitMix64`: G. L. Steele, D. Lea, C. H. Flood, Fast splittable pseudorandom number generators, OOPSLA 2014.
#[derive(Clone, Debug)]
pub struct Chance(Arc<AtomicU64>);

/// The odd number next to 2^64 over the golden ratio.
const GOLDEN: u64 = 0x9e37_79b9_7f4a_7c15;

impl Chance {
    /// The numbers of a seed, from the first on. A clone goes on with the same numbers.
    #[must_use]
    pub fn seeded(seed: u64) -> Self {
        Self(Arc::new(AtomicU64::new(seed)))
    }

    /// The numbers that belong to a name: each name has its own, whatever was drawn for others.
    #[must_use]
    pub fn of(name: &str) -> Self {
        // FNV-1a, 64 bits: draft-eastlake-fnv. Enough to keep names apart; nobody chooses them to collide.
        Self::seeded(
            name.bytes()
                .fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)),
        )
    }

    /// The next number.
    #[must_use]
    pub fn number(&self) -> u64 {
        let state = self.0.fetch_add(GOLDEN, Ordering::Relaxed).wrapping_add(GOLDEN);
        let mixed = (state ^ (state >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// The next number as a share, from 0 up to but not including 1.
    #[must_use]
    pub fn share(&self) -> f64 {
        (self.number() >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn fill(&self, bytes: &mut [u8]) {
        for piece in bytes.chunks_mut(8) {
            piece.copy_from_slice(&self.number().to_le_bytes()[..piece.len()]);
        }
    }

    /// The id that these numbers make of a moment, `UUIDv7`.
    #[must_use]
    pub fn id(&self, at: Timestamp) -> Uuid {
        let mut chance = [0; 10];
        self.fill(&mut chance);
        uuid::Builder::from_unix_timestamp_millis(u64::try_from(at.as_millisecond()).unwrap_or(0), &chance).into_uuid()
    }
}

#[cfg(test)]
mod tests {
    use super::{Chance, Clock};
    use jiff::{SignedDuration, Timestamp};

    /// Source: the published check values for the seed 1234567, <https://rosettacode.org/wiki/Pseudo-random_numbers/Splitmix64>.
    #[test]
    fn chance_gives_the_published_numbers() {
        let chance = Chance::seeded(1_234_567);
        let published: [u64; 5] = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
            4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ];
        assert_eq!(published.map(|_| chance.number()), published);
    }

    #[test]
    fn a_repeatable_clock_repeats_its_ids_and_not_its_secrets() {
        let clocks = [(); 2].map(|()| Clock::repeatable(Timestamp::UNIX_EPOCH, 7));
        let [one, other] = clocks.map(|clock| ([(); 3].map(|()| clock.new_id().unwrap()), clock.secret().unwrap()));
        assert_eq!(one.0, other.0);
        assert_ne!(one.1, other.1);
        assert!(one.0[0] != one.0[1] && one.0[1] != one.0[2]);
    }

    #[test]
    fn a_clock_put_to_another_day_runs_on_from_it() {
        let day: Timestamp = "2031-05-04T12:00:00Z".parse().unwrap();
        let clock = Clock::running_from(day);
        let first = clock.now();
        assert!(first >= day && first < day + SignedDuration::from_mins(5), "{first}");
        assert!(clock.now() >= first);
    }
}
