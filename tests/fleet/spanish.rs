//! The fleet's pages as somebody reads them who reads Spanish; what programs read of the same stays English.

use super::yard::{Yard, q, service, setup};
use crate::on_both;
use crate::people::browser::Browser;
use crate::spanish;
use crate::world::World;
use serde_json::json;
use sowmark::access::Role;

on_both!(every_page_of_the_fleet_is_in_spanish, a_form_comes_back_in_spanish, the_timeline_and_a_void_are_in_spanish,);

async fn shows(browser: &mut Browser, world: &World, path: &str, texts: &[&str]) {
    let page = browser.get(world, path).await;
    assert_eq!(page.status, 200, "{path}: {}", page.text);
    spanish::says(&page.text, texts);
}

async fn every_page_of_the_fleet_is_in_spanish(world: World) {
    let yard = Yard::new(&world).await;
    yard.ana.create(&yard.front("setups"), setup(&yard.roller)).await;
    let scale = json!({ "name": "Colgante", "readability": q("0.5", "g"), "capacity": q("50", "kg") });
    let scale = yard.ana.create("/scales", scale).await;
    yard.ana.create("/seasons", json!({ "name": "Campaña 2027", "starts_on": "2027-02-15" })).await;
    let mut browser = spanish::reader(&world, &yard.ana, Role::Office).await;
    for (path, texts) in [
        ("/keeping", ["<h1>Fichas</h1>", "Rodillos dosificadores", "qué sembradoras ve cada equipo"]),
        ("/seeders", ["<h1>Sembradoras</h1>", "sembradora de cajón", "Etiquetas para las máquinas"]),
        ("/seeders/new", ["<h1>Agregar una sembradora</h1>", "Dosificador 4: bajadas", "motor hidráulico"]),
        ("/rollers", ["<h1>Rodillos dosificadores</h1>", "<td>acanalado</td>", "sin datos"]),
        ("/rollers/new", ["Volumen por vuelta y bajada", "de tetones", "Agregar el rodillo"]),
        ("/scales", ["<h1>Balanzas</h1>", "Nunca verificada.", "0,5 g"]),
        ("/scales/new", ["<h1>Agregar una balanza</h1>", "División", "Lo máximo que pesa."]),
        ("/seasons", ["<h1>Campañas</h1>", "Primer día", "todos los cultivos"]),
        ("/seasons/new", ["<h1>Agregar una campaña</h1>", "Solo para estos cultivos", "Separados por comas"]),
        ("/seeders/labels", ["<h1>Etiquetas para las máquinas</h1>", "Líneas de corte", "aria-label=\"Hoja 1\""]),
    ] {
        shows(&mut browser, &world, path, &texts).await;
    }
    let home = format!("/seeders/{}", yard.drill);
    for (path, texts) in [
        (home, ["número de serie BD-104", "fine fluted, desde el 30 de marzo de 2027, 08:15", "de 10 a 120,5 rpm"]),
        (
            yard.at("label"),
            ["Etiqueta de Drill 1", "Abra la página de esta máquina", "Código QR que abre la página de"],
        ),
        (yard.at("change"), ["Modificar Drill 1", "front: el controlador pide", "kg por 100 vueltas, por bajada"]),
        (yard.at("metering-units/new"), ["Drill 1: agregar un dosificador", "Accionamiento", "rueda de mando"]),
        (
            yard.front("setups/new"),
            ["Drill 1, front: rodillo, relación", "Elija el rodillo", "El dosificador tiene 24."],
        ),
        (yard.at("services/new"), ["Drill 1: pieza cambiada o reparada", "Toda la sembradora", "válvula de control"]),
        (yard.at("configurations/new"), ["Drill 1: ancho o distancia", "Distancia entre surcos", "Desde cuándo"]),
        (yard.at("lay-ups/new"), ["Drill 1: en servicio o fuera de servicio", "Queda fuera de servicio", "Nota"]),
        (
            format!("/scales/{}/checks/new", scale["id"].as_str().unwrap()),
            ["Verificación de Colgante", "Pesa patrón", "Lo que marcó la balanza"],
        ),
    ] {
        shows(&mut browser, &world, &path, &texts).await;
    }
}

