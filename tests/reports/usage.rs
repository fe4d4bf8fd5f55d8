//! The usage audit on paper, where no form says what it was asked for; and that it is sent while it is made, unit by unit.

use super::season::{fact, plain, row};
use super::{between, in_use, page, until_idle};
use crate::on_both;
use crate::readiness::farm::{Farm, fill, job};
use crate::seed::{self, drill, hand};
use crate::world::World;
use http_body_util::BodyExt;
use serde_json::json;
use std::time::Duration;

on_both!(
    it_names_what_it_is_about,
    each_unit_has_its_part,
    who_sees_some_jobs_alone_has_parts_with_those,
    it_is_sent_while_it_is_made,
);

async fn it_names_what_it_is_about(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let mill = seed::id(&farm.ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let theirs = seed::lot(&farm.ana, "M-1", json!({ "client_id": mill })).await;
    farm.log("jobs", job("2027-03-29T12:00:00Z", &theirs, "1500", "8")).await;
    let asked = format!("client_id={mill}&seeder_id={}&from=2027-03-01&to=2027-03-31", farm.seeder);
    let audit = page(&farm.ana, &format!("/usage?{asked}")).await;
    let paper = between(&audit, "<div class=\"only-print\">", "</dl>");
    assert!(paper.contains("<dt>Client</dt><dd>Mill Farm</dd>"), "{paper}");
    assert!(paper.contains("<dt>Seeder</dt><dd>Drill 1</dd>") && !paper.contains("Seed lot"), "{paper}");
    assert!(
        audit.contains("<p class=\"report-about\">As of 1 April 2027, 08:00 (Europe/Vienna): 1 March 2027, 00:00 to 1 April 2027, 00:00</p>"),
        "{audit}"
    );
    let stamp = between(&audit, "<footer class=\"stamp\">", "</footer>");
    for says in
        ["1 April 2027, 08:00 (Europe/Vienna)", "1 March 2027, 00:00 to", "as Sowmark comes", "class=\"digits\""]
    {
        assert!(stamp.contains(says), "{says}: {stamp}");
    }
    // Of everything, nothing in particular was chosen but how jobs stand together.
    let all = page(&farm.ana, "/usage").await;
    let paper = between(&all, "<div class=\"only-print\">", "</dl>");
    assert!(!paper.contains("Client") && paper.contains("<dd>Field</dd>"), "{paper}");
    assert!(page(&farm.ana, "/reports").await.contains("href=\"/usage\""));
}

/// The part of a unit.
fn part<'p>(audit: &'p str, unit: &str) -> &'p str {
    between(audit, &format!("{unit}</a></h2>"), "</section>")
}

async fn each_unit_has_its_part(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("jobs", job("2027-03-28T12:00:00Z", &farm.wheat, "1400", "8")).await;
    farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1500", "8")).await;
    let (other, idle) = (drill(&world, &farm.ana, "Drill 2").await, drill(&world, &farm.ana, "Drill 3").await);
    farm.ana.create(&other.path("fills"), fill("2027-03-20T06:00:00Z", &farm.wheat)).await;
    farm.ana.create(&other.path("jobs"), job("2027-03-27T08:00:00Z", &farm.wheat, "700", "8")).await;
    let audit = page(&farm.ana, "/usage").await;
    // 3600 kg on 30 ha, those of the drill that was never caught under no true number.
    let sums = between(&audit, "id=\"sums\"", "</section>");
    assert_eq!((fact(sums, "Sown"), fact(sums, "Seed, weighed")), ("30.00 ha", "3600 kg"));
    assert_eq!(fact(sums, "Sown under a number that was not true"), "10.00 ha");
    let untrue = between(&audit, "<h2>Sown under a number that was not true</h2>", "</section>");
    assert!(untrue.contains("Drill 2, tank 1, on Long Acre: 10 ha.") && !untrue.contains("Drill 1"), "{untrue}");
    let together = row(&audit, "<th scope=\"row\">Long Acre, wheat</th>");
    assert_eq!(together[..3], ["30.00 ha", "10.00 ha", "3600 kg"], "{together:?}");
    let lot = row(between(&audit, "<h2>Lots</h2>", "</section>"), "wheat, lot W-16");
    assert_eq!(lot[3], "3600 kg", "{lot:?}");
    // Newest first, and the machine in the heading alone.
    let front = part(&audit, "Drill 1, front tank");
    let jobs = between(front, "<table class=\"jobs\">", "</table>").split("<tr").skip(2);
    let jobs: Vec<_> = jobs.filter_map(|row| row.split_once('>')).map(|(_, cells)| plain(cells)).collect();
    assert_eq!(jobs.len(), 2, "{front}");
    assert!(
        jobs[0].starts_with("29 March 2027, 10:00")
            && jobs[0].contains("Long Acre")
            && jobs[0].contains("1500 kg weighing"),
        "{jobs:?}"
    );
    assert!(jobs[1].starts_with("28 March 2027, 14:00") && jobs[1].contains("1400 kg"), "{jobs:?}");
    assert!(!plain(front).contains("Drill 2") && !between(front, "<thead>", "</thead>").contains("Unit"), "{front}");
    assert!(front.contains("2 jobs; smoothed they are") && front.contains("<h3>Tanks</h3>"), "{front}");
    let second = part(&audit, "Drill 2, tank 1");
    assert!(second.contains("700 kg") && second.contains("<h3>Tanks</h3>") && !second.contains("<figure"), "{second}");
    // What the tables and charts mean is said with the first; of a machine that stood still nothing is.
    assert_eq!(audit.matches("Each line is a tank").count(), 1, "{audit}");
    assert_eq!(audit.matches("Jobs whose seed was weighed or counted in bags").count(), 1, "{audit}");
    assert!(!audit.contains("Drill 3, tank 1") && !audit.contains("No unit has a weighed job"), "{audit}");
    assert!(audit.contains("End of the report.") && audit.contains("class=\"stamp\""), "{audit}");
    // Of a time before everything there is nothing to tell.
    let before = page(&farm.ana, "/usage?to=2027-03-01").await;
    assert!(before.contains("No job of this period is known.") && before.contains("No unit has a weighed job"));
    assert!(!before.contains("report-unit"), "{before}");
    // One machine alone, and one field: tanks and drift are of no field.
    let one = page(&farm.ana, &format!("/usage?seeder_id={}", other.seeder)).await;
    assert!(one.contains("Drill 2, tank 1</a></h2>") && !one.contains("Drill 1, front tank</a>"), "{one}");
    let idle = page(&farm.ana, &format!("/usage?seeder_id={}", idle.seeder)).await;
    assert!(!idle.contains("report-unit"), "{idle}");
}

