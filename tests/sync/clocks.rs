//! A phone's clock that is off: kept beside what it sent, and said where the record is shown.

use super::{entry, outcomes};
use crate::on_both;
use crate::readiness::farm::{AGREES, Farm, catch, fill, id, lot_test, setup};
use crate::world::{Person, World};
use serde_json::{Value, json};
use sowmark::args;

on_both!(
    how_it_was_sent_is_kept,
    a_clock_that_is_off_is_said,
    a_clock_that_is_about_right_is_not,
    a_record_from_the_future_is_said,
    how_it_was_sent_cannot_be_rewritten,
);

/// It is 06:00 UTC when this comes.
async fn send_at(person: &Person, sent_at: &Value, entries: &[Value]) {
    let answer =
        person.post("/sync", json!({ "entries": entries, "sent_at": sent_at, "device": " Slate\u{7} 8 " })).await;
    let results = answer.json()["results"].as_array().unwrap().clone();
    assert!(outcomes(&results).iter().all(|outcome| *outcome == "stored"), "{}", answer.text);
}

fn caught(farm: &Farm) -> [Value; 2] {
    [
        entry("setup", &farm.unit, 101, setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")),
        entry("calibration", &farm.unit, 102, catch("2027-03-28T08:00:00Z", &farm.wheat, Some(&farm.scale), AGREES)),
    ]
}

type Sending = (Option<i64>, Option<i64>, i64, String);

async fn kept(world: &World, farm: &Farm, number: u32) -> Option<Sending> {
    let mut conn = world.app.read().await.unwrap();
    let sql = "select sent_at, sent_offset, received_at, device from sending where organization_id = $1 and id = $2";
    let record: uuid::Uuid = id(number).parse().unwrap();
    conn.cx().fetch_optional(sql, args![farm.ana.organization, record]).await.unwrap()
}

async fn how_it_was_sent_is_kept(world: World) {
    let farm = Farm::new(&world).await;
    let entries = caught(&farm);
    send_at(&farm.ana, &json!("2027-04-01T08:00:30+02:00"), &entries[..1]).await;
    let at = |text: &str| text.parse::<jiff::Timestamp>().unwrap().as_microsecond();
    let first = (Some(at("2027-04-01T06:00:30Z")), Some(7200), at("2027-04-01T06:00:00Z"), "Slate 8".to_owned());
    assert_eq!(kept(&world, &farm, 101).await, Some(first.clone()));
    // Sent once more, it stays as it was the first time.
    let again = json!({ "entries": &entries[..1], "sent_at": "2027-04-02T08:00:00Z" });
    assert_eq!(farm.ana.post("/sync", again).await.json()["results"][0]["outcome"], "already_stored");
    assert_eq!(kept(&world, &farm, 101).await, Some(first));
    // A phone that tells no time, and a record that came straight.
    send_at(&farm.ana, &Value::Null, &entries[1..]).await;
    assert_eq!(kept(&world, &farm, 102).await, Some((None, None, at("2027-04-01T06:00:00Z"), "Slate 8".to_owned())));
    let straight = farm.log("fills", fill("2027-03-22T08:00:00Z", &farm.wheat)).await;
    let fills = farm.ana.read(&format!("/metering-units/{}/fills", farm.unit)).await;
    assert_eq!((&fills["items"][0]["id"], &fills["items"][0]["clock_error_seconds"]), (&json!(straight), &Value::Null));
}

async fn a_clock_that_is_off_is_said(world: World) {
    for (sent_at, error, says) in [
        (
            "2027-04-01T08:12:00+02:00",
            -720,
            "clock was 12 minutes ahead when this was sent; times on this record may be off by as much.",
        ),
        ("2027-04-01T05:54:59Z", 301, "clock was 5 minutes behind"),
        ("2027-04-01T01:00:00Z", 5 * 3600, "clock was 5 hours behind"),
        ("1970-01-01T00:00:00Z", 1_806_559_200, "days behind"),
    ] {
        let farm = Farm::new(&world).await;
        let mut entries = caught(&farm).to_vec();
        entries.push(entry("lot_test", &farm.wheat, 103, lot_test("2027-03-23T08:00:00Z", "40")));
        let check = json!({ "occurred_at": "2027-03-23T09:00:00Z", "reference": { "value": "10", "unit": "kg" }, "reading": { "value": "10", "unit": "kg" } });
        entries.push(entry("scale_check", &farm.scale, 104, check));
        send_at(&farm.ana, &json!(sent_at), &entries).await;
        assert_eq!(farm.ana.read(&format!("/calibrations/{}", id(102))).await["clock_error_seconds"], json!(error));
        let timeline = farm.ana.read(&format!("/seeders/{}/timeline", farm.seeder)).await;
        assert_eq!(timeline["items"][0]["clock_error_seconds"], json!(error));
        for (page, times) in [
            (format!("/page/calibrations/{}", id(102)), 1),
            // The setup and the catch; the configuration that the seeder began with is not a phone's.
            (format!("/page/seeders/{}", farm.seeder), 2),
            (format!("/page/lots/{}", farm.wheat), 1),
            ("/page/scales".to_owned(), 1),
        ] {
            let shown = farm.ana.get(&page).await.text;
            assert_eq!(shown.matches(says).count(), times, "{page}, {says}: {shown}");
        }
    }
}

async fn a_clock_that_is_about_right_is_not(world: World) {
    for sent_at in [json!("2027-04-01T06:05:00Z"), json!("2027-04-01T05:55:00Z"), Value::Null] {
        let farm = Farm::new(&world).await;
        send_at(&farm.ana, &sent_at, &caught(&farm)).await;
        for page in [format!("/page/calibrations/{}", id(102)), format!("/page/seeders/{}", farm.seeder)] {
            let shown = farm.ana.get(&page).await.text;
            assert!(!shown.contains("record may be off") && !shown.contains("after the server received"), "{shown}");
        }
    }
}

async fn a_record_from_the_future_is_said(world: World) {
    let farm = Farm::new(&world).await;
    let late = entry("fill", &farm.unit, 101, fill("2027-04-01T09:00:00Z", &farm.wheat));
    let soon = entry("fill", &farm.unit, 102, fill("2027-04-01T06:04:00Z", &farm.wheat));
    send_at(&farm.ana, &json!("2027-04-01T06:00:00Z"), &[late, soon]).await;
    let shown = farm.ana.get(&format!("/page/seeders/{}", farm.seeder)).await.text;
    assert_eq!(
        shown.matches("This is dated 3 hours after the server received it; the time on it may be wrong.").count(),
        1,
        "{shown}"
    );
    assert!(!shown.contains("4 minutes"), "{shown}");
}

async fn how_it_was_sent_cannot_be_rewritten(world: World) {
    let farm = Farm::new(&world).await;
    send_at(&farm.ana, &Value::Null, &caught(&farm)).await;
    for statement in ["update sending set device = 'other'", "delete from sending"] {
        let mut tx = world.app.db.begin().await.unwrap();
        let error = tx.cx().execute(statement, &[]).await.expect_err(statement);
        assert!(error.to_string().contains("append-only"), "{statement}: {error}");
    }
}
