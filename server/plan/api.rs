//! The rate plan as JSON.

use super::answer::Answer;
use super::asked::{Asked as Planned, PlanAsked};
use crate::access::Permission;
use crate::texts;
use crate::web::api::Asked;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::quantity::Q;
use crate::web::routes::{Need, Route};
use axum::Json;
use serde::Serialize;
use sowmark_core::quantity::unit;
use sowmark_core::seed::{seeds_per_kg, seeds_per_lb};

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(api GET "/rate-plan", Need::May(Permission::ReadLots), show_rate_plan,
            "The rate for plants wanted, or for pure live seed wanted.")
        .asks::<PlanAsked>()
        .answers::<PlanView>(),
    ]
}

/// A rate, and how it came about.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct PlanView {
    /// For plants: seeds wanted times seed weight. For pure live seed: the rate from the bag.
    rate: Q,
    /// For plants with a purity: what goes through the meter, the rate over the purity.
    rate_from_bag: Option<Q>,
    /// For plants: plants over establishment. For pure live seed: the rate over the seed weight; null without that.
    seeds_per_m2: Option<f64>,
    /// Of pure live seed: the live ones among them.
    live_seeds_per_m2: Option<f64>,
    /// Of plants: `given`, `multiplied` (germination times emergence) or `subtracted` (germination less loss).
    convention: Option<&'static str>,
    /// Of plants: percent of the seeds that become plants.
    establishment_percent: Option<f64>,
    /// Of pure live seed: purity times what is live, as a share of 1.
    pls_fraction: Option<f64>,
    /// How it was reckoned, as a sentence.
    says: String,
    thousand_seed_weight_g: Option<f64>,
    seeds_per_kg: Option<f64>,
    seeds_per_lb: Option<f64>,
    /// Null without a row spacing.
    seeds_per_metre_of_row: Option<f64>,
    /// US bushels per acre of what goes through the meter; null without a bulk density.
    bushels_per_ac: Option<f64>,
    /// The rates between which the right one lies, as far as the lot's figures are known; null where nothing was said of it.
    range: Option<RateRange>,
}

/// From a smallest to a largest rate.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct RateRange {
    min: Q,
    max: Q,
}

async fn show_rate_plan(signed: Signed, Asked(asked): Asked<PlanAsked>) -> Result<Json<PlanView>, Error> {
    let planned = Planned::read(&asked, signed.actor.units, None)?;
    let answer = Answer::of(&planned)?;
    let rate_unit = planned.rate_unit;
    let weight = answer.thousand_seed_weight_g;
    Ok(Json(PlanView {
        rate: Q::computed(answer.rate, rate_unit),
        rate_from_bag: answer.rate_from_bag.map(|rate| Q::computed(rate, rate_unit)),
        seeds_per_m2: answer.seeds_per_m2,
        live_seeds_per_m2: answer.live_seeds_per_m2,
        convention: answer.establishment.map(|(convention, _)| convention.word()),
        establishment_percent: answer.establishment.map(|(_, percent)| percent),
        pls_fraction: answer.live.map(|(_, fraction)| fraction),
        says: answer.says(texts::plain()),
        thousand_seed_weight_g: weight,
        seeds_per_kg: weight.and_then(|weight| seeds_per_kg(weight).ok()),
        seeds_per_lb: weight.and_then(|weight| seeds_per_lb(weight).ok()),
        seeds_per_metre_of_row: answer.per_metre_of_row,
        bushels_per_ac: answer.bushels_per_m2.map(|bushels| bushels * unit::AC.in_si()),
        range: answer
            .range
            .map(|range| RateRange { min: Q::computed(range.min, rate_unit), max: Q::computed(range.max, rate_unit) }),
    }))
}
