//! The carts in the season that is on: a mixed tank, a lot that became lighter, a drifting meter, a phone without signal for
//! a day, and what the server refused of another's.

use super::catch::Slip;
use super::fleet::{AIR8_SEED, CART12_REAR, CART18_FRONT, HANGING};
use super::line::{Known, Line};
use super::office::waive;
use super::people::{CARLA, DEV, MARTA};
use super::script::{Act, Script, kg, quantity};
use super::seed as s;
use crate::clock::Chance;
use jiff::Timestamp;
use serde_json::{Value, json};
use uuid::Uuid;

/// The large cart: a waived `lot_changed` on a mixed tank, `seed_weight_changed`, `roller_speed_off`.
pub(super) fn large(script: &mut Script, mut front: Line, mut middle: Line, mut rear: Line) {
    front.campaign(script, 42, &s::WHEAT_5, &[&s::FAR_MOOR, &s::TOP_FORTY, &s::CHURCH_FIELD], Known::Weighed, true);
    front.campaign(script, 19, &s::WHEAT_6, &[&s::LOWER_CARR, &s::DROVERS], Known::Weighed, false);
    front.fill_for(script, 8, (7, 30), &s::WHEAT_8, &[&s::LONG_MEADOW]);
    let unit = script.unit(&CART18_FRONT);
    let reason = "Bulk densities are 2 % apart and rain is coming; caught again before the next field.";
    waive(script, script.at(8, (9, 0)), unit, "lot_changed", 9, reason);
    front.sow(script, script.at(8, (9, 30)), &s::WHEAT_8, (&s::LONG_MEADOW, 1.0), Known::Weighed);

    middle.campaign(script, 42, &s::POTASH_2, &[&s::FAR_MOOR, &s::TOP_FORTY], Known::MachineTotal, true);
    middle.campaign(script, 19, &s::POTASH_2, &[&s::LOWER_CARR, &s::DROVERS], Known::Weighed, false);
    middle.wear = 0.945;
    middle.fill_for(script, 5, (7, 30), &s::POTASH_2, &[&s::LONG_MEADOW]);
    middle.sow(script, script.at(5, (8, 30)), &s::POTASH_2, (&s::LONG_MEADOW, 1.0), Known::Weighed);

    rear.campaign(script, 40, &s::RAPE_2, &[&s::DROVERS], Known::Weighed, true);
    // This phone's clock is 23 minutes ahead of everybody's.
    script.go_offline();
    rear.campaign(script, 16, &s::RAPE_3, &[&s::CHURCH_FIELD], Known::Weighed, false);
    script.go_online(script.at(16, (19, 5)), &CARLA, "Cab phone", 23);
    rear.speed = 13.0;
    rear.fill_for(script, 5, (7, 0), &s::RAPE_3, &[&s::FAR_MOOR]);
    rear.sow(script, script.at(5, (8, 0)), &s::RAPE_3, (&s::FAR_MOOR, 1.0), Known::Weighed);
}

/// The small cart: `drift`, `new_season`, and the day without signal.
pub(super) fn small(script: &mut Script, mut front: Line, mut rear: Line) {
    front.campaign(script, 41, &s::BARLEY_3, &[&s::STONY_ACRE, &s::TOP_FORTY], Known::Weighed, true);
    front.campaign(script, 17, &s::BARLEY_5, &[&s::LOWER_CARR], Known::Weighed, false);
    // A worn clutch: the roller turns on for a moment after each stop.
    front.wear = 1.065;
    front.fill_for(script, 15, (7, 0), &s::BARLEY_5, &[&s::FAR_MOOR]);
    front.sow(script, script.at(15, (8, 30)), &s::BARLEY_5, (&s::FAR_MOOR, 1.0), Known::Weighed);
    rear.campaign(script, 39, &s::PEAS_2, &[&s::MILL_BANK], Known::Bags, true);

    script.go_offline();
    front.fill_for(script, 9, (6, 40), &s::BARLEY_5, &[&s::DROVERS]);
    rear.fill_for(script, 9, (7, 0), &s::PEAS_3, &[&s::BECK_PIECE, &s::STONY_ACRE]);
    rear.catch(script, 9, (7, 30), &s::PEAS_3, Slip::None);
    front.sow(script, script.at(9, (8, 30)), &s::BARLEY_5, (&s::DROVERS, 1.0), Known::Weighed);
    rear.sow_all(script, 9, &s::PEAS_3, &[&s::BECK_PIECE, &s::STONY_ACRE], Known::Weighed);
    script.go_online(script.at(8, (7, 10)), &DEV, "Dev's phone", 0);

    for (day, field) in [(6, &s::MILL_BANK), (4, &s::CHURCH_FIELD)] {
        front.fill_for(script, day, (7, 0), &s::BARLEY_5, &[field]);
        front.sow(script, script.at(day, (8, 30)), &s::BARLEY_5, (field, 1.0), Known::Weighed);
    }
    refused(script);
}

