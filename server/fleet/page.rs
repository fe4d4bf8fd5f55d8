//! What the office keeps: a page that leads to each list, with a line on what it is for.

use crate::access::Permission;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::Response;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/keeping", Need::May(Permission::KeepFleet), keeping_page)]
}

/// One list that the office keeps.
struct Kept {
    href: &'static str,
    name: &'static str,
    what_for: &'static str,
}

const KEPT: &[Kept] = &[
    Kept {
        href: "/rollers",
        name: "Meter rollers",
        what_for: "What turns under a tank. A unit's setup names the one that is fitted.",
    },
    Kept { href: "/scales", name: "Scales", what_for: "What you weigh with, and what each read of a known mass." },
    Kept {
        href: "/seasons",
        name: "Seasons",
        what_for: "From the first day of a season on, every unit is caught again.",
    },
    Kept {
        href: "/tolerances",
        name: "Tolerances",
        what_for: "Every limit that a catch is judged by, with where its default comes from.",
    },
    Kept { href: "/fields", name: "Fields", what_for: "Where is sown, and how large it is." },
    Kept { href: "/clients", name: "Clients", what_for: "Whose fields and seed they are, where you sow for others." },
    Kept { href: "/people", name: "People and crews", what_for: "Who may do what, and which seeders a crew sees." },
];

#[derive(Template)]
#[template(path = "fleet/keeping.html")]
struct KeepingPage {
    page: Page,
    kept: &'static [Kept],
}

async fn keeping_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    show(&KeepingPage { page: Page::new(&signed, &cookies, "Keeping", "/keeping"), kept: KEPT })
}
