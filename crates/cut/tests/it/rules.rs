//! The single rules, one small strand each.

use onestrand_cut::{
    Base, CheckRules, ConflictKind, Effect, Fit, JoinKind, JoinTable, Piece, Roll, Severity,
    Strand, TrialCut, check,
};
use onestrand_film::{Frames, Gauge};

use crate::boat::{plain_roll, span};

fn kinds(cut: &TrialCut, rolls: Vec<Roll>) -> Vec<(ConflictKind, Vec<usize>)> {
    let strand = Strand::new(Gauge::Sixteen, rolls, []);
    let rules = CheckRules {
        table: JoinTable::usual(Gauge::Sixteen),
    };
    let answer = check(cut, &strand, &rules);
    answer
        .conflicts
        .into_iter()
        .map(|c| (c.kind, c.positions))
        .collect()
}

fn sixteen(name: &str) -> Roll {
    plain_roll(name, 100, Gauge::Sixteen)
}

#[test]
fn frames_the_roll_does_not_have() {
    let cut = TrialCut::new(vec![Piece::shot(span("A", 90, 101))], JoinKind::Tape);
    let found = kinds(&cut, vec![sixteen("A")]);
    assert_eq!(found, [(ConflictKind::OutsideRoll, vec![1])]);
}

#[test]
fn a_tongue_needs_film_behind_the_last_frame() {
    let cut = TrialCut::new(vec![Piece::shot(span("A", 50, 100))], JoinKind::Cement);
    let found = kinds(&cut, vec![sixteen("A")]);
    assert_eq!(found, [(ConflictKind::OutsideRoll, vec![1])]);
}

#[test]
fn polyester_takes_tape_only() {
    let roll = Roll {
        base: Base::Polyester,
        ..sixteen("A")
    };
    let cut = TrialCut::new(vec![Piece::shot(span("A", 50, 70))], JoinKind::Weld);
    let expected = [(ConflictKind::Base, vec![1]), (ConflictKind::Base, vec![1])];
    assert_eq!(kinds(&cut, vec![roll.clone()]), expected);
    assert_eq!(kinds(&cut.joined_by(JoinKind::Tape), vec![roll]), []);
}

#[test]
fn unlike_gauges_are_refused_at_each_join() {
    let cut = TrialCut::new(
        vec![
            Piece::shot(span("A", 0, 20)),
            Piece::shot(span("B", 0, 20)),
            Piece::shot(span("A", 40, 60)),
        ],
        JoinKind::Tape,
    );
    let rolls = vec![sixteen("A"), plain_roll("B", 100, Gauge::Regular8)];
    let expected = [
        (ConflictKind::Gauge, vec![1, 2]),
        (ConflictKind::Gauge, vec![2, 3]),
    ];
    assert_eq!(kinds(&cut, rolls), expected);
}

#[test]
fn protected_rolls_and_effects_are_refused() {
    let roll = Roll {
        fit: Fit::NeverCut,
        ..sixteen("A")
    };
    let piece = Piece {
        effect: Some(Effect::Freeze),
        ..Piece::shot(span("A", 0, 20))
    };
    let found = kinds(&TrialCut::new(vec![piece], JoinKind::Tape), vec![roll]);
    let expected = [
        (ConflictKind::Effect, vec![1]),
        (ConflictKind::Protected, vec![1]),
    ];
    assert_eq!(found, expected);
}

#[test]
fn short_strips_are_warned_by_the_stricter_join() {
    let seven = |join| Piece {
        join,
        ..Piece::shot(span("A", 20, 27))
    };
    let by = |join| TrialCut::new(vec![seven(join)], JoinKind::Tape);
    assert_eq!(kinds(&by(None), vec![sixteen("A")]), []);
    let warned = kinds(&by(Some(JoinKind::Cement)), vec![sixteen("A")]);
    assert_eq!(warned, [(ConflictKind::Short, vec![1])]);
    assert_eq!(ConflictKind::Short.severity(), Severity::Warned);
}

#[test]
fn pieces_that_continue_each_other_are_one_strip() {
    let cut = TrialCut::new(
        vec![
            Piece::shot(span("A", 10, 14)),
            Piece::shot(span("A", 14, 30)),
            Piece::leader(Frames::new(10).expect("a length")),
        ],
        JoinKind::Cement,
    );
    let strand = Strand::new(Gauge::Sixteen, [sixteen("A")], []);
    let rules = CheckRules {
        table: JoinTable::usual(Gauge::Sixteen),
    };
    let answer = check(&cut, &strand, &rules);
    assert_eq!(
        (answer.pieces, answer.joins, answer.frames.count()),
        (2, 3, 30)
    );
    assert_eq!(answer.conflicts, []);
    assert_eq!(answer.eaten().count(), 2);
}

#[test]
fn an_empty_cut_is_a_cut_of_nothing() {
    let strand = Strand::new(Gauge::Sixteen, [sixteen("A")], []);
    let rules = CheckRules {
        table: JoinTable::usual(Gauge::Sixteen),
    };
    let answer = check(&TrialCut::new(vec![], JoinKind::Tape), &strand, &rules);
    assert_eq!((answer.pieces, answer.joins), (0, 0));
    assert_eq!(answer.rolls[0].left.count(), 100);
}
