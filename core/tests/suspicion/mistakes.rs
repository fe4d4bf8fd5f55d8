//! The fourteen slips, each made the way it happens: on the reading, the count or the machine, before it is written down.

use sowmark_core::{
    catch::{Catch, Revolutions, Sheet},
    circumstances::Circumstances,
    quantity::{Decimal, DriveRatio, Length, Mass},
    suspicion::Cause,
};

use crate::{
    chance::Chance,
    day::{Counting, Day, Display, RATIOS, Turned, Wanted, shown},
};

/// A sheet with a slip in it, beside the one without.
pub(crate) struct Mistake {
    pub(crate) sheet: Sheet,
    pub(crate) circumstances: Circumstances,
    /// The factor that an honest sheet of the same day gives, kg per revolution per run.
    pub(crate) honest: f64,
}

/// `None` where the day has no room for it (one run cannot be one fewer).
pub(crate) fn make(cause: Cause, chance: &mut Chance) -> Option<Mistake> {
    match cause {
        Cause::TareLeftIn => tare_left_in(chance),
        Cause::TareMissing => tare_missing(chance),
        Cause::PoundsEnteredAsKilograms => other_unit(chance, true),
        Cause::KilogramsEnteredAsPounds => other_unit(chance, false),
        Cause::OuncesEnteredAsTenths => ounces_as_tenths(chance),
        Cause::DecimalPoint => decimal_point(chance),
        Cause::HalfOfEachRun => half_of_each_run(chance),
        Cause::RunsMiscounted => runs_miscounted(chance),
        Cause::RevolutionsDoubled => revolutions(chance, 2.0),
        Cause::RevolutionsHalved => revolutions(chance, 0.5),
        Cause::OtherDriveRatio => other_drive_ratio(chance),
        Cause::OneRunLow => one_run_low(chance),
        Cause::NotPrimed => not_primed(chance),
        Cause::OtherRoller => other_roller(chance),
    }
}

/// Every repeat, or one of them.
fn where_it_happens(chance: &mut Chance, day: &Day, everywhere: f64) -> Vec<usize> {
    let count = day.repeats.len();
    if chance.happens(everywhere) {
        (0..count).collect()
    } else {
        vec![chance.whole(0, u32::try_from(count - 1).expect("few")) as usize]
    }
}

fn mistake(day: &Day, sheet: Sheet) -> Option<Mistake> {
    let circumstances = day.circumstances();
    let honest = sowmark_core::factor::measure(&day.sheet(), &circumstances).factor()?;
    Some(Mistake { sheet, circumstances, honest })
}

fn tare_left_in(chance: &mut Chance) -> Option<Mistake> {
    let day = Day::new(chance, Wanted { tared: true, ..Wanted::default() });
    let mut sheet = day.sheet();
    let hardly_any = chance.happens(0.15).then(|| chance.between(0.05, 0.25));
    for at in where_it_happens(chance, &day, 0.7) {
        for (catch, caught) in sheet.repeats[at].catches.iter_mut().zip(&day.repeats[at].catches) {
            catch.tare = day.reading(hardly_any.map_or(0.0, |share| share * caught.tare_kg));
        }
    }
    mistake(&day, sheet)
}

fn tare_missing(chance: &mut Chance) -> Option<Mistake> {
    let day = Day::new(chance, Wanted { tared: true, ..Wanted::default() });
    let mut sheet = day.sheet();
    let at = chance.whole(0, u32::try_from(sheet.repeats.len() - 1).ok()?) as usize;
    let catches = &mut sheet.repeats[at].catches;
    let position = chance.whole(0, u32::try_from(catches.len() - 1).ok()?) as usize;
    catches[position].tare = day.reading(0.0);
    mistake(&day, sheet)
}

