//! A browser: it keeps cookies, sends forms from Sowmark's own pages, and looks at what comes back.

use crate::world::{Answer, Person, World};
use axum::body::Body;
use axum::http::{Method, Request, header};
use serde_json::json;
use sowmark::access::{Role, host, session};
use sowmark::people::act;
use sowmark::web::input;
use sowmark_core::ids::OrganizationId;

/// A password that nothing is wrong with.
pub const PASSWORD: &str = "three slow tractors";

#[derive(Clone, Default)]
pub struct Browser {
    /// The session's cookie, name and value.
    pub session: Option<String>,
    /// What it asks for, as in `Accept-Language`; nothing unless set.
    pub language: &'static str,
}

impl Browser {
    /// A browser in which somebody is signed in already.
    pub async fn of(world: &World, person: &Person, role: Role) -> Self {
        let (db, clock) = (&world.app.db, &world.app.clock);
        let secret = session::open(db, clock, person.account, person.organization, role, "test").await.unwrap();
        Self { session: Some(format!("sowmark={secret}")), ..Self::default() }
    }

    pub async fn get(&mut self, world: &World, path: &str) -> Answer {
        self.send(world, Method::GET, path, None).await
    }

    pub async fn submit(&mut self, world: &World, path: &str, fields: &[(&str, &str)]) -> Answer {
        let encode =
            |text: &str| percent_encoding::utf8_percent_encode(text, percent_encoding::NON_ALPHANUMERIC).to_string();
        let body: Vec<String> =
            fields.iter().map(|(name, value)| format!("{}={}", encode(name), encode(value))).collect();
        self.send(world, Method::POST, path, Some(body.join("&"))).await
    }

    pub async fn sign_in(&mut self, world: &World, email: &str, password: &str) -> Answer {
        self.submit(world, "/sign-in", &[("email", email), ("password", password)]).await
    }

    async fn send(&mut self, world: &World, method: Method, path: &str, form: Option<String>) -> Answer {
        let mut request = Request::builder()
            .method(method)
            .uri(path)
            .header(header::HOST, "sowmark.test")
            .header(header::USER_AGENT, "Mozilla/5.0 (Linux; Slate 8) Mobile")
            .header("sec-fetch-site", "same-origin")
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
        if !self.language.is_empty() {
            request = request.header(header::ACCEPT_LANGUAGE, self.language);
        }
        if let Some(cookie) = &self.session {
            request = request.header(header::COOKIE, cookie);
        }
        let answer = world.request(request.body(form.map_or_else(Body::empty, Body::from)).unwrap()).await;
        for cookie in answer.headers.get_all(header::SET_COOKIE) {
            let pair = cookie.to_str().unwrap().split(';').next().unwrap();
            if let Some((name, value)) = pair.split_once('=').filter(|(name, _)| *name != "theme") {
                self.session = Some(format!("{name}={value}")).filter(|_| !value.is_empty());
            }
        }
        answer
    }
}

/// Whether the browser is still somebody.
pub async fn is_signed_in(world: &World, browser: &mut Browser) -> bool {
    match browser.get(world, "/account").await.status.as_u16() {
        200 => true,
        303 => false,
        other => panic!("/account answered {other}"),
    }
}

/// A member who signs in with [`PASSWORD`].
pub async fn member(
    world: &World,
    organization: OrganizationId,
    email: &str,
    role: &str,
) -> sowmark_core::ids::AccountId {
    let draft = input::read(&json!({ "name": email.split('@').next(), "email": email, "role": role })).unwrap();
    let app = &world.app;
    let grant = host(organization);
    let added = act::add_member(&app.db, &app.clock, &app.hasher, &grant, draft, Some(PASSWORD.to_owned())).await;
    added.unwrap().account
}

pub fn location(answer: &Answer) -> &str {
    answer.headers.get(header::LOCATION).map_or("", |location| location.to_str().unwrap())
}

/// The secret on a page that shows it once.
pub fn shown_once(page: &str) -> String {
    let (_, rest) =
        page.split_once("<code class=\"wrap-any\">").unwrap_or_else(|| panic!("nothing is shown once: {page}"));
    rest.split("</code>").next().unwrap().replace("&#x2F;", "/").replace("&#47;", "/")
}
