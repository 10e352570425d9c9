//! The cost of a new version against a bench of lists of frames: joins are
//! opened, film is cut and joined, and what is then on the reel is counted.

use std::collections::BTreeSet;

use onestrand_bench::Recut;
use onestrand_cut::{
    CheckRules, JoinKind, JoinTable, Piece, PieceKind, Strand, Strips, TrialCut, check,
};
use onestrand_film::{FrameRange, Gauge, Span};
use proptest::prelude::*;

use crate::boat::{plain_roll, roll};

const NAMES: [&str; 2] = ["A", "B"];
const LENGTH: u32 = 150;

type Name = (String, u32);

/// A length of film as it lies now.
type Length = Vec<Name>;

/// What happened at the bench.
#[derive(Debug, Default)]
struct Done {
    opened: usize,
    made: usize,
    kept: usize,
    leader_opened: usize,
    leader_made: usize,
    put_back: usize,
    on_reel: BTreeSet<Name>,
    lost_outs: usize,
}

/// Last frame before a join and first behind it; none is leader.
type Pair = (Option<Name>, Option<Name>);

fn pairs(strips: &Strips) -> Vec<Pair> {
    let spans: Vec<&Span> = strips
        .strips
        .iter()
        .filter_map(|s| s.span.as_ref())
        .collect();
    let head = |s: &&Span| (s.roll.to_string(), s.range.begin().index());
    let tail = |s: &&Span| (s.roll.to_string(), s.range.last().index());
    let mut pairs = Vec::new();
    for at in 0..=spans.len() {
        let before = at.checked_sub(1).and_then(|i| spans.get(i)).map(tail);
        pairs.push((before, spans.get(at).map(head)));
    }
    pairs
}

fn frames_of(span: &Span) -> Length {
    let range = span.range.begin().index()..span.range.end().index();
    range.map(|f| (span.roll.to_string(), f)).collect()
}

/// Cuts the old version out of the rolls: every strip with what its joins ate,
/// and what is left of the rolls.
fn cut_out(strips: &Strips) -> (Vec<Length>, Vec<Length>) {
    let mut reel = Vec::new();
    let mut taken: BTreeSet<Name> = BTreeSet::new();
    for (i, strip) in strips.strips.iter().enumerate() {
        let span = strip.span.as_ref().expect("film off a roll");
        let (begin, end) = strips.extent(i).expect("film off a roll");
        let frames: Length = (begin..end)
            .map(|f| {
                (
                    span.roll.to_string(),
                    u32::try_from(f).expect("on its roll"),
                )
            })
            .collect();
        taken.extend(frames.iter().cloned());
        reel.push(frames);
    }
    let mut rest = Vec::new();
    for name in NAMES {
        let mut length = Length::new();
        for f in 0..LENGTH {
            let frame = (name.to_owned(), f);
            match taken.contains(&frame) {
                true => rest.push(std::mem::take(&mut length)),
                false => length.push(frame),
            }
        }
        rest.push(length);
    }
    rest.retain(|l| !l.is_empty());
    (reel, rest)
}

