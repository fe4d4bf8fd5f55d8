//! Does what the script says, each through the act that pages and API use, with the clock at the moment at which the
//! server hears of it. What an act refuses ends the demonstration: nothing invalid gets in.

use super::people::{Crew, MARTA, Person};
use super::script::{Act, Event};
use super::{Account, Fault};
use crate::access::{self, Actor, Via, find_actor};
use crate::calibration::act::decide;
use crate::db::kind::Kind;
use crate::fleet::{configuration, lay_up, roller, scale, season, seeder};
use crate::people::act::{add_member, add_organization, set_reading};
use crate::people::crew::act::add_crew;
use crate::readiness::{policy, waiver};
use crate::records::act::void_record;
use crate::seed::{client, field, lot, movement};
use crate::sync::act::take_in;
use crate::sync::refused::{DropDraft, drop_refused};
use crate::web::door::{App, Signed};
use crate::web::error::Error;
use crate::web::input::read;
use serde_json::{Value, json};
use sowmark_core::ids::{AccountId, CalibrationId, LotId, MeteringUnitId, OrganizationId, SeederId};
use std::collections::HashMap;
use uuid::Uuid;

/// A made-up organization coming to be.
pub(super) struct Player<'a> {
    app: &'a App,
    password: &'a str,
    organization: OrganizationId,
    accounts: HashMap<&'static str, AccountId>,
}

impl<'a> Player<'a> {
    /// Founds the organization, with the one who begins.
    pub(super) async fn found(app: &'a App, password: &'a str, draft: Value) -> Result<Self, Error> {
        let organization = add_organization(&app.db, &app.clock, read(&draft)?).await?;
        let mut player = Self { app, password, organization, accounts: HashMap::new() };
        player.join(&MARTA, None).await?;
        Ok(player)
    }

    /// Does what is due, in its order.
    pub(super) async fn play(&mut self, events: Vec<Event>) -> Result<(), Fault> {
        for Event { at, who, act } in events {
            self.app.clock.set(at);
            let said = format!("{} by {}", named(&act), who.name);
            self.act(who, act).await.map_err(|error| Fault { at, what: said, error })?;
        }
        Ok(())
    }

    pub(super) fn organization(&self) -> OrganizationId {
        self.organization
    }

    pub(super) fn account(&self, person: &Person) -> Option<Account> {
        let account = *self.accounts.get(person.email)?;
        Some(Account { account, name: person.name, email: person.email, role: person.role })
    }

    async fn act(&mut self, who: &'static Person, act: Act) -> Result<(), Error> {
        match act {
            Act::Join(person, client) => return self.join(person, client).await,
            Act::Reading(sent) => return set_reading(&self.app.db, self.id(who)?, &read(&sent)?).await,
            _ => {}
        }
        let signed = self.signed(who).await?;
        match act {
            Act::Join(..) | Act::Reading(_) => {}
            Act::Keep(kind, sent) => keep(&signed, kind, sent).await?,
            Act::Crew(crew, sent) => self.crew(&signed, crew, sent).await?,
            Act::Log(kind, parent, sent) => {
                kind.record(&signed, parent, sent).await?;
            }
            Act::Office(kind, parent, sent) => office(&signed, kind, parent, sent).await?,
            Act::Policy(sent) => policy::change(&signed, read(&sent)?).await?,
            Act::Void(record, sent) => {
                void_record(&signed, record, read(&sent)?, sent).await?;
            }
            Act::Send(sent) => {
                take_in(&signed, &read(&sent)?).await?;
            }
            Act::Drop(entry, sent) => drop_refused(&signed, entry, &read::<DropDraft>(&sent)?).await?,
        }
        Ok(())
    }

    async fn join(&mut self, person: &'static Person, client: Option<Uuid>) -> Result<(), Error> {
        let clients: Vec<Uuid> = client.into_iter().collect();
        let draft =
            json!({ "email": person.email, "name": person.name, "role": person.role.word(), "clients": clients });
        let (grant, password) = (access::host(self.organization), Some(self.password.to_owned()));
        let App { db, clock, hasher, .. } = self.app;
        let added = add_member(db, clock, hasher, &grant, read(&draft)?, password).await?;
        self.accounts.insert(person.email, added.account);
        Ok(())
    }

    /// A crew with its members, whose ids only the server knew.
    async fn crew(&self, signed: &Signed, crew: &Crew, mut sent: Value) -> Result<(), Error> {
        let members = crew.people.iter().map(|person| self.id(person)).collect::<Result<Vec<_>, _>>()?;
        sent["members"] = json!(members);
        add_crew(signed, read(&sent)?, sent).await?;
        Ok(())
    }

    fn id(&self, person: &Person) -> Result<AccountId, Error> {
        self.accounts.get(person.email).copied().ok_or_else(|| Error::not_there("account"))
    }

    /// Who asks, with all that they see by now.
    async fn signed(&self, person: &Person) -> Result<Signed, Error> {
        let account = self.id(person)?;
        let mut conn = self.app.read().await?;
        let actor: Option<Actor> = find_actor(&mut conn.cx(), self.organization, account, Via::Token).await?;
        Ok(Signed { app: self.app.clone(), actor: actor.ok_or_else(|| Error::not_there("member"))? })
    }
}

/// Something that is kept, by its kind's act.
async fn keep(signed: &Signed, kind: Kind, sent: Value) -> Result<(), Error> {
    match kind {
        Kind::Client => client::act::add_client(signed, read(&sent)?, sent).await?,
        Kind::Field => field::act::add_field(signed, read(&sent)?, sent).await?,
        Kind::Roller => roller::act::add_roller(signed, read(&sent)?, sent).await?,
        Kind::Scale => scale::act::add_scale(signed, read(&sent)?, sent).await?,
        Kind::Season => season::act::add_season(signed, read(&sent)?, sent).await?,
        Kind::Seeder => seeder::act::add_seeder(signed, read(&sent)?, sent).await?,
        Kind::Lot => lot::act::add_lot(signed, read(&sent)?, sent).await?,
        other => return Err(Error::broken(format!("the script keeps a {other}"))),
    };
    Ok(())
}

/// A record that phones do not send, by its kind's act.
async fn office(signed: &Signed, kind: Kind, parent: Uuid, sent: Value) -> Result<(), Error> {
    match kind {
        Kind::Configuration => {
            configuration::act::add_configuration(signed, SeederId(parent), read(&sent)?, sent).await?
        }
        Kind::LayUp => lay_up::act::add_lay_up(signed, SeederId(parent), read(&sent)?, sent).await?,
        Kind::Movement => movement::act::record_movement(signed, LotId(parent), read(&sent)?, sent).await?,
        Kind::Decision => decide(signed, CalibrationId(parent), read(&sent)?, sent).await?,
        Kind::Waiver => waiver::add_waiver(signed, MeteringUnitId(parent), read(&sent)?, sent).await?,
        other => return Err(Error::broken(format!("the script records a {other} in the office"))),
    };
    Ok(())
}

/// What is done, for the person who changed the script.
fn named(act: &Act) -> String {
    match act {
        Act::Join(person, _) => format!("joining of {}", person.name),
        Act::Reading(_) => "choice of how to read".to_owned(),
        Act::Keep(kind, sent) | Act::Office(kind, _, sent) => format!("{kind} {sent}"),
        Act::Crew(_, sent) => format!("crew {sent}"),
        Act::Log(kind, _, sent) => format!("{} {sent}", kind.word()),
        Act::Policy(sent) | Act::Void(_, sent) | Act::Send(sent) | Act::Drop(_, sent) => sent.to_string(),
    }
}
