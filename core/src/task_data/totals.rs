//! The totals of a task. Time elements carry what was counted since the task began, so the last one has the total; adding
//! them up counts the earlier ones again, and the rate of the sums looks right.

use std::collections::{BTreeMap, BTreeSet};

use super::{
    attributes::hexadecimal,
    ddi,
    elements::Node,
    finding::{Finding, Refused, What},
    machine::Machines,
    moment::When,
};

/// An effective time element: from when to when, and what stood on the counters at its end.
pub(super) struct Session<'a> {
    node: &'a Node,
    pub(super) start: When,
    pub(super) stop: Option<When>,
    pub(super) seconds: i64,
}

const EFFECTIVE: i64 = 4;

impl<'a> Session<'a> {
    /// Reads a time element; none where it is not effective: planned, idle, under repair.
    pub(super) fn of(node: &'a Node) -> Result<Option<Self>, Refused> {
        if node.needed_whole("D", 0, 255)? != EFFECTIVE {
            return Ok(None);
        }
        node.needed("A")?;
        let Some(start) = node.when("A")? else { return Ok(None) };
        let written = node.whole("C", 0, i32::MAX.into())?;
        let stop = node.when("B")?.or_else(|| written.and_then(|seconds| start.later(seconds)));
        if stop.is_some_and(|stop| stop.is_exact() != start.is_exact()) {
            return Err(Refused(node.finding(What::TimesOfTwoKinds)));
        }
        let lasted = stop.map_or(0, |stop| stop.order() - start.order()) / 1_000_000_000;
        if lasted < 0 {
            return Err(Refused(node.finding(What::EndsBeforeItBegins)));
        }
        let seconds = written.unwrap_or_else(|| i64::try_from(lasted).unwrap_or_default());
        Ok(Some(Self { node, start, stop, seconds }))
    }

    pub(super) fn finding(&self, what: What) -> Finding {
        self.node.finding(what)
    }
}

/// What an element counted over a task.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Counted {
    /// Of the counts before the counter was set back.
    before: i64,
    last: i64,
    set_back: u32,
}

impl Counted {
    fn then(&mut self, value: i64) {
        if value < self.last {
            self.before = self.before.saturating_add(self.last);
            self.set_back += 1;
        }
        self.last = value;
    }
}

/// The totals of a task by element and entry of the data dictionary.
#[derive(Default)]
pub(super) struct Totals {
    by_element: BTreeMap<(String, u16), Counted>,
    pub(super) faults: Vec<Finding>,
    pub(super) remarks: Vec<Finding>,
    undescribed: BTreeSet<(String, u16)>,
}

/// What a job needs of the totals: that a machine does not describe one of these is said.
const WANTED: [u16; 4] = [ddi::TOTAL_AREA, ddi::TOTAL_MASS, ddi::TOTAL_MASS_FINE, ddi::TOTAL_REVOLUTIONS_FRACTIONAL];

impl Totals {
    /// Of sessions in the order in which they began.
    pub(super) fn of(sessions: &[Session<'_>], machines: &Machines<'_>) -> Self {
        let mut totals = Self::default();
        for session in sessions {
            let mut seen = BTreeMap::new();
            for logged in session.node.within("DLV") {
                if let Err(Refused(fault)) = totals.log(logged, machines, &mut seen) {
                    totals.faults.push(fault);
                }
            }
        }
        let set_back = totals.by_element.iter().filter(|(_, counted)| counted.set_back > 0);
        let said = set_back.filter_map(|((_, ddi), counted)| {
            let what = What::CounterSetBack { ddi: hexadecimal(*ddi), times: counted.set_back };
            sessions.last().map(|session| session.finding(what))
        });
        let said: Vec<_> = said.collect();
        totals.remarks.extend(said);
        totals
    }

    fn log(
        &mut self,
        logged: &Node,
        machines: &Machines<'_>,
        seen: &mut BTreeMap<(String, u16), i64>,
    ) -> Result<(), Refused> {
        let ddi = logged.ddi("A")?;
        let value = logged.logged("B")?;
        let element = logged.needed("C")?;
        if machines.element(element).is_none() {
            let what = What::NotThere { attribute: "C".to_owned(), given: element.to_owned() };
            return Err(Refused(logged.finding(what)));
        }
        let key = (element.to_owned(), ddi);
        let Some(described) = machines.reported(element, ddi) else {
            if WANTED.contains(&ddi) && self.undescribed.insert(key) {
                self.remarks.push(logged.finding(What::NotDescribed { ddi: hexadecimal(ddi) }));
            }
            return Ok(());
        };
        if !described.is_task_total() {
            return Ok(());
        }
        if value < 0 {
            return Err(Refused(logged.finding(What::TotalNegative { ddi: hexadecimal(ddi), given: value })));
        }
        if seen.insert(key.clone(), value).is_some_and(|before| before != value) {
            return Err(Refused(logged.finding(What::TotalTwice { ddi: hexadecimal(ddi) })));
        }
        self.by_element.entry(key).or_default().then(value);
        Ok(())
    }

    /// The total of an element.
    pub(super) fn get(&self, element: &str, ddi: u16) -> Option<i64> {
        let counted = self.by_element.get(&(element.to_owned(), ddi))?;
        Some(counted.before.saturating_add(counted.last))
    }

    /// The one total under an entry of each machine; none of a machine that counts it in several places.
    pub(super) fn alone<'a>(&self, ddi: u16, machines: &Machines<'a>) -> BTreeMap<&'a str, Option<i64>> {
        let mut by_device = BTreeMap::new();
        for element in self.elements_with(&[ddi]) {
            if let Some((device, _)) = machines.element(element) {
                let total = self.get(element, ddi);
                by_device.entry(device.id.as_str()).and_modify(|only| *only = None).or_insert(total);
            }
        }
        by_device
    }

    /// The elements that have a total under one of these entries.
    pub(super) fn elements_with(&self, ddis: &[u16]) -> BTreeSet<&str> {
        let having = self.by_element.keys().filter(|(_, ddi)| ddis.contains(ddi));
        having.map(|(element, _)| element.as_str()).collect()
    }
}
