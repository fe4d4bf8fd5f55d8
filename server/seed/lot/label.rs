//! What a lot's label and certificates state beside purity, germination and treatment: where it grew, what else is in it,
//! which category it has, who certified and sealed it.
//!
//! What is on no label stays unknown; nothing is filled in for it. What each item answers to in published lists stands in
//! `docs/evidence.md`.

use super::act::LotDraft;
use super::store::LotRow;
use crate::input;
use crate::records::head::{said_day, said_month};
use crate::seed::percent;
use crate::web::error::Error;
use crate::web::input::{At, Faults, Name, Percent, Text, Whole};
use crate::web::month::Month;
use crate::web::quantity::Q;
use crate::web::reader::Reader;
use serde::Serialize;
use serde_json::Number;
use sowmark_core::quantity::Mass;
use sowmark_core::quantity::unit::dimension;
use sowmark_core::say;
use sowmark_core::seed::beyond_whole;
use sowmark_core::words::Words;

input! {
    /// What the label and the certificates state beside the analysis.
    pub struct LabelDraft {
        /// The country or state in which it was grown.
        pub origin: Option<Name>,
        /// Category or class: pre-basic, basic, certified of the first or second generation, foundation, commercial…
        pub category: Option<Name>,
        /// Who certified it, and in which state.
        pub certifying_authority: Option<Name>,
        /// The number of the label itself.
        pub serial_number: Option<Name>,
        /// The month in which it was sealed, or sampled where the label states that: `2027-03`.
        pub sealed_in: Option<Month>,
        /// The weight that the label declares.
        pub declared_weight: Option<Mass>,
        /// How many bags or other containers.
        pub containers: Option<Whole<1, 1_000_000>>,
        /// Sealed against moisture, so that a test holds for longer.
        pub hermetic: Option<bool>,
        /// Percent of the pure seeds that are hard or dormant, apart from the germination.
        pub hard_seed_percent: Option<Percent>,
        /// Seed of other crops, percent of the mass.
        pub other_crop_percent: Option<Percent>,
        /// Percent of the mass.
        pub weed_seed_percent: Option<Percent>,
        /// Percent of the mass.
        pub inert_matter_percent: Option<Percent>,
        /// Noxious weeds: the kinds, and how many per mass.
        pub noxious_weeds: Option<Text<1000>>,
        /// Of a mixture: each kind and variety with its share.
        pub components: Option<Text<1000>>,
        /// What a pellet or coat consists of, and its part of the weight.
        pub additives: Option<Text<1000>>,
        /// Until when the inoculant works: `2027-06`.
        pub inoculant_expires: Option<Month>,
        /// The laboratory and the number of its report.
        pub test_report: Option<Name>,
    }
}

/// What cannot be together. Each fault stands at the last share that was given: that is where the list became too long.
pub(super) fn check(draft: &LotDraft, faults: &mut Faults) {
    let (Some(label), analysis) = (&draft.label, draft.analysis.as_ref()) else { return };
    let at = At::default().key("label");
    let given = [
        ("", analysis.and_then(|analysis| analysis.purity_percent.as_ref())),
        ("other_crop_percent", label.other_crop_percent.as_ref()),
        ("weed_seed_percent", label.weed_seed_percent.as_ref()),
        ("inert_matter_percent", label.inert_matter_percent.as_ref()),
    ];
    let given = given.into_iter().filter_map(|(name, percent)| Some((name, percent?.0.clone())));
    let (names, shares): (Vec<_>, Vec<_>) = given.unzip();
    if let (Some(sum), Some(last)) = (beyond_whole(&shares), names.last()) {
        faults
            .add::<()>(&at.key(last), move |words: Words| say!(words, "label-beyond-whole", sum = words.exactly(sum)));
    }
    let germination = analysis.and_then(|analysis| analysis.germination_percent.as_ref());
    if let Some((germination, hard)) = germination.zip(label.hard_seed_percent.as_ref()) {
        let sum = germination.0.to_f64() + hard.0.to_f64();
        // Both are counted among the same seeds, and laboratories make them come to a hundred at most.
        if sum > 100.0 + 1e-9 {
            let (germination, hard) = (germination.0.to_f64(), hard.0.to_f64());
            faults.add::<()>(&at.key("hard_seed_percent"), move |words: Words| {
                let (germination, hard) = (words.exactly(germination), words.exactly(hard));
                say!(words, "label-hard-beyond", germination = germination, hard = hard)
            });
        }
    }
}

