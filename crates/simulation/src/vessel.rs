//! What one element of the pipework holds, and what passing fluid does to it.

use crate::slug::{Direction, Matter, Row, Slug};

/// An element with its contents.
#[derive(Clone, Debug)]
pub(crate) enum Vessel {
    /// A line, a tee, a passage: what comes in pushes out what is there.
    Line(Row),
    /// A chamber or a brake: air gathers at the top.
    Cavity(Cavity),
}

/// A cavity with air above liquid.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cavity {
    pub(crate) capacity_ml: f64,
    pub(crate) air_ml: f64,
}

impl Vessel {
    pub(crate) fn air_ml(&self) -> f64 {
        match self {
            Self::Line(row) => row.air_ml(),
            Self::Cavity(cavity) => cavity.air_ml,
        }
    }

    pub(crate) fn capacity_ml(&self) -> f64 {
        match self {
            Self::Line(row) => row.volume_ml(),
            Self::Cavity(cavity) => cavity.capacity_ml,
        }
    }

    /// Sends fluid through; as much comes out as went in. `keeps` is the share
    /// of a cavity above the hole by which fluid leaves it: air there stays.
    pub(crate) fn pass(
        &mut self,
        inflow: Vec<Slug>,
        keeps: f64,
        direction: Direction,
    ) -> Vec<Slug> {
        match self {
            Self::Line(row) => {
                let volume_ml = inflow.iter().map(|slug| slug.volume_ml).sum();
                for slug in inflow {
                    row.append(slug, direction);
                }
                row.take(volume_ml, direction)
            }
            Self::Cavity(cavity) => {
                let mut outflow = Vec::with_capacity(inflow.len() + 1);
                for slug in inflow {
                    outflow.extend(cavity.pass(slug, keeps * cavity.capacity_ml));
                }
                outflow
            }
        }
    }
}

impl Cavity {
    /// One slug comes in, the same volume leaves: air as long as it reaches
    /// down to the hole, then liquid.
    fn pass(&mut self, inflow: Slug, kept_ml: f64) -> impl Iterator<Item = Slug> + use<> {
        if inflow.matter == Matter::Air {
            self.air_ml += inflow.volume_ml;
        }
        let air_ml = (self.air_ml - kept_ml).clamp(0.0, inflow.volume_ml);
        self.air_ml -= air_ml;
        let slug = |matter, volume_ml| Slug { matter, volume_ml };
        [
            slug(Matter::Air, air_ml),
            slug(Matter::Liquid, inflow.volume_ml - air_ml),
        ]
        .into_iter()
        .filter(|slug| slug.volume_ml > 0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn air_leaves_a_cavity_until_the_hole_is_wet() {
        let mut brake = Vessel::Cavity(Cavity {
            capacity_ml: 10.0,
            air_ml: 10.0,
        });
        let liquid = |volume_ml| {
            vec![Slug {
                matter: Matter::Liquid,
                volume_ml,
            }]
        };
        let out = brake.pass(liquid(8.0), 0.25, Direction::Out);
        assert_eq!(out[0].matter, Matter::Air);
        assert!((out[0].volume_ml - 7.5).abs() < 1e-12);
        assert!((brake.air_ml() - 2.5).abs() < 1e-12);
        brake.pass(liquid(100.0), 0.25, Direction::Out);
        assert!((brake.air_ml() - 2.5).abs() < 1e-12, "what is above stays");
        brake.pass(liquid(3.0), 0.0, Direction::Out);
        assert!(
            brake.air_ml().abs() < 1e-12,
            "a screw at the top empties it"
        );
    }
}
