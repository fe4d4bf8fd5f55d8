//! The lot card: against what was typed, and balances worked out by hand.

use super::{between, page};
use crate::on_both;
use crate::readiness::farm::{Farm, job};
use crate::seed::{drill, hand, id, kg, lot};
use crate::world::World;
use serde_json::json;

on_both!(
    it_says_where_the_seed_came_from_and_where_it_went,
    the_balance_is_the_one_worked_out_by_hand,
    treated_seed_defers_to_its_label,
    what_does_not_stand_is_struck_through,
    without_a_lot_it_asks_for_one,
    a_lot_that_is_not_there_is_told_beside_the_choice,
    who_sees_no_stock_has_no_balance,
    it_names_every_calibration,
    an_agronomist_of_a_client_has_the_clients_lots,
    an_organizations_lots_are_its_own,
);

fn card(lot: &str) -> String {
    format!("/reports/lot-card?lot_id={lot}")
}

async fn it_says_where_the_seed_came_from_and_where_it_went(world: World) {
    let (farm, caught) = Farm::ready(&world).await;
    farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1400", "8")).await;
    let shown = page(&farm.ana, &card(&farm.wheat)).await;
    assert_eq!(shown.matches("<article class=\"cab-card lot-card\">").count(), 1, "{shown}");
    assert!(between(&shown, "<h2>", "</h2>").contains("wheat, lot W-16"), "{shown}");
    let tests = between(&shown, "<h3>Tests</h3>", "</table>");
    assert!(tests.contains("23 March 2027, 09:00") && tests.contains("<td class=\"num\">78 kg/hL</td>"), "{tests}");
    let went = between(&shown, "<h3>Where it went</h3>", "</table>");
    for said in ["29 March 2027, 10:00", "Long Acre", "Drill 1, front tank", "10 ha", "1400 kg", "140 kg/ha"] {
        assert!(went.contains(said), "{said}: {went}");
    }
    // 9.600 and 9.640 kg by 40 revolutions of 8 runs: 3.006 kg per 100 revolutions.
    let catches = between(&shown, "<h3>Calibrations made with it</h3>", "</table>");
    for said in [caught.as_str(), "28 March 2027, 10:00", "Drill 1, front tank", "3.006 kg/100rev", "\u{b1} "] {
        assert!(catches.contains(said), "{said}: {catches}");
    }
    assert!(shown.contains("The number to key in stands on the cab card"), "{shown}");
    let stamp = between(&shown, "<footer class=\"stamp\">", "</footer>");
    assert!(stamp.contains("1 April 2027, 08:00 (Europe/Vienna)") && stamp.contains("class=\"digits\""), "{stamp}");
    assert!(stamp.contains("from the beginning until then"), "{stamp}");
    // It is found from the lot and from the list of reports.
    let of_lot = page(&farm.ana, &format!("/lots/{}", farm.wheat)).await;
    assert!(of_lot.contains(&format!("href=\"{}\"", card(&farm.wheat))), "{of_lot}");
    let reports = page(&farm.ana, "/reports").await;
    assert!(reports.contains("action=\"/reports/lot-card\"") && reports.contains("W-16"), "{reports}");
    // Another lot's card has none of it.
    let other = page(&farm.ana, &card(&farm.rape)).await;
    for said in ["No job with this lot", "No calibration with this lot", "Nothing was measured of this lot"] {
        assert!(other.contains(said), "{said}: {other}");
    }
}

