//! Labels beside what they name, moved so that none lies on another.

/// About how wide a character of a chart's text is, in the units of its paper: type of 13, wider than most letters need.
pub const CHARACTER: f64 = 7.0;
/// How high a line of text is.
pub const LINE: f64 = 16.0;

/// Places for labels that want to be at `wanted`, at least a line apart and within `low` to `high` as far as they fit, in
/// the order in which they were given. Labels keep the order of what they name.
#[must_use]
pub fn apart(wanted: &[f64], low: f64, high: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.sort_by(|a, b| wanted[*a].total_cmp(&wanted[*b]));
    let mut places = vec![low; wanted.len()];
    // Down from the top, then up from the bottom: what was pushed below the edge pushes the others back.
    let mut least = low;
    for &label in &order {
        places[label] = wanted[label].clamp(low, high.max(low)).max(least);
        least = places[label] + LINE;
    }
    let mut most = high;
    for &label in order.iter().rev() {
        if places[label] > most && most >= low {
            places[label] = most;
        }
        most = places[label] - LINE;
    }
    places
}

/// The text, shortened to a width with an ellipsis where it is longer.
#[must_use]
pub fn within(text: &str, width: f64) -> String {
    let fits = |count: usize| count as f64 * CHARACTER <= width;
    if fits(text.chars().count()) {
        return text.to_owned();
    }
    let kept: String = text.chars().enumerate().take_while(|(i, _)| fits(i + 2)).map(|(_, c)| c).collect();
    format!("{}\u{2026}", kept.trim_end())
}

/// About how wide a label is, in the heavier type of labels.
#[must_use]
pub fn wide(text: &str) -> f64 {
    text.chars().count() as f64 * CHARACTER * 1.1
}

/// Rows for texts that reach from one place to another along a line, each in the first of `rows` rows where it touches no
/// other; `None` for one that fits in none.
#[must_use]
pub fn in_rows(texts: &[(f64, f64)], rows: usize) -> Vec<Option<usize>> {
    let mut order: Vec<usize> = (0..texts.len()).collect();
    order.sort_by(|a, b| texts[*a].0.total_cmp(&texts[*b].0));
    let mut taken = vec![f64::NEG_INFINITY; rows];
    let mut found = vec![None; texts.len()];
    for label in order {
        let (from, to) = texts[label];
        if let Some(row) = (0..rows).find(|row| taken[*row] <= from) {
            taken[row] = to + CHARACTER;
            found[label] = Some(row);
        }
    }
    found
}

/// Room that is taken or asked for: where it begins and ends from the left, and the line in its middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Left end.
    pub from: f64,
    /// Right end.
    pub to: f64,
    /// Middle line.
    pub at: f64,
}

impl Room {
    fn touches(&self, other: &Self, apart: f64) -> bool {
        self.from < other.to && other.from < self.to && (self.at - other.at).abs() < apart
    }
}

/// A middle line within `low` to `high` for each text, as near as can be to the one it asks for, so that it lies on no
/// text placed before and on no mark. Where there is no such line it stays where it asked to be.
#[must_use]
pub fn beside(wanted: &[Room], marks: &[(f64, f64)], (low, high): (f64, f64)) -> Vec<f64> {
    let mut placed: Vec<Room> = Vec::new();
    for room in wanted {
        let home = room.at.clamp(low, high.max(low));
        let steps = (0_u32..80).map(|step| {
            let away = f64::from(step.div_ceil(2)) * 5.0;
            if step % 2 == 0 { home + away } else { home - away }
        });
        let is_free = |at: &f64| {
            let here = Room { at: *at, ..*room };
            let mark = |(x, y): &(f64, f64)| Room { from: x - 6.0, to: x + 6.0, at: *y };
            (low..=high).contains(at)
                && !placed.iter().any(|other| here.touches(other, LINE))
                && !marks.iter().any(|at| here.touches(&mark(at), LINE * 0.75))
        };
        let at = steps.into_iter().find(is_free).unwrap_or(home);
        placed.push(Room { at, ..*room });
    }
    placed.into_iter().map(|room| room.at).collect()
}
