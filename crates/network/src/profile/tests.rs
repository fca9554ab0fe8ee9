//! Chains of joints at given heights.

use super::*;
use crate::load;

/// A chain of unions at these heights between a cylinder and a brake; every line is laid from the brake's side if
/// `is_backward`.
fn chain(heights: &[&str], via: &str, is_backward: bool) -> Network {
    let last = heights.len() - 1;
    let name = |nth: usize| match nth {
        0 => "cylinder".to_owned(),
        nth if nth == last => "brake".to_owned(),
        nth => format!("joint {nth}"),
    };
    let parts: Vec<String> = (1..last)
        .map(|nth| {
            format!(
                "(id: \"{}\", kind: union, height: \"{}\"),",
                name(nth),
                heights[nth]
            )
        })
        .collect();
    let lines: Vec<String> = (0..last)
        .map(|nth| {
            let (from, to) = if is_backward {
                (nth + 1, nth)
            } else {
                (nth, nth + 1)
            };
            let via = if nth == 0 { via } else { "" };
            format!(
                "(id: \"line {nth}\", from: \"{}\", to: \"{}\", \
                 kind: pipe(bore: \"3 mm\", length: \"1 m\"), via: [{via}]),",
                name(from),
                name(to)
            )
        })
        .collect();
    let text = format!(
        "(format: 1, name: \"chain\", fluid: dot4,
        reservoirs: [(id: \"pot\", height: \"1.2 m\", \
            compartments: [(id: \"pot\", max: \"200 ml\", feeds: \"cylinder\")])],
        cylinders: [(id: \"cylinder\", height: \"{}\", \
            kind: single(bore: \"22 mm\", stroke: \"30 mm\"))],
        parts: [{parts} (id: \"brake\", kind: wheel_cylinder(bore: \"20 mm\"), height: \"{}\", \
            wheel: trailer_left, screws: [(id: \"screw\")])],
        lines: [{lines}])",
        heights[0],
        heights[last],
        parts = parts.concat(),
        lines = lines.concat()
    );
    let loaded = load(text.as_bytes());
    loaded
        .sound_network()
        .unwrap_or_else(|| panic!("{:?}", loaded.findings))
        .clone()
}

/// Names and rises in mm of the high points of the only run, which must be those of the whole network.
fn found(network: &Network, judged: Judged) -> Vec<(usize, i64)> {
    let (screw, place) = network.screws().next().expect("there is one");
    let of_run = network.profile(screw).high_points(judged);
    let of_all = network.high_points(judged);
    let spots: Vec<Spot> = of_all.on_way_to(place.cell).map(|high| high.spot).collect();
    let reversed: Vec<Spot> = of_run.iter().rev().map(|(_, high)| high.spot).collect();
    assert_eq!(spots, reversed);
    assert_eq!(of_all.all().len(), of_run.len());
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a few thousand millimetres"
    )]
    let mm = |length: Length| length.get::<millimeter>().round() as i64;
    of_run
        .iter()
        .map(|(place, high)| (*place, mm(high.rise.nominal)))
        .collect()
}

#[test]
fn a_hump_of_two_parts_is_a_high_point() {
    for is_backward in [false, true] {
        let network = chain(
            &["0.6 m", "0.4 m", "0.7 m", "0.8 m", "0.5 m", "0.3 m"],
            "",
            is_backward,
        );
        assert_eq!(found(&network, Judged::Nominally), [(3, 400)]);
        let (screw, _) = network.screws().next().expect("there is one");
        let profile = network.profile(screw);
        let elements: Vec<Option<usize>> =
            profile.points.iter().map(|point| point.element).collect();
        assert_eq!(
            elements,
            [None, Some(1), Some(3), Some(5), Some(7), Some(9)]
        );
        assert_eq!(
            profile.reservoir.map(|height| height.nominal),
            Some(Length::new::<uom::si::length::meter>(1.2))
        );
    }
}

#[test]
fn what_only_rises_or_only_falls_has_no_high_point() {
    for heights in [
        ["0.3 m", "0.4 m", "0.7 m"],
        ["0.7 m", "0.4 m", "0.3 m"],
        ["0.5 m", "0.504 m", "0.5 m"],
    ] {
        assert_eq!(found(&chain(&heights, "", false), Judged::Nominally), []);
    }
}

#[test]
fn a_tolerance_may_hide_a_high_point() {
    let network = chain(&["0.5 m", "0.5 m ± 0.02 m", "0.5 m"], "", false);
    assert_eq!(found(&network, Judged::Nominally), []);
    assert_eq!(found(&network, Judged::Possibly), [(1, 0)]);
}

#[test]
fn points_of_a_line_stand_where_the_fluid_meets_them() {
    let via = "(at: \"0.8 m\", height: \"0.9 m\"), (at: \"0.2 m\", height: \"0.3 m\")";
    // Forward: 0.5, 0.3 at 0.2 m, 0.9 at 0.8 m, 0.4.
    let network = chain(&["0.5 m", "0.4 m", "0.3 m"], via, false);
    assert_eq!(found(&network, Judged::Nominally), [(2, 600)]);
    // Backward: the same figures count from the brake's side.
    let network = chain(&["0.5 m", "0.4 m", "0.2 m"], via, true);
    assert_eq!(found(&network, Judged::Nominally), [(1, 400), (3, 100)]);
    let (screw, _) = network.screws().next().expect("there is one");
    let into = network.profile(screw).points[1]
        .into
        .expect("its place is stated");
    assert!((into.nominal.get::<millimeter>() - 200.0).abs() < 1e-9);
}
