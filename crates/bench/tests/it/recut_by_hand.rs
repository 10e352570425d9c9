//! The price of a new version against a bench on which it is made: joins have a
//! history, are opened and made one by one in any order, and the strip is read in
//! the end, frame by frame.

use std::collections::BTreeSet;

use onestrand_bench::Recut;
use onestrand_cut::{CheckRules, JoinKind, JoinTable, Piece, PieceKind, Strand, TrialCut, check};
use onestrand_film::{Frames, Gauge, Span};
use proptest::prelude::*;

use crate::boat::{plain_roll, span};
use crate::by_hand::{Bench, Draw, Found};
use crate::strip::Cell;

pub(crate) const ROLLS: [(&str, u32); 2] = [("A", 150), ("B", 150)];

pub(crate) fn strand(gauge: Gauge) -> Strand {
    Strand::new(gauge, ROLLS.map(|(n, len)| plain_roll(n, len, gauge)), [])
}

pub(crate) fn cells(spans: &[Span]) -> BTreeSet<Cell> {
    let of = |s: &Span| {
        let frames = s.range.begin().index()..s.range.end().index();
        let roll = s.roll.to_string();
        frames.map(move |f| (roll.clone(), f)).collect::<Vec<_>>()
    };
    spans.iter().flat_map(of).collect()
}

fn made(old: &TrialCut, new: &TrialCut, gauge: Gauge, seed: u64) -> Found {
    let bench = Bench::first_cut(old, &ROLLS, gauge);
    bench.recut(old, new, &mut Draw(seed | 1))
}

/// What is told of a new version and what the hand finds.
fn agree(old: &TrialCut, new: &TrialCut, gauge: Gauge, seed: u64) -> Result<(), TestCaseError> {
    let table = JoinTable::usual(gauge);
    let told = Recut::price(old, new, &strand(gauge), &table);
    let found = made(old, new, gauge, seed);
    prop_assert_eq!(
        (told.opened, told.made, told.kept, told.put_back),
        (found.opened, found.made, found.kept, found.put_back)
    );
    prop_assert_eq!(
        (told.leader_opened, told.leader_made),
        (found.leader_opened, found.leader_made)
    );
    prop_assert_eq!(cells(&told.lost_film), found.lost);
    prop_assert_eq!(cells(&told.lost_outs_film), found.lost_outs);
    prop_assert_eq!(told.real.count() as usize, found.shown.len());
    prop_assert_eq!(
        (told.lost, told.lost_outs),
        (
            cells(&told.lost_film).len(),
            cells(&told.lost_outs_film).len()
        )
    );
    // Leader and cards have no names: a version with one change alone counts those of
    // one kind anew.
    if told_by_order(old) || told_by_order(new) {
        return Ok(());
    }
    for (price, alone) in told.prices.iter().zip(Recut::each_alone(old, new, &table)) {
        let Some(alone) = alone else {
            return Err(TestCaseError::fail("every change alone is one film"));
        };
        let found = made(old, &alone, gauge, seed);
        prop_assert_eq!(
            (price.opened, price.made, price.put_back),
            (found.opened, found.made, found.put_back)
        );
        prop_assert_eq!(
            (price.leader_opened, price.leader_made),
            (found.leader_opened, found.leader_made)
        );
        prop_assert_eq!(cells(&price.lost_film), found.lost);
    }
    Ok(())
}

fn told_by_order(cut: &TrialCut) -> bool {
    let mut seen: Vec<&PieceKind> = Vec::new();
    let unnamed = cut.pieces().iter().filter(|p| p.span().is_none());
    unnamed.map(|p| &p.kind).any(|kind| {
        let twice = seen.contains(&kind);
        seen.push(kind);
        twice
    })
}

/// A piece as it is drawn: what, where, how long, its join.
pub(crate) type Drawn = (u8, u32, u32, Option<JoinKind>);

fn piece((what, begin, len, join): Drawn) -> Piece {
    let frames = Frames::new(8 + len % 5).expect("a length");
    let piece = match what {
        0..=8 => {
            let begin = begin % 130;
            let roll = ROLLS[usize::from(what % 2)].0;
            Piece::shot(span(roll, begin, (begin + len).min(150)))
        }
        9 => Piece::leader(frames),
        // A title is always as long as it is.
        _ => Piece {
            kind: PieceKind::Card {
                frames: Frames::new(9).expect("a length"),
                title: "End".to_owned(),
            },
            ..Piece::leader(frames)
        },
    };
    Piece { join, ..piece }
}

/// A version of some of the pieces, as many as can be cut.
pub(crate) fn laid(
    drawn: Vec<Drawn>,
    usual: JoinKind,
    strand: &Strand,
    rules: &CheckRules,
) -> TrialCut {
    let mut cut = TrialCut::new(vec![], usual);
    for one in drawn {
        let mut pieces = cut.pieces().to_vec();
        pieces.push(piece(one));
        let longer = TrialCut::new(pieces, usual);
        // Strips so short that their joins touch are no film to reckon with.
        if check(&longer, strand, rules).conflicts.is_empty() {
            cut = longer;
        }
    }
    cut
}

