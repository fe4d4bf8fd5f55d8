//! The organization's tolerances: every limit the judgement uses, with its default, unit, reason and physical range.
//!
//! A calibration is judged by the policy in force when it was recorded, so a [`Policy`] is stored with it and must stay
//! readable: fields are added, never renamed. The same list that makes the struct makes [`Policy::fields`], from which
//! a form is drawn and read; a limit therefore cannot exist without its reason. What the limits do is told in
//! [`crate::verdict`].

use std::{fmt, ops::RangeInclusive};

use serde::{Deserialize, Serialize};

use crate::{say, words::Words};

/// What kind of value a policy field holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FieldKind {
    /// A decimal number.
    Number,
    /// A whole number.
    Whole,
    /// Yes or no, written `true` and `false`.
    Bool,
}

impl FieldKind {
    const fn word(self) -> &'static str {
        match self {
            Self::Number => "number",
            Self::Whole => "whole",
            Self::Bool => "bool",
        }
    }
}

/// One row of [`Policy::fields`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PolicyField {
    /// The field's name in the struct, the database and the API.
    pub name: &'static str,
    /// The default as text; empty for a field that is off.
    pub default: &'static str,
    /// The unit, in English; empty where there is none. For people see [`Self::unit_in`].
    pub unit: &'static str,
    /// Least value that makes sense.
    pub min: f64,
    /// Greatest value that makes sense.
    pub max: f64,
    /// The field may be empty, which turns its rule off.
    pub nullable: bool,
    /// Number, whole number, or yes and no.
    pub kind: FieldKind,
}

/// Why a policy's value was refused, for the person who entered it.
#[derive(Clone, Debug, PartialEq)]
pub struct PolicyError {
    name: String,
    fault: Fault,
}

#[derive(Clone, Debug, PartialEq)]
enum Fault {
    UnknownField,
    NotTrueOrFalse,
    NoValue(&'static PolicyField),
    OutOfBounds(&'static PolicyField, f64),
    RemarkAboveLimit { remark: f64, limit: f64 },
}

impl PolicyError {
    /// What was given, what is allowed and what to do, as a person reads.
    pub fn says(&self, words: Words) -> String {
        let name = &self.name;
        match self.fault {
            Fault::UnknownField => say!(words, "policy-unknown-field", name = name),
            Fault::NotTrueOrFalse => say!(words, "policy-not-true-or-false", name = name),
            Fault::NoValue(field) => say!(
                words,
                "policy-no-value",
                name = name,
                kind = field.kind.word(),
                least = words.exactly(field.min),
                most = field.most(words),
                empty = if field.nullable { "allowed" } else { "no" }
            ),
            Fault::OutOfBounds(field, given) => say!(
                words,
                "policy-out-of-bounds",
                name = name,
                given = words.exactly(given),
                kind = field.kind.word(),
                least = words.exactly(field.min),
                most = field.most(words),
                empty = if field.nullable { "allowed" } else { "no" }
            ),
            Fault::RemarkAboveLimit { remark, limit } => {
                say!(words, "policy-remark-above-limit", remark = words.exactly(remark), limit = words.exactly(limit))
            }
        }
    }
}

impl fmt::Display for PolicyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.says(Words::default()))
    }
}

impl std::error::Error for PolicyError {}

/// A value that a policy field can hold: how it is read, written and bounded.
trait PolicyValue: Sized {
    const KIND: FieldKind;
    const NULLABLE: bool = false;
    fn read(text: &str) -> Option<Self>;
    fn write(&self) -> Option<String>;
    /// The number that is not within the bounds, a NaN among them.
    fn beyond(&self, bounds: RangeInclusive<f64>) -> Option<f64>;
}

impl PolicyValue for f64 {
    const KIND: FieldKind = FieldKind::Number;
    fn read(text: &str) -> Option<Self> {
        crate::quantity::Decimal::parse(text).ok().map(|number| number.to_f64())
    }
    fn write(&self) -> Option<String> {
        Some(self.to_string())
    }
    fn beyond(&self, bounds: RangeInclusive<f64>) -> Option<f64> {
        Some(*self).filter(|size| !bounds.contains(size))
    }
}

