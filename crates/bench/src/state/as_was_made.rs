//! A new version, told by what was really made of the old one.

use std::collections::BTreeMap;

use onestrand_cut::{JoinTable, PieceKind, Strip, Strips, TrialCut};
use onestrand_film::{FrameRange, RollId, Span};

use super::version::Version;
use super::{Film, Laid, Link};
use crate::Recut;

/// What lies on one side of a join, named alike in both versions.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Beside {
    Leader,
    Film(RollId, u32),
    /// Leader or a card, by its position in the new version.
    Other(usize),
}

impl Recut {
    /// The new version, its strips ending where those of the old one really do on the
    /// reel, at every join that is in both: a frame more or less that was let be there
    /// is no change. Kinds of join are those of [`Recut::as_made`].
    ///
    /// `reel` is the old version as it lies on the take-up reel.
    #[must_use]
    pub fn as_was_made(
        reel: &[Link],
        old: &TrialCut,
        new: &TrialCut,
        table: &JoinTable,
    ) -> TrialCut {
        let new = Self::as_made(old, new, table);
        let others: BTreeMap<usize, usize> = Self::others(old, &new, table).into_iter().collect();
        let (olds, news) = (Strips::of(old, table), Strips::of(&new, table));
        let ends = Ends::of(reel, &Version::of(&olds, table));
        let now = |position: usize| others.get(&position).copied().unwrap_or(position);
        let was: BTreeMap<[Beside; 2], usize> = (0..olds.joints.len())
            .map(|joint| (sides(&olds, joint, now), joint))
            .collect();
        let mut pieces = new.pieces().to_vec();
        for joint in 0..news.joints.len() {
            let Some(old) = was.get(&sides(&news, joint, |p| p)) else {
                continue;
            };
            if let Some((of, end)) = before(&news, joint).zip(ends.tail(old.checked_sub(1))) {
                move_end(&mut pieces[of.positions.1].kind, true, end);
            }
            if let Some((of, begin)) = news.strips.get(joint).zip(ends.head(Some(*old))) {
                move_end(&mut pieces[of.positions.0].kind, false, begin);
            }
        }
        TrialCut::new(pieces, new.usual_join())
    }
}

fn before(strips: &Strips, joint: usize) -> Option<&Strip> {
    joint.checked_sub(1).and_then(|i| strips.strips.get(i))
}

fn sides(strips: &Strips, joint: usize, now: impl Fn(usize) -> usize) -> [Beside; 2] {
    let beside = |strip: Option<&Strip>, tail: bool| match strip {
        None => Beside::Leader,
        Some(strip) => match &strip.span {
            Some(Span { roll, range }) => {
                let at = if tail { range.end() } else { range.begin() };
                Beside::Film(roll.clone(), at.index())
            }
            None => Beside::Other(now(strip.positions.0 + 1)),
        },
    };
    [
        beside(before(strips, joint), true),
        beside(strips.strips.get(joint), false),
    ]
}

/// Where the strips of a version begin and end on the reel.
struct Ends(BTreeMap<usize, (u32, u32)>);

impl Ends {
    fn of(reel: &[Link], version: &Version<'_>) -> Self {
        let mut ends: BTreeMap<usize, (u32, u32)> = BTreeMap::new();
        for link in reel.iter().filter(|l| l.laid == Laid::Right) {
            let (Film::Roll { begin, end, .. }, Some(strip)) =
                (&link.film, version.strip_of(&link.film))
            else {
                continue;
            };
            ends.entry(strip)
                .and_modify(|of| of.1 = *end)
                .or_insert((*begin, *end));
        }
        Self(ends)
    }

    fn head(&self, strip: Option<usize>) -> Option<u32> {
        Some(self.0.get(&strip?)?.0)
    }

    fn tail(&self, strip: Option<usize>) -> Option<u32> {
        Some(self.0.get(&strip?)?.1)
    }
}

/// Lets a piece end elsewhere, unless nothing of it would be left.
fn move_end(piece: &mut PieceKind, tail: bool, to: u32) {
    let PieceKind::Shot(span) = piece else {
        return;
    };
    let (begin, end) = (span.range.begin().index(), span.range.end().index());
    let range = match tail {
        true => FrameRange::of(begin, to),
        false => FrameRange::of(to, end),
    };
    if let Ok(range) = range {
        span.range = range;
    }
}
