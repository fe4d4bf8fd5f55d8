//! The page of lots: the list, and the form that adds one.

use super::act::{self, LotDraft, Material};
use super::stock;
use super::store::LotRow;
use crate::access::Permission;
use crate::seed::client;
use crate::seed::field::page::client_field;
use crate::seed::log::{LogPage, mass_field, mass_in_words, percent_field};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::{IntoResponse, Redirect, Response};
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
        let stock = stocks.get(&lot.id);
        let expected =
            stock.map(|stock| mass_in_words(stock.expected_on_hand().kg, signed.actor.units)).unwrap_or_default();
        LotLine { lot, expected }
    });
    show(&LotsPage {
        page: Page::new(&signed, &cookies, "Seed lots", "/lots"),
        lots: lots.collect(),
        may_keep: signed.actor.may(Permission::KeepLots),
        sees_stock,
    })
}

async fn new_lot_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let form = lot_form(&signed).await?;
    LogPage::new(Page::new(&signed, &cookies, "Add a seed lot", "/lots"), form).intro(INTRO).show()
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
            LogPage::new(Page::new(&signed, &cookies, "Add a seed lot", "/lots"), form).intro(INTRO).show()
        }
    }
}

const INTRO: &str = "Copy it from the label. What is not on it can be left empty.";

async fn lot_form(signed: &Signed) -> Result<Form, Error> {
    let mut conn = signed.app.read().await?;
    let clients = client::act::clients(&mut conn.cx(), &signed.actor.scope).await?;
    drop(conn);
    let mut fields = vec![
        FormField::new("lot_number", "Lot number").hint("As printed on the label or the tag."),
        FormField::new("material", "What it is")
            .value(Material::Seed.word())
            .choice(Material::ALL.iter().map(|material| (material.word(), material.label()))),
        FormField::new("crop", "Crop").hint(
            "The species, such as winter wheat; for another dry product its name. Write it the same way each time.",
        ),
        FormField::new("variety", "Variety").optional(),
        FormField::new("supplier", "Supplier").optional(),
        FormField::new("received_on", "Received on").kind(Kind::Date).optional(),
        mass_field(signed, "received_mass", "Mass received").optional(),
        FormField::new("treatment/product", "Treated with")
            .hint("The product named on the label. Leave it empty if the seed is not treated.")
            .optional(),
        FormField::new("treatment/caution", "What the label warns of")
            .hint("In the label\u{2019}s own words. It is shown to whoever fills, catches or empties.")
            .kind(Kind::Area)
            .optional(),
        percent_field("analysis/purity_percent", "Purity, %"),
        percent_field("analysis/germination_percent", "Germination, %"),
        FormField::new("analysis/tested_on", "Date of the label\u{2019}s test").kind(Kind::Date).optional(),
    ];
    if !clients.is_empty() {
        fields.push(client_field(&clients));
    }
    Ok(Form::new("/lots", "Add the lot", fields).creating(signed.app.clock.new_id()?))
}
