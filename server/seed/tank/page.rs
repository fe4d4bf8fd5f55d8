//! The short forms of a tank: filled, emptied.

use super::act::{self, EmptyingDraft, FillDraft};
use crate::access::Permission;
use crate::db::Outcome;
use crate::db::kind::Kind;
use crate::fleet::seeder::act::{UnitRow, find_unit};
use crate::seed::log::{LogPage, lot_field, mass_field, moment_field};
use crate::seed::lot;
use crate::seed::lot::store::LotRow;
use crate::sync::mend::{Mend, mending};
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page};
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/metering-units/{id}/fills/new", Need::May(Permission::Log), new_fill_page),
        crate::route!(page POST "/metering-units/{id}/fills", Need::May(Permission::Log), post_fill),
        crate::route!(page GET "/metering-units/{id}/emptyings/new", Need::May(Permission::Log), new_emptying_page),
        crate::route!(page POST "/metering-units/{id}/emptyings", Need::May(Permission::Log), post_emptying),
    ]
}

/// The two acts at a tank.
#[derive(Clone, Copy, PartialEq, Eq)]
enum TankAct {
    Fill,
    Empty,
}

/// What the forms of a tank are made from.
struct Tank {
    act: TankAct,
    unit: UnitRow,
    lots: Vec<LotRow>,
    /// The lot that is likely meant.
    likely: Option<Uuid>,
}

async fn new_fill_page(signed: Signed, cookies: Cookies, PathId(id): PathId, mend: Mend) -> Result<Response, Error> {
    let tank = Tank::find(&signed, id, TankAct::Fill).await?;
    let form = mend.form(&signed, Kind::Fill, tank.form(&signed)?)?;
    tank.page(&signed, &cookies, form).show()
}

async fn new_emptying_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    mend: Mend,
) -> Result<Response, Error> {
    let tank = Tank::find(&signed, id, TankAct::Empty).await?;
    let form = mend.form(&signed, Kind::Emptying, tank.form(&signed)?)?;
    tank.page(&signed, &cookies, form).show()
}

async fn post_fill(signed: Signed, cookies: Cookies, PathId(id): PathId, posted: Posted) -> Result<Response, Error> {
    let signed = mending(signed, &posted).await?;
    let tank = Tank::find(&signed, id, TankAct::Fill).await?;
    let sent = posted.tree(&signed.actor.time_zone);
    let recorded = match input::read::<FillDraft>(&sent) {
        Ok(draft) => act::record_fill(&signed, MeteringUnitId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    tank.answer(&signed, &cookies, &posted, recorded)
}

async fn post_emptying(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = mending(signed, &posted).await?;
    let tank = Tank::find(&signed, id, TankAct::Empty).await?;
    let sent = posted.tree(&signed.actor.time_zone);
    let recorded = match input::read::<EmptyingDraft>(&sent) {
        Ok(draft) => act::record_emptying(&signed, MeteringUnitId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    tank.answer(&signed, &cookies, &posted, recorded)
}

impl Tank {
    async fn find(signed: &Signed, id: Uuid, act: TankAct) -> Result<Self, Error> {
        let scope = &signed.actor.scope;
        let mut conn = signed.app.read().await?;
        let unit = find_unit(&mut conn.cx(), scope, MeteringUnitId(id)).await?;
        let lots = lot::act::lots(&mut conn.cx(), scope).await?;
        let likely = act::lot_last_in(&mut conn.cx(), scope, MeteringUnitId(id)).await?.map(|lot| lot.0);
        Ok(Self { act, unit, lots, likely })
    }

    fn answer(
        &self,
        signed: &Signed,
        cookies: &Cookies,
        posted: &Posted,
        recorded: Result<Outcome, Error>,
    ) -> Result<Response, Error> {
        match recorded {
            Ok(_) => Ok(Redirect::to(&format!("/seeders/{}", self.unit.seeder_id)).into_response()),
            Err(error) => self.page(signed, cookies, self.form(signed)?.again(posted, &error)).show(),
        }
    }

    fn page(&self, signed: &Signed, cookies: &Cookies, form: Form) -> LogPage {
        let lot = form.fields.iter().find(|field| field.name == "lot_id");
        let chosen = lot.and_then(|lot| Uuid::try_parse(&lot.value).ok());
        let (words, seeder, unit) = (signed.actor.words(), &self.unit.seeder, &self.unit.label);
        let (title, intro) = match self.act {
            TankAct::Fill => {
                (say!(words, "tank-filled-title", seeder = seeder, unit = unit), say!(words, "tank-filled-intro"))
            }
            TankAct::Empty => {
                (say!(words, "tank-emptied-title", seeder = seeder, unit = unit), say!(words, "tank-emptied-intro"))
            }
        };
        LogPage::new(Page::new(signed, cookies, title, "/seeders"), form).intro(intro).warning(&self.lots, chosen)
    }

    fn form(&self, signed: &Signed) -> Result<Form, Error> {
        let words = signed.actor.words();
        let mut fields = vec![
            moment_field(signed, "occurred_at", &say!(words, "log-when")),
            lot_field(&self.lots, self.likely, words),
            mass_field(signed, "mass", say!(words, "log-mass")).hint(say!(words, "tank-mass-hint")).optional(),
        ];
        let (place, submit) = match self.act {
            TankAct::Fill => ("fills", say!(words, "tank-filled-submit")),
            TankAct::Empty => ("emptyings", say!(words, "tank-emptied-submit")),
        };
        if self.act == TankAct::Empty {
            let choices = [("true", say!(words, "tank-empty-now-yes")), ("false", say!(words, "tank-empty-now-no"))];
            fields.push(FormField::new("to_empty", say!(words, "tank-empty-now")).value("true").choice(choices));
        }
        let form = Form::new(format!("/metering-units/{}/{place}", self.unit.id), submit, fields);
        Ok(form.creating(signed.app.clock.new_id()?).back(format!("/seeders/{}", self.unit.seeder_id)))
    }
}
