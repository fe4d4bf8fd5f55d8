//! The machines of the made-up fleet, their rollers and the scales: sizes and displacements as they are common, no maker's.

use super::people::{ANNA, BEN, CARLA, DEV, LUCIA, Person};

/// A meter roller.
#[derive(Debug)]
pub(super) struct Roller {
    pub(super) key: &'static str,
    pub(super) label: &'static str,
    pub(super) kind: &'static str,
    /// What it turns out in a revolution and run, cm3.
    pub(super) cm3: f64,
    /// Whether the office knows that.
    pub(super) is_known: bool,
}

const fn roller(key: &'static str, label: &'static str, kind: &'static str, cm3: f64) -> Roller {
    Roller { key, label, kind, cm3, is_known: true }
}

pub(super) static FINE: Roller = roller("roller/fine", "Fine fluted", "fluted", 12.0);
pub(super) static FINE_NEW: Roller = roller("roller/fine-new", "Fine fluted, new pattern", "fluted", 13.1);
pub(super) static BOX_FERTILIZER: Roller = roller("roller/star", "Box fertilizer", "studded", 12.5);
pub(super) static GRASS: Roller = roller("roller/grass", "Grass and clover", "studded", 1.5);
pub(super) static COARSE: Roller = roller("roller/coarse", "Coarse fluted", "fluted", 76.0);
pub(super) static EXTRA: Roller = roller("roller/extra", "Extra coarse fluted", "fluted", 140.0);
pub(super) static SMALL: Roller = roller("roller/small", "Small seed", "studded", 6.0);
pub(super) static GRANULE: Roller =
    Roller { is_known: false, ..roller("roller/granule", "Granules, wide cells", "cell", 80.0) };

pub(super) static ROLLERS: [&Roller; 8] =
    [&FINE, &FINE_NEW, &BOX_FERTILIZER, &GRASS, &COARSE, &EXTRA, &SMALL, &GRANULE];

/// How a scale shows what it weighs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Shows {
    /// Kilograms, in steps of so many grams.
    Grams(u32),
    /// Pounds and whole ounces.
    PoundsAndOunces,
}

/// A scale.
#[derive(Debug)]
pub(super) struct Scale {
    pub(super) key: &'static str,
    pub(super) name: &'static str,
    pub(super) shows: Shows,
    /// In its own unit.
    pub(super) capacity: &'static str,
    /// The days ago on which it was checked, and how far off it was then, g in 10 kg.
    pub(super) checks: &'static [(i64, f64)],
}

pub(super) static BENCH: Scale = Scale {
    key: "scale/bench",
    name: "Bench scale, yard",
    shows: Shows::Grams(1),
    capacity: "15",
    checks: &[(236, 2.0), (212, 3.0), (188, 1.0), (56, 2.0), (31, 4.0), (10, 3.0)],
};
pub(super) static HANGING: Scale = Scale {
    key: "scale/hanging-1",
    name: "Hanging scale 1",
    shows: Shows::Grams(5),
    capacity: "25",
    checks: &[(236, 10.0), (211, -15.0), (187, 5.0), (56, 10.0), (34, -10.0), (18, 15.0), (5, 10.0)],
};
/// It was dropped after a catch that is still in force.
pub(super) static DROPPED: Scale = Scale {
    key: "scale/hanging-2",
    name: "Hanging scale 2",
    shows: Shows::Grams(5),
    capacity: "25",
    checks: &[(235, 5.0), (210, 10.0), (60, -5.0), (36, 10.0), (20, 240.0)],
};
pub(super) static POUNDS: Scale = Scale {
    key: "scale/pounds",
    name: "Old hanging scale, lb and oz",
    shows: Shows::PoundsAndOunces,
    capacity: "50",
    checks: &[(57, 0.0), (29, 0.0), (6, 0.0)],
};

pub(super) static SCALES: [&Scale; 4] = [&BENCH, &HANGING, &DROPPED, &POUNDS];

/// What turns the roller.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Turned {
    /// The ground wheel, of this circumference in m: nothing but the ratio sets the roller's speed.
    Ground(f64),
    Electric(u32, u32),
    Hydraulic(u32, u32),
}

/// A metering unit.
#[derive(Debug)]
pub(super) struct Unit {
    pub(super) key: &'static str,
    pub(super) label: &'static str,
    pub(super) seeder: &'static Seeder,
    pub(super) runs: u32,
    pub(super) turned: Turned,
    pub(super) roller: &'static Roller,
    pub(super) ratio: &'static str,
    pub(super) gate: Option<&'static str>,
    /// How its seed is caught: so many bags or trays, each of so many runs.
    pub(super) bags: u32,
    pub(super) runs_in_bag: u32,
    pub(super) scale: &'static Scale,
    /// What it delivers, against what its roller's displacement promises.
    pub(super) bias: f64,
    /// Working speed, km/h.
    pub(super) speed: f64,
    /// The form in which its controller takes the number: mass, revolutions, what for.
    pub(super) keyed_in: Option<(&'static str, u32, &'static str)>,
}

