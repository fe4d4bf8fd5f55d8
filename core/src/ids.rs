//! Identifiers: one type per kind of thing, so that a seeder's id cannot stand where a metering unit's is meant.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident;)*) => { $(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub Uuid);

        impl From<Uuid> for $name {
            fn from(id: Uuid) -> Self {
                Self(id)
            }
        }

        impl From<$name> for Uuid {
            fn from(id: $name) -> Self {
                id.0
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                self.0.fmt(f)
            }
        }
    )* };
}

ids! {
    /// A farm business or contractor.
    OrganizationId;
    /// A person's account.
    AccountId;
    /// Whose fields and seed they are, where an organization sows for others.
    ClientId;
    /// A team of people who see and log for the seeders assigned to it.
    CrewId;
    /// One machine.
    SeederId;
    /// One roller line under one tank of a seeder.
    MeteringUnitId;
    /// A meter roller.
    RollerId;
    /// A seed lot.
    LotId;
    /// A named season.
    SeasonId;
    /// A balance.
    ScaleId;
    /// A field.
    FieldId;
    /// Any append-only record, where its kind does not matter.
    RecordId;
    /// A calibration event.
    CalibrationId;
}
