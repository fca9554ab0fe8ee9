//! JSON of committed files.

/// JSON that stands on many lines, with everything that fits into so many characters put on one. A list of words and what
/// is said of one value run on from line to line.
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
            let is_one_value = items[0].starts_with("\"description\"")
                && !items.iter().any(|item| item.starts_with("\"properties\""));
            let is_of_words = head.ends_with('[') && items.iter().all(|it| it.starts_with('"'));
            let closed = if whole.len() <= longest {
                vec![whole]
            } else if is_of_words || is_one_value && !items.iter().any(|it| it.ends_with('[')) {
                run_on(head, &items, end.trim_start(), longest)
            } else {
                continue;
            };
            lines.truncate(first);
            lines.extend(closed);
        }
    }
    lines.join("\n") + "\n"
}

fn run_on(head: &str, items: &[&str], end: &str, longest: usize) -> Vec<String> {
    let indent = head.len() - head.trim_start().len() + 2;
    let mut lines = vec![format!("{head}{}", items[0])];
    for item in &items[1..] {
        let line = lines.last_mut().expect("it begins with a line");
        if line.len() + 1 + item.len() + end.len() <= longest {
            *line += &format!(" {item}");
        } else {
            lines.push(format!("{:indent$}{item}", ""));
        }
    }
    *lines.last_mut().expect("it begins with a line") += end;
    lines
}
