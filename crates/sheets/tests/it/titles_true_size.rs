//! Pages of true size, measured in the PDF with the reader's own tools: page boxes by
//! pdfinfo, drawn lengths by pdftocairo, which interprets the page for itself.

use onestrand_sheets::{
    Paper, Printed, TitleCel, TitleFieldChart, TrueSizeHead, field_chart_svg, print_field_chart,
    print_title_cel, title_cel_svg,
};

use crate::paper;

/// Within so much all lengths must be. Unit: mm.
const NEAR: f64 = 0.1;

fn head(field_mm: [f64; 2], on: Paper) -> TrueSizeHead {
    TrueSizeHead {
        title: "The Ten-Past Boat".to_owned(),
        of: "M".to_owned(),
        field_mm,
        shown_mm: [field_mm[0] * 0.9333, field_mm[1] * 0.95],
        safe_mm: [field_mm[0] * 0.7466, field_mm[1] * 0.76],
        paper: on,
    }
}

fn chart(field_mm: [f64; 2], on: Paper) -> Printed {
    let set_up = "25 mm lens, artwork 1,079.5 mm from the lens".to_owned();
    let chart = TitleFieldChart {
        head: head(field_mm, on),
        set_up,
    };
    let printed = print_field_chart(&chart).expect("a chart");
    assert!(printed.warnings.is_empty(), "{:?}", printed.warnings);
    printed
}

/// A letter of known size: a bar of 60 by 8 mm, its left upper corner at 30, 40 of the field.
fn cel(reversed: bool, mirrored: bool) -> TitleCel {
    TitleCel {
        head: head([240.0, 178.0], Paper::A4),
        outlines: "M30 40L90 40L90 48L30 48Z".to_owned(),
        pen_mm: 0.0,
        high_mm: 178.0,
        reversed,
        mirrored,
    }
}

/// Boxes of everything that is drawn on a page: left, top, width, height. Unit: mm.
pub(crate) fn boxes(pdf: &[u8], page: usize) -> Vec<[f64; 4]> {
    let svg = paper::drawn(pdf, page);
    let document = roxmltree::Document::parse(&svg).expect("the reader's own drawing");
    let mut found = Vec::new();
    let paths = document
        .descendants()
        .filter(|node| node.has_tag_name("path"));
    for path in paths.filter(|path| !path.ancestors().any(|up| up.has_tag_name("defs"))) {
        let moves = path.ancestors().filter_map(|up| up.attribute("transform"));
        let matrices: Vec<[f64; 6]> = moves.map(matrix).collect();
        let points = points(path.attribute("d").expect("a path"));
        let on_page = points.into_iter().map(|point| {
            // The innermost first.
            matrices.iter().fold(point, |(x, y), [a, b, c, d, e, f]| {
                (a * x + c * y + e, b * x + d * y + f)
            })
        });
        let mut edges = [f64::MAX, f64::MAX, f64::MIN, f64::MIN];
        for (x, y) in on_page {
            edges = [
                edges[0].min(x),
                edges[1].min(y),
                edges[2].max(x),
                edges[3].max(y),
            ];
        }
        let mm = |pt: f64| pt / 72.0 * 25.4;
        found.push([
            mm(edges[0]),
            mm(edges[1]),
            mm(edges[2] - edges[0]),
            mm(edges[3] - edges[1]),
        ]);
    }
    found
}

fn matrix(text: &str) -> [f64; 6] {
    let inner = text
        .trim()
        .strip_prefix("matrix(")
        .and_then(|text| text.strip_suffix(')'));
    let figures: Vec<f64> = inner
        .unwrap_or_else(|| panic!("a matrix: {text}"))
        .split([',', ' '])
        .filter(|part| !part.is_empty())
        .map(|part| part.parse().expect("a figure"))
        .collect();
    figures.try_into().expect("six figures")
}

fn points(d: &str) -> Vec<(f64, f64)> {
    let figures: Vec<f64> = d
        .split_whitespace()
        .filter_map(|part| part.parse().ok())
        .collect();
    figures
        .chunks_exact(2)
        .map(|pair| (pair[0], pair[1]))
        .collect()
}

