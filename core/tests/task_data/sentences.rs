//! What is said of a file: every finding has a sentence of its own that names what it is filled with, at its place.

use serde_json::Value;
use sowmark_core::{
    task_data::{Finding, Place, Refused, What},
    words::Words,
};

fn name(of: &str) -> String {
    of.to_owned()
}

/// One of each kind; every value in it is one that no sentence would have by itself.
fn all() -> Vec<What> {
    let attribute = || name("Q");
    let ddi = || name("0A1B");
    vec![
        What::Empty,
        What::NotXml,
        What::NotUtf8,
        What::Broken,
        What::BreaksOff,
        What::Entity,
        What::WrongRoot { wanted: name("XYZ") },
        What::Version { given: name("7.8") },
        What::TooLarge { most: 731 },
        What::TooManyElements { most: 732 },
        What::TooManyTasks { most: 733 },
        What::TooManyTanks { most: 734 },
        What::TooDeep { most: 735 },
        What::TooManyAttributes { most: 736 },
        What::TooLong { attribute: attribute(), most: 737 },
        What::ZipBroken,
        What::ZipFiles { most: 738 },
        What::ZipRatio { most: 739 },
        What::ZipMethod,
        What::ZipEncrypted,
        What::NoTaskFile,
        What::SeveralTaskFiles { first: name("one"), second: name("two") },
        What::AttributeMissing { attribute: attribute() },
        What::NotANumber { attribute: attribute(), given: name("many") },
        What::OutOfRange { attribute: attribute(), given: name("740"), least: 741, most: 742 },
        What::WrongId { given: name("PFD") },
        What::IdTwice { given: name("PFD7"), line: 743 },
        What::NotThere { attribute: attribute(), given: name("PFD8") },
        What::NotATime { attribute: attribute(), given: name("noon") },
        What::EndsBeforeItBegins,
        What::TimesOfTwoKinds,
        What::NotDescribed { ddi: ddi() },
        What::TotalTwice { ddi: ddi() },
        What::TotalNegative { ddi: ddi(), given: -744 },
        What::MassesApart { grams: 745, kilograms: 746 },
        What::TwoProducts { first: name("PDT5"), second: name("PDT6") },
        What::NoArea,
        What::NoMass,
        What::NothingSown,
        What::CounterSetBack { ddi: ddi(), times: 747 },
        What::RateVaries,
        What::LogNotRead { file: name("TLG00009") },
        What::FileNotRead { file: name("MAP.PDF") },
        What::FileMissing { file: name("TSK00009.XML") },
        What::LinksNotRead,
        What::Unknown { tag: name("QQQ"), count: 748 },
    ]
}

#[test]
fn every_finding_says_something_of_its_own_with_its_values() {
    let mut said = std::collections::BTreeMap::new();
    for what in all() {
        let sentence = what.says(Words::default());
        assert!(sentence.ends_with('.') && sentence.contains(' '), "{what:?}: {sentence}");
        let stored = serde_json::to_value(&what).expect("JSON");
        let filled = stored.as_object().expect("fields").iter().filter(|(field, _)| *field != "what");
        for (field, value) in filled {
            let value = value.as_str().map_or_else(|| value.to_string(), str::to_owned);
            assert!(sentence.contains(&value), "{what:?} says nothing of its {field}: {sentence}");
        }
        assert_eq!(said.insert(sentence, what.clone()), None, "{what:?} says what another says");
        // Kept with a file until somebody decides on it.
        assert_eq!(serde_json::from_value::<What>(stored).expect("what was stored"), what);
    }
}

/// The names that programs read do not change with the texts; each kind is in the list above.
#[test]
fn the_list_is_whole() {
    let names: Vec<String> = all()
        .iter()
        .map(|what| match serde_json::to_value(what).expect("JSON") {
            Value::Object(fields) => fields["what"].as_str().expect("a name").to_owned(),
            other => panic!("{other}"),
        })
        .collect();
    let source = include_str!("../../src/task_data/finding.rs");
    let body = source.split("pub enum What {").nth(1).expect("the enum").split("\n}\n").next().expect("its end");
    let variants =
        body.lines().map(str::trim).filter(|line| line.starts_with(|first: char| first.is_ascii_uppercase()));
    assert_eq!(names.len(), variants.count());
}

#[test]
fn a_place_is_a_file_a_line_or_an_element() {
    let at = |line, element: Option<&str>| {
        Place { file: name("TASKDATA.XML"), line, element: element.map(str::to_owned) }.says(Words::default())
    };
    assert_eq!(at(None, None), "TASKDATA.XML");
    assert_eq!(at(Some(12), None), "TASKDATA.XML, line 12");
    assert_eq!(at(Some(12), Some("PFD1")), "TASKDATA.XML, line 12, PFD1");
    assert_eq!(Place::file("zip").says(Words::default()), "the zip");
    let found: Finding = Place::file("TSK00001.XML").finding(What::Empty);
    assert_eq!(found.says(Words::default()), "TSK00001.XML: The file is empty. Export the task data again.");
    assert_eq!(found.to_string(), found.says(Words::default()));
    assert_eq!(Refused(found.clone()).to_string(), found.to_string());
}
