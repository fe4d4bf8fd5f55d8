//! What a phone sends: a batch, and each entry of it as far as it can be read. A batch is refused as a whole only when it
//! is no list of entries; what is wrong with an entry is that entry's matter.

use super::kind::Logged;
use crate::clock::Stamp;
use crate::saying;
use crate::web::error::Fault;
use crate::web::input::{At, Faults, Input, Line, parse_stamp};
use jiff::Timestamp;
use serde_json::Value;
use sha2::{Digest, Sha256};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{AdditionalProperties, ArrayBuilder, ObjectBuilder, Schema};
use uuid::Uuid;

/// The most entries of a batch.
pub const MOST_ENTRIES: usize = 200;
/// The longest name of a phone that is kept.
const LONGEST_DEVICE: usize = 200;

/// Entries as they were sent, with what the phone says of itself.
#[derive(Clone, Debug)]
pub struct Batch {
    pub entries: Vec<Value>,
    /// The phone's clock at sending. What cannot be read is none: a phone that lost its clock must not lose its entries.
    pub sent_at: Option<Stamp>,
    /// What the phone calls itself; may be empty.
    pub device: String,
}

impl Input for Batch {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let Some(Value::Object(fields)) = value else { return faults.object(value, at, &[]).and(None) };
        let place = at.key("entries");
        let entries = match fields.get("entries") {
            Some(Value::Array(items)) if items.len() > MOST_ENTRIES => {
                let count = items.len();
                faults.add(&place, saying!("fault-batch-too-long", count = count, most = MOST_ENTRIES))
            }
            Some(Value::Array(items)) => Some(items.clone()),
            other => faults.wrong_kind(other, &place, "entries"),
        };
        let text = |name: &str| fields.get(name).and_then(Value::as_str).unwrap_or_default();
        let device = text("device").trim().chars().filter(|c| !c.is_control()).take(LONGEST_DEVICE).collect();
        Some(Self { entries: entries?, sent_at: parse_stamp(text("sent_at")), device })
    }

    fn schema() -> RefOr<Schema> {
        let entry = ObjectBuilder::new()
            .property("kind", Logged::schema())
            .required("kind")
            .property("parent_id", Uuid::schema())
            .required("parent_id")
            .property("record", Logged::record_schema())
            .required("record")
            .description(Some(
                "The parent of a calibration, setup, fill, emptying or job is a metering unit; of a service a seeder; of a \
                 scale_check a scale; of a lot_test a lot.",
            ))
            .additional_properties(Some(AdditionalProperties::FreeForm(false)));
        let described = |schema: RefOr<Schema>, says: &str| match schema {
            RefOr::T(Schema::Object(mut object)) => {
                object.description = Some(says.to_owned());
                object.into()
            }
            other => other,
        };
        let sent_at = described(Stamp::schema(), "The phone's clock at sending; shows how far off it is.");
        let device = described(Line::<LONGEST_DEVICE>::schema(), "What the phone calls itself.");
        ObjectBuilder::new()
            .property("entries", ArrayBuilder::new().items(entry).max_items(Some(MOST_ENTRIES)))
            .required("entries")
            .property("sent_at", sent_at)
            .property("device", device)
            .description(Some("Entries that were logged off line, in any order."))
            .into()
    }
}

/// An entry as far as it can be read.
#[derive(Clone, Debug)]
pub struct Entry {
    /// The record's; where it has none that can be read, one that the same content makes again.
    pub id: Uuid,
    /// The id as it was sent, to be answered; none when it is no text.
    pub sent_id: Option<String>,
    pub kind: Option<Logged>,
    /// The kind as it was sent, short enough to be kept.
    pub kind_word: String,
    pub parent: Option<Uuid>,
    pub record: Value,
    /// What makes it unreadable; none when its act can be asked.
    pub faults: Vec<Fault>,
    pub occurred_at: Option<Timestamp>,
    pub corrects: Option<Uuid>,
}

impl Entry {
    /// Reads an entry. Faults of the record point into the record, as those of its own address do; those of what is
    /// around it point at `/kind`, `/parent_id` and `/record`, which no record has.
    #[must_use]
    pub fn read(sent: &Value) -> Self {
        let (mut faults, at) = (Faults::default(), At::default());
        let fields = faults.object(Some(sent), &at, &["kind", "parent_id", "record"]);
        let field = |name: &str| fields.and_then(|fields| fields.get(name));
        let (mut kind, mut parent, mut id) = (None, None, None);
        if fields.is_some() {
            kind = Logged::read(field("kind"), &at.key("kind"), &mut faults);
            parent = Uuid::read(field("parent_id"), &at.key("parent_id"), &mut faults);
            let record = faults.object_of_any(field("record"), &at.key("record"));
            id = record.and_then(|record| Uuid::read(record.get("id"), &at.key("id"), &mut faults));
        }
        let record = field("record").unwrap_or(sent).clone();
        let mut faults = faults.found();
        if let (Some(kind), false) = (kind, faults.is_empty()) {
            let of_record = kind.faults(&record).into_iter().filter(|fault| fault.pointer != "/id");
            faults.extend(of_record.filter(|fault| !fault.pointer.is_empty()));
        }
        let text = |name: &str| record.get(name).and_then(Value::as_str);
        Self {
            id: id.unwrap_or_else(|| made_from(sent)),
            sent_id: text("id").map(|id| id.chars().take(100).collect()),
            kind,
            kind_word: kind_word(field("kind")),
            parent,
            occurred_at: text("occurred_at").and_then(parse_stamp).map(|stamp| stamp.at),
            corrects: text("corrects").and_then(|id| Uuid::try_parse(id).ok()),
            record,
            faults,
        }
    }
}

fn kind_word(value: Option<&Value>) -> String {
    let word = value.and_then(Value::as_str).unwrap_or_default();
    word.chars().filter(|c| !c.is_control()).take(40).collect()
}

/// An id for something that has none: the same content makes the same, so that sent again it is not kept twice.
fn made_from(sent: &Value) -> Uuid {
    let hash: [u8; 32] = Sha256::digest(sent.to_string()).into();
    let mut bytes = [0; 16];
    bytes.copy_from_slice(&hash[..16]);
    uuid::Builder::from_custom_bytes(bytes).into_uuid()
}

/// The order in which entries are taken in, as positions: whatever order they were sent in, each finds what it needs. That
/// is, by kind as [`Logged`] lists them, a correction after what it corrects, then as things happened.
#[must_use]
pub fn in_order(entries: &[Entry]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..entries.len()).collect();
    order.sort_by_key(|position| {
        let entry = &entries[*position];
        let phase = Logged::ALL.iter().position(|kind| Some(*kind) == entry.kind);
        (phase, depth(entries, entry), entry.occurred_at, entry.id)
    });
    order
}

/// How many records of the same batch an entry corrects, one through another.
fn depth(entries: &[Entry], entry: &Entry) -> usize {
    let corrected = |entry: &Entry| entries.iter().find(|other| Some(other.id) == entry.corrects);
    // Entries that correct each other in a circle end with the batch.
    std::iter::successors(corrected(entry), |entry| corrected(entry)).take(entries.len()).count()
}