/// A seeder.
#[derive(Debug)]
pub(super) struct Seeder {
    pub(super) key: &'static str,
    pub(super) name: &'static str,
    pub(super) serial: &'static str,
    pub(super) kind: &'static str,
    /// Days ago.
    pub(super) commissioned: i64,
    /// m.
    pub(super) width: f64,
    pub(super) row_spacing_cm: &'static str,
    /// Who mostly logs for it.
    pub(super) hand: &'static Person,
}

pub(super) static BOX3: Seeder = Seeder {
    key: "seeder/box3",
    name: "Box drill 3",
    serial: "BD3-0117",
    kind: "box_drill",
    commissioned: 4210,
    width: 3.0,
    row_spacing_cm: "12.5",
    hand: &ANNA,
};
pub(super) static BOX6: Seeder = Seeder {
    key: "seeder/box6",
    name: "Box drill 6",
    serial: "BD6-2204",
    kind: "box_drill",
    commissioned: 1630,
    width: 6.0,
    row_spacing_cm: "15",
    hand: &ANNA,
};
pub(super) static AIR6: Seeder = Seeder {
    key: "seeder/air6",
    name: "Air drill 6",
    serial: "AD6-0381",
    kind: "air_drill",
    commissioned: 2290,
    width: 6.0,
    row_spacing_cm: "15",
    hand: &BEN,
};
pub(super) static AIR8: Seeder = Seeder {
    key: "seeder/air8",
    name: "Air drill 8",
    serial: "AD8-0052",
    kind: "air_drill",
    commissioned: 1935,
    width: 8.0,
    row_spacing_cm: "16",
    hand: &BEN,
};
pub(super) static AIR12: Seeder = Seeder {
    key: "seeder/air12",
    name: "Air drill 12",
    serial: "AD12-0009",
    kind: "air_drill",
    commissioned: 870,
    width: 12.0,
    row_spacing_cm: "15",
    hand: &BEN,
};
pub(super) static CART18: Seeder = Seeder {
    key: "seeder/cart18",
    name: "Cart 18",
    serial: "AC18-0731",
    kind: "air_cart",
    commissioned: 1210,
    width: 18.0,
    row_spacing_cm: "25",
    hand: &CARLA,
};
pub(super) static CART12: Seeder = Seeder {
    key: "seeder/cart12",
    name: "Cart 12",
    serial: "AC12-0418",
    kind: "air_cart",
    commissioned: 2665,
    width: 12.0,
    row_spacing_cm: "25",
    hand: &DEV,
};
/// New, and still without an accepted catch.
pub(super) static GRASS4: Seeder = Seeder {
    key: "seeder/grass",
    name: "Grass drill 4",
    serial: "GD4-1102",
    kind: "box_drill",
    commissioned: 16,
    width: 4.0,
    row_spacing_cm: "12.5",
    hand: &LUCIA,
};
pub(super) static SPARE4: Seeder = Seeder {
    key: "seeder/spare",
    name: "Spare drill 4",
    serial: "",
    kind: "box_drill",
    commissioned: 6940,
    width: 4.0,
    row_spacing_cm: "13.3",
    hand: &ANNA,
};

pub(super) static SEEDERS: [&Seeder; 9] = [&BOX3, &BOX6, &AIR6, &AIR8, &AIR12, &CART18, &CART12, &GRASS4, &SPARE4];

/// A unit of a box drill, caught in four trays.
const fn box_unit(key: &'static str, label: &'static str, seeder: &'static Seeder, runs: u32) -> Unit {
    Unit {
        key,
        label,
        seeder,
        runs,
        turned: Turned::Electric(10, 120),
        roller: &FINE,
        ratio: "1",
        gate: Some("12"),
        bags: 4,
        runs_in_bag: runs / 4,
        scale: &HANGING,
        bias: 1.012,
        speed: 9.0,
        keyed_in: None,
    }
}

/// A tank of an air seeder, four of its runs caught in bags.
const fn tank(key: &'static str, label: &'static str, seeder: &'static Seeder, runs: u32) -> Unit {
    Unit { gate: None, runs_in_bag: 1, roller: &COARSE, ..box_unit(key, label, seeder, runs) }
}

