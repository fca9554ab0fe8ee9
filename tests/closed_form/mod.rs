//! Formulas worked by hand: no source prints these numbers, one prints the formula. One file for each subject.

mod boyle;
mod bretherton_1961;
mod lame;
mod levenspiel;
mod levers_and_pistons;
mod merritt;
mod pedal_reserve;
mod pipe_contents;
mod reservoir_capacity;
mod shah_1978;
mod viana_2003;
mod viscosity;
mod white;
