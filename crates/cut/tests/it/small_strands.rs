//! Small strands whose every shift, every join and every twin can be gone
//! through, one frame at a time.

use onestrand_cut::{
    Base, Bite, Certificate, CheckRules, Conflict, ConflictKind, Effect, Fit, JoinKind, JoinRow,
    JoinTable, Piece, PieceKind, Roll, Strand, Take, TrialCut, Twin, TwinBy, Twins,
};
use onestrand_film::{FrameRange, Gauge, Span};
use proptest::prelude::*;

use crate::boat::{blank_take, plain_roll, span};

/// Something the matter: its kind, a roll and frame or a place.
pub(crate) type Fault = (ConflictKind, usize, i64);

/// A roll of a small strand.
#[derive(Debug, Clone)]
pub(crate) struct SmallRoll {
    pub(crate) frames: i64,
    pub(crate) polyester: bool,
    pub(crate) protected: bool,
    pub(crate) regular8: bool,
    /// Where one take ends and the next begins; none is logged when it is 0.
    pub(crate) stop: i64,
}

/// A piece of a small cut: its roll, or none for leader.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct SmallPiece {
    pub(crate) roll: Option<usize>,
    pub(crate) begin: i64,
    pub(crate) end: i64,
    pub(crate) effect: bool,
}

/// A small strand and a cut of it. `kinds[g]` is the join before piece g.
#[derive(Debug, Clone)]
pub(crate) struct Small {
    pub(crate) rolls: Vec<SmallRoll>,
    pub(crate) pieces: Vec<SmallPiece>,
    pub(crate) kinds: Vec<JoinKind>,
    pub(crate) table: JoinTable,
}

const NAMES: [&str; 2] = ["A", "B"];

impl Small {
    pub(crate) fn strand(&self) -> Strand {
        let rolls = self.rolls.iter().enumerate().map(|(at, roll)| {
            let gauge = if roll.regular8 {
                Gauge::Regular8
            } else {
                Gauge::Super8
            };
            let frames = u32::try_from(roll.frames).expect("small");
            Roll {
                base: if roll.polyester {
                    Base::Polyester
                } else {
                    Base::Triacetate
                },
                fit: if roll.protected {
                    Fit::ScanOnly
                } else {
                    Fit::Project
                },
                ..plain_roll(NAMES[at], frames, gauge)
            }
        });
        let takes = self.rolls.iter().enumerate().flat_map(|(at, roll)| {
            let take = move |begin: i64, end: i64| {
                let wide = |n: i64| u32::try_from(n).expect("small");
                (begin < end).then(|| blank_take(span(NAMES[at], wide(begin), wide(end))))
            };
            let both = [take(0, roll.stop), take(roll.stop, roll.frames)];
            let logged = roll.stop > 0;
            both.into_iter().flatten().filter(move |_: &Take| logged)
        });
        Strand::new(Gauge::Super8, rolls, takes)
    }

    pub(crate) fn cut(&self) -> TrialCut {
        let piece = |(at, small): (usize, &SmallPiece)| {
            let mut piece = match small.roll {
                Some(roll) => {
                    let wide = |n: i64| u32::try_from(n).expect("small");
                    Piece::shot(span(NAMES[roll], wide(small.begin), wide(small.end)))
                }
                None => Piece::leader((small.end - small.begin).to_string().parse().expect("few")),
            };
            piece.join = Some(self.kinds[at + 1]);
            piece.effect = small.effect.then_some(Effect::Fade);
            piece
        };
        let pieces = self.pieces.iter().enumerate().map(piece).collect();
        TrialCut::new(pieces, self.kinds[0])
    }

    pub(crate) fn rules(&self) -> CheckRules {
        CheckRules {
            table: self.table.clone(),
        }
    }

    /// The same strand with another cut.
    pub(crate) fn with(&self, cut: &TrialCut) -> Self {
        let number = |span: &Span| NAMES.iter().position(|n| *n == span.roll.as_str());
        let mut kinds = vec![cut.usual_join()];
        let mut pieces = Vec::new();
        for piece in cut.pieces() {
            kinds.push(piece.join.unwrap_or(cut.usual_join()));
            let (begin, end) = match piece.span() {
                Some(span) => (span.range.begin().index(), span.range.end().index()),
                None => (0, piece.frames().count()),
            };
            pieces.push(SmallPiece {
                roll: piece.span().and_then(number),
                begin: i64::from(begin),
                end: i64::from(end),
                effect: piece.effect.is_some(),
            });
        }
        Self {
            pieces,
            kinds,
            ..self.clone()
        }
    }

