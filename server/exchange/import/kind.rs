//! What can be taken in from a file: of each kind the columns, where each one's cell goes in the tree that the API takes, and
//! an example for the template.

use crate::access::Units;
use crate::exchange::lists::sheet::Columned;
use crate::words;
use sowmark_core::quantity::unit::dimension;
use sowmark_core::quantity::{Quantity, Temperature, Unit};
use sowmark_core::say;
use sowmark_core::words::Words;

words! {
    /// A kind of records that a file can hold.
    pub enum Imported {
        Seeders = "seeders",
        Lots = "lots",
        Fields = "fields",
        Jobs = "jobs",
        Calibrations = "calibrations",
    }
}

/// What a cell holds.
#[derive(Clone, Copy, Debug)]
pub enum Holds {
    Text,
    /// A number, with the unit that its heading may name.
    Number(&'static str),
    /// A number with one of several units, named in the heading.
    Measured(Measure),
    /// The name of something that is kept, whose id goes into the tree.
    Client,
    Scale,
    Lot,
    /// A kept field, or any name.
    Field,
    Seeder,
    Unit,
    /// Read by no record itself: it helps to tell lots apart, or records that no longer stand.
    Aside,
}

/// A dimension, as far as a column needs it.
#[derive(Clone, Copy, Debug)]
pub struct Measure {
    pub units: fn() -> Vec<&'static str>,
    pub shown: fn(Units) -> &'static str,
    /// What was written, in SI.
    pub si: fn(&str) -> Option<f64>,
}

const fn measure<D: Columned>() -> Measure {
    fn units<D: Columned>() -> Vec<&'static str> {
        D::units().iter().map(Unit::name).collect()
    }
    fn shown<D: Columned>(units: Units) -> &'static str {
        if units == Units::Us { D::US.name() } else { D::METRIC.name() }
    }
    fn si<D: Columned>(text: &str) -> Option<f64> {
        Quantity::<D>::parse_text(text).ok().map(|quantity| quantity.si())
    }
    Measure { units: units::<D>, shown: shown::<D>, si: si::<D> }
}

/// A column.
#[derive(Clone, Copy, Debug)]
pub struct Column {
    pub name: &'static str,
    /// Where its cell goes: `#` is the number of the row's part (a metering unit, a repeat), `@` of the catch in it.
    pub place: &'static str,
    pub holds: Holds,
    pub is_required: bool,
    pub example: &'static str,
}

impl Column {
    /// Its heading in a template.
    #[must_use]
    pub fn heading(&self, units: Units) -> String {
        match self.holds {
            Holds::Measured(measure) => format!("{} [{}]", self.name, (measure.shown)(units)),
            Holds::Number(unit) if !unit.is_empty() => format!("{} [{unit}]", self.name),
            _ => self.name.to_owned(),
        }
    }

    /// Whether it belongs to a part of its entry, so that it differs from row to row.
    #[must_use]
    pub fn is_of_part(&self) -> bool {
        self.place.contains('#')
    }
}

const fn must(name: &'static str, place: &'static str, holds: Holds, example: &'static str) -> Column {
    Column { name, place, holds, is_required: true, example }
}

const fn may(name: &'static str, place: &'static str, holds: Holds, example: &'static str) -> Column {
    Column { name, place, holds, is_required: false, example }
}

const MASS: Holds = Holds::Measured(measure::<dimension::Mass>());
const LENGTH: Holds = Holds::Measured(measure::<dimension::Length>());
const AREA: Holds = Holds::Measured(measure::<dimension::Area>());
const RATE: Holds = Holds::Measured(measure::<dimension::Rate>());
const SPEED: Holds = Holds::Measured(measure::<dimension::Speed>());
/// Kelvin, so that what is compared has one zero.
const TEMPERATURE: Holds = Holds::Measured(Measure {
    units: || Temperature::UNITS.to_vec(),
    shown: |units| if units == Units::Us { "°F" } else { "°C" },
    si: |text| Temperature::from_entered(text).ok().map(|read| read.celsius() + 273.15),
});
const COUNT: Holds = Holds::Number("");
const PERCENT: Holds = Holds::Number("%");
const RPM: Holds = Holds::Number("rpm");

