//! A file that a page's form sends (`multipart/form-data`), and the bytes that a program sends as they are; both up to a
//! length.
//!
//! A form of ours has one file and nothing else, so one part with a file name is looked for in the whole body. Rejected:
//! the framework's reader, which streams parts that we hold at once anyway, and whose limits are not ours.

use super::api::body_up_to;
use super::door::App;
use super::error::Error;
use axum::extract::{FromRequest, Request};
use axum::http::header;

/// The largest file that is taken.
pub const LARGEST_FILE: usize = 16 * 1024 * 1024;
/// What the form around it may take.
const AROUND: usize = 64 * 1024;

/// A file as a form sent it; empty when none was chosen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Uploaded {
    /// What it was called, without its folder.
    pub name: String,
    pub bytes: Vec<u8>,
}

impl FromRequest<App> for Uploaded {
    type Rejection = Error;

    async fn from_request(request: Request, _: &App) -> Result<Self, Error> {
        let kind = request.headers().get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok()).unwrap_or_default();
        let boundary = boundary(kind).ok_or(Error::WrongType { wanted: "multipart/form-data" })?;
        let body = body_up_to(request.into_body(), LARGEST_FILE + AROUND).await?;
        let uploaded = file_in(&body, &boundary).unwrap_or_default();
        if uploaded.bytes.len() > LARGEST_FILE { Err(Error::TooLarge { most: LARGEST_FILE }) } else { Ok(uploaded) }
    }
}

/// A body of any kind.
#[derive(Debug)]
pub struct Bytes(pub Vec<u8>);

impl FromRequest<App> for Bytes {
    type Rejection = Error;

    async fn from_request(request: Request, _: &App) -> Result<Self, Error> {
        body_up_to(request.into_body(), LARGEST_FILE).await.map(Self)
    }
}

/// What stands between the parts, as the content type says it.
fn boundary(kind: &str) -> Option<String> {
    let (name, rest) = kind.split_once(';')?;
    if !name.trim().eq_ignore_ascii_case("multipart/form-data") {
        return None;
    }
    let value = rest.split(';').find_map(|part| {
        let (name, value) = part.split_once('=')?;
        name.trim().eq_ignore_ascii_case("boundary").then(|| value.trim().trim_matches('"').to_owned())
    })?;
    // RFC 2046, 5.1.1: one to seventy characters.
    (1..=70).contains(&value.len()).then_some(value)
}

/// The first part that has a file name.
fn file_in(body: &[u8], boundary: &str) -> Option<Uploaded> {
    let between = [b"\r\n--", boundary.as_bytes()].concat();
    let opening = &between[2..];
    let mut rest = body.get(find(body, opening)? + opening.len()..)?;
    while let Some(part) = rest.strip_prefix(b"\r\n") {
        let end = find(part, &between)?;
        let (whole, after) = part.split_at(end);
        let heads = find(whole, b"\r\n\r\n")?;
        let text = String::from_utf8_lossy(&whole[..heads]);
        if let Some(name) = file_name(&text) {
            let bytes = whole.get(heads + 4..)?.to_vec();
            return Some(Uploaded { name, bytes });
        }
        rest = &after[between.len()..];
    }
    None
}

/// The file's name in the head of a part, without its folder.
fn file_name(heads: &str) -> Option<String> {
    let line = heads.lines().find(|line| line.to_ascii_lowercase().starts_with("content-disposition:"))?;
    let (_, rest) = line.split_once("filename=\"")?;
    let name = rest.split('"').next().unwrap_or_default();
    let bare = name.rsplit(['/', '\\']).next().unwrap_or_default();
    Some(bare.chars().filter(|letter| !letter.is_control()).take(120).collect())
}

fn find(text: &[u8], wanted: &[u8]) -> Option<usize> {
    // The first byte is looked for fast; a body is mostly not the beginning of a boundary.
    let first = *wanted.first()?;
    let mut from = 0;
    while let Some(step) = text.get(from..)?.iter().position(|byte| *byte == first) {
        let at = from + step;
        if text[at..].starts_with(wanted) {
            return Some(at);
        }
        from = at + 1;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::{boundary, file_in, file_name};

    const BODY: &[u8] = b"--xyz\r\nContent-Disposition: form-data; name=\"note\"\r\n\r\nhello\r\n--xyz\r\n\
        Content-Disposition: form-data; name=\"file\"; filename=\"C:\\data\\TASKDATA.XML\"\r\n\
        Content-Type: text/xml\r\n\r\n<a>\r\n--xy\r\n</a>\r\n--xyz--\r\n";

    #[test]
    fn the_file_is_found_among_the_parts() {
        let found = file_in(BODY, "xyz").unwrap();
        assert_eq!((found.name.as_str(), found.bytes.as_slice()), ("TASKDATA.XML", b"<a>\r\n--xy\r\n</a>".as_slice()));
        assert_eq!(file_in(BODY, "other"), None);
        assert!((0..BODY.len() - 8).all(|length| file_in(&BODY[..length], "xyz").is_none()), "what broke off is none");
    }

    #[test]
    fn a_boundary_is_read_with_and_without_quotation_marks() {
        assert_eq!(boundary("multipart/form-data; boundary=xyz").as_deref(), Some("xyz"));
        assert_eq!(boundary("Multipart/Form-Data; charset=utf-8; Boundary=\"x y\"").as_deref(), Some("x y"));
        assert_eq!(boundary("multipart/form-data; boundary="), None);
        assert_eq!(boundary("text/xml; boundary=xyz"), None);
    }

    #[test]
    fn a_file_without_a_name_is_one_that_was_not_chosen() {
        assert_eq!(file_name("Content-Disposition: form-data; name=\"file\"; filename=\"\"").as_deref(), Some(""));
        assert_eq!(file_name("Content-Disposition: form-data; name=\"file\""), None);
    }
}
