//! One end of the bounds, followed through an order whose nominal pushes are
//! known. The two ends do not need each other.

use super::renewal::{Contents, Renewal};
use super::{Pushed, Unreachable};
use crate::corner::Corner;
use uom::si::f64::{Ratio, Volume};

/// What one end asks of a screw, and what the nominal push then leaves.
#[derive(Clone, Copy, Debug)]
pub(crate) struct AtEnd {
    pub(crate) push: Volume,
    /// Old share of what stays on the run; none where nobody asks.
    pub(crate) left: Option<Ratio>,
}

/// The push of one end for every screw of an order, in its order. `renewal` stands at the beginning of the order. What
/// stays is told for those of which the nominal figure is known.
pub(crate) fn follow_end(
    end: Corner,
    mut renewal: Renewal<'_>,
    order: &[Pushed],
) -> Result<Vec<AtEnd>, Unreachable> {
    // As with the nominal pushes: after the last one of a circuit nobody
    // asks what it left behind.
    let mut pending: Vec<Option<&Pushed>> = vec![None; renewal.network.circuits().count()];
    let mut pushes = Vec::with_capacity(order.len());
    for screw in order {
        let air = screw.amount.push;
        let of_air = end.of(air);
        let Some(nominal) = screw.renewed else {
            pushes.push(AtEnd {
                push: of_air,
                left: None,
            });
            continue;
        };
        if let Some(before) = pending[screw.circuit.index()].replace(screw) {
            let through = taken_for_pushed(end, &renewal, before);
            renewal.remember(before, through);
        }
        let push = renewal.push_at(screw, Contents::all(end), end)?;
        let push = beyond(end, push, nominal);
        let left = match screw.amount.old_left {
            None => None,
            Some(nominal) => {
                let (id, run) = (screw.screw, &screw.run);
                let left = renewal.left(id, screw.circuit, run, end, &screw.amount)?;
                Some(beyond(end, left, nominal.nominal))
            }
        };
        pushes.push(AtEnd {
            push: push.max(of_air),
            left,
        });
    }
    Ok(pushes)
}

/// What a screw would have been given at the figures of this end.
fn taken_for_pushed(end: Corner, renewal: &Renewal<'_>, screw: &Pushed) -> Volume {
    let pushed = screw.amount.push.nominal;
    // Nobody else uses the run: nobody looks at its history.
    let is_shared = screw
        .run
        .iter()
        .any(|element| renewal.network.screws_behind(*element) > 1);
    if !is_shared {
        return pushed;
    }
    // The shared part at the same end, their own parts at the other one. With least in them they were given least, and
    // leave most to do.
    let carried = Contents {
        shared: end,
        own: end.opposite(),
    };
    let given = renewal.push_at(screw, carried, end.opposite());
    beyond(end.opposite(), given.unwrap_or(pushed), pushed)
}

/// What is worked out for an end, but never on the other side of the nominal value.
fn beyond<Q: PartialOrd>(end: Corner, found: Q, nominal: Q) -> Q {
    let is_beyond = match end {
        Corner::Low => found < nominal,
        Corner::Nominal => false,
        Corner::High => found > nominal,
    };
    if is_beyond { found } else { nominal }
}
