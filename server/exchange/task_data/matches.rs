//! What the names of a file mean here: remembered from the last time, else found by the same name.

use super::lines::Line;
use super::store::{self, MatchRow};
use crate::access::Scope;
use crate::db::Cx;
use crate::fleet::seeder;
use crate::fleet::seeder::act::UnitRow;
use crate::seed::client::store::ClientRow;
use crate::seed::field::store::FieldRow;
use crate::seed::lot::store::LotRow;
use crate::seed::{client, field, lot};
use crate::web::error::Error;
use crate::words;
use std::collections::HashMap;
use uuid::Uuid;

words! {
    /// What a name stands for.
    pub enum Kind {
        /// A machine with its tank for a metering unit.
        Unit = "unit",
        /// A product for a lot.
        Lot = "lot",
        Field = "field",
        /// A customer for a client.
        Client = "client",
    }
}

/// Everything of ours that a name may mean, and what was remembered.
#[derive(Debug)]
pub struct Known {
    pub units: Vec<UnitRow>,
    pub lots: Vec<LotRow>,
    pub fields: Vec<FieldRow>,
    pub clients: Vec<ClientRow>,
    /// Serial numbers of the seeders.
    serials: HashMap<Uuid, String>,
    remembered: HashMap<(String, String), Uuid>,
}

/// What a line's names mean, as far as it is known.
#[derive(Clone, Copy, Debug, Default)]
pub struct Matched {
    pub unit: Option<Uuid>,
    pub lot: Option<Uuid>,
    pub field: Option<Uuid>,
    pub client: Option<Uuid>,
}

impl Known {
    pub async fn find(cx: &mut Cx<'_>, scope: &Scope) -> Result<Self, Error> {
        let seeders = seeder::act::seeders(cx, scope).await?;
        let remembered = store::matches(cx, scope).await?;
        Ok(Self {
            units: seeder::act::units(cx, scope).await?,
            lots: lot::act::lots(cx, scope).await?,
            fields: field::act::fields(cx, scope).await?,
            clients: client::act::clients(cx, scope).await?,
            serials: seeders.into_iter().filter_map(|seeder| Some((seeder.id, seeder.serial_number?))).collect(),
            remembered: remembered
                .into_iter()
                .map(|MatchRow { kind, name, target_id }| ((kind, name), target_id))
                .collect(),
        })
    }

    fn remembered(&self, kind: Kind, name: &str) -> Option<Uuid> {
        self.remembered.get(&(kind.word().to_owned(), name.to_owned())).copied()
    }

    /// Whether something of a kind is there.
    pub fn has(&self, kind: Kind, id: Uuid) -> bool {
        match kind {
            Kind::Unit => self.units.iter().any(|unit| unit.id == id),
            Kind::Lot => self.lots.iter().any(|lot| lot.id == id),
            Kind::Field => self.fields.iter().any(|field| field.id == id),
            Kind::Client => self.clients.iter().any(|client| client.id == id),
        }
    }

    /// What a line's names mean.
    pub fn of(&self, line: &Line) -> Matched {
        let remembered = |kind: Kind, name: Option<&str>| self.remembered(kind, name?).filter(|id| self.has(kind, *id));
        let field_name = line.field_name();
        Matched {
            unit: remembered(Kind::Unit, Some(&line.unit_name())).or_else(|| self.only_unit_of(line)),
            lot: remembered(Kind::Lot, line.product.as_deref()).or_else(|| {
                let named = self.lots.iter().filter(|lot| Some(&lot.lot_number) == line.product.as_ref());
                only(named).map(|lot| lot.id)
            }),
            field: remembered(Kind::Field, field_name.as_deref()).or_else(|| {
                let named = self.fields.iter().filter(|field| Some(&field.name) == line.field.as_ref());
                only(named).map(|field| field.id)
            }),
            client: remembered(Kind::Client, line.customer.as_deref()).or_else(|| {
                let named = self.clients.iter().filter(|client| Some(&client.name) == line.customer.as_ref());
                only(named).map(|client| client.id)
            }),
        }
    }

    /// The unit of the one seeder with the file's serial number, where it has no other.
    fn only_unit_of(&self, line: &Line) -> Option<Uuid> {
        let serial = line.serial.as_ref()?;
        let of_it = self.units.iter().filter(|unit| self.serials.get(&unit.seeder_id) == Some(serial));
        only(of_it).map(|unit| unit.id)
    }
}

fn only<T>(mut found: impl Iterator<Item = T>) -> Option<T> {
    let first = found.next()?;
    found.next().is_none().then_some(first)
}
