//! One step of the integration.

use super::motion::Stretch;
use super::network::{NodeId, Piston, Plan, StrokeNetwork};
use super::pocket::Level;
use super::push::Push;
use super::tableau::{CARRIED, GAMMA, QUADRATURE, QUADRATURE_ERROR, STAGE_WEIGHTS, STAGES};
use crate::range::{OutOfRange, between};
use uom::si::f64::{Pressure, Ratio, Volume};
use uom::si::pressure::bar;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// The error of each step in each pressure, pocket and delivered volume stays below the absolute tolerance plus the
/// relative one times the value.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tolerance {
    pub(super) relative: f64,
    pub(super) pressure_pa: f64,
    pub(super) volume_m3: f64,
}

/// Below this rounding leaves no room, above it nothing is controlled any more.
const RELATIVE: (f64, f64) = (1e-12, 1e-2);

impl Tolerance {
    /// A relative tolerance, and absolute ones of that share of 1 bar and of 1 ml.
    pub(super) fn new(relative: Ratio) -> Result<Self, OutOfRange> {
        let relative = between("tolerance", relative.get::<ratio>(), RELATIVE, "")?;
        Ok(Self {
            relative,
            pressure_pa: Pressure::new::<bar>(relative).value,
            volume_m3: Volume::new::<milliliter>(relative).value,
        })
    }
}

/// Everything that changes during a run, and room to compute in.
///
/// What a node stores is integrated, and not its pressure: sums of stored and delivered volumes are then the same
/// before and after every step, up to rounding.
pub(super) struct Stepper<'a> {
    pub(super) network: &'a StrokeNetwork,
    plan: &'a Plan,
    pub(super) tolerance: Tolerance,
    pub(super) now: Moment,
    pub(super) next: Moment,
    /// `u_i`, stage by stage.
    pub(super) stored_stages: [Vec<f64>; STAGES],
    levels: Vec<Level>,
    pub(super) capacities_m3_per_pa: Vec<f64>,
    stars: Vec<f64>,
    shares: Vec<f64>,
    right: Vec<f64>,
    conductances: Vec<f64>,
    slopes_m3_per_s: Vec<f64>,
    pub(super) errors_m3: Vec<f64>,
}

/// The state with all that follows from it.
#[derive(Clone)]
pub(super) struct Moment {
    pub(super) time_s: f64,
    pub(super) stored_m3: Vec<f64>,
    pub(super) delivered_m3: Vec<f64>,
    pub(super) levels: Vec<Level>,
    /// Where each piston is.
    pub(super) travels_m: Vec<f64>,
}

impl<'a> Stepper<'a> {
    /// At the start of a run: everything at the pressure of the atmosphere and without flow.
    pub(super) fn new(network: &'a StrokeNetwork, tolerance: Tolerance) -> Self {
        let plan = network.plan();
        let (nodes, branches) = (network.stores.len(), network.branches.len());
        let levels: Vec<Level> = (network.stores.iter())
            .map(|store| store.level_at(0.0, network.atmosphere_pa))
            .collect();
        let stretch = Stretch {
            begin_s: 0.0,
            end_s: 0.0,
        };
        let travel_m = |piston: &Piston| piston.motion.point_within(0.0, stretch).travel_m;
        let now = Moment {
            time_s: 0.0,
            stored_m3: (network.stores.iter().zip(&levels))
                .map(|(store, &level)| store.stored_m3(level))
                .collect(),
            delivered_m3: vec![0.0; branches],
            levels: levels.clone(),
            travels_m: network.pistons.iter().map(travel_m).collect(),
        };
        Self {
            network,
            plan,
            tolerance,
            next: now.clone(),
            now,
            stored_stages: std::array::from_fn(|_| vec![0.0; nodes]),
            levels,
            capacities_m3_per_pa: vec![0.0; nodes],
            stars: vec![0.0; nodes],
            shares: vec![0.0; plan.elimination.conductances()],
            right: vec![0.0; nodes],
            conductances: vec![0.0; branches],
            slopes_m3_per_s: vec![0.0; branches],
            errors_m3: vec![0.0; branches],
        }
    }

    /// Tries a step. The result is the largest error against its tolerance: at most 1 for a good step, not finite for
    /// one that left what can be computed.
    pub(super) fn attempt(&mut self, step_s: f64, stretch: Stretch) -> f64 {
        let pistons = self.network.pistons.iter().zip(&self.now.travels_m);
        let pushes: Vec<Push> = pistons
            .map(|(piston, &travel_m)| {
                Push::new(piston, travel_m, self.now.time_s, step_s, stretch)
            })
            .collect();
        self.factor(step_s);
        self.next.delivered_m3.clone_from(&self.now.delivered_m3);
        self.errors_m3.fill(0.0);
        for stage in 0..STAGES {
            if !self.take_stage(stage) {
                return f64::INFINITY;
            }
            self.solve_stage(stage, step_s, &pushes);
        }
        self.finish(step_s, &pushes)
    }

    /// Makes the step that was tried last.
    pub(super) fn accept(&mut self, time_s: f64) {
        std::mem::swap(&mut self.now, &mut self.next);
        self.now.time_s = time_s;
    }

    fn pressure_pa(&self, levels: &[Level], node: NodeId) -> f64 {
        match node {
            NodeId::Inner(index) => levels[index].gauge_pa,
            NodeId::End(index) => self.network.ends_pa[index],
        }
    }

