//! A page that is sent in parts while it is made: its frame's beginning first, then part by part, its end last.
//!
//! No more than two parts wait to be sent, so however long the report is, the memory that it takes is that of its parts. A part is
//! whole HTML. When one fails, or the server stops making them, the page ends with a section that says that it is incomplete, and
//! without its frame's end (the stamp stands there). A connection that breaks off can say nothing more: so the frame says from the
//! beginning that the report is not whole yet, and the style sheet hides that once the end has come (`templates/reports/parts.html`).

use crate::web::error::Error;
use crate::web::page::Page;
use askama::Template;
use axum::body::Body;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use hyper::body::{Bytes, Frame};
use std::convert::Infallible;
use std::pin::Pin;
use std::task::{Context, Poll};
use std::time::Duration;
use tokio::sync::mpsc;
use tracing::Instrument;

/// How many parts may wait until the reader takes them.
const WAITING: usize = 2;

/// How long a part may wait for its reader. A report that is being made holds a connection of the database; nobody may keep one by
/// reading nothing.
const PATIENCE: Duration = Duration::from_mins(1);

/// Stands in a frame where the parts go.
const HERE: &str = "<!--parts-->";

/// Where a report's parts go.
#[derive(Clone, Debug)]
pub(crate) struct Parts {
    sender: mpsc::Sender<Part>,
    patience: Duration,
}

#[derive(Debug)]
enum Part {
    Html(Bytes),
    /// Nothing is missing.
    End,
}

impl Parts {
    /// Sends a part, once there is room for it.
    ///
    /// # Errors
    /// When the reader has gone or takes nothing; there is nobody left to make the rest for.
    pub(crate) async fn send(&self, part: &impl Template) -> Result<(), Broken> {
        self.html(part.render().map_err(Error::broken)?).await
    }

    async fn html(&self, html: String) -> Result<(), Broken> {
        self.pass(Part::Html(html.into())).await
    }

    async fn pass(&self, part: Part) -> Result<(), Broken> {
        match tokio::time::timeout(self.patience, self.sender.send(part)).await {
            Ok(Ok(())) => Ok(()),
            Ok(Err(_)) | Err(_) => Err(Broken::Gone),
        }
    }
}

/// Why a report ends before its end.
#[derive(Debug)]
pub(crate) enum Broken {
    /// The reader has gone, or takes nothing.
    Gone,
    Failed(Error),
}

impl From<Error> for Broken {
    fn from(error: Error) -> Self {
        Self::Failed(error)
    }
}

impl From<sqlx::Error> for Broken {
    fn from(error: sqlx::Error) -> Self {
        Self::Failed(error.into())
    }
}

/// Ends a page that something is missing from.
#[derive(Template)]
#[template(path = "reports/incomplete.html")]
struct Incomplete<'p> {
    page: &'p Page,
}

/// An answer that is made while it is sent: `frame` with what `make` sends in the place of its mark.
///
/// # Errors
/// When a template fails.
pub(super) fn answer<F, W>(page: &Page, frame: &impl Template, make: F) -> Result<Response, Error>
where
    F: FnOnce(Parts) -> W,
    W: Future<Output = Result<(), Broken>> + Send + 'static,
{
    answer_within(PATIENCE, page, frame, make)
}

fn answer_within<F, W>(patience: Duration, page: &Page, frame: &impl Template, make: F) -> Result<Response, Error>
where
    F: FnOnce(Parts) -> W,
    W: Future<Output = Result<(), Broken>> + Send + 'static,
{
    let frame = frame.render().map_err(Error::broken)?;
    let (begins, ends) =
        frame.split_once(HERE).ok_or_else(|| Error::broken("a frame without a place for its parts"))?;
    let (begins, ends) = (begins.to_owned(), ends.to_owned());
    let incomplete = Incomplete { page }.render().map_err(Error::broken)?;
    let (sender, receiver) = mpsc::channel(WAITING);
    let parts = Parts { sender, patience };
    let made = make(parts.clone());
    let whole = async move {
        parts.html(begins).await?;
        made.await?;
        parts.html(ends).await?;
        parts.pass(Part::End).await
    };
    let work = async {
        if let Err(Broken::Failed(error)) = whole.await {
            error.log();
        }
    };
    tokio::spawn(work.in_current_span());
    let body = Body::new(Received { receiver, incomplete: Some(incomplete.into()) });
    Ok(([(header::CONTENT_TYPE, "text/html; charset=utf-8")], body).into_response())
}

/// The parts as a body.
struct Received {
    receiver: mpsc::Receiver<Part>,
    /// What ends it unless its end has come; none once it has ended.
    incomplete: Option<Bytes>,
}

