//! Advance widths: for every sign at least what `DejaVu Sans` and `Noto Sans` give it, measured in both (the larger one
//! counts). Signs outside ASCII are taken by classes, each as wide as its widest common sign.

use super::Weight;
use unicode_width::UnicodeWidthStr;

/// Thousandths of an em for the printable signs of ASCII, from the space on.
const NORMAL: [u16; 95] = [
    318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 551, 838, 318, 361, 318, 372, 637, 637, 637,
    637, 637, 637, 637, 637, 637, 637, 337, 337, 838, 838, 838, 531, 1000, 685, 687, 699, 771, 632,
    576, 775, 752, 339, 295, 656, 558, 907, 760, 788, 605, 788, 695, 635, 611, 732, 685, 989, 686,
    611, 686, 391, 372, 391, 838, 500, 500, 613, 635, 550, 635, 616, 353, 635, 634, 278, 278, 580,
    278, 975, 634, 612, 635, 635, 413, 521, 393, 634, 592, 818, 592, 592, 525, 637, 551, 637, 838,
];

/// The same in bold.
const BOLD: [u16; 95] = [
    349, 457, 521, 838, 696, 1002, 873, 307, 458, 458, 545, 838, 380, 416, 380, 413, 696, 696, 696,
    696, 696, 696, 696, 696, 696, 696, 400, 400, 838, 838, 838, 581, 1000, 774, 763, 734, 831, 684,
    684, 821, 837, 389, 373, 775, 638, 996, 837, 851, 733, 851, 771, 721, 683, 813, 774, 1104, 771,
    725, 726, 458, 413, 458, 838, 500, 500, 675, 716, 593, 716, 679, 436, 716, 712, 343, 343, 666,
    343, 1042, 712, 688, 716, 716, 494, 596, 479, 712, 652, 924, 646, 652, 583, 712, 551, 712, 838,
];

/// How far one sign moves the pen, in ems.
pub(super) fn advance_em(grapheme: &str, weight: Weight) -> f64 {
    let Some(first) = grapheme.chars().next() else {
        return 0.0;
    };
    let index = (first as usize).wrapping_sub(usize::from(b' '));
    let table = match weight {
        Weight::Normal => &NORMAL,
        Weight::Bold => &BOLD,
    };
    if let Some(thousandths) = table.get(index) {
        return f64::from(*thousandths) / 1000.0;
    }
    let heavier = match weight {
        Weight::Normal => 1.0,
        Weight::Bold => 1.13,
    };
    let em = match first {
        // Signs of length, amount and number that the drawings use themselves.
        '±' | '×' | '÷' | '−' | '≈' | '≤' | '≥' => 0.84,
        '·' => 0.32,
        '°' | '–' | '’' | '‘' => 0.5,
        '—' | '…' => 1.0,
        // Latin letters with marks.
        '\u{c0}'..='\u{17f}' if !matches!(first, 'Æ' | 'æ' | 'Œ' | 'œ' | 'Ŵ' | 'Ħ') => 0.82,
        '\u{a0}'..='\u{17f}' => 1.07,
        // Greek, Cyrillic, Hebrew.
        '\u{370}'..='\u{3ff}' => 0.94,
        '\u{400}'..='\u{45f}' => 1.1,
        '\u{590}'..='\u{5ff}' => 0.79,
        // What is left: by the cells of a terminal, of which a wide sign takes two.
        _ => match grapheme.width() {
            0 => 0.0,
            1 => 1.25,
            _ => 1.45,
        },
    };
    em * heavier
}
