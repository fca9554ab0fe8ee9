//! Pushes that were worked out before: a layout planned again with one figure
//! measured asks for most of the same ones, and so do brakes that are alike.

use super::model::{Enough, Model};
use bleedwright_hydraulics::{PurgeError, Washout};
use rustc_hash::FxHashMap;
use std::cell::RefCell;
use uom::si::f64::Ratio;

/// The bits of every number that a push depends on.
type Inputs = Box<[u64]>;

/// With so many kept they are forgotten and the count begins again: brakes that
/// are alike come soon after each other in an order.
const MOST_KEPT: usize = 2048;

/// Pushes by what they depend on. Nothing is kept but pushes that were found,
/// and only the very same numbers find one again, so that results do not
/// depend on what was asked before.
#[derive(Debug, Default)]
pub(crate) struct KnownPushes {
    pushes: RefCell<FxHashMap<Inputs, Enough>>,
    /// Where the inputs of the push that is asked for are written down.
    asked: RefCell<Vec<u64>>,
}

impl KnownPushes {
    /// [`Model::push_until`], worked out once.
    pub(crate) fn push_until(&self, model: &Model, residual: Ratio) -> Result<Enough, PurgeError> {
        let mut asked = self.asked.borrow_mut();
        asked.clear();
        add_inputs(model, residual, &mut asked);
        let mut pushes = self.pushes.borrow_mut();
        if let Some(push) = pushes.get(&asked[..]) {
            return Ok(*push);
        }
        let push = model.push_until(residual)?;
        if pushes.len() == MOST_KEPT {
            pushes.clear();
        }
        pushes.insert(asked.as_slice().into(), push);
        Ok(push)
    }
}

fn add_inputs(model: &Model, residual: Ratio, bits: &mut Vec<u64>) {
    bits.push(residual.value.to_bits());
    add(model.run(), bits);
    if let Some((all_old, chamber_old)) = model.with_chamber() {
        bits.push(chamber_old.to_bits());
        add(all_old, bits);
    }
}

/// Lengths come first, so that two runs never give one and the same list.
fn add(run: &Washout, bits: &mut Vec<u64>) {
    let (segments, tanks) = (run.tube().segments(), run.tanks());
    bits.extend([segments.len() as u64, tanks.len() as u64]);
    for segment in segments {
        bits.push(segment.contents.value.to_bits());
        bits.push(segment.pushed_before.value.to_bits());
    }
    for tank in tanks {
        bits.push(tank.volume().value.to_bits());
        bits.push(tank.old_fraction().value.to_bits());
    }
    bits.push(run.inlet_old_fraction().value.to_bits());
    bits.extend(run.diffusion().bits());
}
