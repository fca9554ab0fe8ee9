//! What a handover sheet assumes of every vehicle.

use super::wanted::{newtons, tenths};
use crate::fluid::span;
use crate::number::{fraction, spelt};
use crate::said::{Said, figure, say};
use bleedwright_inspection::fluid::{
    OPENED_LONGEST_YEARS, OPENED_MONTH_YEARS, RENEWAL_YEARS, lowest_wet,
};
use bleedwright_inspection::limit::{
    least_shown, lining_floor, most_pedal_travel, reserve_force, torque_spread,
    widest_torque_tolerance,
};
use bleedwright_inspection::readings::{FORCE_SPREAD, LEAST_OF_MOST, MOST_OF_LEAST, least_moved};
use bleedwright_inspection::record::{Day, believable_length, believable_torque};
use uom::si::f64::{Length, Ratio};
use uom::si::length::millimeter;
use uom::si::ratio::{percent, ratio};
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::torque::newton_meter;

/// What is assumed.
pub(crate) fn assumptions() -> [Said; 9] {
    let mm = |length: Length| length.get::<millimeter>();
    let share = |share: Ratio| figure(format!("{:.0} %", share.get::<percent>()));
    let sizes = |field| {
        let [least, most] = believable_length(field).map(mm);
        figure(format!("{least} to {most} mm"))
    };
    let whole = |length| figure(format!("{:.0} mm", mm(length)));
    let [_, thickest] = believable_length("lining").map(mm);
    let [least, most] = believable_torque("torque_wanted").map(|it| it.get::<newton_meter>());
    let lowest = lowest_wet().map(|point| format!("{:.0} degC", point.get::<degree_celsius>()));
    let times = if MOST_OF_LEAST == 2.0 {
        "twice".into()
    } else {
        say!("{} times", figure(spelt(MOST_OF_LEAST)))
    };
    [
        say!(
            "The US figures are those of 49 CFR 570.55 and 570.59 for a vehicle over 10,000 lb in use, else those of 570.5 \
             (second-hand, its pedal from memory); {} of lining by 49 CFR 393.47, for commercial vehicles, is applied to \
             all. What nobody says is light or riveted is held against the figure for a heavy one, bonded. Local law may ask for more.",
            tenths(lining_floor())
        ),
        say!(
            "A torque may be {} from a maker's figure that has no tolerance; one with a tolerance of more than {} is no \
             figure to hold against.",
            share(torque_spread()),
            share(widest_torque_tolerance())
        ),
        say!(
            "Figures that no part has are refused: discs are taken to have {}, drums {}, linings up to {} mm and their \
             least thickness {}, wanted torques {} N m.",
            sizes("disc"),
            sizes("drum"),
            figure(thickest),
            sizes("lining_minimum"),
            figure(format!("{least} to {most}"))
        ),
        "A disc or drum exactly at its figure fails (common practice, stricter than the law's words), a lining too \
         (assumption)."
            .into(),
        say!(
            "A pedal travel beyond {} is looked at again, instead of failing, when the force was more than {} above {}. A \
             pedal within {} of the floor touches it and fails at any force; one that moves by less than {} is looked at \
             again.",
            share(most_pedal_travel()),
            share(Ratio::new::<ratio>(FORCE_SPREAD - 1.0)),
            newtons(reserve_force()),
            whole(least_shown()),
            whole(least_moved())
        ),
        say!(
            "A figure far from that of the other side is looked at again, and so is a disc of more than {} its least \
             thickness, a drum of less than {} of its largest diameter, or a day before {} or after {}.",
            times,
            figure(fraction(LEAST_OF_MOST)),
            figure(Day::BELIEVED_YEARS.start()),
            figure(Day::BELIEVED_YEARS.end())
        ),
        say!(
            "Fluid is held against the wet minimum of its grade by its boiling point, measured, else estimated cautiously from \
             the water read; a little above it is looked at again, and below {} it fails whatever the grade. A tester's \
             reading alone can fail fluid that the estimate lets pass.",
            figure(lowest.unwrap_or_default())
        ),
        say!(
            "Fluid is due again after the maker's interval, else after {} (common practice, no source). A bottle open for \
             more than {} is looked at again, after {} it fails.",
            span(RENEWAL_YEARS),
            span(OPENED_MONTH_YEARS),
            span(OPENED_LONGEST_YEARS)
        ),
        "A reading with a tolerance counts at its worse end.".into(),
    ]
}
