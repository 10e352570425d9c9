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

/// A take of which nothing is said.
pub(crate) fn blank_take(span: Span) -> Take {
    Take {
        span,
        slate: None,
        rating: Rating::None,
        size: String::new(),
        camera_move: String::new(),
        direction: String::new(),
        action: String::new(),
        note: String::new(),
    }
}

/// Three rolls with the takes of the example's own log.
pub(crate) fn strand() -> Strand {
    let rolls = ["R1", "R2", "R3"].map(|name| plain_roll(name, 3600, Gauge::Super8));
    let takes = onestrand_example::takes().iter().map(|take| Take {
        slate: Some(take.name().parse().expect("a slate")),
        size: take.size.word().to_owned(),
        camera_move: take.camera.to_owned(),
        direction: match take.mover {
            "" => String::new(),
            who => format!("{who}, {}", take.direction.words()),
        },
        action: take.action.to_owned(),
        ..blank_take(span(
            &format!("R{}", take.roll),
            take.span_in,
            take.span_out,
        ))
    });
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
    let pieces = onestrand_example::first_cut()
        .iter()
        .map(|p| slated(strand, &format!("R{}", p.roll), p.span_in, p.span_out))
        .collect();
    TrialCut::new(pieces, join)
}
