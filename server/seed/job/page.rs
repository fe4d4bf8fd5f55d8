//! The short form of a job that is finished.

use super::act::{self, JobDraft, SeedUsedBasis};
use crate::access::{Permission, Units};
use crate::fleet::seeder::act::{UnitRow, find_unit};
use crate::seed::field;
use crate::seed::field::store::FieldRow;
use crate::seed::log::{LogPage, lot_field, mass_field, moment_field, note_field};
use crate::seed::lot::store::LotRow;
use crate::seed::{lot, tank};
use crate::sync::kind::Logged;
use crate::sync::mend::{Mend, mending};
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page};
use crate::web::quantity::stored;
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::quantity::Rate;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/metering-units/{id}/jobs/new", Need::May(Permission::Log), new_job_page),
        crate::route!(page POST "/metering-units/{id}/jobs", Need::May(Permission::Log), post_job),
    ]
}

/// What the form of a job is made from.
struct Sowing {
    unit: UnitRow,
    lots: Vec<LotRow>,
    fields: Vec<FieldRow>,
    likely_lot: Option<Uuid>,
    likely_rate: Option<Rate>,
}

async fn new_job_page(signed: Signed, cookies: Cookies, PathId(id): PathId, mend: Mend) -> Result<Response, Error> {
    let sowing = Sowing::find(&signed, id).await?;
    let form = mend.form(&signed, Logged::Job, sowing.form(&signed)?)?;
    sowing.page(&signed, &cookies, form).show()
}

async fn post_job(signed: Signed, cookies: Cookies, PathId(id): PathId, posted: Posted) -> Result<Response, Error> {
    let signed = mending(signed, &posted).await?;
    let sowing = Sowing::find(&signed, id).await?;
    let sent = posted.tree(&signed.actor.time_zone);
    let recorded = match input::read::<JobDraft>(&sent) {
        Ok(draft) => act::record_job(&signed, MeteringUnitId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    match recorded {
        Ok(_) => Ok(Redirect::to(&format!("/seeders/{}", sowing.unit.seeder_id)).into_response()),
        Err(error) => sowing.page(&signed, &cookies, sowing.form(&signed)?.again(&posted, &error)).show(),
    }
}

impl Sowing {
    async fn find(signed: &Signed, id: Uuid) -> Result<Self, Error> {
        let (scope, unit_id) = (&signed.actor.scope, MeteringUnitId(id));
        let mut conn = signed.app.read().await?;
        let unit = find_unit(&mut conn.cx(), scope, unit_id).await?;
        let lots = lot::act::lots(&mut conn.cx(), scope).await?;
        let fields = field::act::fields(&mut conn.cx(), scope).await?;
        let likely_lot = tank::act::lot_last_in(&mut conn.cx(), scope, unit_id).await?;
        let likely_rate = match likely_lot {
            Some(lot) => act::last_target(&mut conn.cx(), scope, unit_id, lot).await?,
            None => None,
        };
        let likely_rate = likely_rate.as_deref().map(stored).transpose()?;
        Ok(Self { unit, lots, fields, likely_lot: likely_lot.map(|lot| lot.0), likely_rate })
    }

    fn page(&self, signed: &Signed, cookies: &Cookies, form: Form) -> LogPage {
        let title = format!("{}, {}: job finished", self.unit.seeder, self.unit.label);
        LogPage::new(Page::new(signed, cookies, title, "/seeders"), form)
            .intro("What was sown, on how much land. Weighed seed is what shows a number that has drifted.")
    }

    fn form(&self, signed: &Signed) -> Result<Form, Error> {
        let mut fields =
            vec![moment_field(signed, "occurred_at", "Began"), moment_field(signed, "ended_at", "Ended").optional()];
        fields.extend(self.field_fields());
        fields.push(lot_field(&self.lots, self.likely_lot));
        fields.extend(self.measured_fields(signed));
        fields.push(note_field());
        let form = Form::new(format!("/metering-units/{}/jobs", self.unit.id), "Log the job", fields);
        Ok(form.creating(signed.app.clock.new_id()?))
    }

    fn field_fields(&self) -> Vec<FormField> {
        let named = FormField::new("field", "Field");
        if self.fields.is_empty() {
            return vec![named.hint("Its name as your people say it.")];
        }
        let other = (String::new(), "Another, named below".to_owned());
        let choices = std::iter::once(other).chain(field::act::fields_in_choice(&self.fields));
        vec![
            FormField::new("field_id", "Field").choice(choices).optional(),
            FormField { label: "Name of a field that is not in the list".to_owned(), ..named }.optional(),
        ]
    }

    fn measured_fields(&self, signed: &Signed) -> Vec<FormField> {
        let (area, rate, speed) = match signed.actor.units {
            Units::Metric => ("ha", "kg/ha", "km/h"),
            Units::Us => ("ac", "lb/ac", "mph"),
        };
        let (target, rate) = match &self.likely_rate {
            Some(last) => (last.value_text().to_owned(), last.unit()),
            None => (String::new(), rate),
        };
        vec![
            FormField::new("area", "Area sown").measured(&["ha", "ac", "m2"], area),
            mass_field(signed, "seed_used", "Seed used").hint("What went in, less what was left."),
            FormField::new("seed_used_basis", "How the seed used is known")
                .hint("The machine\u{2019}s own total cannot show that its number is wrong.")
                .value(SeedUsedBasis::Weighed.word())
                .choice(SeedUsedBasis::ALL.iter().map(|basis| (basis.word(), basis.label()))),
            FormField::new("target_rate", "Target rate").value(target).measured(&["kg/ha", "lb/ac"], rate),
            FormField::new("speed", "Speed").measured(&["km/h", "mph", "m/s"], speed).optional(),
        ]
    }
}
