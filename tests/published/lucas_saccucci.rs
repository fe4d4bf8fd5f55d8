//! How long a chart runs until it cries wolf: an independent check of where its limits are.
//!
//! Lucas and Saccucci, "Exponentially weighted moving average control schemes" (Technometrics 32, 1990): pairs of lambda and L
//! that give an average run of 500 while nothing is wrong (from memory). All run lengths were computed with 201
//! Gauss-Legendre nodes in numpy; here the same integral equation is solved with 61 over the chart's own limits:
//! `ARL(z) = 1 + integral over the limits of ARL(z') phi((z' - (1 - lambda) z) / lambda - shift) / lambda dz'`.

use std::f64::consts::PI;

use sowmark_core::drift::{Chart, ewma};

use crate::check::{Seen, Source, check};

const NODES: usize = 61;

/// Lambda, L, the run while nothing is wrong, and with everything one sigma off.
const RUNS: [(f64, f64, f64, &str); 7] = [
    (0.10, 2.814, 499.58, "10.3"),
    (0.20, 2.962, 499.74, "10.5"),
    (0.25, 2.998, 499.84, "11.1"),
    (0.40, 3.054, 499.95, "14.3"),
    (0.30, 3.0, 465.55, "11.7"),
    (0.30, 2.7, 193.09, "8.9"),
    (0.20, 3.0, 559.87, "10.8"),
];

pub(crate) fn source() -> Source {
    let mut checks = Vec::new();
    for (lambda, limit_width, in_control, shifted) in RUNS {
        let inputs = format!("lambda {lambda}, L {limit_width}");
        let found = average_run(lambda, limit_width, 0.0);
        let held = check("average run, nothing wrong", &inputs, found)
            .computed(in_control, 0.005 / in_control, "numpy, to two decimals");
        let of_the_table = (499.0..500.0).contains(&in_control);
        checks.push(if of_the_table { held.prints_within("500", 0.5, "the table's L has three decimals") } else { held });
        let off = average_run(lambda, limit_width, 1.0);
        let value: f64 = shifted.parse().expect("a number");
        checks.push(check("average run, one sigma off", inputs, off).computed(value, 0.051 / value, "numpy, to one decimal"));
    }
    Source {
        title: "Lucas and Saccucci 1990, run lengths of EWMA charts",
        address: "Technometrics 32 (1990), 1-12",
        seen: Seen::Memory,
        checks,
    }
}

/// From a start at zero, in units of sigma.
fn average_run(lambda: f64, limit_width: f64, shift: f64) -> f64 {
    let chart = Chart { lambda, limit_width, sigma: 1.0 };
    let limit = *chart.half_widths(1_000).last().expect("a thousand widths");
    let nodes: Vec<_> = gauss_legendre().into_iter().map(|(x, w)| (limit * x, limit * w)).collect();
    let density = |from: f64, to: f64| {
        // Where the average goes without a surprise, from core's own recursion.
        let drawn = ewma(&[shift], lambda, from)[0];
        let surprise = (to - drawn) / lambda;
        (-surprise * surprise / 2.0).exp() / (2.0 * PI).sqrt() / lambda
    };
    let mut rows: Vec<Vec<f64>> = Vec::new();
    for (i, (from, _)) in nodes.iter().enumerate() {
        let mut row: Vec<_> = nodes.iter().map(|(to, weight)| -weight * density(*from, *to)).collect();
        row[i] += 1.0;
        row.push(1.0);
        rows.push(row);
    }
    let runs = solve(rows);
    1.0 + nodes.iter().zip(runs).map(|((to, weight), run)| weight * density(0.0, *to) * run).sum::<f64>()
}

/// Nodes and weights on -1 to 1, by Newton's steps on the Legendre polynomial.
fn gauss_legendre() -> Vec<(f64, f64)> {
    let n = NODES as f64;
    let node = |i: usize| {
        let mut x = (PI * (i as f64 + 0.75) / (n + 0.5)).cos();
        let mut slope = 0.0;
        for _ in 0..20 {
            let (mut before, mut here) = (1.0, x);
            for k in 2..=NODES {
                let k = k as f64;
                (before, here) = (here, ((2.0 * k - 1.0) * x * here - (k - 1.0) * before) / k);
            }
            slope = n * (x * here - before) / (x * x - 1.0);
            x -= here / slope;
        }
        (x, 2.0 / ((1.0 - x * x) * slope * slope))
    };
    (0..NODES).map(node).collect()
}

/// Gauss's elimination, the last column being the right side.
fn solve(mut rows: Vec<Vec<f64>>) -> Vec<f64> {
    let count = rows.len();
    for step in 0..count {
        let pivot = (step..count).max_by(|&a, &b| rows[a][step].abs().total_cmp(&rows[b][step].abs())).expect("a row");
        rows.swap(step, pivot);
        let (done, rest) = rows.split_at_mut(step + 1);
        let lead = &done[step];
        for row in rest {
            let share = row[step] / lead[step];
            row.iter_mut().zip(lead).skip(step).for_each(|(value, above)| *value -= share * above);
        }
    }
    let mut found = vec![0.0; count];
    for step in (0..count).rev() {
        let known: f64 = (step + 1..count).map(|column| rows[step][column] * found[column]).sum();
        found[step] = (rows[step][count] - known) / rows[step][step];
    }
    found
}
