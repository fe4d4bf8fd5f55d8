//! A seeder's book: everything about one machine over a period, and about no other.

use super::season::{fact, plain, row, trigger};
use super::{between, page};
use crate::on_both;
use crate::readiness::farm::{AGREES, DISAGREES, Farm, catch, job, service, setup};
use crate::seed::drill;
use crate::world::World;
use serde_json::json;
use sowmark::args;

on_both!(
    it_tells_everything_of_its_seeder,
    it_tells_what_was_true_at_the_end_of_its_period,
    the_log_of_all_time_begins_with_the_first_record,
    what_was_wrong_stands_struck_out,
    a_book_is_asked_for,
    a_book_that_fails_in_its_midst_says_so,
);

async fn it_tells_everything_of_its_seeder(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    farm.log("jobs", job("2027-03-28T12:00:00Z", &farm.wheat, "1400", "8")).await;
    farm.log("setups", setup("2027-03-29T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    farm.log("calibrations", catch("2027-03-29T12:00:00Z", &farm.wheat, Some(&farm.scale), DISAGREES)).await;
    farm.log("calibrations", catch("2027-03-29T20:00:00Z", &farm.wheat, Some(&farm.scale), AGREES)).await;
    farm.at_seeder("services", service("2027-03-31T06:00:00Z", true)).await;
    let other = drill(&world, &farm.ana, "Drill 2").await;
    farm.ana.create(&other.path("jobs"), job("2027-03-30T08:00:00Z", &farm.wheat, "999", "8")).await;
    let book = page(&farm.ana, &format!("/reports/seeder-book?seeder_id={}", farm.seeder)).await;
    assert!(book.contains("<h1>Drill 1: seeder book</h1>") && !between(&book, "<main", "</main>").contains("999 kg"));
    let machine = between(&book, "id=\"machine\"", "</section>");
    assert_eq!((fact(machine, "Working width"), fact(machine, "Row spacing")), ("6 m", "12.5 cm"));
    let unit = row(machine, "<th scope=\"row\">front tank</th>");
    assert_eq!(unit[0], "8");
    assert_eq!(unit[1..3], ["electric motor, 10 to 120 rpm", "kg per 100 revolutions, per run"], "{unit:?}");
    assert_eq!(unit[3..], ["coarse studded, drive ratio 5:2, gate 12, 8 runs", "Calibrate", "none"], "{unit:?}");
    let front = between(&book, "<h2>front tank</h2>", "</section>");
    let caught = row(front, &format!("<a href=\"/calibrations/{first}\">28 March 2027, 10:00</a>"));
    assert_eq!((caught[0].as_str(), caught[1].as_str(), caught[4].as_str()), ("W-16", "3.006 kg/100rev", "Accepted"));
    assert_eq!(
        front.matches("/calibrations/").count(),
        3 + 2,
        "three catches, and two that answered something: {front}"
    );
    assert_eq!(trigger(front, "Roller changed on 29 March:")[1], "Caught again on 29 March 2027, 22:00");
    assert_eq!(trigger(front, "Hydraulic motor")[1..], ["Not yet answered", "24 hours"]);
    let job = row(front, "<th scope=\"row\">28 March 2027, 14:00</th>");
    // 1400 kg on 10 ha are 140.0 kg/ha, which was the target.
    let told = ["Long Acre", "W-16", "10 ha", "1400 kg weighing", "140 kg/ha", "140 kg/ha", "0.0 %", "true"];
    assert_eq!(job, told);
    let scales = between(&book, "id=\"scales\"", "</section>");
    assert_eq!(row(scales, "<th scope=\"row\">Yard scale</th>"), ["20 March 2027, 09:00", "10 kg", "10.01 kg", "Pass"]);
    let log = plain(between(&book, "report-log\">", "report-end"));
    for says in [
        "Set up: roller fine fluted",
        "Tank filled with lot W-16",
        "Replaced or repaired: hydraulic motor",
        "Job finished",
    ] {
        assert!(log.contains(says), "{says}: {log}");
    }
    let places =
        ["fine fluted", "Job finished", "coarse studded", "hydraulic motor"].map(|says| log.find(says).unwrap());
    assert!(places.is_sorted(), "oldest first: {places:?}");
    assert!(book.contains("class=\"stamp\"") && book.contains("End of the report."), "{book}");
    let seeder = page(&farm.ana, &format!("/seeders/{}", farm.seeder)).await;
    assert!(seeder.contains(&format!("/reports/seeder-book?seeder_id={}", farm.seeder)), "{seeder}");
}

async fn it_tells_what_was_true_at_the_end_of_its_period(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let asked = format!("/reports/seeder-book?seeder_id={}&from=2027-03-22&to=2027-03-29", farm.seeder);
    let book = page(&farm.ana, &asked).await;
    let unit = row(between(&book, "id=\"machine\"", "</section>"), "<th scope=\"row\">front tank</th>");
    let number = "3.006 kg per 100 revolutions, per run";
    assert_eq!(unit[3..], ["fine fluted, drive ratio 5:2, gate 12, 8 runs", "Ready", number], "{unit:?}");
    assert!(!book.contains("coarse studded"), "{book}");
    // The setup of 21 March was before its time, the fill of the 22nd in it.
    let log = plain(between(&book, "report-log\">", "report-end"));
    assert!(!log.contains("Set up:") && log.contains("Tank filled with lot W-16"), "{log}");
    assert!(book.contains("22 March 2027, 00:00 to 30 March 2027, 00:00"), "{book}");
    // The scale's check of 20 March was before its time too.
    assert!(!book.contains("id=\"scales\""), "{book}");
}

async fn the_log_of_all_time_begins_with_the_first_record(world: World) {
    let farm = Farm::new(&world).await;
    // Before the machine was commissioned, as somebody who brings an old notebook may have it.
    farm.log("setups", setup("2011-04-02T08:00:00Z", &farm.fine, "5:2", "12")).await;
    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let asked = format!("/reports/seeder-book?seeder_id={}&to=2027-03-29", farm.seeder);
    let book = page(&farm.ana, &asked).await;
    let log = plain(between(&book, "report-log\">", "report-end"));
    let places = ["2 April 2011", "Working width 6 m", "21 March 2027"].map(|says| log.find(says));
    assert!(places.iter().all(Option::is_some) && places.is_sorted(), "{places:?}: {log}");
    // The months with something in them, and no other: of the first record, of the first configuration, of the second setup.
    assert_eq!(book.matches("part report-log").count(), 3, "{book}");
}

async fn what_was_wrong_stands_struck_out(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let wrong = farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1400", "8")).await;
    farm.ana.create(&format!("/records/{wrong}/void"), json!({ "reason": "another drill's" })).await;
    let book = page(&farm.ana, &format!("/reports/seeder-book?seeder_id={}", farm.seeder)).await;
    let log = between(&book, "report-log\">", "report-end");
    let struck = between(log, "<s>", "</s>");
    assert!(struck.contains("Job finished") && log.contains("another drill&#39;s"), "{log}");
    assert!(!between(&book, "<h2>front tank</h2>", "</section>").contains("Long Acre"), "it counts nowhere");
}

async fn a_book_is_asked_for(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let open = page(&farm.ana, "/reports/seeder-book").await;
    assert!(open.contains("<h1>Seeder book</h1>") && !open.contains("class=\"stamp\""), "{open}");
    let nobodys = farm.ana.get(&format!("/page/reports/seeder-book?seeder_id={}", crate::seed::NOBODYS)).await;
    assert_eq!(nobodys.status, 422, "{}", nobodys.text);
    let wrong = format!("/page/reports/seeder-book?seeder_id={}&from=2027-04-02&to=2027-04-01", farm.seeder);
    let wrong = farm.ana.get(&wrong).await;
    assert!(wrong.status == 422 && wrong.text.contains("value=\"2027-04-02\""), "{}", wrong.text);
}

/// The machine is told before its unit, whose drift cannot be.
async fn a_book_that_fails_in_its_midst_says_so(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1400", "8")).await;
    // What no version of this program writes.
    let mut tx = world.app.db.begin().await.unwrap();
    let sql = "update calibration set judgement = '{}' where organization_id = $1";
    tx.cx().execute(sql, args![farm.ana.organization]).await.unwrap();
    tx.commit().await.unwrap();
    let answer = farm.ana.get(&format!("/page/reports/seeder-book?seeder_id={}", farm.seeder)).await;
    let book = &answer.text;
    assert!(
        answer.status == 200 && book.contains("id=\"machine\"") && book.contains("This report is incomplete"),
        "{book}"
    );
    assert!(!book.contains("class=\"stamp\"") && !book.contains("<h2>front tank</h2>"), "{book}");
}
