//! Numbers and units as a reader reads them: the texts of pages rest on these.

use sowmark_core::{
    quantity::{KeyedFor, KeyedIn, PerRevolutions, unit},
    texts::{Catalogue, Language},
    words::{DecimalSign, Words},
};

const COMMA: DecimalSign = DecimalSign::Comma;

#[test]
fn zeros_that_say_nothing_are_left_out() {
    let comma = Words { decimal: COMMA, ..Words::default() };
    for (number, point, with_comma) in
        [("6.000", "6", "6"), ("12.50", "12.5", "12,5"), ("120", "120", "120"), ("0.05", "0.05", "0,05")]
    {
        assert_eq!(Words::default().trimmed(number), point);
        assert_eq!(comma.trimmed(number), with_comma);
    }
    // 5.4864 m are 18 international feet of 0.3048 m.
    assert_eq!(Words::default().short(5.4864, unit::FT, 4), "18");
    assert_eq!(comma.short(0.125, unit::CM, 4), "12,5");
}

#[test]
fn every_unit_in_words_has_its_text() {
    for name in [
        "catches",
        "days",
        "degrees of freedom",
        "g per thousand seeds",
        "repeats",
        "standard deviations",
        "times",
        "kg",
    ] {
        assert_eq!(Words::default().unit(name), name);
    }
    // At a machine it is said so; answers to programs keep the sign of the SI.
    assert_eq!(Words::default().unit("1/min"), "rpm");
}

#[test]
fn units_in_words_are_told_in_the_language_of_the_reader() {
    let text = "unit-catches = recogidas\nunit-days = días\nunit-degrees-of-freedom = grados de libertad\n\
                unit-g-per-thousand-seeds = g por mil semillas\nunit-repeats = repeticiones\n\
                unit-standard-deviations = desviaciones típicas\nunit-times = veces\n";
    let catalogue = Catalogue::new("es", &[("es.ftl", text)], Some(Language::default().catalogue())).expect("texts");
    let words = Words { language: Language::of(Box::leak(Box::new(catalogue))), ..Words::default() };
    for (name, said) in [
        ("catches", "recogidas"),
        ("days", "días"),
        ("degrees of freedom", "grados de libertad"),
        ("g per thousand seeds", "g por mil semillas"),
        ("repeats", "repeticiones"),
        ("standard deviations", "desviaciones típicas"),
        ("times", "veces"),
        ("kg", "kg"),
    ] {
        assert_eq!(words.unit(name), said);
    }
}

#[test]
fn what_a_keyed_number_is_for_is_said() {
    let keyed = |is_for| KeyedIn { mass_unit: unit::LB, per: PerRevolutions::Hundred, is_for };
    assert_eq!(keyed(KeyedFor::Run).for_said(Words::default()), "per run");
    assert_eq!(keyed(KeyedFor::Unit).for_said(Words::default()), "whole unit");
}

#[test]
fn a_broken_catalogue_is_refused_with_its_line() {
    let refused = |text: &str| Catalogue::new("de", &[("de.ftl", text)], None).expect_err("broken").line();
    assert_eq!(refused("= nothing\n"), Some(1));
    assert_eq!(refused("a = b\nc = d\n\n= nothing\n"), Some(4));
}
