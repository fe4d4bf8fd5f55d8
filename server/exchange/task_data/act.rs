//! What is done with files of task data: take one, look at what its lines would become, store those that somebody wants.
//!
//! The same task is never stored twice: its job's id follows from machine, tank and beginning, so that the job's own act
//! finds it done. Storing it anew takes the next id, once its job was voided. Nothing is stored while anything of what was
//! chosen is at fault.

use super::draft::LineDraft;
use super::lines::{Line, Said, Sheet, derived_id, hectares, kilograms};
use super::matches::{Kind as Matching, Known, Matched};
use super::store::{self, FileRow, Import};
use crate::access::{Permission, Scope};
use crate::clock::Stamp;
use crate::db::kind::Kind;
use crate::db::{Audit, Cx, Entered, NewEntry};
use crate::seed::client::act::{ClientDraft, add_client};
use crate::seed::field::act::{FieldDraft, add_field};
use crate::seed::job::act::{JobDraft, SeedUsedBasis, record_job};
use crate::web::door::Signed;
use crate::web::error::{Error, Fault};
use crate::web::input;
use crate::web::saying::Saying;
use crate::{hex, saying};
use jiff::tz::TimeZone;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::say;
use sowmark_core::task_data::{self, Refused, When};
use sowmark_core::words::Words;
use std::collections::{HashMap, HashSet};
use tokio::sync::Semaphore;
use uuid::Uuid;

/// How many files are read at a time: each may unpack to many times its size.
static READING: Semaphore = Semaphore::const_new(2);

/// Where a line stands.
#[derive(Clone, Debug)]
pub enum Standing {
    /// It can become a job.
    New { task: [u8; 32], turn: i64 },
    /// It is a job.
    Stored { job: Uuid },
    /// It is a job that was made of other numbers.
    Changed { job: Uuid, was: Said },
    /// Its tank's task stands in the file already.
    Twice,
    /// The file itself stands against it.
    Faulty,
}

/// A line with what its names mean and where it stands.
#[derive(Debug)]
pub struct Seen {
    pub line: Line,
    pub matched: Matched,
    pub standing: Standing,
}

/// A file with everything that a decision needs.
#[derive(Debug)]
pub struct Outlook {
    pub file: FileRow,
    pub sheet: Sheet,
    pub seen: Vec<Seen>,
    pub known: Known,
}

/// Takes a file; answers its id. The same bytes again are the same file.
///
/// # Errors
/// 403 by role; 422 at `pointer` for a file that cannot be read.
pub async fn take_file(signed: &Signed, name: &str, bytes: Vec<u8>, pointer: &'static str) -> Result<Uuid, Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let turn = READING.acquire().await.map_err(Error::broken)?;
    let hash: [u8; 32] = Sha256::digest(&bytes).into();
    let read = tokio::task::spawn_blocking(move || task_data::read(&bytes)).await.map_err(Error::broken)?;
    drop(turn);
    let read = read.map_err(|Refused(finding)| {
        Error::Faults(vec![Fault::new(pointer, Saying::from(move |words: Words| finding.says(words)))])
    })?;
    let content = serde_json::to_string(&Sheet::of(&read)).map_err(Error::broken)?;
    let id = derived_id(&[b"task file", signed.actor.organization().0.as_bytes(), &hash]);
    let sent = json!({ "sha256": hex::written(&hash) });
    let new = NewEntry { id: Some(id), kind: Kind::TaskFile, parent: None, happened: None, corrects: None, sent };
    match signed.app.work(&grant).await?.enter(new).await? {
        Entered::Already(id) => Ok(id),
        Entered::New(mut work, id) => {
            store::add_file(&mut work, id, name, &content).await?;
            let change = json!({ "name": name, "sha256": hex::written(&hash), "tasks": read.tasks.len() });
            work.commit(Audit::created(Kind::TaskFile, id, change)).await?;
            Ok(id)
        }
    }
}

/// The files that were sent last.
///
/// # Errors
/// The database.
pub async fn last_files(cx: &mut Cx<'_>, scope: &Scope) -> Result<Vec<FileRow>, Error> {
    Ok(store::files(cx, scope, 20).await?)
}

