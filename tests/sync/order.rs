//! A season's entries in any order, in batches of any size: the same state and the same results.

use super::{entry, send};
use crate::on_both;
use crate::readiness::farm::{AGREES, Farm, catch, fill, id, job, lot_test, service, setup};
use crate::world::World;
use serde_json::{Value, json};

on_both!(
    in_one_batch_the_order_changes_nothing_at_all,
    in_batches_the_order_changes_no_state,
    a_correction_may_come_before_what_it_corrects,
    what_came_too_early_is_taken_in_by_itself,
    every_phone_sends_once_in_any_order,
    hopeless_entries_stand_in_the_way_of_none,
);

/// A season as it happened, with two corrections in it.
fn season(farm: &Farm) -> Vec<Value> {
    let unit = |kind: &str, number: u32, record: Value| entry(kind, &farm.unit, number, record);
    let scale = Some(farm.scale.as_str());
    let check = |at: &str| json!({ "occurred_at": at, "reference": { "value": "10", "unit": "kg" }, "reading": { "value": "10.005", "unit": "kg" } });
    let corrected = |mut record: Value, number: u32| {
        record["corrects"] = json!(id(number));
        record
    };
    let emptying = json!({ "occurred_at": "2027-03-30T18:00:00Z", "lot_id": farm.wheat, "to_empty": true });
    vec![
        unit("setup", 101, setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")),
        unit("fill", 102, fill("2027-03-22T08:00:00Z", &farm.rape)),
        unit("fill", 103, corrected(fill("2027-03-22T08:00:00Z", &farm.wheat), 102)),
        entry("lot_test", &farm.wheat, 104, lot_test("2027-03-23T08:00:00Z", "40")),
        entry("scale_check", &farm.scale, 105, check("2027-03-23T09:00:00Z")),
        unit("calibration", 106, catch("2027-03-24T08:00:00Z", &farm.wheat, scale, AGREES)),
        unit("job", 107, job("2027-03-25T08:00:00Z", &farm.wheat, "1410", "12")),
        unit("setup", 108, setup("2027-03-26T08:00:00Z", &farm.coarse, "5:2", "10")),
        unit("setup", 109, corrected(setup("2027-03-26T08:00:00Z", &farm.coarse, "5:2", "12"), 108)),
        unit("calibration", 110, catch("2027-03-27T08:00:00Z", &farm.wheat, scale, "9.680")),
        unit("setup", 111, setup("2027-03-28T08:00:00Z", &farm.fine, "5:2", "12")),
        unit("job", 112, job("2027-03-28T12:00:00Z", &farm.wheat, "1402", "9")),
        entry("service", &farm.seeder, 113, service("2027-03-29T08:00:00Z", true)),
        unit("calibration", 114, catch("2027-03-30T08:00:00Z", &farm.wheat, scale, "9.650")),
        unit("emptying", 115, emptying),
        unit("fill", 116, fill("2027-03-31T08:00:00Z", &farm.other_wheat)),
        unit("calibration", 117, catch("2027-03-31T09:00:00Z", &farm.other_wheat, scale, "9.630")),
    ]
}

const CAUGHT: [u32; 4] = [106, 110, 114, 117];

/// Chance that is the same each time.
struct Chance(u64);

impl Chance {
    fn below(&mut self, most: usize) -> usize {
        // Source: Marsaglia, Xorshift RNGs (2003), the triple 13, 7, 17.
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % u64::try_from(most).unwrap()).unwrap()
    }

    fn shuffle(&mut self, things: &mut [Value]) {
        for last in (1..things.len()).rev() {
            things.swap(last, self.below(last + 1));
        }
    }
}

async fn farm(world: &World) -> Farm {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    Farm::of(world.member(organization, "ana-order@example.org", "office").await).await
}

/// Readiness at noon of every day of the season.
async fn readiness(farm: &Farm) -> Vec<Value> {
    let mut told = Vec::new();
    for day in 21..=31 {
        told.push(farm.ana.read(&format!("/readiness?at=2027-03-{day}T12:00:00Z")).await);
    }
    told
}

async fn calibration(farm: &Farm, number: u32) -> Value {
    let mut record = farm.ana.read(&format!("/calibrations/{}", id(number))).await;
    // The server made the ids of the person and of the drill's first configuration; each farm here has its own.
    record.as_object_mut().unwrap().remove("recorded_by");
    record["circumstances"].as_object_mut().unwrap().remove("configuration_id");
    record
}

