//! What a check of a published result consists of, and when it holds.
//!
//! A [`Check`] sets what core computes ("found") beside what the source prints and, where a source rounds or slips,
//! beside the exact result, worked out apart from this program. A printed result binds to half a unit of its last digit
//! unless the check says otherwise and why. Where ours and the printed one differ, the check says so
//! ([`Check::differs`]) and must then prove two things: that they do differ, and that ours is the exact one.

use std::fmt;

/// Where results come from, and the checks against them.
pub(crate) struct Source {
    /// Who published it.
    pub(crate) title: &'static str,
    /// Where it stands.
    pub(crate) address: &'static str,
    /// How the numbers came from there to here.
    pub(crate) seen: Seen,
    pub(crate) checks: Vec<Check>,
}

/// How a published number came into a test.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Seen {
    /// Read on the page, or in a stored copy of it.
    Read,
    /// Read in another publication that quotes it.
    Quoted,
    /// Remembered, not read; the results were computed by other programs.
    Memory,
    /// Published by nobody: the results were computed by other programs.
    Computed,
}

/// One result.
#[derive(Clone)]
pub(crate) struct Check {
    /// The check's name within its source: "rate of twelve units".
    name: String,
    /// What goes in.
    inputs: String,
    /// What core makes of it.
    found: f64,
    printed: Option<Printed>,
    exact: Option<Exact>,
    difference: Option<&'static str>,
}

#[derive(Clone)]
struct Printed {
    text: String,
    value: f64,
    /// Absolute.
    within: f64,
    why: &'static str,
    is_certified: bool,
}

#[derive(Clone)]
struct Exact {
    value: f64,
    /// Relative.
    within: f64,
    why: &'static str,
}

/// A result that core computes from `inputs`; say what it is held against with the methods.
pub(crate) fn check(name: impl Into<String>, inputs: impl Into<String>, found: f64) -> Check {
    Check { name: name.into(), inputs: inputs.into(), found, printed: None, exact: None, difference: None }
}

impl Check {
    /// What the source prints, number first: "8.9 kg/ha". It binds to half a unit of its last digit.
    pub(crate) fn prints(self, text: &str) -> Self {
        let (value, unit_of_last_digit) = read(text);
        self.against(text, value, 0.5 * unit_of_last_digit * (1.0 + 1e-9), "half a unit of the last digit printed")
    }

    /// What the source prints, where it binds to `within` and `why` not to half a unit of the last digit.
    pub(crate) fn prints_within(self, text: &str, within: f64, why: &'static str) -> Self {
        self.against(text, read(text).0, within, why)
    }

    /// A result that the source certifies to all its digits; `within` is relative, `why` says what sets the limit.
    pub(crate) fn certified(self, text: &str, within: f64, why: &'static str) -> Self {
        let value = read(text).0;
        let mut check = self.against(text, value, within * value.abs(), why);
        check.printed.iter_mut().for_each(|printed| printed.is_certified = true);
        check
    }

    /// The result worked out apart from this program, in exact fractions or with many digits; ours may differ in the last bits.
    pub(crate) fn exactly(self, value: f64) -> Self {
        self.computed(value, 1e-13, "exact fractions or forty digits, then rounded once")
    }

    /// The result computed by another program, where more than the last bits may differ; `within` is relative.
    pub(crate) fn computed(mut self, value: f64, within: f64, why: &'static str) -> Self {
        self.exact = Some(Exact { value, within, why });
        self
    }

    /// The printed result is not ours, and `why` ours is right.
    pub(crate) fn differs(mut self, why: &'static str) -> Self {
        self.difference = Some(why);
        self
    }

    fn against(mut self, text: &str, value: f64, within: f64, why: &'static str) -> Self {
        self.printed = Some(Printed { text: text.to_owned(), value, within, why, is_certified: false });
        self
    }

    /// Whether it is held against something that somebody published.
    pub(crate) fn is_published(&self) -> bool {
        self.printed.is_some()
    }

