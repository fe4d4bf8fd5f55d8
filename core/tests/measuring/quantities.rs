//! Entries that come back as they were made, and those that are refused. Factors are held against their definitions in
//! `tests/published`.

use sowmark_core::quantity::{
    Decimal, Dimension, DriveRatio, Length, Mass, MeterFactor, Quantity, SeedWeight, Unit, Volume, unit,
};

use crate::sheets::close;

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
