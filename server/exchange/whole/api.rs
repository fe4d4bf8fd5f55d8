//! The export over HTTP, for the office.
//!
//! There is no import here: who imports makes an organization on a server, with people who can sign in, and that is for
//! whoever runs it.

use super::export::Export;
use crate::access::Permission;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::routes::{Need, Route};
use axum::body::{Body, Bytes, HttpBody};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};
use hyper::body::Frame;
use std::pin::Pin;
use std::task::{Context, Poll};
use tokio::sync::mpsc::{Receiver, channel};

/// The routes.
#[must_use]
pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(api GET "/export", Need::May(Permission::KeepPeople), export_organization,
        "The whole organization as lines of JSON, for another server.")]
}

/// The pieces of an export as the body of an answer.
struct Streamed(Receiver<Result<Bytes, std::io::Error>>);

impl HttpBody for Streamed {
    type Data = Bytes;
    type Error = std::io::Error;

    fn poll_frame(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Option<Result<Frame<Bytes>, Self::Error>>> {
        self.0.poll_recv(cx).map(|piece| piece.map(|piece| piece.map(Frame::data)))
    }
}

async fn export_organization(signed: Signed) -> Result<Response, Error> {
    let (pieces, received) = channel(2);
    let organization = signed.actor.organization();
    let export = Export::begin(&signed.app.db, organization, pieces).await?;
    tokio::spawn(export.send(signed.app.clock.now()));
    let name = format!("attachment; filename=\"{}\"", super::file_name(organization));
    let name = HeaderValue::from_str(&name).map_err(Error::broken)?;
    let kind = HeaderValue::from_static("application/x-ndjson");
    Ok(([(header::CONTENT_TYPE, kind), (header::CONTENT_DISPOSITION, name)], Body::new(Streamed(received)))
        .into_response())
}
