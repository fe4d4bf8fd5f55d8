//! The rate plan for somebody who reads Spanish.

use crate::on_both;
use crate::readiness::farm::Farm;
use crate::spanish::{reader, says};
use crate::world::World;
use serde_json::json;
use sowmark::access::Role;

on_both!(a_rate_is_planned_in_spanish, faults_of_a_plan_are_in_spanish);

async fn a_rate_is_planned_in_spanish(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let test = json!({ "occurred_at": "2027-03-30T08:00:00Z", "thousand_seed_weight": { "value": "40.5", "unit": "g" },
        "bulk_density": { "value": "78", "unit": "kg/hL" }, "germination_percent": "95.0", "purity_percent": "98" });
    farm.at_lot(&farm.wheat, test).await;
    let mut browser = reader(&world, &farm.ana, Role::Office).await;
    let fresh = browser.get(&world, &format!("/rate-plan?unit_id={}", farm.unit)).await.text;
    let words = [
        "<h1>Plan de dosis</h1>",
        "Del análisis del lote, del 30 de marzo de 2027",
        "Como está configurada la sembradora.",
        "value=\"40,5\"",
        "<option value=\"per m²\" selected>por m²</option>",
        "Sin semilla dura.",
    ];
    says(&fresh, &words);
    let query = "plants/value=300&plants/unit=per+m%C2%B2&weight/value=40,5&weight/unit=g+per+thousand&germination_percent=95\
                 &share/value=90&share/unit=emergence&purity_percent=98&row_spacing/value=12,5&row_spacing/unit=cm\
                 &speed/value=8&speed/unit=km/h";
    let shown = browser.get(&world, &format!("/rate-plan?unit_id={}&{query}", farm.unit)).await;
    assert_eq!(shown.status, 200, "{}", shown.text);
    let words = [
        "Para sembrar",
        "poder germinativo por emergencia",
        "poder germinativo 95 % por emergencia 90 %",
        "semillas por peso de la semilla",
        "velocidad del rodillo a 8,00 km/h en",
        "g por mil semillas",
    ];
    says(&shown.text, &words);
    let live = browser.get(&world, "/rate-plan/live").await.text;
    says(&live, &["<h1>Plan de dosis por semilla pura viva</h1>", "cuenta como viva", "Por plantas deseadas"]);
}

async fn faults_of_a_plan_are_in_spanish(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let mut browser = reader(&world, &farm.ana, Role::Office).await;
    let query = "plants/value=muchas&plants/unit=per+m%C2%B2&weight/value=&share/value=95&share/unit=emergence";
    let refused = browser.get(&world, &format!("/rate-plan?{query}")).await;
    assert_eq!(refused.status, 422);
    says(&refused.text, &["value=\"muchas\"", "«muchas» no es un número", "Falta esto."]);
    // A program is told in English.
    let refused = farm.ana.get("/rate-plan?plants_per_m2=300&plants_per_ft2=30").await.json();
    assert!(refused["errors"].to_string().contains("Give plants_per_m2 or this, not both."), "{refused}");
}