    fn difference_pa(&self, levels: &[Level], branch: usize) -> f64 {
        let branch = &self.network.branches[branch];
        self.pressure_pa(levels, branch.from) - self.pressure_pa(levels, branch.to)
    }

    /// The matrix `M / (h g) - J`, in the pressures: capacities at the nodes, conductances between them.
    fn factor(&mut self, step_s: f64) {
        let rate_per_s = 1.0 / (step_s * GAMMA);
        let atmosphere_pa = self.network.atmosphere_pa;
        for (node, store) in self.network.stores.iter().enumerate() {
            let capacity = store.capacity_m3_per_pa(self.now.levels[node], atmosphere_pa);
            self.capacities_m3_per_pa[node] = capacity;
            self.stars[node] = capacity * rate_per_s;
        }
        self.shares.fill(0.0);
        for (index, branch) in self.network.branches.iter().enumerate() {
            let difference_pa = self.difference_pa(&self.now.levels, index);
            let conductance = branch.law.slope_pa_s_per_m3(difference_pa).recip();
            self.conductances[index] = conductance;
            match (branch.from, branch.to) {
                (NodeId::Inner(node), NodeId::End(_)) | (NodeId::End(_), NodeId::Inner(node)) => {
                    self.stars[node] += conductance;
                }
                (NodeId::End(_), NodeId::End(_)) => {}
                (NodeId::Inner(_), NodeId::Inner(_)) => {
                    if let Some(place) = self.plan.places[index] {
                        self.shares[place] += conductance;
                    }
                }
            }
        }
        self.plan
            .elimination
            .factor(&mut self.stars, &mut self.shares);
    }

    /// The values at which a stage is evaluated, into `next`. Whether every node can have such a pressure.
    fn take_stage(&mut self, stage: usize) -> bool {
        if stage == 0 {
            self.levels.clone_from(&self.now.levels);
            return true;
        }
        self.add_stages(STAGE_WEIGHTS[stage]);
        self.find_levels()
    }

    /// `y + sum_j w_j u_j`, into `next`.
    fn add_stages(&mut self, weights: &[f64]) {
        let stored_m3 = &mut self.next.stored_m3;
        stored_m3.clone_from(&self.now.stored_m3);
        for (weight, stored) in weights.iter().zip(&self.stored_stages) {
            for (sum, add) in stored_m3.iter_mut().zip(stored) {
                *sum += weight * add;
            }
        }
    }

    /// The pressures at what is stored in `next`. Whether there are such.
    fn find_levels(&mut self) -> bool {
        let nodes = self.network.stores.iter().zip(&self.next.stored_m3);
        for ((store, &stored_m3), level) in nodes.zip(&mut self.levels) {
            match store.level(stored_m3, self.network.atmosphere_pa, *level) {
                Some(found) => *level = found,
                None => return false,
            }
        }
        true
    }

    /// One set of linear equations: the stage's `u`, and its part of what the branches deliver.
    fn solve_stage(&mut self, stage: usize, step_s: f64, pushes: &[Push]) {
        let carried = CARRIED[stage];
        self.right.fill(0.0);
        for (weight, stored) in carried.iter().zip(&self.stored_stages) {
            for (sum, add) in self.right.iter_mut().zip(stored) {
                *sum += weight * add / step_s;
            }
        }
        for push in pushes {
            self.right[push.node] += push.drive_m3_per_s(stage, step_s);
        }
        for (index, branch) in self.network.branches.iter().enumerate() {
            let flow = (branch.law).flow_m3_per_s(self.difference_pa(&self.levels, index));
            self.slopes_m3_per_s[index] = flow;
            if let NodeId::Inner(node) = branch.from {
                self.right[node] -= flow;
            }
            if let NodeId::Inner(node) = branch.to {
                self.right[node] += flow;
            }
        }
        self.plan
            .elimination
            .solve(&self.stars, &self.shares, &mut self.right);
        for (node, stored) in self.stored_stages[stage].iter_mut().enumerate() {
            *stored = self.capacities_m3_per_pa[node] * self.right[node];
        }
        for (index, branch) in self.network.branches.iter().enumerate() {
            let rise_pa = |node: NodeId| match node {
                NodeId::Inner(index) => self.right[index],
                NodeId::End(_) => 0.0,
            };
            let driven_pa = rise_pa(branch.from) - rise_pa(branch.to);
            let more_m3_per_s = self.conductances[index] * driven_pa;
            let volume_m3 = step_s * (self.slopes_m3_per_s[index] + more_m3_per_s);
            self.next.delivered_m3[index] += QUADRATURE[stage] * volume_m3;
            self.errors_m3[index] += QUADRATURE_ERROR[stage] * volume_m3;
        }
    }

    /// Adds the stages up to the new values; the largest error against its tolerance.
    fn finish(&mut self, step_s: f64, pushes: &[Push]) -> f64 {
        let last = STAGES - 1;
        // The last stage was evaluated at the new values but for its own u.
        for (sum, add) in self
            .next
            .stored_m3
            .iter_mut()
            .zip(&self.stored_stages[last])
        {
            *sum += add;
        }
        if !self.find_levels() {
            return f64::INFINITY;
        }
        self.next.levels.clone_from(&self.levels);
        for (travel_m, push) in self.next.travels_m.iter_mut().zip(pushes) {
            *travel_m = push.travel_m;
        }
        self.largest_error(step_s, pushes)
    }
}
