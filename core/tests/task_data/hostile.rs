//! Files that no terminal writes, or that lost a part on the way: each is refused with a line that says where, and none of them
//! brings the reading down.

use proptest::prelude::*;
use sowmark_core::{
    task_data::{self, What, limits},
    words::Words,
};

use crate::{EXAMPLE, faults, file, only_task, refused, session, wrapped};

#[test]
fn what_is_no_task_data() {
    assert_eq!(refused(b"").what, What::Empty);
    assert_eq!(refused(b" \n ").what, What::Empty);
    assert_eq!(refused(b"name;area\n1;2").what, What::NotXml);
    assert_eq!(refused(&[0x89, b'P', 0xFF, 0x00]).what, What::NotXml);
    assert_eq!(refused(b"<html></html>").what, What::WrongRoot { wanted: "ISO11783_TaskData".to_owned() });
    assert_eq!(refused(b"<!-- nothing -->").what, What::NotXml);
    let old = r#"<ISO11783_TaskData VersionMajor="2" VersionMinor="0"/>"#;
    assert_eq!(refused(old.as_bytes()).what, What::Version { given: "2.0".to_owned() });
    // UTF-16 in either order begins with a mark that says so; this is XML, but not as task data must be written.
    for mark in [[0xFF, 0xFE], [0xFE, 0xFF]] {
        assert_eq!(refused(&[&mark[..], b"<\0?\0x\0"].concat()).what, What::NotUtf8, "{mark:?}");
    }
    let latin: Vec<u8> = file("").replace("Long Acre", "Ca\u{f1}ada").chars().map(|letter| letter as u8).collect();
    assert_eq!(
        refused(&latin).to_string(),
        "TASKDATA.XML, line 3: A letter here is not written in UTF-8, as task data must be. Export the file again."
    );
}

#[test]
fn a_mark_of_utf_8_at_the_beginning_is_no_letter() {
    let marked = [b"\xEF\xBB\xBF", EXAMPLE.as_bytes()].concat();
    assert_eq!(task_data::read(&marked).expect("task data").tasks.len(), 2);
}

#[test]
fn entities_are_refused_before_they_are_anything() {
    let bomb = format!(
        r#"<!DOCTYPE bomb [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;">]>{}"#,
        file("").replace("Long Acre", "&b;")
    );
    assert_eq!(refused(bomb.as_bytes()).what, What::Entity);
    assert_eq!(refused(file("").replace("Long Acre", "&b;").as_bytes()).what, What::Entity);
    assert_eq!(refused(file("&b;").as_bytes()).what, What::Entity);
    // A document type is refused for itself, whatever it declares and whether or not anything uses it.
    for declared in ["<!DOCTYPE ISO11783_TaskData>", r#"<!DOCTYPE a [<!ENTITY b "c">]>"#] {
        assert_eq!(refused(format!("{declared}{}", file("")).as_bytes()).what, What::Entity, "{declared}");
    }
    let honest = file("").replace("Long Acre", "Long &amp; &#65;cre");
    assert_eq!(task_data::read(honest.as_bytes()).expect("task data").fields[0].name, "Long & Acre");
}

