//! The lists that are judged or kept beside the records: readiness now and what was let pass, where the seed went and who
//! signed it, the audit trail.

use super::fleet::{all_units, unit_names};
use super::out::Out;
use super::pages;
use super::seed::lot_names;
use super::sheet::Sheet;
use crate::audit::{self, StoredLine};
use crate::hex;
use crate::readiness::act::{UnitNow, board};
use crate::readiness::waiver::{WaiverRow, page_of_waivers};
use crate::records::head::moment;
use crate::usage::act::{JobUse, usage as judged};
use crate::usage::signing::act::{Signature, page_of_signatures};
use crate::web::door::Signed;
use crate::web::error::Error;
use sowmark_core::quantity::unit::dimension::{Area, Mass, MeterFactor, Rate};
use sowmark_core::readiness::Readiness;

pub(super) async fn readiness(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let now = signed.app.clock.now();
    let board = board(&mut signed.app.read().await?.cx(), &signed.actor, now, None).await?;
    let (lots, names) = (lot_names(signed).await?, &board.names);
    let in_force = |unit: &UnitNow| unit.readiness.in_force;
    let sheet = Sheet::<UnitNow>::new(out.way())
        .text("at", move |_| Some(now.to_string()))
        .text("metering_unit_id", |unit| Some(unit.unit.id.to_string()))
        .text("seeder", |unit| Some(unit.unit.seeder.clone()))
        .text("metering_unit", |unit| Some(unit.unit.label.clone()))
        .text("state", |unit| Some(unit.readiness.state.as_str().to_owned()))
        .text("lot_number", |unit| lots.get(&unit.readiness.lot?.0).map(|(number, _)| number.clone()))
        .text("crop", |unit| lots.get(&unit.readiness.lot?.0).map(|(_, crop)| crop.clone()))
        .text("calibration_id", move |unit| Some(names.told(in_force(unit)?.calibration.0)?.to_string()))
        .text("in_force_since", move |unit| Some(in_force(unit)?.since.to_string()))
        .computed::<MeterFactor>("factor_per_run", move |unit| Some(in_force(unit)?.factor))
        .computed::<MeterFactor>("factor_unit_total", move |unit| Some(in_force(unit)?.factor_unit_total))
        .plain("expanded_uncertainty [%]", |unit| Some(unit.factor(names)?.expanded_uncertainty_percent))
        .text("due", |unit| Some(triggers(&unit.readiness, false)))
        .text("let_pass", |unit| Some(triggers(&unit.readiness, true)))
        .text("says", |unit| Some(unit.says.join(" ")));
    out.head(&sheet).await?;
    for unit in &board.units {
        out.row(&sheet, unit).await?;
    }
    Ok(())
}

/// The triggers that were let pass, or those that were not.
fn triggers(readiness: &Readiness, let_pass: bool) -> String {
    let named = readiness.due.iter().filter(|due| due.waived.is_some() == let_pass);
    named.map(|due| due.trigger.as_str()).collect::<Vec<_>>().join("; ")
}

pub(super) async fn waivers(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let (names, scope) = (unit_names(signed).await?, &signed.actor.scope);
    let sheet = Sheet::<WaiverRow>::new(out.way())
        .head(scope, |row| &row.head)
        .text("seeder", |row| names.get(&row.metering_unit_id).map(|(seeder, _)| seeder.clone()))
        .text("metering_unit", |row| names.get(&row.metering_unit_id).map(|(_, unit)| unit.clone()))
        .text("trigger", |row| Some(row.trigger_name.clone()))
        .text("until", |row| Some(moment(row.until_at).to_string()))
        .text("reason", |row| row.head.told_owned(&row.reason, scope));
    out.head(&sheet).await?;
    for unit in all_units(signed).await? {
        let id = unit.id();
        pages!(out, signed, sheet, |cx, scope, asked| page_of_waivers(cx, scope, id, asked), dated);
    }
    Ok(())
}

