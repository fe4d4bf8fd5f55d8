//! The organization's tolerances: every limit the judgement uses, with its default, unit, reason and physical range.
//!
//! A calibration is judged by the policy in force when it was recorded, so a [`Policy`] is stored with it and must stay
//! readable: fields are added, never renamed. The same list that makes the struct makes [`Policy::fields`], from which
//! a form is drawn and read; a limit therefore cannot exist without its reason. What the limits do is told in
//! [`crate::verdict`].

use std::fmt;

use serde::{Deserialize, Serialize};

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

/// One row of [`Policy::fields`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PolicyField {
    /// The field's name in the struct, the database and the API.
    pub name: &'static str,
    /// The default as text; empty for a field that is off.
    pub default: &'static str,
    /// The unit, in words a person reads; empty where there is none.
    pub unit: &'static str,
    /// What it is for and where the default comes from.
    pub because: &'static str,
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
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PolicyError(String);

impl fmt::Display for PolicyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for PolicyError {}

/// A value that a policy field can hold: how it is read, written and bounded.
trait PolicyValue: Sized {
    const KIND: FieldKind;
    const NULLABLE: bool = false;
    fn read(text: &str) -> Option<Self>;
    fn write(&self) -> Option<String>;
    fn size(&self) -> Option<f64>;
}

