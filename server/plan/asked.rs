//! What a rate is planned from, read with every fault at its part of the query.
//!
//! There are two ways: plants wanted, and pure live seed wanted. A figure that belongs to the other way is refused, not
//! ignored, so that nobody takes an answer for more than it is.
// Nested on purpose: a figure may be absent (the inner none) or wrong (the outer one, its fault noted).
#![allow(clippy::option_option)]

use crate::access::Units;
use crate::web::error::Error;
use crate::web::input::{At, Faults, Input, Line};
use crate::web::quantity;
use crate::web::saying::Saying;
use crate::{input, saying};
use sowmark_core::figure::{Figure, Impossible};
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::quantity::{Decimal, Dimension, Quantity, Unit};
use sowmark_core::seed::{
    Doubt, Establishment, HardSeed, Plan, PureLiveSeed, germination_doubt, thousand_seed_weight_from_per_kg,
    thousand_seed_weight_from_per_lb,
};
use sowmark_core::words::Words;

input! {
    /// Plants wanted of a seed weight, or a rate of pure live seed.
    pub struct PlanAsked {
        /// Plants that should stand on a square metre.
        pub plants_per_m2: Option<Line<40>>,
        /// The same on a square foot, instead.
        pub plants_per_ft2: Option<Line<40>>,
        /// Instead of plants: the rate of pure live seed, a decimal.
        pub pls_rate: Option<Line<40>>,
        /// `kg/ha` or `lb/ac`, of `pls_rate` and of the answer; that of the reader unless told.
        pub rate_unit: Option<Line<12>>,
        /// Grams per thousand seeds.
        pub thousand_seed_weight_g: Option<Line<40>>,
        /// The same as seeds per kilogram, instead.
        pub seeds_per_kg: Option<Line<40>>,
        /// The same as seeds per pound, instead.
        pub seeds_per_lb: Option<Line<40>>,
        /// Percent of the seeds that become plants. Instead: `germination_percent` with `emergence_percent` or with
        /// `loss_percent`.
        pub establishment_percent: Option<Line<40>>,
        /// Percent of the pure seeds that germinate, without hard seed.
        pub germination_percent: Option<Line<40>>,
        /// Percent of the germinating seeds that come up: the establishment is germination times emergence.
        pub emergence_percent: Option<Line<40>>,
        /// Percentage points lost in the field: the establishment is germination less loss.
        pub loss_percent: Option<Line<40>>,
        /// Percent of the mass that is seed of the kind.
        pub purity_percent: Option<Line<40>>,
        /// Of pure live seed: percent of hard or dormant seed, as labels state it apart from the germination.
        pub hard_seed_percent: Option<Line<40>>,
        /// Whether hard seed counts as live: `true`, or `false`, which it is unless told.
        pub count_hard_seed: Option<bool>,
        /// Between rows, a decimal.
        pub row_spacing: Option<Line<40>>,
        /// `cm`, `mm`, `m`, `in` or `ft`; that of the reader unless told.
        pub row_spacing_unit: Option<Line<12>>,
        /// For bushels, a decimal.
        pub bulk_density: Option<Line<40>>,
        /// `lb/bu`, `kg/hL` or `g/L`; that of the reader unless told.
        pub bulk_density_unit: Option<Line<12>>,
        /// For a range: half width of the seed weight, in percent of it.
        pub seed_weight_plus_minus_percent: Option<Line<40>>,
        /// For a range: half width of the germination, or of the establishment where that is given, in points.
        pub seed_plus_minus_points: Option<Line<40>>,
        /// Instead of it: the seeds that the germination was counted in.
        pub germination_seeds_tested: Option<Line<40>>,
        /// For a range: half width of emergence or loss, in points.
        pub field_plus_minus_points: Option<Line<40>>,
    }
}

/// Which of the two ways.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// Plants wanted.
    Plants,
    /// Pure live seed wanted.
    Live,
}

/// What is wanted, in SI.
#[derive(Clone, Copy, Debug)]
pub(super) enum Wanted {
    /// Plants.
    Plants {
        plan: Plan,
        /// Percent, where something in the bag is not seed.
        purity: Option<f64>,
        doubt: Option<Doubt>,
    },
    /// Pure live seed.
    Live { lot: PureLiveSeed, rate: f64, thousand_seed_weight_g: Option<f64> },
}

/// What a rate is planned from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Asked {
    pub(super) wanted: Wanted,
    pub(super) rate_unit: Unit<dimension::Rate>,
    /// m.
    pub(super) row_spacing: Option<f64>,
    /// kg/m³.
    pub(super) bulk_density: Option<f64>,
}

/// Square metres of a square foot.
pub(super) const SQUARE_FOOT: f64 = 0.3048 * 0.3048;

