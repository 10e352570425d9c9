//! The first assembly: the circled takes in script order.

use onestrand_cut::{
    CheckRules, JoinKind, JoinTable, Piece, Rating, Strand, Take, TrialCut, assembly, check,
};
use onestrand_film::Gauge;
use proptest::prelude::*;

use crate::boat::{plain_roll, span, strand};

/// The strand of the boat with these takes circled, by their slates.
fn circled(slates: &[&str]) -> Strand {
    let boat = strand();
    let takes = boat.takes().iter().map(|take| Take {
        rating: match &take.slate {
            Some(slate) if slates.contains(&slate.to_string().as_str()) => Rating::Circled,
            _ => Rating::Hold,
        },
        ..take.clone()
    });
    Strand::new(boat.gauge(), boat.rolls().cloned(), takes)
}

fn said(pieces: &[Piece]) -> Vec<String> {
    let slate = |piece: &Piece| piece.slate.as_ref().expect("a slate").to_string();
    pieces.iter().map(slate).collect()
}

#[test]
fn the_main_title_leads_then_scenes_master_before_angles_then_other_titles() {
    let strand = circled(&[
        "E-T1", "2B-T1", "6-T2", "2-T2", "2A-T2", "M-T1", "4A-T2", "2-T1", "5-T1",
    ]);
    let pieces = assembly(&strand, JoinKind::Tape, &JoinTable::usual(Gauge::Super8));
    let order = [
        "M-T1", "2-T1", "2-T2", "2A-T2", "2B-T1", "4A-T2", "5-T1", "6-T2", "E-T1",
    ];
    assert_eq!(said(&pieces), order);
    // Tape eats nothing: 2-T2 is there whole, as the example's log has it.
    assert_eq!(pieces[2].span(), Some(&span("R1", 1050, 1352)));
}

#[test]
fn what_nobody_circled_stays_out() {
    let table = JoinTable::usual(Gauge::Super8);
    assert!(assembly(&circled(&[]), JoinKind::Tape, &table).is_empty());
}

#[test]
fn cement_takes_its_frame_out_of_the_take_and_not_of_its_neighbour() {
    // 1-T2 and 2-T1 lie beside each other on the film, and 2-T2 behind them.
    let strand = circled(&["1-T2", "2-T2"]);
    let table = JoinTable::usual(Gauge::Super8);
    let pieces = assembly(&strand, JoinKind::Cement, &table);
    assert_eq!(pieces[0].span(), Some(&span("R1", 390, 761)));
    assert_eq!(pieces[1].span(), Some(&span("R1", 1050, 1351)));
}

/// Frames, whether circled, and of the slate scene, letter and take.
type DrawnTake = (u32, bool, Option<(u32, usize, u16)>);

fn any_take() -> impl Strategy<Value = DrawnTake> {
    let slate = proptest::option::of((1_u32..12, 0_usize..4, 1_u16..4));
    (3_u32..30, any::<bool>(), slate)
}

fn drawn_strand(rolls: &[Vec<DrawnTake>], gauge: Gauge) -> Strand {
    let mut takes = Vec::new();
    let mut all = Vec::new();
    for (number, drawn) in rolls.iter().enumerate() {
        let name = format!("R{number}");
        let mut at = 0;
        for (frames, circled, slate) in drawn {
            let slate = slate.map(|(scene, letter, take)| {
                let letter = ["", "A", "B", "C"][letter];
                format!("{scene}{letter}-T{take}").parse().expect("a slate")
            });
            takes.push(Take {
                span: span(&name, at, at + frames),
                slate,
                rating: if *circled {
                    Rating::Circled
                } else {
                    Rating::None
                },
                size: String::new(),
                camera_move: String::new(),
                direction: String::new(),
                action: String::new(),
                note: String::new(),
            });
            at += frames;
        }
        all.push(plain_roll(&name, at.max(1), gauge));
    }
    Strand::new(gauge, all, takes)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    /// Whatever is circled, the assembly can be made, on every gauge with every join.
    #[test]
    fn an_assembly_is_never_refused(
        rolls in prop::collection::vec(prop::collection::vec(any_take(), 0..8), 1..4),
        super8 in any::<bool>(),
        kind in prop::sample::select(JoinKind::ALL.to_vec()),
    ) {
        let gauge = if super8 { Gauge::Super8 } else { Gauge::Sixteen };
        let strand = drawn_strand(&rolls, gauge);
        let table = JoinTable::usual(gauge);
        let pieces = assembly(&strand, kind, &table);
        let wanted = strand.takes().iter().filter(|take| take.rating == Rating::Circled).count();
        prop_assert_eq!(pieces.len(), wanted);
        let cut = TrialCut::new(pieces, kind);
        let answer = check(&cut, &strand, &CheckRules { table });
        prop_assert_eq!(answer.refused().count(), 0, "{:?}", answer.conflicts);
    }
}
