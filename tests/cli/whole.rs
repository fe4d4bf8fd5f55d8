//! Everything of a database: backed up, restored, taken to another database, and verified.

use super::place::{Place, Server, program, said, told};
use crate::demo::DAY;
use crate::on_both_places;
use sowmark::db::cells::{Cell, Cells};
use sowmark::db::copy::TABLES;
use sowmark::db::{Db, SCHEMA_VERSION};
use sowmark::demo;
use std::collections::BTreeMap;
use std::process::Output;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

on_both_places!(
    everything_goes_round_and_stays_the_same,
    what_was_acknowledged_before_a_backup_is_in_it,
    each_fault_is_named,
    what_is_there_is_not_overwritten,
);

/// The made-up fleet.
async fn made_up(place: &Place) -> Db {
    let db = Db::open(place.url()).await.unwrap();
    demo::make(&db, DAY, demo::zone().unwrap(), "barley in the yard").await.unwrap();
    db
}

/// Every row of every table, in an order of its own, told alike whichever database it is.
async fn contents(url: &str) -> BTreeMap<&'static str, Vec<String>> {
    let db = Db::open(url).await.unwrap();
    let mut contents = BTreeMap::new();
    for table in TABLES {
        let rows: Vec<Cells> =
            db.read().await.unwrap().cx().fetch_all(format!("select * from {table}").leak(), &[]).await.unwrap();
        let alike = |cell: &Cell| match cell {
            Cell::Flag(flag) => Cell::Whole(i64::from(*flag)),
            other => other.clone(),
        };
        let mut rows: Vec<String> =
            rows.iter().map(|Cells(cells)| format!("{:?}", cells.iter().map(alike).collect::<Vec<_>>())).collect();
        rows.sort_unstable();
        contents.insert(*table, rows);
    }
    db.close().await;
    contents
}

fn faults(output: &Output) -> (Vec<String>, String) {
    assert_eq!(output.status.code(), Some(1), "{output:?}");
    let lines = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    (lines(&output.stdout).lines().map(str::to_owned).collect(), lines(&output.stderr))
}

/// Changes a database as somebody with access to its files can.
async fn tampered(db: &Db, sql: &'static str) {
    let mut tx = db.begin().await.unwrap();
    assert_eq!(tx.cx().execute(sql, &[]).await.unwrap(), 1, "{sql}");
    tx.commit().await.unwrap();
}

async fn everything_goes_round_and_stays_the_same(place: Place) {
    made_up(&place).await.close().await;
    let organization = place.say(&["organization", "add", "Second Yard"]);
    place.say(&["member", "add", "ona@example.org", "--organization", &organization, "--role", "office"]);
    place.say(&["token", "add", "ona@example.org", "--organization", &organization, "--label", "yard display"]);
    let folder = tempfile::tempdir().unwrap();
    let backup = folder.path().join("whole backup.db");
    let backup = backup.to_str().unwrap();
    let verified = place.say(&["verify"]);
    assert_eq!(verified.lines().count(), 2, "{verified}");
    assert!(verified.lines().all(|line| line.contains("nothing is wrong")), "{verified}");
    let of = |name: &str| verified.lines().find(|line| line.starts_with(name)).unwrap_or_else(|| panic!("{verified}"));
    assert!(of("Second Yard").contains("; 0 calibrations and 0 quantities"), "{verified}");
    let made_up = of("Fallowmere Sowing");
    assert!(!made_up.contains("; 0 calibrations") && !made_up.contains(" and 0 quantities"), "{made_up}");
    assert_eq!(place.say(&["backup", backup]), verified);
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        assert_eq!(std::fs::metadata(backup).unwrap().permissions().mode() & 0o077, 0, "others can read it");
    }
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "something is left beside the backup");
    let before = std::fs::read(backup).unwrap();
    // Into an SQLite file and into PostgreSQL, and from there on into the other.
    for (second, third) in
        [(Place::on_sqlite(), Place::on_postgres().await), (Place::on_postgres().await, Place::on_sqlite())]
    {
        assert_eq!(second.say(&["restore", backup]), verified);
        let moved = program().args(["copy", "--from", second.url(), "--to", third.url()]).output().unwrap();
        assert_eq!(said(&moved), verified);
        assert_eq!(third.say(&["verify"]), verified);
        let (first, third) = (contents(place.url()).await, contents(third.url()).await);
        for (table, rows) in &first {
            assert_eq!(&third[table], rows, "{table}");
        }
        let filled = first.values().filter(|rows| !rows.is_empty()).count();
        assert!(filled > 35, "only {filled} tables have rows");
        assert!(first["entry"].iter().any(|row| !row.ends_with("Null]")), "nothing corrects anything");
    }
    assert!(std::fs::read(backup).unwrap() == before, "to restore from a backup has changed it");
}

