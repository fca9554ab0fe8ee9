//! What a shell and `man` want to know of the command.

use crate::exit::Exit;
use crate::output::Output;
use anyhow::{Context, Result};
use clap::{Args, Command};
use clap_complete::Shell;

const EXAMPLES: &str = "\
Examples:
  bleedwright completions bash > ~/.local/share/bash-completion/completions/bleedwright
  bleedwright completions fish > ~/.config/fish/completions/bleedwright.fish
  bleedwright manual > ~/.local/share/man/man1/bleedwright.1";

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct CompletionsArguments {
    /// The shell
    shell: Shell,
}

pub(crate) fn completions(
    arguments: &CompletionsArguments,
    mut command: Command,
    output: &mut Output,
) -> Result<Exit> {
    let mut text = Vec::new();
    clap_complete::generate(arguments.shell, &mut command, "bleedwright", &mut text);
    output.print(&String::from_utf8(text).context("completions are text")?)?;
    Ok(Exit::Done)
}

/// One page: the command, then every verb with its options.
pub(crate) fn manual(mut command: Command, output: &mut Output) -> Result<Exit> {
    command.build();
    let of_whole = |man: clap_mangen::Man| -> Result<String> {
        let mut page = Vec::new();
        man.render(&mut page)?;
        String::from_utf8(page).context("the manual is text")
    };
    let mut page = of_whole(clap_mangen::Man::new(command.clone()))?;
    let verbs = command.get_subcommands();
    for verb in verbs.filter(|verb| verb.get_name() != "help") {
        // There are no pages of the verbs: each has its heading in this one.
        let name = verb.get_name();
        page = page.replace(&format!("bleedwright\\-{name}(1)"), name);
        let mut sections = Vec::new();
        let man = clap_mangen::Man::new(verb.clone());
        man.render_synopsis_section(&mut sections)?;
        man.render_description_section(&mut sections)?;
        man.render_options_section(&mut sections)?;
        let sections = String::from_utf8(sections).context("the manual is text")?;
        page.push_str(&format!(".SH {}\n", name.to_uppercase()));
        page.push_str(&sections.replace(".SH ", ".SS "));
    }
    output.print(&page)?;
    Ok(Exit::Done)
}
