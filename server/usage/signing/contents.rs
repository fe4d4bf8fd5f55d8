//! What is signed of an audit, and in what another answer to the same question differs from it.
//!
//! Names and times are kept to be read; facts alone are compared, so that a renamed field changes no audit.

use crate::usage::act::{JobUse, LotUse, Usage};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::{BTreeMap, HashMap};
use uuid::Uuid;

/// Each job and each lot with what is signed of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Contents {
    pub(super) jobs: Vec<Thing>,
    pub(super) lots: Vec<Thing>,
}

/// A job or a lot.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Thing {
    pub(super) id: Uuid,
    /// As it was called.
    pub(super) name: String,
    /// When the job began.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) at: Option<Timestamp>,
    /// By name; masses in kg, areas in m², rates in kg/m².
    pub(super) facts: BTreeMap<String, Fact>,
}

impl Thing {
    /// Not so a lot of which nothing had come or gone: one that was entered later changes no audit.
    fn tells_something(&self) -> bool {
        self.facts.values().any(|fact| !fact.is(&Fact::Number(0.0)))
    }
}

/// What is signed of a thing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(untagged, try_from = "Value")]
pub(super) enum Fact {
    Number(f64),
    Word(String),
}

// By hand: of a number that keeps its own digits serde's own choice between variants knows nothing.
impl TryFrom<Value> for Fact {
    type Error = &'static str;

    fn try_from(value: Value) -> Result<Self, Self::Error> {
        match value {
            Value::Number(number) => number.as_f64().map(Self::Number).ok_or("a number beyond reach"),
            Value::String(word) => Ok(Self::Word(word)),
            _ => Err("neither a number nor a word"),
        }
    }
}

impl Fact {
    /// Whether it says the same. Another program may round the last digit of a sum in another way: a part in a thousand
    /// million is no difference.
    fn is(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Number(a), Self::Number(b)) => (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1.0),
            (a, b) => a == b,
        }
    }
}

/// A difference between what was signed and what is so now.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Change {
    pub(super) is_job: bool,
    /// As it is now; as it was where it is no more.
    pub(super) thing: Thing,
    pub(super) what: What,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) enum What {
    Added,
    Gone,
    /// The fact's name, as signed, and now.
    Facts(Vec<(String, Option<Fact>, Option<Fact>)>),
}

impl Contents {
    pub(super) fn of(usage: &Usage) -> Self {
        Self {
            jobs: usage.jobs.iter().map(|job| of_job(job, usage)).collect(),
            lots: usage.lots.iter().map(of_lot).collect(),
        }
    }

    /// What is different now.
    pub(super) fn changes(&self, now: &Self) -> Vec<Change> {
        let jobs = changed(&self.jobs, &now.jobs, true);
        jobs.into_iter().chain(changed(&self.lots, &now.lots, false)).collect()
    }

    /// A number of all jobs together.
    pub(super) fn sum(&self, fact: &str, counts: impl Fn(&Thing) -> bool) -> f64 {
        let of = |job: &Thing| if let Some(Fact::Number(value)) = job.facts.get(fact) { *value } else { 0.0 };
        self.jobs.iter().filter(|job| counts(job)).fold(0.0, |sum, job| sum + of(job))
    }
}

/// Whether a job was sown under a number that was not true.
pub(super) fn is_untrue(job: &Thing) -> bool {
    job.facts.get("number") == Some(&Fact::Word("untrue".to_owned()))
}

fn changed(signed: &[Thing], now: &[Thing], is_job: bool) -> Vec<Change> {
    let before: HashMap<Uuid, &Thing> = signed.iter().map(|thing| (thing.id, thing)).collect();
    let after: HashMap<Uuid, &Thing> = now.iter().map(|thing| (thing.id, thing)).collect();
    let change = |thing: &Thing, what| Change { is_job, thing: thing.clone(), what };
    let gone = signed.iter().filter(|thing| !after.contains_key(&thing.id) && thing.tells_something());
    let gone = gone.map(|thing| change(thing, What::Gone));
    let other = now.iter().filter_map(|thing| match before.get(&thing.id) {
        None => thing.tells_something().then(|| change(thing, What::Added)),
        Some(before) => {
            let facts = differences(&before.facts, &thing.facts);
            (!facts.is_empty()).then(|| change(thing, What::Facts(facts)))
        }
    });
    gone.chain(other).collect()
}

fn differences(
    before: &BTreeMap<String, Fact>,
    now: &BTreeMap<String, Fact>,
) -> Vec<(String, Option<Fact>, Option<Fact>)> {
    let names = before.keys().chain(now.keys().filter(|name| !before.contains_key(*name)));
    names
        .map(|name| (name.clone(), before.get(name).cloned(), now.get(name).cloned()))
        .filter(|(_, before, now)| !before.as_ref().zip(now.as_ref()).is_some_and(|(before, now)| before.is(now)))
        .collect()
}

