//! One member, as the office keeps them: role, limits, devices and tokens (a lost phone is cut off here), the end.

use super::account::{OncePage, token_form};
use super::members::{client_boxes, link_page, role_field, tree, was_ticked};
use super::{Opened, opened_sessions, opened_tokens, when};
use crate::access::{Grant, Permission, session, token};
use crate::db::kind::Kind;
use crate::feeds;
use crate::people::act;
use crate::people::draft::{MemberChange, TokenDraft};
use crate::people::store::MemberRow;
use crate::saying;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormOption, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::Path;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::AccountId;
use sowmark_core::say;
use std::collections::HashSet;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    let keep = Need::May(Permission::KeepPeople);
    vec![
        crate::route!(page GET "/people/{id}", keep, member_page),
        crate::route!(page POST "/people/{id}", keep, post_member_change),
        crate::route!(page POST "/people/{id}/password-link", keep, post_password_link),
        crate::route!(page POST "/people/{id}/end", keep, post_end_member),
        crate::route!(page POST "/people/{id}/sessions/{session}/end", keep, post_end_member_session),
        crate::route!(page POST "/people/{id}/tokens", keep, post_member_token),
        crate::route!(page POST "/people/{id}/tokens/{token}/end", keep, post_end_member_token),
        crate::route!(page POST "/people/{id}/feed/end", keep, post_end_member_feed),
    ]
}

#[derive(Template)]
#[template(path = "people/member.html")]
struct MemberPage {
    page: Page,
    id: Uuid,
    email: String,
    active: bool,
    form: Form,
    clients: Vec<FormOption>,
    sessions: Vec<Opened>,
    tokens: Vec<Opened>,
    token_form: Form,
    /// Since when what is due can be read at a secret address, and when it was last read there; none without one.
    feed: Option<(String, String)>,
}

impl MemberPage {
    fn page_of_sessions(&self) -> String {
        format!("/people/{}/sessions", self.id)
    }

    fn page_of_tokens(&self) -> String {
        format!("/people/{}/tokens", self.id)
    }
}

async fn member(signed: &Signed, id: Uuid) -> Result<MemberRow, Error> {
    let mut conn = signed.app.read().await?;
    let members = act::members(&mut conn.cx(), signed.actor.organization()).await?;
    members.into_iter().find(|member| member.account_id == id).ok_or_else(|| Error::not_there("member"))
}

/// The form of the role and the limits as they stand, and that of a token.
async fn forms(signed: &Signed, member: &MemberRow) -> Result<(Form, Form), Error> {
    let (id, words) = (member.account_id, signed.actor.words());
    let clients = client_boxes(signed, &limits_of(signed, id).await?).await?;
    let role = role_field(words).value(&member.role);
    let form = Form::new(format!("/people/{id}"), say!(words, "keep-the-change"), vec![role]);
    Ok((form.showing(&[("clients", &clients)]), token_form(&format!("/people/{id}/tokens"), words)))
}

/// The clients that a member is limited to.
async fn limits_of(signed: &Signed, id: Uuid) -> Result<HashSet<String>, Error> {
    let limits = act::limits(&mut signed.app.read().await?.cx(), signed.actor.organization()).await?;
    Ok(limits.iter().filter(|(of, _)| *of == id).map(|(_, client)| client.to_string()).collect())
}

async fn drawn(
    signed: &Signed,
    cookies: &Cookies,
    member: MemberRow,
    forms: (Form, Form),
    ticked: Option<HashSet<String>>,
) -> Result<MemberPage, Error> {
    let (id, organization) = (member.account_id, signed.actor.organization());
    let mut conn = signed.app.read().await?;
    let sessions = session::list_in(&mut conn.cx(), AccountId(id), organization, signed.app.clock.now()).await?;
    let tokens = token::list(&mut conn.cx(), organization, AccountId(id)).await?;
    let feed = feeds::act::of(&mut conn.cx(), organization, AccountId(id)).await?;
    drop(conn);
    let ticked = match ticked {
        Some(ticked) => ticked,
        None => limits_of(signed, id).await?,
    };
    let zone = &signed.actor.time_zone;
    Ok(MemberPage {
        page: Page::new(signed, cookies, member.name, "/people"),
        id,
        email: member.email,
        active: member.active,
        form: forms.0,
        token_form: forms.1,
        clients: client_boxes(signed, &ticked).await?,
        sessions: opened_sessions(sessions, zone, signed.actor.words(), signed.session().ok()),
        tokens: opened_tokens(tokens, zone, signed.actor.words()),
        feed: feed.map(|feed| {
            let words = signed.actor.words();
            let read = feed.last_read_at.map_or_else(|| say!(words, "opened-never"), |at| when(at, zone, words));
            (when(feed.created_at, zone, words), read)
        }),
    })
}

async fn member_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let member = member(&signed, id).await?;
    let forms = forms(&signed, &member).await?;
    show(&drawn(&signed, &cookies, member, forms, None).await?)
}

/// Leave to change who may come in: an office member, signed in as a person.
fn keeping(signed: &Signed) -> Result<Grant, Error> {
    signed.session()?;
    signed.grant(Permission::KeepPeople)
}

