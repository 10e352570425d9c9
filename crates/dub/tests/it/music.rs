//! Music and picture: the story, and every choice tried.

use onestrand_dub::{
    BeatMap, LengthAsked, SequencePiece, bars_to_lift, frames_per_beat, joins_on_beats, music_fit,
};
use proptest::prelude::*;

use crate::brute;

const ASKED: LengthAsked = LengthAsked {
    wanted: 828,
    shortest: 700,
    longest: 900,
};

fn march() -> BeatMap {
    BeatMap::even(18.36, 100.0, 4).expect("beats")
}

#[test]
fn the_march_of_the_story() {
    let beat = frames_per_beat(18.36, 100.0).expect("a beat");
    assert!((beat - 11.016).abs() < 1e-9);
    assert!((frames_per_beat(18.0, 100.0).expect("a beat") - 10.8).abs() < 1e-9);
    assert_eq!(format!("{:.2}", 882.0 / beat), "80.07");
    assert_eq!(format!("{:.2}", 828.0 / beat), "75.16");
    let fit = music_fit(&march(), &ASKED).expect("a bar closes there");
    assert_eq!((fit.frames, 882 - fit.frames, fit.bar), (837, 45, 19));
    assert_eq!(format!("{:.2}", fit.beats), "75.98");
    assert_eq!(format!("{:.1}", fit.off), "-0.2");
    assert_eq!(format!("{:.2}", fit.off / 18.36), "-0.01");
}

#[test]
fn the_inner_joins_of_the_story() {
    // Shots 17, 18, 20, 19, 21, 22 of the second version, 22 as proposed.
    let piece = |frames| SequencePiece {
        frames,
        shortest: frames - 20,
        before: 20,
        behind: 20,
    };
    let pieces = [162, 180, 72, 54, 144, 225].map(piece);
    let plan = joins_on_beats(&pieces, &march());
    let beats: Vec<String> = plan
        .joins
        .iter()
        .map(|j| format!("{:.2}", j.beats))
        .collect();
    assert_eq!(beats, ["14.71", "31.05", "37.58", "42.48", "55.56"]);
    let moved: Vec<i64> = plan.joins.iter().map(|j| j.by).collect();
    assert_eq!(moved, [3, 0, 5, -5, 5]);
    assert!(plan.joins.iter().all(|join| join.on_beat));
    assert_eq!((plan.moved, plan.off_beat), (18, 0));
}

#[test]
fn without_handles_nothing_moves() {
    let stiff = [162, 180, 72].map(|frames| SequencePiece {
        frames,
        shortest: frames,
        before: 0,
        behind: 0,
    });
    let plan = joins_on_beats(&stiff, &march());
    assert_eq!(plan.moved, 0);
    assert_eq!(plan.off_beat, 1, "the second is on its beat as it is");
    let none = LengthAsked {
        shortest: 800,
        longest: 830,
        ..ASKED
    };
    assert_eq!(music_fit(&march(), &none), None);
    assert_eq!(joins_on_beats(&[], &march()).joins, []);
}

#[test]
fn bars_are_lifted_from_the_middle() {
    // Twenty bars are 881.28 frames; the picture is 837, which 19 bars fit.
    let lift = bars_to_lift(&march(), 837, 20).expect("one bar");
    assert_eq!((lift.from, lift.bars), (9, 1));
    assert!((lift.off - 0.216).abs() < 1e-6, "{lift:?}");
    assert_eq!(bars_to_lift(&march(), 837, 19), None);
    // A picture of two bars is no place for twenty.
    assert_eq!(bars_to_lift(&march(), 88, 20), None);
    // Of five bars one goes: the last stays, for it is the ending.
    let short = bars_to_lift(&march(), 176, 5).expect("one bar");
    assert_eq!((short.from, short.bars), (3, 1));
}

#[test]
fn music_that_was_heard_counts_as_it_was_played() {
    // A beat of upbeat, then two bars of three, the second slower; ten frames a beat else.
    let places = vec![2.0, 12.0, 22.0, 32.0, 43.0, 55.0, 68.0];
    let map = BeatMap::heard(places, 1, 3, 10.0).expect("beats");
    let bars: Vec<f64> = (0..4).map(|bar| map.bar(bar)).collect();
    assert_eq!(bars, [12.0, 43.0, 78.0, 108.0]);
    assert_eq!((map.place(-1), map.place(-2)), (2.0, -8.0));
    for beat in -3..12 {
        let back = map.beats_at(map.place(beat));
        assert!((back - beat as f64).abs() < 1e-9, "{beat}: {back}");
    }
    assert!((map.beats_at(49.0) - 3.5).abs() < 1e-9);
    assert_eq!((map.off_beat(34), map.off_beat(39)), (2.0, -4.0));
    let asked = LengthAsked {
        wanted: 70,
        shortest: 60,
        longest: 90,
    };
    let fit = music_fit(&map, &asked).expect("a bar closes there");
    assert_eq!((fit.frames, fit.bar, fit.off), (78, 2, 0.0));
    // From the head of the sequence a beat before bar 1 began.
    assert!((fit.beats - 7.2).abs() < 1e-9, "{fit:?}");
    assert!(BeatMap::heard(vec![3.0, 3.0], 0, 4, 10.0).is_err());
    assert!(BeatMap::heard(Vec::new(), 0, 4, 10.0).is_err());
}

proptest! {
    #[test]
    fn no_way_moves_fewer_frames(
        drawn in prop::collection::vec((8_i64..30, 1_i64..30, 0_i64..8, 0_i64..8), 1..5),
        tempo in 150.0_f64..260.0,
    ) {
        let pieces: Vec<SequencePiece> = drawn
            .into_iter()
            .map(|(frames, shortest, before, behind)| SequencePiece { frames, shortest, before, behind })
            .collect();
        let beat = frames_per_beat(18.0, tempo).expect("a beat");
        let map = BeatMap::even(18.0, tempo, 4).expect("beats");
        let plan = joins_on_beats(&pieces, &map);
        let reach = (1.5 * beat).ceil() as i64;
        prop_assert_eq!(
            (plan.off_beat, plan.moved),
            brute::beats(&pieces, beat, reach, 0.55)
        );
        let mut before = 0;
        for (two, join) in pieces.windows(2).zip(&plan.joins) {
            prop_assert!((-two[1].before..=two[0].behind).contains(&join.by));
            let change = join.by - before;
            prop_assert!(change >= 0 || two[0].frames + change >= two[0].shortest);
            before = join.by;
        }
    }

    #[test]
    fn no_bar_lies_nearer(wanted in 100_i64..2000, room in 0_i64..120, tempo in 60.0_f64..200.0) {
        let asked = LengthAsked { wanted, shortest: wanted - room, longest: wanted + room };
        let bar = 4.0 * frames_per_beat(18.36, tempo).expect("a beat");
        let map = BeatMap::even(18.36, tempo, 4).expect("beats");
        let closes = (1..200).map(|n| (f64::from(n) * bar).round() as i64);
        let nearest = closes
            .filter(|frames| (frames - wanted).abs() <= room)
            .map(|frames| (frames - wanted).abs())
            .min();
        let fit = music_fit(&map, &asked);
        prop_assert_eq!(fit.map(|fit| (fit.frames - wanted).abs()), nearest);
    }
}
