//! A calibration sheet as JSON text, from choices: honest for the most part, hostile in some of its numbers.

use super::choices::Choices;

/// Numbers as they may be typed, sent or made up. Some are no numbers at all.
const HOSTILE: &[&str] = &[
    "0",
    "-0",
    "-0.0",
    "0.000000000001",
    "999999999999",
    "999999999999.999999999999",
    "4.9e-324",
    "2.2250738585072014e-308",
    "1e308",
    "1.7976931348623157e308",
    "1e309",
    "-1e308",
    "1e-400",
    "0.1",
    "1e5",
    "1E+2",
    "1,5",
    "1.",
    ".5",
    "+5",
    "-7",
    "00012",
    "0.30000000000000004",
    "3.14159265358979323846264338327950288419716939937510582097494459",
    "NaN",
    "Infinity",
    "-Infinity",
    "",
    " ",
    " 5 ",
    "5 lb 8 oz",
    "\u{ff15}",
    "\u{2212}5",
    "1_000",
    "1 000",
    "0x10",
    "null",
    "true",
    "1000000",
    "1000000.000001",
    "100000",
    "100000.1",
    "0.00000000000000000000000000000000000000000000000000001",
];

/// The text of a request body.
pub(super) fn body(choices: &mut Choices<'_>) -> String {
    let hostile = choices.below(4);
    let mut maker = Maker { choices, hostile: [0, 40, 12, 4][hostile] };
    maker.body()
}

struct Maker<'c, 'b> {
    choices: &'c mut Choices<'b>,
    /// One number in so many is hostile; none for nought.
    hostile: usize,
}

impl Maker<'_, '_> {
    fn body(&mut self) -> String {
        let mut fields = vec![
            r#""metering_unit_id":"01980000-0000-7000-8000-000000000001""#.to_owned(),
            r#""lot_id":"01980000-0000-7000-8000-000000000002""#.to_owned(),
            format!(
                r#""occurred_at":"{}""#,
                self.rarely("2027-03-30T10:00:00+02:00", &["2027-03-30", "", "9999-12-31T23:59:60Z"])
            ),
            format!(r#""method":"{}""#, self.rarely("stationary", &["driven", "hand_turned", "thrown"])),
        ];
        if self.choices.once_in(2) {
            fields.push(format!(r#""roller_speed_rpm":{}"#, self.number(42.0, 1)));
        }
        if self.choices.once_in(2) {
            let (rate, speed) =
                (self.quantity(140.0, 0, &["kg/ha", "lb/ac"]), self.quantity(9.0, 1, &["km/h", "mph", "m/s"]));
            fields.push(format!(r#""planned":{{"rate":{rate},"speed":{speed}}}"#));
        }
        if self.choices.once_in(12) {
            fields.push(r#""gross/~x":1"#.to_owned());
        }
        fields.push(format!(r#""repeats":[{}]"#, self.repeats().join(",")));
        if self.choices.once_in(12) {
            fields.remove(self.choices.below(fields.len()));
        }
        format!("{{{}}}", fields.join(","))
    }

    /// One, several, equal ones, or more than are taken.
    fn repeats(&mut self) -> Vec<String> {
        let count = match self.choices.below(16) {
            0 => 1,
            14 => 0,
            15 => 51,
            some => some % 6 + 2,
        };
        let equal = self.choices.once_in(4);
        // One container for all that was weighed.
        let tare = self.choices.once_in(3).then(|| self.mass(0.32));
        let catches = match self.choices.below(16) {
            0 => 1,
            14 => 0,
            15 => 201,
            some => some % 8 + 1,
        };
        let mut repeats: Vec<String> = Vec::new();
        for at in 0..count {
            let same = repeats.first().filter(|_| equal || at > 6).cloned();
            repeats.push(same.unwrap_or_else(|| self.repeat(catches, tare.as_deref())));
        }
        repeats
    }

    fn repeat(&mut self, count: usize, tare: Option<&str>) -> String {
        let revolutions = self.revolutions();
        let mut catches: Vec<String> = Vec::new();
        for at in 0..count {
            let again = catches.last().filter(|_| at > 12).cloned();
            catches.push(again.unwrap_or_else(|| self.caught(at, tare)));
        }
        let aside = if self.choices.once_in(8) {
            format!(r#","set_aside":{}"#, self.rarely(r#""spilled""#, &[r#"" ""#, "null", "7"]))
        } else {
            String::new()
        };
        format!(r#"{{"revolutions":{revolutions},"catches":[{}]{aside}}}"#, catches.join(","))
    }

    fn caught(&mut self, at: usize, tare: Option<&str>) -> String {
        let tare = match tare {
            Some(shared) => shared.to_owned(),
            None if self.choices.once_in(6) => r#"{"value":"0","unit":"kg"}"#.to_owned(),
            None => self.mass(0.32),
        };
        let gross = self.mass(2.1);
        let runs = self.rarely("1", &["2", "0", "1000", "1001", "-1", "1.5"]);
        let label = if self.choices.once_in(4) { String::new() } else { format!(r#""label":"run {at}","#) };
        format!(r#"{{{label}"runs":{runs},"tare":{tare},"gross":{gross}}}"#)
    }

    fn revolutions(&mut self) -> String {
        match self.choices.below(6) {
            0..=2 => self.number(60.0, 1),
            3 => format!(r#"{{"pulses":{},"pulses_per_rev":{}}}"#, self.number(21_600.0, 0), self.number(360.0, 0)),
            4 => format!(r#"{{"turns":{}}}"#, self.number(24.0, 1)),
            _ => {
                let (driven, around) =
                    (self.quantity(50.0, 1, &["m", "ft"]), self.quantity(2.1, 2, &["m", "in", "cm"]));
                format!(r#"{{"distance":{driven},"circumference":{around}}}"#)
            }
        }
    }

    fn mass(&mut self, kg: f64) -> String {
        match self.choices.below(8) {
            0..=3 => self.quantity(kg, 3, &["kg"]),
            4 => self.quantity(kg * 1000.0, 0, &["g"]),
            5 => self.quantity(kg / 0.453_592_37, 2, &["lb", "kg", "stone"]),
            6 => format!(r#"{{"lb":{},"oz":{}}}"#, self.number(kg * 2.0, 0), self.number(7.5, 1)),
            _ => self.quantity(kg * 35.3, 1, &["oz", "t"]),
        }
    }

    fn quantity(&mut self, about: f64, places: usize, units: &[&str]) -> String {
        format!(r#"{{"value":{},"unit":"{}"}}"#, self.number(about, places), self.choices.one_of(units))
    }

    /// A decimal within some percent, as text or as a JSON number; or one of the hostile.
    fn number(&mut self, about: f64, places: usize) -> String {
        if self.hostile > 0 && self.choices.once_in(self.hostile) {
            let text = self.choices.one_of(HOSTILE);
            return if self.choices.once_in(2) && serde_json::from_str::<serde_json::Value>(text).is_ok() {
                text.to_owned()
            } else {
                serde_json::Value::from(text).to_string()
            };
        }
        let share = (f64::from(self.choices.byte()) - 128.0) / 128.0 * if self.choices.once_in(8) { 0.9 } else { 0.04 };
        let text = format!("{:.places$}", about * (1.0 + share));
        if self.choices.once_in(4) { text } else { format!(r#""{text}""#) }
    }

    fn rarely<'t>(&mut self, honest: &'t str, odd: &[&'t str]) -> &'t str {
        if self.hostile > 0 && self.choices.once_in(self.hostile * 2) { self.choices.one_of(odd) } else { honest }
    }
}
