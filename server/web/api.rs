//! JSON in and out: bodies and queries read into drafts, answers with the right status.

use super::door::App;
use super::error::Error;
use super::input::{self, Input};
use crate::db::Outcome;
use crate::saying;
use axum::Json;
use axum::body::Body;
use axum::extract::{FromRequest, FromRequestParts, Request};
use axum::http::request::Parts;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use http_body_util::BodyExt;
use serde::Serialize;
use serde_json::{Map, Value};
use uuid::Uuid;

/// The largest body that is read: a calibration of fifty repeats is a hundredth of it.
pub const LARGEST_BODY: usize = 1024 * 1024;
/// What is still drained of a body that is too large, so that a sender who writes first and reads then hears why.
const DRAINED: usize = 64 * 1024 * 1024;

/// What was sent, as meant and as it stood.
#[derive(Debug)]
pub struct Sent<D> {
    pub draft: D,
    pub value: Value,
}

impl<D: Input + Send> FromRequest<App> for Sent<D> {
    type Rejection = Error;

    async fn from_request(request: Request, _: &App) -> Result<Self, Error> {
        if !is_json(&request) {
            return Err(Error::WrongType { wanted: "application/json" });
        }
        let bytes = whole_body(request.into_body()).await?;
        let value = parse(&bytes)?;
        let draft = input::read(&value)?;
        Ok(Self { draft, value })
    }
}

/// Whether a request says that it is JSON, or nothing.
#[must_use]
pub fn is_json(request: &Request) -> bool {
    match request.headers().get(header::CONTENT_TYPE).map(|value| value.to_str().unwrap_or_default()) {
        None => true,
        Some(kind) => {
            let kind = kind.split(';').next().unwrap_or_default().trim();
            kind.eq_ignore_ascii_case("application/json") || kind.ends_with("+json")
        }
    }
}

/// Reads a body up to [`LARGEST_BODY`].
///
/// # Errors
/// 413 when it is larger; 400 when it breaks off.
pub async fn whole_body(body: Body) -> Result<Vec<u8>, Error> {
    body_up_to(body, LARGEST_BODY).await
}

/// Reads a body up to a length.
///
/// # Errors
/// 413 when it is larger; 400 when it breaks off.
pub async fn body_up_to(mut body: Body, most: usize) -> Result<Vec<u8>, Error> {
    let mut bytes = Vec::new();
    let mut length = 0;
    while let Some(frame) = body.frame().await {
        let frame = frame.map_err(|_| Error::unreadable(saying!("fault-broke-off")))?;
        if let Ok(data) = frame.into_data() {
            length += data.len();
            if length <= most {
                bytes.extend_from_slice(&data);
            } else if length > DRAINED {
                break;
            }
        }
    }
    if length > most { Err(Error::TooLarge { most }) } else { Ok(bytes) }
}

/// The JSON of a body.
///
/// # Errors
/// 400 when it is no UTF-8 or no JSON.
pub fn parse(bytes: &[u8]) -> Result<Value, Error> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let at = error.valid_up_to();
        Error::unreadable(saying!("fault-not-utf-8-at", at = at))
    })?;
    // Only programs send JSON, and what its reader says of it is English.
    serde_json::from_str(text).map_err(|error| Error::unreadable(format!("This is not JSON: {error}.")))
}

/// What the query string asks.
#[derive(Debug)]
pub struct Asked<D>(pub D);

impl<D: Input> FromRequestParts<App> for Asked<D> {
    type Rejection = Error;

    async fn from_request_parts(parts: &mut Parts, _: &App) -> Result<Self, Error> {
        let pairs = super::form::pairs(parts.uri.query().unwrap_or_default().as_bytes())?;
        let asked: Map<String, Value> = pairs
            .into_iter()
            .filter(|(_, value)| !value.is_empty())
            .map(|(name, value)| (name, Value::String(value)))
            .collect();
        input::read(&Value::Object(asked)).map(Self)
    }
}

/// The id in a path. What is no id is not there.
#[derive(Clone, Copy, Debug)]
pub struct PathId(pub Uuid);

impl FromRequestParts<App> for PathId {
    type Rejection = Error;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, Error> {
        let axum::extract::Path(text) = axum::extract::Path::<String>::from_request_parts(parts, app)
            .await
            .map_err(|_| Error::not_there("page"))?;
        Uuid::try_parse(&text).map(Self).map_err(|_| Error::not_there("page"))
    }
}

/// The answer to a creating request: 201 the first time, 200 when the same was there already.
#[derive(Debug)]
pub struct Created<T>(pub Outcome, pub T);

impl<T: Serialize> IntoResponse for Created<T> {
    fn into_response(self) -> Response {
        let status = match self.0 {
            Outcome::Stored(_) => StatusCode::CREATED,
            Outcome::AlreadyStored(_) => StatusCode::OK,
        };
        (status, Json(self.1)).into_response()
    }
}
