//! Who is asking and what they may do.
//!
//! A request becomes an [`Actor`] (by session or bearer token). Reading takes the actor's [`Scope`], which says how far
//! they see; writing takes a [`Grant`], which only [`Actor::grant`] and [`host`] make. What lies outside the scope does
//! not exist for the actor: 404, never 403.

pub mod link;
pub mod password;
pub mod session;
mod store;
pub mod throttle;
pub mod token;

pub use store::{ALL, find_actor, has_accounts, limited_to};

use crate::clock::Stamp;
use crate::texts;
use crate::web::error::Error;
use crate::web::reader::Reader;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use sowmark_core::ids::{AccountId, ClientId, LotId, OrganizationId, SeederId};
use sowmark_core::texts::Language;
use sowmark_core::words::{DecimalSign, Words};
use std::collections::HashSet;
use std::hash::Hash;
use std::sync::Arc;
use uuid::Uuid;

/// What a person is in an organization.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    Office,
    Crew,
    Agronomist,
}

impl Role {
    pub const ALL: [Self; 3] = [Self::Office, Self::Crew, Self::Agronomist];

    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Office => "office",
            Self::Crew => "crew",
            Self::Agronomist => "agronomist",
        }
    }

    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.word() == word)
    }
}

/// Which units an organization reads in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    Metric,
    Us,
}

impl Units {
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::Us => "us",
        }
    }

    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        match word {
            "metric" => Some(Self::Metric),
            "us" => Some(Self::Us),
            _ => None,
        }
    }
}

/// Something that a role may do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Permission {
    /// See the fleet, calibrations and readiness, as far as the scope goes.
    ReadFleet,
    /// See lots, without supplier and stock.
    ReadLots,
    /// See suppliers, received masses and movements.
    ReadStock,
    /// Send entries logged off line, and see and drop one's own that were refused. What may be stored of them is up to
    /// the permission of each kind.
    Send,
    /// Log calibrations, setups, fills, emptyings, services, jobs, scale checks.
    Log,
    /// Void a record, or send one that corrects another.
    Void,
    /// Accept or reject a held calibration.
    Decide,
    /// Let a trigger pass on a unit.
    Waive,
    /// Keep seeders, rollers, seasons, scales, fields, clients, crews, policy.
    KeepFleet,
    /// Keep lots and movements.
    KeepLots,
    /// Record a test of a lot.
    TestLots,
    /// Members, invitations, tokens and devices of others.
    KeepPeople,
    /// Read the audit trail.
    ReadAudit,
    /// Read where the seed went: of a crew member the own jobs.
    ReadUsage,
    /// Put one's name under it.
    SignAudit,
}

impl Permission {
    /// Every permission.
    pub const ALL: [Self; 15] = [
        Self::ReadFleet,
        Self::ReadLots,
        Self::ReadStock,
        Self::Send,
        Self::Log,
        Self::Void,
        Self::Decide,
        Self::Waive,
        Self::KeepFleet,
        Self::KeepLots,
        Self::TestLots,
        Self::KeepPeople,
        Self::ReadAudit,
        Self::ReadUsage,
        Self::SignAudit,
    ];
}

/// The table of who may do what.
#[must_use]
pub fn allows(role: Role, permission: Permission) -> bool {
    use Permission as P;
    match permission {
        P::ReadFleet | P::ReadLots | P::Send | P::ReadUsage => true,
        P::Log | P::Void => matches!(role, Role::Office | Role::Crew),
        P::ReadStock | P::ReadAudit | P::TestLots => matches!(role, Role::Office | Role::Agronomist),
        P::SignAudit => role == Role::Agronomist,
        P::Decide | P::Waive | P::KeepFleet | P::KeepLots | P::KeepPeople => role == Role::Office,
    }
}

/// All things of a kind, or only some.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reach<T: Eq + Hash> {
    All,
    Only(HashSet<T>),
}

impl<T: Eq + Hash> Reach<T> {
    #[must_use]
    pub fn includes(&self, thing: &T) -> bool {
        match self {
            Self::All => true,
            Self::Only(some) => some.contains(thing),
        }
    }

    /// What is in both.
    #[must_use]
    pub fn both(self, other: Self) -> Self {
        match (self, other) {
            (Self::All, reach) | (reach, Self::All) => reach,
            (Self::Only(some), Self::Only(other)) => {
                Self::Only(some.into_iter().filter(|thing| other.contains(thing)).collect())
            }
        }
    }
}

/// How far somebody sees: always one organization, in it all or some seeders, lots and clients.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scope {
    pub organization: OrganizationId,
    pub seeders: Reach<SeederId>,
    pub lots: Reach<LotId>,
    pub clients: Reach<ClientId>,
}

/// How somebody showed who they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Via {
    /// By the session with this id.
    Session(Uuid),
    Token,
}

/// Somebody signed in, in one organization.
#[derive(Clone, Debug)]
pub struct Actor {
    pub account: AccountId,
    pub email: String,
    pub name: String,
    pub organization_name: String,
    pub time_zone: TimeZone,
    pub time_zone_name: String,
    /// What the organization reads in, whatever this person does.
    pub organization_units: Units,
    /// What this person chose instead.
    pub own_units: Option<Units>,
    /// What this person reads in.
    pub units: Units,
    pub decimal_sign: DecimalSign,
    /// The language that this person chose.
    pub own_language: Option<Language>,
    /// What this person is spoken to in: as chosen, else as the browser asks.
    pub language: Language,
    pub role: Role,
    pub scope: Scope,
    pub via: Via,
    pub origin: Arc<Origin>,
}

