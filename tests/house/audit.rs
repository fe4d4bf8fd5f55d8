//! The audit trail: one gapless chain per organization, which nothing can rewrite unseen.

use crate::on_both;
use crate::world::World;
use serde_json::{Value, json};
use sowmark::audit::{self, GENESIS, hash};
use sowmark_core::ids::OrganizationId;
use std::collections::BTreeSet;

on_both!(
    the_chain_holds_over_several_acts,
    the_database_refuses_to_rewrite_it,
    a_changed_line_has_another_hash,
    writers_at_once_make_one_gapless_chain,
    the_same_sent_three_times_at_once_is_one_record,
    each_organization_has_a_chain_of_its_own,
    the_page_names_and_links_what_a_line_is_about,
);

fn roller(label: &str) -> Value {
    json!({ "label": label, "kind": "fluted" })
}

async fn verified(world: &World, organization: OrganizationId) -> i64 {
    let mut conn = world.app.db.read().await.unwrap();
    audit::verify(&mut conn.cx(), organization).await.unwrap().expect("the chain holds").seq
}

async fn the_chain_holds_over_several_acts(world: World) {
    let ana = world.ana().await;
    let before = verified(&world, ana.organization).await;
    ana.create("/rollers", roller("fine")).await;
    let crew = ana.create("/crews", json!({ "name": "yard \u{201c}A\u{201d}" })).await;
    let path = format!("/crews/{}", crew["id"].as_str().unwrap());
    ana.put(&path, json!({ "name": "field", "members": [], "seeders": [] })).await;
    ana.post("/rollers", roller("")).await.refused(422, &[]);
    assert_eq!(verified(&world, ana.organization).await, before + 3, "an act, a line; a refusal, none");

    let items = ana.read("/audit?limit=500").await["items"].as_array().unwrap().clone();
    let mut previous = "0".repeat(64);
    for (position, line) in items.iter().enumerate() {
        assert_eq!(line["seq"], json!(position + 1));
        assert_eq!(line["previous_hash"], json!(previous));
        line["hash"].as_str().unwrap().clone_into(&mut previous);
    }
}

async fn the_database_refuses_to_rewrite_it(world: World) {
    let ana = world.ana().await;
    for statement in [
        "update audit set action = 'nothing'",
        "update audit set change = change",
        "delete from audit where seq = 1",
        "delete from audit",
    ] {
        let mut tx = world.app.db.begin().await.unwrap();
        let error = tx.cx().execute(statement, &[]).await.expect_err(statement);
        assert!(error.to_string().contains("append-only"), "{statement}: {error}");
    }
    assert!(verified(&world, ana.organization).await > 1);
}

async fn a_changed_line_has_another_hash(world: World) {
    let ana = world.ana().await;
    ana.create("/rollers", roller("fine")).await;
    let mut conn = world.app.db.read().await.unwrap();
    let lines = audit::after(&mut conn.cx(), ana.organization, 0, 100).await.unwrap();
    let mut previous = GENESIS.to_vec();
    for stored in &lines {
        let line = stored.line(ana.organization);
        assert_eq!(hash(&previous, &line).to_vec(), stored.hash);
        let mut seen = BTreeSet::from([stored.hash.clone()]);
        for at in 0..line.change.len() {
            let mut changed = line.clone();
            let mut bytes = changed.change.into_bytes();
            bytes[at] ^= 1;
            changed.change = String::from_utf8_lossy(&bytes).into_owned();
            assert!(seen.insert(hash(&previous, &changed).to_vec()), "byte {at} of the change does not count");
        }
        let mut changed = line.clone();
        changed.seq += 1;
        assert!(seen.insert(hash(&previous, &changed).to_vec()));
        changed = line.clone();
        changed.account = None;
        assert!(stored.account_id.is_none() || seen.insert(hash(&previous, &changed).to_vec()));
        // A letter moved from one field to the next is another line: each field has its length before it.
        changed = line.clone();
        changed.subject_kind.insert(0, changed.action.pop().unwrap());
        assert!(seen.insert(hash(&previous, &changed).to_vec()));
        let mut other = previous.clone();
        other[31] ^= 1;
        assert!(seen.insert(hash(&other, &line).to_vec()));
        previous.clone_from(&stored.hash);
    }
}

