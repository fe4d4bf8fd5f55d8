//! Differences in the machine: roller, drive ratio, gate, and configuration with the runs in use.
//!
//! A calibration without a known setup is refused when it comes in, but can be left behind when the setup is voided. Nothing is
//! known then of what it is true for, and the roller stands for all of it: it counts as changed.

use crate::{
    basis::{Configuration, Setup, same_length},
    readiness::{
        Change, Detail,
        timeline::{Condition, Timeline},
    },
};

fn setups<'a>(basis: &Condition<'a>, condition: &Condition<'a>) -> Option<Change<&'a Setup>> {
    Some(Change { from: &basis.setup?.what, to: &condition.setup?.what })
}

/// Another roller is in, or it is not known which.
pub(super) fn roller_changed(_: &Timeline<'_>, basis: &Condition<'_>, condition: &Condition<'_>) -> Option<Detail> {
    let roller = |condition: &Condition<'_>| condition.setup.map(|setup| setup.what.roller);
    let change = Change { from: roller(basis), to: roller(condition) };
    (change.from != change.to || change.from.is_none()).then_some(Detail::RollerChanged(change))
}

/// Another drive ratio is set; 5:2 and 10:4 are the same.
pub(super) fn drive_ratio_changed(
    _: &Timeline<'_>,
    basis: &Condition<'_>,
    condition: &Condition<'_>,
) -> Option<Detail> {
    let Change { from, to } = setups(basis, condition)?;
    (from.drive_ratio != to.drive_ratio)
        .then(|| Detail::DriveRatioChanged(Change { from: from.drive_ratio.clone(), to: to.drive_ratio.clone() }))
}

/// Another gate opening is set.
pub(super) fn gate_changed(_: &Timeline<'_>, basis: &Condition<'_>, condition: &Condition<'_>) -> Option<Detail> {
    let setups = setups(basis, condition)?;
    let (from, to) = (setups.from.gate_opening(), setups.to.gate_opening());
    (from != to).then(|| Detail::GateChanged(Change { from: from.map(str::to_owned), to: to.map(str::to_owned) }))
}

/// Working width, row spacing or runs in use differ.
pub(super) fn configuration_changed(
    _: &Timeline<'_>,
    basis: &Condition<'_>,
    condition: &Condition<'_>,
) -> Option<Detail> {
    let length = |of: fn(&Configuration) -> f64| {
        let change = Change { from: of(&basis.configuration?.what), to: of(&condition.configuration?.what) };
        (!same_length(change.from, change.to)).then_some(change)
    };
    let working_width_m = length(|configuration| configuration.working_width_m);
    let row_spacing_m = length(|configuration| configuration.row_spacing_m);
    let runs = setups(basis, condition)
        .map(|setups| Change { from: setups.from.runs, to: setups.to.runs })
        .filter(|runs| runs.from != runs.to);
    (working_width_m.is_some() || row_spacing_m.is_some() || runs.is_some()).then_some(Detail::ConfigurationChanged {
        working_width_m,
        row_spacing_m,
        runs,
    })
}

/// Whether nothing about the machine differs.
pub(super) fn same_machine(line: &Timeline<'_>, basis: &Condition<'_>, condition: &Condition<'_>) -> bool {
    [roller_changed, drive_ratio_changed, gate_changed, configuration_changed]
        .into_iter()
        .all(|difference| difference(line, basis, condition).is_none())
}
