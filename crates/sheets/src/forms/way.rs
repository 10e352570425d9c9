//! Ways to a cut, in words and figures.

use onestrand_film::{FrameDelta, FrameName, FramePos, Length, RollId};
use serde::Serialize;

use crate::head::Head;
use crate::way::{Edge, MayBeOff, WayCount};
use crate::words;

/// A way to a place: the landmark, and the counts from it.
#[derive(Serialize)]
pub(super) struct WayRecord {
    /// What the last count begins at, and its frame.
    pub(super) words: String,
    pub(super) at: String,
    /// The last count: `+ 77`.
    pub(super) count: String,
    /// The same in mm, and in feet and frames when it is a foot or more.
    pub(super) under: String,
    /// The same apart; no feet where it is less than one.
    pub(super) feet: String,
    pub(super) mm: String,
    /// How one comes to where the last count begins; empty for a single count.
    pub(super) first: String,
    /// `± 1.0 fr by ruler`, empty where it is not said.
    pub(super) off: String,
}

/// Counts on one roll.
pub(super) struct OnRoll<'a> {
    pub(super) head: &'a Head,
    pub(super) roll: &'a RollId,
}

impl OnRoll<'_> {
    pub(super) fn name(&self, frame: FramePos) -> String {
        let roll = self.roll.clone();
        FrameName { roll, frame }.to_string()
    }

    /// Millimetres on the film, shrinkage taken off: `326.0 mm`.
    pub(super) fn mm(&self, count: FrameDelta) -> String {
        let gauge = self.head.gauge_of(self.roll);
        let shrinkage = self.head.shrinkage(self.roll);
        let mm = Length::by_pitch(words::size(count), gauge, shrinkage);
        format!("{} mm", mm.mm_text(1))
    }

    /// `1 ft 5 fr`; empty for less than a foot.
    fn feet(&self, count: FrameDelta) -> String {
        let footage = self.head.gauge_of(self.roll).footage(words::size(count));
        match footage.feet() {
            0 => String::new(),
            _ => words::footage(footage),
        }
    }

    /// `1 ft 5 fr, 326.0 mm`.
    fn measure(&self, count: FrameDelta) -> String {
        let (feet, mm) = (self.feet(count), self.mm(count));
        match feet.is_empty() {
            true => mm,
            false => format!("{feet}, {mm}"),
        }
    }

    /// A whole way; nothing for one without counts.
    pub(super) fn way(&self, counts: &[WayCount], off: Option<MayBeOff>) -> Option<WayRecord> {
        let (last, before) = counts.split_last()?;
        let first = before.iter().map(|one| {
            let words = words::plain(&one.words);
            format!("{words} {} {}", self.name(one.at), words::signed(one.count))
        });
        Some(WayRecord {
            words: words::plain(&last.words),
            at: self.name(last.at),
            count: words::signed(last.count),
            under: self.measure(last.count),
            feet: self.feet(last.count),
            mm: self.mm(last.count),
            first: first.collect::<Vec<_>>().join(", then "),
            off: off.map(off_words).unwrap_or_default(),
        })
    }

    /// A short way in one line: `rope leaves bollard 531 + 16, 67.7 mm`.
    pub(super) fn in_a_line(&self, one: &WayCount) -> String {
        let words = words::plain(&one.words);
        let count = words::signed(one.count);
        format!("{words} {} {count}, {}", one.at, self.mm(one.count))
    }
}

/// `± 1.0 fr by ruler`.
pub(super) fn off_words(off: MayBeOff) -> String {
    // Rounded up: what may be off is never said to be less.
    let tenths = off.frames_100.div_ceil(10);
    let by = if off.by_ruler { "ruler" } else { "counting" };
    format!("± {}.{} fr by {by}", tenths / 10, tenths % 10)
}

/// What is said at an end where no blade goes; empty where one does.
pub(super) fn edge_words(edge: Edge) -> &'static str {
    match edge {
        Edge::Cut => "",
        Edge::CutBefore => "cut already",
        Edge::RollEnds => "the roll ends here",
    }
}
