//! The pages of task data, without a script: a file is sent, its names are said, its tasks become jobs.

use super::{EXAMPLE, Yard, renumbered};
use crate::on_both;
use crate::people::browser::location;
use crate::spanish;
use crate::world::{Answer, World};
use serde_json::json;
use sowmark::access::Role;

on_both!(
    a_file_becomes_jobs_by_a_form,
    what_is_missing_stands_beside_its_field,
    a_file_that_cannot_be_read_says_so_beside_the_field,
    the_pages_in_spanish,
);

async fn upload(yard: &Yard, name: &str, bytes: &[u8]) -> Answer {
    yard.ana.upload("/page/exchange/task-data", name, bytes).await
}

/// The address of the file's page, as the tests' `Person` takes it.
async fn sent(yard: &Yard, name: &str, bytes: &[u8]) -> String {
    let answer = upload(yard, name, bytes).await;
    assert_eq!(answer.status, 303, "{}", answer.text);
    format!("/page{}", location(&answer))
}

async fn a_file_becomes_jobs_by_a_form(world: World) {
    let yard = Yard::new(&world).await;
    let address = sent(&yard, "TASKDATA.XML", EXAMPLE.as_bytes()).await;
    let page = yard.ana.get(&address).await;
    for says in [
        "Sow wheat Long Acre: Wheat lot 24-117",
        "2247.310 kg, 182 kg/ha",
        "2260.000 kg, 183 kg/ha",
        "12.3450 ha",
        "35\u{202f}148.5435",
        "Sow wheat Lower Field (planned)",
        "only planned",
    ] {
        assert!(page.text.contains(says), "{says} is missing: {}", page.text);
    }
    let fields = [
        ("lines/0/line", "0"),
        ("lines/0/store", "true"),
        ("lines/0/unit", &yard.units[0]),
        ("lines/0/lot", &yard.lots[0]),
        ("lines/0/field", "new"),
        ("lines/0/client", "new"),
        ("lines/0/target_rate/value", "180.00"),
        ("lines/0/target_rate/unit", "kg/ha"),
        ("lines/0/seed_used_basis", "weighed"),
        ("lines/1/line", "1"),
        ("lines/1/unit", ""),
        ("lines/1/lot", ""),
    ];
    let stored = yard.ana.submit(&address, &fields).await;
    assert_eq!(stored.status, 303, "{}", stored.text);
    let jobs = yard.jobs(0).await;
    assert_eq!(jobs[0]["seed_used"], json!({ "value": "2260.000", "unit": "kg" }));
    assert_eq!(jobs[0]["seed_used_basis"], "weighed");
    assert!(jobs[0]["note"].as_str().unwrap().contains("TASKDATA.XML"), "{}", jobs[0]);
    let known = yard.ana.read("/fields").await;
    assert_eq!(known["items"][0]["name"], "Long Acre");
    assert_eq!(known["items"][0]["area"], json!({ "value": "12.4000", "unit": "ha" }));
    assert_eq!(jobs[0]["field_id"], known["items"][0]["id"]);
    assert_eq!(yard.ana.read("/clients").await["items"][0]["name"], "Ada Beispiel");
    let page = yard.ana.get(&address).await.text;
    assert!(page.contains("It is a job already.") && page.contains("lines/0/unit"), "{page}");
    // Sent again, the old form stores nothing twice.
    let again = yard.ana.submit(&address, &fields).await;
    assert_eq!(again.status, 422);
    assert!(again.text.contains("This line cannot become a job, or is one by now."), "{}", again.text);
    assert_eq!(yard.jobs(0).await.len(), 1);
    // The next file has what was said: unit, lot, field and client are chosen.
    let other = EXAMPLE.replace("2025-10-02T", "2025-10-03T");
    let page = yard.ana.get(&sent(&yard, "MORE.XML", other.as_bytes()).await).await.text;
    let chosen = |id: &str| page.contains(&format!("<option value=\"{id}\" selected>"));
    assert!(chosen(&yard.units[0]) && chosen(&yard.lots[0]), "{page}");
    assert!(chosen(known["items"][0]["id"].as_str().unwrap()), "{page}");
    let list = yard.ana.get("/page/exchange/task-data").await.text;
    assert!(list.contains("MORE.XML") && list.contains("TASKDATA.XML"), "{list}");
    // The same task in another program's file is the same task, and one with other numbers shows them.
    let page = yard.ana.get(&sent(&yard, "OTHER.XML", renumbered().as_bytes()).await).await.text;
    assert!(page.contains("It is a job already."), "{page}");
    let more = EXAMPLE.replace("2247310", "2249310").replace("B=\"2247\"", "B=\"2249\"");
    let page = yard.ana.get(&sent(&yard, "CHANGED.XML", more.as_bytes()).await).await.text;
    assert!(page.contains("and was not overwritten"), "{page}");
    assert!(page.contains("2247.310 kg then, 2249.310 kg now"), "{page}");
}

