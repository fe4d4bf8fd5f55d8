//! When a task was worked on: moments with and without an offset, sessions that say how long they lasted, and what they come to.

use jiff::tz::TimeZone;
use sowmark_core::task_data::{Effective, Task, What, When};

use crate::{faults, file, only_task, session};

fn when(text: &str) -> When {
    When::read(text).unwrap_or_else(|| panic!("{text} is a moment"))
}

fn instant(text: &str) -> jiff::Timestamp {
    text.parse().expect("an instant")
}

#[test]
fn a_moment_has_a_date_and_a_time_of_this_age() {
    for no_moment in [
        "",
        "noon",
        "2025-10-02",
        "06:00:00",
        "2025-10-02T06:00:00[Europe/Madrid]",
        "2025-13-02T06:00:00",
        "1989-12-31T23:59:59",
    ] {
        assert_eq!(When::read(no_moment), None, "{no_moment}");
    }
    assert_eq!(When::read("2100-01-01T00:00:00Z"), None);
    for moment in ["1990-01-01T00:00:00", "2099-12-31T23:59:59.5", " 2025-10-02T06:00:00 "] {
        assert!(matches!(when(moment), When::Local(_)), "{moment}");
    }
    assert!(when("2025-10-02T06:00:00Z").is_exact() && when("2025-10-02T06:00:00+02:00").is_exact());
    assert!(!when("2025-10-02T06:00:00").is_exact());
}

/// In Madrid clocks are two hours ahead in summer and one in winter.
#[test]
fn a_local_moment_is_one_of_its_time_zone() {
    let madrid = TimeZone::get("Europe/Madrid").expect("a time zone");
    let at = |text: &str| when(text).at(&madrid);
    assert_eq!(at("2025-10-02T08:05:00"), Some(instant("2025-10-02T06:05:00Z")));
    assert_eq!(at("2025-12-02T08:05:00"), Some(instant("2025-12-02T07:05:00Z")));
    assert_eq!(at("2025-10-02T08:05:00-06:00"), Some(instant("2025-10-02T14:05:00Z")));
    assert_eq!(at("2025-10-02T08:05:00Z"), Some(instant("2025-10-02T08:05:00Z")));
}

fn time(attributes: &str) -> String {
    format!(r#"<TIM {attributes} D="4"><DLV A="0074" B="100" C="DET1"/><DLV A="0160" B="900" C="DET2"/></TIM>"#)
}

fn task(times: &[&str]) -> Task {
    only_task(&file(&times.iter().map(|attributes| time(attributes)).collect::<String>()))
}

fn effective(times: &[&str]) -> Effective {
    task(times).effective.expect("times")
}

#[test]
fn a_session_lasts_from_start_to_stop_or_as_long_as_it_says() {
    let from_to = effective(&[r#"A="2025-10-02T06:00:00Z" B="2025-10-02T07:30:00Z""#]);
    assert_eq!(from_to.seconds, 5400);
    assert_eq!(from_to.last_stop, Some(when("2025-10-02T07:30:00Z")));
    for (start, stop) in
        [("2025-10-02T23:00:00Z", "2025-10-03T00:30:00Z"), ("2025-10-02T23:00:00", "2025-10-03T00:30:00")]
    {
        let lasting = effective(&[&format!(r#"A="{start}" C="5400""#)]);
        assert_eq!((lasting.seconds, lasting.last_stop), (5400, Some(when(stop))));
        assert_eq!(lasting.first_start, when(start));
    }
    // A break within the session: what it says goes before what follows from its ends.
    let paused = effective(&[r#"A="2025-10-02T06:00:00Z" B="2025-10-02T07:30:00Z" C="3000""#]);
    assert_eq!((paused.seconds, paused.last_stop), (3000, Some(when("2025-10-02T07:30:00Z"))));
    let running = effective(&[r#"A="2025-10-02T06:00:00Z""#]);
    assert_eq!((running.seconds, running.last_stop), (0, None));
    let none = effective(&[r#"A="2025-10-02T06:00:00Z" B="2025-10-02T06:00:00Z""#]);
    assert_eq!((none.seconds, none.last_stop), (0, Some(none.first_start)));
}

/// Sessions may overlap, stand in any order, and one may still run.
#[test]
fn sessions_come_to_a_first_start_a_last_stop_and_their_sum() {
    let found = effective(&[
        r#"A="2025-10-03T06:00:00Z" B="2025-10-03T07:00:00Z""#,
        r#"A="2025-10-02T06:00:00Z" B="2025-10-03T09:00:00Z""#,
        r#"A="2025-10-03T08:00:00Z""#,
    ]);
    assert_eq!(
        (found.first_start, found.last_stop),
        (when("2025-10-02T06:00:00Z"), Some(when("2025-10-03T09:00:00Z")))
    );
    assert_eq!((found.sessions, found.seconds), (3, 3600 + 27 * 3600));
    let local = effective(&[
        r#"A="2025-10-03T06:00:00" B="2025-10-03T07:00:00""#,
        r#"A="2025-10-02T06:00:00" B="2025-10-02T09:00:00""#,
    ]);
    assert_eq!((local.first_start, local.last_stop), (when("2025-10-02T06:00:00"), Some(when("2025-10-03T07:00:00"))));
}

#[test]
fn times_that_do_not_go_together() {
    let mixed = task(&[r#"A="2025-10-02T06:00:00Z" B="2025-10-02T09:00:00""#]);
    assert_eq!((mixed.effective, faults(&mixed)), (None, vec![What::TimesOfTwoKinds]));
    let backwards = task(&[r#"A="2025-10-02T06:00:00Z" B="2025-10-02T05:59:58Z""#]);
    assert_eq!((backwards.effective, faults(&backwards)), (None, vec![What::EndsBeforeItBegins]));
    let unbegun = task(&[r#"B="2025-10-02T06:00:00Z""#]);
    assert_eq!(faults(&unbegun)[0], What::AttributeMissing { attribute: "A".to_owned() });
    let negative = task(&[r#"A="2025-10-02T06:00:00Z" C="-1""#]);
    assert!(matches!(faults(&negative)[0], What::OutOfRange { least: 0, .. }), "{negative:?}");
    // Of two sessions of two kinds nobody knows which came first, so none counts.
    let sessions = format!("{}{}", session(6, 100, 900), time(r#"A="2025-10-02T09:00:00""#));
    let both = only_task(&file(&sessions));
    assert_eq!((both.effective, both.sown.len()), (None, 0));
    assert_eq!(faults(&both), [What::TimesOfTwoKinds]);
}
