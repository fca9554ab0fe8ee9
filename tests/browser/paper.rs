//! A card on paper.

use super::demo;
use lopdf::Document;
use serde_json::json;

/// At most three pages of A4 for every vehicle, read by another program than the one that wrote them.
pub(super) fn check(name: &str) {
    let Some((tab, folder)) = demo("prints", name, "") else {
        return;
    };
    let printed = tab.ask("Page.printToPDF", &json!({ "preferCSSPageSize": true }));
    let text = printed["data"].as_str().expect("a file as text");
    let bytes = decoded(text);
    std::fs::write(folder.join("card.pdf"), &bytes).expect("the build folder can be written");
    let document = Document::load_mem(&bytes).expect("a PDF");
    let pages = document.get_pages();
    assert!(
        (1..=crate::print::demos::MOST_PAGES).contains(&pages.len()),
        "{name}: {} pages",
        pages.len()
    );
    let numbers: Vec<u32> = pages.keys().copied().collect();
    for page in pages.values() {
        let page = document.get_dictionary(*page).expect("a page");
        let size = page
            .get(b"MediaBox")
            .and_then(lopdf::Object::as_array)
            .expect("a size");
        let size: Vec<f32> = size
            .iter()
            .map(|side| side.as_float().expect("a length"))
            .collect();
        let is_a4 = (size[2] - 595.0).abs() < 2.0 && (size[3] - 842.0).abs() < 2.0;
        assert!(is_a4, "{name}: {size:?} points");
    }
    let text = document
        .extract_text(&numbers)
        .expect("its text")
        .replace(char::is_whitespace, "");
    for part in [
        "Before", "Steps", "After", "Readings", "Cautions", "Assumed", "wanted", "yes",
    ] {
        assert!(text.contains(part), "{name} has no {part}: {text}");
    }
    let text = text.replace("countsasnotchecked", "");
    for part in ["Savefile", "+1stroke", "notchecked", "mm/dd"] {
        assert!(!text.contains(part), "{name} has {part}");
    }
}

/// RFC 4648, section 4.
fn decoded(text: &str) -> Vec<u8> {
    let value = |letter: u8| match letter {
        b'A'..=b'Z' => letter - b'A',
        b'a'..=b'z' => letter - b'a' + 26,
        b'0'..=b'9' => letter - b'0' + 52,
        b'+' => 62,
        b'/' => 63,
        _ => panic!("`{}` is not of the alphabet", char::from(letter)),
    };
    let (mut bytes, mut bits, mut held) = (Vec::new(), 0_u32, 0);
    for letter in text.bytes().filter(|letter| *letter != b'=') {
        bits = (bits << 6) | u32::from(value(letter));
        held += 6;
        if held >= 8 {
            held -= 8;
            bytes.push((bits >> held) as u8);
            bits &= (1 << held) - 1;
        }
    }
    bytes
}
