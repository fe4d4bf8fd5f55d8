//! Feet of row in a hundredth of an acre.
//!
//! Michigan State University Extension, "Calibrating soybean drills". The page prints the length for rows of 7.5 in.

use crate::{
    check::{Seen, Source, check},
    reckon::{metres, square_metres, turns_for},
};

pub(crate) fn source() -> Source {
    // A wheel of one foot turns once a foot.
    let feet_of_row = |area: &str, spacing: &str| turns_for(square_metres(area), metres(spacing), 0.3048);
    let whole = [
        ("6 in", 87_120.0),
        ("7 in", 74_674.285_714_285_71),
        ("7.5 in", 69_696.0),
        ("8 in", 65_340.0),
        ("10 in", 52_272.0),
        ("12 in", 43_560.0),
    ];
    let mut checks = vec![
        check("ft of row in 1/100 ac", "7.5 in", feet_of_row("0.01 ac", "7.5 in")).prints("697 ft").exactly(696.96),
    ];
    checks.extend(
        whole.map(|(spacing, exact)| check("ft of row in an acre", spacing, feet_of_row("1 ac", spacing)).exactly(exact)),
    );
    Source {
        title: "Michigan State University Extension, soybean drills",
        address: "https://www.canr.msu.edu/news/calibrating_soybean_drills",
        seen: Seen::Read,
        checks,
    }
}