/// What a phone sent and the server did not take in: one was mended since, one dropped, two still wait.
fn refused(script: &mut Script) {
    let at = script.at(3, (7, 45));
    let unit = script.unit(&CART12_REAR);
    let id = |name: &str| Chance::of(&format!("refused/{name}")).id(at);
    let setup = json!({ "id": id("setup"), "occurred_at": script.text(at), "roller_id": script.id(super::fleet::EXTRA.key),
        "drive_ratio": "1", "gate": null, "runs": 41, "note": "All runs open again." });
    let fill = json!({ "id": id("fill"), "occurred_at": script.text(at), "lot_id": script.lot(&s::PEAS_3), "mass": kg(400.0, 0) });
    let entries = [
        entry("setup", unit, &setup),
        entry("calibration", unit, &swapped_tare(script, at, id("catch"))),
        entry("job", unit, &job(script, id("job"), (18, 30), (12, 10))),
        // Not a machine of this crew.
        entry("fill", script.unit(&AIR8_SEED), &fill),
    ];
    script.send(script.at(3, (19, 20)), &DEV, "Dev's phone", 0, &entries);
    let mended = [entry("job", unit, &job(script, id("job"), (8, 30), (12, 10)))];
    script.send(script.at(2, (7, 5)), &DEV, "Dev's phone", 0, &mended);
    script.push(
        script.at(2, (9, 0)),
        &MARTA,
        Act::Drop(id("fill"), json!({ "reason": "Logged by the air drills' crew as well." })),
    );
}

fn entry(kind: &str, parent: Uuid, record: &Value) -> Value {
    json!({ "kind": kind, "parent_id": parent, "record": record })
}

fn job(script: &Script, id: Uuid, begin: (i64, i64), end: (i64, i64)) -> Value {
    json!({ "id": id, "occurred_at": script.text(script.at(3, begin)), "ended_at": script.text(script.at(3, end)),
        "field_id": script.id(s::KILN_CLOSE.key), "lot_id": script.lot(&s::PEAS_3), "area": quantity("5.2", "ha"),
        "seed_used": kg(1150.0, 0), "seed_used_basis": "weighed", "target_rate": quantity("220", "kg/ha"),
        "speed": quantity("9", "km/h"), "note": "" })
}

/// A sheet with tare and gross in each other's place.
fn swapped_tare(script: &Script, at: Timestamp, id: Uuid) -> Value {
    let catch =
        |run: u32| json!({ "label": format!("run {run}"), "runs": 1, "tare": kg(1.690, 3), "gross": kg(0.325, 3) });
    let repeat = || json!({ "revolutions": "12.0", "catches": [catch(1), catch(4), catch(7), catch(10)] });
    json!({ "id": id, "occurred_at": script.text(at), "lot_id": script.lot(&s::PEAS_3), "scale_id": script.id(HANGING.key),
        "method": "stationary", "roller_speed_rpm": "25", "planned": null, "note": "", "repeats": [repeat(), repeat()] })
}
