//! Pipes side by side: the one resistance that a network of them has between two of its nodes.

use crate::elimination::Elimination;
use crate::resistance::HydraulicResistance;
use std::collections::BTreeMap;

/// A pipe between two nodes, which are counted from zero.
pub type Branch = (usize, usize, HydraulicResistance);

/// The resistance between two nodes of a network, whatever ways lead from one to the other; none where no way does.
///
/// Formula: `sum_j g_ij (p_i - p_j) = q_i`, with a flow of 1 in at the one end and out at the other; the resistance is
/// the pressure between them.
///
/// Symbols: `g_ij` one over the resistance between two nodes (m3/(Pa s)); `p` pressure (Pa); `q` what flows in (m3/s).
///
/// Range: laminar flow in every pipe; resistances of zero or more, zero being a direct joint. What leads off to shut
/// ends passes nothing and may be among the branches. Branches with a resistance that is no such number are left out.
///
/// Source: star-mesh transform, [Rosen1924](crate#sources); order by least degree, [Tinney1967](crate#sources).
///
/// A trunk of 3 and behind it 0.6 beside 2.4:
///
/// ```
/// use bleedwright_hydraulics::{HydraulicResistance, effective_resistance};
///
/// let pipe = |a, b, resistance| (a, b, HydraulicResistance::new(resistance));
/// let pipes = [pipe(0, 1, 3.0), pipe(1, 2, 0.6), pipe(1, 2, 2.4)];
/// let all = effective_resistance(&pipes, 0, 2).expect("a way leads there");
/// assert!((all.pascal_seconds_per_cubic_metre() - 3.48).abs() < 1e-12);
/// assert_eq!(effective_resistance(&pipes, 0, 3), None);
/// ```
pub fn effective_resistance(
    branches: &[Branch],
    from: usize,
    to: usize,
) -> Option<HydraulicResistance> {
    let mut merged = Merged::of(branches);
    let (from, to) = (merged.node(from), merged.node(to));
    if from == to {
        return Some(HydraulicResistance::default());
    }
    // The other end lies at no pressure: what leads there is the node's own.
    let mut numbers: BTreeMap<usize, usize> = BTreeMap::new();
    let (mut own, mut joined) = (Vec::new(), Vec::new());
    for (a, b, resistance) in branches {
        let resistance = resistance.pascal_seconds_per_cubic_metre();
        let ends = [merged.node(*a), merged.node(*b)];
        if !(resistance > 0.0 && resistance.is_finite()) || ends[0] == ends[1] {
            continue;
        }
        let inner = ends.into_iter().filter(|node| *node != to);
        let inner: Vec<usize> = inner
            .map(|node| {
                let next = numbers.len();
                *numbers.entry(node).or_insert(next)
            })
            .collect();
        own.resize(numbers.len(), 0.0);
        match inner[..] {
            [a, b] => joined.push(((a, b), 1.0 / resistance)),
            [a] => own[a] += 1.0 / resistance,
            _ => {}
        }
    }
    let from = *numbers.get(&from)?;
    let pairs: Vec<(usize, usize)> = joined.iter().map(|(pair, _)| *pair).collect();
    let (plan, places) = Elimination::plan(own.len(), &pairs);
    let mut between = vec![0.0; plan.conductances()];
    for (place, (_, conductance)) in places.into_iter().zip(joined) {
        between[place] += conductance;
    }
    plan.factor(&mut own, &mut between);
    let mut pressures = vec![0.0; own.len()];
    pressures[from] = 1.0;
    plan.solve(&own, &between, &mut pressures);
    // Without a way nothing can flow, whatever the pressure.
    let found = pressures[from];
    found.is_finite().then(|| HydraulicResistance::new(found))
}

/// Nodes with those that direct joints make one with them.
struct Merged(BTreeMap<usize, usize>);

impl Merged {
    fn of(branches: &[Branch]) -> Self {
        let mut merged = Self(BTreeMap::new());
        for (a, b, resistance) in branches {
            if resistance.pascal_seconds_per_cubic_metre() == 0.0 {
                let (a, b) = (merged.node(*a), merged.node(*b));
                if a != b {
                    merged.0.insert(a.max(b), a.min(b));
                }
            }
        }
        merged
    }

