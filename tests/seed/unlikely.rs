//! What is asked of a record whose figures are far from what they should be near: on the seeder's page, the lot's page and the
//! usage audit, of who may know both figures, until the record is corrected.

use super::{Drill, drill, hand, id, job, kg, lot};
use crate::on_both;
use crate::people::browser::{Browser, location};
use crate::spanish;
use crate::world::{Person, World};
use serde_json::{Value, json};
use sowmark::access::Role;

on_both!(
    a_jobs_area_is_held_against_its_fields,
    a_jobs_rate_is_held_against_its_target,
    a_test_is_held_against_the_one_before,
    a_fill_is_held_against_what_came_in_and_told_to_who_sees_stock,
    what_is_ordinary_is_asked_nothing,
    it_goes_when_the_record_is_void_or_corrected,
    nothing_is_told_of_another_clients_field_or_lot,
    it_stands_at_the_head_of_the_page_after_saving_and_for_a_day,
    in_spanish_and_in_us_units,
);

/// Every question ends so in English.
const ASKED: &str = "A slip?";

/// A drill, a field of 12.4 ha, a lot of which 4000 kg came.
struct Yard {
    ana: Person,
    drill: Drill,
    field: String,
    lot: String,
}

/// A job where 180 kg/ha were wanted.
fn sowing(lot: &str, field: &str, area: &str, seed: &str) -> Value {
    let (area, target) = (json!({ "value": area, "unit": "ha" }), json!({ "value": "180", "unit": "kg/ha" }));
    job(lot, &json!({ "field": null, "field_id": field, "area": area, "seed_used": kg(seed), "target_rate": target }))
}

impl Yard {
    async fn new(world: &World) -> Self {
        let ana = world.ana().await;
        let drill = drill(world, &ana, "Drill 1").await;
        let area = json!({ "value": "12.4", "unit": "ha" });
        let field = id(&ana.create("/fields", json!({ "name": "Mill field", "area": area })).await);
        let lot = lot(&ana, "W-1", json!({ "received_mass": kg("4000"), "received_on": "2027-03-01" })).await;
        Self { ana, drill, field, lot }
    }

    fn job(&self, area: &str, seed: &str) -> Value {
        sowing(&self.lot, &self.field, area, seed)
    }

    async fn sown(&self, area: &str, seed: &str) -> String {
        id(&self.ana.create(&self.drill.path("jobs"), self.job(area, seed)).await)
    }

    async fn filled(&self, at: &str, mass: &str) -> String {
        let fill = json!({ "occurred_at": at, "lot_id": self.lot, "mass": kg(mass) });
        id(&self.ana.create(&self.drill.path("fills"), fill).await)
    }

    async fn tested(&self, at: &str, weight: &str, density: &str) -> String {
        let test = json!({ "occurred_at": at, "thousand_seed_weight": { "value": weight, "unit": "g" },
            "bulk_density": { "value": density, "unit": "kg/hL" } });
        id(&self.ana.create(&format!("/lots/{}/tests", self.lot), test).await)
    }

    async fn void(&self, record: &str) {
        self.ana.create(&format!("/records/{record}/void"), json!({ "reason": "mistyped" })).await;
    }

    /// The pages that may ask something.
    fn pages(&self) -> [String; 3] {
        [format!("/page/seeders/{}", self.drill.seeder), format!("/page/lots/{}", self.lot), "/page/usage".to_owned()]
    }

    /// Asserts on which of the seeder's page, the lot's and the usage audit somebody reads these words.
    async fn asks(&self, person: &Person, says: &str, on: [bool; 3]) {
        for (path, is_asked) in self.pages().into_iter().zip(on) {
            let page = person.get(&path).await;
            assert_eq!(page.status, 200, "{path}");
            assert_eq!(page.text.contains(says), is_asked, "{says} on {path}: {}", page.text);
        }
    }
}

async fn a_jobs_area_is_held_against_its_fields(world: World) {
    let yard = Yard::new(&world).await;
    let sown = yard.sown("124", "22320").await;
    yard.asks(&yard.ana, "124 ha is 10 times the field’s 12.4 ha. A slip?", [true; 3]).await;
    let page = yard.ana.get(&yard.pages()[0]).await.text;
    let (_, line) = page.split_once(&format!("id=\"{sown}\"")).expect("its line");
    let (line, _) = line.split_once("</li>").expect("its end");
    // Below what happened, where one can say that it was wrong.
    assert!(line.contains("124 ha is 10 times") && line.contains(&format!("/records/{sown}/void")), "{line}");
    // A field that is not kept has no area.
    yard.void(&sown).await;
    let elsewhere = job(&yard.lot, &json!({ "area": { "value": "1240", "unit": "ha" }, "seed_used": kg("173600") }));
    yard.ana.create(&yard.drill.path("jobs"), elsewhere).await;
    yard.asks(&yard.ana, ASKED, [false; 3]).await;
}

