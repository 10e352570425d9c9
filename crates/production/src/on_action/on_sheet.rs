//! Whether the strand check lets a cut from one take to the other pass.

use onestrand_cut::{Change, CheckRules, Piece, PieceKind, Strand, TrialCut, check};
use onestrand_film::{FramePos, FrameRange, RollId, Span};
use onestrand_store::Production;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::takes::TakePlace;
use crate::error::unfit;
use crate::{ProductionError, strand};

/// How the cut is made on the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "how", rename_all = "snake_case")]
pub enum SheetCut {
    /// The join after the piece is put elsewhere: the piece is left, the next one entered.
    Join,
    /// The piece is left for another take that is laid in after it.
    LayIn,
    /// Back from the take that is laid in to the same piece.
    Back {
        /// The first frame of the piece that the take stands for.
        left: u32,
        /// The frame of the other take that is entered there.
        entered: u32,
    },
}

/// Where on which version a cut on the action is sought.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct OnSheet {
    /// The version.
    pub cut: String,
    /// The piece that is left, or that a take is laid into; the first is 0.
    pub at: usize,
    /// How.
    #[serde(flatten)]
    pub made: SheetCut,
}

/// So many frames of a take that is laid in are looked at before its end is known:
/// the fewest that lie safely in a splicer by any join. Unit: frames.
const LEAST: u32 = 8;

/// A version, to be tried with one cut after another.
#[derive(Debug)]
pub(super) struct Tried {
    strand: Strand,
    rules: CheckRules,
    cut: TrialCut,
    at: usize,
    made: SheetCut,
    /// The take that is laid in, or entered.
    other: (RollId, FrameRange),
    refused: (usize, u64),
}

impl Tried {
    /// # Errors
    /// [`ProductionError::Unfit`] for a place that the sheet does not have.
    pub(super) fn new(
        production: &Production,
        sheet: &OnSheet,
        other: (&TakePlace, FrameRange),
    ) -> Result<Self, ProductionError> {
        let strand = strand::strand(production)?;
        let rules = strand::rules(production);
        let cut = strand::cut(production, &sheet.cut)?;
        let no_place = || {
            unfit(
                format!("{} has no film to leave at {}", sheet.cut, sheet.at + 1),
                "look at the sheet once more; another window may have changed it",
            )
        };
        let is_film = |at: usize| cut.pieces().get(at).is_some_and(|p| p.span().is_some());
        if !is_film(sheet.at) || (sheet.made == SheetCut::Join && !is_film(sheet.at + 1)) {
            return Err(no_place());
        }
        let refused = refused(&cut, &strand, &rules);
        Ok(Self {
            other: (RollId::new(&other.0.roll)?, other.1),
            at: sheet.at,
            made: sheet.made,
            strand,
            rules,
            cut,
            refused,
        })
    }

    /// Whether the version with this cut (first frame thrown away, first frame kept)
    /// is refused for no more than without it.
    pub(super) fn allows(&self, leave: FramePos, enter: FramePos) -> bool {
        let Some(change) = self.change(leave, enter) else {
            return false;
        };
        let Ok((tried, _)) = self.cut.apply(&change) else {
            return false;
        };
        let (conflicts, frames) = refused(&tried, &self.strand, &self.rules);
        conflicts <= self.refused.0 && frames <= self.refused.1
    }

    fn change(&self, leave: FramePos, enter: FramePos) -> Option<Change> {
        let at = self.at;
        let piece = self.cut.pieces().get(at)?;
        let span = piece.span()?;
        let part = |from: FramePos, to: FramePos| {
            let range = FrameRange::new(from, to).ok()?;
            (from < to).then(|| Piece {
                kind: PieceKind::Shot(Span::new(span.roll.clone(), range)),
                ..piece.clone()
            })
        };
        let laid_in = |from: FramePos, to: FramePos| {
            let range = FrameRange::new(from, to).ok()?;
            (from < to).then(|| Piece::shot(Span::new(self.other.0.clone(), range)))
        };
        let head = |to: FramePos| Some(replace(at, part(span.range.begin(), to)?));
        let insert = |at: usize, piece: Piece| Change::Insert { at, piece };
        let changes = match self.made {
            SheetCut::Join => {
                let next = self.cut.pieces().get(at + 1)?;
                let range = FrameRange::new(enter, next.span()?.range.end()).ok()?;
                if range.is_empty() {
                    return None;
                }
                let roll = next.span()?.roll.clone();
                let entered = Piece {
                    kind: PieceKind::Shot(Span::new(roll, range)),
                    ..next.clone()
                };
                vec![head(leave)?, replace(at + 1, entered)]
            }
            SheetCut::LayIn => {
                let least = enter.index().saturating_add(LEAST);
                let end = FramePos::new(least.min(self.other.1.end().index())).ok()?;
                vec![head(leave)?, insert(at + 1, laid_in(enter, end)?)]
            }
            SheetCut::Back { left, entered } => {
                let (left, entered) = (FramePos::new(left).ok()?, FramePos::new(entered).ok()?);
                // Here the other take is left, and the piece entered again.
                if enter < left {
                    return None;
                }
                vec![
                    head(left)?,
                    insert(at + 1, laid_in(entered, leave)?),
                    insert(at + 2, part(enter, span.range.end())?),
                ]
            }
        };
        Some(Change::All(changes))
    }
}

fn replace(at: usize, piece: Piece) -> Change {
    Change::Replace { at, piece }
}

/// How many conflicts stop a cut, and over how many frames.
fn refused(cut: &TrialCut, strand: &Strand, rules: &CheckRules) -> (usize, u64) {
    let answer = check(cut, strand, rules);
    let conflicts = answer.refused().count();
    let frames = answer.refused().map(|c| u64::from(c.frames)).sum();
    (conflicts, frames)
}
