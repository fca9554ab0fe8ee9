//! Tables written as text, a row a line, with upright strokes between the cells; `//` begins a comment.

/// The rows of a table, cell by cell.
pub(crate) fn rows<const N: usize>(table: &'static str) -> impl Iterator<Item = [&'static str; N]> {
    let lines = table.trim().lines().filter(|line| !line.starts_with("//"));
    lines.map(|row| {
        let cells: Vec<&str> = row.split('|').map(str::trim).collect();
        <[&str; N]>::try_from(cells).unwrap_or_else(|cells| panic!("not {N} cells: {cells:?}"))
    })
}

/// A text of calls with what is looked for below each, apart by blank lines: the calls of a block, then its lines that begin
/// with a sign, divided behind it.
pub(crate) fn blocks(
    text: &'static str,
) -> impl Iterator<Item = (Vec<&'static str>, Vec<(&'static str, &'static str)>)> {
    text.split("\n\n").map(|block| {
        let lines = block.trim().lines().filter(|line| !line.starts_with("//"));
        let has_sign = |line: &&str| ["+ ", "- ", "= "].iter().any(|sign| line.starts_with(sign));
        let (signed, calls): (Vec<_>, Vec<_>) = lines.partition(has_sign);
        assert!(!signed.is_empty() && !calls.is_empty(), "{block}");
        (
            calls,
            signed.into_iter().map(|line| line.split_at(2)).collect(),
        )
    })
}