/// One change: lift, move, lay in, another begin, another end, another join.
pub(crate) type Step = (u8, usize, usize, i8, Drawn);

pub(crate) fn changed(cut: &TrialCut, (what, at, to, by, new): Step) -> TrialCut {
    let mut pieces = cut.pieces().to_vec();
    let count = pieces.len();
    let (at, to) = (at % count, to % count);
    match what {
        0 if count > 1 => drop(pieces.remove(at)),
        1 => {
            let moved = pieces.remove(at);
            pieces.insert(to.min(pieces.len()), moved);
        }
        2 => pieces.insert(to, piece(new)),
        3 => pieces[at].join = new.3,
        _ => {
            let Some(old) = pieces[at].span().cloned() else {
                return cut.clone();
            };
            let moved = |n: u32| n.saturating_add_signed(i32::from(by % 9)).min(150);
            let (begin, end) = (old.range.begin().index(), old.range.end().index());
            let (begin, end) = match what {
                4 => (moved(begin), end),
                _ => (begin, moved(end)),
            };
            if begin < end {
                pieces[at].kind = PieceKind::Shot(span(old.roll.as_str(), begin, end));
            }
        }
    }
    TrialCut::new(pieces, cut.usual_join())
}

pub(crate) fn kind() -> impl Strategy<Value = JoinKind> {
    prop::sample::select(JoinKind::ALL.to_vec())
}

pub(crate) fn drawn() -> impl Strategy<Value = Drawn> {
    (
        0_u8..11,
        0_u32..130,
        8_u32..18,
        prop::option::weighted(0.3, kind()),
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6000, ..ProptestConfig::default() })]

    #[test]
    fn what_is_told_is_what_the_hand_finds(
        pieces in prop::collection::vec(drawn(), 1..14),
        steps in prop::collection::vec((0_u8..6, 0_usize..9, 0_usize..9, any::<i8>(), drawn()), 0..6),
        (usual, mixed) in (kind(), any::<bool>()),
        gauge in prop::sample::select(vec![Gauge::Super8, Gauge::Sixteen, Gauge::Regular8]),
        seed in any::<u64>(),
    ) {
        let strand = strand(gauge);
        let table = JoinTable::usual(gauge);
        let rules = CheckRules { table: table.clone() };
        let plain = |(what, begin, len, join): Drawn| (what, begin, len, join.filter(|_| mixed));
        let old = laid(pieces.into_iter().map(plain).collect(), usual, &strand, &rules);
        prop_assume!(!old.pieces().is_empty());
        let mut new = old.clone();
        for (what, at, to, by, piece) in steps {
            let next = changed(&new, (what, at, to, by, plain(piece)));
            // The joins it shares with the old one are as they are.
            let next = Recut::as_made(&old, &next, &table);
            if check(&next, &strand, &rules).conflicts.is_empty() {
                new = next;
            }
        }
        agree(&old, &new, gauge, seed)?;
    }
}

fn film(spans: &[(&str, u32, u32)], kind: JoinKind) -> TrialCut {
    let pieces = spans.iter().map(|(r, a, b)| Piece::shot(span(r, *a, *b)));
    TrialCut::new(pieces.collect(), kind)
}

const WAS: [(&str, u32, u32); 4] = [("A", 20, 40), ("B", 20, 40), ("A", 60, 80), ("B", 60, 80)];

/// Opened, made and the frames lost, in both directions of every rule.
fn costs(is: &[(&str, u32, u32)], kind: JoinKind, gauge: Gauge) -> (usize, usize, Vec<String>) {
    let (old, new) = (film(&WAS, kind), film(is, kind));
    agree(&old, &new, gauge, 7).expect("the hand finds it");
    let found = Recut::price(&old, &new, &strand(gauge), &JoinTable::usual(gauge));
    let lost = cells(&found.lost_film);
    let lost = lost.iter().map(|(roll, frame)| format!("{roll}{frame}"));
    (found.opened, found.made, lost.collect())
}

