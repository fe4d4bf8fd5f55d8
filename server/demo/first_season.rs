//! The season before: most of it goes as it should, so that there is a past to compare with.

use super::catch::Slip;
use super::fleet as f;
use super::founding::FIRST_SEASON;
use super::line::{Known, Line};
use super::office::{decide, void};
use super::people::{ANNA, MARTA};
use super::script::{Act, Script};
use super::seed as s;
use crate::clock::Chance;
use crate::db::kind::Kind;
use serde_json::json;

/// A unit's fields with a lot, from so many days ago on.
type Campaign = (&'static f::Unit, i64, &'static s::Lot, &'static [&'static s::Field], Known);

static CAMPAIGNS: [Campaign; 23] = [
    (&f::BOX3_GRAIN, 226, &s::WHEAT_1, &[&s::LONG_MEADOW, &s::BECK_PIECE], Known::Weighed),
    (&f::BOX3_SMALL, 196, &s::CLOVER_1, &[&s::KILN_CLOSE], Known::Weighed),
    (&f::BOX6_GRAIN, 225, &s::WHEAT_2, &[&s::MILL_BANK, &s::STONY_ACRE, &s::DROVERS], Known::Weighed),
    (&f::BOX6_FERTILIZER, 225, &s::PHOSPHATE_1, &[&s::MILL_BANK, &s::STONY_ACRE, &s::DROVERS], Known::Bags),
    (&f::AIR6_SEED, 222, &s::BARLEY_1, &[&s::TOP_FORTY, &s::LOWER_CARR], Known::Weighed),
    (&f::AIR6_SEED, 203, &s::WHEAT_3, &[&s::LONG_MEADOW], Known::MachineTotal),
    (&f::AIR6_COMPANION, 203, &s::CLOVER_1, &[&s::LONG_MEADOW], Known::Weighed),
    (&f::AIR8_SEED, 220, &s::BARLEY_2, &[&s::FAR_MOOR, &s::CHURCH_FIELD], Known::Weighed),
    (&f::AIR12_SEED, 218, &s::WHEAT_3, &[&s::FAR_MOOR, &s::LOWER_CARR], Known::Weighed),
    (&f::AIR12_SEED, 195, &s::WHEAT_1, &[&s::TOP_FORTY, &s::MILL_BANK], Known::Bags),
    (&f::AIR12_FERTILIZER, 218, &s::PHOSPHATE_1, &[&s::FAR_MOOR, &s::LOWER_CARR], Known::MachineTotal),
    (&f::AIR12_FERTILIZER, 195, &s::POTASH_1, &[&s::TOP_FORTY, &s::MILL_BANK], Known::Bags),
    (&f::CART18_FRONT, 216, &s::WHEAT_2, &[&s::LOWER_CARR, &s::FAR_MOOR, &s::TOP_FORTY], Known::Weighed),
    (&f::CART18_FRONT, 191, &s::BARLEY_2, &[&s::CHURCH_FIELD, &s::STONY_ACRE], Known::Weighed),
    (&f::CART18_MIDDLE, 216, &s::PHOSPHATE_1, &[&s::LOWER_CARR, &s::FAR_MOOR, &s::TOP_FORTY], Known::MachineTotal),
    (&f::CART18_MIDDLE, 191, &s::POTASH_1, &[&s::CHURCH_FIELD, &s::STONY_ACRE], Known::MachineTotal),
    (&f::CART18_REAR, 189, &s::RAPE_1, &[&s::DROVERS, &s::FAR_MOOR], Known::Weighed),
    (&f::CART12_FRONT, 215, &s::BARLEY_1, &[&s::STONY_ACRE, &s::TOP_FORTY], Known::Weighed),
    (&f::CART12_FRONT, 192, &s::WHEAT_3, &[&s::LOWER_CARR, &s::DROVERS], Known::MachineTotal),
    (&f::CART12_REAR, 186, &s::PEAS_1, &[&s::MILL_BANK, &s::STONY_ACRE], Known::Weighed),
    (&f::SPARE4_BOX, 224, &s::WHEAT_2, &[&s::BECK_PIECE], Known::Weighed),
    (&f::SPARE4_BOX, 208, &s::WHEAT_1, &[&s::KILN_CLOSE], Known::Bags),
    (&f::CART18_FRONT, 182, &s::WHEAT_2, &[&s::KILN_CLOSE, &s::DROVERS], Known::Weighed),
];

