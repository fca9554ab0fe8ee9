//! What a shut circuit takes up of a stroke while a screw of the circuit beside it is open.
//!
//! Formula, at the end of a stroke, when nothing flows any more and the chamber with the open screw is at the
//! atmosphere; `L` is what the screw gets less of what its own piston displaces for the pedal's travel:
//!
//! - secondary screw open: `p = d / A`, `L = V(p)`;
//! - primary screw open: `p` from 0, nominally that, to `d / A`, `L = V(p)`;
//! - across a balance bar: `w = (1 - b) / b`, `p = max(0, w d' - d) / A`, `L = w A' V(p) / A`; where the shut piston has
//!   not moved at all the screw gets `w A' c` more.
//!
//! Symbols: `p` pressure in the shut circuit (bar), `V` what it takes up at that (ml); `d` springs and seals (N) and `A` area
//! (mm2) of the floating piston or of the shut cylinder, `c` its cut-off (mm); `d'`, `A'` the same of the cylinder whose
//! screw is open, `b` its share of the bar.
//!
//! Range: the screw is shut after a hold, see [`TakeUp::settles_in`]; shut at once, more is left in the shut circuit. No air
//! in it. ASSUMPTION: pistons of brakes roll back, and shoes are pulled back, each time the pedal comes up, so that every
//! stroke pays anew. ASSUMPTION: with the primary screw open the floating piston stands still, and its seals hold back no
//! more than what springs and seals take of it.
//!
//! Source: derived in `docs/model.md`.

use crate::assumed::FLOATING_DRAG_N;
use crate::build::{Builder, plain};
use crate::chamber::PedalChamber;
use crate::settled::{Medium, N_PER_BAR_MM2, SettledChamber};
use crate::unknown::{Choice, Range, Unknown};
use bleedwright_hydraulics::HydraulicResistance;
use bleedwright_network::{Bounds, CircuitId, Network};
use std::collections::HashMap;
use uom::si::f64::{Pressure, Time, Volume};
use uom::si::pressure::{bar, pascal};
use uom::si::ratio::ratio;
use uom::si::time::second;
use uom::si::volume::{cubic_meter, milliliter};

/// What a shut circuit takes up of a stroke.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TakeUp {
    /// The shut circuit.
    pub shut: CircuitId,
    /// Its pressure once nothing flows any more.
    pub pressure: Bounds<Pressure>,
    /// What the screw gets less.
    pub volume: Bounds<Volume>,
    /// What it may get more, where the piston of the shut circuit has not moved at all.
    pub more: Volume,
    /// What the shut circuit takes up at the pressure that follows, with everything nominal.
    soft: (Volume, Pressure),
}

impl TakeUp {
    /// How fast the shut circuit gives back what the flow squeezed into it, as a time constant.
    ///
    /// Formula: `t = R C`, with `R` the pressure for each flow through the open run and `C` what the shut circuit takes up for
    /// each pressure, both near the end, when the flow is slow.
    pub fn settles_in(&self, open_run: HydraulicResistance) -> Time {
        let (volume, pressure) = self.soft;
        let soft_m3_per_pa = volume.get::<cubic_meter>() / pressure.get::<pascal>();
        Time::new::<second>(open_run.pascal_seconds_per_cubic_metre() * soft_m3_per_pa)
    }
}

/// The circuits of a layout, each of which is shut while one beside it is bled.
#[derive(Clone, Debug)]
pub struct ShutCircuits<'n> {
    builder: Builder<'n>,
    bulk_modulus_bar: Range,
    /// By cylinder and chamber.
    circuits: HashMap<(usize, usize), CircuitId>,
    /// For each cylinder under a bar the other one, and its travel for each travel of this one, given the pedal's.
    across: HashMap<usize, (usize, [f64; 3])>,
}

/// Where the shut circuit is.
#[derive(Clone, Copy, Debug)]
enum Place {
    /// Before the floating piston, whose own circuit has the open screw.
    BeforeFloating,
    /// Behind the floating piston.
    BehindFloating,
    /// On the other cylinder of a bar, which gets so much of the force for each part of the open one's.
    AcrossBar([f64; 3]),
}

