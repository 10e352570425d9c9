//! Where a running frame and a column lie on a sheet of the chart.

use std::ops::Range;

use onestrand_film::Gauge;

use super::room;
use crate::dub::{DubColumn, DubbingChart};

/// How wide the drawing is: both papers have it. Unit: mm.
pub(in crate::forms::dub) const WIDE: f64 = 190.0;
/// Where the film begins under the heads. Unit: mm.
pub(in crate::forms::dub) const TOP: f64 = 11.0;
/// The columns that are always there. Unit: mm.
const RUNNING: f64 = 15.0;
const FILM: f64 = 15.0;
const SHOT: f64 = 32.0;
const HANDS: f64 = 19.0;
/// Room behind the end, for what is written there. Unit: mm.
const BEHIND: f64 = 8.0;
/// Before the first picture, at most so many feet are drawn.
const FEET_BEFORE: i64 = 10;

/// A stretch across: where it begins and how wide it is. Unit: mm.
pub(in crate::forms::dub) type Lane = (f64, f64);

/// The running frames of one sheet and where they lie.
pub(in crate::forms::dub) struct Measure {
    /// The first frame.
    pub(in crate::forms::dub) from: i64,
    /// The frame after the last.
    pub(in crate::forms::dub) to: i64,
    /// Frames a foot.
    pub(in crate::forms::dub) per_foot: i64,
    /// Unit: mm a frame.
    pub(in crate::forms::dub) mm: f64,
    /// Where the sheet's frames end. Unit: mm.
    pub(in crate::forms::dub) bottom: f64,
}

impl Measure {
    /// Where a frame begins. Unit: mm.
    pub(in crate::forms::dub) fn y(&self, frame: i64) -> f64 {
        self.y_of(frame as f64)
    }

    /// Where a place between frames lies. Unit: mm.
    pub(in crate::forms::dub) fn y_of(&self, frame: f64) -> f64 {
        TOP + (frame - self.from as f64) * self.mm
    }

    /// The same, at the edge of the sheet where it lies beyond.
    pub(in crate::forms::dub) fn y_kept(&self, frame: i64) -> f64 {
        self.y(frame.clamp(self.from, self.to))
    }

    /// Whether a frame lies on this sheet.
    pub(in crate::forms::dub) fn holds(&self, frame: i64) -> bool {
        (self.from..self.to).contains(&frame)
    }

    /// Whether any of a stretch does.
    pub(in crate::forms::dub) fn meets(&self, from: i64, to: i64) -> bool {
        from < self.to && to > self.from
    }
}

/// The sheets of a stretch of film, each of so many feet; the last only as long as it needs.
pub(in crate::forms::dub) fn sheets_of(
    gauge: Gauge,
    (from, to): (i64, i64),
    feet: i64,
    high: f64,
) -> Vec<Measure> {
    let per_foot = i64::from(gauge.spec().frames_per_foot);
    let first = from.div_euclid(per_foot);
    let mm = (high - TOP - 1.0) / (feet * per_foot) as f64;
    let end = to.max(first * per_foot + 1) + (BEHIND / mm).ceil() as i64;
    let one = |nth: i64| {
        let begin = (first + nth * feet) * per_foot;
        let end = (begin + feet * per_foot).min(end);
        Measure {
            from: begin,
            to: end,
            per_foot,
            mm,
            bottom: TOP + (end - begin) as f64 * mm,
        }
    };
    let sheets = (end - first * per_foot + feet * per_foot - 1) / (feet * per_foot);
    (0..sheets).map(one).collect()
}

/// The sheets of a chart.
pub(super) fn sheets(chart: &DubbingChart) -> Vec<Measure> {
    let per_foot = i64::from(chart.head.gauge.spec().frames_per_foot);
    let cues = chart.columns.iter().flat_map(|column| &column.cues);
    let first = cues.map(|cue| cue.from).min().unwrap_or(0);
    let from = first.clamp(-FEET_BEFORE * per_foot, 0);
    let feet = i64::from(chart.feet_a_sheet.clamp(4, 20));
    let high = room(chart.head.paper);
    sheets_of(
        chart.head.gauge,
        (from, i64::from(chart.frames)),
        feet,
        high,
    )
}

