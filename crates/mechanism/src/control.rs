//! Pedals and levers: what one foot or hand works.

use bleedwright_network::{CircuitId, Network, Works};

/// A pedal or lever that works brakes: one cylinder, or two joined by a balance bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Control {
    /// What it is called: the name of its cylinder, or of both.
    pub name: String,
    /// The cylinders, by their places in the layout; with two, the first is the one the bar's share belongs to.
    pub cylinders: Vec<usize>,
    /// The balance bar that joins them, by its place in the layout.
    pub bar: Option<usize>,
}

impl Control {
    /// What works it. Of two cylinders under one bar, what is no pedal.
    pub fn worked_by(&self, network: &Network) -> bleedwright_network::Control {
        let cylinders = self.cylinders.iter();
        let controls = cylinders.map(|index| network.layout().cylinders[*index].control);
        let pedal = bleedwright_network::Control::Pedal;
        controls.fold(
            pedal,
            |found, next| if found == pedal { next } else { found },
        )
    }

    /// The circuits it works, in the order of its cylinders and their chambers.
    pub fn circuits<'n>(&'n self, network: &'n Network) -> impl Iterator<Item = CircuitId> + 'n {
        self.cylinders
            .iter()
            .flat_map(|cylinder| network.circuits_of_cylinder(*cylinder))
    }
}

/// Every pedal and lever that works brakes, in the order of the layout's cylinders.
pub fn controls(network: &Network) -> Vec<Control> {
    let layout = network.layout();
    let place = |name: &str| {
        layout
            .cylinders
            .iter()
            .position(|cylinder| cylinder.id == name)
    };
    let mut controls = Vec::new();
    for (index, cylinder) in layout.cylinders.iter().enumerate() {
        if cylinder.purpose != Works::Brake {
            continue;
        }
        let bar = layout
            .balance_bars
            .iter()
            .position(|bar| bar.cylinders.contains(&cylinder.id));
        let Some(bar_index) = bar else {
            controls.push(Control {
                name: cylinder.id.clone(),
                cylinders: vec![index],
                bar: None,
            });
            continue;
        };
        let joined = &layout.balance_bars[bar_index].cylinders;
        let places: Vec<usize> = joined.iter().filter_map(|name| place(name)).collect();
        // A bar is told once, where the first of its cylinders stands.
        if places.iter().min() == Some(&index) {
            controls.push(Control {
                name: joined.join(" and "),
                cylinders: places,
                bar,
            });
        }
    }
    controls
}
