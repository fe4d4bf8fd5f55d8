//! The season that is on, with the troubles of real life: what the board shows today, and why. Each machine's story stands
//! by itself; the last lines of each make what is due. The carts' are in `carts.rs`.

use super::carts;
use super::catch::Slip;
use super::fleet::{DROPPED, FINE_NEW, HANGING};
use super::line::{Known, Line};
use super::office::{decide, void};
use super::people::BEN;
use super::script::Script;
use super::seed as s;

/// Writes the season, beginning with the units as the first season left them.
pub(super) fn write(script: &mut Script, lines: [Line; 16]) {
    let [
        box3_grain,
        box3_small,
        box6_grain,
        box6_fertilizer,
        air6_seed,
        air6_companion,
        air8,
        air12_seed,
        air12_fertilizer,
        cart18_front,
        cart18_middle,
        cart18_rear,
        cart12_front,
        cart12_rear,
        grass,
        _laid_up,
    ] = lines;
    small_box_drill(script, box3_grain, box3_small);
    large_box_drill_grain(script, box6_grain);
    large_box_drill_fertilizer(script, box6_fertilizer);
    six_metre_air_drill(script, air6_seed);
    companion_seed(script, air6_companion);
    eight_metre_air_drill(script, air8);
    twelve_metre_air_drill(script, air12_seed);
    twelve_metre_air_drill_fertilizer(script, air12_fertilizer);
    carts::large(script, cart18_front, cart18_middle, cart18_rear);
    carts::small(script, cart12_front, cart12_rear);
    new_grass_drill(script, grass);
}

/// Ready; its second box is empty. A mistyped area was corrected.
fn small_box_drill(script: &mut Script, mut grain: Line, mut small: Line) {
    grain.campaign(script, 48, &s::WHEAT_4, &[&s::LONG_MEADOW, &s::BECK_PIECE], Known::Weighed, true);
    grain.ratio = "5:8";
    grain.set_up(script, 30, (6, 40), "Next gear for the oats.");
    grain.fill_for(script, 30, (7, 0), &s::OATS_2, &[&s::KILN_CLOSE]);
    grain.catch(script, 30, (7, 20), &s::OATS_2, Slip::TwoRepeats);
    let end = grain.sow_mistyped(script, (30, (9, 0)), &s::OATS_2, &s::KILN_CLOSE);
    grain.empty(script, end, &s::OATS_2);
    grain.ratio = "1:2";
    grain.set_up(script, 12, (6, 30), "Back to the wheat's gear.");
    grain.campaign(script, 12, &s::WHEAT_8, &[&s::BECK_PIECE, &s::KILN_CLOSE], Known::Weighed, false);
    grain.fill_for(script, 3, (7, 30), &s::WHEAT_8, &[&s::STONY_ACRE]);
    grain.sow(script, script.at(3, (8, 30)), &s::WHEAT_8, (&s::STONY_ACRE, 0.8), Known::Weighed);
    small.campaign(script, 20, &s::CLOVER_2, &[&s::KILN_CLOSE], Known::Weighed, true);
}

/// `roller_changed`: the roller was swapped, nobody caught after, and two fields were sown with the old number.
fn large_box_drill_grain(script: &mut Script, mut grain: Line) {
    grain.campaign(script, 47, &s::WHEAT_5, &[&s::MILL_BANK, &s::STONY_ACRE], Known::Bags, true);
    grain.fill_for(script, 24, (6, 50), &s::WHEAT_6, &[&s::CHURCH_FIELD, &s::DROVERS]);
    let held = grain.catch(script, 24, (7, 5), &s::WHEAT_6, Slip::RevolutionsHalved);
    decide(script, script.at(24, (7, 30)), held, "rejected", "Half the turns were typed; caught again.");
    grain.catch(script, 24, (7, 40), &s::WHEAT_6, Slip::None);
    grain.sow_all(script, 24, &s::WHEAT_6, &[&s::CHURCH_FIELD, &s::DROVERS], Known::Weighed);
    grain.fill_for(script, 9, (7, 0), &s::WHEAT_6, &[&s::LOWER_CARR]);
    grain.catch(script, 9, (7, 30), &s::WHEAT_6, Slip::None);
    grain.sow(script, script.at(9, (8, 30)), &s::WHEAT_6, (&s::LOWER_CARR, 0.5), Known::Weighed);
    grain.roller = &FINE_NEW;
    grain.set_up(script, 6, (15, 0), "Flutes chipped by a stone; the spare is the new pattern.");
    grain.fill_for(script, 5, (7, 0), &s::WHEAT_6, &[&s::LOWER_CARR, &s::MILL_BANK]);
    grain.sow(script, script.at(5, (8, 0)), &s::WHEAT_6, (&s::LOWER_CARR, 0.5), Known::Weighed);
    grain.sow(script, script.at(4, (8, 0)), &s::WHEAT_6, (&s::MILL_BANK, 1.0), Known::Weighed);
}

