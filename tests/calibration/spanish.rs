//! A catch by somebody who reads Spanish: the sheet, its faults, the record, the checks, the charts.

use super::bench::{Bench, GRAMS, text};
use crate::on_both;
use crate::spanish::{reader, says};
use crate::world::World;
use serde_json::json;
use sowmark::access::Role;

on_both!(a_catch_is_typed_and_judged_in_spanish, a_held_catch_is_decided_in_spanish, checks_and_charts_are_in_spanish);

/// Two repeats of 60 revolutions; `gross` is the second's.
fn sheet<'a>(bench: &'a Bench, gross: &'a str, asked: &'a str) -> Vec<(&'a str, &'a str)> {
    vec![
        ("id", "0196d2a0-0000-7000-8000-0000000000e5"),
        ("occurred_at", "2027-03-30T09:40"),
        ("lot_id", bench.lot.as_str()),
        ("scale_id", ""),
        ("method", "stationary"),
        ("_counted", "turns"),
        ("_mass_unit", "kg"),
        ("repeats/0/revolutions", "60"),
        ("repeats/0/catches/0/label", "bajada 1"),
        ("repeats/0/catches/0/runs", "1"),
        ("repeats/0/catches/0/tare/value", "0,32"),
        ("repeats/0/catches/0/gross/value", "2,11"),
        ("repeats/1/revolutions", "60"),
        ("repeats/1/catches/0/label", "bajada 1"),
        ("repeats/1/catches/0/runs", "1"),
        ("repeats/1/catches/0/tare/value", "0,32"),
        ("repeats/1/catches/0/gross/value", gross),
        ("_do", asked),
    ]
}

async fn a_catch_is_typed_and_judged_in_spanish(world: World) {
    let bench = Bench::new(&world).await;
    let mut browser = reader(&world, &bench.ana, Role::Office).await;
    let path = format!("/metering-units/{}/catch", bench.unit);
    let fresh = browser.get(&world, &path).await.text;
    let words = [
        "<h1>Ensayo: Drill 1, left</h1>",
        "fine, relación 1, 25 bajadas en uso",
        "value=\"bajada 4\"",
        "Antes de empezar",
        "Vueltas del rodillo, repetición 1",
        "Los pesos van en kg;",
        "Anotar el ensayo",
    ];
    says(&fresh, &words);

    let refused = browser.submit(&world, &path, &sheet(&bench, "0,11", "save")).await;
    assert_eq!(refused.status, 422);
    let fault = "Un peso bruto de 0,11 kg no deja semilla por encima de la tara de 0,32 kg";
    says(&refused.text, &[fault, "value=\"0,11\"", "Giros de una manivela o rueda, repetición 2"]);
    let early = sheet(&bench, "2,12", "save").into_iter();
    let early: Vec<_> = early.map(|(name, text)| (name, text.replace("2027-03-30", "2027-02-28"))).collect();
    let early: Vec<_> = early.iter().map(|(name, text)| (*name, text.as_str())).collect();
    let refused = browser.submit(&world, &path, &early).await;
    assert_eq!(refused.status, 422);
    says(&refused.text, &["No consta qué tenía montado este dosificador el 28 de febrero de 2027, 09:40"]);

    let result = browser.submit(&world, &path, &sheet(&bench, "2,12", "work_out")).await;
    assert_eq!(result.status, 200);
    says(&result.text, &["Calculado, todavía sin guardar", "kg por 100 vueltas <span>por bajada", "Qué dice"]);

    let saved = browser.submit(&world, &path, &sheet(&bench, "2,12", "save")).await;
    assert_eq!(saved.status, 303, "{}", saved.text);
    let record = browser.get(&world, saved.headers["location"].to_str().unwrap()).await.text;
    let words = [
        "<h1>Calibración del 30 de marzo de 2027, 09:40</h1>",
        "Drill 1, left, ensayo del 30 de marzo de 2027, 09:40, hecho por",
        "Número para el controlador",
        "En vigor ahora.",
        "wheat Ida, lote W-12",
        "grados de libertad",
        "(60 giros, relación 1)",
        "parado, con su accionamiento",
        "Bajadas pesadas por separado",
        "No hace falta ninguna: lo que se supera se acepta enseguida.",
    ];
    says(&record, &words);
    let list = browser.get(&world, &bench.path()).await.text;
    says(&list, &["<h1>Calibraciones: Drill 1, left</h1>", "Qué fue de ella", "Anotar un ensayo"]);
}

