//! The server's one error type, and its one mapping to a status and a problem document (RFC 9457).
//!
//! A page shows the same problem as HTML in its reader's language: `guard.rs` finds the error in the response's extensions
//! ([`Refused`]). The cause of a failure is logged once, here, and never sent.

use super::saying::Saying;
use crate::{saying, texts};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use sowmark_core::say;
use sowmark_core::words::Words;
use std::sync::Arc;

/// Why a request was not done.
#[derive(Debug)]
pub enum Error {
    /// 401.
    SignIn,
    /// 403: the role is too small.
    Forbidden,
    /// 403: the request comes from another site.
    CrossSite,
    /// 404: not there, or not for this person, which is the same.
    NotThere { what: Missing, pointer: Option<String> },
    /// 405.
    WrongMethod,
    /// 409.
    Conflict { detail: Saying },
    /// 400: not even JSON, or not UTF-8.
    Unreadable { detail: Saying },
    /// 413.
    TooLarge { most: usize },
    /// 415.
    WrongType { wanted: &'static str },
    /// 422: every fault of the request.
    Faults(Vec<Fault>),
    /// 429.
    TooMany { retry_after_seconds: u32 },
    /// 503: the database does not answer.
    Unavailable(sqlx::Error),
    /// 500.
    Broken(Box<dyn std::error::Error + Send + Sync>),
}

/// What is not there: by the name of what it is ("seed lot", a variant of the text `fault-not-there`), or in a sentence.
#[derive(Clone, Debug)]
pub struct Missing(Saying);

impl Missing {
    /// With a sentence of its own.
    #[must_use]
    pub fn said(sentence: Saying) -> Self {
        Self(sentence)
    }
}

impl From<&str> for Missing {
    fn from(what: &str) -> Self {
        let what = what.replace(' ', "-");
        Self(saying!("fault-not-there", what = &what))
    }
}

/// One fault of a request: where (RFC 6901) and what, with the remedy.
#[derive(Clone, Debug, Serialize, Deserialize, utoipa::ToSchema)]
pub struct Fault {
    /// JSON pointer into what was sent; empty for the whole of it.
    pub pointer: String,
    /// In English, as programs read it.
    pub detail: String,
    /// The same for a person. One that came over the wire has no more than its detail.
    #[serde(skip)]
    #[schema(ignore)]
    saying: Option<Saying>,
}

impl Fault {
    pub fn new(pointer: impl Into<String>, detail: impl Into<Saying>) -> Self {
        let saying = detail.into();
        Self { pointer: pointer.into(), detail: saying.plain(), saying: Some(saying) }
    }

    /// The same of something that is a part of what was sent.
    #[must_use]
    pub fn within(self, place: &str) -> Self {
        Self { pointer: format!("{place}{}", self.pointer), ..self }
    }

    /// The detail as a person reads.
    #[must_use]
    pub fn says(&self, words: Words) -> String {
        self.saying.as_ref().map_or_else(|| words.sentence(&self.detail), |saying| saying.says(words))
    }

    /// The same, told in somebody's words from now on.
    fn told_in(self, words: Words) -> Self {
        Self { detail: self.says(words), ..self }
    }
}

impl PartialEq for Fault {
    fn eq(&self, other: &Self) -> bool {
        (&self.pointer, &self.detail) == (&other.pointer, &other.detail)
    }
}

impl Eq for Fault {}

/// A problem document.
#[derive(Clone, Debug, Serialize, Deserialize, utoipa::ToSchema)]
pub struct Problem {
    /// A stable name for this kind of problem.
    #[serde(rename = "type")]
    pub kind: String,
    pub title: String,
    pub status: u16,
    pub detail: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub errors: Vec<Fault>,
}

impl Error {
    pub fn not_there(what: impl Into<Missing>) -> Self {
        Self::NotThere { what: what.into(), pointer: None }
    }

    /// Something that the request names is not there: a foreign id is answered like an unknown one.
    pub fn not_there_at(pointer: impl Into<String>, what: impl Into<Missing>) -> Self {
        Self::NotThere { what: what.into(), pointer: Some(pointer.into()) }
    }

    pub fn conflict(detail: impl Into<Saying>) -> Self {
        Self::Conflict { detail: detail.into() }
    }

    pub fn unreadable(detail: impl Into<Saying>) -> Self {
        Self::Unreadable { detail: detail.into() }
    }

    /// One fault alone.
    pub fn fault(pointer: impl Into<String>, detail: impl Into<Saying>) -> Self {
        Self::Faults(vec![Fault::new(pointer, detail)])
    }

    /// Something failed that no request should make fail.
    pub fn broken(error: impl Into<Box<dyn std::error::Error + Send + Sync>>) -> Self {
        Self::Broken(error.into())
    }

    /// The database holds what this program could not have written.
    pub fn inconsistent(place: &str, value: &str) -> Self {
        Self::broken(format!("{place} holds {value:?}, which Sowmark never writes"))
    }

    /// The problem as programs are told it.
    #[must_use]
    pub fn problem(&self) -> Problem {
        self.problem_in(texts::plain())
    }

    /// The problem as a person is told it.
    #[must_use]
    pub fn problem_in(&self, words: Words) -> Problem {
        let (status, name, title) = self.kind();
        let errors = self.faults().into_iter().map(|fault| fault.told_in(words)).collect();
        Problem {
            kind: format!("/problems/{name}"),
            title: say!(words, title),
            status,
            detail: self.detail(words),
            errors,
        }
    }

