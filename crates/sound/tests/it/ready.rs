//! Sounds made ready: places, pitch, purity, outlines.

use std::path::Path;

use onestrand_sound::{Peaks, PlainSound, SoundError, SoundReader, make_ready};

fn wav(path: &Path, rate: u32, channels: u16, samples: impl Iterator<Item = f32>) {
    let spec = hound::WavSpec {
        channels,
        sample_rate: rate,
        bits_per_sample: 32,
        sample_format: hound::SampleFormat::Float,
    };
    let mut out = hound::WavWriter::create(path, spec).expect("a file");
    for sample in samples {
        out.write_sample(sample).expect("written");
    }
    out.finalize().expect("written");
}

fn sine(hz: f64, rate: u32, seconds: f64) -> impl Iterator<Item = f32> {
    let count = (seconds * f64::from(rate)) as u32;
    (0..count).map(move |n| {
        let turn = 2.0 * std::f64::consts::PI * hz * f64::from(n) / f64::from(rate);
        (0.5 * turn.sin()) as f32
    })
}

fn made(rate: u32, play: f64, samples: impl Iterator<Item = f32>) -> (Vec<f32>, Peaks) {
    let dir = tempfile::tempdir().expect("a folder");
    let (kept, plain) = (dir.path().join("kept.wav"), dir.path().join("kept.f32"));
    wav(&kept, rate, 1, samples);
    let ready = make_ready(&kept, play, &plain, &mut |_| true).expect("made ready");
    let mut sound = PlainSound::open(&plain, 1).expect("there");
    assert_eq!(sound.length(), ready.length);
    let mut out = vec![0.0; ready.length as usize];
    sound.read(0, &mut out).expect("read");
    (out, ready.peaks)
}

/// How far a signal is from the purest sine of that pitch: what is left, in dB below it.
fn purity(samples: &[f32], hz: f64) -> f64 {
    let inner = &samples[4800..samples.len() - 4800];
    let (mut ss, mut cc, mut sc, mut sy, mut cy) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (n, y) in inner.iter().enumerate() {
        let (s, c) = (2.0 * std::f64::consts::PI * hz * n as f64 / 48_000.0).sin_cos();
        let y = f64::from(*y);
        (ss, cc, sc) = (ss + s * s, cc + c * c, sc + s * c);
        (sy, cy) = (sy + s * y, cy + c * y);
    }
    let det = ss * cc - sc * sc;
    let (a, b) = ((sy * cc - cy * sc) / det, (cy * ss - sy * sc) / det);
    let mut left = 0.0;
    for (n, y) in inner.iter().enumerate() {
        let (s, c) = (2.0 * std::f64::consts::PI * hz * n as f64 / 48_000.0).sin_cos();
        left += (f64::from(*y) - a * s - b * c).powi(2);
    }
    let all = (a * a + b * b) / 2.0 * inner.len() as f64;
    10.0 * (left / all).log10()
}

#[test]
fn what_is_at_48_khz_stays_sample_for_sample() {
    let samples: Vec<f32> = sine(440.0, 48_000, 0.7).collect();
    assert_eq!(made(48_000, 1.0, samples.clone().into_iter()).0, samples);
}

#[test]
fn another_rate_keeps_its_pitch_length_and_place() {
    for rate in [8000, 16_000, 22_050, 32_000, 44_100, 96_000, 192_000] {
        let (out, _) = made(rate, 1.0, sine(1000.0, rate, 2.0));
        assert_eq!(out.len(), 96_000, "{rate}");
        let pure = purity(&out, 1000.0);
        assert!(pure < -90.0, "{rate}: {pure} dB");
    }
    // A click lies where it lay.
    let click = (0..44_100).map(|n| if n == 22_050 { 0.9 } else { 0.0 });
    let (out, _) = made(44_100, 1.0, click);
    let loudest = (0..out.len()).max_by(|a, b| out[*a].abs().total_cmp(&out[*b].abs()));
    assert!(
        loudest.is_some_and(|n| n.abs_diff(24_000) <= 1),
        "{loudest:?}"
    );
}