pub(super) async fn signatures(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let asked = |signature: &Signature, name: &str| signature.asked[name].as_str().map(str::to_owned);
    let sheet = Sheet::<Signature>::new(out.way())
        .text("id", |signature| Some(signature.row.head.id.to_string()))
        .text("signed_at", |signature| Some(moment(signature.row.head.recorded_at).to_string()))
        .text("signed_by", |signature| signature.row.head.recorded_by_name.clone())
        .text("from", move |signature| asked(signature, "from"))
        .text("to", move |signature| asked(signature, "to"))
        .text("seeder", |signature| signature.asked_of.seeder.clone())
        .text("lot", |signature| signature.asked_of.lot.clone())
        .text("field", |signature| signature.asked_of.field.clone())
        .text("client", |signature| signature.asked_of.client.clone())
        .text("crew", |signature| signature.asked_of.crew.clone())
        .text("limited_to", |signature| Some(signature.asked_of.limited_to.join("; ")))
        .text("remark", |signature| Some(signature.row.remark.clone()))
        .number("chain_seq", |signature| Some(signature.row.chain_seq.to_string()))
        .text("chain_head", |signature| Some(hex::written(&signature.row.chain_head)));
    out.head(&sheet).await?;
    let actor = &signed.actor;
    pages!(@ out, signed, sheet, cx, _scope, asked, page_of_signatures(cx, actor, asked),
        found, out.is_asked(found.row.head.recorded_at));
    Ok(())
}

pub(super) async fn usage(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let asked = out.way().asked.clone();
    let usage = judged(&mut signed.app.read().await?.cx(), signed, &asked).await?;
    let lots = lot_names(signed).await?;
    let percent = |share: f64| 100.0 * share;
    let sheet = Sheet::<JobUse>::new(out.way())
        .text("job_id", |job| Some(job.row.head.id.to_string()))
        .text("occurred_at", |job| Some(job.row.head.stamp().rfc3339()))
        .text("recorded_by", |job| job.row.head.recorded_by_name.clone())
        .text("seeder", |job| Some(job.row.seeder.clone()))
        .text("metering_unit", |job| Some(job.row.unit.clone()))
        .text("field", |job| Some(job.row.field().to_owned()))
        .text("lot_number", |job| lots.get(&job.row.lot_id).map(|(number, _)| number.clone()))
        .text("crop", |job| lots.get(&job.row.lot_id).map(|(_, crop)| crop.clone()))
        .measured::<Area>("area", |job| Some(&job.row.area))
        .measured::<Mass>("seed_used", |job| Some(&job.row.seed_used))
        .text("seed_used_basis", |job| Some(job.row.seed_used_basis.clone()))
        .computed::<Rate>("actual_rate", |job| Some(job.came_to?.rate))
        .measured::<Rate>("target_rate", |job| Some(&job.row.target_rate))
        .plain("deviation [%]", move |job| Some(percent(job.came_to?.deviation)))
        .plain("rate_uncertainty [%]", move |job| Some(percent(job.came_to?.uncertainty?)))
        .plain("seeds [1/m2]", |job| job.came_to?.seeds_per_m2)
        .plain("plants [1/m2]", |job| job.plants_per_m2)
        .text("calibration_id", |job| {
            Some(usage.names.told(job.readiness.in_force.as_ref()?.calibration.0)?.to_string())
        })
        .text("calibration_valid", |job| Some(super::fleet::yes_no(job.was_true())))
        .text("due", |job| Some(triggers(&job.readiness, false)))
        .text("let_pass", |job| Some(triggers(&job.readiness, true)));
    out.head(&sheet).await?;
    for job in &usage.jobs {
        out.row(&sheet, job).await?;
    }
    Ok(())
}

pub(super) async fn audit(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let sheet = Sheet::<StoredLine>::new(out.way())
        .number("seq", |line| Some(line.seq.to_string()))
        .text("at", |line| Some(moment(line.at).to_string()))
        .text("who", |line| line.name.clone())
        .text("email", |line| line.email.clone())
        .text("action", |line| Some(line.action.clone()))
        .text("subject_kind", |line| Some(line.subject_kind.clone()))
        .text("subject_id", |line| (!line.is_withheld()).then(|| line.subject_id.to_string()))
        .text("change", |line| (!line.is_withheld()).then(|| line.change.clone()))
        .text("hash", |line| Some(hex::written(&line.hash)))
        .text("previous_hash", |line| Some(hex::written(&line.previous_hash)));
    out.head(&sheet).await?;
    let mut seq = 0;
    loop {
        let organization = signed.actor.organization();
        let mut conn = signed.app.read().await?;
        let lines = audit::after(&mut conn.cx(), organization, seq, 500).await?;
        let Some(last) = lines.last() else { return Ok(()) };
        seq = last.seq;
        let lines = audit::told(&mut conn.cx(), &signed.actor, lines).await?;
        drop(conn);
        for line in &lines {
            if out.is_asked(line.at) {
                out.row(&sheet, line).await?;
            }
        }
    }
}
