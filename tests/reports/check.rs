//! A print-out held against the trail: its head is found, and nothing before it can be changed unseen.

use super::{between, page};
use crate::on_both;
use crate::readiness::farm::Farm;
use crate::world::{Person, World};
use serde_json::json;
use sowmark::{args, audit};

on_both!(
    what_stands_on_paper_is_found_later,
    a_strange_or_mistyped_head_is_not,
    a_chain_that_was_tampered_with_says_so,
    a_report_reads_one_state,
);

/// The digits on a card, as they stand there.
async fn digits(person: &Person) -> String {
    between(&page(person, "/reports/cab-card").await, "<span class=\"digits\">", "</span>").to_owned()
}

/// What the page says of a head.
async fn checked(person: &Person, head: &str) -> String {
    page(person, &format!("/reports/check?head={}", head.replace(' ', "+"))).await
}

async fn what_stands_on_paper_is_found_later(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let digits = digits(&farm.ana).await;
    let trail = farm.ana.read("/audit?limit=500").await["items"].as_array().unwrap().clone();
    let newest = trail.last().unwrap();
    assert_eq!(json!(digits.replace(' ', "")), newest["hash"], "the head is the newest line");
    let fresh = checked(&farm.ana, &digits).await;
    let entry = format!("It is entry {}, written on", newest["seq"]);
    assert!(fresh.contains("This trail contains it") && fresh.contains(&entry), "{fresh}");
    assert!(fresh.contains("it is still the newest one"), "{fresh}");
    farm.ana.create("/rollers", json!({ "label": "later", "kind": "fluted" })).await;
    let later = checked(&farm.ana, &digits.to_uppercase()).await;
    assert!(later.contains(&entry) && later.contains("and so is the one since"), "{later}");
    // The short address leads to the same, and shows the rest to compare.
    let short = farm.ana.get(&format!("/page/c/{}", &digits.replace(' ', "")[..16])).await;
    let target = short.headers["location"].to_str().unwrap().to_owned();
    assert_eq!(short.status, 303);
    let short = page(&farm.ana, &target).await;
    assert!(short.contains(&entry) && short.contains(&digits.replace(' ', "")), "{short}");
}

async fn a_strange_or_mistyped_head_is_not(world: World) {
    let (farm, eve) = (Farm::ready(&world).await.0, world.ana().await);
    let digits = digits(&farm.ana).await;
    let of_another = checked(&eve, &digits).await;
    assert!(
        of_another.contains("The print-out cannot be confirmed") && !of_another.contains("It is entry"),
        "{of_another}"
    );
    let last = if digits.ends_with('0') { "1" } else { "0" };
    let mistyped = checked(&farm.ana, &format!("{}{last}", &digits[..digits.len() - 1])).await;
    assert!(mistyped.contains("Look for a mistyped digit"), "{mistyped}");
    for not in ["0123", "nothing of the kind", &"0".repeat(65)] {
        let page = farm.ana.get(&format!("/page/reports/check?head={}", not.replace(' ', "+"))).await;
        assert!(page.status == 422 && page.text.contains("This is no head"), "{not}: {}", page.text);
    }
}

/// Whoever writes to the database itself can add a line, but none that fits.
async fn a_chain_that_was_tampered_with_says_so(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let digits = digits(&farm.ana).await;
    let organization = farm.ana.organization;
    let mut tx = world.app.db.begin().await.unwrap();
    let head = audit::head(&mut tx.cx(), organization).await.unwrap().unwrap();
    let forged = "insert into audit (organization_id, seq, at, account_id, action, subject_kind, subject_id, change, previous_hash, hash)
        values ($1, $2, $3, null, 'changed', 'policy', $4, '{}', $5, $6)";
    let values = args![organization, head.seq + 1, head.at, uuid::Uuid::max(), head.hash.clone(), [7_u8; 32]];
    tx.cx().execute(forged, values).await.unwrap();
    tx.commit().await.unwrap();
    let forged = checked(&farm.ana, &"07".repeat(32)).await;
    assert!(forged.contains("The print-out cannot be confirmed"), "{forged}");
    assert!(forged.contains(&format!("Entry {} is no longer as it was written", head.seq + 1)), "{forged}");
    let before = checked(&farm.ana, &digits).await;
    assert!(before.contains("This trail contains it") && before.contains("made later, is not"), "{before}");
}

async fn a_report_reads_one_state(world: World) {
    let ana = world.ana().await;
    let mut snapshot = world.app.snapshot().await.unwrap();
    let before = audit::head(&mut snapshot.cx(), ana.organization).await.unwrap();
    ana.create("/rollers", json!({ "label": "meanwhile", "kind": "fluted" })).await;
    let same = audit::head(&mut snapshot.cx(), ana.organization).await.unwrap();
    drop(snapshot);
    let mut conn = world.app.read().await.unwrap();
    let after = audit::head(&mut conn.cx(), ana.organization).await.unwrap();
    assert!(before == same && before != after, "{before:?} {same:?} {after:?}");
}
