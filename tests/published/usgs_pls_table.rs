//! Pounds from the bag for a pound of pure live seed, by purity and germination: the whole printed table.
//!
//! USGS Northern Prairie Wildlife Research Center, Establishment of Seeded Grasslands for Wildlife Habitat in the Prairie Pothole
//! Region, table 4, adapted from USDA Soil Conservation Service, Conservation Job Sheet ND-20 (1980); US government work. All 121
//! cells are the printed ones, as read on the page. They are `1 / (purity x germination)` to steps of 0.05, and not always to the
//! nearest step: 110 are within 0.025, the farthest (55 % of 55 %) is 0.0442 off, so a cell binds to 0.05.

use crate::{
    check::{Check, Seen, Source, check},
    reckon::lot,
};

/// Germination, percent, of the columns.
const GERMINATION: [f64; 11] = [100.0, 95.0, 90.0, 85.0, 80.0, 75.0, 70.0, 65.0, 60.0, 55.0, 50.0];

/// Purity, percent, and the printed cells.
const TABLE: [(f64, &str); 11] = [
    (100.0, "1.0 1.05 1.1 1.2 1.25 1.35 1.4 1.55 1.65 1.8 2.0"),
    (95.0, "1.05 1.1 1.2 1.25 1.3 1.4 1.5 1.65 1.75 1.9 2.1"),
    (90.0, "1.1 1.2 1.25 1.3 1.4 1.5 1.6 1.7 1.85 2.0 2.2"),
    (85.0, "1.2 1.25 1.3 1.4 1.45 1.55 1.7 1.8 1.95 2.15 2.35"),
    (80.0, "1.25 1.3 1.4 1.5 1.55 1.65 1.8 1.9 2.1 2.25 2.5"),
    (75.0, "1.35 1.4 1.5 1.55 1.65 1.8 1.9 2.05 2.2 2.45 2.65"),
    (70.0, "1.4 1.5 1.6 1.7 1.8 1.9 2.05 2.2 2.4 2.6 2.85"),
    (65.0, "1.55 1.65 1.7 1.8 1.9 2.05 2.2 2.4 2.55 2.8 3.1"),
    (60.0, "1.65 1.75 1.85 1.95 2.1 2.2 2.4 2.55 2.8 3.05 3.35"),
    (55.0, "1.8 1.9 2.0 2.15 2.25 2.45 2.6 2.8 3.05 3.35 3.65"),
    (50.0, "2.0 2.1 2.2 2.35 2.5 2.65 2.85 3.1 3.35 3.65 4.0"),
];

pub(crate) fn source() -> Source {
    let cell = |purity: f64, germination: f64, printed: &str| -> Check {
        let found = lot(purity, germination).bulk_per_live().expect("live");
        check("lb from the bag for a lb of PLS", format!("purity {purity} %, germination {germination} %"), found)
            .prints_within(printed, 0.05, "printed in steps of 0.05, not always the nearest")
            .exactly(1e4 / (purity * germination))
    };
    let rows = TABLE.iter().flat_map(|(purity, row)| {
        row.split_whitespace().zip(GERMINATION).map(move |(printed, germination)| cell(*purity, germination, printed))
    });
    let checks: Vec<_> = rows.collect();
    assert_eq!(checks.len(), 121);
    Source {
        title: "USGS Northern Prairie, table of pure live seed",
        address: "http://www.npwrc.usgs.gov/resource/habitat/grasland/table4.htm",
        seen: Seen::Read,
        checks,
    }
}

/// A product is the same read either way, and so is the table but for one pair: of 85 and 80 % it prints 1.45 one way and 1.5
/// the other (exact: 1.4706). A cell that was copied wrongly would be another.
#[test]
fn purity_and_germination_may_be_exchanged_but_for_a_slip() {
    let cells: Vec<Vec<&str>> = TABLE.iter().map(|(_, row)| row.split_whitespace().collect()).collect();
    let mut uneven = Vec::new();
    for (i, row) in cells.iter().enumerate() {
        assert_eq!(row.len(), 11);
        let others = cells[..i].iter().map(|other| other[i]);
        uneven.extend(row.iter().zip(others).filter(|(one, other)| *one != other).map(|(one, other)| (*one, other)));
    }
    assert_eq!(uneven, [("1.5", "1.45")]);
}