impl<'n> ShutCircuits<'n> {
    /// Those of a sound layout with a fluid of this stiffness.
    pub fn new(network: &'n Network, bulk_modulus: Bounds<Pressure>) -> Self {
        let layout = network.layout();
        let mut across = HashMap::new();
        if !layout.balance_bars.is_empty() {
            let place: HashMap<&str, usize> = (layout.cylinders.iter().enumerate())
                .map(|(index, cylinder)| (cylinder.id.as_str(), index))
                .collect();
            for joined in &layout.balance_bars {
                let [one, other] = &joined.cylinders[..] else {
                    continue;
                };
                let (Some(one), Some(other)) = (place.get(&**one), place.get(&**other)) else {
                    continue;
                };
                let share = joined.share.bounds.map(|share| share.get::<ratio>());
                let beside = |own: f64| (1.0 - own) / own;
                let of_one = [share.high, share.nominal, share.low].map(beside);
                let of_other = [share.low, share.nominal, share.high].map(|own| beside(1.0 - own));
                across.insert(*one, (*other, of_one));
                across.insert(*other, (*one, of_other));
            }
        }
        Self {
            builder: Builder::new(network),
            bulk_modulus_bar: plain(bulk_modulus, Unknown::BulkModulus, |value| {
                value.get::<bar>()
            }),
            circuits: network
                .circuits()
                .map(|(id, circuit)| ((circuit.cylinder, circuit.chamber_index), id))
                .collect(),
            across,
        }
    }

    /// What is taken up while a screw of this circuit alone is open; none where nothing hangs on the same pedal.
    pub fn beside(&mut self, open: CircuitId) -> Option<TakeUp> {
        let network = self.builder.network;
        let at = network.circuit(open);
        let (here, nth) = (at.cylinder, at.chamber_index);
        let beside = self.circuits.get(&(here, 1 - nth.min(1)));
        let (shut, place) = match (beside, self.across.get(&here)) {
            (Some(shut), _) if nth == 0 => (*shut, Place::BehindFloating),
            (Some(shut), _) => (*shut, Place::BeforeFloating),
            (None, Some((other, weight))) => {
                let shut = self.circuits.get(&(*other, 0))?;
                (*shut, Place::AcrossBar(*weight))
            }
            (None, None) => return None,
        };
        let chamber = |id| {
            (
                network.chamber_of(id),
                network.circuit(id).chamber_index > 0,
            )
        };
        let (own, is_floating) = chamber(open);
        let open = self.builder.piston(own, open, is_floating);
        let (own, is_floating) = chamber(shut);
        let chamber = self.builder.chamber(own, shut, is_floating);
        let case = Case {
            place,
            open,
            chamber,
            bulk_modulus_bar: self.bulk_modulus_bar,
        };
        Some(case.take_up(shut))
    }
}

/// One screw open, one circuit shut.
struct Case {
    place: Place,
    open: PedalChamber,
    chamber: PedalChamber,
    bulk_modulus_bar: Range,
}

impl Case {
    fn take_up(&self, shut: CircuitId) -> TakeUp {
        let [low, nominal, high] = self.pressures_bar();
        let chamber = self.settle(&Choice::nominal());
        let soft_bar = if nominal > 0.0 {
            nominal
        } else {
            FLOATING_DRAG_N[1] / (N_PER_BAR_MM2 * chamber.area_mm2)
        };
        let soft_ml = taken_ml(&chamber, soft_bar);
        let taken = [
            self.least_ml(low),
            taken_ml(&chamber, nominal),
            self.most_ml(high),
        ];
        let [screw_low, screw_nominal, screw_high] = self.at_the_screw(taken);
        TakeUp {
            shut,
            pressure: bounds([low, nominal, high]).map(Pressure::new::<bar>),
            volume: bounds([screw_low, screw_nominal, screw_high]).map(Volume::new::<milliliter>),
            more: Volume::new::<milliliter>(self.more_ml()),
            soft: (
                Volume::new::<milliliter>(soft_ml),
                Pressure::new::<bar>(soft_bar),
            ),
        }
    }

    fn settle(&self, choice: &Choice) -> SettledChamber {
        let medium = Medium {
            bulk_modulus_bar: self.bulk_modulus_bar.at(choice),
            polytropic_index: 1.0,
        };
        SettledChamber::new(&self.chamber, choice, medium)
    }

    /// The pressure that is left in the shut circuit. The springs and seals of two cylinders need not go together.
    fn pressures_bar(&self) -> [f64; 3] {
        let on = |force_n: f64, area_mm2: f64| (force_n / (N_PER_BAR_MM2 * area_mm2)).max(0.0);
        let (open, shut) = (&self.open, &self.chamber);
        match self.place {
            Place::BeforeFloating => [
                on(open.drag_n.low, open.area_mm2.high),
                on(open.drag_n.nominal, open.area_mm2.nominal),
                on(open.drag_n.high, open.area_mm2.low),
            ],
            Place::BehindFloating => [0.0, 0.0, on(shut.drag_n.high, shut.area_mm2.low)],
            Place::AcrossBar([low, nominal, high]) => [
                on(low * open.drag_n.low - shut.drag_n.high, shut.area_mm2.high),
                on(
                    nominal * open.drag_n.nominal - shut.drag_n.nominal,
                    shut.area_mm2.nominal,
                ),
                on(high * open.drag_n.high - shut.drag_n.low, shut.area_mm2.low),
            ],
        }
    }

