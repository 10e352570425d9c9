//! Letters as coverage.

use tiny_skia::{Color, FillRule, LineJoin, Mask, Paint, Path, Pixmap, Stroke, Transform};

use super::View;
use super::plane::{Part, Plane};
use crate::SetCard;
use crate::chance::Chance;
use crate::manner::Finish;
use crate::set_card::Letter;

/// The letters, before anything is done to their surface.
pub(crate) struct Ink {
    pub(crate) cover: Plane,
    /// How light each place is beside the lightest: paper against paper, a key
    /// struck hard or softly. Nothing where all is alike.
    pub(crate) tone: Option<Vec<u8>>,
    /// Where anything is.
    pub(crate) part: Part,
}

/// Draws the letters that are in view.
pub(crate) fn of(card: &SetCard, view: &View) -> Ink {
    let finish = card.look.manner.finish;
    let mut mask = Mask::new(view.width, view.height).expect("a size of at least one pixel");
    let mut tones = matches!(finish, Finish::Sheets | Finish::Ribbon)
        .then(|| Pixmap::new(view.width, view.height).expect("a size of at least one pixel"));
    if let Some(tones) = &mut tones {
        tones.fill(Color::WHITE);
    }
    let mut part: Option<Part> = None;
    for letter in visible(card, view) {
        let Some(path) = letter.path.clone().transform(view.place()) else {
            continue;
        };
        if let Some(tones) = &mut tones {
            toned(tones, &path, letter, card, view);
        }
        mask.fill_path(&path, FillRule::Winding, true, Transform::identity());
        let pen = card.look.manner.hand.swell * view.capital;
        if pen > 0.0
            && let Some(stroked) = stroked(&path, pen)
        {
            mask.fill_path(&stroked, FillRule::Winding, true, Transform::identity());
        }
        part = Some(joined(part, of_path(&path, pen, view)));
    }
    Ink {
        cover: Plane {
            width: view.width as usize,
            height: view.height as usize,
            values: mask.take(),
        },
        tone: tones.map(|tones| tones.data().chunks_exact(4).map(|p| p[0]).collect()),
        part: part.unwrap_or(Part {
            left: 0,
            top: 0,
            right: 0,
            bottom: 0,
        }),
    }
}

/// The contour around all letters, for an outline.
pub(crate) fn contour(card: &SetCard, view: &View, width: f32) -> Plane {
    let mut mask = Mask::new(view.width, view.height).expect("a size of at least one pixel");
    let pen = width + card.look.manner.hand.swell * view.capital;
    for letter in visible(card, view) {
        if let Some(path) = letter.path.clone().transform(view.place())
            && let Some(path) = stroked(&path, pen)
        {
            mask.fill_path(&path, FillRule::Winding, true, Transform::identity());
        }
    }
    Plane {
        width: view.width as usize,
        height: view.height as usize,
        values: mask.take(),
    }
}

/// Letters whose ink may be in the picture.
fn visible<'a>(card: &'a SetCard, view: &'a View) -> impl Iterator<Item = &'a Letter> {
    card.letters.iter().filter(|letter| {
        let bounds = letter.path.bounds();
        let near = 0.5 * card.capital_height as f32;
        bounds.bottom() + near > view.top() && bounds.top() - near < view.bottom()
    })
}

fn stroked(path: &Path, width: f32) -> Option<Path> {
    let stroke = Stroke {
        width,
        line_join: LineJoin::Round,
        ..Stroke::default()
    };
    path.stroke(&stroke, 1.0)
}

/// How light this letter is, and how it shades those laid before it.
fn toned(tones: &mut Pixmap, path: &Path, letter: &Letter, card: &SetCard, view: &View) {
    let mut chance = Chance::new(card.seed ^ 0x70e5, letter.number);
    let is_sheet = card.look.manner.finish == Finish::Sheets;
    let mut paint = Paint {
        anti_alias: true,
        ..Paint::default()
    };
    if is_sheet {
        for (far, dark) in [(0.05, 26), (0.032, 34), (0.016, 44)] {
            paint.set_color_rgba8(0, 0, 0, dark);
            let far = far * view.capital;
            tones.fill_path(
                path,
                &paint,
                FillRule::Winding,
                Transform::from_translate(far * 0.7, far),
                None,
            );
        }
    }
    let light = if is_sheet {
        1.0 - 0.09 * chance.part()
    } else {
        1.0 - 0.22 * chance.part() * chance.part()
    };
    let light = (light * 255.0) as u8;
    paint.set_color_rgba8(light, light, light, 255);
    tones.fill_path(path, &paint, FillRule::Winding, Transform::identity(), None);
}

/// The pixels that a path may touch.
fn of_path(path: &Path, pen: f32, view: &View) -> Part {
    let bounds = path.bounds();
    let within = |value: f32, most: u32| value.clamp(0.0, most as f32) as usize;
    Part {
        left: within(bounds.left() - pen - 2.0, view.width),
        top: within(bounds.top() - pen - 2.0, view.height),
        right: within(bounds.right() + pen + 2.0, view.width),
        bottom: within(bounds.bottom() + pen + 2.0, view.height),
    }
}

fn joined(part: Option<Part>, with: Part) -> Part {
    let Some(part) = part else { return with };
    Part {
        left: part.left.min(with.left),
        top: part.top.min(with.top),
        right: part.right.max(with.right),
        bottom: part.bottom.max(with.bottom),
    }
}
