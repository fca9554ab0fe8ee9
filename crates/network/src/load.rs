//! Loading: from bytes to a network, with everything found on the way.

use crate::check;
use crate::code::Code;
use crate::finding::Finding;
use crate::network::Network;
use crate::parse::parse;
use crate::place::Place;
use crate::port::check_ends;
use crate::resolve::resolve;
use crate::source::Locator;

/// The largest file read unless the caller says otherwise: 4 MiB.
pub const DEFAULT_SIZE_LIMIT: usize = 4 * 1024 * 1024;

/// What loading a layout gave.
#[derive(Clone, Debug)]
pub struct Loaded {
    /// The network; none when the text could not be read as a layout. It must
    /// not be planned from while any finding is an error.
    pub network: Option<Network>,
    /// Everything found, errors first, then in the order of the file.
    pub findings: Vec<Finding>,
}

impl Loaded {
    /// Whether any finding stops a plan.
    pub fn has_errors(&self) -> bool {
        self.findings.iter().any(Finding::is_error)
    }

    /// The network, if nothing stops a plan.
    pub fn sound_network(&self) -> Option<&Network> {
        if self.has_errors() {
            None
        } else {
            self.network.as_ref()
        }
    }
}

/// Loads a layout of at most 4 MiB.
///
/// ```
/// use bleedwright_network::load;
///
/// let text = std::fs::read("../../layouts/plover.ron").expect("the layout is there");
/// let loaded = load(&text);
/// let network = loaded.sound_network().expect("it has no error");
/// assert_eq!(network.circuits().count(), 2);
/// ```
pub fn load(bytes: &[u8]) -> Loaded {
    load_up_to(bytes, DEFAULT_SIZE_LIMIT)
}

/// Loads a layout of at most `size_limit` bytes.
pub fn load_up_to(bytes: &[u8], size_limit: usize) -> Loaded {
    if bytes.len() > size_limit {
        return failed(
            Finding::new(
                Code::TooLarge,
                Place::Bytes(0..0),
                format!("the file has more than {size_limit} bytes"),
                "split the vehicle into several files, or leave out what is not brake pipework",
            )
            .allowing(format!("up to {size_limit} bytes")),
        );
    }
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => {
            return failed(Finding::new(
                Code::NotText,
                Place::Bytes(error.valid_up_to()..error.valid_up_to()),
                format!("byte {} is not UTF-8 text", error.valid_up_to()),
                "a layout is a plain text file; save it as UTF-8",
            ));
        }
    };
    let (file, mut findings) = parse(text);
    let Some(file) = file else {
        return Loaded {
            network: None,
            findings,
        };
    };
    let is_whole = findings.is_empty();
    let (layout, values) = resolve(&file);
    findings.extend(values);
    let network = if is_whole {
        let are_values_known = findings.iter().all(|it| it.code == Code::OddUnit);
        let network = Network::new(layout, &mut findings);
        findings.extend(check::check(&network, are_values_known));
        hold_back_what_follows(&mut findings);
        if !findings.iter().any(Finding::is_error) {
            check::ask(&network, &mut findings);
        }
        Some(network)
    } else {
        // Parts that could not be read would leave lines without ends, and
        // every such line would be reported though nothing is wrong with it.
        check_ends(&layout, &mut findings);
        None
    };
    sort(text, &mut findings);
    Loaded { network, findings }
}

/// A line whose end is unknown leaves parts loose and unreached, and a split
/// wrong. That is not said beside its cause: it is gone with it, or shows then.
fn hold_back_what_follows(findings: &mut Vec<Finding>) {
    let is_cause =
        |finding: &Finding| matches!(finding.code, Code::UnknownPart | Code::UnknownPort);
    if findings.iter().any(is_cause) {
        findings.retain(|finding| {
            !matches!(
                finding.code,
                Code::LooseEnd | Code::Unreached | Code::SplitContradicted
            )
        });
    }
}

fn failed(finding: Finding) -> Loaded {
    Loaded {
        network: None,
        findings: vec![finding],
    }
}

/// The safety case first, causes next, and last what may only follow from
/// them: a line with a wrong end leaves a part loose and a split wrong.
fn rank(code: Code) -> u8 {
    match code {
        // What an unknown field would have said is missing elsewhere.
        Code::CircuitsJoined | Code::UnknownField => 0,
        Code::LooseEnd | Code::Unreached | Code::NoScrew | Code::SplitContradicted => 2,
        _ => 1,
    }
}

/// Errors first, then warnings, then advice; within each by cause and place.
fn sort(text: &str, findings: &mut [Finding]) {
    let locator = Locator::new(text);
    findings.sort_by_cached_key(|finding| {
        let start = locator.find(&finding.place).map_or(0, |range| range.start);
        (finding.severity, rank(finding.code), start, finding.code)
    });
}
