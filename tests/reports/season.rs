//! The season report: what was due and how soon it was caught, ground, seed and exceptions, who sees what; and that it is sent while
//! it is made, and says so when it is not whole.

use super::{between, in_use, page, until_idle};
use crate::on_both;
use crate::readiness::farm::{AGREES, DISAGREES, Farm, catch, job, service, setup};
use crate::seed::{drill, hand};
use crate::world::World;
use http_body_util::BodyExt;
use serde_json::json;
use sowmark::args;
use std::time::Duration;

on_both!(
    a_reason_is_answered_by_the_next_accepted_catch,
    a_reason_may_be_answered_otherwise,
    ground_under_an_untrue_number_is_an_exception,
    a_season_ends_where_the_next_begins,
    one_client_alone,
    a_crew_sees_its_seeders_and_own_jobs,
    it_is_sent_while_it_is_made,
    a_report_that_fails_in_its_midst_says_so,
);

const REPORT: &str = "/reports/season";

/// The cells of a row after its head, without their markup.
pub(super) fn row(report: &str, begins: &str) -> Vec<String> {
    let rest = between(report, begins, "</tr>");
    let cells = rest.split("<td").skip(1).filter_map(|cell| cell.split_once('>'));
    cells.map(|(_, cell)| plain(cell.split("</td>").next().unwrap_or_default())).collect()
}

/// The cells of the row of a trigger.
pub(super) fn trigger(report: &str, says: &str) -> Vec<String> {
    row(report, &format!("class=\"says\">{says}"))
}

/// Without its tags.
pub(super) fn plain(html: &str) -> String {
    html.split('<').map(|part| part.split_once('>').map_or(part, |(_, text)| text)).collect()
}

/// The value of a fact in a part of the page.
#[track_caller]
pub(super) fn fact<'p>(part: &'p str, name: &str) -> &'p str {
    between(part, &format!("<dt>{name}</dt><dd class=\"num\">"), "</dd>")
}

/// The sums of all units.
#[track_caller]
fn sums(report: &str) -> &str {
    between(report, "id=\"sums\"", "</section>")
}

async fn a_reason_is_answered_by_the_next_accepted_catch(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-29T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    // A held catch answers nothing.
    farm.log("calibrations", catch("2027-03-29T12:00:00Z", &farm.wheat, Some(&farm.scale), DISAGREES)).await;
    farm.log("calibrations", catch("2027-03-29T20:00:00Z", &farm.wheat, Some(&farm.scale), AGREES)).await;
    farm.at_seeder("services", service("2027-03-31T06:00:00Z", true)).await;
    let report = page(&farm.ana, REPORT).await;
    let roller = trigger(&report, "Roller changed on 29 March:");
    assert_eq!(roller, ["29 March 2027, 10:00", "Caught again on 29 March 2027, 22:00", "12 hours"]);
    // The clock stands at 1 April, 06:00 UTC: a day later.
    let part = trigger(&report, "Hydraulic motor");
    assert_eq!(part, ["31 March 2027, 08:00", "Not yet answered", "24 hours"]);
    let sums = sums(&report);
    assert_eq!((fact(sums, "Catches accepted"), fact(sums, "Catches held")), ("2", "1"));
    // The first catch answered that the unit had never been caught: of 2 the longest is that one.
    assert_eq!(
        (fact(sums, "Reasons to catch again, caught"), fact(sums, "Reasons to catch again, still open")),
        ("2", "1")
    );
    let caught = row(&report, &format!("<a href=\"/calibrations/{first}\">28 March 2027, 10:00</a>"));
    assert_eq!(caught[..2], ["W-16", "3.006 kg/100rev"], "{caught:?}");
    assert!(caught[2].starts_with("\u{b1} ") && caught[2].ends_with(" %"), "{caught:?}");
    assert_eq!(caught[3..], ["Pass with remarks", "Accepted"], "{caught:?}");
    let fleet = row(&report, "<th scope=\"row\">Drill 1, front tank</th>");
    assert_eq!(fleet[..2], ["coarse studded, drive ratio 5:2, gate 12, 8 runs", "Calibrate"], "{fleet:?}");
    assert!(report.contains("class=\"stamp\"") && report.contains("End of the report."), "{report}");
    assert!(report.trim_end().ends_with("</html>") && !report.contains("report is incomplete"), "{report}");
}

