//! `static/`, inside the binary. The address of a file holds a hash of all of them, so that a browser may keep it for good
//! and still never shows an old one. One hash for all: a script names another by its place beside it.

use super::error::Error;
use axum::extract::Path;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use rust_embed::RustEmbed;
use sha2::{Digest, Sha256};
use std::sync::LazyLock;

#[derive(RustEmbed)]
#[folder = "static/"]
struct Static;

/// What the files are altogether: another as soon as one of them is.
#[must_use]
pub fn version() -> &'static str {
    static VERSION: LazyLock<String> = LazyLock::new(|| {
        let mut hash = Sha256::new();
        for file in names().filter_map(|name| Static::get(&name)) {
            hash.update(file.metadata.sha256_hash());
        }
        crate::hex::written(&hash.finalize()[..6])
    });
    &VERSION
}

/// The address of a file.
#[must_use]
pub fn href(name: &str) -> String {
    format!("/static/{}/{name}", version())
}

/// Every file's name.
pub fn names() -> impl Iterator<Item = String> {
    Static::iter().map(std::borrow::Cow::into_owned)
}

/// The text of a script that is not served as it stands.
///
/// # Errors
/// When there is no such file, or it is no text.
pub fn script(name: &str) -> Result<String, Error> {
    let file = Static::get(name).ok_or_else(|| Error::not_there("file"))?;
    String::from_utf8(file.data.into_owned()).map_err(Error::broken)
}

/// Serves a file.
pub async fn show_asset(Path((hash, name)): Path<(String, String)>) -> Result<Response, Error> {
    let file = Static::get(&name).ok_or_else(|| Error::not_there("file"))?;
    let keep = if hash == version() { "public, max-age=31536000, immutable" } else { "no-cache" };
    let kind = match name.rsplit('.').next() {
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("svg") => "image/svg+xml",
        Some("webmanifest") => "application/manifest+json",
        _ => file.metadata.mimetype(),
    };
    Ok(([(header::CONTENT_TYPE, kind), (header::CACHE_CONTROL, keep)], file.data.to_vec()).into_response())
}
