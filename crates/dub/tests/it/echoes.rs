//! Where joins are heard: against the strip, frame by frame.

use onestrand_dub::{Anchor, Placed, Shows, echo_near, heard_at};
use proptest::prelude::*;

use crate::the_boat::{v2, version};

const SUPER_8: i64 = 18;

#[test]
fn the_join_of_the_story_is_heard_beside_the_rustle_and_no_other() {
    let joins = v2().joins();
    assert_eq!(joins.len(), 21);
    let rustle = echo_near(2164, &joins, SUPER_8).expect("near");
    assert_eq!(
        (rustle.join_at, rustle.heard_at, rustle.frames_away),
        (2148, 2166, 2)
    );
    for cue in [789, 1349, 1368, 1387, 1658, 1734, 2284] {
        assert_eq!(echo_near(cue, &joins, SUPER_8), None, "{cue}");
    }
}

#[test]
fn pieces_that_go_on_from_each_other_are_one_strip() {
    let version = version(&[("R1", 30, 50), ("R1", 50, 60), ("R1", 61, 70)]);
    assert_eq!(version.joins(), [30]);
}

/// The strip as it passes the sound head: what lies there while a running frame is shown is
/// the place `lead` further on. `side[n]` tells which physical piece running frame n is of.
fn clicks(side: &[usize], lead: i64) -> Vec<i64> {
    let length = i64::try_from(side.len()).expect("short");
    // Frame n is on the screen while the strip beside picture n - lead passes the head;
    // the strip was joined between n - lead - 1 and n - lead where the pieces differ.
    let joined_before = |n: i64| {
        let (a, b) = (n - lead - 1, n - lead);
        a >= 0 && b < length && side[a as usize] != side[b as usize]
    };
    (0..length + lead).filter(|n| joined_before(*n)).collect()
}

proptest! {
    #[test]
    fn every_join_clicks_where_it_is_said(
        lengths in prop::collection::vec(1_u32..40, 1..12),
        lead in 0_i64..60,
    ) {
        let mut first = 0;
        let pieces = lengths.iter().map(|frames| {
            first += frames + 100;
            (*frames, Some(Shows { roll: "R1".to_owned(), first }))
        });
        let version = Placed::new(pieces.collect::<Vec<_>>(), Default::default());
        let side: Vec<usize> = lengths
            .iter()
            .enumerate()
            .flat_map(|(nth, frames)| std::iter::repeat_n(nth, *frames as usize))
            .collect();
        let said: Vec<i64> = version.joins().iter().map(|q| heard_at(*q, lead)).collect();
        prop_assert_eq!(said, clicks(&side, lead));
    }

    /// A cut is changed at random; then the strip is laid out cell by cell and read: the
    /// cell at the place of the cue is the cell it holds to, and the sound that must be
    /// recorded for it lies beside the cell `lead` before it.
    #[test]
    fn cues_go_with_their_cells(
        spans in prop::collection::vec((0_u32..400, 1_u32..30), 1..14),
        changes in prop::collection::vec((any::<prop::sample::Index>(), 0_u8..4, 1_u32..12), 0..6),
        held in 0_u32..430,
    ) {
        let mut spans = spans;
        for (which, kind, by) in changes {
            if spans.is_empty() { break; }
            let nth = which.index(spans.len());
            match kind {
                0 => { let _lifted = spans.remove(nth); }
                1 => { let other = (nth + 1) % spans.len(); spans.swap(nth, other); }
                2 => spans[nth].0 += by,
                _ => spans[nth].1 = spans[nth].1.saturating_sub(by).max(1),
            }
        }
        let pieces = spans.iter().map(|(first, frames)| {
            (*frames, Some(Shows { roll: "R1".to_owned(), first: *first }))
        });
        let version = Placed::new(pieces.collect::<Vec<_>>(), Default::default());
        let strip: Vec<u32> = spans.iter().flat_map(|(first, n)| *first..first + n).collect();
        let anchor = Anchor::Frame { roll: "R1".to_owned(), frame: held };
        let read = strip.iter().position(|cell| *cell == held);
        prop_assert_eq!(anchor.in_version(&version), read.map(|x| x as i64));
        if let Some(x) = anchor.in_version(&version) {
            // The sound is written at strip place x - S; while x is in the gate the head
            // reads the place S nearer the head of the film.
            let written = x - SUPER_8;
            let head_reads_while = |shown: i64| shown - SUPER_8;
            prop_assert_eq!(head_reads_while(x), written);
            prop_assert_eq!(strip[x as usize], held);
        }
    }
}
