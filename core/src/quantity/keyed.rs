//! The number as a controller wants it keyed in: in which mass, for how many revolutions, for one run or the whole unit.
//!
//! Controllers differ in all three, and a person who converts in the head at a field edge is off by a factor sooner or
//! later. The factor itself stays in kg per revolution; this is only how it is written.

use super::{Unit, fraction::Fraction, unit::dimension};
use crate::{say, words::Words};

/// For how many revolutions of the roller the number is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PerRevolutions {
    /// One.
    One,
    /// A hundred.
    Hundred,
}

impl PerRevolutions {
    /// 1 or 100.
    pub const fn count(self) -> u8 {
        match self {
            Self::One => 1,
            Self::Hundred => 100,
        }
    }

    /// From 1 or 100; none of another count is known to be asked for.
    pub const fn from_count(count: i64) -> Option<Self> {
        match count {
            1 => Some(Self::One),
            100 => Some(Self::Hundred),
            _ => None,
        }
    }
}

/// What the number is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum KeyedFor {
    /// One run.
    Run,
    /// All runs in use of the metering unit together.
    Unit,
}

/// The form in which a controller takes a meter factor.
///
/// ```
/// use sowmark_core::quantity::{KeyedFor, KeyedIn, PerRevolutions, print_number, unit};
/// use sowmark_core::words::Words;
///
/// let form = KeyedIn { mass_unit: unit::LB, per: PerRevolutions::Hundred, is_for: KeyedFor::Unit };
/// // 7.03 g per revolution from each of eight runs: 0.05624 kg, 12.4 lb for a hundred.
/// let number = form.number(0.007_03, 0.056_24);
/// assert_eq!(print_number(number, 3), "12.4");
/// assert_eq!(form.unit(), "lb/100rev");
/// assert_eq!(form.unit_said(Words::default()), "lb per 100 revolutions");
/// assert_eq!(form.for_said(Words::default()), "whole unit");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeyedIn {
    /// The mass that the number is in.
    pub mass_unit: Unit<dimension::Mass>,
    /// For how many revolutions.
    pub per: PerRevolutions,
    /// For what.
    pub is_for: KeyedFor,
}

impl KeyedIn {
    /// The number for a factor, given in kg per revolution for one run and for the whole unit. The unit's factor is exact
    /// and rounded once.
    pub fn number(self, per_run: f64, whole_unit: f64) -> f64 {
        let factor = match self.is_for {
            KeyedFor::Run => per_run,
            KeyedFor::Unit => whole_unit,
        };
        let revolutions = Fraction::new(u128::from(self.per.count()), 1);
        factor * revolutions.times(self.mass_unit.factor().inverse()).to_f64()
    }

    /// Short, as the API writes units: `g/rev`, `lb/100rev`.
    pub fn unit(self) -> String {
        match self.per {
            PerRevolutions::One => format!("{}/rev", self.mass_unit),
            PerRevolutions::Hundred => format!("{}/100rev", self.mass_unit),
        }
    }

    /// Written out as a person reads: "g per revolution", "lb per 100 revolutions".
    pub fn unit_said(self, words: Words) -> String {
        let key = match self.per {
            PerRevolutions::One => "keyed-per-revolution",
            PerRevolutions::Hundred => "keyed-per-hundred-revolutions",
        };
        say!(words, key, unit = self.mass_unit.name())
    }

    /// "per run" or "whole unit" as a person reads.
    pub fn for_said(self, words: Words) -> String {
        let key = match self.is_for {
            KeyedFor::Run => "keyed-for-run",
            KeyedFor::Unit => "keyed-for-unit",
        };
        say!(words, key)
    }
}

#[cfg(test)]
mod tests {
    use super::{KeyedFor, KeyedIn, PerRevolutions};
    use crate::quantity::{print_number, unit};
    use crate::words::Words;

    /// By hand, from the definitions of the pound (0.45359237 kg) and the ounce (a sixteenth of it, 28.349523125 g):
    /// 34.2 g per revolution from each of twenty runs, 684 g from all.
    #[test]
    fn each_form_of_one_factor() {
        use KeyedFor::{Run, Unit};
        use PerRevolutions::{Hundred, One};
        for (mass_unit, per, is_for, expected, name, words) in [
            (unit::G, One, Run, "34.2000", "g/rev", "g per revolution"),
            (unit::G, Hundred, Unit, "68400.0", "g/100rev", "g per 100 revolutions"),
            (unit::KG, One, Unit, "0.684000", "kg/rev", "kg per revolution"),
            (unit::KG, Hundred, Run, "3.42000", "kg/100rev", "kg per 100 revolutions"),
            // 68.4 / 0.45359237 = 150.796…: 150 lb are 68.0388555 kg, and 0.3611445 / 0.45359237 = 0.79619
            (unit::LB, Hundred, Unit, "150.796", "lb/100rev", "lb per 100 revolutions"),
            (unit::LB, One, Run, "0.0753981", "lb/rev", "lb per revolution"),
            // 34.2 / 28.349523125: 1.2 oz are 34.01942775 g, and 0.18057225 / 28.349523125 = 0.00636950
            (unit::OZ, One, Run, "1.20637", "oz/rev", "oz per revolution"),
            (unit::OZ, Hundred, Unit, "2412.74", "oz/100rev", "oz per 100 revolutions"),
        ] {
            let form = KeyedIn { mass_unit, per, is_for };
            assert_eq!(print_number(form.number(0.0342, 0.684), 6), expected, "{name}");
            assert_eq!((form.unit().as_str(), form.unit_said(Words::default()).as_str()), (name, words));
        }
    }

    #[test]
    fn a_pound_a_revolution_is_a_hundred_pounds_exactly() {
        let form = KeyedIn { mass_unit: unit::LB, per: PerRevolutions::Hundred, is_for: KeyedFor::Run };
        assert_eq!(form.number(0.453_592_37, 0.0).to_bits(), 100_f64.to_bits());
        assert_eq!(form.for_said(Words::default()), "per run");
        assert_eq!(KeyedIn { is_for: KeyedFor::Unit, ..form }.for_said(Words::default()), "whole unit");
    }

    #[test]
    fn one_and_a_hundred_revolutions_are_known() {
        for count in -1..=101 {
            let known = PerRevolutions::from_count(count);
            assert_eq!(known.map(|per| i64::from(per.count())), [1, 100].contains(&count).then_some(count));
        }
    }
}
