//! What an organization must pass: before one that was taken in lasts, in a copy or a backup, and whenever somebody asks. The
//! chain, the judgements and other computed values, each entry's record, and that every page can read it.

use super::sql::{ENTRIES, JUDGED, OTHER_KIND, PAGE, SEQ_AND_ZONE, SIGNED_ELSEWHERE, STATEMENTS, Statements};
use super::tables::Holds;
use crate::access::{Reach, Scope};
use crate::calibration::stored::{recheck, word};
use crate::db::Cx;
use crate::db::cells::{Cell, Cells};
use crate::db::kind::Kind;
use crate::web::error::Error;
use crate::{args, audit, readiness};
use jiff::tz::TimeZone;
use sowmark_core::ids::OrganizationId;
use sowmark_core::verdict::Judgement;
use uuid::Uuid;

/// What was gone through.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Checked {
    /// A sentence for each fault.
    pub faults: Vec<String>,
    /// The end of the audit trail, where the whole of it fits.
    pub head: Option<audit::Head>,
    /// Calibrations computed anew.
    pub calibrations: u64,
    /// Other computed values, computed anew.
    pub values: u64,
}

/// Checks an organization as it stands, in an open transaction or in a snapshot.
///
/// # Errors
/// The database. What is wrong with the organization is no error but a fault.
pub(super) async fn whole(cx: &mut Cx<'_>, organization: OrganizationId) -> Result<Checked, Error> {
    let mut checked = Checked::default();
    let found: Option<(i64, String)> = cx.fetch_optional(SEQ_AND_ZONE, args![organization]).await?;
    let Some((seq, zone)) = found else {
        checked.finds("the organization's own row is not there");
        return Ok(checked);
    };
    checked.chain(cx, organization, seq).await?;
    checked.entries(cx, organization).await?;
    checked.judgements(cx, organization).await?;
    checked.si_values(cx, organization).await?;
    let Ok(zone) = TimeZone::get(&zone) else {
        checked.finds(format!("the time zone {zone:?} is not known here"));
        return Ok(checked);
    };
    let scope = Scope { organization, seeders: Reach::All, lots: Reach::All, clients: Reach::All };
    if let Err(error) = readiness::act::histories(cx, &scope, &zone, None).await {
        error.log();
        checked.finds(format!("the records cannot be read: {error:?}"));
    }
    Ok(checked)
}

#[derive(sqlx::FromRow)]
struct Judged {
    id: Uuid,
    sheet: String,
    circumstances: String,
    judgement: String,
    verdict: String,
    factor: f64,
    expanded_uncertainty_percent: f64,
}

impl Checked {
    fn finds(&mut self, fault: impl Into<String>) {
        self.faults.push(fault.into());
    }

    /// The trail fits, line by line to its end, and so do the audits that were signed upon it.
    async fn chain(&mut self, cx: &mut Cx<'_>, organization: OrganizationId, seq: i64) -> Result<(), Error> {
        match audit::verify(cx, organization).await? {
            Err(line) => {
                self.finds(format!("the audit trail does not fit from its line {line} on: something was changed"));
            }
            Ok(head) if head.seq != seq => self
                .finds(format!("the audit trail has {} lines, but {seq} were written: its end is missing", head.seq)),
            Ok(head) => self.head = Some(head),
        }
        let signed: Vec<(Uuid, i64)> = cx.fetch_all(SIGNED_ELSEWHERE, args![organization]).await?;
        for (id, line) in signed {
            self.finds(format!("the audit {id} was signed upon line {line} of another trail"));
        }
        Ok(())
    }