/// `crop_changed` and `gate_changed`: another fertilizer, and the gate opened for it.
fn large_box_drill_fertilizer(script: &mut Script, mut tank: Line) {
    tank.campaign(script, 47, &s::PHOSPHATE_2, &[&s::MILL_BANK, &s::STONY_ACRE], Known::MachineTotal, true);
    tank.campaign(script, 24, &s::PHOSPHATE_2, &[&s::CHURCH_FIELD, &s::DROVERS], Known::Bags, true);
    tank.gate = Some("14");
    tank.set_up(script, 7, (10, 0), "Opened two notches for the potash.");
    tank.fill_for(script, 7, (10, 30), &s::POTASH_2, &[&s::LOWER_CARR]);
    tank.sow(script, script.at(5, (8, 0)), &s::POTASH_2, (&s::LOWER_CARR, 0.5), Known::Bags);
}

/// `calibration_in_doubt`: ounces typed as tenths; held, and waiting for the office.
fn six_metre_air_drill(script: &mut Script, mut seed: Line) {
    seed.campaign(script, 45, &s::WHEAT_4, &[&s::TOP_FORTY], Known::Weighed, true);
    seed.fill_for(script, 27, (7, 0), &s::BARLEY_3, &[&s::CHURCH_FIELD]);
    let rpm = 35.0;
    let held = seed.catch_at(script, 27, (7, 10), &s::BARLEY_3, rpm, Slip::PoundsAsKilograms, &HANGING);
    decide(script, script.at(27, (7, 35)), held, "rejected", "The scale stood on pounds.");
    seed.catch_at(script, 27, (7, 45), &s::BARLEY_3, rpm, Slip::None, &HANGING);
    let end = seed.sow_all(script, 27, &s::BARLEY_3, &[&s::CHURCH_FIELD], Known::Weighed);
    seed.empty(script, end, &s::BARLEY_3);
    seed.campaign(script, 10, &s::WHEAT_8, &[&s::LONG_MEADOW, &s::MILL_BANK], Known::Weighed, false);
    seed.catch(script, 2, (7, 15), &s::WHEAT_8, Slip::OuncesAsTenths);
}

/// `lot_changed` and `drive_ratio_changed`.
fn companion_seed(script: &mut Script, mut tank: Line) {
    tank.campaign(script, 18, &s::CLOVER_2, &[&s::STONY_ACRE], Known::Weighed, true);
    tank.ratio = "2:3";
    tank.set_up(script, 8, (9, 0), "Smaller sprocket for the fine seed.");
    tank.fill_for(script, 8, (9, 30), &s::CLOVER_3, &[&s::LONG_MEADOW]);
    tank.sow(script, script.at(7, (9, 0)), &s::CLOVER_3, (&s::LONG_MEADOW, 1.0), Known::MachineTotal);
}

/// `component_replaced` and `configuration_changed`. Before that, a light lot was sown for a day with the number of a heavy
/// one.
fn eight_metre_air_drill(script: &mut Script, mut seed: Line) {
    seed.campaign(script, 44, &s::BARLEY_4, &[&s::FAR_MOOR], Known::Weighed, true);
    seed.campaign(script, 31, &s::WHEAT_6, &[&s::CHURCH_FIELD, &s::LOWER_CARR], Known::Weighed, true);
    seed.fill_for(script, 26, (7, 0), &s::WHEAT_LIGHT, &[&s::DROVERS, &s::KILN_CLOSE]);
    seed.sow_all(script, 26, &s::WHEAT_LIGHT, &[&s::DROVERS, &s::KILN_CLOSE], Known::Weighed);
    seed.campaign(script, 25, &s::WHEAT_LIGHT, &[&s::TOP_FORTY], Known::Weighed, true);
    seed.service(script, 20, (14, 0), ("speed_sensor", false, "Radar read nothing; new one, set to the old constant."));
    seed.campaign(script, 13, &s::BARLEY_5, &[&s::TOP_FORTY, &s::MILL_BANK], Known::Weighed, false);
    seed.service(script, 4, (11, 30), ("hydraulic_motor", true, "Seal blown, motor exchanged."));
    seed.runs = 8;
    seed.set_up(script, 3, (7, 30), "Two outer runs blanked off for the narrow strips.");
    seed.fill_for(script, 2, (7, 30), &s::BARLEY_5, &[&s::STONY_ACRE]);
    seed.sow(script, script.at(2, (8, 30)), &s::BARLEY_5, (&s::STONY_ACRE, 1.0), Known::Weighed);
}

