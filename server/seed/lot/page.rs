//! The page of lots: the list, and the form that adds one.

use super::act::{self, LotDraft, Material};
use super::stock;
use super::store::LotRow;
use crate::access::Permission;
use crate::seed::client;
use crate::seed::field::page::client_field;
use crate::seed::log::{LogPage, mass_field, percent_field};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::say;
use sowmark_core::usage::Period;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/lots", Need::May(Permission::ReadLots), lots_page),
        crate::route!(page GET "/lots/new", Need::May(Permission::KeepLots), new_lot_page),
        crate::route!(page POST "/lots", Need::May(Permission::KeepLots), post_lot),
    ]
}

#[derive(Template)]
#[template(path = "seed/lots.html")]
struct LotsPage {
    page: Page,
    lots: Vec<LotLine>,
    may_keep: bool,
    sees_stock: bool,
}

/// A line of the list.
struct LotLine {
    lot: LotRow,
    /// What should be there; empty where the reader does not see stock.
    expected: String,
    /// What was last counted there, and when.
    counted: String,
}

async fn lots_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let scope = &signed.actor.scope;
    let mut conn = signed.app.read().await?;
    let lots = act::lots(&mut conn.cx(), scope).await?;
    let sees_stock = signed.actor.may(Permission::ReadStock);
    let stocks = if sees_stock {
        stock::balances(&mut conn.cx(), scope, &signed.actor.time_zone, &lots, Period::default()).await?
    } else {
        std::collections::HashMap::new()
    };
    let lots = lots.into_iter().map(|lot| {
        let (stock, reader) = (stocks.get(&lot.id), signed.actor.reader());
        let expected = stock.map(|stock| reader.mass(stock.expected_on_hand().kg)).unwrap_or_default();
        let counted = stock.and_then(|stock| Some(stock::counted(stock.counted?, reader, &signed.actor.time_zone)));
        LotLine { lot, expected, counted: counted.unwrap_or_default() }
    });
    show(&LotsPage {
        page: Page::new(&signed, &cookies, say!(signed.actor.words(), "lots-title"), "/lots"),
        lots: lots.collect(),
        may_keep: signed.actor.may(Permission::KeepLots),
        sees_stock,
    })
}

async fn new_lot_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let form = lot_form(&signed).await?;
    new_lot(&signed, &cookies, form).show()
}

async fn post_lot(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<LotDraft>(&sent) {
        Ok(draft) => act::add_lot(&signed, draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(outcome) => Ok(Redirect::to(&format!("/lots/{}", outcome.id())).into_response()),
        Err(error) => {
            let form = lot_form(&signed).await?.again(&posted, &error);
            new_lot(&signed, &cookies, form).show()
        }
    }
}

fn new_lot(signed: &Signed, cookies: &Cookies, form: Form) -> LogPage {
    let words = signed.actor.words();
    LogPage::new(Page::new(signed, cookies, say!(words, "lots-add"), "/lots"), form).intro(say!(words, "lot-intro"))
}

async fn lot_form(signed: &Signed) -> Result<Form, Error> {
    let words = signed.actor.words();
    let form = Form::new("/lots", say!(words, "lot-submit"), lot_fields(signed).await?).fold(say!(words, "label-more"));
    Ok(form.creating(signed.app.clock.new_id()?))
}

pub(super) async fn lot_fields(signed: &Signed) -> Result<Vec<FormField>, Error> {
    let mut conn = signed.app.read().await?;
    let clients = client::act::clients(&mut conn.cx(), &signed.actor.scope).await?;
    drop(conn);
    let words = signed.actor.words();
    let mut fields = vec![
        FormField::new("lot_number", say!(words, "lot-number")).hint(say!(words, "lot-number-hint")),
        FormField::new("material", say!(words, "lot-material"))
            .value(Material::Seed.word())
            .choice(Material::ALL.iter().map(|material| (material.word(), material.says(words)))),
        FormField::new("crop", say!(words, "lot-crop")).hint(say!(words, "lot-crop-hint")),
        FormField::new("variety", say!(words, "lot-variety")).optional(),
        FormField::new("supplier", say!(words, "lot-supplier")).optional(),
        FormField::new("received_on", say!(words, "lot-received-on")).kind(Kind::Date).optional(),
        mass_field(signed, "received_mass", say!(words, "lot-received-mass")).optional(),
        FormField::new("treatment/product", say!(words, "lot-treated-with"))
            .hint(say!(words, "lot-treated-with-hint"))
            .optional(),
        FormField::new("treatment/caution", say!(words, "lot-caution"))
            .hint(say!(words, "lot-caution-hint"))
            .kind(Kind::Area)
            .optional(),
        percent_field("analysis/purity_percent", say!(words, "test-purity")),
        percent_field("analysis/germination_percent", say!(words, "test-germination")),
        FormField::new("analysis/tested_on", say!(words, "lot-tested-on")).kind(Kind::Date).optional(),
    ];
    if !clients.is_empty() {
        fields.push(client_field(&clients, words));
    }
    fields.extend(label_fields(signed));
    Ok(fields)
}

/// What most labels state in small print: folded away, so that the form stays short.
fn label_fields(signed: &Signed) -> Vec<FormField> {
    let words = signed.actor.words();
    let field = |name: &str, label: &str| FormField::new(format!("label/{name}"), say!(words, label)).optional();
    let share = |name: &str, label: &str| percent_field(&format!("label/{name}"), say!(words, label));
    let month = |name: &str, label: &str| field(name, label).kind(Kind::Month).hint(say!(words, "label-month-hint"));
    let categories = CATEGORIES.iter().map(|key| say!(words, *key));
    let fields = vec![
        field("origin", "label-origin").hint(say!(words, "label-origin-hint")),
        field("category", "label-category").hint(say!(words, "label-category-hint")).suggestions(categories),
        field("certifying_authority", "label-certifying-authority"),
        field("serial_number", "label-serial-number"),
        month("sealed_in", "label-sealed-in"),
        mass_field(signed, "label/declared_weight", say!(words, "label-declared-weight")).optional(),
        field("containers", "label-containers").kind(Kind::Whole),
        field("hermetic", "label-hermetic").hint(say!(words, "label-hermetic-hint")).kind(Kind::Check),
        share("other_crop_percent", "label-other-crop-percent"),
        share("weed_seed_percent", "label-weed-seed-percent"),
        share("inert_matter_percent", "label-inert-matter-percent"),
        field("noxious_weeds", "label-noxious-weeds").hint(say!(words, "label-noxious-weeds-hint")).kind(Kind::Area),
        share("hard_seed_percent", "label-hard-seed-percent").hint(say!(words, "label-hard-seed-hint")),
        field("components", "label-components").hint(say!(words, "label-components-hint")).kind(Kind::Area),
        field("additives", "label-additives").hint(say!(words, "label-additives-hint")).kind(Kind::Area),
        month("inoculant_expires", "label-inoculant-expires"),
        field("test_report", "label-test-report").hint(say!(words, "label-test-report-hint")),
    ];
    fields.into_iter().map(FormField::folded).collect()
}

/// What categories and classes are called in Europe, by the OECD's schemes and in North America. Open: there are more.
const CATEGORIES: [&str; 9] = [
    "label-category-pre-basic",
    "label-category-basic",
    "label-category-certified-1",
    "label-category-certified-2",
    "label-category-commercial",
    "label-category-foundation",
    "label-category-registered",
    "label-category-not-final",
    "label-category-none",
];
