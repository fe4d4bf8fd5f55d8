//! Export and import from the command line of the host.

use crate::cli::place::{Place, said, told};
use crate::on_both_places;
use std::fs::write;

on_both_places!(an_organization_moves_to_another_server);

async fn an_organization_moves_to_another_server(place: Place) {
    let organization = place.say(&["organization", "add", "Birkenfeld", "--time-zone", "Europe/Vienna"]);
    for (email, role) in [("ana@example.org", "office"), ("kim@example.org", "crew")] {
        place.say(&["member", "add", email, "--organization", &organization, "--role", role]);
    }
    let file = place.say(&["organization", "export", &organization]);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("birkenfeld.jsonl");
    write(&path, format!("{file}\n")).unwrap();
    let path = path.display().to_string();

    let there = Place::on_sqlite();
    let said = said(&there.run(&["organization", "import", &path]));
    let mut lines = said.lines();
    assert_eq!(lines.next(), Some(organization.as_str()));
    let links: Vec<&str> = lines.collect();
    assert_eq!(links.len(), 2, "{links:?}");
    let link = links[0].split(' ').find(|word| word.starts_with("/set-password/")).unwrap();
    assert!(links[0].starts_with("ana@example.org "), "{links:?}");
    let server = there.serve();
    assert_eq!(server.request("GET", link, &[], "").0, 200);
    assert!(server.stop());

    let line = told(&there.run(&["organization", "import", &path]));
    assert!(line.contains("nothing was imported") && line.contains("on this server already"), "{line}");
    let line = told(&there.run(&["organization", "import", "nowhere.jsonl"]));
    assert!(line.contains("nowhere.jsonl cannot be opened"), "{line}");
    let line = told(&there.run(&["organization", "export", "00000000-0000-0000-0000-000000000007"]));
    assert!(line.contains("no such organization"), "{line}");
    let short = folder.path().join("short.jsonl");
    write(&short, &file[..file.len() / 2]).unwrap();
    let line = told(&Place::on_sqlite().run(&["organization", "import", &short.display().to_string()]));
    assert!(line.contains("cut short"), "{line}");
}
