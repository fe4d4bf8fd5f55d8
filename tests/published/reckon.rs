//! The ways from a published example's own numbers through core, in the units in which it prints.

use sowmark_core::{
    catch::{Catch, Repeat, Revolutions, Sheet},
    circumstances::Circumstances,
    quantity::{Area, Decimal, Length, Mass, Rate, from_si, unit},
    rate::{GroundDrive, Metering},
    seed::{self, Establishment, HardSeed, Plan, PureLiveSeed, thousand_seed_weight_from_per_lb},
    verdict::judge,
};

use crate::sheets::plain_circumstances;

pub(crate) fn metres(length: &str) -> f64 {
    Length::parse_text(length).expect(length).si()
}

pub(crate) fn square_metres(area: &str) -> f64 {
    Area::parse_text(area).expect(area).si()
}

pub(crate) fn rate(rate: &str) -> f64 {
    Rate::parse_text(rate).expect(rate).si()
}

pub(crate) fn kg_per_ha(rate: f64) -> f64 {
    from_si(rate, unit::KG_PER_HA)
}

pub(crate) fn lb_per_ac(rate: f64) -> f64 {
    from_si(rate, unit::LB_PER_AC)
}

/// The rate (kg/m²) that seed caught of some runs over a distance was sown at: through sheet, factor and ground drive, as a
/// machine with a wheel of 2 m.
pub(crate) fn rate_caught(net: &str, runs: u32, row_spacing: &str, distance: &str) -> f64 {
    let circumference = || Length::parse_text("2 m").expect("a length");
    let gross = Mass::parse_text(net).expect(net);
    let catch = Catch { label: None, runs, tare: Mass::of(Decimal::from(0), unit::G), gross };
    let distance = Length::parse_text(distance).expect(distance);
    let revolutions = Revolutions::Distance { distance, circumference: circumference() };
    let sheet = Sheet { repeats: vec![Repeat { revolutions, catches: vec![catch], set_aside: None }] };
    let working_width_m = f64::from(runs) * metres(row_spacing);
    let circumstances = Circumstances { runs_in_use: runs, working_width_m, ..plain_circumstances() };
    let factor = judge(&sheet, &circumstances).expect("a possible sheet").factor;
    let wheel = GroundDrive { ratio: 1.0, rolling_circumference_m: circumference().si() };
    Metering { factor, runs_in_use: runs, working_width_m }.ground_rate(wheel).expect("a rate")
}

/// Turns of a wheel over a distance: the area that a strip of any width has, over that width.
pub(crate) fn turns_over(distance: &str, circumference_m: f64) -> f64 {
    turns_for(metres(distance) * 3.0, 3.0, circumference_m)
}

/// Turns of a wheel for an area (m²) at a width (m).
pub(crate) fn turns_for(area: f64, width_m: f64, circumference_m: f64) -> f64 {
    GroundDrive { ratio: 1.0, rolling_circumference_m: circumference_m }.turns_for_area(area, width_m).expect("turns")
}

/// A number per ft² as one per m².
pub(crate) fn per_ft2(number: f64) -> f64 {
    number / metres("1 ft").powi(2)
}

/// A number per acre as one per m².
pub(crate) fn per_ac(number: f64) -> f64 {
    number / square_metres("1 ac")
}

/// The rate (kg/m²) of plants wanted per m² of seed of so many g per thousand.
pub(crate) fn planned(plants_per_m2: f64, thousand_seed_weight_g: f64, establishment: Establishment) -> f64 {
    Plan { plants_per_m2, thousand_seed_weight_g, establishment }.work_out().expect("a plan").rate
}

/// One percentage for everything that is lost.
pub(crate) fn given(percent: f64) -> Establishment {
    Establishment::Given { percent }
}

/// The rate (kg/m²) of seeds per acre, of seed that makes so many to the pound.
pub(crate) fn rate_of_seeds(seeds_per_ac: f64, seeds_per_lb: f64) -> f64 {
    let weight = thousand_seed_weight_from_per_lb(seeds_per_lb).expect("a seed weight");
    seed::rate(per_ac(seeds_per_ac), weight).expect("a rate")
}

/// Purity and germination, nothing hard or dormant.
pub(crate) fn lot(purity_percent: f64, germination_percent: f64) -> PureLiveSeed {
    PureLiveSeed { purity_percent, germination_percent, hard_seed: HardSeed::NotStated }
}
