//! Task data of ISO 11783-10: what a machine's task controller wrote down of a task, as typed records.
//!
//! [`read`] takes the bytes of a `TASKDATA.XML`, or of a zip that holds one, in versions 3 and 4 of the format. It takes
//! customers, farms, workers, fields, products, devices and tasks, and of each task what was sown from each tank
//! ([`Sown`]), by these rules:
//!
//! - Totals in the time elements of a task are cumulative: the last effective one that has a total counts, and they are
//!   never added up. Only where a total falls below the one before was the counter set back; then its parts are added.
//! - A logged value is a total of the task if the device describes it so ([`ProcessData::is_task_total`]); lifetime totals
//!   are not the task's.
//! - A total belongs to an element of the device (a tank), the element to a product through the task's allocations.
//! - Fillings, emptyings and remainders were weighed by people: they make a [`Balance`], apart from the machine's total.
//!   That is revolutions times the factor it was given, so it cannot reveal a wrong one.
//! - Values are in the unit of their data dictionary entry ([`ddi`]); how a terminal shows them (`DVP`) changes nothing.
//!
//! The file is a stranger's. It is read in bounds ([`limits`]), entities are refused, and what cannot be so is said with
//! its line. What breaks the file is an error; what is wrong within a task is among [`Task::faults`], so that the other
//! tasks can still be read; what is not read, but named in the file, is among the remarks.
//!
//! Not read: binary logs (`TLG`), the links of `LINKLIST.XML`, prescription grids, positions and polygons.
//!
//! Source of the rules: the classes and schemas of the npm package `isoxml` 1.11.2 and of github.com/dev4Agriculture, and
//! the data dictionary as in github.com/Open-Agriculture/AgIsoStack-plus-plus; the standard's own text was not at hand.

mod archive;
mod attributes;
pub mod ddi;
mod elements;
mod finding;
pub mod limits;
mod machine;
mod moment;
mod register;
mod sown;
mod task;
mod totals;

pub use finding::{Finding, Place, Refused, What};
pub use machine::{Device, Element, ProcessData, Property};
pub use moment::When;
pub use register::{Customer, Farm, Field, Product, Worker};
pub use sown::{Balance, Setpoint, Sown};
pub use task::{Effective, Status, Task};

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use self::{archive::Archive, attributes::Ids, elements::Node, machine::Machines};

/// What a file of task data holds.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct TaskData {
    /// Major and minor version of the format.
    pub version: (u32, u32),
    /// Whose fields they are.
    pub customers: Vec<Customer>,
    /// Their farms.
    pub farms: Vec<Farm>,
    /// Who worked.
    pub workers: Vec<Worker>,
    /// The fields ("part fields" in the standard).
    pub fields: Vec<Field>,
    /// What was sown.
    pub products: Vec<Product>,
    /// The machines.
    pub devices: Vec<Device>,
    /// The tasks, in the order of the file.
    pub tasks: Vec<Task>,
    /// What is wrong outside the tasks, and what the file names and this does not read.
    pub remarks: Vec<Finding>,
}

impl TaskData {
    /// The customer of an id.
    pub fn customer(&self, id: &str) -> Option<&Customer> {
        self.customers.iter().find(|customer| customer.id == id)
    }

    /// The field of an id.
    pub fn field(&self, id: &str) -> Option<&Field> {
        self.fields.iter().find(|field| field.id == id)
    }

    /// The product of an id.
    pub fn product(&self, id: &str) -> Option<&Product> {
        self.products.iter().find(|product| product.id == id)
    }

    /// The device of an id.
    pub fn device(&self, id: &str) -> Option<&Device> {
        self.devices.iter().find(|device| device.id == id)
    }
}

/// Reads a file of task data.
///
/// # Errors
/// What makes the file as a whole unreadable: no task data, broken, larger than the bounds, entities, ids that stand twice.
///
/// ```
/// use sowmark_core::task_data;
///
/// let file = br#"<ISO11783_TaskData VersionMajor="4" VersionMinor="2" DataTransferOrigin="2">
///   <CTR A="CTR1" B="Beispiel" C="Ada"/>
///   <TSK A="TSK1" B="Long Acre" G="1"/>
/// </ISO11783_TaskData>"#;
/// let read = task_data::read(file).unwrap();
/// assert_eq!(read.customers[0].name(), "Ada Beispiel");
/// assert!(read.tasks[0].is_only_planned());
///
/// let refused = task_data::read(br#"<!DOCTYPE a [<!ENTITY b "c">]><ISO11783_TaskData/>"#).unwrap_err();
/// assert_eq!(
///     refused.to_string(),
///     "TASKDATA.XML, line 1: A document type or an entity stands here, which task data never has. Export the file again."
/// );
/// ```
pub fn read(bytes: &[u8]) -> Result<TaskData, Refused> {
    let mut archive = Archive::open(bytes)?;
    let main = archive.main()?;
    let mut reading = elements::Reading::default();
    let root = reading.document(archive::MAIN, &main, "ISO11783_TaskData")?;
    drop(main);
    let version = version_of(&root)?;
    let mut remarks = Vec::new();
    let nodes = with_external_files(root, &mut archive, &mut reading, &mut remarks)?;
    remarks.extend(reading.skipped());
    if let Some(list) = archive.link_list() {
        remarks.push(Finding { place: Place::file(list), what: What::LinksNotRead });
    }
    Collected::of(nodes)?.records(version, remarks)
}

