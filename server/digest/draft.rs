//! What is sent about digests, read into what is meant.

use crate::web::input::Whole;
use crate::{input, words};

words! {
    /// How often somebody wants a digest.
    pub enum EveryWord {
        Never = "none",
        Daily = "daily",
        Weekly = "weekly",
    }
}

input! {
    /// When a person wants digests.
    pub struct DigestDraft {
        pub every: EveryWord,
        /// The hour of the organization's day.
        pub hour: Whole<0, 23>,
    }
}
