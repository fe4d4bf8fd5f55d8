//! A day at the machine: what truly fell, what the scale truly showed, and how a person writes that down.
//!
//! Nothing here knows how suspicions are found. Ranges are those of the trade: common practice, no source, but for the
//! scatter (published meters repeat within 0.5 to 1.3 %, run-to-run CV 1.3 % at best, 10 % is very good for air seeders).

use sowmark_core::{
    catch::{Catch, Repeat, Revolutions, Sheet},
    circumstances::{Circumstances, Clues, Expected, OtherRoller, ScaleFacts, ScaleStanding},
    ids::{CalibrationId, RollerId},
    policy::Policy,
    quantity::{Decimal, DriveRatio, Length, Mass},
};

use crate::chance::Chance;

/// Name, g per thousand seeds, least and greatest factor in g per revolution and run.
const CROPS: [(&str, f64, f64, f64); 6] = [
    ("wheat", 45.0, 12.0, 45.0),
    ("barley", 48.0, 10.0, 38.0),
    ("rape", 4.5, 2.0, 8.0),
    ("maize", 290.0, 10.0, 40.0),
    ("soybeans", 180.0, 15.0, 50.0),
    ("peas", 230.0, 15.0, 50.0),
];

pub(crate) const RATIOS: [&str; 8] = ["1", "3:2", "2:1", "5:2", "3:1", "2:3", "4:5", "1:2"];

/// What a scale shows and how it is entered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Display {
    Kilograms { decimals: usize, step_g: f64 },
    Grams { step_g: f64 },
    Pounds,
    PoundsOunces { step_oz: f64 },
}

/// How revolutions are known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Counting {
    Whole,
    Tenths,
    Pulses(u32),
    Turns,
    Distance,
}

/// Readings as the scale shows them, kg; what truly happened.
#[derive(Clone, Debug)]
pub(crate) struct Caught {
    pub(crate) net_kg: f64,
    pub(crate) tare_kg: f64,
    pub(crate) runs: u32,
    /// The scale was set to zero with the bag on it.
    pub(crate) zeroed: bool,
}

#[derive(Clone, Debug)]
pub(crate) struct Turned {
    pub(crate) revolutions: f64,
    pub(crate) catches: Vec<Caught>,
}

/// One calibration as it truly was.
#[derive(Clone, Debug)]
pub(crate) struct Day {
    pub(crate) display: Display,
    pub(crate) counting: Counting,
    pub(crate) ratio: &'static str,
    pub(crate) repeats: Vec<Turned>,
    pub(crate) runs_in_use: u32,
    /// kg per revolution per run of the roller on record.
    pub(crate) factor: f64,
    pub(crate) expected: Expected,
    /// What the expectation says, over what is true.
    pub(crate) expectation_off: f64,
    pub(crate) usual_tare_kg: Option<f64>,
    pub(crate) scale: &'static str,
    pub(crate) thousand_seed_weight_g: f64,
    pub(crate) other_ratios: Vec<&'static str>,
    /// Label and factor as expected of it.
    pub(crate) other_rollers: Vec<(String, f64)>,
}

/// What a slip may ask of a day.
#[derive(Clone, Copy, Default)]
pub(crate) struct Wanted {
    pub(crate) display: Option<Display>,
    pub(crate) counting: Option<Counting>,
    /// The bags have a tare, and it is entered.
    pub(crate) tared: bool,
    /// Several catches of one run each.
    pub(crate) apart: bool,
    /// Catches of several runs.
    pub(crate) together: bool,
}

impl Day {
    pub(crate) fn new(chance: &mut Chance, wanted: Wanted) -> Self {
        let (_, thousand_seed_weight_g, least, greatest) = chance.one_of(&CROPS);
        let factor = chance.log_between(least, greatest) / 1_000.0;
        let (display, scale) = match wanted.display {
            Some(display) => (display, scale_of(display)),
            None => display(chance),
        };
        let counting = wanted.counting.unwrap_or_else(|| counting(chance));
        let ratio = if matches!(counting, Counting::Turns | Counting::Distance) || chance.happens(0.5) {
            chance.one_of(&RATIOS)
        } else {
            "1"
        };
        let runs_of_catches = layout(chance, wanted);
        let runs: u32 = runs_of_catches.iter().sum();
        let runs_in_use = runs.max(chance.whole(4, 24));
        let repeats = caught(chance, wanted, factor, &runs_of_catches);
        let bag = repeats[0].catches[0].tare_kg;
        let zeroed = repeats[0].catches[0].zeroed;
        // The bags of the last calibration were of the kind used today, a few percent apart.
        let usual = bag * (1.0 + chance.normal(0.02));
        let from_history = chance.happens(0.65);
        let usual_tare_kg = match (zeroed, from_history) {
            (true, _) => Some(if chance.happens(0.15) { usual } else { 0.0 }),
            (false, true) => Some(usual),
            (false, false) => chance.happens(0.85).then_some(usual),
        };
        let (expected, expectation_off) = expectation(chance, from_history, honest(&repeats));
        let other_ratios = (0..chance.whole(0, 3)).map(|_| chance.one_of(&RATIOS)).collect();
        let other_rollers = (0..chance.whole(0, 3))
            .map(|at| (format!("roller {}", at + 2), factor * chance.log_between(0.3, 3.0)))
            .collect();
        Self {
            display,
            counting,
            ratio,
            repeats,
            runs_in_use,
            factor,
            expected,
            expectation_off,
            usual_tare_kg,
            scale,
            thousand_seed_weight_g,
            other_ratios,
            other_rollers,
        }
    }

