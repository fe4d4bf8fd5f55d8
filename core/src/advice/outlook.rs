//! The budget that further repeats would give: the same formulas as [`crate::uncertainty::budget`], for catches that are
//! not there yet. Kept apart because there the scatter is seen, here it is carried on.

use super::Further;
use crate::{
    catch::{MAX_REVOLUTIONS, Sheet},
    circumstances::Circumstances,
    factor::{Measured, MeasuredRepeat},
    uncertainty::{
        Component,
        budget::{BudgetTerm, LEVEL},
        combine,
    },
    verdict::Judgement,
};

/// More further repeats than this nobody catches.
pub(super) const MOST_REPEATS: u32 = 10;
/// Nor repeats so many times longer than the last.
const LONGEST: f64 = 20.0;

/// What is known of the catches so far, and what the next would be like: the last kept repeat again.
#[derive(Clone, Debug)]
pub(super) struct Outlook {
    kept: u32,
    minimum_repeats: u32,
    /// Relative standard deviation of one repeat, pooled, and the degrees of freedom behind it.
    scatter: f64,
    pooled_degrees: f64,
    from_scale: f64,
    /// kg², kg: of the kept repeats.
    rounding_variance: f64,
    caught_kg: f64,
    /// `sum((K delta)²)` and `sum(K N)` of the kept repeats.
    counting: f64,
    run_revolutions: f64,
    factor: f64,
    next: Next,
    /// Revolutions of the last kept repeat.
    pub(super) usual_revolutions: f64,
    /// Kept repeats whose catches are all heavy enough.
    pub(super) heavy_enough: u32,
    /// Revolutions of the shortest repeat with a catch that is too light; zero where there is none.
    pub(super) shortest_too_light: f64,
    /// For each kept catch, revolutions and the share (percent) of the scale's rounding.
    shares: Vec<(f64, f64)>,
}

#[derive(Clone, Copy, Debug)]
struct Next {
    runs: f64,
    rounding_variance: f64,
    step: f64,
    most_revolutions: f64,
}

impl Outlook {
    /// `None` where no repeat is kept or the budget has no line for a part.
    pub(super) fn of(
        sheet: &Sheet,
        measured: &Measured,
        circumstances: &Circumstances,
        judgement: &Judgement,
    ) -> Option<Self> {
        let policy = &circumstances.policy;
        let kept: Vec<&MeasuredRepeat> = measured.kept().collect();
        let last = *kept.last()?;
        let line = |term| judgement.budget.iter().find(|line| line.term == term);
        let relative = |term| line(term).map(|line| line.relative_standard_uncertainty_percent / 100.0);
        let count = u32::try_from(kept.len()).ok()?;
        let share = |repeat: &MeasuredRepeat| -> Vec<(f64, f64)> {
            let of = |catch: &crate::factor::MeasuredCatch| {
                (repeat.revolutions, 100.0 * catch.rounding_variance.sqrt() / catch.net_kg)
            };
            repeat.catches.iter().map(of).collect()
        };
        let limit = policy.catch_resolution_limit_percent;
        let light = |repeat: &&&MeasuredRepeat| share(repeat).iter().any(|(_, share)| *share > limit);
        let too_light: Vec<f64> = kept.iter().filter(light).map(|repeat| repeat.revolutions).collect();
        Some(Self {
            kept: count,
            minimum_repeats: policy.minimum_repeats,
            scatter: relative(BudgetTerm::Repeatability)? * f64::from(count).sqrt(),
            pooled_degrees: f64::from(policy.pooled_repeatability_degrees_of_freedom),
            from_scale: relative(BudgetTerm::Scale)?,
            rounding_variance: kept.iter().map(|repeat| repeat.rounding_variance()).sum(),
            caught_kg: kept.iter().map(|repeat| repeat.caught_kg()).sum(),
            counting: kept.iter().map(|repeat| (repeat.runs() * repeat.revolution_step).powi(2)).sum(),
            run_revolutions: kept.iter().map(|repeat| repeat.run_revolutions()).sum(),
            factor: judgement.factor,
            next: Next {
                runs: last.runs(),
                rounding_variance: last.rounding_variance(),
                step: last.revolution_step,
                most_revolutions: most_revolutions(sheet, last, circumstances, judgement.factor),
            },
            usual_revolutions: last.revolutions,
            heavy_enough: count - u32::try_from(too_light.len()).ok()?,
            shortest_too_light: too_light.into_iter().reduce(f64::min).unwrap_or(0.0),
            shares: kept.iter().flat_map(|repeat| share(repeat)).collect(),
        })
    }

