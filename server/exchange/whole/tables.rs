//! What an organization consists of: every table and column of the export, in the order in which they can be put in again.
//!
//! A test compares this list with the tables that the migrations make: what is neither here nor in [`LEFT_OUT`] fails it,
//! so a new column cannot stay behind unnoticed. The column `organization_id` stands in no list: the whole file is one
//! organization's, and its head says which.

use crate::web::month::Month;
use sowmark_core::quantity::unit::dimension::{Area, BulkDensity, Length, Mass, Rate, SeedWeight, Speed, Volume};
use sowmark_core::quantity::{Decimal, Dimension, DriveRatio, Quantity, Temperature};
use sowmark_core::readiness::Trigger;

/// A table.
#[derive(Debug)]
pub struct Table {
    pub name: &'static str,
    pub key: Key,
    pub columns: &'static [Column],
}

/// What a table's rows are ordered by: the same in every database.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    /// The organization's own row.
    Itself,
    /// The accounts that the other tables name.
    Accounts,
    /// An id beside the organization.
    Id(&'static str),
    /// A number beside the organization.
    Number(&'static str),
    /// Several columns beside the organization; such a table is read at once.
    Several(&'static [&'static str]),
}

/// A column.
#[derive(Debug)]
pub struct Column {
    pub name: &'static str,
    pub holds: Holds,
    pub optional: bool,
}

/// What a column holds, and how it is written: an id as its text, a moment in RFC 3339, bytes as hexadecimal digits.
#[derive(Clone, Copy, Debug)]
pub enum Holds {
    Id,
    /// The id of an account.
    Account,
    Whole {
        least: i64,
        most: i64,
    },
    /// Microseconds since 1970.
    Time,
    Flag,
    Text,
    /// A text with JSON in it, kept to the letter: hashes are made of it.
    Json,
    /// A text that must pass.
    Checked(fn(&str) -> bool),
    /// A quantity as entered; answers its SI value.
    Measured(fn(&str) -> Option<f64>),
    /// The SI value of the quantity in another column of the row.
    Si {
        of: &'static str,
    },
    Real,
    Bytes,
}

const fn must(name: &'static str, holds: Holds) -> Column {
    Column { name, holds, optional: false }
}

const fn may(name: &'static str, holds: Holds) -> Column {
    Column { name, holds, optional: true }
}

const fn whole(least: i64, most: i64) -> Holds {
    Holds::Whole { least, most }
}

const OFFSET: Holds = whole(-93_600, 93_600);
const SEQ: Holds = whole(0, 9_007_199_254_740_991);
const RUNS: Holds = whole(1, 10_000);
const DATE: Holds = Holds::Checked(|text| text.parse::<jiff::civil::Date>().is_ok_and(|date| date.to_string() == text));
const MONTH: Holds = Holds::Checked(|text| Month::parse(text).is_some());
const TEMPERATURE: Holds =
    Holds::Checked(|text| Temperature::from_entered(text).is_ok_and(|read| read.entered() == text));
const NUMBER: Holds = Holds::Checked(|text| Decimal::parse(text).is_ok_and(|number| number.to_f64().is_finite()));
const RATIO: Holds = Holds::Checked(|text| DriveRatio::parse(text).is_ok());
const TRIGGER: Holds = Holds::Checked(|text| text.parse::<Trigger>().is_ok());

fn si<D: Dimension>(text: &str) -> Option<f64> {
    let quantity = Quantity::<D>::from_entered(text).ok()?;
    Some(quantity.si()).filter(|si| si.is_finite() && *si >= 0.0)
}

const MASS: Holds = Holds::Measured(si::<Mass>);
const LENGTH: Holds = Holds::Measured(si::<Length>);
const AREA: Holds = Holds::Measured(si::<Area>);
const RATE: Holds = Holds::Measured(si::<Rate>);
const SPEED: Holds = Holds::Measured(si::<Speed>);
const SEED_WEIGHT: Holds = Holds::Measured(si::<SeedWeight>);
const BULK_DENSITY: Holds = Holds::Measured(si::<BulkDensity>);
const VOLUME: Holds = Holds::Measured(si::<Volume>);

use Holds::{Account, Bytes, Flag, Id, Json, Real, Si, Text, Time};

const BY_ID: Key = Key::Id("id");

