//! Unit factors against their exact definitions, and entries that come back as they were made.

use sowmark_core::quantity::{
    Area, BulkDensity, Decimal, Dimension, DriveRatio, Length, Mass, MeterFactor, Quantity, Rate, SeedWeight, Speed,
    Unit, Volume, from_si, unit,
};

use crate::sheets::close;

fn one<D: Dimension>(unit: Unit<D>) -> f64 {
    Quantity::of(Decimal::from(1), unit).si()
}

/// Sources: Federal Register 85 FR 62698 (foot); 4046.8564224 m² (acre, a government factbook); 2150.42 cubic inches (US
/// bushel); avoirdupois pound 0.45359237 kg (NIST SP 811, from memory). Computed as exact fractions.
#[test]
fn factors_are_exact() {
    for (found, exact) in [
        (one(unit::G), 0.001),
        (one(unit::KG), 1.0),
        (one(unit::T), 1_000.0),
        (one(unit::LB), 0.453_592_37),
        (one(unit::OZ), 0.028_349_523_125),
        (one(unit::MM), 0.001),
        (one(unit::CM), 0.01),
        (one(unit::M), 1.0),
        (one(unit::IN), 0.0254),
        (one(unit::FT), 0.3048),
        (one(unit::M2), 1.0),
        (one(unit::HA), 10_000.0),
        (one(unit::AC), 4_046.856_422_4),
        (one(unit::M_PER_S), 1.0),
        (one(unit::KM_PER_H), 1.0 / 3.6),
        (one(unit::MPH), 0.447_04),
        (one(unit::G_PER_THOUSAND), 1.0),
        (one(unit::KG_PER_HL), 10.0),
        (one(unit::G_PER_L), 1.0),
        (one(unit::LB_PER_BU), 12.871_859_780_974_470_658_5),
        (one(unit::KG_PER_HA), 0.000_1),
        (one(unit::LB_PER_AC), 0.000_112_085_115_619_445_604_772),
        (one(unit::KG_PER_REV), 1.0),
        (one(unit::G_PER_REV), 0.001),
        (one(unit::KG_PER_100REV), 0.01),
        (one(unit::LB_PER_100REV), 0.004_535_923_7),
        (one(unit::CM3), 0.000_001),
    ] {
        close(found, exact, 2.3e-16);
    }
    // The US survey acre and the rounded pound of other programs are near, and wrong.
    assert!((one(unit::AC) - 4_046.872_6).abs() > 0.01);
}

/// Source: section 4 of the project's check values, computed as exact fractions.
#[test]
fn conversions_agree_with_exact_fractions() {
    let si = |text: &str| Rate::parse_text(text).unwrap().si();
    close(from_si(si("120 lb/ac"), unit::KG_PER_HA), 134.502_138_743_334_725, 4e-16);
    close(from_si(si("1 kg/ha"), unit::LB_PER_AC), 0.892_179_121_619_704_493_706, 4e-16);
    let density = |text: &str| from_si(BulkDensity::parse_text(text).unwrap().si(), unit::KG_PER_HL);
    close(density("60 lb/bu"), 77.231_158_685_846_823_9, 4e-16);
    close(density("32 lb/bu"), 41.189_951_299_118_306_1, 4e-16);
    close(Length::parse_text("7.5 in").unwrap().si(), 0.1905, 2e-16);
    close(from_si(Speed::parse_text("5 mph").unwrap().si(), unit::KM_PER_H), 8.046_72, 4e-16);
    close(from_si(Area::parse_text("1 ac").unwrap().si(), unit::HA), 0.404_685_642_24, 4e-16);
    close(from_si(Area::parse_text("1 ha").unwrap().si(), unit::AC), 2.471_053_814_671_653_422_48, 4e-16);
}