async fn who_sees_some_jobs_alone_has_parts_with_those(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let mill = seed::id(&farm.ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let theirs = seed::lot(&farm.ana, "M-1", json!({ "client_id": mill })).await;
    farm.log("jobs", job("2027-03-28T12:00:00Z", &farm.wheat, "1400", "8")).await;
    farm.log("jobs", job("2027-03-29T12:00:00Z", &theirs, "1500", "8")).await;
    let drill = seed::Drill { seeder: farm.seeder.parse::<uuid::Uuid>().unwrap().into(), unit: farm.unit.clone() };
    let ben = hand(&world, &farm.ana, "ben-audit@example.org", &[&drill]).await;
    ben.create(&drill.path("jobs"), job("2027-03-30T08:00:00Z", &farm.wheat, "900", "8")).await;
    let gus = world.member_for(farm.ana.organization, "gus-audit@example.org", "agronomist", &[&mill]).await;
    for (person, asked, own) in [
        (&gus, "/usage".to_owned(), "1500 kg"),
        (&ben, "/usage".to_owned(), "900 kg"),
        (&farm.ana, format!("/usage?client_id={mill}"), "1500 kg"),
    ] {
        let audit = page(person, &asked).await;
        let front = part(&audit, "Drill 1, front tank");
        assert!(front.contains(own), "{asked}: {front}");
        for others in ["1400 kg", "<h3>Tanks</h3>", "<h3>Drift</h3>"] {
            assert!(!audit.contains(others), "{asked}: {others}: {audit}");
        }
        assert!(!audit.contains("No unit has a weighed job"), "{audit}");
    }
    assert!(!page(&ben, "/usage").await.contains("<h2>Lots</h2>"));
    let others = page(&gus, "/usage").await;
    assert!(others.contains("lot M-1") && !others.contains("W-16"), "{others}");
}

/// As the season report: while nobody takes its parts it waits with queries still to ask.
async fn it_is_sent_while_it_is_made(world: World) {
    let ana = world.ana().await;
    let wheat = seed::lot(&ana, "W-1", json!({})).await;
    for number in 1..=12 {
        let drill = drill(&world, &ana, &format!("Drill {number}")).await;
        ana.create(&drill.path("jobs"), job("2027-03-20T08:00:00Z", &wheat, "1400", "8")).await;
    }
    let mut body = ana.open("/page/usage").await.into_body();
    let first = body.frame().await.unwrap().unwrap().into_data().unwrap();
    let first = String::from_utf8(first.to_vec()).unwrap();
    assert!(first.contains("<h1>Where the seed went</h1>") && !first.contains("Drill 1,"), "{first}");
    assert!(first.contains("This report is still being made."), "{first}");
    tokio::time::sleep(Duration::from_millis(500)).await;
    assert_eq!(in_use(&world), 1, "the audit waits for its reader with queries still to ask");
    let mut parts = Vec::new();
    while let Some(frame) = body.frame().await {
        parts.push(String::from_utf8(frame.unwrap().into_data().unwrap().to_vec()).unwrap());
    }
    // The sums, the lots, a part for each unit, that there is no drift, and the end of the page.
    assert_eq!(parts.len(), 2 + 12 + 1 + 1);
    assert!(parts[2..14].iter().all(|part| part.matches("<section").count() == 1 && part.len() < 5_000), "{parts:?}");
    until_idle(&world).await;
    // A reader who goes away ends it.
    drop(ana.open("/page/usage").await);
    until_idle(&world).await;
}
