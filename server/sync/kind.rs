//! The kinds that can be logged off line, and the one place that knows which act stores each.

use crate::access::Permission;
use crate::calibration::act::log_calibration;
use crate::calibration::draft::CalibrationDraft;
use crate::db::Outcome;
use crate::db::kind::Kind;
use crate::fleet::scale::act::{CheckDraft, add_check};
use crate::fleet::service::act::{ServiceDraft, add_service};
use crate::fleet::setup::act::{SetupDraft, add_setup};
use crate::seed::job::act::{JobDraft, record_job};
use crate::seed::lot_test::act::{LotTestDraft, record_lot_test};
use crate::seed::tank::act::{EmptyingDraft, FillDraft, record_emptying, record_fill};
use crate::web::door::Signed;
use crate::web::error::{Error, Fault};
use crate::web::input::{self, Input};
use crate::words;
use serde_json::Value;
use sowmark_core::ids::{LotId, MeteringUnitId, ScaleId, SeederId};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{OneOfBuilder, Schema};
use uuid::Uuid;

words! {
    /// What can be logged off line, in the order in which it is taken in: a catch is judged by the setup, the tests and
    /// the scale's checks that are there.
    pub enum Logged {
        Setup = "setup",
        LotTest = "lot_test",
        ScaleCheck = "scale_check",
        Service = "service",
        Fill = "fill",
        Emptying = "emptying",
        Calibration = "calibration",
        Job = "job",
    }
}

impl Logged {
    /// The kind of entry that it is.
    #[must_use]
    pub fn kind(self) -> Kind {
        match self {
            Self::Setup => Kind::Setup,
            Self::LotTest => Kind::LotTest,
            Self::ScaleCheck => Kind::ScaleCheck,
            Self::Service => Kind::Service,
            Self::Fill => Kind::Fill,
            Self::Emptying => Kind::Emptying,
            Self::Calibration => Kind::Calibration,
            Self::Job => Kind::Job,
        }
    }

    /// Who may log it.
    #[must_use]
    pub fn permission(self) -> Permission {
        match self {
            Self::LotTest => Permission::TestLots,
            _ => Permission::Log,
        }
    }

    /// What its parent is.
    #[must_use]
    pub fn parent(self) -> Kind {
        match self {
            Self::Service => Kind::Seeder,
            Self::ScaleCheck => Kind::Scale,
            Self::LotTest => Kind::Lot,
            Self::Setup | Self::Fill | Self::Emptying | Self::Calibration | Self::Job => Kind::MeteringUnit,
        }
    }

    /// Stores a record by the act of its kind.
    ///
    /// # Errors
    /// Those of the act.
    pub async fn record(self, signed: &Signed, parent: Uuid, sent: Value) -> Result<Outcome, Error> {
        let unit = MeteringUnitId(parent);
        match self {
            Self::Setup => add_setup(signed, unit, input::read::<SetupDraft>(&sent)?, sent).await,
            Self::LotTest => record_lot_test(signed, LotId(parent), input::read::<LotTestDraft>(&sent)?, sent).await,
            Self::ScaleCheck => add_check(signed, ScaleId(parent), input::read::<CheckDraft>(&sent)?, sent).await,
            Self::Service => add_service(signed, SeederId(parent), input::read::<ServiceDraft>(&sent)?, sent).await,
            Self::Fill => record_fill(signed, unit, input::read::<FillDraft>(&sent)?, sent).await,
            Self::Emptying => record_emptying(signed, unit, input::read::<EmptyingDraft>(&sent)?, sent).await,
            Self::Calibration => log_calibration(signed, unit, sent).await,
            Self::Job => record_job(signed, unit, input::read::<JobDraft>(&sent)?, sent).await,
        }
    }

    /// What shows to be wrong with a record by reading it, wherever it belongs.
    #[must_use]
    pub fn faults(self, sent: &Value) -> Vec<Fault> {
        match self {
            Self::Setup => faults::<SetupDraft>(sent),
            Self::LotTest => faults::<LotTestDraft>(sent),
            Self::ScaleCheck => faults::<CheckDraft>(sent),
            Self::Service => faults::<ServiceDraft>(sent),
            Self::Fill => faults::<FillDraft>(sent),
            Self::Emptying => faults::<EmptyingDraft>(sent),
            Self::Calibration => faults::<CalibrationDraft>(sent),
            Self::Job => faults::<JobDraft>(sent),
        }
    }

    /// The shapes of the records, one per kind.
    #[must_use]
    pub fn record_schema() -> RefOr<Schema> {
        let shapes = [
            SetupDraft::schema(),
            LotTestDraft::schema(),
            CheckDraft::schema(),
            ServiceDraft::schema(),
            FillDraft::schema(),
            EmptyingDraft::schema(),
            CalibrationDraft::schema(),
            JobDraft::schema(),
        ];
        let one_of = shapes.into_iter().fold(OneOfBuilder::new(), OneOfBuilder::item);
        RefOr::T(Schema::OneOf(one_of.description(Some("The body of the kind's own address, with its id.")).build()))
    }
}

fn faults<D: Input>(sent: &Value) -> Vec<Fault> {
    input::read::<D>(sent).err().map(|error| error.faults()).unwrap_or_default()
}
