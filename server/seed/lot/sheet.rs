//! The page of one lot: its label, its cautions, its tests, its stock, and where it went.

use super::act;
use super::stock::{self, Stock};
use super::store::LotRow;
use crate::access::{Permission, Units};
use crate::calibration;
use crate::chart::Figure;
use crate::seed::log::{Treated, mass_in_words};
use crate::seed::lot_test::store::LotTestRow;
use crate::seed::movement::act::MovementKind;
use crate::seed::movement::store::MovementRow;
use crate::seed::{job, lot_test, movement, tank};
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::Response;
use jiff::tz::TimeZone;
use sowmark_core::ids::LotId;
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/lots/{id}", Need::May(Permission::ReadLots), lot_page)]
}

#[derive(Template)]
#[template(path = "seed/lot.html")]
struct LotPage {
    page: Page,
    lot: LotRow,
    treated: Option<Treated>,
    tests: Vec<TestLine>,
    may_test: bool,
    stock: Option<StockPart>,
    went: Vec<WentLine>,
    factors: Option<Figure>,
}

/// A test, as its row shows it.
struct TestLine {
    when: String,
    by: String,
    test: LotTestRow,
    /// Why it no longer stands.
    fallen: Option<String>,
}

/// The stock, for who may see it.
struct StockPart {
    balance: Vec<(&'static str, String)>,
    expected: String,
    counted: Option<String>,
    unweighed: u32,
    movements: Vec<MovementLine>,
    may_keep: bool,
}

/// A movement, as its row shows it.
struct MovementLine {
    when: String,
    what: &'static str,
    by: String,
    movement: MovementRow,
    fallen: Option<String>,
}

/// Something that was done with the lot at a machine.
struct WentLine {
    occurred_at: i64,
    when: String,
    what: String,
    seeder_id: uuid::Uuid,
    place: String,
    by: String,
    fallen: Option<String>,
}

async fn lot_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let (scope, zone, id) = (&signed.actor.scope, &signed.actor.time_zone, LotId(id));
    let mut conn = signed.app.read().await?;
    let lot = act::find_lot(&mut conn.cx(), scope, id).await?;
    let tests = lot_test::act::lot_tests(&mut conn.cx(), scope, id).await?;
    let stock = if signed.actor.may(Permission::ReadStock) {
        let stock = stock::stock_of(&mut conn.cx(), scope, &lot).await?;
        let movements = movement::act::movements(&mut conn.cx(), scope, id).await?;
        Some(stock_part(&signed, stock, movements))
    } else {
        None
    };
    let went = where_it_went(&signed, &mut conn.cx(), id).await?;
    let factors = calibration::charts::of_lot(&mut conn.cx(), &signed, id).await?;
    show(&LotPage {
        page: Page::new(&signed, &cookies, format!("Lot {}", lot.lot_number), "/lots"),
        treated: Treated::of(&lot),
        lot,
        tests: tests.into_iter().map(|test| TestLine::new(test, zone, signed.actor.words())).collect(),
        may_test: signed.actor.may(Permission::TestLots),
        stock,
        went,
        factors,
    })
}

impl TestLine {
    fn new(test: LotTestRow, zone: &TimeZone, words: Words) -> Self {
        let head = &test.head;
        let (when, by, fallen) = (head.when(zone, words), head.by_line(words), head.fallen(zone, words));
        Self { when, by, test, fallen }
    }
}

fn stock_part(signed: &Signed, stock: Stock, movements: Vec<MovementRow>) -> StockPart {
    let (units, zone): (Units, &TimeZone) = (signed.actor.units, &signed.actor.time_zone);
    let words = signed.actor.words();
    let said = |kg: f64| mass_in_words(kg, units);
    let balance = [
        ("Received", stock.received),
        ("Filled into tanks", -stock.filled),
        ("Returned, also from tanks", stock.returned),
        ("Sold", -stock.sold),
        ("Discarded", -stock.discarded),
    ];
    let counted = stock.counted.zip(stock.unaccounted()).map(|(counted, unaccounted)| {
        let difference = if unaccounted < 0.0 { "less" } else { "more" };
        format!("{}, {} {difference} than expected then", said(counted), said(unaccounted.abs()))
    });
    let line = |row: MovementRow| MovementLine {
        when: row.head.when(zone, words),
        what: MovementKind::from_word(&row.moved).map_or("", MovementKind::label),
        by: row.head.by_line(words),
        fallen: row.head.fallen(zone, words),
        movement: row,
    };
    StockPart {
        balance: balance.into_iter().filter(|(_, kg)| *kg != 0.0).map(|(what, kg)| (what, said(kg))).collect(),
        expected: said(stock.expected()),
        counted,
        unweighed: stock.unweighed,
        movements: movements.into_iter().map(line).collect(),
        may_keep: signed.actor.may(Permission::KeepLots),
    }
}

/// Fills, emptyings and jobs with the lot that this person sees, newest first.
async fn where_it_went(signed: &Signed, cx: &mut crate::db::Cx<'_>, lot: LotId) -> Result<Vec<WentLine>, Error> {
    let (scope, zone, reader) = (&signed.actor.scope, &signed.actor.time_zone, signed.actor.reader());
    let weighed = |mass: Option<&str>| mass.map_or_else(|| "not weighed".to_owned(), |mass| reader.measured(mass));
    let line = |head: &crate::records::head::Head, seeder_id, seeder: &str, unit: &str, what| WentLine {
        occurred_at: head.occurred_at,
        when: head.when(zone, reader.words),
        what,
        seeder_id,
        place: format!("{seeder}, {unit}"),
        by: head.by_line(reader.words),
        fallen: head.fallen(zone, reader.words),
    };
    let mut went = Vec::new();
    for row in tank::act::fills_from(cx, scope, lot).await? {
        let what = format!("Filled: {}", weighed(row.mass.as_deref()));
        went.push(line(&row.head, row.seeder_id, &row.seeder, &row.unit, what));
    }
    for row in tank::act::emptyings_of(cx, scope, lot).await? {
        let rest = if row.to_empty { "to empty" } else { "not to empty" };
        let what = format!("Emptied, {rest}: {}", weighed(row.mass.as_deref()));
        went.push(line(&row.head, row.seeder_id, &row.seeder, &row.unit, what));
    }
    for row in job::act::jobs_with(cx, scope, lot).await? {
        let what = format!(
            "Sown on {}: {} on {}, target {}",
            row.field(),
            reader.measured(&row.seed_used),
            reader.measured(&row.area),
            reader.measured(&row.target_rate)
        );
        went.push(line(&row.head, row.seeder_id, &row.seeder, &row.unit, what));
    }
    went.sort_by_key(|line| std::cmp::Reverse(line.occurred_at));
    Ok(went)
}