async fn in_one_batch_the_order_changes_nothing_at_all(world: World) {
    let mut told: Option<(Vec<Value>, Vec<Value>)> = None;
    let mut chance = Chance(20_270_401);
    for round in 0..5 {
        let farm = farm(&world).await;
        let mut entries = season(&farm);
        if round > 0 {
            chance.shuffle(&mut entries);
        }
        let results = send(&farm.ana, &entries).await;
        assert!(results.iter().all(|result| result["outcome"] == "stored"), "{results:?}");
        let mut caught = Vec::new();
        for number in CAUGHT {
            caught.push(calibration(&farm, number).await);
        }
        let now = (readiness(&farm).await, caught);
        match &told {
            None => told = Some(now),
            Some(told) => assert_eq!(told, &now, "round {round}"),
        }
    }
    let (readiness, caught) = told.unwrap();
    let states: Vec<&str> = readiness.iter().map(|day| day["units"][0]["state"].as_str().unwrap()).collect();
    assert_eq!(
        states,
        [
            "empty",
            "calibrate",
            "calibrate",
            "ready",
            "check",
            "calibrate",
            "ready",
            "ready",
            "calibrate",
            "ready",
            "ready"
        ],
        "the season has something in it"
    );
    assert!(caught.iter().all(|record| record["status"] == "accepted"), "{caught:?}");
}

/// What of a calibration is the catch's own: the judgement's other parts tell what was known when it was taken in.
fn of_the_catch(record: &Value) -> Value {
    let result = &record["result"];
    json!([
        record["status"],
        result["verdict"],
        result["factor"],
        result["factor_unit_total"],
        result["repeats"],
        result["expanded_uncertainty_percent"],
        result["repeat_spread_percent"],
        result["run_cv_percent"]
    ])
}

async fn in_batches_the_order_changes_no_state(world: World) {
    let mut told: Option<(Vec<Value>, Vec<Value>)> = None;
    let mut chance = Chance(42);
    for round in 0..5 {
        let farm = farm(&world).await;
        let mut waiting = season(&farm);
        // What is refused is sent again, as from a phone on which somebody asks for it.
        let mut sendings = 0;
        while !waiting.is_empty() {
            chance.shuffle(&mut waiting);
            let size = 1 + chance.below(6.min(waiting.len()));
            let batch: Vec<Value> = waiting.drain(..size).collect();
            let results = send(&farm.ana, &batch).await;
            waiting.extend(
                batch
                    .into_iter()
                    .zip(&results)
                    .filter(|(_, result)| result["outcome"] == "refused")
                    .map(|(sent, _)| sent),
            );
            sendings += 1;
            assert!(sendings < 500, "round {round}: what waits is never taken in: {waiting:?}");
        }
        let mut caught = Vec::new();
        for number in CAUGHT {
            caught.push(of_the_catch(&calibration(&farm, number).await));
        }
        let now = (readiness(&farm).await, caught);
        match &told {
            None => told = Some(now),
            Some(told) => assert_eq!(told, &now, "round {round}"),
        }
        assert_eq!(farm.ana.read("/refused").await["items"], json!([]), "whatever waited is taken in");
    }
}

async fn a_correction_may_come_before_what_it_corrects(world: World) {
    let farm = farm(&world).await;
    let all = season(&farm);
    let of = |number: u32| all[usize::try_from(number - 101).unwrap()].clone();
    let results = send(&farm.ana, &[of(103), of(102)]).await;
    assert!(results.iter().all(|result| result["outcome"] == "stored"), "{results:?}");
    // Alone it names nothing that is there, until the other has come.
    let alone = send(&farm.ana, &[of(109)]).await;
    assert_eq!((&alone[0]["outcome"], &alone[0]["problem"]["status"]), (&json!("refused"), &json!(404)));
    assert_eq!(alone[0]["problem"]["errors"][0]["pointer"], "/corrects");
    let later = send(&farm.ana, &[of(108), of(109)]).await;
    assert!(later.iter().all(|result| result["outcome"] == "stored"), "{later:?}");
    // Two that correct each other are refused, both.
    let mut circle = [of(101), of(111)];
    circle[0]["record"]["corrects"] = json!(id(111));
    circle[1]["record"]["corrects"] = json!(id(101));
    let results = send(&farm.ana, &circle).await;
    assert!(results.iter().all(|result| result["problem"]["status"] == 404), "{results:?}");
}

