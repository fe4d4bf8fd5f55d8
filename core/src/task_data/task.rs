//! A task: when it was worked on, and what was sown from each tank.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::{
    attributes::Ids,
    ddi,
    elements::Node,
    finding::{Finding, Refused, What},
    machine::{Element, Machines},
    moment::When,
    register::Product,
    sown::{Balance, Setpoint, Sown},
    totals::{Session, Totals},
};

/// How far a task has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the format's own words")]
pub enum Status {
    Planned,
    Running,
    Paused,
    Completed,
    Template,
    Cancelled,
}

impl Status {
    fn of(number: i64) -> Self {
        match number {
            2 => Self::Running,
            3 => Self::Paused,
            4 => Self::Completed,
            5 => Self::Template,
            6 => Self::Cancelled,
            _ => Self::Planned,
        }
    }
}

/// The effective time of a task.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Effective {
    /// When it first began.
    pub first_start: When,
    /// When it last stopped; `None` while it runs.
    pub last_stop: Option<When>,
    /// In how many sessions.
    pub sessions: usize,
    /// How long they lasted together, s.
    pub seconds: i64,
}

/// A task (`TSK`).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Task {
    /// Its id within the file.
    pub id: String,
    /// What it is called.
    pub name: Option<String>,
    /// How far it has come.
    pub status: Status,
    /// The id of the customer.
    pub customer: Option<String>,
    /// The id of the farm.
    pub farm: Option<String>,
    /// The id of the field.
    pub field: Option<String>,
    /// The id of the worker.
    pub worker: Option<String>,
    /// When it was worked on.
    pub effective: Option<Effective>,
    /// What was sown, by tank. None of a task that is only planned.
    pub sown: Vec<Sown>,
    /// What was wanted of a task that is only planned, by product.
    pub wanted: Vec<(Option<String>, Setpoint)>,
    /// What stands against making jobs of the task.
    pub faults: Vec<Finding>,
    /// What is not read of it, or good to know.
    pub remarks: Vec<Finding>,
}

impl Task {
    /// Whether nothing was done yet: a plan or a template.
    pub const fn is_only_planned(&self) -> bool {
        matches!(self.status, Status::Planned | Status::Template)
    }

    pub(super) fn of(node: &Node, machines: &Machines<'_>, products: &[Product], ids: &Ids) -> Self {
        let mut faults = Vec::new();
        let status = or_fault(node.needed_whole("G", 1, 6), &mut faults).map_or(Status::Planned, Status::of);
        faults.extend(["C", "D", "E", "F"].iter().filter_map(|attribute| ids.missing(node, attribute)));
        let mut task = Self {
            id: node.text("A").unwrap_or_default(),
            name: node.text("B"),
            status,
            customer: node.text("C"),
            farm: node.text("D"),
            field: node.text("E"),
            worker: node.text("F"),
            effective: None,
            sown: Vec::new(),
            wanted: Vec::new(),
            faults,
            remarks: Vec::new(),
        };
        for log in node.within("TLG") {
            let file = log.text("A").unwrap_or_default();
            task.remarks.push(log.finding(What::LogNotRead { file }));
        }
        let plan = Plan::of(node, ids, &mut task);
        if task.is_only_planned() {
            task.wanted = plan.setpoints.iter().map(|((product, _), setpoint)| (product.clone(), *setpoint)).collect();
            return task;
        }
        let sessions = task.sessions(node);
        let totals = Totals::of(&sessions, machines);
        task.faults.extend(totals.faults.iter().cloned());
        task.remarks.extend(totals.remarks.iter().cloned());
        let tanks = Tanks::of(node, machines, products, ids, &mut task.faults);
        task.sown = tanks.sown(node, &totals, &plan, machines);
        if task.sown.is_empty() && task.faults.is_empty() {
            task.faults.push(node.finding(What::NothingSown));
        }
        task
    }

    /// The effective sessions in the order in which they began.
    fn sessions<'a>(&mut self, node: &'a Node) -> Vec<Session<'a>> {
        let read = node.within("TIM").filter_map(|time| or_fault(Session::of(time), &mut self.faults).flatten());
        let mut sessions: Vec<_> = read.collect();
        let Some(first) = sessions.first() else { return sessions };
        if let Some(other) = sessions.iter().find(|session| session.start.is_exact() != first.start.is_exact()) {
            self.faults.push(other.finding(What::TimesOfTwoKinds));
            return Vec::new();
        }
        sessions.sort_by_key(|session| session.start.order());
        let stops = sessions.iter().filter_map(|session| session.stop);
        self.effective = sessions.first().map(|session| Effective {
            first_start: session.start,
            last_stop: stops.max_by_key(|stop| stop.order()),
            sessions: sessions.len(),
            seconds: sessions.iter().fold(0, |sum: i64, session| sum.saturating_add(session.seconds)),
        });
        sessions
    }
}