#[test]
fn every_dimension_lists_its_units_and_refuses_others_by_name() {
    fn listed<D: Dimension>(expected: &str) {
        let names: Vec<_> = Quantity::<D>::units().iter().map(Unit::name).collect();
        assert_eq!(names.join(" "), expected);
        for name in names {
            assert_eq!(Quantity::<D>::new(Decimal::from(1), name).expect(name).unit(), name);
        }
        let refused = Quantity::<D>::new(Decimal::from(1), "furlong").expect_err("no unit of ours");
        assert!(refused.is_unit() && !refused.is_number());
        assert!(refused.to_string().contains("furlong") && refused.to_string().contains(D::NAME));
    }
    use unit::dimension as of;
    listed::<of::Mass>("g kg t oz lb");
    listed::<of::Length>("mm cm m in ft");
    listed::<of::Area>("m2 ha ac");
    listed::<of::Speed>("km/h mph m/s");
    listed::<of::SeedWeight>("g");
    listed::<of::BulkDensity>("kg/hL g/L lb/bu");
    listed::<of::Rate>("kg/ha lb/ac");
    listed::<of::MeterFactor>("kg/rev g/rev kg/100rev lb/100rev");
    listed::<of::Volume>("cm3");
    assert_eq!(
        Mass::parse_text("5").unwrap_err().to_string(),
        "no unit is not a unit of mass; allowed are g, kg, t, oz, lb"
    );
}

#[test]
fn entries_are_read_the_way_people_write_them() {
    for (text, entered) in [
        ("5 lb 8 oz", "5 lb 8 oz"),
        ("5lb8oz", "5 lb 8 oz"),
        ("5 lb 8,25 oz", "5 lb 8.25 oz"),
        ("5.5 lb", "5.5 lb"),
        ("2,11 kg", "2.11 kg"),
        ("2.11kg", "2.11 kg"),
        ("\u{2009}12.40\u{a0}lb ", "12.40 lb"),
        ("8 oz", "8 oz"),
    ] {
        let mass = Mass::parse_text(text).expect(text);
        assert_eq!(mass.entered(), entered);
        assert_eq!(Mass::from_entered(entered).expect(entered), mass);
        let stored = serde_json::to_string(&mass).expect("a string");
        assert_eq!(serde_json::from_str::<Mass>(&stored).expect("reads back"), mass);
    }
    assert_eq!(MeterFactor::parse_text("1.2 lb/100rev").unwrap().entered(), "1.2 lb/100rev");
    assert_eq!(Volume::parse_text("38 cm3").unwrap().entered(), "38 cm3");
    assert_eq!(SeedWeight::parse_text("45.2 g").unwrap().si().to_bits(), 45.2_f64.to_bits());
    for text in
        ["", "kg", "5 lb 16 oz", "5.5 lb 8 oz", "-5 lb 8 oz", "5 lb -8 oz", "5 lb 8", "5 kg 8 oz", "1e400 kg", "5 LB"]
    {
        assert!(Mass::parse_text(text).is_err(), "{text:?}");
    }
    assert!(Length::parse_text("5 lb 8 oz").is_err());
}

/// 5 lb 8 oz is 5.5 lb, and its step is that of its ounces.
#[test]
fn pounds_and_ounces_are_exact() {
    let mass = Mass::parse_text("5 lb 8 oz").unwrap();
    assert_eq!(mass.value_text(), "5.5000");
    assert_eq!(mass.si().to_bits(), Mass::parse_text("5.5 lb").unwrap().si().to_bits());
    assert_eq!(mass.parts().map(|(lb, oz)| (lb.as_str(), oz.as_str())), Some(("5", "8")));
    close(mass.resolution_si(), 0.028_349_523_125, 1e-15);
}

/// The same seed in another container is the same net mass to the last bit.
#[test]
fn a_container_cannot_make_a_scatter() {
    let net = |gross: &str, tare: &str| Mass::parse_text(gross).unwrap().minus_si(&Mass::parse_text(tare).unwrap());
    assert_eq!(net("1.730 kg", "0.455 kg").to_bits(), net("1.745 kg", "470 g").to_bits());
    assert_eq!(net("1 lb", "16 oz").to_bits(), 0);
    assert!(net("1 lb", "453.59238 g") < 0.0);
}

#[test]
fn a_ratio_is_stored_as_entered() {
    let ratio = DriveRatio::parse(" 2,50 : 1 ").unwrap();
    assert_eq!(serde_json::to_string(&ratio).expect("a string"), "\"2.50:1\"");
    assert_eq!(serde_json::from_str::<DriveRatio>("\"2.5\"").expect("reads back"), ratio);
}
