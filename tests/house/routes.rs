//! Every route, as nobody and as every role: the declared need is what happens, and the table of them is committed.
//!
//! `BLESS=1` writes the table anew.

use crate::on_both;
use crate::world::World;
use axum::body::Body;
use axum::http::{Method, Request, header};
use sowmark::access::{Permission, Role, allows};
use sowmark::app;
use sowmark::web::routes::{Need, Route, Surface};
use std::fmt::Write;

on_both!(each_role_may_what_the_table_says, every_answer_carries_the_security_headers);

const TABLE: &str = "tests/house/routes.txt";

fn who(need: Need) -> String {
    match need {
        Need::Anyone => "anybody".to_owned(),
        Need::SignedIn => "every member".to_owned(),
        Need::May(permission) => {
            let roles: Vec<&str> =
                Role::ALL.into_iter().filter(|role| allows(*role, permission)).map(Role::word).collect();
            format!("{} ({permission:?})", roles.join(", "))
        }
    }
}

#[test]
fn the_table_of_routes_is_the_committed_one() {
    let mut lines: Vec<String> = app::routes()
        .iter()
        .map(|route| {
            let mut line = String::new();
            write!(line, "{:6} {:56} {}", route.method.as_str(), route.path, who(route.need)).unwrap();
            line
        })
        .collect();
    lines.sort_by_key(|line| line[7..].to_owned());
    let table = lines.join("\n") + "\n";
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(TABLE, &table).unwrap();
    }
    assert_eq!(std::fs::read_to_string(TABLE).unwrap_or_default(), table, "BLESS=1 writes it anew");
}

#[test]
fn only_a_short_list_of_routes_is_open_to_anybody() {
    let open: Vec<String> =
        app::routes().iter().filter(|route| route.need == Need::Anyone).map(|route| route.path.clone()).collect();
    for path in &open {
        let known = [
            "/health/",
            "/static/",
            "/api/v1/openapi.json",
            "/set-up/",
            "/set-password/",
            "/sign-in",
            "/sign-out",
            "/theme",
        ];
        assert!(known.iter().any(|start| path.starts_with(start)), "{path} is open to anybody");
    }
    assert!(open.len() < 14, "{open:?}");
}

/// The path with ids that nothing has.
fn filled(route: &Route) -> String {
    route
        .path
        .split('/')
        .map(|part| if part.starts_with('{') { "0196d2a0-0000-7000-8000-0000000000ff" } else { part })
        .collect::<Vec<_>>()
        .join("/")
}

fn request(route: &Route, token: Option<&str>) -> Request<Body> {
    let kind = match route.surface {
        Surface::Api => "application/json",
        Surface::Page => "application/x-www-form-urlencoded",
    };
    let request = Request::builder()
        .method(route.method.clone())
        .uri(filled(route))
        .header(header::HOST, "sowmark.test")
        .header("sec-fetch-site", "same-origin")
        .header(header::CONTENT_TYPE, kind);
    let request = match token {
        Some(token) => request.header(header::AUTHORIZATION, format!("Bearer {token}")),
        None => request,
    };
    let body = if route.method == Method::GET || route.surface == Surface::Page { "" } else { "{}" };
    request.body(Body::from(body)).unwrap()
}

async fn each_role_may_what_the_table_says(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    let mut people = Vec::new();
    for role in Role::ALL {
        let email = format!("{}-{organization}@example.org", role.word());
        people.push((role, world.member(organization, &email, role.word()).await));
    }
    let routes = app::routes();
    assert!(routes.len() > 80, "the walk has something to walk");
    for route in &routes {
        let name = format!("{} {}", route.method, route.path);
        let answer = world.request(request(route, None)).await;
        let status = answer.status.as_u16();
        match (route.need, route.surface, &route.method) {
            (Need::Anyone, ..) => assert!(status < 500 && status != 401, "{name} as nobody: {status}"),
            (_, Surface::Page, &Method::GET) => {
                assert_eq!(status, 303, "{name} as nobody");
                assert!(answer.headers[header::LOCATION].to_str().unwrap().starts_with("/sign-in"), "{name}");
            }
            _ => assert_eq!(status, 401, "{name} as nobody"),
        }
        let wrong = world.request(request(route, Some("sowmark_0000"))).await;
        if route.need != Need::Anyone && (route.surface == Surface::Api || route.method != Method::GET) {
            assert_eq!(wrong.status, 401, "{name} with a token that stands for nobody");
        }
        for (role, person) in &people {
            let status = world.request(request(route, person.token())).await.status.as_u16();
            let may = match route.need {
                Need::May(permission) => allows(*role, permission),
                _ => true,
            };
            if route.path.starts_with("/account") {
                // One's own account opens to a session only, never to a token that a program carries.
                assert_eq!(status, 403, "{name} as {role:?} by token");
            } else if may {
                assert!(status < 500 && status != 401 && status != 403, "{name} as {role:?}: {status}");
            } else {
                assert_eq!(status, 403, "{name} as {role:?}");
            }
        }
    }
}

async fn every_answer_carries_the_security_headers(world: World) {
    for route in app::routes() {
        let answer = world.request(request(&route, None)).await;
        let policy = answer.headers[header::CONTENT_SECURITY_POLICY].to_str().unwrap();
        assert!(policy.starts_with("default-src 'none'") && !policy.contains("unsafe"), "{}", route.path);
        assert_eq!(answer.headers[header::X_CONTENT_TYPE_OPTIONS], "nosniff");
        assert_eq!(answer.headers[header::REFERRER_POLICY], "same-origin");
        assert!(answer.headers.contains_key(header::CACHE_CONTROL));
    }
}

#[test]
fn every_permission_is_somebodys_and_the_office_has_most() {
    for permission in Permission::ALL {
        assert!(Role::ALL.into_iter().any(|role| allows(role, permission)), "{permission:?}");
        assert!(allows(Role::Office, permission), "{permission:?}");
    }
    assert!(!allows(Role::Agronomist, Permission::Log));
    assert!(!allows(Role::Crew, Permission::Decide));
}
