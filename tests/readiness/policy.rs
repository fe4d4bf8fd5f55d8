//! The tolerances: defaults, changes with a history, faults by field.

use crate::on_both;
use crate::world::World;
use serde_json::json;

on_both!(tolerances_are_changed_and_keep_a_history, bad_tolerances_are_refused_by_field, the_form_shows_and_keeps_them);

async fn tolerances_are_changed_and_keep_a_history(world: World) {
    let ana = world.ana().await;
    let default = ana.read("/policy").await;
    assert_eq!((&default["id"], &default["in_force_since"]), (&json!(null), &json!(null)));
    assert_eq!(default["tolerances"]["repeat_spread_limit_percent"], json!(5.0));
    assert_eq!(default["tolerances"]["interval_days"], json!(null));
    let fields = default["fields"].as_array().unwrap();
    assert_eq!(fields.len(), default["tolerances"].as_object().unwrap().len());
    assert!(fields.iter().all(|field| field["because"].as_str().is_some_and(|because| because.ends_with('.'))));

    let changed = ana.put("/policy", json!({ "interval_days": "30", "recall_allowed": false })).await;
    assert_eq!(changed.status, 200, "{}", changed.text);
    let changed = changed.json();
    assert_eq!(
        (&changed["tolerances"]["interval_days"], &changed["tolerances"]["recall_allowed"]),
        (&json!(30.0), &json!(false))
    );
    assert_eq!(changed["tolerances"]["repeat_spread_limit_percent"], json!(5.0));
    // What GET answers can be sent back, and changes nothing.
    assert_eq!(ana.put("/policy", changed.clone()).await.json(), changed);
    let off = ana.put("/policy", json!({ "tolerances": { "interval_days": null } })).await.json();
    assert_eq!(off["tolerances"]["interval_days"], json!(null));
    assert_ne!(off["id"], changed["id"]);
}

async fn bad_tolerances_are_refused_by_field(world: World) {
    let ana = world.ana().await;
    let bad = json!({ "minimum_repeats": 0, "drift_lambda": "NaN", "recall_allowed": null, "colour": 1 });
    ana.put("/policy", bad).await.refused(422, &["/minimum_repeats", "/drift_lambda", "/recall_allowed", "/colour"]);
    ana.put("/policy", json!({ "run_cv_remark_percent": 20 })).await.refused(422, &["/run_cv_remark_percent"]);
    let nested = json!({ "tolerances": { "run_cv_remark_percent": 20 } });
    ana.put("/policy", nested).await.refused(422, &["/tolerances/run_cv_remark_percent"]);
    let crew = world.member(ana.organization, "kim-policy@example.org", "crew").await;
    crew.put("/policy", json!({ "minimum_repeats": 3 })).await.refused(403, &[]);
    assert_eq!(ana.read("/policy").await["id"], json!(null));
}

async fn the_form_shows_and_keeps_them(world: World) {
    let ana = world.ana().await;
    let page = ana.get("/page/tolerances").await;
    assert_eq!(page.status, 200);
    assert!(page.text.contains("Nothing was changed yet"), "{}", page.text);
    let policy = ana.read("/policy").await;
    let mut typed: Vec<(String, String)> = policy["tolerances"]
        .as_object()
        .unwrap()
        .iter()
        .map(|(name, value)| (name.clone(), value.as_str().map_or_else(|| value.to_string(), str::to_owned)))
        .map(|(name, value)| {
            (name, if value == "null" { String::new() } else { value.trim_end_matches(".0").to_owned() })
        })
        .collect();
    for (name, value) in &mut typed {
        if name == "minimum_repeats" {
            value.replace_range(.., "3");
        }
    }
    let fields: Vec<(&str, &str)> = typed.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
    let kept = ana.submit("/page/tolerances", &fields).await;
    assert_eq!(kept.status, 303, "{}", kept.text);
    assert_eq!(ana.read("/policy").await["tolerances"]["minimum_repeats"], json!(3));
    let page = ana.get("/page/tolerances").await;
    assert!(page.text.contains("Minimum repeats: 3 repeats, was 2 repeats"), "{}", page.text);
}