/// The scale shows one unit, the other is written down. Half of the scales are on record in the unit they show.
fn other_unit(chance: &mut Chance, pounds: bool) -> Option<Mistake> {
    let metric = chance.one_of(&[
        Display::Kilograms { decimals: 3, step_g: 1.0 },
        Display::Kilograms { decimals: 3, step_g: 5.0 },
        Display::Kilograms { decimals: 2, step_g: 10.0 },
    ]);
    let (shows, written, honest) =
        if pounds { (Display::Pounds, "kg", metric) } else { (metric, "lb", Display::Pounds) };
    let mut day = Day::new(chance, Wanted { display: Some(honest), ..Wanted::default() });
    let on_record = chance.happens(0.5);
    let mut sheet = day.sheet();
    for at in where_it_happens(chance, &day, 0.65) {
        for (catch, caught) in sheet.repeats[at].catches.iter_mut().zip(&day.repeats[at].catches) {
            let wrong =
                |kg: f64| Mass::parse_text(&format!("{} {written}", shown(shows, kg).value_text())).expect("a reading");
            let tare = if caught.zeroed { 0.0 } else { caught.tare_kg };
            (catch.tare, catch.gross) = (wrong(tare), wrong(tare + caught.net_kg));
        }
    }
    if on_record {
        day.scale = if pounds { "0.01 lb" } else { "5 g" };
    }
    mistake(&day, sheet)
}

/// "5 lb 8 oz" typed as 5.8 lb.
fn ounces_as_tenths(chance: &mut Chance) -> Option<Mistake> {
    let mut day =
        Day::new(chance, Wanted { display: Some(Display::PoundsOunces { step_oz: 1.0 }), ..Wanted::default() });
    day.scale = chance.one_of(&["1 oz", "0.1 oz"]);
    let mut sheet = day.sheet();
    for at in where_it_happens(chance, &day, 0.75) {
        for catch in &mut sheet.repeats[at].catches {
            for reading in [&mut catch.tare, &mut catch.gross] {
                let typed = reading.parts().map(|(pounds, ounces)| format!("{pounds}.{ounces} lb"));
                *reading = Mass::parse_text(&typed?).expect("a reading");
            }
        }
    }
    mistake(&day, sheet)
}

/// The decimal sign moved by one place, every digit kept.
fn moved(number: &Decimal, by: f64) -> Decimal {
    let places = number.places() as usize;
    let places = if by < 1.0 { places + 1 } else { places.saturating_sub(1) };
    Decimal::parse(&format!("{:.places$}", number.to_f64() * by)).expect("a decimal")
}

fn shifted(reading: &Mass, by: f64) -> Option<Mass> {
    let moved = moved(reading.value(), by);
    reading.parts().is_none().then(|| Mass::new(moved, reading.unit()).expect("a reading"))
}

fn decimal_point(chance: &mut Chance) -> Option<Mistake> {
    let day = Day::new(chance, Wanted::default());
    let mut sheet = day.sheet();
    let by = chance.one_of(&[10.0, 0.1]);
    let at = chance.whole(0, u32::try_from(sheet.repeats.len() - 1).ok()?) as usize;
    let position = chance.whole(0, u32::try_from(sheet.repeats[at].catches.len() - 1).ok()?) as usize;
    let both = |catch: &mut Catch| -> Option<()> {
        (catch.tare, catch.gross) = (shifted(&catch.tare, by)?, shifted(&catch.gross, by)?);
        Some(())
    };
    match chance.whole(0, 4) {
        0 => sheet.repeats.iter_mut().flat_map(|repeat| &mut repeat.catches).try_for_each(both)?,
        1 => {
            let counted = match &mut sheet.repeats[at].revolutions {
                Revolutions::Counted(counted) => counted,
                Revolutions::Pulses { pulses, .. } => pulses,
                Revolutions::Turns { turns } => turns,
                // A distance is read off a tape or a screen like a mass off a scale.
                Revolutions::Distance { distance, .. } => {
                    *distance = Length::new(moved(distance.value(), by), distance.unit()).expect("a distance");
                    return mistake(&day, sheet);
                }
            };
            *counted = moved(counted, by);
        }
        2 => {
            let catch = &mut sheet.repeats[at].catches[position];
            catch.tare = shifted(&catch.tare, by)?;
        }
        _ => {
            let catch = &mut sheet.repeats[at].catches[position];
            catch.gross = shifted(&catch.gross, by)?;
        }
    }
    mistake(&day, sheet)
}

/// The day as the machine really went, and the sheet that tells it truly.
fn as_it_went(day: &Day, change: impl FnOnce(&mut Vec<Turned>)) -> Option<Mistake> {
    let mut went = day.clone();
    change(&mut went.repeats);
    mistake(day, went.sheet())
}

fn half_of_each_run(chance: &mut Chance) -> Option<Mistake> {
    let day = Day::new(chance, Wanted::default());
    let places = where_it_happens(chance, &day, 0.7);
    as_it_went(&day, |repeats| {
        for at in places {
            for caught in &mut repeats[at].catches {
                // The two branches are never quite alike.
                caught.net_kg *= 0.5 * (1.0 + chance.normal(0.01));
            }
        }
    })
}

