//! The pages of a sheet as they are shown on a screen: the same sheet, and
//! nothing in them that runs or fetches.

use onestrand_sheets::{
    CuttingSheet, Paper, Printed, Standing, cutting_sheet, print_cutting_sheet, print_pull_list,
    pull_list,
};
use roxmltree::{Document, Node};

use crate::{boat, paper};

/// Every kind of mark the pages are drawn with. None runs, links or fetches.
const DRAWN_WITH: [&str; 9] = [
    "svg", "g", "path", "image", "use", "defs", "symbol", "clipPath", "rect",
];

fn sheets() -> [(Printed, Vec<u8>); 2] {
    let sheet = boat::cutting(Paper::A4, true);
    let list = boat::pull(Paper::Letter, true);
    [
        (
            print_cutting_sheet(&sheet).expect("a sound sheet"),
            cutting_sheet(&sheet).expect("a sound sheet"),
        ),
        (
            print_pull_list(&list).expect("a sound list"),
            pull_list(&list).expect("a sound list"),
        ),
    ]
}

/// Whether a page is one drawing, complete in itself.
#[track_caller]
fn assert_harmless(page: &str) {
    let document = Document::parse(page).expect("a page is well-formed");
    for node in document.descendants().filter(Node::is_element) {
        let name = node.tag_name();
        assert_eq!(name.namespace(), Some("http://www.w3.org/2000/svg"));
        assert!(DRAWN_WITH.contains(&name.name()), "<{}>", name.name());
        for attribute in node.attributes() {
            let (key, value) = (attribute.name(), attribute.value());
            assert!(!key.starts_with("on"), "{key}");
            if key == "href" {
                let within = value.starts_with('#') || value.starts_with("data:image/jpeg;base64,");
                assert!(within, "{key}={:.60}", value);
            } else {
                let outside = value.replace("url(#", "").contains("url(");
                assert!(!outside && !value.contains("script"), "{key}={value}");
            }
        }
    }
    for sign in ["<!", "<?", "&#", "javascript"] {
        assert!(!page.contains(sign), "{sign}");
    }
}

#[test]
fn the_pages_are_those_of_the_pdf() {
    for (printed, pdf) in sheets() {
        assert!(printed.pdf == pdf, "looking changes the PDF");
        assert_eq!(printed.warnings, []);
        assert_eq!(printed.pages.len(), paper::pages(&pdf).len());
        let (width, height) = paper::size(&pdf);
        for page in &printed.pages {
            let document = Document::parse(page).expect("well-formed");
            let root = document.root_element();
            let view: Vec<f64> = root
                .attribute("viewBox")
                .expect("a view box")
                .split(' ')
                .map(|n| n.parse().expect("a number"))
                .collect();
            assert!(
                (view[2] - width).abs() < 0.1 && (view[3] - height).abs() < 0.1,
                "{view:?}"
            );
        }
    }
}

/// Marks of a kind on a page.
fn count(page: &str, name: &str) -> usize {
    let document = Document::parse(page).expect("well-formed");
    document
        .descendants()
        .filter(|n| n.has_tag_name(name))
        .count()
}

#[test]
fn every_picture_and_nearly_every_letter_of_the_pdf_is_drawn() {
    let sheet = boat::cutting(Paper::A4, true);
    let pieces = sheet
        .rows
        .iter()
        .filter(|r| matches!(r.what, Standing::Piece(_)))
        .count();
    let [(printed, pdf), _] = sheets();
    let pictures: usize = printed.pages.iter().map(|page| count(page, "image")).sum();
    assert_eq!(pictures, 2 * pieces);
    for (page, text) in printed.pages.iter().zip(paper::pages(&pdf)) {
        let letters = paper::tight(&text).chars().count();
        let drawn = count(page, "use");
        // Two letters may be drawn as one, and a mark is no letter.
        assert!(
            drawn * 100 > letters * 97 && drawn * 100 < letters * 103,
            "{drawn} of {letters}"
        );
    }
}

#[test]
fn nothing_in_a_page_runs_or_fetches() {
    for (printed, _) in sheets() {
        for page in &printed.pages {
            assert_harmless(page);
        }
    }
    let mut sheet = boat::cutting(Paper::A4, true);
    let words =
        "</svg><script>alert(1)</script> <a href=\"https://example.org\">x</a> javascript:x";
    sheet.head.title = words.to_owned();
    sheet.head.version = words.to_owned();
    for row in &mut sheet.rows {
        row.note = words.to_owned();
        if let Standing::Piece(piece) = &mut row.what {
            piece.action = words.to_owned();
        }
    }
    for page in &print_cutting_sheet(&sheet)
        .expect("words never break the form")
        .pages
    {
        assert_harmless(page);
    }
}

#[test]
fn the_same_sheet_gives_the_same_pages() {
    for ((first, _), (second, _)) in sheets().iter().zip(&sheets()) {
        assert!(first.pages == second.pages);
    }
}

/// A server sets sheets on threads with two megabytes of stack.
#[test]
fn a_long_sheet_is_set_on_a_small_stack() {
    let once = boat::cutting(Paper::A4, true);
    let rows = once.rows.iter().cycle().take(300).cloned().collect();
    let sheet = CuttingSheet { rows, ..once };
    let setting = std::thread::Builder::new()
        .stack_size(2 << 20)
        .spawn(move || print_cutting_sheet(&sheet).expect("a sound sheet"))
        .expect("a thread");
    let printed = setting.join().expect("no overflow");
    assert_eq!(printed.pages.len(), paper::pages(&printed.pdf).len());
}