async fn a_jobs_rate_is_held_against_its_target(world: World) {
    let yard = Yard::new(&world).await;
    let high = yard.sown("12.4", "22320").await;
    yard.asks(&yard.ana, "1800 kg/ha sown is 10 times the target of 180 kg/ha. A slip?", [true; 3]).await;
    yard.void(&high).await;
    let mut low = yard.job("12.4", "223.2");
    low["seed_used_basis"] = json!("machine_total");
    yard.ana.create(&yard.drill.path("jobs"), low).await;
    yard.asks(&yard.ana, "The target of 180 kg/ha is 10 times the 18.0 kg/ha sown. A slip?", [true; 3]).await;
    yard.asks(&yard.ana, "1800 kg/ha", [false; 3]).await;
    // Both are asked where both are so: which one slipped is not known here.
    yard.sown("124", "2232").await;
    yard.asks(&yard.ana, "124 ha is 10 times the field’s 12.4 ha. A slip?", [true; 3]).await;
    // No stored value and no judgement is another for it.
    let usage = yard.ana.read("/usage").await;
    assert_eq!(usage["area"]["sown"], json!({ "value": "136.4", "unit": "ha" }), "{usage}");
    assert!(!usage.to_string().contains(ASKED));
}

async fn a_test_is_held_against_the_one_before(world: World) {
    let yard = Yard::new(&world).await;
    yard.tested("2027-03-10T08:00:00Z", "45.0", "78.0").await;
    let slipped = yard.tested("2027-03-11T08:00:00Z", "4.5", "121").await;
    let lot = [false, true, false];
    yard.asks(&yard.ana, "4.5 g per thousand seeds: the test before found 45.0 g, 10 times as much. A slip?", lot)
        .await;
    yard.asks(&yard.ana, "121 kg/hL is 1.6 times the 78.0 kg/hL of the test before. A slip?", lot).await;
    // Who tests lots is asked too, of stock or not.
    let cem = hand(&world, &yard.ana, "cem-unlikely@example.org", &[&yard.drill]).await;
    yard.asks(&cem, "4.5 g per thousand seeds", lot).await;
    // A test is held against the latest that stands, not against one that is void.
    yard.void(&slipped).await;
    yard.tested("2027-03-12T08:00:00Z", "44.0", "77.5").await;
    yard.asks(&yard.ana, ASKED, [false; 3]).await;
    yard.tested("2027-03-13T08:00:00Z", "440", "77.5").await;
    yard.asks(&yard.ana, "440 g per thousand seeds is 10 times the 44.0 g of the test before. A slip?", lot).await;
}

async fn a_fill_is_held_against_what_came_in_and_told_to_who_sees_stock(world: World) {
    let yard = Yard::new(&world).await;
    yard.filled("2027-03-20T08:00:00Z", "24000").await;
    let says = "24\u{202f}000 kg is more than the 4000 kg that had come in of this lot. A slip?";
    yard.asks(&yard.ana, says, [true, true, false]).await;
    let ada = world.member(yard.ana.organization, "ada-unlikely@example.org", "agronomist").await;
    yard.asks(&ada, says, [true, true, false]).await;
    // What came in is stock: a crew member is told nothing of it.
    let cem = hand(&world, &yard.ana, "cem-unlikely@example.org", &[&yard.drill]).await;
    yard.asks(&cem, ASKED, [false; 3]).await;
    yard.asks(&cem, "4000", [false; 3]).await;
    // What came in later was not there yet; what came in before was.
    let movement = |at: &str, kind: &str| json!({ "occurred_at": at, "kind": kind, "mass": kg("19000") });
    let path = format!("/lots/{}/movements", yard.lot);
    yard.ana.create(&path, movement("2027-03-21T08:00:00Z", "received")).await;
    yard.asks(&yard.ana, says, [true, true, false]).await;
    let received = id(&yard.ana.create(&path, movement("2027-03-19T08:00:00Z", "returned")).await);
    yard.asks(&yard.ana, ASKED, [false; 3]).await;
    // A count or a sale is none of it, and a void delivery never was.
    yard.void(&received).await;
    yard.ana.create(&path, movement("2027-03-18T08:00:00Z", "counted")).await;
    yard.asks(&yard.ana, says, [true, true, false]).await;
    // Of a lot whose deliveries are not kept nothing is known.
    let bare = lot(&yard.ana, "W-2", json!({})).await;
    let bare = Yard { lot: bare, drill: drill(&world, &yard.ana, "Drill 2").await, ..yard };
    bare.filled("2027-03-20T08:00:00Z", "24000").await;
    bare.asks(&bare.ana, ASKED, [false; 3]).await;
}

