//! What is due as news: RFC 4287.
//!
//! What came due, and what comes due within two weeks: an entry is news once. It names no address of its own
//! (`rel="self"`): that is a secret, and readers pass on what they read.

use super::act::{Told, feed_id, matter_id};
use crate::readiness::ahead::Matter;
use crate::web::error::Error;
use jiff::{SignedDuration, Timestamp};
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};
use sowmark_core::say;
use std::io;

/// How long before its day something becomes news.
const AHEAD: SignedDuration = SignedDuration::from_hours(24 * 14);

/// The news as text.
///
/// # Errors
/// Never but where memory cannot be written to.
pub(super) fn written(told: &Told, base: &str) -> Result<Vec<u8>, Error> {
    let mut entries: Vec<(Timestamp, &Matter)> =
        told.matters.iter().map(|matter| (news_since(matter), matter)).filter(|(at, _)| *at <= told.now).collect();
    entries.sort_by(|(a, one), (b, other)| b.cmp(a).then_with(|| one.title.cmp(&other.title)));
    let mut writer = Writer::new(Vec::new());
    feed(&mut writer, told, base, &entries).map_err(Error::broken)?;
    Ok(writer.into_inner())
}

fn news_since(matter: &Matter) -> Timestamp {
    if matter.is_coming { matter.from.checked_sub(AHEAD).unwrap_or(matter.from) } else { matter.from }
}

fn feed(writer: &mut Writer<Vec<u8>>, told: &Told, base: &str, entries: &[(Timestamp, &Matter)]) -> io::Result<()> {
    let actor = &told.actor;
    let words = actor.words();
    let name = say!(words, "feed-name", organization = &actor.organization_name);
    writer.write_event(Event::Decl(BytesDecl::new("1.0", Some("utf-8"), None)))?;
    writer
        .create_element("feed")
        .with_attributes([("xmlns", "http://www.w3.org/2005/Atom"), ("xml:lang", actor.language.tag())])
        .write_inner_content(|writer| {
            text(writer, "id", &feed_id(actor).urn().to_string())?;
            text(writer, "title", &name)?;
            text(writer, "updated", &instant(told.since))?;
            link(writer, &format!("{base}/"))?;
            writer.create_element("author").write_inner_content(|writer| text(writer, "name", "Sowmark"))?;
            text(writer, "generator", "Sowmark")?;
            for (at, matter) in entries {
                writer.create_element("entry").write_inner_content(|writer| {
                    text(writer, "id", &matter_id(actor.organization(), &matter.subject).urn().to_string())?;
                    text(writer, "title", &matter.title)?;
                    text(writer, "updated", &instant(*at))?;
                    link(writer, &format!("{base}{}", matter.path))?;
                    text(writer, "summary", &matter.says)
                })?;
            }
            Ok(())
        })?;
    Ok(())
}

fn text(writer: &mut Writer<Vec<u8>>, name: &str, content: &str) -> io::Result<()> {
    // XML knows no way to write a control sign, not even escaped.
    let content: String = content.chars().filter(|sign| !sign.is_control() || *sign == '\n').collect();
    writer.create_element(name).write_text_content(BytesText::new(&content))?;
    Ok(())
}

fn link(writer: &mut Writer<Vec<u8>>, href: &str) -> io::Result<()> {
    writer.create_element("link").with_attributes([("rel", "alternate"), ("href", href)]).write_empty()?;
    Ok(())
}

/// RFC 3339, to the second.
fn instant(at: Timestamp) -> String {
    at.strftime("%Y-%m-%dT%H:%M:%SZ").to_string()
}