    /// What the screw gets less for what the shut circuit takes up.
    fn at_the_screw(&self, [low, nominal, high]: [f64; 3]) -> [f64; 3] {
        let (open, shut) = (&self.open.area_mm2, &self.chamber);
        match self.place {
            Place::BeforeFloating | Place::BehindFloating => [low, nominal, high],
            Place::AcrossBar(weight) => [
                weight[0] * open.low / shut.area_mm2.high * low,
                weight[1] * open.nominal / shut.area_mm2.nominal * nominal,
                weight[2] * open.high / shut.area_mm2.low * high,
            ],
        }
    }

    fn more_ml(&self) -> f64 {
        match self.place {
            Place::AcrossBar([_, _, high]) => {
                high * self.open.area_mm2.high * self.chamber.cut_off_mm.high / 1000.0
            }
            Place::BeforeFloating | Place::BehindFloating => 0.0,
        }
    }

    /// The most that the circuit takes up at a pressure.
    fn most_ml(&self, pressure_bar: f64) -> f64 {
        let most = [
            (Unknown::DiscClearance, 1.0),
            (Unknown::DrumClearance, 1.0),
            (Unknown::DiscGive, 1.0),
            (Unknown::DrumGive, 1.0),
            (Unknown::HoseGrowth, 1.0),
            (Unknown::BulkModulus, 0.0),
        ];
        self.corners_ml(pressure_bar, &most).fold(0.0, f64::max)
    }

    fn least_ml(&self, pressure_bar: f64) -> f64 {
        if pressure_bar <= 0.0 {
            return 0.0;
        }
        let least = [
            (Unknown::DiscClearance, 0.0),
            (Unknown::DrumClearance, 0.0),
            (Unknown::DiscGive, 0.0),
            (Unknown::DrumGive, 0.0),
            (Unknown::HoseGrowth, 0.0),
            (Unknown::BulkModulus, 1.0),
        ];
        self.corners_ml(pressure_bar, &least)
            .fold(f64::INFINITY, f64::min)
    }

    /// What is taken up with these unknowns at an end, wherever those are that do not lead one way only: the pressure that
    /// closes the clearances takes most where it is the one given, if a valve keeps some at rest, and least at an end.
    fn corners_ml<'c>(
        &'c self,
        pressure_bar: f64,
        ends: &'c [(Unknown, f64)],
    ) -> impl Iterator<Item = f64> + 'c {
        let ended = ends
            .iter()
            .fold(Choice::nominal(), |choice, (unknown, end)| {
                choice.with(*unknown, *end)
            });
        let valves: &[f64] = if self.chamber.zones.len() > 1 {
            &[0.0, 1.0]
        } else {
            &[0.0]
        };
        let [disc, drum] = self.touches(pressure_bar);
        let touches = [[0.0, 0.0], [1.0, 1.0], [disc, drum]];
        valves.iter().flat_map(move |valve| {
            let set = ended.clone().with(Unknown::ValveSetting, *valve);
            touches.map(|[disc, drum]| {
                let choice = (set.clone())
                    .with(Unknown::DiscTouch, disc)
                    .with(Unknown::DrumTouch, drum);
                taken_ml(&self.settle(&choice), pressure_bar)
            })
        })
    }

    /// How far in their ranges the pressures that close the clearances of discs and drums are this one.
    fn touches(&self, pressure_bar: f64) -> [f64; 2] {
        [false, true].map(|is_drum| {
            let mut brakes = self.chamber.zones.iter().flat_map(|zone| &zone.brakes);
            brakes
                .find(|brake| brake.is_drum == is_drum && !brake.touch_bar.is_exact())
                .map_or(0.0, |brake| {
                    let touch = &brake.touch_bar;
                    ((pressure_bar - touch.low) / (touch.high - touch.low)).clamp(0.0, 1.0)
                })
        })
    }
}

fn taken_ml(chamber: &SettledChamber, pressure_bar: f64) -> f64 {
    chamber.taken_up(pressure_bar, 1.0, &[]).total()
}

fn bounds([low, nominal, high]: [f64; 3]) -> Bounds<f64> {
    Bounds { low, nominal, high }
}