async fn the_balance_is_the_one_worked_out_by_hand(world: World) {
    let ana = world.ana().await;
    let drill = drill(&world, &ana, "Drill 1").await;
    let label = json!({ "origin": "Oregon", "inert_matter_percent": "0.70" });
    let more = json!({ "received_on": "2027-03-01", "received_mass": kg("4000"), "supplier": "Feldmark Seed", "label": label });
    let lot = lot(&ana, "W-1", more).await;
    let fill = json!({ "occurred_at": "2027-03-06T06:00:00Z", "lot_id": lot, "mass": kg("1500") });
    ana.create(&drill.path("fills"), fill).await;
    let sown = json!({ "occurred_at": "2027-03-06T08:00:00Z", "ended_at": null, "seed_used": kg("1248") });
    ana.create(&drill.path("jobs"), crate::seed::job(&lot, &sown)).await;
    let emptied = json!({ "occurred_at": "2027-03-06T18:00:00Z", "lot_id": lot, "mass": kg("240"), "to_empty": true });
    ana.create(&drill.path("emptyings"), emptied).await;
    let counted =
        json!({ "occurred_at": "2027-03-07T09:00:00Z", "kind": "counted", "mass": kg("2725"), "note": "bags left" });
    ana.create(&format!("/lots/{lot}/movements"), counted).await;
    let shown = page(&ana, &card(&lot)).await;
    let facts = between(&shown, "<h3>Label</h3>", "</section>");
    for said in ["Feldmark Seed", "4000 kg", "Oregon", "0.70 %"] {
        assert!(facts.contains(said), "{said}: {facts}");
    }
    // By hand: 4000 - 1500 + 240 = 2740 kg on hand, of three weighings of 10 kg: 2 x sqrt(3) x 10 = 34.6 kg. Counted 2725 kg, a
    // fourth weighing: 15 kg too little, 2 x sqrt(4) x 10 = 40 kg.
    let balance = between(&shown, "<h3>Balance</h3>", "</section>");
    for said in
        ["1500 kg", "240 kg", "1248 kg", "2740 kg \u{b1} 35 kg", "2725 kg", "\u{2212}15 kg \u{b1} 40 kg", "bags left"]
    {
        assert!(balance.contains(said), "{said}: {balance}");
    }
    // The tank: 1500 - 240 - 1248 = 12 kg unaccounted for.
    let tank = between(&shown, "Drill 1, tank 1</th>", "</tr>");
    assert!(tank.contains("12 kg \u{b1} "), "{tank}");
}

async fn treated_seed_defers_to_its_label(world: World) {
    let ana = world.ana().await;
    let treatment = json!({ "product": "Fludioxa 25", "caution": "Toxic to fish." });
    let treated = lot(&ana, "W-1", json!({ "treatment": treatment })).await;
    let shown = page(&ana, &card(&treated)).await;
    assert!(shown.contains("Fludioxa 25") && shown.contains("Toxic to fish."), "{shown}");
    assert!(shown.contains("The label of the seed and the rules where you are go before this page."), "{shown}");
    let plain = lot(&ana, "W-2", json!({})).await;
    assert!(!page(&ana, &card(&plain)).await.contains("go before this page"));
}

async fn what_does_not_stand_is_struck_through(world: World) {
    let (farm, caught) = Farm::ready(&world).await;
    let wrong = farm.log("jobs", job("2027-03-29T08:00:00Z", &farm.wheat, "1400", "8")).await;
    for (record, reason) in [(&wrong, "another field"), (&caught, "another lot")] {
        farm.ana.create(&format!("/records/{record}/void"), json!({ "reason": reason })).await;
    }
    let shown = page(&farm.ana, &card(&farm.wheat)).await;
    // Jobs are those of the audit, which knows what stands; a catch stays readable.
    assert!(shown.contains("No job with this lot"), "{shown}");
    let catches = between(&shown, "<h3>Calibrations made with it</h3>", "</table>");
    assert!(catches.contains("<tr class=\"voided\">") && catches.contains("3.006"), "{catches}");
}

async fn without_a_lot_it_asks_for_one(world: World) {
    let ana = world.ana().await;
    let none = page(&ana, "/reports/lot-card").await;
    assert!(none.contains("Choose a lot to see its card.") && !none.contains("class=\"stamp\""), "{none}");
    assert!(page(&ana, "/reports").await.contains("No lot yet."));
}