/// A file with what its lines would become.
///
/// # Errors
/// 404 when it is not there.
pub async fn outlook(cx: &mut Cx<'_>, scope: &Scope, zone: &TimeZone, file: Uuid) -> Result<Outlook, Error> {
    let file = store::find_file(cx, scope, file).await?.ok_or_else(|| Error::not_there("file"))?;
    let mut sheet: Sheet = serde_json::from_str(&file.content).map_err(Error::broken)?;
    let known = Known::find(cx, scope).await?;
    let mut tasks = HashSet::new();
    let mut seen = Vec::new();
    for line in std::mem::take(&mut sheet.lines) {
        let standing = match line.identity(scope.organization, zone) {
            Some(task) if line.is_whole() && tasks.insert(task) => standing(cx, scope, zone, &line, task).await?,
            Some(_) if line.is_whole() => Standing::Twice,
            _ => Standing::Faulty,
        };
        seen.push(Seen { matched: known.of(&line), line, standing });
    }
    Ok(Outlook { file, sheet, seen, known })
}

async fn standing(
    cx: &mut Cx<'_>,
    scope: &Scope,
    zone: &TimeZone,
    line: &Line,
    task: [u8; 32],
) -> Result<Standing, Error> {
    let Some(last) = store::last_import(cx, scope, task).await? else {
        return Ok(Standing::New { task, turn: 0 });
    };
    if !store::stands(cx, scope, last.job_id).await? {
        return Ok(Standing::New { task, turn: last.turn + 1 });
    }
    let was: Said = serde_json::from_str(&last.content).map_err(Error::broken)?;
    let job = last.job_id;
    Ok(if was == line.said(zone) { Standing::Stored { job } } else { Standing::Changed { job, was } })
}

/// A line that becomes a job, with everything that the job's act wants.
struct Planned {
    /// Where its draft stands among those sent.
    at: usize,
    number: usize,
    unit: Uuid,
    lot: Uuid,
    field: Option<NewOrKept>,
    client: Option<NewOrKept>,
    job: Value,
    import: Import,
}

#[derive(Clone, Copy)]
enum NewOrKept {
    New(Uuid),
    Kept(Uuid),
}

impl NewOrKept {
    fn id(self) -> Uuid {
        match self {
            Self::New(id) | Self::Kept(id) => id,
        }
    }
}

/// Makes jobs of lines; answers how many. Fields and clients that are asked for are added first; what names meant is
/// remembered.
///
/// # Errors
/// 403 by role; 422 for what is missing or cannot be, at the lines' fields: then nothing was stored, unless the job's own
/// act refused a line after others.
pub async fn store_lines(signed: &Signed, outlook: &Outlook, drafts: &[LineDraft]) -> Result<usize, Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let mut faults = Vec::new();
    let wanted = drafts.iter().enumerate().filter(|(_, draft)| draft.store == Some(true));
    let planned: Vec<Planned> =
        wanted.filter_map(|(at, draft)| plan(signed, outlook, at, draft, &mut faults)).collect();
    for one in &planned {
        faults.extend(faults_at(&input::read::<JobDraft>(&one.job), one.at, "store"));
    }
    if faults.is_empty() {
        faults = add_places(signed, outlook, &planned).await?;
    }
    if !faults.is_empty() {
        return Err(Error::Faults(faults));
    }
    let mut stored = Vec::new();
    let mut ended = Ok(());
    for one in &planned {
        match record(signed, one).await {
            Ok(()) => stored.push(one),
            Err(error) if error.will_pass() => {
                ended = Err(error);
                break;
            }
            Err(error) => faults.extend(faults_at::<()>(&Err(error), one.at, "store")),
        }
    }
    if !stored.is_empty() {
        let mut work = signed.app.work(&grant).await?;
        for one in &stored {
            for (kind, name, id) in names(&outlook.seen[one.number].line, one) {
                store::keep_match(&mut work, kind.word(), &name, id).await?;
            }
            store::add_import(&mut work, outlook.file.id, &one.import).await?;
        }
        let jobs: Vec<_> = stored.iter().map(|one| one.import.job).collect();
        work.commit(Audit::did("imported", Kind::TaskFile, outlook.file.id, json!({ "jobs": jobs }))).await?;
    }
    ended?;
    if faults.is_empty() { Ok(stored.len()) } else { Err(Error::Faults(faults)) }
}