/// Where what somebody sends comes from, when it is not typed into a form that has just been opened. It is kept beside
/// what is created with it, in the same transaction.
#[derive(Clone, Debug, Default)]
pub struct Origin {
    /// Somebody's phone, which had it for a while.
    pub sending: Option<Sending>,
    /// An entry that was refused, and that this is the mended form of.
    pub mends: Option<Uuid>,
    /// The number of the organization's last act when what this one rests on was read: it is refused where another came
    /// between.
    pub rests_on: Option<i64>,
    /// The act is done to see whether it would succeed, and undone at its end.
    pub is_rehearsal: bool,
}

/// A phone sending what it had logged off line.
#[derive(Clone, Debug)]
pub struct Sending {
    /// The phone's clock when it sent; none when it did not say.
    pub sent_at: Option<Stamp>,
    /// The server's clock when it came.
    pub received_at: Timestamp,
    /// What the phone calls itself; may be empty.
    pub device: String,
}

impl Actor {
    #[must_use]
    pub fn organization(&self) -> OrganizationId {
        self.scope.organization
    }

    #[must_use]
    pub fn words(&self) -> Words {
        Words { decimal: self.decimal_sign, language: self.language }
    }

    /// The words of a problem that the API answers. With a session it is a page's own script that asks, and shows the answer
    /// to its person; a program with a token is told in English.
    #[must_use]
    pub fn told_in(&self) -> Words {
        match self.via {
            Via::Token => texts::plain(),
            Via::Session(_) => self.words(),
        }
    }

    #[must_use]
    pub fn reader(&self) -> Reader {
        Reader { units: self.units, words: self.words() }
    }

    #[must_use]
    pub fn may(&self, permission: Permission) -> bool {
        allows(self.role, permission)
    }

    /// Leave to write.
    ///
    /// # Errors
    /// 403 when the role is too small.
    pub fn grant(&self, permission: Permission) -> Result<Grant, Error> {
        if !self.may(permission) {
            return Err(Error::Forbidden);
        }
        Ok(Grant {
            organization: self.organization(),
            account: Some(self.account),
            corrections: self.corrections(),
            origin: Arc::clone(&self.origin),
            is_typed: matches!(self.via, Via::Session(_)),
        })
    }

    fn corrections(&self) -> Corrections {
        match self.role {
            Role::Office => Corrections::Any,
            Role::Crew => Corrections::OwnSameDay(self.time_zone.clone()),
            Role::Agronomist => Corrections::None,
        }
    }

    /// Whether this person may void a record, were the act done now: a page offers it to nobody else.
    #[must_use]
    pub fn may_amend(&self, recorded_at: Timestamp, recorded_by: Option<Uuid>, now: Timestamp) -> bool {
        self.may(Permission::Void) && self.corrections().allow(Some(self.account), (recorded_at, recorded_by), now)
    }

    /// Leave to write about a seeder.
    ///
    /// # Errors
    /// 404 when the seeder is outside the scope, 403 when the role is too small.
    pub fn grant_on(&self, permission: Permission, seeder: SeederId) -> Result<Grant, Error> {
        if !self.scope.seeders.includes(&seeder) {
            return Err(Error::not_there("seeder"));
        }
        self.grant(permission)
    }
}

/// Leave to write in one organization. Only this module makes one.
#[derive(Clone, Debug)]
pub struct Grant {
    organization: OrganizationId,
    account: Option<AccountId>,
    corrections: Corrections,
    origin: Arc<Origin>,
    is_typed: bool,
}

/// Which records somebody may void or correct.
#[derive(Clone, Debug)]
pub enum Corrections {
    Any,
    /// One's own, on the day on which they were recorded, in this time zone.
    OwnSameDay(TimeZone),
    None,
}

impl Corrections {
    /// Whether they cover a record that was recorded then and by that account.
    #[must_use]
    pub fn allow(
        &self,
        account: Option<AccountId>,
        (recorded_at, recorded_by): (Timestamp, Option<Uuid>),
        now: Timestamp,
    ) -> bool {
        match self {
            Self::Any => true,
            Self::None => false,
            Self::OwnSameDay(zone) => {
                let is_own = account.is_some_and(|account| recorded_by == Some(account.0));
                is_own && zone.to_datetime(recorded_at).date() == zone.to_datetime(now).date()
            }
        }
    }
}

impl Grant {
    #[must_use]
    pub fn organization(&self) -> OrganizationId {
        self.organization
    }

    #[must_use]
    pub fn account(&self) -> Option<AccountId> {
        self.account
    }

    #[must_use]
    pub fn corrections(&self) -> &Corrections {
        &self.corrections
    }

    #[must_use]
    pub fn origin(&self) -> Arc<Origin> {
        Arc::clone(&self.origin)
    }

    /// Whether a person fills in a page: then a moment far ahead is a slip. A program may have its reasons.
    #[must_use]
    pub fn is_typed(&self) -> bool {
        self.is_typed
    }
}

/// Leave of the person at the command line of the host, who could write to the database anyway.
#[must_use]
pub fn host(organization: OrganizationId) -> Grant {
    Grant { organization, account: None, corrections: Corrections::Any, origin: Arc::default(), is_typed: false }
}
