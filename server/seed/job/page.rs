//! The short form of a job that is finished.

use super::act::{self, JobDraft, SeedUsedBasis};
use crate::access::{Permission, Units};
use crate::db::kind::Kind;
use crate::fleet::seeder::act::{UnitRow, find_unit};
use crate::seed::field;
use crate::seed::field::store::FieldRow;
use crate::seed::log::{LogPage, lot_field, mass_field, moment_field, note_field};
use crate::seed::lot::store::LotRow;
use crate::seed::{lot, tank};
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
use sowmark_core::say;
use sowmark_core::words::Words;
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
    let form = mend.form(&signed, Kind::Job, sowing.form(&signed)?)?;
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
        let words = signed.actor.words();
        let title = say!(words, "job-title", seeder = &self.unit.seeder, unit = &self.unit.label);
        LogPage::new(Page::new(signed, cookies, title, "/seeders"), form).intro(say!(words, "job-intro"))
    }

    fn form(&self, signed: &Signed) -> Result<Form, Error> {
        let words = signed.actor.words();
        let mut fields = vec![
            // Logged when it is done: its end is now, its beginning nobody knows but who sowed.
            moment_field(signed, "occurred_at", &say!(words, "job-began")).value(""),
            moment_field(signed, "ended_at", &say!(words, "job-ended")).optional(),
        ];
        fields.extend(self.field_fields(words));
        fields.push(lot_field(&self.lots, self.likely_lot, words));
        fields.extend(self.measured_fields(signed));
        fields.push(note_field(words));
        let form = Form::new(format!("/metering-units/{}/jobs", self.unit.id), say!(words, "job-submit"), fields);
        Ok(form.creating(signed.app.clock.new_id()?).back(format!("/seeders/{}", self.unit.seeder_id)))
    }

    fn field_fields(&self, words: Words) -> Vec<FormField> {
        let named = FormField::new("field", say!(words, "job-field"));
        if self.fields.is_empty() {
            return vec![named.hint(say!(words, "job-field-hint"))];
        }
        let other = (String::new(), say!(words, "job-field-other"));
        let choices = std::iter::once(other).chain(field::act::fields_in_choice(&self.fields, words));
        vec![
            FormField::new("field_id", say!(words, "job-field")).choice(choices).optional(),
            FormField { label: say!(words, "job-field-not-listed"), ..named }.optional(),
        ]
    }

    fn measured_fields(&self, signed: &Signed) -> Vec<FormField> {
        let words = signed.actor.words();
        let (area, rate, speed) = match signed.actor.units {
            Units::Metric => ("ha", "kg/ha", "km/h"),
            Units::Us => ("ac", "lb/ac", "mph"),
        };
        let (target, rate) = match &self.likely_rate {
            Some(last) => (last.value_text().to_owned(), last.unit()),
            None => (String::new(), rate),
        };
        vec![
            FormField::new("area", say!(words, "job-area")).measured(&["ha", "ac", "m2"], area),
            mass_field(signed, "seed_used", say!(words, "job-seed-used")).hint(say!(words, "job-seed-used-hint")),
            FormField::new("seed_used_basis", say!(words, "job-basis"))
                .hint(say!(words, "job-basis-hint"))
                .value(SeedUsedBasis::Weighed.word())
                .choice(SeedUsedBasis::ALL.iter().map(|basis| (basis.word(), basis.says(words)))),
            FormField::new("target_rate", say!(words, "job-target-rate"))
                .value(target)
                .measured(&["kg/ha", "lb/ac"], rate),
            FormField::new("speed", say!(words, "job-speed")).measured(&["km/h", "mph", "m/s"], speed).optional(),
        ]
    }
}