#[test]
fn a_tape_played_faster_is_higher_and_shorter() {
    // The fork of the story: 433.4 heard, 440 true.
    let (out, _) = made(44_100, 1.0152, sine(433.4, 44_100, 3.0));
    let told = (3.0_f64 * 48_000.0 / 1.0152).ceil();
    assert!((out.len() as f64 - told).abs() <= 1.0, "{}", out.len());
    let pure = purity(&out, 433.4 * 1.0152);
    assert!(pure < -80.0, "{pure} dB");
    assert!((433.4_f64 * 1.0152 - 440.0).abs() < 0.02);
    let click = (0..48_000).map(|n| if n == 40_000 { 0.9 } else { 0.0 });
    let (out, _) = made(48_000, 1.25, click);
    let loudest = (0..out.len()).max_by(|a, b| out[*a].abs().total_cmp(&out[*b].abs()));
    assert!(
        loudest.is_some_and(|n| n.abs_diff(32_000) <= 1),
        "{loudest:?}"
    );
}

#[test]
fn outlines_hold_the_lowest_and_highest() {
    let samples: Vec<f32> = (0..100_000)
        .map(|n| {
            if n == 50_123 {
                -0.8
            } else if n == 70_000 {
                1.0
            } else {
                0.1
            }
        })
        .collect();
    let (_, peaks) = made(48_000, 1.0, samples.into_iter());
    let columns = peaks.columns(0, 100_000, 10);
    assert_eq!(columns.len(), 10);
    assert_eq!(columns[5].0, -102, "0.8 of 127");
    assert!(columns.iter().any(|c| c.1 == 127));
    assert_eq!(columns[0], (13, 13));
    assert!((peaks.peak() - 1.0).abs() < 1e-4);
    let saved = Peaks::from_bytes(&peaks.to_bytes()).expect("as saved");
    assert_eq!(saved.columns(0, 100_000, 10), columns);
    assert!(Peaks::from_bytes(b"something else").is_none());
    assert_eq!(
        peaks.columns(200_000, 100, 3),
        [(0, 0); 3],
        "behind the end there is nothing"
    );
}

#[test]
fn what_is_not_kept_so_is_refused_and_a_stop_leaves_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    let (kept, plain) = (dir.path().join("kept.wav"), dir.path().join("kept.f32"));
    std::fs::write(&kept, b"no sound").expect("written");
    let refused = make_ready(&kept, 1.0, &plain, &mut |_| true);
    assert!(matches!(refused, Err(SoundError::NotKept { .. })));
    wav(&kept, 44_100, 1, sine(440.0, 44_100, 3.0));
    let stopped = make_ready(&kept, 1.0, &plain, &mut |_| false);
    assert!(matches!(stopped, Err(SoundError::Stopped)));
    assert_eq!(std::fs::read_dir(dir.path()).expect("a folder").count(), 1);
    // What is no number is silence, and does not stay in a filter for good.
    wav(&kept, 48_000, 1, [0.5, f32::NAN, 0.25].into_iter());
    make_ready(&kept, 1.0, &plain, &mut |_| true).expect("made ready");
    let mut out = [0.0; 3];
    PlainSound::open(&plain, 1)
        .expect("there")
        .read(0, &mut out)
        .expect("read");
    assert_eq!(out.map(f32::to_bits), [0.5, 0.0, 0.25].map(f32::to_bits));
}

/// A disk that is full, as Linux gives one to try against.
#[test]
fn a_full_disk_is_told_as_one() {
    let full = Path::new("/dev/full");
    let mut keep = onestrand_sound::KeepSound::create(full, 48_000, 2).expect("opened");
    let second = vec![0.25; 96_000];
    let wrong = (0..4).find_map(|_| keep.add(&second).err());
    let wrong = match wrong {
        Some(wrong) => wrong,
        None => keep.done().expect_err("nothing can be written"),
    };
    assert_eq!(wrong.code(), "sound.disk_full", "{wrong}");
    assert!(wrong.hint().contains("room on the disk"));
}
