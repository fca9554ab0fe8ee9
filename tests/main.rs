//! Tests of the whole program, one module for each subject.

mod binary;
mod broken;
mod browser;
mod bubbles;
mod certainty;
mod command_line;
mod comparison;
mod demo;
mod draft;
mod drafting;
mod drawing;
mod fluid;
mod generated;
mod orders;
mod pedal;
mod print;
mod properties;
mod published;
mod readings;
mod readme;
mod reference_flow;
mod reference_network;
mod reference_stroke;
mod simulation;
mod snapshots;
mod sources;
