//! What is kept of a file of task data: a line for each tank that something was sown from in a task, with all that a job
//! needs, by names instead of the file's own ids. Pure; kept as JSON until somebody decides.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use sowmark_core::ids::OrganizationId;
use sowmark_core::task_data::{Customer, Device, Finding, Setpoint, Sown, Status, Task, TaskData, When};
use uuid::Uuid;

/// A file as it was read.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Sheet {
    pub version: (u32, u32),
    pub lines: Vec<Line>,
    /// Tasks that nothing was sown in: plans, and those that cannot be read.
    pub others: Vec<Other>,
    /// What is wrong in the file besides its tasks, and what is not read of it.
    pub remarks: Vec<Finding>,
}

/// A task without a line.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Other {
    pub task: String,
    pub name: Option<String>,
    pub is_only_planned: bool,
    pub faults: Vec<Finding>,
}

/// What was sown from one tank in a task.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Line {
    /// The task's id in the file, and its name.
    pub task: String,
    pub task_name: Option<String>,
    pub status: Status,
    pub customer: Option<String>,
    pub field: Option<String>,
    pub field_code: Option<String>,
    pub field_area_m2: Option<i64>,
    /// What tells the machine from all others, then what people call it.
    pub device: String,
    pub device_name: Option<String>,
    pub serial: Option<String>,
    pub element: i64,
    pub element_name: Option<String>,
    pub product: Option<String>,
    pub start: Option<When>,
    pub stop: Option<When>,
    pub area_m2: Option<i64>,
    pub machine_g: Option<i64>,
    /// The machine counted whole kilograms only.
    pub is_coarse: bool,
    pub balance_g: Option<i64>,
    /// Revolutions of the meter, in ten-thousandths.
    pub revolutions_e4: Option<i64>,
    pub setpoint: Option<Setpoint>,
    /// What stands against a job.
    pub faults: Vec<Finding>,
    pub remarks: Vec<Finding>,
}

/// What a file says of a line: compared when the same task comes again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Said {
    pub area_m2: Option<i64>,
    pub machine_g: Option<i64>,
    pub balance_g: Option<i64>,
    pub stop: Option<Timestamp>,
}

impl Sheet {
    pub fn of(read: &TaskData) -> Self {
        let mut lines = Vec::new();
        let mut others = Vec::new();
        for task in &read.tasks {
            if task.sown.is_empty() {
                others.push(Other {
                    task: task.id.clone(),
                    name: task.name.clone(),
                    is_only_planned: task.is_only_planned(),
                    faults: task.faults.clone(),
                });
            }
            lines.extend(task.sown.iter().map(|sown| Line::of(read, task, sown)));
        }
        Self { version: read.version, lines, others, remarks: read.remarks.clone() }
    }
}

impl Line {
    fn of(read: &TaskData, task: &Task, sown: &Sown) -> Self {
        let field = task.field.as_deref().and_then(|id| read.field(id));
        let customer = task.customer.as_deref().or_else(|| field?.customer.as_deref());
        let device = read.device(&sown.device);
        Self {
            task: task.id.clone(),
            task_name: task.name.clone(),
            status: task.status,
            customer: customer.and_then(|id| read.customer(id)).map(Customer::name),
            field: field.map(|field| field.name.clone()),
            field_code: field.and_then(|field| field.code.clone()),
            field_area_m2: field.and_then(|field| field.area_m2),
            device: device.map(Device::identity).unwrap_or_default(),
            device_name: device.and_then(|device| device.name.clone()),
            serial: device.and_then(|device| device.serial.clone()),
            element: sown.element_object,
            element_name: sown.element_name.clone(),
            product: sown.product.as_deref().and_then(|id| read.product(id)).map(|product| product.name.clone()),
            start: task.effective.map(|effective| effective.first_start),
            stop: task.effective.and_then(|effective| effective.last_stop),
            area_m2: sown.area_m2,
            machine_g: sown.mass_g.filter(|grams| *grams > 0),
            is_coarse: sown.mass_kg.is_some_and(|kg| sown.mass_g == Some(kg * 1000)),
            balance_g: sown.balance.and_then(|balance| balance.used_g()),
            revolutions_e4: sown.revolutions_e4,
            setpoint: sown.setpoint,
            faults: task.faults.iter().chain(&sown.faults).cloned().collect(),
            remarks: task.remarks.clone(),
        }
    }

