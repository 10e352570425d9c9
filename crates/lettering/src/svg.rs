//! The letters as true-size outlines.

use std::fmt::Write as _;

use tiny_skia::{PathSegment, Point};

use crate::SetCard;

/// Millimetres of the field to a picture height, so that the aperture goes into the
/// field whole.
pub(crate) fn scale(card: &SetCard, (width, height): (f64, f64)) -> f64 {
    (width / card.aspect).min(height)
}

/// The whole drawing.
pub(crate) fn document(card: &SetCard, field_mm: (f64, f64), reversed: bool) -> String {
    let (width, mut height) = field_mm;
    if card.full_height > 1.0 {
        height += (card.full_height - 1.0) * scale(card, field_mm);
    }
    let (ink, ground) = if reversed {
        (
            "#ffffff",
            "<rect width=\"100%\" height=\"100%\" fill=\"#000000\"/>\n",
        )
    } else {
        ("#000000", "")
    };
    let pen = card.pen_mm(field_mm);
    let pen = if pen > 0.0 {
        format!(" stroke=\"{ink}\" stroke-width=\"{pen:.4}\" stroke-linejoin=\"round\"")
    } else {
        String::new()
    };
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.3}mm\" height=\"{height:.3}mm\" viewBox=\"0 0 {width:.3} {height:.3}\">\n{ground}<path fill=\"{ink}\" fill-rule=\"nonzero\"{pen} d=\"{}\"/>\n</svg>\n",
        path_data(card, field_mm)
    )
}

/// All outlines in millimetres.
pub(crate) fn path_data(card: &SetCard, field_mm: (f64, f64)) -> String {
    path_data_at(card, field_mm, (0.0, 0.0))
}

/// The same, with the top left of the field elsewhere.
pub(crate) fn path_data_at(card: &SetCard, field_mm: (f64, f64), at: (f64, f64)) -> String {
    let scale = scale(card, field_mm);
    let left = at.0 + (field_mm.0 - card.aspect * scale) / 2.0;
    let top = at.1 + (field_mm.1 - scale) / 2.0;
    let mut out = String::new();
    let mut put = |letter: char, points: &[Point]| {
        out.push(letter);
        for (at, point) in points.iter().enumerate() {
            let space = if at == 0 { "" } else { " " };
            let x = left + f64::from(point.x) * scale;
            let y = top + f64::from(point.y) * scale;
            // Writing to a string cannot fail.
            let _ = write!(out, "{space}{x:.4} {y:.4}");
        }
    };
    for letter in &card.letters {
        for segment in letter.path.segments() {
            match segment {
                PathSegment::MoveTo(p) => put('M', &[p]),
                PathSegment::LineTo(p) => put('L', &[p]),
                PathSegment::QuadTo(a, p) => put('Q', &[a, p]),
                PathSegment::CubicTo(a, b, p) => put('C', &[a, b, p]),
                PathSegment::Close => put('Z', &[]),
            }
        }
    }
    out
}
