//! Core held against results that others published, certified or computed: a file per source.
//!
//! Each file says who published what and where, and gives a [`Source`] of [`check::Check`]s. Everything runs code of core;
//! nothing is computed here but units. To see where ours and a printed result differ, and why ours is right:
//!
//! ```sh
//! cargo test -p sowmark-core --test published differences -- --nocapture
//! ```
#![allow(clippy::expect_used, clippy::unwrap_used)] // A test that cannot build its sheet has failed.
#![allow(clippy::excessive_precision)] // Published digits stay as they were published.
#![allow(clippy::unreadable_literal)] // So do their groups.
#![allow(clippy::doc_markdown)] // Names of houses, programs and addresses are no code.

mod check;
mod reckon;
#[allow(dead_code, reason = "shared with the tests of measuring, which need all of it")]
#[path = "../../core/tests/measuring/sheets.rs"]
mod sheets;

use check::{Seen, Source};

/// Every file of this folder with a source: its checks are a test of its name.
macro_rules! sources {
    ($($module:ident),+ $(,)?) => {
        $(mod $module;)+

        $(#[test]
        fn $module() {
            hold(&$module::source());
        })+

        fn all() -> Vec<Source> {
            vec![$($module::source()),+]
        }
    };
}

sources! {
    // Drills and catches.
    textbook_metric_problems, canola_council, soil_health_labs, no_till_farmer, michigan_state, spanish_leaflet,
    grain_sa, indian_lecture, russian_seeding_rate, maryland_extension,
    // Rates from plants wanted, and rows.
    kentucky_wheat, kentucky_aen81, kansas_state, western_australia, russian_row_seeds, teagasc, irish_farmers_journal,
    agriland, crop_chatter, ndsu_barley, sdsu_wheat, iowa_state, verified_agronomy, manitoba_crop_alliance,
    grow_winter_wheat,
    // Pure live seed, and the seed itself.
    seed_counts, usgs_pls_table, allamakee, hydroseeding, texas_turf, txdot, sugar_beet_moisture,
    // Statistics and metrology.
    aosa_rules, nist_strd, gum, nist_uncertainty_examples, nist_tn_1297, quam_a1, tartu_weighing, mckay_interval,
    // Control charts.
    nist_handbook, lucas_saccucci,
    // Units.
    unit_definitions, bushel_weights,
    // Not published, but computed by programs that are not ours.
    worked_examples,
}

fn hold(source: &Source) {
    let faults: Vec<_> = source.checks.iter().filter_map(check::Check::fault).collect();
    assert!(faults.is_empty(), "{} ({})\n{}", source.title, source.address, faults.join("\n"));
    assert!(!source.checks.is_empty(), "{} holds nothing", source.title);
}

/// A file that is left out of the list, or a list that was emptied, would pass unseen.
#[test]
fn there_are_enough_of_them() {
    let sources = all();
    let checks = || sources.iter().flat_map(|source| &source.checks);
    let published = checks().filter(|check| check.is_published()).count();
    let read = sources.iter().filter(|source| source.seen == Seen::Read).flat_map(|source| &source.checks);
    let read = read.filter(|check| check.is_published()).count();
    println!("{} checks from {} sources; {published} published, {read} of them read", checks().count(), sources.len());
    assert!(published >= 100, "only {published} checks against published results");
    assert!(read >= 40, "only {read} of them were read where they were published");
    let without = checks().filter(|check| !check.has_exact()).map(ToString::to_string).collect::<Vec<_>>();
    assert!(without.is_empty(), "no exact result beside what is printed:\n{}", without.join("\n"));
    for (i, source) in sources.iter().enumerate() {
        assert!(sources[..i].iter().all(|other| other.title != source.title), "{} is there twice", source.title);
    }
}

/// Prints every place where ours is not the printed result; [`hold`] proves each of them.
#[test]
fn differences() {
    let sources = all();
    let mut count = 0;
    for source in &sources {
        for check in source.checks.iter().filter(|check| check.is_difference()) {
            println!("{}: {check}", source.title);
            count += 1;
        }
    }
    println!("{count} differences");
    assert!(count > 0, "sources are known to round and to slip");
}
