//! The office lets a trigger pass for a time.

use super::farm::{Farm, instant, setup, text};
use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(a_waiver_lets_a_trigger_pass_until_it_ends, what_cannot_be_waived_is_refused, a_form_waives);

const RAISED: &str = "2027-03-30T08:00:00Z";

async fn a_waiver_lets_a_trigger_pass_until_it_ends(world: World) {
    let (farm, first) = Farm::ready(&world).await;
    farm.log("setups", setup(RAISED, &farm.coarse, "5:2", "12")).await;
    let path = format!("/metering-units/{}/waivers", farm.unit);
    let waiver = json!({ "occurred_at": "2027-03-30T10:00:00Z", "trigger": "roller_changed", "until": "2027-03-31", "reason": "Worn alike." });
    let given = farm.ana.create(&path, waiver).await;
    // The end of the local day: midnight in Vienna, two hours before UTC's.
    assert_eq!(instant(&given["until"]), "2027-03-31T22:00:00Z".parse().unwrap());

    assert_eq!(farm.at("2027-03-30T09:00:00Z").await["state"], "calibrate");
    let now = farm.at("2027-03-30T12:00:00Z").await;
    assert_eq!((&now["state"], &now["calibration_id"]), (&json!("ready"), &json!(first)), "{now}");
    let waived = &now["due"][0]["waived"];
    assert_eq!((&waived["id"], &waived["reason"]), (&given["id"], &json!("Worn alike.")));
    assert!(text(&waived["by"]).starts_with("ana"), "{waived}");
    let after = farm.at("2027-03-31T22:00:00Z").await;
    assert_eq!((&after["state"], &after["due"][0]["waived"]), (&json!("calibrate"), &json!(null)), "{after}");
    let list = farm.ana.read(&path).await;
    assert_eq!(list["items"].as_array().map(Vec::len), Some(1));
    assert_eq!(list["items"][0], given);
}

async fn what_cannot_be_waived_is_refused(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let path = format!("/metering-units/{}/waivers", farm.unit);
    let never = json!({ "occurred_at": RAISED, "trigger": "never_calibrated", "until": "2027-03-29", "reason": "no" });
    farm.ana.post(&path, never).await.refused(422, &["/trigger", "/until"]);
    let bad = json!({ "trigger": "moon", "until": "soon", "reason": "" });
    farm.ana.post(&path, bad).await.refused(422, &["/trigger", "/until", "/reason"]);
    let past = json!({ "occurred_at": RAISED, "trigger": "drift", "until": "2027-03-28" });
    farm.ana.post(&path, past).await.refused(422, &["/until", "/reason"]);
    let over = json!({ "trigger": "drift", "until": "2027-03-31", "reason": "over" });
    farm.ana.post(&path, over).await.refused(422, &["/until"]);
    let crew = world.member(farm.ana.organization, "kim@example.org", "crew").await;
    let good = json!({ "trigger": "drift", "until": "2027-05-01", "reason": "fine" });
    crew.post(&path, good.clone()).await.refused(403, &[]);
    let ben = world.ana().await;
    ben.post(&path, good).await.refused(404, &[]);
}

async fn a_form_waives(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup(RAISED, &farm.coarse, "5:2", "12")).await;
    let page = farm.ana.get(&format!("/page/metering-units/{}/waivers/new?trigger=roller_changed", farm.unit)).await;
    assert_eq!(page.status, 200, "{}", page.text);
    assert!(page.text.contains("<option value=\"roller_changed\" selected>"), "{}", page.text);
    // What would come of it stands there before it is done; how far off the number is, once the rollers say.
    let says = "While “Roller changed” is let pass, 3.006 kg per 100 revolutions, per run counts as the number to key in, as it was caught on 28 March.";
    assert!(page.text.contains(says) && !page.text.contains("By their displacements"), "{}", page.text);
    for (roller, displaced) in [(&farm.fine, "210"), (&farm.coarse, "95.5")] {
        let displaced = json!({ "displacement_per_rev": { "value": displaced, "unit": "cm3" } });
        assert_eq!(farm.ana.patch(&format!("/rollers/{roller}"), displaced).await.status, 200);
    }
    let form = format!("/page/metering-units/{}/waivers/new?trigger=", farm.unit);
    let page = farm.ana.get(&format!("{form}roller_changed")).await.text;
    // 95.5 of 210.
    assert!(page.contains("coarse studded gives about 45 % of what fine fluted did."), "{page}");
    let other = farm.ana.get(&format!("{form}gate_changed")).await.text;
    assert!(other.contains("To let “Gate opening changed” pass gives no number yet"), "{other}");
    let path = format!("/page/metering-units/{}/waivers", farm.unit);
    let fields = [
        ("trigger", "roller_changed"),
        ("occurred_at", "2027-04-01T08:00"),
        ("until", "2027-03-01"),
        ("reason", "Worn alike."),
    ];
    // Over since midnight, which is the organization's.
    let past =
        [("trigger", "roller_changed"), ("occurred_at", "2027-04-01T00:30"), ("until", "2027-03-31"), ("reason", "")];
    let both = farm.ana.submit(&path, &past).await.text;
    assert!(both.contains("would end before it begins") && both.contains("This is missing."), "{both}");
    let again = farm.ana.submit(&path, &fields).await;
    assert_eq!(again.status, 422);
    assert!(again.text.contains("would end before it begins") && again.text.contains("Worn alike."), "{}", again.text);
    let fields = [
        ("trigger", "roller_changed"),
        ("occurred_at", "2027-04-01T08:00"),
        ("until", "2027-04-02"),
        ("reason", "Worn alike."),
    ];
    assert_eq!(farm.ana.submit(&path, &fields).await.status, 303);
    assert_eq!(farm.at("2027-04-01T12:00:00Z").await["state"], "ready");
}
