//! The hash of a line: SHA-256 over its fields, each with its length before it, and the hash of the line before.

use jiff::Timestamp;
use sha2::{Digest, Sha256};
use sowmark_core::ids::{AccountId, OrganizationId};
use uuid::Uuid;

/// What stands before the first line.
pub const GENESIS: [u8; 32] = [0; 32];

/// Names what is hashed, so that the hash of a line can never be that of something else.
const DOMAIN: &[u8] = b"sowmark audit 1";

/// A line of the trail.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    pub organization: OrganizationId,
    pub seq: i64,
    pub at: Timestamp,
    /// None: the command line of the host.
    pub account: Option<AccountId>,
    pub action: String,
    pub subject_kind: String,
    pub subject_id: Uuid,
    /// JSON text.
    pub change: String,
}

/// The hash of a line that follows `previous`.
#[must_use]
pub fn hash(previous: &[u8], line: &Line) -> [u8; 32] {
    let mut digest = Sha256::new();
    let mut field = |bytes: &[u8]| {
        digest.update((bytes.len() as u64).to_be_bytes());
        digest.update(bytes);
    };
    field(DOMAIN);
    field(previous);
    field(line.organization.0.as_bytes());
    field(&line.seq.to_be_bytes());
    field(&line.at.as_microsecond().to_be_bytes());
    field(line.account.as_ref().map_or(&[][..], |account| account.0.as_bytes()));
    field(line.action.as_bytes());
    field(line.subject_kind.as_bytes());
    field(line.subject_id.as_bytes());
    field(line.change.as_bytes());
    digest.finalize().into()
}
