//! The questions of `draft --ask`, in the order in which one sees things: under the bonnet, then under the vehicle.
//!
//! Every question has an option; an answer of "don't know" leaves the option out.

use crate::draft_args::{
    self, DraftArguments, behind_axle, measures, pipe, steering, track, wheelbase,
};
use crate::interrupt::end_on_interrupt;
use crate::quantity_args::fluid;
use crate::words::meant;
use anyhow::{Context, Result, bail};
use bleedwright_drafting::FirstWheels;
use bleedwright_network::Split;
use bleedwright_report::{clean, paragraph};
use std::io::{BufRead, Write};

/// What a question is, and what to look at to answer it.
struct Question {
    asks: &'static str,
    look: &'static str,
}

/// Words for "don't know"; an empty line is one too.
const UNKNOWN: [&str; 5] = ["?", "don't know", "dont know", "unknown", "no idea"];

/// How often one question is asked before the dialogue ends.
const MOST_TRIES: usize = 10;

/// Asks for what the options left open.
pub(crate) fn ask(arguments: &mut DraftArguments, mut dialogue: Dialogue<'_>) -> Result<()> {
    end_on_interrupt("ended; nothing was written")?;
    dialogue.say(&paragraph(
        "An empty line or ? means: don't know. Ctrl-C ends it, and nothing is written.",
        dialogue.width,
    ))?;
    dialogue.say("\nUNDER THE BONNET\n")?;
    dialogue.fill(&mut arguments.steering, &STEERING, steering)?;
    dialogue.fill(&mut arguments.fluid, &FLUID, fluid)?;
    dialogue.fill(&mut arguments.cylinder, &CYLINDER, |text| {
        meant(text, &draft_args::CYLINDERS)
    })?;
    dialogue.fill(&mut arguments.booster, &BOOSTER, |text| {
        meant(text, &draft_args::BOOSTERS)
    })?;
    let pipes = match arguments.split {
        Some(_) => None,
        None => dialogue.question(&PIPES, |text| count(text, 6))?,
    };
    if !arguments.anti_lock {
        arguments.anti_lock = dialogue.question(&ANTI_LOCK, yes_or_no)?.unwrap_or(false);
    }
    dialogue.fill(
        &mut arguments.cylinder_behind_axle,
        &BEHIND_AXLE,
        behind_axle,
    )?;
    dialogue.fill(&mut arguments.pipe, &PIPE, pipe)?;
    dialogue.say("\nAT THE WHEELS AND UNDERNEATH\n")?;
    dialogue.fill(&mut arguments.front, &FRONT, |text| {
        meant(text, &draft_args::BRAKES)
    })?;
    dialogue.fill(&mut arguments.rear, &REAR, |text| {
        meant(text, &draft_args::BRAKES)
    })?;
    if arguments.split.is_none() {
        arguments.split = dialogue.split(pipes)?;
    }
    if arguments.half.is_none()
        && arguments.split.is_some()
        && let Some(wheels) = measures(arguments).first_wheels()
    {
        arguments.half =
            dialogue.question(&half(wheels), |text| meant(text, &draft_args::HALVES))?;
    }
    dialogue.fill(&mut arguments.rear_axle, &REAR_AXLE, |text| {
        meant(text, &draft_args::REAR_AXLES)
    })?;
    dialogue.fill(&mut arguments.rear_pipe, &REAR_PIPE, pipe)?;
    dialogue.fill(&mut arguments.wheelbase, &WHEELBASE, wheelbase)?;
    dialogue.fill(&mut arguments.track, &TRACK, track)?;
    dialogue.fill(&mut arguments.units, &UNITS, |text| {
        meant(text, &draft_args::UNITS)
    })?;
    dialogue.fill(&mut arguments.name, &NAME, |text| Ok(text.to_owned()))?;
    Ok(())
}

