//! The weights of a bushel, and what bulk density they are.
//!
//! University of Missouri Extension G4020 (W. J. Murphy), as quoted; USDA official weights (wheat and soybean 60, rye and
//! shelled corn 56, barley 48, oats 32 lb/bu and others). Bushels in a tonne as in public conversion lists: 39.368 of 56 lb,
//! 44.092 of 50 lb. Winchester test weight: `lb/bu = g in half a litre x 0.1552`.

use sowmark_core::{
    quantity::{BulkDensity, from_si, unit},
    seed::bushels_per_m2,
};

use crate::check::{Seen, Source, check};

const WEIGHTS: [(&str, &str, f64); 9] = [
    ("wheat, soybean", "60 lb/bu", 77.231_158_685_846_82),
    ("rye, shelled corn", "56 lb/bu", 72.082_414_773_457_03),
    ("millet", "50 lb/bu", 64.359_298_904_872_35),
    ("barley", "48 lb/bu", 61.784_926_948_677_46),
    ("rough rice, timothy", "45 lb/bu", 57.923_369_014_385_116),
    ("oats", "32 lb/bu", 41.189_951_299_118_306),
    ("sudangrass", "28 lb/bu", 36.041_207_386_728_516),
    ("sunflower, light", "24 lb/bu", 30.892_463_474_338_73),
    ("smooth brome", "14 lb/bu", 18.020_603_693_364_258),
];

pub(crate) fn source() -> Source {
    let density = |text: &str| BulkDensity::parse_text(text).expect(text).si();
    let mut checks: Vec<_> = WEIGHTS
        .map(|(crop, weight, exact)| {
            check("kg/hL", format!("{crop}, {weight}"), from_si(density(weight), unit::KG_PER_HL)).exactly(exact)
        })
        .into();
    // A tonne over ten hectares.
    let of_a_tonne = |weight: &str| bushels_per_m2(0.01, density(weight)).expect("bushels") * 1e5;
    checks.push(check("bushels in a tonne", "56 lb/bu", of_a_tonne("56 lb/bu")).prints("39.368").exactly(39.368_261_104_442_425));
    checks.push(check("bushels in a tonne", "50 lb/bu", of_a_tonne("50 lb/bu")).prints("44.092").exactly(44.092_452_436_975_51));
    checks.push(
        check("lb/bu for a gram in half a litre", "2 g/L", from_si(density("2 g/L"), unit::LB_PER_BU))
            .prints("0.1552")
            .exactly(0.155_377_702_525_639_93)
            .differs("0.1552 is a factor agreed by the trade; the volumes alone give 0.15538"),
    );
    Source {
        title: "bushel weights",
        address: "https://en.wikipedia.org/wiki/Test_weight",
        seen: Seen::Quoted,
        checks,
    }
}
