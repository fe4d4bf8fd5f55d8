//! The usage chart at its edges. Its arithmetic is held against published charts in `tests/published`.

use sowmark_core::{
    drift::{Chart, log_ratio},
    policy::Policy,
};

#[test]
fn a_job_that_has_no_logarithm_has_no_point() {
    for (seed, area, target) in [
        (0.0, 1.0, 1.0),
        (1.0, 0.0, 1.0),
        (1.0, 1.0, 0.0),
        (-1.0, -1.0, 1.0),
        (f64::NAN, 1.0, 1.0),
        (f64::INFINITY, 1.0, 1.0),
        (1e-300, 1e300, 1.0),
    ] {
        assert_eq!(log_ratio(seed, area, target), None, "{seed} {area} {target}");
    }
    assert_eq!(Chart::of_policy(&Policy::default()).points(&[]), []);
}