/// Where answers come from and questions go.
pub(crate) struct Dialogue<'d> {
    pub(crate) answers: &'d mut dyn BufRead,
    pub(crate) screen: &'d mut dyn Write,
    /// The columns of the screen.
    pub(crate) width: usize,
    /// Whether the screen shows what is answered, as a terminal does. Over a
    /// pipe nobody sees an answer that is not written here.
    pub(crate) shows_answers: bool,
}

impl Dialogue<'_> {
    fn say(&mut self, text: &str) -> Result<()> {
        self.screen
            .write_all(text.as_bytes())
            .context("cannot ask")?;
        self.screen.flush().context("cannot ask")
    }

    /// Lines below a question.
    fn set_in(&self, text: &str) -> String {
        let lines = paragraph(text, self.width.saturating_sub(2));
        let set_in: Vec<String> = lines.lines().map(|line| format!("  {line}")).collect();
        set_in.join("\n") + "\n"
    }

    /// The answer, asked for again until it can be used; none for "don't know".
    fn question<T>(
        &mut self,
        question: &Question,
        read: impl Fn(&str) -> Result<T, String>,
    ) -> Result<Option<T>> {
        let asks = paragraph(question.asks, self.width);
        self.say(&format!("\n{asks}{}", self.set_in(question.look)))?;
        for _ in 0..MOST_TRIES {
            self.say("> ")?;
            let mut line = String::new();
            if self
                .answers
                .read_line(&mut line)
                .context("cannot read the answer")?
                == 0
            {
                bail!("the answers ended before the questions; nothing was written");
            }
            let answer = line.trim();
            if !self.shows_answers {
                self.say(&format!("{}\n", clean(answer)))?;
            }
            if answer.is_empty() || UNKNOWN.contains(&answer.to_lowercase().as_str()) {
                return Ok(None);
            }
            match read(answer) {
                Ok(value) => return Ok(Some(value)),
                Err(wrong) => self.say(&self.set_in(&wrong))?,
            }
        }
        bail!(
            "no usable answer to \"{}\"; nothing was written",
            question.asks
        )
    }

    /// The same for what no option gave.
    fn fill<T>(
        &mut self,
        answer: &mut Option<T>,
        question: &Question,
        read: impl Fn(&str) -> Result<T, String>,
    ) -> Result<()> {
        if answer.is_none() {
            *answer = self.question(question, read)?;
        }
        Ok(())
    }

    /// The split, from pipes and hoses counted.
    fn split(&mut self, pipes: Option<u32>) -> Result<Option<Split>> {
        if pipes == Some(1) {
            return Ok(Some(Split::Single));
        }
        let Some(at_front) = self.question(&FRONT_HOSES, |text| count(text, 2))? else {
            return Ok(None);
        };
        let Some(to_rear) = self.question(&REAR_PIPES, |text| count(text, 2))? else {
            return Ok(None);
        };
        if at_front == 2 {
            let at_rear = self.question(&REAR_HOSES, |text| count(text, 2))?;
            return Ok(at_rear.map(|at_rear| match (at_rear, to_rear) {
                (2, _) => Split::HH,
                (_, 2) => Split::LL,
                _ => Split::HI,
            }));
        }
        Ok(Some(if to_rear == 2 { Split::X } else { Split::II }))
    }
}

fn count(text: &str, most: u32) -> Result<u32, String> {
    match text.parse() {
        Ok(count) if (1..=most).contains(&count) => Ok(count),
        _ => Err(format!("give a number from 1 to {most}")),
    }
}

fn yes_or_no(text: &str) -> Result<bool, String> {
    match text.to_lowercase().as_str() {
        "yes" | "y" => Ok(true),
        "no" | "n" => Ok(false),
        _ => Err("give yes or no".to_owned()),
    }
}

