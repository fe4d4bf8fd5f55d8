//! The importer's rules one by one, on small files made for each.

use proptest::prelude::*;
use sowmark_core::task_data::{Balance, Setpoint, Task, What, When};

use crate::{faults, file, only_task, read, session, wrapped};

fn sown(task: &Task) -> (Option<i64>, Option<i64>) {
    (task.sown[0].area_m2, task.sown[0].mass_g)
}

#[test]
fn the_last_session_counts_whatever_its_place_in_the_file() {
    let (first, second) = (session(6, 70_120, 1_276_940), session(9, 123_450, 2_247_310));
    for sessions in [format!("{first}{second}"), format!("{second}{first}")] {
        assert_eq!(sown(&only_task(&file(&sessions))), (Some(123_450), Some(2_247_310)));
    }
}

/// A counter set back within the task: 900 g, then from nothing to 400 g and 700 g, are 1600 g.
#[test]
fn a_counter_that_was_set_back_is_added_and_said() {
    let sessions = [session(6, 100, 900), session(8, 200, 400), session(10, 300, 700)].concat();
    let task = only_task(&file(&sessions));
    assert_eq!(sown(&task), (Some(300), Some(1600)));
    let said: Vec<_> = task.remarks.iter().map(|remark| &remark.what).collect();
    assert_eq!(said, [&What::CounterSetBack { ddi: "0160".to_owned(), times: 1 }]);
}

/// A session in which nothing was sown ends where it began, which is no setting back.
#[test]
fn a_counter_that_stood_still_was_not_set_back() {
    let sessions = [session(6, 100, 900), session(8, 100, 900), session(10, 100, 900)].concat();
    let task = only_task(&file(&sessions));
    assert_eq!((sown(&task), task.remarks.len()), ((Some(100), Some(900)), 0));
}

proptest! {
    /// However a task was interrupted, its total is what stood on the counter at the end.
    #[test]
    fn a_total_is_what_stands_at_the_end(steps in prop::collection::vec(1_i64..50_000, 1..12)) {
        let mut stands = 0;
        let sessions: Vec<_> = (0_u32..).zip(&steps).map(|(hour, step)| {
            stands += step;
            session(hour, stands, stands * 7)
        }).collect();
        let end: i64 = steps.iter().sum();
        prop_assert_eq!(sown(&only_task(&file(&sessions.concat()))), (Some(end), Some(end * 7)));
    }
}