/// Names of the query that belong to one way only.
const OF_PLANTS: [&str; 5] = [
    "establishment_percent",
    "emergence_percent",
    "loss_percent",
    "seed_weight_plus_minus_percent",
    "seed_plus_minus_points",
];

impl Asked {
    /// Reads it with every fault. Which way was meant shows in what was sent, unless a form has it.
    pub(super) fn read(given: &PlanAsked, units: Units, form: Option<Way>) -> Result<Self, Error> {
        let mut reading = Reading { given, faults: Faults::default() };
        let us = units == Units::Us;
        let rate_unit = if us { unit::LB_PER_AC } else { unit::KG_PER_HA };
        let length = if us { unit::IN } else { unit::CM };
        let density = if us { unit::LB_PER_BU } else { unit::KG_PER_HL };
        let row_spacing =
            reading.measured("row_spacing", given.row_spacing.as_ref(), given.row_spacing_unit.as_ref(), length);
        let bulk_density =
            reading.measured("bulk_density", given.bulk_density.as_ref(), given.bulk_density_unit.as_ref(), density);
        let rate_unit = reading.rate_unit(rate_unit);
        let wanted = match form.unwrap_or(given.way()) {
            Way::Plants => reading.plants(),
            Way::Live => reading.live(rate_unit),
        };
        if let Some(spacing) = row_spacing.flatten() {
            reading.check("row_spacing", Figure::RowSpacing.check(spacing));
        }
        let read = wanted.zip(rate_unit).zip(row_spacing).zip(bulk_density).map(
            |(((wanted, rate_unit), row_spacing), bulk_density)| Self { wanted, rate_unit, row_spacing, bulk_density },
        );
        reading.faults.finish(read)
    }
}

impl PlanAsked {
    fn way(&self) -> Way {
        let has_plants = self.plants_per_m2.is_some() || self.plants_per_ft2.is_some();
        if self.pls_rate.is_some() && !has_plants { Way::Live } else { Way::Plants }
    }

    fn named(&self, name: &str) -> Option<&Line<40>> {
        match name {
            "establishment_percent" => self.establishment_percent.as_ref(),
            "emergence_percent" => self.emergence_percent.as_ref(),
            "loss_percent" => self.loss_percent.as_ref(),
            "seed_weight_plus_minus_percent" => self.seed_weight_plus_minus_percent.as_ref(),
            "seed_plus_minus_points" => self.seed_plus_minus_points.as_ref(),
            _ => None,
        }
    }
}

/// A query being read, and what is wrong with it so far.
struct Reading<'a> {
    given: &'a PlanAsked,
    faults: Faults,
}

