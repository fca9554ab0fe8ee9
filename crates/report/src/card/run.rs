//! The run of a screw, as a row of a table.

use crate::number::{metres, ml};
use crate::said::{Said, bare, figure, say};
use bleedwright_planner::{JointRule, StepScrew};
use uom::si::ratio::percent;

/// The run of one screw: what it is of, and what it holds.
#[derive(Clone, Debug)]
pub struct Run {
    /// The screw.
    pub screw: String,
    /// Part and circuit.
    pub of: Said,
    /// Length, shared and own pipes, the brake, what unmixed fluid would take, the old share that stays.
    pub cells: [Said; 6],
    /// Whether fluid mixes at the joints of its way and that decides the amount.
    pub is_mixed: bool,
}

/// What stands above the columns of the runs; millilitres but for length and share.
pub(crate) const RUN_TITLES: [&str; 6] =
    ["LENGTH", "SHARED", "OWN", "BRAKE", "UNMIXED", "OLD LEFT"];

impl Run {
    /// All of it in a sentence.
    pub fn in_full(&self) -> Said {
        let [length, shared, own, brake, unmixed, left] = self.cells.clone();
        let mut all = say!(
            "{}: {}, {}; {} ml shared, {} own, {} in the brake, {} if nothing mixed",
            bare(&self.screw),
            self.of.clone(),
            length,
            shared,
            own,
            brake,
            unmixed
        );
        if !left.is_empty() {
            all.extend(say!("; {} of it stays old", left));
        }
        if self.is_mixed {
            all.extend(say!("; mixed at the joints"));
        }
        all.extend(".".into());
        all
    }
}

pub(super) fn run(screw: &StepScrew) -> Run {
    let contents = &screw.contents;
    let volumes = [&contents.shared, &contents.own, &contents.cavities];
    let [shared, own, brake] = volumes.map(|volume| figure(ml(volume.nominal)));
    let left = screw.old_left.map_or_else(Said::default, |left| {
        let [low, high] = [left.low, left.high].map(|left| left.get::<percent>());
        figure(format_args!("{low:.0}-{high:.0} %"))
    });
    Run {
        screw: screw.screw.clone(),
        of: say!("{}, {}", bare(&screw.part), bare(&screw.circuit)),
        cells: [
            figure(metres(screw.run_length.nominal)),
            shared,
            own,
            brake,
            figure(ml(screw.plug)),
            left,
        ],
        is_mixed: screw.joints == Some(JointRule::Mixed),
    }
}
