//! What a print-out says of itself: its moment, its period, the tolerances in force, and the head of the audit trail that
//! was the newest line when it was made. Drawn by `templates/reports/stamp.html`.

use crate::audit;
use crate::db::Cx;
use crate::hex;
use crate::readiness::policy;
use crate::records::head::said;
use crate::web::door::Signed;
use crate::web::error::Error;
use axum::http::HeaderMap;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use sowmark_core::say;
use sowmark_core::usage::Period;
use sowmark_core::words::Words;

/// How many digits of a head the short address has. Enough that no two lines share them by chance; who wants to be sure that
/// nobody made them alike types all.
pub(super) const SHORT: usize = 16;

/// A stamp, in words.
#[derive(Clone, Debug)]
pub struct Stamp {
    pub as_of: String,
    pub period: String,
    pub policy: String,
    /// None while nothing was ever recorded.
    pub head: Option<Head>,
}

/// The head of the trail as it stands on paper.
#[derive(Clone, Debug)]
pub struct Head {
    pub seq: i64,
    /// All 64 digits, in groups of eight.
    pub digits: String,
    /// The address that checks it: the host, without the scheme, and the path.
    pub host: String,
    pub path: String,
}

impl Stamp {
    /// The stamp of a report as of a moment. `cx` must be the snapshot that the report itself reads.
    ///
    /// # Errors
    /// The database.
    pub async fn of(
        cx: &mut Cx<'_>,
        signed: &Signed,
        headers: &HeaderMap,
        at: Timestamp,
        period: Option<Period>,
    ) -> Result<Self, Error> {
        let (actor, words) = (&signed.actor, signed.actor.words());
        let zone = &actor.time_zone;
        let newest = audit::head(cx, actor.organization()).await?;
        let policies = policy::history(cx, &actor.scope).await?;
        let latest = policies.last().and_then(|policy| policy.record);
        let policy = match latest {
            Some(record) => {
                let since = said(record.occurred_at, zone, words);
                say!(words, "stamp-tolerances-changed", number = policies.len(), since = since)
            }
            None => say!(words, "stamp-tolerances-delivered"),
        };
        let base = signed.app.base(headers);
        let host = base.split_once("://").map_or(base.as_str(), |(_, host)| host).to_owned();
        Ok(Self {
            as_of: say!(words, "stamp-moment", moment = said(at, zone, words), zone = &actor.time_zone_name),
            period: period_in_words(period, at, zone, words),
            policy,
            head: newest.map(|place| Head {
                seq: place.seq,
                digits: grouped(&hex::written(&place.hash)),
                path: path(&hex::written(&place.hash)),
                host,
            }),
        })
    }
}

fn period_in_words(period: Option<Period>, at: Timestamp, zone: &TimeZone, words: Words) -> String {
    let Some(period) = period else { return say!(words, "stamp-period-moment", moment = said(at, zone, words)) };
    let says = |at: Option<Timestamp>| at.map(|at| said(at, zone, words));
    match (says(period.from), says(period.to)) {
        (Some(from), Some(to)) => say!(words, "stamp-period-both", from = from, to = to),
        (Some(from), None) => say!(words, "stamp-period-from", from = from),
        (None, Some(to)) => say!(words, "stamp-period-to", to = to),
        (None, None) => say!(words, "stamp-period-all"),
    }
}

/// The short address that checks a head.
fn path(digits: &str) -> String {
    format!("/c/{}", digits.get(..SHORT).unwrap_or(digits))
}

/// In groups of eight, which are typed without losing one's place.
fn grouped(digits: &str) -> String {
    let mut grouped = String::with_capacity(digits.len() + digits.len() / 8);
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && at % 8 == 0 {
            grouped.push(' ');
        }
        grouped.push(digit);
    }
    grouped
}

#[cfg(test)]
mod tests {
    use super::{grouped, path};

    #[test]
    fn digits_stand_in_groups_and_the_address_has_the_first_of_them() {
        let digits = "0123456789abcdef".repeat(4);
        assert_eq!(grouped(&digits[..20]), "01234567 89abcdef 0123");
        assert_eq!(grouped(&digits).split(' ').count(), 8);
        assert_eq!(path(&digits), "/c/0123456789abcdef");
    }
}
