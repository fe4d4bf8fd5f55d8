//! The form that changes a season.

use super::act::{SeasonRow, find_season};
use super::change::change_season;
use super::page::{crops_typed, season_fields};
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::web::api::PathId;
use crate::web::change::{Change, change_page};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, Posted};
use crate::web::page::{Cookies, FormPage};
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::json;
use sowmark_core::ids::SeasonId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/seasons/{id}/change", Need::May(Permission::KeepFleet), change_season_page),
        crate::route!(page POST "/seasons/{id}/change", Need::May(Permission::KeepFleet), post_season_change),
    ]
}

async fn known(signed: &Signed, id: Uuid) -> Result<(SeasonRow, Form), Error> {
    let season = find_season(&mut signed.app.read().await?.cx(), &signed.actor.scope, SeasonId(id)).await?;
    let words = signed.actor.words();
    let mut stands = season.tree()?;
    stands["crops"] = json!(season.crop_list()?.unwrap_or_default().join(", "));
    let form = Form::changing(format!("/seasons/{id}/change"), season_fields(words), &stands, signed)
        .telling("starts_on", say!(words, "season-change-start"))
        .telling("crops", say!(words, "season-change-crops"));
    Ok((season, form))
}

async fn change_season_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let (season, form) = known(&signed, id).await?;
    page_of(&signed, &cookies, &season, form).show()
}

async fn post_season_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let (season, form) = known(&signed, id).await?;
    let mine = form.mine(&signed, (Kind::Season, Some(id)), &posted).await?;
    let stored = match mine.may_be_stored() {
        Ok(()) => {
            change_season(
                &signed,
                SeasonId(id),
                &Change::wished(&form, &mine.posted, &signed.actor.time_zone).with("crops", crops_typed),
            )
            .await
        }
        Err(clash) => Err(clash),
    };
    match stored {
        Ok(()) => Ok(Redirect::to("/seasons").into_response()),
        Err(error) => page_of(&signed, &cookies, &season, form.again(&mine.posted, &error)).show(),
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, season: &SeasonRow, form: Form) -> FormPage {
    change_page(signed, cookies, (&season.name, "/keeping"), form)
}
