//! Differences in the seed: crop, lot and seed weight.
//!
//! An empty tank differs in nothing here: there is no seed to compare.

use jiff::Timestamp;

use crate::{
    ids::LotId,
    moment::in_order,
    readiness::{
        Change, Detail, LotFacts, LotTest,
        timeline::{Condition, Timeline},
    },
};

/// A crop's name in the form in which crops compare: without the blanks around it and without regard to case.
pub(super) fn crop_key(crop: &str) -> String {
    crop.trim().to_lowercase()
}

/// Whether two names mean the same crop.
///
/// ```
/// assert!(sowmark_core::readiness::same_crop(" Wheat", "wheat"));
/// ```
pub fn same_crop(a: &str, b: &str) -> bool {
    crop_key(a) == crop_key(b)
}

impl LotTest {
    /// Takes over what a later test found.
    pub(super) fn learn(&mut self, later: LotTest) {
        self.bulk_density = later.bulk_density.or(self.bulk_density);
        self.thousand_seed_weight = later.thousand_seed_weight.or(self.thousand_seed_weight);
    }
}

/// The latest known value of each seed weight of a lot at `at`, tests of that instant included; each on its own, since a test may
/// have measured only one of them.
pub fn latest_known_tests(lot: &LotFacts, at: Timestamp) -> LotTest {
    let mut tests: Vec<_> = lot.tests.iter().filter(|test| test.happened_by(at)).collect();
    tests.sort_by(in_order);
    let mut known = LotTest::default();
    for test in tests {
        known.learn(test.what);
    }
    known
}

/// The lots of the basis and of the condition, where another one is in the tank.
fn other_lot(basis: &Condition<'_>, condition: &Condition<'_>) -> Option<Change<LotId>> {
    let (from, to) = (basis.lot?, condition.lot?);
    (from != to).then_some(Change { from, to })
}

/// Another crop is in the tank. Where a lot's crop is not known, it is the lot that changed.
pub(super) fn crop_changed(line: &Timeline<'_>, basis: &Condition<'_>, condition: &Condition<'_>) -> Option<Detail> {
    let lot = other_lot(basis, condition)?;
    let crop = crops_differ(line, lot)?;
    Some(Detail::CropChanged { crop: Change { from: crop.from.to_owned(), to: crop.to.to_owned() }, lot })
}

/// Another lot of the same crop is in the tank.
pub(super) fn lot_changed(line: &Timeline<'_>, basis: &Condition<'_>, condition: &Condition<'_>) -> Option<Detail> {
    let lot = other_lot(basis, condition)?;
    crops_differ(line, lot).is_none().then_some(Detail::LotChanged(lot))
}

/// The crops of two lots as written there, where they differ.
fn crops_differ<'a>(line: &Timeline<'a>, lot: Change<LotId>) -> Option<Change<&'a str>> {
    let same = line.crop(Some(lot.from))? == line.crop(Some(lot.to))?;
    let written = |id| line.surroundings.lots.get(&id).map(|lot| lot.crop.trim());
    (!same).then_some(Change { from: written(lot.from)?, to: written(lot.to)? })
}

/// The same lot is in the tank, but its bulk density or thousand-seed weight is another. Each is compared on its own, and one
/// that is not known at both moments raises nothing.
pub(super) fn seed_weight_changed(
    line: &Timeline<'_>,
    basis: &Condition<'_>,
    condition: &Condition<'_>,
) -> Option<Detail> {
    let lot = condition.lot.filter(|_| condition.lot == basis.lot)?;
    let tolerance_percent = line.policy.seed_weight_tolerance_percent;
    let beyond = |then: Option<f64>, now: Option<f64>| {
        let change = Change { from: then?, to: now? };
        apart(change, tolerance_percent).then_some(change)
    };
    let (then, now) = (basis.weights, condition.weights);
    let bulk_density = beyond(then.bulk_density, now.bulk_density);
    let thousand_seed_weight = beyond(then.thousand_seed_weight, now.thousand_seed_weight);
    (bulk_density.is_some() || thousand_seed_weight.is_some()).then_some(Detail::SeedWeightChanged {
        lot,
        bulk_density,
        thousand_seed_weight,
        tolerance_percent,
    })
}

/// Whether two values are further apart than so many percent of the first.
///
/// At the limit itself they are not, also where binary fractions put 41.2 over 40 a hair above 1.03.
pub(super) fn apart(change: Change<f64>, percent: f64) -> bool {
    (change.to / change.from - 1.0).abs() * 100.0 > percent + 1e-9
}
