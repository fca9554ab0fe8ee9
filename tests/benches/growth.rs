//! How the time to load, check and plan, and to draw, grows with the number of parts.
//!
//! `cargo bench -p bleedwright-benches --bench growth`
//!
//! Fails where the slope of the log-log line is above [`STEEPEST`]: N log N
//! itself has a slope of about 1.11 over these sizes, the square one of 2.
#![expect(
    clippy::print_stdout,
    reason = "a benchmark is a program whose result is what it prints"
)]

mod job;

use bleedwright_drawing::{schematic, svg};
use bleedwright_planner::{Options, worth_measuring};
use bleedwright_report::drawn_words;
use job::{Shape, load_all, plan_text};
use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

const SIZES: [usize; 4] = [1_000, 3_000, 10_000, 30_000];

/// Times that every size is measured; the median counts.
const ROUNDS: usize = 5;

/// So many measurements are looked for, as by the program.
const MEASUREMENTS: usize = 5;

/// The steepest slope that passes.
const STEEPEST: f64 = 1.15;

fn main() -> ExitCode {
    let mut is_too_steep = false;
    for shape in [Shape::Circuits, Shape::Tree, Shape::Chain, Shape::Star] {
        for (job, seconds) in Job::ALL.into_iter().zip(medians(shape)) {
            for (parts, seconds) in SIZES.iter().zip(seconds) {
                println!(
                    "{job:?} {shape:?}: {parts:>6} parts {:>9.2} ms, {:.2} us a part",
                    seconds * 1e3,
                    seconds * 1e6 / *parts as f64
                );
            }
            let slope = slope(&seconds);
            let verdict = if slope <= STEEPEST {
                "at most"
            } else {
                "above"
            };
            println!(
                "{job:?} {shape:?}: slope of the log-log line {slope:.3}, {verdict} {STEEPEST}"
            );
            is_too_steep |= slope > STEEPEST;
        }
    }
    if is_too_steep {
        ExitCode::FAILURE
    } else {
        ExitCode::SUCCESS
    }
}

#[derive(Clone, Copy, Debug)]
enum Job {
    /// From the text of a layout to its plan and what is worth measuring.
    Plan,
    /// From a network and its plan to the text of its picture.
    Draw,
}

impl Job {
    const ALL: [Self; 2] = [Self::Plan, Self::Draw];
}

/// The median time of each job and size, in seconds. The sizes take turns, so that a machine that slows down for a while
/// slows all of them; the plan of a round is drawn in the same round.
fn medians(shape: Shape) -> [[f64; SIZES.len()]; Job::ALL.len()] {
    let texts = SIZES.map(|parts| shape.layout(parts));
    let loaded = texts.each_ref().map(|text| load_all(text));
    let mut times = Job::ALL.map(|_| SIZES.map(|_| Vec::with_capacity(ROUNDS)));
    for _ in 0..ROUNDS {
        for (size, (text, loaded)) in texts.iter().zip(&loaded).enumerate() {
            let network = loaded
                .sound_network()
                .expect("a benchmark's layout is sound");
            let start = Instant::now();
            let plan = black_box(plan_text(black_box(text)));
            let worth = worth_measuring(network, &Options::default(), &plan, MEASUREMENTS);
            times[0][size].push(start.elapsed());
            drop(black_box(worth));
            let start = Instant::now();
            let picture = black_box(svg(&schematic(
                black_box(network),
                black_box(&plan),
                drawn_words,
            )));
            times[1][size].push(start.elapsed());
            drop(picture);
        }
    }
    times.map(|sizes| {
        sizes.map(|mut rounds| {
            rounds.sort_unstable();
            let median: Duration = rounds[ROUNDS / 2];
            median.as_secs_f64()
        })
    })
}

/// The slope of the least-squares line through the logarithms.
fn slope(seconds: &[f64; SIZES.len()]) -> f64 {
    let points: Vec<(f64, f64)> = SIZES
        .iter()
        .zip(seconds)
        .map(|(parts, seconds)| ((*parts as f64).ln(), seconds.ln()))
        .collect();
    let count = points.len() as f64;
    let mean_x = points.iter().map(|(x, _)| x).sum::<f64>() / count;
    let mean_y = points.iter().map(|(_, y)| y).sum::<f64>() / count;
    let (mut covariance, mut variance) = (0.0, 0.0);
    for (x, y) in points {
        covariance += (x - mean_x) * (y - mean_y);
        variance += (x - mean_x) * (x - mean_x);
    }
    covariance / variance
}