/// Whether a box of so much is drawn so that its middle lies there; strokes are drawn about
/// their lines, which the reader gives as lines.
fn is_drawn(all: &[[f64; 4]], middle: [f64; 2], size: [f64; 2]) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() <= NEAR;
    all.iter().any(|[left, top, wide, high]| {
        near(*wide, size[0])
            && near(*high, size[1])
            && near(left + wide / 2.0, middle[0])
            && near(top + high / 2.0, middle[1])
    })
}

#[test]
fn the_chart_is_as_large_as_it_says() {
    let printed = chart([240.0, 178.0], Paper::A4);
    let [page] = paper::page_boxes_mm(&printed.pdf)[..] else {
        panic!("one page");
    };
    assert!(
        (page[0] - 297.0).abs() < NEAR && (page[1] - 210.0).abs() < NEAR,
        "{page:?}"
    );
    let all = boxes(&printed.pdf, 1);
    let middle = [148.5, 105.0];
    assert!(is_drawn(&all, middle, [240.0, 178.0]), "the field: {all:?}");
    assert!(is_drawn(&all, middle, [100.0, 100.0]), "the square");
    assert!(
        is_drawn(&all, middle, [240.0 * 0.9333, 178.0 * 0.95]),
        "what is shown"
    );
    assert!(
        is_drawn(&all, middle, [240.0 * 0.7466, 178.0 * 0.76]),
        "what is safe"
    );
    assert!(
        is_drawn(&all, middle, [240.0, 0.0]),
        "the line from west to east"
    );
    // ISO 838: 80 mm apart, 6 mm across, 12 mm from the edge.
    for side in [-40.0, 40.0] {
        assert!(
            is_drawn(&all, [148.5 + side, 198.0], [6.0, 6.0]),
            "a hole at {side}"
        );
    }
    // A length that is not there is not found.
    assert!(!is_drawn(&all, middle, [239.8, 178.0]));
    let said = paper::flat(&printed.pdf);
    for words in [
        "100 mm square",
        "at 100 per cent",
        "camera takes in 240 × 178 mm",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
}

#[test]
fn the_chart_as_svg_is_of_the_same_size() {
    let printed = chart([240.0, 178.0], Paper::A4);
    let document = roxmltree::Document::parse(&printed.pages[0]).expect("a picture");
    let root = document.root_element();
    for (side, wanted) in [("width", 297.0), ("height", 210.0)] {
        let text = root.attribute(side).expect("a size");
        let pt: f64 = text.trim_end_matches("pt").parse().expect("points");
        assert!((pt / 72.0 * 25.4 - wanted).abs() < NEAR, "{side}: {text}");
    }
}

#[test]
fn a_cel_holds_the_letters_where_they_were_and_the_square_on_its_own_page() {
    let plain = print_title_cel(&cel(false, false)).expect("a cel");
    assert_eq!(paper::page_boxes_mm(&plain.pdf).len(), 2);
    // The field begins at 28.5, 16 of the page: the bar lies 30, 40 further.
    let bar = [28.5 + 30.0 + 30.0, 16.0 + 40.0 + 4.0];
    assert!(
        is_drawn(&boxes(&plain.pdf, 1), bar, [60.0, 8.0]),
        "{:?}",
        boxes(&plain.pdf, 1)
    );
    assert!(is_drawn(
        &boxes(&plain.pdf, 2),
        [148.5, 105.0],
        [100.0, 100.0]
    ));
    let marks = boxes(&plain.pdf, 1);
    for side in [-50.0, 50.0] {
        assert!(
            is_drawn(&marks, [148.5 + side, 105.0 - 89.0 - 3.75], [0.0, 4.5]),
            "{marks:?}"
        );
        assert!(is_drawn(
            &marks,
            [148.5 - 120.0 - 3.75, 105.0 + side],
            [4.5, 0.0]
        ));
    }
    let mirrored = print_title_cel(&cel(false, true)).expect("a cel");
    let bar = [28.5 + 240.0 - 60.0, 60.0];
    assert!(is_drawn(&boxes(&mirrored.pdf, 1), bar, [60.0, 8.0]));
    let white = print_title_cel(&cel(true, false)).expect("a cel");
    assert!(
        is_drawn(&boxes(&white.pdf, 1), [148.5, 105.0], [240.0, 178.0]),
        "the black"
    );
    assert!(paper::flat(&white.pdf).contains("second exposure"));
}

#[test]
fn larger_fields_take_larger_paper_or_several_pages() {
    let large = chart([320.0, 237.0], Paper::A4);
    let [page] = paper::page_boxes_mm(&large.pdf)[..] else {
        panic!("one page");
    };
    assert!(
        (page[0] - 420.0).abs() < NEAR && (page[1] - 297.0).abs() < NEAR,
        "{page:?}"
    );
    assert!(is_drawn(
        &boxes(&large.pdf, 1),
        [210.0, 148.5],
        [320.0, 237.0]
    ));
    let parted = chart([600.0, 445.0], Paper::A4);
    assert_eq!(paper::page_boxes_mm(&parted.pdf).len(), 9);
    assert!(paper::flat(&parted.pdf).contains("row 3 of 3, column 3 of 3"));
    let letter = chart([240.0, 178.0], Paper::Letter);
    let page = paper::page_boxes_mm(&letter.pdf)[0];
    assert!(
        (page[0] - 279.4).abs() < NEAR && (page[1] - 215.9).abs() < NEAR,
        "{page:?}"
    );
    assert!(is_drawn(
        &boxes(&letter.pdf, 1),
        [139.7, 107.95],
        [240.0, 178.0]
    ));
}

/// A drawing is not parted, and its letters stay one path that may be drawn on.
#[test]
fn drawings_are_whole_and_of_true_size() {
    let large = TitleFieldChart {
        head: head([600.0, 445.0], Paper::A4),
        set_up: String::new(),
    };
    let drawn = field_chart_svg(&large).expect("a drawing");
    let document = roxmltree::Document::parse(&drawn).expect("a picture");
    let size = |side: &str| -> f64 {
        let text = document.root_element().attribute(side).expect("a size");
        text.trim_end_matches("pt").parse::<f64>().expect("points") / 72.0 * 25.4
    };
    assert!((size("width") - 628.0).abs() < NEAR && (size("height") - 473.0).abs() < NEAR);
    for mirrored in [false, true] {
        let drawn = title_cel_svg(&cel(false, mirrored));
        let document = roxmltree::Document::parse(&drawn).expect("a picture");
        let root = document.root_element();
        assert_eq!(root.attribute("width"), Some("297.000mm"));
        assert_eq!(root.attribute("viewBox"), Some("0 0 297.000 210.000"));
        // The letters lie in the field, which begins at 28.5, 16.
        assert!(drawn.contains("translate(28.500 16.000)"), "{drawn}");
        assert!(drawn.contains("M30 40L90 40L90 48L30 48Z"));
        assert_eq!(drawn.contains("translate(240 0) scale(-1 1)"), mirrored);
        assert_eq!(drawn.matches("<circle").count(), 2, "two holes");
        // The marks of the square: 98.5 and 198.5 across, from 14.5 up to 10.
        assert!(drawn.contains("M98.500 14.500L98.500 10.000"), "{drawn}");
        assert!(drawn.contains("M198.500 14.500L198.500 10.000"), "{drawn}");
    }
}

/// To look at: `ONESTRAND_LOOK=folder cargo test -p onestrand-sheets titles_true_size`.
#[test]
fn pages_may_be_kept_to_look_at() {
    let Some(folder) = std::env::var_os("ONESTRAND_LOOK") else {
        return;
    };
    let keep = |name: &str, printed: &Printed| {
        let file = std::path::Path::new(&folder).join(name);
        std::fs::write(file, &printed.pdf).expect("the folder takes it");
    };
    keep("chart.pdf", &chart([240.0, 178.0], Paper::A4));
    keep("chart_small.pdf", &chart([60.0, 44.0], Paper::A4));
    keep("chart_parted.pdf", &chart([600.0, 445.0], Paper::A4));
    keep(
        "cel.pdf",
        &print_title_cel(&cel(false, false)).expect("a cel"),
    );
    keep(
        "cel_white.pdf",
        &print_title_cel(&cel(true, true)).expect("a cel"),
    );
}
