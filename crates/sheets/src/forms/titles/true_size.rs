//! Pages of true size: the page chosen, the drawing laid on it, and where it is larger
//! than any page, parted.

use onestrand_typeset::{Job, Printed};
use serde::Serialize;

use crate::forms::{Press, Ready};
use crate::titles::{TitleCel, TitleFieldChart, TrueSizeHead};
use crate::{Paper, SheetError, words};

/// What the pages call themselves.
const CHART: &str = "Field chart";
const CEL: &str = "Cel";
/// Room beside the field for crosses, marks and words. Unit: mm on each side.
const BESIDE: f64 = 14.0;
/// What printers leave white, and a joined page loses. Unit: mm.
const WHITE: f64 = 10.0;
/// What two pages to be joined both show. Unit: mm.
const BOTH_SHOW: f64 = 10.0;
/// The holes of the office punch: 6 mm across, 80 mm apart, 12 mm from the edge (ISO 838,
/// from memory).
const HOLE_FROM_EDGE: f64 = 12.0;
const HOLE_CLEAR: f64 = 3.5;
/// A side of the square to measure. Unit: mm.
const SQUARE: f64 = 100.0;

#[derive(Serialize)]
struct PagesRecord {
    name: String,
    pages: Vec<PageRecord>,
    sheet: DrawingRecord,
    /// Whether a page with nothing but the square follows.
    square_page: bool,
}

/// A page and the part of the drawing that lies on it. Unit: mm.
#[derive(Serialize)]
struct PageRecord {
    wide: f64,
    high: f64,
    /// Where the window lies on the page, and how large it is; all of it for one page.
    left: f64,
    top: f64,
    window: [f64; 2],
    /// Where the middle of the field lies from the upper left of the window.
    middle: [f64; 2],
    words: String,
    holes: bool,
}

#[derive(Serialize)]
struct DrawingRecord {
    kind: &'static str,
    field: [f64; 2],
    shown: [f64; 2],
    safe: [f64; 2],
    /// How high the cel is.
    high: f64,
    square: f64,
    /// The lettering as a picture of lines; empty on the chart.
    svg: String,
    head: String,
    said: String,
    dark: bool,
}

