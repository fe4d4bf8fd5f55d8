//! Questions about records whose figures are far from what they should be near ([`sowmark_core::unlikely`]): worked out when a
//! record is read, so that they cover what came from phones and files too, and go when it is corrected. They change nothing.
//!
//! A question tells both of its figures, so only who may know both is asked: of a field's area who sees the field, of what came
//! in of a lot who sees stock.

use super::field;
use super::lot::stock::CameIn;
use super::lot_test::store::LotTestRow;
use crate::access::Scope;
use crate::records::head::Head;
use crate::web::error::Error;
use crate::web::quantity::stored;
use crate::web::reader::Reader;
use sowmark_core::ids::{ClientId, LotId};
use sowmark_core::quantity::unit::dimension::{Area, BulkDensity, Mass, Rate, SeedWeight};
use sowmark_core::quantity::{Dimension, Quantity};
use sowmark_core::unlikely::{self, Unlikely};
use uuid::Uuid;

/// The figures of a job, as entered, and its field's where that is kept.
#[derive(Clone, Copy, Debug)]
pub struct JobFigures<'r> {
    pub area: &'r str,
    pub seed_used: &'r str,
    pub target_rate: &'r str,
    pub field_area: Option<&'r str>,
    pub field_client: Option<Uuid>,
}

/// What is asked of a job.
///
/// # Errors
/// An inconsistent row.
pub fn of_job(head: &Head, job: JobFigures<'_>, scope: &Scope, reader: Reader) -> Result<Vec<String>, Error> {
    if !head.stands() {
        return Ok(Vec::new());
    }
    let sees_field = field::act::is_in_scope(scope, job.field_client.map(ClientId));
    let field = job.field_area.filter(|_| sees_field);
    let on_field = against::<Area>((Some(job.area), field), unlikely::job_area, reader, |area| reader.measured(area))?;
    let rate = stored::<Mass>(job.seed_used)?.si() / stored::<Area>(job.area)?.si();
    let target = stored::<Rate>(job.target_rate)?.si();
    let off_target = unlikely::job_rate(rate, target)
        .map(|doubt| doubt.says(reader.words, &reader.rate_sown(rate), &reader.rate(target)));
    Ok(on_field.into_iter().chain(off_target).collect())
}

/// What is asked of a lot test, by those before it, newest first.
///
/// # Errors
/// An inconsistent row.
pub fn of_test(test: &LotTestRow, before: &[LotTestRow], reader: Reader) -> Result<Vec<String>, Error> {
    if !test.head.stands() {
        return Ok(Vec::new());
    }
    let both =
        |of: fn(&LotTestRow) -> Option<&str>| (of(test), before.iter().filter(|test| test.head.stands()).find_map(of));
    // A thousand-seed weight is in grams for every reader.
    let weight = both(|test| test.thousand_seed_weight.as_deref());
    let weight = against::<SeedWeight>(weight, unlikely::seed_weight, reader, |weight| reader.words.decimal(weight))?;
    let density = both(|test| test.bulk_density.as_deref());
    let density = against::<BulkDensity>(density, unlikely::bulk_density, reader, |of| reader.measured(of))?;
    Ok(weight.into_iter().chain(density).collect())
}

/// What is asked of a fill, by what had come in of its lot; nothing where that is not told.
///
/// # Errors
/// An inconsistent row.
pub fn of_fill(
    head: &Head,
    (lot, mass): (LotId, Option<&str>),
    came_in: &CameIn,
    reader: Reader,
) -> Result<Vec<String>, Error> {
    let Some(mass) = mass.filter(|_| head.stands()) else { return Ok(Vec::new()) };
    let (filled, came) = (stored::<Mass>(mass)?.si(), came_in.until(lot, head.occurred_at));
    let doubt = unlikely::fill(filled, came);
    Ok(doubt.map(|doubt| doubt.says(reader.words, &reader.mass(filled), &reader.mass(came))).into_iter().collect())
}

/// What is asked of a figure by what it should be near, both as entered.
fn against<D: Dimension>(
    (figure, near): (Option<&str>, Option<&str>),
    compare: fn(f64, f64) -> Option<Unlikely>,
    reader: Reader,
    says: impl Fn(&str) -> String,
) -> Result<Option<String>, Error> {
    let Some((figure, near)) = figure.zip(near) else { return Ok(None) };
    let si = |entered| stored::<D>(entered).map(|quantity: Quantity<D>| quantity.si());
    let doubt = compare(si(figure)?, si(near)?);
    Ok(doubt.map(|doubt| doubt.says(reader.words, &says(figure), &says(near))))
}
