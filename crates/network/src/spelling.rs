//! Spellings of one unit. Only what cannot change the value may differ: a unit
//! that is merely alike, as `daN m` and `N m`, is another one.

/// Whether a text is the known spelling of a unit, but for case, hyphens, dots,
/// the width or lack of spaces, and the `s` of plurals.
pub(crate) fn is_same_unit(known: &str, written: &str) -> bool {
    let are_same = |(known, written): (&str, &str)| known.eq_ignore_ascii_case(written);
    let (knowns, writtens) = (words(known), words(written));
    if knowns.clone().count() == writtens.clone().count() {
        return knowns.clone().next().is_some() && knowns.zip(writtens).all(are_same);
    }
    // `Nm` and `ftlb` are the words of one unit put together; `m m` is not `mm`.
    let mut one = writtens;
    one.next().is_some_and(|written| {
        one.next().is_none()
            && knowns
                .flat_map(str::bytes)
                .map(|byte| byte.to_ascii_lowercase())
                .eq(written.bytes().map(|byte| byte.to_ascii_lowercase()))
    })
}

fn words(unit: &str) -> impl Iterator<Item = &str> + Clone {
    unit.split(|c: char| c.is_whitespace() || "-.*·⋅".contains(c))
        .filter(|word| !word.is_empty())
        .map(singular)
}

/// One letter is a unit by itself, so that `ms` is no plural of it.
fn singular(word: &str) -> &str {
    match word.strip_suffix(['s', 'S']) {
        Some(singular) if singular.chars().nth(1).is_some() => singular,
        _ => word,
    }
}

#[cfg(test)]
mod tests {
    use super::is_same_unit;

    #[test]
    fn what_cannot_change_the_value_may_differ() {
        for (known, written) in [
            ("lbf ft", "LBF-FT"),
            ("ft lb", "ft.lbs."),
            ("ft lb", "ft  lbs"),
            ("ft lb", "ftlbs"),
            ("N m", "Nm"),
            ("N m", "N·m"),
            ("cm", "cms"),
            ("in", "in."),
            ("inches", "Inches"),
        ] {
            assert!(is_same_unit(known, written), "{known}: {written}");
        }
    }

    #[test]
    fn a_unit_of_another_size_is_another_one() {
        for (known, written) in [
            ("N m", "daNm"),
            ("N m", "N cm"),
            ("m", "ms"),
            ("mm", "m m"),
            ("us fl oz", "fl oz"),
            ("", "-"),
            ("", "s"),
        ] {
            assert!(!is_same_unit(known, written), "{known}: {written}");
        }
    }
}
