//! Where the uncertainty of the contents comes from, and which measurement
//! would shrink it most.

use crate::figure::{LayoutFigure, figures_of};
use crate::measurable::Measurable;
use bleedwright_network::{
    Basis, CellId, Element, LineKind, LinkId, LinkKind, Network, Owner, PartKind, ScrewId, Usual,
};
use std::collections::BTreeSet;
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;

/// The spread of a total, split by its sources.
#[derive(Clone, Debug, Default)]
pub struct Spread {
    /// High bound minus low bound of the contents, source by source, summed.
    pub total: Volume,
    /// The part of it that comes from assumptions and not from the file.
    pub assumed: Volume,
    /// The one measurement that would shrink it most.
    pub measure_next: Option<Contribution>,
}

/// One uncertain figure and what it contributes.
#[derive(Clone, Debug)]
pub struct Contribution {
    /// What to measure.
    pub what: Measurable,
    /// Its contribution to the spread.
    pub volume: Volume,
}

impl Spread {
    /// Share that comes from assumptions; nothing when there is no spread.
    pub fn assumed_share(&self) -> Ratio {
        if self.total > Volume::default() {
            self.assumed / self.total
        } else {
            Ratio::new::<ratio>(0.0)
        }
    }

    fn add(&mut self, network: &Network, figure: LayoutFigure, volume: Volume) {
        if volume <= Volume::default() {
            return;
        }
        self.total += volume;
        if figure.known(network.layout()).is_assumed {
            self.assumed += volume;
        }
        let is_better = match &self.measure_next {
            None => true,
            Some(best) => {
                volume > best.volume || (volume == best.volume && figure.what(network) < best.what)
            }
        };
        if is_better {
            self.measure_next = Some(Contribution {
                what: figure.what(network),
                volume,
            });
        }
    }

    /// The spread of these elements' contents: each figure is moved between
    /// its corners with the others held at their nominal value.
    pub fn of(network: &Network, elements: impl IntoIterator<Item = Element>) -> Self {
        let mut spread = Self::default();
        for element in elements {
            figures_of(network, element, |figure, volume| {
                spread.add(network, figure, volume);
            });
        }
        spread
    }

    /// The spread of everything that the given screws' runs pass.
    pub(crate) fn of_runs(network: &Network, screws: impl IntoIterator<Item = ScrewId>) -> Self {
        Self::of(network, elements_of_runs(network, screws))
    }
}

/// Everything that the given screws' runs pass, chambers included, each once.
pub(crate) fn elements_of_runs(
    network: &Network,
    screws: impl IntoIterator<Item = ScrewId>,
) -> impl Iterator<Item = Element> {
    let mut cells: BTreeSet<CellId> = BTreeSet::new();
    let mut links: BTreeSet<LinkId> = BTreeSet::new();
    for screw in screws {
        let mut here = network.screw_place(screw).cell;
        // What lies above a cell seen before was counted with it.
        while cells.insert(here) {
            match network.step_to(here) {
                Some((parent, link)) => {
                    links.insert(link);
                    here = parent;
                }
                None => break,
            }
        }
    }
    cells
        .into_iter()
        .map(Element::Cell)
        .chain(links.into_iter().map(Element::Link))
}

/// The assumptions that the given elements rest on, with the parts concerned.
pub(crate) fn assumed_figures(
    network: &Network,
    elements: &BTreeSet<CellId>,
    mut note: impl FnMut(Usual, String),
) {
    let mut figure = |basis: Basis, name: String| {
        if let Basis::Assumed(usual) = basis {
            note(usual, name);
        }
    };
    for cell in elements {
        if let Some((_, link)) = network.step_to(*cell)
            && let LinkKind::Line(index) = network.link(link).kind
            && let LineKind::Pipe { bore, .. } | LineKind::Hose { bore, .. } =
                &network.layout().lines[index].kind
        {
            figure(bore.basis, network.layout().lines[index].id.clone());
        }
        if let Some(cavity) = network.cavity(*cell) {
            figure(cavity.dead_volume.basis, network.cell_name(*cell));
            for piston in &cavity.pistons {
                figure(piston.extension.basis, network.cell_name(*cell));
                if piston.is_count_assumed {
                    let basis = Basis::Assumed(Usual::WheelCylinderPistons);
                    figure(basis, network.cell_name(*cell));
                }
            }
        }
        if let Owner::Cylinder(index, nth) = network.cell(*cell).owner {
            let cylinder = &network.layout().cylinders[index];
            figure(
                cylinder.chambers[nth].cut_off.basis,
                network.cell_name(*cell),
            );
            figure(cylinder.pedal_ratio.basis, cylinder.id.clone());
            figure(cylinder.free_play.basis, cylinder.id.clone());
        }
        if let Owner::Part(index, _) = network.cell(*cell).owner
            && matches!(
                network.layout().parts[index].kind,
                PartKind::Junction { .. } | PartKind::Valve(_)
            )
        {
            let part = &network.layout().parts[index];
            figure(part.contents.basis, part.id.clone());
        }
        if let Owner::Part(index, _) = network.cell(*cell).owner
            && let PartKind::Brake(brake) = &network.layout().parts[index].kind
            && brake.lining.is_some()
        {
            figure(
                brake.wear_travel.basis,
                network.layout().parts[index].id.clone(),
            );
        }
    }
}
