//! The two forms of the rate plan, and their way to the query that the API reads.

use super::asked::Way;
use super::filled::{Filled, Value};
use crate::access::Units;
use crate::web::error::{Error, Fault};
use crate::web::form::{Form, FormField, Kind, Posted};
use serde_json::{Map, Value as Json};
use sowmark_core::quantity::unit;
use sowmark_core::say;
use sowmark_core::words::Words;

impl Way {
    pub(super) fn address(self) -> &'static str {
        match self {
            Self::Plants => "/rate-plan",
            Self::Live => "/rate-plan/live",
        }
    }

    /// The field by which a form shows that it was filled in, and not only opened for a lot.
    pub(super) fn first_field(self) -> &'static str {
        match self {
            Self::Plants => "plants/value",
            Self::Live => "pls_rate/value",
        }
    }
}

const PER_M2: &str = "per m²";
const PER_FT2: &str = "per ft²";
const ESTABLISHMENT: &str = "establishment";
const EMERGENCE: &str = "emergence";
const LOSS: &str = "field loss";
const PER_KG: &str = "seeds per kg";
const PER_LB: &str = "seeds per lb";
const GRAMS: &str = "g per thousand";

/// Fields of the form for which the query has a name for each unit: the field, its unit, the query's name.
const NAMED_BY_UNIT: [(&str, &str, &str); 8] = [
    ("plants", PER_M2, "plants_per_m2"),
    ("plants", PER_FT2, "plants_per_ft2"),
    ("weight", GRAMS, "thousand_seed_weight_g"),
    ("weight", PER_KG, "seeds_per_kg"),
    ("weight", PER_LB, "seeds_per_lb"),
    ("share", ESTABLISHMENT, "establishment_percent"),
    ("share", EMERGENCE, "emergence_percent"),
    ("share", LOSS, "loss_percent"),
];

/// The field with its units as a person calls them, where they are words.
fn in_words(mut field: FormField, words: Words) -> FormField {
    for unit in &mut field.units {
        let key = match unit.value.as_str() {
            PER_M2 => "plan-per-m2",
            PER_FT2 => "plan-per-ft2",
            ESTABLISHMENT => "plan-share-establishment",
            EMERGENCE => "plan-share-emergence",
            LOSS => "plan-share-loss",
            PER_KG => "plan-seeds-per-kg",
            PER_LB => "plan-seeds-per-lb",
            GRAMS => "plan-grams",
            _ => continue,
        };
        unit.label = say!(words, key);
    }
    field
}

/// What the form sent, as the API's query. What belongs to the page alone is left out.
pub(super) fn query(posted: &Posted) -> Json {
    let Json::Object(mut sent) = posted.query() else { return Json::Object(Map::new()) };
    for name in ["lot_id", "unit_id", "speed", "speed_unit"] {
        sent.remove(name);
    }
    for field in ["plants", "weight", "share"] {
        let unit = sent.remove(&format!("{field}_unit"));
        if let Some(number) = sent.remove(field) {
            let unit = unit.as_ref().and_then(Json::as_str).unwrap_or_default();
            sent.insert(named(field, unit).to_owned(), number);
        }
    }
    if let Some(unit) = sent.remove("pls_rate_unit") {
        sent.insert("rate_unit".to_owned(), unit);
    }
    Json::Object(sent)
}

