//! Seeds in fifty feet of row for a target per acre.
//!
//! Kansas State University, a stationary calibration in five steps: `target per acre / feet of row in an acre x 50`. The
//! page gives the way; the numbers put into it are ours, within its range for wheat of 675 000 to 1 800 000 seeds/ac.

use sowmark_core::seed::per_metre_of_row;

use crate::{
    check::{Seen, Source, check},
    reckon::{metres, per_ac},
};

pub(crate) fn source() -> Source {
    Source {
        title: "Kansas State University, five steps",
        address: "http://webapp.agron.ksu.edu/agr_social/eu_article.throck?article_id=1535",
        seen: Seen::Read,
        checks: vec![
            check("seeds in 50 ft of row", "900 000 seeds/ac, 7.5 in", {
                per_metre_of_row(per_ac(900_000.0), metres("7.5 in")).expect("seeds") * metres("50 ft")
            })
            .exactly(645.661_157_024_793_4),
        ],
    }
}