/// The columns of one sheet, where others lie beside it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Side {
    /// Which side it is, from 1.
    pub(super) nth: usize,
    /// How many sides there are.
    pub(super) of: usize,
    /// Its columns, among all.
    pub(super) shows: Range<usize>,
}

impl Side {
    /// As many sides as the columns need, each with about as many; one at least.
    pub(super) fn all(columns: usize) -> Vec<Self> {
        let of = columns.div_ceil(DubbingChart::COLUMNS).max(1);
        let place = |nth: usize| columns * nth / of;
        let side = |nth: usize| Self {
            nth: nth + 1,
            of,
            shows: place(nth)..place(nth + 1),
        };
        (0..of).map(side).collect()
    }

    /// Its columns.
    pub(super) fn columns<'a>(&self, chart: &'a DubbingChart) -> &'a [DubColumn] {
        chart.columns.get(self.shows.clone()).unwrap_or_default()
    }

    /// Where one of all columns stands on it; nothing where it is on another.
    pub(super) fn place_of(&self, column: usize) -> Option<usize> {
        let here = self.shows.contains(&column);
        here.then(|| column - self.shows.start)
    }
}

/// Where the columns lie.
pub(in crate::forms::dub) struct Lanes {
    pub(in crate::forms::dub) running: Lane,
    pub(super) film: Lane,
    pub(super) shot: Lane,
    pub(super) columns: Vec<Lane>,
    pub(super) hands: Lane,
}

impl Lanes {
    pub(super) fn of(side: &Side) -> Self {
        let count = side.shows.len();
        let begin = RUNNING + FILM + SHOT;
        let wide = (WIDE - begin - HANDS) / count.max(1) as f64;
        let column = |nth: usize| (begin + nth as f64 * wide, wide);
        Self {
            running: (0.0, RUNNING),
            film: (RUNNING, FILM),
            shot: (RUNNING + FILM, SHOT),
            columns: (0..count).map(column).collect(),
            hands: (WIDE - HANDS, HANDS),
        }
    }

    /// Each with its head.
    pub(super) fn named(&self, chart: &DubbingChart, side: &Side) -> Vec<(String, Lane)> {
        let shot = match side.of {
            1 => "shot".to_owned(),
            of => format!("shot, side {} of {of}", side.nth),
        };
        let own = [
            ("running".to_owned(), self.running),
            ("film".to_owned(), self.film),
            (shot, self.shot),
        ];
        let columns = side.columns(chart).iter();
        let columns = columns.map(|column| column.name.clone());
        let hands = ("hands".to_owned(), self.hands);
        let columns = columns.zip(self.columns.iter().copied());
        own.into_iter().chain(columns).chain([hands]).collect()
    }

    /// Where a rule stands between two.
    pub(super) fn rules(&self) -> Vec<f64> {
        let columns = self.columns.iter().map(|(x, _)| *x);
        let own = [self.film.0, self.shot.0, self.shot.0 + self.shot.1];
        own.into_iter()
            .chain(columns.skip(1))
            .chain([self.hands.0])
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_column_stands_on_one_side_and_no_side_is_crowded() {
        for columns in 0..40 {
            let sides = Side::all(columns);
            let shown: Vec<usize> = sides.iter().flat_map(|side| side.shows.clone()).collect();
            assert!(shown.iter().copied().eq(0..columns), "{columns}");
            let wide = sides.iter().map(|side| side.shows.len());
            let (least, most) = (wide.clone().min(), wide.max());
            assert!(most <= Some(DubbingChart::COLUMNS), "{columns}");
            assert!(most <= least.map(|least| least + 1), "{columns}");
        }
        let sides = Side::all(10);
        assert_eq!(sides.len(), 2);
        assert_eq!(
            (sides[1].place_of(5), sides[1].place_of(4)),
            (Some(0), None)
        );
    }
}