    /// Every entry is of a kind that there is, a record has its moment, and each has its row in the table of its kind.
    async fn entries(&mut self, cx: &mut Cx<'_>, organization: OrganizationId) -> Result<(), Error> {
        let mut after = Uuid::nil();
        loop {
            let rows: Vec<(Uuid, String, Option<i64>, Option<i64>)> =
                cx.fetch_all(ENTRIES, args![organization, after]).await?;
            let Some((last, ..)) = rows.last() else { break };
            after = *last;
            for (id, word, at, offset) in &rows {
                let Some(kind) = Kind::from_word(word) else {
                    self.finds(format!("the entry {id} is of no known kind"));
                    continue;
                };
                if at.is_some() != offset.is_some() || (kind.is_record() && at.is_none()) {
                    self.finds(format!("the {kind} {id} does not say when it happened"));
                }
            }
        }
        let other: Option<(Uuid,)> = cx.fetch_optional(OTHER_KIND, args![organization]).await?;
        if let Some((id,)) = other {
            self.finds(format!("the entry {id} corrects one of another kind"));
        }
        for statements in STATEMENTS.iter() {
            let Some(astray) = statements.astray else { continue };
            let name = statements.table.name;
            let found: Option<(Uuid,)> = cx.fetch_optional(astray, args![organization, name]).await?;
            if let Some((id,)) = found {
                self.finds(format!("the entry {id} and the table {name} do not agree on what it is"));
            }
        }
        Ok(())
    }

    /// Every judgement follows from its sheet, computed anew, and the columns beside it say the same.
    async fn judgements(&mut self, cx: &mut Cx<'_>, organization: OrganizationId) -> Result<(), Error> {
        let mut after = Uuid::nil();
        loop {
            let rows: Vec<Judged> = cx.fetch_all(JUDGED, args![organization, after]).await?;
            let Some(last) = rows.last() else { return Ok(()) };
            after = last.id;
            for row in &rows {
                self.calibrations += 1;
                if let Err(says) = judgement(row) {
                    self.finds(format!("calibration {}: {says}", row.id));
                }
            }
        }
    }

    /// What stands computed beside a quantity as entered is its SI value.
    async fn si_values(&mut self, cx: &mut Cx<'_>, organization: OrganizationId) -> Result<(), Error> {
        for statements in STATEMENTS.iter() {
            let pairs = si_columns(statements);
            if pairs.is_empty() {
                continue;
            }
            let mut after = Uuid::nil();
            loop {
                let rows: Vec<Cells> = cx.fetch_all(statements.select, args![organization, after]).await?;
                for Cells(cells) in &rows {
                    let id = id_of(cells.first())?;
                    after = id;
                    for (entered, computed, si) in &pairs {
                        let (name, table) = (statements.table.columns[*computed].name, statements.table.name);
                        self.values += 1;
                        let fits = match (&cells[*entered], &cells[*computed]) {
                            (Cell::Null, Cell::Null) => true,
                            (Cell::Text(entered), Cell::Real(found)) => {
                                si(entered).is_some_and(|si| (si - found).abs() <= 1e-9 * si.abs())
                            }
                            _ => false,
                        };
                        if !fits {
                            self.finds(format!("{table} {id}: {name} is not the SI value of what was entered"));
                        }
                    }
                }
                if rows.len() < PAGE {
                    break;
                }
            }
        }
        Ok(())
    }
}

fn judgement(row: &Judged) -> Result<(), String> {
    recheck(&row.sheet, &row.circumstances, &row.judgement)?;
    let judgement: Judgement =
        serde_json::from_str(&row.judgement).map_err(|_| "the stored judgement cannot be read".to_owned())?;
    let agrees = word(&judgement.verdict).is_ok_and(|verdict| verdict == row.verdict)
        && judgement.factor.to_bits() == row.factor.to_bits()
        && judgement.expanded_uncertainty_percent.to_bits() == row.expanded_uncertainty_percent.to_bits();
    if agrees { Ok(()) } else { Err("its factor or verdict is not that of its judgement".to_owned()) }
}

/// Where a quantity as entered stands in a row, where its SI value does, and how the one is made of the other.
type SiColumns = (usize, usize, fn(&str) -> Option<f64>);

fn si_columns(statements: &Statements) -> Vec<SiColumns> {
    let columns = statements.table.columns;
    let found = columns.iter().enumerate().filter_map(|(computed, column)| {
        let Holds::Si { of } = column.holds else { return None };
        let entered = columns.iter().position(|column| column.name == of)?;
        let Holds::Measured(si) = columns[entered].holds else { return None };
        Some((entered, computed, si))
    });
    found.collect()
}

fn id_of(cell: Option<&Cell>) -> Result<Uuid, Error> {
    match cell {
        Some(Cell::Bytes(bytes)) => Uuid::from_slice(bytes).map_err(|_| Error::inconsistent("an id", "other bytes")),
        other => Err(Error::inconsistent("an id", &format!("{other:?}"))),
    }
}