fn of_job(job: &JobUse, usage: &Usage) -> Thing {
    let row = &job.row;
    let unit = format!("{}, {}", row.seeder, row.unit);
    let name = [Some(row.field()), Some(unit.as_str()), usage.names.lot(row.lot_id).map(|lot| lot.number.as_str())];
    let number = |value: f64| Some(Fact::Number(value));
    let word = |word: &str| Some(Fact::Word(word.to_owned()));
    let standing = job.readiness.due.iter().filter(|due| due.waived.is_none());
    let mut triggers: Vec<&str> = standing.map(|due| due.trigger.as_str()).collect();
    triggers.sort_unstable();
    triggers.dedup();
    let facts = [
        ("area", number(job.facts.area_m2)),
        ("seed", number(job.facts.seed_used_kg)),
        ("basis", word(&row.seed_used_basis)),
        ("target", number(job.facts.target_rate)),
        ("seeds", job.came_to.and_then(|came_to| came_to.seeds_per_m2).map(Fact::Number)),
        ("number", word(if job.was_true() { "true" } else { "untrue" })),
        ("reasons", word(&triggers.join(" "))),
    ];
    Thing {
        id: row.head.id,
        name: name.into_iter().flatten().collect::<Vec<_>>().join(" · "),
        at: Some(row.head.stamp().at),
        facts: kept(facts),
    }
}

fn of_lot(of: &LotUse) -> Thing {
    let balance = &of.balance;
    let kg = |kg: f64| Some(Fact::Number(kg));
    let facts = [
        ("opening", kg(balance.opening.kg)),
        ("received", kg(balance.received.kg)),
        ("filled", kg(balance.filled.kg)),
        ("returned", kg(balance.returned.kg)),
        ("sown", kg(of.sown.all().kg)),
        ("sold", kg(balance.sold.kg)),
        ("discarded", kg(balance.discarded.kg)),
        ("expected", kg(balance.expected_on_hand().kg)),
        ("counted", balance.counted.map(|count| Fact::Number(count.found.kg))),
    ];
    Thing { id: of.lot.id, name: format!("{} {}", of.lot.crop, of.lot.lot_number), at: None, facts: kept(facts) }
}

fn kept<const N: usize>(facts: [(&str, Option<Fact>); N]) -> BTreeMap<String, Fact> {
    facts.into_iter().filter_map(|(name, fact)| Some((name.to_owned(), fact?))).collect()
}

#[cfg(test)]
mod tests {
    use super::{Contents, Fact, Thing, What};
    use uuid::Uuid;

    fn thing(id: u128, facts: &[(&str, Fact)]) -> Thing {
        let facts = facts.iter().map(|(name, fact)| ((*name).to_owned(), fact.clone())).collect();
        Thing { id: Uuid::from_u128(id), name: format!("{id}"), at: None, facts }
    }

    fn contents(jobs: &[Thing]) -> Contents {
        Contents { jobs: jobs.to_vec(), lots: vec![thing(9, &[("received", Fact::Number(5000.0))])] }
    }

    #[test]
    fn what_is_different_is_named_and_nothing_else() {
        let area = |value: f64| ("area", Fact::Number(value));
        let word = |word: &str| ("number", Fact::Word(word.to_owned()));
        let signed =
            contents(&[thing(1, &[area(0.1 + 0.2), word("true")]), thing(2, &[area(7.0)]), thing(3, &[area(1.0)])]);
        assert_eq!(signed.changes(&signed), []);
        let mut empty = signed.clone();
        empty.lots.push(thing(8, &[("received", Fact::Number(0.0)), ("sown", Fact::Number(0.0))]));
        assert_eq!((signed.changes(&empty), empty.changes(&signed)), (Vec::new(), Vec::new()));
        let mut now = contents(&[
            thing(1, &[area(0.3), word("untrue")]),
            thing(2, &[area(7.0), word("true")]),
            thing(4, &[area(2.0)]),
        ]);
        now.jobs[1].name = "renamed".to_owned();
        let changes = signed.changes(&now);
        let told: Vec<(u128, What)> =
            changes.into_iter().map(|change| (change.thing.id.as_u128(), change.what)).collect();
        let fact = |word: &str| Some(Fact::Word(word.to_owned()));
        let facts = |before, now| What::Facts(vec![("number".to_owned(), before, now)]);
        let expected = [
            (3, What::Gone),
            (1, facts(fact("true"), fact("untrue"))),
            (2, facts(None, fact("true"))),
            (4, What::Added),
        ];
        assert_eq!(told, expected);
        assert_eq!(signed.sum("area", |job| job.id.as_u128() != 2).to_bits(), (0.1_f64 + 0.2 + 1.0).to_bits());
    }

    #[test]
    fn it_comes_back_from_its_text_as_it_was() {
        let signed =
            contents(&[thing(1, &[("area", Fact::Number(0.1 + 0.2)), ("number", Fact::Word("1".to_owned()))])]);
        let text = serde_json::to_string(&signed).unwrap();
        assert_eq!(serde_json::from_str::<Contents>(&text).unwrap(), signed);
    }
}
