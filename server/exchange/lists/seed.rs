//! The lists of the seed: clients, fields, lots, what was measured and moved of them, tanks and jobs.

use super::fleet::{all_units, yes_no};
use super::out::Out;
use super::pages;
use super::sheet::Sheet;
use crate::access::Role;
use crate::records::head::moment;
use crate::seed::client::act as client;
use crate::seed::client::store::ClientRow;
use crate::seed::field::act as field;
use crate::seed::field::store::FieldRow;
use crate::seed::job::act as job;
use crate::seed::job::store::JobRow;
use crate::seed::lot::act as lot;
use crate::seed::lot::store::LotRow;
use crate::seed::lot_test::act as lot_test;
use crate::seed::lot_test::store::LotTestRow;
use crate::seed::movement::act as movement;
use crate::seed::movement::store::MovementRow;
use crate::seed::tank::act as tank;
use crate::seed::tank::store::{EmptyingRow, FillRow};
use crate::web::door::Signed;
use crate::web::error::Error;
use sowmark_core::ids::LotId;
use sowmark_core::quantity::unit::dimension::{Area, BulkDensity, Mass, Rate, SeedWeight, Speed};
use std::collections::HashMap;
use uuid::Uuid;

pub(super) async fn clients(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let sheet = Sheet::<ClientRow>::new(out.way())
        .text("id", |row| Some(row.id.to_string()))
        .text("client", |row| Some(row.name.clone()));
    out.head(&sheet).await?;
    pages!(out, signed, sheet, |cx, scope, asked| client::page_of_clients(cx, scope, asked));
    Ok(())
}

pub(super) async fn fields(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let sheet = Sheet::<FieldRow>::new(out.way())
        .text("id", |row| Some(row.id.to_string()))
        .text("field", |row| Some(row.name.clone()))
        .measured::<Area>("area", |row| Some(&row.area))
        .text("client", |row| row.client_name.clone());
    out.head(&sheet).await?;
    pages!(out, signed, sheet, |cx, scope, asked| field::page_of_fields(cx, scope, asked));
    Ok(())
}

pub(super) async fn lots(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let sheet = Sheet::<LotRow>::new(out.way())
        .text("id", |row| Some(row.id.to_string()))
        .text("lot_number", |row| Some(row.lot_number.clone()))
        .text("material", |row| Some(row.material.clone()))
        .text("crop", |row| Some(row.crop.clone()))
        .text("variety", |row| row.variety.clone())
        .text("supplier", |row| row.supplier.clone())
        .text("received_on", |row| row.received_on.clone())
        .measured::<Mass>("received_mass", |row| row.received_mass.as_deref())
        .text("treatment_product", |row| row.treatment_product.clone())
        .text("treatment_caution", |row| row.treatment_caution.clone())
        .number("purity [%]", |row| row.purity_percent.clone())
        .number("germination [%]", |row| row.germination_percent.clone())
        .text("tested_on", |row| row.tested_on.clone())
        .text("origin", |row| row.label.origin.clone())
        .text("category", |row| row.label.category.clone())
        .text("certifying_authority", |row| row.label.certifying_authority.clone())
        .text("serial_number", |row| row.label.serial_number.clone())
        .text("sealed_in", |row| row.label.sealed_in.clone())
        .measured::<Mass>("declared_weight", |row| row.label.declared_weight.as_deref())
        .number("containers", |row| row.label.containers.map(|count| count.to_string()))
        .text("hermetic", |row| row.label.hermetic.map(|is| is.to_string()))
        .number("hard_seed [%]", |row| row.label.hard_seed_percent.clone())
        .number("other_crop [%]", |row| row.label.other_crop_percent.clone())
        .number("weed_seed [%]", |row| row.label.weed_seed_percent.clone())
        .number("inert_matter [%]", |row| row.label.inert_matter_percent.clone())
        .text("noxious_weeds", |row| row.label.noxious_weeds.clone())
        .text("components", |row| row.label.components.clone())
        .text("additives", |row| row.label.additives.clone())
        .text("inoculant_expires", |row| row.label.inoculant_expires.clone())
        .text("test_report", |row| row.label.test_report.clone())
        .text("client", |row| row.client_name.clone());
    out.head(&sheet).await?;
    pages!(out, signed, sheet, |cx, scope, asked| lot::page_of_lots(cx, scope, asked));
    Ok(())
}

/// The lots that somebody sees.
async fn all_lots(signed: &Signed) -> Result<Vec<LotRow>, Error> {
    lot::lots(&mut signed.app.read().await?.cx(), &signed.actor.scope).await
}

/// Number and crop by id.
pub(super) async fn lot_names(signed: &Signed) -> Result<HashMap<Uuid, (String, String)>, Error> {
    Ok(all_lots(signed).await?.into_iter().map(|lot| (lot.id, (lot.lot_number, lot.crop))).collect())
}

