//! What stands in the two feeds.

use super::{events, fetched, made};
use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{Farm, setup};
use crate::world::World;
use atom_syndication::Feed;
use serde_json::json;
use sowmark::access::Role;

on_both!(
    what_is_due_is_an_event_from_its_day_through_today,
    what_the_calendar_brings_stands_on_its_day_and_keeps_its_id,
    lines_are_folded_and_signs_escaped_as_the_standard_has_it,
    the_news_name_what_came_due,
    a_reader_that_has_it_is_told_so,
);

/// A farm whose roller was changed on 30 March, and Ana's address.
async fn changed(world: &World) -> (Farm, Browser, String) {
    let (farm, _) = Farm::ready(world).await;
    farm.log("setups", setup("2027-03-30T22:30:00Z", &farm.coarse, "5:2", "12")).await;
    let mut ana = Browser::of(world, &farm.ana, Role::Office).await;
    let address = made(world, &mut ana).await;
    (farm, ana, address)
}

const ROLLER: &str = "Drill 1, front tank: Roller changed";

async fn what_is_due_is_an_event_from_its_day_through_today(world: World) {
    let (farm, _, address) = changed(&world).await;
    let answer = fetched(&world, &format!("{address}/due.ics")).await;
    assert_eq!(answer.status, 200, "{}", answer.text);
    assert_eq!(answer.headers["content-type"], "text/calendar; charset=utf-8");
    let events = events(&answer.text);
    let event = &events[ROLLER];
    // 22:30 in UTC is half past midnight of the next day in Vienna; the end of an all-day event is the day after its last.
    assert_eq!((event["DTSTART"].as_str(), event["DTEND"].as_str()), ("20270331", "20270402"));
    assert!(event["DESCRIPTION"].contains("31 March") && event["DESCRIPTION"].contains("coarse studded"), "{event:?}");
    assert_eq!(event["URL"], format!("http://sowmark.test/seeders/{}", farm.seeder));
    assert!(answer.text.contains("TRANSP:TRANSPARENT\r\n"));
    assert!(answer.text.contains("DTSTART;VALUE=DATE:20270331\r\n"));
    let head = super::head(&answer.text);
    assert_eq!((head["NAME"].as_str(), head["X-WR-TIMEZONE"].as_str()), ("Due at Birkenfeld", "Europe/Vienna"));
    world.set_time("2027-04-03T06:00:00Z");
    let later = fetched(&world, &format!("{address}/due.ics")).await;
    let later = super::events(&later.text);
    assert_eq!((&later[ROLLER]["UID"], later[ROLLER]["DTEND"].as_str()), (&event["UID"], "20270404"));
    // Caught again, and it is gone.
    farm.caught("2027-04-03T05:00:00Z", &farm.wheat).await;
    let answer = fetched(&world, &format!("{address}/due.ics")).await;
    assert!(!super::events(&answer.text).contains_key(ROLLER), "{}", answer.text);
}

async fn what_the_calendar_brings_stands_on_its_day_and_keeps_its_id(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.ana.create("/seasons", json!({ "name": "Autumn", "starts_on": "2027-09-01" })).await;
    let kept = farm.ana.put("/policy", json!({ "interval_days": 60 })).await;
    assert!(kept.status.is_success(), "{}", kept.text);
    let mut ana = Browser::of(&world, &farm.ana, Role::Office).await;
    let address = made(&world, &mut ana).await;
    let before = events(&fetched(&world, &format!("{address}/due.ics")).await.text);
    let (season, interval) = ("Drill 1, front tank: New season", "Drill 1, front tank: Interval over");
    // Caught on 28 March at 10 in Vienna: sixty days of 24 hours later it is 27 May.
    let days = |event: &super::Event| (event["DTSTART"].clone(), event["DTEND"].clone());
    assert_eq!(days(&before[interval]), ("20270527".to_owned(), "20270528".to_owned()));
    assert_eq!(days(&before[season]), ("20270901".to_owned(), "20270902".to_owned()));
    assert!(
        before[season]["DESCRIPTION"].starts_with("Due on 1 September: the season Autumn begins."),
        "{:?}",
        before[season]
    );
    assert!(
        before[interval]["DESCRIPTION"].starts_with("Due on 27 May: 60 days since the catch."),
        "{:?}",
        before[interval]
    );
    let scale = &before["Yard scale: check with a known mass"]["DESCRIPTION"];
    assert!(scale.starts_with("Due on 19 April: 30 days since the scale") && scale.contains("20 March"), "{scale}");
    // The scale passed on 20 March, and a check holds for 30 days unless the tolerances say otherwise.
    assert_eq!(before["Yard scale: check with a known mass"]["DTSTART"], "20270419");
    assert_eq!(before.len(), 3, "{before:?}");
    world.set_time("2027-09-02T06:00:00Z");
    let after = events(&fetched(&world, &format!("{address}/due.ics")).await.text);
    for name in [season, interval, "Yard scale: check with a known mass"] {
        assert_eq!(after[name]["UID"], before[name]["UID"], "{name}");
        assert_eq!(after[name]["DTSTART"], before[name]["DTSTART"], "{name}");
        assert_eq!(after[name]["DTEND"], "20270903", "{name}");
    }
}

