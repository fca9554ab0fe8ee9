//! TB 9-2320-335-13&P: the order right rear, left rear, right front, left
//! front, printed for a left-hand-drive vehicle with front and rear circuits.
//!
//! The bulletin gives no pipe lengths. The layout is an invented vehicle with
//! the pipework that this order belongs to by the rule "longest run first": the
//! hose to the axle ends in a union in the middle of it, and the pipes from the
//! chassis come down on the driver's side.

use crate::demo;
use bleedwright_planner::Options;

#[test]
fn right_rear_left_rear_right_front_left_front() {
    let plan = demo::plan_file("tests/layouts/tb_order.ron", &Options::default());
    assert_eq!(
        demo::screws(&plan),
        ["rear right", "rear left", "front right", "front left"]
    );
}