async fn a_form_comes_back_in_spanish(world: World) {
    let yard = Yard::new(&world).await;
    let mut browser = spanish::reader(&world, &yard.ana, Role::Office).await;
    let scale = [
        ("name", "Colgante"),
        ("readability/value", "60,5"),
        ("readability/unit", "kg"),
        ("capacity/value", "50"),
        ("capacity/unit", "kg"),
    ];
    let again = browser.submit(&world, "/scales", &scale).await;
    assert_eq!(again.status, 422);
    for text in
        ["value=\"Colgante\"", "value=\"60,5\"", "50 kg no es más que su división, 60,5 kg. Revise las unidades."]
    {
        assert!(again.text.contains(text), "{text}: {}", again.text);
    }

    let setup = [
        ("occurred_at", "2027-04-01T07:45"),
        ("roller_id", yard.roller.as_str()),
        ("drive_ratio", "2,5"),
        ("runs", "30"),
    ];
    let again = browser.submit(&world, &yard.front("setups"), &setup).await;
    assert_eq!(again.status, 422);
    for text in ["value=\"2,5\"", "30 bajadas en uso, pero front tiene 24. Indique de 1 a 24."] {
        assert!(again.text.contains(text), "{text}: {}", again.text);
    }

    let unit = [
        ("label", "rear"),
        ("runs", "8"),
        ("drive", "ground"),
        ("roller_speed_rpm/min", "90,5"),
        ("roller_speed_rpm/max", "60"),
    ];
    let again = browser.submit(&world, &yard.at("metering-units"), &unit).await;
    assert!(again.text.contains("60 rpm no supera la velocidad mínima, 90,5 rpm."), "{}", again.text);
    let again = browser.submit(&world, &yard.at("metering-units"), &unit[..3]).await;
    assert!(again.text.contains("Otro dosificador ya se llama rear."), "{}", again.text);

    // The same by a program.
    let refused =
        yard.ana.post(&yard.at("metering-units"), json!({ "label": "rear", "runs": 8, "drive": "ground" })).await;
    assert_eq!(refused.json()["errors"][0]["detail"], "Another unit is already called rear. Give each its own label.");
}

async fn the_timeline_and_a_void_are_in_spanish(world: World) {
    let yard = Yard::new(&world).await;
    yard.ana.create(&yard.front("setups"), setup(&yard.roller)).await;
    let lot = yard.ana.create("/lots", json!({ "lot_number": "W-16", "crop": "trigo" })).await;
    let filled = json!({ "occurred_at": "2027-03-31T12:00:00Z", "lot_id": lot["id"], "mass": q("400.5", "kg") });
    yard.ana.create(&yard.front("fills"), filled).await;
    let emptied = json!({ "occurred_at": "2027-03-31T13:00:00Z", "lot_id": lot["id"] });
    yard.ana.create(&yard.front("emptyings"), emptied).await;
    let record = yard.ana.create(&yard.at("services"), service()).await;
    let mut browser = spanish::reader(&world, &yard.ana, Role::Office).await;
    let home = format!("/seeders/{}", yard.drill);
    let form = format!("/records/{}/void", record["id"].as_str().unwrap());
    let told = [
        "front: Montaje: rodillo fine fluted, relación de transmisión 5:2, compuerta 12, 8 bajadas en uso. after the winter",
        "front: Tolva cargada con el lote W-16 (trigo), 400,5 kg.",
        "front: Tolva vaciada del lote W-16 (trigo).",
        "Cambio o reparación: junta. Afecta a la dosificación.",
        "Ancho de labor 6,00 m, surcos a 12,5 cm.",
        "Esto estaba mal",
    ];
    shows(&mut browser, &world, &home, &told).await;
    let asked = [
        "<h1>Corregir o anular esta reparación</h1>",
        "Se trata de esta reparación del 31 de marzo de 2027, 10:00, que anotó ana-",
    ];
    shows(&mut browser, &world, &form, &asked).await;
    let empty = browser.submit(&world, &form, &[("reason", " ")]).await;
    assert!(empty.text.contains("Qué estaba mal") && empty.text.contains("reason-error"), "{}", empty.text);
    assert_eq!(browser.submit(&world, &form, &[("reason", "otra máquina")]).await.status, 303);
    shows(&mut browser, &world, &home, &["Anulado el 1 de abril de 2027, 08:00 por ana-"]).await;
    let twice = browser.submit(&world, &form, &[("reason", "otra vez")]).await;
    assert!(twice.text.contains("Ya se anuló antes esta reparación."), "{}", twice.text);
    yard.ana.post(&form, json!({ "reason": "once more" })).await.refused(409, &[]);

    let said = yard.ana.read(&yard.at("timeline")).await.to_string();
    for says in ["Tank filled with lot W-16 (trigo), 400.5 kg.", "Replaced or repaired: seal. It affects metering."] {
        assert!(said.contains(says), "{says}: {said}");
    }
}