    pub(crate) fn circumstances(&self) -> Circumstances {
        let ratio = |text: &&str| DriveRatio::parse(text).expect("a ratio");
        Circumstances {
            runs_in_use: self.runs_in_use,
            drive_ratio: ratio(&self.ratio),
            drive_range: None,
            roller_speed_rpm: None,
            planned: None,
            working_width_m: 6.0,
            scale: Some(ScaleFacts {
                readability: Mass::parse_text(self.scale).expect("a step"),
                capacity: Mass::parse_text("500 kg").expect("a capacity"),
                last_check: ScaleStanding::PassedWithin,
            }),
            thousand_seed_weight_g: Some(self.thousand_seed_weight_g),
            expected: Some(self.expected),
            policy: Policy::default(),
            clues: Clues {
                usual_tare_kg: self.usual_tare_kg.filter(|tare| *tare > 0.0),
                other_drive_ratios: self.other_ratios.iter().map(ratio).collect(),
                other_rollers: self
                    .other_rollers
                    .iter()
                    .map(|(label, expected_factor)| OtherRoller {
                        roller_id: RollerId(uuid::Uuid::nil()),
                        label: label.clone(),
                        expected_factor: *expected_factor,
                    })
                    .collect(),
            },
        }
    }

    /// The sheet, written down without a slip.
    pub(crate) fn sheet(&self) -> Sheet {
        let repeats = self.repeats.iter().map(|repeat| Repeat {
            revolutions: self.revolutions(repeat.revolutions, 1.0),
            catches: repeat
                .catches
                .iter()
                .enumerate()
                .map(|(position, caught)| Catch {
                    label: Some(format!("run {}", position + 1)),
                    runs: caught.runs,
                    tare: if caught.zeroed { self.reading(0.0) } else { self.reading(caught.tare_kg) },
                    gross: self.reading(if caught.zeroed { caught.net_kg } else { caught.net_kg + caught.tare_kg }),
                })
                .collect(),
            set_aside: None,
        });
        Sheet { repeats: repeats.collect() }
    }

    pub(crate) fn reading(&self, kg: f64) -> Mass {
        shown(self.display, kg)
    }

    /// Roller revolutions as entered; `pulses_off` multiplies how many pulses are said to make one.
    pub(crate) fn revolutions(&self, roller: f64, pulses_off: f64) -> Revolutions {
        let decimal = |value: f64, places: usize| Decimal::parse(&format!("{value:.places$}")).expect("a decimal");
        let ratio = DriveRatio::parse(self.ratio).expect("a ratio").value();
        match self.counting {
            Counting::Whole => Revolutions::Counted(decimal(roller, 0)),
            Counting::Tenths => Revolutions::Counted(decimal(roller, 1)),
            Counting::Pulses(per_rev) => Revolutions::Pulses {
                pulses: decimal(roller * f64::from(per_rev), 0),
                pulses_per_rev: decimal(f64::from(per_rev) * pulses_off, 0),
            },
            Counting::Turns => Revolutions::Turns { turns: decimal(roller / ratio, 0) },
            Counting::Distance => Revolutions::Distance {
                distance: Length::parse_text(&format!("{:.1} m", roller / ratio * 2.13)).expect("a distance"),
                circumference: Length::parse_text("2.13 m").expect("a circumference"),
            },
        }
    }
}

/// A mass as that display shows it.
pub(crate) fn shown(display: Display, kg: f64) -> Mass {
    let text = match display {
        Display::Kilograms { decimals, step_g } => {
            format!("{:.decimals$} kg", (kg * 1_000.0 / step_g).round() * step_g / 1_000.0)
        }
        Display::Grams { step_g } => format!("{:.0} g", (kg * 1_000.0 / step_g).round() * step_g),
        Display::Pounds => format!("{:.2} lb", kg / 0.453_592_37),
        Display::PoundsOunces { step_oz } => {
            let ounces = (kg / 0.453_592_37 * 16.0 / step_oz).round() * step_oz;
            let pounds = (ounces / 16.0 + 1e-9).floor();
            let decimals = usize::from(step_oz < 1.0);
            format!("{pounds:.0} lb {:.decimals$} oz", (ounces - 16.0 * pounds).max(0.0))
        }
    };
    Mass::parse_text(&text).expect(&text)
}

