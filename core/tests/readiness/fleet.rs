//! A made-up seeder with one metering unit, to which a test adds the records it is about.

use std::collections::HashMap;

use jiff::{Timestamp, civil::date, tz::TimeZone};
use sowmark_core::{
    basis::{Configuration, Setup},
    ids::{LotId, RollerId, ScaleId, SeasonId},
    moment::{Dated, Moment},
    policy::Policy,
    quantity::DriveRatio,
    readiness::{
        CalibrationFacts, CauseKind, Emptying, Fill, JobFacts, LotFacts, LotTest, Readiness, ScaleCheck, ScaleFacts,
        Season, SeedUsedBasis, Service, Standing, Surroundings, Trigger, UnitHistory, Waiver, readiness,
    },
};
use uuid::Uuid;

/// Two lots of wheat and one of barley.
pub(crate) const WHEAT: LotId = LotId(Uuid::from_u128(0xa1));
pub(crate) const OTHER_WHEAT: LotId = LotId(Uuid::from_u128(0xa2));
pub(crate) const BARLEY: LotId = LotId(Uuid::from_u128(0xb1));
pub(crate) const SCALE: ScaleId = ScaleId(Uuid::from_u128(0x5c));
pub(crate) const SEEDER: Uuid = Uuid::from_u128(0x5e);

/// What a due trigger is expected to say: which, since when, and the record that began it.
pub(crate) type Expect<'a> = (Trigger, &'a str, CauseKind, Uuid);

/// The records of the unit and what surrounds it.
#[derive(Clone, Debug)]
pub(crate) struct Fleet {
    pub(crate) history: UnitHistory,
    pub(crate) around: Surroundings,
    next_id: u128,
}

/// An instant of 2027: "04-06 08:00" in UTC, or a whole RFC 3339 text.
pub(crate) fn at(text: &str) -> Timestamp {
    let full = text.replace(' ', "T");
    let full = if full.len() < 16 { format!("2027-{full}:00Z") } else { full };
    full.parse().expect("a time in the test")
}

pub(crate) fn roller(number: u128) -> RollerId {
    RollerId(Uuid::from_u128(0x1000 + number))
}

pub(crate) fn setup() -> Setup {
    Setup {
        roller: roller(1),
        drive_ratio: DriveRatio::parse("5:2").expect("a ratio"),
        gate: Some("12".into()),
        runs: 8,
    }
}

/// 0.05 kg per revolution per run at 42 rpm.
pub(crate) fn caught(lot: LotId) -> CalibrationFacts {
    CalibrationFacts {
        lot,
        standing: Standing::Accepted,
        factor: 0.05,
        roller_speed_rpm: Some(42.0),
        scale: Some(SCALE),
    }
}

/// 10 ha, exactly on its target of 140 kg/ha. At 12 km/h on 6 m with 8 runs of 0.05 kg it needs
/// 140 x 6 x 12 / 600 / 0.4 = 42 rpm, the speed of the calibration.
pub(crate) fn sown(lot: LotId) -> JobFacts {
    JobFacts {
        lot,
        area_m2: 100_000.0,
        seed_used_kg: 1400.0,
        seed_used_basis: SeedUsedBasis::Weighed,
        target_rate: 0.014,
        speed: Some(12.0 / 3.6),
    }
}

impl Fleet {
    /// Commissioned in 2021, 6 m wide; nothing else is recorded.
    pub(crate) fn new() -> Self {
        let lot = |crop: &str| LotFacts { crop: crop.into(), tests: vec![] };
        let commissioned = at("2021-03-01T00:00:00Z");
        let first = Moment { occurred_at: commissioned, recorded_at: commissioned, id: Uuid::from_u128(0xc0) };
        let width = Configuration { working_width_m: 6.0, row_spacing_m: 0.125 };
        Self {
            history: UnitHistory {
                seeder: SEEDER.into(),
                unit: Uuid::from_u128(0x0a11).into(),
                commissioned_on: date(2021, 3, 1),
                laid_up: vec![],
                configurations: vec![Dated::new(first, width)],
                setups: vec![],
                services: vec![],
                fills: vec![],
                emptyings: vec![],
                calibrations: vec![],
                jobs: vec![],
                waivers: vec![],
            },
            around: Surroundings {
                time_zone: TimeZone::UTC,
                lots: HashMap::from([(WHEAT, lot("Wheat")), (OTHER_WHEAT, lot(" wheat ")), (BARLEY, lot("barley"))]),
                seasons: vec![],
                scales: HashMap::from([(SCALE, ScaleFacts { readability_kg: 0.01, checks: vec![] })]),
                policies: vec![],
            },
            next_id: 1,
        }
    }