async fn a_reason_may_be_answered_otherwise(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-29T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let waiver = json!({ "trigger": "roller_changed", "occurred_at": "2027-03-29T10:00:00Z", "until": "2027-03-30",
        "reason": "cleaned, not changed" });
    farm.log("waivers", waiver).await;
    farm.log("setups", setup("2027-03-31T12:00:00Z", &farm.fine, "5:2", "12")).await;
    let report = page(&farm.ana, REPORT).await;
    let rows: Vec<_> = report.split("class=\"says\">Roller changed").skip(1).map(plain).collect();
    assert_eq!(rows.len(), 2, "{report}");
    let (let_pass, back) = (&rows[0], &rows[1]);
    assert!(let_pass.contains(
        "The office let it pass on 29 March 2027, 12:00, until the end of 30 March 2027: cleaned, not changed"
    ));
    assert!(back.contains("31 March 2027, 00:00") && back.contains("No longer so on 31 March 2027, 14:00"), "{back}");
    let exceptions = plain(between(&report, "<h3>Exceptions</h3>", "</ol>"));
    assert!(
        exceptions.contains("The office let pass until the end of 30 March 2027: Roller changed. cleaned, not changed")
    );
    assert_eq!(fact(sums(&report), "Reasons to catch again, ended otherwise"), "2");
}

async fn ground_under_an_untrue_number_is_an_exception(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1400", "8")).await;
    farm.log("setups", setup("2027-03-29T10:00:00Z", &farm.coarse, "5:2", "12")).await;
    farm.log("jobs", job("2027-03-29T12:00:00Z", &farm.wheat, "1500", "8")).await;
    let report = page(&farm.ana, REPORT).await;
    let exceptions = between(&report, "<h3>Exceptions</h3>", "</ol>");
    let says = "10 ha on Long Acre sown under a number that was not true. Roller changed on 29 March";
    assert!(exceptions.contains(says), "{exceptions}");
    assert_eq!(exceptions.matches("class=\"entry\"").count(), 1, "{exceptions}");
    let all = sums(&report);
    assert_eq!(fact(all, "Sown"), "20.00 ha");
    assert_eq!(fact(all, "Sown under a number that was not true"), "10.00 ha");
    assert_eq!(fact(all, "Seed, weighed"), "2900 kg");
    let seed = between(&report, "id=\"seed\"", "</section>");
    assert_eq!(row(seed, "<th scope=\"row\">W-16</th>"), ["20.00 ha", "10.00 ha", "2900 kg", "0 kg", "0 kg"]);
    let before = page(&farm.ana, &format!("{REPORT}?from=2027-03-01&to=2027-03-28")).await;
    assert_eq!(fact(sums(&before), "Sown"), "0.00 ha");
    assert!(!before.contains("Roller changed"), "{before}");
    // What it says is what the usage audit says.
    let usage = page(&farm.ana, "/usage").await;
    assert_eq!(fact(&usage, "Sown under a number that was not true"), "10.00 ha");
    let wrong = farm.ana.get(&format!("/page{REPORT}?from=2027-03-28&to=2027-03-01")).await;
    assert!(wrong.status == 422 && wrong.text.contains("value=\"2027-03-28\""), "{}", wrong.text);
}

async fn a_season_ends_where_the_next_begins(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let season = |name: &str, starts_on: &str| json!({ "name": name, "starts_on": starts_on, "crops": null });
    let spring = farm.ana.create("/seasons", season("Spring", "2027-03-01")).await;
    farm.ana.create("/seasons", season("Early", "2027-03-30")).await;
    farm.ana.create("/seasons", season("Autumn", "2027-09-01")).await;
    let report = page(&farm.ana, &format!("{REPORT}?season_id={}", spring["id"].as_str().unwrap())).await;
    assert!(report.contains("1 March 2027, 00:00 to 30 March 2027, 00:00"), "{report}");
    assert!(report.contains(">Spring</p>") && report.contains("28 March 2027, 10:00"), "{report}");
    let this = page(&farm.ana, REPORT).await;
    assert!(this.contains(">Early</p>") && this.contains("30 March 2027, 00:00 to 1 September 2027, 00:00"), "{this}");
    assert!(this.contains("No catch to tell of in this period."), "{this}");
    // That the season began is itself a reason to catch again, and stands.
    assert_eq!(trigger(&this, "A new season began on 30 March: Early")[1], "Not yet answered");
}

