//! A calibration as it is kept, and the computation of it again.
//!
//! Sheet, circumstances and judgement are JSON; the judgement must follow from the other two by computation alone,
//! whatever has changed since ([`recheck`]). What became of a calibration is no column: it follows from its verdict and
//! from the decisions and voids that stand.

use super::store::Texts;
use super::weigh::{RestsOn, Weighed};
use crate::records::head::Head;
use crate::web::error::Error;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use sowmark_core::catch::Sheet;
use sowmark_core::circumstances::Circumstances;
use sowmark_core::verdict::{Judgement, Verdict, judge};
use uuid::Uuid;

/// A calibration's row.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Row {
    #[sqlx(flatten)]
    pub head: Head,
    pub metering_unit_id: Uuid,
    pub seeder_id: Uuid,
    pub lot_id: Uuid,
    pub scale_id: Option<Uuid>,
    pub method: String,
    pub roller_speed_rpm: Option<String>,
    pub planned_rate: Option<String>,
    pub planned_speed: Option<String>,
    /// As entered.
    pub air_temperature: Option<String>,
    pub relative_humidity_percent: Option<String>,
    pub tank_fill_percent: Option<String>,
    pub place: Option<String>,
    pub checked_by: Option<String>,
    pub note: String,
    pub sheet: String,
    pub circumstances: String,
    pub judgement: String,
    pub verdict: String,
}

/// A decision's row.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Decided {
    #[sqlx(flatten)]
    pub head: Head,
    pub calibration_id: Uuid,
    pub decision: String,
    pub reason: String,
}

/// What became of a calibration.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    Accepted,
    Held,
    Rejected,
    Void,
}

impl Status {
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Accepted => "accepted",
            Self::Held => "held",
            Self::Rejected => "rejected",
            Self::Void => "void",
        }
    }

    /// Of a calibration that nobody has decided about.
    #[must_use]
    pub fn by_verdict(verdict: Verdict) -> Self {
        if verdict == Verdict::Fail { Self::Held } else { Self::Accepted }
    }
}

/// A calibration read back.
#[derive(Clone, Debug)]
pub struct Calibration {
    pub row: Row,
    pub sheet: Sheet,
    pub circumstances: Circumstances,
    pub rests_on: RestsOn,
    pub judgement: Judgement,
    /// Every decision about it, first ones first, those that no longer stand among them.
    pub decisions: Vec<Decided>,
}

impl Calibration {
    /// Reads a row back, with those of `decisions` that are about it.
    ///
    /// # Errors
    /// When the row is not what this program writes.
    pub fn read(row: Row, decisions: &[Decided]) -> Result<Self, Error> {
        let decisions = decisions.iter().filter(|decided| decided.calibration_id == row.head.id).cloned().collect();
        Ok(Self {
            sheet: json("calibration.sheet", &row.sheet)?,
            circumstances: json("calibration.circumstances", &row.circumstances)?,
            rests_on: rests_on(&row.circumstances)?,
            judgement: json("calibration.judgement", &row.judgement)?,
            row,
            decisions,
        })
    }

    #[must_use]
    pub fn status(&self) -> Status {
        if !self.row.head.stands() {
            return Status::Void;
        }
        match self.decisions.iter().rfind(|decided| decided.head.stands()).map(|decided| decided.decision.as_str()) {
            Some("rejected") => Status::Rejected,
            Some(_) => Status::Accepted,
            None => Status::by_verdict(self.judgement.verdict),
        }
    }
}

const RESTS_ON: &str = "rests_on";

/// What is stored. The records that the judgement rests on stand inside the circumstances; whoever reads those reads
/// past them.
///
/// # Errors
/// None that a judgement could cause.
pub(super) fn texts(weighed: &Weighed) -> Result<Texts, Error> {
    let mut circumstances = serde_json::to_value(&weighed.circumstances)?;
    if let Value::Object(fields) = &mut circumstances {
        fields.insert(RESTS_ON.to_owned(), serde_json::to_value(weighed.rests_on)?);
    }
    Ok(Texts {
        sheet: serde_json::to_string(&weighed.sheet)?,
        circumstances: circumstances.to_string(),
        judgement: serde_json::to_string(&weighed.judgement)?,
        verdict: word(&weighed.judgement.verdict)?,
    })
}

fn rests_on(circumstances: &str) -> Result<RestsOn, Error> {
    let fields: Value = json("calibration.circumstances", circumstances)?;
    match fields.get(RESTS_ON) {
        Some(found) => Ok(serde_json::from_value(found.clone())?),
        None => Ok(RestsOn::default()),
    }
}

fn json<T: DeserializeOwned>(place: &str, text: &str) -> Result<T, Error> {
    serde_json::from_str(text).map_err(|_| Error::inconsistent(place, text))
}

/// The word for a value of a closed list of `core`.
///
/// # Errors
/// None for such a value.
pub fn word<T: Serialize>(value: &T) -> Result<String, Error> {
    match serde_json::to_value(value)? {
        Value::String(word) => Ok(word),
        other => Err(Error::inconsistent("a word", &other.to_string())),
    }
}

/// Computes a stored calibration again, from its stored sheet and circumstances.
///
/// # Errors
/// A sentence on what cannot be read, or on what comes out otherwise now.
pub fn recheck(sheet: &str, circumstances: &str, judgement: &str) -> Result<(), String> {
    let unreadable = |what: &str| format!("the stored {what} cannot be read");
    let sheet: Sheet = serde_json::from_str(sheet).map_err(|_| unreadable("sheet"))?;
    let circumstances: Circumstances = serde_json::from_str(circumstances).map_err(|_| unreadable("circumstances"))?;
    let stored: Judgement = serde_json::from_str(judgement).map_err(|_| unreadable("judgement"))?;
    let again = judge(&sheet, &circumstances).map_err(|_| "the stored sheet can no longer be judged".to_owned())?;
    if again.agrees_with(&stored) {
        Ok(())
    } else {
        Err(format!("the stored factor is {} kg/rev, computed again it is {} kg/rev", stored.factor, again.factor))
    }
}
