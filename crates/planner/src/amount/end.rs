//! One end of the bounds, followed through an order whose nominal pushes are
//! known. The two ends do not need each other.

use super::radial::Figures;
use super::renewal::{Corner, HIGH, LOW, Renewal};
use super::{Pushed, Unreachable};
use uom::si::f64::{Ratio, Volume};

/// The least or the most that a push may have to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum End {
    Low,
    High,
}

/// What one end asks of a screw, and what the nominal push then leaves.
#[derive(Clone, Copy, Debug)]
pub(crate) struct AtEnd {
    pub(crate) push: Volume,
    /// Old share of what stays on the run; none where nobody asks.
    pub(crate) left: Option<Ratio>,
}

impl End {
    /// Which figures it takes.
    fn figures(self) -> Figures {
        match self {
            Self::Low => Figures::Low,
            Self::High => Figures::High,
        }
    }

    fn other(self) -> Self {
        match self {
            Self::Low => Self::High,
            Self::High => Self::Low,
        }
    }

    /// The figures of this end for the screw that is asked about.
    fn asked(self) -> Corner {
        let all = match self {
            Self::Low => LOW,
            Self::High => HIGH,
        };
        Corner {
            shared: all,
            own: all,
        }
    }

    /// The figures of this end for the screws before it: the shared part at
    /// the same end, their own parts at the other one. With least in them they
    /// were given least, and leave most to do.
    fn carried(self) -> Corner {
        let asked = self.asked();
        Corner {
            own: match self {
                Self::Low => HIGH,
                Self::High => LOW,
            },
            ..asked
        }
    }

    /// The push of this end for every screw of an order, in its order.
    /// `renewal` stands at the beginning of the order. What stays is told for
    /// those of which the nominal figure is known.
    pub(crate) fn follow(
        self,
        mut renewal: Renewal<'_>,
        order: &[Pushed],
    ) -> Result<Vec<AtEnd>, Unreachable> {
        // As with the nominal pushes: after the last one of a circuit nobody
        // asks what it left behind.
        let mut pending: Vec<Option<&Pushed>> = vec![None; renewal.network.circuits().count()];
        let mut pushes = Vec::with_capacity(order.len());
        for screw in order {
            let air = screw.amount.push;
            let of_air = match self {
                Self::Low => air.low,
                Self::High => air.high,
            };
            let Some(nominal) = screw.renewed else {
                pushes.push(AtEnd {
                    push: of_air,
                    left: None,
                });
                continue;
            };
            if let Some(before) = pending[screw.circuit.index()].replace(screw) {
                let through = self.taken_for_pushed(&renewal, before);
                renewal.remember(before, through);
            }
            let figures = self.figures();
            let push = renewal.push_at(
                screw.screw,
                screw.circuit,
                &screw.run,
                self.asked(),
                figures,
            )?;
            let push = match self {
                Self::Low => push.min(nominal),
                Self::High => push.max(nominal),
            };
            let left = match screw.amount.old_left {
                None => None,
                Some(nominal) => {
                    let (id, run) = (screw.screw, &screw.run);
                    let left = renewal.left(id, screw.circuit, run, figures, &screw.amount)?;
                    Some(match self {
                        Self::Low => left.min(nominal.nominal),
                        Self::High => left.max(nominal.nominal),
                    })
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
    fn taken_for_pushed(self, renewal: &Renewal<'_>, screw: &Pushed) -> Volume {
        let pushed = screw.amount.push.nominal;
        // Nobody else uses the run: nobody looks at its history.
        let is_shared = screw
            .run
            .iter()
            .any(|element| renewal.network.screws_behind(*element) > 1);
        if !is_shared {
            return pushed;
        }
        let given = renewal
            .push_at(
                screw.screw,
                screw.circuit,
                &screw.run,
                self.carried(),
                self.other().figures(),
            )
            .unwrap_or(pushed);
        match self {
            Self::Low => given.max(pushed),
            Self::High => given.min(pushed),
        }
    }
}
