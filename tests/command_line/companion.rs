//! Completions for shells, and the manual page.

use super::{printed, run};

/// Every verb that `--help` names.
fn verbs() -> Vec<String> {
    let help = printed("--help");
    let commands = help
        .split("Commands:\n")
        .nth(1)
        .expect("the help lists commands");
    commands
        .lines()
        .take_while(|line| !line.is_empty())
        .filter_map(|line| line.split_whitespace().next())
        .map(str::to_owned)
        .collect()
}

#[test]
fn completions_know_every_verb() {
    let verbs = verbs();
    assert!(verbs.len() >= 10, "{verbs:?}");
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let completions = printed(&format!("completions {shell}"));
        for verb in &verbs {
            assert!(completions.contains(verb.as_str()), "{shell}: {verb}");
        }
    }
    assert_eq!(run("completions shellfish").code, Some(2));
}

#[test]
fn the_manual_has_a_heading_for_every_verb() {
    let manual = printed("manual");
    assert!(manual.contains(".TH bleedwright 1"));
    for verb in verbs().iter().filter(|verb| *verb != "help") {
        let heading = format!(".SH {}\n", verb.to_uppercase());
        assert!(manual.contains(&heading), "{verb}");
    }
}