const SEEDERS: &[Column] = &[
    must("seeder", "name", Holds::Text, "Drill 1"),
    may("serial_number", "serial_number", Holds::Text, "A-100"),
    must("kind", "kind", Holds::Text, "air_drill"),
    must("commissioned_on", "commissioned_on", Holds::Text, "2021-03-01"),
    must("working_width", "working_width", LENGTH, "6"),
    must("row_spacing", "row_spacing", LENGTH, "0.125"),
    must("metering_unit", "metering_units/#/label", Holds::Text, "tank 1"),
    must("runs", "metering_units/#/runs", COUNT, "8"),
    must("drive", "metering_units/#/drive", Holds::Text, "electric"),
    may("roller_speed_min", "metering_units/#/roller_speed_rpm/min", RPM, "10"),
    may("roller_speed_max", "metering_units/#/roller_speed_rpm/max", RPM, "120"),
    may("keyed_in_mass_unit", "metering_units/#/keyed_in/mass_unit", Holds::Text, "kg"),
    may("keyed_in_per_revolutions", "metering_units/#/keyed_in/per_revolutions", COUNT, "100"),
    may("keyed_in_for", "metering_units/#/keyed_in/for", Holds::Text, "run"),
];

const LOTS: &[Column] = &[
    must("lot_number", "lot_number", Holds::Text, "W-2027-1"),
    may("material", "material", Holds::Text, "seed"),
    must("crop", "crop", Holds::Text, "winter wheat"),
    may("variety", "variety", Holds::Text, ""),
    may("supplier", "supplier", Holds::Text, ""),
    may("received_on", "received_on", Holds::Text, "2027-03-02"),
    may("received_mass", "received_mass", MASS, "1200"),
    may("treatment_product", "treatment/product", Holds::Text, ""),
    may("treatment_caution", "treatment/caution", Holds::Text, ""),
    may("purity", "analysis/purity_percent", PERCENT, "99.2"),
    may("germination", "analysis/germination_percent", PERCENT, "95"),
    may("tested_on", "analysis/tested_on", Holds::Text, "2027-01-20"),
    may("origin", "label/origin", Holds::Text, ""),
    may("category", "label/category", Holds::Text, ""),
    may("certifying_authority", "label/certifying_authority", Holds::Text, ""),
    may("serial_number", "label/serial_number", Holds::Text, ""),
    may("sealed_in", "label/sealed_in", Holds::Text, "2027-01"),
    may("declared_weight", "label/declared_weight", MASS, ""),
    may("containers", "label/containers", COUNT, ""),
    may("hermetic", "label/hermetic", Holds::Text, ""),
    may("hard_seed", "label/hard_seed_percent", PERCENT, ""),
    may("other_crop", "label/other_crop_percent", PERCENT, "0.1"),
    may("weed_seed", "label/weed_seed_percent", PERCENT, "0.0"),
    may("inert_matter", "label/inert_matter_percent", PERCENT, "0.7"),
    may("noxious_weeds", "label/noxious_weeds", Holds::Text, ""),
    may("components", "label/components", Holds::Text, ""),
    may("additives", "label/additives", Holds::Text, ""),
    may("inoculant_expires", "label/inoculant_expires", Holds::Text, ""),
    may("test_report", "label/test_report", Holds::Text, ""),
    may("client", "client_id", Holds::Client, ""),
];

const FIELDS: &[Column] = &[
    must("field", "name", Holds::Text, "Long acre"),
    must("area", "area", AREA, "12.4"),
    may("client", "client_id", Holds::Client, ""),
];