async fn a_held_catch_is_decided_in_spanish(world: World) {
    let bench = Bench::new(&world).await;
    let mut browser = reader(&world, &bench.ana, Role::Office).await;
    let held = bench.ana.create(&bench.path(), bench.sheet(1)).await;
    let path = format!("/calibrations/{}", text(&held["id"]));
    let page = browser.get(&world, &path).await.text;
    says(&page, &["Sin número para el controlador", "Decidir con este motivo", "Aceptar: el número puede usarse"]);
    let decisions = format!("{path}/decisions");
    let refused = browser.submit(&world, &decisions, &[("decision", "accepted"), ("reason", " ")]).await;
    assert_eq!(refused.status, 422);
    says(&refused.text, &["id=\"reason-error\""]);
    let decided = [("decision", "rejected"), ("reason", "una bolsa rota")];
    assert_eq!(browser.submit(&world, &decisions, &decided).await.status, 303);
    let again = browser.submit(&world, &decisions, &decided).await;
    assert_eq!(again.status, 422);
    says(&again.text, &["Esta calibración está rechazada. Solo espera una decisión la que está retenida."]);
    let page = browser.get(&world, &path).await.text;
    says(&page, &["La oficina rechazó esta calibración.", "una bolsa rota"]);

    // A program is told in English.
    let refused = bench.ana.post(&decisions, json!({ "decision": "accepted", "reason": "" })).await.json();
    assert_eq!(refused["errors"][0]["detail"], "A decision needs its reason. Write why, in a sentence.");
    let refused = bench.ana.post(&decisions, json!({ "decision": "accepted", "reason": "late" })).await.json();
    assert_eq!(refused["detail"], "This calibration is rejected. Only one that is held waits for a decision.");
}

async fn checks_and_charts_are_in_spanish(world: World) {
    let bench = Bench::new(&world).await;
    let mut browser = reader(&world, &bench.ana, Role::Office).await;
    let checks = browser.get(&world, "/checks").await.text;
    says(&checks, &["<h1>Qué miran las comprobaciones</h1>", "Las bajadas coinciden", "Cambiar las tolerancias"]);
    let check = browser.get(&world, "/checks/roller_speed").await.text;
    says(&check, &["<h1>Comprobación: Velocidad del rodillo</h1>", "Todas las comprobaciones"]);

    let mut slow = bench.sheet(2);
    // Of a run that nobody named.
    slow["repeats"][0]["catches"][0]["label"] = json!(null);
    let slow = bench.ana.create(&bench.path(), slow).await;
    let mut fast = bench.sheet(2);
    fast["occurred_at"] = json!("2027-04-02T09:40:00+02:00");
    fast["roller_speed_rpm"] = json!(80);
    for catch in 0..GRAMS.len() {
        let heavier = json!({ "value": format!("{}5", GRAMS[catch]), "unit": "g" });
        fast["repeats"][0]["catches"][catch]["gross"] = heavier;
    }
    bench.ana.create(&bench.path(), fast).await;
    let record = browser.get(&world, &format!("/calibrations/{}", text(&slow["id"]))).await.text;
    says(&record, &["Cada bajada frente a la media de las bajadas, %", ">recogida 1<", "Lo mismo como tabla"]);
    assert!(!record.contains("catch 1"), "{record}");
    let seeder = text(&bench.ana.read("/seeders").await["items"][0]["id"]);
    let page = browser.get(&world, &format!("/seeders/{seeder}")).await.text;
    for words in [
        "Factor a lo largo del tiempo, kg/100 vueltas por bajada",
        "2 ensayos del 30 de marzo de 2027 al 2 de abril de 2027",
        "Factor según la velocidad del rodillo, kg/100 vueltas por bajada: W-12, fine",
        "2 ensayos a dos velocidades",
        "abr",
    ] {
        assert!(page.contains(words), "{words} is missing: {page}");
    }
    let lot = browser.get(&world, &format!("/lots/{}", bench.lot)).await.text;
    assert!(lot.contains("Factores de este lote en todas las sembradoras"), "{lot}");
}
