//! The lot card: one sheet per lot with everything that is to be shown when somebody asks where seed came from and where it
//! went: its label, its tests, its treatment, its balance, its jobs and the calibrations made with it.
//!
//! Masses, jobs and balances are those of the usage audit, asked for this lot alone; what somebody does not see there does
//! not stand here either.

use super::Stamp;
use crate::access::{Actor, Permission};
use crate::calibration::with_lot::{WithLot, with_lot};
use crate::seed::lot::act::{find_lot, lots, lots_in_choice};
use crate::seed::lot::age::Age;
use crate::seed::lot::label::Fact;
use crate::seed::lot::store::LotRow;
use crate::seed::lot_test;
use crate::seed::lot_test::act::known_by;
use crate::seed::lot_test::store::LotTestRow;
use crate::seed::movement;
use crate::seed::movement::act::MovementKind;
use crate::usage::act::usage;
use crate::usage::asked::UsageAsked;
use crate::usage::lines::{self, JobLine, TankLine};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted, pairs};
use crate::web::input;
use crate::web::page::{Cookies, Page, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::HeaderMap;
use axum::response::Response;
use sowmark_core::ids::LotId;
use sowmark_core::say;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/reports/lot-card", Need::May(Permission::ReadLots), lot_card_page)]
}

crate::input! {
    /// Which lot.
    pub struct LotCardAsked {
        pub lot_id: LotId,
    }
}

#[derive(Template)]
#[template(path = "reports/lot_card.html")]
struct LotCardPage {
    page: Page,
    form: Form,
    card: Option<Card>,
    /// Until a lot was chosen.
    is_open: bool,
}

/// The card of one lot.
struct Card {
    name: String,
    lot: LotRow,
    facts: Vec<Fact>,
    tests: Vec<TestLine>,
    /// How old the test is by which its germination is known.
    age: Option<Age>,
    /// What is in stock and what went; none for who does not see stock.
    stock: Option<StockPart>,
    jobs: Vec<JobLine>,
    /// The tanks' balances; none where not everything in them is this person's to see.
    tanks: Vec<TankLine>,
    calibrations: Vec<WithLot>,
    stamp: Stamp,
}

/// A test, as its row shows it.
struct TestLine {
    when: String,
    cells: Vec<String>,
    by: String,
    /// Why it no longer stands.
    fallen: Option<String>,
}

/// The balance, and the movements behind it.
struct StockPart {
    balance: Vec<(String, String)>,
    /// Fills and emptyings that nobody weighed.
    unweighed: u32,
    movements: Vec<MovementLine>,
}

/// A movement, as its row shows it.
struct MovementLine {
    when: String,
    what: String,
    mass: String,
    note: String,
    by: String,
    /// Why it no longer stands.
    fallen: Option<String>,
}

async fn lot_card_page(
    signed: Signed,
    cookies: Cookies,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?).spoken_in(signed.actor.language);
    let page = Page::new(&signed, &cookies, say!(signed.actor.words(), "lot-card-title"), "/reports");
    let mut snapshot = signed.app.snapshot().await?;
    let all = lots(&mut snapshot.cx(), &signed.actor.scope).await?;
    let form = lot_form(&signed, &all);
    if posted.text("lot_id").trim().is_empty() {
        return show_with(form.status(), &LotCardPage { page, form, card: None, is_open: true });
    }
    let made = match input::read::<LotCardAsked>(&posted.tree(&signed.actor.time_zone)) {
        Ok(asked) => card(&mut snapshot, &signed, &headers, asked.lot_id).await,
        Err(error) => Err(error),
    };
    let (form, card) = match made {
        Ok(card) => (form.filled(&posted), Some(card)),
        Err(error @ (Error::Faults(_) | Error::NotThere { .. })) => (form.again(&posted, &error), None),
        Err(error) => return Err(error),
    };
    show_with(form.status(), &LotCardPage { page, form, card, is_open: false })
}

/// The choice of a lot.
pub(super) fn lot_form(signed: &Signed, lots: &[LotRow]) -> Form {
    let words = signed.actor.words();
    let none = (String::new(), say!(words, "lot-choose"));
    let choices: Vec<_> = std::iter::once(none).chain(lots_in_choice(lots, words)).collect();
    let fields = vec![FormField::new("lot_id", say!(words, "lots-lot")).choice(choices)];
    Form::new("/reports/lot-card", say!(words, "lot-card-submit"), fields)
}

async fn card(snapshot: &mut crate::db::Tx, signed: &Signed, headers: &HeaderMap, id: LotId) -> Result<Card, Error> {
    let (actor, cx) = (&signed.actor, &mut snapshot.cx());
    let reader = actor.reader();
    let lot = match find_lot(cx, &actor.scope, id).await {
        Err(Error::NotThere { what, .. }) => return Err(Error::not_there_at("/lot_id", what)),
        found => found?,
    };
    let sees_stock = actor.may(Permission::ReadStock);
    let asked = UsageAsked {
        from: None,
        to: None,
        lot_id: Some(id),
        seeder_id: None,
        field_id: None,
        client_id: None,
        crew_id: None,
    };
    let usage = usage(cx, signed, &asked).await?;
    let stock = match usage.lots.first() {
        Some(of_lot) if sees_stock => {
            let movements = movement::act::movements(cx, &actor.scope, id).await?;
            Some(StockPart {
                balance: lines::balance(of_lot, reader),
                unweighed: of_lot.balance.unweighed,
                movements: movements.into_iter().map(|row| movement_line(row, actor)).collect(),
            })
        }
        _ => None,
    };
    let tests = lot_test::act::lot_tests(cx, &actor.scope, id).await?;
    Ok(Card {
        name: lot.in_words(reader.words),
        facts: lot.facts(reader, sees_stock),
        age: Age::of(&lot, known_by(&tests).germination_percent.as_ref(), actor, signed.app.clock.now()),
        tests: tests.into_iter().map(|row| test_line(&row, actor)).collect(),
        stock,
        jobs: lines::jobs(&usage, signed),
        tanks: lines::tanks(&usage, signed),
        calibrations: with_lot(cx, signed, id).await?,
        stamp: Stamp::of(cx, signed, headers, signed.app.clock.now(), Some(usage.period)).await?,
        lot,
    })
}

fn test_line(row: &LotTestRow, actor: &Actor) -> TestLine {
    let (reader, words) = (actor.reader(), actor.words());
    let measured = |of: &Option<String>| of.as_deref().map(|value| reader.measured(value)).unwrap_or_default();
    let percent =
        |of: &Option<String>| of.as_deref().map(|value| format!("{} %", words.decimal(value))).unwrap_or_default();
    TestLine {
        when: row.head.when(&actor.time_zone, words),
        cells: vec![
            row.thousand_seed_weight.as_deref().map(|value| words.decimal(value)).unwrap_or_default(),
            measured(&row.bulk_density),
            percent(&row.germination_percent),
            percent(&row.purity_percent),
            percent(&row.moisture_percent),
        ],
        by: row.head.by(words),
        fallen: row.head.fallen(actor),
    }
}

fn movement_line(row: movement::store::MovementRow, actor: &Actor) -> MovementLine {
    let (reader, words) = (actor.reader(), actor.words());
    MovementLine {
        when: row.head.when(&actor.time_zone, words),
        what: MovementKind::from_word(&row.moved).map_or_else(String::new, |kind| kind.says(words)),
        mass: reader.measured(&row.mass),
        by: row.head.by(words),
        fallen: row.head.fallen(actor),
        note: row.note,
    }
}