    /// The most that one more repeat can take: what the scale can weigh, and what anyone turns.
    pub(super) fn most_revolutions(&self) -> f64 {
        self.next.most_revolutions
    }

    /// Revolutions of a repeat whose lightest catch is heavy enough for the scale, in a handy number; every catch grows with
    /// the revolutions as it did so far. `None` where no catch is too light.
    pub(super) fn revolutions_for_the_scale(&self, limit_percent: f64) -> Option<f64> {
        let needed = self.shares.iter().filter(|(_, share)| *share > limit_percent);
        needed.map(|(revolutions, share)| handy(revolutions * share / limit_percent)).reduce(f64::max)
    }

    /// The least that brings U within `wanted` percent, and the U then: of 1 to [`MOST_REPEATS`] repeats, each as long as the
    /// last or longer, the fewest revolutions altogether. Shorter repeats are not advised: nobody knows their scatter.
    pub(super) fn least_further(&self, wanted: f64) -> Option<(Further, f64)> {
        let fewest = self.minimum_repeats.saturating_sub(self.kept).clamp(1, MOST_REPEATS);
        let mut least: Option<(Further, f64)> = None;
        for repeats in (fewest..=MOST_REPEATS).filter(|repeats| self.floor_percent(*repeats) <= wanted) {
            let total = |further: &Further| f64::from(further.repeats) * further.revolutions;
            let better = |further: &Further| least.as_ref().is_none_or(|(known, _)| total(further) < total(known));
            let found = self
                .lengths()
                .map(|revolutions| Further { repeats, revolutions })
                .take_while(better)
                .find_map(|further| Some((further, self.expanded_percent(further).filter(|u| *u <= wanted)?)));
            least = found.or(least);
        }
        least
    }

    /// What U (percent) cannot come below with so many more repeats, however long: scale and scatter alone, with the coverage
    /// factor of a scatter that is known for certain. Saves the search where it is in vain.
    fn floor_percent(&self, repeats: u32) -> f64 {
        let scatter = self.scatter / (f64::from(self.kept) + f64::from(repeats)).sqrt();
        Component::known(self.from_scale.hypot(scatter)).expanded(LEVEL).map_or(0.0, |floor| 100.0 * floor)
    }

    /// The U in percent that a passing check of the scale would leave, with nothing further caught: it halves the scale's part.
    pub(super) fn with_scale_checked_percent(&self) -> Option<f64> {
        let parts = self.parts(Further { repeats: 0, revolutions: 0.0 }).map(|(term, part)| match term {
            BudgetTerm::Scale => part.times(0.5),
            _ => part,
        });
        combine(&parts).expanded(LEVEL).map(|expanded| 100.0 * expanded)
    }

    /// The U in percent after `further`.
    pub(super) fn expanded_percent(&self, further: Further) -> Option<f64> {
        let parts = self.parts(further).map(|(_, part)| part);
        combine(&parts).expanded(LEVEL).map(|expanded| 100.0 * expanded)
    }

    /// The largest part after `further`.
    pub(super) fn dominant(&self, further: Further) -> BudgetTerm {
        let larger = |a: &(BudgetTerm, Component), b: &(BudgetTerm, Component)| {
            a.1.standard_uncertainty.total_cmp(&b.1.standard_uncertainty)
        };
        self.parts(further).into_iter().max_by(larger).map_or(BudgetTerm::Repeatability, |(term, _)| term)
    }