/// Every entry from a phone of its own, sent once: what another one sends later lets it in.
async fn every_phone_sends_once_in_any_order(world: World) {
    let mut told: Option<(Vec<Value>, Vec<Value>)> = None;
    let mut chance = Chance(7);
    for round in 0..6 {
        let farm = farm(&world).await;
        let mut entries = season(&farm);
        match round {
            0 => {}
            // The worst of all orders: nothing is there yet that anything needs.
            1 => entries.reverse(),
            _ => chance.shuffle(&mut entries),
        }
        let mut refused = 0;
        for entry in &entries {
            refused += usize::from(send(&farm.ana, std::slice::from_ref(entry)).await[0]["outcome"] == "refused");
        }
        assert_eq!(refused > 0, round > 0, "round {round}: {refused} came too early");
        assert_eq!(farm.ana.read("/refused").await["items"], json!([]), "round {round}: nothing waits");
        let mut caught = Vec::new();
        for number in CAUGHT {
            caught.push(of_the_catch(&calibration(&farm, number).await));
        }
        let now = (readiness(&farm).await, caught);
        match &told {
            None => told = Some(now),
            Some(told) => assert_eq!(told, &now, "round {round}"),
        }
    }
}

async fn what_came_too_early_is_taken_in_by_itself(world: World) {
    let farm = farm(&world).await;
    let kim = super::kim(&world, &farm).await;
    let record = catch("2027-03-24T08:00:00Z", &farm.wheat, Some(&farm.scale), AGREES);
    let sent = json!({
        "sent_at": "2027-03-24T12:00:00+01:00", "device": "Kim's phone",
        "entries": [entry("calibration", &farm.unit, 106, record)]
    });
    let answer = kim.post("/sync", sent).await.json();
    assert_eq!(answer["results"][0]["outcome"], "refused", "no roller is fitted yet: {answer}");
    let waits = kim.read(&format!("/refused/{}", id(106))).await;
    assert_eq!(waits["ended"], Value::Null);

    // Something else is stored: it is tried, in vain, and waits on; the audit trail says nothing of it.
    let trail = farm.ana.read("/audit").await["items"].as_array().unwrap().len();
    farm.at_lot(&farm.rape, lot_test("2027-03-23T08:00:00Z", "4")).await;
    assert_eq!(kim.read(&format!("/refused/{}", id(106))).await["ended"], Value::Null);
    assert_eq!(farm.ana.read("/audit").await["items"].as_array().unwrap().len(), trail + 1);

    // The setup comes from the office, by its own address.
    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    let stored = farm.ana.read(&format!("/calibrations/{}", id(106))).await;
    assert_eq!(stored["status"], "accepted", "{stored}");
    assert_eq!(stored["recorded_by"]["name"], "kim-sync", "it is its sender's");
    assert_ne!(stored["clock_error_seconds"], Value::Null, "what the phone's clock said is kept with it: {stored}");
    let ended = kim.read(&format!("/refused/{}", id(106))).await["ended"].clone();
    assert_eq!((&ended["how"], &ended["href"]), (&json!("mended"), &json!(format!("/calibrations/{}", id(106)))));
    assert!(ended["says"].as_str().unwrap().contains("judged"), "{ended}");

    // Sent again by a phone that does not know: the same, once.
    let again = kim.post("/sync", json!({ "entries": [entry("calibration", &farm.unit, 106, catch("2027-03-24T08:00:00Z", &farm.wheat, Some(&farm.scale), AGREES))] })).await;
    assert_eq!(again.json()["results"][0]["outcome"], "already_stored");
}

async fn hopeless_entries_stand_in_the_way_of_none(world: World) {
    let farm = farm(&world).await;
    // More than are tried after one request: catches of a lot that will never be there.
    let nowhere = id(999);
    let hopeless: Vec<Value> =
        (200..230).map(|number| entry("fill", &farm.unit, number, fill("2027-03-22T08:00:00Z", &nowhere))).collect();
    let results = send(&farm.ana, &hopeless).await;
    assert!(results.iter().all(|result| result["outcome"] == "refused"), "{results:?}");
    let early =
        entry("calibration", &farm.unit, 106, catch("2027-03-24T08:00:00Z", &farm.wheat, Some(&farm.scale), AGREES));
    assert_eq!(send(&farm.ana, &[early]).await[0]["outcome"], "refused");
    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    // One more request may be needed until its turn comes.
    farm.at_lot(&farm.rape, lot_test("2027-03-23T08:00:00Z", "4")).await;
    assert_eq!(farm.ana.read(&format!("/calibrations/{}", id(106))).await["status"], "accepted");
    let waiting = farm.ana.read("/refused?limit=100").await["items"].as_array().unwrap().len();
    assert_eq!(waiting, 30, "the others wait on");
}
