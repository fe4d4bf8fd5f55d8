//! Circumstances that the records of a fleet can lead to, the odd ones among them.

use sowmark_core::{
    circumstances::{Circumstances, Clues, Expected, OtherRoller, ScaleFacts, ScaleStanding},
    ids::{CalibrationId, RollerId},
    policy::Policy,
    quantity::{DriveRatio, Mass},
    rate::DriveRange,
};
use uuid::Uuid;

use super::choices::Choices;

pub(super) fn of(choices: &mut Choices<'_>) -> Circumstances {
    let ratio = |text: &str| DriveRatio::parse(text).expect("a ratio");
    let mass = |text: &str| Mass::parse_text(text).expect("a mass");
    let runs_in_use = choices.one_of(&[8, 1, 2, 12, 1000]);
    let scale = (!choices.once_in(3)).then(|| ScaleFacts {
        readability: mass(choices.one_of(&["1 g", "5 g", "0.01 lb", "0.1 oz", "0.000000001 g", "1000 kg"])),
        capacity: mass(choices.one_of(&["15 kg", "60 lb", "100000 kg", "0.001 g"])),
        last_check: choices.one_of(&[
            ScaleStanding::PassedWithin,
            ScaleStanding::NeverChecked,
            ScaleStanding::PassedLongAgo,
            ScaleStanding::Failed,
        ]),
    });
    let factor = choices.one_of(&[0.03, 0.001, 0.5, 1e-12, 1e6]);
    let density_ratio = choices.one_of(&[None, Some(0.93), Some(1e9)]);
    let expected = match choices.below(4) {
        0 => None,
        1 => Some(Expected::from_displacement(factor, 1.0)),
        _ => Some(Expected::from_last_calibration(CalibrationId(Uuid::nil()), factor, density_ratio)),
    };
    let ratios: [&[&str]; 3] = [&[], &["2:5"], &["1", "2.5", "1000"]];
    let clues = Clues {
        usual_tare_kg: choices.one_of(&[None, Some(0.32), Some(0.0), Some(1e5)]),
        other_drive_ratios: choices.one_of(&ratios).iter().map(|r| ratio(r)).collect(),
        other_rollers: if choices.once_in(3) {
            let expected_factor = choices.one_of(&[0.012, 1e-12, 1e6]);
            vec![OtherRoller { roller_id: RollerId(Uuid::nil()), label: "fine fluted".to_owned(), expected_factor }]
        } else {
            Vec::new()
        },
    };
    Circumstances {
        runs_in_use,
        drive_ratio: ratio(choices.one_of(&["1", "5:2", "1:3", "0.001", "1000"])),
        drive_range: choices.one_of(&[
            Some(DriveRange { min_rpm: 10.0, max_rpm: 120.0 }),
            None,
            Some(DriveRange { min_rpm: 0.0, max_rpm: 1e-9 }),
        ]),
        roller_speed_rpm: None,
        planned: None,
        working_width_m: choices.one_of(&[6.0, 0.001, 1e5]),
        scale,
        thousand_seed_weight_g: choices.one_of(&[Some(45.2), None, Some(1e-9), Some(4.0)]),
        expected,
        policy: policy(choices),
        clues,
    }
}

/// The defaults, or one of its fields at an end of its range.
fn policy(choices: &mut Choices<'_>) -> Policy {
    let mut policy = Policy::default();
    if choices.once_in(3) {
        let field = &Policy::fields()[choices.below(Policy::fields().len())];
        let end = if choices.once_in(2) { field.min } else { field.max };
        let changed = policy.set(field.name, Some(&end.to_string()));
        if changed.is_err() || !policy.check().is_empty() {
            policy = Policy::default();
        }
    }
    policy
}