fn recut(old: &TrialCut, new: &TrialCut, table: &JoinTable) -> Done {
    let (was, is) = (Strips::of(old, table), Strips::of(new, table));
    let (mut reel, rest) = cut_out(&was);
    let (old_pairs, new_pairs) = (pairs(&was), pairs(&is));
    let wanted: Vec<Length> = is
        .strips
        .iter()
        .map(|s| frames_of(s.span.as_ref().expect("film off a roll")))
        .collect();
    let all: BTreeSet<&Name> = wanted.iter().flatten().collect();
    let mut done = Done::default();

    // Open what the new version has not.
    for (at, pair) in old_pairs.iter().enumerate() {
        let leader = pair.0.is_none() || pair.1.is_none();
        if new_pairs.contains(pair) {
            done.kept += usize::from(!leader);
            continue;
        }
        match leader {
            true => done.leader_opened += 1,
            false => done.opened += 1,
        }
        let row = table.row(was.joints[at].kind);
        let mut spoil = |strip: usize, from_tail: bool, eaten: u8, more: u8| {
            let span = was.strips[strip].span.as_ref().expect("film off a roll");
            let lifted = !frames_of(span).iter().any(|f| all.contains(f));
            let length = &mut reel[strip];
            for nth in 0..eaten + more {
                let frame = match from_tail {
                    true => length.pop(),
                    false if length.is_empty() => None,
                    false => Some(length.remove(0)),
                };
                let shown = frame.is_some() && nth >= eaten;
                done.lost_outs += usize::from(lifted && shown);
            }
        };
        if let Some(strip) = at.checked_sub(1) {
            spoil(strip, true, row.bite.out_tail, row.opened.out_tail);
        }
        if at < was.strips.len() {
            spoil(at, false, row.bite.in_head, row.opened.in_head);
        }
    }

    // Join back inside, then join the strips.
    let film: Vec<Length> = reel.into_iter().chain(rest).collect();
    let usual = table.row(new.usual_join()).bite;
    let mut strips: Vec<Length> = Vec::new();
    for frames in &wanted {
        let mut parts: Vec<Length> = Vec::new();
        for frame in frames {
            let Some(of) = film.iter().position(|l| l.contains(frame)) else {
                continue;
            };
            match parts.last_mut() {
                Some(part) if film[of].contains(&part[0]) => part.push(frame.clone()),
                _ => parts.push(vec![frame.clone()]),
            }
        }
        let mut strip = Length::new();
        for mut part in parts {
            if !strip.is_empty() {
                let (tail, head) = (usize::from(usual.out_tail), usize::from(usual.in_head));
                // A part of which the join would leave nothing is not joined back.
                if part.len() <= head {
                    continue;
                }
                match strip.len() <= tail {
                    true => strip.clear(),
                    false => {
                        done.put_back += 1;
                        strip.truncate(strip.len() - tail);
                        part.drain(..head);
                    }
                }
            }
            strip.extend(part);
        }
        strips.push(strip);
    }
    for (at, pair) in new_pairs.iter().enumerate() {
        if old_pairs.contains(pair) {
            continue;
        }
        match pair.0.is_none() || pair.1.is_none() {
            true => done.leader_made += 1,
            false => done.made += 1,
        }
        let bite = is.joints[at].bite;
        if let Some(strip) = at.checked_sub(1) {
            // What is eaten up to its end gives only of its own.
            let whole = strips[strip].last() == wanted[strip].last();
            for nth in 0..bite.out_tail {
                let end = wanted[strip].last().expect("a frame");
                let behind = (end.0.clone(), end.1 + 1 + u32::from(nth));
                let before = (end.0.clone(), end.1 + u32::from(nth));
                let gives = film
                    .iter()
                    .any(|l| l.contains(&behind) && l.contains(&before));
                if !(whole && gives) {
                    strips[strip].pop();
                }
            }
        }
        if at < wanted.len() {
            let whole = strips[at].first() == wanted[at].first();
            for nth in 0..bite.in_head {
                let first = &wanted[at][0];
                let before = first.1.checked_sub(1 + u32::from(nth));
                let gives = before.is_some_and(|before| {
                    let (before, behind) =
                        ((first.0.clone(), before), (first.0.clone(), before + 1));
                    film.iter()
                        .any(|l| l.contains(&before) && l.contains(&behind))
                });
                if !(whole && gives) {
                    let first = strips[at].len().min(1);
                    strips[at].drain(..first);
                }
            }
        }
    }
    done.on_reel = strips.into_iter().flatten().collect();
    done
}

fn strand(gauge: Gauge) -> Strand {
    Strand::new(gauge, NAMES.map(|n| plain_roll(n, LENGTH, gauge)), [])
}

fn piece(which: usize, begin: u32, len: u32) -> Piece {
    let end = (begin + len).min(LENGTH);
    let range = FrameRange::of(begin.min(LENGTH - 1), end.max(begin.min(LENGTH - 1) + 1));
    Piece::shot(Span::new(roll(NAMES[which]), range.expect("not empty")))
}

/// A version of some pieces that may be cut.
fn laid(
    drawn: Vec<(usize, u32, u32)>,
    kind: JoinKind,
    strand: &Strand,
    rules: &CheckRules,
) -> TrialCut {
    let mut cut = TrialCut::new(vec![], kind);
    for (which, begin, len) in drawn {
        let mut pieces = cut.pieces().to_vec();
        pieces.push(piece(which, begin, len));
        let longer = TrialCut::new(pieces, kind);
        // Strips so short that their joins touch are no film to reckon with.
        if check(&longer, strand, rules).conflicts.is_empty() {
            cut = longer;
        }
    }
    cut
}

