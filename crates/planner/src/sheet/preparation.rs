//! What comes before the first screw, from the parts that are there.

use super::equipment::{equipment, screws};
use super::height::unions;
use super::job::{banjo, bar, clutch, laid_up, shaft, trailer};
use super::opened::{joints, kept_full, level_while_open, new_brakes};
use super::reservoir::fluid;
use super::{List, PedalBlock, Sheet};
use crate::options::{Method, Purpose};
use crate::plan::{Before, Block, Change, Preparation};
use bleedwright_network::{Control, Cylinder, PartKind, ValveKind};
use std::collections::BTreeSet;
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// The preparations in the order they are made.
pub(crate) fn preparations(sheet: &Sheet<'_, '_>) -> Vec<Preparation> {
    let mut list = List(Vec::new());
    support(sheet, &mut list);
    trailer(sheet, &mut list);
    bar(sheet, &mut list);
    stored_force(sheet, &mut list);
    look_first(sheet, &mut list);
    joints(sheet, &mut list);
    new_brakes(sheet, &mut list);
    brakes(sheet, &mut list);
    valves(sheet, &mut list);
    residual_valves(sheet, &mut list);
    clutch(sheet, &mut list);
    pedal(sheet, &mut list);
    shaft(sheet, &mut list);
    level_while_open(sheet, &mut list);
    // A full system is pressed before its reservoir is drawn off, an opened one once it is full again.
    let is_full = sheet.purpose() == Purpose::Renew;
    if is_full {
        boosters(sheet, &mut list);
    }
    screws(sheet, &mut list);
    fluid(sheet, &mut list);
    if !is_full {
        boosters(sheet, &mut list);
    }
    equipment(sheet, &mut list);
    unions(sheet, &mut list);
    banjo(sheet, &mut list);
    list.0
}

/// What would make the work useless is found before fluid is poured.
fn look_first(sheet: &Sheet<'_, '_>, list: &mut List) {
    list.fact(Before::LookDry(sheet.fed()));
    list.fact(Before::LookSound(sheet.fed()));
    laid_up(sheet, list);
    if sheet.purpose() != Purpose::Fill {
        list.fact(Before::LookFluid);
    }
    list.fact(Before::LookScrews);
}

fn support(sheet: &Sheet<'_, '_>, list: &mut List) {
    let standing = sheet.standing();
    list.changed_by(Change::OnSupports(standing), Before::Stands(standing));
    if sheet.has_axles() && sheet.has_brakes() {
        list.fact(Before::ParkingBrakeOff(sheet.parking_brake()));
    }
}

/// Fluid held back by a valve comes out in a spurt.
fn residual_valves(sheet: &Sheet<'_, '_>, list: &mut List) {
    let valves: Vec<String> = sheet
        .valves_in_use(ValveKind::Residual)
        .iter()
        .map(|part| format!("`{}`", part.id))
        .collect();
    if valves.is_empty() {
        return;
    }
    let slow = match sheet.method() {
        Method::Gravity => {
            " What opens it toward the brakes is not known: if nothing runs, use the pedal."
        }
        Method::Reverse => " Pushed back, it opens only above what it holds, heights on top.",
        _ => "",
    };
    list.add(format!(
        "{} holds pressure: a spurt may come from a screw; goggles, cloth, open slowly.{slow}",
        valves.join(", ")
    ));
}

fn stored_force(sheet: &Sheet<'_, '_>, list: &mut List) {
    if sheet.has_unit() || !sheet.pressure_stores().is_empty() {
        list.fact(Before::PumpMayWake);
    }
    for (owner, routine) in sheet.pressure_stores() {
        let how = routine.map_or_else(
            || "by the maker's routine".to_owned(),
            |routine| format!("by the maker's routine: {routine}"),
        );
        list.change(
            Change::PressureReleased(owner.to_owned()),
            format!("`{owner}` stores pressure: make sure it was released {how}."),
        );
    }
}

/// Pressed only with everything in its place, and no farther than the block.
fn boosters(sheet: &Sheet<'_, '_>, list: &mut List) {
    if sheet.method() != Method::Pedal {
        return;
    }
    for kind in sheet.boosters() {
        list.fact(Before::Booster(kind));
    }
}

fn brakes(sheet: &Sheet<'_, '_>, list: &mut List) {
    if sheet.needs_service_mode() {
        list.change(
            Change::ServiceMode,
            "Electric parking brake in service mode, as the maker says.",
        );
    }
    if sheet.has_drums() {
        list.add(
            "Drum brakes' shoes adjusted, drums on and held by screws or wheel nuts: slack shoes feel like air.",
        );
    }
    let tilted: BTreeSet<&str> = sheet
        .tilted(sheet.order)
        .map(|part| part.id.as_str())
        .collect();
    for part in tilted {
        list.change(
            Change::Spacer(part.to_owned()),
            format!(
                "`{part}`: when its turn comes unbolted, pistons blocked by a spacer as thick as \
                 the disc, tilted until the screw is on top, held there by a hand or wire, never by its hose; spacer \
                 out and bolted back at once after."
            ),
        );
    }
}

