//! Signing on pages: the form, which shows what is being signed; the signed audits; and one of them, with what is
//! different now. It prints.

use super::act::{self, AskedOf, Signature, SignatureDraft, Standing, asked_of};
use super::contents::{Change, Contents, Fact, Thing, What, is_untrue};
use crate::access::Permission;
use crate::hex;
use crate::readiness::trigger_in_words;
use crate::records::head::{moment, said, said_day};
use crate::reports::Stamp;
use crate::usage::act::usage;
use crate::usage::asked::UsageAsked;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted, pairs};
use crate::web::input;
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::{Value, json};
use sowmark_core::readiness::Trigger;
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/usage/signatures", Need::May(Permission::ReadStock), signatures_page),
        crate::route!(page GET "/usage/signatures/new", Need::May(Permission::SignAudit), new_signature_page),
        crate::route!(page POST "/usage/signatures", Need::May(Permission::SignAudit), post_signature),
        crate::route!(page GET "/usage/signatures/{id}", Need::May(Permission::ReadStock), signature_page),
    ]
}

/// Signed audits on a page.
const SHOWN: i64 = 100;

#[derive(Template)]
#[template(path = "usage/sign.html")]
struct SignPage {
    page: Page,
    form: Form,
    intro: String,
    /// What is being signed; empty where the question cannot be answered.
    facts: Vec<(String, String)>,
}

#[derive(Template)]
#[template(path = "usage/signatures.html")]
struct SignaturesPage {
    page: Page,
    lines: Vec<Line>,
}

/// A signed audit, as its line shows it.
struct Line {
    id: Uuid,
    when: String,
    by: String,
    of: String,
    remark: String,
}

#[derive(Template)]
#[template(path = "usage/signature.html")]
struct SignaturePage {
    page: Page,
    by: String,
    facts: Vec<(String, String)>,
    remark: String,
    standing: &'static str,
    changes: Vec<ChangeLine>,
    /// All jobs together: label, as signed, now.
    totals: Vec<(String, String, String)>,
    /// The same question, asked now.
    now: String,
    jobs: Vec<JobLine>,
    lots: Vec<LotLine>,
    chain: String,
    /// Of this page, not of what was signed.
    stamp: Stamp,
}

/// A difference, told.
struct ChangeLine {
    href: String,
    name: String,
    says: Vec<String>,
}

/// A job as it was signed.
struct JobLine {
    when: String,
    name: String,
    cells: Vec<String>,
    number: String,
    is_untrue: bool,
}

/// A lot as it was signed.
struct LotLine {
    name: String,
    cells: Vec<String>,
}

/// What of a lot is shown, in this order.
const OF_LOT: [&str; 8] = ["received", "filled", "returned", "sown", "sold", "discarded", "expected", "counted"];

async fn new_signature_page(signed: Signed, cookies: Cookies, RawQuery(query): RawQuery) -> Result<Response, Error> {
    let asked = Posted(pairs(query.unwrap_or_default().as_bytes())?).spoken_in(signed.actor.language);
    let mut question = asked.query();
    if let Some(question) = question.as_object_mut() {
        question.remove("by");
    }
    let form = sign_form(&signed, &question)?;
    sign_page(&signed, &cookies, form, &question).await
}

async fn post_signature(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let sent = posted.tree(&signed.actor.time_zone);
    let question = sent.get("of").cloned().unwrap_or_else(|| json!({}));
    let done = match input::read::<SignatureDraft>(&sent) {
        Ok(draft) => act::sign(&signed, draft, sent).await,
        Err(error) => Err(error),
    };
    match done {
        Ok(outcome) => Ok(Redirect::to(&format!("/usage/signatures/{}", outcome.id())).into_response()),
        Err(error) => {
            let form = sign_form(&signed, &question)?.again(&posted, &error);
            sign_page(&signed, &cookies, form, &question).await
        }
    }
}

fn sign_form(signed: &Signed, question: &Value) -> Result<Form, Error> {
    let words = signed.actor.words();
    let asked = question.as_object().into_iter().flatten();
    let hidden = asked.filter_map(|(name, value)| Some(FormField::hidden(format!("of/{name}"), value.as_str()?)));
    let remark = FormField::new("remark", say!(words, "signature-remark"))
        .hint(say!(words, "signature-remark-hint"))
        .kind(Kind::Area)
        .optional();
    let fields = hidden.chain([remark]).collect();
    let form = Form::new("/usage/signatures", say!(words, "signature-sign"), fields).back("/usage");
    Ok(form.creating(signed.app.clock.new_id()?))
}