fn runs_miscounted(chance: &mut Chance) -> Option<Mistake> {
    let day = Day::new(chance, Wanted { together: true, ..Wanted::default() });
    let mut sheet = day.sheet();
    let more = chance.happens(0.5);
    let single = sheet.repeats[0].catches.len() == 1;
    let only_one_catch = !single && chance.happens(0.5);
    for at in where_it_happens(chance, &day, if only_one_catch { 0.0 } else { 0.7 }) {
        for (position, catch) in sheet.repeats[at].catches.iter_mut().enumerate() {
            if !only_one_catch || position == 0 {
                catch.runs = if more { catch.runs + 1 } else { catch.runs - 1 };
            }
        }
    }
    let most = sheet.repeats.iter().map(|repeat| repeat.catches.iter().map(|catch| catch.runs).sum::<u32>()).max()?;
    if most > day.runs_in_use {
        return None;
    }
    mistake(&day, sheet)
}

/// `by` leads from the true revolutions to those written down.
fn revolutions(chance: &mut Chance, by: f64) -> Option<Mistake> {
    let day = Day::new(chance, Wanted::default());
    let mut sheet = day.sheet();
    let places = where_it_happens(chance, &day, 0.65);
    let everywhere = places.len() == day.repeats.len();
    for at in places {
        let roller = day.repeats[at].revolutions;
        sheet.repeats[at].revolutions = match day.counting {
            // Pulses are machine-counted; it is told wrongly how many make a revolution.
            Counting::Pulses(_) if everywhere => day.revolutions(roller, by.recip()),
            _ => day.revolutions(roller * by, 1.0),
        };
    }
    mistake(&day, sheet)
}

fn other_drive_ratio(chance: &mut Chance) -> Option<Mistake> {
    let counting = chance.one_of(&[Counting::Turns, Counting::Distance]);
    let mut day = Day::new(chance, Wanted { counting: Some(counting), ..Wanted::default() });
    let on_record = DriveRatio::parse(day.ratio).ok()?.value();
    let turned_round = chance.happens(0.15);
    let name = chance.one_of(&RATIOS);
    let fitted = if turned_round { on_record.recip() } else { DriveRatio::parse(name).ok()?.value() };
    if !turned_round && !day.other_ratios.contains(&name) {
        day.other_ratios.push(name);
    }
    // What was counted ahead of the ratio is honest; the roller turned by the fitted one.
    let mut sheet = day.sheet();
    for (repeat, turned) in sheet.repeats.iter_mut().zip(&day.repeats) {
        repeat.revolutions = day.revolutions(turned.revolutions * on_record / fitted, 1.0);
    }
    mistake(&day, sheet)
}

fn one_run_low(chance: &mut Chance) -> Option<Mistake> {
    let day = Day::new(chance, Wanted { apart: true, ..Wanted::default() });
    let places = where_it_happens(chance, &day, 0.6);
    let run = chance.whole(0, u32::try_from(day.repeats[0].catches.len() - 1).ok()?) as usize;
    let share = chance.between(0.05, 0.7);
    as_it_went(&day, |repeats| {
        for at in places {
            repeats[at].catches[run].net_kg *= share * (1.0 + chance.normal(0.1)).clamp(0.7, 1.3);
        }
    })
}

fn not_primed(chance: &mut Chance) -> Option<Mistake> {
    let day = Day::new(chance, Wanted::default());
    let share = chance.between(0.4, 0.9);
    as_it_went(&day, |repeats| {
        for caught in &mut repeats[0].catches {
            caught.net_kg *= share * (1.0 + chance.normal(0.02));
        }
    })
}

fn other_roller(chance: &mut Chance) -> Option<Mistake> {
    let mut day = Day::new(chance, Wanted::default());
    let times = chance.log_between(0.3, 3.0);
    let off = 1.0 + chance.normal(0.5 * (day.expectation_off - 1.0).abs().max(0.01)).clamp(-0.1, 0.1);
    day.other_rollers.push(("the one that is in".to_owned(), day.factor * times * off));
    as_it_went(&day, |repeats| {
        for caught in repeats.iter_mut().flat_map(|repeat| &mut repeat.catches) {
            caught.net_kg *= times;
        }
    })
}