/// What a line's names were said to mean.
fn names(line: &Line, one: &Planned) -> Vec<(Matching, String, Uuid)> {
    let field = line.field_name().zip(one.field);
    let client = line.customer.clone().zip(one.client);
    let mut names = vec![(Matching::Unit, line.unit_name(), one.unit)];
    names.extend(line.product.clone().map(|product| (Matching::Lot, product, one.lot)));
    names.extend(field.map(|(name, field)| (Matching::Field, name, field.id())));
    names.extend(client.map(|(name, client)| (Matching::Client, name, client.id())));
    names
}

fn place(at: usize, field: &str) -> String {
    format!("/lines/{at}/{field}")
}

/// The faults of a line's draft, at the field of the line that stands for it.
fn faults_at<T>(read: &Result<T, Error>, at: usize, field: &'static str) -> Vec<Fault> {
    let Err(error) = read else { return Vec::new() };
    let faults = error.faults();
    if faults.is_empty() {
        return vec![Fault::new(place(at, field), error.detail(crate::texts::plain()))];
    }
    let moved = |fault: Fault| Fault::new(place(at, field), Saying::from(move |words: Words| fault.says(words)));
    faults.into_iter().map(moved).collect()
}

/// Reads one draft into what the job's act wants; notes what is missing.
fn plan(signed: &Signed, outlook: &Outlook, at: usize, draft: &LineDraft, faults: &mut Vec<Fault>) -> Option<Planned> {
    let number = usize::try_from(draft.line.0).ok()?;
    let Some(Seen { line, standing: Standing::New { task, turn }, .. }) = outlook.seen.get(number) else {
        faults.push(Fault::new(place(at, "store"), saying!("task-file-not-new")));
        return None;
    };
    let mut missing = |field: &str| faults.push(Fault::new(place(at, field), saying!("fault-missing")));
    if draft.unit.is_none() {
        missing("unit");
    }
    if draft.lot.is_none() {
        missing("lot");
    }
    if draft.target_rate.is_none() {
        missing("target_rate");
    }
    let (seed_used, basis) = seed_used(line, draft.seed_used_basis).or_else(|| {
        missing("seed_used_basis");
        None
    })?;
    let (unit, lot, rate) = (draft.unit?.0, draft.lot?.0, draft.target_rate.as_ref()?);
    let organization = signed.actor.organization().0;
    let of_file = |what: &[u8], name: &str| {
        derived_id(&[what, organization.as_bytes(), outlook.file.id.as_bytes(), name.as_bytes()])
    };
    let mut chosen = |field: &'static str, given: Option<&str>, kind: Matching, name: Option<String>| {
        let given = given?;
        if given == "new" {
            return name.map(|name| NewOrKept::New(of_file(kind.word().as_bytes(), &name)));
        }
        let kept = Uuid::try_parse(given).ok().filter(|id| outlook.known.has(kind, *id));
        if kept.is_none() {
            faults.push(Fault::new(place(at, field), saying!("fault-not-there", what = field)));
        }
        kept.map(NewOrKept::Kept)
    };
    let field = chosen("field", draft.field.as_ref().map(|field| field.0.as_str()), Matching::Field, line.field_name());
    let client = chosen(
        "client",
        draft.client.as_ref().map(|client| client.0.as_str()),
        Matching::Client,
        line.customer.clone(),
    );
    let job_id = derived_id(&[b"job of a task", organization.as_bytes(), task, &turn.to_le_bytes()]);
    let zone = &signed.actor.time_zone;
    let stamped = |when: When| {
        let at = when.at(zone)?;
        Some(Stamp { at, offset_seconds: zone.to_offset(at).seconds() }.rfc3339())
    };
    let words = signed.actor.words();
    let note =
        say!(words, "task-file-note", task = line.task_called(), machine = line.machine(), file = &outlook.file.name,);
    let mut job = json!({
        "id": job_id, "occurred_at": line.start.and_then(stamped), "ended_at": line.stop.and_then(stamped), "lot_id": lot,
        "area": { "value": line.hectares(), "unit": "ha" }, "seed_used": { "value": seed_used, "unit": "kg" },
        "seed_used_basis": basis.word(), "target_rate": { "value": rate.value_text(), "unit": rate.unit() }, "note": note
    });
    match field {
        Some(field) => job["field_id"] = json!(field.id()),
        None => job["field"] = json!(line.place().chars().take(120).collect::<String>()),
    }
    let content = serde_json::to_string(&line.said(zone)).ok()?;
    let import = Import { task: *task, turn: *turn, job: job_id, content };
    Some(Planned { at, number, unit, lot, field, client, job, import })
}

