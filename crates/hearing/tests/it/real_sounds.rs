//! Sounds that nobody here made: a snap and two loops out of `tests/media/sound`.

use std::path::Path;

use onestrand_hearing::{Beats, Heard, beats, claps, loop_beats, onsets};

fn read(name: &str) -> (Vec<f32>, u32) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/media/sound");
    let mut file = hound::WavReader::open(folder.join(name)).expect("it is in the checkout");
    let samples = file.samples::<i16>();
    let samples = samples.map(|sample| f32::from(sample.expect("a whole file")) / 32_768.0);
    let samples = samples.collect();
    (samples, file.spec().sample_rate)
}

/// The snap is laid at three places after a second of silence; it begins at its
/// sample 178.
#[test]
fn a_snap_is_found_where_the_fingers_slide() {
    let (snap, rate) = read("snap.wav");
    for start in [44_100, 60_001, 71_234] {
        let mut sound = vec![0.0; start];
        sound.extend_from_slice(&snap);
        sound.extend_from_slice(&vec![0.0; 20_000]);
        let heard = Heard::new(&sound, rate).unwrap();
        let truth = (start + 178) as f64 / f64::from(rate);
        let found = onsets(heard).unwrap();
        assert!(
            (found[0].seconds - truth).abs() < 0.005,
            "{found:?} for {truth}"
        );
        let clap = claps(heard).unwrap();
        assert!(
            (clap[0].seconds - truth).abs() < 0.005,
            "{clap:?} for {truth}"
        );
    }
}

/// As loops exactly, and played round for sixteen seconds within a hundredth; the
/// tempos are known by the lengths.
#[test]
fn loops_of_drums_go_as_fast_as_they_are_long() {
    let (slowest, fastest) = Beats::USUAL;
    for (name, true_bpm) in [("loop_breakbeat.wav", 126.0), ("loop_electric.wav", 97.0)] {
        let (sound, rate) = read(name);
        let heard = Heard::new(&sound, rate).unwrap();
        let (bpm, whole) = loop_beats(heard, slowest, fastest).unwrap();
        assert_eq!(whole, 4, "{name}: {bpm}");
        assert!((bpm - true_bpm).abs() < 0.01, "{name}: {bpm}");
        let turns = (16.0 / heard.seconds()).ceil() as usize;
        let round = sound.repeat(turns);
        let found = beats(Heard::new(&round, rate).unwrap(), slowest, fastest).unwrap();
        assert!(
            (found.bpm / true_bpm - 1.0).abs() < 0.01,
            "{name}: {}",
            found.bpm
        );
    }
}