/// The two papers of a household: one sheet and one of twice its size, upright. Unit: mm.
const fn papers(paper: Paper) -> [(f64, f64, &'static str); 2] {
    match paper {
        Paper::A4 => [(210.0, 297.0, "A4"), (297.0, 420.0, "A3")],
        Paper::Letter => [(215.9, 279.4, "Letter"), (279.4, 431.8, "Tabloid")],
    }
}

/// One page where the drawing and what lies beside it fits, else several.
fn pages(paper: Paper, wide: f64, high: f64) -> (Vec<PageRecord>, &'static str) {
    let (need_wide, need_high) = (
        wide.max(SQUARE) + 2.0 * BESIDE,
        high.max(SQUARE) + 2.0 * BESIDE,
    );
    for (short, long, name) in papers(paper) {
        let lies = [(long, short), (short, long)];
        let fits = |(w, h): &(f64, f64)| need_wide <= *w && need_high <= *h;
        if let Some((w, h)) = lies.into_iter().find(fits) {
            let hole = h - HOLE_FROM_EDGE - HOLE_CLEAR;
            return (
                vec![PageRecord {
                    wide: w,
                    high: h,
                    left: 0.0,
                    top: 0.0,
                    window: [w, h],
                    middle: [w / 2.0, h / 2.0],
                    words: String::new(),
                    holes: h / 2.0 + high / 2.0 <= hole && w >= 100.0,
                }],
                name,
            );
        }
    }
    parted(paper, need_wide, need_high)
}

/// Several sheets of the smaller paper, each showing a part, to be laid over each other.
fn parted(paper: Paper, wide: f64, high: f64) -> (Vec<PageRecord>, &'static str) {
    let (short, long, name) = papers(paper)[0];
    let window = [long - 2.0 * WHITE, short - 2.0 * WHITE];
    let count = |need: f64, window: f64| {
        // At most 2,000 mm in steps of 170: some dozens.
        ((need - BOTH_SHOW) / (window - BOTH_SHOW)).ceil().max(1.0) as usize
    };
    let (columns, rows) = (count(wide, window[0]), count(high, window[1]));
    let mut all = Vec::new();
    for row in 0..rows {
        for column in 0..columns {
            let from = [
                column as f64 * (window[0] - BOTH_SHOW),
                row as f64 * (window[1] - BOTH_SHOW),
            ];
            // The whole of the joined sheets has the drawing in its middle.
            let all_of = [
                columns as f64 * (window[0] - BOTH_SHOW) + BOTH_SHOW,
                rows as f64 * (window[1] - BOTH_SHOW) + BOTH_SHOW,
            ];
            all.push(PageRecord {
                wide: long,
                high: short,
                left: WHITE,
                top: WHITE,
                window,
                middle: [all_of[0] / 2.0 - from[0], all_of[1] / 2.0 - from[1]],
                words: format!(
                    "row {} of {rows}, column {} of {columns}: neighbours show the same {BOTH_SHOW:.0} mm; lay cross on cross",
                    row + 1,
                    column + 1
                ),
                holes: false,
            });
        }
    }
    (all, name)
}

/// Only what a path may hold: nothing that a template or a reader would take for an order.
fn path_only(outlines: &str) -> String {
    let may = |c: &char| c.is_ascii_digit() || " MLQCZmlqcz.-,".contains(*c);
    outlines.chars().filter(may).collect()
}

/// The lettering as a picture of lines, of the size of the cel.
fn lettering(cel: &TitleCel) -> String {
    let [wide, _] = cel.head.field_mm;
    let high = cel.high_mm;
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}mm\" height=\"{high}mm\" viewBox=\"0 0 {wide} {high}\">{}</svg>",
        letters(cel)
    )
}

/// The letters as one path, and the black about them where they are white.
fn letters(cel: &TitleCel) -> String {
    let [wide, _] = cel.head.field_mm;
    let high = cel.high_mm;
    let (ink, ground) = match cel.reversed {
        true => (
            "#ffffff",
            format!("<rect width=\"{wide}\" height=\"{high}\" fill=\"#000000\"/>"),
        ),
        false => ("#000000", String::new()),
    };
    let pen = match cel.pen_mm > 0.0 {
        true => format!(
            " stroke=\"{ink}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
            cel.pen_mm
        ),
        false => String::new(),
    };
    let turned = match cel.mirrored {
        true => format!(" transform=\"translate({wide} 0) scale(-1 1)\""),
        false => String::new(),
    };
    format!(
        "{ground}<path fill=\"{ink}\"{pen}{turned} d=\"{}\"/>",
        path_only(&cel.outlines)
    )
}

fn head_words(head: &TrueSizeHead, form: &str, paper: &str) -> String {
    let of = words::plain(&head.of);
    let of = if of.is_empty() { of } else { format!(", {of}") };
    let [wide, high] = head.field_mm;
    format!(
        "{}{of}: {}, true size, field {wide:.1} × {high:.1} mm. Print on {paper} at 100 per cent, nothing fitted.",
        words::short(&words::plain(&head.title), 60),
        form.to_lowercase()
    )
}

const MEASURE: &str = "The marks at the edges are 100.0 mm apart, both ways: lay a ruler on them before you trust a print.";

fn ready(
    head: &TrueSizeHead,
    form: &'static str,
    sheet: DrawingRecord,
    square: bool,
) -> Result<Ready, SheetError> {
    let (pages, paper) = pages(head.paper, head.field_mm[0], sheet.high);
    ready_on(pages, paper, head, form, sheet, square)
}

