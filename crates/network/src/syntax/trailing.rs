//! What follows a value on its line.

use super::scanner::{Scanner, is_blank};

/// The end of what belongs to a value: its comma and the comments on its line.
pub(crate) struct Trailing {
    /// Behind the last of them.
    pub(crate) end: usize,
    /// Whether a comma stands behind the value.
    pub(crate) has_comma: bool,
    /// Whether nothing more can follow on this line.
    pub(crate) ends_line: bool,
}

/// What follows the value that ends at this byte.
pub(crate) fn trailing(text: &str, value_end: usize) -> Trailing {
    let mut scanner = Scanner::starting_at(text, value_end);
    let mut trailing = Trailing {
        end: value_end,
        has_comma: false,
        ends_line: false,
    };
    loop {
        scanner.take_while(|c| is_blank(c) && c != '\n');
        let rest = scanner.rest();
        if rest.starts_with("//") {
            scanner.take_while(|c| c != '\n');
            trailing.end = text[..scanner.at].trim_end_matches('\r').len();
            trailing.ends_line = true;
            break;
        }
        if rest.starts_with(',') && !trailing.has_comma {
            scanner.at += 1;
            trailing.has_comma = true;
        } else if !rest.starts_with("/*") || scanner.skip_block_comment().is_err() {
            break;
        }
        trailing.end = scanner.at;
    }
    if !trailing.has_comma && scanner.skip_blank().is_ok() && scanner.rest().starts_with(',') {
        return Trailing {
            end: scanner.at + 1,
            has_comma: true,
            ends_line: false,
        };
    }
    trailing
}
