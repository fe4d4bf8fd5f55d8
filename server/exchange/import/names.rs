//! What a file calls by name, and which of what is kept that is. A name that nothing or several things have is told.

use crate::fleet::scale::act as scale;
use crate::fleet::seeder::act as seeder;
use crate::saying;
use crate::seed::{client, field, lot};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::cut;
use crate::web::saying::Saying;
use std::collections::HashMap;
use uuid::Uuid;

/// Everything that can be called by name.
#[derive(Debug, Default)]
pub struct Names {
    clients: HashMap<String, Vec<Uuid>>,
    scales: HashMap<String, Vec<Uuid>>,
    fields: HashMap<String, Vec<Uuid>>,
    /// With the crop of each.
    lots: HashMap<String, Vec<(Uuid, String)>>,
    units: HashMap<(String, String), Vec<Uuid>>,
}

/// Upper and lower case are not told apart.
fn key(name: &str) -> String {
    name.trim().to_lowercase()
}

fn only(what: &'static str, name: &str, found: &[Uuid]) -> Result<Uuid, Saying> {
    let name = cut(name);
    match found {
        [one] => Ok(*one),
        [] => Err(saying!("import-no-such", what = what, name = &name)),
        _ => Err(saying!("import-several", what = what, name = &name)),
    }
}

impl Names {
    /// What somebody sees.
    ///
    /// # Errors
    /// The database.
    pub async fn of(signed: &Signed) -> Result<Self, Error> {
        let scope = &signed.actor.scope;
        let mut conn = signed.app.read().await?;
        let cx = &mut conn.cx();
        let mut names = Self::default();
        for row in client::act::clients(cx, scope).await? {
            names.clients.entry(key(&row.name)).or_default().push(row.id);
        }
        for row in scale::scales(cx, scope).await? {
            names.scales.entry(key(&row.name)).or_default().push(row.id);
        }
        for row in field::act::fields(cx, scope).await? {
            names.fields.entry(key(&row.name)).or_default().push(row.id);
        }
        for row in lot::act::lots(cx, scope).await? {
            names.lots.entry(key(&row.lot_number)).or_default().push((row.id, key(&row.crop)));
        }
        for row in seeder::units(cx, scope).await? {
            names.units.entry((key(&row.seeder), key(&row.label))).or_default().push(row.id);
        }
        Ok(names)
    }

    pub(super) fn client(&self, name: &str) -> Result<Uuid, Saying> {
        only("client", name, self.clients.get(&key(name)).map_or(&[], Vec::as_slice))
    }

    pub(super) fn scale(&self, name: &str) -> Result<Uuid, Saying> {
        only("scale", name, self.scales.get(&key(name)).map_or(&[], Vec::as_slice))
    }

    /// A field that is kept; none where the name is only a name.
    pub(super) fn field(&self, name: &str) -> Result<Option<Uuid>, Saying> {
        match self.fields.get(&key(name)) {
            None => Ok(None),
            Some(found) => only("field", name, found).map(Some),
        }
    }

    /// A lot by its number, and by its crop where that is told.
    pub(super) fn lot(&self, number: &str, crop: &str) -> Result<Uuid, Saying> {
        let found = self.lots.get(&key(number)).map_or(&[][..], Vec::as_slice);
        let is_it = |of: &str| crop.is_empty() || of == key(crop);
        let found: Vec<Uuid> = found.iter().filter(|(_, crop)| is_it(crop)).map(|(id, _)| *id).collect();
        only("lot", number, &found)
    }

    pub(super) fn unit(&self, seeder: &str, label: &str) -> Result<Uuid, Saying> {
        let found = self.units.get(&(key(seeder), key(label)));
        only("unit", &format!("{seeder}, {label}"), found.map_or(&[], Vec::as_slice))
    }
}
