//! Bounds of figures, and the words for what is outside.

use sowmark_core::{
    figure::Figure,
    words::{DecimalSign, Words},
};

use crate::HOSTILE;

const ALL: [(Figure, f64, f64, bool); 22] = [
    (Figure::Plants, 0.0, 100_000.0, false),
    (Figure::Seeds, 0.0, 100_000.0, false),
    (Figure::SeedsCounted, 1.0, 1e9, true),
    (Figure::SampleMass, 0.0, 1_000.0, false),
    (Figure::SeedWeight, 0.0, 10_000.0, false),
    (Figure::SeedsPerKg, 0.0, 1e9, false),
    (Figure::Establishment, 0.0, 100.0, false),
    (Figure::Germination, 0.0, 100.0, true),
    (Figure::Emergence, 0.0, 100.0, true),
    (Figure::Loss, 0.0, 100.0, true),
    (Figure::Purity, 0.0, 100.0, false),
    (Figure::HardSeed, 0.0, 100.0, true),
    (Figure::Rate, 0.0, 10.0, false),
    (Figure::RowSpacing, 0.0, 10.0, false),
    (Figure::BulkDensity, 0.0, 5_000.0, false),
    (Figure::SeedWeightDoubt, 0.0, 100.0, true),
    (Figure::ShareDoubt, 0.0, 100.0, true),
    (Figure::Slip, -50.0, 90.0, true),
    (Figure::MetresPerTurn, 0.0, 100.0, false),
    (Figure::Setting, 0.0, 1e9, false),
    (Figure::Measured, 0.0, 1e9, false),
    (Figure::Wanted, 0.0, 1e9, false),
];

fn just_below(value: f64) -> f64 {
    value - value.abs().max(1.0) * 1e-12
}

fn just_above(value: f64) -> f64 {
    value + value.abs().max(1.0) * 1e-12
}

#[test]
fn every_figure_ends_where_it_says() {
    for (figure, least, most, least_counts) in ALL {
        assert_eq!(figure.check(most), Ok(most), "{figure:?} at its greatest");
        assert!(figure.check(just_above(most)).is_err(), "{figure:?} above its greatest");
        assert_eq!(figure.check(least).is_ok(), least_counts, "{figure:?} at its least");
        assert!(figure.check(just_below(least)).is_err(), "{figure:?} below its least");
        assert!(figure.check(just_above(least)).is_ok(), "{figure:?} above its least");
    }
}

#[test]
fn what_is_refused_says_what_is_allowed_and_what_to_do() {
    for (figure, ..) in ALL {
        for hostile in HOSTILE.into_iter().filter(|value| figure.check(*value).is_err()) {
            let refused = figure.check(hostile).unwrap_err();
            assert_eq!(refused.figure(), figure);
            let says = refused.to_string();
            assert!(says.len() < 250 && says.starts_with("The ") && says.contains(". "), "{says}");
            assert!(!says.contains("NaN") && !says.contains("inf") && !says.contains("0000000000"), "{says}");
            assert_eq!(says.contains("allowed is"), hostile.is_finite(), "{says}");
        }
    }
}

#[test]
fn the_words_are_these() {
    let says = |figure: Figure, value: f64| figure.check(value).unwrap_err().to_string();
    assert_eq!(
        says(Figure::Germination, 100.5),
        "The germination cannot be 100.5 %; allowed is 0 to 100 %. Give it as the seed test states it."
    );
    assert_eq!(
        says(Figure::Plants, -3.0),
        "The plants wanted cannot be \u{2212}3 per m²; allowed is above 0, up to 100\u{202f}000 per m². Give the plants that should stand \
         on a square metre."
    );
    assert_eq!(
        says(Figure::Rate, 10.012_345_678),
        "The rate cannot be 10.0123 kg/m²; allowed is above 0, up to 10 kg/m². Look at the rate and its unit."
    );
    assert_eq!(
        says(Figure::SeedsCounted, 0.0),
        "The seeds counted cannot be 0; allowed is 1 to 1\u{202f}000\u{202f}000\u{202f}000. Count the seeds of a weighed sample."
    );
    assert_eq!(
        says(Figure::SeedWeight, f64::NAN),
        "The thousand-seed weight is not a number. Give the grams of a thousand seeds."
    );
    assert_eq!(
        says(Figure::Purity, 1e30),
        "The purity cannot be that large; allowed is above 0, up to 100 %. Give it as the seed test states it."
    );
    assert_eq!(
        says(Figure::Loss, -1e-30),
        "The field loss cannot be that small; allowed is 0 to 100 %. Give the percentage points taken off the germination."
    );
    // The smallest size that is written out, and the first that no longer is.
    assert!(says(Figure::SeedsCounted, 1e-9).starts_with("The seeds counted cannot be 0.000000001; "));
    assert!(says(Figure::SeedsCounted, 9.9e-10).starts_with("The seeds counted cannot be that small; "));
    assert!(says(Figure::Purity, 9.9e11).starts_with("The purity cannot be 990\u{202f}000\u{202f}000\u{202f}000 %; "));
    assert!(says(Figure::Purity, 1e12).starts_with("The purity cannot be that large; "));
    assert_eq!(
        says(Figure::Slip, -60.0),
        "The slip cannot be \u{2212}60 %; allowed is \u{2212}50 to 90 %. Measure it: metres per turn loaded against unloaded."
    );
}

#[test]
fn the_readers_decimal_sign_is_used() {
    let comma = Words { decimal: DecimalSign::Comma, ..Words::default() };
    let refused = Figure::Germination.check(100.5).unwrap_err();
    assert!(refused.says(comma).starts_with("The germination cannot be 100,5 %;"));
}
