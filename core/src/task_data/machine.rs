//! A machine as it describes itself: its elements (frame, boom, tanks), and which values each of them reports.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{
    ddi,
    elements::Node,
    finding::{Refused, What},
    limits,
};

/// A machine (`DVC`).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Device {
    /// Its id within the file.
    pub id: String,
    /// What it is called.
    pub name: Option<String>,
    /// Its NAME on the network, 16 hexadecimal digits: maker, kind and a number of the maker.
    pub network_name: String,
    /// Serial number.
    pub serial: Option<String>,
    /// Its elements.
    pub elements: Vec<Element>,
    /// What it reports.
    pub process_data: Vec<ProcessData>,
    /// What it holds fixed.
    pub properties: Vec<Property>,
}

/// A part of a machine (`DET`): the whole, a boom, a tank, a section.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Element {
    /// Its id within the file.
    pub id: String,
    /// Its number within the machine.
    pub object: i64,
    /// What it is called.
    pub name: Option<String>,
    /// What it is: 1 device, 2 function, 3 tank, 4 section, 5 unit, 6 connector, 7 navigation.
    pub kind: i64,
    /// Its number among those of its kind.
    pub number: i64,
    /// The object that it is part of; 0 for the whole.
    pub parent: i64,
    /// The objects (process data, properties) that are its own.
    pub objects: Vec<i64>,
}

/// A value that a machine reports (`DPD`).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ProcessData {
    /// Its number within the machine.
    pub object: i64,
    /// What it is.
    pub ddi: u16,
    /// Bits: 1 of the default set, 2 settable, 4 a control source.
    pub property: i64,
    /// Bits, by what it is reported: 1 time, 2 distance, 4 threshold, 8 change, 16 total.
    pub trigger: i64,
    /// What the machine calls it.
    pub name: Option<String>,
}

impl ProcessData {
    /// Whether it counts over a task: a total that can be set (back to nothing, as a task begins). One that cannot counts
    /// over the machine's life.
    pub const fn is_task_total(&self) -> bool {
        self.trigger & 16 != 0 && self.property & 2 != 0
    }

    /// Whether it counts up at all.
    pub const fn is_total(&self) -> bool {
        self.trigger & 16 != 0
    }
}

/// A value that a machine holds fixed (`DPT`).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Property {
    /// Its number within the machine.
    pub object: i64,
    /// What it is.
    pub ddi: u16,
    /// How much.
    pub value: i64,
}

const OBJECT: i64 = 65_535;

impl Device {
    pub(super) fn of(node: &Node) -> Result<Self, Refused> {
        let device = Self {
            id: node.needed("A")?.to_owned(),
            name: node.text("B"),
            network_name: node.needed("D")?.to_ascii_uppercase(),
            serial: node.text("E"),
            elements: node.within("DET").map(Element::of).collect::<Result<_, _>>()?,
            process_data: node.within("DPD").map(ProcessData::of).collect::<Result<_, _>>()?,
            properties: node.within("DPT").map(Property::of).collect::<Result<_, _>>()?,
        };
        let mut objects = BTreeMap::new();
        for inner in node.children.iter().filter(|inner| matches!(inner.tag, "DET" | "DPD" | "DPT")) {
            let attribute = if inner.tag == "DET" { "B" } else { "A" };
            let object = inner.needed_whole(attribute, 0, OBJECT)?;
            if let Some(line) = objects.insert(object, inner.line()) {
                return Err(Refused(inner.finding(What::IdTwice { given: object.to_string(), line })));
            }
        }
        Ok(device)
    }

    /// The working width that it holds fixed, mm.
    pub fn working_width_mm(&self) -> Option<i64> {
        let kinds = [ddi::WORKING_WIDTH, ddi::DEFAULT_WORKING_WIDTH, ddi::MAXIMUM_WORKING_WIDTH];
        let found = kinds.iter().find_map(|ddi| self.properties.iter().find(|property| property.ddi == *ddi));
        found.map(|property| property.value).filter(|width| *width > 0)
    }

    /// What tells it from other machines in any file: the serial number with the NAME, which alone may be a type's.
    pub fn identity(&self) -> String {
        format!("{}/{}", self.network_name, self.serial.as_deref().unwrap_or_default())
    }
}

impl Element {
    fn of(node: &Node) -> Result<Self, Refused> {
        let objects = node.within("DOR").map(|reference| reference.needed_whole("A", 0, OBJECT));
        Ok(Self {
            id: node.needed("A")?.to_owned(),
            object: node.needed_whole("B", 0, OBJECT)?,
            kind: node.needed_whole("C", 1, 255)?,
            name: node.text("D"),
            number: node.needed_whole("E", 0, OBJECT)?,
            parent: node.needed_whole("F", 0, OBJECT)?,
            objects: objects.collect::<Result<_, _>>()?,
        })
    }
}

impl ProcessData {
    fn of(node: &Node) -> Result<Self, Refused> {
        Ok(Self {
            object: node.needed_whole("A", 0, OBJECT)?,
            ddi: node.ddi("B")?,
            property: node.needed_whole("C", 0, 255)?,
            trigger: node.needed_whole("D", 0, 255)?,
            name: node.text("E"),
        })
    }
}

impl Property {
    fn of(node: &Node) -> Result<Self, Refused> {
        Ok(Self { object: node.needed_whole("A", 0, OBJECT)?, ddi: node.ddi("B")?, value: node.logged("C")? })
    }
}

/// What all machines of a file report, looked up by element: made once, so that a file cannot make it slow.
pub(super) struct Machines<'a> {
    elements: BTreeMap<&'a str, (&'a Device, &'a Element)>,
    objects: BTreeMap<(&'a str, i64), &'a Element>,
    reported: BTreeMap<(&'a str, u16), &'a ProcessData>,
}

impl<'a> Machines<'a> {
    pub(super) fn of(devices: &'a [Device]) -> Self {
        let mut machines = Self { elements: BTreeMap::new(), objects: BTreeMap::new(), reported: BTreeMap::new() };
        for device in devices {
            let by_object: BTreeMap<i64, &ProcessData> =
                device.process_data.iter().map(|data| (data.object, data)).collect();
            for element in &device.elements {
                machines.elements.insert(&element.id, (device, element));
                machines.objects.insert((&device.id, element.object), element);
                for data in element.objects.iter().filter_map(|object| by_object.get(object)) {
                    machines.reported.insert((&element.id, data.ddi), data);
                }
            }
        }
        machines
    }

    /// An element with its machine.
    pub(super) fn element(&self, id: &str) -> Option<(&'a Device, &'a Element)> {
        self.elements.get(id).copied()
    }

    /// An element, what it is part of, and so on to the whole.
    pub(super) fn upwards(&self, device: &Device, element: &'a Element) -> Vec<&'a Element> {
        let parent_of = |of: &&'a Element| self.objects.get(&(device.id.as_str(), of.parent)).copied();
        // A machine that is part of itself has no end.
        std::iter::successors(Some(element), parent_of).take(limits::DEPTH).collect()
    }

    /// What an element says of a value that it reports.
    pub(super) fn reported(&self, element: &str, ddi: u16) -> Option<&'a ProcessData> {
        self.reported.get(&(element, ddi)).copied()
    }
}