fn ready_on(
    pages: Vec<PageRecord>,
    paper: &str,
    head: &TrueSizeHead,
    form: &'static str,
    sheet: DrawingRecord,
    square: bool,
) -> Result<Ready, SheetError> {
    let press = Press {
        form,
        job: Job::new("true_size.typ", include_str!("true_size.typ")),
    };
    let sheet = DrawingRecord {
        head: head_words(head, form, paper),
        ..sheet
    };
    press.ready(&PagesRecord {
        name: format!("{form}, {}", words::plain(&head.title)),
        pages,
        sheet,
        square_page: square,
    })
}

fn drawing(head: &TrueSizeHead) -> DrawingRecord {
    DrawingRecord {
        kind: "chart",
        field: head.field_mm,
        shown: head.shown_mm,
        safe: head.safe_mm,
        high: head.field_mm[1],
        square: SQUARE,
        svg: String::new(),
        head: String::new(),
        said: MEASURE.to_owned(),
        dark: false,
    }
}

/// Prints the field chart, with its pages as SVG.
///
/// # Errors
/// [`SheetError::Form`] when it cannot be set.
pub fn print_field_chart(chart: &TitleFieldChart) -> Result<Printed, SheetError> {
    ready(&chart.head, CHART, chart_drawing(chart), false)?.print()
}

fn chart_drawing(chart: &TitleFieldChart) -> DrawingRecord {
    let set_up = words::plain(&chart.set_up);
    DrawingRecord {
        said: match set_up.is_empty() {
            true => MEASURE.to_owned(),
            false => format!("{set_up}. {MEASURE}"),
        },
        ..drawing(&chart.head)
    }
}

/// The field chart as one SVG of true size, not parted: a drawing has no paper.
///
/// # Errors
/// [`SheetError::Form`] when it cannot be set.
pub fn field_chart_svg(chart: &TitleFieldChart) -> Result<String, SheetError> {
    let page = whole(
        chart.head.paper,
        chart.head.field_mm[0],
        chart.head.field_mm[1],
    );
    let drawn = chart_drawing(chart);
    let ready = ready_on(vec![page], "paper", &chart.head, CHART, drawn, false)?;
    Ok(ready.print()?.pages.swap_remove(0))
}

/// Prints a cel, with its pages as SVG; the square to measure follows on a page of its own.
///
/// # Errors
/// [`SheetError::Form`] when it cannot be set.
pub fn print_title_cel(cel: &TitleCel) -> Result<Printed, SheetError> {
    let how = match (cel.reversed, cel.mirrored) {
        (false, false) => "Black on clear.",
        (true, false) => "White letters on black, for a second exposure.",
        (false, true) => "Mirrored: print on the back of clear film.",
        (true, true) => "White letters on black, mirrored: print on the back of clear film.",
    };
    let sheet = DrawingRecord {
        kind: "cel",
        high: cel.high_mm,
        svg: lettering(cel),
        said: format!("{how} {MEASURE}"),
        dark: cel.reversed,
        ..drawing(&cel.head)
    };
    ready(&cel.head, CEL, sheet, true)?.print()
}

/// The one page it is printed on; where it would be parted, a page that holds all of it.
fn whole(paper: Paper, wide: f64, high: f64) -> PageRecord {
    let (mut all, _) = pages(paper, wide, high);
    if all.len() == 1 {
        return all.swap_remove(0);
    }
    let (w, h) = (
        wide.max(SQUARE) + 2.0 * BESIDE,
        high.max(SQUARE) + 2.0 * BESIDE,
    );
    PageRecord {
        wide: w,
        high: h,
        left: 0.0,
        top: 0.0,
        window: [w, h],
        middle: [w / 2.0, h / 2.0],
        words: String::new(),
        holes: false,
    }
}