const STEERING: Question = Question {
    asks: "On which side is the steering wheel? left, right or centre",
    look: "The master cylinder is nearly always on that side.",
};
const FLUID: Question = Question {
    asks: "Which fluid? dot3, dot4, dot4_low_viscosity, dot5 (silicone, not 5.1), dot5_1 or mineral",
    look: "It stands on the cap of the reservoir. Never guess it from the colour.",
};
const CYLINDER: Question = Question {
    asks: "Which master cylinder? single, tandem or twin",
    look: "One long body with pipes at two places: tandem. Two bodies side by side: twin.",
};
const fn half(wheels: FirstWheels) -> Question {
    Question {
        asks: match wheels {
            FirstWheels::Front => {
                "Which half of the cylinder feeds the front wheels? nearest the pedal or farthest"
            }
            FirstWheels::FrontLeft => {
                "Which half of the cylinder feeds the front left wheel? nearest the pedal or farthest"
            }
            FirstWheels::Rear => {
                "Which half of the cylinder feeds the rear wheels? nearest the pedal or farthest"
            }
            FirstWheels::RearRight => {
                "Which half of the cylinder feeds the rear right wheel? nearest the pedal or farthest"
            }
        },
        look: "Follow its pipe back to the cylinder; the half nearest the pedal is the primary. Answer nearest or farthest.",
    }
}
const BOOSTER: Question = Question {
    asks: "Which booster? vacuum or none",
    look: "A round can as large as a plate between cylinder and bulkhead, with a thick hose to the engine: vacuum.",
};
const PIPES: Question = Question {
    asks: "How many pipes leave the cylinder? 1 to 6",
    look: "Follow each with the torch; the thin hoses from the reservoir do not count.",
};
const ANTI_LOCK: Question = Question {
    asks: "Is there an anti-lock unit? yes or no",
    look: "A block with a motor and many pipes, often in the wing.",
};
const BEHIND_AXLE: Question = Question {
    asks: "How far behind the front wheels' centre is the cylinder? as in 0.25 m",
    look: "Along the vehicle, not across. Ahead of the wheels' centre is negative: -0.2 m.",
};
const PIPE: Question = Question {
    asks: "Which size are the pipes? as in 3/16 in, or 4.75 mm x 0.70 mm with the wall",
    look: "Measure the outside of a straight piece, without paint.",
};
const FRONT: Question = Question {
    asks: "Which front brakes? disc, drum or double-drum",
    look: "Double: a drum with two wheel cylinders.",
};
const REAR: Question = Question {
    asks: "Which rear brakes? disc, drum or double-drum",
    look: "Double: a drum with two wheel cylinders.",
};
const FRONT_HOSES: Question = Question {
    asks: "How many hoses lead to one front wheel? 1 or 2",
    look: "Turn the steering to one side and look behind the wheel.",
};
const REAR_PIPES: Question = Question {
    asks: "How many long pipes run to the rear? 1 or 2",
    look: "Look along the floor; a pipe that turns back at a valve counts once.",
};
const REAR_HOSES: Question = Question {
    asks: "How many hoses lead to one rear wheel? 1 or 2",
    look: "With one hose to a rigid axle the answer is 1.",
};
const REAR_AXLE: Question = Question {
    asks: "How are the rear brakes fed? rigid or independent",
    look: "Rigid: one hose to the axle and pipes on it. Independent: a hose at each wheel.",
};
const REAR_PIPE: Question = Question {
    asks: "Which size is the long pipe to the rear, if it is another one?",
    look: "An empty line means: the same.",
};
const WHEELBASE: Question = Question {
    asks: "How far apart are the axles? as in 2.55 m",
    look: "From the middle of a front wheel to the middle of the rear one on the same side.",
};
const TRACK: Question = Question {
    asks: "How far apart are the wheels of an axle? as in 1.46 m",
    look: "From the middle of one tyre to the middle of the other.",
};
const UNITS: Question = Question {
    asks: "Which units shall the file have? mm or inch",
    look: "An empty line means: those of the wheelbase, else mm.",
};
const NAME: Question = Question {
    asks: "What is the vehicle called?",
    look: "Any name; it stands on every sheet.",
};
