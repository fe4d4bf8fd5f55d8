//! What each check is for, in two sentences, for a person who never heard of a standard deviation; with the source.

use super::CheckName;
use crate::words::Words;

/// A check explained.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Explained {
    /// What it looks at and why, in two sentences.
    pub says: String,
    /// Where the check or its formula comes from.
    pub source: String,
    /// The fields of the policy that it is held against.
    pub tolerances: &'static [&'static str],
}

impl CheckName {
    /// Every check, in the order of the verdict's table.
    pub const ALL: [Self; 9] = [
        Self::Repeats,
        Self::RepeatAgreement,
        Self::RunUniformity,
        Self::CatchesApart,
        Self::CatchMass,
        Self::Uncertainty,
        Self::RollerSpeed,
        Self::Scale,
        Self::Plausibility,
    ];

    /// As the API and the records write it: `repeat_agreement`.
    ///
    /// ```
    /// use sowmark_core::verdict::CheckName;
    ///
    /// assert_eq!(CheckName::RepeatAgreement.name(), "repeat_agreement");
    /// assert_eq!(CheckName::named("repeat_agreement"), Some(CheckName::RepeatAgreement));
    /// ```
    pub const fn name(self) -> &'static str {
        match self {
            Self::Repeats => "repeats",
            Self::RepeatAgreement => "repeat_agreement",
            Self::RunUniformity => "run_uniformity",
            Self::CatchesApart => "catches_apart",
            Self::CatchMass => "catch_mass",
            Self::Uncertainty => "uncertainty",
            Self::RollerSpeed => "roller_speed",
            Self::Scale => "scale",
            Self::Plausibility => "plausibility",
        }
    }

    /// The check of that name.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|check| check.name() == name)
    }

    /// What it is for, as a person reads.
    pub fn explained(self, words: Words) -> Explained {
        let text = |ending: &str| words.sentence(&words.say(&format!("explained-{}{ending}", self.name()), &[]));
        Explained { says: text(""), source: text("-source"), tolerances: self.tolerances() }
    }

    const fn tolerances(self) -> &'static [&'static str] {
        match self {
            Self::Repeats => &["minimum_repeats"],
            Self::RepeatAgreement => &["repeat_spread_limit_percent"],
            Self::RunUniformity => &["run_cv_remark_percent", "run_cv_limit_percent"],
            Self::CatchesApart => &[],
            Self::CatchMass => &[
                "catch_resolution_limit_percent",
                "rule_of_thumb_catch_kg",
                "small_seed_catch_kg",
                "small_seed_limit_g",
            ],
            Self::Uncertainty => &[
                "uncertainty_limit_percent",
                "pooled_repeatability_percent",
                "pooled_repeatability_degrees_of_freedom",
            ],
            Self::RollerSpeed => &["roller_speed_tolerance_percent"],
            Self::Scale => &["scale_error_limit_percent", "scale_check_interval_days"],
            Self::Plausibility => &["plausibility_remark_percent", "plausibility_fail_factor"],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::CheckName;
    use crate::{policy::Policy, words::Words};

    #[test]
    fn every_check_has_two_sentences_a_source_and_tolerances_that_exist() {
        for check in CheckName::ALL {
            let explained = check.explained(Words::default());
            let sentences = explained.says.matches(". ").count() + 1;
            assert_eq!(sentences, 2, "{}: {}", check.name(), explained.says);
            assert!(explained.says.ends_with('.') && explained.source.ends_with('.'), "{}", check.name());
            assert_eq!(explained.tolerances.is_empty(), check == CheckName::CatchesApart, "{}", check.name());
            for name in explained.tolerances {
                assert!(Policy::fields().iter().any(|field| field.name == *name), "{name}");
            }
            let stored = serde_json::to_value(check).expect("a word");
            assert_eq!((stored.as_str(), CheckName::named(check.name())), (Some(check.name()), Some(check)));
        }
        assert_eq!(CheckName::named("luck"), None);
    }
}
