//! What a handler is handed: the application, and who is asking.

use super::error::Error;
use crate::access::password::Hasher;
use crate::access::{Actor, Grant, Permission, Via};
use crate::clock::Clock;
use crate::config::Config;
use crate::db::{Conn, Db, Tx, Work};
use axum::extract::FromRequestParts;
use axum::http::request::Parts;
use axum::http::{HeaderMap, header};
use std::sync::Arc;
use uuid::Uuid;

/// Everything that a request may need.
#[derive(Clone, Debug)]
pub struct App {
    pub db: Db,
    pub clock: Clock,
    pub hasher: Hasher,
    pub config: Arc<Config>,
}

impl App {
    /// A connection for reading.
    ///
    /// # Errors
    /// The database.
    pub async fn read(&self) -> Result<Conn, Error> {
        Ok(self.db.read().await?)
    }

    /// One state of the database for reading: what a report says and the head it names belong together.
    ///
    /// # Errors
    /// The database.
    pub async fn snapshot(&self) -> Result<Tx, Error> {
        Ok(self.db.snapshot().await?)
    }

    /// The address of the server as the person who asks knows it, without a slash at its end.
    #[must_use]
    pub fn base(&self, headers: &HeaderMap) -> String {
        self.config.public_url.clone().unwrap_or_else(|| {
            let host = headers.get(header::HOST).and_then(|host| host.to_str().ok()).unwrap_or_default();
            format!("http://{host}")
        })
    }

    /// Begins an act.
    ///
    /// # Errors
    /// The database.
    pub async fn work(&self, grant: &Grant) -> Result<Work, Error> {
        Work::begin(&self.db, &self.clock, grant).await
    }
}

/// Somebody signed in. The guard has put them there: a route that needs nobody has no `Signed`.
#[derive(Clone, Debug)]
pub struct Signed {
    pub app: App,
    pub actor: Actor,
}

impl Signed {
    /// Leave to write.
    ///
    /// # Errors
    /// 403 when the role is too small.
    pub fn grant(&self, permission: Permission) -> Result<Grant, Error> {
        self.actor.grant(permission)
    }

    /// The session that asks. What opens new ways in (passwords, links, tokens, roles) wants one: a token that leaks must
    /// not be able to outlive itself.
    ///
    /// # Errors
    /// 403 for a bearer token.
    pub fn session(&self) -> Result<Uuid, Error> {
        match self.actor.via {
            Via::Session(id) => Ok(id),
            Via::Token => Err(Error::Forbidden),
        }
    }
}

/// Who is asking, if anybody: for the few pages that are open to all.
#[derive(Clone, Debug)]
pub struct Whoever(pub Option<Actor>);

impl FromRequestParts<App> for Whoever {
    type Rejection = std::convert::Infallible;

    async fn from_request_parts(parts: &mut Parts, _: &App) -> Result<Self, Self::Rejection> {
        Ok(Self(parts.extensions.get::<Actor>().cloned()))
    }
}

impl FromRequestParts<App> for Signed {
    type Rejection = Error;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, Error> {
        let actor = parts.extensions.get::<Actor>().cloned().ok_or(Error::SignIn)?;
        Ok(Self { app: app.clone(), actor })
    }
}
