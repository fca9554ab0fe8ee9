//! Completions for shells, and the manual page.

use super::run;

/// Every verb that `--help` names.
fn verbs() -> Vec<String> {
    let help = run(&["--help"]).stdout;
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
        let completions = run(&["completions", shell]);
        assert_eq!(completions.code, Some(0), "{shell}");
        for verb in &verbs {
            assert!(
                completions.stdout.contains(verb.as_str()),
                "{shell}: {verb}"
            );
        }
    }
    assert_eq!(run(&["completions", "shellfish"]).code, Some(2));
}

#[test]
fn the_manual_has_a_heading_for_every_verb() {
    let manual = run(&["manual"]);
    assert_eq!(manual.code, Some(0));
    assert!(manual.stdout.contains(".TH bleedwright 1"));
    for verb in verbs().iter().filter(|verb| *verb != "help") {
        let heading = format!(".SH {}\n", verb.to_uppercase());
        assert!(manual.stdout.contains(&heading), "{verb}");
    }
}
