//! The mix: places, levels, the same however it is asked for.

use onestrand_film::Fps;
use onestrand_sound::{
    Compressor, Ducked, Equaliser, Fade, FadeShape, LevelPoint, MemorySound, Mix, MixColumn,
    MixCue, MixRun, Round, SoundReader, WARM_UP,
};
use proptest::prelude::*;

pub(crate) fn plain(frames: u32, leader: u32, speed: Fps) -> Mix {
    Mix {
        speed,
        leader,
        frames,
        channels: 1,
        db: 0.0,
        ceiling_db: 0.0,
        start_mark: None,
        columns: vec![MixColumn::default()],
        cues: Vec::new(),
    }
}

pub(crate) fn cue(at: i64, frames: u32) -> MixCue {
    MixCue {
        column: 0,
        sound: 0,
        first: 0,
        last: u64::MAX,
        round: None,
        at,
        frames,
        db: 0.0,
        line: Vec::new(),
        fade_in: Fade::default(),
        fade_out: Fade::default(),
        balance: 0.0,
    }
}

pub(crate) fn sounds(all: Vec<Vec<f32>>) -> Vec<Box<dyn SoundReader>> {
    let one = |samples| Box::new(MemorySound::new(samples, 1)) as Box<dyn SoundReader>;
    all.into_iter().map(one).collect()
}

pub(crate) fn whole(run: &mut MixRun) -> Vec<f32> {
    let mut out = vec![0.0; run.mix().samples() as usize * run.channels()];
    run.render(0, &mut out).expect("it renders");
    out
}

fn speed(text: &str) -> Fps {
    text.parse().expect("a speed")
}

/// S012, S013, and the rule of the command reference.
#[test]
fn a_mix_has_exactly_its_samples() {
    for (fps, frames, told) in [
        ("16", 1, 3000),
        ("18", 3, 8000),
        ("18", 1, 2667),
        ("18", 2652, 7_072_000),
        ("24", 1, 2000),
        ("25", 1, 1920),
        ("50/3", 1, 2880),
        ("30000/1001", 5, 8008),
        ("18.37", 2652, 6_929_560),
    ] {
        let mix = plain(frames, 0, speed(fps));
        assert_eq!(mix.samples(), told, "{frames} at {fps}");
        let exact = mix.exact_samples().expect("a sum").ceil();
        assert_eq!(exact, i64::try_from(told).expect("small"));
    }
    let long = plain(2652, 180, Fps::EIGHTEEN);
    assert_eq!(long.samples(), 7_552_000);
    assert_eq!(long.sample_of(-180), 0);
    assert_eq!(long.sample_of(0), 480_000);
    assert_eq!(long.sample_of(1), 482_666);
}

proptest! {
    #[test]
    fn a_cue_begins_on_its_sample(
        at in 0_i64..300, leader in 0_u32..200,
        fps in prop::sample::select(vec!["16", "18", "24", "25", "18.37", "30000/1001"]),
    ) {
        let mut mix = plain(400, leader, speed(fps));
        mix.cues = vec![cue(at, 50)];
        let start = mix.sample_of(at);
        let exact = i128::from(leader) + i128::from(at);
        let fps = speed(fps);
        prop_assert_eq!(
            i128::from(start),
            exact * 48_000 * i128::from(fps.den()) / i128::from(fps.num())
        );
        let mut run = MixRun::new(mix, sounds(vec![vec![0.5; 4000]]));
        let out = whole(&mut run);
        let first = out.iter().position(|s| *s != 0.0).expect("it is heard");
        prop_assert_eq!(first as i64, start);
        prop_assert_eq!(out[first].to_bits(), 0.5_f32.to_bits());
        // The sound lasts as long as it does, and what is over clicks no later.
        prop_assert_eq!(out.iter().filter(|s| s.to_bits() == 0.5_f32.to_bits()).count(), 4000);
    }
}

