//! What was not taken in is kept, shown to its sender and the office, until it is mended or dropped.

use super::{drill, entry, kim, outcomes, send};
use crate::on_both;
use crate::readiness::farm::{Farm, fill, id};
use crate::seed::hand;
use crate::world::{Person, World};
use serde_json::{Value, json};

on_both!(
    what_is_refused_is_kept_for_its_sender_and_the_office,
    refused_again_it_is_the_same_row,
    stored_later_it_ends_as_mended,
    dropped_it_waits_no_longer_and_stays_kept,
    an_entry_without_an_id_is_kept_once,
    the_list_comes_in_pages,
);

async fn waiting(person: &Person) -> Vec<Value> {
    person.read("/refused").await["items"].as_array().unwrap().clone()
}

/// A fill that names no lot.
fn without_lot(farm: &Farm, number: u32) -> Value {
    let mut sent = entry("fill", &farm.unit, number, fill("2027-03-22T08:00:00Z", &farm.wheat));
    sent["record"].as_object_mut().unwrap().remove("lot_id");
    sent
}

async fn what_is_refused_is_kept_for_its_sender_and_the_office(world: World) {
    let farm = Farm::new(&world).await;
    let (kim, lee) =
        (kim(&world, &farm).await, hand(&world, &farm.ana, "lee-refused@example.org", &[&drill(&farm)]).await);
    let sent = without_lot(&farm, 101);
    let results = send(&kim, std::slice::from_ref(&sent)).await;
    for sees in [&kim, &farm.ana] {
        let kept = waiting(sees).await;
        assert_eq!(kept.len(), 1);
        assert_eq!((&kept[0]["id"], &kept[0]["kind"]), (&json!(id(101)), &json!("fill")));
        assert_eq!((&kept[0]["parent_id"], &kept[0]["record"]), (&json!(farm.unit), &sent["record"]));
        assert_eq!((&kept[0]["problem"], &kept[0]["ended"]), (&results[0]["problem"], &Value::Null));
        assert_eq!(kept[0]["sent_by"]["name"], "kim-sync");
        assert_eq!(sees.read(&format!("/refused/{}", id(101))).await, kept[0]);
    }
    let ben = world.ana().await;
    for other in [&lee, &ben] {
        assert_eq!(waiting(other).await, Vec::<Value>::new());
        other.get(&format!("/refused/{}", id(101))).await.refused(404, &[]);
        other.post(&format!("/refused/{}/drop", id(101)), json!({})).await.refused(404, &[]);
    }
    let trail = farm.ana.read("/audit?limit=500").await;
    let line = trail["items"].as_array().unwrap().last().unwrap().clone();
    assert_eq!((&line["action"], &line["subject"]), (&json!("refused"), &json!({ "kind": "fill", "id": id(101) })));
}

async fn refused_again_it_is_the_same_row(world: World) {
    let farm = Farm::new(&world).await;
    let mut sent = without_lot(&farm, 101);
    send(&farm.ana, std::slice::from_ref(&sent)).await;
    world.set_time("2027-04-01T08:00:00Z");
    sent["record"]["mass"] = json!({ "value": "-4", "unit": "kg" });
    send(&farm.ana, std::slice::from_ref(&sent)).await;
    let kept = waiting(&farm.ana).await;
    assert_eq!(kept.len(), 1);
    assert_eq!(kept[0]["record"], sent["record"]);
    assert_eq!(
        (&kept[0]["first_refused_at"], &kept[0]["last_refused_at"]),
        (&json!("2027-04-01T06:00:00Z"), &json!("2027-04-01T08:00:00Z"))
    );
    assert_eq!(kept[0]["problem"]["errors"].as_array().unwrap().len(), 2);
}