/// A cel as one SVG of true size, its letters as one path that may be drawn on, with the
/// crosses, marks and holes of the printed cel. Unit of all figures in it: millimetres.
#[must_use]
pub fn title_cel_svg(cel: &TitleCel) -> String {
    let [wide, _] = cel.head.field_mm;
    let page = whole(cel.head.paper, wide, cel.high_mm);
    let [x, y] = page.middle;
    let (left, top) = (x - wide / 2.0, y - cel.high_mm / 2.0);
    let mut marks = String::new();
    for (from, to) in beside(page.middle, [wide, cel.high_mm]) {
        marks.push_str(&format!(
            "M{:.3} {:.3}L{:.3} {:.3}",
            from[0], from[1], to[0], to[1]
        ));
    }
    let mut holes = String::new();
    for side in [-40.0, 40.0].into_iter().filter(|_| page.holes) {
        let (x, y) = (page.wide / 2.0 + side, page.high - HOLE_FROM_EDGE);
        holes.push_str(&format!("<circle cx=\"{x:.3}\" cy=\"{y:.3}\" r=\"3\"/>"));
    }
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0:.3}mm\" height=\"{1:.3}mm\" viewBox=\"0 0 {0:.3} {1:.3}\">\n<g fill=\"none\" stroke=\"#000000\" stroke-width=\"0.2\"><path d=\"{marks}\"/>{holes}</g>\n<g transform=\"translate({left:.3} {top:.3})\">{2}</g>\n</svg>\n",
        page.wide,
        page.high,
        letters(cel)
    )
}

/// The crosses beside the field and the marks of the square, as the page has them.
fn beside([x, y]: [f64; 2], size: [f64; 2]) -> Vec<([f64; 2], [f64; 2])> {
    let half = size.map(|side| side / 2.0);
    let mut all = Vec::new();
    for side in [-1.0, 1.0] {
        for up in [-1.0, 0.0, 1.0] {
            let (x, y) = (x + side * (half[0] + 7.0), y + up * (half[1] - 4.0));
            all.push(([x - 2.5, y], [x + 2.5, y]));
            all.push(([x, y - 2.5], [x, y + 2.5]));
        }
        let at = side * SQUARE / 2.0;
        for end in [-1.0, 1.0] {
            let (edge_y, edge_x) = (y + end * half[1], x + end * half[0]);
            all.push(([x + at, edge_y + end * 1.5], [x + at, edge_y + end * 6.0]));
            all.push(([edge_x + end * 1.5, y + at], [edge_x + end * 6.0, y + at]));
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_smallest_page_that_holds_it_is_taken() {
        let on = |wide, high| {
            let (pages, name) = pages(Paper::A4, wide, high);
            (
                name,
                pages.len(),
                pages[0].wide > pages[0].high,
                pages[0].holes,
            )
        };
        assert_eq!(on(240.0, 178.0), ("A4", 1, true, true));
        assert_eq!(on(120.0, 200.0), ("A4", 1, false, true));
        assert_eq!(on(320.0, 240.0), ("A3", 1, true, true));
        assert_eq!(on(240.0, 390.0).0, "A3");
        let (name, count, ..) = on(600.0, 445.0);
        assert_eq!((name, count), ("A4", 9));
    }

    /// Joined pages: what lies in the drawing lies on at least one window, and
    /// neighbours show the same strip.
    #[test]
    fn joined_pages_leave_nothing_out() {
        let (all, _) = pages(Paper::A4, 600.0, 445.0);
        for x in (-300..=300).step_by(7) {
            for y in (-222..=222).step_by(7) {
                let on = |page: &&PageRecord| {
                    let at = [page.middle[0] + f64::from(x), page.middle[1] + f64::from(y)];
                    (0.0..=page.window[0]).contains(&at[0])
                        && (0.0..=page.window[1]).contains(&at[1])
                };
                assert!(all.iter().any(|page| on(&page)), "{x} {y}");
            }
        }
    }

    #[test]
    fn outlines_hold_nothing_but_a_path() {
        let given = "M0 1.5L2-3Z\"/><g onload='x()'>";
        let kept = path_only(given);
        assert!(kept.starts_with("M0 1.5L2-3Z"));
        assert!(
            !kept.contains(['"', '<', '>', '(', '\'', '/', '=']),
            "{kept}"
        );
    }
}
