//! The page of one lot: its label, its cautions, its tests, its stock, and where it went.

use super::act;
use super::age::Age;
use super::label::Fact;
use super::stock::{self, CameIn};
use super::store::LotRow;
use crate::access::Permission;
use crate::calibration;
use crate::chart::Figure;
use crate::records::head::Head;
use crate::seed::log::Treated;
use crate::seed::lot_test::act::known_by;
use crate::seed::lot_test::store::LotTestRow;
use crate::seed::movement::act::MovementKind;
use crate::seed::movement::store::MovementRow;
use crate::seed::{job, lot_test, movement, tank, unlikely};
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::page::{Cookies, Page, show};
use crate::web::reader::Reader;
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::Response;
use jiff::tz::TimeZone;
use sowmark_core::ids::LotId;
use sowmark_core::say;
use sowmark_core::usage::LotBalance;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/lots/{id}", Need::May(Permission::ReadLots), lot_page)]
}

/// Less than anybody weighs seed to.
const ROUNDING_KG: f64 = 0.005;

#[derive(Template)]
#[template(path = "seed/lot.html")]
struct LotPage {
    page: Page,
    lot: LotRow,
    /// What else its label states.
    label: Vec<Fact>,
    treated: Option<Treated>,
    tests: Vec<TestLine>,
    /// What is asked of tests that came lately, with their ids.
    lately: Vec<(Uuid, String)>,
    /// How old the test is by which its germination is known.
    age: Option<Age>,
    may_test: bool,
    may_change: bool,
    stock: Option<StockPart>,
    went: Vec<WentLine>,
    factors: Option<Figure>,
}

/// A test, as its row shows it.
struct TestLine {
    when: String,
    by: String,
    test: LotTestRow,
    /// What is asked of its figures.
    asks: Vec<String>,
    /// Why it no longer stands.
    fallen: Option<String>,
    may_void: bool,
}

/// The stock, for who may see it.
struct StockPart {
    balance: Vec<(String, String)>,
    expected: String,
    /// How much more went out than came in.
    below: Option<String>,
    counted: Option<String>,
    unweighed: u32,
    movements: Vec<MovementLine>,
    may_keep: bool,
}

/// A movement, as its row shows it.
struct MovementLine {
    when: String,
    what: String,
    by: String,
    movement: MovementRow,
    fallen: Option<String>,
    may_void: bool,
}

/// Something that was done with the lot at a machine.
struct WentLine {
    occurred_at: i64,
    when: String,
    what: String,
    seeder_id: Uuid,
    place: String,
    by: String,
    /// What is asked of its figures.
    asks: Vec<String>,
    fallen: Option<String>,
}

async fn lot_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let (scope, zone, id) = (&signed.actor.scope, &signed.actor.time_zone, LotId(id));
    let mut conn = signed.app.read().await?;
    let lot = act::find_lot(&mut conn.cx(), scope, id).await?;
    let tests = lot_test::act::lot_tests(&mut conn.cx(), scope, id).await?;
    let stock = if signed.actor.may(Permission::ReadStock) {
        let stock = stock::balance_of(&mut conn.cx(), scope, zone, &lot).await?;
        let movements = movement::act::movements(&mut conn.cx(), scope, id).await?;
        Some(stock_part(&signed, stock, movements))
    } else {
        None
    };
    let went = where_it_went(&signed, &mut conn.cx(), id).await?;
    let age = Age::of(&lot, known_by(&tests).germination_percent.as_ref(), &signed.actor, signed.app.clock.now());
    let tests = test_lines(tests, &signed)?;
    let factors = calibration::charts::of_lot(&mut conn.cx(), &signed, id).await?;
    show(&LotPage {
        page: Page::new(&signed, &cookies, say!(signed.actor.words(), "lot-title", number = &lot.lot_number), "/lots"),
        treated: Treated::of(&lot),
        age,
        lately: lately(&tests, &signed),
        label: lot.label.facts(signed.actor.reader(), signed.actor.may(Permission::ReadStock)),
        lot,
        tests,
        may_test: signed.actor.may(Permission::TestLots),
        may_change: signed.actor.may(Permission::KeepLots),
        stock,
        went,
        factors,
    })
}

/// The tests, newest first, each with what those before it ask.
fn test_lines(tests: Vec<LotTestRow>, signed: &Signed) -> Result<Vec<TestLine>, Error> {
    let asks = |at: usize| unlikely::of_test(&tests[at], &tests[at + 1..], signed.actor.reader());
    let asks = (0..tests.len()).map(asks).collect::<Result<Vec<_>, _>>()?;
    Ok(tests.into_iter().zip(asks).map(|(test, asks)| TestLine::new(test, asks, signed)).collect())
}

