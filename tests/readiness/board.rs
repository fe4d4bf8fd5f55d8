//! The Readiness page: what needs someone first, the number, the reasons, and the filters in the address.

use super::farm::{Farm, fill, lot_test, setup, text};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(
    a_new_farm_is_told_how_to_begin,
    the_board_shows_number_reason_and_act,
    a_reason_leads_to_the_very_thing_that_began_it
);

async fn a_new_farm_is_told_how_to_begin(world: World) {
    let ana = world.ana().await;
    let page = ana.get("/page/").await;
    assert_eq!(page.status, 200, "{}", page.text);
    assert!(
        page.text.contains("href=\"/seeders/new\"") && page.text.contains("href=\"/seasons/new\""),
        "{}",
        page.text
    );
    ana.create("/rollers", serde_json::json!({ "label": "fine", "kind": "fluted" })).await;
    assert!(ana.get("/page/").await.text.contains("Add a meter roller: done"));
}

async fn the_board_shows_number_reason_and_act(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let page = farm.ana.get("/page/").await;
    assert_eq!(page.status, 200, "{}", page.text);
    // 9.62 kg in 40 revolutions of 8 runs: 3.006 kg per 100 revolutions and run, 24.05 for the whole unit.
    assert!(page.text.contains(">3.006<") && page.text.contains("24.05 kg/100rev whole unit"), "{}", page.text);

    // It came in March 2021: before, it was not there.
    let then = farm.ana.get("/page/?at=2021-02-28T12:00").await.text;
    assert!(!then.contains("Drill 1"), "{then}");
    let then = farm.ana.get("/page/?at=2021-03-02T12:00").await.text;
    assert!(then.contains("Drill 1") && then.contains("No catch of this unit was accepted yet"), "{then}");

    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    farm.log("fills", fill("2027-03-30T09:00:00Z", &farm.other_wheat)).await;
    let page = farm.ana.get("/page/?state=calibrate&crop=wheat").await;
    assert!(page.text.contains("Roller changed on 30 March: coarse studded"), "{}", page.text);
    assert!(page.text.contains("mixed with lot W-16") && page.text.contains("No number"), "{}", page.text);
    assert!(page.text.contains(&format!("href=\"/metering-units/{}/catch\"", farm.unit)), "{}", page.text);
    assert!(farm.ana.get("/page/?state=ready").await.text.contains("No unit is like that"));
    let past = farm.ana.get("/page/?at=2027-03-29T12:00").await;
    assert!(past.text.contains("As of 29 March 2027, 12:00") && past.text.contains(">3.006<"), "{}", past.text);
    assert!(farm.ana.get("/page/?at=never").await.text.contains("This is no moment"));
}

async fn a_reason_leads_to_the_very_thing_that_began_it(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let test = farm.at_lot(&farm.wheat, lot_test("2027-03-29T08:00:00Z", "60")).await;
    let kg = |value: &str| json!({ "value": value, "unit": "kg" });
    let check = json!({ "occurred_at": "2027-03-29T09:00:00Z", "reference": kg("10"), "reading": kg("11") });
    let check = text(&farm.ana.create(&format!("/scales/{}/checks", farm.scale), check).await["id"]);
    let season = json!({ "name": "Spring", "starts_on": "2027-03-30", "crops": null });
    let season = text(&farm.ana.create("/seasons", season).await["id"]);
    let board = farm.ana.get("/page/").await.text;
    for (page, id) in [(format!("/lots/{}", farm.wheat), test), ("/scales".into(), check), ("/seasons".into(), season)]
    {
        assert!(board.contains(&format!("<a href=\"{page}#{id}\">")), "{page}#{id}: {board}");
        let there = farm.ana.get(&format!("/page{page}")).await.text;
        assert!(there.contains(&format!(" id=\"{id}\"")), "{page} has no {id}: {there}");
    }
}