async fn sign_page(signed: &Signed, cookies: &Cookies, mut form: Form, question: &Value) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let answered = match input::read::<UsageAsked>(question) {
        Ok(asked) => match usage(&mut conn.cx(), signed, &asked).await {
            Ok(answer) => Ok((asked_of(&mut conn.cx(), &signed.actor, &asked).await?, answer)),
            Err(error) => Err(error),
        },
        Err(error) => Err(error),
    };
    let facts = match answered {
        Ok((of, answer)) => {
            let contents = Contents::of(&answer);
            let mut facts = question_facts(question, &of, signed);
            facts.extend(sums(&contents, signed));
            facts
        }
        // Asked by an address that a page did not make: what is wrong with it is said.
        Err(error) if form.general.is_empty() => {
            let words = signed.actor.words();
            let faults = error.faults();
            form.general.extend(faults.iter().map(|fault| fault.says(words)));
            if faults.is_empty() {
                return Err(error);
            }
            Vec::new()
        }
        Err(_) => Vec::new(),
    };
    let page = Page::new(signed, cookies, say!(signed.actor.words(), "signature-new-title"), "/usage");
    show_with(form.status(), &SignPage { page, form, intro: say!(signed.actor.words(), "signature-intro"), facts })
}

async fn signatures_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let found = act::newest_signatures(&mut conn.cx(), &signed.actor, SHOWN).await?;
    let words = signed.actor.words();
    let lines = found.iter().map(|signature| Line {
        id: signature.row.head.id,
        when: said(signature.row.head.recorded(), &signed.actor.time_zone, words),
        by: signature.row.head.by(words),
        of: in_a_line(&question_facts(&signature.asked, &signature.asked_of, &signed)),
        remark: signature.row.remark.clone(),
    });
    let page = Page::new(&signed, &cookies, say!(words, "signatures-title"), "/usage");
    show(&SignaturesPage { page, lines: lines.collect() })
}

async fn signature_page(
    signed: Signed,
    cookies: Cookies,
    headers: HeaderMap,
    PathId(id): PathId,
) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let found = act::find_signature(&mut conn.cx(), &signed.actor, id).await?;
    let question = input::read::<UsageAsked>(&found.asked)?.period(&signed.actor.time_zone)?;
    let stamp = Stamp::of(&mut conn.cx(), &signed, &headers, signed.app.clock.now(), Some(question)).await?;
    drop(conn);
    let words = signed.actor.words();
    let Signature { row, asked, asked_of, contents } = &found;
    let (standing, changes, totals) = match act::standing(&signed, &found).await? {
        Standing::AsSigned => ("as-signed", Vec::new(), Vec::new()),
        Standing::Changed(changes, now) => {
            let together = sums(contents, &signed).into_iter().zip(sums(&now, &signed));
            let together = together.map(|((label, was), (_, is))| (label, was, is));
            ("changed", changes, together.collect())
        }
        Standing::Unknown => ("unknown", Vec::new(), Vec::new()),
    };
    let zone = &signed.actor.time_zone;
    let mut facts = vec![
        (say!(words, "signature-when"), said(moment(row.head.recorded_at), zone, words)),
        (say!(words, "signature-by"), row.head.by(words)),
    ];
    facts.extend(question_facts(asked, asked_of, &signed));
    facts.extend(sums(contents, &signed));
    let page = Page::new(&signed, &cookies, say!(words, "signature-title"), "/usage");
    show(&SignaturePage {
        page,
        by: row.head.by(words),
        facts,
        remark: row.remark.clone(),
        standing,
        changes: changes.iter().map(|change| change_line(change, &signed)).collect(),
        totals,
        now: address(asked),
        jobs: contents.jobs.iter().rev().map(|job| job_line(job, &signed)).collect(),
        lots: contents.lots.iter().map(|lot| lot_line(lot, &signed)).collect(),
        chain: say!(words, "signature-chain", number = row.chain_seq.to_string(), hash = hex::written(&row.chain_head)),
        stamp,
    })
}

/// The question asked again.
fn address(asked: &Value) -> String {
    let pairs = asked.as_object().into_iter().flatten().filter_map(|(name, value)| Some((name, value.as_str()?)));
    let pairs: Vec<String> = pairs
        .map(|(name, value)| {
            let value = percent_encoding::utf8_percent_encode(value, percent_encoding::NON_ALPHANUMERIC);
            format!("{name}={value}")
        })
        .collect();
    format!("/usage?{}", pairs.join("&"))
}

/// The question in words: label and value.
fn question_facts(question: &Value, of: &AskedOf, signed: &Signed) -> Vec<(String, String)> {
    let words = signed.actor.words();
    // Where the question was of days, its ends stand as moments: the last is not a day that is included.
    let day = |name: &str| {
        let text = question.get(name)?.as_str()?;
        let stamp = input::parse_stamp(text);
        Some(stamp.map_or_else(|| said_day(text, words), |stamp| said(stamp.at, &signed.actor.time_zone, words)))
    };
    let told = [
        (say!(words, "usage-from"), day("from")),
        (say!(words, "signature-until"), day("to")),
        (say!(words, "usage-seeder"), of.seeder.clone()),
        (say!(words, "usage-lot"), of.lot.clone()),
        (say!(words, "usage-field"), of.field.clone()),
        (say!(words, "usage-client"), of.client.clone()),
        (say!(words, "usage-crew"), of.crew.clone()),
        (say!(words, "signature-limited"), (!of.limited_to.is_empty()).then(|| of.limited_to.join(", "))),
    ];
    told.into_iter().filter_map(|(label, value)| Some((label, value?))).collect()
}