#[test]
fn levels_lines_and_fades() {
    let mut mix = plain(100, 0, speed("24"));
    mix.columns[0].db = -6.0;
    let mut one = cue(10, 80);
    one.db = -4.0;
    one.line = vec![
        LevelPoint { at: 20, db: 0.0 },
        LevelPoint { at: 40, db: -20.0 },
    ];
    mix.cues = vec![one.clone()];
    let out = whole(&mut MixRun::new(
        mix.clone(),
        sounds(vec![vec![0.5; 400_000]]),
    ));
    let db = |frame: u32| 20.0 * (f64::from(out[frame as usize * 2000]) / 0.5).log10();
    for (frame, told) in [
        (12, -10.0),
        (30, -10.0),
        (40, -20.0),
        (50, -30.0),
        (70, -30.0),
    ] {
        assert!((db(frame) - told).abs() < 0.01, "{frame}: {}", db(frame));
    }
    one.line = Vec::new();
    one.db = 6.0;
    one.fade_in = Fade {
        frames: 20,
        shape: FadeShape::EqualPower,
    };
    one.fade_out = Fade {
        frames: 20,
        shape: FadeShape::Linear,
    };
    mix.cues = vec![one];
    let out = whole(&mut MixRun::new(mix, sounds(vec![vec![0.5; 400_000]])));
    let at = |frame: u32| f64::from(out[frame as usize * 2000]) / 0.5;
    assert!(
        (at(20) - 0.5_f64.sqrt()).abs() < 1e-3,
        "half way up: {}",
        at(20)
    );
    assert!((at(40) - 1.0).abs() < 1e-3);
    assert!((at(80) - 0.5).abs() < 1e-3, "half way down: {}", at(80));
    assert!(at(10).abs() < 1e-6);
}

#[test]
fn a_sound_goes_round_without_a_jump() {
    // A sine whose round is no whole number of waves: crossed with equal power it stays
    // within its own height times the root of two, and jumps nowhere.
    let wave: Vec<f32> = (0..48_000)
        .map(|n| (0.3 * (f64::from(n) * 0.031).sin()) as f32)
        .collect();
    let mut mix = plain(240, 0, speed("24"));
    let mut one = cue(0, 240);
    one.round = Some(Round {
        from: 5000,
        to: 40_000,
        crossed: 2400,
    });
    mix.cues = vec![one];
    let out = whole(&mut MixRun::new(mix, sounds(vec![wave])));
    assert_eq!(out.len(), 480_000);
    let jump = out
        .windows(2)
        .map(|two| (two[1] - two[0]).abs())
        .fold(0.0, f32::max);
    assert!(jump < 0.3 * 0.031 * 1.6, "{jump}");
    let late = &out[400_000..440_000];
    assert!(
        late.iter().any(|s| s.abs() > 0.25),
        "it is still heard at the end"
    );
}

/// Root of mean square over a stretch, in dB.
fn level_db(samples: &[f32]) -> f64 {
    let power: f64 = samples.iter().map(|s| f64::from(*s).powi(2)).sum();
    10.0 * (power / samples.len() as f64).log10()
}

/// How far a round of these ends rises above, or falls below, the sound beside it. Unit: dB.
fn swell_at_seam(wave: Vec<f32>) -> f64 {
    let mut mix = plain(60, 0, speed("24"));
    let mut one = cue(0, 60);
    let (from, to, crossed) = (10_000, 34_000, 4800);
    one.round = Some(Round { from, to, crossed });
    mix.cues = vec![one];
    let out = whole(&mut MixRun::new(mix, sounds(vec![wave])));
    let middle = usize::try_from(to - crossed / 2).expect("a place");
    level_db(&out[middle - 600..middle + 600]) - level_db(&out[20_000..26_000])
}

#[test]
fn ends_that_are_alike_do_not_swell_where_they_are_crossed() {
    // 24,000 samples are whole waves of 400 Hz: both ends are the same.
    let tone: Vec<f32> = (0..48_000)
        .map(|n| (0.3 * (f64::from(n) * 400.0 / 48_000.0 * std::f64::consts::TAU).sin()) as f32)
        .collect();
    let alike = swell_at_seam(tone);
    assert!(alike.abs() < 0.1, "{alike} dB, with equal power 3");
    // Noise has nothing in common with itself half a second later.
    let noise: Vec<f32> = (0..48_000_u32)
        .map(|n| {
            let mixed = n.wrapping_mul(2_654_435_761).rotate_left(13) ^ n.wrapping_mul(40_503);
            0.3 * (f64::from(mixed.wrapping_mul(2_246_822_519)) / 2_147_483_648.0 - 1.0) as f32
        })
        .collect();
    let apart = swell_at_seam(noise);
    assert!(apart.abs() < 0.7, "{apart} dB");
}

