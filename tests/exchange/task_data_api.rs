//! Task data through the API. The numbers are those of the example file, which were read from it apart from this project.

use super::{EXAMPLE, Yard, outcomes, renumbered};
use crate::on_both;
use crate::seed::{hand, id};
use crate::world::World;
use serde_json::json;

on_both!(
    a_preview_stores_nothing,
    tasks_become_jobs_once,
    a_changed_task_is_a_conflict,
    a_task_whose_job_was_voided_is_stored_anew,
    what_cannot_be_a_job_says_why,
    a_file_that_cannot_be_read_is_refused,
    who_may_import,
    the_trail_says_what_was_imported,
);

async fn a_preview_stores_nothing(world: World) {
    let yard = Yard::new(&world).await;
    let shown = yard.import(EXAMPLE, "?preview=true").await;
    assert_eq!((outcomes(&shown), &shown["stored"]), (vec!["not_matched", "not_matched"], &json!(0)));
    assert_eq!(shown["version"], "4.2");
    let line = &shown["lines"][0];
    assert_eq!(line["task"], "Sow wheat Long Acre");
    assert_eq!(line["field"], "Long Acre");
    assert_eq!(line["customer"], "Ada Beispiel");
    assert_eq!(line["machine"], "Seeder 6 m, SN-0042, Bin 1");
    assert_eq!(line["area"], json!({ "value": "12.3450", "unit": "ha" }));
    assert_eq!(line["machine_total"], json!({ "value": "2247.310", "unit": "kg" }));
    assert_eq!(line["balance"], json!({ "value": "2260.000", "unit": "kg" }));
    assert_eq!(line["target_rate"], json!({ "value": "180.00", "unit": "kg/ha" }));
    // In the zone of the organization, two hours ahead of what the file has.
    assert_eq!(line["occurred_at"], "2025-10-02T08:05:00+02:00");
    assert_eq!(line["ended_at"], "2025-10-02T13:14:00+02:00");
    assert_eq!(line["matches"][0], json!({ "kind": "unit", "name": "A000840000200001/SN-0042#3", "id": null }));
    assert_eq!(shown["other_tasks"][0]["is_only_planned"], true);
    assert!(shown["remarks"][0].as_str().unwrap().contains("LINKLIST.XML"), "{shown}");
    yard.match_all().await;
    let shown = yard.import(EXAMPLE, "?preview=true").await;
    assert_eq!(outcomes(&shown), ["ready", "ready"]);
    assert!(yard.jobs(0).await.is_empty());
}

async fn tasks_become_jobs_once(world: World) {
    let yard = Yard::new(&world).await;
    yard.match_all().await;
    let first = yard.import(EXAMPLE, "").await;
    assert_eq!((outcomes(&first), &first["stored"]), (vec!["stored", "stored"], &json!(2)));
    let jobs = yard.jobs(0).await;
    assert_eq!(jobs.len(), 1);
    assert_eq!(jobs[0]["id"], first["lines"][0]["job_id"]);
    assert_eq!(jobs[0]["seed_used"], json!({ "value": "2247.310", "unit": "kg" }));
    assert_eq!(jobs[0]["seed_used_basis"], "machine_total");
    assert_eq!(jobs[0]["area"], json!({ "value": "12.3450", "unit": "ha" }));
    assert_eq!(jobs[0]["target_rate"], json!({ "value": "180.00", "unit": "kg/ha" }));
    assert_eq!(jobs[0]["field"], "Long Acre");
    assert_eq!(jobs[0]["lot_id"], json!(yard.lots[0]));
    assert_eq!(yard.jobs(1).await[0]["seed_used"], json!({ "value": "925.880", "unit": "kg" }));
    // A machine's total says nothing about its factor.
    let usage = yard.ana.read("/usage").await;
    assert_eq!(usage["jobs"].as_array().unwrap().len(), 2);
    let points: usize =
        usage["drift"].as_array().unwrap().iter().map(|drift| drift["points"].as_array().unwrap().len()).sum();
    assert_eq!(points, 0);
    for again in [EXAMPLE.to_owned(), renumbered()] {
        let again = yard.import(&again, "").await;
        assert_eq!(again["stored"], 0);
        assert_eq!(outcomes(&again), ["already_stored", "already_stored"], "{again}");
        assert_eq!(again["lines"][0]["job_id"], jobs[0]["id"]);
    }
    assert_eq!(yard.jobs(0).await, jobs);
}

async fn a_changed_task_is_a_conflict(world: World) {
    let yard = Yard::new(&world).await;
    yard.match_all().await;
    yard.import(EXAMPLE, "").await;
    let before = yard.jobs(0).await;
    let more = EXAMPLE.replace("2247310", "2249310").replace("B=\"2247\"", "B=\"2249\"");
    let changed = yard.import(&more, "").await;
    assert_eq!(outcomes(&changed), ["changed", "already_stored"]);
    assert_eq!(changed["lines"][0]["job_id"], before[0]["id"]);
    assert_eq!(yard.jobs(0).await, before);
}

