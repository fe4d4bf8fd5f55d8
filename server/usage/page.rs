//! The page of where the seed went: the question, which stands in the address, and its answer, sent while it is made
//! (`report.rs`).

use super::asked::UsageAsked;
use super::question::Question;
use super::report::{self, Wanted};
use super::store;
use super::sums::By;
use crate::access::Permission;
use crate::fleet::seeder;
use crate::reports::{Frame, Stamp};
use crate::seed::{client, field, lot};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted, pairs};
use crate::web::input;
use crate::web::page::{Cookies, Page};
use crate::web::routes::{Need, Route};
use axum::extract::RawQuery;
use axum::http::HeaderMap;
use axum::response::Response;
use percent_encoding::{NON_ALPHANUMERIC, utf8_percent_encode};
use serde_json::Value;
use sowmark_core::say;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/usage", Need::May(Permission::ReadUsage), usage_page)]
}

async fn usage_page(
    signed: Signed,
    cookies: Cookies,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let (words, now) = (signed.actor.words(), signed.app.clock.now());
    let query = query.unwrap_or_default();
    let posted = Posted(pairs(query.as_bytes())?).spoken_in(signed.actor.language);
    let by = By::from_word(posted.text("by")).unwrap_or_default();
    let mut snapshot = signed.app.snapshot().await?;
    let mut asked = posted.query();
    if let Some(asked) = asked.as_object_mut() {
        asked.remove("by");
    }
    let question = match input::read::<UsageAsked>(&asked) {
        Ok(asked) => Question::of(&mut snapshot.cx(), &signed, &asked).await,
        Err(error) => Err(error),
    };
    let form = form(&signed, &mut snapshot.cx(), by).await?;
    let page = Page::new(&signed, &cookies, say!(words, "usage-title"), "/usage");
    let sees_stock = signed.actor.may(Permission::ReadStock);
    let intro = if sees_stock { say!(words, "usage-intro") } else { say!(words, "usage-intro-own") };
    let mut frame = Frame::new(page, form, vec![intro]);
    frame.csv = format!("{}{}", frame.page.csv("usage"), and_asked(&asked));
    if asked.get("client_id").is_some() {
        frame.intro.push(say!(words, "usage-of-client"));
    }
    let question = match question {
        Ok(question) => question,
        Err(error) => return frame.again(&posted, error),
    };
    let wanted = Wanted {
        by,
        chosen: frame.form.clone().filled(&posted).chosen(),
        sees_stock,
        sign: signed.actor.may(Permission::SignAudit).then(|| format!("/usage/signatures/new?{query}")),
    };
    let stamp = Stamp::of(&mut snapshot.cx(), &signed, &headers, now, Some(question.period)).await?;
    frame.answered(&posted, stamp, move |parts, page| report::make(parts, page, snapshot, question, wanted))
}

/// What was asked, as more of an address.
fn and_asked(asked: &Value) -> String {
    let pairs = asked.as_object().into_iter().flatten().filter_map(|(name, value)| Some((name, value.as_str()?)));
    let pairs = pairs.map(|(name, value)| format!("&{name}={}", utf8_percent_encode(value, NON_ALPHANUMERIC)));
    pairs.collect()
}

async fn form(signed: &Signed, cx: &mut crate::db::Cx<'_>, by: By) -> Result<Form, Error> {
    let (scope, words) = (&signed.actor.scope, signed.actor.words());
    let all = || (String::new(), say!(words, "usage-all"));
    let seeders = seeder::act::seeders(cx, scope).await?.into_iter().map(|seeder| (seeder.id.to_string(), seeder.name));
    let seeders: Vec<_> = std::iter::once(all()).chain(seeders).collect();
    let lots = lot::act::lots_in_choice(&lot::act::lots(cx, scope).await?, words);
    let lots = std::iter::once(all()).chain(lots);
    let fields = field::act::fields(cx, scope).await?.into_iter().map(|field| (field.id.to_string(), field.name));
    let fields: Vec<_> = std::iter::once(all()).chain(fields).collect();
    let clients = client::act::clients(cx, scope).await?;
    let mut asked = vec![
        FormField::new("from", say!(words, "usage-from")).kind(Kind::Date).optional(),
        FormField::new("to", say!(words, "usage-to")).kind(Kind::Date).optional(),
        FormField::new("seeder_id", say!(words, "usage-seeder")).choice(seeders).optional(),
        FormField::new("lot_id", say!(words, "usage-lot")).choice(lots).optional(),
        FormField::new("field_id", say!(words, "usage-field")).choice(fields).optional(),
    ];
    if !clients.is_empty() {
        let clients = clients.into_iter().map(|client| (client.id.to_string(), client.name));
        let clients: Vec<_> = std::iter::once(all()).chain(clients).collect();
        asked.push(FormField::new("client_id", say!(words, "usage-client")).choice(clients).optional());
    }
    if signed.actor.may(Permission::ReadStock) {
        let crews = store::crews(cx, scope).await?.into_iter().map(|(id, name)| (id.to_string(), name));
        let crews: Vec<_> = std::iter::once(all()).chain(crews).collect();
        asked.push(FormField::new("crew_id", say!(words, "usage-crew")).choice(crews).optional());
    }
    let ways = By::ALL.into_iter().map(|by| (by.word(), by.says(words)));
    asked.push(FormField::new("by", say!(words, "usage-together-by")).value(by.word()).choice(ways));
    Ok(Form::new("/usage", say!(words, "usage-show"), asked))
}