#[test]
fn the_start_mark_is_one_frame_at_its_place() {
    let mut mix = plain(100, 50, Fps::EIGHTEEN);
    mix.start_mark = Some(36);
    let out = whole(&mut MixRun::new(mix.clone(), Vec::new()));
    let first = out.iter().position(|s| *s != 0.0).expect("a mark");
    let last = out.iter().rposition(|s| *s != 0.0).expect("a mark");
    let (from, to) = (mix.sample_of(-36) as usize, mix.sample_of(-35) as usize);
    assert!(first >= from && first <= from + 1, "{first}, {from}");
    assert!(last < to && last >= to - 2);
    let peak = out.iter().fold(0.0_f32, |m, s| m.max(s.abs()));
    assert!((peak - 0.1).abs() < 1e-3);
    mix.start_mark = Some(51);
    assert!(
        whole(&mut MixRun::new(mix, Vec::new()))
            .iter()
            .all(|s| *s == 0.0)
    );
}

#[test]
fn balance_and_two_channels() {
    let mut mix = plain(10, 0, speed("24"));
    mix.channels = 2;
    let mut left = cue(0, 10);
    left.balance = -1.0;
    mix.cues = vec![left];
    let out = whole(&mut MixRun::new(mix, sounds(vec![vec![0.5; 48_000]])));
    assert_eq!((out[2000], out[2001]), (0.5, 0.0));
}

/// Noise with words' rhythm, so that compressors and duckers have work.
pub(crate) fn speech(seed: u64, seconds: u32) -> Vec<f32> {
    let mut state = seed | 1;
    (0..seconds * 48_000)
        .map(|n| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let noise = (state >> 40) as f32 / (1_u32 << 23) as f32 - 1.0;
            let word = (n / 17_000) % 3 != 2;
            noise * if word { 0.6 } else { 0.002 }
        })
        .collect()
}

pub(crate) fn rich(channels: usize) -> (Mix, Vec<Vec<f32>>) {
    let mut mix = plain(900, 20, speed("18.37"));
    mix.channels = channels;
    mix.ceiling_db = -1.0;
    mix.columns = vec![
        MixColumn {
            equaliser: Equaliser {
                low_cut_hz: Some(80.0),
                presence_db: 4.0,
                ..Equaliser::default()
            },
            compressor: Some(Compressor {
                threshold_db: -20.0,
                ratio: 3.0,
                make_up_db: 8.0,
            }),
            ..MixColumn::default()
        },
        MixColumn {
            db: 3.0,
            ducked: Some(Ducked {
                under: 0,
                by_db: 12.0,
            }),
            equaliser: Equaliser {
                lows_db: 3.0,
                highs_db: -4.0,
                ..Equaliser::default()
            },
            ..MixColumn::default()
        },
    ];
    let mut voice = cue(30, 700);
    voice.fade_in = Fade {
        frames: 5,
        shape: FadeShape::Linear,
    };
    let mut bed = cue(-20, 920);
    bed.column = 1;
    bed.sound = 1;
    bed.round = Some(Round {
        from: 20_000,
        to: 180_000,
        crossed: 9000,
    });
    mix.cues = vec![voice, bed];
    (mix, vec![speech(7, 40), speech(99, 5)])
}

#[test]
fn the_same_mix_is_the_same_bit_for_bit_in_any_blocks() {
    let (mix, all) = rich(2);
    let first = whole(&mut MixRun::new(mix.clone(), sounds(all.clone())));
    let mut run = MixRun::new(mix, sounds(all));
    let mut second = vec![0.0; first.len()];
    let (mut at, mut size) = (0, 2);
    while at < second.len() {
        let end = (at + size).min(second.len());
        run.render(at as u64 / 2, &mut second[at..end])
            .expect("it renders");
        at = end;
        size = (size * 7 % 9973 + 1) * 2;
    }
    let same = first
        .iter()
        .zip(&second)
        .all(|(a, b)| a.to_bits() == b.to_bits());
    assert!(same, "differs in blocks");
}

