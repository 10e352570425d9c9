//! The strand check: can this cut be made from the one strand?

use onestrand_film::{Frames, RollId};

use crate::claims::{Stretch, Want, claims, stretches};
use crate::{
    Base, Conflict, ConflictKind, Fit, JoinKind, JoinTable, Joint, Severity, Strand, Strips,
    TrialCut,
};

/// By which table and habits a cut is checked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CheckRules {
    /// What joins eat.
    pub table: JoinTable,
}

/// What becomes of one roll.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RollCount {
    /// The roll.
    pub roll: RollId,
    /// Frames on it: the sum of the next three.
    pub frames: Frames,
    /// Frames a piece shows.
    pub used: Frames,
    /// Frames no piece shows and a join takes.
    pub eaten: Frames,
    /// Frames left over.
    pub left: Frames,
    /// Whether its scan is proved complete.
    pub proved: bool,
}

/// The answer of the strand check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Certificate {
    /// Length of the cut.
    pub frames: Frames,
    /// Strips after merging.
    pub pieces: usize,
    /// Joins, with head and tail leader.
    pub joins: usize,
    /// Every roll of the strand with its sum.
    pub rolls: Vec<RollCount>,
    /// What stands in the way, by position.
    pub conflicts: Vec<Conflict>,
}

impl Certificate {
    /// Whether the cut can be made: nothing is refused.
    #[must_use]
    pub fn is_ok(&self) -> bool {
        self.refused().next().is_none()
    }

    /// The conflicts that stop the cut.
    pub fn refused(&self) -> impl Iterator<Item = &Conflict> {
        self.conflicts
            .iter()
            .filter(|c| c.severity() == Severity::Refused)
    }

    /// Frames that joins take, over all rolls.
    #[must_use]
    pub fn eaten(&self) -> Frames {
        Frames::total(self.rolls.iter().map(|r| r.eaten))
    }
}

/// Checks a cut against the strand.
///
/// Time: O(n log n) in the pieces.
#[must_use]
pub fn check(cut: &TrialCut, strand: &Strand, rules: &CheckRules) -> Certificate {
    let strips = Strips::of(cut, &rules.table);
    let mut conflicts = Vec::new();
    let bench = Bench {
        cut,
        strips: &strips,
    };
    let rolls = count_rolls(&bench, strand, &mut conflicts);
    check_joints(&strips, cut, strand, &mut conflicts);
    check_strips(&strips, cut, strand, &rules.table, &mut conflicts);
    conflicts.sort();
    conflicts.sort_by(|a, b| a.positions.cmp(&b.positions));
    Certificate {
        frames: cut.frames(),
        pieces: strips.strips.len(),
        joins: strips.joints.len(),
        rolls,
        conflicts,
    }
}

fn count_rolls(bench: &Bench<'_>, strand: &Strand, found: &mut Vec<Conflict>) -> Vec<RollCount> {
    let claimed = claims(bench.strips);
    for (roll, list) in &claimed {
        let frames = strand.roll(roll).map_or(Frames::ZERO, |r| r.frames);
        let stretches = stretches(list);
        wanted_twice(roll, &stretches, bench, found);
        outside_roll(roll, frames, &stretches, bench, found);
    }
    strand
        .rolls()
        .map(|roll| {
            let stretches = claimed
                .get(&roll.id)
                .map(|c| stretches(c))
                .unwrap_or_default();
            count_roll(roll, &stretches)
        })
        .collect()
}

fn count_roll(roll: &crate::Roll, stretches: &[Stretch]) -> RollCount {
    let bound = i64::from(roll.frames.count());
    let (mut used, mut eaten) = (0_i64, 0_i64);
    for stretch in stretches {
        let inside = stretch.end.min(bound) - stretch.begin.max(0);
        if inside > 0 {
            if stretch.wants.iter().any(|w| w.shows()) {
                used += inside;
            } else {
                eaten += inside;
            }
        }
    }
    let count = |n: i64| Frames::new(u32::try_from(n).unwrap_or(0)).unwrap_or(Frames::MAX);
    RollCount {
        roll: roll.id.clone(),
        frames: roll.frames,
        used: count(used),
        eaten: count(eaten),
        left: count(bound - used - eaten),
        proved: roll.proved,
    }
}

/// The cut as it is looked at: pieces, and the strips they make.
struct Bench<'a> {
    cut: &'a TrialCut,
    strips: &'a Strips,
}

/// Positions (from 1) that a want stands for.
fn positions_of(want: Want, bench: &Bench<'_>, range: (i64, i64)) -> Vec<usize> {
    let strips = bench.strips;
    match want {
        Want::Shown(index) => pieces_showing(index, bench, range),
        Want::Tail(index) | Want::Head(index) => strips
            .joints
            .get(index)
            .map(joint_positions)
            .unwrap_or_default(),
    }
}

fn joint_positions(joint: &Joint) -> Vec<usize> {
    [joint.after, joint.before]
        .into_iter()
        .flatten()
        .map(|p| p + 1)
        .collect()
}

/// Which positions of a strip show frames of this range.
fn pieces_showing(index: usize, bench: &Bench<'_>, range: (i64, i64)) -> Vec<usize> {
    let (first, last) = bench.strips.strips[index].positions;
    let shows = |position: &usize| {
        let span = bench.cut.pieces()[*position].span().map(ends);
        span.is_some_and(|s| s.0 < range.1 && range.0 < s.1)
    };
    (first..=last).filter(shows).map(|p| p + 1).collect()
}

