//! The cab card: one page per seeder with the number to key in for each unit and lot, roller speeds for rate and driving
//! speed, what would end a number, and the code that opens the machine's page.
//!
//! A number stands on it only for the unit that it was caught on. What a number would be with another lot in the tank is
//! readiness asked again with that lot filled in; nothing is looked up beside it.

use super::Stamp;
use crate::access::{Permission, Units};
use crate::fleet::label::{code::Code, code_of, short};
use crate::fleet::seeder::act::{SeederRow, seeders};
use crate::fleet::seeder::key_in::KeyIn;
use crate::readiness::act::{Records, UnitNow, histories, if_filled, may_see};
use crate::readiness::board;
use crate::readiness::rate::{AtWork, Middle, Near, Table, no_number, roller_speeds_around};
use crate::readiness::{Teller, policy};
use crate::records::head::said;
use crate::seed::lot::act::lots;
use crate::seed::lot::store::LotRow;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted, pairs};
use crate::web::input;
use crate::web::page::{Cookies, Page, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::HeaderMap;
use axum::response::Response;
use jiff::Timestamp;
use sowmark_core::ids::{LotId, SeederId};
use sowmark_core::moment::Dated;
use sowmark_core::policy::Policy;
use sowmark_core::quantity::{Rate, Speed, unit};
use sowmark_core::readiness::{CalibrationFacts, JobFacts, Severity, Standing, UnitHistory, readiness};
use sowmark_core::say;
use sowmark_core::words::Words;
use std::collections::HashMap;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/reports/cab-card", Need::May(Permission::ReadFleet), cab_card_page)]
}

crate::input! {
    /// Whose card, and around which rate and driving speed its tables are.
    pub struct CardAsked {
        /// One seeder alone; every seeder, a page each, unless told.
        pub seeder_id: Option<SeederId>,
        /// That of the unit's latest job unless told.
        pub rate: Option<Rate>,
        /// That of the unit's latest job unless told.
        pub speed: Option<Speed>,
    }
}

#[derive(Template)]
#[template(path = "reports/cab_card.html")]
struct CabCardPage {
    page: Page,
    form: Form,
    cards: Vec<Card>,
    stamp: Option<Stamp>,
}

/// The card of one seeder.
struct Card {
    seeder: SeederRow,
    code: Code,
    path: String,
    units: Vec<UnitPart>,
    /// Whether treated seed is in a tank or may come into one.
    is_treated: bool,
    ends: Vec<String>,
    looks: Vec<String>,
}

/// What the card says of a unit.
struct UnitPart {
    label: String,
    state: &'static str,
    /// The lot in its tank; empty where there is none.
    lot: String,
    /// That another lot is in the tank beside it; empty where none is.
    mixed: String,
    /// What is due and was let pass: what it is, until when, by whom and why.
    passed: Vec<String>,
    treated: Option<(String, String)>,
    number: Option<Number>,
    /// Why there is no number; empty where there is one.
    why_none: String,
    /// What is due although there is a number.
    due: Vec<String>,
    others: Vec<Other>,
    table: Option<Table>,
    /// Why there is no table; empty where there is one, or no number.
    no_table: String,
}

impl UnitPart {
    fn is_treated(&self) -> bool {
        self.treated.is_some() || self.others.iter().any(|other| other.treated.is_some())
    }
}

/// The number in force.
struct Number {
    key_in: KeyIn,
    caught: String,
    /// At which roller speed it was caught, and how far around it the tolerances take it for true.
    speeds: String,
}

/// The number with another lot in the tank.
struct Other {
    lot: String,
    /// With what; the label's caution stands where the lot is in the tank.
    treated: Option<String>,
    number: String,
    caught: String,
}

