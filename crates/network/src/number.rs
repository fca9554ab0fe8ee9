//! Takes numbers from the beginning of a text.

/// Whether a digit follows something other than a letter.
pub(crate) fn has_number(text: &str) -> bool {
    let mut before = ' ';
    text.chars().any(|c| {
        let is_number = c.is_numeric() && !before.is_alphanumeric();
        before = c;
        is_number
    })
}

/// Takes a fraction. It is made of whole numbers: what `1e1/2` or `1.5/2` is
/// meant to be, nobody can tell.
pub(crate) fn split_fraction(text: &str) -> Option<(f64, &str)> {
    let (above, rest) = split_whole(text)?;
    let below = rest.trim_start().strip_prefix('/')?;
    let (below, rest) = split_whole(below.trim_start())?;
    Some((above / below, rest))
}

/// Takes a number that has neither a point nor an exponent.
pub(crate) fn split_whole(text: &str) -> Option<(f64, &str)> {
    let (number, rest) = split_decimal(text)?;
    let mut taken = text[..text.len() - rest.len()].bytes();
    taken
        .all(|byte| byte.is_ascii_digit())
        .then_some((number, rest))
}

/// Takes a decimal number, with an exponent if one follows directly.
pub(crate) fn split_decimal(text: &str) -> Option<(f64, &str)> {
    let bytes = text.as_bytes();
    let digits = |from: usize| {
        from + bytes[from..]
            .iter()
            .take_while(|b| b.is_ascii_digit())
            .count()
    };
    let mut end = digits(0);
    if bytes.get(end) == Some(&b'.') {
        end = digits(end + 1);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let mut exponent = end + 1;
        if matches!(bytes.get(exponent), Some(b'+' | b'-')) {
            exponent += 1;
        }
        let exponent_end = digits(exponent);
        if exponent_end > exponent {
            end = exponent_end;
        }
    }
    let number = text[..end].parse().ok()?;
    Some((number, &text[end..]))
}
