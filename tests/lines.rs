//! JSON of committed files.

/// JSON that stands on many lines, with everything that fits into so many characters put on one.
pub(crate) fn in_lines(indented: &str, longest: usize) -> String {
    let mut lines: Vec<String> = Vec::new();
    let mut opened: Vec<usize> = Vec::new();
    for line in indented.lines() {
        if line.ends_with(['{', '[']) {
            opened.push(lines.len());
        }
        lines.push(line.to_owned());
        if line.trim_start().starts_with(['}', ']']) {
            let first = opened.pop().expect("JSON shuts what it opened");
            let [head, items @ .., end] = &lines[first..] else {
                continue;
            };
            let items: Vec<&str> = items.iter().map(|item| item.trim_start()).collect();
            let whole = format!("{head}{}{}", items.join(" "), end.trim_start());
            if whole.len() <= longest {
                lines.truncate(first);
                lines.push(whole);
            }
        }
    }
    lines.join("\n") + "\n"
}
