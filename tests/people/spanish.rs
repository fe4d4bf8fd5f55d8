//! Whoever reads Spanish is spoken to in Spanish: a stranger by what the browser asks for, a member by their account, on
//! every page of people, with what was typed kept; and by the API where a page's own script asks it.

use super::browser::{Browser, member};
use crate::on_both;
use crate::readiness::farm::{Farm, fill, id};
use crate::sync::{entry, send};
use crate::world::{Answer, World};
use axum::body::Body;
use axum::http::{Request, header};
use serde_json::{Value, json};
use sowmark::access::{Role, link};

on_both!(
    a_stranger_is_spoken_to_as_the_browser_asks,
    the_pages_of_people_are_in_the_members_language,
    a_form_comes_back_in_spanish_with_what_was_typed,
    the_script_of_a_page_is_answered_in_its_persons_language,
    what_was_refused_is_told_in_its_readers_language,
);

/// A request as a browser makes it that asks for Spanish first.
async fn asked(world: &World, path: &str, form: Option<&str>) -> Answer {
    let request = Request::builder()
        .method(if form.is_some() { "POST" } else { "GET" })
        .uri(path)
        .header(header::HOST, "sowmark.test")
        .header(header::ACCEPT_LANGUAGE, "es-AR,es;q=0.9,en;q=0.5")
        .header("sec-fetch-site", "same-origin")
        .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
    world.request(request.body(form.map_or_else(Body::empty, |form| Body::from(form.to_owned()))).unwrap()).await
}

/// A browser in which an office member is signed in who reads Spanish, with decimal commas.
async fn reader_of_spanish(world: &World, person: &crate::world::Person) -> Browser {
    let mut browser = Browser::of(world, person, Role::Office).await;
    let chosen = [("units", "organization"), ("decimal_sign", "comma"), ("language", "es")];
    assert_eq!(browser.submit(world, "/account/reading", &chosen).await.status, 303);
    browser
}

#[track_caller]
fn says(answer: &Answer, status: u16, sentences: &[&str]) {
    assert_eq!(answer.status.as_u16(), status, "{}", answer.text);
    assert!(answer.text.contains("<html lang=\"es\""), "{}", answer.text);
    for sentence in sentences {
        assert!(answer.text.contains(sentence), "{sentence}: {}", answer.text);
    }
}

async fn a_stranger_is_spoken_to_as_the_browser_asks(world: World) {
    says(&asked(&world, "/sign-in", None).await, 200, &["<h1>Ingresar</h1>", ">Contraseña<", "Como el dispositivo"]);
    let typed = "email=eve%40example.org&password=wrong";
    says(
        &asked(&world, "/sign-in", Some(typed)).await,
        422,
        &["Esta dirección y esta contraseña no coinciden.", "value=\"eve@example.org\""],
    );
    says(
        &asked(&world, "/set-up/none", None).await,
        404,
        &["No está aquí", "Ese enlace (ya se usó o es demasiado viejo"],
    );
    says(&asked(&world, "/nowhere", None).await, 404, &["Esa página no existe aquí."]);

    let code = link::add_set_up(&world.app.db, &world.app.clock).await.unwrap();
    let path = format!("/set-up/{code}");
    says(&asked(&world, &path, None).await, 200, &["Configure Sowmark", "Huso horario", "Al menos 12 caracteres."]);
    let typed = "organization=Los+Ceibos&time_zone=&units=metric&name=Ana&email=ana&password=short";
    says(
        &asked(&world, &path, Some(typed)).await,
        422,
        &["Falta esto.", "«ana» no es una dirección de correo.", "value=\"Los Ceibos\""],
    );
}

async fn the_pages_of_people_are_in_the_members_language(world: World) {
    let ana = world.ana().await;
    let mut browser = reader_of_spanish(&world, &ana).await;
    for (path, sentences) in [
        ("/account", ["Cómo lee usted", "Claves de acceso para programas", "oficina"]),
        ("/account/password", ["Cambie su contraseña", "Contraseña actual", "Aquí la sesión sigue abierta"]),
        ("/people", ["Todavía no hay ningún equipo.", "Agregar un miembro", "<h1>Personas</h1>"]),
        (
            "/people/new",
            ["agronomía: lee, analiza lotes, firma auditorías", "Dirección de correo", "Volver sin cambios"],
        ),
        ("/crews/new", ["Agregar un equipo", "(oficina)", "Todavía no hay ninguna sembradora"]),
        ("/audit", ["Registro de cambios", "Qué cambió", "Huella"]),
        ("/outbox", ["Bandeja de salida", "En espera", "Guardar una copia"]),
        ("/refused", ["No se pudo incorporar", "Aquí no espera nada.", "También lo corregido o descartado"]),
    ] {
        says(&browser.get(&world, path).await, 200, &sentences);
    }
    let own = browser.get(&world, &format!("/people/{}", ana.account)).await;
    says(&own, 200, &["Un teléfono perdido queda sin acceso", "Sesiones abiertas", "Dar de baja al miembro"]);

    // What the host did has its author, and what was done its word.
    member(&world, ana.organization, "kim@example.org", "crew").await;
    says(
        &browser.get(&world, "/audit").await,
        200,
        &["la línea de comandos del servidor: alta o cambio de un miembro, per"],
    );
}