async fn a_lot_that_is_not_there_is_told_beside_the_choice(world: World) {
    let ana = world.ana().await;
    for asked in [crate::seed::NOBODYS, "that-one"] {
        let refused = ana.get(&format!("/page{}", card(asked))).await;
        assert_eq!(refused.status, 422, "{}", refused.text);
        assert!(refused.text.contains("id=\"lot_id-error\""), "{}", refused.text);
    }
}

async fn who_sees_no_stock_has_no_balance(world: World) {
    let ana = world.ana().await;
    let (own, other) = (drill(&world, &ana, "Drill 1").await, drill(&world, &ana, "Drill 2").await);
    let ben = hand(&world, &ana, "ben-lot-card@example.org", &[&own]).await;
    let more = json!({ "received_mass": kg("4000"), "supplier": "Feldmark Seed" });
    let lot = lot(&ana, "W-1", more).await;
    let at = json!({ "occurred_at": "2027-03-20T08:00:00Z", "ended_at": null });
    let mut mine = at.clone();
    mine["field"] = json!("Near field");
    ben.create(&own.path("jobs"), crate::seed::job(&lot, &mine)).await;
    ana.create(&other.path("jobs"), crate::seed::job(&lot, &at)).await;
    let seen = page(&ben, &card(&lot)).await;
    assert!(seen.contains("Near field") && !seen.contains("Long acre") && !seen.contains("Drill 2"), "{seen}");
    for hidden in ["<h3>Balance</h3>", "4000 kg", "Feldmark Seed"] {
        assert!(!seen.contains(hidden), "{hidden}: {seen}");
    }
}

async fn an_agronomist_of_a_client_has_the_clients_lots(world: World) {
    let ana = world.ana().await;
    let drill = drill(&world, &ana, "Drill 1").await;
    let mill = id(&ana.create("/clients", json!({ "name": "Mill Farm" })).await);
    let theirs = lot(&ana, "M-1", json!({ "client_id": mill })).await;
    let others = lot(&ana, "H-1", json!({})).await;
    for lot in [&theirs, &others] {
        let at = json!({ "occurred_at": "2027-03-20T08:00:00Z", "ended_at": null });
        ana.create(&drill.path("jobs"), crate::seed::job(lot, &at)).await;
    }
    let gus = world.member_for(ana.organization, "gus-lot-card@example.org", "agronomist", &[&mill]).await;
    let seen = page(&gus, &card(&theirs)).await;
    assert!(seen.contains("M-1") && seen.contains("of Mill Farm") && !seen.contains("H-1"), "{seen}");
    assert!(between(&seen, "<h3>Where it went</h3>", "</section>").contains("Long acre"), "{seen}");
    let refused = gus.get(&format!("/page{}", card(&others))).await;
    assert!(refused.status == 422 && !refused.text.contains("H-1"), "{}", refused.text);
    assert!(!page(&gus, "/reports").await.contains("H-1"));
}

async fn an_organizations_lots_are_its_own(world: World) {
    let (ana, eve) = (world.ana().await, world.ana().await);
    let lot = lot(&ana, "W-1", json!({})).await;
    let refused = eve.get(&format!("/page{}", card(&lot))).await;
    assert!(refused.status == 422 && !refused.text.contains("W-1"), "{}", refused.text);
    assert_eq!(world.nobody().get(&format!("/page{}", card(&lot))).await.status, 303);
}

/// More than are read at a time.
async fn it_names_every_calibration(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    let mut all = vec![first];
    for number in 0..51 {
        // Two at each moment, so that a page ends between two of one moment.
        let at = format!("2027-03-29T04:{:02}:00Z", number / 2);
        all.push(farm.caught(&at, &farm.wheat).await);
    }
    let shown = page(&farm.ana, &card(&farm.wheat)).await;
    let catches = between(&shown, "<h3>Calibrations made with it</h3>", "</table>");
    assert_eq!(catches.matches("href=\"/calibrations/").count(), 52);
    for id in &all {
        assert_eq!(catches.matches(id.as_str()).count(), 1, "{id}: {catches}");
    }
}
