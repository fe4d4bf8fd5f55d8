//! What stands around the parts of a long report: its question, what it is about and as of when, and at its foot its end and its
//! stamp. While there is no answer the question stands alone, with what was wrong with it.

use super::Stamp;
use super::parts::{self, Broken, Parts};
use crate::web::error::Error;
use crate::web::form::{Form, Posted};
use crate::web::page::{Page, show_with};
use askama::Template;
use axum::response::Response;

/// The frame.
#[derive(Debug, Template)]
#[template(path = "reports/frame.html")]
pub(crate) struct Frame {
    pub(crate) page: Page,
    pub(crate) form: Form,
    /// The pages above it: address and name.
    pub(crate) crumbs: Vec<(String, String)>,
    /// Of what in particular: a season's name, a client's.
    pub(crate) about: Vec<String>,
    /// What such a report tells, a sentence each.
    pub(crate) intro: Vec<String>,
    /// Where the same is taken from for a spreadsheet; empty where it is not.
    pub(crate) csv: String,
    /// With an answer.
    stamp: Option<Stamp>,
}

impl Frame {
    pub(crate) fn new(page: Page, form: Form, intro: Vec<String>) -> Self {
        Self { page, form, crumbs: Vec::new(), about: Vec::new(), intro, csv: String::new(), stamp: None }
    }

    /// The question alone.
    ///
    /// # Errors
    /// When a template fails.
    pub(crate) fn open(self) -> Result<Response, Error> {
        show_with(self.form.status(), &self)
    }

    /// The question with what is wrong with it beside its fields.
    ///
    /// # Errors
    /// What is no fault of the question.
    pub(crate) fn again(mut self, posted: &Posted, error: Error) -> Result<Response, Error> {
        if !matches!(error, Error::Faults(_) | Error::NotThere { .. }) {
            return Err(error);
        }
        self.form = self.form.again(posted, &error);
        self.open()
    }

    /// The answer: the frame around what `make` sends, which has the page for its parts.
    ///
    /// # Errors
    /// When a template fails.
    pub(crate) fn answered<F, W>(mut self, posted: &Posted, stamp: Stamp, make: F) -> Result<Response, Error>
    where
        F: FnOnce(Parts, Page) -> W,
        W: Future<Output = Result<(), Broken>> + Send + 'static,
    {
        self.form = self.form.filled(posted);
        self.stamp = Some(stamp);
        let page = self.page.clone();
        parts::answer(&self.page, &self, |parts| make(parts, page))
    }
}
