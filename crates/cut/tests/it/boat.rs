//! "The Ten-Past Boat": the invented film the stories are told of.

use onestrand_cut::{Base, Fit, JoinKind, Piece, Rating, Roll, Slate, Strand, Take, TrialCut};
use onestrand_film::{FrameRange, Frames, Gauge, RollId, Span};

pub(crate) fn roll(name: &str) -> RollId {
    RollId::new(name).expect("a roll name")
}

pub(crate) fn span(name: &str, begin: u32, end: u32) -> Span {
    Span::new(roll(name), FrameRange::of(begin, end).expect("a range"))
}

pub(crate) fn plain_roll(name: &str, frames: u32, gauge: Gauge) -> Roll {
    Roll {
        id: roll(name),
        gauge,
        base: Base::Triacetate,
        fit: Fit::Project,
        wind: None,
        frames: Frames::new(frames).expect("a length"),
        proved: true,
    }
}

const TAKES: [(&str, &[(&str, u32)], u32); 3] = [
    (
        "R1",
        &[
            ("1-T1", 24),
            ("1-T2", 390),
            ("2-T1", 762),
            ("2-T2", 1050),
            ("2A-T1", 1352),
            ("2A-T2", 1568),
            ("2B-T1", 1801),
            ("3-T1", 1945),
            ("3-T2", 2611),
            ("3A-T1", 3313),
        ],
        3572,
    ),
    (
        "R2",
        &[
            ("3A-T2", 18),
            ("3B-T1", 290),
            ("3B-T2", 470),
            ("4-T1", 668),
            ("4-T2", 1244),
            ("4A-T1", 1856),
            ("4A-T2", 2054),
            ("4B-T1", 2270),
            ("4B-T2", 2405),
            ("5-T1", 2558),
            ("5A-T1", 2990),
            ("5A-T2", 3152),
            ("5B-T1", 3332),
        ],
        3577,
    ),
    (
        "R3",
        &[
            ("5B-T2", 21),
            ("6-T1", 327),
            ("6-T2", 885),
            ("6A-T1", 1479),
            ("6B-T1", 1677),
            ("6B-T2", 1803),
            ("7-T1", 1947),
            ("7-T2", 2469),
            ("M-T1", 3063),
            ("E-T1", 3267),
        ],
        3375,
    ),
];

const FIRST_CUT: [(&str, u32, u32); 23] = [
    ("R3", 3075, 3255),
    ("R1", 402, 546),
    ("R1", 1068, 1176),
    ("R1", 2623, 2749),
    ("R1", 1590, 1662),
    ("R1", 2813, 2939),
    ("R2", 547, 607),
    ("R1", 2996, 3122),
    ("R1", 1822, 1867),
    ("R2", 1280, 1496),
    ("R2", 2075, 2147),
    ("R2", 1532, 1640),
    ("R2", 2432, 2486),
    ("R2", 2621, 2765),
    ("R2", 3170, 3242),
    ("R2", 2801, 2909),
    ("R3", 57, 219),
    ("R3", 930, 1110),
    ("R3", 1830, 1884),
    ("R3", 1503, 1575),
    ("R3", 1218, 1362),
    ("R3", 2505, 2775),
    ("R3", 3279, 3360),
];

pub(crate) fn strand() -> Strand {
    let rolls = TAKES.map(|(name, _, _)| plain_roll(name, 3600, Gauge::Super8));
    let mut takes = Vec::new();
    for (name, starts, end) in TAKES {
        for (index, (slate, begin)) in starts.iter().enumerate() {
            let next = starts.get(index + 1).map_or(end, |s| s.1);
            takes.push(Take {
                span: span(name, *begin, next),
                slate: Some(slate.parse().expect("a slate")),
                rating: Rating::None,
                size: String::new(),
                camera_move: String::new(),
                direction: String::new(),
                action: String::new(),
                note: String::new(),
            });
        }
    }
    Strand::new(Gauge::Super8, rolls, takes)
}

pub(crate) fn slated(strand: &Strand, name: &str, begin: u32, end: u32) -> Piece {
    let span = span(name, begin, end);
    let slate: Option<Slate> = strand.take_at(&span.first()).and_then(|t| t.slate.clone());
    Piece {
        slate,
        ..Piece::shot(span)
    }
}

pub(crate) fn first_cut(strand: &Strand, join: JoinKind) -> TrialCut {
    let pieces = FIRST_CUT
        .iter()
        .map(|(name, begin, end)| slated(strand, name, *begin, *end))
        .collect();
    TrialCut::new(pieces, join)
}
