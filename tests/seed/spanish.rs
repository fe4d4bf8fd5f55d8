//! The pages of the seed as somebody reads them who is spoken to in Spanish.

use super::{drill, kg, lot};
use crate::on_both;
use crate::people::browser::Browser;
use crate::world::{Person, World};
use serde_json::json;
use sowmark::access::Role;

on_both!(lots_and_what_became_of_them_in_spanish, forms_of_the_seed_come_back_in_spanish);

/// A browser of somebody who chose Spanish and the decimal comma.
async fn in_spanish(world: &World, person: &Person) -> Browser {
    let mut browser = Browser::of(world, person, Role::Office).await;
    let chosen = [("units", "organization"), ("decimal_sign", "comma"), ("language", "es")];
    assert_eq!(browser.submit(world, "/account/reading", &chosen).await.status, 303);
    browser
}

/// The page says all of these.
async fn says(world: &World, browser: &mut Browser, path: &str, all: &[&str]) {
    let answer = browser.get(world, path).await;
    assert_eq!(answer.status, 200, "{path}: {}", answer.text);
    for said in all {
        assert!(answer.text.contains(said), "{said} is not on {path}: {}", answer.text);
    }
}

async fn lots_and_what_became_of_them_in_spanish(world: World) {
    let ana = world.ana().await;
    let mut browser = in_spanish(&world, &ana).await;
    says(&world, &mut browser, "/lots", &["Lotes de semilla", "Todavía no hay lotes.", "Agregar un lote de semilla"])
        .await;
    says(&world, &mut browser, "/fields", &["Todavía no hay campos.", "Agregue uno con su nombre"]).await;
    says(&world, &mut browser, "/clients", &["Clientes", "Todavía no hay clientes."]).await;
    let drill = drill(&world, &ana, "Drill 4").await;
    let lot =
        lot(&ana, "WW-1", json!({ "received_mass": kg("900.0"), "treatment": { "product": "Fludioxa 25" } })).await;
    let at = "2027-03-20T08:00:00Z";
    let fill = json!({ "occurred_at": at, "lot_id": lot, "mass": kg("300.5") });
    ana.create(&drill.path("fills"), fill.clone()).await;
    ana.create(&drill.path("fills"), json!({ "occurred_at": at, "lot_id": lot, "mass": null })).await;
    ana.create(&drill.path("emptyings"), json!({ "occurred_at": at, "lot_id": lot, "to_empty": false })).await;
    ana.create(&drill.path("jobs"), super::job(&lot, &json!({}))).await;
    let counted = json!({ "occurred_at": "2027-03-21T08:00:00Z", "kind": "counted", "mass": kg("590") });
    ana.create(&format!("/lots/{lot}/movements"), counted).await;
    let said = [
        "Lote WW-1",
        "Rótulo",
        "Cargado en tolvas",
        "Debería haber",
        "600 kg",
        "590 kg el 21 de marzo de 2027, 9,5 kg menos de lo que debía haber entonces",
        "2 cargas o vaciados quedaron sin pesar",
        "Recuento: hallado en el depósito",
        "Carga: 300,5 kg",
        "Vaciado en parte: sin pesar",
        "Siembra en Long acre: 1410 kg en 10,0 ha, dosis deseada 140 kg/ha",
    ];
    says(&world, &mut browser, &format!("/lots/{lot}"), &said).await;
    let choice = "winter wheat, Elmora, lote WW-1 (semilla tratada)";
    says(&world, &mut browser, &drill.path("fills/new"), &["Drill 4, tank 1: carga de la tolva", choice]).await;
    says(&world, &mut browser, &drill.path("jobs/new"), &["labor terminada", "Bolsas contadas", "Dosis deseada"]).await;
}

async fn forms_of_the_seed_come_back_in_spanish(world: World) {
    let ana = world.ana().await;
    let mut browser = in_spanish(&world, &ana).await;
    let drill = drill(&world, &ana, "Drill 4").await;
    let lot = lot(&ana, "WW-1", json!({})).await;
    let job = [
        ("occurred_at", "2027-03-20T12:00"),
        ("ended_at", "2027-03-20T08:00"),
        ("lot_id", &lot),
        ("area/value", "10,5"),
        ("area/unit", "ha"),
        ("seed_used/value", "1470"),
        ("seed_used/unit", "kg"),
        ("target_rate/value", "140"),
        ("target_rate/unit", "kg/ha"),
    ];
    let mut sent = vec![
        (
            drill.path("jobs"),
            job.to_vec(),
            vec!["La labor terminó antes de empezar.", "Falta el campo.", "value=\"10,5\""],
        ),
        (
            drill.path("emptyings"),
            vec![("occurred_at", "2027-03-20T12:00"), ("lot_id", &lot), ("mass/value", "0,0"), ("mass/unit", "kg")],
            vec!["La masa es cero.", "value=\"0,0\"", "¿La tolva quedó vacía?"],
        ),
        (
            format!("/lots/{lot}/tests"),
            vec![("occurred_at", "2027-03-20T12:00")],
            vec!["Este análisis no midió nada.", "Anotar el análisis"],
        ),
    ];
    let movement = vec![
        ("occurred_at", "2027-03-20T12:00"),
        ("kind", "sold"),
        ("mass/value", "0"),
        ("mass/unit", "kg"),
        ("note", "a la vecina"),
    ];
    sent.push((format!("/lots/{lot}/movements"), movement, vec!["Mover nada no es un movimiento.", "a la vecina"]));
    for (path, fields, all) in sent {
        let answer = browser.submit(&world, &path, &fields).await;
        assert_eq!(answer.status, 422, "{path}: {}", answer.text);
        for said in all {
            assert!(answer.text.contains(said), "{said} is not on {path}: {}", answer.text);
        }
    }
    // What programs read stays English.
    let refused = ana.post(&format!("/lots/{lot}/tests"), json!({ "occurred_at": "2027-03-20T12:00:00Z" })).await;
    assert!(refused.text.contains("This test measured nothing."), "{}", refused.text);
}
