//! A printed sheet read back with the reader's own tools (poppler).

use std::process::Command;
use std::{fmt, fs};

/// What a tool says about a PDF.
fn ask(tool: &str, before: &[&str], pdf: &[u8], after: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let file = folder.path().join("sheet.pdf");
    fs::write(&file, pdf).expect("the temporary folder takes a file");
    let answer = Command::new(tool)
        .args(before)
        .arg(&file)
        .args(after)
        .output()
        .unwrap_or_else(|error| panic!("{tool} of poppler-utils must be installed: {error}"));
    assert!(
        answer.status.success(),
        "{tool} refused the sheet: {answer:?}"
    );
    String::from_utf8(answer.stdout).expect("poppler answers in UTF-8")
}

/// The text of a sheet in the order it was set, a text line a line.
pub(crate) fn text(pdf: &[u8]) -> String {
    ask("pdftotext", &["-raw", "-enc", "UTF-8"], pdf, &["-"])
}

/// The text with every run of blanks and line ends as one blank, and without
/// the marks that only allow a long word to be parted.
pub(crate) fn flat(pdf: &[u8]) -> String {
    let text = text(pdf).replace('\u{200b}', "");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A text without any blanks: a column may part words at signs within them.
pub(crate) fn tight(text: &str) -> String {
    text.split_whitespace().collect()
}

/// The text page by page.
pub(crate) fn pages(pdf: &[u8]) -> Vec<String> {
    let text = text(pdf);
    let mut pages: Vec<String> = text.split('\u{c}').map(str::to_owned).collect();
    // Every page ends with a form feed, the last one too.
    assert_eq!(pages.pop().as_deref(), Some(""));
    pages
}

/// A word on a page: its number of the page and its box in points.
struct Word {
    page: usize,
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
    text: String,
}

impl fmt::Display for Word {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            text,
            page,
            left,
            top,
            ..
        } = self;
        write!(f, "“{text}” on sheet {page} at {left:.0}, {top:.0} pt")
    }
}

/// Every word with its place, as poppler finds them.
fn words(pdf: &[u8]) -> Vec<Word> {
    let answer = ask("pdftotext", &["-bbox"], pdf, &["-"]);
    let mut page = 0;
    let mut words = Vec::new();
    for line in answer.lines().map(str::trim) {
        if line.starts_with("<page ") {
            page += 1;
        }
        let Some(word) = line.strip_prefix("<word ") else {
            continue;
        };
        let side = |name: &str| -> f64 {
            let (_, rest) = word
                .split_once(&format!("{name}=\""))
                .expect("poppler gives it");
            let (number, _) = rest.split_once('"').expect("a closed quotation");
            number.parse().expect("a number")
        };
        let (_, text) = word.split_once('>').expect("the end of the tag");
        words.push(Word {
            page,
            left: side("xMin"),
            top: side("yMin"),
            right: side("xMax"),
            bottom: side("yMax"),
            text: text.trim_end_matches("</word>").to_owned(),
        });
    }
    words
}

/// Whether every word lies inside the margins of 10 mm and none on another.
#[track_caller]
pub(crate) fn assert_tidy(pdf: &[u8]) {
    const MARGIN: f64 = 28.34;
    const SPARE: f64 = 0.6;
    let (width, height) = size(pdf);
    let words = words(pdf);
    assert!(!words.is_empty());
    for (place, word) in words.iter().enumerate() {
        let inside = word.left >= MARGIN - SPARE
            && word.right <= width - MARGIN + SPARE
            && word.top >= MARGIN - 6.0
            && word.bottom <= height - MARGIN + 6.0;
        assert!(inside, "outside the margins: {word}");
        for other in &words[place + 1..] {
            // Boxes are as high as the line, and lines are set close: only a
            // third of the height counts as lying on one another.
            let across = word.right.min(other.right) - word.left.max(other.left);
            let down = word.bottom.min(other.bottom) - word.top.max(other.top);
            let low = (word.bottom - word.top).min(other.bottom - other.top);
            let apart = other.page != word.page || across < SPARE || down < low / 2.5;
            assert!(apart, "one on another: {word} and {other}");
        }
    }
}

/// The height of the lowest line of words. Unit: points; of 9 pt, the smallest that a
/// sheet may have, it is about 10.8.
pub(crate) fn lowest_line(pdf: &[u8]) -> f64 {
    let heights = words(pdf).into_iter().map(|word| word.bottom - word.top);
    heights.fold(f64::MAX, f64::min)
}

/// Width and height of the pages in points, as the file says, all alike.
pub(crate) fn size(pdf: &[u8]) -> (f64, f64) {
    let info = ask("pdfinfo", &["-f", "1", "-l", "-1"], pdf, &[]);
    let sizes: Vec<&str> = info
        .lines()
        .filter(|line| line.contains("size:") && line.contains("pts"))
        .filter_map(|line| line.split_once("size:").map(|(_, size)| size.trim()))
        .collect();
    let first = *sizes.first().expect("a page with a size");
    assert!(sizes.iter().all(|size| *size == first), "{sizes:?}");
    let numbers: Vec<f64> = first
        .split_whitespace()
        .filter_map(|word| word.parse().ok())
        .collect();
    (numbers[0], numbers[1])
}

/// Whether the words stand in the text in this order, one after another.
#[track_caller]
pub(crate) fn assert_in_order(text: &str, words: &[String]) {
    let mut from = 0;
    for word in words {
        let found = text[from..].find(word.as_str());
        let at = found.unwrap_or_else(|| panic!("“{word}” does not follow in: {}", &text[from..]));
        from += at + word.len();
    }
}

/// Width and height of each page. Unit: millimetres, of the page box as pdfinfo reads it.
pub(crate) fn page_boxes_mm(pdf: &[u8]) -> Vec<[f64; 2]> {
    let said = ask("pdfinfo", &["-f", "1", "-l", "999"], pdf, &[]);
    let sizes = said
        .lines()
        .filter(|line| line.starts_with("Page ") && line.contains(" size:"));
    let size = |line: &str| {
        let figures = line
            .split(':')
            .nth(1)?
            .trim()
            .strip_suffix("pts")
            .or_else(|| line.split(':').nth(1)?.split("pts").next())?;
        let (wide, high) = figures.trim().split_once(" x ")?;
        let mm = |pt: &str| Some(pt.trim().parse::<f64>().ok()? / 72.0 * 25.4);
        Some([mm(wide)?, mm(high)?])
    };
    sizes.filter_map(size).collect()
}

/// A page as the reader's own drawing (SVG), in points from the upper left corner. Without
/// the switches the tool fits the page to paper it rounds to whole points, as a careless
/// printer does: 0.12 per cent smaller.
pub(crate) fn drawn(pdf: &[u8], page: usize) -> String {
    let page = page.to_string();
    let switches = ["-svg", "-noshrink", "-nocenter", "-f", &page, "-l", &page];
    ask("pdftocairo", &switches, pdf, &["-"])
}
