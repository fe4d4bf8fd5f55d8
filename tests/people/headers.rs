//! Every answer carries the security headers, and every page the bones that a reader's tools need.

use super::browser::Browser;
use crate::on_both;
use crate::world::{Answer, World};
use axum::http::{Method, header};
use sowmark::access::Role;
use sowmark::app;
use sowmark::web::routes::Surface;

on_both!(every_answer_carries_the_headers, every_page_has_a_language_a_title_and_one_heading);

fn filled(path: &str) -> String {
    let filled = path.replace("{code}", &"0".repeat(64)).replace("{hash}/{name}", "0/style.css");
    let mut out = String::new();
    let mut rest = filled.as_str();
    while let Some((before, after)) = rest.split_once('{') {
        out.push_str(before);
        out.push_str("0196d2a0-0000-7000-8000-00000000dead");
        rest = after.split_once('}').unwrap().1;
    }
    out + rest
}

fn check(path: &str, answer: &Answer) {
    let headers = &answer.headers;
    let policy = headers.get(header::CONTENT_SECURITY_POLICY).unwrap_or_else(|| panic!("{path}")).to_str().unwrap();
    assert!(policy.contains("default-src 'none'") && policy.contains("frame-ancestors 'none'"), "{path}: {policy}");
    assert!(!policy.contains("unsafe"), "{path}: {policy}");
    assert_eq!(headers[header::X_CONTENT_TYPE_OPTIONS], "nosniff", "{path}");
    assert_eq!(headers[header::REFERRER_POLICY], "same-origin", "{path}");
    assert_eq!(headers["cross-origin-opener-policy"], "same-origin", "{path}");
    assert!(headers.contains_key(header::CACHE_CONTROL), "{path}");
    assert!(!headers.contains_key(header::SERVER), "{path}");
    if let Some(kind) = headers.get(header::CONTENT_TYPE).map(|kind| kind.to_str().unwrap()) {
        assert!(!kind.starts_with("text/") || kind.contains("charset=utf-8"), "{path}: {kind}");
    }
}

async fn every_answer_carries_the_headers(world: World) {
    let ana = world.ana().await;
    for route in app::routes() {
        let path = filled(&route.path);
        let mut browser = Browser::of(&world, &ana, Role::Office).await;
        let answer = match route.method {
            Method::GET => browser.get(&world, &path).await,
            _ => browser.submit(&world, &path, &[]).await,
        };
        check(&path, &answer);
    }
    let mut browser = Browser::default();
    for path in ["/nowhere", "/api/v1/nowhere", "/people", "/sign-in?back=%ff"] {
        check(path, &browser.get(&world, path).await);
    }
    check("405", &browser.submit(&world, "/people/new", &[]).await);
    check("422", &ana.post("/rollers", serde_json::json!([])).await);
    check("413", &ana.post_text("/rollers", "x".repeat(1024 * 1024 + 1)).await);
}

async fn every_page_has_a_language_a_title_and_one_heading(world: World) {
    let ana = world.ana().await;
    let mut seen = 0;
    for route in app::routes().into_iter().filter(|route| route.surface == Surface::Page && route.method == Method::GET)
    {
        let path = filled(&route.path);
        let mut browser = Browser::of(&world, &ana, Role::Office).await;
        let answer = browser.get(&world, &path).await;
        let kind = answer.headers.get(header::CONTENT_TYPE).map(|kind| kind.to_str().unwrap().to_owned());
        if !kind.is_some_and(|kind| kind.starts_with("text/html")) {
            continue;
        }
        seen += 1;
        let page = &answer.text;
        assert!(page.contains("<html lang=\"en\""), "{path}");
        assert_eq!(page.matches("<h1").count(), 1, "{path}: {page}");
        assert_eq!(page.matches("<title>").count(), 1, "{path}");
        assert_eq!(page.matches("<main").count(), 1, "{path}");
        for inline in [" style=\"", "<style", " onclick=", " onload=", "javascript:"] {
            assert!(!page.contains(inline), "{path} has {inline}");
        }
        assert!(
            !page
                .split("<script")
                .skip(1)
                .any(|script| !script.trim_start().starts_with("src=") && !script.contains(" src=")),
            "{path}"
        );
    }
    assert!(seen > 10, "only {seen} pages were seen");
}
