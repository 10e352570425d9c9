//! A sequence of a version, and how far each of its pieces may grow or shrink.

use onestrand_cut::{CheckRules, JoinKind, Piece, PieceKind, TrialCut};
use onestrand_dub::SequencePiece;
use onestrand_film::Span;
use onestrand_store::{Production, TakeRecord};

use crate::ProductionError;
use crate::strand;

/// Leader is cut to length; of a card no frame is shot yet. Unit: frames.
const ANY: i64 = 100_000;

/// Pieces of a version that belong together.
#[derive(Debug)]
pub(super) struct Sequence {
    pub(super) cut: TrialCut,
    /// Its first piece, counted from 1.
    pub(super) from: usize,
    /// Its last.
    pub(super) to: usize,
    /// The running frame that it begins at.
    pub(super) at: u32,
    /// How long it is. Unit: frames.
    pub(super) frames: u32,
    limits: Vec<SequencePiece>,
    rules: CheckRules,
}

impl Sequence {
    /// The pieces of a version from one position to another, counted from 1.
    pub(super) fn of(
        production: &Production,
        name: &str,
        (from, to): (usize, usize),
    ) -> Result<Self, ProductionError> {
        let cut = strand::cut(production, name)?;
        let rules = strand::rules(production);
        let takes = production.takes()?;
        let pieces = cut.pieces();
        let length = |pieces: &[Piece]| pieces.iter().map(|piece| piece.frames().count()).sum();
        let ends = Ends {
            cut: &cut,
            rules: &rules,
            takes: &takes,
        };
        Ok(Self {
            from,
            to,
            at: length(&pieces[..from - 1]),
            frames: length(&pieces[from - 1..to]),
            limits: (from - 1..to).map(|nth| ends.limits(nth)).collect(),
            rules,
            cut,
        })
    }

    pub(super) fn pieces(&self) -> Vec<SequencePiece> {
        self.limits.clone()
    }

    pub(super) const fn rules(&self) -> &CheckRules {
        &self.rules
    }

    /// The shortest and the longest it may be when its last piece alone changes.
    pub(super) fn lengths(&self) -> (i64, i64) {
        let now = i64::from(self.frames);
        let last = self.limits.last();
        last.map_or((now, now), |last| {
            let shortest = last.shortest.min(last.frames);
            (now - (last.frames - shortest), now + last.behind)
        })
    }

    /// The joins inside it: the piece before each, counted from 1, and where it lies in frames
    /// from the head. Where one piece runs on into the next there is none.
    pub(super) fn inner_joins(&self) -> impl Iterator<Item = (usize, i64)> {
        let mut at = 0;
        (self.from..self.to).filter_map(move |position| {
            at += self.limits[position - self.from].frames;
            let pieces = self.cut.pieces();
            let joined = !runs_on(&pieces[position - 1], &pieces[position]);
            joined.then_some((position, at))
        })
    }
}

fn runs_on(before: &Piece, behind: &Piece) -> bool {
    let both = before.span().zip(behind.span());
    both.is_some_and(|(before, behind)| {
        before.roll == behind.roll && before.range.end() == behind.range.begin()
    })
}

/// What sets an end to a piece.
struct Ends<'a> {
    cut: &'a TrialCut,
    rules: &'a CheckRules,
    takes: &'a [TakeRecord],
}

impl Ends<'_> {
    /// The join behind a piece; the one at the head leader for none.
    fn join_after(&self, nth: Option<usize>) -> JoinKind {
        let join = nth.and_then(|nth| self.cut.pieces()[nth].join);
        join.unwrap_or(self.cut.usual_join())
    }

    /// Frames that the joins of a piece eat before its first and behind its last.
    fn eaten(&self, nth: usize) -> (i64, i64) {
        let bite = |join| self.rules.table.row(join).bite;
        let before = bite(self.join_after(nth.checked_sub(1))).in_head;
        let behind = bite(self.join_after(Some(nth))).out_tail;
        (before.into(), behind.into())
    }

    fn limits(&self, nth: usize) -> SequencePiece {
        let piece = &self.cut.pieces()[nth];
        let frames = i64::from(piece.frames().count());
        let shortest = |join| i64::from(self.rules.table.row(join).shortest);
        let joins = [nth.checked_sub(1), Some(nth)].map(|nth| shortest(self.join_after(nth)));
        let (before, behind) = match &piece.kind {
            PieceKind::Shot(span) => self.unused(nth, span),
            PieceKind::Leader(_) | PieceKind::Card { .. } => (ANY, ANY),
        };
        SequencePiece {
            frames,
            // How long a title stands was chosen for those who read it.
            shortest: match piece.kind {
                PieceKind::Card { .. } => frames,
                _ => joins.into_iter().max().unwrap_or(1),
            },
            before,
            behind,
        }
    }

    /// Frames of its take before and behind a piece that nothing else is made of. An effect
    /// is made in a laboratory: it has none.
    fn unused(&self, nth: usize, span: &Span) -> (i64, i64) {
        let first = i64::from(span.range.begin().index());
        let thrown = i64::from(span.range.end().index());
        let holds = |take: &&TakeRecord| {
            take.roll == span.roll.as_str()
                && i64::from(take.first) <= first
                && thrown <= i64::from(take.thrown)
        };
        let Some(take) = self.takes.iter().find(holds) else {
            return (0, 0);
        };
        let eaten = self.eaten(nth);
        let mut from = i64::from(take.first) + eaten.0;
        let mut to = i64::from(take.thrown) - eaten.1;
        for (other, piece) in self.cut.pieces().iter().enumerate() {
            let Some(its) = piece.span().filter(|its| its.roll == span.roll) else {
                continue;
            };
            if other == nth {
                continue;
            }
            let (begin, end) = (its.range.begin().index(), its.range.end().index());
            let (before, behind) = self.eaten(other);
            if i64::from(end) <= first {
                from = from.max(i64::from(end) + behind + eaten.0);
            } else if i64::from(begin) >= thrown {
                to = to.min(i64::from(begin) - before - eaten.1);
            } else {
                return (0, 0);
            }
        }
        ((first - from).max(0), (to - thrown).max(0))
    }
}
