//! The form that records a lot test.

use super::act::{self, LotTestDraft};
use crate::access::{Permission, Units};
use crate::db::kind::Kind;
use crate::seed::log::{LogPage, moment_field, percent_field};
use crate::seed::lot;
use crate::sync::mend::{Mend, mending};
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page};
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::LotId;
use sowmark_core::say;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/lots/{id}/tests/new", Need::May(Permission::TestLots), new_lot_test_page),
        crate::route!(page POST "/lots/{id}/tests", Need::May(Permission::TestLots), post_lot_test),
    ]
}

async fn new_lot_test_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    mend: Mend,
) -> Result<Response, Error> {
    let form = mend.form(&signed, Kind::LotTest, lot_test_form(&signed, LotId(id))?)?;
    test_page(&signed, &cookies, LotId(id), form).await?.show()
}

async fn post_lot_test(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = mending(signed, &posted).await?;
    let sent = posted.tree(&signed.actor.time_zone);
    let recorded = match input::read::<LotTestDraft>(&sent) {
        Ok(draft) => act::record_lot_test(&signed, LotId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    match recorded {
        Ok(_) => Ok(Redirect::to(&format!("/lots/{id}")).into_response()),
        Err(error) => {
            let form = lot_test_form(&signed, LotId(id))?.again(&posted, &error);
            test_page(&signed, &cookies, LotId(id), form).await?.show()
        }
    }
}

async fn test_page(signed: &Signed, cookies: &Cookies, id: LotId, form: Form) -> Result<LogPage, Error> {
    let mut conn = signed.app.read().await?;
    let lot = lot::act::find_lot(&mut conn.cx(), &signed.actor.scope, id).await?;
    let words = signed.actor.words();
    let page = Page::new(signed, cookies, say!(words, "test-title", lot = lot.in_words(words)), "/lots");
    Ok(LogPage::new(page, form).intro(say!(words, "test-intro")))
}

fn lot_test_form(signed: &Signed, lot: LotId) -> Result<Form, Error> {
    let words = signed.actor.words();
    let (densities, density): (&[&str], _) = match signed.actor.units {
        Units::Metric => (&["kg/hL", "g/L", "lb/bu"], "kg/hL"),
        Units::Us => (&["lb/bu", "kg/hL", "g/L"], "lb/bu"),
    };
    let fields = vec![
        moment_field(signed, "occurred_at", &say!(words, "test-when")),
        FormField::new("thousand_seed_weight", say!(words, "test-thousand-seed-weight"))
            .hint(say!(words, "test-thousand-seed-weight-hint"))
            .measured(&["g"], "g")
            .optional(),
        FormField::new("bulk_density", say!(words, "test-bulk-density-entered"))
            .measured(densities, density)
            .optional(),
        percent_field("germination_percent", say!(words, "test-germination")),
        percent_field("purity_percent", say!(words, "test-purity")),
        percent_field("moisture_percent", say!(words, "test-moisture")),
    ];
    let form = Form::new(format!("/lots/{lot}/tests"), say!(words, "test-submit"), fields);
    Ok(form.creating(signed.app.clock.new_id()?).back(format!("/lots/{lot}")))
}