    fn joined(&self, gap: usize) -> bool {
        if gap == 0 || gap == self.pieces.len() {
            return true;
        }
        let (a, b) = (self.pieces[gap - 1], self.pieces[gap]);
        let continues = a.roll.is_some() && a.roll == b.roll && a.end == b.begin;
        !continues || a.effect || b.effect
    }

    /// Everything that is the matter, found by marking frames one by one.
    pub(crate) fn faults(&self) -> Vec<Fault> {
        let mut out = Vec::new();
        for (roll, facts) in self.rolls.iter().enumerate() {
            // Marks begin ten frames before the roll.
            let mut marks = vec![(0_u8, 0_u8); 60];
            let mut mark = |frame: i64, shown: u8, eaten: u8| {
                let at = usize::try_from(frame + 10).expect("near the roll");
                marks[at].0 += shown;
                marks[at].1 += eaten;
            };
            for (at, piece) in self.pieces.iter().enumerate() {
                if piece.roll != Some(roll) {
                    continue;
                }
                (piece.begin..piece.end).for_each(|f| mark(f, 1, 0));
                if self.joined(at) {
                    let head = self.table.row(self.kinds[at]).bite.in_head;
                    (1..=i64::from(head)).for_each(|k| mark(piece.begin - k, 0, 1));
                }
                if self.joined(at + 1) {
                    let tail = self.table.row(self.kinds[at + 1]).bite.out_tail;
                    (0..i64::from(tail)).for_each(|k| mark(piece.end + k, 0, 1));
                }
            }
            for (at, (shown, eaten)) in marks.into_iter().enumerate() {
                let frame = i64::try_from(at).expect("small") - 10;
                if shown >= 2 {
                    out.push((ConflictKind::Doubled, roll, frame));
                }
                if eaten >= 1 && shown + eaten >= 2 {
                    out.push((ConflictKind::Bite, roll, frame));
                }
                if shown + eaten > 0 && !(0..facts.frames).contains(&frame) {
                    out.push((ConflictKind::OutsideRoll, roll, frame));
                }
            }
        }
        self.faults_of_places(&mut out);
        out.sort_unstable();
        out
    }

    fn faults_of_places(&self, out: &mut Vec<Fault>) {
        let n = self.pieces.len();
        for gap in (0..=n).filter(|g| self.joined(*g)) {
            let roll = |at: Option<&SmallPiece>| at.and_then(|p| p.roll).map(|r| &self.rolls[r]);
            let before = roll(gap.checked_sub(1).map(|at| &self.pieces[at]));
            let after = roll(self.pieces.get(gap));
            let polyester = [before, after].iter().flatten().any(|r| r.polyester);
            if polyester && self.kinds[gap] != JoinKind::Tape {
                out.push((ConflictKind::Base, gap, 0));
            }
            let regular8 = |r: Option<&SmallRoll>| r.is_some_and(|r| r.regular8);
            if regular8(before) != regular8(after) {
                out.push((ConflictKind::Gauge, gap, 0));
            }
        }
        let mut first = 0;
        for at in 0..n {
            let piece = self.pieces[at];
            if piece.effect {
                out.push((ConflictKind::Effect, at, 0));
            }
            if let Some(roll) = piece.roll.map(|r| &self.rolls[r]) {
                if roll.protected {
                    out.push((ConflictKind::Protected, at, 0));
                }
                let stop = roll.stop;
                let in_first = piece.end <= stop;
                let in_second = piece.begin >= stop && piece.end <= roll.frames;
                if stop > 0 && !in_first && !in_second {
                    out.push((ConflictKind::OutsideTake, at, 0));
                }
            }
            if self.joined(at + 1) {
                let frames: i64 = (first..=at)
                    .map(|p| self.pieces[p].end - self.pieces[p].begin)
                    .sum();
                let shortest = |gap: usize| self.table.row(self.kinds[gap]).shortest;
                if frames < i64::from(shortest(first).max(shortest(at + 1))) {
                    out.extend((first..=at).map(|p| (ConflictKind::Short, p, 0)));
                }
                first = at + 1;
            }
        }
    }

