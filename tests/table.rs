//! Tables written as text, a row a line, with upright strokes between the cells; `//` begins a comment.

/// The rows of a table, cell by cell.
pub(crate) fn rows<const N: usize>(table: &'static str) -> impl Iterator<Item = [&'static str; N]> {
    let lines = table.trim().lines().filter(|line| !line.starts_with("//"));
    lines.map(|row| {
        let cells: Vec<&str> = row.split('|').map(str::trim).collect();
        <[&str; N]>::try_from(cells).unwrap_or_else(|cells| panic!("not {N} cells: {cells:?}"))
    })
}