async fn cab_card_page(
    signed: Signed,
    cookies: Cookies,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let posted = Posted(pairs(query.unwrap_or_default().as_bytes())?).spoken_in(signed.actor.language);
    let page = Page::new(&signed, &cookies, say!(signed.actor.words(), "cab-card-title"), "/reports");
    let at = signed.app.clock.now();
    let mut snapshot = signed.app.snapshot().await?;
    let all = seeders(&mut snapshot.cx(), &signed.actor.scope).await?;
    let form = card_form(&signed, &all);
    let wanted = input::read::<CardAsked>(&posted.tree(&signed.actor.time_zone)).and_then(|asked| {
        let seeders = match asked.seeder_id {
            None => all,
            Some(id) => all.into_iter().filter(|seeder| seeder.id == id.0).collect(),
        };
        if asked.seeder_id.is_some() && seeders.is_empty() {
            return Err(Error::not_there_at("/seeder_id", "seeder"));
        }
        Ok((seeders, asked))
    });
    let (form, cards, stamp) = match wanted {
        Ok((seeders, asked)) => {
            let maker = Maker::new(&mut snapshot, &signed, &headers, at, &asked).await?;
            let cards = seeders.into_iter().map(|seeder| maker.card(seeder)).collect::<Result<Vec<_>, Error>>()?;
            let stamp = Stamp::of(&mut snapshot.cx(), &signed, &headers, at, None).await?;
            (form.filled(&posted), cards, Some(stamp))
        }
        Err(error @ (Error::Faults(_) | Error::NotThere { .. })) => (form.again(&posted, &error), Vec::new(), None),
        Err(error) => return Err(error),
    };
    show_with(form.status(), &CabCardPage { page, form, cards, stamp })
}

/// The choice of a card.
pub(super) fn card_form(signed: &Signed, seeders: &[SeederRow]) -> Form {
    let (us, words) = (signed.actor.units == Units::Us, signed.actor.words());
    let by = |metric, us_unit| if us { us_unit } else { metric };
    let every = std::iter::once((String::new(), say!(words, "cab-card-every-seeder")));
    let seeders = every.chain(seeders.iter().map(|seeder| (seeder.id.to_string(), seeder.name.clone())));
    let fields = vec![
        FormField::new("seeder_id", say!(words, "cab-card-seeder")).choice(seeders.collect::<Vec<_>>()).optional(),
        FormField::new("rate", say!(words, "rate-rate"))
            .measured(&["kg/ha", "lb/ac"], by("kg/ha", "lb/ac"))
            .hint(say!(words, "cab-card-rate-hint"))
            .optional(),
        FormField::new("speed", say!(words, "rate-driving-speed"))
            .measured(&["km/h", "mph", "m/s"], by("km/h", "mph"))
            .optional(),
    ];
    Form::new("/reports/cab-card", say!(words, "cab-card-submit"), fields)
}

/// What every card is made from.
struct Maker<'s> {
    signed: &'s Signed,
    base: String,
    at: Timestamp,
    rate: Option<f64>,
    speed: Option<f64>,
    records: Records,
    policy: Policy,
    lots: HashMap<Uuid, LotRow>,
}

impl<'s> Maker<'s> {
    async fn new(
        snapshot: &mut crate::db::Tx,
        signed: &'s Signed,
        headers: &HeaderMap,
        at: Timestamp,
        asked: &CardAsked,
    ) -> Result<Self, Error> {
        let (scope, zone) = (&signed.actor.scope, &signed.actor.time_zone);
        let lots = lots(&mut snapshot.cx(), scope).await?.into_iter().map(|lot| (lot.id, lot)).collect();
        Ok(Self {
            signed,
            base: signed.app.base(headers),
            at,
            rate: asked.rate.as_ref().map(Rate::si),
            speed: asked.speed.as_ref().map(Speed::si),
            records: histories(&mut snapshot.cx(), scope, zone, None).await?,
            policy: policy::in_force(&mut snapshot.cx(), scope).await?.policy,
            lots,
        })
    }

    fn words(&self) -> Words {
        self.signed.actor.words()
    }

