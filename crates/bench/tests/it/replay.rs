//! The pull list carried out on rolls that are lists of frame numbers.

use std::collections::BTreeMap;

use onestrand_bench::PullList;
use onestrand_cut::{CheckRules, JoinKind, JoinTable, Piece, Strand, TrialCut, check};
use onestrand_film::{FrameRange, Gauge, Span};
use proptest::prelude::*;

use crate::boat::{first_cut, plain_roll, roll, strand};

/// A roll on the rewinds: every frame still on it, by number.
type Rolls = BTreeMap<String, Vec<u32>>;

/// Counts along what is left of the roll, as a hand does, and cuts the strip.
fn carry_out(list: &PullList, rolls: &mut Rolls) -> Vec<(String, Vec<u32>)> {
    let mut reel = Vec::new();
    for pull in &list.pulls {
        let name = pull.extent.roll.to_string();
        let film = rolls.get_mut(&name).expect("the roll is on the shelf");
        // The landmark frame itself may be gone (the last cut): it is then the
        // first frame behind the cut.
        let zero = film.partition_point(|f| *f < pull.landmark.at.frame.index());
        let first = zero + pull.count_to_first as usize;
        let last = zero + pull.count_to_last as usize;
        let head = (pull.extent.shown.begin().index() - pull.extent.taken.begin().index()) as usize;
        let tail = (pull.extent.taken.end().index() - pull.extent.shown.end().index()) as usize;
        let strip: Vec<u32> = film.drain(first - head..=last + tail).collect();
        let shown = strip[head..strip.len() - tail].to_vec();
        reel.push((name, shown));
    }
    reel
}

fn wanted(cut: &TrialCut) -> Vec<(String, u32)> {
    let spans = cut.pieces().iter().filter_map(Piece::span);
    spans
        .flat_map(|s| {
            let name = s.roll.to_string();
            (s.range.begin().index()..s.range.end().index()).map(move |f| (name.clone(), f))
        })
        .collect()
}

fn replay(cut: &TrialCut, strand: &Strand, table: &JoinTable) {
    let list = PullList::in_cut_order(cut, strand, table);
    let mut rolls: Rolls = strand
        .rolls()
        .map(|r| (r.id.to_string(), (0..r.frames.count()).collect()))
        .collect();
    let reel = carry_out(&list, &mut rolls);
    let got: Vec<(String, u32)> = reel
        .into_iter()
        .flat_map(|(name, frames)| frames.into_iter().map(move |f| (name.clone(), f)))
        .collect();
    assert_eq!(got, wanted(cut));
}

#[test]
fn the_first_cut_comes_off_the_rolls_frame_for_frame() {
    let strand = strand();
    let table = JoinTable::usual(Gauge::Super8);
    for join in JoinKind::ALL {
        replay(&first_cut(&strand, join), &strand, &table);
    }
}

proptest! {
    #[test]
    fn any_cut_that_passes_the_check_comes_off_the_rolls(
        drawn in prop::collection::vec((0_usize..2, 0_u32..95, 1_u32..12), 1..9),
        kind in prop::sample::select(JoinKind::ALL.to_vec()),
    ) {
        let names = ["A", "B"];
        let strand = Strand::new(
            Gauge::Sixteen,
            names.map(|n| plain_roll(n, 100, Gauge::Sixteen)),
            [],
        );
        let table = JoinTable::usual(Gauge::Sixteen);
        let rules = CheckRules { table: table.clone() };
        // Pieces are kept as long as the cut stays cuttable.
        let mut cut = TrialCut::new(vec![], kind);
        for (which, begin, len) in drawn {
            let range = FrameRange::of(begin, begin + len).expect("not empty");
            let mut pieces = cut.pieces().to_vec();
            pieces.push(Piece::shot(Span::new(roll(names[which]), range)));
            let longer = TrialCut::new(pieces, kind);
            if check(&longer, &strand, &rules).is_ok() {
                cut = longer;
            }
        }
        replay(&cut, &strand, &table);
    }
}
