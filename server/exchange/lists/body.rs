//! A list as the body of an answer, sent while it is written.

use super::Listed;
use super::out::{Out, Sent, Way};
use crate::web::door::Signed;
use crate::web::error::Error;
use axum::body::{Body, Bytes};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use hyper::body::Frame;
use std::pin::Pin;
use std::task::{Context, Poll};
use tokio::sync::mpsc;

/// How many pieces wait for a slow reader.
const WAITING: usize = 4;

/// Pieces as they come.
struct Pieces {
    first: Option<Bytes>,
    rest: mpsc::Receiver<Sent>,
}

/// The list broke off: the connection is closed without its end, so that nobody takes the part for the whole.
#[derive(Debug, thiserror::Error)]
#[error("the list broke off")]
struct BrokenOff;

impl hyper::body::Body for Pieces {
    type Data = Bytes;
    type Error = BrokenOff;

    fn poll_frame(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Option<Result<Frame<Bytes>, BrokenOff>>> {
        if let Some(first) = self.first.take() {
            return Poll::Ready(Some(Ok(Frame::data(first))));
        }
        self.rest.poll_recv(cx).map(|piece| {
            piece.map(|sent| match sent {
                Ok(bytes) => Ok(Frame::data(bytes)),
                Err(error) => {
                    error.log();
                    Err(BrokenOff)
                }
            })
        })
    }
}

/// Begins to write a list and answers with it. What fails before the first piece is an ordinary error.
pub(super) async fn streamed(list: Listed, way: Way, signed: Signed) -> Result<Response, Error> {
    let (sender, mut rest) = mpsc::channel(WAITING);
    let day = signed.app.clock.now().to_zoned_datetime(signed.actor.time_zone.clone()).date();
    let name = format!("attachment; filename=\"sowmark-{}-{day}.csv\"", list.word());
    let mut out = Out::new(way, sender);
    tokio::spawn(async move {
        let written = list.write(&mut out, &signed).await;
        out.end(written).await;
    });
    let first = rest.recv().await.transpose()?;
    let kind = "text/csv; charset=utf-8; header=present".to_owned();
    let headers = [(header::CONTENT_TYPE, kind), (header::CONTENT_DISPOSITION, name)];
    Ok((headers, Body::new(Pieces { first, rest })).into_response())
}
