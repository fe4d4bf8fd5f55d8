//! What a machine is, as its book begins: width and spacing, its units with their drives and controllers, what is fitted, what number
//! stands, and what terminals call it.

use super::told::Told;
use super::unit::Unit;
use crate::access::Units;
use crate::db::Cx;
use crate::exchange::task_data;
use crate::fleet::configuration::act as configurations;
use crate::fleet::lay_up::act as lay_ups;
use crate::fleet::seeder::act::{Drive, SeederRow};
use crate::fleet::seeder::{about, key_in};
use crate::readiness::act::{Records, UnitNow};
use crate::readiness::store::UnitRow;
use crate::web::error::Error;
use crate::web::page::Page;
use crate::web::reader::Reader;
use askama::Template;
use sowmark_core::ids::SeederId;
use sowmark_core::quantity::unit;
use sowmark_core::say;
use std::collections::HashMap;
use uuid::Uuid;

/// What it is.
#[derive(Template)]
#[template(path = "reports/book_machine.html")]
pub(super) struct MachinePart<'p> {
    page: &'p Page,
    about: String,
    as_of: String,
    facts: Vec<(String, String)>,
    units: Vec<UnitLine>,
    /// What task data calls each unit.
    names: HashMap<Uuid, Vec<String>>,
}

/// A unit, as its row shows it.
struct UnitLine {
    label: String,
    runs: String,
    drive: String,
    keyed_in: String,
    fitted: String,
    /// Empty where a reader does not see what is in the tank.
    state: &'static str,
    number: String,
    called: String,
}

/// A mass that a scale showed.
pub(super) fn weighed(kg: f64, reader: Reader) -> String {
    let unit = if reader.units == Units::Us { unit::LB } else { unit::KG };
    format!("{} {unit}", reader.words.short(kg, unit, 5))
}

impl<'p> MachinePart<'p> {
    /// Without its units.
    ///
    /// # Errors
    /// The database.
    pub(super) async fn of(cx: &mut Cx<'_>, page: &'p Page, told: Told<'_>, seeder: &SeederRow) -> Result<Self, Error> {
        let (actor, words, until) = (&told.signed.actor, told.reader().words, told.found.until);
        let (scope, id) = (&actor.scope, SeederId(seeder.id));
        let configuration = configurations::in_force(cx, scope, id, until).await?;
        let laid_up = lay_ups::in_force(cx, scope, id, until).await?.is_some_and(|lay_up| lay_up.laid_up);
        let measured = |entered: Option<&str>| match entered {
            Some(entered) => told.reader().measured(entered),
            None => say!(words, "seeder-not-known"),
        };
        let width = measured(configuration.as_ref().map(|row| row.working_width.as_str()));
        let spacing = measured(configuration.as_ref().map(|row| row.row_spacing.as_str()));
        let names = if told.is_whole() { task_data::act::unit_names(cx, scope).await? } else { HashMap::new() };
        Ok(Self {
            page,
            about: about(seeder, laid_up, words),
            as_of: say!(words, "book-as-of", when = told.said(until)),
            facts: vec![(say!(words, "seeder-working-width"), width), (say!(words, "seeder-row-spacing"), spacing)],
            units: Vec::new(),
            names,
        })
    }

    pub(super) fn add(&mut self, row: &UnitRow, unit: Option<&Unit<'_>>, told: Told<'_>, records: &Records) {
        let reader = told.reader();
        let words = reader.words;
        let sees = unit.filter(|unit| told.owns(unit.last.lot));
        let number = sees.and_then(|unit| {
            let now = UnitNow { unit: row.clone(), readiness: unit.last.clone(), says: Vec::new() };
            Some(now.key_in(&records.names, reader)?.says())
        });
        let drive = Drive::from_word(&row.drive).map_or_else(|| row.drive.clone(), |drive| drive.says(words));
        let drive = match (&row.roller_speed_min, &row.roller_speed_max) {
            (Some(min), Some(max)) => {
                let (least, most) = (words.decimal(min), words.decimal(max));
                say!(words, "drive-speeds", drive = drive, least = least, most = most)
            }
            _ => drive,
        };
        self.units.push(UnitLine {
            label: row.label.clone(),
            runs: row.runs.to_string(),
            drive,
            keyed_in: key_in::in_words(row.keyed_in.0, reader),
            fitted: unit.map(|unit| told.fitted(&unit.last, &records.names)).unwrap_or_default(),
            state: sees.map(|unit| unit.last.state.as_str()).unwrap_or_default(),
            number: number.unwrap_or_else(|| say!(words, "book-no-number")),
            called: self.names.get(&row.id).map(|names| names.join(", ")).unwrap_or_default(),
        });
    }
}
