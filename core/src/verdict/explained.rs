//! What each check is for, in two sentences, for a person who never heard of a standard deviation; with the source.

use super::CheckName;

/// A check explained.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Explained {
    /// What it looks at and why, in two sentences.
    pub says: &'static str,
    /// Where the check or its formula comes from.
    pub source: &'static str,
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

    /// What it is for.
    pub const fn explained(self) -> Explained {
        match self {
            Self::Repeats => Explained {
                says: "A single catch can be wrong for a reason that nobody saw: a bag that slipped, a start too late. Two \
                       catches that agree are no accident, and a third one tells which of two to trust.",
                source: "The National Physical Laboratory (UK) advises at least three tries, to catch gross mistakes \
                         (Introducing measurement uncertainty, \u{201c}Oops\u{201d}).",
                tolerances: &["minimum_repeats"],
            },
            Self::RepeatAgreement => Explained {
                says: "Every repeat is the same work done again, so each should give nearly the same factor; what stands \
                       here is how far the highest is from the lowest, as a share of their mean. When they lie far apart, \
                       something changed in between, or the catch is too small for the scale.",
                source: "The textbook rule of plus or minus 5 % for a drill's catches (Introduction to Agricultural \
                         Engineering Technology); whether rounding alone explains it is a chi-squared test \
                         against the scale's step.",
                tolerances: &["repeat_spread_limit_percent"],
            },
            Self::RunUniformity => Explained {
                says: "Neighbouring runs should get the same seed; the coefficient of variation says how far they \
                       typically lie from their mean, as a share of it. From two or three bags that figure is rough, so \
                       the range in which the true one may lie is told with it.",
                source: "Published bands for air seeders (10 % or less called very good by a provincial test centre; 15 % \
                         as upper limit is from memory); the range is the modified McKay interval.",
                tolerances: &["run_cv_remark_percent", "run_cv_limit_percent"],
            },
            Self::CatchesApart => Explained {
                says: "When the bags of several runs are poured together, the sum can be right while one run gives too \
                       little and another too much. Weighed apart, each run can be seen.",
                source: "Extension leaflets weigh and record the seed of each opener separately (for example an Indian \
                         lecture on seed drill calibration).",
                tolerances: &[],
            },
            Self::CatchMass => Explained {
                says: "A scale shows steps, and the empty bag and the full one are each rounded to one; on a small catch \
                       that rounding is a large share of the seed. The mass needed makes it small enough, and more \
                       revolutions make more mass.",
                source: "A step d is an uncertainty of d / \u{221a}12 (JCGM 100:2008, F.2.2.1), so a net mass of two \
                         readings has d / \u{221a}6; the rule of thumb beside it is common practice, no source.",
                tolerances: &[
                    "catch_resolution_limit_percent",
                    "rule_of_thumb_catch_kg",
                    "small_seed_catch_kg",
                    "small_seed_limit_g",
                ],
            },
            Self::Uncertainty => Explained {
                says: "No measurement is exact; this is how far the true factor may lie to either side of the one found, \
                       19 times out of 20. It adds up what the repeats, the scale's steps, the scale itself and the \
                       counting of revolutions each leave open.",
                source: "Guide to the expression of uncertainty in measurement (JCGM 100:2008): combined in quadrature, \
                         expanded with Student's t at the effective degrees of freedom (G.4.1).",
                tolerances: &[
                    "uncertainty_limit_percent",
                    "pooled_repeatability_percent",
                    "pooled_repeatability_degrees_of_freedom",
                ],
            },
            Self::RollerSpeed => Explained {
                says: "A meter does not always give twice the seed when it turns twice as fast, so a factor is best caught \
                       at the speed at which it will be used. Outside the speeds that the drive can hold, nothing said \
                       here would happen in the field.",
                source: "Delivery changes with speed in published tests of fluted meters (a grain drill with \
                         cowpea, 1985; Pantnagar Journal of Research 20, 2022); the size of the tolerance is a judgement.",
                tolerances: &["roller_speed_tolerance_percent"],
            },
            Self::Scale => Explained {
                says: "A scale that is off makes every catch off by the same share, and no repeat will show it. A known \
                       mass put on it does.",
                source: "Maximum permissible errors of non-automatic scales (UK SI 1995/1907, schedule 2; in service \
                         twice those of verification); the interval is a judgement.",
                tolerances: &["scale_error_limit_percent", "scale_check_interval_days"],
            },
            Self::Plausibility => Explained {
                says: "A meter turns out volume, so what this roller gave before, or what it holds in a turn, times how \
                       heavy the seed lies, says about what to expect. A factor far from that is more often a slip on the \
                       sheet than a change in the machine.",
                source: "Mass follows bulk density in volumetric meters (North Dakota State University AE-1144); moving and \
                         standing catches differ by 4 to 15 % in published tests, so only a wide gap fails.",
                tolerances: &["plausibility_remark_percent", "plausibility_fail_factor"],
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::CheckName;
    use crate::policy::Policy;

    #[test]
    fn every_check_has_two_sentences_a_source_and_tolerances_that_exist() {
        for check in CheckName::ALL {
            let explained = check.explained();
            let sentences = explained.says.matches(". ").count() + 1;
            assert_eq!(sentences, 2, "{}: {}", check.name(), explained.says);
            assert!(explained.says.ends_with('.') && explained.source.ends_with('.'), "{}", check.name());
            for name in explained.tolerances {
                assert!(Policy::fields().iter().any(|field| field.name == *name), "{name}");
            }
            let stored = serde_json::to_value(check).expect("a word");
            assert_eq!((stored.as_str(), CheckName::named(check.name())), (Some(check.name()), Some(check)));
        }
        assert_eq!(CheckName::named("luck"), None);
    }
}
