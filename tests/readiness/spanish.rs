//! The board, the tolerances, waivers, the rate page and the gate page for somebody who is spoken to in Spanish.

use super::farm::{Farm, setup};
use crate::on_both;
use crate::people::browser::Browser;
use crate::world::World;
use serde_json::json;
use sowmark::access::Role;

on_both!(the_board_in_spanish, tolerances_and_waivers_in_spanish, rate_and_gate_in_spanish);

/// A browser of the office, which chose Spanish and the decimal comma.
async fn in_spanish(world: &World, farm: &Farm) -> Browser {
    let mut browser = Browser::of(world, &farm.ana, Role::Office).await;
    let chosen = [("units", "organization"), ("decimal_sign", "comma"), ("language", "es")];
    assert_eq!(browser.submit(world, "/account/reading", &chosen).await.status, 303);
    browser
}

fn holds(page: &str, all: &[&str]) {
    for said in all {
        assert!(page.contains(said), "{said} is not in {page}");
    }
}

async fn the_board_in_spanish(world: World) {
    let farm = Farm::new(&world).await;
    let mut browser = in_spanish(&world, &farm).await;
    let empty = browser.get(&world, "/").await.text;
    holds(&empty, &["Estado de siembra", "Nada en la tolva", "Vacío", "Anotar una carga", "Todos los cultivos"]);

    let (farm, _) = Farm::ready(&world).await;
    let mut browser = in_spanish(&world, &farm).await;
    let ready = browser.get(&world, "/").await.text;
    holds(&ready, &["wheat, lote W-16", "Listo", "Ensayo del 28 de marzo.", "Velocidad del rodillo"]);
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let page = browser.get(&world, "/").await.text;
    holds(&page, &["Calibrar", ">El montaje</a>", ">Dejarlo pasar</a>", "Anotar un ensayo"]);
    let filtered = browser.get(&world, "/?state=laid_up&at=ayer").await.text;
    holds(&filtered, &["Ningún dosificador está así.", "No es una fecha con hora.", "Fuera de uso"]);

    // What programs read stays English, whatever the account chose.
    let told = farm.at("2027-03-30T12:00:00Z").await.to_string();
    assert!(told.contains("Roller changed on 30 March: coarse studded"), "{told}");
}

async fn tolerances_and_waivers_in_spanish(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    farm.log("setups", setup("2027-03-30T08:00:00Z", &farm.coarse, "5:2", "12")).await;
    let mut browser = in_spanish(&world, &farm).await;
    farm.ana.put("/policy", json!({ "seed_weight_tolerance_percent": 4.5, "interval_days": 30 })).await;
    let page = browser.get(&world, "/tolerances").await.text;
    holds(
        &page,
        &[
            "Guardar estas tolerancias",
            "De 0,1 a 2000.",
            "Tolerancia del peso de la semilla: 4,5 %, antes 3 %",
            "Intervalo en días: 30 días, antes sin límite",
        ],
    );

    let form = format!("/metering-units/{}/waivers", farm.unit);
    let blank = browser.get(&world, &format!("{form}/new?trigger=roller_changed")).await.text;
    holds(&blank, &["Dejar pasar un motivo", "Motivo en Drill 1, front tank", "Cambio de rodillo", "mismo lote"]);
    let fields = [
        ("trigger", "roller_changed"),
        ("occurred_at", "2027-04-01T07:00"),
        ("until", "2027-03-30"),
        ("reason", "mismo rodillo"),
    ];
    let refused = browser.submit(&world, &form, &fields).await;
    assert_eq!(refused.status, 422, "{}", refused.text);
    holds(&refused.text, &["La excepción terminaría antes de empezar.", "value=\"mismo rodillo\""]);
    let fields = [fields[0], fields[1], ("until", "2027-04-03"), fields[3]];
    assert_eq!(browser.submit(&world, &form, &fields).await.status, 303);
    holds(
        &browser.get(&world, "/").await.text,
        &["Se deja pasar hasta el final del 3 de abril de 2027", ": mismo rodillo"],
    );
}

async fn rate_and_gate_in_spanish(world: World) {
    let (farm, _) = Farm::ready(&world).await;
    let mut browser = in_spanish(&world, &farm).await;
    let rate = format!("/metering-units/{}/rate", farm.unit);
    let asked = "rate/value=140&rate/unit=kg/ha&speed/value=40&speed/unit=km/h";
    let page = browser.get(&world, &format!("{rate}?{asked}")).await.text;
    holds(
        &page,
        &[
            "Velocidad del rodillo para 140 kg/ha a 40,0 km/h",
            "El accionamiento no puede mantenerlo",
            "Avance más despacio, o cambie el rodillo",
            "Número para el controlador",
            "por metro de avance",
            "En blanco: el accionamiento no puede mantenerla; gira de 10 a 120 rpm.",
            "Mostrar la velocidad del rodillo",
        ],
    );
    let wrong = browser.get(&world, &format!("{rate}?rate/value=mucho&speed/value=9")).await;
    assert_eq!(wrong.status, 422, "{}", wrong.text);
    holds(&wrong.text, &["value=\"mucho\"", "«mucho» no es un número"]);

    let gate = format!("/metering-units/{}/gate", farm.unit);
    let page =
        browser.get(&world, &format!("{gate}?setting=40,0&measured/value=5&measured/unit=kg/ha&wanted=7,5")).await;
    holds(&page.text, &["Ajuste con que empezar", "40 por 7,5 kg/ha, dividido por 5 kg/ha", "Anotar un ensayo con él"]);
    let wrong = browser.get(&world, &format!("{gate}?setting=ancha&measured/value=5&measured/unit=stone")).await;
    assert_eq!(wrong.status, 422, "{}", wrong.text);
    holds(&wrong.text, &["value=\"ancha\"", "«stone» no es una unidad para esto.", "Falta esto."]);

    let bare = Farm::of(world.ana().await).await;
    let mut browser = in_spanish(&world, &bare).await;
    let page = browser.get(&world, &format!("/metering-units/{}/rate", bare.unit)).await.text;
    holds(&page, &["Ningún factor rige para Drill 1, front tank: su tolva está vacía."]);
    let told = bare.ana.get(&format!("/metering-units/{}/rate?rate=140&speed=9", bare.unit)).await;
    assert!(told.text.contains("its tank is empty"), "{}", told.text);
}
