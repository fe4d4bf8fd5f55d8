//! The lists of the fleet.

use super::out::Out;
use super::pages;
use super::sheet::Sheet;
use crate::fleet::configuration::act as configuration;
use crate::fleet::configuration::store::ConfigurationRow;
use crate::fleet::lay_up::act as lay_up;
use crate::fleet::lay_up::store::LayUpRow;
use crate::fleet::roller::act as roller;
use crate::fleet::roller::store::RollerRow;
use crate::fleet::scale::act as scale;
use crate::fleet::scale::store::{CheckRow, ScaleRow};
use crate::fleet::season::act as season;
use crate::fleet::season::store::SeasonRow;
use crate::fleet::seeder::act::{self as seeder, SeederRow, UnitRow};
use crate::fleet::service::act as service;
use crate::fleet::service::store::ServiceRow;
use crate::fleet::setup::act as setup;
use crate::fleet::setup::store::SetupRow;
use crate::people::crew::act::{self as crew, Crew};
use crate::web::door::Signed;
use crate::web::error::Error;
use sowmark_core::ids::{ScaleId, SeederId};
use sowmark_core::quantity::unit::dimension::{Length, Mass, Volume};
use std::collections::HashMap;
use uuid::Uuid;

/// A seeder with what is in force now.
struct SeederLine {
    row: SeederRow,
    configuration: Option<ConfigurationRow>,
    laid_up: bool,
}

impl SeederLine {
    async fn of(signed: &Signed, row: SeederRow) -> Result<Self, Error> {
        let (scope, now, id) = (&signed.actor.scope, signed.app.clock.now(), SeederId(row.id));
        let mut conn = signed.app.read().await?;
        let cx = &mut conn.cx();
        let configuration = configuration::in_force(cx, scope, id, now).await?;
        let laid_up = lay_up::in_force(cx, scope, id, now).await?.is_some_and(|lay_up| lay_up.laid_up);
        Ok(Self { row, configuration, laid_up })
    }

    fn width(&self) -> Option<&str> {
        self.configuration.as_ref().map(|configuration| configuration.working_width.as_str())
    }

    fn spacing(&self) -> Option<&str> {
        self.configuration.as_ref().map(|configuration| configuration.row_spacing.as_str())
    }
}

async fn all_seeders(signed: &Signed) -> Result<Vec<SeederRow>, Error> {
    seeder::seeders(&mut signed.app.read().await?.cx(), &signed.actor.scope).await
}

pub(super) async fn all_units(signed: &Signed) -> Result<Vec<UnitRow>, Error> {
    seeder::units(&mut signed.app.read().await?.cx(), &signed.actor.scope).await
}

pub(super) async fn seeders(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let sheet = Sheet::<SeederLine>::new(out.way())
        .text("id", |line| Some(line.row.id.to_string()))
        .text("seeder", |line| Some(line.row.name.clone()))
        .text("serial_number", |line| line.row.serial_number.clone())
        .text("kind", |line| Some(line.row.kind.clone()))
        .text("commissioned_on", |line| Some(line.row.commissioned_on.clone()))
        .measured::<Length>("working_width", SeederLine::width)
        .measured::<Length>("row_spacing", SeederLine::spacing)
        .text("laid_up", |line| Some(yes_no(line.laid_up)));
    out.head(&sheet).await?;
    for row in all_seeders(signed).await? {
        out.row(&sheet, &SeederLine::of(signed, row).await?).await?;
    }
    Ok(())
}

/// `yes` or `no`.
pub(super) fn yes_no(is_so: bool) -> String {
    if is_so { "yes" } else { "no" }.to_owned()
}

/// A unit beside its seeder.
struct UnitLine {
    seeder: std::sync::Arc<SeederLine>,
    unit: UnitRow,
}

