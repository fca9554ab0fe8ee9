//! Everything in its place at one scale, if that can be.

use super::super::frame::{Frame, for_each_overlap};
use super::super::measure::LETTER;
use super::super::pen::Pen;
use super::super::route::Route;
use super::beside::{CLEAR, beside, least_length};
use super::check::broken_rule;
use super::feeds::{Feed, feeds, reservoir};
use super::finder::Finder;
use super::names::{Name, names};
use super::numbers::{HALF_LINE, Number, routes};
use super::seats::{Rider, Seats};
use super::sign::{Port, Serves, Sign};
use super::signs::signs;
use super::ways::ways;
use super::why::Why;
use crate::picture::{Point, Text};

/// Symbols with places keep so far apart that each can be told from the other.
const GAP: f64 = 0.6;

/// What is to be drawn, before it has a scale.
pub(super) struct Stand<'p, 'a, 'n> {
    pen: &'p Pen<'a, 'n>,
    seats: &'p Seats,
    /// The symbol of each body, placed nowhere.
    signs: Vec<Sign>,
    feeds: Vec<Feed>,
}

/// What was drawn at one scale.
pub(super) struct Drawn {
    /// Of bodies, then of reservoirs.
    pub(super) signs: Vec<Sign>,
    pub(super) names: Vec<Name>,
    pub(super) routes: Vec<Route>,
    /// With the compartment and the way of each.
    pub(super) feeds: Vec<Vec<Point>>,
    /// Everything that is drawn.
    pub(super) frames: Vec<Frame>,
    /// Around everything.
    pub(super) frame: Frame,
}

impl<'p, 'a, 'n> Stand<'p, 'a, 'n> {
    pub(super) fn new(pen: &'p Pen<'a, 'n>, seats: &'p Seats) -> Self {
        Self {
            pen,
            seats,
            signs: signs(pen),
            feeds: feeds(pen),
        }
    }

    pub(super) fn feeds(&self) -> &[Feed] {
        &self.feeds
    }

    pub(super) fn has_riders(&self) -> bool {
        !self.seats.riders.is_empty()
    }

    /// Everything at a scale of 1 to `scale`; else what stands in the way, with the frame around what has a place.
    pub(super) fn drawn(&self, scale: f64, finder: &mut Finder) -> Result<Drawn, (Frame, Why)> {
        let mut signs = self.placed(scale);
        let reached = signs
            .iter()
            .flatten()
            .map(Sign::reach)
            .fold(Frame::NOTHING, Frame::with);
        let signs = self
            .too_near(&signs)
            .map_or(Ok(()), Err)
            .and_then(|()| self.with_riders(&mut signs))
            .map_err(|why| (reached, why))?;
        self.finished(signs, finder).map_err(|why| (reached, why))
    }

    fn placed(&self, scale: f64) -> Vec<Option<Sign>> {
        let mm = 1000.0 / scale;
        let places = self.seats.places.iter();
        places
            .zip(&self.signs)
            .map(|(place, sign)| {
                place.map(|place| {
                    let at = Point::new(place.x * mm, place.y * mm);
                    sign.clone().centred(at)
                })
            })
            .collect()
    }

    fn too_near(&self, signs: &[Option<Sign>]) -> Option<Why> {
        let mut owners = Vec::new();
        let mut frames = Vec::new();
        for (nth, sign) in signs.iter().enumerate() {
            for frame in sign.iter().flat_map(Sign::frames) {
                owners.push(nth);
                frames.push(frame.grown(GAP / 2.0));
            }
        }
        let mut first: Option<(usize, usize)> = None;
        for_each_overlap(&frames, |a, b| {
            let pair = (owners[a].min(owners[b]), owners[a].max(owners[b]));
            if pair.0 != pair.1 {
                first = Some(first.map_or(pair, |first| first.min(pair)));
            }
        });
        first.map(|(a, b)| Why::TooNear(self.signs[a].name.clone(), self.signs[b].name.clone()))
    }

    /// Reservoirs beside their cylinders, then what is screwed straight onto something.
    fn with_riders(&self, signs: &mut [Option<Sign>]) -> Result<Vec<Sign>, Why> {
        let mut taken: Vec<Frame> = signs.iter().flatten().flat_map(Sign::frames).collect();
        let count = self.pen.arrangement.network.layout().reservoirs.len();
        let mut reservoirs = Vec::new();
        for index in 0..count {
            let sign = self.reservoir(index, signs, &taken)?;
            taken.extend(sign.frames());
            reservoirs.push(sign);
        }
        for rider in &self.seats.riders {
            let sign = self.rider(*rider, signs, &taken)?;
            taken.extend(sign.frames());
            signs[rider.body] = Some(sign);
        }
        Ok(signs
            .iter_mut()
            .filter_map(Option::take)
            .chain(reservoirs)
            .collect())
    }

