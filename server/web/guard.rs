//! Stands before every handler: finds out who is asking, lets in whom the route's table lets in, and turns a problem
//! into a page where a page was asked for.

use super::door::App;
use super::error::{Error, Refused};
use super::page::{self, Cookies};
use super::routes::{Need, Surface};
use crate::access::{Actor, Via, find_actor, session, token};
use crate::texts;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::OrganizationId;

/// Whose answer it is: a phone keeps it for that person alone. A request that names somebody else than who is signed in is
/// refused: what waits on a shared phone is never sent in another's name.
const READER: HeaderName = HeaderName::from_static("sowmark-reader");
/// On such a refusal, to tell it from an ended session.
const OTHER: HeaderName = HeaderName::from_static("sowmark-other");

/// On every answer to somebody signed in: the organization that it was about.
#[derive(Clone, Copy, Debug)]
pub struct ActedFor(pub OrganizationId);

/// What a route's guard knows.
#[derive(Clone, Debug)]
pub struct Gate {
    pub app: App,
    pub need: Need,
    pub surface: Surface,
}

/// The guard of a route.
pub async fn guard(State(gate): State<Gate>, mut request: Request, next: Next) -> Response {
    let cookies = Cookies::of(request.headers());
    let asked = request.uri().path_and_query().map_or_else(String::new, ToString::to_string);
    let method = request.method().clone();
    let found = find(&gate, request.headers()).await;
    let actor = match &found {
        Ok(found) => found.clone(),
        Err(_) => None,
    };
    let reader = actor.as_ref().map(page::reader_key);
    if is_for_another(request.headers(), reader.as_deref()) {
        return ([(OTHER, "yes")], Error::SignIn).into_response();
    }
    let mut response = match found.and_then(|actor| admitted(&gate, actor)) {
        Ok(Some(actor)) => {
            let acted_for = ActedFor(actor.organization());
            request.extensions_mut().insert(actor);
            let mut response = next.run(request).await;
            response.extensions_mut().insert(acted_for);
            response
        }
        Ok(None) => next.run(request).await,
        Err(Error::SignIn) if gate.surface == Surface::Page && method == Method::GET => {
            return Redirect::to(&page::sign_in_address(&asked)).into_response();
        }
        Err(error) => error.into_response(),
    };
    if let Some(reader) = reader.and_then(|reader| HeaderValue::from_str(&reader).ok()) {
        response.headers_mut().insert(READER, reader);
    }
    match (gate.surface, response.extensions().get::<Refused>()) {
        (Surface::Page, Some(Refused(error))) => {
            let mut shown = page::problem(&gate.app, actor.as_ref(), &cookies, error);
            if let Some(wait) = response.headers().get(header::RETRY_AFTER) {
                shown.headers_mut().insert(header::RETRY_AFTER, wait.clone());
            }
            shown
        }
        (Surface::Api, Some(Refused(error))) => match actor.filter(|actor| matches!(actor.via, Via::Session(_))) {
            Some(actor) => {
                let body = serde_json::to_string(&error.problem_in(actor.told_in())).unwrap_or_default();
                response.map(|_| Body::from(body))
            }
            None => response,
        },
        _ => response,
    }
}

fn is_for_another(headers: &HeaderMap, reader: Option<&str>) -> bool {
    let named = headers.get(READER).map(HeaderValue::as_bytes);
    reader.is_some_and(|reader| named.is_some_and(|named| named != reader.as_bytes()))
}

fn admitted(gate: &Gate, actor: Option<Actor>) -> Result<Option<Actor>, Error> {
    match (gate.need, actor) {
        (Need::Anyone, actor) => Ok(actor),
        (_, None) => Err(Error::SignIn),
        (Need::SignedIn, actor) => Ok(actor),
        (Need::May(permission), Some(actor)) if actor.may(permission) => Ok(Some(actor)),
        (Need::May(_), Some(_)) => Err(Error::Forbidden),
    }
}

async fn find(gate: &Gate, headers: &HeaderMap) -> Result<Option<Actor>, Error> {
    let app = &gate.app;
    let now = app.clock.now();
    if let Some(authorization) = headers.get(header::AUTHORIZATION) {
        let presented = authorization
            .to_str()
            .ok()
            .and_then(|text| text.split_once(' '))
            .filter(|(scheme, _)| scheme.eq_ignore_ascii_case("bearer"))
            .map(|(_, token)| token.trim());
        let Some(presented) = presented else { return Err(Error::SignIn) };
        let mut conn = app.read().await?;
        let bearer = token::find(&mut conn.cx(), presented, now).await?.ok_or(Error::SignIn)?;
        let actor = find_actor(&mut conn.cx(), bearer.organization(), bearer.account(), Via::Token).await?;
        drop(conn);
        token::touch(&app.db, &bearer, now).await?;
        return actor.map(Some).ok_or(Error::SignIn);
    }
    let Some(secret) = page::session_secret(headers, &app.config) else { return Ok(None) };
    let mut conn = app.read().await?;
    let Some(found) = session::find(&mut conn.cx(), &secret, now).await? else { return Ok(None) };
    let mut actor = find_actor(&mut conn.cx(), found.organization(), found.account(), Via::Session(found.id)).await?;
    drop(conn);
    if let Some(actor) = &mut actor {
        actor.language = actor.own_language.unwrap_or_else(|| texts::asked_for(headers));
        session::touch(&app.db, &found, actor.role, now).await?;
    }
    Ok(actor)
}