pub(super) async fn lot_tests(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let names = lot_names(signed).await?;
    let sheet = Sheet::<LotTestRow>::new(out.way())
        .head(&signed.actor.scope, |row| &row.head)
        .text("lot_number", |row| names.get(&row.lot_id).map(|(number, _)| number.clone()))
        .text("crop", |row| names.get(&row.lot_id).map(|(_, crop)| crop.clone()))
        .measured::<SeedWeight>("thousand_seed_weight", |row| row.thousand_seed_weight.as_deref())
        .measured::<BulkDensity>("bulk_density", |row| row.bulk_density.as_deref())
        .number("germination [%]", |row| row.germination_percent.clone())
        .number("purity [%]", |row| row.purity_percent.clone())
        .number("moisture [%]", |row| row.moisture_percent.clone());
    out.head(&sheet).await?;
    for lot in all_lots(signed).await? {
        let id = LotId(lot.id);
        pages!(out, signed, sheet, |cx, scope, asked| lot_test::page_of_lot_tests(cx, scope, id, asked), dated);
    }
    Ok(())
}

pub(super) async fn movements(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let names = lot_names(signed).await?;
    let sheet = Sheet::<MovementRow>::new(out.way())
        .head(&signed.actor.scope, |row| &row.head)
        .text("lot_number", |row| names.get(&row.lot_id).map(|(number, _)| number.clone()))
        .text("crop", |row| names.get(&row.lot_id).map(|(_, crop)| crop.clone()))
        .text("kind", |row| Some(row.moved.clone()))
        .measured::<Mass>("mass", |row| Some(&row.mass))
        .text("note", |row| Some(row.note.clone()));
    out.head(&sheet).await?;
    for lot in all_lots(signed).await? {
        let id = LotId(lot.id);
        pages!(out, signed, sheet, |cx, scope, asked| movement::page_of_movements(cx, scope, id, asked), dated);
    }
    Ok(())
}

pub(super) async fn fills(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let names = lot_names(signed).await?;
    let sheet = Sheet::<FillRow>::new(out.way())
        .head(&signed.actor.scope, |row| &row.head)
        .text("seeder", |row| Some(row.seeder.clone()))
        .text("metering_unit", |row| Some(row.unit.clone()))
        .text("lot_number", |row| names.get(&row.lot_id).map(|(number, _)| number.clone()))
        .text("crop", |row| names.get(&row.lot_id).map(|(_, crop)| crop.clone()))
        .measured::<Mass>("mass", |row| row.mass.as_deref());
    out.head(&sheet).await?;
    for unit in all_units(signed).await? {
        pages!(out, signed, sheet, |cx, scope, asked| tank::page_of_fills(cx, scope, unit.id(), asked), dated);
    }
    Ok(())
}

pub(super) async fn emptyings(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let names = lot_names(signed).await?;
    let sheet = Sheet::<EmptyingRow>::new(out.way())
        .head(&signed.actor.scope, |row| &row.head)
        .text("seeder", |row| Some(row.seeder.clone()))
        .text("metering_unit", |row| Some(row.unit.clone()))
        .text("lot_number", |row| names.get(&row.lot_id).map(|(number, _)| number.clone()))
        .text("crop", |row| names.get(&row.lot_id).map(|(_, crop)| crop.clone()))
        .measured::<Mass>("mass", |row| row.mass.as_deref())
        .text("to_empty", |row| Some(yes_no(row.to_empty)));
    out.head(&sheet).await?;
    for unit in all_units(signed).await? {
        pages!(out, signed, sheet, |cx, scope, asked| tank::page_of_emptyings(cx, scope, unit.id(), asked), dated);
    }
    Ok(())
}

/// When a job ended, with the offset that its beginning was stated with.
fn ended(row: &JobRow) -> Option<String> {
    let offset_seconds = row.head.stamp().offset_seconds;
    Some(crate::clock::Stamp { at: moment(row.ended_at?), offset_seconds }.rfc3339())
}

pub(super) async fn jobs(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let names = lot_names(signed).await?;
    let sheet = Sheet::<JobRow>::new(out.way())
        .head(&signed.actor.scope, |row| &row.head)
        .text("ended_at", ended)
        .text("seeder", |row| Some(row.seeder.clone()))
        .text("metering_unit", |row| Some(row.unit.clone()))
        .text("field", |row| Some(row.field().to_owned()))
        .text("lot_number", |row| names.get(&row.lot_id).map(|(number, _)| number.clone()))
        .text("crop", |row| names.get(&row.lot_id).map(|(_, crop)| crop.clone()))
        .measured::<Area>("area", |row| Some(&row.area))
        .measured::<Mass>("seed_used", |row| Some(&row.seed_used))
        .text("seed_used_basis", |row| Some(row.seed_used_basis.clone()))
        .measured::<Rate>("target_rate", |row| Some(&row.target_rate))
        .measured::<Speed>("speed", |row| row.speed.as_deref())
        .text("note", |row| Some(row.note.clone()));
    out.head(&sheet).await?;
    let (account, only_own) = (signed.actor.account.0, signed.actor.role == Role::Crew);
    for unit in all_units(signed).await? {
        pages!(out, signed, sheet, |cx, scope, asked| job::page_of_jobs(cx, scope, unit.id(), asked), dated,
            row: !only_own || row.head.recorded_by == Some(account));
    }
    Ok(())
}
