//! A file that a page's form sends (`multipart/form-data`), and the bytes that a program sends as they are; both up to a
//! length.
//!
//! The whole body is held before it is read: a file is looked through at once anyway, and what is too long is told apart
//! from what is no form. Rejected: the framework's reader, whose limit is one for all forms.

use super::api::body_up_to;
use super::door::App;
use super::error::Error;
use axum::extract::{FromRequest, Request};
use axum::http::header;
use multer::{Multipart, parse_boundary};

/// The largest file that is taken.
pub const LARGEST_FILE: usize = 16 * 1024 * 1024;
/// What the form around it may take.
const AROUND: usize = 64 * 1024;
/// How much of a file's name is kept, in characters.
const LONGEST_NAME: usize = 120;

/// A file as a form sent it; empty when none was chosen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Uploaded {
    /// What it was called, without its folder.
    pub name: String,
    pub bytes: Vec<u8>,
}

impl Uploaded {
    /// The file of a form, which has one and nothing else. A form that broke off has none.
    ///
    /// # Errors
    /// 413 when it is larger than `most`; 415 when this is no `multipart/form-data`; 400 when the connection broke off.
    pub async fn read(request: Request, most: usize) -> Result<Self, Error> {
        let kind = request.headers().get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok()).unwrap_or_default();
        let boundary = parse_boundary(kind).map_err(|_| Error::WrongType { wanted: "multipart/form-data" })?;
        let too_large = |error| if matches!(error, Error::TooLarge { .. }) { Error::TooLarge { most } } else { error };
        let body = body_up_to(request.into_body(), most + AROUND).await.map_err(too_large)?;
        let uploaded = file_in(&body, boundary).await.ok().flatten().unwrap_or_default();
        if uploaded.bytes.len() > most { Err(Error::TooLarge { most }) } else { Ok(uploaded) }
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

/// The first part that has a file name.
async fn file_in(body: &[u8], boundary: String) -> multer::Result<Option<Uploaded>> {
    let mut parts = Multipart::with_reader(body, boundary);
    while let Some(part) = parts.next_field().await? {
        if let Some(name) = part.file_name().map(bare) {
            return Ok(Some(Uploaded { name, bytes: part.bytes().await?.into() }));
        }
    }
    Ok(None)
}

/// A file's name without its folder and without what no name has.
fn bare(name: &str) -> String {
    let name = name.rsplit(['/', '\\']).next().unwrap_or_default();
    name.chars().filter(|letter| !letter.is_control()).take(LONGEST_NAME).collect()
}

#[cfg(test)]
mod tests {
    use super::file_in;

    const BODY: &[u8] = b"--xyz\r\nContent-Disposition: form-data; name=\"note\"\r\n\r\nhello\r\n--xyz\r\n\
        Content-Disposition: form-data; name=\"file\"; filename=\"C:\\data\\TASKDATA.XML\"\r\n\
        Content-Type: text/xml\r\n\r\n<a>\r\n--xy\r\n</a>\r\n--xyz--\r\n";

    #[tokio::test]
    async fn the_file_is_found_among_the_parts() {
        let found = file_in(BODY, "xyz".to_owned()).await.unwrap().unwrap();
        assert_eq!((found.name.as_str(), found.bytes.as_slice()), ("TASKDATA.XML", b"<a>\r\n--xy\r\n</a>".as_slice()));
        assert!(file_in(BODY, "other".to_owned()).await.is_err());
        for length in 0..BODY.len() - 10 {
            assert!(!matches!(file_in(&BODY[..length], "xyz".to_owned()).await, Ok(Some(_))), "what broke off is none");
        }
    }

    #[tokio::test]
    async fn a_file_without_a_name_is_one_that_was_not_chosen() {
        let body = b"--xyz\r\nContent-Disposition: form-data; name=\"file\"; filename=\"\"\r\n\r\n\r\n--xyz--\r\n";
        let found = file_in(body, "xyz".to_owned()).await.unwrap().unwrap_or_default();
        assert!(found.name.is_empty() && found.bytes.is_empty());
    }
}