impl PolicyValue for f64 {
    const KIND: FieldKind = FieldKind::Number;
    fn read(text: &str) -> Option<Self> {
        crate::quantity::Decimal::parse(text).ok().map(|number| number.to_f64())
    }
    fn write(&self) -> Option<String> {
        Some(self.to_string())
    }
    fn size(&self) -> Option<f64> {
        Some(*self)
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
    fn size(&self) -> Option<f64> {
        Some(f64::from(*self))
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
    fn size(&self) -> Option<f64> {
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
    fn size(&self) -> Option<f64> {
        *self
    }
}

impl PolicyField {
    fn read<T: PolicyValue>(&self, text: Option<&str>) -> Result<T, PolicyError> {
        let value = T::read(text.unwrap_or("")).ok_or_else(|| PolicyError(format!("{} {}", self.name, self.asks())))?;
        self.bound(&value)?;
        Ok(value)
    }

    fn bound<T: PolicyValue>(&self, value: &T) -> Result<(), PolicyError> {
        match value.size() {
            // Written so that a NaN is out of bounds too.
            Some(size) if !(self.min..=self.max).contains(&size) => {
                Err(PolicyError(format!("{} of {size} is out of bounds; it {}", self.name, self.asks())))
            }
            _ => Ok(()),
        }
    }

    fn asks(&self) -> String {
        let Self { min, max, unit, .. } = self;
        let what = match self.kind {
            FieldKind::Bool => return "is true or false".to_owned(),
            FieldKind::Whole => "a whole number",
            FieldKind::Number => "a number",
        };
        let space = if unit.is_empty() { "" } else { " " };
        let off = if self.nullable { ", or empty to turn it off" } else { "" };
        format!("must be {what} from {min} to {max}{space}{unit}{off}")
    }
}

macro_rules! policy {
    ($($name:ident: $kind:ty = $value:expr, $text:literal, $unit:literal, $min:literal to $max:literal, $because:literal;)+) => {
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
            $(#[doc = $because] #[doc = concat!("\n\nDefault: ", $text, " ", $unit)] pub $name: $kind,)+
        }

        impl Default for Policy {
            fn default() -> Self {
                Self { $($name: $value),+ }
            }
        }

        const FIELDS: &[PolicyField] = &[$(PolicyField {
            name: stringify!($name), default: $text, unit: $unit, because: $because, min: $min, max: $max,
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
                let unknown = || PolicyError(format!("{name} is not a field of the policy"));
                let field = FIELDS.iter().find(|field| field.name == name).ok_or_else(unknown)?;
                match name {
                    $(stringify!($name) => self.$name = field.read(text)?,)+
                    _ => return Err(unknown()),
                }
                Ok(())
            }

            /// Every field out of its physical range, with what is wrong about it; then what does not fit together.
            pub fn check(&self) -> Vec<(&'static str, String)> {
                let mut faults = Vec::new();
                for field in FIELDS {
                    let bound = match field.name {
                        $(stringify!($name) => field.bound(&self.$name),)+
                        _ => Ok(()),
                    };
                    faults.extend(bound.err().map(|error| (field.name, error.0)));
                }
                faults.extend(self.contradictions());
                faults
            }
        }
    };
}

policy! {
    minimum_repeats: u32 = 2, "2", "repeats", 1.0 to 20.0,
        "Fewer kept repeats than this fail. Default: two are the least that can show a slip; published advice on measurements is three or more.";
    repeat_spread_limit_percent: f64 = 5.0, "5", "%", 0.1 to 100.0,
        "Repeats that differ by more than this fail; above half of it is a remark. Default: the textbook rule of plus or minus 5 % for a drill's catches.";
    run_cv_limit_percent: f64 = 15.0, "15", "%", 0.1 to 200.0,
        "Runs that vary by more than this fail. Default: the upper limit of prairie evaluation reports for grain and fertilizer (from memory).";
    run_cv_remark_percent: f64 = 10.0, "10", "%", 0.1 to 200.0,
        "Runs that vary by more than this get a remark. Default: 10 % or less was called very good for air seeders by a provincial test centre.";
    catch_resolution_limit_percent: f64 = 1.0, "1", "%", 0.01 to 50.0,
        "The scale's rounding may be this share of the smallest catch, no more. Default: a judgement, well below the limit on the spread.";
    rule_of_thumb_catch_kg: f64 = 1.0, "1", "kg", 0.0 to 1000.0,
        "A lighter catch gets a remark. Default: common practice, no source.";
    small_seed_catch_kg: f64 = 0.2, "0.2", "kg", 0.0 to 1000.0,
        "The same for small seed, of which a kilogram takes too long to catch. Default: common practice, no source.";
    small_seed_limit_g: f64 = 10.0, "10", "g per thousand seeds", 0.0 to 1000.0,
        "Seed lighter than this counts as small seed. Default: rape and grass lie below, cereals above; common practice, no source.";
    uncertainty_limit_percent: f64 = 5.0, "5", "%", 0.1 to 100.0,
        "A factor known no better than this fails; above half of it is a remark. Default: as wide as the textbook tolerance on the rate itself.";
    roller_speed_tolerance_percent: f64 = 25.0, "25", "%", 1.0 to 500.0,
        "A catch at a roller speed further than this from the one needed gets a remark. Default: a judgement; published tests show that delivery depends on speed, without one number.";
    scale_error_limit_percent: f64 = 0.5, "0.5", "%", 0.01 to 20.0,
        "The scale may be off by this share of the load. Default: about one step in two hundred, what a class III scale in service may show on a small catch.";
    scale_check_interval_days: f64 = 30.0, "30", "days", 0.5 to 3660.0,
        "A scale wants a check with a known mass this often. Default: a judgement, once or twice a sowing season.";
    plausibility_fail_factor: f64 = 1.5, "1.5", "times", 1.01 to 100.0,
        "A factor that differs from the expected one by more than this many times fails. Default: a judgement; lots of one crop differ by far less, slips by more.";
    plausibility_remark_percent: f64 = 15.0, "15", "%", 0.1 to 1000.0,
        "A factor that differs from the expected one by more than this gets a remark. Default: a judgement; moving and standing catches differ by 4 to 15 % in published tests.";
    pooled_repeatability_percent: f64 = 1.5, "1.5", "%", 0.0 to 50.0,
        "How much one repeat varies, known from earlier catches. Default: a judgement; published meters repeat within 0.5 to 1.3 %.";
    pooled_repeatability_degrees_of_freedom: u32 = 10, "10", "degrees of freedom", 0.0 to 1000.0,
        "How well that is known, as the number of earlier repeats less one per event; 0 leaves the catch to speak for itself. Default: a judgement.";
    seed_weight_tolerance_percent: f64 = 3.0, "3", "%", 0.1 to 100.0,
        "A lot whose seed weight or bulk density changed by more than this must be caught again. Default: a judgement; the published trigger is 1 g per thousand of rape seed.";
    recall_allowed: bool = true, "true", "", 0.0 to 1.0,
        "An earlier factor on the same basis may be used again after a change and back. Default: yes; turn it off to catch after every change.";
    interval_days: Option<f64> = None, "", "days", 1.0 to 3660.0,
        "A factor older than this wants a new catch. Default: off; the triggers speak for themselves.";
    interval_area_ha: Option<f64> = None, "", "ha", 1.0 to 1_000_000.0,
        "A factor that sowed more than this wants a new catch. Default: off.";
    drift_lambda: f64 = 0.3, "0.3", "", 0.01 to 1.0,
        "How much the newest job weighs in the drift chart. Default: the worked example of the NIST handbook of statistical methods.";
    drift_limit_width: f64 = 3.0, "3", "standard deviations", 1.0 to 10.0,
        "How far the drift chart may go before it asks for a catch. Default: three standard deviations, the custom of control charts.";
    drift_sigma_percent: f64 = 3.0, "3", "%", 0.1 to 50.0,
        "How much the seed used by single jobs scatters. Default: a judgement.";
    weighed_balance_uncertainty_kg: f64 = 10.0, "10", "kg", 0.0 to 10_000.0,
        "How well seed filled less seed left is known when it was weighed. Default: one step of a weighbridge or tank scale.";
    bag_mass_kg: f64 = 25.0, "25", "kg", 0.1 to 2_000.0,
        "What one bag holds, for jobs known by counting bags. Default: the common bag.";
    area_uncertainty_percent: f64 = 0.5, "0.5", "%", 0.0 to 50.0,
        "How well a job's area is known. Default: a judgement, for areas from positioning.";
}

impl Policy {
    /// Limits that each lie in their range but do not go together.
    fn contradictions(&self) -> Option<(&'static str, String)> {
        (self.run_cv_remark_percent > self.run_cv_limit_percent).then(|| {
            let says = format!(
                "run_cv_remark_percent of {} is above run_cv_limit_percent of {}; a remark comes before a failure",
                self.run_cv_remark_percent, self.run_cv_limit_percent
            );
            ("run_cv_remark_percent", says)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::{FieldKind, Policy};

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
            assert!(field.min < field.max && field.because.ends_with('.'), "{}", field.name);
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
