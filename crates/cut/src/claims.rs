//! Who wants which frame of a roll.

use std::collections::BTreeMap;

use onestrand_film::RollId;

use crate::Strips;

/// One want of a run of frames, half-open, signed.
#[derive(Debug, Clone)]
pub(crate) struct Claim {
    pub(crate) begin: i64,
    pub(crate) end: i64,
    pub(crate) want: Want,
}

/// Why the frames are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Want {
    /// A strip shows them: its index among the strips.
    Shown(usize),
    /// A join eats them from the strip before it: index of the join.
    Tail(usize),
    /// A join eats them from the strip behind it: index of the join.
    Head(usize),
}

impl Want {
    pub(crate) const fn shows(self) -> bool {
        matches!(self, Self::Shown(_))
    }
}

/// A stretch of a roll in which the same wants hold.
#[derive(Debug)]
pub(crate) struct Stretch {
    pub(crate) begin: i64,
    pub(crate) end: i64,
    pub(crate) wants: Vec<Want>,
}

/// Every want, roll by roll.
pub(crate) fn claims(strips: &Strips) -> BTreeMap<RollId, Vec<Claim>> {
    let mut all: BTreeMap<RollId, Vec<Claim>> = BTreeMap::new();
    for (index, strip) in strips.strips.iter().enumerate() {
        let (Some(span), Some((from, to))) = (&strip.span, strips.extent(index)) else {
            continue;
        };
        let begin = i64::from(span.range.begin().index());
        let end = i64::from(span.range.end().index());
        let list = match all.get_mut(&span.roll) {
            Some(list) => list,
            None => all.entry(span.roll.clone()).or_default(),
        };
        let mut want = |begin: i64, end: i64, want: Want| {
            if begin < end {
                list.push(Claim { begin, end, want });
            }
        };
        want(from, begin, Want::Head(index));
        want(begin, end, Want::Shown(index));
        want(end, to, Want::Tail(index + 1));
    }
    all
}

/// The claims of one roll cut into stretches of equal wants, in order.
///
/// A sweep over the 2 n ends: O(n log n), and O(n) stretches unless many
/// claims overlap, which a cut that can be made never has.
pub(crate) fn stretches(claims: &[Claim]) -> Vec<Stretch> {
    let mut ends: Vec<(i64, bool, Want)> = Vec::with_capacity(claims.len() * 2);
    for claim in claims {
        ends.push((claim.begin, true, claim.want));
        ends.push((claim.end, false, claim.want));
    }
    ends.sort_unstable();
    let mut out: Vec<Stretch> = Vec::with_capacity(ends.len());
    let mut open: Vec<Want> = Vec::new();
    let mut at = i64::MIN;
    for (place, begins, want) in ends {
        if place > at && !open.is_empty() {
            out.push(Stretch {
                begin: at,
                end: place,
                wants: open.clone(),
            });
        }
        at = place;
        if begins {
            open.push(want);
        } else {
            open.retain(|w| *w != want);
        }
    }
    out
}