#[test]
fn bounds_hold() {
    let deep = file(&format!("{}{}", "<DET>".repeat(5000), "</DET>".repeat(5000)));
    assert_eq!(refused(deep.as_bytes()).what, What::TooDeep { most: limits::DEPTH });
    let skipped = file(&format!("{}{}", "<PLN>".repeat(5000), "</PLN>".repeat(5000)));
    assert_eq!(refused(skipped.as_bytes()).what, What::TooDeep { most: limits::DEPTH });
    let long = file("").replace("Long Acre", &"a".repeat(limits::TEXT_BYTES + 1));
    assert_eq!(refused(long.as_bytes()).what, What::TooLong { attribute: "C".to_owned(), most: limits::TEXT_BYTES });
    let attributes: Vec<_> = (0..1000).map(|number| format!(r#" p{number}="1""#)).collect();
    let many = file(&format!("<PAN{}/>", attributes.concat()));
    assert_eq!(refused(many.as_bytes()).what, What::TooManyAttributes { most: limits::ATTRIBUTES });
    let points = file(&"<PNT/>".repeat(limits::ELEMENTS));
    assert_eq!(refused(points.as_bytes()).what, What::TooManyElements { most: limits::ELEMENTS });
    let times = file(&r#"<TIM D="1"/>"#.repeat(limits::KEPT));
    assert_eq!(refused(times.as_bytes()).what, What::TooManyElements { most: limits::KEPT });
    let tasks: Vec<_> = (0..=limits::TASKS).map(|number| format!(r#"<TSK A="TSK{number}" G="1"/>"#)).collect();
    assert_eq!(refused(wrapped(&tasks.concat()).as_bytes()).what, What::TooManyTasks { most: limits::TASKS });
    let large = vec![b' '; limits::XML_BYTES + 1];
    assert_eq!(refused(&large).what, What::TooLarge { most: 32 });
}

#[test]
fn ids_stand_once_and_fit() {
    let twice = wrapped(r#"<TSK A="TSK1" G="1"/><PFD A="PFD1" C="Other" D="1"/>"#);
    let said = "TASKDATA.XML, line 11, PFD1: The id “PFD1” was given already in line 3. Export the file again.";
    assert_eq!(refused(twice.as_bytes()).to_string(), said);
    for wrong in ["TSK", "TSK1x", "PFD7", "7", "TSK--1"] {
        let file = wrapped(&format!(r#"<TSK A="{wrong}" G="1"/>"#));
        assert_eq!(refused(file.as_bytes()).what, What::WrongId { given: wrong.to_owned() });
    }
    assert_eq!(only_task(&wrapped(r#"<TSK A="TSK-7" G="1"/>"#)).id, "TSK-7");
    let object = file("").replace(r#"<DPD A="21""#, r#"<DPD A="20""#);
    assert_eq!(refused(object.as_bytes()).what, What::IdTwice { given: "20".to_owned(), line: 8 });
    let missing = wrapped(r#"<TSK G="1"/>"#);
    assert_eq!(refused(missing.as_bytes()).what, What::AttributeMissing { attribute: "A".to_owned() });
}

#[test]
fn numbers_and_times_that_cannot_be() {
    let of = |from: &str, to: &str| faults(&only_task(&file(&session(6, 100, 900).replace(from, to))));
    for (given, least_known) in
        [("99999999999", true), ("9999999999999999999999", true), ("1e3", false), ("NaN", false)]
    {
        let found = of(r#"B="900""#, &format!(r#"B="{given}""#));
        assert_eq!(matches!(found[0], What::OutOfRange { .. }), least_known, "{given}: {found:?}");
    }
    assert_eq!(of(r#"B="900""#, r#"B="-900""#)[0], What::TotalNegative { ddi: "0160".to_owned(), given: -900 });
    assert_eq!(
        of("2025-10-02T06", "1025-10-02T06")[0],
        What::NotATime { attribute: "A".to_owned(), given: "1025-10-02T06:00:00Z".to_owned() }
    );
    assert_eq!(of("T07:00", "T05:00"), [What::EndsBeforeItBegins]);
    assert_eq!(
        of(r#"A="0160""#, r#"A="0x16""#)[0],
        What::NotANumber { attribute: "A".to_owned(), given: "0x16".to_owned() }
    );
    for wrong in ["00160", "+160", "G160", ""] {
        let found = of(r#"A="0160""#, &format!(r#"A="{wrong}""#));
        let missing = What::AttributeMissing { attribute: "A".to_owned() };
        let no_number = What::NotANumber { attribute: "A".to_owned(), given: wrong.to_owned() };
        assert_eq!(found[0], if wrong.is_empty() { missing } else { no_number });
    }
    assert_eq!(
        of(r#"C="DET2""#, r#"C="DET9""#)[0],
        What::NotThere { attribute: "C".to_owned(), given: "DET9".to_owned() }
    );
    assert_eq!(of(r#"B="100""#, r#"B="0""#), [What::NoArea]);
    assert_eq!(of(r#"B="900""#, r#"B="0""#), [What::NothingSown]);
    let twice = r#"<DLV A="0160" B="901" C="DET2"/></TIM>"#;
    assert_eq!(of("</TIM>", twice), [What::TotalTwice { ddi: "0160".to_owned() }]);
}

/// Between elements stands text, which says nothing; what XML itself defines may stand in it.
#[test]
fn text_between_elements_is_passed_over() {
    assert_eq!(
        only_task(&file("Sown &amp; rolled &lt;&gt;&quot;&apos; &#65;&#x41;<!-- & --><![CDATA[ & ]]>")).id,
        "TSK1"
    );
    assert_eq!(refused(file("&nbsp;").as_bytes()).what, What::Entity);
}

/// What no name holds is refused; blanks that a name was broken with are not.
#[test]
fn letters_that_are_none_are_refused() {
    let named = |name: &str| file("").replace("Long Acre", name);
    for letter in ['\u{1}', '\u{7}', '\u{7f}'] {
        let found = refused(named(&format!("Long{letter}Acre")).as_bytes());
        assert_eq!((found.what, found.place.line), (What::Broken, Some(3)), "{letter:?}");
    }
    for blank in ["\t", "\n", "&#9;", "&#10;", "\u{85}", "\u{a0}"] {
        assert_eq!(task_data::read(named(&format!("Long{blank}Acre")).as_bytes()).expect("task data").fields.len(), 1);
    }
}

/// It broke off between two elements: on the way, not because it were something else.
#[test]
fn a_file_that_breaks_off_says_so_with_its_line() {
    let whole = file("\n<PAN A=\"PDT1\"/>");
    for (end, line) in [("<DPD", 8), ("</DVC>", 10), ("<PAN", 12), ("</ISO", 13)] {
        let cut = &whole[..whole.find(end).expect(end)];
        let found = refused(cut.as_bytes());
        assert_eq!((found.what, found.place.line), (What::BreaksOff, Some(line)), "{end}");
    }
}

/// A machine that is part of itself.
#[test]
fn a_machine_without_an_end_ends() {
    let endless = file(&session(6, 100, 900)).replace(r#"E="0" F="0""#, r#"E="0" F="2""#);
    assert_eq!(only_task(&endless).sown[0].area_m2, Some(100));
}

/// What breaks off anywhere is refused, but for the blank after its end.
#[test]
fn every_truncation_is_refused_or_whole() {
    let bytes = EXAMPLE.as_bytes();
    let whole = EXAMPLE.trim_end().len();
    for length in 0..bytes.len() {
        let read = task_data::read(&bytes[..length]);
        assert_eq!(read.is_ok(), length >= whole, "{length} of {} bytes", bytes.len());
        if let Err(refused) = read {
            assert!(!refused.to_string().is_empty());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Bytes that flipped on the way: read or refused, and every sentence can be said.
    #[test]
    fn flipped_bytes_are_read_or_refused(flips in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6)) {
        let mut bytes = EXAMPLE.as_bytes().to_vec();
        for (index, byte) in flips {
            let at = index.index(bytes.len());
            bytes[at] = byte;
        }
        says_all(&bytes);
    }

    /// Parts of the file in another order, some twice.
    #[test]
    fn shuffled_lines_are_read_or_refused(lines in prop::collection::vec(any::<prop::sample::Index>(), 1..150)) {
        let own: Vec<_> = EXAMPLE.lines().collect();
        let mut text: Vec<&str> = own[..2].to_vec();
        text.extend(lines.iter().map(|line| own[line.index(own.len())]));
        text.push("</ISO11783_TaskData>");
        says_all(text.join("\n").as_bytes());
    }

    #[test]
    fn any_bytes_are_refused_without_a_panic(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        says_all(&bytes);
    }
}

fn says_all(bytes: &[u8]) {
    match task_data::read(bytes) {
        Err(refused) => assert!(!refused.to_string().is_empty()),
        Ok(read) => {
            for task in &read.tasks {
                let found = task.sown.iter().flat_map(|sown| &sown.faults).chain(&task.faults).chain(&task.remarks);
                assert!(
                    found.chain(&read.remarks).all(|finding| !finding.says(Words::default()).contains("task-data-"))
                );
                let rates =
                    task.sown.iter().flat_map(|sown| [sown.machine_rate(), sown.balance_rate(), sown.target_rate()]);
                assert!(rates.flatten().all(f64::is_finite));
            }
        }
    }
}
