//! Seeds to the pound and to the kilogram, as grams per thousand.
//!
//! Canola: 175 000 to 250 000 seeds/kg are 5.71 to 4.00 g (Canola Council of Canada, Canola Encyclopedia). Counts alone, whose grams
//! follow: wheat 10 000 to 20 000 seeds/lb (University of Kentucky), spring wheat 12 812 to 26 374 (South Dakota State University),
//! soybean 1700 to 5000, typically 2600 (Iowa State University), lupin 2808 to 3410 seeds/kg (Alberta farm machinery tests).

use sowmark_core::seed::{seeds_per_kg, thousand_seed_weight_from_per_kg, thousand_seed_weight_from_per_lb};

use crate::check::{Seen, Source, check};

pub(crate) fn source() -> Source {
    let per_kg = |count: f64| thousand_seed_weight_from_per_kg(count).expect("a seed weight");
    let per_lb = |count: f64| thousand_seed_weight_from_per_lb(count).expect("a seed weight");
    let grams = "g per thousand";
    let mut checks = vec![
        check(grams, "canola, 175 000 seeds/kg", per_kg(175_000.0)).prints("5.71 g").exactly(5.714_285_714_285_714),
        check(grams, "canola, 250 000 seeds/kg", per_kg(250_000.0)).prints("4.00 g").exactly(4.0),
        check("seeds/kg", "canola, 4.00 g", seeds_per_kg(4.0).expect("seeds")).prints("250000").exactly(250_000.0),
        check(grams, "lupin, 2808 seeds/kg", per_kg(2_808.0)).exactly(356.125_356_125_356_1),
        check(grams, "lupin, 3410 seeds/kg", per_kg(3_410.0)).exactly(293.255_131_964_809_4),
    ];
    checks.extend(
        [
            ("wheat", 10_000.0, 45.359_237),
            ("wheat", 20_000.0, 22.679_618_5),
            ("spring wheat", 12_812.0, 35.403_712_925_382_46),
            ("spring wheat", 26_374.0, 17.198_467_050_883_444),
            ("soybean", 1_700.0, 266.819_041_176_470_6),
            ("soybean", 2_600.0, 174.458_603_846_153_84),
            ("soybean", 5_000.0, 90.718_474),
        ]
        .map(|(crop, count, exact)| check(grams, format!("{crop}, {count} seeds/lb"), per_lb(count)).exactly(exact)),
    );
    Source {
        title: "seed counts",
        address: "https://www.canolacouncil.org/canola-encyclopedia/",
        seen: Seen::Read,
        checks,
    }
}
