//! The signals of EBU Tech 3341 and 3342 that can be made from their description (check
//! values M020 to M043, read in the documents; not 7, 8 and 20 to 23, which are files), and
//! the calibration of ITU-R BS.1770 (M014, M015).

use onestrand_sound::{Loudness, LoudnessMeter};

const RATE: u32 = 48_000;

/// A sine of 1,000 Hz: parts of so many seconds at so many dBFS; silence below −200.
fn sine(parts: &[(f64, f64)], channels: usize) -> Vec<f32> {
    tone(1000.0, parts, &vec![0.0; channels])
}

/// Channels that are so many dB apart from what the parts say.
fn tone(hz: f64, parts: &[(f64, f64)], channels: &[f64]) -> Vec<f32> {
    let mut out = Vec::new();
    let mut n = 0_u64;
    for (seconds, db) in parts {
        for _ in 0..(seconds * f64::from(RATE)).round() as u64 {
            let turn = 2.0 * std::f64::consts::PI * hz * n as f64 / f64::from(RATE);
            for more in channels {
                let level = if *db < -200.0 {
                    0.0
                } else {
                    10_f64.powf((db + more) / 20.0)
                };
                out.push((level * turn.sin()) as f32);
            }
            n += 1;
        }
    }
    out
}

fn measured(samples: &[f32], channels: usize) -> Loudness {
    let mut meter = LoudnessMeter::new(channels, RATE).expect("a meter");
    // In uneven pieces, as sound comes.
    for piece in samples.chunks(channels * 1237) {
        meter.hear(piece);
    }
    meter.done()
}

fn near(found: Option<f64>, told: f64, within: f64, what: &str) {
    let found = found.unwrap_or_else(|| panic!("{what}: nothing"));
    assert!(
        (found - told).abs() <= within + 1e-9,
        "{what}: {found}, told {told}"
    );
}

const SILENCE: f64 = -300.0;

#[test]
fn integrated_loudness_cases_1_to_6() {
    for (what, parts, told) in [
        ("M020", vec![(20.0, -23.0)], -23.0),
        ("M021", vec![(20.0, -33.0)], -33.0),
        (
            "M022",
            vec![(10.0, -36.0), (60.0, -23.0), (10.0, -36.0)],
            -23.0,
        ),
        (
            "M023",
            vec![
                (10.0, -72.0),
                (10.0, -36.0),
                (60.0, -23.0),
                (10.0, -36.0),
                (10.0, -72.0),
            ],
            -23.0,
        ),
        (
            "M024",
            vec![(20.0, -26.0), (20.1, -20.0), (20.0, -26.0)],
            -23.0,
        ),
    ] {
        let found = measured(&sine(&parts, 2), 2);
        near(found.integrated_lufs, told, 0.1, what);
        if parts.len() == 1 {
            near(found.max_momentary_lufs, told, 0.1, what);
            near(found.max_short_term_lufs, told, 0.1, what);
        }
    }
    let five = [-28.0, -28.0, -24.0, -30.0, -30.0];
    let found = measured(&tone(1000.0, &[(20.0, 0.0)], &five), 5);
    near(found.integrated_lufs, -23.0, 0.1, "M025");
}

#[test]
fn calibration() {
    let one = measured(&tone(997.0, &[(10.0, 0.0)], &[0.0]), 1);
    near(one.integrated_lufs, -3.01, 0.01, "M014");
    let two = measured(&tone(997.0, &[(10.0, -20.0)], &[0.0, 0.0]), 2);
    near(two.integrated_lufs, -20.0, 0.01, "M015");
    near(
        measured(&sine(&[(20.0, -23.0)], 2), 2).integrated_lufs,
        -22.993,
        0.005,
        "M016",
    );
}

/// What the meter shows while sound goes by: its lowest and highest look after a while.
fn shown(samples: &[f32], after_s: f64, short_term: bool) -> (f64, f64) {
    let mut meter = LoudnessMeter::new(2, RATE).expect("a meter");
    let (mut least, mut most) = (f64::MAX, f64::MIN);
    for (nth, look) in samples.chunks(2 * 480).enumerate() {
        meter.hear(look);
        let (momentary, short) = meter.take_loudest();
        let now = if short_term { short } else { momentary };
        if let Some(now) = now.filter(|_| nth as f64 * 0.01 > after_s) {
            (least, most) = (least.min(now), most.max(now));
        }
    }
    (least, most)
}