async fn a_form_comes_back_in_spanish_with_what_was_typed(world: World) {
    let ana = world.ana().await;
    let mut browser = reader_of_spanish(&world, &ana).await;
    let refused = browser.submit(&world, "/people", &[("name", "Luz"), ("email", "luz"), ("role", "crew")]).await;
    let sentences = ["Aún sin guardar", "«luz» no es una dirección de correo.", "value=\"Luz\"", "<title>Error: "];
    says(&refused, 422, &sentences);
    let refused = browser.submit(&world, "/crews", &[("name", ""), ("members", "none")]).await;
    says(&refused, 422, &["Está vacío.", "«none» no es un UUID."]);
    let own = format!("/people/{}", ana.account);
    let refused = browser.submit(&world, &format!("{own}/end"), &[]).await;
    says(&refused, 422, &["Es el único miembro de oficina."]);
    let wrong = [("old_password", "what"), ("password", "abc")];
    says(&browser.submit(&world, "/account/password", &wrong).await, 422, &["Tiene 3 caracteres. Use al menos 12;"]);
    says(&browser.get(&world, "/crews/none").await, 404, &["Esa página no existe aquí."]);
}

/// As a script of a page sends an entry: JSON, with the session's cookie.
async fn by_script(world: &World, browser: &Browser, path: &str, body: &Value) -> Value {
    let request = Request::builder()
        .method("POST")
        .uri(format!("/api/v1{path}"))
        .header(header::HOST, "sowmark.test")
        .header("sec-fetch-site", "same-origin")
        .header(header::COOKIE, browser.session.clone().unwrap())
        .header(header::CONTENT_TYPE, "application/json");
    world.request(request.body(Body::from(body.to_string())).unwrap()).await.json()
}

async fn the_script_of_a_page_is_answered_in_its_persons_language(world: World) {
    let farm = Farm::new(&world).await;
    let browser = reader_of_spanish(&world, &farm.ana).await;
    let path = format!("/metering-units/{}/fills", farm.unit);
    let mut wrong = fill("2027-03-22T08:00:00Z", &farm.wheat);
    wrong["mass"] = json!({ "value": "-1.5", "unit": "kg" });
    let told = by_script(&world, &browser, &path, &wrong).await;
    assert_eq!(told["errors"][0]["detail"], "\u{2212}1,5 kg es menor que cero, y un valor de masa no puede serlo.");
    wrong["lot_id"] = json!(7);
    let told = by_script(&world, &browser, &path, &wrong).await;
    assert_eq!(told["title"], "Se entendió, pero algo está mal");
    assert_eq!(told["detail"], "Hay 2 cosas mal; cada una se indica abajo. No se guardó nada.");
    let batch = json!({ "entries": [entry("fill", &farm.unit, 101, wrong.clone())] });
    let told = by_script(&world, &browser, "/sync", &batch).await;
    let errors = told["results"][0]["problem"]["errors"].to_string();
    assert!(errors.contains("Esto es un número; se pide un texto."), "{errors}");

    let program = farm.ana.post(&path, wrong).await.json();
    assert_eq!(program["title"], "Understood, but something is wrong");
    let errors = program["errors"].to_string();
    assert!(errors.contains("\u{2212}1.5 kg is negative, which no mass can be."), "{errors}");
}

async fn what_was_refused_is_told_in_its_readers_language(world: World) {
    let farm = Farm::new(&world).await;
    let mut browser = reader_of_spanish(&world, &farm.ana).await;
    let mut wrong = fill("2027-03-22T08:00:00Z", &farm.wheat);
    wrong["mass"] = json!({ "value": "-1.5", "unit": "kg" });
    wrong["occurred_at"] = Value::Null;
    send(&farm.ana, &[entry("fill", &farm.unit, 101, wrong)]).await;
    let list = browser.get(&world, "/refused").await;
    let sentences = [
        "Tolva cargada",
        "<li>Cuándo: Falta esto.</li>",
        "<li>Masa: \u{2212}1,5 kg es menor que cero, y un valor de masa no puede serlo.</li>",
        "Enviado por ana",
        ">Corregir<",
    ];
    says(&list, 200, &sentences);
    let form = format!("/metering-units/{}/fills/new?refused={}", farm.unit, id(101));
    says(&browser.get(&world, &form).await, 200, &["Falta esto.", "y no se pudo incorporar. Revíselo"]);

    // The same for a reader of English, who reads with points; and for a program, with nothing of other languages.
    let mut english = Browser::of(&world, &farm.ana, Role::Office).await;
    let as_before = [("units", "organization"), ("decimal_sign", "point"), ("language", "en")];
    assert_eq!(english.submit(&world, "/account/reading", &as_before).await.status, 303);
    let list = english.get(&world, "/refused").await.text;
    assert!(list.contains("<li>Mass: \u{2212}1.5 kg is negative, which no mass can be.</li>"), "{list}");
    let told = farm.ana.read(&format!("/refused/{}", id(101))).await;
    assert!(told["problem"].get("said").is_none() && !told.to_string().contains("Falta"), "{told}");
}