fn or_fault<T>(read: Result<T, Refused>, faults: &mut Vec<Finding>) -> Option<T> {
    read.map_err(|Refused(fault)| faults.push(fault)).ok()
}

/// A setpoint as it stands in a zone: for a product, an element, or both.
struct Asked {
    of: (Option<String>, Option<String>),
    setpoint: Setpoint,
}

/// What a task's default zone asks for, by product and element.
#[derive(Default)]
struct Plan {
    setpoints: BTreeMap<(Option<String>, Option<String>), Setpoint>,
}

impl Plan {
    fn of(node: &Node, ids: &Ids, task: &mut Task) -> Self {
        // Where the position is lost, and outside the field, another zone may hold: those are no other rates of the field.
        let exceptions = [node.get("I"), node.get("J")];
        let default = node.get("H");
        let is_exception = |zone: &Node| zone.get("A") != default && exceptions.contains(&zone.get("A"));
        let (mut of_default, mut all) = (Self::default(), Self::default());
        let mut varies = node.within("GRD").next().is_some();
        for zone in node.within("TZN").filter(|zone| !is_exception(zone)) {
            for value in zone.within("PDV") {
                task.faults.extend(["C", "D"].iter().filter_map(|attribute| ids.missing(value, attribute)));
                let Some(asked) = or_fault(Asked::of(value), &mut task.faults).flatten() else { continue };
                if zone.get("A") == default {
                    of_default.setpoints.insert(asked.of.clone(), asked.setpoint);
                }
                let before = all.setpoints.insert(asked.of, asked.setpoint);
                varies |= before.is_some_and(|before| before != asked.setpoint);
            }
        }
        if varies {
            task.remarks.push(node.finding(What::RateVaries));
            return Self::default();
        }
        if of_default.setpoints.is_empty() { all } else { of_default }
    }

    /// The setpoint for an element, else for its product.
    fn setpoint(&self, chain: &[&Element], product: Option<&String>) -> Option<Setpoint> {
        let find = |product: Option<&String>, element: Option<&String>| {
            self.setpoints.get(&(product.cloned(), element.cloned())).copied()
        };
        let of_part = |part: &&Element| find(product, Some(&part.id)).or_else(|| find(None, Some(&part.id)));
        let of_product = || product.and_then(|product| find(Some(product), None));
        chain.iter().find_map(of_part).or_else(of_product)
    }
}

impl Asked {
    /// Reads a value of a zone; none where it is no rate.
    fn of(node: &Node) -> Result<Option<Self>, Refused> {
        let value = node.logged("B")?;
        let setpoint = match node.ddi("A")? {
            ddi::MASS_PER_AREA_SETPOINT => Setpoint::Mass(value),
            ddi::COUNT_PER_AREA_SETPOINT => Setpoint::Count(value),
            ddi::VOLUME_PER_AREA_SETPOINT => Setpoint::Volume(value),
            _ => return Ok(None),
        };
        Ok((value > 0).then(|| Self { of: (node.text("C"), node.text("D")), setpoint }))
    }
}

/// What the tanks of a task are seen with.
struct Known<'a> {
    totals: &'a Totals,
    plan: &'a Plan,
    machines: &'a Machines<'a>,
    /// The one area of each machine that counts one.
    areas: BTreeMap<&'a str, Option<i64>>,
    is_alone: bool,
}

/// What is known of the tanks of a task: which product each has, and what people weighed.
#[derive(Default)]
struct Tanks {
    products: BTreeMap<String, BTreeSet<String>>,
    balances: BTreeMap<(String, String), Balance>,
}

impl Tanks {
    fn of(node: &Node, machines: &Machines<'_>, products: &[Product], ids: &Ids, faults: &mut Vec<Finding>) -> Self {
        let counted_in: BTreeMap<&str, u16> =
            products.iter().filter_map(|product| Some((product.id.as_str(), product.quantity_ddi?))).collect();
        let mut tanks = Self::default();
        for allocation in node.within("PAN") {
            faults.extend(["A", "E"].iter().filter_map(|attribute| ids.missing(allocation, attribute)));
            or_fault(tanks.allocate(allocation, &counted_in), faults);
        }
        for value in node.within("TZN").flat_map(|zone| zone.within("PDV")) {
            if let (Some(product), Some(element)) = (value.get("C"), value.get("D")) {
                tanks.products.entry(element.to_owned()).or_default().insert(product.to_owned());
            }
        }
        // What is allocated to something that is no part of a machine is said as missing, and not used.
        tanks.products.retain(|element, _| element.is_empty() || machines.element(element).is_some());
        tanks
    }

