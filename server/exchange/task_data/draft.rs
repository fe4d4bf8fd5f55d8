//! What somebody says that the lines of a file mean.

use super::matches::Kind;
use crate::input;
use crate::seed::job::act::SeedUsedBasis;
use crate::web::input::{Line, Whole};
use sowmark_core::ids::{LotId, MeteringUnitId};
use sowmark_core::quantity::Rate;
use uuid::Uuid;

input! {
    /// The lines of a file that become jobs.
    pub struct ImportDraft {
        pub lines: Vec<LineDraft>,
    }
}

input! {
    /// What one line means.
    pub struct LineDraft {
        /// Its place in the file.
        pub line: Whole<0, 100_000>,
        /// Whether it becomes a job.
        pub store: Option<bool>,
        pub unit: Option<MeteringUnitId>,
        pub lot: Option<LotId>,
        /// A field's id, `new`, or nothing for a name alone.
        pub field: Option<Line<40>>,
        /// Whose a new field is: a client's id, `new`, or nothing.
        pub client: Option<Line<40>>,
        pub target_rate: Option<Rate>,
        /// Which of the file's masses is the seed used: the machine's total unless told.
        pub seed_used_basis: Option<SeedUsedBasis>,
    }
}

input! {
    /// What names of files mean here.
    pub struct MatchesDraft {
        pub matches: Vec<MatchDraft>,
    }
}

input! {
    /// What a name means.
    pub struct MatchDraft {
        pub kind: Kind,
        /// As the answer to a file gives it.
        pub name: Line<600>,
        pub id: Uuid,
    }
}