    fn chamber_ports<'s>(&self, signs: &'s [Option<Sign>], feed: &Feed) -> Vec<&'s Port> {
        let body = self.pen.arrangement.body_of_cell[feed.cell.index()];
        let ports = signs[body].iter().flat_map(|sign| &sign.ports);
        ports
            .filter(|port| port.serves == Serves::Cell(feed.cell))
            .collect()
    }

    fn reservoir(
        &self,
        index: usize,
        signs: &[Option<Sign>],
        taken: &[Frame],
    ) -> Result<Sign, Why> {
        let is_own = |feed: &Feed| {
            let compartment = feed.intake.compartment;
            compartment.is_some_and(|found| found.0 == index)
        };
        let fed: Vec<(usize, Vec<&Port>)> = self
            .feeds
            .iter()
            .enumerate()
            .filter(|(_, feed)| is_own(feed))
            .map(|(nth, feed)| (nth, self.chamber_ports(signs, feed)))
            .collect();
        let sign = reservoir(self.pen, index, &self.feeds, |feed| {
            let ports = self.chamber_ports(signs, feed);
            ports.iter().map(|port| port.at.y).sum::<f64>() / ports.len().max(1) as f64
        });
        let places: Vec<Point> = fed
            .iter()
            .flat_map(|(_, ports)| ports.iter().map(|port| port.at))
            .collect();
        let around = if places.is_empty() {
            taken.first().map_or(Point::default(), Frame::centre)
        } else {
            Frame::around(&places).centre()
        };
        let length = |moved: &Sign| -> f64 {
            fed.iter()
                .map(|(nth, ports)| {
                    let own = |port: &&Port| port.serves == Serves::Feed(*nth);
                    least_length(moved.ports.iter().filter(own), ports, taken)
                })
                .sum()
        };
        // The names of its chambers stand between a cylinder and its reservoir.
        let carriers = self.feeds.iter().filter(|feed| is_own(feed));
        let names = carriers
            .filter_map(|feed| {
                let body = self.pen.arrangement.body_of_cell[feed.cell.index()];
                signs[body].as_ref()
            })
            .flat_map(|sign| &sign.chambers)
            .map(|(name, _)| Text::new(Point::default(), LETTER, name).width_mm());
        let clear = CLEAR + names.fold(0.0, f64::max);
        beside(&sign, around, taken, clear, length)
            .or_else(|| beside(&sign, around, taken, CLEAR, length))
            .ok_or_else(|| Why::NoRoom(sign.name.clone()))
    }

    fn rider(&self, rider: Rider, signs: &[Option<Sign>], taken: &[Frame]) -> Result<Sign, Why> {
        let arrangement = self.pen.arrangement;
        let sign = &self.signs[rider.body];
        let wire = arrangement.wires[rider.wire];
        let may_end = |port: &&Port| match port.serves {
            Serves::Wire(other) => other == rider.wire,
            Serves::Cell(cell) => cell == wire.near || cell == wire.far,
            Serves::Feed(_) => false,
        };
        let carrier: Vec<&Port> = signs[rider.carrier]
            .iter()
            .flat_map(|sign| &sign.ports)
            .filter(may_end)
            .collect();
        let around = signs[rider.carrier]
            .as_ref()
            .map_or(Point::default(), |sign| sign.frame.centre());
        let within = signs.iter().flatten().map(Sign::reach);
        let within = within.fold(Frame::NOTHING, Frame::with);
        let length = |moved: &Sign| {
            // Better a longer line than a larger picture.
            let larger = within.with(moved.reach());
            let growth = larger.width() + larger.height() - within.width() - within.height();
            growth * 2.0 + least_length(moved.ports.iter().filter(may_end), &carrier, taken)
        };
        beside(sign, around, taken, CLEAR, length).ok_or_else(|| Why::NoRoom(sign.name.clone()))
    }

    fn finished(&self, signs: Vec<Sign>, finder: &mut Finder) -> Result<Drawn, Why> {
        let arrangement = self.pen.arrangement;
        let names = names(&signs, arrangement.bodies.len())
            .map_err(|sign| Why::NoRoomForName(signs[sign].name.clone()))?;
        let words: Vec<Frame> = names.iter().flat_map(|name| name.frames.clone()).collect();
        let line = |nth: usize| match arrangement.wires.get(nth) {
            Some(wire) => arrangement.network.layout().lines[wire.line].id.clone(),
            None => self.feeds[nth - arrangement.wires.len()]
                .intake
                .name
                .clone(),
        };
        let ways = ways(arrangement, &self.feeds, &signs, &words, finder)
            .map_err(|nth| Why::NoWay(line(nth)))?;
        let routes = routes(&ways.lines, &ways.numbers, &ways.feeds);
        if let Some(why) = broken_rule(arrangement, &signs, &names, &ways) {
            return Err(why);
        }
        let mut frames: Vec<Frame> = signs.iter().flat_map(Sign::frames).collect();
        frames.extend(&words);
        frames.extend(ways.numbers.iter().flat_map(Number::frames));
        for way in ways.lines.iter().chain(&ways.feeds) {
            let pieces = way.windows(2).map(Frame::around);
            frames.extend(pieces.map(|piece| piece.grown(HALF_LINE)));
        }
        let frame = frames.iter().copied().fold(Frame::NOTHING, Frame::with);
        Ok(Drawn {
            signs,
            names,
            routes,
            feeds: ways.feeds,
            frames,
            frame,
        })
    }
}