async fn stored_later_it_ends_as_mended(world: World) {
    let farm = Farm::new(&world).await;
    let kim = kim(&world, &farm).await;
    send(&kim, &[without_lot(&farm, 101), without_lot(&farm, 102), without_lot(&farm, 103)]).await;
    // By another batch, and by the record's own address.
    let mended = entry("fill", &farm.unit, 101, fill("2027-03-22T08:00:00Z", &farm.wheat));
    assert_eq!(outcomes(&send(&kim, &[mended]).await), ["stored"]);
    let mended = entry("fill", &farm.unit, 102, fill("2027-03-22T08:00:00Z", &farm.wheat));
    farm.log("fills", mended["record"].clone()).await;
    let left: Vec<Value> = waiting(&farm.ana).await.iter().map(|kept| kept["id"].clone()).collect();
    assert_eq!(left, [json!(id(103))]);
    for (number, who) in [(101, "kim-sync"), (102, "ana")] {
        let kept = kim.read(&format!("/refused/{}", id(number))).await;
        assert_eq!(kept["ended"]["how"], "mended");
        assert!(kept["ended"]["by"]["name"].as_str().unwrap().starts_with(who), "{kept}");
        kim.post(&format!("/refused/{}/drop", id(number)), json!({})).await.refused(409, &[]);
    }
    // The same id with other content is refused again, and waits again.
    let other = entry("fill", &farm.unit, 101, fill("2027-03-23T08:00:00Z", &farm.rape));
    assert_eq!(outcomes(&send(&kim, &[other]).await), ["refused"]);
    assert_eq!(waiting(&kim).await.len(), 2);
}

async fn dropped_it_waits_no_longer_and_stays_kept(world: World) {
    let farm = Farm::new(&world).await;
    let kim = kim(&world, &farm).await;
    send(&kim, &[without_lot(&farm, 101), without_lot(&farm, 102)]).await;
    let dropped = kim.post(&format!("/refused/{}/drop", id(101)), json!({ "reason": "Logged twice." })).await;
    assert_eq!(dropped.status.as_u16(), 200, "{}", dropped.text);
    let ended = dropped.json()["ended"].clone();
    assert_eq!((&ended["how"], &ended["reason"]), (&json!("dropped"), &json!("Logged twice.")));
    assert_eq!((&ended["at"], &ended["by"]["name"]), (&json!("2027-04-01T06:00:00Z"), &json!("kim-sync")));
    let last = farm.ana.read("/audit?limit=500").await["items"].as_array().unwrap().last().unwrap().clone();
    assert_eq!((&last["action"], &last["subject"]["id"]), (&json!("dropped"), &json!(id(101))));
    // Dropped again, nothing changes.
    let again = kim.post(&format!("/refused/{}/drop", id(101)), json!({})).await;
    assert_eq!((again.status.as_u16(), again.json()), (200, dropped.json()));
    farm.ana
        .post(&format!("/refused/{}/drop", id(102)), json!({ "reason": "x".repeat(1001) }))
        .await
        .refused(422, &["/reason"]);
    farm.ana.post(&format!("/refused/{}/drop", id(102)), json!({})).await;
    assert_eq!(waiting(&farm.ana).await, Vec::<Value>::new());
    let all = kim.read("/refused?ended=true").await;
    assert_eq!(all["items"].as_array().unwrap().len(), 2);
    kim.post(&format!("/refused/{}/drop", id(999)), json!({})).await.refused(404, &[]);
}

async fn an_entry_without_an_id_is_kept_once(world: World) {
    let farm = Farm::new(&world).await;
    let mut sent = without_lot(&farm, 101);
    sent["record"].as_object_mut().unwrap().remove("id");
    let entries = [sent, json!("what is this"), json!({ "kind": "sow\u{0}ing\n", "record": { "note": "a\u{0}b" } })];
    for _ in 0..2 {
        assert_eq!(outcomes(&send(&farm.ana, &entries).await), ["refused"; 3]);
        assert_eq!(waiting(&farm.ana).await.len(), 3);
    }
    let kinds: Vec<Value> = waiting(&farm.ana).await.iter().map(|kept| kept["kind"].clone()).collect();
    assert!(
        kinds.contains(&json!("fill")) && kinds.contains(&json!("")) && kinds.contains(&json!("sowing")),
        "{kinds:?}"
    );
}

async fn the_list_comes_in_pages(world: World) {
    let farm = Farm::new(&world).await;
    let entries: Vec<Value> = (101..106).map(|number| without_lot(&farm, number)).collect();
    send(&farm.ana, &entries).await;
    let (mut seen, mut path) = (Vec::new(), "/refused?limit=2".to_owned());
    loop {
        let page = farm.ana.read(&path).await;
        seen.extend(page["items"].as_array().unwrap().iter().map(|kept| kept["id"].as_str().unwrap().to_owned()));
        let Some(next) = page["next"].as_str() else { break };
        path = format!("/refused?limit=2&after={next}");
    }
    assert_eq!(seen, (101..106).map(id).collect::<Vec<_>>());
}
