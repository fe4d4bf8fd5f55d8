//! The frame of every page: who is signed in, where one can go, and the session's cookie.

use super::assets;
use super::door::{App, Signed};
use super::error::{Error, Problem};
use super::reader::Reader;
use super::said::Said;
use crate::access::{Actor, Permission, Role, Units};
use crate::config::Config;
use crate::records::head::said_day;
use crate::texts;
use askama::Template;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{Html, IntoResponse, Response};
use axum_extra::extract::CookieJar;
use axum_extra::extract::cookie::{Cookie, SameSite};
use percent_encoding::{NON_ALPHANUMERIC, utf8_percent_encode};
use sowmark_core::say;
use sowmark_core::texts::Language;
use sowmark_core::words::{DecimalSign, Words};

/// What the layout needs.
#[derive(Clone, Debug)]
pub struct Page {
    pub title: String,
    pub organization: Option<String>,
    pub person: Option<String>,
    pub nav: Vec<NavItem>,
    pub theme: &'static str,
    pub style_href: String,
    pub mark_href: String,
    pub icon_href: String,
    pub touch_icon_href: String,
    pub manifest_href: String,
    pub script_href: String,
    /// Whose page it is, for what a phone keeps; empty for anybody's. See [`reader_key`].
    pub whose: String,
    /// The organization's time zone, IANA.
    pub zone: String,
    /// Whether a phone keeps pages for them: who logs nothing needs none without signal.
    pub keeps: bool,
    pub notice: Option<String>,
    /// How the numbers on it are read.
    pub reader: Reader,
}

/// A line of the navigation.
#[derive(Clone, Debug)]
pub struct NavItem {
    pub href: String,
    pub label: String,
    pub current: bool,
}

/// What a request's cookies and headers say about how the page should look.
#[derive(Clone, Debug, Default)]
pub struct Cookies {
    theme: &'static str,
    /// The language that the browser asks for.
    pub language: Language,
}

impl Cookies {
    #[must_use]
    pub fn of(headers: &HeaderMap) -> Self {
        let jar = CookieJar::from_headers(headers);
        let theme = match jar.get("theme").map(Cookie::value) {
            Some("light") => "theme-light",
            Some("dark") => "theme-dark",
            _ => "",
        };
        Self { theme, language: texts::asked_for(headers) }
    }

    /// The words of somebody of whom only the browser's language is known.
    #[must_use]
    pub fn words(&self) -> Words {
        Words { language: self.language, ..Words::default() }
    }
}

impl axum::extract::FromRequestParts<App> for Cookies {
    type Rejection = std::convert::Infallible;

    async fn from_request_parts(parts: &mut axum::http::request::Parts, _: &App) -> Result<Self, Self::Rejection> {
        Ok(Self::of(&parts.headers))
    }
}

impl Page {
    /// A page for somebody signed in. `here` is the address of the part of the site it belongs to.
    #[must_use]
    pub fn new(signed: &Signed, cookies: &Cookies, title: impl Into<String>, here: &str) -> Self {
        Self::framed(Some(&signed.actor), cookies, title.into(), here)
    }

    /// A page for anybody.
    #[must_use]
    pub fn open(cookies: &Cookies, title: impl Into<String>) -> Self {
        Self::framed(None, cookies, title.into(), "")
    }

    /// A text for a template, in its reader's language.
    #[must_use]
    pub fn say(&self, key: impl AsRef<str>) -> Said {
        Said::new(self.reader.words, key.as_ref())
    }

    /// A day as its reader reads it.
    #[must_use]
    pub fn day(&self, day: &str) -> String {
        said_day(day, self.reader.words)
    }

    /// The tag of the language it is in.
    #[must_use]
    pub fn language(&self) -> &'static str {
        self.reader.words.language.tag()
    }

    /// Where the file of a list is taken from, written as this reader's spreadsheet reads it.
    #[must_use]
    pub fn csv(&self, list: &str) -> String {
        let is_comma = self.reader.words.decimal == DecimalSign::Comma;
        format!("/exchange/csv/{list}.csv?form={}&mark=with", if is_comma { "semicolon" } else { "comma" })
    }

    #[must_use]
    pub fn notice(mut self, notice: Option<String>) -> Self {
        self.notice = notice;
        self
    }

    fn framed(actor: Option<&Actor>, cookies: &Cookies, title: String, here: &str) -> Self {
        Self {
            title,
            organization: actor.map(|actor| actor.organization_name.clone()),
            person: actor.map(|actor| actor.name.clone()),
            nav: actor.map(|actor| navigation(actor, here)).unwrap_or_default(),
            theme: cookies.theme,
            style_href: assets::href("style.css"),
            mark_href: assets::href("mark.svg"),
            icon_href: assets::href("favicon.svg"),
            touch_icon_href: assets::href("icon-180.png"),
            manifest_href: assets::href("sowmark.webmanifest"),
            script_href: assets::href("phone.js"),
            whose: actor.map(reader_key).unwrap_or_default(),
            keeps: actor.is_some_and(|actor| actor.may(Permission::Log)),
            zone: actor.map(|actor| actor.time_zone_name.clone()).unwrap_or_default(),
            notice: None,
            reader: actor.map_or_else(|| Reader { units: Units::Metric, words: cookies.words() }, Actor::reader),
        }
    }
}