fn valves(sheet: &Sheet<'_, '_>, list: &mut List) {
    for part in sheet.valves_in_use(ValveKind::LoadSensing) {
        list.change(
            Change::LeverTied(part.id.clone()),
            format!("Lever of `{}` tied toward laden.", part.id),
        );
    }
    for part in sheet.valves_in_use(ValveKind::Metering) {
        let PartKind::Valve(valve) = &part.kind else {
            continue;
        };
        let how = valve
            .held_open_by
            .as_deref()
            .unwrap_or("its stem or button");
        list.change(
            Change::MeteringHeld(part.id.clone()),
            format!("Metering valve `{}` held open ({how}).", part.id),
        );
    }
    for part in sheet.valves_in_use(ValveKind::DifferentialSwitch) {
        list.fact(Before::SwitchCentred(part.id.clone()));
    }
    let mut clamped: Vec<String> = sheet
        .request
        .clamped
        .iter()
        .map(|link| sheet.network().link_name(*link))
        .collect();
    clamped.sort();
    for line in clamped {
        list.change(
            Change::Clamp(line.clone()),
            format!(
                "Clamp on `{line}` (smooth round jaws only) off before anybody presses the pedal."
            ),
        );
    }
    kept_full(sheet, list);
    for part in &sheet.parts {
        let PartKind::AntiLock { routine, .. } = &part.kind else {
            continue;
        };
        list.add(match routine {
            Some(routine) => format!("Maker's routine for `{}` at hand: {routine}", part.id),
            None => format!("Maker's routine for `{}` at hand.", part.id),
        });
    }
}

fn pedal(sheet: &Sheet<'_, '_>, list: &mut List) {
    for block in &sheet.pedal_blocks {
        let what = match (block.control, block.is_clutch) {
            (Control::Pedal, false) => "Pedal block",
            (Control::Pedal, true) => "Clutch pedal block",
            (Control::HandLever, _) => "Lever stop",
            (Control::Coupler, _) => "Shaft stop",
        };
        list.change(
            Change::PedalBlock(block.cylinders.clone()),
            format!("{what} {}", block_text(block)),
        );
    }
    bench(sheet, list);
}

/// Where the block stands. With two of them each names its steps.
fn block_text(block: &PedalBlock) -> String {
    let mut travels = Vec::new();
    for (stop, screws) in &block.stops {
        let Block::At(travel) = stop else {
            return format!(
                "{} where `{}` was firm before work (pressed as in a stop): ____ mm, never \
                 beyond. Not firm: the maker's stroke. Never find the bottom with the {}: cups \
                 sweep rust.",
                if block.moves_two {
                    "at half of the travel (two pistons made it, one would reach its end)"
                } else {
                    "at the travel"
                },
                block.cylinders,
                match block.control {
                    Control::Pedal => "foot",
                    Control::HandLever => "hand",
                    Control::Coupler => "bar",
                }
            );
        };
        let mut text = format!("after {:.0} mm", travel.get::<millimeter>());
        match block.stops.len() {
            1 => text.push_str(" of travel"),
            _ => text.push_str(&format!(" for {}", screws.join(", "))),
        }
        travels.push(text);
    }
    format!(
        "{}: `{}` must not bottom.",
        travels.join("; "),
        block.cylinders
    )
}

/// Cylinders that are bled off the vehicle.
fn bench(sheet: &Sheet<'_, '_>, list: &mut List) {
    let layout = sheet.network().layout();
    let [dry, done] = sheet.dry_cylinders();
    let cylinders = |indices: &BTreeSet<usize>| -> Vec<&Cylinder> {
        indices
            .iter()
            .map(|index| &layout.cylinders[*index])
            .collect()
    };
    let names = |cylinders: &[&Cylinder]| -> String {
        let mut names: Vec<String> = cylinders
            .iter()
            .map(|cylinder| format!("`{}`", cylinder.id))
            .collect();
        names.sort();
        names.join(", ")
    };
    if !done.is_empty() {
        list.add(format!(
            "Taken as done: {} bled on the bench.",
            names(&cylinders(&done))
        ));
    }
    let dry = cylinders(&dry);
    // TM 5-4210-224-14&P strokes a truck's cylinder by about 25 mm; a shorter
    // one must not be pushed to its end.
    let stroke = dry
        .iter()
        .map(|cylinder| cylinder.chambers[0].stroke.low * BENCH_SHARE)
        .fold(Length::new::<millimeter>(25.0), Length::min);
    if !dry.is_empty() {
        list.add(format!(
            "Dry: {}: bled on the bench first, not in the vehicle: held by the flange, goggles, \
             blunt rod. Return tubes into the reservoir: strokes of {:.0} mm until no bubble comes, \
             nose a little down, then a little up. With screwed plugs instead: as far as it goes, \
             until it moves a few mm only.",
            names(&dry),
            stroke.get::<millimeter>()
        ));
    }
}

/// Share of its stroke by which a short cylinder is pushed on the bench.
///
/// ASSUMPTION: 80 %, clear of its end.
const BENCH_SHARE: f64 = 0.8;
