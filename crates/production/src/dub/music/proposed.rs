//! Changes of a version that bring picture and music together, each tried on the strand.

use onestrand_cut::{Change, Conflict, Piece, PieceKind, Strand, check};
use onestrand_film::{FrameRange, Frames, Span};
use onestrand_store::{Production, StoreError};

use super::handles::Sequence;
use crate::ProductionError;
use crate::documents::{ConflictDocument, CutProposalDocument};
use crate::strand::strand;

/// A version about to be changed.
pub(super) struct Proposing<'a> {
    sequence: &'a Sequence,
    strand: Strand,
    /// What is refused as it is.
    refused: Vec<Conflict>,
}

impl<'a> Proposing<'a> {
    pub(super) fn of(
        production: &Production,
        sequence: &'a Sequence,
    ) -> Result<Self, ProductionError> {
        let strand = strand(production)?;
        let now = check(&sequence.cut, &strand, sequence.rules());
        Ok(Self {
            refused: now.refused().cloned().collect(),
            sequence,
            strand,
        })
    }

    /// The last piece so many frames longer; shorter when negative.
    pub(super) fn ending(&self, by: i64) -> Result<CutProposalDocument, ProductionError> {
        let at = self.sequence.to - 1;
        let piece = grown(&self.sequence.cut.pieces()[at], 0, by)?;
        self.tried(Change::Replace { at, piece })
    }

    /// Every join inside the sequence so many frames later; earlier when negative.
    pub(super) fn inside(&self, by: &[i64]) -> Result<CutProposalDocument, ProductionError> {
        let mut changes = Vec::new();
        let pieces = &self.sequence.cut.pieces()[self.sequence.from - 1..self.sequence.to];
        for (nth, piece) in pieces.iter().enumerate() {
            let at_head = nth.checked_sub(1).map_or(0, |before| by[before]);
            let at_tail = by.get(nth).copied().unwrap_or(0);
            if (at_head, at_tail) != (0, 0) {
                let at = self.sequence.from - 1 + nth;
                let piece = grown(piece, at_head, at_tail)?;
                changes.push(Change::Replace { at, piece });
            }
        }
        self.tried(Change::All(changes))
    }

    fn tried(&self, change: Change) -> Result<CutProposalDocument, ProductionError> {
        let then = self.sequence.cut.apply(&change);
        let (then, _) = then.map_err(StoreError::Refused)?;
        let answer = check(&then, &self.strand, self.sequence.rules());
        let fresh = answer.refused().filter(|conflict| !self.knows(conflict));
        Ok(CutProposalDocument {
            refused: fresh.map(ConflictDocument::plain).collect(),
            change: (&change).into(),
        })
    }

    /// Whether the same was refused before, maybe at frames that lie a little apart.
    fn knows(&self, conflict: &Conflict) -> bool {
        let same = |one: &Conflict| {
            one.kind == conflict.kind
                && one.positions == conflict.positions
                && one.frames >= conflict.frames
        };
        self.refused.iter().any(same)
    }
}

/// A piece whose first frame lies so much later and whose last so much later; earlier when
/// negative.
fn grown(piece: &Piece, at_head: i64, at_tail: i64) -> Result<Piece, ProductionError> {
    let moved = |frame: u32, by: i64| u32::try_from(i64::from(frame) + by).unwrap_or(0);
    let longer = |frames: Frames| Frames::new(moved(frames.count(), at_tail - at_head));
    let kind = match &piece.kind {
        PieceKind::Shot(span) => {
            let first = moved(span.range.begin().index(), at_head);
            let thrown = moved(span.range.end().index(), at_tail);
            PieceKind::Shot(Span::new(span.roll.clone(), FrameRange::of(first, thrown)?))
        }
        PieceKind::Leader(frames) => PieceKind::Leader(longer(*frames)?),
        PieceKind::Card { frames, title } => PieceKind::Card {
            frames: longer(*frames)?,
            title: title.clone(),
        },
    };
    Ok(Piece {
        kind,
        ..piece.clone()
    })
}
