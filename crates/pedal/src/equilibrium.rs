//! Where the pistons come to rest under a force: the balance of every piston, with its stop.

use crate::mechanism::SettledMechanism;
use bleedwright_hydraulics::rising_root;
use bleedwright_mechanism::{AirPocket, N_PER_BAR_MM2, SettledChamber, of_chamber};

/// Cubic millimetres in a millilitre.
const MM3_PER_ML: f64 = 1000.0;

/// How the pedal is pressed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Press {
    /// Force on the pedal, in N.
    pub force_n: f64,
    /// Whether the booster helps.
    pub is_boosted: bool,
    /// Whether it was pumped just before, so that the clearances are closed.
    pub is_pumped: bool,
    /// A circuit that has lost its pressure: cylinder and chamber, by their places in the mechanism.
    pub lost: Option<(usize, usize)>,
    /// Trapped air.
    pub air: Vec<AirPocket>,
}

/// Where it all comes to rest.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Rest {
    pub(crate) travel_mm: f64,
    pub(crate) cylinders: Vec<Vec<ChamberAtRest>>,
}

#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct ChamberAtRest {
    pub(crate) pressure_bar: f64,
    /// Travel of its piston relative to the one before it, in mm.
    pub(crate) travel_mm: f64,
    /// Whether the piston is at the end of its stroke.
    pub(crate) is_on_stop: bool,
}

impl Rest {
    /// Whether any piston is at the end of its stroke: more air would hardly show.
    pub(crate) fn is_on_stop(&self) -> bool {
        self.chambers().any(|chamber| chamber.is_on_stop)
    }

    pub(crate) fn chambers(&self) -> impl Iterator<Item = &ChamberAtRest> {
        self.cylinders.iter().flatten()
    }
}

impl SettledMechanism {
    /// Presses the pedal and waits.
    pub(crate) fn press(&self, press: &Press) -> Rest {
        let foot_n = press.force_n * self.ratio;
        let help_n = if press.is_boosted {
            (foot_n * (self.booster_ratio - 1.0)).min(self.booster_help_n)
        } else {
            0.0
        };
        let rod_n = foot_n + help_n;
        let clearance = if press.is_pumped {
            self.left_after_pumping
        } else {
            1.0
        };
        let mut travel = 0.0;
        let mut cylinders = Vec::with_capacity(self.cylinders.len());
        for (index, chambers) in self.cylinders.iter().enumerate() {
            let share = match (self.cylinders.len(), index) {
                (1, _) => 1.0,
                (_, 0) => self.bar_share,
                _ => 1.0 - self.bar_share,
            };
            let circuits: Vec<Circuit<'_>> = chambers
                .iter()
                .enumerate()
                .map(|(nth, chamber)| Circuit {
                    chamber,
                    clearance,
                    air: of_chamber(&press.air, (index, nth)),
                    is_lost: press.lost == Some((index, nth)),
                })
                .collect();
            let (rod_mm, at_rest) = match &circuits[..] {
                [primary, secondary] => tandem(primary, secondary, share * rod_n),
                [single] => single.alone(share * rod_n),
                _ => (0.0, Vec::new()),
            };
            // The bar's middle moves by what its ends move, each by its share: the work of the force is theirs.
            travel += share * rod_mm;
            cylinders.push(at_rest);
        }
        Rest {
            travel_mm: self.free_play_mm + self.ratio * travel + self.flex_mm_per_n * press.force_n,
            cylinders,
        }
    }
}

/// A chamber with what its circuit takes up in this press.
struct Circuit<'s> {
    chamber: &'s SettledChamber,
    clearance: f64,
    air: Vec<AirPocket>,
    is_lost: bool,
}

impl Circuit<'_> {
    /// The volume that the circuit takes up, in mm3; one that was lost takes anything.
    fn volume_mm3(&self, bar: f64) -> f64 {
        MM3_PER_ML
            * self
                .chamber
                .taken_up(bar, self.clearance, &self.air)
                .total()
    }

    /// The pressure of a piston that this force is left for.
    fn pressure(&self, force_n: f64) -> f64 {
        (force_n / (N_PER_BAR_MM2 * self.chamber.area_mm2)).max(0.0)
    }

    /// The pressure at which the circuit takes up a volume, at most `most_bar`.
    fn pressure_for(&self, volume_mm3: f64, most_bar: f64) -> f64 {
        if self.is_lost || volume_mm3 <= 0.0 {
            return 0.0;
        }
        rising_root([0.0, most_bar], 0.0, |bar| {
            self.volume_mm3(bar) - volume_mm3
        })
    }

    /// Travel of a piston of its own, cut-off included; without pressure it has not moved.
    fn travel(&self, bar: f64) -> f64 {
        if self.is_lost {
            f64::INFINITY
        } else if bar <= 0.0 {
            0.0
        } else {
            self.chamber.cut_off_mm + self.volume_mm3(bar) / self.chamber.area_mm2
        }
    }

    /// A single cylinder under a force on its rod: travel of the rod, and the chamber.
    fn alone(&self, rod_n: f64) -> (f64, Vec<ChamberAtRest>) {
        let force = rod_n - self.chamber.drag_n;
        if force <= 0.0 {
            return (0.0, vec![ChamberAtRest::default()]);
        }
        let free_bar = self.pressure(force);
        let free_mm = self.travel(free_bar);
        let stop = self.chamber.stroke_mm;
        let at_rest = if free_mm < stop {
            ChamberAtRest {
                pressure_bar: free_bar,
                travel_mm: free_mm,
                is_on_stop: false,
            }
        } else {
            let displaced = self.chamber.area_mm2 * (stop - self.chamber.cut_off_mm);
            ChamberAtRest {
                pressure_bar: self.pressure_for(displaced, free_bar),
                travel_mm: stop,
                is_on_stop: true,
            }
        };
        (at_rest.travel_mm, vec![at_rest])
    }
}

