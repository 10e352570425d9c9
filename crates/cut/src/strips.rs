//! Strips: what is really cut out of the rolls, and the joins between them.

use onestrand_film::{Frames, Span};

use crate::{Bite, JoinKind, JoinTable, Piece, TrialCut};

/// One strip: one piece, or several that continue each other on the film.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Strip {
    /// First and last position of its pieces, counted from 0.
    pub positions: (usize, usize),
    /// The camera frames it shows; none for leader and cards.
    pub span: Option<Span>,
    /// How long it stands on the screen.
    pub frames: Frames,
}

/// One join between two strips, or of a strip with head or tail leader.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Joint {
    /// The kind.
    pub kind: JoinKind,
    /// What it eats.
    pub bite: Bite,
    /// Position before it, counted from 0; none at the head leader.
    pub after: Option<usize>,
    /// Position behind it, counted from 0; none at the tail leader.
    pub before: Option<usize>,
}

/// A cut as strips and joins. `joints[i]` lies before `strips[i]`, the last
/// one behind the last strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Strips {
    /// The strips in cut order.
    pub strips: Vec<Strip>,
    /// The joins: one more than strips, or none for an empty cut.
    pub joints: Vec<Joint>,
}

impl Strips {
    /// The strips and joins of a cut.
    ///
    /// Two pieces that continue each other on the film in cut order are one
    /// strip, unless an effect is asked of either.
    #[must_use]
    pub fn of(cut: &TrialCut, table: &JoinTable) -> Self {
        let mut strips: Vec<Strip> = Vec::with_capacity(cut.pieces().len());
        let mut previous: Option<&Piece> = None;
        for (position, piece) in cut.pieces().iter().enumerate() {
            let continues = previous.is_some_and(|before| continue_each_other(before, piece));
            match strips.last_mut() {
                Some(strip) if continues => lengthen(strip, position, piece),
                _ => strips.push(Strip {
                    positions: (position, position),
                    span: piece.span().cloned(),
                    frames: piece.frames(),
                }),
            }
            previous = Some(piece);
        }
        let joints = joints(cut, &strips, table);
        Self { strips, joints }
    }

    /// The frames that a strip takes from its roll: what it shows, and what
    /// its joins eat. Signed, since a bite may reach before frame 0.
    #[must_use]
    pub fn extent(&self, index: usize) -> Option<(i64, i64)> {
        let span = self.strips.get(index)?.span.as_ref()?;
        let head = i64::from(self.joints.get(index)?.bite.in_head);
        let tail = i64::from(self.joints.get(index + 1)?.bite.out_tail);
        let (begin, end) = (span.range.begin().index(), span.range.end().index());
        Some((i64::from(begin) - head, i64::from(end) + tail))
    }
}

fn continue_each_other(before: &Piece, after: &Piece) -> bool {
    let (Some(first), Some(second)) = (before.span(), after.span()) else {
        return false;
    };
    first.roll == second.roll
        && first.range.end() == second.range.begin()
        && before.effect.is_none()
        && after.effect.is_none()
}

fn lengthen(strip: &mut Strip, position: usize, piece: &Piece) {
    strip.positions.1 = position;
    strip.frames = strip
        .frames
        .checked_add(piece.frames())
        .unwrap_or(Frames::MAX);
    if let (Some(span), Some(more)) = (strip.span.as_mut(), piece.span()) {
        // Both hold at least a frame and follow each other: never reversed.
        if let Ok(range) = onestrand_film::FrameRange::new(span.range.begin(), more.range.end()) {
            span.range = range;
        }
    }
}

fn joints(cut: &TrialCut, strips: &[Strip], table: &JoinTable) -> Vec<Joint> {
    let Some(first) = strips.first() else {
        return Vec::new();
    };
    let joint = |kind: JoinKind, after, before| Joint {
        kind,
        bite: table.row(kind).bite,
        after,
        before,
    };
    let mut joints = vec![joint(cut.usual_join(), None, Some(first.positions.0))];
    for (index, strip) in strips.iter().enumerate() {
        let last = strip.positions.1;
        let kind = cut.pieces()[last].join.unwrap_or(cut.usual_join());
        let next = strips.get(index + 1).map(|s| s.positions.0);
        joints.push(joint(kind, Some(last), next));
    }
    joints
}
