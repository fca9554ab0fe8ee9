//! White space and comments.

use super::scanner::{Read, Scanner, is_blank};
use super::slip::SlipKind;

impl Scanner<'_> {
    fn skip_line(&mut self) {
        self.take_while(|c| c != '\n');
    }

    /// Skips white space and comments; RON's block comments nest.
    pub(super) fn skip_blank(&mut self) -> Read<()> {
        loop {
            self.take_while(is_blank);
            let rest = self.rest();
            if rest.starts_with("//") {
                self.skip_line();
            } else if rest.starts_with("/*") {
                self.skip_block_comment()?;
            } else if rest.starts_with('#') && !rest.starts_with("#![") {
                self.note(SlipKind::HashComment, self.here(), None)?;
                self.skip_line();
            } else {
                return Ok(());
            }
        }
    }

    pub(super) fn skip_block_comment(&mut self) -> Read<()> {
        let start = self.at;
        let mut depth = 0_usize;
        loop {
            let rest = self.rest();
            if rest.starts_with("/*") {
                depth += 1;
                self.at += 2;
            } else if rest.starts_with("*/") {
                depth -= 1;
                self.at += 2;
                if depth == 0 {
                    return Ok(());
                }
            } else if let Some(next) = rest.find(['/', '*']).filter(|next| *next > 0) {
                self.at += next;
            } else if rest.starts_with(['/', '*']) {
                self.at += 1;
            } else {
                return self.note(SlipKind::CommentNeverClosed, start..start + 2, None);
            }
        }
    }
}
