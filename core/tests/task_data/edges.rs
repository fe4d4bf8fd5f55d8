//! As much as is allowed is read, one more is not: each bound at its edge. What lies far beyond them is in `hostile` and `packed`.

use sowmark_core::task_data::{self, What, limits};

use crate::{file, only_task, refused, wrapped};

fn starts(text: &str) -> usize {
    text.match_indices('<').filter(|(at, _)| text[at + 1..].starts_with(|next: char| next.is_ascii_uppercase())).count()
}

#[test]
fn a_file_of_the_largest_size_is_read() {
    let mut whole = file("").into_bytes();
    whole.resize(limits::XML_BYTES, b' ');
    assert_eq!(task_data::read(&whole).expect("task data").tasks.len(), 1);
}

/// The root is one, the task the next; below it stand elements that are kept, or that are skipped.
#[test]
fn nesting_ends_where_it_says() {
    let nested = |tag: &str, deep: usize| {
        file(&format!("{}{}", format!("<{tag}>").repeat(deep), format!("</{tag}>").repeat(deep)))
    };
    for tag in ["TZN", "PLN"] {
        assert_eq!(only_task(&nested(tag, limits::DEPTH - 2)).id, "TSK1", "{tag}");
        assert_eq!(
            refused(nested(tag, limits::DEPTH - 1).as_bytes()).what,
            What::TooDeep { most: limits::DEPTH },
            "{tag}"
        );
    }
}

/// What was skipped is closed again: elements after it are read as if it had not been there.
#[test]
fn what_is_skipped_ends_with_its_element() {
    let between = r#"<PLN A="1"><LSG A="1"><PNT A="2" C="1" D="1"/></LSG></PLN><DPT/>"#;
    let around = wrapped(&format!(r#"{between}<TSK A="TSK1" G="1">{between}</TSK>{between}<TSK A="TSK2" G="1"/>"#));
    let read = task_data::read(around.as_bytes()).expect("task data");
    assert_eq!(read.tasks.iter().map(|task| task.id.as_str()).collect::<Vec<_>>(), ["TSK1", "TSK2"]);
    assert!(read.remarks.is_empty());
}

/// That more are refused stands in `hostile`.
#[test]
fn as_many_elements_as_are_allowed_are_read() {
    let bare = starts(&file(""));
    assert_eq!(only_task(&file(&"<PNT/>".repeat(limits::ELEMENTS - bare))).id, "TSK1");
    let times = r#"<TIM D="1"/>"#.repeat(limits::KEPT - bare);
    assert_eq!(only_task(&file(&times)).effective, None);
    let tasks: Vec<_> = (1..=limits::TASKS).map(|number| format!(r#"<TSK A="TSK{number}" G="1"/>"#)).collect();
    assert_eq!(task_data::read(wrapped(&tasks.concat()).as_bytes()).expect("task data").tasks.len(), limits::TASKS);
}

#[test]
fn as_many_attributes_as_are_allowed_are_read() {
    let with = |count: usize| {
        let own: Vec<_> = (2..count).map(|number| format!(r#" p{number}="1""#)).collect();
        wrapped(&format!(r#"<TSK A="TSK1" G="1"{}/>"#, own.concat()))
    };
    assert_eq!(only_task(&with(limits::ATTRIBUTES)).id, "TSK1");
    assert_eq!(
        refused(with(limits::ATTRIBUTES + 1).as_bytes()).what,
        What::TooManyAttributes { most: limits::ATTRIBUTES }
    );
}

#[test]
fn a_name_of_the_longest_is_read() {
    let longest = "a".repeat(limits::TEXT_BYTES);
    let read = task_data::read(file("").replace("Long Acre", &longest).as_bytes()).expect("task data");
    assert_eq!(read.fields[0].name, longest);
    // A maker's own attribute may be as long as it likes: it is not kept.
    let own = format!(r#"<TSK A="TSK1" G="1" P7_LOG="{longest}{longest}"/>"#);
    assert_eq!(only_task(&wrapped(&own)).id, "TSK1");
    let maker = format!(r#"DataTransferOrigin="2" ManagementSoftwareManufacturer="{longest}{longest}""#);
    assert_eq!(only_task(&file("").replace(r#"DataTransferOrigin="2""#, &maker)).id, "TSK1");
}

/// Each kind that nobody knows is named once, with how many there were, from the first of twenty kinds on.
#[test]
fn unknown_elements_are_counted_by_kind() {
    let said = |inside: &str| {
        let remarks = task_data::read(wrapped(inside).as_bytes()).expect("task data").remarks;
        remarks.into_iter().map(|remark| (remark.place.line, remark.what)).collect::<Vec<_>>()
    };
    let unknown = |tag: &str, count| What::Unknown { tag: tag.to_owned(), count };
    assert_eq!(
        said("<NEW/>\n<OWN><NEW/></OWN><NEW><DEEP/></NEW>\n<NEW/>"),
        [(Some(11), unknown("NEW", 3)), (Some(12), unknown("OWN", 1))]
    );
    let kinds: Vec<_> = (10..=30).map(|kind| format!("<N{kind}/>")).collect();
    let found = said(&kinds.concat().repeat(2));
    assert_eq!(found.len(), 20);
    assert!(found.iter().zip(10..30).all(|((_, what), kind)| *what == unknown(&format!("N{kind}"), 2)), "{found:?}");
    // A maker's own are P with a number; others that begin so are not.
    assert_eq!(said("<P123_LOG/><P9/>"), []);
    assert_eq!(said("<PX1/><P/>"), [(Some(11), unknown("P", 1)), (Some(11), unknown("PX1", 1))]);
    let long = "N".repeat(60);
    assert_eq!(said(&format!("<{long}/>")), [(Some(11), unknown(&"N".repeat(40), 1))]);
}

/// Tanks that something was sown from, of all tasks together.
#[test]
fn as_many_tanks_as_are_allowed_are_read() {
    let task = |number: usize, tanks: usize| {
        let logged: Vec<_> = (1..=tanks).map(|tank| format!(r#"<DLV A="0160" B="5" C="DET{tank}"/>"#)).collect();
        format!(r#"<TSK A="TSK{number}" G="4"><TIM A="2025-10-02T06:00:00Z" D="4">{}</TIM></TSK>"#, logged.concat())
    };
    let machine = r#"<DVC A="DVC2" D="A000840000200002">
        <DET A="DET3" B="3" C="3" E="1" F="0"><DOR A="9"/></DET><DPD A="9" B="0160" C="3" D="31"/></DVC>"#;
    // The frame of the first machine counts grams here, as the tanks do.
    let whole = |tasks: &str| wrapped(&format!("{machine}{tasks}")).replace(r#"<DOR A="20"/>"#, r#"<DOR A="21"/>"#);
    let half = limits::SOWN / 2;
    let full: String = (1..=half).map(|number| task(number, 2)).collect();
    let read = task_data::read(whole(&full).as_bytes()).expect("task data");
    assert_eq!(read.tasks.iter().map(|task| task.sown.len()).sum::<usize>(), limits::SOWN);
    let one_more: String = (1..half).map(|number| task(number, 2)).chain([task(half, 3)]).collect();
    let found = refused(whole(&one_more).as_bytes());
    assert_eq!((found.place.file.as_str(), found.what), ("TASKDATA.XML", What::TooManyTanks { most: limits::SOWN }));
    let far_more: String = (1..=half).map(|number| task(number, 3)).collect();
    assert_eq!(refused(whole(&far_more).as_bytes()).what, What::TooManyTanks { most: limits::SOWN });
}