impl Reading<'_> {
    fn fault<T>(&mut self, name: &str, says: impl Into<Saying>) -> Option<T> {
        self.faults.add(&At::default().key(name), says)
    }

    fn check(&mut self, name: &str, read: Result<f64, Impossible>) -> Option<f64> {
        match read {
            Ok(value) => Some(value),
            Err(impossible) => self.fault(name, move |words: Words| impossible.says(words)),
        }
    }

    /// A number; the inner none where there was none, the outer one where it was no number.
    fn number(&mut self, name: &str, text: Option<&Line<40>>) -> Option<Option<f64>> {
        match text.map(|line| Decimal::parse(&line.0)) {
            None => Some(None),
            Some(Ok(number)) => Some(Some(number.to_f64())),
            Some(Err(error)) => self.fault(name, move |words: Words| error.says(words)),
        }
    }

    /// A number that can be what the figure is.
    fn figure(&mut self, name: &str, text: Option<&Line<40>>, figure: Figure) -> Option<Option<f64>> {
        match self.number(name, text)? {
            None => Some(None),
            Some(number) => self.check(name, figure.check(number)).map(Some),
        }
    }

    /// As [`Self::figure`], and it must be there.
    fn needed(&mut self, name: &str, text: Option<&Line<40>>, figure: Figure) -> Option<f64> {
        match self.figure(name, text, figure)? {
            None => self.fault(name, saying!("fault-missing")),
            there => there,
        }
    }

    /// A number that must be there.
    fn there(&mut self, name: &str, text: Option<&Line<40>>) -> Option<f64> {
        match self.number(name, text)? {
            None => self.fault(name, saying!("fault-missing")),
            there => there,
        }
    }

    /// Notes what is impossible among tests and stands; whether there was nothing.
    fn all(&mut self, faults: &[Impossible]) -> bool {
        for &impossible in faults {
            self.fault::<()>(place(impossible.figure()), move |words: Words| impossible.says(words));
        }
        faults.is_empty()
    }

    fn measured<D: Dimension>(
        &mut self,
        name: &str,
        value: Option<&Line<40>>,
        unit: Option<&Line<12>>,
        default: Unit<D>,
    ) -> Option<Option<f64>>
    where
        Quantity<D>: Input,
    {
        let Some(value) = value else { return Some(None) };
        let unit = unit.map(|unit| unit.0.as_str());
        quantity::asked(&mut self.faults, name, Some(&value.0), unit, default).map(|(si, _)| Some(si))
    }

    fn rate_unit(&mut self, default: Unit<dimension::Rate>) -> Option<Unit<dimension::Rate>> {
        match self.given.rate_unit.as_ref().map(|unit| dimension::Rate::unit_named(&unit.0)) {
            None => Some(default),
            Some(Ok(unit)) => Some(unit),
            Some(Err(error)) => self.fault("rate_unit", move |words: Words| error.says(words)),
        }
    }

    /// g per thousand seeds, whichever way it was given; the outer none where it was at fault.
    fn seed_weight(&mut self) -> Option<Option<f64>> {
        let given = self.given;
        let ways = [
            ("thousand_seed_weight_g", given.thousand_seed_weight_g.as_ref()),
            ("seeds_per_kg", given.seeds_per_kg.as_ref()),
            ("seeds_per_lb", given.seeds_per_lb.as_ref()),
        ];
        let mut there = ways.into_iter().filter(|(_, text)| text.is_some());
        let Some((name, text)) = there.next() else { return Some(None) };
        if let Some((other, _)) = there.next() {
            return self.fault(other, saying!("plan-one-of", name = name));
        }
        let Some(number) = self.number(name, text)? else { return Some(None) };
        let weight = match name {
            "seeds_per_kg" => thousand_seed_weight_from_per_kg(number),
            "seeds_per_lb" => thousand_seed_weight_from_per_lb(number),
            _ => Figure::SeedWeight.check(number),
        };
        self.check(name, weight).map(Some)
    }

    fn plants(&mut self) -> Option<Wanted> {
        let given = self.given;
        let plants = match (&given.plants_per_m2, &given.plants_per_ft2) {
            (Some(_), Some(_)) => self.fault("plants_per_ft2", saying!("plan-plants-twice")),
            (None, None) => self.fault("plants_per_m2", saying!("plan-missing-plants")),
            (Some(text), None) => self.needed("plants_per_m2", Some(text), Figure::Plants),
            (None, text) => {
                let per_ft2 = self.number("plants_per_ft2", text.as_ref()).flatten();
                per_ft2.and_then(|number| self.check("plants_per_ft2", Figure::Plants.check(number / SQUARE_FOOT)))
            }
        };
        if given.pls_rate.is_some() {
            self.fault::<()>("pls_rate", saying!("plan-two-ways"));
        }
        if given.hard_seed_percent.is_some() {
            self.fault::<()>("hard_seed_percent", saying!("plan-hard-seed-of-plants"));
        }
        let weight = match self.seed_weight() {
            Some(None) => self.fault("thousand_seed_weight_g", saying!("fault-missing")),
            read => read.flatten(),
        };
        let establishment = self.establishment();
        let purity = self.figure("purity_percent", given.purity_percent.as_ref(), Figure::Purity);
        let doubt = self.doubt();
        let (plants_per_m2, thousand_seed_weight_g, establishment) = (plants?, weight?, establishment?);
        let plan = Plan { plants_per_m2, thousand_seed_weight_g, establishment };
        let name = if given.plants_per_m2.is_some() { "plants_per_m2" } else { "plants_per_ft2" };
        for impossible in plan.faults() {
            self.fault::<()>(name, move |words: Words| impossible.says(words));
        }
        let (purity, doubt) = (purity?, doubt?);
        if let Some(Err(impossible)) = doubt.map(|doubt| plan.range(doubt)) {
            self.fault::<()>("seed_plus_minus_points", move |words: Words| impossible.says(words));
        }
        Some(Wanted::Plants { plan, purity, doubt })
    }

    fn establishment(&mut self) -> Option<Establishment> {
        let given = self.given;
        if let Some(establishment) = &given.establishment_percent {
            for name in ["emergence_percent", "loss_percent"].into_iter().filter(|name| given.named(name).is_some()) {
                self.fault::<()>(name, saying!("plan-establishment-twice"));
            }
            // A germination beside it may stand: it is the lot's, and the establishment holds it already.
            self.figure("germination_percent", given.germination_percent.as_ref(), Figure::Germination)?;
            let percent = self.needed("establishment_percent", Some(establishment), Figure::Establishment)?;
            return Some(Establishment::Given { percent });
        }
        let (name, text, figure) = match (&given.emergence_percent, &given.loss_percent) {
            (None, None) => {
                return self.fault("establishment_percent", saying!("plan-missing-share"));
            }
            (Some(_), Some(_)) => {
                return self.fault("loss_percent", saying!("plan-emergence-and-loss"));
            }
            (Some(emergence), None) => ("emergence_percent", emergence, Figure::Emergence),
            (None, Some(loss)) => ("loss_percent", loss, Figure::Loss),
        };
        let germination = self.there("germination_percent", given.germination_percent.as_ref());
        let share = self.there(name, Some(text));
        let (Some(germination_percent), Some(share)) = (germination, share) else {
            // What can be read is still held to its bounds.
            let read = [("germination_percent", germination, Figure::Germination), (name, share, figure)];
            for (name, value, figure) in read {
                value.and_then(|value| self.check(name, figure.check(value)));
            }
            return None;
        };
        let stand = if figure == Figure::Emergence {
            Establishment::Multiplied { germination_percent, emergence_percent: share }
        } else {
            Establishment::Subtracted { germination_percent, loss_percent: share }
        };
        self.all(&stand.faults()).then_some(stand)
    }

    /// How well the figures are known; the inner none where nothing was said of it.
    fn doubt(&mut self) -> Option<Option<Doubt>> {
        let given = self.given;
        let weight = self.figure(
            "seed_weight_plus_minus_percent",
            given.seed_weight_plus_minus_percent.as_ref(),
            Figure::SeedWeightDoubt,
        );
        let points = self.figure("seed_plus_minus_points", given.seed_plus_minus_points.as_ref(), Figure::ShareDoubt);
        let field = self.figure("field_plus_minus_points", given.field_plus_minus_points.as_ref(), Figure::ShareDoubt);
        let tested =
            self.figure("germination_seeds_tested", given.germination_seeds_tested.as_ref(), Figure::SeedsCounted);
        let (weight, points, field, tested) = (weight?, points?, field?, tested?);
        let seed = match (points, tested) {
            (Some(_), Some(_)) => {
                return self.fault("germination_seeds_tested", saying!("plan-doubt-twice"));
            }
            (points, None) => points,
            (None, Some(seeds)) => Some(self.counted(seeds)?),
        };
        let said = weight.is_some() || seed.is_some() || field.is_some();
        Some(said.then(|| Doubt {
            seed_weight_percent: weight.unwrap_or_default(),
            seed_points: seed.unwrap_or_default(),
            field_points: field.unwrap_or_default(),
        }))
    }

    /// What counting so many seeds leaves open of the germination.
    fn counted(&mut self, seeds: f64) -> Option<f64> {
        let text = self.given.germination_percent.as_ref();
        if text.is_none() || self.given.establishment_percent.is_some() {
            return self.fault("germination_seeds_tested", saying!("plan-tested-without-germination"));
        }
        let germination = Decimal::parse(&text?.0).ok()?.to_f64();
        germination_doubt(germination, seeds).ok()
    }

    fn live(&mut self, rate_unit: Option<Unit<dimension::Rate>>) -> Option<Wanted> {
        let given = self.given;
        for name in OF_PLANTS {
            if given.named(name).is_some() {
                self.fault::<()>(name, saying!("plan-of-plants"));
            }
        }
        let default = rate_unit.unwrap_or(unit::KG_PER_HA);
        let rate = match &given.pls_rate {
            Some(rate) => quantity::asked(&mut self.faults, "pls_rate", Some(&rate.0), None, default),
            None => self.fault("pls_rate", saying!("fault-missing")),
        };
        let weight = self.seed_weight();
        let purity = self.there("purity_percent", given.purity_percent.as_ref());
        let germination = self.there("germination_percent", given.germination_percent.as_ref());
        let hard = self.number("hard_seed_percent", given.hard_seed_percent.as_ref())?;
        let hard_seed = match (hard, given.count_hard_seed.unwrap_or(false)) {
            (None, _) => HardSeed::NotStated,
            (Some(percent), true) => HardSeed::Counted(percent),
            (Some(percent), false) => HardSeed::LeftOut(percent),
        };
        let (Some(purity_percent), Some(germination_percent)) = (purity, germination) else {
            purity.and_then(|purity| self.check("purity_percent", Figure::Purity.check(purity)));
            germination.and_then(|percent| self.check("germination_percent", Figure::Germination.check(percent)));
            return None;
        };
        let lot = PureLiveSeed { purity_percent, germination_percent, hard_seed };
        self.all(&lot.faults());
        Some(Wanted::Live { lot, rate: rate?.0, thousand_seed_weight_g: weight? })
    }
}

/// The part of the query that a figure of a test or a stand comes from.
fn place(figure: Figure) -> &'static str {
    match figure {
        Figure::Germination => "germination_percent",
        Figure::Emergence => "emergence_percent",
        Figure::Loss => "loss_percent",
        Figure::HardSeed => "hard_seed_percent",
        Figure::Purity => "purity_percent",
        _ => "establishment_percent",
    }
}
