//! `sowmark demo`: it prints who can sign in, and leaves nothing behind.

use super::place::{Place, Server, program, told};
use crate::on_both_places;

on_both_places!(a_database_of_ones_own_is_filled_once);

/// The lines up to the empty one after the accounts: role, who, e-mail, password.
fn accounts(server: &mut Server) -> Vec<Vec<String>> {
    let lines: Vec<String> = (0..13).map(|_| server.line()).collect();
    let words = |line: &String| line.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
    lines.iter().map(words).filter(|words| words.iter().any(|word| word.contains('@'))).collect()
}

#[test]
fn who_signs_in_looks_around_and_nothing_stays() {
    let folder = tempfile::tempdir().unwrap();
    let mut command = program();
    // The environment's database is somebody's own.
    let own = folder.path().join("own.db");
    command.env("SOWMARK_DATABASE_URL", format!("sqlite://{}", own.display())).env("TMPDIR", folder.path());
    command.args(["demo", "--listen", "127.0.0.1:0", "--date", "2027-04-10"]);
    let mut server = Server::start(command);
    let accounts = accounts(&mut server);
    for role in ["office", "crew", "agronomist"] {
        let words =
            accounts.iter().find(|words| words[0] == role).unwrap_or_else(|| panic!("no {role} in {accounts:?}"));
        let (email, password) = (&words[words.len() - 2], &words[words.len() - 1]);
        let form = format!("email={}&password={password}", email.replace('@', "%40"));
        assert_eq!(server.request("POST", "/sign-in", &[("Sec-Fetch-Site", "same-origin")], &form).0, 303, "{email}");
    }
    assert!(!own.exists(), "the environment's database is left alone");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "one folder of its own");
    assert!(server.stop(), "told to stop, it goes in peace");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0, "and its database goes with it");
}

async fn a_database_of_ones_own_is_filled_once(place: Place) {
    let mut server = Server::start(place.command(&["demo", "--listen", "127.0.0.1:0", "--date", "2027-04-10"]));
    assert_eq!(accounts(&mut server).len(), 9);
    assert!(server.stop());
    let line = told(&place.run(&["demo", "--listen", "127.0.0.1:0"]));
    assert!(line.contains("not empty"), "{line}");
    let organization = place.run(&["organization", "add", "Birkenfeld"]);
    assert!(organization.status.success(), "it was kept, and is a database like any other");
}

#[test]
fn a_day_out_of_reach_is_told_in_one_line() {
    for (day, part) in [("1999-12-31", "2001 to 2099"), ("2100-01-01", "2001 to 2099"), ("tomorrow", "--date")] {
        let line = told(&program().args(["demo", "--listen", "127.0.0.1:0", "--date", day]).output().unwrap());
        assert!(line.contains(part), "{line}");
    }
}