#[test]
fn asked_for_from_the_middle_it_is_the_same_within_90_db() {
    let (mix, all) = rich(1);
    let straight = whole(&mut MixRun::new(mix.clone(), sounds(all.clone())));
    let mut run = MixRun::new(mix, sounds(all));
    for first in [WARM_UP + 333, 700_001, 1_500_000, 900_017, 2_000_000] {
        let first = first as usize;
        let mut out = vec![0.0; 96_000];
        run.render(first as u64, &mut out).expect("it renders");
        let far = straight[first..first + 96_000]
            .iter()
            .zip(&out)
            .map(|(a, b)| (a - b).abs());
        let far = far.fold(0.0, f32::max);
        assert!(20.0 * far.log10() < -90.0, "{first}: {far}");
    }
}

#[test]
fn stems_add_up_to_the_mix_before_the_ceiling() {
    let (mut mix, all) = rich(1);
    mix.ceiling_db = 30.0;
    let together = whole(&mut MixRun::new(mix.clone(), sounds(all.clone())));
    let stem = |n| whole(&mut MixRun::new(mix.clone(), sounds(all.clone())).stem(n));
    let (voice, bed) = (stem(0), stem(1));
    for (n, sample) in together.iter().enumerate() {
        assert!((voice[n] + bed[n] - sample).abs() < 1e-5, "{n}");
    }
}

/// The highest that a channel gets at eight places between each two samples, by a sinc of
/// 256 samples under a window: an independent and slow way.
fn between_samples(samples: &[f32], channels: usize) -> f64 {
    let one: Vec<f64> = samples
        .iter()
        .step_by(channels)
        .map(|s| f64::from(*s))
        .collect();
    let mut highest = 0.0_f64;
    for at in 128..one.len() - 128 {
        if one[at].abs().max(one[at + 1].abs()) < 0.4 {
            continue;
        }
        for part in 0..8 {
            let x = f64::from(part) / 8.0;
            let near = (0..256).map(|n| {
                let far = f64::from(n) - 127.0 - x;
                let window = (std::f64::consts::PI * far / 256.0).cos().powi(2);
                let turn = std::f64::consts::PI * far;
                let sinc = if turn.abs() < 1e-9 {
                    1.0
                } else {
                    turn.sin() / turn
                };
                one[at + n as usize - 127] * sinc * window
            });
            highest = highest.max(near.sum::<f64>().abs());
        }
    }
    20.0 * highest.log10()
}

#[test]
fn nothing_gets_over_the_ceiling_between_samples_either() {
    let (mut mix, all) = rich(2);
    mix.db = 20.0;
    // White noise has as much at the very edge of what 48 kHz can hold as anywhere, where
    // no filter of finite length tells what lies between; sounds have next to nothing there.
    let soft = |s: Vec<f32>| -> Vec<f32> {
        s.windows(5)
            .map(|w| (w[0] + 4.0 * w[1] + 6.0 * w[2] + 4.0 * w[3] + w[4]) / 16.0)
            .collect()
    };
    let all = all.into_iter().map(soft).collect();
    let mut run = MixRun::new(mix, sounds(all));
    let mut out = vec![0.0; 2 * 96_000];
    run.render(100_000, &mut out).expect("it renders");
    let loudest = out.iter().fold(0.0_f32, |m, s| m.max(s.abs()));
    let peak = between_samples(&out, 2);
    assert!(peak <= -0.9, "{peak}, samples {loudest}");
    assert!(
        peak >= -1.6,
        "and it is not pressed more than it must be: {peak}"
    );
}

#[test]
fn a_quiet_mix_is_not_touched_by_the_limiter() {
    let mut mix = plain(30, 0, speed("24"));
    mix.ceiling_db = -1.0;
    mix.cues = vec![cue(0, 30)];
    let sound = speech(3, 2)
        .into_iter()
        .map(|s| s * 0.3)
        .collect::<Vec<f32>>();
    let out = whole(&mut MixRun::new(mix, sounds(vec![sound.clone()])));
    assert_eq!(out[..50_000], sound[..50_000]);
}

#[test]
fn meters_tell_what_went_by() {
    let mut mix = plain(24, 0, speed("24"));
    mix.cues = vec![cue(0, 24)];
    let mut run = MixRun::new(mix, sounds(vec![vec![0.25; 48_000]]));
    let mut out = vec![0.0; 24_000];
    run.render(0, &mut out).expect("it renders");
    let (columns, all) = run.meters();
    assert!((columns[0].peak - 0.25).abs() < 1e-6 && (columns[0].rms - 0.25).abs() < 1e-6);
    assert!((all.peak - 0.25).abs() < 1e-6);
}
