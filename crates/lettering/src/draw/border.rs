//! The drawn border of the silent-film card: two rules with a turned corner, and a
//! small lozenge between them. Our own drawing.

use tiny_skia::{FillRule, LineCap, LineJoin, Mask, PathBuilder, Stroke, Transform};

use super::View;
use super::plane::{Part, Plane};
use super::surface;
use crate::SetCard;

/// Draws the border on the projected aperture, whatever of a crawl goes through it.
pub(crate) fn drawn(card: &SetCard, view: &View) -> Plane {
    let mut mask = Mask::new(view.width, view.height).expect("a size of at least one pixel");
    let (wide, tall) = (card.aspect as f32, 1.0);
    // Half way between the safe area and the edge of what is shown.
    let inset = (1.0 - card.safe as f32) / 4.0;
    let outer = (inset * wide.min(1.0), inset * wide.min(1.0));
    let place = Transform::from_row(view.scale, 0.0, 0.0, view.scale, view.frame.0, view.frame.1);
    let mut draw = |path: PathBuilder, width: f32| {
        let stroke = Stroke {
            width,
            line_cap: LineCap::Round,
            line_join: LineJoin::Round,
            ..Stroke::default()
        };
        if let Some(path) = path.finish()
            && let Some(path) = path.stroke(&stroke, view.scale)
        {
            mask.fill_path(&path, FillRule::Winding, true, place);
        }
    };
    let notch = 0.045;
    draw(rule(outer, (wide, tall), notch), 0.0062);
    let inner = (outer.0 + 0.016, outer.1 + 0.016);
    draw(rule(inner, (wide, tall), notch), 0.0022);
    let mut leaves = Vec::new();
    for (across, down) in [(1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)] {
        let corner = (
            if across > 0.0 {
                outer.0
            } else {
                wide - outer.0
            },
            if down > 0.0 { outer.1 } else { tall - outer.1 },
        );
        leaves.push(leaf(corner, (across, down), notch));
    }
    let middle = [
        (wide / 2.0, outer.1 + 0.008),
        (wide / 2.0, tall - outer.1 - 0.008),
    ];
    let filled = leaves.into_iter().chain(middle.map(lozenge));
    for path in filled.filter_map(PathBuilder::finish) {
        mask.fill_path(&path, FillRule::Winding, true, place);
    }
    let mut cover = Plane {
        width: view.width as usize,
        height: view.height as usize,
        values: mask.take(),
    };
    let whole = Part {
        left: 0,
        top: 0,
        right: cover.width,
        bottom: cover.height,
    };
    surface::copied(&mut cover, view, whole);
    cover
}

/// A rule all round, its corners turned inwards in a quarter of a circle.
fn rule((left, top): (f32, f32), (wide, tall): (f32, f32), notch: f32) -> PathBuilder {
    let (right, bottom) = (wide - left, tall - top);
    let mut path = PathBuilder::new();
    // A quarter circle by one curve, with handles at 0.5523 of the radius.
    let handle = notch * (1.0 - 0.5523);
    path.move_to(left + notch, top);
    path.line_to(right - notch, top);
    path.cubic_to(
        right - notch,
        top + notch - handle,
        right - handle,
        top + notch,
        right,
        top + notch,
    );
    path.line_to(right, bottom - notch);
    path.cubic_to(
        right - handle,
        bottom - notch,
        right - notch,
        bottom - notch + handle,
        right - notch,
        bottom,
    );
    path.line_to(left + notch, bottom);
    path.cubic_to(
        left + notch,
        bottom - notch + handle,
        left + handle,
        bottom - notch,
        left,
        bottom - notch,
    );
    path.line_to(left, top + notch);
    path.cubic_to(
        left + handle,
        top + notch,
        left + notch,
        top + notch - handle,
        left + notch,
        top,
    );
    path.close();
    path
}

/// A leaf that points inwards from the turned corner, and a dot outside of it.
fn leaf((x, y): (f32, f32), (across, down): (f32, f32), size: f32) -> PathBuilder {
    let at = |a: f32, b: f32| (x + across * a * size, y + down * b * size);
    let mut path = PathBuilder::new();
    let dot = at(0.26, 0.26);
    path.push_circle(dot.0, dot.1, size * 0.13);
    let (from, to) = (at(1.25, 1.25), at(2.05, 2.05));
    for bow in [at(1.9, 1.4), at(1.4, 1.9)] {
        path.move_to(from.0, from.1);
        path.quad_to(bow.0, bow.1, to.0, to.1);
        path.close();
    }
    path
}

/// A lozenge with a dot on each side.
fn lozenge((x, y): (f32, f32)) -> PathBuilder {
    let mut path = PathBuilder::new();
    path.move_to(x, y - 0.017);
    path.line_to(x + 0.03, y);
    path.line_to(x, y + 0.017);
    path.line_to(x - 0.03, y);
    path.close();
    for side in [-1.0, 1.0] {
        path.push_circle(x + side * 0.046, y, 0.0035);
    }
    path
}