#[test]
fn only_effective_sessions_count() {
    for kind in [1, 2, 5, 6, 7, 8] {
        let other = session(9, 500, 9000).replace(r#"D="4""#, &format!(r#"D="{kind}""#));
        let task = only_task(&file(&format!("{}{other}", session(6, 400, 8000))));
        assert_eq!(sown(&task), (Some(400), Some(8000)), "kind {kind}");
        assert_eq!(task.effective.expect("times").seconds, 3600);
    }
}

#[test]
fn plans_and_templates_sow_nothing() {
    for status in [1, 5] {
        let task = file(&session(6, 1, 1)).replace(r#"G="4""#, &format!(r#"G="{status}""#));
        assert!(only_task(&task).sown.is_empty());
    }
}

#[test]
fn what_the_machine_does_not_describe_is_not_taken_for_a_total() {
    let without = file(&session(6, 100, 900)).replace(r#"<DOR A="21"/>"#, "");
    let task = only_task(&without);
    assert!(task.sown.is_empty());
    assert_eq!(task.remarks[0].what, What::NotDescribed { ddi: "0160".to_owned() });
    assert_eq!(faults(&task), [What::NothingSown]);
    // Said once for each counter, however often it logged; of what no job needs, nothing is said.
    let often = [session(6, 100, 900), session(8, 200, 1800)]
        .concat()
        .replace("</TIM>", r#"<DLV A="0086" B="5" C="DET2"/></TIM>"#);
    let task = only_task(&file(&often).replace(r#"<DOR A="21"/>"#, "").replace(r#"<DOR A="20"/>"#, ""));
    let said: Vec<_> = task.remarks.iter().map(|remark| &remark.what).collect();
    let not_described = |ddi: &str| What::NotDescribed { ddi: ddi.to_owned() };
    assert_eq!(said, [&not_described("0074"), &not_described("0160")]);
    let lifetime =
        file(&session(6, 100, 900)).replace(r#"<DPD A="21" B="0160" C="3""#, r#"<DPD A="21" B="0160" C="1""#);
    assert!(only_task(&lifetime).sown.is_empty());
}

#[test]
fn grams_go_before_kilograms_and_both_must_agree() {
    let both = |kilograms: i64| {
        let logged = format!(r#"<DLV A="0051" B="{kilograms}" C="DET2"/></TIM>"#);
        only_task(&file(&session(6, 100, 2_247_310).replace("</TIM>", &logged)))
    };
    for kilograms in [2247, 2248] {
        assert_eq!(sown(&both(kilograms)).1, Some(2_247_310));
        assert!(faults(&both(kilograms)).is_empty());
    }
    // As far apart as whole kilograms may be from grams, and a gram more.
    let apart = |grams: i64| {
        let logged = r#"<DLV A="0051" B="2247" C="DET2"/></TIM>"#;
        faults(&only_task(&file(&session(6, 100, grams).replace("</TIM>", logged))))
    };
    assert_eq!((apart(2_248_000), apart(2_246_000)), (vec![], vec![]));
    assert_eq!(apart(2_248_001), [What::MassesApart { grams: 2_248_001, kilograms: 2247 }]);
    assert_eq!(faults(&both(2249)), [What::MassesApart { grams: 2_247_310, kilograms: 2249 }]);
    let coarse = file(&session(6, 100, 0).replace(r#""0160" B="0""#, r#""0051" B="2247""#));
    assert_eq!(sown(&only_task(&coarse)).1, Some(2_247_000));
}

#[test]
fn a_tank_with_two_products_is_not_divided() {
    let fill = |product: &str| format!(r#"<PAN A="{product}" B="004B" C="1000" D="1" E="DET2"/>"#);
    let task = only_task(&file(&[session(6, 100, 900), fill("PDT1"), fill("PDT2")].concat()));
    assert_eq!(faults(&task), [What::TwoProducts { first: "PDT1".to_owned(), second: "PDT2".to_owned() }]);
}

#[test]
fn the_balance_is_what_people_weighed() {
    let weighed = r#"<PAN A="PDT1" B="0051" C="3" D="1" E="DET2"/><PAN A="PDT1" C="500" D="2" E="DET2"/>
        <PAN A="PDT1" B="0160" C="400" D="3" E="DET2"/><PAN A="PDT2" B="0048" C="9" D="1"/>"#;
    let task = only_task(&file(&format!("{}{weighed}", session(6, 100, 900))));
    let balance = task.sown[0].balance.expect("a balance");
    assert_eq!(balance, Balance { filled_g: 3000, emptied_g: 500, remainder_g: Some(400) });
    assert_eq!(balance.used_g(), Some(2100));
    assert_eq!(Balance { remainder_g: None, ..balance }.used_g(), None, "nobody said what was left");
    assert_eq!(Balance { remainder_g: Some(9000), ..balance }.used_g(), None, "more left than there had been");
}

/// The area may be counted beside the tank, on a boom: where it is counted once, it is that of every tank of the machine.
#[test]
fn an_area_that_is_counted_once_is_the_machines() {
    let boom = |id: u32| format!(r#"<DET A="DET{id}" B="{id}" C="4" E="{id}" F="1"><DOR A="20"/></DET>"#);
    let machine = |booms: &str| {
        let beside = session(6, 100, 900).replace(r#"C="DET1""#, r#"C="DET5""#);
        let twice = beside.replace("</TIM>", r#"<DLV A="0074" B="60" C="DET6"/></TIM>"#);
        let text = file(if booms.contains("DET6") { &twice } else { &beside });
        only_task(
            &text
                .replace(r#"<DOR A="20"/></DET>"#, "</DET>")
                .replace("<DPD A=\"20\"", &format!("{booms}<DPD A=\"20\"")),
        )
    };
    let once = machine(&boom(5));
    assert_eq!((sown(&once), faults(&once)), ((Some(100), Some(900)), vec![]));
    let twice = machine(&format!("{}{}", boom(5), boom(6)));
    assert_eq!((sown(&twice), faults(&twice)), ((None, Some(900)), vec![What::NoArea]));
}

/// A machine that counts no mass still has what people weighed; what they weighed into no tank makes none.
#[test]
fn a_tank_that_was_only_weighed_is_one() {
    let filled = |tank: &str| {
        let counted = session(6, 100, 0).replace(r#"<DLV A="0160" B="0" C="DET2"/>"#, "");
        let fill = |mode: u8, grams: u32| format!(r#"<PAN A="PDT1" B="004B" C="{grams}" D="{mode}"{tank}/>"#);
        only_task(&file(&[counted, fill(1, 1000), fill(3, 100)].concat()))
    };
    let task = filled(r#" E="DET2""#);
    assert_eq!(sown(&task), (Some(100), None));
    assert_eq!(
        (task.sown[0].balance.and_then(|balance| balance.used_g()), task.sown[0].element.as_str()),
        (Some(900), "DET2")
    );
    assert!(faults(&task).is_empty());
    let nowhere = filled("");
    assert_eq!((nowhere.sown.len(), faults(&nowhere)), (0, vec![What::NothingSown]));
}

#[test]
fn a_product_without_a_tank_belongs_to_the_only_one() {
    let task = only_task(&file(&format!("{}{}", session(6, 100, 900), r#"<PAN A="PDT2"/>"#)));
    assert_eq!(task.sown[0].product.as_deref(), Some("PDT2"));
}

#[test]
fn a_rate_that_varies_is_no_target() {
    let zone = |code: u32, rate: u32| format!(r#"<TZN A="{code}"><PDV A="0006" B="{rate}" C="PDT1" D="DET2"/></TZN>"#);
    let rate_of = |zones: &str| only_task(&file(&format!("{zones}{}", session(6, 100, 900)))).sown[0].setpoint;
    assert_eq!(rate_of(&zone(1, 18_000)), Some(Setpoint::Mass(18_000)));
    assert_eq!(rate_of(&[zone(1, 18_000), zone(2, 18_000)].concat()), Some(Setpoint::Mass(18_000)));
    assert_eq!(rate_of(&[zone(1, 18_000), zone(2, 15_000)].concat()), None);
    assert_eq!(rate_of(&[zone(1, 18_000), r#"<GRD A="1"/>"#.to_owned()].concat()), None);
    let lost =
        file(&[zone(1, 18_000), zone(2, 0), session(6, 100, 900)].concat()).replace(r#"H="1""#, r#"H="1" I="2""#);
    assert_eq!(only_task(&lost).sown[0].setpoint, Some(Setpoint::Mass(18_000)));
}

#[test]
fn local_times_stay_local_and_do_not_mix() {
    let local = session(6, 100, 900).replace(":00Z", ":00");
    let effective = only_task(&file(&local)).effective.expect("times");
    assert!(matches!(effective.first_start, When::Local(_)));
    assert_eq!(effective.seconds, 3600);
    let mixed = only_task(&file(&format!("{local}{}", session(9, 200, 1800))));
    assert!(faults(&mixed).contains(&What::TimesOfTwoKinds));
}

#[test]
fn external_files_that_were_not_sent_are_named() {
    let read =
        read(&wrapped(r#"<XFR A="TSK00001" B="1"/><AFE A="NOTES.PDF" B="9"/><NEW A="NEW1"><X/></NEW><P7_OWN/>"#));
    let said: Vec<_> = read.remarks.iter().map(ToString::to_string).collect();
    assert_eq!(
        said,
        [
            "TASKDATA.XML, line 11, TSK00001: The file “TSK00001.XML” belongs to it and was not sent. Send a zip of the whole \
             folder.",
            "TASKDATA.XML, line 11, NEW: An element NEW is not known here and was skipped.",
            "TASKDATA.XML, line 11, NOTES.PDF: The attached file “NOTES.PDF” is not read.",
        ]
    );
    let log = only_task(&file(&format!(r#"{}<TLG A="TLG00001" C="1"/>"#, session(6, 100, 900))));
    assert_eq!(log.remarks[0].what, What::LogNotRead { file: "TLG00001".to_owned() });
    assert!(faults(&log).is_empty());
}

/// What is wrong in one task leaves the others.
#[test]
fn a_fault_stays_within_its_task() {
    let broken = session(6, 100, 900).replace(r#"B="900""#, r#"B="many""#);
    let tasks = format!(
        r#"<TSK A="TSK1" G="4">{broken}</TSK><TSK A="TSK2" G="4" E="PFD9">{}</TSK><TSK A="TSK3" G="4">{}</TSK>"#,
        session(8, 1, 1),
        session(10, 200, 1800),
    );
    let read = read(&wrapped(&tasks));
    let said: Vec<_> = read.tasks.iter().map(|task| task.faults.first().map(ToString::to_string)).collect();
    let number = "TASKDATA.XML, line 11, DLV: Attribute B is “many”, which is no number. Export the file again.";
    let missing = "TASKDATA.XML, line 11, TSK2: Attribute E names “PFD9”, which the file does not hold. Export it with all it \
                   refers to.";
    assert_eq!(said, [Some(number.to_owned()), Some(missing.to_owned()), None]);
    assert_eq!(sown(&read.tasks[2]), (Some(200), Some(1800)));
}