async fn writers_at_once_make_one_gapless_chain(world: World) {
    let ana = world.ana().await;
    let ben = world.member(ana.organization, "ben@example.org", "office").await;
    let before = verified(&world, ana.organization).await;
    let writers = [ana.clone(), ben].map(|writer| {
        tokio::spawn(async move {
            for number in 0..10 {
                writer.create("/rollers", roller(&format!("roller {number}"))).await;
            }
        })
    });
    for writer in writers {
        writer.await.unwrap();
    }
    assert_eq!(verified(&world, ana.organization).await, before + 20);
}

async fn the_same_sent_three_times_at_once_is_one_record(world: World) {
    let ana = world.ana().await;
    let before = verified(&world, ana.organization).await;
    let mut sent = roller("fine");
    sent["id"] = json!("0196d2a0-0000-7000-8000-000000000031");
    let senders = [ana.clone(), ana.clone(), ana.clone()].map(|sender| {
        let sent = sent.clone();
        tokio::spawn(async move { sender.post("/rollers", sent).await })
    });
    let mut statuses = Vec::new();
    let mut answers = Vec::new();
    for sender in senders {
        let answer = sender.await.unwrap();
        statuses.push(answer.status.as_u16());
        answers.push(answer.json());
    }
    statuses.sort_unstable();
    assert_eq!(statuses, [200, 200, 201]);
    assert!(answers.iter().all(|answer| *answer == answers[0]), "{answers:?}");
    assert_eq!(ana.read("/rollers").await["items"].as_array().unwrap().len(), 1);
    assert_eq!(verified(&world, ana.organization).await, before + 1);
}

async fn each_organization_has_a_chain_of_its_own(world: World) {
    let (ana, ben) = (world.ana().await, world.ana().await);
    let before = verified(&world, ben.organization).await;
    ana.create("/rollers", roller("fine")).await;
    assert_eq!(verified(&world, ben.organization).await, before);
    let mut conn = world.app.db.read().await.unwrap();
    let lines = audit::after(&mut conn.cx(), ana.organization, 0, 1).await.unwrap();
    let line = lines[0].line(ana.organization);
    assert_ne!(
        hash(&GENESIS, &line),
        hash(&GENESIS, &lines[0].line(ben.organization)),
        "a line belongs to its organization"
    );
}

async fn the_page_names_and_links_what_a_line_is_about(world: World) {
    let (farm, calibration) = crate::readiness::farm::Farm::ready(&world).await;
    let trail = farm.ana.get("/page/audit").await.text;
    for (href, name) in [
        (format!("/lots/{}", farm.wheat), "created, lot (W-16)"),
        (format!("/seeders/{}", farm.seeder), "created, seeder (Drill 1)"),
        (format!("/calibrations/{calibration}"), "created, calibration (Drill 1, front tank, W-16)"),
        ("/rollers".to_owned(), "created, roller (coarse studded)"),
    ] {
        let line = trail.split("<li").find(|line| line.contains(name)).unwrap_or_else(|| panic!("{name}: {trail}"));
        assert!(line.contains(&format!("<a href=\"{href}\">")), "{line}");
    }
    let lots = farm.ana.get("/page/audit?kind=lot&who=").await.text;
    assert!(lots.contains("lot (W-16)") && !lots.contains("seeder (Drill 1)"), "{lots}");
    let nobody = farm.ana.get("/page/audit?who=0196d2a0-0000-7000-8000-0000000000ff").await.text;
    assert!(nobody.contains("No line is like that."), "{nobody}");
    let wrong = farm.ana.get("/page/audit?who=me").await;
    assert_eq!(wrong.status, 422, "{}", wrong.text);
}
