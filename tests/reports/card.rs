//! The cab card, against readiness and against roller speeds worked out by hand.

use super::{between, page};
use crate::on_both;
use crate::people::browser::Browser;
use crate::readiness::farm::{Farm, fill, job, setup, text};
use crate::seed::drill;
use crate::world::World;
use serde_json::json;
use sowmark::access::Role;

on_both!(
    the_number_and_the_roller_speeds,
    what_the_drive_cannot_hold_is_blank,
    a_number_with_another_lot_is_what_readiness_says_once_it_is_filled,
    without_a_number_it_says_why,
    every_seeder_has_a_page_of_its_own,
    it_says_what_it_is_true_for,
    ready_only_because_the_office_let_it_pass_says_so,
    a_mixed_tank_is_named_with_what_is_in_it,
    steps_are_round_in_the_readers_units,
);

const CARD: &str = "/reports/cab-card";

/// The cells of the row that begins with a rate.
fn row(card: &str, rate: &str) -> Vec<String> {
    let row = between(card, &format!("<th scope=\"row\">{rate}</th>"), "</tr>");
    let cells = row.split("<td class=\"num\">").skip(1);
    cells.map(|cell| cell.split("</td>").next().unwrap_or_default().to_owned()).collect()
}

async fn the_number_and_the_roller_speeds(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1400", "8")).await;
    let card = page(&farm.ana, CARD).await;
    // 9.600 and 9.640 kg by 40 revolutions of 8 runs: 0.0300625 kg/rev per run, 3.006 kg per 100 revolutions.
    assert!(card.contains("<strong class=\"key-in-number\">3.006</strong>"), "{card}");
    assert!(card.contains("Caught on 28 March 2027, 10:00."), "{card}");
    // 25 % of the catch's 42 revolutions per minute to either side; the whole unit in the same unit: 8 x 3.00625 = 24.05.
    assert!(card.contains("The roller turned 42.0 revolutions per minute then"), "{card}");
    assert!(card.contains("the tolerances allow 25 % around that: 31.5 to 52.5."), "{card}");
    assert!(card.contains("24.05 kg/100rev whole unit"), "{card}");
    // By hand: 140 kg/ha x 6 m x 8 km/h = 11.2 kg/min; / (8 x 0.0300625 kg) = 46.57 revolutions per minute.
    assert_eq!(row(&card, "140 kg/ha")[2], "46.6");
    // And 120 kg/ha at 7 km/h: 8.4 kg/min, 34.93 per minute; steps of 10 kg/ha and of 1 km/h stand around the job's.
    assert_eq!(row(&card, "120 kg/ha")[1], "34.9");
    // 160 kg/ha at 10 km/h: 16 kg/min, 66.53 per minute, beyond what the catch was shown to be true for.
    assert_eq!(row(&card, "160 kg/ha")[4], "* 66.5");
    assert!(card.contains("* More than 25 % from the roller speed of the catch"), "{card}");
    let asked = page(&farm.ana, &format!("{CARD}?rate/value=70&rate/unit=kg/ha&speed/value=16&speed/unit=km/h")).await;
    assert_eq!(row(&asked, "70 kg/ha")[2], "46.6");
}

async fn what_the_drive_cannot_hold_is_blank(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let card = page(&farm.ana, &format!("{CARD}?rate/value=350&rate/unit=kg/ha&speed/value=8&speed/unit=km/h")).await;
    // The drive holds 120 at most. By hand: 350 kg/ha at 8 km/h is 28 kg/min and 116.4 per minute; 400 kg/ha would be 133.1.
    assert_eq!(row(&card, "350 kg/ha")[2], "* 116");
    let beyond = page(&farm.ana, &format!("{CARD}?rate/value=400&rate/unit=kg/ha&speed/value=8&speed/unit=km/h")).await;
    assert_eq!(row(&beyond, "400 kg/ha")[2], "");
    assert!(beyond.contains("120"), "{beyond}");
    let none = page(&farm.ana, CARD).await;
    assert!(none.contains("No rate and driving speed are known yet"), "{none}");
    let wrong = farm.ana.get(&format!("/page{CARD}?rate/value=much&rate/unit=kg/ha")).await;
    assert!(wrong.status == 422 && wrong.text.contains("value=\"much\""), "{}", wrong.text);
}