    /// The status, the name of this kind of problem, and the text of its title.
    fn kind(&self) -> (u16, &'static str, &'static str) {
        match self {
            Self::SignIn => (401, "sign-in", "problem-sign-in"),
            Self::Forbidden => (403, "role", "problem-role"),
            Self::CrossSite => (403, "cross-site", "problem-cross-site"),
            Self::NotThere { .. } => (404, "not-there", "problem-not-there"),
            Self::WrongMethod => (405, "method", "problem-method"),
            Self::Conflict { .. } => (409, "conflict", "problem-conflict"),
            Self::Unreadable { .. } => (400, "unreadable", "problem-unreadable"),
            Self::TooLarge { .. } => (413, "too-large", "problem-too-large"),
            Self::WrongType { .. } => (415, "media-type", "problem-media-type"),
            Self::Faults(_) => (422, "faults", "problem-faults"),
            Self::TooMany { .. } => (429, "too-many", "problem-too-many"),
            Self::Unavailable(_) => (503, "unavailable", "problem-unavailable"),
            Self::Broken(_) => (500, "broken", "problem-broken"),
        }
    }

    /// What is wrong and what to do about it, as a person reads.
    #[must_use]
    pub fn detail(&self, words: Words) -> String {
        match self {
            Self::SignIn => say!(words, "problem-sign-in-detail"),
            Self::Forbidden => say!(words, "problem-role-detail"),
            Self::CrossSite => say!(words, "problem-cross-site-detail"),
            Self::NotThere { what, .. } => what.0.says(words),
            Self::WrongMethod => say!(words, "problem-method-detail"),
            Self::Conflict { detail } | Self::Unreadable { detail } => detail.says(words),
            Self::TooLarge { most } => say!(words, "problem-too-large-detail", most = most / 1024),
            Self::WrongType { wanted } => say!(words, "problem-media-type-detail", wanted = *wanted),
            Self::Faults(faults) => match faults.as_slice() {
                [one] => one.says(words),
                many => say!(words, "problem-faults-detail", count = many.len()),
            },
            Self::TooMany { retry_after_seconds } => {
                say!(words, "problem-too-many-detail", seconds = *retry_after_seconds)
            }
            Self::Unavailable(_) => say!(words, "problem-unavailable-detail"),
            Self::Broken(_) => say!(words, "problem-broken-detail"),
        }
    }

    /// The faults to show beside the fields.
    #[must_use]
    pub fn faults(&self) -> Vec<Fault> {
        match self {
            Self::Faults(faults) => faults.clone(),
            Self::NotThere { what, pointer: Some(pointer) } => vec![Fault::new(pointer, what.0.clone())],
            Self::Unreadable { detail } => vec![Fault::new("", detail.clone())],
            _ => Vec::new(),
        }
    }

    /// Whether the same may well be done a moment later: nobody has to mend anything.
    #[must_use]
    pub fn will_pass(&self) -> bool {
        matches!(self, Self::Unavailable(_) | Self::TooMany { .. })
    }

    /// Tells the log why something failed.
    pub fn log(&self) {
        match self {
            Self::Broken(cause) => tracing::error!(%cause, "request failed"),
            Self::Unavailable(cause) => tracing::error!(%cause, "database unavailable"),
            _ => {}
        }
    }
}

impl From<sqlx::Error> for Error {
    fn from(error: sqlx::Error) -> Self {
        match error {
            sqlx::Error::PoolTimedOut | sqlx::Error::PoolClosed | sqlx::Error::Io(_) | sqlx::Error::WorkerCrashed => {
                Self::Unavailable(error)
            }
            sqlx::Error::Database(ref cause) if is_full_or_locked(cause.code().as_deref()) => Self::Unavailable(error),
            other => Self::broken(other),
        }
    }
}

/// SQLite: busy (5), locked (6), disk full (13), I/O error (10); PostgreSQL: class 08 (connection), 40 (rolled back for
/// another's sake), 53 (no resources) and 57 (operator intervention).
fn is_full_or_locked(code: Option<&str>) -> bool {
    code.is_some_and(|code| {
        matches!(code, "5" | "6" | "10" | "13" | "517")
            || code.len() == 5 && code.get(..2).is_some_and(|class| ["08", "40", "53", "57"].contains(&class))
    })
}

impl From<crate::clock::NoRandomness> for Error {
    fn from(error: crate::clock::NoRandomness) -> Self {
        Self::broken(error)
    }
}

impl From<serde_json::Error> for Error {
    /// Of JSON that this program wrote itself; what is sent goes through `input.rs`.
    fn from(error: serde_json::Error) -> Self {
        Self::broken(error)
    }
}

/// Why a request was not done, for whoever turns the response into a page.
#[derive(Clone, Debug)]
pub struct Refused(pub Arc<Error>);

impl IntoResponse for Error {
    fn into_response(self) -> Response {
        self.log();
        let problem = self.problem();
        let status = StatusCode::from_u16(problem.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
        let body = serde_json::to_string(&problem).unwrap_or_default();
        let mut response = (status, [(header::CONTENT_TYPE, "application/problem+json")], body).into_response();
        let headers = response.headers_mut();
        match self {
            Self::TooMany { retry_after_seconds } => {
                headers.insert(header::RETRY_AFTER, HeaderValue::from(retry_after_seconds));
            }
            Self::Unavailable(_) => {
                headers.insert(header::RETRY_AFTER, HeaderValue::from(5));
            }
            Self::SignIn => {
                headers.insert(header::WWW_AUTHENTICATE, HeaderValue::from_static("Bearer"));
            }
            _ => {}
        }
        response.extensions_mut().insert(Refused(Arc::new(self)));
        response
    }
}