async fn one_client_alone(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let mill = crate::seed::id(&farm.ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let theirs = crate::seed::lot(&farm.ana, "M-1", json!({ "client_id": mill })).await;
    farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1400", "8")).await;
    farm.log("emptyings", json!({ "occurred_at": "2027-03-29T09:00:00Z", "lot_id": farm.wheat, "to_empty": true }))
        .await;
    farm.log("jobs", job("2027-03-29T12:00:00Z", &theirs, "1500", "8")).await;
    farm.caught("2027-03-29T14:00:00Z", &theirs).await;
    let report = page(&farm.ana, &format!("{REPORT}?client_id={mill}")).await;
    assert!(report.contains("For Mill Farm alone") && !report.contains("W-16</td>"), "{report}");
    let all = sums(&report);
    assert_eq!((fact(all, "Seed, weighed"), fact(all, "Catches accepted")), ("1500 kg", "1"));
    assert_eq!(trigger(&report, "Crop changed")[1], "Caught again on 29 March 2027, 16:00");
    assert_eq!(fact(sums(&page(&farm.ana, REPORT).await), "Seed, weighed"), "2900 kg");
    let nobody = farm.ana.get(&format!("/page{REPORT}?client_id={}", crate::seed::NOBODYS)).await;
    assert_eq!(nobody.status, 422, "{}", nobody.text);
}

async fn a_crew_sees_its_seeders_and_own_jobs(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let other = drill(&world, &farm.ana, "Drill 2").await;
    let ben = hand(&world, &farm.ana, "ben-season@example.org", &[&other]).await;
    farm.ana.create(&other.path("jobs"), job("2027-03-29T08:00:00Z", &farm.wheat, "1400", "8")).await;
    ben.create(&other.path("jobs"), job("2027-03-29T09:00:00Z", &farm.wheat, "700", "8")).await;
    let seen = page(&ben, REPORT).await;
    assert!(seen.contains("Drill 2") && !seen.contains("Drill 1,"), "{seen}");
    let all = sums(&seen);
    assert_eq!((fact(all, "Metering units"), fact(all, "Seed, weighed")), ("1", "700 kg"));
    let mill = crate::seed::id(&farm.ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let gus = world.member_for(farm.ana.organization, "gus-season@example.org", "agronomist", &[&mill]).await;
    let nothing = page(&gus, REPORT).await;
    assert_eq!(fact(sums(&nothing), "Metering units"), "0");
    assert!(!nothing.contains("Drill 1,") && !nothing.contains("Drill 2,"), "{nothing}");
}

/// The report gives its connection back after its last query. While nobody takes its parts only two may wait, so the
/// connection stays taken: the first part went out before the last query was asked.
async fn it_is_sent_while_it_is_made(world: World) {
    let ana = world.ana().await;
    for number in 1..=12 {
        drill(&world, &ana, &format!("Drill {number}")).await;
    }
    let mut body = ana.open(&format!("/page{REPORT}")).await.into_body();
    let first = body.frame().await.unwrap().unwrap().into_data().unwrap();
    let first = String::from_utf8(first.to_vec()).unwrap();
    assert!(first.contains("<h1>Season report</h1>") && !first.contains("Drill 1,"), "{first}");
    assert!(first.contains("This report is still being made."), "{first}");
    tokio::time::sleep(Duration::from_millis(500)).await;
    assert_eq!(in_use(&world), 1, "the report waits for its reader with queries still to ask");
    let mut parts = Vec::new();
    while let Some(frame) = body.frame().await {
        parts.push(frame.unwrap().into_data().unwrap().len());
    }
    // The sums, a part for each unit, and the end of the page.
    assert_eq!(parts.len(), 14);
    assert!(parts.iter().all(|length| *length < 50_000), "{parts:?}");
    until_idle(&world).await;
    // A reader who goes away ends it.
    drop(ana.open(&format!("/page{REPORT}")).await);
    until_idle(&world).await;
}

async fn a_report_that_fails_in_its_midst_says_so(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let other = drill(&world, &farm.ana, "Drill 2").await;
    // What no version of this program writes: readable for a list, not for who computes with it.
    let mut tx = world.app.db.begin().await.unwrap();
    let sql = "update seeder set commissioned_on = 'some day' where organization_id = $1 and id = $2";
    tx.cx().execute(sql, args![farm.ana.organization, other.seeder]).await.unwrap();
    tx.commit().await.unwrap();
    let answer = farm.ana.get(&format!("/page{REPORT}")).await;
    assert_eq!(answer.status, 200, "it had begun");
    let report = &answer.text;
    assert!(report.contains("<h1>Season report</h1>") && report.contains("This report is incomplete"), "{report}");
    assert!(report.contains("Do not use it.") && !report.contains("some day"), "{report}");
    assert!(!report.contains("class=\"stamp\"") && !report.contains("End of the report."), "{report}");
    assert!(report.trim_end().ends_with("</html>"), "{report}");
    until_idle(&world).await;
}