/// The mass that was chosen of a line's two, in kilograms.
fn seed_used(line: &Line, basis: Option<SeedUsedBasis>) -> Option<(String, SeedUsedBasis)> {
    let likely = if line.machine_g.is_some() { SeedUsedBasis::MachineTotal } else { SeedUsedBasis::Weighed };
    match basis.unwrap_or(likely) {
        SeedUsedBasis::MachineTotal => {
            line.machine_g.map(|grams| (kilograms(grams, line.is_coarse), SeedUsedBasis::MachineTotal))
        }
        SeedUsedBasis::Weighed => line.balance_g.map(|grams| (kilograms(grams, false), SeedUsedBasis::Weighed)),
        SeedUsedBasis::Bags => None,
    }
}

/// Adds the clients and fields that are asked for, each once; answers what is wrong with them.
async fn add_places(signed: &Signed, outlook: &Outlook, planned: &[Planned]) -> Result<Vec<Fault>, Error> {
    let mut added = HashSet::new();
    for one in planned {
        let line = &outlook.seen[one.number].line;
        // A client alone is of no use to a job: it is added with the field that is theirs.
        let Some(NewOrKept::New(field)) = one.field else { continue };
        if let Some(NewOrKept::New(client)) = one.client
            && added.insert(client)
        {
            let sent = json!({ "id": client, "name": line.customer });
            let outcome = match input::read::<ClientDraft>(&sent) {
                Ok(draft) => add_client(signed, draft, sent).await,
                Err(error) => Err(error),
            };
            if outcome.is_err() {
                return Ok(faults_at(&outcome, one.at, "client"));
            }
        }
        if added.insert(field) {
            let area = hectares(line.field_area_m2.or(line.area_m2).unwrap_or_default());
            let sent = json!({
                "id": field, "name": line.field, "area": { "value": area, "unit": "ha" },
                "client_id": one.client.map(NewOrKept::id)
            });
            let outcome = match input::read::<FieldDraft>(&sent) {
                Ok(draft) => add_field(signed, draft, sent).await,
                Err(error) => Err(error),
            };
            if outcome.is_err() {
                return Ok(faults_at(&outcome, one.at, "field"));
            }
        }
    }
    Ok(Vec::new())
}

async fn record(signed: &Signed, one: &Planned) -> Result<(), Error> {
    let draft = input::read::<JobDraft>(&one.job)?;
    record_job(signed, MeteringUnitId(one.unit), draft, one.job.clone()).await?;
    Ok(())
}

/// What terminals call each metering unit, as far as somebody has said so.
///
/// # Errors
/// The database.
pub async fn unit_names(cx: &mut Cx<'_>, scope: &Scope) -> Result<HashMap<Uuid, Vec<String>>, Error> {
    let mut names: HashMap<Uuid, Vec<String>> = HashMap::new();
    for found in store::matches(cx, scope).await? {
        if found.kind == Matching::Unit.word() {
            names.entry(found.target_id).or_default().push(found.name);
        }
    }
    Ok(names)
}

/// Remembers what names mean.
///
/// # Errors
/// 403 by role; 422 for an id that nothing of the kind has.
pub async fn keep_matches(signed: &Signed, known: &Known, matches: &[(Matching, String, Uuid)]) -> Result<(), Error> {
    let grant = signed.grant(Permission::KeepFleet)?;
    let wrong = matches.iter().enumerate().filter(|(_, (kind, _, id))| !known.has(*kind, *id));
    let wrong = wrong.map(|(at, (kind, ..))| {
        let what = match kind {
            Matching::Unit => "metering-unit",
            Matching::Lot => "seed-lot",
            Matching::Field => "field",
            Matching::Client => "client",
        };
        Fault::new(format!("/matches/{at}/id"), saying!("fault-not-there", what = what))
    });
    let faults: Vec<_> = wrong.collect();
    if !faults.is_empty() {
        return Err(Error::Faults(faults));
    }
    let mut work = signed.app.work(&grant).await?;
    for (kind, name, id) in matches {
        store::keep_match(&mut work, kind.word(), name, *id).await?;
    }
    let change: Vec<_> =
        matches.iter().map(|(kind, name, id)| json!({ "kind": kind.word(), "name": name, "id": id })).collect();
    let subject = signed.actor.organization().0;
    work.commit(Audit::did("matched", Kind::Organization, subject, json!({ "matches": change }))).await?;
    Ok(())
}
