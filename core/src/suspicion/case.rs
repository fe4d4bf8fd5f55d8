//! What the slips look at: a sheet, its numbers and what is known besides; and how a slip is written down.

use super::{
    Cause,
    fit::Target,
    numbers::{Numbers, Turned, median},
};
use crate::{
    catch::{Catch, MAX_REPEATS, Repeat, Sheet},
    circumstances::Circumstances,
    words::Words,
};

/// One sheet under suspicion.
pub(super) struct Case<'a> {
    /// The kept repeats as entered, with their number on the sheet, from one.
    pub(super) entered: Vec<(usize, &'a Repeat)>,
    /// The same in numbers.
    pub(super) numbers: Numbers,
    pub(super) circumstances: &'a Circumstances,
    pub(super) target: Option<Target>,
    pub(super) words: Words,
}

/// A slip that may have happened, and the numbers without it.
pub(super) struct Slip {
    pub(super) cause: Cause,
    /// How often it happens, in a thousand sheets; judgements, no source.
    pub(super) weight: f64,
    /// What the sheet itself says for or against it, as the logarithm of a likelihood.
    pub(super) evidence: f64,
    pub(super) numbers: Numbers,
    /// A repeat that does not count.
    pub(super) left_out: Option<usize>,
    /// What the factor should be then, where that is something else.
    pub(super) target: Option<Target>,
    /// What to look at.
    pub(super) look: String,
}

impl<'a> Case<'a> {
    pub(super) fn of(sheet: &'a Sheet, circumstances: &'a Circumstances, words: Words) -> Self {
        let kept = sheet.repeats.iter().enumerate().filter(|(_, repeat)| repeat.set_aside.is_none());
        Self {
            entered: kept.map(|(at, repeat)| (at + 1, repeat)).take(MAX_REPEATS).collect(),
            numbers: Numbers::of(sheet, circumstances),
            circumstances,
            target: circumstances.expected.and_then(Target::of),
            words,
        }
    }

    /// A slip that changes numbers.
    pub(super) fn slip(&self, cause: Cause, weight: f64, numbers: Numbers, look: String) -> Slip {
        Slip { cause, weight, evidence: 0.0, numbers, left_out: None, target: self.target, look }
    }

    /// A slip that may have happened in all repeats or in one: half as often in one, and each is as likely to be the
    /// one. `change` gives the repeat without the slip, `None` where it cannot have happened; `look` is told the
    /// number of the repeat, or 0 for all.
    pub(super) fn everywhere_or_once(
        &self,
        cause: Cause,
        weight: f64,
        change: impl Fn(&Repeat, &Turned) -> Option<Turned>,
        look: impl Fn(usize) -> String,
    ) -> Vec<Slip> {
        let changed = |at: usize| change(self.entered.get(at)?.1, self.numbers.repeats.get(at)?);
        let mut slips = Vec::new();
        let count = self.numbers.repeats.len();
        if let Some(repeats) = (0..count).map(changed).collect() {
            slips.push(self.slip(cause, weight, Numbers { repeats }, look(0)));
        }
        if count > 1 {
            for at in self.numbers.farthest_repeats() {
                let Some(turned) = changed(at) else { continue };
                let evidence = self.revolutions_speak(at, &turned);
                let mut numbers = self.numbers.clone();
                if let Some(place) = numbers.repeats.get_mut(at) {
                    *place = turned;
                }
                let look = look(self.number(at));
                slips.push(Slip { evidence, ..self.slip(cause, weight / 2.0 / count as f64, numbers, look) });
            }
        }
        slips
    }

    /// People turn equally often for every repeat. Where the others agree on a number of revolutions, a repeat that is
    /// odd speaks for a slip in counting if that makes it even, and against any other; an even one the other way round.
    fn revolutions_speak(&self, at: usize, without: &Turned) -> f64 {
        let others: Vec<_> = self
            .numbers
            .repeats
            .iter()
            .enumerate()
            .filter(|(other, _)| *other != at)
            .map(|(_, repeat)| repeat.revolutions.ln())
            .collect();
        let Some(middle) = median(&others) else { return 0.0 };
        let odd = |revolutions: f64| (revolutions.ln() - middle).abs() > 0.1;
        if others.iter().any(|other| (other - middle).abs() > 0.1) {
            return 0.0;
        }
        let before = self.numbers.repeats.get(at).is_some_and(|repeat| odd(repeat.revolutions));
        match (before, odd(without.revolutions)) {
            (false, false) => 0.0,
            (true, false) => 2.0,
            (false, true) => -2.0,
            (true, true) => -1.5,
        }
    }

    /// The number of a kept repeat on the sheet, from one; zero for one that is not there.
    pub(super) fn number(&self, at: usize) -> usize {
        self.entered.get(at).map_or(0, |(number, _)| *number)
    }

    /// A catch as entered.
    pub(super) fn catch(&self, (at, position): (usize, usize)) -> Option<&'a Catch> {
        self.entered.get(at)?.1.catches.get(position)
    }

    /// How a catch is called, as it is on record: "run 3", or "catch 2" where it has no label.
    pub(super) fn label(&self, (at, position): (usize, usize)) -> String {
        let label = self.catch((at, position)).and_then(|catch| catch.label.as_deref()).map(str::trim);
        label.filter(|label| !label.is_empty()).map_or_else(|| format!("catch {}", position + 1), str::to_owned)
    }
}

impl Slip {
    /// With what the sheet says for or against it besides.
    pub(super) fn with_evidence(self, evidence: f64) -> Self {
        Self { evidence: self.evidence + evidence, ..self }
    }
}
