//! How long it takes to load, check and plan.
//!
//! `cargo bench -p bleedwright-benches --bench plan`

mod job;

use bleedwright_drawing::{schematic, svg_for_page};
use bleedwright_network::{Network, load};
use bleedwright_planner::{Options, Plan, Purpose, plan};
use bleedwright_report::{card_html, drawn_words, record_of};
use bleedwright_simulation::{Parameters, every_order, simulate as simulated};
use divan::Bencher;
use divan::counter::ItemsCount;
use job::{Shape, load_all, plan_loaded, plan_text};

const LAPWING: &str = include_str!("../../layouts/lapwing.ron");

fn main() {
    divan::main();
}

#[divan::bench]
fn lapwing() -> usize {
    plan_text(divan::black_box(LAPWING)).steps.len()
}

/// The job card of a layout, from its text to the page.
#[divan::bench]
fn card_of_lapwing() -> usize {
    let loaded = load(divan::black_box(LAPWING).as_bytes());
    let network = loaded.sound_network().expect("the demo layout is sound");
    let plan = plan(network, &Options::default())
        .plan
        .expect("it can be planned");
    let picture = svg_for_page(&schematic(network, &plan, drawn_words));
    card_html(
        &plan,
        &record_of(network, &plan, &Options::default()),
        Some(&picture),
    )
    .len()
}

/// The whole simulated bleed of an empty car, plan included.
#[divan::bench]
fn simulate_lapwing(bencher: Bencher) {
    simulate(bencher, |network, options, plan| {
        simulated(network, options, plan, &Parameters::default()).is_ok()
    });
}

/// Every admissible order of a car with four screws.
#[divan::bench(sample_count = 20, sample_size = 1)]
fn every_order_of_lapwing(bencher: Bencher) {
    simulate(bencher, |network, options, plan| {
        every_order(
            network,
            options,
            plan,
            &Parameters::default(),
            None,
            |_, _| (),
        )
        .is_ok()
    });
}

fn simulate(bencher: Bencher, work: fn(&Network, &Options, &Plan) -> bool) {
    let loaded = load(LAPWING.as_bytes());
    let options = Options {
        purpose: Some(Purpose::Fill),
        ..Options::default()
    };
    bencher.bench_local(|| {
        let network = loaded.sound_network().expect("the demo layout is sound");
        let plan = plan(network, &options).plan.expect("it can be planned");
        assert!(work(network, &options, &plan));
    });
}

#[divan::bench(args = [1_000, 10_000])]
fn circuits(bencher: Bencher, parts: usize) {
    whole(bencher, Shape::Circuits, parts);
}

#[divan::bench(args = [1_000, 10_000])]
fn tree(bencher: Bencher, parts: usize) {
    whole(bencher, Shape::Tree, parts);
}

/// Large enough that a few samples tell all there is to tell.
#[divan::bench(args = [100_000], sample_count = 3, sample_size = 1)]
fn circuits_large(bencher: Bencher, parts: usize) {
    whole(bencher, Shape::Circuits, parts);
}

#[divan::bench(args = [100_000], sample_count = 3, sample_size = 1)]
fn tree_large(bencher: Bencher, parts: usize) {
    whole(bencher, Shape::Tree, parts);
}

#[divan::bench(args = [Shape::Circuits, Shape::Tree, Shape::Chain, Shape::Star])]
fn load_only_10_000(bencher: Bencher, shape: Shape) {
    let text = shape.layout(10_000);
    bencher.bench_local(|| load_all(&text));
}

#[divan::bench(args = [Shape::Circuits, Shape::Tree, Shape::Chain, Shape::Star])]
fn plan_only_10_000(bencher: Bencher, shape: Shape) {
    let loaded = load_all(&shape.layout(10_000));
    bencher.bench_local(|| plan_loaded(&loaded));
}

fn whole(bencher: Bencher, shape: Shape, parts: usize) {
    let text = shape.layout(parts);
    bencher
        .counter(ItemsCount::new(parts))
        .bench_local(|| plan_text(&text));
}