pub(super) async fn metering_units(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let keyed = |line: &UnitLine| line.unit.keyed_in.0;
    let sheet = Sheet::<UnitLine>::new(out.way())
        .text("id", |line| Some(line.unit.id.to_string()))
        .text("seeder_id", |line| Some(line.unit.seeder_id.to_string()))
        .text("seeder", |line| Some(line.unit.seeder.clone()))
        .text("serial_number", |line| line.seeder.row.serial_number.clone())
        .text("kind", |line| Some(line.seeder.row.kind.clone()))
        .text("commissioned_on", |line| Some(line.seeder.row.commissioned_on.clone()))
        .measured::<Length>("working_width", |line| line.seeder.width())
        .measured::<Length>("row_spacing", |line| line.seeder.spacing())
        .text("metering_unit", |line| Some(line.unit.label.clone()))
        .number("runs", |line| Some(line.unit.runs.to_string()))
        .text("drive", |line| Some(line.unit.drive.clone()))
        .number("roller_speed_min [rpm]", |line| line.unit.roller_speed_min.clone())
        .number("roller_speed_max [rpm]", |line| line.unit.roller_speed_max.clone())
        .text("keyed_in_mass_unit", move |line| keyed(line).map(|form| form.mass_unit.word().to_owned()))
        .number("keyed_in_per_revolutions", move |line| keyed(line).map(|form| form.per.count().to_string()))
        .text("keyed_in_for", move |line| keyed(line).map(|form| form.is_for.word().to_owned()));
    out.head(&sheet).await?;
    let mut units: HashMap<Uuid, Vec<UnitRow>> = HashMap::new();
    for unit in all_units(signed).await? {
        units.entry(unit.seeder_id).or_default().push(unit);
    }
    for row in all_seeders(signed).await? {
        let of_it = units.remove(&row.id).unwrap_or_default();
        let seeder = std::sync::Arc::new(SeederLine::of(signed, row).await?);
        for unit in of_it {
            out.row(&sheet, &UnitLine { seeder: std::sync::Arc::clone(&seeder), unit }).await?;
        }
    }
    Ok(())
}

pub(super) async fn rollers(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let sheet = Sheet::<RollerRow>::new(out.way())
        .text("id", |row| Some(row.id.to_string()))
        .text("label", |row| Some(row.label.clone()))
        .text("kind", |row| Some(row.kind.clone()))
        .measured::<Volume>("displacement_per_rev", |row| row.displacement.as_deref());
    out.head(&sheet).await?;
    pages!(out, signed, sheet, |cx, scope, asked| roller::page_of_rollers(cx, scope, asked));
    Ok(())
}

async fn all_scales(signed: &Signed) -> Result<Vec<ScaleRow>, Error> {
    scale::scales(&mut signed.app.read().await?.cx(), &signed.actor.scope).await
}

pub(super) async fn scales(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let sheet = Sheet::<ScaleRow>::new(out.way())
        .text("id", |row| Some(row.id.to_string()))
        .text("scale", |row| Some(row.name.clone()))
        .measured::<Mass>("readability", |row| Some(&row.readability))
        .measured::<Mass>("capacity", |row| Some(&row.capacity));
    out.head(&sheet).await?;
    for row in all_scales(signed).await? {
        out.row(&sheet, &row).await?;
    }
    Ok(())
}

/// Names by id, of scales.
pub(super) async fn scale_names(signed: &Signed) -> Result<HashMap<Uuid, String>, Error> {
    Ok(all_scales(signed).await?.into_iter().map(|scale| (scale.id, scale.name)).collect())
}

pub(super) async fn scale_checks(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let names = scale_names(signed).await?;
    let sheet = Sheet::<CheckRow>::new(out.way())
        .head(&signed.actor.scope, |row| &row.head)
        .text("scale", |row| names.get(&row.scale_id).cloned())
        .measured::<Mass>("reference", |row| Some(&row.reference))
        .measured::<Mass>("reading", |row| Some(&row.reading))
        .text("reference_identity", |row| row.reference_identity.clone())
        .text("certificate", |row| row.certificate.clone());
    out.head(&sheet).await?;
    for scale in all_scales(signed).await? {
        let id = ScaleId(scale.id);
        pages!(out, signed, sheet, |cx, scope, asked| scale::page_of_checks(cx, scope, id, asked), dated);
    }
    Ok(())
}

pub(super) async fn seasons(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let crops = |row: &SeasonRow| row.crop_list().ok().flatten().map(|crops| crops.join("; "));
    let sheet = Sheet::<SeasonRow>::new(out.way())
        .text("id", |row| Some(row.id.to_string()))
        .text("season", |row| Some(row.name.clone()))
        .text("starts_on", |row| Some(row.starts_on.clone()))
        .text("crops", crops);
    out.head(&sheet).await?;
    pages!(out, signed, sheet, |cx, scope, asked| season::page_of_seasons(cx, scope, asked));
    Ok(())
}