async fn lines_are_folded_and_signs_escaped_as_the_standard_has_it(world: World) {
    let ana = world.ana().await;
    let name = "Große; Sämaschine, \\ „Nord\u{201c} mit Überbreite für Möhren, Rüben & <Hülsenfrüchte>";
    let drill = json!({ "name": name, "serial_number": "SN-9", "kind": "box_drill", "commissioned_on": "2021-03-01",
        "working_width": { "value": "3", "unit": "m" }, "row_spacing": { "value": "12.5", "unit": "cm" },
        "metering_units": [{ "label": "tank", "runs": 8, "drive": "ground" }] });
    let drill = ana.create("/seeders", drill).await;
    let unit = drill["metering_units"][0]["id"].as_str().unwrap().to_owned();
    let lot = ana.create("/lots", json!({ "lot_number": "W-1", "crop": "wheat" })).await;
    let fill = json!({ "occurred_at": "2027-03-30T08:00:00Z", "lot_id": lot["id"], "mass": null });
    ana.create(&format!("/metering-units/{unit}/fills"), fill).await;
    let mut browser = Browser::of(&world, &ana, Role::Office).await;
    let address = made(&world, &mut browser).await;
    let text = fetched(&world, &format!("{address}/due.ics")).await.text;
    assert!(text.ends_with("END:VCALENDAR\r\n") && !text.replace("\r\n", "").contains(['\r', '\n']), "{text:?}");
    for line in text.split("\r\n") {
        assert!(line.len() <= 75, "{} octets: {line}", line.len());
    }
    assert!(text.contains("\r\n "), "a line is folded");
    assert!(events(&text).contains_key(&format!("{name}, tank: Never calibrated")), "{text}");
    let news: Feed = fetched(&world, &format!("{address}/due.atom")).await.text.parse().unwrap();
    assert_eq!(news.entries()[0].title().as_str(), format!("{name}, tank: Never calibrated"));
}

async fn the_news_name_what_came_due(world: World) {
    let (farm, _, address) = changed(&world).await;
    farm.ana.create("/seasons", json!({ "name": "Autumn", "starts_on": "2027-09-01" })).await;
    let answer = fetched(&world, &format!("{address}/due.atom")).await;
    assert_eq!(
        (answer.status.as_u16(), &answer.headers["content-type"]),
        (200, &"application/atom+xml; charset=utf-8".parse().unwrap())
    );
    let feed: Feed = answer.text.parse().unwrap();
    assert_eq!(feed.title().as_str(), "Due at Birkenfeld");
    assert_eq!(feed.lang(), Some("en"));
    assert!(feed.id().starts_with("urn:uuid:"));
    let entry = &feed.entries()[0];
    assert_eq!(feed.entries().len(), 1, "the season is five months away: {}", answer.text);
    assert_eq!(entry.title().as_str(), ROLLER);
    assert_eq!(entry.updated().to_rfc3339(), "2027-03-30T22:30:00+00:00");
    assert_eq!(entry.links()[0].href(), format!("http://sowmark.test/seeders/{}", farm.seeder));
    let calendar = events(&fetched(&world, &format!("{address}/due.ics")).await.text);
    assert_eq!(entry.id(), format!("urn:uuid:{}", calendar[ROLLER]["UID"]));
    assert_eq!(entry.summary().unwrap().as_str(), calendar[ROLLER]["DESCRIPTION"]);
    world.set_time("2027-08-25T06:00:00Z");
    let feed: Feed = fetched(&world, &format!("{address}/due.atom")).await.text.parse().unwrap();
    let titles: Vec<_> = feed.entries().iter().map(|entry| entry.title().to_string()).collect();
    assert!(titles.contains(&"Drill 1, front tank: New season".to_owned()), "a week ahead: {titles:?}");
}

async fn a_reader_that_has_it_is_told_so(world: World) {
    let (farm, _, address) = changed(&world).await;
    for file in ["due.ics", "due.atom"] {
        let path = format!("{address}/{file}");
        let first = fetched(&world, &path).await;
        let tag = first.headers["etag"].to_str().unwrap().to_owned();
        assert_eq!(first.headers["cache-control"], "private, no-cache");
        assert_eq!(first.headers["referrer-policy"], "no-referrer");
        let again = asked(&world, &path, "if-none-match", &tag).await;
        assert_eq!((again.status.as_u16(), again.text.as_str()), (304, ""));
        assert_eq!(again.headers["etag"], tag);
        let modified = first.headers["last-modified"].to_str().unwrap().to_owned();
        assert_eq!(asked(&world, &path, "if-modified-since", &modified).await.status, 304);
        assert_eq!(asked(&world, &path, "if-none-match", "W/\"other\"").await.status, 200);
    }
    let path = format!("{address}/due.ics");
    let first = fetched(&world, &path).await;
    let tag = first.headers["etag"].to_str().unwrap().to_owned();
    world.set_time("2027-04-01T07:00:00Z");
    assert_eq!(asked(&world, &path, "if-none-match", &tag).await.status, 304, "nothing changed in the hour");
    farm.caught("2027-04-01T06:30:00Z", &farm.wheat).await;
    let mended = asked(&world, &path, "if-none-match", &tag).await;
    assert_eq!(mended.status, 200, "what vanished is a change too");
    assert_eq!(mended.headers["last-modified"], "Thu, 01 Apr 2027 07:00:00 GMT");
}

async fn asked(world: &World, path: &str, name: &str, value: &str) -> crate::world::Answer {
    let request = axum::http::Request::builder().uri(path).header("host", "sowmark.test").header(name, value);
    world.request(request.body(axum::body::Body::empty()).unwrap()).await
}