    /// The frames and places that one conflict is about.
    pub(crate) fn faults_of(&self, conflict: &Conflict) -> Vec<Fault> {
        let kind = conflict.kind;
        match kind {
            ConflictKind::Doubled | ConflictKind::Bite | ConflictKind::OutsideRoll => {
                let name = conflict.roll.as_ref().expect("these have a roll");
                let roll = NAMES.iter().position(|n| *n == name.as_str());
                let (begin, end) = conflict.span.expect("these have frames");
                let roll = roll.expect("one of the two");
                (begin..end).map(|f| (kind, roll, f)).collect()
            }
            ConflictKind::Base | ConflictKind::Gauge => {
                let n = self.pieces.len();
                let gaps = match conflict.positions.as_slice() {
                    [before, _] => vec![*before],
                    [1] if n == 1 => vec![0, 1],
                    [1] => vec![0],
                    _ => vec![n],
                };
                let all = self.faults();
                let at = gaps.into_iter().map(|g| (kind, g, 0));
                at.filter(|f| all.contains(f)).collect()
            }
            _ => {
                let place = |p: &usize| (kind, p - 1, 0);
                conflict.positions.iter().map(place).collect()
            }
        }
    }
}

pub(crate) fn is_warning(fault: &Fault) -> bool {
    matches!(fault.0, ConflictKind::Short | ConflictKind::OutsideTake)
}

/// Whether after a change nothing of `gone` is left and nothing is refused that
/// was not before; and whether it is warned of something new.
pub(crate) fn judged(before: &[Fault], gone: &[Fault], after: &[Fault]) -> (bool, bool) {
    let new = |f: &&Fault| before.binary_search(f).is_err();
    let left = after.iter().any(|f| gone.contains(f));
    let refused = after.iter().filter(new).any(|f| !is_warning(f));
    let warned = after.iter().filter(new).any(is_warning);
    (!left && !refused, warned)
}

/// Every conflict is in the certificate frame by frame.
pub(crate) fn all_faults_of(small: &Small, answer: &Certificate) -> Vec<Fault> {
    let mut all: Vec<Fault> = answer
        .conflicts
        .iter()
        .flat_map(|c| small.faults_of(c))
        .collect();
    all.sort_unstable();
    all.dedup();
    all
}

/// Twins by a fixed distance on the other roll: made up, as a user's may be.
#[derive(Debug)]
pub(crate) struct FarTwins(pub(crate) i64);

impl Twins for FarTwins {
    fn twins_of(&self, of: &Span) -> Vec<Twin> {
        let other = if of.roll.as_str() == "A" { "B" } else { "A" };
        let at = |n: u32| u32::try_from((i64::from(n) + self.0).max(0)).expect("small");
        let range = FrameRange::of(at(of.range.begin().index()), at(of.range.end().index()));
        range
            .ok()
            .map(|range| Twin {
                span: Span::new(other.parse().expect("a roll"), range),
                slate: None,
                by: TwinBy::Map,
            })
            .into_iter()
            .collect()
    }
}

fn any_kind() -> impl Strategy<Value = JoinKind> {
    prop::sample::select(JoinKind::ALL.to_vec())
}

fn any_roll() -> impl Strategy<Value = SmallRoll> {
    let rare = || prop::bool::weighted(0.12);
    (4_i64..8, rare(), rare(), rare(), 0_i64..5).prop_map(|(frames, p, s, r, stop)| SmallRoll {
        frames,
        polyester: p,
        protected: s,
        regular8: r,
        stop: if stop > 2 { frames / 2 } else { 0 },
    })
}

fn any_table() -> impl Strategy<Value = JoinTable> {
    prop::array::uniform3((0_u8..3, 0_u8..3, 1_u32..5)).prop_map(|rows| {
        let row = |table: JoinTable, (kind, (tail, head, shortest))| {
            let row = JoinRow {
                bite: Bite::new(tail, head),
                shortest,
                ..*table.row(kind)
            };
            table.with(row)
        };
        let all = JoinKind::ALL.into_iter().zip(rows);
        all.fold(JoinTable::usual(Gauge::Super8), row)
    })
}

