//! Passwords: argon2id, hashed off the async threads, one at a time per spare core, with a short queue.

use super::throttle::Strangers;
use crate::saying;
use crate::web::error::Error;
use crate::web::saying::Saying;
use argon2::password_hash::{PasswordHasher, PasswordVerifier};
use argon2::{Algorithm, Argon2, Params, Version};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use tokio::sync::Semaphore;

/// The shortest password taken. There is no second factor yet, so length must carry it.
pub const SHORTEST: usize = 12;
/// The longest: what is longer is refused, not cut.
pub const LONGEST: usize = 128;

/// How many may wait for a hash; the next is told to come back.
const QUEUE: usize = 20;

/// RFC 9106, second recommended choice, with one lane: the implementation does not use several.
const MEMORY_KIB: u32 = 64 * 1024;
const PASSES: u32 = 3;

/// Words that no password may consist of, beside the person's own address: the head of every published list of
/// guessed passwords that is long enough to matter here (from memory).
const GUESSED: &[&str] = &[
    "123456789012",
    "1234567890123",
    "password1234",
    "passwordpassword",
    "qwertyuiop12",
    "qwertyuiop123",
    "iloveyou1234",
    "administrator",
    "changemeplease",
    "letmeinplease",
    "sowmarksowmark",
    "abcdefghijkl",
];

/// Hashes and compares passwords.
#[derive(Clone, Debug)]
pub struct Hasher {
    turns: Arc<Semaphore>,
    waiting: Arc<AtomicUsize>,
    strangers: Strangers,
}

impl Hasher {
    /// One that leaves a core to everybody else.
    #[must_use]
    pub fn new() -> Self {
        let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
        Self {
            turns: Arc::new(Semaphore::new((cores - 1).max(1))),
            waiting: Arc::new(AtomicUsize::new(0)),
            strangers: Strangers::default(),
        }
    }

    /// The addresses without an account that were tried.
    #[must_use]
    pub fn strangers(&self) -> &Strangers {
        &self.strangers
    }

    /// Hashes a password into a PHC string.
    ///
    /// # Errors
    /// When too many wait.
    pub async fn hash(&self, password: String) -> Result<String, Error> {
        self.off_the_threads(move || {
            argon()?.hash_password(password.as_bytes()).map(|hash| hash.to_string()).map_err(Error::broken)
        })
        .await
    }

    /// Whether a password fits a hash. With no hash (no such account, no password set) it takes as long and says no.
    ///
    /// # Errors
    /// When too many wait.
    pub async fn fits(&self, password: String, hash: Option<String>) -> Result<bool, Error> {
        self.off_the_threads(move || {
            let argon = argon()?;
            let Some(hash) = hash else {
                argon.hash_password(password.as_bytes()).map_err(Error::broken)?;
                return Ok(false);
            };
            Ok(argon.verify_password(password.as_bytes(), hash.as_str()).is_ok())
        })
        .await
    }

    async fn off_the_threads<T: Send + 'static>(
        &self,
        job: impl FnOnce() -> Result<T, Error> + Send + 'static,
    ) -> Result<T, Error> {
        let _place = Place::take(&self.waiting)?;
        let turn = self.turns.clone().acquire_owned().await.map_err(Error::broken)?;
        // The turn moves into the job: a request that is dropped must not free it while the job still runs.
        tokio::task::spawn_blocking(move || {
            let _turn = turn;
            job()
        })
        .await
        .map_err(Error::broken)?
    }
}

impl Default for Hasher {
    fn default() -> Self {
        Self::new()
    }
}

struct Place(Arc<AtomicUsize>);

impl Place {
    fn take(waiting: &Arc<AtomicUsize>) -> Result<Self, Error> {
        let place = Self(waiting.clone());
        if waiting.fetch_add(1, Ordering::SeqCst) >= QUEUE {
            return Err(Error::TooMany { retry_after_seconds: 5 });
        }
        Ok(place)
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::SeqCst);
    }
}

fn argon() -> Result<Argon2<'static>, Error> {
    let params = Params::new(MEMORY_KIB, PASSES, 1, None).map_err(Error::broken)?;
    Ok(Argon2::new(Algorithm::Argon2id, Version::V0x13, params))
}

/// Why a password is refused, if it is.
#[must_use]
pub fn refusal(password: &str, email: &str) -> Option<Saying> {
    let length = password.chars().count();
    let folded = password.to_lowercase();
    if length < SHORTEST {
        Some(saying!("password-too-short", length = length, least = SHORTEST))
    } else if length > LONGEST {
        Some(saying!("password-too-long", length = length, most = LONGEST))
    } else if GUESSED.contains(&folded.as_str()) || folded == email.to_lowercase() {
        Some(saying!("password-guessed"))
    } else if folded.chars().all(|c| folded.starts_with(c)) {
        Some(saying!("password-repeats-itself"))
    } else {
        None
    }
}