impl hyper::body::Body for Received {
    type Data = Bytes;
    type Error = Infallible;

    fn poll_frame(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Option<Result<Frame<Bytes>, Infallible>>> {
        if self.incomplete.is_none() {
            return Poll::Ready(None);
        }
        self.receiver.poll_recv(cx).map(|part| match part {
            Some(Part::Html(html)) => Some(Ok(Frame::data(html))),
            Some(Part::End) => {
                self.incomplete = None;
                None
            }
            None => self.incomplete.take().map(|says| Ok(Frame::data(says))),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::{Broken, Parts, answer_within};
    use crate::web::error::Error;
    use crate::web::page::{Cookies, Page};
    use askama::Template;
    use http_body_util::BodyExt;
    use std::time::Duration;
    use tokio::sync::oneshot;

    #[derive(Template)]
    #[template(source = "<p>begins</p><!--parts--><p>ends</p>", ext = "html")]
    struct Around;

    #[derive(Template)]
    #[template(source = "<p>part {{ number }}</p>", ext = "html")]
    struct Numbered {
        number: usize,
    }

    fn body<W>(make: impl FnOnce(Parts) -> W) -> axum::body::Body
    where
        W: Future<Output = Result<(), Broken>> + Send + 'static,
    {
        let page = Page::open(&Cookies::default(), "Report");
        answer_within(Duration::from_millis(500), &page, &Around, make).unwrap().into_body()
    }

    async fn next(body: &mut axum::body::Body) -> Option<String> {
        let frame = body.frame().await?.unwrap().into_data().unwrap();
        Some(String::from_utf8(frame.to_vec()).unwrap())
    }

    async fn rest(mut body: axum::body::Body) -> String {
        let mut rest = String::new();
        while let Some(part) = next(&mut body).await {
            rest.push_str(&part);
        }
        rest
    }

    #[tokio::test]
    async fn what_is_made_is_there_before_the_last_is_begun() {
        let (go, wait) = oneshot::channel::<()>();
        let mut body = body(|parts| async move {
            parts.send(&Numbered { number: 1 }).await?;
            // The last part is made once the first has been read, or never.
            wait.await.map_err(|_| Broken::Gone)?;
            parts.send(&Numbered { number: 2 }).await
        });
        assert_eq!(next(&mut body).await.as_deref(), Some("<p>begins</p>"));
        assert_eq!(next(&mut body).await.as_deref(), Some("<p>part 1</p>"));
        go.send(()).unwrap();
        assert_eq!(rest(body).await, "<p>part 2</p><p>ends</p>");
    }

    #[tokio::test]
    async fn no_more_is_made_than_is_read() {
        let (count, counted) = std::sync::mpsc::channel();
        let mut body = body(|parts| async move {
            for number in 1..=1000 {
                parts.send(&Numbered { number }).await?;
                count.send(number).map_err(|_| Broken::Gone)?;
            }
            Ok(())
        });
        for _ in 0..10 {
            next(&mut body).await.unwrap();
        }
        tokio::task::yield_now().await;
        let made = counted.try_iter().last().unwrap();
        assert!((9..=12).contains(&made), "{made} parts were made for ten that were read");
        assert!(rest(body).await.ends_with("<p>part 1000</p><p>ends</p>"));
    }

    #[tokio::test]
    async fn what_fails_in_its_midst_says_that_it_is_incomplete() {
        let failed = rest(body(|parts| async move {
            parts.send(&Numbered { number: 1 }).await?;
            Err(Error::broken("the database went away").into())
        }));
        let panicked = rest(body(|parts| async move {
            parts.send(&Numbered { number: 1 }).await?;
            panic!("a fault of ours");
        }));
        for page in [failed.await, panicked.await] {
            assert!(page.starts_with("<p>begins</p><p>part 1</p>"), "{page}");
            assert!(page.contains("report-broken") && !page.contains("ends"), "{page}");
            assert!(!page.contains("database"), "the cause is no reader's: {page}");
        }
    }

    #[tokio::test]
    async fn nobody_keeps_it_waiting_for_ever() {
        let (done, ended) = oneshot::channel();
        let body = body(|parts| async move {
            let mut sent = 0;
            while parts.send(&Numbered { number: sent }).await.is_ok() {
                sent += 1;
            }
            let _ = done.send(sent);
            Err(Broken::Gone)
        });
        // Nothing is read for longer than anybody's patience.
        let sent = ended.await.unwrap();
        assert!(sent <= 2, "{sent}");
        assert!(rest(body).await.contains("report-broken"));
    }
}
