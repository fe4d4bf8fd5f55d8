//! The Exchange page: a section for each way in which records leave or enter. What is asked of the lists stands in the
//! address, and the links to the files carry it on.

use super::import::{self, kind::Imported};
use super::lists::Listed;
use super::lists::asked::{ExportAsked, Form as Written, Mark};
use crate::access::{Permission, Role};
use crate::db::Cx;
use crate::records::head::{moment, said};
use crate::seed::client::act::clients_in_choice;
use crate::seed::client::{self, store::ClientRow};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted, pairs};
use crate::web::input;
use crate::web::page::{Cookies, Page, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::response::Response;
use percent_encoding::{NON_ALPHANUMERIC, utf8_percent_encode};
use sowmark_core::say;
use sowmark_core::words::DecimalSign;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/exchange", Need::May(Permission::ReadUsage), exchange_page)]
}

#[derive(Template)]
#[template(path = "exchange/exchange.html")]
struct ExchangePage {
    page: Page,
    form: Form,
    /// Nothing where the question cannot be answered.
    lists: Vec<ListLine>,
    only_own: bool,
    /// The kinds that can be taken in, for who may: word and name.
    kinds: Vec<(&'static str, String)>,
    /// The files sent last: address, what, how far.
    files: Vec<(String, String, String)>,
}

/// A list that can be taken away.
struct ListLine {
    href: String,
    name: String,
    what: String,
}

async fn exchange_page(signed: Signed, cookies: Cookies, RawQuery(query): RawQuery) -> Result<Response, Error> {
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?).spoken_in(signed.actor.language);
    let words = signed.actor.words();
    let mut conn = signed.app.read().await?;
    let clients = client::act::clients(&mut conn.cx(), &signed.actor.scope).await?;
    let narrowed = asked_of(&mut conn.cx(), &signed, &posted).await;
    drop(conn);
    let form = form(&signed, &clients);
    let (form, lists) = match narrowed {
        Ok(narrowed) => {
            let form = if posted.text("form").is_empty() { form } else { form.filled(&posted) };
            let asked = carried(&posted, &signed);
            let line = |list: Listed| ListLine {
                href: format!("/exchange/csv/{}.csv{asked}", list.word()),
                name: list.says(words),
                what: list.what(words),
            };
            (form, Listed::of(&narrowed.actor).into_iter().map(line).collect())
        }
        Err(error @ (Error::Faults(_) | Error::NotThere { .. })) => (form.again(&posted, &error), Vec::new()),
        Err(error) => return Err(error),
    };
    let page = Page::new(&signed, &cookies, say!(words, "exchange-title"), "/exchange");
    let only_own = signed.actor.role == Role::Crew;
    let (mut kinds, mut files) = (Vec::new(), Vec::new());
    if signed.actor.may(Permission::KeepFleet) {
        kinds = Imported::ALL.iter().map(|kind| (kind.word(), kind.says(words))).collect();
        files = recent(&signed).await?;
    }
    show_with(form.status(), &ExchangePage { page, form, lists, only_own, kinds, files })
}

/// Whose lists are asked for: what somebody sees, or what one client alone lets them see.
async fn asked_of(cx: &mut Cx<'_>, signed: &Signed, posted: &Posted) -> Result<Signed, Error> {
    let asked = input::read::<ExportAsked>(&posted.query())?;
    asked.period(signed)?;
    client::act::for_client(cx, signed, asked.client_id).await
}

async fn recent(signed: &Signed) -> Result<Vec<(String, String, String)>, Error> {
    let (words, zone) = (signed.actor.words(), &signed.actor.time_zone);
    let line = |row: import::store::ImportRow| {
        let kind = Imported::from_word(&row.kind).map(|kind| kind.says(words)).unwrap_or_default();
        let when = said(moment(row.sent_at), zone, words);
        let stage = say!(words, "import-stage", stage = &row.stage);
        (format!("/exchange/imports/{}", row.id), format!("{kind}, {when}"), format!("{} {stage}", row.file_name))
    };
    Ok(import::recent(signed).await?.into_iter().map(line).collect())
}

/// Who reads numbers with a comma has a spreadsheet that does.
fn usual(signed: &Signed) -> Written {
    if signed.actor.decimal_sign == DecimalSign::Comma { Written::Semicolon } else { Written::Comma }
}

fn form(signed: &Signed, clients: &[ClientRow]) -> Form {
    let words = signed.actor.words();
    let mut fields = vec![
        FormField::new("from", say!(words, "exchange-from")).kind(Kind::Date).optional(),
        FormField::new("to", say!(words, "exchange-to")).kind(Kind::Date).optional(),
        FormField::new("form", say!(words, "exchange-form"))
            .value(usual(signed).word())
            .choice(Written::ALL.iter().map(|form| (form.word(), form.says(words)))),
        FormField::new("mark", say!(words, "exchange-mark"))
            .value(Mark::With.word())
            .choice(Mark::ALL.iter().map(|mark| (mark.word(), mark.says(words)))),
    ];
    if !clients.is_empty() {
        let all = std::iter::once((String::new(), say!(words, "usage-all")));
        let choice = all.chain(clients_in_choice(clients));
        fields.insert(2, FormField::new("client_id", say!(words, "exchange-client")).choice(choice).optional());
    }
    Form::new("/exchange", say!(words, "exchange-apply"), fields)
}

/// What was asked, as the links carry it on.
fn carried(posted: &Posted, signed: &Signed) -> String {
    let usual = [("form", usual(signed).word()), ("mark", Mark::With.word())];
    let or_usual = |name: &str| {
        let unless_told = usual.iter().find(|(field, _)| *field == name).map_or("", |(_, value)| value);
        let told = posted.text(name).trim();
        if told.is_empty() { unless_told.to_owned() } else { told.to_owned() }
    };
    let parts = ["from", "to", "client_id", "form", "mark"].into_iter().map(|name| (name, or_usual(name)));
    let parts = parts.filter(|(_, value)| !value.is_empty());
    let parts = parts.map(|(name, value)| format!("{name}={}", utf8_percent_encode(&value, NON_ALPHANUMERIC)));
    format!("?{}", parts.collect::<Vec<_>>().join("&"))
}
