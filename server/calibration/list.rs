//! The calibrations of a unit as a page.

use super::act;
use super::store::{self, LotRow, UnitRow};
use super::stored::{Calibration, word};
use crate::access::Permission;
use crate::web::api::{Asked, PathId};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::page::{Cookies, Page, show};
use crate::web::paging::PageAsked;
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::Response;
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::quantity::unit::{self};
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/metering-units/{id}/calibrations", Need::May(Permission::ReadFleet), calibrations_page),
    ]
}

#[derive(Template)]
#[template(path = "calibration/list.html")]
struct ListPage {
    page: Page,
    unit: UnitRow,
    may_log: bool,
    rows: Vec<ListRow>,
    next: Option<String>,
}

#[derive(Debug)]
struct ListRow {
    id: Uuid,
    when: String,
    by: String,
    lot: String,
    factor: String,
    uncertainty: String,
    verdict: String,
    status: &'static str,
    fallen: bool,
}

async fn calibrations_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Response, Error> {
    let (actor, id) = (&signed.actor, MeteringUnitId(id));
    let mut conn = signed.app.read().await?;
    let cx = &mut conn.cx();
    let unit = act::find_unit(cx, &actor.scope, id).await?;
    let list = act::calibrations_of_unit(cx, &actor.scope, id, &asked).await?;
    let lots = store::lots(cx, &actor.scope).await?;
    let mut found = list.items;
    found.sort_by_key(|calibration| std::cmp::Reverse((calibration.row.head.occurred_at, calibration.row.head.id)));
    let rows = found.iter().map(|calibration| list_row(&signed, calibration, &lots)).collect::<Result<_, Error>>()?;
    let title = say!(actor.words(), "calibrations-title", seeder = &unit.seeder, unit = &unit.label);
    let page = Page::new(&signed, &cookies, title, "/seeders");
    show(&ListPage { page, unit, may_log: actor.may(Permission::Log), rows, next: list.next })
}

fn list_row(signed: &Signed, calibration: &Calibration, lots: &[LotRow]) -> Result<ListRow, Error> {
    let (head, judgement, words) = (&calibration.row.head, &calibration.judgement, signed.actor.words());
    let factor = match signed.actor.units {
        crate::access::Units::Metric => unit::KG_PER_100REV,
        crate::access::Units::Us => unit::LB_PER_100REV,
    };
    let within = judgement.expanded_uncertainty_percent;
    let lot = lots.iter().find(|lot| lot.id == calibration.row.lot_id);
    Ok(ListRow {
        id: head.id,
        when: head.when(&signed.actor.time_zone, words),
        by: head.by(words),
        lot: lot.map(|lot| lot.says(words)).unwrap_or_default(),
        factor: format!("{} {}", words.print_within(judgement.factor, factor, within), words.unit(factor.name())),
        uncertainty: format!("\u{b1} {} %", words.number(within, 2)),
        verdict: word(&judgement.verdict)?,
        status: calibration.status().word(),
        fallen: !head.stands(),
    })
}