    /// The part that stands in the way however much is caught, and the U in percent that it leaves.
    pub(super) fn at_best(&self) -> (BudgetTerm, f64) {
        let longest = Further { repeats: MOST_REPEATS, revolutions: self.next.most_revolutions };
        let best = self.expanded_percent(longest).unwrap_or(f64::NAN);
        (self.dominant(longest), best)
    }

    fn parts(&self, Further { repeats, revolutions }: Further) -> [(BudgetTerm, Component); 4] {
        let (more, next) = (f64::from(repeats), &self.next);
        let all = f64::from(self.kept) + more;
        let run_revolutions = self.run_revolutions + more * next.runs * revolutions;
        let caught = self.caught_kg + more * self.factor * next.runs * revolutions;
        let rounding = self.rounding_variance + more * next.rounding_variance;
        let counting = self.counting + more * (next.runs * next.step).powi(2);
        let scatter = Component::estimated(self.scatter / all.sqrt(), self.pooled_degrees + all - 1.0);
        [
            (BudgetTerm::Repeatability, scatter),
            (BudgetTerm::Readability, Component::known(rounding.sqrt() / caught)),
            (BudgetTerm::Scale, Component::known(self.from_scale)),
            (BudgetTerm::Revolutions, Component::known((counting / 6.0).sqrt() / run_revolutions)),
        ]
    }

    /// As long as the last, then longer in handy numbers, up to the most that can be caught, handy or not.
    fn lengths(&self) -> impl Iterator<Item = f64> {
        let most = self.next.most_revolutions;
        std::iter::successors(Some(self.usual_revolutions), |length| Some(handy(length * 1.02)))
            .take_while(move |length| *length < most)
            .chain(std::iter::once(most))
    }
}

/// Whole revolutions at which the heaviest catch of a repeat like `last` does not yet fill the scale.
fn most_revolutions(sheet: &Sheet, last: &MeasuredRepeat, circumstances: &Circumstances, factor: f64) -> f64 {
    let longest = (LONGEST * last.revolutions).min(MAX_REVOLUTIONS);
    let tares = sheet.repeats.iter().flat_map(|repeat| &repeat.catches).map(|catch| catch.tare.si());
    let tare = tares.fold(0.0, f64::max);
    let heaviest = last.catches.iter().map(|catch| f64::from(catch.runs)).fold(1.0, f64::max);
    let room = circumstances.scale.as_ref().map(|scale| (scale.capacity.si() - tare) / (factor * heaviest));
    // The last one did fit, whatever the labels of the scale say.
    room.map_or(longest, |room| room.min(longest)).floor().max(last.revolutions)
}

