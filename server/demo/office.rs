//! What the office and the agronomist do besides: tolerances, decisions, waivers, voids, and the stock.

use super::people::{MARTA, OWEN, Person};
use super::script::{Act, Script, kg, quantity};
use super::seed::{self, LOTS, Lot};
use crate::clock::Chance;
use crate::db::kind::Kind;
use jiff::Timestamp;
use serde_json::{Value, json};
use uuid::Uuid;

/// A held calibration is accepted or rejected.
pub(super) fn decide(script: &mut Script, at: Timestamp, held: Uuid, decision: &str, reason: &str) {
    let record = json!({ "id": Chance::of(&format!("decision/{held}")).id(at), "occurred_at": script.text(at),
        "decision": decision, "reason": reason });
    script.push(at, &MARTA, Act::Office(Kind::Decision, held, record));
}

/// A record does not stand.
pub(super) fn void(script: &mut Script, at: Timestamp, who: &'static Person, record: Uuid, reason: &str) {
    let draft = json!({ "id": Chance::of(&format!("void/{record}")).id(at), "reason": reason });
    script.push(at, who, Act::Void(record, draft));
}

/// A trigger may pass on a unit for so many days from today on.
pub(super) fn waive(script: &mut Script, at: Timestamp, unit: Uuid, trigger: &str, days: i64, reason: &str) {
    let until = script.calendar.date(-days).to_string();
    let record = json!({ "id": Chance::of(&format!("waiver/{unit}/{trigger}")).id(at), "occurred_at": script.text(at),
        "trigger": trigger, "until": until, "reason": reason });
    script.push(at, &MARTA, Act::Office(Kind::Waiver, unit, record));
}

/// The tolerances that the contractor set: repeats closer together, and a catch no older than four weeks.
pub(super) fn policy(script: &mut Script) {
    script.push(
        script.at(56, (17, 0)),
        &MARTA,
        Act::Policy(json!({ "repeat_spread_limit_percent": 4, "interval_days": 28 })),
    );
}

/// A change of a lot's stock, in kg; what leaves the store is negative.
struct Moved(i64, &'static Lot, &'static str, f64, &'static str);

static MOVED: [Moved; 7] = [
    Moved(160, &seed::WHEAT_2, "sold", -800.0, "To Hollin Hall, for the headlands."),
    Moved(150, &seed::CLOVER_1, "discarded", -4.0, "Swept up from the drill."),
    Moved(140, &seed::PEAS_1, "sold", -350.0, ""),
    Moved(40, &seed::WHEAT_4, "returned", 150.0, "Left in the trailer."),
    Moved(22, &seed::BARLEY_5, "received", 1500.0, "Second delivery."),
    Moved(15, &seed::WHEAT_LIGHT, "discarded", -60.0, "Split bag, wet."),
    Moved(11, &seed::RYE_2, "sold", -500.0, "Not needed this season."),
];

/// Lots that were counted, when, and what could not be found, kg.
static COUNTED: [(i64, &Lot, f64); 10] = [
    (138, &seed::WHEAT_1, 12.0),
    (138, &seed::WHEAT_2, 18.0),
    (138, &seed::WHEAT_3, -6.0),
    (138, &seed::BARLEY_1, 21.0),
    (138, &seed::CLOVER_1, 0.5),
    (138, &seed::PHOSPHATE_1, 35.0),
    (1, &seed::WHEAT_4, 9.0),
    (1, &seed::WHEAT_5, 14.0),
    (1, &seed::WHEAT_6, 185.0),
    (1, &seed::POTASH_2, 40.0),
];

/// The lots as they came in: enough of each for what was drawn of it, and something over. Then what else moved, and what
/// was found when somebody counted.
pub(super) fn stock(script: &mut Script) {
    let today = script.at(0, (0, 0));
    for lot in LOTS {
        let drawn = script.drawn(lot, today);
        let moved: f64 = MOVED.iter().filter(|moved| moved.1.key == lot.key).map(|moved| moved.3).sum();
        let step = if lot.is_small() { 25.0 } else { 500.0 };
        let received = ((drawn - moved).max(0.0) * 1.05 / step).ceil() * step + step;
        deliver(script, lot, received);
        for (position, Moved(day, _, kind, mass, note)) in
            MOVED.iter().filter(|moved| moved.1.key == lot.key).enumerate()
        {
            let at = script.at(*day, (13, 0));
            movement(script, at, lot, (kind, mass.abs(), note), position);
        }
        for (day, _, missing) in COUNTED.iter().filter(|counted| counted.1.key == lot.key) {
            let at = script.at(*day, (6, 15));
            let before =
                MOVED.iter().filter(|moved| moved.1.key == lot.key && moved.0 > *day).map(|moved| moved.3).sum::<f64>();
            let found = (received + before - script.drawn(lot, at) - missing).max(0.0);
            movement(script, at, lot, ("counted", found, "Bags counted, the open one weighed."), 100);
        }
    }
}

fn deliver(script: &mut Script, lot: &'static Lot, received: f64) {
    let crop = lot.crop;
    let treatment = crop.treatment.map(|(product, caution)| json!({ "product": product, "caution": caution }));
    let analysis = crop.is_seed.then(|| {
        json!({ "purity_percent": "98.5", "germination_percent": crop.germination,
            "tested_on": script.calendar.date(lot.received + 20).to_string() })
    });
    let record = json!({ "id": script.lot(lot), "lot_number": lot.number, "material": if crop.is_seed { "seed" } else { "fertilizer" },
        "crop": crop.name, "variety": lot.variety, "supplier": lot.supplier,
        "received_on": script.calendar.date(lot.received).to_string(), "received_mass": kg(received, 0),
        "treatment": treatment, "analysis": analysis, "label": label(script, lot), "client_id": lot.client.map(|client| script.id(client.key)) });
    script.push(script.at(lot.received, (10, 0)), &OWEN, Act::Keep(Kind::Lot, record));
}

/// What the label of bought seed states besides; the farms' own seed has none.
fn label(script: &Script, lot: &Lot) -> Option<Value> {
    let digits: String = lot.number.chars().filter(char::is_ascii_digit).collect();
    let sealed = script.calendar.date(lot.received + 16);
    let small = lot.is_small();
    let (category, weight) =
        if small { ("certified seed, first generation", "25") } else { ("certified seed, second generation", "500") };
    lot.is_certified().then(|| {
        json!({ "origin": "Tarnshire", "category": category, "certifying_authority": "Tarnshire Seed Office",
            "serial_number": format!("TSO {digits} 0071"), "sealed_in": sealed.strftime("%Y-%m").to_string(),
            "declared_weight": quantity(weight, "kg"), "other_crop_percent": "0.2", "weed_seed_percent": "0.1",
            "inert_matter_percent": "1.2", "hard_seed_percent": lot.crop.hard_seed,
            "noxious_weeds": small.then_some("dock: 4 in 100 g; no dodder"),
            "test_report": format!("Tarnshire Seed Office laboratory, no. {digits}") })
    })
}

fn movement(script: &mut Script, at: Timestamp, lot: &Lot, (kind, mass, note): (&str, f64, &str), position: usize) {
    let id = Chance::of(&format!("{}/movement {position}", lot.key)).id(at);
    let mass: Value = quantity(format!("{mass:.1}"), "kg");
    let record = json!({ "id": id, "occurred_at": script.text(at), "kind": kind, "mass": mass, "note": note });
    let parent = script.lot(lot);
    script.push(at, &OWEN, Act::Office(Kind::Movement, parent, record));
}
