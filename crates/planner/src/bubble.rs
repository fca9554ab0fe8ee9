//! Whether a long bubble in a line of a run leaves with the fluid.

use crate::drive::fluid_state;
use crate::options::{Method, Options};
use crate::plan::LineBubble;
use bleedwright_hydraulics::bubble::drift::{Rise, rise};
use bleedwright_hydraulics::bubble::{Slope, Verdict, verdict};
use bleedwright_hydraulics::fluid::State;
use bleedwright_hydraulics::geometry::bore_area;
use bleedwright_hydraulics::{Evidence, Known};
use bleedwright_network::{Bounds, Element, LinkId, LinkKind, Network, ScrewId};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use uom::si::f64::{Area, Length, Time, Velocity, Volume};

/// How the fluid moves on a run: so much in a cycle, and how long it rests.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Advance {
    /// What passes in one cycle; for a steady flow any part of it.
    pub(crate) volume: Volume,
    /// How long the cycle takes.
    pub(crate) cycle: Time,
}

/// What a long bubble does in each line while the fluid rests.
#[derive(Debug)]
pub(crate) struct Bubbles<'n> {
    network: &'n Network,
    method: Method,
    /// By the number of the link; none for what is no pipe or hose.
    lines: Vec<Option<AtRest>>,
}

/// A long bubble in one line, the fluid at rest.
#[derive(Clone, Copy, Debug)]
struct AtRest {
    line: usize,
    area: Area,
    verdict: Verdict,
    rise: Velocity,
    /// How steeply the line leads down from the cylinder's side to the other:
    /// the sine of its mean slope, where the layout gives both heights.
    down: Option<f64>,
}

impl<'n> Bubbles<'n> {
    pub(crate) fn new(network: &'n Network, options: &Options) -> Self {
        let state = fluid_state(network, options);
        let mut climbs = Climbs::default();
        Self {
            network,
            method: options.method,
            lines: network
                .all_links()
                .map(|(link, _)| at_rest(network, &state, &mut climbs, link))
                .collect(),
        }
    }

    /// What a long bubble does in a line while the fluid rests; none for what is no pipe or hose.
    pub(crate) fn verdict_of(&self, link: LinkId) -> Option<Verdict> {
        self.lines[link.index()].map(|line| line.verdict)
    }

    /// Adds every pipe and hose of a run with what becomes of a long bubble in it.
    ///
    /// A bubble that a pipe is too thin to let climb goes where the fluid
    /// goes, and at least as fast. One that climbs falls back, in a line that
    /// leads down toward the screw, by its speed of rise times the slope; it
    /// is carried out if the fluid moves further than that in a cycle. Where
    /// the heights are not known the line is taken to stand upright, the worst
    /// case.
    ///
    /// A line of several runs is kept once, as its slowest flow finds it.
    pub(crate) fn add_run(
        &self,
        screw: ScrewId,
        advance: Advance,
        found: &mut BTreeMap<LinkId, LineBubble>,
    ) {
        for element in self.network.run(screw) {
            let Element::Link(link) = element else {
                continue;
            };
            let Some(at_rest) = self.lines[link.index()] else {
                continue;
            };
            let flow = advance.volume / at_rest.area / advance.cycle;
            match found.entry(link) {
                Entry::Occupied(mut slower) if flow < slower.get().flow => {
                    slower.insert(self.of_line(at_rest, advance));
                }
                Entry::Occupied(_) => {}
                Entry::Vacant(new) => {
                    new.insert(self.of_line(at_rest, advance));
                }
            }
        }
    }

    fn of_line(&self, at_rest: AtRest, advance: Advance) -> LineBubble {
        let line = &self.network.layout().lines[at_rest.line];
        let against = match (at_rest.down, self.method) {
            // Fluid that is pushed up helps what climbs.
            (Some(down), Method::Reverse) => -down,
            (Some(down), _) => down,
            (None, _) => 1.0,
        };
        let moved = advance.volume / at_rest.area;
        let fallen: Length = at_rest.rise * against.max(0.0) * advance.cycle;
        LineBubble {
            line: line.id.clone(),
            verdict: at_rest.verdict,
            rise: at_rest.rise,
            flow: moved / advance.cycle,
            is_carried: moved > fallen,
            are_heights_known: at_rest.down.is_some(),
            contents: line.contents(),
        }
    }
}

/// Whether a long bubble climbs, and how fast.
type Climb = (Verdict, Velocity);

/// How a long bubble climbs, for each bore of the layout: pipes come in a few
/// sizes, and a layout has many of each.
#[derive(Default)]
struct Climbs {
    by_bore: Vec<(Bounds<Length>, Option<Climb>)>,
}

impl Climbs {
    fn of(&mut self, bore: Bounds<Length>, state: &State) -> Option<Climb> {
        let found = self.by_bore.iter().find(|(known, _)| *known == bore);
        if let Some((_, climb)) = found {
            return *climb;
        }
        let climb = climb(bore, state);
        if self.by_bore.len() < MOST_BORES {
            self.by_bore.push((bore, climb));
        }
        climb
    }
}

/// Bores that are worth looking through.
const MOST_BORES: usize = 16;

/// Whether a long bubble climbs in a sloping line of this bore, and how fast.
fn climb(bore: Bounds<Length>, state: &State) -> Option<Climb> {
    let known = Known {
        low: bore.low,
        nominal: bore.nominal,
        high: bore.high,
        standing: Evidence::Guess,
    };
    // No pipe of a vehicle is upright all the way.
    let verdict = verdict(known, state.density, state.surface_tension, Slope::Sloping).ok()?;
    let rise = match rise(bore.nominal, &state.nominal().ok()?).ok()? {
        Rise::Stuck => Velocity::default(),
        Rise::Creeps(speed) | Rise::Drifts(speed) => speed,
    };
    Some((verdict, rise))
}

fn at_rest(network: &Network, state: &State, climbs: &mut Climbs, link: LinkId) -> Option<AtRest> {
    let LinkKind::Line(index) = network.link(link).kind else {
        return None;
    };
    let line = &network.layout().lines[index];
    let bore = line.bore()?;
    let (verdict, rise) = climbs.of(bore, state)?;
    Some(AtRest {
        line: index,
        area: bore_area(bore.nominal),
        verdict,
        rise,
        down: network.slope_of(link).map(|slope| -slope),
    })
}
