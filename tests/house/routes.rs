//! Who may call what: each route's declared need against what happens, as everybody. The table is kept beside this
//! file, so that a change of rights shows in review; `BLESS=1` writes it anew.

use crate::on_both;
use crate::people::browser::{Browser, location};
use crate::world::{Answer, Person, World};
use axum::http::Method;
use sowmark::access::{Permission, Role, allows};
use sowmark::app;
use sowmark::web::routes::{Need, Surface};
use std::fmt::Write;

on_both!(every_route_lets_in_whom_it_says);

#[test]
fn the_table_of_routes_is_the_one_in_review() {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/house/routes.txt");
    let table = table();
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(file, &table).unwrap();
    }
    let kept = std::fs::read_to_string(file).unwrap();
    assert_eq!(kept, table, "routes or rights changed: look at the difference, then run this test with BLESS=1");
}

#[test]
fn no_route_stands_twice() {
    let mut lines: Vec<String> = app::routes().iter().map(|route| format!("{} {}", route.method, route.path)).collect();
    let before = lines.len();
    lines.sort_unstable();
    lines.dedup();
    assert_eq!(lines.len(), before);
}

#[test]
fn what_anybody_may_call_is_a_short_list() {
    let open: Vec<String> = app::routes()
        .iter()
        .filter(|route| route.need == Need::Anyone)
        .map(|route| format!("{} {}", route.method, route.path))
        .collect();
    for route in &open {
        let known = [
            "/health/",
            "/static/",
            "/sign-in",
            "/sign-out",
            "/set-up/",
            "/set-password/",
            "/theme",
            "/offline",
            // What a secret address shows.
            "/feeds/",
            // A link in a letter, to get no more of them.
            "/digest/stop/",
            "/worker.js",
            "/api/v1/openapi.json",
        ];
        assert!(known.iter().any(|part| route.contains(part)), "{route} is open to anybody");
    }
}

fn who(need: Need) -> String {
    let roles = |permission: Permission| {
        let allowed: Vec<&str> =
            Role::ALL.into_iter().filter(|role| allows(*role, permission)).map(Role::word).collect();
        if allowed.len() == Role::ALL.len() { "any member".to_owned() } else { allowed.join(", ") }
    };
    match need {
        Need::Anyone => "anybody".to_owned(),
        Need::SignedIn => "any member".to_owned(),
        Need::May(permission) => roles(permission),
    }
}

fn table() -> String {
    let mut routes = app::routes();
    routes.sort_by(|a, b| {
        (a.surface == Surface::Api, &a.path, a.method.as_str()).cmp(&(
            b.surface == Surface::Api,
            &b.path,
            b.method.as_str(),
        ))
    });
    routes.iter().fold(String::new(), |mut table, route| {
        writeln!(table, "{:6} {:60} {}", route.method.as_str(), route.path, who(route.need)).unwrap();
        table
    })
}

fn may(need: Need, role: Role) -> bool {
    match need {
        Need::Anyone | Need::SignedIn => true,
        Need::May(permission) => allows(role, permission),
    }
}

/// The path with things in it that are not there.
fn of_nothing(path: &str) -> String {
    let mut parts: Vec<String> = Vec::new();
    for part in path.split('/') {
        parts.push(match part {
            "{code}" | "{hash}" => "0".repeat(64),
            "{name}" => "nothing.css".to_owned(),
            _ if part.starts_with('{') => "0196d2a0-0000-7000-8000-00000000dead".to_owned(),
            _ => part.to_owned(),
        });
    }
    parts.join("/")
}

async fn call(world: &World, person: Option<(&Person, Role)>, surface: Surface, method: &Method, path: &str) -> Answer {
    match surface {
        Surface::Page => {
            let mut browser = match person {
                Some((person, role)) => Browser::of(world, person, role).await,
                None => Browser::default(),
            };
            if *method == Method::GET { browser.get(world, path).await } else { browser.submit(world, path, &[]).await }
        }
        Surface::Api => {
            let caller = person.map_or_else(|| world.nobody(), |(person, _)| person.clone());
            let path = path.strip_prefix("/api/v1").unwrap();
            match *method {
                Method::GET => caller.get(path).await,
                Method::PUT => caller.put(path, serde_json::json!({})).await,
                Method::PATCH => caller.patch(path, serde_json::json!({})).await,
                Method::POST => caller.post(path, serde_json::json!({})).await,
                ref other => panic!("{other} {path}: teach this test the method"),
            }
        }
    }
}

async fn every_route_lets_in_whom_it_says(world: World) {
    let ana = world.ana().await;
    let kim = world.member(ana.organization, "kim@example.org", "crew").await;
    let mia = world.member(ana.organization, "mia@example.org", "agronomist").await;
    let people = [(&ana, Role::Office), (&kim, Role::Crew), (&mia, Role::Agronomist)];
    for route in app::routes() {
        let (method, surface, need) = (&route.method, route.surface, route.need);
        let path = of_nothing(&route.path);
        let label = format!("{method} {}", route.path);
        let answer = call(&world, None, surface, method, &path).await;
        let status = answer.status.as_u16();
        match (need, surface, method) {
            (Need::Anyone, ..) => assert!(![401, 403, 500].contains(&status), "{label} as nobody: {status}"),
            (_, Surface::Page, &Method::GET) => {
                assert!(status == 303 && location(&answer).starts_with("/sign-in"), "{label} as nobody: {status}");
            }
            _ => assert_eq!(status, 401, "{label} as nobody"),
        }
        for (person, role) in people {
            let answer = call(&world, Some((person, role)), surface, method, &path).await;
            let status = answer.status.as_u16();
            if may(need, role) {
                assert!(
                    ![401, 403, 405, 500, 503].contains(&status),
                    "{label} as {}: {status} {}",
                    role.word(),
                    answer.text
                );
            } else {
                assert_eq!(status, 403, "{label} as {}", role.word());
            }
        }
    }
}