    /// Set up on 1 March, scale passed on 1 April, wheat filled on 6 April at 7 and caught at 8; its calibration's id.
    pub(crate) fn caught_with_wheat() -> (Self, Uuid) {
        let mut fleet = Self::new();
        fleet.setup("03-01 08:00", setup());
        fleet.scale_check("04-01 08:00", 10.0, 10.0);
        fleet.fill("04-06 07:00", WHEAT);
        let calibration = fleet.calibration("04-06 08:00", caught(WHEAT));
        (fleet, calibration)
    }

    fn moment(&mut self, when: &str) -> Moment {
        self.next_id += 1;
        let occurred_at = at(when);
        let recorded_at = occurred_at + jiff::SignedDuration::from_secs(60);
        Moment { occurred_at, recorded_at, id: Uuid::from_u128(self.next_id) }
    }

    pub(crate) fn lay_up(&mut self, when: &str, laid_up: bool) {
        let moment = self.moment(when);
        self.history.laid_up.push(Dated::new(moment, laid_up));
    }

    pub(crate) fn configuration(&mut self, when: &str, working_width_m: f64, row_spacing_m: f64) -> Uuid {
        let moment = self.moment(when);
        self.history.configurations.push(Dated::new(moment, Configuration { working_width_m, row_spacing_m }));
        moment.id
    }

    pub(crate) fn setup(&mut self, when: &str, setup: Setup) -> Uuid {
        let moment = self.moment(when);
        self.history.setups.push(Dated::new(moment, setup));
        moment.id
    }

    pub(crate) fn service(&mut self, when: &str, affects_metering: bool) -> Uuid {
        let moment = self.moment(when);
        self.history.services.push(Dated::new(moment, Service { affects_metering }));
        moment.id
    }

    pub(crate) fn fill(&mut self, when: &str, lot: LotId) -> Uuid {
        let moment = self.moment(when);
        self.history.fills.push(Dated::new(moment, Fill { lot }));
        moment.id
    }

    pub(crate) fn emptying(&mut self, when: &str, lot: LotId, to_empty: bool) -> Uuid {
        let moment = self.moment(when);
        self.history.emptyings.push(Dated::new(moment, Emptying { lot, to_empty }));
        moment.id
    }

    pub(crate) fn calibration(&mut self, when: &str, facts: CalibrationFacts) -> Uuid {
        let moment = self.moment(when);
        self.history.calibrations.push(Dated::new(moment, facts));
        moment.id
    }

    pub(crate) fn job(&mut self, when: &str, facts: JobFacts) -> Uuid {
        let moment = self.moment(when);
        self.history.jobs.push(Dated::new(moment, facts));
        moment.id
    }

    pub(crate) fn waiver(&mut self, when: &str, trigger: Trigger, until: &str) -> Uuid {
        let moment = self.moment(when);
        self.history.waivers.push(Dated::new(
            moment,
            Waiver { trigger, until: at(until), reason: Some("the seam of two lots of one field".into()) },
        ));
        moment.id
    }

    pub(crate) fn lot_test(
        &mut self,
        when: &str,
        lot: LotId,
        bulk_density: Option<f64>,
        thousand_seed_weight: Option<f64>,
    ) -> Uuid {
        let moment = self.moment(when);
        let test = Dated::new(moment, LotTest { bulk_density, thousand_seed_weight });
        self.around.lots.get_mut(&lot).expect("a lot of the test").tests.push(test);
        moment.id
    }

    pub(crate) fn scale_check(&mut self, when: &str, reference_kg: f64, reading_kg: f64) -> Uuid {
        let moment = self.moment(when);
        let check = Dated::new(moment, ScaleCheck { reference_kg, reading_kg });
        self.around.scales.get_mut(&SCALE).expect("the scale").checks.push(check);
        moment.id
    }

    pub(crate) fn season(&mut self, starts_on: &str, crops: Option<&[&str]>) -> Uuid {
        self.next_id += 1;
        let id = Uuid::from_u128(self.next_id);
        self.around.seasons.push(Season {
            id: SeasonId(id),
            starts_on: starts_on.parse().expect("a date in the test"),
            crops: crops.map(|crops| crops.iter().map(ToString::to_string).collect()),
        });
        id
    }

    pub(crate) fn policy(&mut self, when: &str, change: impl FnOnce(&mut Policy)) {
        let moment = self.moment(when);
        let mut policy = Policy::default();
        change(&mut policy);
        self.around.policies.push(Dated::new(moment, policy));
    }

    pub(crate) fn readiness(&self, when: &str) -> Readiness {
        readiness(&self.history, &self.around, at(when))
    }

    /// Asserts exactly these triggers, in this order.
    #[track_caller]
    pub(crate) fn assert_due(&self, when: &str, expected: &[Expect<'_>]) {
        let found = self.readiness(when).due;
        let found: Vec<_> = found.iter().map(|due| (due.trigger, due.since, due.cause.kind, due.cause.id)).collect();
        let expected: Vec<_> =
            expected.iter().map(|(trigger, since, kind, id)| (*trigger, at(since), *kind, *id)).collect();
        assert_eq!(found, expected, "at {when}");
    }
}
