//! What was sown from a tank against what was wanted: rates, grams a revolution, and the setpoints that a plan has for it.

use sowmark_core::task_data::{Balance, Setpoint, Sown, What};

use crate::{EXAMPLE, faults, file, only_task, read, session, wrapped};

fn sown() -> Sown {
    read(EXAMPLE).tasks[0].sown[0].clone()
}

/// A rate is a mass above nothing over an area above nothing, and so are grams a revolution.
#[test]
fn nothing_over_something_and_something_over_nothing_are_no_rates() {
    let whole = sown();
    assert!(whole.machine_rate().is_some() && whole.balance_rate().is_some() && whole.target_rate().is_some());
    assert!(whole.machine_g_per_revolution().is_some() && whole.balance_g_per_revolution().is_some());
    for area_m2 in [None, Some(0), Some(-1)] {
        let sown = Sown { area_m2, ..whole.clone() };
        assert_eq!((sown.machine_rate(), sown.balance_rate()), (None, None), "{area_m2:?}");
    }
    for mass_g in [None, Some(0), Some(-1)] {
        let sown = Sown { mass_g, ..whole.clone() };
        assert_eq!((sown.machine_rate(), sown.machine_g_per_revolution()), (None, None), "{mass_g:?}");
        assert!(sown.balance_rate().is_some());
    }
    for revolutions_e4 in [None, Some(0)] {
        let sown = Sown { revolutions_e4, ..whole.clone() };
        assert_eq!((sown.machine_g_per_revolution(), sown.balance_g_per_revolution()), (None, None));
    }
    assert_eq!(Sown { balance: None, ..whole.clone() }.balance_rate(), None);
    for setpoint in [None, Some(Setpoint::Mass(0)), Some(Setpoint::Count(350_000)), Some(Setpoint::Volume(2))] {
        assert_eq!(Sown { setpoint, ..whole.clone() }.target_rate(), None, "{setpoint:?}");
    }
}

/// One gram on one square metre is 10 kg/ha; one milligram is the least that a setpoint can say.
#[test]
fn the_least_of_everything_has_a_rate() {
    let least = Sown {
        setpoint: Some(Setpoint::Mass(1)),
        area_m2: Some(1),
        mass_g: Some(1),
        revolutions_e4: Some(1),
        balance: Some(Balance { filled_g: 3, emptied_g: 1, remainder_g: Some(1) }),
        ..sown()
    };
    let near = |found: Option<f64>, expected: f64| (found.expect("a rate") / expected - 1.0).abs() < 1e-12;
    assert!(near(least.target_rate(), 1e-6) && near(least.machine_rate(), 1e-3) && near(least.balance_rate(), 1e-3));
    assert!(near(least.revolutions(), 1e-4) && near(least.machine_g_per_revolution(), 1e4));
    assert!(near(least.balance_g_per_revolution(), 1e4));
}

/// As much left as was filled: nothing was used, or nobody weighed; either way there is no rate of it.
#[test]
fn a_balance_of_nothing_is_none() {
    let left = |grams| Balance { filled_g: 1000, emptied_g: 400, remainder_g: Some(grams) };
    assert_eq!((left(599).used_g(), left(600).used_g(), left(601).used_g()), (Some(1), None, None));
}

