//! What each circuit still brakes when another is lost.

use crate::clean::clean;
use crate::lesson::{LessonPedal, LessonSide};
use crate::text::letter;
use maud::{Markup, html};

pub(super) fn section(sides: &[LessonSide<'_>]) -> Markup {
    html! {
        section aria-labelledby="lost" {
            h2 id="lost" { "When a circuit is lost" }
            p class="note" {
                "Wheels by their piston area that is still under pressure. A pedal is pressed with 300 N, a hand lever with 100 N, a booster \
                 helping where there is one; most of what gives under pressure is a guess, so the bounds are wide."
            }
            @for (nth, side) in sides.iter().enumerate() {
                @for pedal in &side.pedals { (table(nth, side, pedal)) }
            }
        }
    }
}

fn table(nth: usize, side: &LessonSide<'_>, pedal: &LessonPedal) -> Markup {
    html! {
        table class="losses" {
            caption { (letter(nth)) ": " (clean(&side.side.plan.head.vehicle)) ", " (clean(&pedal.name)) }
            thead { tr {
                th scope="col" { "Lost" }
                th scope="col" { "Brake with all pistons" }
                th scope="col" { "With some" }
                th scope="col" { "With none" }
                th scope="col" { "Pedal" }
            } }
            tbody {
                @for loss in pedal.losses() {
                    tr {
                        th scope="row" { (clean(&loss.circuit)) }
                        td { (clean(&loss.whole)) }
                        td { (clean(&loss.partly)) }
                        td { (clean(&loss.gone)) }
                        td { (clean(&loss.pedal)) }
                    }
                }
            }
        }
    }
}