    fn node(&mut self, node: usize) -> usize {
        let mut top = node;
        while let Some(&above) = self.0.get(&top) {
            top = above;
        }
        // The next look is short.
        let mut here = node;
        while here != top {
            here = self.0.insert(here, top).unwrap_or(top);
        }
        top
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fluid::Liquid;
    use crate::pipe::Pipe;
    use crate::screw::Drilling;
    use crate::stroke::BranchLaw;
    use proptest::prelude::*;
    use uom::si::f64::{KinematicViscosity, Length, MassDensity, Pressure, SurfaceTension};
    use uom::si::kinematic_viscosity::square_millimeter_per_second;
    use uom::si::length::{meter, millimeter};
    use uom::si::mass_density::kilogram_per_cubic_meter;
    use uom::si::pressure::bar;
    use uom::si::surface_tension::millinewton_per_meter;
    use uom::si::volume_rate::milliliter_per_second;

    fn between(pipes: &[(usize, usize, f64)], from: usize, to: usize) -> Option<f64> {
        let branches: Vec<Branch> = pipes
            .iter()
            .map(|&(a, b, resistance)| (a, b, HydraulicResistance::new(resistance)))
            .collect();
        effective_resistance(&branches, from, to)
            .map(HydraulicResistance::pascal_seconds_per_cubic_metre)
    }

    /// A bridge that no rule of series and parallel takes apart: 170/71, by Kirchhoff's laws on paper.
    const BRIDGE: [(usize, usize, f64); 5] = [
        (0, 1, 1.0),
        (0, 2, 2.0),
        (1, 2, 5.0),
        (1, 3, 3.0),
        (2, 3, 4.0),
    ];

    #[test]
    fn a_bridge_as_on_paper() {
        let found = between(&BRIDGE, 0, 3).expect("ways lead there");
        assert!((found - 170.0 / 71.0).abs() < 1e-14, "{found}");
    }

    /// The same bridge in metres of 3.33 mm pipe under 1 bar, alone and with a screw of 1.5 mm behind it; 15 mm2/s,
    /// 1050 kg/m3. By hand: the bridge's 2.394366 m of pipe and the drilling's root.
    #[test]
    fn a_bridge_of_pipes_before_a_screw() {
        let liquid = Liquid::new(
            MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
            KinematicViscosity::new::<square_millimeter_per_second>(15.0),
            SurfaceTension::new::<millinewton_per_meter>(33.0),
        )
        .expect("it is a liquid");
        let mm = Length::new::<millimeter>;
        let pipes: Vec<Branch> = BRIDGE
            .iter()
            .map(|&(a, b, length_m)| {
                let pipe = Pipe::new(mm(3.33), Length::new::<meter>(length_m));
                let pipe = pipe.expect("it is a pipe");
                (a, b, pipe.resistance(liquid.dynamic_viscosity()))
            })
            .collect();
        let all = effective_resistance(&pipes, 0, 3).expect("ways lead there");
        let pressure = Pressure::new::<bar>(1.0);
        let flow = all.flow(pressure).get::<milliliter_per_second>();
        assert!((flow - 8.002_87).abs() < 5e-6, "{flow}");
        let screw = Drilling::new(mm(1.5), mm(8.0)).expect("it is a drilling");
        let flow = screw.loss(&liquid).flow_behind(all, pressure);
        let flow = flow.get::<milliliter_per_second>();
        assert!((flow - 6.244_14).abs() < 5e-6, "{flow}");
        // Without the quadratic part it is the sum of two resistances.
        let linear = BranchLaw {
            quadratic_pa_s2_per_m6: 0.0,
            ..screw.loss(&liquid)
        };
        let sum = (all + HydraulicResistance::new(linear.linear_pa_s_per_m3)).flow(pressure);
        assert!((linear.flow_behind(all, pressure) / sum).value - 1.0 < 1e-12);
    }

    #[test]
    fn direct_joints_make_one_of_two_nodes() {
        let pipes = [
            (0, 1, 0.0),
            (1, 2, 4.0),
            (0, 2, 4.0),
            (2, 3, 0.0),
            (3, 2, 0.0),
        ];
        assert_eq!(between(&pipes, 0, 3), Some(2.0));
        assert_eq!(between(&pipes, 0, 1), Some(0.0));
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

        /// A ring of any size: both ways round side by side.
        #[test]
        fn a_ring_is_two_ways_side_by_side(
            pipes in prop::collection::vec(1e-3_f64..1e3, 3..40),
            at in 1_usize..39,
        ) {
            let count = pipes.len();
            let at = 1 + at % (count - 1);
            let ring: Vec<_> = (0..count).map(|nth| (nth, (nth + 1) % count, pipes[nth])).collect();
            let (one, other) = (pipes[..at].iter().sum::<f64>(), pipes[at..].iter().sum::<f64>());
            let found = between(&ring, 0, at).expect("two ways lead there");
            prop_assert!((found / (one * other / (one + other)) - 1.0).abs() < 1e-12);
        }

        /// Another way never makes it harder, and what leads off to shut ends changes nothing.
        #[test]
        fn another_way_never_hinders(
            joins in prop::collection::vec((0_usize..9, 0_usize..9, 1e-2_f64..1e2), 1..25),
            more in (0_usize..9, 0_usize..9, 1e-2_f64..1e2),
        ) {
            let alone = between(&joins, 0, 8);
            let with: Vec<_> = joins.iter().copied().chain([more]).collect();
            if let Some(alone) = alone {
                let with = between(&with, 0, 8).expect("the old ways still lead there");
                prop_assert!(with <= alone * (1.0 + 1e-12));
                let off: Vec<_> = joins.iter().copied().chain([(3, 9, more.2), (9, 10, 1.0)]).collect();
                let off = between(&off, 0, 8).expect("the old ways still lead there");
                prop_assert!((off / alone - 1.0).abs() < 1e-12);
            }
        }
    }
}