    /// Whether an exact result stands beside the printed one, or the printed one is certified and so exact itself.
    pub(crate) fn has_exact(&self) -> bool {
        self.exact.is_some() || self.printed.as_ref().is_some_and(|printed| printed.is_certified)
    }

    /// Whether ours is not the printed one.
    pub(crate) fn is_difference(&self) -> bool {
        self.difference.is_some()
    }

    /// What is wrong with it, if anything.
    pub(crate) fn fault(&self) -> Option<String> {
        let meets_printed = self.printed.as_ref().map(|printed| (self.found - printed.value).abs() <= printed.within);
        let meets_exact =
            self.exact.as_ref().map(|exact| (self.found - exact.value).abs() <= exact.within * exact.value.abs());
        let says = match (meets_printed, meets_exact, self.is_difference()) {
            (_, Some(false), _) => "ours is not the exact result",
            (Some(false), _, false) => "ours is not the printed result",
            (Some(true), _, true) => "said to differ from the printed result, but does not",
            (None, _, true) | (_, None, true) => "a difference needs a printed and an exact result",
            (None, None, false) => "held against nothing",
            _ => return None,
        };
        Some(format!("{says}: {self}"))
    }
}

impl fmt::Display for Check {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({}): ours {}", self.name, self.inputs, self.found)?;
        if let Some(Printed { text, within, why, .. }) = &self.printed {
            write!(f, "; printed {text}, held to {within:.2e} ({why})")?;
        }
        if let Some(Exact { value, within, why }) = &self.exact {
            write!(f, "; exact {value}, held to {within:.0e} of it ({why})")?;
        }
        match self.difference {
            Some(why) => write!(f, " DIFFERENCE: {why}"),
            None => Ok(()),
        }
    }
}

/// The number that a text begins with, and one unit of its last digit.
fn read(text: &str) -> (f64, f64) {
    let number = text.split_whitespace().next().expect("a printed result begins with a number");
    let (digits, exponent) = number.split_once('e').unwrap_or((number, "0"));
    let places = digits.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    let places = i32::try_from(places).expect("few digits");
    let exponent: i32 = exponent.parse().expect("an exponent");
    (number.parse().expect("a number"), 10_f64.powi(exponent - places))
}

#[test]
fn a_printed_number_binds_to_half_its_last_digit() {
    let close = |found: (f64, f64), expected: (f64, f64)| {
        assert!((found.0 - expected.0).abs() < 1e-25 && (found.1 / expected.1 - 1.0).abs() < 1e-12, "{found:?}");
    };
    close(read("175 kg/ha"), (175.0, 1.0));
    close(read("-0.1494"), (-0.1494, 1e-4));
    close(read("53.3e-15"), (53.3e-15, 1e-16));
    for (found, holds) in [(7.65, true), (7.75, true), (7.649, false), (7.751, false), (f64::NAN, false)] {
        assert_eq!(check("", "", found).prints("7.7").fault().is_none(), holds, "{found}");
    }
}

/// The harness itself must not let anything through.
#[test]
fn what_does_not_hold_is_a_fault() {
    let found = |value| check("", "", value);
    assert!(found(1.0).fault().is_some_and(|says| says.contains("held against nothing")));
    assert!(found(1.0).exactly(1.1).fault().is_some());
    assert!(found(f64::NAN).exactly(1.1).fault().is_some());
    assert!(found(1.2).prints("1.2").exactly(1.25).fault().is_some(), "near the printed one is not enough");
    assert!(found(1.2).prints("1.2").exactly(1.2).differs("").fault().is_some(), "no difference");
    assert!(found(1.2).prints("1.3").differs("").fault().is_some(), "not proven");
    assert!(found(1.2).exactly(1.2).differs("").fault().is_some(), "from what?");
    assert!(found(1.2).prints("1.3").exactly(1.2).differs("").fault().is_none());
    assert!(found(1.2).certified("1.3", 0.1, "").fault().is_none());
    assert!(found(1.2).certified("1.3", 0.01, "").fault().is_some());
}