fn in_a_line(facts: &[(String, String)]) -> String {
    facts.iter().map(|(label, value)| format!("{label} {value}")).collect::<Vec<_>>().join(" · ")
}

fn sums(contents: &Contents, signed: &Signed) -> Vec<(String, String)> {
    let (words, reader) = (signed.actor.words(), signed.actor.reader());
    vec![
        (say!(words, "usage-jobs"), contents.jobs.len().to_string()),
        (say!(words, "usage-sown"), reader.area(contents.sum("area", |_| true))),
        (say!(words, "usage-untrue"), reader.area(contents.sum("area", is_untrue))),
        (say!(words, "usage-seed"), reader.mass(contents.sum("seed", |_| true))),
    ]
}

fn job_line(job: &Thing, signed: &Signed) -> JobLine {
    let words = signed.actor.words();
    let cell = |fact: &str| job.facts.get(fact).map_or_else(String::new, |value| told(fact, value, signed));
    let reasons = cell("reasons");
    let number = cell("number");
    JobLine {
        when: job.at.map(|at| said(at, &signed.actor.time_zone, words)).unwrap_or_default(),
        name: job.name.clone(),
        cells: ["area", "seed", "target", "seeds"].map(cell).to_vec(),
        number: match (reasons.is_empty(), is_untrue(job)) {
            (true, _) => number,
            (false, true) => format!("{number}: {reasons}"),
            (false, false) => format!("{}: {reasons}", say!(words, "usage-number-check")),
        },
        is_untrue: is_untrue(job),
    }
}

fn lot_line(lot: &Thing, signed: &Signed) -> LotLine {
    let cell = |fact: &str| lot.facts.get(fact).map_or_else(String::new, |value| told(fact, value, signed));
    LotLine { name: lot.name.clone(), cells: OF_LOT.map(cell).to_vec() }
}

/// A fact's value as a person reads it.
fn told(fact: &str, value: &Fact, signed: &Signed) -> String {
    let (words, reader) = (signed.actor.words(), signed.actor.reader());
    match (fact, value) {
        ("area", Fact::Number(value)) => reader.area(*value),
        ("target", Fact::Number(value)) => reader.rate(*value),
        ("seeds", Fact::Number(value)) => words.number(*value, 3),
        (_, Fact::Number(value)) => reader.mass(*value),
        ("number", Fact::Word(word)) => say!(words, "signature-number", number = word),
        ("basis", Fact::Word(word)) => say!(words, "signature-basis", basis = word),
        (_, Fact::Word(word)) => reasons(word, words),
    }
}

/// The triggers in words.
fn reasons(triggers: &str, words: Words) -> String {
    let said = |word: &str| {
        let trigger = word.parse::<Trigger>();
        trigger.map_or_else(|_| word.to_owned(), |trigger| trigger_in_words(trigger, words))
    };
    triggers.split_whitespace().map(said).collect::<Vec<_>>().join(", ")
}

/// What a thing says, where there is something to say.
fn facts_in_a_line(thing: &Thing, signed: &Signed) -> String {
    let words = signed.actor.words();
    let facts = thing.facts.iter().filter(|(_, value)| **value != Fact::Number(0.0));
    let facts = facts.map(|(fact, value)| (say!(words, "signature-fact", fact = fact), told(fact, value, signed)));
    in_a_line(&facts.filter(|(_, value)| !value.is_empty()).collect::<Vec<_>>())
}

fn change_line(change: &Change, signed: &Signed) -> ChangeLine {
    let words = signed.actor.words();
    let thing = &change.thing;
    let nothing = || say!(words, "signature-nothing");
    let value = |fact: &str, value: Option<&Fact>| {
        let told = value.map(|value| told(fact, value, signed)).filter(|told| !told.is_empty());
        told.unwrap_or_else(nothing)
    };
    let says = match &change.what {
        What::Added => vec![say!(words, "signature-added"), facts_in_a_line(thing, signed)],
        What::Gone => vec![say!(words, "signature-gone"), facts_in_a_line(thing, signed)],
        What::Facts(facts) => facts
            .iter()
            .map(|(fact, signed_as, now)| {
                let name = say!(words, "signature-fact", fact = fact);
                let (was, is) = (value(fact, signed_as.as_ref()), value(fact, now.as_ref()));
                say!(words, "signature-changed", fact = name, was = was, is = is)
            })
            .collect(),
    };
    let name = match thing.at {
        Some(at) => format!("{} · {}", said(at, &signed.actor.time_zone, words), thing.name),
        None => thing.name.clone(),
    };
    let href = if change.is_job { "#jobs".to_owned() } else { format!("/lots/{}", thing.id) };
    ChangeLine { href, name, says }
}