/// The next number of revolutions that a person would count to: in steps of 1, 2 or 5 times a power of ten, of about a
/// twentieth of it.
fn handy(revolutions: f64) -> f64 {
    let coarse = revolutions / 20.0;
    let power = 10_f64.powf(coarse.log10().floor());
    let step = [1.0, 2.0, 5.0].into_iter().map(|times| times * power).rfind(|step| *step <= coarse).unwrap_or(power);
    let step = step.max(1.0);
    (revolutions / step - 1e-9).ceil() * step
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two repeats of 60 revolutions with three runs poured together, 10 g a revolution and run.
    fn outlook() -> Outlook {
        let next = Next { runs: 3.0, rounding_variance: 4e-6, step: 1.0, most_revolutions: 1_200.0 };
        Outlook {
            kept: 2,
            minimum_repeats: 2,
            scatter: 0.02,
            pooled_degrees: 1_000.0,
            from_scale: 0.004,
            rounding_variance: 8e-6,
            caught_kg: 3.6,
            counting: 18.0,
            run_revolutions: 360.0,
            factor: 0.01,
            next,
            usual_revolutions: 60.0,
            heavy_enough: 2,
            shortest_too_light: 0.0,
            shares: Vec::new(),
        }
    }

    /// By hand, two more of 100 revolutions: 960 revolutions of a run, 9.6 kg, and twice of everything else.
    #[test]
    fn each_part_grows_as_the_budget_will() {
        let parts = outlook().parts(Further { repeats: 2, revolutions: 100.0 });
        let expected = [
            (BudgetTerm::Repeatability, 0.01),
            (BudgetTerm::Readability, 0.004 / 9.6),
            (BudgetTerm::Scale, 0.004),
            (BudgetTerm::Revolutions, 6_f64.sqrt() / 960.0),
        ];
        for ((term, part), (expected_term, expected)) in parts.into_iter().zip(expected) {
            assert_eq!(term, expected_term);
            assert!((part.standard_uncertainty / expected - 1.0).abs() < 1e-12, "{term:?}");
        }
        assert_eq!(parts[0].1.degrees_of_freedom, Some(1_003.0));
    }

    /// A coarse scale: 30 g a repeat, 2 % of scatter. Two more repeats of 60 do what one more does only from 170 on.
    #[test]
    fn the_least_is_the_least_altogether() {
        let next = Next { runs: 1.0, rounding_variance: 9e-4, step: 0.0, most_revolutions: 1_200.0 };
        let outlook = Outlook {
            from_scale: 0.0,
            rounding_variance: 18e-4,
            counting: 0.0,
            run_revolutions: 120.0,
            factor: 0.03,
            next,
            ..outlook()
        };
        let further = |repeats, revolutions| Further { repeats, revolutions };
        let expected = |further| outlook.expanded_percent(further).expect("a U");
        let least = |wanted| outlook.least_further(wanted).expect("it can be had").0;
        assert!(expected(further(1, 165.0)) > expected(further(2, 60.0)));
        assert!(expected(further(1, 180.0)) < expected(further(2, 60.0)));
        assert_eq!(least(expected(further(2, 60.0))), further(2, 60.0));
        // Of two that are as much to turn, the one with fewer repeats to weigh.
        assert!(expected(further(2, 60.0)) < expected(further(1, 120.0)));
        assert_eq!(least(expected(further(1, 120.0))), further(1, 120.0));
    }

    /// 0.2 % of scatter and a good scale: within 1 % at once, and nothing saves the search there.
    #[test]
    fn a_little_uncertainty_can_be_wanted() {
        let next = Next { step: 0.0, ..outlook().next };
        let outlook = Outlook { scatter: 0.002, from_scale: 0.0, counting: 0.0, next, ..outlook() };
        let once = Further { repeats: 1, revolutions: 60.0 };
        let expected = outlook.expanded_percent(once).expect("a U");
        assert!(expected < 0.3, "{expected}");
        assert_eq!(outlook.least_further(expected), Some((once, expected)));
        assert_eq!(outlook.least_further(0.01), None);
    }

    /// What is hardly longer is not worth another repeat: after 997 come 1050 and 1100.
    #[test]
    fn lengths_grow_by_handy_steps() {
        let next = Next { most_revolutions: 1_100.0, ..outlook().next };
        let lengths: Vec<_> = Outlook { usual_revolutions: 997.0, next, ..outlook() }.lengths().collect();
        assert_eq!(lengths, [997.0, 1_050.0, 1_100.0]);
        // What the scale can just take is tried too, and a last that was the longest is all there is.
        let next = Next { most_revolutions: 1_073.0, ..outlook().next };
        let full = Outlook { usual_revolutions: 997.0, next, ..outlook() };
        assert_eq!(full.lengths().collect::<Vec<_>>(), [997.0, 1_050.0, 1_073.0]);
        assert_eq!(Outlook { usual_revolutions: 1_073.0, ..full }.lengths().collect::<Vec<_>>(), [1_073.0]);
    }

    #[test]
    fn handy_numbers() {
        for (revolutions, expected) in [(60.0, 60.0), (60.1, 62.0), (101.0, 105.0), (643.0, 660.0), (3.2, 4.0)] {
            assert_eq!(handy(revolutions).to_bits(), f64::to_bits(expected), "{revolutions}");
        }
    }
}
