//! The words of what is worth measuring, and of why it was not worked out.

use crate::said::{Said, bare, figure, name, say};
use bleedwright_planner::{
    Dimension, MOST_PASSED, MOST_STEPS, MOST_WORK, Measurable, Measurement, TooMuch, Undecided,
};

/// What to measure, to stand behind "measure".
pub(crate) fn measurable_text(measurable: &Measurable) -> Said {
    let of = name(&measurable.of);
    match measurable.what {
        Dimension::Extension => say!("how far the pistons of {} stand out", of),
        Dimension::Bore => say!("the bore of {}", of),
        Dimension::Contents => say!("the contents of {}", of),
        Dimension::Crossover => say!("the contents of the crossover of {}", of),
        Dimension::FeedHose => say!("the contents of the hose of {}", of),
        Dimension::DeadVolume => say!("the dead volume of {}", of),
        Dimension::Length => say!("the length of {}", of),
        Dimension::Maximum => say!("the maximum of {}", of),
        Dimension::Minimum => say!("the minimum of {}", of),
        Dimension::PistonBore => say!("the piston bore of {}", of),
        Dimension::Stroke => say!("the stroke of {}", of),
        Dimension::CutOff => say!("the travel that closes the port of {}", of),
        Dimension::LeftWhenDrawnOff => say!("what a syringe leaves in {}", of),
    }
}

/// What to do to know a figure.
pub fn measurement_text(measurement: &Measurement) -> String {
    say!("measure {}", measurable_text(&measurement.what)).to_string()
}

/// Why nothing is said of what is worth measuring.
pub(crate) fn too_much_text(why: &TooMuch) -> Said {
    let (figures, visits) = (figure(why.figures), figure(why.visits));
    if why.is_by_amounts {
        say!(
            "{} figures at {} screws would take more than {} amounts",
            figures,
            visits,
            figure(MOST_WORK)
        )
    } else {
        say!(
            "{} figures at {} screws would take more than {} lines and parts on their runs",
            figures,
            visits,
            figure(MOST_PASSED)
        )
    }
}

/// Why it was not worked out whether the order is certain.
pub(crate) fn undecided_text(why: &Undecided) -> Said {
    match why {
        Undecided::Loop(circuit) => say!(
            "{} has a loop with lengths that are not exact, so that its runs may lead another way",
            bare(circuit)
        ),
        Undecided::TooManySteps => say!(
            "more than {} steps along the pipework would be needed",
            figure(MOST_STEPS)
        ),
    }
}