/// Writes the season; answers the units as it leaves them, in the order of [`f::UNITS`].
pub(super) fn write(script: &mut Script) -> [Line; 16] {
    let mut lines = f::UNITS.map(Line::of);
    for (unit, line) in f::UNITS.iter().zip(&mut lines) {
        if unit.seeder.key != f::GRASS4.key {
            line.set_up(script, FIRST_SEASON, (10, 0), "As it was parked.");
        }
    }
    for (unit, day, lot, fields, known) in &CAMPAIGNS {
        for line in f::UNITS.iter().zip(&mut lines).filter(|(other, _)| other.key == unit.key).map(|(_, line)| line) {
            line.campaign(script, *day, lot, fields, *known, true);
        }
    }
    for (unit, line) in f::UNITS.iter().zip(&mut lines) {
        match unit.key {
            "unit/box3-grain" => oats(script, line),
            "unit/box6-grain" => bags_weighed_in(script, line),
            "unit/air8" => a_spill(script, line),
            _ => {}
        }
    }
    lay_up(script);
    lines
}

/// A ground drive is set to another rate by its ratio alone.
fn oats(script: &mut Script, line: &mut Line) {
    line.ratio = "5:8";
    line.set_up(script, 214, (6, 40), "Next gear for the oats.");
    line.campaign(script, 214, &s::OATS_1, &[&s::KILN_CLOSE], Known::Weighed, true);
    line.ratio = "1:2";
    line.set_up(script, 213, (9, 0), "Back to the wheat's gear.");
}

/// The trays were weighed in. What the check said made somebody look, and the catch was made again and the first voided.
fn bags_weighed_in(script: &mut Script, line: &mut Line) {
    line.fill_for(script, 205, (6, 50), &s::BARLEY_1, &[&s::CHURCH_FIELD]);
    let wrong = line.catch(script, 205, (7, 5), &s::BARLEY_1, Slip::TareLeft);
    line.catch(script, 205, (7, 40), &s::BARLEY_1, Slip::None);
    void(
        script,
        script.at(205, (7, 50)),
        &ANNA,
        wrong,
        "The trays were weighed in: the scale was not set back to zero.",
    );
    let end = line.sow_all(script, 205, &s::BARLEY_1, &[&s::CHURCH_FIELD], Known::Bags);
    line.empty(script, end, &s::BARLEY_1);
}

/// A repeat with a spill was counted in, so the catch was held; the next one sets its own spill aside.
fn a_spill(script: &mut Script, line: &mut Line) {
    line.fill_for(script, 200, (7, 0), &s::RYE_1, &[&s::DROVERS]);
    let held = line.catch(script, 200, (7, 20), &s::RYE_1, Slip::Spilt);
    line.catch(script, 200, (7, 55), &s::RYE_1, Slip::SetAside);
    decide(script, script.at(199, (8, 30)), held, "rejected", "The third repeat was spilt; the catch after it stands.");
    let end = line.sow_all(script, 200, &s::RYE_1, &[&s::DROVERS], Known::Weighed);
    line.empty(script, end, &s::RYE_1);
}

fn lay_up(script: &mut Script) {
    let at = script.at(150, (11, 0));
    let record = json!({ "id": Chance::of("lay-up/spare").id(at), "occurred_at": script.text(at), "laid_up": true,
        "note": "Coulters worn; kept for parts until the winter." });
    let seeder = script.seeder(&f::SPARE4);
    script.push(at, &MARTA, Act::Office(Kind::LayUp, seeder, record));
}
