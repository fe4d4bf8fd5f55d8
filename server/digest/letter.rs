//! A digest as a letter: plain text and simple HTML, with a way to stop it by one click (RFC 8058).

use crate::access::Actor;
use crate::mail::Mailer;
use crate::readiness::ahead::Matter;
use crate::web::error::Error;
use askama::Template;
use jiff::Timestamp;
use lettre::Message;
use lettre::message::header::{HeaderName, HeaderValue};
use lettre::message::{Mailbox, MultiPart};
use sowmark_core::say;
use std::time::{Duration, SystemTime};

/// A line of a letter.
struct Item {
    title: String,
    says: String,
    href: String,
}

#[derive(Template)]
#[template(path = "digest/letter.txt", escape = "none")]
struct Plain<'l> {
    letter: &'l Letter,
}

#[derive(Template)]
#[template(path = "digest/letter.html")]
struct Html<'l> {
    letter: &'l Letter,
}

/// What a letter says.
struct Letter {
    language: &'static str,
    subject: String,
    intro: String,
    items: Vec<Item>,
    /// What was told before and is still due; empty when nothing is.
    rest: String,
    board: String,
    board_href: String,
    why: String,
    stop: String,
    stop_href: String,
}

/// What a letter is made of.
pub(super) struct Content<'c> {
    pub(super) actor: &'c Actor,
    pub(super) new: &'c [&'c Matter],
    /// How much else is still due.
    pub(super) others: usize,
    pub(super) base: &'c str,
    pub(super) stop_href: String,
    /// Names the letter: the same at every attempt, so that a mail server can drop a second one.
    pub(super) id: String,
    pub(super) now: Timestamp,
}

/// The letter, addressed.
///
/// # Errors
/// When the person's address is none that letters go to.
pub(super) fn written(content: &Content<'_>, mailer: &Mailer) -> Result<Message, Error> {
    let letter = letter(content);
    let actor = content.actor;
    let address: lettre::Address = actor.email.parse().map_err(Error::broken)?;
    let plain = Plain { letter: &letter }.render().map_err(Error::broken)?;
    let html = Html { letter: &letter }.render().map_err(Error::broken)?;
    Message::builder()
        .from(mailer.from().clone())
        .to(Mailbox::new(Some(actor.name.clone()), address))
        .subject(letter.subject.clone())
        .date(SystemTime::UNIX_EPOCH + Duration::from_secs(u64::try_from(content.now.as_second()).unwrap_or_default()))
        .message_id(Some(format!("<{}@{}>", content.id, mailer.from().email.domain())))
        .raw_header(header("List-Unsubscribe", format!("<{}>", content.stop_href))?)
        .raw_header(header("List-Unsubscribe-Post", "List-Unsubscribe=One-Click".to_owned())?)
        // RFC 3834: no answer by a machine is wanted.
        .raw_header(header("Auto-Submitted", "auto-generated".to_owned())?)
        .multipart(MultiPart::alternative_plain_html(plain, html))
        .map_err(Error::broken)
}

fn header(name: &str, value: String) -> Result<HeaderValue, Error> {
    let name = HeaderName::new_from_ascii(name.to_owned()).map_err(Error::broken)?;
    Ok(HeaderValue::new(name, value))
}

fn letter(content: &Content<'_>) -> Letter {
    let words = content.actor.words();
    let organization = &content.actor.organization_name;
    let count = content.new.len();
    let item = |matter: &&Matter| Item {
        title: matter.title.clone(),
        says: matter.says.clone(),
        href: format!("{}{}", content.base, matter.path),
    };
    Letter {
        language: content.actor.language.tag(),
        subject: say!(words, "digest-subject", count = count, organization = organization),
        intro: say!(words, "digest-letter-intro", count = count, organization = organization),
        items: content.new.iter().map(item).collect(),
        rest: if content.others == 0 {
            String::new()
        } else {
            say!(words, "digest-letter-rest", count = content.others)
        },
        board: say!(words, "digest-letter-board"),
        board_href: format!("{}/notices", content.base),
        why: say!(words, "digest-letter-why"),
        stop: say!(words, "digest-letter-stop"),
        stop_href: content.stop_href.clone(),
    }
}
