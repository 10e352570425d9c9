//! The first cut of the example film and the moments sounds will be laid to.

use crate::log::{ExampleTake, takes};

/// One piece of the first cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct ExamplePiece {
    /// Place in the cut, from 1.
    pub position: u32,
    /// Camera roll, 1 to 3.
    pub roll: u8,
    /// Setup as slated, "3B".
    pub slate: &'static str,
    /// Take of that setup, from 1.
    pub take: u8,
    /// First frame kept. Unit: frames of the roll.
    pub span_in: u32,
    /// First frame thrown away. Unit: frames of the roll.
    pub span_out: u32,
    /// What the piece shows; its note on the cutting sheet.
    pub note: &'static str,
}

/// What happens at a mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum MarkKind {
    /// The loop of the rope is clear of the bollard.
    RopeLeavesBollard,
    /// The rope meets the water.
    Splash,
    /// The clapper strikes: first, second or third time.
    BellStroke(u8),
    /// The lever comes home.
    Lever,
    /// The paper about the loaf rustles as it is opened.
    LoafRustle,
    /// Ida's foot comes down on the deck.
    FootOnDeck,
}

impl MarkKind {
    /// The words for a list of marks.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::RopeLeavesBollard => "rope leaves bollard",
            Self::Splash => "splash",
            Self::BellStroke(_) => "bell stroke",
            Self::Lever => "lever",
            Self::LoafRustle => "loaf rustle",
            Self::FootOnDeck => "foot on deck",
        }
    }
}

/// A frame at which something seen can be heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct ExampleMark {
    /// Camera roll, 1 to 3.
    pub roll: u8,
    /// The first frame that shows it. Unit: frames of the roll.
    pub frame: u32,
    /// What happens there.
    pub kind: MarkKind,
}

impl ExampleMark {
    /// The take the mark lies in.
    ///
    /// # Panics
    /// Never for the marks of [`marks`]: a test holds each to its take.
    #[must_use]
    pub fn take(&self) -> &'static ExampleTake {
        takes()
            .iter()
            .find(|t| t.roll == self.roll && (t.span_in..t.span_out).contains(&self.frame))
            .expect("every mark lies in a take")
    }
}

/// The first cut, v1: 23 pieces, 2,724 frames, 37 ft 60 fr of Super 8.
#[must_use]
pub fn first_cut() -> &'static [ExamplePiece] {
    static PIECES: [ExamplePiece; 23] = [
        piece(1, 3, ("M", 1), (3075, 3255), "main title"),
        piece(2, 1, ("1", 2), (402, 546), "the landing"),
        piece(3, 1, ("2", 2), (1068, 1176), "Ida runs with a loaf"),
        piece(4, 1, ("3", 2), (2623, 2749), "Bram waits"),
        piece(5, 1, ("2A", 2), (1590, 1662), "Ida runs, nearer"),
        piece(6, 1, ("3", 2), (2813, 2939), "Bram lifts the rope"),
        piece(7, 2, ("3B", 2), (547, 607), "the rope comes off"),
        piece(8, 1, ("3", 2), (2996, 3122), "the ferry leaves"),
        piece(9, 1, ("2B", 1), (1822, 1867), "her feet"),
        piece(10, 2, ("4", 2), (1280, 1496), "too late"),
        piece(11, 2, ("4A", 2), (2075, 2147), "she sees it go"),
        piece(12, 2, ("4", 2), (1532, 1640), "she goes to the bell"),
        piece(13, 2, ("4B", 2), (2432, 2486), "she rings"),
        piece(14, 2, ("5", 1), (2621, 2765), "Bram turns"),
        piece(15, 2, ("5A", 2), (3170, 3242), "what he sees"),
        piece(16, 2, ("5", 1), (2801, 2909), "he pulls the lever"),
        piece(17, 3, ("5B", 2), (57, 219), "the ferry backs"),
        piece(18, 3, ("6", 2), (930, 1110), "the loaf offered"),
        piece(19, 3, ("6B", 2), (1830, 1884), "hands and loaf"),
        piece(20, 3, ("6A", 1), (1503, 1575), "Bram's face"),
        piece(21, 3, ("6", 2), (1218, 1362), "she steps aboard"),
        piece(22, 3, ("7", 2), (2505, 2775), "the crossing"),
        piece(23, 3, ("E", 1), (3279, 3360), "the end"),
    ];
    &PIECES
}

/// Frames of the rolls at which something can be heard, in roll order.
#[must_use]
pub fn marks() -> &'static [ExampleMark] {
    use MarkKind::{BellStroke, FootOnDeck, Lever, LoafRustle, RopeLeavesBollard, Splash};
    static MARKS: [ExampleMark; 15] = [
        mark(1, 2251, RopeLeavesBollard),
        mark(1, 2297, Splash),
        mark(1, 2923, RopeLeavesBollard),
        mark(1, 2971, Splash),
        mark(2, 531, RopeLeavesBollard),
        mark(2, 580, Splash),
        mark(2, 2311, BellStroke(1)),
        mark(2, 2330, BellStroke(2)),
        mark(2, 2349, BellStroke(3)),
        mark(2, 2441, BellStroke(1)),
        mark(2, 2459, BellStroke(2)),
        mark(2, 2478, BellStroke(3)),
        mark(2, 2833, Lever),
        mark(3, 1300, FootOnDeck),
        mark(3, 1846, LoafRustle),
    ];
    &MARKS
}

const fn mark(roll: u8, frame: u32, kind: MarkKind) -> ExampleMark {
    ExampleMark { roll, frame, kind }
}

const fn piece(
    position: u32,
    roll: u8,
    take: (&'static str, u8),
    span: (u32, u32),
    note: &'static str,
) -> ExamplePiece {
    ExamplePiece {
        position,
        roll,
        slate: take.0,
        take: take.1,
        span_in: span.0,
        span_out: span.1,
        note,
    }
}