async fn a_number_with_another_lot_is_what_readiness_says_once_it_is_filled(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    farm.log("emptyings", json!({ "occurred_at": "2027-03-29T07:00:00Z", "lot_id": farm.wheat, "to_empty": true }))
        .await;
    farm.log("fills", fill("2027-03-29T08:00:00Z", &farm.other_wheat)).await;
    farm.caught("2027-03-29T09:00:00Z", &farm.other_wheat).await;
    let card = page(&farm.ana, CARD).await;
    let others = between(&card, "With another lot", "</table>");
    assert!(others.contains("W-16") && !others.contains("W-17"), "{others}");
    assert!(others.contains("<strong>3.006 kg per 100 revolutions, per run</strong>"), "{others}");
    assert!(others.contains("28 March 2027"), "{others}");
    // Rape was never caught on this unit, so it has no number.
    assert!(!card.contains("R-2"), "{card}");
    farm.log(
        "emptyings",
        json!({ "occurred_at": "2027-03-30T07:00:00Z", "lot_id": farm.other_wheat, "to_empty": true }),
    )
    .await;
    farm.log("fills", fill("2027-03-30T08:00:00Z", &farm.wheat)).await;
    let now = farm.at("2027-03-30T09:00:00Z").await;
    assert_eq!((text(&now["calibration_id"]), &now["recalled"]), (first, &json!(true)), "{now}");
    // Another roller: neither lot has a number any more, and the card offers none.
    farm.log("setups", setup("2027-03-31T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let changed = page(&farm.ana, CARD).await;
    assert!(!changed.contains("With another lot") && !changed.contains("3.006"), "{changed}");
}

async fn without_a_number_it_says_why(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-29T08:00:00Z", &farm.coarse, "2:3", "12")).await;
    let card = page(&farm.ana, CARD).await;
    let none = between(&card, "<p class=\"key-in none\">", "</p>");
    assert!(none.contains("Roller changed on 29 March: coarse studded"), "{none}");
    assert!(none.contains("Drive ratio changed on 29 March: 2:3"), "every reason stands there: {none}");
    assert!(!card.contains("<table"), "{card}");
}

async fn every_seeder_has_a_page_of_its_own(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let other = drill(&world, &farm.ana, "Drill 2").await;
    let cards = |page: &str| page.matches("<article class=\"cab-card\">").count();
    assert_eq!(cards(&page(&farm.ana, CARD).await), 2);
    let one = page(&farm.ana, &format!("{CARD}?seeder_id={}", other.seeder)).await;
    assert_eq!((cards(&one), one.contains("<h2>Drill 2</h2>"), one.contains("<h2>Drill 1</h2>")), (1, true, false));
    assert!(one.contains("class=\"qr\"") && one.contains("<details class=\"cautions\" open>"), "{one}");
}

async fn it_says_what_it_is_true_for(world: World) {
    let (farm, caught) = Farm::ready(&world).await;
    let delivered = page(&farm.ana, CARD).await;
    assert!(delivered.contains("as Sowmark comes, never changed"), "{delivered}");
    assert!(delivered.contains("1 April 2027, 08:00 (Europe/Vienna)"), "{delivered}");
    farm.ana.put("/policy", json!({ "roller_speed_tolerance_percent": 10, "interval_days": 30 })).await;
    let changed = page(&farm.ana, CARD).await;
    assert!(changed.contains("version 1, in force since 1 April 2027, 08:00"), "{changed}");
    assert!(changed.contains("around that: 37.8 to 46.2.") && changed.contains("30 days have passed"), "{changed}");
    for path in ["/usage?from=2027-03-01&to=2027-03-31".to_owned(), format!("/calibrations/{caught}")] {
        let report = page(&farm.ana, &path).await;
        assert!(report.contains("class=\"stamp\"") && report.contains("version 1, in force"), "{report}");
    }
    let audit = page(&farm.ana, "/usage?from=2027-03-01&to=2027-03-31").await;
    assert!(audit.contains("1 March 2027, 00:00 to 1 April 2027, 00:00"), "{audit}");
}

async fn ready_only_because_the_office_let_it_pass_says_so(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let waiver = json!({ "occurred_at": "2027-03-30T10:00:00Z", "trigger": "roller_changed", "until": "2027-05-31",
        "reason": "Worn alike." });
    farm.ana.create(&format!("/metering-units/{}/waivers", farm.unit), waiver).await;
    let card = page(&farm.ana, CARD).await;
    assert!(card.contains("3.006") && card.contains("a reason was let pass"), "{card}");
    let passed = between(&card, "<p class=\"passed\">", "</p>");
    assert!(passed.starts_with("Roller changed on 30 March: coarse studded"), "{passed}");
    assert!(
        passed.contains("Let pass until the end of 31 May 2027 by ana") && passed.contains("Worn alike."),
        "{passed}"
    );
    let ready = page(&Farm::ready(&world).await.0.ana, CARD).await;
    assert!(!ready.contains("class=\"passed\"") && !ready.contains("class=\"besides\""), "{ready}");
}

async fn a_mixed_tank_is_named_with_what_is_in_it(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("fills", fill("2027-03-29T08:00:00Z", &farm.other_wheat)).await;
    farm.caught("2027-03-29T09:00:00Z", &farm.other_wheat).await;
    let card = page(&farm.ana, CARD).await;
    let tank = between(&card, "In the tank:", "</p>");
    assert!(tank.contains("W-17") || tank.contains("W-16"), "{tank}");
    assert!(tank.contains("Mixed: what was left of") && card.contains("tank mixed"), "{card}");
}

async fn steps_are_round_in_the_readers_units(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1400", "7.39")).await;
    let mut browser = Browser::of(&world, &farm.ana, Role::Office).await;
    let chosen = [("units", "us"), ("decimal_sign", "point"), ("language", "en")];
    assert_eq!(browser.submit(&world, "/account/reading", &chosen).await.status, 303);
    let card = browser.get(&world, CARD).await.text;
    // 140 kg/ha are 124.9 lb/ac, 7.39 km/h are 4.592 mph (NIST SP 811, B.8: 1 lb = 0.453 592 37 kg, 1 mile = 1.609 344 km).
    for head in ["100 lb/ac", "110 lb/ac", "120 lb/ac", "130 lb/ac", "140 lb/ac", "3.5 mph", "4.5 mph", "5.5 mph"] {
        assert!(card.contains(&format!(">{head}</th>")), "{head}: {card}");
    }
}