async fn what_was_acknowledged_before_a_backup_is_in_it(place: Place) {
    let organization = place.say(&["organization", "add", "Busy Yard"]);
    place.say(&["member", "add", "ona@example.org", "--organization", &organization, "--role", "office"]);
    let token =
        place.say(&["token", "add", "ona@example.org", "--organization", &organization, "--label", "yard display"]);
    let token = token.split_whitespace().last().unwrap().to_owned();
    let server = place.serve();
    let (stored, stop) = (AtomicU32::new(0), AtomicBool::new(false));
    let folder = tempfile::tempdir().unwrap();
    let backup = folder.path().join("backup.db");
    let backup = backup.to_str().unwrap();
    let store = |server: &Server| {
        let authorization = format!("Bearer {token}");
        let headers = [("Authorization", authorization.as_str()), ("Content-Type", "application/json")];
        while !stop.load(Ordering::SeqCst) {
            let lot = format!(r#"{{"lot_number": "L-{}", "crop": "wheat"}}"#, stored.load(Ordering::SeqCst));
            let (status, body) = server.request("POST", "/api/v1/lots", &headers, &lot);
            assert_eq!(status, 201, "{body}");
            stored.fetch_add(1, Ordering::SeqCst);
        }
    };
    let before = std::thread::scope(|scope| {
        scope.spawn(|| store(&server));
        while stored.load(Ordering::SeqCst) < 20 {
            std::thread::yield_now();
        }
        let before = stored.load(Ordering::SeqCst);
        place.say(&["backup", backup]);
        stop.store(true, Ordering::SeqCst);
        before
    });
    let after = stored.load(Ordering::SeqCst);
    let restored = Place::on_sqlite();
    restored.say(&["restore", backup]);
    let there = contents(restored.url()).await;
    let lots = u32::try_from(there["lot"].len()).unwrap();
    assert!((before..=after).contains(&lots), "{lots} lots of {before} before and {after} after");
    assert_eq!(there["audit"].len() - there["lot"].len(), 3, "a lot and its line in the trail go together");
}

async fn each_fault_is_named(place: Place) {
    let db = made_up(&place).await;
    tampered(
        &db,
        "update calibration set factor = factor * 1.01 where id = (select id from calibration order by id limit 1)",
    )
    .await;
    tampered(
        &db,
        "update job set seed_used_kg = seed_used_kg + 100 where id = (select id from job order by id limit 1)",
    )
    .await;
    let (lines, told) = faults(&place.run(&["verify"]));
    assert_eq!(told, "sowmark: 2 faults were found\n");
    let [calibration, job] = &lines[..] else { panic!("{lines:?}") };
    assert!(calibration.ends_with("its factor or verdict is not that of its judgement"), "{calibration}");
    assert!(job.ends_with("seed_used_kg is not the SI value of what was entered"), "{job}");
    // A backup is whole all the same, and says so; what is restored from it says what the original did.
    let folder = tempfile::tempdir().unwrap();
    let backup = folder.path().join("backup.db");
    let backup = backup.to_str().unwrap();
    let (written, told) = faults(&place.run(&["backup", backup]));
    assert!(written == lines && told.contains("is written, whole; what is wrong was wrong before"), "{told}");
    let other = Place::on_sqlite();
    let (restored, told) = faults(&other.run(&["restore", backup]));
    assert!(restored == lines && told.contains("all of it was restored"), "{told}");
    assert_eq!(contents(other.url()).await["job"], contents(place.url()).await["job"]);
    // The trail refuses changes; who owns the file can take that away.
    let unguard = match db {
        Db::Sqlite { .. } => "drop trigger audit_is_append_only_update",
        Db::Postgres(_) => "drop trigger audit_is_append_only_update on audit",
    };
    let mut tx = db.begin().await.unwrap();
    tx.cx().execute(unguard, &[]).await.unwrap();
    tx.cx().execute("update audit set action = 'created ' || action where seq = 7", &[]).await.unwrap();
    tx.commit().await.unwrap();
    let (lines, _) = faults(&place.run(&["verify"]));
    assert!(lines[0].ends_with("the audit trail does not fit from its line 7 on: something was changed"), "{lines:?}");
    assert_eq!(lines.len(), 3, "{lines:?}");
}

async fn what_is_there_is_not_overwritten(place: Place) {
    place.say(&["organization", "add", "Yard"]);
    let folder = tempfile::tempdir().unwrap();
    let file = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let backup = file("backup.db");
    place.say(&["backup", &backup]);
    let was = contents(place.url()).await;
    let refused = told(&place.run(&["restore", &backup]));
    assert!(refused.contains("the database is not empty"), "{refused}");
    assert!(told(&place.run(&["backup", &backup])).contains("is there already"));
    let other = Place::on_sqlite();
    other.say(&["organization", "add", "Other Yard"]);
    let copied = program().args(["copy", "--from", other.url(), "--to", place.url()]).output().unwrap();
    assert!(told(&copied).contains("the database is not empty"));
    let copied = program().args(["copy", "--from", other.url(), "--to", other.url()]).output().unwrap();
    assert!(told(&copied).contains("the same database"));
    assert_eq!(contents(place.url()).await, was);
    // What is no backup, or none that this program can read.
    let empty = Place::on_sqlite();
    std::fs::write(file("notes.txt"), "no database").unwrap();
    assert!(told(&empty.run(&["restore", &file("notes.txt")])).contains("it is no SQLite file"));
    assert!(told(&empty.run(&["restore", &file("missing.db")])).contains("cannot be read"));
    let nothing = format!("sqlite://{}", file("nothing.db"));
    Db::open(&nothing).await.unwrap().close().await;
    assert!(told(&empty.run(&["restore", &file("nothing.db")])).contains("there is nothing to restore"));
    let newer = Db::open(&format!("sqlite://{backup}")).await.unwrap();
    tampered(
        &newer,
        "insert into _sqlx_migrations (version, description, success, checksum, execution_time)
        values (9999, 'later', true, x'00', 0)",
    )
    .await;
    newer.close().await;
    let newer = told(&empty.run(&["restore", &backup]));
    assert!(newer.contains(&format!("newer than this program's {SCHEMA_VERSION}")), "{newer}");
    assert!(contents(empty.url()).await.values().all(Vec::is_empty));
    // To read a database does not make one.
    for command in ["verify", "backup"] {
        let missing = format!("sqlite://{}", file("missing.db"));
        let arguments: &[&str] = if command == "verify" { &["verify"] } else { &["backup", "never.db"] };
        let output = program().args(["--database", &missing]).args(arguments).output().unwrap();
        assert!(told(&output).contains("there is no database"), "{command}");
    }
    let copied =
        program().args(["copy", "--from", "sqlite:///nowhere/at/all.db", "--to", empty.url()]).output().unwrap();
    assert!(told(&copied).contains("there is no database"));
    assert!(!std::path::Path::new(&file("missing.db")).exists());
}
