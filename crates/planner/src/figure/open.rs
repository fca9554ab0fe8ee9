//! Which figures decide what an element holds, and how much each leaves open.

use super::LayoutFigure;
use bleedwright_network::{CellId, CellKind, Element, LinkId, LinkKind, Network, Owner, PartKind};
use uom::si::f64::{Area, Length, Volume};

/// The figures that decide what an element holds, each with the contents that
/// its own range leaves open: the others stand at their nominal value.
pub(crate) fn figures_of(
    network: &Network,
    element: Element,
    mut note: impl FnMut(LayoutFigure, Volume),
) {
    match element {
        Element::Link(link) => figures_of_link(network, link, &mut note),
        Element::Cell(cell) => figures_of_cell(network, cell, &mut note),
    }
}

fn figures_of_link(network: &Network, link: LinkId, note: &mut impl FnMut(LayoutFigure, Volume)) {
    let index = match network.link(link).kind {
        LinkKind::Crossover(part) => {
            let contents = network.link(link).contents;
            note(LayoutFigure::Crossover(part), contents.high - contents.low);
            return;
        }
        LinkKind::Line(index) => index,
    };
    let line = &network.layout().lines[index];
    let Some(bore) = line.bore() else { return };
    let length = line.length();
    let open = area(bore.high) - area(bore.low);
    note(LayoutFigure::LineBore(index), open * length.nominal);
    let open = length.high - length.low;
    note(LayoutFigure::LineLength(index), area(bore.nominal) * open);
}

fn figures_of_cell(network: &Network, cell: CellId, note: &mut impl FnMut(LayoutFigure, Volume)) {
    let data = network.cell(cell);
    let open = data.contents.high - data.contents.low;
    match (data.kind, data.owner) {
        (CellKind::Passage, Owner::Part(part, nth)) => match network.layout().parts[part].kind {
            PartKind::AntiLock { .. } => note(LayoutFigure::Through(part, nth), open),
            _ => note(LayoutFigure::PartContents(part), open),
        },
        (CellKind::Cavity, Owner::Part(part, nth)) => {
            let Some(cavity) = network.cavity(cell) else {
                return;
            };
            let dead = cavity.dead_volume.bounds;
            note(LayoutFigure::DeadVolume(part, nth), dead.high - dead.low);
            for (index, piston) in cavity.pistons.iter().enumerate() {
                let count = f64::from(piston.count);
                let (bore, extension) = (piston.bore, piston.extension.bounds);
                let open = extension.high - extension.low;
                note(
                    LayoutFigure::Extension(part, nth, index),
                    area(bore.nominal) * open * count,
                );
                let open = area(bore.high) - area(bore.low);
                note(
                    LayoutFigure::PistonBore(part, nth, index),
                    open * extension.nominal * count,
                );
            }
        }
        (_, Owner::Cylinder(index, nth)) => {
            let chamber = &network.layout().cylinders[index].chambers[nth];
            let (area, stroke) = (chamber.area(), chamber.stroke);
            note(
                LayoutFigure::ChamberBore(index, nth),
                (area.high - area.low) * stroke.nominal,
            );
            note(
                LayoutFigure::Stroke(index, nth),
                area.nominal * (stroke.high - stroke.low),
            );
        }
        (CellKind::Chamber, Owner::Part(..)) => {}
    }
}

fn area(bore: Length) -> Area {
    bleedwright_hydraulics::geometry::bore_area(bore)
}