/// The query's name for a field in a unit; the first one for a unit that no form offers.
fn named(field: &'static str, unit: &str) -> &'static str {
    let of_field = || NAMED_BY_UNIT.iter().filter(|(of, ..)| *of == field);
    let found = of_field().find(|(_, offered, _)| *offered == unit).or_else(|| of_field().next());
    found.map_or(field, |(.., name)| name)
}

/// The faults of the query at the fields of the form.
pub(super) fn at_fields(error: Error) -> Error {
    let Error::Faults(faults) = error else { return error };
    let place = |mut fault: Fault| {
        let name = fault.pointer.trim_start_matches('/');
        match NAMED_BY_UNIT.iter().find(|(.., query)| *query == name) {
            Some((field, ..)) => fault.pointer = format!("/{field}"),
            None if name == "rate_unit" => "/pls_rate".clone_into(&mut fault.pointer),
            None => {}
        }
        fault
    };
    Error::Faults(faults.into_iter().map(place).collect())
}

/// The form, filled in with what is known.
pub(super) fn form(way: Way, filled: &Filled, units: Units) -> Form {
    let mut fields = vec![
        FormField::hidden("lot_id", filled.lot.as_ref().map(|lot| lot.id.to_string()).unwrap_or_default()),
        FormField::hidden("unit_id", filled.unit().map(|now| now.unit.id.to_string()).unwrap_or_default()),
    ];
    match way {
        Way::Plants => fields.extend(plants(filled, units)),
        Way::Live => fields.extend(live(filled, units)),
    }
    fields.extend(machine(filled, units));
    if way == Way::Plants {
        fields.extend(doubts(filled.words));
    }
    Form::new(way.address(), say!(filled.words, "plan-submit"), fields)
}

fn plants(filled: &Filled, units: Units) -> Vec<FormField> {
    let words = filled.words;
    let area = if units == Units::Us { PER_FT2 } else { PER_M2 };
    let plants = FormField::new("plants", say!(words, "plan-plants-wanted")).measured(&[PER_M2, PER_FT2], area);
    let share = FormField::new("share", say!(words, "plan-share"))
        .hint(say!(words, "plan-share-hint"))
        .measured(&[ESTABLISHMENT, EMERGENCE, LOSS], ESTABLISHMENT);
    vec![
        in_words(plants, words),
        seed_weight(filled, units),
        germination(filled).optional(),
        in_words(share, words),
        purity(filled).optional(),
    ]
}

fn live(filled: &Filled, units: Units) -> Vec<FormField> {
    let words = filled.words;
    let rate = if units == Units::Us { unit::LB_PER_AC } else { unit::KG_PER_HA };
    let counted = [("false", say!(words, "plan-hard-seed-left-out")), ("true", say!(words, "plan-hard-seed-is-live"))];
    vec![
        FormField::new("pls_rate", say!(words, "plan-live-wanted")).measured(&["kg/ha", "lb/ac"], rate.name()),
        purity(filled),
        germination(filled),
        with(percent("hard_seed_percent", say!(words, "plan-hard-seed")), filled.hard_seed())
            .hint_more(&say!(words, "plan-hard-seed-hint"))
            .optional(),
        FormField::new("count_hard_seed", say!(words, "plan-hard-seed-counted")).value("false").choice(counted),
        seed_weight(filled, units).optional(),
    ]
}

fn purity(filled: &Filled) -> FormField {
    with(percent("purity_percent", say!(filled.words, "plan-purity")), filled.purity())
}

fn germination(filled: &Filled) -> FormField {
    let words = filled.words;
    let field = percent("germination_percent", say!(words, "plan-germination"));
    let mut field = with(field, filled.germination());
    if let Some(age) = &filled.age {
        field = field.hint_more(&age.says);
    }
    field.hint_more(&say!(words, "plan-without-hard-seed"))
}

fn seed_weight(filled: &Filled, units: Units) -> FormField {
    let known = filled.seed_weight();
    let chosen = if units == Units::Us && known.text.is_empty() { PER_LB } else { GRAMS };
    let field =
        FormField::new("weight", say!(filled.words, "plan-seed-weight")).measured(&[GRAMS, PER_KG, PER_LB], chosen);
    with(in_words(field, filled.words), Value { unit: GRAMS, ..known })
}

fn machine(filled: &Filled, units: Units) -> Vec<FormField> {
    let (us, words) = (units == Units::Us, filled.words);
    let length = if us { unit::IN } else { unit::CM };
    let density = filled.bulk_density();
    let chosen = match density.unit {
        "" if us => "lb/bu",
        "" => "kg/hL",
        known => known,
    };
    let mut fields = Vec::new();
    if filled.unit().is_some() {
        let speed = if us { "mph" } else { "km/h" };
        fields.push(
            FormField::new("speed", say!(words, "plan-speed"))
                .hint(say!(words, "plan-speed-hint"))
                .measured(&["km/h", "mph", "m/s"], speed)
                .optional(),
        );
    }
    let spacing = FormField::new("row_spacing", say!(words, "plan-row-spacing"));
    let spacing = spacing.measured(&["cm", "m", "in", "ft"], length.name());
    fields.push(with(spacing, filled.row_spacing(length)).optional());
    let bulk_density = FormField::new("bulk_density", say!(words, "plan-bulk-density"));
    let bulk_density = with(bulk_density.measured(&["kg/hL", "g/L", "lb/bu"], chosen), density);
    fields.push(bulk_density.hint_more(&say!(words, "plan-for-bushels")).optional());
    fields
}

/// The fields that stand folded away: how well the figures are known.
pub(super) const DOUBTS: [&str; 4] =
    ["seed_weight_plus_minus_percent", "germination_seeds_tested", "seed_plus_minus_points", "field_plus_minus_points"];

fn doubts(words: Words) -> Vec<FormField> {
    let [weight, tested, seed, field] = DOUBTS;
    vec![
        percent(weight, say!(words, "plan-seed-weight-doubt")).optional(),
        percent(tested, say!(words, "plan-seeds-tested")).hint(say!(words, "plan-seeds-tested-hint")).optional(),
        percent(seed, say!(words, "plan-seed-doubt")).optional(),
        percent(field, say!(words, "plan-field-doubt")).optional(),
    ]
}

fn percent(name: &str, label: String) -> FormField {
    FormField::new(name, label).kind(Kind::Number)
}

/// The field with what is known filled in, and where that is from.
fn with(field: FormField, known: Value) -> FormField {
    if known.text.is_empty() { field } else { field.value(known.text).hint(known.from) }
}

trait MoreHint {
    fn hint_more(self, more: &str) -> Self;
}

impl MoreHint for FormField {
    /// A hint behind the one that it has.
    fn hint_more(mut self, more: &str) -> Self {
        let space = if self.hint.is_empty() { "" } else { " " };
        self.hint = format!("{}{space}{more}", self.hint);
        self
    }
}