pub(super) static BOX3_GRAIN: Unit = Unit {
    turned: Turned::Ground(2.05),
    ratio: "1:2",
    speed: 8.0,
    bias: 0.988,
    ..box_unit("unit/box3-grain", "grain box", &BOX3, 24)
};
pub(super) static BOX3_SMALL: Unit = Unit {
    turned: Turned::Ground(2.05),
    ratio: "1:4",
    speed: 8.0,
    roller: &GRASS,
    gate: None,
    scale: &BENCH,
    ..box_unit("unit/box3-small", "small-seed box", &BOX3, 24)
};
pub(super) static BOX6_GRAIN: Unit = box_unit("unit/box6-grain", "grain box", &BOX6, 40);
pub(super) static BOX6_FERTILIZER: Unit =
    Unit { roller: &BOX_FERTILIZER, bias: 0.971, ..box_unit("unit/box6-fertilizer", "fertilizer box", &BOX6, 40) };
pub(super) static AIR6_SEED: Unit =
    Unit { scale: &POUNDS, bias: 1.021, ..tank("unit/air6-seed", "seed tank", &AIR6, 8) };
pub(super) static AIR6_COMPANION: Unit =
    Unit { roller: &SMALL, scale: &BENCH, bias: 0.983, ..tank("unit/air6-companion", "companion seed", &AIR6, 8) };
pub(super) static AIR8_SEED: Unit = Unit {
    turned: Turned::Hydraulic(15, 110),
    speed: 10.0,
    bias: 1.006,
    keyed_in: Some(("g", 1, "run")),
    ..tank("unit/air8", "seed tank", &AIR8, 10)
};
pub(super) static AIR12_SEED: Unit = Unit {
    speed: 10.0,
    bias: 0.994,
    keyed_in: Some(("kg", 100, "unit")),
    ..tank("unit/air12-seed", "seed tank", &AIR12, 16)
};
pub(super) static AIR12_FERTILIZER: Unit = Unit {
    speed: 10.0,
    roller: &GRANULE,
    bias: 0.962,
    keyed_in: Some(("kg", 100, "unit")),
    ..tank("unit/air12-fertilizer", "fertilizer tank", &AIR12, 16)
};
pub(super) static CART18_FRONT: Unit = Unit {
    turned: Turned::Hydraulic(8, 90),
    roller: &EXTRA,
    bias: 1.009,
    keyed_in: Some(("lb", 100, "run")),
    ..tank("unit/cart18-front", "front tank", &CART18, 12)
};
pub(super) static CART18_MIDDLE: Unit = Unit {
    turned: Turned::Hydraulic(8, 90),
    roller: &EXTRA,
    bias: 0.957,
    keyed_in: Some(("lb", 100, "run")),
    ..tank("unit/cart18-middle", "middle tank", &CART18, 12)
};
pub(super) static CART18_REAR: Unit = Unit {
    turned: Turned::Hydraulic(8, 90),
    roller: &SMALL,
    scale: &BENCH,
    bias: 0.979,
    keyed_in: Some(("lb", 100, "run")),
    ..tank("unit/cart18-rear", "rear tank", &CART18, 12)
};
pub(super) static CART12_FRONT: Unit =
    Unit { roller: &EXTRA, bias: 1.015, ..tank("unit/cart12-front", "front tank", &CART12, 14) };
pub(super) static CART12_REAR: Unit =
    Unit { roller: &EXTRA, bias: 1.018, ..tank("unit/cart12-rear", "rear tank", &CART12, 14) };
pub(super) static GRASS4_BOX: Unit =
    Unit { roller: &GRASS, gate: None, scale: &BENCH, speed: 7.0, ..box_unit("unit/grass", "seed box", &GRASS4, 32) };
pub(super) static SPARE4_BOX: Unit = Unit {
    turned: Turned::Ground(1.98),
    ratio: "1:2",
    speed: 8.0,
    bias: 0.973,
    ..box_unit("unit/spare", "grain box", &SPARE4, 28)
};

pub(super) static UNITS: [&Unit; 16] = [
    &BOX3_GRAIN,
    &BOX3_SMALL,
    &BOX6_GRAIN,
    &BOX6_FERTILIZER,
    &AIR6_SEED,
    &AIR6_COMPANION,
    &AIR8_SEED,
    &AIR12_SEED,
    &AIR12_FERTILIZER,
    &CART18_FRONT,
    &CART18_MIDDLE,
    &CART18_REAR,
    &CART12_FRONT,
    &CART12_REAR,
    &GRASS4_BOX,
    &SPARE4_BOX,
];
