//! Which pages a phone keeps for its person: the machines they see, every short form of each, what is in the tanks.

use crate::access::{Actor, Permission};
use crate::db::Cx;
use crate::fleet::scale::act::scales;
use crate::fleet::seeder::act::{seeders, units};
use crate::readiness;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::routes::{Need, Route};
use axum::Json;
use jiff::Timestamp;
use serde::Serialize;
use std::collections::BTreeSet;

/// More would take a field's signal minutes to fetch: who sees a fleet this large is at a desk.
const MOST: usize = 400;
const FORMS: [&str; 5] = ["catch", "setups/new", "fills/new", "emptyings/new", "jobs/new"];

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/phone/pages", Need::May(Permission::Log), list_pages)]
}

#[derive(Debug, Serialize)]
struct Pages {
    pages: Vec<String>,
}

async fn list_pages(signed: Signed) -> Result<Json<Pages>, Error> {
    let mut conn = signed.app.read().await?;
    let mut pages = pages(&mut conn.cx(), &signed.actor, signed.app.clock.now()).await?;
    pages.truncate(MOST);
    Ok(Json(Pages { pages }))
}

/// The addresses, what is needed most first.
async fn pages(cx: &mut Cx<'_>, actor: &Actor, now: Timestamp) -> Result<Vec<String>, Error> {
    let scope = &actor.scope;
    let board = readiness::act::board(cx, actor, now, None).await?;
    let mut pages: Vec<String> = ["/", "/seeders", "/outbox", "/lots"].map(str::to_owned).to_vec();
    let machines = seeders(cx, scope).await?;
    pages.extend(machines.iter().map(|seeder| format!("/seeders/{}", seeder.id)));
    let all = units(cx, scope).await?;
    pages.extend(all.iter().flat_map(|unit| FORMS.map(|form| format!("/metering-units/{}/{form}", unit.id))));
    pages.extend(machines.iter().map(|seeder| format!("/seeders/{}/services/new", seeder.id)));
    pages.extend(scales(cx, scope).await?.iter().map(|scale| format!("/scales/{}/checks/new", scale.id)));
    let lots: BTreeSet<_> = board.units.iter().filter_map(|unit| unit.readiness.lot).collect();
    pages.extend(lots.iter().map(|lot| format!("/lots/{lot}")));
    if actor.may(Permission::TestLots) {
        pages.extend(lots.iter().map(|lot| format!("/lots/{lot}/tests/new")));
    }
    let in_force = board.units.iter().filter_map(|unit| unit.readiness.in_force.as_ref());
    let in_force = in_force.filter_map(|found| board.names.told(found.calibration.0));
    pages.extend(in_force.map(|calibration| format!("/calibrations/{calibration}")));
    Ok(pages)
}