async fn what_is_ordinary_is_asked_nothing(world: World) {
    let yard = Yard::new(&world).await;
    yard.sown("13.6", "2400").await;
    yard.sown("2", "700").await;
    yard.tested("2027-03-10T08:00:00Z", "45.0", "78.0").await;
    yard.tested("2027-03-11T08:00:00Z", "52.1", "71.0").await;
    yard.filled("2027-03-20T08:00:00Z", "4050").await;
    yard.ana
        .create(&yard.drill.path("fills"), json!({ "occurred_at": "2027-03-21T08:00:00Z", "lot_id": yard.lot }))
        .await;
    // A target or seed of nothing is no rate to compare.
    yard.sown("12.4", "0").await;
    yard.asks(&yard.ana, ASKED, [false; 3]).await;
}

async fn it_goes_when_the_record_is_void_or_corrected(world: World) {
    let yard = Yard::new(&world).await;
    let sown = yard.sown("124", "22320").await;
    let filled = yard.filled("2027-03-20T08:00:00Z", "24000").await;
    yard.asks(&yard.ana, "124 ha is 10 times", [true; 3]).await;
    let mut right = yard.job("12.4", "2232");
    right["corrects"] = json!(sown);
    yard.ana.create(&yard.drill.path("jobs"), right).await;
    yard.asks(&yard.ana, "124 ha is 10 times", [false; 3]).await;
    yard.asks(&yard.ana, ASKED, [true, true, false]).await;
    yard.void(&filled).await;
    yard.asks(&yard.ana, ASKED, [false; 3]).await;
    // Or when what it was held against is put right.
    yard.sown("20", "3600").await;
    yard.asks(&yard.ana, "20 ha is 1.6 times the field’s 12.4 ha. A slip?", [true; 3]).await;
    let field = json!({ "name": "Mill field", "area": { "value": "21.4", "unit": "ha" } });
    let changed = yard.ana.patch(&format!("/fields/{}", yard.field), field).await;
    assert_eq!(changed.status, 200, "{}", changed.text);
    yard.asks(&yard.ana, ASKED, [false; 3]).await;
}

