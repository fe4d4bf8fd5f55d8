//! What a catalogue says: forms for one and many, what is missing, what is broken.

use sowmark_core::say;
use sowmark_core::texts::{Argument, Catalogue, Language};
use sowmark_core::words::{DecimalSign, Words};

use crate::spoken::words;

#[test]
fn forms_for_one_and_many() {
    let kept = |words: Words, count: u32| say!(words, "check-repeats-enough", kept = count, least = 1_u32);
    assert_eq!(kept(Words::default(), 1), "1 repeat kept, at least 1 are asked for.");
    assert_eq!(kept(Words::default(), 0), "0 repeats kept, at least 1 are asked for.");
    assert_eq!(kept(Words::default(), 1_000_000), "1000000 repeats kept, at least 1 are asked for.");
    assert_eq!(kept(words("es"), 1), "Queda 1 repetición; se piden 1 como mínimo.");
    assert_eq!(kept(words("es"), 3), "Quedan 3 repeticiones; se piden 1 como mínimo.");
}

#[test]
fn variables_come_without_marks_of_direction_and_long_sentences_on_one_line() {
    let said = say!(Words::default(), "check-run-uniformity", cv = "4 %", catches = 3_u32, limit = "15");
    assert_eq!(said, "The runs vary by 4 % (coefficient of variation of up to 3 catches); the limit is 15 %.");
}

#[test]
fn text_that_a_person_gave_stays_as_it_is() {
    let run = "{ $limit }\nrun \"7\"";
    let said = say!(Words::default(), "check-run-uniformity-farthest", side = "above", run = run, off = "4 %");
    assert_eq!(said, format!("Farthest off is {run}, 4 % above the mean."));
}

#[test]
fn what_is_missing_is_said_in_the_language_fallen_back_to() {
    let catalogue = |content: &str| {
        let made = Catalogue::new("es", &[("es.ftl", content)], Some(Language::default().catalogue()));
        made.expect("fine")
    };
    let says = |content: &str| catalogue(content).text("check-scale-passed", &[("days", Argument::from("30"))]);
    let english = "The scale passed a check within the last 30 days.";
    assert_eq!(says("other = otro\n"), english);
    assert_eq!(says("check-scale-passed = En { $dias } días.\n"), english, "a variable that is not given");
    assert_eq!(says("check-scale-passed = En { $days } días.\n"), "En 30 días.");
    assert_eq!(catalogue("a = b\n").text("nobody-has-this", &[]), "nobody-has-this");
    assert!(catalogue("a = b\n").has("a") && !catalogue("a = b\n").has("check-scale-passed"));
    let nobody = Catalogue::default();
    assert_eq!((nobody.text("check-scale-never", &[]), nobody.tag()), ("check-scale-never".to_owned(), ""));
}

#[test]
fn a_text_that_is_not_whole_is_said_as_far_as_it_goes() {
    let said = Words::default().say("check-scale-passed", &[]);
    assert_eq!(said, "The scale passed a check within the last {$days} days.");
}

#[test]
fn what_is_broken_is_refused_with_its_line() {
    let refused = |content: &str| Catalogue::new("es", &[("es.ftl", content)], None).expect_err("broken");
    let error = refused("uno = 1\n\ndos = 2\ntres = { $x ->\n    [one] sin asterisco\n}\n");
    assert!(error.line().is_some_and(|line| (4..=6).contains(&line)), "{error}");
    assert!(error.to_string().starts_with("es.ftl, line "), "{error}");
    let twice = refused("uno = 1\nuno = 2\n");
    assert_eq!(twice.to_string(), "es.ftl: uno stands twice; every key has one text");
    assert_eq!(twice.line(), None);
    let across = Catalogue::new("es", &[("a.ftl", "uno = 1\n"), ("b.ftl", "uno = 2\n")], None).expect_err("twice");
    assert_eq!(across.to_string(), "b.ftl: uno stands twice; every key has one text");
    let nowhere = Catalogue::new("no language", &[], None).expect_err("no tag");
    assert_eq!(nowhere.to_string(), "\"no language\" is no language; write a tag like es or pt-BR");
}

#[test]
fn words_are_equal_when_sign_and_language_are() {
    let comma = Words { decimal: DecimalSign::Comma, ..words("es") };
    assert_eq!(words("es"), words("es"));
    assert_ne!(words("es"), Words::default());
    assert_ne!(comma, words("es"));
    assert_eq!([Words::default().language.name(), words("es").language.name()], ["English", "Español"]);
    assert_eq!(format!("{:?} {:?}", comma.language, Words::default().language), "Language(es) Language(en)");
    assert!(format!("{:?}", words("es").language.catalogue()).contains("fallback: Some(\"en\")"));
}

#[test]
fn a_catch_without_label_has_its_number_in_each_language() {
    assert_eq!((Words::default().run("catch 2"), words("es").run("catch 2")), ("catch 2".into(), "recogida 2".into()));
    assert_eq!((words("es").run("run 2"), words("es").run("catch all")), ("run 2".into(), "catch all".into()));
}