/// The same as it is kept.
#[derive(Clone, Debug, Default, sqlx::FromRow)]
pub struct LabelRow {
    pub origin: Option<String>,
    pub category: Option<String>,
    pub certifying_authority: Option<String>,
    pub serial_number: Option<String>,
    pub sealed_in: Option<String>,
    pub declared_weight: Option<String>,
    pub containers: Option<i64>,
    pub hermetic: Option<bool>,
    pub hard_seed_percent: Option<String>,
    pub other_crop_percent: Option<String>,
    pub weed_seed_percent: Option<String>,
    pub inert_matter_percent: Option<String>,
    pub noxious_weeds: Option<String>,
    pub components: Option<String>,
    pub additives: Option<String>,
    pub inoculant_expires: Option<String>,
    pub test_report: Option<String>,
}

impl LabelRow {
    pub(super) fn of(draft: Option<&LabelDraft>) -> Self {
        let Some(draft) = draft else { return Self::default() };
        let name = |of: &Option<Name>| of.as_ref().map(|name| name.0.clone());
        let percent = |of: &Option<Percent>| of.as_ref().map(|percent| percent.0.as_str().to_owned());
        let text = |of: &Option<Text<1000>>| of.as_ref().map(|text| text.0.clone()).filter(|text| !text.is_empty());
        let month = |of: Option<Month>| of.map(|month| month.to_string());
        Self {
            origin: name(&draft.origin),
            category: name(&draft.category),
            certifying_authority: name(&draft.certifying_authority),
            serial_number: name(&draft.serial_number),
            sealed_in: month(draft.sealed_in),
            declared_weight: draft.declared_weight.as_ref().map(Mass::entered),
            containers: draft.containers.map(|containers| containers.0),
            hermetic: draft.hermetic,
            hard_seed_percent: percent(&draft.hard_seed_percent),
            other_crop_percent: percent(&draft.other_crop_percent),
            weed_seed_percent: percent(&draft.weed_seed_percent),
            inert_matter_percent: percent(&draft.inert_matter_percent),
            noxious_weeds: text(&draft.noxious_weeds),
            components: text(&draft.components),
            additives: text(&draft.additives),
            inoculant_expires: month(draft.inoculant_expires),
            test_report: name(&draft.test_report),
        }
    }

    /// What is stated, each with its name, as a person reads it; how much it was only for who sees stock.
    #[must_use]
    pub fn facts(&self, reader: Reader, sees_stock: bool) -> Vec<Fact> {
        let words = reader.words;
        let text = |of: &Option<String>| of.clone();
        let month = |of: &Option<String>| of.as_deref().map(|month| said_month(month, words));
        let percent = |of: &Option<String>| of.as_deref().map(|percent| format!("{} %", words.decimal(percent)));
        let weight = self.declared_weight.as_deref().filter(|_| sees_stock).map(|weight| reader.measured(weight));
        let containers = self.containers.filter(|_| sees_stock).map(|count| count.to_string());
        let hermetic = self.hermetic.map(|is| say!(words, "label-hermetic-is", is = if is { "yes" } else { "no" }));
        let facts = [
            ("label-origin", text(&self.origin), false),
            ("label-category", text(&self.category), false),
            ("label-certifying-authority", text(&self.certifying_authority), false),
            ("label-serial-number", text(&self.serial_number), false),
            ("label-sealed-in", month(&self.sealed_in), false),
            ("label-declared-weight", weight, true),
            ("label-containers", containers, true),
            ("label-hermetic", hermetic, false),
            ("label-hard-seed", percent(&self.hard_seed_percent), true),
            ("label-other-crop", percent(&self.other_crop_percent), true),
            ("label-weed-seed", percent(&self.weed_seed_percent), true),
            ("label-inert-matter", percent(&self.inert_matter_percent), true),
            ("label-noxious-weeds", text(&self.noxious_weeds), false),
            ("label-components", text(&self.components), false),
            ("label-additives", text(&self.additives), false),
            ("label-inoculant-expires", month(&self.inoculant_expires), false),
            ("label-test-report", text(&self.test_report), false),
        ];
        let fact = |(key, says, is_number): (&str, Option<String>, bool)| {
            Some(Fact { name: say!(words, key), says: says?, is_number })
        };
        facts.into_iter().filter_map(fact).collect()
    }
}

