#![expect(clippy::print_stdout, reason = "the figures of docs/LIGHT.md")]

use super::*;

struct Chance(u64);

impl Chance {
    fn even(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.even()).sum::<f64>() - 6.0
    }
}

fn film_speed() -> Fps {
    Fps::new(18, 1).expect("a speed")
}

/// Frames of a scene whose light follows `course` and flickers by `flicker` (both log10),
/// each zone with a little noise of its own.
fn frames(
    count: usize,
    seed: u64,
    course: impl Fn(usize) -> f64,
    flicker: f64,
) -> (Vec<Option<Zones>>, Vec<f64>) {
    let mut chance = Chance(seed);
    let ground: Zones = std::array::from_fn(|_| -0.9 + 0.6 * chance.even());
    let planted: Vec<f64> = (0..count).map(|_| flicker * chance.normal()).collect();
    let frames = (0..count)
        .map(|n| {
            Some(std::array::from_fn(|zone| {
                ground[zone] + course(n) + planted[n] + 0.002 * chance.normal()
            }))
        })
        .collect();
    (frames, planted)
}

fn rms(values: &[f64]) -> f64 {
    (values.iter().map(|v| v * v).sum::<f64>() / values.len() as f64).sqrt()
}

/// What is left of the jumps from frame to frame, which is what the eye sees.
fn jumps(light: &[f64]) -> f64 {
    let steps: Vec<f64> = light.windows(2).map(|w| w[1] - w[0]).collect();
    rms(&steps)
}

#[test]
fn planted_flicker_is_evened() {
    for flicker in [0.01, 0.03, 0.06] {
        let (frames, planted) = frames(120, 3, |_| 0.0, flicker);
        let found = flicker_of(&frames, film_speed());
        let after: Vec<f64> = planted
            .iter()
            .zip(&found)
            .map(|(p, f)| p + f.given)
            .collect();
        let (was, left) = (jumps(&planted), jumps(&after));
        println!(
            "flicker {flicker}: jumps {was:.4} become {left:.4}, spread {:.4} becomes {:.4}",
            rms(&planted),
            rms(&after)
        );
        assert!(left < was * 0.25, "{flicker}: {left} of {was}");
    }
}

/// A lamp's beat of two a second.
#[test]
fn a_beat_is_evened() {
    let beat = |n: usize| 0.05 * (n as f64 / 18.0 * 2.0 * std::f64::consts::TAU).sin();
    let (frames, _) = frames(120, 4, beat, 0.0);
    let found = flicker_of(&frames, film_speed());
    let was: Vec<f64> = (0..120).map(beat).collect();
    let after: Vec<f64> = was.iter().zip(&found).map(|(p, f)| p + f.given).collect();
    let inner = 12..108;
    let share = rms(&after) / rms(&was);
    let inside = rms(&after[inner.clone()]) / rms(&was[inner]);
    println!("beat: {share:.3} of it is left, away from the ends {inside:.3}");
    // At the ends of a take there are neighbours on one side only.
    assert!(share < 0.4 && inside < 0.25, "{share} {inside}");
}

#[test]
fn fades_and_steps_stay() {
    let fade_out = |n: usize| {
        if n < 40 {
            0.0
        } else {
            -0.045 * (n as f64 - 40.0).min(30.0)
        }
    };
    let sun = |n: usize| if n < 50 { 0.0 } else { 0.12 };
    let lamp = |n: usize| if n < 50 { 0.0 } else { -0.6 };
    let courses: [(&str, &dyn Fn(usize) -> f64); 3] =
        [("fade", &fade_out), ("sun", &sun), ("lamp", &lamp)];
    for (name, course) in courses {
        let (frames, planted) = frames(100, 6, course, 0.0);
        let found = flicker_of(&frames, film_speed());
        let worst = found.iter().map(|f| f.given.abs()).fold(0.0, f64::max);
        println!("{name}: at most {worst:.4} given where nothing flickers");
        assert!(worst < 0.02, "{name}: {worst}");
        assert!(planted.iter().all(|p| p.abs() < 1e-12));
    }
}

/// Flicker on top of a fade: the fade stays, the flicker goes.
#[test]
fn flicker_on_a_fade() {
    let fade = |n: usize| -0.012 * n as f64;
    let (frames, planted) = frames(100, 8, fade, 0.03);
    let found = flicker_of(&frames, film_speed());
    let left: Vec<f64> = planted
        .iter()
        .zip(&found)
        .map(|(p, f)| p + f.given)
        .collect();
    println!(
        "on a fade: jumps {:.4} become {:.4}",
        jumps(&planted),
        jumps(&left)
    );
    assert!(jumps(&left) < jumps(&planted) * 0.45);
    let slow = left.iter().sum::<f64>() / 100.0;
    assert!(slow.abs() < 0.01, "{slow}");
}

#[test]
fn a_flash_is_no_flicker_and_gifts_are_bounded() {
    let flash = |n: usize| if n == 50 { 0.9 } else { 0.0 };
    let (frames, _) = frames(100, 2, flash, 0.0);
    let found = flicker_of(&frames, film_speed());
    assert!(found[50].given.abs() < 1e-9 && found[50].found > 0.8);
    let strong = |n: usize| if n.is_multiple_of(2) { 0.2 } else { -0.2 };
    let (frames, _) = self::frames(60, 2, strong, 0.0);
    let found = flicker_of(&frames, film_speed());
    assert!(found.iter().all(|f| f.given.abs() <= MOST));
}

/// A shadow over a third of the picture moves no light.
#[test]
fn a_shadow_is_no_flicker() {
    let (mut frames, _) = frames(60, 2, |_| 0.0, 0.0);
    for (n, frame) in frames.iter_mut().enumerate() {
        let zones = frame.as_mut().expect("a frame");
        let first = n % 40;
        for zone in &mut zones[first..(first + 16).min(ALL_ZONES)] {
            *zone -= 0.3;
        }
    }
    let worst = flicker_of(&frames, film_speed())
        .iter()
        .map(|f| f.given.abs())
        .fold(0.0, f64::max);
    println!("shadow: at most {worst:.4}");
    assert!(worst < 0.02, "{worst}");
}

#[test]
fn frames_without_a_picture_say_nothing() {
    let found = flicker_of(&[None, None, None], film_speed());
    assert!(found.iter().all(|f| f.given.abs() < 1e-12));
    let dark = GreyPicture::new(vec![4; 64 * 48], 64, 48).expect("a size");
    let mut watch = FlickerWatch::new(Transfer::Television);
    for _ in 0..9 {
        watch.push(Some(&dark));
    }
    assert!(
        watch
            .found(film_speed())
            .iter()
            .all(|f| f.given.abs() < 1e-12)
    );
}