/// Up to so many pieces, often close together and often continuing each other.
pub(crate) fn any_small(pieces: usize) -> impl Strategy<Value = Small> {
    let rolls = prop::array::uniform2(any_roll());
    let piece = (0_usize..8, 0_i64..6, 1_i64..4, 0_u8..4, 0_u8..20);
    let drawn = prop::collection::vec(piece, 1..=pieces);
    let kinds = prop::collection::vec(any_kind(), pieces + 1);
    (rolls, drawn, kinds, any_table()).prop_map(|(rolls, drawn, kinds, table)| {
        let mut pieces: Vec<SmallPiece> = Vec::new();
        for (which, begin, len, follow, effect) in drawn {
            let mut piece = SmallPiece {
                roll: (which < 7).then_some(which % 2),
                begin,
                end: begin + len,
                effect: effect == 0,
            };
            if piece.roll.is_none() {
                (piece.begin, piece.end) = (0, len);
            }
            match pieces.last() {
                Some(last) if follow == 0 && last.roll.is_some() && piece.roll.is_some() => {
                    piece.roll = last.roll;
                    piece.begin = last.end;
                    piece.end = last.end + len;
                }
                _ => {}
            }
            pieces.push(piece);
        }
        let kinds = kinds[..=pieces.len()].to_vec();
        Small {
            rolls: rolls.to_vec(),
            pieces,
            kinds,
            table,
        }
    })
}

/// Whether a change only moves ends, and then what it costs.
pub(crate) fn shift_cost(before: &Small, after: &Small) -> Option<(usize, i64)> {
    let (mut gaps, mut frames) = (std::collections::BTreeSet::new(), 0);
    for (at, (was, now)) in before.pieces.iter().zip(&after.pieces).enumerate() {
        if was.roll != now.roll || was.effect != now.effect {
            return None;
        }
        for (gap, by) in [(at, now.begin - was.begin), (at + 1, now.end - was.end)] {
            if by != 0 {
                gaps.insert(gap);
                frames += by.abs();
            }
        }
    }
    (before.kinds == after.kinds).then_some((gaps.len(), frames))
}

/// Goes through every shift that costs less than `limit`; true once one passes.
pub(crate) fn any_shift_below(
    small: &Small,
    limit: (usize, i64),
    passes: &mut dyn FnMut(&Small) -> bool,
) -> bool {
    let mut trial = small.clone();
    shift_from(small, &mut trial, 0, (0, 0, 0), limit, passes)
}

/// `spent` is gaps, frames, and one more than the last gap counted.
fn shift_from(
    small: &Small,
    trial: &mut Small,
    at: usize,
    spent: (usize, i64, usize),
    limit: (usize, i64),
    passes: &mut dyn FnMut(&Small) -> bool,
) -> bool {
    if (spent.0, spent.1) >= limit {
        return false;
    }
    if at == small.pieces.len() {
        return passes(trial);
    }
    let was = small.pieces[at];
    let Some(roll) = was.roll else {
        return shift_from(small, trial, at + 1, spent, limit, passes);
    };
    let last = small.rolls[roll].frames.max(was.end);
    for begin in 0..last {
        for end in begin + 1..=last {
            let mut now = spent;
            for (gap, by) in [(at, begin - was.begin), (at + 1, end - was.end)] {
                if by != 0 {
                    now.1 += by.abs();
                    if now.2 != gap + 1 {
                        now = (now.0 + 1, now.1, gap + 1);
                    }
                }
            }
            trial.pieces[at] = SmallPiece { begin, end, ..was };
            if shift_from(small, trial, at + 1, now, limit, passes) {
                return true;
            }
        }
    }
    trial.pieces[at] = was;
    false
}

/// The piece kinds of two cuts, for a change that may touch nothing else.
pub(crate) fn only_notes_differ(a: &TrialCut, b: &TrialCut) -> bool {
    let plain = |cut: &TrialCut| -> Vec<(PieceKind, Option<JoinKind>, Option<Effect>)> {
        let of = |p: &Piece| (p.kind.clone(), p.join, p.effect);
        cut.pieces().iter().map(of).collect()
    };
    plain(a) == plain(b)
}