    /// Whether nothing that the file says stands against a job.
    pub fn is_whole(&self) -> bool {
        self.faults.is_empty() && self.start.is_some() && self.area_m2.is_some()
    }

    /// What makes this tank's part of this task, whatever file it stands in: the machine, the tank, and when it began. The
    /// file's own ids are no part of it: each program numbers its tasks anew.
    pub fn identity(&self, organization: OrganizationId, zone: &TimeZone) -> Option<[u8; 32]> {
        let start = self.start?.at(zone)?.as_microsecond();
        let text = format!("{}\n{}\n{}\n{start}", organization.0, self.device, self.element);
        Some(Sha256::digest(text).into())
    }

    /// What the file says of it.
    pub fn said(&self, zone: &TimeZone) -> Said {
        let stop = self.stop.and_then(|stop| stop.at(zone));
        Said { area_m2: self.area_m2, machine_g: self.machine_g, balance_g: self.balance_g, stop }
    }

    /// The machine with its tank, as a name that is matched.
    pub fn unit_name(&self) -> String {
        format!("{}#{}", self.device, self.element)
    }

    /// The field with its customer: farms name their fields alike.
    pub fn field_name(&self) -> Option<String> {
        let field = self.field.as_deref()?;
        let (customer, code) = (self.customer.as_deref(), self.field_code.as_deref());
        Some([customer.unwrap_or_default(), code.unwrap_or_default(), field].join("/"))
    }

    /// The machine for a person: "Seeder 6 m, SN-0042, Bin 1".
    pub fn machine(&self) -> String {
        let element = self.element_name.clone().unwrap_or_else(|| self.element.to_string());
        let parts = [self.device_name.as_deref(), self.serial.as_deref(), Some(element.as_str())];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    /// The task for a person.
    pub fn task_called(&self) -> &str {
        self.task_name.as_deref().unwrap_or(&self.task)
    }

    /// What the job's field is called where it is not kept.
    pub fn place(&self) -> &str {
        self.field.as_deref().unwrap_or_else(|| self.task_called())
    }

    /// Hectares, to the square metre.
    pub fn hectares(&self) -> String {
        self.area_m2.map(hectares).unwrap_or_default()
    }
}

/// Square metres as hectares, exactly.
pub(super) fn hectares(m2: i64) -> String {
    format!("{}.{:04}", m2 / 10_000, m2 % 10_000)
}

/// Grams as kilograms, exactly: to the gram, or whole ones where no more was counted.
pub(super) fn kilograms(grams: i64, is_coarse: bool) -> String {
    if is_coarse { (grams / 1000).to_string() } else { format!("{}.{:03}", grams / 1000, grams % 1000) }
}

/// Ten-thousandths of a revolution as revolutions, exactly.
pub(super) fn revolutions(ten_thousandths: i64) -> String {
    format!("{}.{:04}", ten_thousandths / 10_000, ten_thousandths % 10_000)
}

/// mg/m² as kg/ha, exactly.
pub(super) fn kg_per_ha(mg_per_m2: i64) -> String {
    format!("{}.{:02}", mg_per_m2 / 100, mg_per_m2 % 100)
}

/// An id that follows from what something is, so that doing it again finds it done.
pub(super) fn derived_id(parts: &[&[u8]]) -> Uuid {
    let mut hash = Sha256::new();
    for part in parts {
        hash.update(u64::try_from(part.len()).unwrap_or_default().to_le_bytes());
        hash.update(part);
    }
    let whole: [u8; 32] = hash.finalize().into();
    let mut bytes = [0; 16];
    bytes.copy_from_slice(&whole[..16]);
    uuid::Builder::from_custom_bytes(bytes).into_uuid()
}

#[cfg(test)]
mod tests {
    use super::{hectares, kg_per_ha, kilograms, revolutions};

    #[test]
    fn numbers_are_written_exactly() {
        assert_eq!((hectares(123_450), hectares(5)), ("12.3450".to_owned(), "0.0005".to_owned()));
        assert_eq!(kilograms(2_247_310, false), "2247.310");
        assert_eq!(kilograms(2_247_000, true), "2247");
        assert_eq!(kg_per_ha(18_005), "180.05");
        assert_eq!(revolutions(351_485_435), "35148.5435");
    }
}
