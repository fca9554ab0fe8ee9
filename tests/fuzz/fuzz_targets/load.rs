//! Bytes to findings, and to a plan where nothing stops one: text and JSON of
//! either must come out, whatever the bytes were.
#![no_main]

use bleedwright_network::load;
use bleedwright_planner::{Options, plan, volumes};
use bleedwright_report::json::{CheckJson, PlanJson, VolumesJson, pretty};
use bleedwright_report::{Pages, Paper, findings_plain, findings_terminal, plan_text, volumes_text};
use libfuzzer_sys::fuzz_target;

const NAME: &str = "layout.ron";

/// Narrow enough that lines are wrapped and cut.
const WIDTH: usize = 40;

fuzz_target!(|bytes: &[u8]| {
    let source = String::from_utf8_lossy(bytes);
    let loaded = load(bytes);
    let mut findings = loaded.findings.clone();
    if let Some(network) = loaded.sound_network() {
        let added_up = volumes(network);
        show(&volumes_text(&added_up, Paper::new(WIDTH, false)));
        pretty(&VolumesJson::new(&added_up));
        let planned = plan(network, &Options::default());
        if let Some(plan) = &planned.plan {
            show(&plan_text(plan, Pages::Both, Paper::new(WIDTH, false)));
            pretty(&PlanJson::new(plan, &source));
        }
        findings.extend(planned.findings);
    }
    pretty(&CheckJson::new(NAME, loaded.network.as_ref(), &findings, &source));
    show(&findings_plain(&findings, NAME, &source));
    show(&findings_terminal(&findings, NAME, &source, WIDTH, false));
});

/// What a terminal would get: no control character of a file may reach it.
fn show(text: &str) {
    let control = text.chars().find(|c| c.is_control() && *c != '\n');
    assert_eq!(control, None, "in {text:?}");
}
