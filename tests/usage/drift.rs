//! The drift of a machine over ten jobs. The numbers of both charts were worked out with statsmodels, pandas and numpy; the
//! jobs are invented (lambda 0.3, 10 kg for a weighed balance, 0.5 % for the area, 180 kg/ha wanted).

use crate::on_both;
use crate::readiness::farm::{Farm, fill, job, setup};
use crate::seed::{Drill, hand};
use crate::world::World;
use serde_json::json;
use sowmark_core::ids::SeederId;

on_both!(ten_jobs);

/// Hectares, kilograms, x, u, the smoothed x of the plain chart, that of the weighted one.
const JOBS: [(&str, &str, f64, f64, f64, f64); 10] = [
    ("12.4", "2240", 0.003_577_8, 0.006_703_0, 0.001_073_3, 0.003_577_8),
    ("8.1", "1452", -0.004_123_7, 0.008_510_7, -0.000_485_8, -0.000_040_5),
    ("20.6", "3745", 0.009_929_0, 0.005_668_3, 0.002_638_6, 0.005_961_9),
    ("3.2", "583", 0.012_079_5, 0.017_866_6, 0.005_470_9, 0.006_449_3),
    ("15.0", "2722", 0.008_115_1, 0.006_204_6, 0.006_264_2, 0.007_258_1),
    ("18.3", "3370", 0.022_810_1, 0.005_814_2, 0.011_228_0, 0.014_121_4),
    ("9.7", "1791", 0.025_446_7, 0.007_495_0, 0.015_493_6, 0.017_236_3),
    ("14.2", "2612", 0.021_672_7, 0.006_297_4, 0.017_347_3, 0.018_822_6),
    ("22.5", "4164", 0.027_759_3, 0.005_546_8, 0.020_470_9, 0.022_370_5),
    ("11.8", "2186", 0.028_772_3, 0.006_776_9, 0.022_961_3, 0.024_133_1),
];

async fn ten_jobs(world: World) {
    world.set_time("2027-05-01T06:00:00Z");
    let farm = Farm::new(&world).await;
    farm.log("setups", setup("2027-03-21T08:00:00Z", &farm.fine, "5:2", "12")).await;
    farm.log("fills", fill("2027-03-22T08:00:00Z", &farm.wheat)).await;
    let caught = farm.caught("2027-03-28T08:00:00Z", &farm.wheat).await;
    for (day, (area, seed, ..)) in JOBS.iter().enumerate() {
        let mut sown = job(&format!("2027-04-{:02}T08:00:00Z", day + 1), &farm.wheat, seed, "7.2");
        sown["area"] = json!({ "value": area, "unit": "ha" });
        sown["target_rate"] = json!({ "value": "180", "unit": "kg/ha" });
        farm.log("jobs", sown).await;
    }
    // A machine total says nothing about the factor and has no place here.
    let mut blind = job("2027-04-20T08:00:00Z", &farm.wheat, "4000", "7.2");
    blind["seed_used_basis"] = json!("machine_total");
    farm.log("jobs", blind).await;
    let usage = farm.ana.read("/usage").await;
    let drift = &usage["drift"][0];
    assert_eq!((&drift["metering_unit_id"], &drift["calibration_id"]), (&json!(farm.unit), &json!(caught)));
    let points = drift["points"].as_array().unwrap();
    assert_eq!((points.len(), drift["limits"].as_array().unwrap().len()), (10, 10));
    for (point, (.., x, u, z, weighted)) in points.iter().zip(JOBS) {
        for (name, wanted) in [("x", x), ("u", u), ("z", z), ("weighted_z", weighted)] {
            let found = point[name].as_f64().unwrap();
            assert!((found - wanted).abs() < 5.1e-8, "{name} {found} for {wanted} in {point}");
        }
    }
    // With the policy's 3 % for a single job the plain chart is still within: L sigma sqrt(lambda / (2 - lambda)) = 3.78 %.
    assert_eq!(drift["out"], false);
    // factor x exp(z): the calibration's is 9.62 kg in 40 revolutions of 8 runs.
    let implied: f64 = drift["implied_factor"]["value"].as_str().unwrap().parse().unwrap();
    assert!((implied / (9.62 / 320.0) - 1.024_426_708_858_757).abs() < 1e-7, "{implied}");
    let page = farm.ana.get("/page/usage").await;
    assert!(page.text.contains("10 jobs; smoothed they are +2.3 % off target"), "{}", page.text);
    // Within its limits it asks for nothing, and its limits and marks are named on the drawing.
    assert!(!page.text.contains("catch again and key in"), "{}", page.text);
    for name in ["Each job", "Smoothed", "Limit"] {
        assert!(page.text.contains(&format!(">{name}</text>")), "{name}: {}", page.text);
    }
    // The same on the machine's own page; not for its crew, who see the own jobs alone.
    let path = format!("/page/seeders/{}", farm.seeder);
    let says = "10 jobs; smoothed they are +2.3 % off target";
    let page = farm.ana.get(&path).await;
    assert!(page.status == 200 && page.text.contains(says), "{}", page.text);
    let drill = Drill { seeder: SeederId(farm.seeder.parse().unwrap()), unit: farm.unit.clone() };
    let ben = hand(&world, &farm.ana, "ben-drift@example.org", &[&drill]).await;
    let page = ben.get(&path).await;
    assert!(page.status == 200 && !page.text.contains(says), "{}", page.text);
}