#[test]
fn every_rule_in_both_directions() {
    use Gauge::{Sixteen, Super8};
    use JoinKind::{Cement, Tape, Weld};
    let a20 = ("A", 20, 40);
    let (b20, a60, b60) = (("B", 20, 40), ("A", 60, 80), ("B", 60, 80));
    let lifted = [a20, a60, b60];
    // Super 8, one-sided: what comes in loses its first frame when the join is
    // opened; the tail that had a join gives its last when it is made again.
    let lost = |of: &[&str]| of.iter().map(|f| (*f).to_owned()).collect::<Vec<_>>();
    assert_eq!(
        costs(&lifted, Cement, Super8),
        (2, 1, lost(&["A39", "A60"]))
    );
    // 16 mm, about the frame line: one frame a side each time.
    let both = lost(&["A38", "A39", "A60", "A61"]);
    assert_eq!(costs(&lifted, Cement, Sixteen), (2, 1, both.clone()));
    assert_eq!(costs(&lifted, Weld, Super8), (2, 1, both));
    assert_eq!(costs(&lifted, Tape, Super8), (2, 1, vec![]));

    // A tail freshly cut gives the frame behind it, at no loss.
    let shorter = [("A", 20, 35), b20, a60, b60];
    assert_eq!(costs(&shorter, Cement, Super8), (1, 1, lost(&["B20"])));
    // A head freshly cut gives nothing on Super 8; the tail before it had a join.
    let later = [a20, ("B", 25, 40), a60, b60];
    assert_eq!(costs(&later, Cement, Super8), (1, 1, lost(&["A39"])));
    // On 16 mm each side does as the other.
    assert_eq!(
        costs(&shorter, Cement, Sixteen),
        (1, 1, lost(&["B20", "B21"]))
    );
    assert_eq!(
        costs(&later, Cement, Sixteen),
        (1, 1, lost(&["A38", "A39"]))
    );
    // Both freshly cut: nothing is lost of either.
    let trimmed = [("A", 20, 35), ("B", 25, 40), a60, b60];
    for (kind, gauge) in [(Cement, Super8), (Cement, Sixteen), (Weld, Super8)] {
        assert_eq!(costs(&trimmed, kind, gauge), (1, 1, vec![]), "{kind}");
    }

    // Longer at the tail: the tongue is gone, film is joined back there.
    let longer = [("A", 20, 44), b20, a60, b60];
    assert_eq!(
        costs(&longer, Cement, Super8),
        (1, 1, lost(&["A39", "A40", "B20"]))
    );
    assert_eq!(costs(&longer, Tape, Super8), (1, 1, vec![]));
    // Longer at the head, Super 8: its first frame went with the opened join, and
    // the trim joined back before it gives its last.
    let sooner = [a20, ("B", 16, 40), a60, b60];
    assert_eq!(
        costs(&sooner, Cement, Super8),
        (1, 1, lost(&["A39", "B19", "B20"]))
    );

    // Moved to the end: three joins opened or made, and both leaders' joins too.
    let moved = [a20, a60, b60, b20];
    assert_eq!(costs(&moved, Tape, Super8), (2, 2, vec![]));
    // A20 | A60, B60 | B20, B20 | leader: the tails that had one give their last,
    // A60 and B20 were opened before, and B60's tail was open to the leader.
    let (opened, made, frames) = costs(&moved, Cement, Super8);
    assert_eq!((opened, made), (2, 2));
    assert_eq!(frames, lost(&["A39", "A60", "B20", "B39", "B79"]));

    // A new last piece: leader gives of its own, the tail that was joined to it
    // has a tongue of its own to give up.
    let more = [a20, b20, a60, b60, ("A", 100, 120)];
    assert_eq!(costs(&more, Cement, Super8), (0, 1, lost(&["B79"])));
    let fewer = [a20, b20, a60];
    assert_eq!(costs(&fewer, Cement, Super8), (1, 0, lost(&["A79"])));
    // A new first piece: the piece opened from the head leader loses its first.
    let first = [("B", 100, 120), a20, b20, a60, b60];
    assert_eq!(costs(&first, Cement, Super8), (0, 1, lost(&["A20"])));
    assert_eq!(costs(&first, Tape, Super8), (0, 1, vec![]));
}

/// A join of another kind beside it costs what that kind costs.
#[test]
fn mixed_joins_each_cost_what_their_kind_costs() {
    let mut pieces = film(&WAS, JoinKind::Tape).pieces().to_vec();
    pieces[0].join = Some(JoinKind::Cement);
    let old = TrialCut::new(pieces.clone(), JoinKind::Tape);
    // Lifting the second: opened one of cement and one of tape, made one of cement.
    pieces.remove(1);
    let new = TrialCut::new(pieces.clone(), JoinKind::Tape);
    agree(&old, &new, Gauge::Super8, 3).expect("the hand finds it");
    let table = JoinTable::usual(Gauge::Super8);
    let price = |new: &TrialCut| Recut::price(&old, new, &strand(Gauge::Super8), &table);
    let found = price(&new);
    assert_eq!(
        cells(&found.lost_film),
        BTreeSet::from([("A".to_owned(), 39)])
    );
    assert_eq!(
        cells(&found.lost_outs_film),
        BTreeSet::from([("B".to_owned(), 20)])
    );
    // The same with the new join of tape: the tongue was hidden before already.
    pieces[0].join = None;
    let new = TrialCut::new(pieces, JoinKind::Tape);
    agree(&old, &new, Gauge::Super8, 3).expect("the hand finds it");
    assert_eq!((price(&new).lost, price(&new).lost_outs), (0, 1));
}

#[test]
fn a_join_kept_stays_of_its_kind() {
    let old = film(&WAS, JoinKind::Cement);
    let new = film(&WAS[..3], JoinKind::Tape);
    let made = Recut::as_made(&old, &new, &JoinTable::usual(Gauge::Super8));
    let kinds: Vec<Option<JoinKind>> = made.pieces().iter().map(|p| p.join).collect();
    // The last one is joined to the tail leader anew.
    assert_eq!(
        kinds,
        [Some(JoinKind::Cement), Some(JoinKind::Cement), None]
    );
}