#[test]
fn short_term_and_momentary_stay_where_bursts_repeat() {
    let bursts = [(1.34, -20.0), (1.66, -30.0)].repeat(5);
    let (least, most) = shown(&sine(&bursts, 2), 3.02, true);
    assert!(least >= -23.1 && most <= -22.9, "M028: {least} to {most}");
    let bursts = [(0.18, -20.0), (0.22, -30.0)].repeat(25);
    let (least, most) = shown(&sine(&bursts, 2), 1.0, false);
    assert!(least >= -23.1 && most <= -22.9, "M031: {least} to {most}");
}

#[test]
fn a_burst_is_found_wherever_it_lies() {
    for i in 0..20 {
        let before = 0.15 * f64::from(i);
        let long = sine(&[(before, SILENCE), (3.0, -23.0), (1.0, SILENCE)], 2);
        near(measured(&long, 2).max_short_term_lufs, -23.0, 0.1, "M029");
        let before = 0.02 * f64::from(i);
        let short = sine(&[(before, SILENCE), (0.4, -23.0), (1.0, SILENCE)], 2);
        near(measured(&short, 2).max_momentary_lufs, -23.0, 0.1, "M032");
    }
}

#[test]
fn each_burst_of_a_row_is_told_apart() {
    let mut meter = LoudnessMeter::new(2, RATE).expect("a meter");
    for i in 0..20 {
        let wait = 0.15 * f64::from(i);
        let told = f64::from(i) - 38.0;
        meter.hear(&sine(
            &[(wait, SILENCE), (3.0, told), (3.0 - wait, SILENCE)],
            2,
        ));
        near(meter.take_loudest().1, told, 0.1, "M030");
    }
    let mut meter = LoudnessMeter::new(2, RATE).expect("a meter");
    for i in 0..20 {
        let wait = 0.02 * f64::from(i);
        let told = f64::from(i) - 38.0;
        meter.hear(&sine(
            &[(wait, SILENCE), (0.4, told), (0.4 - wait, SILENCE)],
            2,
        ));
        near(meter.take_loudest().0, told, 0.1, "M033");
    }
}

#[test]
fn true_peaks_between_samples() {
    for (what, part, degrees, height, told) in [
        ("M034", 4.0, 0.0, 0.5, -6.0),
        ("M035", 4.0, 45.0, 0.5, -6.0),
        ("M036", 6.0, 60.0, 0.5, -6.0),
        ("M037", 8.0, 67.5, 0.5, -6.0),
        ("M038", 4.0, 45.0, 1.41, 3.0),
    ] {
        let phase = f64::to_radians(degrees);
        let wave = |n: u32| {
            let turn = 2.0 * std::f64::consts::PI * f64::from(n) / part + phase;
            // A tone that begins at once truly gets higher between its first samples.
            (height * (f64::from(n) / 480.0).min(1.0) * turn.sin()) as f32
        };
        let samples: Vec<f32> = (0..RATE * 5).flat_map(|n| [wave(n); 2]).collect();
        let peak = measured(&samples, 2).true_peak_dbtp.expect("a peak");
        assert!(peak <= told + 0.2 && peak >= told - 0.4, "{what}: {peak}");
    }
}

#[test]
fn loudness_range_cases_1_to_4() {
    for (what, levels, told) in [
        ("M040", vec![-20.0, -30.0], 10.0),
        ("M041", vec![-20.0, -15.0], 5.0),
        ("M042", vec![-40.0, -20.0], 20.0),
        ("M043", vec![-50.0, -35.0, -20.0, -35.0, -50.0], 15.0),
    ] {
        let parts: Vec<(f64, f64)> = levels.into_iter().map(|level| (20.0, level)).collect();
        near(measured(&sine(&parts, 2), 2).range_lu, told, 1.0, what);
    }
}

#[test]
fn silence_has_no_loudness() {
    let found = measured(&sine(&[(5.0, SILENCE)], 1), 1);
    assert_eq!(found.integrated_lufs, None);
    assert_eq!(found.true_peak_dbtp, None);
    assert!(LoudnessMeter::new(0, RATE).is_none());
    let short = measured(&sine(&[(0.2, -20.0)], 1), 1);
    assert_eq!(short.integrated_lufs, None);
    assert_eq!(short.range_lu, None);
    assert!(short.true_peak_dbtp.is_some());
}
