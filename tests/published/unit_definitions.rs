//! Units against their legal definitions, as exact fractions.
//!
//! Foot: Federal Register 85 FR 62698 (2020-10-05). Acre: 4046.8564224 m², a government factbook, appendix G. US bushel:
//! 2150.42 in³. Pound 0.45359237 kg: NIST SP 811 (from memory). Programs in use disagree: one holds the US survey acre, one a
//! wrong one, one rounds the pound to seven digits.

use sowmark_core::quantity::{Decimal, Dimension, Quantity, Unit, from_si, unit};

use crate::check::{Check, Seen, Source, check};

fn si<D: Dimension>(text: &str) -> f64 {
    Quantity::<D>::parse_text(text).expect(text).si()
}

/// A text such as "120 lb/ac" in another unit of its dimension.
fn converted<D: Dimension>(text: &str, unit: Unit<D>) -> Check {
    check("conversion", format!("{text} in {unit}"), from_si(si::<D>(text), unit))
}

fn one<D: Dimension>(unit: Unit<D>) -> f64 {
    Quantity::of(Decimal::from(1), unit).si()
}

/// What one of a unit is in SI.
fn definitions() -> Vec<Check> {
    let is = |name: &'static str, found: f64, exact: f64| {
        check("definition", name, found).computed(exact, 2.3e-16, "one rounding of the exact fraction")
    };
    vec![
        is("g", one(unit::G), 0.001),
        is("kg", one(unit::KG), 1.0),
        is("t", one(unit::T), 1_000.0),
        is("lb", one(unit::LB), 0.453_592_37),
        is("oz", one(unit::OZ), 0.028_349_523_125),
        is("mm", one(unit::MM), 0.001),
        is("cm", one(unit::CM), 0.01),
        is("m", one(unit::M), 1.0),
        is("in", one(unit::IN), 0.0254),
        is("ft", one(unit::FT), 0.3048),
        is("m²", one(unit::M2), 1.0),
        is("ha", one(unit::HA), 10_000.0),
        is("ac", one(unit::AC), 4_046.856_422_4),
        is("m/s", one(unit::M_PER_S), 1.0),
        is("km/h", one(unit::KM_PER_H), 1.0 / 3.6),
        is("mph", one(unit::MPH), 0.447_04),
        is("g per thousand", one(unit::G_PER_THOUSAND), 1.0),
        is("kg/hL", one(unit::KG_PER_HL), 10.0),
        is("g/L", one(unit::G_PER_L), 1.0),
        is("lb/bu", one(unit::LB_PER_BU), 12.871_859_780_974_470_658_5),
        is("kg/ha", one(unit::KG_PER_HA), 0.000_1),
        is("lb/ac", one(unit::LB_PER_AC), 0.000_112_085_115_619_445_604_772),
        is("kg/rev", one(unit::KG_PER_REV), 1.0),
        is("g/rev", one(unit::G_PER_REV), 0.001),
        is("kg/100rev", one(unit::KG_PER_100REV), 0.01),
        is("lb/100rev", one(unit::LB_PER_100REV), 0.004_535_923_7),
        is("cm³", one(unit::CM3), 0.000_001),
    ]
}

fn conversions() -> Vec<Check> {
    let exact = |check: Check, value: f64| check.computed(value, 4.5e-16, "two roundings of exact fractions");
    vec![
        exact(converted("1 lb", unit::KG), 0.453_592_37).prints("0.45359237"),
        exact(converted("1 oz", unit::G), 28.349_523_125),
        exact(converted("1 ft", unit::M), 0.3048).prints("0.3048"),
        exact(converted("7.5 in", unit::M), 0.1905),
        exact(converted("1 mph", unit::KM_PER_H), 1.609_344),
        exact(converted("1 km/h", unit::MPH), 0.621_371_192_237_333_969_617),
        exact(converted("5 mph", unit::KM_PER_H), 8.046_72),
        exact(converted("1 ac", unit::M2), 4_046.856_422_4).prints("4046.8564224"),
        exact(converted("1 ac", unit::HA), 0.404_685_642_24),
        exact(converted("1 ha", unit::AC), 2.471_053_814_671_653_422_48),
        exact(converted("1 lb/ac", unit::KG_PER_HA), 1.120_851_156_194_456_047_72),
        exact(converted("1 kg/ha", unit::LB_PER_AC), 0.892_179_121_619_704_493_706).prints("0.892179"),
        exact(converted("120 lb/ac", unit::KG_PER_HA), 134.502_138_743_334_725),
        exact(converted("1 lb/bu", unit::KG_PER_HL), 1.287_185_978_097_447_065_85),
        exact(converted("1 kg/hL", unit::LB_PER_BU), 0.776_888_512_628_199_632_193),
        exact(converted("1 lb/bu", unit::G_PER_L), 12.871_859_780_974_470_658_5),
    ]
}

pub(crate) fn source() -> Source {
    Source {
        title: "legal definitions of units",
        address: "http://federal.elaws.us/fr/10/5/2020/2020-21902",
        seen: Seen::Read,
        checks: [definitions(), conversions()].concat(),
    }
}

/// The acres that are near, and wrong: the US survey acre, and that of a library which counts 25 feet to the rod.
#[test]
fn the_acre_is_the_international_one() {
    let acre = one(unit::AC);
    assert!((acre - 4_046.872_609_874_252).abs() > 0.01);
    assert!((acre - 9_290.304).abs() > 5_000.0);
    assert_eq!(acre.to_bits(), 4_046.856_422_4_f64.to_bits());
}