pub(super) async fn crews(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let names = |all: &[(Uuid, String)]| Some(all.iter().map(|(_, name)| name.as_str()).collect::<Vec<_>>().join("; "));
    let sheet = Sheet::<Crew>::new(out.way())
        .text("id", |crew| Some(crew.id.to_string()))
        .text("crew", |crew| Some(crew.name.clone()))
        .text("members", move |crew| names(&crew.members))
        .text("seeders", move |crew| names(&crew.seeders));
    out.head(&sheet).await?;
    let crews = crew::crews(&mut signed.app.read().await?.cx(), &signed.actor.scope).await?;
    for crew in crews {
        out.row(&sheet, &crew).await?;
    }
    Ok(())
}

/// Names by id, of seeders.
async fn seeder_names(signed: &Signed) -> Result<HashMap<Uuid, String>, Error> {
    Ok(all_seeders(signed).await?.into_iter().map(|seeder| (seeder.id, seeder.name)).collect())
}

/// Seeder and label by id, of units.
pub(super) async fn unit_names(signed: &Signed) -> Result<HashMap<Uuid, (String, String)>, Error> {
    Ok(all_units(signed).await?.into_iter().map(|unit| (unit.id, (unit.seeder, unit.label))).collect())
}

pub(super) async fn configurations(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let names = seeder_names(signed).await?;
    let sheet = Sheet::<ConfigurationRow>::new(out.way())
        .head(&signed.actor.scope, |row| &row.head)
        .text("seeder", |row| names.get(&row.seeder_id).cloned())
        .measured::<Length>("working_width", |row| Some(&row.working_width))
        .measured::<Length>("row_spacing", |row| Some(&row.row_spacing));
    out.head(&sheet).await?;
    for seeder in all_seeders(signed).await? {
        let id = SeederId(seeder.id);
        pages!(
            out,
            signed,
            sheet,
            |cx, scope, asked| configuration::page_of_configurations(cx, scope, id, asked),
            dated
        );
    }
    Ok(())
}

pub(super) async fn setups(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let names = unit_names(signed).await?;
    let sheet = Sheet::<SetupRow>::new(out.way())
        .head(&signed.actor.scope, |row| &row.head)
        .text("seeder", |row| names.get(&row.metering_unit_id).map(|(seeder, _)| seeder.clone()))
        .text("metering_unit", |row| names.get(&row.metering_unit_id).map(|(_, unit)| unit.clone()))
        .text("roller", |row| Some(row.roller.clone()))
        .text("drive_ratio", |row| Some(row.drive_ratio.clone()))
        .text("gate", |row| row.gate.clone())
        .number("runs", |row| Some(row.runs.to_string()))
        .text("note", |row| row.head.told_owned(&row.note, &signed.actor.scope));
    out.head(&sheet).await?;
    for unit in all_units(signed).await? {
        pages!(out, signed, sheet, |cx, scope, asked| setup::page_of_setups(cx, scope, unit.id(), asked), dated);
    }
    Ok(())
}

pub(super) async fn services(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let (seeders, units) = (seeder_names(signed).await?, unit_names(signed).await?);
    let sheet = Sheet::<ServiceRow>::new(out.way())
        .head(&signed.actor.scope, |row| &row.head)
        .text("seeder", |row| seeders.get(&row.seeder_id).cloned())
        .text("metering_unit", |row| units.get(&row.metering_unit_id?).map(|(_, unit)| unit.clone()))
        .text("component", |row| Some(row.component.clone()))
        .text("affects_metering", |row| Some(yes_no(row.affects_metering)))
        .text("note", |row| row.head.told_owned(&row.note, &signed.actor.scope));
    out.head(&sheet).await?;
    for seeder in all_seeders(signed).await? {
        let id = SeederId(seeder.id);
        pages!(out, signed, sheet, |cx, scope, asked| service::page_of_services(cx, scope, id, asked), dated);
    }
    Ok(())
}

pub(super) async fn lay_ups(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let names = seeder_names(signed).await?;
    let sheet = Sheet::<LayUpRow>::new(out.way())
        .head(&signed.actor.scope, |row| &row.head)
        .text("seeder", |row| names.get(&row.seeder_id).cloned())
        .text("laid_up", |row| Some(yes_no(row.laid_up)))
        .text("note", |row| row.head.told_owned(&row.note, &signed.actor.scope));
    out.head(&sheet).await?;
    for seeder in all_seeders(signed).await? {
        let id = SeederId(seeder.id);
        pages!(out, signed, sheet, |cx, scope, asked| lay_up::page_of_lay_ups(cx, scope, id, asked), dated);
    }
    Ok(())
}
