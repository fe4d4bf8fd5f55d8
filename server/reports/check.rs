//! The page that checks a print-out: its head is typed in, and the trail says whether it contains it, at which entry, and
//! whether every line up to it is still what was written.
//!
//! It says nothing of what the entries are: whoever holds the paper may know that it is genuine.

use super::stamp::SHORT;
use crate::access::Permission;
use crate::audit;
use crate::db::Cx;
use crate::hex;
use crate::records::head::{moment, said};
use crate::saying;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted, pairs};
use crate::web::page::{Cookies, Page, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::{Path, RawQuery};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::say;
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/reports/check", Need::May(Permission::ReadUsage), check_page),
        crate::route!(page GET "/c/{digits}", Need::May(Permission::ReadUsage), short_check),
    ]
}

#[derive(Template)]
#[template(path = "reports/check.html")]
struct CheckPage {
    page: Page,
    form: Form,
    found: Option<Found>,
}

/// What the trail says of a head.
struct Found {
    /// The paper belongs to this trail, and the trail is whole up to it.
    is_good: bool,
    says: Vec<String>,
}

async fn check_page(signed: Signed, cookies: Cookies, RawQuery(query): RawQuery) -> Result<Response, Error> {
    let words = signed.actor.words();
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?).spoken_in(signed.actor.language);
    let page = Page::new(&signed, &cookies, say!(words, "check-print-title"), "/reports");
    let form = check_form(words);
    if posted.text("head").trim().is_empty() {
        return show_with(form.status(), &CheckPage { page, form, found: None });
    }
    let (form, found) = match typed(posted.text("head")) {
        Ok(digits) => {
            let mut snapshot = signed.app.snapshot().await?;
            (form.filled(&posted), Some(look(&mut snapshot.cx(), &signed, &digits).await?))
        }
        Err(error) => (form.again(&posted, &error), None),
    };
    show_with(form.status(), &CheckPage { page, form, found })
}

async fn short_check(digits: Result<Path<String>, axum::extract::rejection::PathRejection>) -> Result<Response, Error> {
    let Path(digits) = digits.map_err(|_| Error::not_there("page"))?;
    // Nothing but digits goes on into the address.
    let digits: String = digits.chars().filter(char::is_ascii_hexdigit).take(64).collect();
    Ok(Redirect::to(&format!("/reports/check?head={digits}")).into_response())
}

pub(super) fn check_form(words: Words) -> Form {
    let hint = say!(words, "check-print-hint", least = SHORT);
    let fields = vec![FormField::new("head", say!(words, "check-print-head")).hint(hint)];
    Form::new("/reports/check", say!(words, "check-print-submit"), fields)
}

/// The digits that were typed, without what people put between them.
fn typed(text: &str) -> Result<String, Error> {
    let between = |letter: &char| !letter.is_whitespace() && !matches!(letter, '-' | '.' | ':' | '\u{b7}');
    let digits: String = text.chars().filter(between).map(|letter| letter.to_ascii_lowercase()).collect();
    let is_head = (SHORT..=64).contains(&digits.len()) && digits.bytes().all(|digit| digit.is_ascii_hexdigit());
    if is_head {
        return Ok(digits);
    }
    Err(Error::fault("/head", saying!("check-print-no-head", least = SHORT)))
}

/// The least and the greatest hash that begins with these digits.
fn bounds(digits: &str) -> Option<([u8; 32], [u8; 32])> {
    hex::read(&format!("{digits:0<64}")).zip(hex::read(&format!("{digits:f<64}")))
}

async fn look(cx: &mut Cx<'_>, signed: &Signed, digits: &str) -> Result<Found, Error> {
    let (organization, words) = (signed.actor.organization(), signed.actor.words());
    let place = match bounds(digits) {
        Some(bounds) => audit::with_hash(cx, organization, bounds).await?,
        None => None,
    };
    let Some(place) = place else {
        let says = vec![say!(words, "check-print-unknown", organization = &signed.actor.organization_name)];
        return Ok(Found { is_good: false, says });
    };
    let when = said(moment(place.at), &signed.actor.time_zone, words);
    let mut says = vec![say!(words, "check-print-found", entry = place.seq.to_string(), when = when)];
    let is_good = match audit::verify(cx, organization).await? {
        Ok(head) => {
            let later = u64::try_from(head.seq - place.seq).unwrap_or_default();
            says.push(say!(words, "check-print-whole", later = later));
            true
        }
        Err(broken) if broken > place.seq => {
            says.push(say!(words, "check-print-broken-later", entry = broken.to_string()));
            true
        }
        Err(broken) => {
            says.push(say!(words, "check-print-broken", entry = broken.to_string()));
            false
        }
    };
    if digits.len() < 64 {
        says.push(say!(words, "check-print-compare"));
        says.push(hex::written(&place.hash));
    }
    Ok(Found { is_good, says })
}

#[cfg(test)]
mod tests {
    use super::{bounds, typed};

    #[test]
    fn a_head_is_typed_with_gaps_and_in_capitals() {
        assert_eq!(typed(" 01234567 89ABCDEF ").unwrap(), "0123456789abcdef");
        assert_eq!(typed("0123-4567-89ab-cdef-0").unwrap(), "0123456789abcdef0");
        for not in ["0123456789abcde", "0123456789abcdeg", &"0".repeat(65), "0123456789abcd\u{e9}f"] {
            assert!(typed(not).is_err(), "{not}");
        }
    }

    #[test]
    fn an_odd_number_of_digits_bounds_half_a_byte() {
        let (from, to) = bounds("0123456789abcdef0").unwrap();
        assert_eq!((from[7], from[8], from[31]), (0xef, 0x00, 0x00));
        assert_eq!((to[7], to[8], to[31]), (0xef, 0x0f, 0xff));
    }
}
