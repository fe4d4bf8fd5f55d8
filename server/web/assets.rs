//! `static/`, inside the binary. The address of a file holds a hash of its content, so that a browser may keep it for
//! good and still never shows an old one.

use super::error::Error;
use axum::extract::Path;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use rust_embed::{EmbeddedFile, RustEmbed};

#[derive(RustEmbed)]
#[folder = "static/"]
struct Static;

/// The address of a file.
#[must_use]
pub fn href(name: &str) -> String {
    match Static::get(name) {
        Some(file) => format!("/static/{}/{name}", short_hash(&file)),
        None => format!("/static/missing/{name}"),
    }
}

/// Every file's name, for the test that asks for each.
pub fn names() -> impl Iterator<Item = String> {
    Static::iter().map(std::borrow::Cow::into_owned)
}

fn short_hash(file: &EmbeddedFile) -> String {
    crate::hex::written(&file.metadata.sha256_hash()[..6])
}

/// Serves a file.
pub async fn show_asset(Path((hash, name)): Path<(String, String)>) -> Result<Response, Error> {
    let file = Static::get(&name).ok_or_else(|| Error::not_there("file"))?;
    let keep = if hash == short_hash(&file) { "public, max-age=31536000, immutable" } else { "no-cache" };
    let kind = match name.rsplit('.').next() {
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("svg") => "image/svg+xml",
        _ => file.metadata.mimetype(),
    };
    Ok(([(header::CONTENT_TYPE, kind), (header::CACHE_CONTROL, keep)], file.data.to_vec()).into_response())
}
