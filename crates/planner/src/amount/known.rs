//! Pushes that were worked out before: a layout planned again with one figure
//! measured asks for most of the same ones.

use super::model::{Enough, Model};
use bleedwright_hydraulics::{PurgeError, Washout};
use std::cell::RefCell;
use std::collections::HashMap;
use uom::si::f64::Ratio;

/// The bits of every number that a push depends on.
type Inputs = Box<[u64]>;

/// Pushes by what they depend on. Nothing is kept but pushes that were found,
/// and only the very same numbers find one again, so that results do not
/// depend on what was asked before.
#[derive(Debug, Default)]
pub(crate) struct KnownPushes {
    pushes: RefCell<HashMap<Inputs, Enough>>,
}

impl KnownPushes {
    /// [`Model::push_until`], worked out once.
    pub(crate) fn push_until(&self, model: &Model, residual: Ratio) -> Result<Enough, PurgeError> {
        let inputs = inputs(model, residual);
        if let Some(push) = self.pushes.borrow().get(&inputs) {
            return Ok(*push);
        }
        let push = model.push_until(residual)?;
        self.pushes.borrow_mut().insert(inputs, push);
        Ok(push)
    }
}

fn inputs(model: &Model, residual: Ratio) -> Inputs {
    let mut bits = vec![residual.value.to_bits()];
    add(model.run(), &mut bits);
    if let Some((all_old, chamber_old)) = model.with_chamber() {
        bits.push(chamber_old.to_bits());
        add(all_old, &mut bits);
    }
    bits.into_boxed_slice()
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
}
