//! Air and liquid in a line, one behind the other.

use std::collections::VecDeque;

/// What fills a part of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Matter {
    Liquid,
    Air,
}

/// A length of line filled with one thing; air as it is without pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Slug {
    pub(crate) matter: Matter,
    pub(crate) volume_ml: f64,
}

/// Which way fluid passes a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Direction {
    /// From the cylinder to the screw.
    Out,
    /// From the screw to the cylinder.
    Back,
}

/// Slugs in a row; the first one is nearest to the cylinder.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Row(VecDeque<Slug>);

impl Row {
    pub(crate) fn of(matter: Matter, volume_ml: f64) -> Self {
        let mut row = Self::default();
        row.append(Slug { matter, volume_ml }, Direction::Back);
        row
    }

    pub(crate) fn volume_ml(&self) -> f64 {
        self.0.iter().map(|slug| slug.volume_ml).sum()
    }

    pub(crate) fn air_ml(&self) -> f64 {
        let air = self.0.iter().filter(|slug| slug.matter == Matter::Air);
        air.map(|slug| slug.volume_ml).sum()
    }

    /// Adds a slug at the end where fluid that goes this way comes in.
    pub(crate) fn append(&mut self, slug: Slug, direction: Direction) {
        if slug.volume_ml <= 0.0 {
            return;
        }
        let neighbour = match direction {
            Direction::Out => self.0.front_mut(),
            Direction::Back => self.0.back_mut(),
        };
        match neighbour {
            Some(last) if last.matter == slug.matter => last.volume_ml += slug.volume_ml,
            _ => match direction {
                Direction::Out => self.0.push_front(slug),
                Direction::Back => self.0.push_back(slug),
            },
        }
    }

    /// Takes a volume off the end where fluid that goes this way leaves, what
    /// leaves first coming first.
    pub(crate) fn take(&mut self, volume_ml: f64, direction: Direction) -> Vec<Slug> {
        let mut left_ml = volume_ml;
        let mut taken = Vec::new();
        while left_ml > 0.0 {
            let last = match direction {
                Direction::Out => self.0.back_mut(),
                Direction::Back => self.0.front_mut(),
            };
            let Some(last) = last else { break };
            if last.volume_ml > left_ml {
                last.volume_ml -= left_ml;
                taken.push(Slug {
                    matter: last.matter,
                    volume_ml: left_ml,
                });
                break;
            }
            left_ml -= last.volume_ml;
            taken.push(*last);
            match direction {
                Direction::Out => self.0.pop_back(),
                Direction::Back => self.0.pop_front(),
            };
        }
        taken
    }

    /// Lets every slug of air climb by a volume of line toward one end, liquid
    /// sinking past it.
    pub(crate) fn climb(&mut self, volume_ml: f64, toward: Direction) {
        if volume_ml <= 0.0 || self.0.len() < 2 {
            return;
        }
        let mut slugs: Vec<Slug> = self.0.drain(..).collect();
        if toward == Direction::Out {
            slugs.reverse();
        }
        // The slug of air nearest to the upper end goes first.
        let mut risen: Vec<Slug> = Vec::with_capacity(slugs.len() + 2);
        for slug in slugs {
            let above = match (slug.matter, risen.last_mut()) {
                (Matter::Air, Some(above)) if above.matter == Matter::Liquid => {
                    let passed_ml = above.volume_ml.min(volume_ml);
                    above.volume_ml -= passed_ml;
                    passed_ml
                }
                _ => 0.0,
            };
            match risen.last_mut() {
                Some(last) if last.matter == slug.matter => last.volume_ml += slug.volume_ml,
                _ => risen.push(slug),
            }
            if above > 0.0 {
                risen.push(Slug {
                    matter: Matter::Liquid,
                    volume_ml: above,
                });
            }
        }
        if toward == Direction::Out {
            risen.reverse();
        }
        for slug in risen {
            self.append(slug, Direction::Back);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn air(volume_ml: f64) -> Slug {
        Slug {
            matter: Matter::Air,
            volume_ml,
        }
    }

    fn liquid(volume_ml: f64) -> Slug {
        Slug {
            matter: Matter::Liquid,
            volume_ml,
        }
    }

    #[test]
    fn what_goes_in_first_comes_out_first() {
        let mut row = Row::of(Matter::Air, 3.0);
        row.append(liquid(2.0), Direction::Out);
        assert_eq!(row.take(4.0, Direction::Out), [air(3.0), liquid(1.0)]);
        assert_eq!(row.0, [liquid(1.0)]);
    }

    #[test]
    fn back_is_the_mirror_of_out() {
        let mut row = Row::of(Matter::Air, 3.0);
        row.append(liquid(2.0), Direction::Back);
        assert_eq!(row.take(4.0, Direction::Back), [air(3.0), liquid(1.0)]);
    }

    #[test]
    fn air_climbs_past_liquid_and_no_volume_is_lost() {
        let mut row = Row::of(Matter::Liquid, 5.0);
        row.append(air(1.0), Direction::Back);
        row.append(liquid(2.0), Direction::Back);
        row.climb(2.0, Direction::Back);
        assert_eq!(row.0, [liquid(3.0), air(1.0), liquid(4.0)]);
        row.climb(10.0, Direction::Out);
        assert_eq!(row.0, [liquid(7.0), air(1.0)]);
    }
}