async fn what_is_missing_stands_beside_its_field(world: World) {
    let yard = Yard::new(&world).await;
    let address = sent(&yard, "TASKDATA.XML", EXAMPLE.as_bytes()).await;
    let answer = yard
        .ana
        .submit(
            &address,
            &[
                ("lines/0/line", "0"),
                ("lines/0/store", "true"),
                ("lines/0/unit", &yard.units[0]),
                ("lines/0/lot", ""),
                ("lines/0/target_rate/value", "177.5"),
                ("lines/0/target_rate/unit", "kg/ha"),
                ("lines/1/line", "1"),
                ("lines/1/store", "true"),
                ("lines/1/unit", &yard.units[1]),
                ("lines/1/lot", &yard.lots[1]),
                ("lines/1/target_rate/value", "75"),
                ("lines/1/target_rate/unit", "kg/ha"),
            ],
        )
        .await;
    assert_eq!(answer.status, 422);
    assert!(answer.text.contains("id=\"lines/0/lot-error\""), "{}", answer.text);
    assert!(answer.text.contains("value=\"177.5\""), "what was typed stays: {}", answer.text);
    // Nothing is stored while anything is missing.
    assert!(yard.jobs(0).await.is_empty() && yard.jobs(1).await.is_empty());
}

async fn a_file_that_cannot_be_read_says_so_beside_the_field(world: World) {
    let yard = Yard::new(&world).await;
    for (bytes, says) in [
        (b"".as_slice(), "No file was chosen."),
        (b"name;area", "This is neither XML nor a zip."),
        (&EXAMPLE.as_bytes()[..2000], "The file breaks off here."),
        (b"PK\x03\x04", "The zip is damaged."),
    ] {
        let answer = upload(&yard, "TASKDATA.XML", bytes).await;
        assert_eq!(answer.status, 422);
        assert!(answer.text.contains("id=\"file-error\"") && answer.text.contains(says), "{says}: {}", answer.text);
    }
    let large = vec![b' '; 16 * 1024 * 1024 + 1];
    let answer = upload(&yard, "TASKDATA.XML", &large).await;
    assert_eq!(answer.status, 422);
    assert!(answer.text.contains("id=\"file-error\"") && answer.text.contains("16"), "{}", answer.text);
    let no_form = yard.ana.submit("/page/exchange/task-data", &[("file", "x")]).await;
    assert_eq!(no_form.status, 415);
}

async fn the_pages_in_spanish(world: World) {
    let yard = Yard::new(&world).await;
    let mut browser = spanish::reader(&world, &yard.ana, Role::Office).await;
    let address = sent(&yard, "TASKDATA.XML", EXAMPLE.as_bytes()).await;
    let page = browser.get(&world, "/exchange/task-data").await.text;
    spanish::says(&page, &["Datos de tareas de las máquinas", "de 16 MB como máximo", "Archivos enviados"]);
    let page = browser.get(&world, address.trim_start_matches("/page")).await.text;
    spanish::says(
        &page,
        &["2247,310 kg, 182 kg/ha", "Guardar las labores", "Agregar «Long Acre» a los campos", "solo planeada"],
    );
}
