//! Names of options looked up in the network; unknown ones become findings.

use super::Target;
use super::replaced::{new_unit_unsaid, opens_nothing, said_both, state_said};
use bleedwright_network::{
    CircuitId, Code, Finding, LinkId, Network, PartKind, Place, ScrewId, suggest,
};
use std::collections::{BTreeSet, HashMap};

/// What each name of the layout is: a line may carry the name of a part, then both are meant.
fn targets_by_name(network: &Network) -> HashMap<&str, Vec<Target>> {
    let layout = network.layout();
    let lines = (layout.lines.iter().map(|it| &it.id)).zip((0..).map(Target::Line));
    let reservoirs = (layout.reservoirs.iter().map(|it| &it.id)).zip((0..).map(Target::Reservoir));
    let cylinders = (layout.cylinders.iter().map(|it| &it.id)).zip((0..).map(Target::Cylinder));
    let parts = (layout.parts.iter().map(|it| &it.id)).zip((0..).map(Target::Part));
    let mut targets: HashMap<&str, Vec<Target>> = HashMap::new();
    for (name, target) in lines.chain(reservoirs).chain(cylinders).chain(parts) {
        targets.entry(name).or_default().push(target);
    }
    targets
}

pub(super) fn screws_by_name(network: &Network) -> HashMap<&str, ScrewId> {
    let screws = network.screws();
    screws
        .map(|(id, _)| (network.screw(id).id.as_str(), id))
        .collect()
}

pub(super) struct Lookup<'n, 'f> {
    pub(super) network: &'n Network,
    pub(super) findings: &'f mut Vec<Finding>,
}

impl Lookup<'_, '_> {
    pub(super) fn targets(&mut self, option: &'static str, names: &[String]) -> Vec<Target> {
        // Most options name nothing.
        if names.is_empty() {
            return Vec::new();
        }
        let known = targets_by_name(self.network);
        let names = names.iter().map(String::as_str);
        names
            .flat_map(|name| self.target(&known, option, name))
            .collect()
    }

    fn target(
        &mut self,
        known: &HashMap<&str, Vec<Target>>,
        option: &'static str,
        name: &str,
    ) -> Vec<Target> {
        if let Some(targets) = known.get(name) {
            return targets.clone();
        }
        let mut screws = self.network.screws().map(|(id, _)| id);
        if let Some(screw) = screws.find(|id| self.network.screw(*id).id == name) {
            let part = self.network.cell_name(self.network.screw_place(screw).cell);
            self.findings.push(Finding::new(
                Code::OptionName,
                Place::Option(option),
                format!("`{option}` names the bleed screw `{name}`, not a part or a line"),
                format!("name the part that it is on: `{part}`"),
            ));
        } else if let Some(finding) = opens_nothing(option, name) {
            self.findings.push(finding);
        } else {
            let mut known: Vec<&str> = known.keys().copied().collect();
            known.sort_unstable();
            self.unknown(option, name, "part or line", &known);
        }
        Vec::new()
    }

    /// What is new, and which of it are anti-lock units that came dry, and filled.
    pub(super) fn replaced(&mut self, names: &[String]) -> (Vec<Target>, [BTreeSet<usize>; 2]) {
        let layout = self.network.layout();
        let (mut replaced, mut dry, mut filled) = (Vec::new(), BTreeSet::new(), BTreeSet::new());
        if names.is_empty() {
            return (replaced, [dry, filled]);
        }
        let known = targets_by_name(self.network);
        for given in names {
            // A name of the layout may hold the sign itself.
            let is_name = known.contains_key(given.as_str());
            let (name, said) = match state_said(given) {
                Some((name, said)) if !is_name => (name, Some(said)),
                _ => (given.as_str(), None),
            };
            for target in self.target(&known, "--replaced", name) {
                let unit = match target {
                    Target::Part(part) => {
                        let kind = &layout.parts[part].kind;
                        matches!(kind, PartKind::AntiLock { .. }).then_some(part)
                    }
                    _ => None,
                };
                match new_unit_unsaid(name, unit.is_some(), said) {
                    Ok(came_filled) if came_filled => filled.extend(unit),
                    Ok(_) => dry.extend(unit),
                    Err(finding) => self.findings.push(*finding),
                }
                replaced.push(target);
            }
        }
        for unit in dry.intersection(&filled) {
            self.findings.push(said_both(&layout.parts[*unit].id));
        }
        (replaced, [dry, filled])
    }

    pub(super) fn screws(&mut self, option: &'static str, names: &[String]) -> Vec<ScrewId> {
        if names.is_empty() {
            return Vec::new();
        }
        let known = screws_by_name(self.network);
        let mut found = Vec::with_capacity(names.len());
        for name in names {
            if let Some(screw) = known.get(name.as_str()) {
                found.push(*screw);
            } else {
                let mut known: Vec<&str> = known.keys().copied().collect();
                known.sort_unstable();
                self.unknown(option, name, "bleed screw", &known);
            }
        }
        found
    }

    pub(super) fn circuit(&mut self, name: &str) -> Option<CircuitId> {
        let network = self.network;
        let found = network
            .circuits()
            .find(|(_, circuit)| circuit.name == name)
            .map(|(id, _)| id);
        if found.is_none() {
            let known: Vec<&str> = network
                .circuits()
                .map(|(_, circuit)| circuit.name.as_str())
                .collect();
            self.unknown("--circuit-first", name, "circuit", &known);
        }
        found
    }

    pub(super) fn dry_circuits(&mut self, names: &[String]) -> BTreeSet<CircuitId> {
        let network = self.network;
        let mut dry = BTreeSet::new();
        for name in names {
            let mut known = Vec::new();
            let mut is_known = false;
            for (r, reservoir) in network.layout().reservoirs.iter().enumerate() {
                for (c, compartment) in reservoir.compartments.iter().enumerate() {
                    known.push(compartment.id.as_str());
                    let full = format!("{}.{}", reservoir.id, compartment.id);
                    if compartment.id == *name || full == *name {
                        is_known = true;
                        dry.extend(
                            network
                                .circuits()
                                .filter(|(_, circuit)| circuit.compartment == Some((r, c)))
                                .map(|(id, _)| id),
                        );
                    }
                }
            }
            if !is_known {
                self.unknown("--ran-dry", name, "reservoir compartment", &known);
            }
        }
        dry
    }

    pub(super) fn clamped(&mut self, names: &[String]) -> BTreeSet<LinkId> {
        let network = self.network;
        let lines = &network.layout().lines;
        let mut clamped = BTreeSet::new();
        for name in names {
            let Some(index) = lines.iter().position(|line| line.id == *name) else {
                let known: Vec<&str> = lines.iter().map(|line| line.id.as_str()).collect();
                self.unknown("--clamped", name, "line", &known);
                continue;
            };
            if lines[index].may_be_clamped() {
                clamped.extend(network.link_of_line(index));
            } else {
                self.findings.push(
                    Finding::new(
                        Code::CannotClamp,
                        Place::Option("--clamped"),
                        format!("`{name}` must not be clamped"),
                        "a clamp kinks a pipe and cuts a braided hose: leave it out and take the \
                         line for drained; a rubber hose is marked `material: rubber`",
                    )
                    .allowing("rubber hoses")
                    .also_at(Place::item("lines", index).field("kind"), "this line"),
                );
            }
        }
        clamped
    }

    fn unknown(&mut self, option: &'static str, name: &str, what: &str, known: &[&str]) {
        self.findings.push(Finding::new(
            Code::OptionName,
            Place::Option(option),
            format!("`{option}` names `{name}`, but no {what} has that name"),
            suggest(name, known),
        ));
    }
}