fn wanted_twice(
    roll: &RollId,
    stretches: &[Stretch],
    bench: &Bench<'_>,
    found: &mut Vec<Conflict>,
) {
    for stretch in stretches {
        let shows = stretch.wants.iter().filter(|w| w.shows()).count();
        let eats = stretch.wants.len() - shows;
        if shows >= 2 {
            let shown = stretch.wants.iter().copied().filter(|w| w.shows());
            push(ConflictKind::Doubled, roll, stretch, shown, bench, found);
        }
        if eats >= 1 && shows + eats >= 2 {
            let all = stretch.wants.iter().copied();
            push(ConflictKind::Bite, roll, stretch, all, bench, found);
        }
    }
}

fn push(
    kind: ConflictKind,
    roll: &RollId,
    stretch: &Stretch,
    wants: impl Iterator<Item = Want>,
    bench: &Bench<'_>,
    found: &mut Vec<Conflict>,
) {
    let range = (stretch.begin, stretch.end);
    let mut positions: Vec<usize> = wants
        .flat_map(|want| positions_of(want, bench, range))
        .collect();
    positions.sort_unstable();
    positions.dedup();
    // Neighbouring stretches of one quarrel are one conflict.
    let same = |c: &&mut Conflict| {
        c.kind == kind
            && c.roll.as_ref() == Some(roll)
            && c.positions == positions
            && c.span.is_some_and(|s| s.1 == range.0)
    };
    let frames = u32::try_from(range.1 - range.0).unwrap_or(u32::MAX);
    if let Some(before) = found.iter_mut().find(same) {
        before.span = before.span.map(|s| (s.0, range.1));
        before.frames = before.frames.saturating_add(frames);
        return;
    }
    found.push(Conflict {
        kind,
        positions,
        roll: Some(roll.clone()),
        span: Some(range),
        frames,
    });
}

fn outside_roll(
    roll: &RollId,
    frames: Frames,
    stretches: &[Stretch],
    bench: &Bench<'_>,
    found: &mut Vec<Conflict>,
) {
    let bound = i64::from(frames.count());
    for stretch in stretches {
        for (begin, end) in [
            (stretch.begin, stretch.end.min(0)),
            (stretch.begin.max(bound), stretch.end),
        ] {
            if begin < end {
                let part = Stretch {
                    begin,
                    end,
                    wants: Vec::new(),
                };
                let wants = stretch.wants.iter().copied();
                push(ConflictKind::OutsideRoll, roll, &part, wants, bench, found);
            }
        }
    }
}

fn check_joints(strips: &Strips, cut: &TrialCut, strand: &Strand, found: &mut Vec<Conflict>) {
    for joint in &strips.joints {
        let roll_at = |position: Option<usize>| {
            let span = cut.pieces().get(position?)?.span()?;
            strand.roll(&span.roll)
        };
        let sides = [roll_at(joint.after), roll_at(joint.before)];
        let polyester = sides.iter().flatten().any(|r| r.base == Base::Polyester);
        if polyester && joint.kind != JoinKind::Tape {
            found.push(at_joint(ConflictKind::Base, joint));
        }
        let gauge = |side: Option<&crate::Roll>| side.map_or(strand.gauge(), |r| r.gauge);
        if gauge(sides[0]) != gauge(sides[1]) {
            found.push(at_joint(ConflictKind::Gauge, joint));
        }
    }
}

fn at_joint(kind: ConflictKind, joint: &Joint) -> Conflict {
    Conflict {
        kind,
        positions: joint_positions(joint),
        roll: None,
        span: None,
        frames: 0,
    }
}

fn check_strips(
    strips: &Strips,
    cut: &TrialCut,
    strand: &Strand,
    table: &JoinTable,
    found: &mut Vec<Conflict>,
) {
    for (index, strip) in strips.strips.iter().enumerate() {
        let joints = [&strips.joints[index], &strips.joints[index + 1]];
        let shortest = joints.map(|j| table.row(j.kind).shortest);
        let wanted = shortest[0].max(shortest[1]);
        if strip.frames.count() < wanted {
            found.push(Conflict {
                kind: ConflictKind::Short,
                positions: (strip.positions.0 + 1..=strip.positions.1 + 1).collect(),
                roll: strip.span.as_ref().map(|s| s.roll.clone()),
                span: strip.span.as_ref().map(ends),
                frames: wanted - strip.frames.count(),
            });
        }
    }
    for (position, piece) in cut.pieces().iter().enumerate() {
        check_piece(position + 1, piece, strand, found);
    }
}

fn ends(span: &onestrand_film::Span) -> (i64, i64) {
    let range = span.range;
    (
        i64::from(range.begin().index()),
        i64::from(range.end().index()),
    )
}

fn check_piece(position: usize, piece: &crate::Piece, strand: &Strand, found: &mut Vec<Conflict>) {
    let mut say = |kind: ConflictKind| {
        found.push(Conflict {
            kind,
            positions: vec![position],
            roll: piece.span().map(|s| s.roll.clone()),
            span: piece.span().map(ends),
            frames: piece.frames().count(),
        });
    };
    if piece.effect.is_some() {
        say(ConflictKind::Effect);
    }
    let Some(span) = piece.span() else { return };
    if strand
        .roll(&span.roll)
        .is_some_and(|r| r.fit != Fit::Project)
    {
        say(ConflictKind::Protected);
    }
    let logged = !strand.takes_of(&span.roll).is_empty();
    if logged && strand.take_holding(&span.roll, span.range).is_none() {
        say(ConflictKind::OutsideTake);
    }
}