    fn card(&self, seeder: SeederRow) -> Result<Card, Error> {
        let mut units = Vec::new();
        for (row, history) in self.records.units.iter().filter(|(row, _)| row.seeder_id == seeder.id) {
            let readiness = readiness(history, &self.records.surroundings, self.at);
            if !may_see(&self.signed.actor.scope, readiness.lot) {
                continue;
            }
            let now = self.told(UnitNow { unit: row.clone(), readiness, says: Vec::new() });
            units.push(self.unit(&now, history)?);
        }
        Ok(Card {
            code: code_of(&seeder, &self.base, self.words())?,
            path: short::path(seeder.id),
            seeder,
            is_treated: units.iter().any(UnitPart::is_treated),
            units,
            ends: self.ends(),
            looks: self.looks(),
        })
    }

    fn teller(&self) -> Teller<'_> {
        let actor = &self.signed.actor;
        Teller { names: &self.records.names, zone: &actor.time_zone, reader: actor.reader(), at: self.at }
    }

    /// With a sentence for each trigger that is due.
    fn told(&self, mut now: UnitNow) -> UnitNow {
        let teller = self.teller();
        now.says = now.readiness.due.iter().map(|due| teller.says(due, now.readiness.compared_with)).collect();
        now
    }

    fn unit(&self, now: &UnitNow, history: &UnitHistory) -> Result<UnitPart, Error> {
        let words = self.words();
        let at_work = AtWork::of(now)?;
        let lot = now.readiness.lot;
        let (table, no_table) = match &at_work {
            Some(at_work) => self.table(at_work, history, lot),
            None => (None, String::new()),
        };
        let teller = self.teller();
        let due = now.readiness.due.iter().zip(&now.says);
        let checks = due.filter(|(due, _)| due.severity == Severity::Check && due.waived.is_none());
        Ok(UnitPart {
            label: now.unit.label.clone(),
            state: now.readiness.state.as_str(),
            lot: lot.map(|lot| self.lot(lot)).unwrap_or_default(),
            mixed: self.mixed(&now.readiness.mixed_with),
            passed: board::let_pass(now, &teller),
            treated: lot.and_then(|lot| self.treated(lot)),
            number: self.number(now, history),
            why_none: if at_work.is_none() { no_number(now, words) } else { String::new() },
            due: checks.map(|(_, says)| says.clone()).collect(),
            others: self.others(now, history),
            table,
            no_table,
        })
    }

    fn number(&self, now: &UnitNow, history: &UnitHistory) -> Option<Number> {
        let (words, actor) = (self.words(), &self.signed.actor);
        let in_force = now.readiness.in_force?;
        let speeds = match Near::of(in_force, history, &self.policy) {
            Some(near) => say!(
                words,
                "cab-card-speeds",
                caught = words.number(near.caught, 3),
                percent = words.exactly(near.percent),
                least = words.number(near.least, 3),
                most = words.number(near.most, 3)
            ),
            None => say!(words, "cab-card-speeds-unknown"),
        };
        Some(Number {
            key_in: now.key_in(&self.records.names, actor.reader())?,
            caught: say!(words, "cab-card-caught", when = said(in_force.since, &actor.time_zone, words)),
            speeds,
        })
    }

    /// That other lots are in the tank too.
    fn mixed(&self, others: &[LotId]) -> String {
        if others.is_empty() {
            return String::new();
        }
        let others = others.iter().map(|lot| self.lot(*lot)).collect::<Vec<_>>().join("; ");
        say!(self.words(), "cab-card-mixed", others = others)
    }

    /// The numbers that would be true with the other lots that were caught on this unit, the latest first.
    fn others(&self, now: &UnitNow, history: &UnitHistory) -> Vec<Other> {
        let (words, actor) = (self.words(), &self.signed.actor);
        let known = |calibration: &&Dated<CalibrationFacts>| {
            calibration.what.standing == Standing::Accepted && calibration.happened_by(self.at)
        };
        let mut caught: Vec<LotId> = history.calibrations.iter().filter(known).map(|found| found.what.lot).collect();
        caught.sort_unstable_by_key(|lot| lot.0);
        caught.dedup();
        caught.retain(|lot| Some(*lot) != now.readiness.lot && self.lots.contains_key(&lot.0));
        let mut others = Vec::new();
        for lot in caught {
            let readiness = if_filled(history, &self.records.surroundings, self.at, lot);
            let then = UnitNow { unit: now.unit.clone(), readiness, says: Vec::new() };
            let number = then.key_in(&self.records.names, actor.reader());
            // A waiver may let a number pass for a lot that it was not caught with: that was given for the lot in the tank.
            let is_its_own = |calibration: Uuid| {
                history.calibrations.iter().any(|found| found.moment.id == calibration && found.what.lot == lot)
            };
            let in_force = then.readiness.in_force.filter(|in_force| is_its_own(in_force.calibration.0));
            if let Some((number, in_force)) = number.zip(in_force) {
                let caught = said(in_force.since, &actor.time_zone, words);
                let line = Other {
                    lot: self.lot(lot),
                    treated: self.treated(lot).map(|(product, _)| product),
                    number: number.says(),
                    caught,
                };
                others.push((in_force.since, line));
            }
        }
        others.sort_by_key(|(since, _)| std::cmp::Reverse(*since));
        others.into_iter().map(|(_, other)| other).collect()
    }

    /// Roller speeds around what was asked for, else around the latest job with this lot, else the latest of all.
    fn table(&self, at_work: &AtWork, history: &UnitHistory, lot: Option<LotId>) -> (Option<Table>, String) {
        let words = self.words();
        if at_work.is_ground {
            return (None, say!(words, "cab-card-ground"));
        }
        let mut jobs: Vec<&Dated<JobFacts>> = history.jobs.iter().filter(|job| job.happened_by(self.at)).collect();
        jobs.sort_by_key(|job| (Some(job.what.lot) == lot, job.moment));
        let middle =
            |asked: Option<f64>, of_job: Option<f64>| Some(Middle { si: asked.or(of_job)?, is_asked: asked.is_some() });
        let rate = middle(self.rate, jobs.last().map(|job| job.what.target_rate));
        let speed = middle(self.speed, jobs.iter().rev().find_map(|job| job.what.speed));
        let reader = self.signed.actor.reader();
        let near = Near::of(at_work.in_force, history, &self.policy);
        let table = rate.zip(speed).and_then(|middle| roller_speeds_around(at_work, middle, near, reader));
        let no_table = if table.is_none() { say!(words, "cab-card-no-table") } else { String::new() };
        (table, no_table)
    }

    fn lot(&self, lot: LotId) -> String {
        let words = self.words();
        self.lots.get(&lot.0).map_or_else(|| say!(words, "cab-card-lot-unknown"), |lot| lot.in_words(words))
    }

    fn treated(&self, lot: LotId) -> Option<(String, String)> {
        let lot = self.lots.get(&lot.0)?;
        Some((lot.treatment_product.clone()?, lot.treatment_caution.clone().unwrap_or_default()))
    }

    /// What ends a number at once.
    fn ends(&self) -> Vec<String> {
        let words = self.words();
        let weight = words.exactly(self.policy.seed_weight_tolerance_percent);
        vec![
            say!(words, "cab-card-ends-lot"),
            say!(words, "cab-card-ends-fitting"),
            say!(words, "cab-card-ends-part"),
            say!(words, "cab-card-ends-weight", percent = weight),
            say!(words, "cab-card-ends-season"),
            say!(words, "cab-card-ends-doubt"),
        ]
    }

    /// What asks for a check.
    fn looks(&self) -> Vec<String> {
        let words = self.words();
        let policy = &self.policy;
        let speed = words.exactly(policy.roller_speed_tolerance_percent);
        let days = words.exactly(policy.scale_check_interval_days);
        let mut looks = vec![
            say!(words, "cab-card-looks-speed", percent = speed),
            say!(words, "cab-card-looks-drift"),
            say!(words, "cab-card-looks-scale", days = days),
        ];
        if let Some(days) = policy.interval_days {
            looks.push(say!(words, "cab-card-looks-days", days = words.exactly(days)));
        }
        if let Some(area) = policy.interval_area_ha {
            let unit = if self.signed.actor.units == Units::Us { unit::AC } else { unit::HA };
            let area = format!("{} {unit}", words.short(area * unit::HA.in_si(), unit, 4));
            looks.push(say!(words, "cab-card-looks-area", area = area));
        }
        looks
    }
}
