//! Texts in quotes, with the escapes of both spellings.

use super::scan::{Scanner, Spelling, Stop};

impl Scanner<'_> {
    /// How many hashes open a raw text here.
    pub(super) fn raw_hashes(&self) -> Option<usize> {
        let behind = self.rest().strip_prefix('r')?;
        let hashes = behind.len() - behind.trim_start_matches('#').len();
        behind[hashes..].starts_with('"').then_some(hashes)
    }

    pub(super) fn raw(&mut self) -> Result<String, Stop> {
        let start = self.at;
        let hashes = self.raw_hashes().unwrap_or(0);
        self.at += hashes + 2;
        let closer = format!("\"{}", "#".repeat(hashes));
        let Some(length) = self.rest().find(&closer) else {
            return self.unclosed(start);
        };
        let text = self.rest()[..length].to_owned();
        self.at += length + closer.len();
        Ok(text)
    }

    fn unclosed<T>(&mut self, start: usize) -> Result<T, Stop> {
        let help = "close it on the same line, before the comma";
        self.stop(start..start + 1, "this quote is never closed", help)
    }

    pub(super) fn quoted(&mut self) -> Result<String, Stop> {
        let start = self.at;
        self.at += 1;
        let mut text = String::new();
        loop {
            let rest = self.rest();
            let Some(length) = rest.find(|c: char| matches!(c, '"' | '\\') || self.is_barred(c))
            else {
                return self.unclosed(start);
            };
            text.push_str(&rest[..length]);
            self.at += length;
            match self.peek() {
                Some('"') => {
                    self.at += 1;
                    return Ok(text);
                }
                Some('\\') => {
                    if let Some(c) = self.escape() {
                        text.push(c);
                    } else {
                        let help = "write \\\\ for a backslash and \\\" for a quote";
                        return self.stop(self.here(), "this escape is not known", help);
                    }
                }
                _ => return self.unclosed(start),
            }
        }
    }

    /// JSON allows no control character inside quotes.
    fn is_barred(&self, c: char) -> bool {
        self.spelling == Spelling::Json && c < ' '
    }

    /// What stands for itself behind a backslash; the place stays at the backslash when it is unknown.
    fn escape(&mut self) -> Option<char> {
        let rest = &self.rest()[1..];
        let is_json = self.spelling == Spelling::Json;
        let (c, length) = match rest.chars().next()? {
            c @ ('"' | '\\') => (c, 1),
            'n' => ('\n', 1),
            'r' => ('\r', 1),
            't' => ('\t', 1),
            '/' if is_json => ('/', 1),
            'b' if is_json => ('\u{8}', 1),
            'f' if is_json => ('\u{c}', 1),
            'u' if is_json => json_character(&rest[1..]).map(|(c, used)| (c, used + 1))?,
            '\'' if !is_json => ('\'', 1),
            '0' if !is_json => ('\0', 1),
            'u' if !is_json => {
                let inside = rest[1..].strip_prefix('{')?;
                let digits = &inside[..inside.find('}')?];
                let is_hex = !digits.is_empty() && digits.len() <= 6;
                let value = is_hex.then(|| hexadecimal(digits))??;
                (char::from_u32(value)?, digits.len() + 3)
            }
            _ => return None,
        };
        self.at += length + 1;
        Some(c)
    }
}

fn hexadecimal(digits: &str) -> Option<u32> {
    let is_hex = digits.bytes().all(|b| b.is_ascii_hexdigit());
    is_hex.then(|| u32::from_str_radix(digits, 16).ok())?
}

/// A character of four digits, or of two such escapes where it lies beyond the first 65,536.
fn json_character(digits: &str) -> Option<(char, usize)> {
    let first = hexadecimal(digits.get(..4)?)?;
    if !(0xd800..0xdc00).contains(&first) {
        return Some((char::from_u32(first)?, 4));
    }
    let second = digits.get(4..)?.strip_prefix("\\u")?;
    let second = hexadecimal(second.get(..4)?)?;
    let is_low = (0xdc00..0xe000).contains(&second);
    let value = is_low.then(|| 0x1_0000 + ((first - 0xd800) << 10) + (second - 0xdc00))?;
    Some((char::from_u32(value)?, 10))
}