impl LotRow {
    /// Everything that its label states, each with its name, as a person reads it; where it came from and how much it was only
    /// for who sees stock.
    #[must_use]
    pub fn facts(&self, reader: Reader, sees_stock: bool) -> Vec<Fact> {
        let words = reader.words;
        let percent = |of: &Option<String>| of.as_deref().map(|percent| format!("{} %", words.decimal(percent)));
        let stock = |of: &Option<String>| of.clone().filter(|_| sees_stock);
        let day = |of: &Option<String>| of.as_deref().map(|day| said_day(day, words));
        let crop = if self.is_seed() { "lot-crop" } else { "lot-product" };
        let treated = self.treatment_product.clone().unwrap_or_else(|| say!(words, "lot-treatment-none"));
        let facts = [
            ("lot-number", Some(self.lot_number.clone()), false),
            (crop, Some(self.crop.clone()), false),
            ("lot-variety", self.variety.clone(), false),
            ("lot-supplier", stock(&self.supplier), false),
            ("lot-received-on", day(&self.received_on), false),
            ("lot-received-mass", stock(&self.received_mass).map(|mass| reader.measured(&mass)), true),
            ("lot-purity", percent(&self.purity_percent), true),
            ("lot-germination", percent(&self.germination_percent), true),
            ("lot-label-test", day(&self.tested_on), false),
            ("lot-treatment", Some(treated), false),
        ];
        let fact = |(key, says, is_number): (&str, Option<String>, bool)| {
            Some(Fact { name: say!(words, key), says: says?, is_number })
        };
        let mut facts: Vec<Fact> = facts.into_iter().filter_map(fact).collect();
        facts.extend(self.label.facts(reader, sees_stock));
        facts
    }
}

/// One thing that a label states.
#[derive(Clone, Debug)]
pub struct Fact {
    pub name: String,
    pub says: String,
    pub is_number: bool,
}

/// What the label and the certificates state beside the analysis.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub(super) struct LabelView {
    origin: Option<String>,
    category: Option<String>,
    certifying_authority: Option<String>,
    serial_number: Option<String>,
    /// Year and month.
    sealed_in: Option<String>,
    /// Left out where the reader's role does not see stock.
    #[serde(flatten)]
    declared: Option<DeclaredView>,
    hermetic: Option<bool>,
    #[schema(value_type = Option<f64>)]
    hard_seed_percent: Option<Number>,
    #[schema(value_type = Option<f64>)]
    other_crop_percent: Option<Number>,
    #[schema(value_type = Option<f64>)]
    weed_seed_percent: Option<Number>,
    #[schema(value_type = Option<f64>)]
    inert_matter_percent: Option<Number>,
    noxious_weeds: Option<String>,
    components: Option<String>,
    additives: Option<String>,
    /// Year and month.
    inoculant_expires: Option<String>,
    test_report: Option<String>,
}

/// How much it says that it is.
#[derive(Debug, Serialize, utoipa::ToSchema)]
struct DeclaredView {
    declared_weight: Option<Q>,
    containers: Option<i64>,
}

impl LabelView {
    /// None where the label states nothing of it.
    pub(super) fn of(row: LabelRow, sees_stock: bool) -> Result<Option<Self>, Error> {
        let declared_weight = Q::stored_if::<dimension::Mass>(row.declared_weight.as_deref())?;
        let declared = DeclaredView { declared_weight, containers: row.containers };
        let view = Self {
            hard_seed_percent: percent::stored_if(row.hard_seed_percent.as_deref())?,
            other_crop_percent: percent::stored_if(row.other_crop_percent.as_deref())?,
            weed_seed_percent: percent::stored_if(row.weed_seed_percent.as_deref())?,
            inert_matter_percent: percent::stored_if(row.inert_matter_percent.as_deref())?,
            origin: row.origin,
            category: row.category,
            certifying_authority: row.certifying_authority,
            serial_number: row.serial_number,
            sealed_in: row.sealed_in,
            hermetic: row.hermetic,
            noxious_weeds: row.noxious_weeds,
            components: row.components,
            additives: row.additives,
            inoculant_expires: row.inoculant_expires,
            test_report: row.test_report,
            declared: sees_stock.then_some(declared),
        };
        let has_text = [&view.origin, &view.category, &view.certifying_authority, &view.serial_number, &view.sealed_in]
            .into_iter()
            .chain([&view.noxious_weeds, &view.components, &view.additives, &view.inoculant_expires, &view.test_report])
            .any(Option::is_some);
        let has_share = [&view.hard_seed_percent, &view.other_crop_percent, &view.weed_seed_percent]
            .into_iter()
            .chain([&view.inert_matter_percent])
            .any(Option::is_some);
        let says_how_much =
            |declared: &DeclaredView| declared.declared_weight.is_some() || declared.containers.is_some();
        let has_more = view.hermetic.is_some() || view.declared.as_ref().is_some_and(says_how_much);
        Ok((has_text || has_share || has_more).then_some(view))
    }
}
