//! What a page of another site can make a browser send is refused; what a program sends is not.

use super::browser::{Browser, PASSWORD, member};
use crate::on_both;
use crate::world::World;
use axum::body::Body;
use axum::http::{Method, Request, header};
use sowmark::access::{host, token};

on_both!(a_write_from_another_site_is_refused, reading_changes_nothing_and_is_let_in_from_anywhere);

const OWN: &str = "http://sowmark.test";
const OTHER: &str = "https://evil.example";

async fn a_write_from_another_site_is_refused(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    let account = member(&world, organization, "ana@example.org", "office").await;
    let mut ana = Browser::default();
    ana.sign_in(&world, "ana@example.org", PASSWORD).await;
    let cookie = ana.session.unwrap();
    let bearer = token::add(&world.app.db, &world.app.clock, &host(organization), account, "test").await.unwrap();
    let bearer = format!("Bearer {bearer}");

    // Sec-Fetch-Site, Origin, how it says who it is, whether it is let in.
    let table: [(Option<&str>, Option<&str>, &str, bool); 18] = [
        (Some("same-origin"), None, "cookie", true),
        (Some("same-origin"), Some(OWN), "cookie", true),
        (Some("none"), None, "cookie", true),
        (Some("cross-site"), None, "cookie", false),
        (Some("cross-site"), Some(OWN), "cookie", false),
        (Some("same-site"), None, "cookie", false),
        (Some("same-site"), Some(OWN), "cookie", false),
        (Some(""), None, "cookie", false),
        (None, Some(OWN), "cookie", true),
        (None, Some(OTHER), "cookie", false),
        (None, Some("null"), "cookie", false),
        (None, Some("http://sowmark.test.evil.example"), "cookie", false),
        (None, Some("http://sowmark.test:81"), "cookie", false),
        (None, None, "cookie", false),
        (None, None, "bearer", true),
        (Some("cross-site"), Some(OTHER), "bearer", true),
        (None, None, "nothing", true),
        (Some("cross-site"), Some(OTHER), "nothing", false),
    ];
    for (number, (site, origin, who, let_in)) in table.into_iter().enumerate() {
        for method in [Method::POST, Method::PUT, Method::PATCH, Method::DELETE] {
            let mut request =
                Request::builder().method(method.clone()).uri("/api/v1/rollers").header(header::HOST, "sowmark.test");
            if let Some(site) = site {
                request = request.header("sec-fetch-site", site);
            }
            if let Some(origin) = origin {
                request = request.header(header::ORIGIN, origin);
            }
            request = match who {
                "cookie" => request.header(header::COOKIE, &cookie),
                "bearer" => request.header(header::AUTHORIZATION, &bearer),
                _ => request,
            };
            let body = format!("{{\"label\": \"roller {number}\", \"kind\": \"fluted\"}}");
            let answer = world.request(request.body(Body::from(body)).unwrap()).await;
            let expected = match (let_in, &method, who) {
                (false, ..) => 403,
                (true, &Method::POST, "nothing") => 401,
                (true, &Method::POST, _) => 201,
                (true, ..) => 405,
            };
            assert_eq!(answer.status, expected, "{site:?} {origin:?} {who} {method}: {}", answer.text);
            if !let_in {
                answer.refused(403, &[]);
                assert_eq!(answer.json()["type"], "/problems/cross-site");
            }
        }
    }
    let reader = world.member(organization, "leo@example.org", "agronomist").await;
    let stored = reader.read("/rollers").await["items"].as_array().unwrap().len();
    let allowed = table.iter().filter(|(_, _, who, let_in)| *let_in && *who != "nothing").count();
    assert_eq!(stored, allowed, "what was refused left nothing behind");
}

async fn reading_changes_nothing_and_is_let_in_from_anywhere(world: World) {
    let organization = world.organization("Birkenfeld", "Europe/Vienna").await;
    member(&world, organization, "ana@example.org", "office").await;
    let mut ana = Browser::default();
    ana.sign_in(&world, "ana@example.org", PASSWORD).await;
    let request = Request::builder()
        .uri("/people")
        .header(header::HOST, "sowmark.test")
        .header("sec-fetch-site", "cross-site")
        .header(header::COOKIE, ana.session.unwrap());
    let answer = world.request(request.body(Body::empty()).unwrap()).await;
    assert_eq!(answer.status, 200, "a link in a message opens signed in");
}
