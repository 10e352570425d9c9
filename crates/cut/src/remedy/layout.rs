//! A cut laid out on its rolls, so that one change can be looked at without
//! checking the whole cut again.

use onestrand_film::{Gauge, RollId};

use super::faults::Faults;
use crate::{
    Base, CheckRules, Conflict, ConflictKind, Fit, JoinKind, JoinTable, Piece, Strand, TrialCut,
};

/// What of a roll the check asks for.
#[derive(Debug)]
pub(super) struct RollFacts {
    pub(super) id: RollId,
    pub(super) frames: i64,
    pub(super) gauge: Gauge,
    pub(super) polyester: bool,
    pub(super) protected: bool,
    pub(super) takes: Vec<(i64, i64)>,
}

/// Where a piece lies: a roll and its frames, or only a length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Spot {
    pub(super) roll: Option<usize>,
    pub(super) begin: i64,
    pub(super) end: i64,
    pub(super) effect: bool,
}

/// Which part of what a piece takes from its roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    Shown,
    Head,
    Tail,
}

/// Frames that a piece wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Claim {
    pub(super) begin: i64,
    pub(super) end: i64,
    pub(super) piece: usize,
    pub(super) part: Part,
}

/// The cut on its rolls. Gap `g` lies before piece `g`, the last one behind the
/// last piece; pieces are counted from 0 here.
#[derive(Debug)]
pub(super) struct Layout {
    pub(super) rolls: Vec<RollFacts>,
    pub(super) spots: Vec<Spot>,
    pub(super) kinds: Vec<JoinKind>,
    pub(super) table: JoinTable,
    pub(super) gauge: Gauge,
    claims: Vec<Vec<Claim>>,
    /// The furthest end among the claims of a roll up to each of them.
    reach: Vec<Vec<i64>>,
}

impl Layout {
    pub(super) fn of(cut: &TrialCut, strand: &Strand, rules: &CheckRules) -> Self {
        let rolls = roll_facts(cut, strand);
        let spots: Vec<Spot> = cut.pieces().iter().map(|p| spot(p, &rolls)).collect();
        let mut kinds = vec![cut.usual_join()];
        let after = |p: &Piece| p.join.unwrap_or(cut.usual_join());
        kinds.extend(cut.pieces().iter().map(after));
        let mut layout = Self {
            claims: rolls.iter().map(|_| Vec::new()).collect(),
            reach: Vec::new(),
            rolls,
            spots,
            kinds,
            table: rules.table.clone(),
            gauge: strand.gauge(),
        };
        layout.index();
        layout
    }

    fn index(&mut self) {
        let mut claims: Vec<Vec<Claim>> = self.rolls.iter().map(|_| Vec::new()).collect();
        let trial = Trial::default();
        let seen = Seen {
            layout: self,
            trial: &trial,
        };
        for (piece, spot) in self.spots.iter().enumerate() {
            if let Some(roll) = spot.roll {
                claims[roll].extend(seen.claims_of(piece));
            }
        }
        for list in &mut claims {
            list.sort_unstable_by_key(|c| (c.begin, c.end));
        }
        let furthest = |list: &Vec<Claim>| {
            list.iter()
                .scan(i64::MIN, |so_far, claim| {
                    *so_far = claim.end.max(*so_far);
                    Some(*so_far)
                })
                .collect()
        };
        self.reach = claims.iter().map(furthest).collect();
        self.claims = claims;
    }

    /// The number of a roll that a piece of the cut or the strand names.
    pub(super) fn roll(&self, id: &RollId) -> Option<usize> {
        self.rolls.iter().position(|r| r.id == *id)
    }

    pub(super) fn spot_of(&self, piece: &Piece) -> Spot {
        spot(piece, &self.rolls)
    }

    /// Claims of the cut as it is that touch a run of a roll.
    pub(super) fn touching(&self, roll: usize, run: (i64, i64)) -> impl Iterator<Item = &Claim> {
        let (claims, reach) = (&self.claims[roll], &self.reach[roll]);
        let behind = claims.partition_point(|c| c.begin < run.1);
        (0..behind)
            .rev()
            .take_while(move |at| reach[*at] > run.0)
            .map(move |at| &claims[at])
            .filter(move |c| c.end > run.0)
    }

    /// The conflicts as single frames and places.
    pub(super) fn faults<'a>(&self, conflicts: impl Iterator<Item = &'a Conflict>) -> Faults {
        let mut faults = Faults::none(self.rolls.len(), self.spots.len());
        let mut runs: std::collections::BTreeMap<(ConflictKind, usize), Vec<(i64, i64)>> =
            std::collections::BTreeMap::new();
        for conflict in conflicts {
            match conflict.kind {
                ConflictKind::Doubled | ConflictKind::Bite | ConflictKind::OutsideRoll => {
                    let roll = conflict.roll.as_ref().and_then(|id| self.roll(id));
                    if let Some((roll, span)) = roll.zip(conflict.span) {
                        runs.entry((conflict.kind, roll)).or_default().push(span);
                    }
                }
                ConflictKind::Base | ConflictKind::Gauge => {
                    let seen = Seen {
                        layout: self,
                        trial: &Trial::default(),
                    };
                    for gap in self.gaps(&conflict.positions) {
                        if seen.refused_at(conflict.kind, gap) {
                            faults.put_place(conflict.kind, gap);
                        }
                    }
                }
                _ => {
                    for position in &conflict.positions {
                        faults.put_place(conflict.kind, position - 1);
                    }
                }
            }
        }
        for ((kind, roll), runs) in runs {
            faults.put_frames(kind, roll, runs);
        }
        faults
    }

    /// The gap of a join that is named by the positions on both its sides; of
    /// a single piece both its joins are named alike, and either may be meant.
    fn gaps(&self, positions: &[usize]) -> Vec<usize> {
        let last = self.spots.len();
        match positions {
            [_, after, ..] => vec![after - 1],
            [1] if last == 1 => vec![0, 1],
            [1] => vec![0],
            _ => vec![last],
        }
    }
}