async fn nothing_is_told_of_another_clients_field_or_lot(world: World) {
    let yard = Yard::new(&world).await;
    let mill = id(&yard.ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let hill = id(&yard.ana.create("/clients", json!({ "name": "Hill Farm" })).await);
    let owned = |client: &str| json!({ "client_id": client, "received_mass": kg("4000") });
    let (theirs, others) = (lot(&yard.ana, "M-1", owned(&mill)).await, lot(&yard.ana, "H-1", owned(&hill)).await);
    let area = json!({ "value": "12.4", "unit": "ha" });
    let field = json!({ "name": "Hill field", "area": area, "client_id": hill });
    let field = id(&yard.ana.create("/fields", field).await);
    // Their seed on another client's field, ten times its area; and the other's seed, ten times what came.
    yard.ana.create(&yard.drill.path("jobs"), sowing(&theirs, &field, "124", "22320")).await;
    let fill = |lot: &str| json!({ "occurred_at": "2027-03-20T08:00:00Z", "lot_id": lot, "mass": kg("24000") });
    yard.ana.create(&yard.drill.path("fills"), fill(&others)).await;
    let of_mill = Yard { lot: theirs.clone(), ..yard };
    of_mill.asks(&of_mill.ana, "124 ha is 10 times the field’s 12.4 ha. A slip?", [true; 3]).await;
    let gus = world.member_for(of_mill.ana.organization, "gus-unlikely@example.org", "agronomist", &[&mill]).await;
    of_mill.asks(&gus, ASKED, [false; 3]).await;
    of_mill.asks(&gus, "12.4", [false; 3]).await;
    // The audit of that one client says no more to the office.
    let cut = of_mill.ana.get(&format!("/page/usage?client_id={mill}")).await.text;
    assert!(cut.contains("124 ha") && !cut.contains(ASKED), "{cut}");
    // Of their own they are asked.
    of_mill.ana.create(&of_mill.drill.path("fills"), fill(&theirs)).await;
    of_mill
        .asks(
            &gus,
            "24\u{202f}000 kg is more than the 4000 kg that had come in of this lot. A slip?",
            [true, true, false],
        )
        .await;
}

async fn it_stands_at_the_head_of_the_page_after_saving_and_for_a_day(world: World) {
    let yard = Yard::new(&world).await;
    let mut browser = Browser::of(&world, &yard.ana, Role::Office).await;
    let form = [
        ("occurred_at", "2027-03-20T08:00"),
        ("field_id", &yard.field),
        ("lot_id", &yard.lot),
        ("area/value", "124"),
        ("area/unit", "ha"),
        ("seed_used/value", "22320"),
        ("seed_used/unit", "kg"),
        ("target_rate/value", "180"),
        ("target_rate/unit", "kg/ha"),
    ];
    let saved = browser.submit(&world, &yard.drill.path("jobs"), &form).await;
    assert_eq!(saved.status, 303, "{}", saved.text);
    let seeders = location(&saved).to_owned();
    assert_eq!(seeders, format!("/seeders/{}", yard.drill.seeder));
    let head = |page: &str| page.split_once("<section").expect("a section").0.to_owned();
    let page = browser.get(&world, &seeders).await.text;
    assert!(head(&page).contains("124 ha is 10 times the field’s 12.4 ha. A slip?</a>"), "{page}");
    let before = yard.tested("2027-03-10T08:00:00Z", "45", "78").await;
    let form = [
        ("occurred_at", "2027-03-11T08:00"),
        ("thousand_seed_weight/value", "4.5"),
        ("thousand_seed_weight/unit", "g"),
    ];
    let saved = browser.submit(&world, &format!("/lots/{}/tests", yard.lot), &form).await;
    assert_eq!(
        (saved.status.as_u16(), location(&saved)),
        (303, format!("/lots/{}", yard.lot).as_str()),
        "{}",
        saved.text
    );
    let page = browser.get(&world, location(&saved)).await.text;
    assert!(head(&page).contains("4.5 g per thousand seeds") && !head(&page).contains(&before), "{page}");
    // A day later it stands beside the record alone.
    let now = world.app.clock.now();
    world.set_time(&(now + jiff::SignedDuration::from_hours(25)).to_string());
    let page = yard.ana.get(&yard.pages()[0]).await.text;
    assert!(!head(&page).contains(ASKED) && page.contains("124 ha is 10 times"), "{page}");
}

async fn in_spanish_and_in_us_units(world: World) {
    let yard = Yard::new(&world).await;
    yard.sown("124", "5580").await;
    yard.filled("2027-03-20T08:00:00Z", "24000").await;
    yard.tested("2027-03-10T08:00:00Z", "45.5", "78.5").await;
    yard.tested("2027-03-11T08:00:00Z", "4.55", "7.85").await;
    let mut reader = spanish::reader(&world, &yard.ana, Role::Office).await;
    let job = [
        "124 ha es 10 veces lo que mide el campo, 12,4 ha. ¿Un error al anotar?",
        "La dosis deseada de 180 kg/ha es 4 veces la real de 45,0 kg/ha. ¿Un error al anotar?",
    ];
    let fill = "24\u{202f}000 kg es más de lo que había entrado de este lote, 4000 kg. ¿Un error al anotar?";
    let test = [
        "4,55 g por mil semillas: el análisis anterior dio 45,5 g, 10 veces eso. ¿Un error al anotar?",
        "7,85 kg/hL: el análisis anterior dio 78,5 kg/hL, 10 veces eso. ¿Un error al anotar?",
    ];
    let [seeder, lot, usage] = yard.pages().map(|path| path.strip_prefix("/page").expect("a page").to_owned());
    for (path, all) in [
        (seeder, [job.as_slice(), &[fill]].concat()),
        (lot, [job.as_slice(), &[fill], &test].concat()),
        (usage, job.to_vec()),
    ] {
        spanish::says(&reader.get(&world, &path).await.text, &all);
    }
    let chosen = [("units", "us"), ("decimal_sign", "point"), ("language", "en")];
    assert_eq!(reader.submit(&world, "/account/reading", &chosen).await.status, 303);
    let page = reader.get(&world, &format!("/lots/{}", yard.lot)).await.text;
    for says in [
        "124 ha (306 ac) is 10 times the field’s 12.4 ha (30.6 ac). A slip?",
        "The target of 161 lb/ac is 4 times the 40.1 lb/ac sown. A slip?",
        "52\u{202f}911 lb is more than the 8818 lb that had come in of this lot. A slip?",
        "4.55 g per thousand seeds: the test before found 45.5 g, 10 times as much. A slip?",
        "7.85 kg/hL (6.10 lb/bu): the test before found 78.5 kg/hL (61.0 lb/bu), 10 times as much. A slip?",
    ] {
        assert!(page.contains(says), "{says}: {page}");
    }
}