/// A refusal of an act without fields, shown on the member's page.
async fn refused(
    signed: &Signed,
    cookies: &Cookies,
    id: Uuid,
    posted: Posted,
    error: Error,
) -> Result<Response, Error> {
    if !matches!(error, Error::Faults(_)) {
        return Err(error);
    }
    let member = member(signed, id).await?;
    let (form, token_form) = forms(signed, &member).await?;
    let forms = (form.again(&posted.spoken_in(signed.actor.language), &error), token_form);
    show_with(StatusCode::UNPROCESSABLE_ENTITY, &drawn(signed, cookies, member, forms, None).await?)
}

async fn post_member_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let grant = keeping(&signed)?;
    let member = member(&signed, id).await?;
    let (form, token_form) = forms(&signed, &member).await?;
    let mine = form.mine(&signed, (Kind::Membership, Some(id)), &posted).await?;
    // Whom somebody sees is one decision: put together, two that each leave one client would leave none, which is no limit.
    let clash = mine.both_ticked("clients");
    let mine_alone = if clash { &posted } else { &mine.posted };
    let one_decision = || if clash { Err(Error::fault("/clients", saying!("clients-meanwhile"))) } else { Ok(()) };
    let wished = mine.may_be_stored().and_then(|()| one_decision());
    let wished = wished.and_then(|()| input::read::<MemberChange>(&tree(&signed, &mine.posted)));
    let app = &signed.app;
    let changed = match wished {
        Ok(_) if mine.is_nothing => Ok(()),
        Ok(change) => act::change_member(&app.db, &app.clock, &grant, AccountId(id), change).await,
        Err(error) => Err(error),
    };
    match changed {
        Ok(()) => Ok(Redirect::to("/people").into_response()),
        Err(error @ (Error::Faults(_) | Error::Conflict { .. })) => {
            let forms = (form.again(mine_alone, &error), token_form);
            let page = drawn(&signed, &cookies, member, forms, Some(was_ticked(mine_alone))).await?;
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
        Err(error) => Err(error),
    }
}

async fn post_password_link(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    headers: HeaderMap,
) -> Result<Response, Error> {
    let grant = keeping(&signed)?;
    let member = member(&signed, id).await?;
    let app = &signed.app;
    match act::add_password_link(&app.db, &app.clock, &grant, AccountId(id)).await {
        Ok(code) => {
            let link = format!("{}/set-password/{code}", app.base(&headers));
            show(&link_page(&signed, &cookies, &member.name, link))
        }
        Err(error) => refused(&signed, &cookies, id, Posted::default(), error).await,
    }
}

async fn post_end_member(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let grant = keeping(&signed)?;
    match act::end_member(&signed.app.db, &signed.app.clock, &grant, AccountId(id)).await {
        Ok(()) => Ok(Redirect::to("/people").into_response()),
        Err(error) => refused(&signed, &cookies, id, Posted::default(), error).await,
    }
}

/// The two ids of a path: a member, and what is theirs.
struct Pair(Uuid, Uuid);

impl<S: Send + Sync> axum::extract::FromRequestParts<S> for Pair {
    type Rejection = Error;

    async fn from_request_parts(parts: &mut axum::http::request::Parts, state: &S) -> Result<Self, Error> {
        let path = Path::<(Uuid, Uuid)>::from_request_parts(parts, state).await;
        path.map(|Path((first, second))| Self(first, second)).map_err(|_| Error::not_there("page"))
    }
}

async fn post_end_member_session(signed: Signed, Pair(id, session): Pair) -> Result<Response, Error> {
    let grant = keeping(&signed)?;
    act::end_session(&signed.app.db, &signed.app.clock, &grant, AccountId(id), session).await?;
    Ok(Redirect::to(&format!("/people/{id}")).into_response())
}

async fn post_member_token(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let grant = keeping(&signed)?;
    let member = member(&signed, id).await?;
    let app = &signed.app;
    let draft = match input::read::<TokenDraft>(&posted.tree(&signed.actor.time_zone)) {
        Ok(draft) => draft,
        Err(error) => {
            let (form, token_form) = forms(&signed, &member).await?;
            let forms = (form, token_form.again(&posted, &error));
            return show_with(StatusCode::UNPROCESSABLE_ENTITY, &drawn(&signed, &cookies, member, forms, None).await?);
        }
    };
    let secret = token::add(&app.db, &app.clock, &grant, AccountId(id), &draft.label.0).await?;
    let words = signed.actor.words();
    show(&OncePage {
        page: Page::new(&signed, &cookies, say!(words, "token-of-title", name = &member.name), "/people"),
        says: say!(words, "token-once", label = &draft.label.0),
        secret,
        back: format!("/people/{id}"),
    })
}

async fn post_end_member_token(signed: Signed, Pair(id, token): Pair) -> Result<Response, Error> {
    let grant = keeping(&signed)?;
    token::end(&signed.app.db, &signed.app.clock, &grant, AccountId(id), token).await?;
    Ok(Redirect::to(&format!("/people/{id}")).into_response())
}

async fn post_end_member_feed(signed: Signed, PathId(id): PathId) -> Result<Response, Error> {
    let grant = keeping(&signed)?;
    feeds::act::end(&signed.app.db, &signed.app.clock, &grant, AccountId(id)).await?;
    Ok(Redirect::to(&format!("/people/{id}")).into_response())
}