fn roll_facts(cut: &TrialCut, strand: &Strand) -> Vec<RollFacts> {
    let mut facts: Vec<RollFacts> = strand
        .rolls()
        .map(|roll| RollFacts {
            id: roll.id.clone(),
            frames: i64::from(roll.frames.count()),
            gauge: roll.gauge,
            polyester: roll.base == Base::Polyester,
            protected: roll.fit != Fit::Project,
            takes: takes_of(strand, &roll.id),
        })
        .collect();
    // A piece may name a roll that nobody has brought in.
    for span in cut.pieces().iter().filter_map(Piece::span) {
        if facts.iter().all(|f| f.id != span.roll) {
            facts.push(RollFacts {
                id: span.roll.clone(),
                frames: 0,
                gauge: strand.gauge(),
                polyester: false,
                protected: false,
                takes: takes_of(strand, &span.roll),
            });
        }
    }
    facts
}

fn takes_of(strand: &Strand, roll: &RollId) -> Vec<(i64, i64)> {
    let ends = |t: &crate::Take| {
        let range = t.span.range;
        (
            i64::from(range.begin().index()),
            i64::from(range.end().index()),
        )
    };
    strand.takes_of(roll).iter().map(ends).collect()
}

fn spot(piece: &Piece, rolls: &[RollFacts]) -> Spot {
    let effect = piece.effect.is_some();
    match piece.span() {
        Some(span) => Spot {
            roll: rolls.iter().position(|r| r.id == span.roll),
            begin: i64::from(span.range.begin().index()),
            end: i64::from(span.range.end().index()),
            effect,
        },
        None => Spot {
            roll: None,
            begin: 0,
            end: i64::from(piece.frames().count()),
            effect,
        },
    }
}

/// A change under trial: pieces that lie elsewhere, joins made otherwise.
#[derive(Debug, Clone, Default)]
pub(super) struct Trial {
    pub(super) spots: Vec<(usize, Spot)>,
    pub(super) kinds: Vec<(usize, JoinKind)>,
}

/// The cut as it would be after a trial change.
#[derive(Clone, Copy)]
pub(super) struct Seen<'a> {
    pub(super) layout: &'a Layout,
    pub(super) trial: &'a Trial,
}

impl Seen<'_> {
    pub(super) fn pieces(&self) -> usize {
        self.layout.spots.len()
    }

    pub(super) fn spot(&self, piece: usize) -> Spot {
        let tried = self.trial.spots.iter().find(|s| s.0 == piece);
        tried.map_or(self.layout.spots[piece], |s| s.1)
    }

    pub(super) fn kind(&self, gap: usize) -> JoinKind {
        let tried = self.trial.kinds.iter().find(|k| k.0 == gap);
        tried.map_or(self.layout.kinds[gap], |k| k.1)
    }

    /// Whether there is a join at a gap: not where two pieces continue each
    /// other on the film.
    pub(super) fn joint_at(&self, gap: usize) -> bool {
        if gap == 0 || gap >= self.pieces() {
            return true;
        }
        let (before, after) = (self.spot(gap - 1), self.spot(gap));
        before.roll.is_none()
            || before.roll != after.roll
            || before.end != after.begin
            || before.effect
            || after.effect
    }

    /// The frames that a piece wants of its roll.
    pub(super) fn claims_of(&self, piece: usize) -> impl Iterator<Item = Claim> {
        let spot = self.spot(piece);
        let bite = |gap: usize| self.layout.table.row(self.kind(gap)).bite;
        let (mut head, mut tail) = (0, 0);
        if self.joint_at(piece) {
            head = i64::from(bite(piece).in_head);
        }
        if self.joint_at(piece + 1) {
            tail = i64::from(bite(piece + 1).out_tail);
        }
        let claim = move |begin, end, part| Claim {
            begin,
            end,
            piece,
            part,
        };
        let wants = spot.roll.is_some();
        [
            claim(spot.begin - head, spot.begin, Part::Head),
            claim(spot.begin, spot.end, Part::Shown),
            claim(spot.end, spot.end + tail, Part::Tail),
        ]
        .into_iter()
        .filter(move |c| wants && c.begin < c.end)
    }

    /// First and last piece of the strip that a piece belongs to.
    pub(super) fn strip_of(&self, piece: usize) -> (usize, usize) {
        let (mut first, mut last) = (piece, piece);
        while !self.joint_at(first) {
            first -= 1;
        }
        while !self.joint_at(last + 1) {
            last += 1;
        }
        (first, last)
    }
}
