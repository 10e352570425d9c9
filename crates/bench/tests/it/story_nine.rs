//! Story 9: figures computed and cross-checked by a separate script before this
//! program existed.

use onestrand_bench::{Recut, RecutAct};
use onestrand_cut::{JoinKind, JoinTable, Piece, PieceKind, Strand, TrialCut};
use onestrand_film::Gauge;

use crate::boat::{first_cut, slated, span, strand};

fn table() -> JoinTable {
    JoinTable::usual(Gauge::Super8)
}

pub(crate) fn second_cut(strand: &Strand, join: JoinKind) -> TrialCut {
    let mut pieces = first_cut(strand, join).pieces().to_vec();
    pieces[21].kind = PieceKind::Shot(span("R3", 2505, 2730));
    pieces.swap(18, 19);
    pieces[12] = slated(strand, "R2", 2300, 2372);
    pieces.remove(8);
    TrialCut::new(pieces, join)
}

fn price(join: JoinKind) -> Recut {
    let strand = strand();
    let (old, new) = (first_cut(&strand, join), second_cut(&strand, join));
    Recut::price(&old, &new, &strand, &table())
}

#[test]
fn the_new_version_by_cement() {
    let found = price(JoinKind::Cement);
    assert_eq!((found.opened, found.made, found.kept), (8, 7, 14));
    assert_eq!((found.leader_opened, found.leader_made), (0, 0));
    assert_eq!((found.lost, found.lost_outs, found.put_back), (11, 2, 0));
    assert_eq!((found.planned.count(), found.real.count()), (2652, 2641));
}

#[test]
fn each_change_by_itself() {
    let found = price(JoinKind::Cement);
    let told: Vec<_> = found
        .prices
        .iter()
        .map(|p| {
            let positions = (p.old_positions.clone(), p.new_positions.clone());
            (p.act, positions, (p.opened, p.made, p.lost, p.lost_outs))
        })
        .collect();
    assert_eq!(
        told,
        [
            (RecutAct::Lift, (vec![9], vec![]), (2, 1, 2, 1)),
            (RecutAct::Exchange, (vec![13], vec![12]), (2, 2, 2, 1)),
            (RecutAct::Move, (vec![19, 20], vec![18, 19]), (3, 3, 6, 0)),
            (RecutAct::Trim, (vec![22], vec![21]), (1, 1, 1, 0)),
        ]
    );
}

#[test]
fn tape_loses_nothing() {
    let found = price(JoinKind::Tape);
    assert_eq!((found.opened, found.made, found.kept), (8, 7, 14));
    assert_eq!((found.lost, found.lost_outs), (0, 0));
    assert_eq!(found.real.count(), 2652);
}

#[test]
fn the_trim_of_the_bell_put_back_leaves_a_hop_of_two_frames() {
    let strand = strand();
    let old = first_cut(&strand, JoinKind::Cement);
    let mut pieces = old.pieces().to_vec();
    pieces[12] = slated(&strand, "R2", 2432, 2500);
    let new = TrialCut::new(pieces, JoinKind::Cement);
    let found = Recut::price(&old, &new, &strand, &table());
    // Opened behind the bell only: frame 2486 was the tongue, 2485 is the new
    // one; and shot 14 loses its first frame.
    assert_eq!((found.opened, found.made, found.put_back), (1, 1, 1));
    assert_eq!((found.lost, found.lost_outs), (3, 0));
}

#[test]
fn a_new_first_piece_is_counted_with_the_leader() {
    let strand = strand();
    let old = first_cut(&strand, JoinKind::Cement);
    let mut pieces: Vec<Piece> = old.pieces().to_vec();
    pieces.remove(0);
    let new = TrialCut::new(pieces, JoinKind::Cement);
    let found = Recut::price(&old, &new, &strand, &table());
    assert_eq!((found.opened, found.made, found.kept), (1, 0, 21));
    assert_eq!((found.leader_opened, found.leader_made), (1, 1));
    // The title gives its first frame to the leader join, shot 2 its own.
    assert_eq!((found.lost, found.lost_outs), (1, 1));
}

#[test]
fn the_same_version_costs_nothing() {
    let strand = strand();
    let old = first_cut(&strand, JoinKind::Weld);
    let found = Recut::price(&old, &old, &strand, &table());
    assert_eq!((found.opened, found.made, found.kept), (0, 0, 22));
    assert_eq!((found.lost, found.prices.len()), (0, 0));
}
