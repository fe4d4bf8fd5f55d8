//! The usage audit on paper, where no form says what it was asked for.

use super::{between, page};
use crate::on_both;
use crate::readiness::farm::{Farm, job};
use crate::seed;
use crate::world::World;
use serde_json::json;

on_both!(it_names_what_it_is_about);

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
        audit.contains("<p class=\"report-about only-print\">As of 1 April 2027, 08:00 (Europe/Vienna): 1 March 2027, 00:00 to 1 April 2027, 00:00</p>"),
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