/// Says which person of which organization a page was made for. A phone keeps pages and entries under it; it is no secret
/// and opens nothing.
#[must_use]
pub fn reader_key(actor: &Actor) -> String {
    format!("{}.{}", actor.account, actor.organization())
}

fn navigation(actor: &Actor, here: &str) -> Vec<NavItem> {
    let words = actor.words();
    let everybody = [
        ("/", say!(words, "nav-readiness")),
        ("/seeders", say!(words, "nav-seeders")),
        ("/lots", say!(words, "nav-lots")),
        ("/usage", say!(words, "nav-usage")),
        ("/reports", say!(words, "nav-reports")),
    ];
    let mut places = everybody.to_vec();
    if actor.may(Permission::Log) {
        places.push(("/outbox", say!(words, "nav-outbox")));
    }
    places.push(("/exchange", say!(words, "nav-exchange")));
    if actor.role == Role::Office {
        places.extend([("/keeping", say!(words, "nav-keeping")), ("/people", say!(words, "nav-people"))]);
    }
    if actor.may(Permission::ReadAudit) {
        places.push(("/audit", say!(words, "nav-audit")));
    }
    places.into_iter().map(|(href, label)| NavItem { href: href.to_owned(), label, current: href == here }).collect()
}

/// Renders a page.
///
/// # Errors
/// When the template fails, which its test with samples would have shown.
pub fn show(template: &impl Template) -> Result<Response, Error> {
    Ok(Html(template.render().map_err(Error::broken)?).into_response())
}

/// Renders a page with a status of its own: 422 for a form that comes back.
///
/// # Errors
/// As [`show`].
pub fn show_with(status: StatusCode, template: &impl Template) -> Result<Response, Error> {
    Ok((status, Html(template.render().map_err(Error::broken)?)).into_response())
}

#[derive(Template)]
#[template(path = "problem.html")]
struct ProblemPage<'a> {
    page: Page,
    problem: &'a Problem,
    signed_in: bool,
}

/// An error as a page.
#[must_use]
pub fn problem(_: &App, actor: Option<&Actor>, cookies: &Cookies, error: &Error) -> Response {
    let words = actor.map_or_else(|| cookies.words(), Actor::words);
    let problem = &error.problem_in(words);
    let page = Page::framed(actor, cookies, problem.title.clone(), "");
    let status = StatusCode::from_u16(problem.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
    let template = ProblemPage { page, problem, signed_in: actor.is_some() };
    match template.render() {
        Ok(html) => (status, Html(html)).into_response(),
        Err(error) => Error::broken(error).into_response(),
    }
}

/// The sign-in page, with the way back.
#[must_use]
pub fn sign_in_address(back: &str) -> String {
    if back.is_empty() || back == "/" {
        "/sign-in".to_owned()
    } else {
        format!("/sign-in?back={}", utf8_percent_encode(back, NON_ALPHANUMERIC))
    }
}

/// A path of this site, or `/`: never another site's address, however it is written.
#[must_use]
pub fn local(path: &str) -> &str {
    let mut bytes = path.bytes();
    let begins = bytes.next() == Some(b'/') && !matches!(bytes.next(), Some(b'/' | b'\\'));
    // Browsers drop tabs and line breaks from an address before they read it.
    if begins && !path.chars().any(char::is_control) { path } else { "/" }
}

fn cookie_name(config: &Config) -> &'static str {
    if config.is_https() { "__Host-sowmark" } else { "sowmark" }
}

/// The secret of the session that a request carries.
#[must_use]
pub fn session_secret(headers: &HeaderMap, config: &Config) -> Option<String> {
    CookieJar::from_headers(headers).get(cookie_name(config)).map(|cookie| cookie.value().to_owned())
}

/// The cookie that carries a session; without a secret, the one that takes it away.
#[must_use]
pub fn session_cookie(config: &Config, secret: Option<String>) -> Cookie<'static> {
    let ended = secret.is_none();
    let mut cookie = Cookie::new(cookie_name(config), secret.unwrap_or_default());
    cookie.set_path("/");
    cookie.set_http_only(true);
    // Lax, not Strict: a link in a message should open signed in.
    cookie.set_same_site(SameSite::Lax);
    cookie.set_secure(config.is_https());
    if ended {
        cookie.make_removal();
    } else {
        // The server decides when a session ends; the cookie must only outlive it.
        cookie.make_permanent();
    }
    cookie
}

/// A page that is one form.
#[derive(Debug, Template)]
#[template(path = "form.html")]
pub struct FormPage {
    page: Page,
    form: super::form::Form,
    intro: String,
}

impl FormPage {
    #[must_use]
    pub fn new(page: Page, form: super::form::Form) -> Self {
        Self { page, form, intro: String::new() }
    }

    /// The page: as it is first opened, or come back with faults.
    ///
    /// # Errors
    /// As [`show`].
    pub fn show(&self) -> Result<Response, Error> {
        show_with(self.form.status(), self)
    }

    /// With a sentence before the form.
    #[must_use]
    pub fn intro(mut self, intro: impl Into<String>) -> Self {
        self.intro = intro.into();
        self
    }
}
