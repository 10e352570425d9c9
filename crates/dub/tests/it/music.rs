//! Music and picture: the story, and every choice tried.

use onestrand_dub::{
    MusicAsked, SequencePiece, bars_to_lift, frames_per_beat, joins_on_beats, music_fit,
};
use proptest::prelude::*;

use crate::brute;

const ASKED: MusicAsked = MusicAsked {
    speed: 18.36,
    tempo: 100.0,
    beats_a_bar: 4,
    wanted: 828,
    shortest: 700,
    longest: 900,
};

#[test]
fn the_march_of_the_story() {
    let beat = frames_per_beat(18.36, 100.0).expect("a beat");
    assert!((beat - 11.016).abs() < 1e-9);
    assert!((frames_per_beat(18.0, 100.0).expect("a beat") - 10.8).abs() < 1e-9);
    assert_eq!(format!("{:.2}", 882.0 / beat), "80.07");
    assert_eq!(format!("{:.2}", 828.0 / beat), "75.16");
    let fit = music_fit(&ASKED)
        .expect("sums")
        .expect("a bar closes there");
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
        shorter: 20,
        longer: 20,
    };
    let pieces = [162, 180, 72, 54, 144, 225].map(piece);
    let plan = joins_on_beats(&pieces, 18.36, 100.0).expect("sums");
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
        shorter: 0,
        longer: 0,
    });
    let plan = joins_on_beats(&stiff, 18.36, 100.0).expect("sums");
    assert_eq!(plan.moved, 0);
    assert_eq!(plan.off_beat, 1, "the second is on its beat as it is");
    let none = MusicAsked {
        shortest: 800,
        longest: 830,
        ..ASKED
    };
    assert_eq!(music_fit(&none).expect("sums"), None);
    assert_eq!(joins_on_beats(&[], 18.36, 100.0).expect("sums").joins, []);
}

#[test]
fn bars_are_lifted_from_the_middle() {
    // Twenty bars are 881.28 frames; the picture is 837, which 19 bars fit.
    let asked = MusicAsked {
        wanted: 837,
        ..ASKED
    };
    let lift = bars_to_lift(&asked, 20).expect("sums").expect("one bar");
    assert_eq!((lift.from, lift.bars), (9, 1));
    assert!((lift.off - 0.216).abs() < 1e-6, "{lift:?}");
    assert_eq!(bars_to_lift(&asked, 19).expect("sums"), None);
}

proptest! {
    #[test]
    fn no_way_moves_fewer_frames(
        drawn in prop::collection::vec((8_i64..30, 0_i64..8, 0_i64..8), 1..5),
        tempo in 150.0_f64..260.0,
    ) {
        let pieces: Vec<SequencePiece> = drawn
            .into_iter()
            .map(|(frames, shorter, longer)| SequencePiece { frames, shorter, longer })
            .collect();
        let beat = frames_per_beat(18.0, tempo).expect("a beat");
        let plan = joins_on_beats(&pieces, 18.0, tempo).expect("sums");
        let reach = (1.5 * beat).ceil() as i64;
        prop_assert_eq!(
            (plan.off_beat, plan.moved),
            brute::beats(&pieces, beat, reach, 0.55)
        );
        let mut before = 0;
        for (piece, join) in pieces.iter().zip(&plan.joins) {
            let change = join.by - before;
            prop_assert!(change == 0 || (-piece.shorter..=piece.longer).contains(&change));
            before = join.by;
        }
    }

    #[test]
    fn no_bar_lies_nearer(wanted in 100_i64..2000, room in 0_i64..120, tempo in 60.0_f64..200.0) {
        let asked = MusicAsked { wanted, shortest: wanted - room, longest: wanted + room, tempo, ..ASKED };
        let bar = 4.0 * frames_per_beat(asked.speed, tempo).expect("a beat");
        let closes = (1..200).map(|n| (f64::from(n) * bar).round() as i64);
        let nearest = closes
            .filter(|frames| (frames - wanted).abs() <= room)
            .map(|frames| (frames - wanted).abs())
            .min();
        let fit = music_fit(&asked).expect("sums");
        prop_assert_eq!(fit.map(|fit| (fit.frames - wanted).abs()), nearest);
    }
}
