//! What the short forms of the seed share: when it happened, which lot, in which units, and the cautions before it.

pub(super) use crate::records::head::moment_field;

use super::lot::act::lots_in_choice;
use super::lot::store::LotRow;
use crate::access::Units;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind};
use crate::web::page::Page;
use askama::Template;
use axum::response::Response;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

/// A page with one short form, and before it the cautions where hands will be near seed or machine.
#[derive(Template)]
#[template(path = "seed/log.html")]
pub(super) struct LogPage {
    page: Page,
    form: Form,
    intro: String,
    warns: bool,
    treated: Option<Treated>,
}

/// What the label of treated seed says.
#[derive(Clone, Debug)]
pub(super) struct Treated {
    pub(super) product: String,
    pub(super) caution: String,
}

impl Treated {
    pub(super) fn of(lot: &LotRow) -> Option<Self> {
        let product = lot.treatment_product.clone()?;
        Some(Self { product, caution: lot.treatment_caution.clone().unwrap_or_default() })
    }
}

impl LogPage {
    pub(super) fn new(page: Page, form: Form) -> Self {
        Self { page, form, intro: String::new(), warns: false, treated: None }
    }

    pub(super) fn intro(mut self, intro: impl Into<String>) -> Self {
        self.intro = intro.into();
        self
    }

    /// With the cautions: those of the lot that is chosen, if it is treated.
    pub(super) fn warning(mut self, lots: &[LotRow], chosen: Option<Uuid>) -> Self {
        self.warns = true;
        self.treated = lots.iter().find(|lot| Some(lot.id) == chosen).and_then(Treated::of);
        self
    }

    /// The page: as it is first opened, or come back with faults.
    pub(super) fn show(&self) -> Result<Response, Error> {
        crate::web::page::show_with(self.form.status(), self)
    }
}

/// Which lot. One that is likely is chosen already; with none, nothing is.
pub(super) fn lot_field(lots: &[LotRow], likely: Option<Uuid>, words: Words) -> FormField {
    let none = (String::new(), say!(words, "lot-choose"));
    let choices = std::iter::once(none).chain(lots_in_choice(lots, words));
    let field = FormField::new("lot_id", say!(words, "lots-lot"))
        .value(likely.map(|id| id.to_string()).unwrap_or_default())
        .choice(choices);
    if lots.is_empty() { field.hint(say!(words, "lot-choose-none")) } else { field }
}

/// A mass, in the units that the organization weighs in first. Pounds with ounces can be typed as they are.
pub(super) fn mass_field(signed: &Signed, name: &str, label: String) -> FormField {
    let (units, chosen): (&[&str], _) = match signed.actor.units {
        Units::Metric => (&["kg", "t", "g", "lb", "oz"], "kg"),
        Units::Us => (&["lb", "oz", "kg", "t", "g"], "lb"),
    };
    FormField::new(name, label).measured(units, chosen)
}

/// A note.
pub(super) fn note_field(words: Words) -> FormField {
    FormField::new("note", say!(words, "log-note")).kind(Kind::Area).optional()
}

/// A percentage.
pub(super) fn percent_field(name: &str, label: String) -> FormField {
    FormField::new(name, label).kind(Kind::Number).optional()
}