fn display(chance: &mut Chance) -> (Display, &'static str) {
    let display = chance.one_of(&[
        Display::Kilograms { decimals: 3, step_g: 1.0 },
        Display::Kilograms { decimals: 3, step_g: 5.0 },
        Display::Kilograms { decimals: 2, step_g: 10.0 },
        Display::Grams { step_g: 1.0 },
        Display::Pounds,
        Display::PoundsOunces { step_oz: 0.1 },
    ]);
    (display, scale_of(display))
}

/// The readability on record.
fn scale_of(display: Display) -> &'static str {
    match display {
        Display::Kilograms { step_g, .. } | Display::Grams { step_g } => match step_g {
            step if step < 2.0 => "1 g",
            step if step < 7.0 => "5 g",
            _ => "10 g",
        },
        Display::Pounds => "0.01 lb",
        Display::PoundsOunces { step_oz } if step_oz < 0.5 => "0.1 oz",
        Display::PoundsOunces { .. } => "1 oz",
    }
}

fn counting(chance: &mut Chance) -> Counting {
    match chance.between(0.0, 1.0) {
        share if share < 0.3 => Counting::Whole,
        share if share < 0.5 => Counting::Tenths,
        share if share < 0.7 => Counting::Pulses(chance.one_of(&[20, 60, 360])),
        share if share < 0.85 => Counting::Turns,
        _ => Counting::Distance,
    }
}

/// Runs in each catch of a repeat.
fn layout(chance: &mut Chance, wanted: Wanted) -> Vec<u32> {
    let apart = wanted.apart || (!wanted.together && chance.happens(0.6));
    if apart {
        vec![1; chance.whole(if wanted.apart { 2 } else { 1 }, 8) as usize]
    } else if chance.happens(0.75) {
        vec![chance.whole(2, 8)]
    } else {
        vec![chance.whole(2, 4); chance.whole(2, 3) as usize]
    }
}

fn caught(chance: &mut Chance, wanted: Wanted, factor: f64, runs_of_catches: &[u32]) -> Vec<Turned> {
    let widest = f64::from(*runs_of_catches.iter().max().expect("a catch"));
    // A catch of 0.2 to 8 kg at 20 to 400 revolutions.
    let (fewest, most) = ((0.2 / (factor * widest)).max(20.0), (8.0 / (factor * widest)).min(400.0));
    let revolutions = chance.log_between(fewest, most.max(fewest)).round();
    let alike = chance.happens(0.8);
    let bag_kg = match chance.between(0.0, 1.0) {
        share if share < 0.3 => chance.between(0.02, 0.08),
        share if share < 0.6 => chance.between(0.08, 0.3),
        _ => chance.between(0.3, 0.9),
    };
    // Hardly anyone catches a little seed in a container that weighs more than it.
    let bag_kg = bag_kg.min(factor * revolutions * widest);
    let zeroed = !wanted.tared && chance.happens(0.25);
    let run_scatter = chance.between(0.01, 0.04);
    let repeat_scatter = chance.between(0.005, 0.015);
    // Each run's own habit stays from repeat to repeat; a catch of several runs has their mean.
    let habits: Vec<_> =
        runs_of_catches.iter().map(|runs| 1.0 + chance.normal(run_scatter / f64::from(*runs).sqrt())).collect();
    (0..chance.whole(2, 4))
        .map(|_| {
            let revolutions =
                if alike { revolutions } else { (revolutions * chance.between(0.8, 1.25)).round().max(20.0) };
            let level = factor * (1.0 + chance.normal(repeat_scatter));
            let catches = runs_of_catches
                .iter()
                .zip(&habits)
                .map(|(runs, habit)| Caught {
                    net_kg: level * habit * (1.0 + chance.normal(0.005)) * f64::from(*runs) * revolutions,
                    tare_kg: bag_kg * (1.0 + chance.normal(0.02)),
                    runs: *runs,
                    zeroed,
                })
                .collect();
            Turned { revolutions, catches }
        })
        .collect()
}

/// What truly fell per revolution and run.
fn honest(repeats: &[Turned]) -> f64 {
    let caught = |repeat: &Turned| repeat.catches.iter().map(|caught| caught.net_kg).sum::<f64>();
    let turned =
        |repeat: &Turned| repeat.revolutions * repeat.catches.iter().map(|caught| f64::from(caught.runs)).sum::<f64>();
    repeats.iter().map(caught).sum::<f64>() / repeats.iter().map(turned).sum::<f64>()
}

/// A few percent off from the unit's own past, up to a tenth from a displacement; and how far.
fn expectation(chance: &mut Chance, from_history: bool, factor: f64) -> (Expected, f64) {
    if from_history {
        let off = 1.0 + chance.normal(0.02).clamp(-0.05, 0.05);
        let density_ratio = chance.happens(0.8).then_some(1.0);
        (Expected::from_last_calibration(CalibrationId(uuid::Uuid::nil()), factor * off, density_ratio), off)
    } else {
        let off = chance.between(0.9, 1.1);
        (Expected::from_displacement(factor * off / 770.0, 770.0), off)
    }
}