impl PolicyValue for u32 {
    const KIND: FieldKind = FieldKind::Whole;
    fn read(text: &str) -> Option<Self> {
        text.trim().parse().ok()
    }
    fn write(&self) -> Option<String> {
        Some(self.to_string())
    }
    fn beyond(&self, bounds: RangeInclusive<f64>) -> Option<f64> {
        f64::from(*self).beyond(bounds)
    }
}

impl PolicyValue for bool {
    const KIND: FieldKind = FieldKind::Bool;
    fn read(text: &str) -> Option<Self> {
        text.trim().parse().ok()
    }
    fn write(&self) -> Option<String> {
        Some(self.to_string())
    }
    fn beyond(&self, _: RangeInclusive<f64>) -> Option<f64> {
        None
    }
}

impl PolicyValue for Option<f64> {
    const KIND: FieldKind = FieldKind::Number;
    const NULLABLE: bool = true;
    fn read(text: &str) -> Option<Self> {
        if text.trim().is_empty() { Some(None) } else { f64::read(text).map(Some) }
    }
    fn write(&self) -> Option<String> {
        self.map(|value| value.to_string())
    }
    fn beyond(&self, bounds: RangeInclusive<f64>) -> Option<f64> {
        self.and_then(|value| value.beyond(bounds))
    }
}

impl PolicyField {
    /// What the field is called: "Minimum repeats".
    pub fn label(&self, words: Words) -> String {
        words.say(&format!("policy-label-{}", self.name), &[])
    }

    /// What it is for and where the default comes from.
    pub fn because(&self, words: Words) -> String {
        words.sentence(&words.say(&format!("policy-because-{}", self.name), &[]))
    }

    /// The unit in the reader's words; empty where there is none.
    pub fn unit_in(&self, words: Words) -> String {
        words.unit(self.unit)
    }

    /// The greatest value with its unit.
    fn most(&self, words: Words) -> String {
        format!("{} {}", words.exactly(self.max), self.unit_in(words)).trim_end().to_owned()
    }

    fn read<T: PolicyValue>(&'static self, text: Option<&str>) -> Result<T, PolicyError> {
        let value = T::read(text.unwrap_or("")).ok_or_else(|| match self.kind {
            FieldKind::Bool => self.error(Fault::NotTrueOrFalse),
            FieldKind::Whole | FieldKind::Number => self.error(Fault::NoValue(self)),
        })?;
        self.bound(&value)?;
        Ok(value)
    }

    fn bound<T: PolicyValue>(&'static self, value: &T) -> Result<(), PolicyError> {
        match value.beyond(self.min..=self.max) {
            Some(given) => Err(self.error(Fault::OutOfBounds(self, given))),
            None => Ok(()),
        }
    }

    fn error(&self, fault: Fault) -> PolicyError {
        PolicyError { name: self.name.to_owned(), fault }
    }
}