async fn a_task_whose_job_was_voided_is_stored_anew(world: World) {
    let yard = Yard::new(&world).await;
    yard.match_all().await;
    let first = yard.import(EXAMPLE, "").await;
    let job = first["lines"][0]["job_id"].as_str().unwrap().to_owned();
    yard.ana.create(&format!("/records/{job}/void"), json!({ "reason": "wrong lot" })).await;
    let again = yard.import(EXAMPLE, "").await;
    assert_eq!(outcomes(&again), ["stored", "already_stored"]);
    assert_ne!(again["lines"][0]["job_id"], json!(job));
    // A job that was corrected stands: the task is not stored beside its correction.
    let job = again["lines"][0]["job_id"].clone();
    let mut corrected = crate::seed::job(&yard.lots[0], &json!({ "corrects": job }));
    corrected["seed_used"] = json!({ "value": "2260", "unit": "kg" });
    yard.ana.create(&format!("/metering-units/{}/jobs", yard.units[0]), corrected).await;
    assert_eq!(outcomes(&yard.import(EXAMPLE, "").await), ["already_stored", "already_stored"]);
}

async fn what_cannot_be_a_job_says_why(world: World) {
    let yard = Yard::new(&world).await;
    yard.match_all().await;
    // The two totals of the second tank are apart, the first one's area is missing: a job's own act would refuse it.
    let apart = EXAMPLE.replace("B=\"926\"", "B=\"990\"");
    let answer = yard.import(&apart, "").await;
    assert_eq!(outcomes(&answer), ["stored", "faulty"]);
    let says = answer["lines"][1]["faults"][0].as_str().unwrap();
    assert!(says.ends_with("925880 g and 990 kg. Log this work by hand."), "{says}");
    // A lot that is not there any more cannot be meant.
    let wrong = json!({ "matches": [{ "kind": "lot", "name": "Wheat lot 24-117", "id": crate::seed::NOBODYS }] });
    yard.ana.put("/imports/task-data/matches", wrong).await.refused(422, &["/matches/0/id"]);
    let unit_as_lot = json!({ "matches": [{ "kind": "lot", "name": "Wheat lot 24-117", "id": yard.units[0] }] });
    yard.ana.put("/imports/task-data/matches", unit_as_lot).await.refused(422, &["/matches/0/id"]);
}

async fn a_file_that_cannot_be_read_is_refused(world: World) {
    let yard = Yard::new(&world).await;
    let half = &EXAMPLE[..EXAMPLE.len() / 2];
    let refused = yard.ana.post_text("/imports/task-data", half.to_owned()).await;
    refused.refused(422, &[""]);
    assert!(refused.text.contains("The file breaks off here."), "{}", refused.text);
    let bomb = format!("<!DOCTYPE a [<!ENTITY b \"c\">]>{EXAMPLE}");
    yard.ana.post_text("/imports/task-data", bomb).await.refused(422, &[""]);
    yard.ana.post_text("/imports/task-data", "").await.refused(422, &[""]);
    let large = vec![b' '; 16 * 1024 * 1024 + 1];
    yard.ana.post_text("/imports/task-data", large).await.refused(413, &[]);
}

async fn who_may_import(world: World) {
    let yard = Yard::new(&world).await;
    yard.match_all().await;
    let file = yard.import(EXAMPLE, "").await;
    let ben = hand(&world, &yard.ana, "ben-import@example.org", &[]).await;
    let gus = world.member(yard.ana.organization, "gus-import@example.org", "agronomist").await;
    for person in [&ben, &gus] {
        person.post_text("/imports/task-data", EXAMPLE).await.refused(403, &[]);
    }
    world.nobody().post_text("/imports/task-data", EXAMPLE).await.refused(401, &[]);
    // Another organization has its own: nothing is matched there, and the file is not theirs.
    let eve = Yard::new(&world).await;
    assert_eq!(outcomes(&eve.import(EXAMPLE, "").await), ["not_matched", "not_matched"]);
    assert_eq!(eve.ana.get(&format!("/page/exchange/task-data/{}", id(&file))).await.status, 404);
    assert_eq!(yard.ana.get(&format!("/page/exchange/task-data/{}", id(&file))).await.status, 200);
}

async fn the_trail_says_what_was_imported(world: World) {
    let yard = Yard::new(&world).await;
    yard.match_all().await;
    let file = yard.import(EXAMPLE, "").await;
    let trail = yard.ana.read("/audit?limit=500").await;
    let did: Vec<_> = trail["items"].as_array().unwrap().iter().collect();
    let of = |action: &str, kind: &str| {
        did.iter().filter(|line| line["action"] == action && line["subject"]["kind"] == kind).count()
    };
    assert_eq!((of("created", "task_file"), of("imported", "task_file"), of("created", "job")), (1, 2, 2));
    assert_eq!(of("matched", "organization"), 1);
    let imported = did.iter().find(|line| line["action"] == "imported").unwrap();
    assert_eq!(imported["subject"]["id"], file["id"]);
    assert_eq!(imported["change"]["jobs"][0], file["lines"][0]["job_id"]);
}