/// A tandem cylinder under a force on its rod.
///
/// ASSUMPTION: the floating piston has the secondary bore at both its ends, so that in a stepped cylinder both chambers
/// come to the same pressure.
fn tandem(primary: &Circuit<'_>, secondary: &Circuit<'_>, rod_n: f64) -> (f64, Vec<ChamberAtRest>) {
    let (first, second) = (primary.chamber, secondary.chamber);
    let force = rod_n - first.drag_n;
    if force <= 0.0 {
        return (0.0, vec![ChamberAtRest::default(); 2]);
    }
    // Both pistons free: the rod sets the first pressure, and that the second.
    let first_bar = if primary.is_lost {
        0.0
    } else {
        primary.pressure(force)
    };
    let free_bar = (first_bar - second.floats_at_bar()).max(0.0);
    let floating = if free_bar > 0.0 {
        secondary.travel(free_bar)
    } else {
        0.0
    };
    let is_second_on_stop = floating >= second.stroke_mm;
    let floating = floating.min(second.stroke_mm);
    let second_bar = if is_second_on_stop {
        let displaced = second.area_mm2 * (second.stroke_mm - second.cut_off_mm);
        secondary.pressure_for(displaced, free_bar)
    } else {
        free_bar
    };
    let rod = if primary.is_lost {
        f64::INFINITY
    } else {
        first.cut_off_mm
            + (primary.volume_mm3(first_bar) + second.area_mm2 * floating) / first.area_mm2
    };
    if rod - floating < first.stroke_mm {
        let at_rest = vec![
            ChamberAtRest {
                pressure_bar: first_bar,
                travel_mm: rod - floating,
                is_on_stop: false,
            },
            ChamberAtRest {
                pressure_bar: second_bar,
                travel_mm: floating,
                is_on_stop: is_second_on_stop,
            },
        ];
        return (rod, at_rest);
    }
    touching(primary, secondary, force - second.drag_n)
}

/// The primary piston pushes the floating one.
fn touching(
    primary: &Circuit<'_>,
    secondary: &Circuit<'_>,
    force_n: f64,
) -> (f64, Vec<ChamberAtRest>) {
    let (first, second) = (primary.chamber, secondary.chamber);
    // Twice what the force can make, so that a piston that would need more shows as one that the force does not move.
    let most_bar = 2.0 * force_n.max(0.0) / (N_PER_BAR_MM2 * first.area_mm2.min(second.area_mm2));
    let pressures = |floating: f64| {
        let rod = floating + first.stroke_mm;
        let displaced = first.area_mm2 * (rod - first.cut_off_mm) - second.area_mm2 * floating;
        let behind = second.area_mm2 * (floating - second.cut_off_mm);
        [
            primary.pressure_for(displaced, most_bar),
            secondary.pressure_for(behind, most_bar),
        ]
    };
    let surplus = |floating: f64| {
        let [one, two] = pressures(floating);
        let step = first.area_mm2 - second.area_mm2;
        N_PER_BAR_MM2 * (one * step + two * second.area_mm2) - force_n
    };
    let stop = second.stroke_mm;
    let step = first.area_mm2 - second.area_mm2;
    let floating = if step.abs() <= f64::EPSILON * first.area_mm2 {
        // The first pressure then works as much one way as the other, and the second alone bears the force.
        secondary.travel(secondary.pressure(force_n)).min(stop)
    } else {
        rising_root([0.0, stop], 0.0, surplus)
    };
    let is_on_stop = floating >= stop;
    let [one, two] = pressures(floating);
    let at_rest = vec![
        ChamberAtRest {
            pressure_bar: one,
            travel_mm: first.stroke_mm,
            is_on_stop: true,
        },
        ChamberAtRest {
            pressure_bar: two,
            travel_mm: floating,
            is_on_stop,
        },
    ];
    (floating + first.stroke_mm, at_rest)
}