/// Ready by a recalled number: the lot of three weeks ago is in again. One lot was caught at three roller speeds.
fn twelve_metre_air_drill(script: &mut Script, mut seed: Line) {
    seed.campaign(script, 43, &s::WHEAT_5, &[&s::FAR_MOOR, &s::LOWER_CARR], Known::Weighed, true);
    let wrong = seed.fill(script, 42, (16, 0), &s::WHEAT_4, 800.0);
    seed.never_filled(script, 42, (16, 0), &s::WHEAT_4, 800.0);
    void(script, script.at(42, (16, 20)), &BEN, wrong, "That was the six-metre drill.");
    seed.campaign(script, 21, &s::WHEAT_6, &[&s::TOP_FORTY, &s::CHURCH_FIELD], Known::Weighed, true);
    let known = seed.keyed;
    seed.fill_for(script, 14, (6, 45), &s::WHEAT_8, &[&s::LONG_MEADOW, &s::DROVERS]);
    seed.catch_at(script, 14, (7, 0), &s::WHEAT_8, 24.0, Slip::None, &HANGING);
    seed.catch_at(script, 14, (7, 30), &s::WHEAT_8, 58.0, Slip::None, &HANGING);
    seed.catch_at(script, 14, (7, 55), &s::WHEAT_8, 38.0, Slip::None, &HANGING);
    let end = seed.sow_all(script, 14, &s::WHEAT_8, &[&s::LONG_MEADOW, &s::DROVERS], Known::Weighed);
    seed.empty(script, end, &s::WHEAT_8);
    seed.keyed = known;
    seed.fill_for(script, 3, (7, 0), &s::WHEAT_6, &[&s::KILN_CLOSE, &s::STONY_ACRE]);
    seed.sow_all(script, 3, &s::WHEAT_6, &[&s::KILN_CLOSE, &s::STONY_ACRE], Known::Weighed);
}

/// `interval` and `scale_unchecked`: caught five weeks ago, with a scale that failed its next check.
fn twelve_metre_air_drill_fertilizer(script: &mut Script, mut tank: Line) {
    tank.campaign(script, 43, &s::PHOSPHATE_2, &[&s::FAR_MOOR, &s::LOWER_CARR], Known::MachineTotal, true);
    tank.fill_for(script, 33, (7, 0), &s::PHOSPHATE_2, &[&s::TOP_FORTY, &s::CHURCH_FIELD]);
    tank.catch_at(script, 33, (7, 30), &s::PHOSPHATE_2, 20.0, Slip::None, &DROPPED);
    tank.sow_all(script, 21, &s::PHOSPHATE_2, &[&s::TOP_FORTY, &s::CHURCH_FIELD], Known::Weighed);
    tank.fill_for(script, 14, (7, 0), &s::PHOSPHATE_2, &[&s::LONG_MEADOW, &s::DROVERS]);
    tank.sow_all(script, 14, &s::PHOSPHATE_2, &[&s::LONG_MEADOW, &s::DROVERS], Known::Bags);
}

/// `never_calibrated`: its only catch had a plugged run, was held and rejected, and a field was sown all the same.
fn new_grass_drill(script: &mut Script, mut seed: Line) {
    seed.set_up(script, 16, (10, 0), "As delivered.");
    seed.fill_for(script, 13, (8, 0), &s::CLOVER_3, &[&s::KILN_CLOSE]);
    let held = seed.catch(script, 13, (8, 40), &s::CLOVER_3, Slip::Plugged(1));
    decide(
        script,
        script.at(12, (9, 0)),
        held,
        "rejected",
        "Runs 9 to 16 gave next to nothing: packing foam in the box.",
    );
    seed.sow(script, script.at(11, (9, 0)), &s::CLOVER_3, (&s::KILN_CLOSE, 1.0), Known::MachineTotal);
}