fn zones(attributes: &str, zones: &[(u32, &str)]) -> String {
    let zone = |(code, values): &(u32, &str)| format!(r#"<TZN A="{code}">{values}</TZN>"#);
    let zones: String = zones.iter().map(zone).collect();
    file(&format!("{zones}{}", session(6, 100, 900))).replace(r#"H="1""#, attributes)
}

const RATE: &str = r#"<PDV A="0006" B="18000" C="PDT1" D="DET2"/>"#;
const OTHER_RATE: &str = r#"<PDV A="0006" B="9000" C="PDT1" D="DET2"/>"#;

/// The zones for a lost position and for outside the field are no other rates of it, unless one of them is the default.
#[test]
fn a_rate_outside_the_field_is_no_other_rate() {
    let setpoint = |file: &str| only_task(file).sown[0].setpoint;
    let whole = Some(Setpoint::Mass(18_000));
    assert_eq!(setpoint(&zones(r#"H="1" I="2""#, &[(1, RATE), (2, OTHER_RATE)])), whole);
    assert_eq!(setpoint(&zones(r#"H="1" J="3""#, &[(1, RATE), (3, OTHER_RATE)])), whole);
    assert_eq!(setpoint(&zones(r#"H="1" I="1" J="2""#, &[(1, RATE), (2, OTHER_RATE)])), whole);
    let varied = only_task(&zones(r#"H="1" I="2" J="3""#, &[(1, RATE), (2, OTHER_RATE), (4, OTHER_RATE)]));
    assert_eq!(varied.sown[0].setpoint, None);
    assert_eq!(varied.remarks[0].what, What::RateVaries);
}

/// Where another zone says nothing against it, what holds is the default zone's; without one, what all of them say together.
#[test]
fn the_default_zone_goes_before_the_others() {
    let filled = r#"<PAN A="PDT1" B="004B" C="1000" D="1" E="DET2"/>"#;
    let of_product = r#"<PDV A="0006" B="1" C="PDT1"/>"#;
    let setpoint = |default: &str| {
        let text = zones(default, &[(1, of_product), (2, RATE)]).replace("<TIM", &format!("{filled}<TIM"));
        only_task(&text).sown[0].setpoint
    };
    assert_eq!(setpoint(r#"H="1""#), Some(Setpoint::Mass(1)));
    assert_eq!(setpoint(r#"H="2""#), Some(Setpoint::Mass(18_000)));
    assert_eq!(setpoint(""), Some(Setpoint::Mass(18_000)));
}

/// Nearest first: for this product in this tank, in any product's tank, in a part that it belongs to, then for the product anywhere.
#[test]
fn a_setpoint_is_the_nearest_that_was_said() {
    let filled = r#"<PAN A="PDT1" B="004B" C="1000" D="1" E="DET2"/>"#;
    let setpoint = |values: &str| {
        let text = zones(r#"H="1""#, &[(1, values)]).replace("<TIM", &format!("{filled}<TIM"));
        only_task(&text).sown[0].setpoint
    };
    let of_product = r#"<PDV A="0006" B="1" C="PDT1"/>"#;
    let of_frame = r#"<PDV A="0006" B="2" D="DET1"/>"#;
    let of_product_in_frame = r#"<PDV A="0006" B="3" C="PDT1" D="DET1"/>"#;
    let of_tank = r#"<PDV A="0006" B="4" D="DET2"/>"#;
    let of_both = r#"<PDV A="0006" B="5" C="PDT1" D="DET2"/>"#;
    let of_another = r#"<PDV A="0006" B="6" C="PDT2"/>"#;
    let said = [of_another, of_product, of_frame, of_product_in_frame, of_tank, of_both];
    assert_eq!(setpoint(of_another), None);
    for (count, nearest) in (2..).zip([1, 2, 3, 4, 5]) {
        assert_eq!(setpoint(&said[..count].concat()), Some(Setpoint::Mass(nearest)), "{count} said");
    }
    assert_eq!(setpoint(r#"<PDV A="000B" B="350000" C="PDT1"/>"#), Some(Setpoint::Count(350_000)));
    assert_eq!(setpoint(r#"<PDV A="0001" B="77" C="PDT1"/>"#), Some(Setpoint::Volume(77)));
    // A depth is no rate, and a rate of nothing sows none.
    assert_eq!(
        (setpoint(r#"<PDV A="0038" B="30" C="PDT1"/>"#), setpoint(r#"<PDV A="0006" B="0" C="PDT1"/>"#)),
        (None, None)
    );
}

/// What a plan wants of products that no tank has yet; what it names and the file does not hold is a fault.
#[test]
fn a_plan_wants_by_product() {
    let values = r#"<PDV A="0006" B="18000" C="PDT1"/><PDV A="000B" B="350000" C="PDT2"/>"#;
    let planned =
        |values: &str| only_task(&wrapped(&format!(r#"<TSK A="TSK1" G="1" H="1"><TZN A="1">{values}</TZN></TSK>"#)));
    let found = planned(values);
    let wanted = |id: &str, setpoint| (Some(id.to_owned()), setpoint);
    assert_eq!(found.wanted, [wanted("PDT1", Setpoint::Mass(18_000)), wanted("PDT2", Setpoint::Count(350_000))]);
    assert!(faults(&found).is_empty());
    let missing = planned(r#"<PDV A="0006" B="1" C="PDT9" D="DET9"/>"#);
    let not_there =
        |attribute: &str, given: &str| What::NotThere { attribute: attribute.to_owned(), given: given.to_owned() };
    assert_eq!(faults(&missing), [not_there("C", "PDT9"), not_there("D", "DET9")]);
}