fn lately(tests: &[TestLine], signed: &Signed) -> Vec<(Uuid, String)> {
    let now = signed.app.clock.now();
    let new = tests.iter().filter(|line| line.test.head.is_new(now) && !line.asks.is_empty());
    new.map(|line| (line.test.head.id, format!("{}: {}", line.when, line.asks.join(" ")))).collect()
}

impl TestLine {
    fn new(test: LotTestRow, asks: Vec<String>, signed: &Signed) -> Self {
        let (head, actor) = (&test.head, &signed.actor);
        let words = actor.words();
        let (when, by) = (head.when(&actor.time_zone, words), head.by_line(words));
        let (fallen, may_void) = (head.fallen(actor), head.may_void(signed));
        Self { when, by, test, asks, fallen, may_void }
    }
}

fn stock_part(signed: &Signed, stock: LotBalance, movements: Vec<MovementRow>) -> StockPart {
    let (reader, zone): (Reader, &TimeZone) = (signed.actor.reader(), &signed.actor.time_zone);
    let words = reader.words;
    let said = |kg: f64| reader.mass(kg);
    let balance = [
        (say!(words, "stock-received"), stock.received.kg),
        (say!(words, "stock-filled"), -stock.filled.kg),
        (say!(words, "stock-returned"), stock.returned.kg),
        (say!(words, "stock-sold"), -stock.sold.kg),
        (say!(words, "stock-discarded"), -stock.discarded.kg),
    ];
    let expected = stock.expected_on_hand().kg;
    let counted = stock.counted.map(|count| {
        let unaccounted = count.unaccounted().kg;
        let side = if unaccounted < 0.0 { "less" } else { "more" };
        let counted = stock::counted(count, reader, zone);
        say!(words, "stock-counted", side = side, counted = counted, difference = said(unaccounted.abs()))
    });
    let line = |row: MovementRow| MovementLine {
        when: row.head.when(zone, words),
        what: MovementKind::from_word(&row.moved).map_or_else(String::new, |kind| kind.says(words)),
        by: row.head.by_line(words),
        fallen: row.head.fallen(&signed.actor),
        may_void: row.head.may_void(signed),
        movement: row,
    };
    StockPart {
        balance: balance.into_iter().filter(|(_, kg)| *kg != 0.0).map(|(what, kg)| (what, said(kg))).collect(),
        expected: said(expected),
        below: (expected < -ROUNDING_KG).then(|| said(-expected)),
        counted,
        unweighed: stock.unweighed,
        movements: movements.into_iter().map(line).collect(),
        may_keep: signed.actor.may(Permission::KeepLots),
    }
}

/// Fills, emptyings and jobs with the lot that this person sees, newest first.
async fn where_it_went(signed: &Signed, cx: &mut crate::db::Cx<'_>, lot: LotId) -> Result<Vec<WentLine>, Error> {
    let (scope, zone, reader) = (&signed.actor.scope, &signed.actor.time_zone, signed.actor.reader());
    let words = reader.words;
    let weighed =
        |mass: Option<&str>| mass.map_or_else(|| say!(words, "went-not-weighed"), |mass| reader.measured(mass));
    let came_in = CameIn::of_lot(cx, &signed.actor, lot).await?;
    let line = |head: &Head, seeder_id, seeder: &str, unit: &str, what, asks| WentLine {
        occurred_at: head.occurred_at,
        when: head.when(zone, words),
        what,
        seeder_id,
        place: format!("{seeder}, {unit}"),
        by: head.by_line(words),
        asks,
        fallen: head.fallen(&signed.actor),
    };
    let mut went = Vec::new();
    for row in tank::act::fills_from(cx, scope, lot).await? {
        let what = say!(words, "went-filled", mass = weighed(row.mass.as_deref()));
        let asks = unlikely::of_fill(&row.head, (lot, row.mass.as_deref()), &came_in, reader)?;
        went.push(line(&row.head, row.seeder_id, &row.seeder, &row.unit, what, asks));
    }
    for row in tank::act::emptyings_of(cx, scope, lot).await? {
        let empty = if row.to_empty { "yes" } else { "no" };
        let what = say!(words, "went-emptied", empty = empty, mass = weighed(row.mass.as_deref()));
        went.push(line(&row.head, row.seeder_id, &row.seeder, &row.unit, what, Vec::new()));
    }
    for row in job::act::jobs_with(cx, scope, lot).await? {
        let what = say!(
            words,
            "went-sown",
            field = row.field(),
            seed = reader.measured(&row.seed_used),
            area = reader.measured(&row.area),
            rate = reader.measured(&row.target_rate)
        );
        let asks = unlikely::of_job(&row.head, row.figures(), scope, reader)?;
        went.push(line(&row.head, row.seeder_id, &row.seeder, &row.unit, what, asks));
    }
    went.sort_by_key(|line| std::cmp::Reverse(line.occurred_at));
    Ok(went)
}
