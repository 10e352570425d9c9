//! A drawing on a form: lines, shapes and words at places in mm, right of and down from
//! its upper left. Hatching is made of lines, so that any printer and screen shows it.

use serde::Serialize;

/// A place in a drawing. Unit: mm.
pub(super) type Place = [f64; 2];

/// A drawing.
#[derive(Serialize)]
pub(super) struct Drawing {
    wide: f64,
    high: f64,
    marks: Vec<Mark>,
}

#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
enum Mark {
    Line {
        from: Place,
        to: Place,
        pen: Pen,
    },
    Shape {
        points: Vec<Place>,
        pen: Pen,
        fill: Fill,
    },
    Ring {
        at: Place,
        radius: f64,
        pen: Pen,
        fill: Fill,
    },
    Words(Lettering),
    Picture(Shown),
}

/// With what a line is drawn.
#[derive(Clone, Copy, Serialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Pen {
    /// Not at all.
    None,
    /// A grey hair: the grid.
    Grid,
    Thin,
    Plain,
    Bold,
    Dashed,
    Dotted,
}

/// What a shape is filled with.
#[derive(Clone, Copy, Serialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Fill {
    None,
    White,
    Grey,
    Black,
}

/// Words in a drawing.
#[derive(Serialize)]
pub(super) struct Lettering {
    /// Upper left of the words.
    pub(super) at: Place,
    /// They go on in another line beyond this. Unit: mm.
    pub(super) wide: f64,
    /// What lies below is cut off; nothing cuts it where none is said. Unit: mm.
    pub(super) high: Option<f64>,
    /// Unit: points.
    pub(super) size: f64,
    pub(super) bold: bool,
    /// In the typeface of figures.
    pub(super) figures: bool,
    /// On white, so that nothing runs through them.
    pub(super) on_white: bool,
    pub(super) words: String,
}

impl Lettering {
    /// Words as most are.
    pub(super) fn new(at: Place, wide: f64, size: f64, words: impl Into<String>) -> Self {
        Self {
            at,
            wide,
            high: None,
            size,
            bold: false,
            figures: false,
            on_white: false,
            words: words.into(),
        }
    }

    pub(super) fn bold(self) -> Self {
        Self { bold: true, ..self }
    }

    pub(super) fn figures(self) -> Self {
        Self {
            figures: true,
            ..self
        }
    }

    pub(super) fn on_white(self) -> Self {
        Self {
            on_white: true,
            ..self
        }
    }

    pub(super) fn cut_at(self, high: f64) -> Self {
        Self {
            high: Some(high),
            ..self
        }
    }

    /// How high they will be, near enough to keep others off. Unit: mm.
    pub(super) fn about_high(&self) -> f64 {
        let letter = self.size * if self.figures { 0.155 } else { 0.185 };
        let in_a_line = (self.wide / letter).floor().max(1.0);
        let lines = (self.words.chars().count() as f64 / in_a_line).ceil();
        lines.max(1.0) * self.size * 0.37 + 0.5
    }
}

/// A picture of which a part may be cut off above and below.
#[derive(Serialize)]
pub(super) struct Shown {
    pub(super) file: String,
    /// Upper left of the part that is shown.
    pub(super) at: Place,
    pub(super) wide: f64,
    /// The whole picture. Unit: mm.
    pub(super) high: f64,
    /// What is cut off above. Unit: mm.
    pub(super) above: f64,
    /// What is shown. Unit: mm.
    pub(super) shown: f64,
    pub(super) alt: String,
}

impl Drawing {
    /// An empty drawing of this size. Unit: mm.
    pub(super) const fn new(wide: f64, high: f64) -> Self {
        Self {
            wide,
            high,
            marks: Vec::new(),
        }
    }

    pub(super) fn line(&mut self, from: Place, to: Place, pen: Pen) {
        self.marks.push(Mark::Line { from, to, pen });
    }

    pub(super) fn shape(&mut self, points: Vec<Place>, pen: Pen, fill: Fill) {
        if points.len() > 1 {
            self.marks.push(Mark::Shape { points, pen, fill });
        }
    }

    pub(super) fn rectangle(&mut self, [x, y]: Place, [wide, high]: Place, pen: Pen, fill: Fill) {
        let (right, below) = (x + wide, y + high);
        self.shape(
            vec![[x, y], [right, y], [right, below], [x, below]],
            pen,
            fill,
        );
    }

    pub(super) fn ring(&mut self, at: Place, radius: f64, pen: Pen, fill: Fill) {
        self.marks.push(Mark::Ring {
            at,
            radius,
            pen,
            fill,
        });
    }

    pub(super) fn words(&mut self, words: Lettering) {
        self.marks.push(Mark::Words(words));
    }

    pub(super) fn picture(&mut self, picture: Shown) {
        self.marks.push(Mark::Picture(picture));
    }

    /// Fills a convex shape with slanting lines; the other way round they rise.
    pub(super) fn hatch(&mut self, points: &[Place], step: f64, rising: bool) {
        let slant = |[x, y]: Place| if rising { x + y } else { x - y };
        let all = points.iter().map(|point| slant(*point));
        let (least, most) = all.fold((f64::MAX, f64::MIN), |(low, high), one| {
            (low.min(one), high.max(one))
        });
        let lines = ((most - least) / step).floor().clamp(0.0, 2_000.0) as u32;
        for nth in 1..=lines {
            let at = least + f64::from(nth) * step;
            if let Some((from, to)) = across(points, slant, at) {
                self.line(from, to, Pen::Thin);
            }
        }
    }
}

/// Where a slanting line goes through a convex shape.
fn across(points: &[Place], slant: impl Fn(Place) -> f64, at: f64) -> Option<(Place, Place)> {
    let next = points.iter().cycle().skip(1);
    let meets = points.iter().zip(next).filter_map(|(from, to)| {
        let (low, high) = (slant(*from) - at, slant(*to) - at);
        if (low < 0.0) == (high < 0.0) {
            return None;
        }
        let share = low / (low - high);
        Some([
            from[0] + share * (to[0] - from[0]),
            from[1] + share * (to[1] - from[1]),
        ])
    });
    let meets: Vec<Place> = meets.collect();
    match meets[..] {
        [from, to] => Some((from, to)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every line of a hatching lies inside: both ends on an edge of the triangle.
    #[test]
    fn a_hatching_stays_inside_its_wedge() {
        let mut drawing = Drawing::new(50.0, 50.0);
        let wedge = [[10.0, 10.0], [30.0, 10.0], [10.0, 20.0]];
        drawing.hatch(&wedge, 1.0, false);
        drawing.hatch(&wedge, 1.0, true);
        assert!(drawing.marks.len() > 20);
        for mark in &drawing.marks {
            let Mark::Line { from, to, .. } = mark else {
                panic!("a hatching is made of lines");
            };
            for [x, y] in [from, to] {
                assert!(*x >= 9.99 && *y >= 9.99, "{x} {y}");
                assert!((x - 10.0) / 20.0 + (y - 10.0) / 10.0 <= 1.001, "{x} {y}");
            }
        }
    }
}