macro_rules! policy {
    ($($name:ident: $kind:ty = $value:expr, $text:literal, $unit:literal, $min:literal to $max:literal;)+) => {
        /// The tolerances of one organization. Missing fields read as their defaults; unknown ones are refused.
        ///
        /// ```
        /// use sowmark_core::policy::Policy;
        ///
        /// let mut policy = Policy::default();
        /// assert_eq!(policy.repeat_spread_limit_percent, 5.0);
        /// policy.set("interval_days", Some("30"))?;
        /// assert_eq!(policy.get("interval_days"), Some(Some("30".to_owned())));
        /// assert_eq!(
        ///     policy.set("drift_lambda", Some("3")).unwrap_err().to_string(),
        ///     "drift_lambda of 3 is out of bounds; it must be a number from 0.01 to 1"
        /// );
        /// # Ok::<(), sowmark_core::policy::PolicyError>(())
        /// ```
        #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
        #[serde(default, deny_unknown_fields)]
        pub struct Policy {
            $(
                #[doc = concat!("`", $text, "` ", $unit, " unless set; what for: `policy-because-", stringify!($name), "` in the texts.")]
                pub $name: $kind,
            )+
        }

        impl Default for Policy {
            fn default() -> Self {
                Self { $($name: $value),+ }
            }
        }

        const FIELDS: &[PolicyField] = &[$(PolicyField {
            name: stringify!($name), default: $text, unit: $unit, min: $min, max: $max,
            nullable: <$kind as PolicyValue>::NULLABLE, kind: <$kind as PolicyValue>::KIND,
        }),+];

        impl Policy {
            /// The table of all fields, in the order in which a form shows them.
            pub const fn fields() -> &'static [PolicyField] {
                FIELDS
            }

            /// The value of a field as text; `Some(None)` where it is off, `None` where there is no such field.
            pub fn get(&self, name: &str) -> Option<Option<String>> {
                match name {
                    $(stringify!($name) => Some(self.$name.write()),)+
                    _ => None,
                }
            }

            /// Sets a field from text; nothing or an empty text turns a field off that may be off.
            ///
            /// # Errors
            /// No such field; not a value of its kind; a value out of its range.
            pub fn set(&mut self, name: &str, text: Option<&str>) -> Result<(), PolicyError> {
                let unknown = || PolicyError { name: name.to_owned(), fault: Fault::UnknownField };
                let field = FIELDS.iter().find(|field| field.name == name).ok_or_else(unknown)?;
                match name {
                    $(stringify!($name) => self.$name = field.read(text)?,)+
                    _ => return Err(unknown()),
                }
                Ok(())
            }

            /// Every field out of its physical range, with what is wrong about it; then what does not fit together.
            pub fn check(&self) -> Vec<(&'static str, String)> {
                self.check_in(Words::default())
            }

            /// [`Self::check`], said as a person reads.
            pub fn check_in(&self, words: Words) -> Vec<(&'static str, String)> {
                self.faults().into_iter().map(|(name, fault)| (name, fault.says(words))).collect()
            }

            /// [`Self::check`], to be said later.
            pub fn faults(&self) -> Vec<(&'static str, PolicyError)> {
                let mut faults = Vec::new();
                for field in FIELDS {
                    let bound = match field.name {
                        $(stringify!($name) => field.bound(&self.$name),)+
                        _ => Ok(()),
                    };
                    faults.extend(bound.err().map(|error| (field.name, error)));
                }
                faults.extend(self.contradictions());
                faults
            }
        }
    };
}

policy! {
    minimum_repeats: u32 = 2, "2", "repeats", 1.0 to 20.0;
    repeat_spread_limit_percent: f64 = 5.0, "5", "%", 0.1 to 100.0;
    run_cv_limit_percent: f64 = 15.0, "15", "%", 0.1 to 200.0;
    run_cv_remark_percent: f64 = 10.0, "10", "%", 0.1 to 200.0;
    catch_resolution_limit_percent: f64 = 1.0, "1", "%", 0.01 to 50.0;
    rule_of_thumb_catch_kg: f64 = 1.0, "1", "kg", 0.0 to 1000.0;
    small_seed_catch_kg: f64 = 0.2, "0.2", "kg", 0.0 to 1000.0;
    small_seed_limit_g: f64 = 10.0, "10", "g per thousand seeds", 0.0 to 1000.0;
    uncertainty_limit_percent: f64 = 5.0, "5", "%", 0.1 to 100.0;
    roller_speed_tolerance_percent: f64 = 25.0, "25", "%", 1.0 to 500.0;
    scale_error_limit_percent: f64 = 0.5, "0.5", "%", 0.01 to 20.0;
    scale_check_interval_days: f64 = 30.0, "30", "days", 0.5 to 3660.0;
    plausibility_fail_factor: f64 = 1.5, "1.5", "times", 1.01 to 100.0;
    plausibility_remark_percent: f64 = 15.0, "15", "%", 0.1 to 1000.0;
    pooled_repeatability_percent: f64 = 1.5, "1.5", "%", 0.0 to 50.0;
    pooled_repeatability_degrees_of_freedom: u32 = 10, "10", "degrees of freedom", 0.0 to 1000.0;
    seed_weight_tolerance_percent: f64 = 3.0, "3", "%", 0.1 to 100.0;
    recall_allowed: bool = true, "true", "", 0.0 to 1.0;
    interval_days: Option<f64> = None, "", "days", 1.0 to 3660.0;
    interval_area_ha: Option<f64> = None, "", "ha", 1.0 to 1_000_000.0;
    drift_lambda: f64 = 0.3, "0.3", "", 0.01 to 1.0;
    drift_limit_width: f64 = 3.0, "3", "standard deviations", 1.0 to 10.0;
    drift_sigma_percent: f64 = 3.0, "3", "%", 0.1 to 50.0;
    weighed_balance_uncertainty_kg: f64 = 10.0, "10", "kg", 0.0 to 10_000.0;
    bag_mass_kg: f64 = 25.0, "25", "kg", 0.1 to 2_000.0;
    area_uncertainty_percent: f64 = 0.5, "0.5", "%", 0.0 to 50.0;
}