const JOBS: &[Column] = &[
    must("occurred_at", "occurred_at", Holds::Text, "2027-04-06T08:00"),
    may("ended_at", "ended_at", Holds::Text, "2027-04-06T12:30"),
    must("seeder", "", Holds::Seeder, "Drill 1"),
    must("metering_unit", "", Holds::Unit, "tank 1"),
    must("field", "field_id", Holds::Field, "Long acre"),
    must("lot_number", "lot_id", Holds::Lot, "W-2027-1"),
    may("crop", "", Holds::Aside, "winter wheat"),
    must("area", "area", AREA, "12.4"),
    must("seed_used", "seed_used", MASS, "1736"),
    may("seed_used_basis", "seed_used_basis", Holds::Text, "weighed"),
    must("target_rate", "target_rate", RATE, "140"),
    may("speed", "speed", SPEED, "9"),
    may("note", "note", Holds::Text, ""),
    may("replaced_by", "", Holds::Aside, ""),
    may("void", "", Holds::Aside, ""),
];

const CALIBRATIONS: &[Column] = &[
    must("occurred_at", "occurred_at", Holds::Text, "2027-04-06T07:10"),
    must("seeder", "", Holds::Seeder, "Drill 1"),
    must("metering_unit", "", Holds::Unit, "tank 1"),
    must("lot_number", "lot_id", Holds::Lot, "W-2027-1"),
    may("crop", "", Holds::Aside, "winter wheat"),
    may("scale", "scale_id", Holds::Scale, ""),
    must("method", "method", Holds::Text, "stationary"),
    may("roller_speed", "roller_speed_rpm", RPM, "42"),
    may("planned_rate", "planned/rate", RATE, "140"),
    may("planned_speed", "planned/speed", SPEED, "9"),
    may("air_temperature", "air_temperature", TEMPERATURE, "11.5"),
    may("relative_humidity", "relative_humidity_percent", PERCENT, "64"),
    may("tank_fill", "tank_fill_percent", PERCENT, "50"),
    may("place", "place", Holds::Text, ""),
    may("checked_by", "checked_by", Holds::Text, ""),
    may("note", "note", Holds::Text, ""),
    must("repeat", "", Holds::Aside, "1"),
    may("revolutions", "repeats/#/revolutions", COUNT, "60"),
    may("pulses", "repeats/#/revolutions/pulses", COUNT, ""),
    may("pulses_per_rev", "repeats/#/revolutions/pulses_per_rev", COUNT, ""),
    may("turns", "repeats/#/revolutions/turns", COUNT, ""),
    may("distance", "repeats/#/revolutions/distance", LENGTH, ""),
    may("circumference", "repeats/#/revolutions/circumference", LENGTH, ""),
    may("slip", "repeats/#/revolutions/slip_percent", PERCENT, ""),
    may("set_aside", "repeats/#/set_aside", Holds::Text, ""),
    may("catch", "repeats/#/catches/@/label", Holds::Text, "run 2"),
    must("runs", "repeats/#/catches/@/runs", COUNT, "1"),
    must("tare", "repeats/#/catches/@/tare", MASS, "0.32"),
    must("gross", "repeats/#/catches/@/gross", MASS, "2.11"),
    may("replaced_by", "", Holds::Aside, ""),
    may("void", "", Holds::Aside, ""),
];

/// Columns of exported files that an import passes over: what the server itself says of a record.
const PASSED_OVER: [&str; 6] = ["id", "seeder_id", "recorded_at", "recorded_by", "corrects", "laid_up"];

impl Imported {
    /// As a person reads it.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        say!(words, "import-kind", kind = self.word())
    }

    /// The columns.
    #[must_use]
    pub fn columns(self) -> &'static [Column] {
        match self {
            Self::Seeders => SEEDERS,
            Self::Lots => LOTS,
            Self::Fields => FIELDS,
            Self::Jobs => JOBS,
            Self::Calibrations => CALIBRATIONS,
        }
    }

    /// Whether a heading is one that is passed over.
    #[must_use]
    pub fn passes_over(self, name: &str) -> bool {
        // A calibration's id keeps its rows together.
        PASSED_OVER.contains(&name)
    }
}