/// The file's elements, with those of the external files that it names.
fn with_external_files(
    root: Node,
    archive: &mut Archive<'_>,
    reading: &mut elements::Reading,
    remarks: &mut Vec<Finding>,
) -> Result<Vec<Node>, Refused> {
    let mut nodes = Vec::new();
    for node in root.children {
        if node.tag != "XFR" {
            nodes.push(node);
            continue;
        }
        let name = format!("{}.XML", node.needed("A")?);
        match archive.beside(&name)? {
            Some(bytes) => nodes.extend(reading.document(&name, &bytes, "XFC")?.children),
            None => remarks.push(node.finding(What::FileMissing { file: name })),
        }
    }
    Ok(nodes)
}

fn version_of(root: &Node) -> Result<(u32, u32), Refused> {
    let major = root.whole("VersionMajor", 0, 99)?.unwrap_or_default();
    let minor = root.whole("VersionMinor", 0, 99)?.unwrap_or_default();
    let version = (u32::try_from(major).unwrap_or_default(), u32::try_from(minor).unwrap_or_default());
    if (3..=4).contains(&version.0) {
        return Ok(version);
    }
    Err(Refused(root.finding(What::Version { given: format!("{}.{}", version.0, version.1) })))
}

/// The elements of a file by kind; each id stands once.
struct Collected {
    by_tag: BTreeMap<&'static str, Vec<Node>>,
    ids: Ids,
}

impl Collected {
    fn of(nodes: Vec<Node>) -> Result<Self, Refused> {
        let mut collected = Self { by_tag: BTreeMap::new(), ids: Ids::default() };
        for node in nodes {
            if matches!(node.tag, "CTR" | "FRM" | "WKR" | "PFD" | "CTP" | "PDT" | "DVC" | "TSK") {
                collected.ids.enter(&node)?;
                for inner in node.children.iter().filter(|inner| matches!(inner.tag, "DET" | "CVT")) {
                    collected.ids.enter(inner)?;
                }
            }
            collected.by_tag.entry(node.tag).or_default().push(node);
        }
        Ok(collected)
    }

    fn take<T>(&self, tag: &str, record: impl Fn(&Node) -> Result<T, Refused>) -> Result<Vec<T>, Refused> {
        self.by_tag.get(tag).into_iter().flatten().map(record).collect()
    }

    fn records(self, version: (u32, u32), remarks: Vec<Finding>) -> Result<TaskData, Refused> {
        let mut read = TaskData {
            version,
            customers: self.take("CTR", Customer::of)?,
            farms: self.take("FRM", Farm::of)?,
            workers: self.take("WKR", Worker::of)?,
            fields: self.take("PFD", Field::of)?,
            products: self.take("PDT", Product::of)?,
            devices: self.take("DVC", Device::of)?,
            tasks: Vec::new(),
            remarks,
        };
        for (tag, attribute) in [("FRM", "I"), ("PFD", "E"), ("PFD", "F"), ("PFD", "G"), ("PFD", "H")] {
            let nodes = self.by_tag.get(tag).into_iter().flatten();
            read.remarks.extend(nodes.filter_map(|node| self.ids.missing(node, attribute)));
        }
        for attached in self.by_tag.get("AFE").into_iter().flatten() {
            let file = attached.needed("A")?.to_owned();
            read.remarks.push(attached.finding(What::FileNotRead { file }));
        }
        let tasks = self.by_tag.get("TSK").into_iter().flatten();
        let machines = Machines::of(&read.devices);
        let tasks = tasks.map(|node| Task::of(node, &machines, &read.products, &self.ids)).collect();
        read.tasks = tasks;
        if read.tasks.iter().map(|task| task.sown.len()).sum::<usize>() > limits::SOWN {
            return Err(Refused(Place::file(archive::MAIN).finding(What::TooManyTanks { most: limits::SOWN })));
        }
        Ok(read)
    }
}