impl Policy {
    /// Limits that each lie in their range but do not go together.
    fn contradictions(&self) -> Option<(&'static str, PolicyError)> {
        let (remark, limit) = (self.run_cv_remark_percent, self.run_cv_limit_percent);
        (remark > limit).then(|| {
            let name = "run_cv_remark_percent";
            (name, PolicyError { name: name.to_owned(), fault: Fault::RemarkAboveLimit { remark, limit } })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::{FieldKind, Policy};
    use crate::words::Words;

    #[test]
    fn the_table_and_the_struct_agree() {
        let policy = Policy::default();
        let stored = serde_json::to_value(&policy).expect("a policy is plain JSON");
        let stored = stored.as_object().expect("an object");
        assert_eq!(stored.len(), Policy::fields().len());
        for field in Policy::fields() {
            assert!(stored.contains_key(field.name), "{}", field.name);
            assert_eq!(policy.get(field.name), Some((!field.default.is_empty()).then(|| field.default.to_owned())));
            assert_eq!(field.nullable, field.default.is_empty(), "{}", field.name);
            assert!(field.min < field.max && field.because(Words::default()).ends_with('.'), "{}", field.name);
            let mut read = policy.clone();
            read.set(field.name, Some(field.default)).expect(field.name);
            assert_eq!(read, policy);
            for outside in [field.min - 1.0, field.max + 1.0].map(|value| value.to_string()) {
                let refused = read.set(field.name, Some(&outside)).expect_err(field.name);
                assert!(refused.to_string().contains(field.name));
            }
            assert!(read.set(field.name, Some("NaN")).is_err());
            assert_eq!(read.set(field.name, None).is_ok(), field.nullable);
            assert_eq!(field.kind == FieldKind::Bool, field.name == "recall_allowed");
        }
        assert_eq!(policy.check(), []);
    }

    #[test]
    fn every_value_out_of_range_is_named() {
        let policy = Policy {
            minimum_repeats: 0,
            drift_lambda: f64::NAN,
            interval_days: Some(-1.0),
            run_cv_remark_percent: 20.0,
            ..Policy::default()
        };
        let names: Vec<_> = policy.check().into_iter().map(|(name, _)| name).collect();
        assert_eq!(names, ["minimum_repeats", "interval_days", "drift_lambda", "run_cv_remark_percent"]);
    }

    #[test]
    fn a_stored_policy_reads_back_and_a_misspelt_field_does_not() {
        let policy = Policy { interval_area_ha: Some(250.5), recall_allowed: false, ..Policy::default() };
        let stored = serde_json::to_string(&policy).expect("JSON");
        assert_eq!(serde_json::from_str::<Policy>(&stored).expect("reads back"), policy);
        assert_eq!(serde_json::from_str::<Policy>("{}").expect("defaults"), Policy::default());
        assert!(serde_json::from_str::<Policy>(r#"{"minimum_repeat": 3}"#).is_err());
    }
}