/// One change of a version: lift, move, trim, lay in.
fn changed(cut: &TrialCut, (what, at, to, by): (u8, usize, usize, i8)) -> TrialCut {
    let mut pieces = cut.pieces().to_vec();
    let count = pieces.len();
    if count == 0 || (what == 0 && count == 1) {
        return cut.clone();
    }
    let (at, to) = (at % count, to % count);
    match what {
        0 => {
            pieces.remove(at);
        }
        1 => {
            let moved = pieces.remove(at);
            pieces.insert(to.min(pieces.len()), moved);
        }
        2 => pieces.insert(to, piece(at % 2, u32::from(by.unsigned_abs()) % 128, 9)),
        _ => {
            let span = pieces[at].span().expect("film off a roll").clone();
            let moved = |n: u32| (i64::from(n) + i64::from(by % 5)).clamp(0, i64::from(LENGTH));
            let (mut begin, mut end) = (span.range.begin().index(), span.range.end().index());
            match what {
                3 => begin = u32::try_from(moved(begin)).expect("on the roll"),
                _ => end = u32::try_from(moved(end)).expect("on the roll"),
            }
            if let Ok(range) = FrameRange::of(begin, end) {
                pieces[at].kind = PieceKind::Shot(Span::new(span.roll, range));
            }
        }
    }
    TrialCut::new(pieces, cut.usual_join())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, ..ProptestConfig::default() })]

    #[test]
    fn what_is_told_is_what_the_bench_finds(
        drawn in prop::collection::vec((0_usize..2, 0_u32..141, 8_u32..16), 1..14),
        steps in prop::collection::vec((0_u8..5, 0_usize..8, 0_usize..8, any::<i8>()), 0..5),
        kind in prop::sample::select(JoinKind::ALL.to_vec()),
        gauge in prop::sample::select(vec![Gauge::Super8, Gauge::Sixteen]),
    ) {
        let strand = strand(gauge);
        let table = JoinTable::usual(gauge);
        let rules = CheckRules { table: table.clone() };
        let old = laid(drawn, kind, &strand, &rules);
        let mut new = old.clone();
        for step in steps {
            let next = changed(&new, step);
            if check(&next, &strand, &rules).conflicts.is_empty() {
                new = next;
            }
        }
        prop_assume!(!old.pieces().is_empty() && !new.pieces().is_empty());
        let told = Recut::price(&old, &new, &strand, &table);
        let done = recut(&old, &new, &table);
        prop_assert_eq!(
            (told.opened, told.made, told.kept, told.leader_opened, told.leader_made),
            (done.opened, done.made, done.kept, done.leader_opened, done.leader_made)
        );
        prop_assert_eq!(told.put_back, done.put_back);
        prop_assert_eq!(told.real.count() as usize, done.on_reel.len());
        prop_assert_eq!(told.lost_outs, done.lost_outs);
        // Each change made alone at the bench costs what it is said to.
        let each = Recut::each_alone(&old, &new, &table);
        prop_assert_eq!(each.len(), told.prices.len());
        for (price, alone) in told.prices.iter().zip(&each) {
            let alone = alone.as_ref().expect("one film");
            let done = recut(&old, alone, &table);
            prop_assert_eq!(
                (price.opened, price.made, price.leader_opened, price.leader_made),
                (done.opened, done.made, done.leader_opened, done.leader_made)
            );
            prop_assert_eq!((price.put_back, price.lost_outs), (done.put_back, done.lost_outs));
            prop_assert_eq!(price.lost, alone.frames().count() as usize - done.on_reel.len());
        }
        // Each change by itself, and all of them together.
        let sum = |of: fn(&onestrand_bench::Price) -> usize| told.prices.iter().map(of).sum::<usize>();
        prop_assert_eq!(sum(|p| p.opened), told.opened);
        prop_assert_eq!(sum(|p| p.made), told.made);
        prop_assert_eq!(sum(|p| p.lost), told.lost);
        prop_assert_eq!(sum(|p| p.lost_outs), told.lost_outs);
    }
}