/// Every table, each after those that it refers to.
pub const TABLES: &[Table] = &[
    Table {
        name: "organization",
        key: Key::Itself,
        columns: &[
            must("id", Id),
            must("name", Text),
            must("time_zone", Text),
            must("units", Text),
            must("seq", SEQ),
            must("created_at", Time),
        ],
    },
    Table {
        name: "account",
        key: Key::Accounts,
        columns: &[
            must("id", Id),
            must("email", Text),
            must("name", Text),
            must("created_at", Time),
            may("units", Text),
            must("decimal_sign", Text),
            may("language", Text),
        ],
    },
    Table {
        name: "membership",
        key: Key::Id("account_id"),
        columns: &[must("account_id", Account), must("role", Text), must("active", Flag), must("created_at", Time)],
    },
    Table {
        name: "entry",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("kind", Text),
            may("occurred_at", Time),
            may("occurred_offset", OFFSET),
            must("recorded_at", Time),
            may("recorded_by", Account),
            must("fingerprint", Bytes),
            may("corrects", Id),
        ],
    },
    Table { name: "void", key: BY_ID, columns: &[must("id", Id), must("record_id", Id), must("reason", Text)] },
    Table {
        name: "conflict",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("entry_id", Id),
            must("kind", Text),
            must("sent", Json),
            must("sent_at", Time),
            may("sent_by", Account),
        ],
    },
    Table {
        name: "sending",
        key: BY_ID,
        columns: &[
            must("id", Id),
            may("sent_at", Time),
            may("sent_offset", OFFSET),
            must("received_at", Time),
            must("device", Text),
        ],
    },
    Table {
        name: "refused",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("sent_by", Account),
            must("kind", Text),
            may("parent_id", Id),
            must("record", Json),
            must("problem", Json),
            must("first_refused_at", Time),
            must("last_refused_at", Time),
            may("ended", Text),
            may("ended_at", Time),
            may("ended_by", Account),
            may("ended_reason", Text),
            must("tried_seq", SEQ),
            may("sent_at", Time),
            may("sent_offset", OFFSET),
            may("received_at", Time),
            may("device", Text),
        ],
    },
    Table { name: "client", key: BY_ID, columns: &[must("id", Id), must("name", Text)] },
    Table {
        name: "membership_client",
        key: Key::Several(&["account_id", "client_id"]),
        columns: &[must("account_id", Account), must("client_id", Id)],
    },
    Table {
        name: "seeder",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("name", Text),
            may("serial_number", Text),
            must("kind", Text),
            must("commissioned_on", DATE),
        ],
    },
    Table {
        name: "metering_unit",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("seeder_id", Id),
            must("position", whole(0, 10_000)),
            must("label", Text),
            must("runs", RUNS),
            must("drive", Text),
            may("roller_speed_min", NUMBER),
            may("roller_speed_max", NUMBER),
            may("key_mass_unit", Text),
            may("key_per_revolutions", whole(1, 100)),
            may("key_for", Text),
        ],
    },
    Table {
        name: "roller",
        key: BY_ID,
        columns: &[must("id", Id), must("label", Text), must("kind", Text), may("displacement", VOLUME)],
    },
    Table {
        name: "configuration",
        key: BY_ID,
        columns: &[must("id", Id), must("seeder_id", Id), must("working_width", LENGTH), must("row_spacing", LENGTH)],
    },
    Table {
        name: "setup",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("metering_unit_id", Id),
            must("roller_id", Id),
            must("drive_ratio", RATIO),
            may("gate", Text),
            must("runs", RUNS),
            must("note", Text),
        ],
    },
    Table {
        name: "service",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("seeder_id", Id),
            may("metering_unit_id", Id),
            must("component", Text),
            must("affects_metering", Flag),
            must("note", Text),
        ],
    },
    Table {
        name: "lay_up",
        key: BY_ID,
        columns: &[must("id", Id), must("seeder_id", Id), must("laid_up", Flag), must("note", Text)],
    },
    Table {
        name: "scale",
        key: BY_ID,
        columns: &[must("id", Id), must("name", Text), must("readability", MASS), must("capacity", MASS)],
    },
    Table {
        name: "scale_check",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("scale_id", Id),
            must("reference", MASS),
            must("reading", MASS),
            may("reference_identity", Text),
            may("certificate", Text),
        ],
    },
    Table {
        name: "season",
        key: BY_ID,
        columns: &[must("id", Id), must("name", Text), must("starts_on", DATE), may("crops", Json)],
    },
    Table { name: "crew", key: BY_ID, columns: &[must("id", Id), must("name", Text)] },
    Table {
        name: "crew_member",
        key: Key::Several(&["crew_id", "account_id"]),
        columns: &[must("crew_id", Id), must("account_id", Account)],
    },
    Table {
        name: "crew_seeder",
        key: Key::Several(&["crew_id", "seeder_id"]),
        columns: &[must("crew_id", Id), must("seeder_id", Id)],
    },
    Table {
        name: "field",
        key: BY_ID,
        columns: &[must("id", Id), must("name", Text), must("area", AREA), may("client_id", Id)],
    },
    Table {
        name: "lot",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("lot_number", Text),
            must("material", Text),
            must("crop", Text),
            may("variety", Text),
            may("supplier", Text),
            may("received_on", DATE),
            may("received_mass", MASS),
            may("received_mass_kg", Si { of: "received_mass" }),
            may("treatment_product", Text),
            may("treatment_caution", Text),
            may("purity_percent", NUMBER),
            may("germination_percent", NUMBER),
            may("tested_on", DATE),
            may("client_id", Id),
            may("origin", Text),
            may("category", Text),
            may("certifying_authority", Text),
            may("serial_number", Text),
            may("sealed_in", MONTH),
            may("declared_weight", MASS),
            may("containers", whole(1, 1_000_000)),
            may("hermetic", Flag),
            may("hard_seed_percent", NUMBER),
            may("other_crop_percent", NUMBER),
            may("weed_seed_percent", NUMBER),
            may("inert_matter_percent", NUMBER),
            may("noxious_weeds", Text),
            may("components", Text),
            may("additives", Text),
            may("inoculant_expires", MONTH),
            may("test_report", Text),
        ],
    },
    Table {
        name: "lot_test",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("lot_id", Id),
            may("thousand_seed_weight", SEED_WEIGHT),
            may("bulk_density", BULK_DENSITY),
            may("germination_percent", NUMBER),
            may("purity_percent", NUMBER),
            may("moisture_percent", NUMBER),
        ],
    },
    Table {
        name: "movement",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("lot_id", Id),
            must("kind", Text),
            must("mass", MASS),
            must("mass_kg", Si { of: "mass" }),
            must("note", Text),
        ],
    },
    Table {
        name: "fill",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("metering_unit_id", Id),
            must("lot_id", Id),
            may("mass", MASS),
            may("mass_kg", Si { of: "mass" }),
        ],
    },
    Table {
        name: "emptying",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("metering_unit_id", Id),
            must("lot_id", Id),
            may("mass", MASS),
            may("mass_kg", Si { of: "mass" }),
            must("to_empty", Flag),
        ],
    },
    Table {
        name: "job",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("metering_unit_id", Id),
            may("ended_at", Time),
            may("field_id", Id),
            may("field_name", Text),
            must("lot_id", Id),
            must("area", AREA),
            must("area_m2", Si { of: "area" }),
            must("seed_used", MASS),
            must("seed_used_kg", Si { of: "seed_used" }),
            must("seed_used_basis", Text),
            must("target_rate", RATE),
            may("speed", SPEED),
            must("note", Text),
        ],
    },
    Table {
        name: "calibration",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("metering_unit_id", Id),
            must("lot_id", Id),
            may("scale_id", Id),
            must("method", Text),
            may("roller_speed_rpm", NUMBER),
            may("planned_rate", RATE),
            may("planned_speed", SPEED),
            may("air_temperature", TEMPERATURE),
            may("relative_humidity_percent", NUMBER),
            may("tank_fill_percent", NUMBER),
            may("place", Text),
            may("checked_by", Text),
            must("note", Text),
            must("sheet", Json),
            must("circumstances", Json),
            must("judgement", Json),
            must("verdict", Text),
            must("factor", Real),
            must("expanded_uncertainty_percent", Real),
        ],
    },
    Table {
        name: "decision",
        key: BY_ID,
        columns: &[must("id", Id), must("calibration_id", Id), must("decision", Text), must("reason", Text)],
    },
    Table {
        name: "waiver",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("metering_unit_id", Id),
            must("trigger_name", TRIGGER),
            must("until_at", Time),
            must("reason", Text),
        ],
    },
    Table { name: "policy", key: BY_ID, columns: &[must("id", Id), must("tolerances", Json)] },
    Table { name: "task_file", key: BY_ID, columns: &[must("id", Id), must("name", Text), must("content", Json)] },
    Table {
        name: "task_match",
        key: BY_ID,
        columns: &[must("id", Id), must("kind", Text), must("name", Text), must("target_id", Id)],
    },
    Table {
        name: "task_import",
        key: Key::Id("job_id"),
        columns: &[
            must("task", Bytes),
            must("turn", whole(0, 1_000_000)),
            must("job_id", Id),
            must("file_id", Id),
            must("content", Json),
        ],
    },
    Table {
        name: "signature",
        key: BY_ID,
        columns: &[
            must("id", Id),
            must("asked", Json),
            must("asked_of", Json),
            must("contents", Json),
            must("chain_seq", SEQ),
            must("chain_head", Bytes),
            must("remark", Text),
        ],
    },
    Table {
        name: "audit",
        key: Key::Number("seq"),
        columns: &[
            must("seq", SEQ),
            must("at", Time),
            may("account_id", Account),
            must("action", Text),
            must("subject_kind", Text),
            must("subject_id", Id),
            must("change", Json),
            must("previous_hash", Bytes),
            must("hash", Bytes),
        ],
    },
];

/// What is not exported, and why. A table as a whole has no column here.
pub const LEFT_OUT: &[(&str, Option<&str>, &str)] = &[
    ("session", None, "who is signed in here is no part of the records, and a session is a way in"),
    ("bearer_token", None, "a token is a way in"),
    ("one_time_link", None, "a link is a way in"),
    ("feed_address", None, "a secret address is a way in: people make one anew where their records go"),
    ("import", None, "a list under way on this server: what came of it are records like others"),
    ("import_entry", None, "a list under way on this server: what came of it are records like others"),
    ("digest_choice", None, "which letters this server sends: people ask for them anew where their records go"),
    ("digest", None, "which letters this server sent"),
    ("digest_stop", None, "links in letters that this server sent"),
    ("account", Some("password_hash"), "a way in: people set a password anew where their records go"),
    ("account", Some("failed_sign_ins"), "about signing in on this server"),
    ("account", Some("sign_in_after"), "about signing in on this server"),
];

/// The table of a name.
#[must_use]
pub fn named(name: &str) -> Option<&'static Table> {
    TABLES.iter().find(|table| table.name == name)
}