    /// Takes an allocation (`PAN`). One without an element is kept under none.
    fn allocate(&mut self, node: &Node, counted_in: &BTreeMap<&str, u16>) -> Result<(), Refused> {
        const FILLING: i64 = 1;
        const EMPTYING: i64 = 2;
        const REMAINDER: i64 = 3;
        let product = node.needed("A")?.to_owned();
        let element = node.text("E").unwrap_or_default();
        self.products.entry(element.clone()).or_default().insert(product.clone());
        let counted_in = node.ddi_if("B")?.or_else(|| counted_in.get(product.as_str()).copied());
        let (Some(quantity), Some(mode)) = (node.whole("C", 0, i32::MAX.into())?, node.whole("D", 0, 255)?) else {
            return Ok(());
        };
        let Some(grams) = counted_in.and_then(ddi::grams_per_step).map(|step| step.saturating_mul(quantity)) else {
            return Ok(());
        };
        let balance = self.balances.entry((element, product)).or_default();
        match mode {
            FILLING => balance.filled_g = balance.filled_g.saturating_add(grams),
            EMPTYING => balance.emptied_g = balance.emptied_g.saturating_add(grams),
            REMAINDER => balance.remainder_g = Some(grams),
            _ => {}
        }
        Ok(())
    }

    /// What was sown from each tank that counted a mass, or that people weighed.
    fn sown(&self, node: &Node, totals: &Totals, plan: &Plan, machines: &Machines<'_>) -> Vec<Sown> {
        let masses = [ddi::TOTAL_MASS, ddi::TOTAL_MASS_FINE];
        let mut elements = totals.elements_with(&masses);
        elements
            .extend(self.balances.keys().map(|(element, _)| element.as_str()).filter(|element| !element.is_empty()));
        let areas = totals.alone(ddi::TOTAL_AREA, machines);
        let known = Known { totals, plan, machines, areas, is_alone: elements.len() == 1 };
        let sown = elements.into_iter().filter_map(|element| self.sown_from(element, node, &known));
        let mut sown: Vec<_> = sown.collect();
        // As the machine numbers its parts: ids are another program's in another file.
        sown.sort_by(|one, other| (&one.device, one.element_object).cmp(&(&other.device, other.element_object)));
        sown
    }

    fn sown_from(&self, id: &str, node: &Node, known: &Known<'_>) -> Option<Sown> {
        let Known { totals, plan, machines, areas, is_alone } = known;
        let (device, element) = machines.element(id)?;
        let chain = machines.upwards(device, element);
        let mut products = chain.iter().find_map(|part| self.products.get(&part.id));
        if *is_alone {
            products = products.or_else(|| self.products.get(""));
        }
        let product = products.and_then(|products| products.first()).cloned();
        let balance = product.as_ref().and_then(|product| {
            let of = |element: &str| self.balances.get(&(element.to_owned(), product.clone()));
            of(id).or_else(|| of("").filter(|_| *is_alone)).copied()
        });
        let counted = |ddi| chain.iter().find_map(|part| totals.get(&part.id, ddi));
        let area = counted(ddi::TOTAL_AREA).or_else(|| areas.get(device.id.as_str()).copied().flatten());
        let mut sown = Sown {
            device: device.id.clone(),
            element: element.id.clone(),
            element_object: element.object,
            element_name: element.name.clone(),
            setpoint: plan.setpoint(&chain, product.as_ref()),
            product,
            area_m2: area.filter(|area| *area > 0),
            mass_g: totals.get(id, ddi::TOTAL_MASS_FINE),
            mass_kg: totals.get(id, ddi::TOTAL_MASS),
            revolutions_e4: totals
                .get(id, ddi::TOTAL_REVOLUTIONS_FRACTIONAL)
                .or_else(|| totals.get(id, ddi::TOTAL_REVOLUTIONS).map(|whole| whole.saturating_mul(10_000))),
            effective_total_time_s: counted(ddi::EFFECTIVE_TOTAL_TIME),
            balance,
            faults: Vec::new(),
        };
        sown.judge(node, products);
        let is_empty = sown.mass_g == Some(0) && sown.balance.is_none() && sown.product.is_none();
        (!is_empty).then_some(sown)
    }
}

impl Sown {
    /// The finer of the two masses, and what stands against it all.
    fn judge(&mut self, node: &Node, products: Option<&BTreeSet<String>>) {
        let mut faults = Vec::new();
        match (self.mass_g, self.mass_kg) {
            // The coarse count is cut or rounded to the whole kilogram.
            (Some(grams), Some(kilograms)) if (grams - kilograms.saturating_mul(1000)).abs() > 1000 => {
                faults.push(node.finding(What::MassesApart { grams, kilograms }));
            }
            (None, Some(kilograms)) => self.mass_g = Some(kilograms.saturating_mul(1000)),
            _ => {}
        }
        let mut several = products.into_iter().flatten();
        if let (Some(first), Some(second)) = (several.next(), several.next()) {
            faults.push(node.finding(What::TwoProducts { first: first.clone(), second: second.clone() }));
        }
        if self.area_m2.is_none() {
            faults.push(node.finding(What::NoArea));
        }
        if self.mass_g.is_none_or(|grams| grams <= 0) && self.balance.and_then(|balance| balance.used_g()).is_none() {
            faults.push(node.finding(What::NoMass));
        }
        self.faults = faults;
    }
}
