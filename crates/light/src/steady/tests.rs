#![expect(clippy::print_stdout, reason = "the figures of docs/LIGHT.md")]

use super::*;
use crate::{GreyPicture, ShiftFinder};

const WIDTH: usize = 240;
const HEIGHT: usize = 180;

/// A scene without end that is known between the pixels too: a sum of waves of many
/// lengths, and edges.
fn scene(x: f64, y: f64) -> f64 {
    let waves = 22.0 * (x * 0.11 + y * 0.05).sin()
        + 18.0 * (y * 0.17 - x * 0.06).cos()
        + 14.0 * (x * 0.43).sin() * (y * 0.37).sin()
        + 8.0 * (x * 0.9 + 1.0).sin() * (y * 0.7).cos();
    let post = if (x.rem_euclid(97.0) - 40.0).abs() < 6.0 {
        25.0
    } else {
        0.0
    };
    let bar = if (y.rem_euclid(71.0) - 30.0).abs() < 4.0 {
        -25.0
    } else {
        0.0
    };
    120.0 + waves + post + bar
}

struct Chance(u64);

impl Chance {
    fn normal(&mut self) -> f64 {
        let mut sum = 0.0;
        for _ in 0..12 {
            self.0 = self
                .0
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            sum += (self.0 >> 11) as f64 / (1_u64 << 53) as f64;
        }
        sum - 6.0
    }
}

/// What is drawn: where the camera looks, the weave of the gate, grain, a light that may
/// change, and a body that walks through.
struct Drawn {
    camera: fn(usize) -> [f64; 2],
    weave: f64,
    grain: f64,
    flicker: f64,
    has_walker: bool,
}

const CALM: Drawn = Drawn {
    camera: |_| [0.0, 0.0],
    weave: 0.0,
    grain: 6.0,
    flicker: 0.0,
    has_walker: false,
};

impl Drawn {
    /// The pictures, and the weave that was planted.
    fn frames(&self, count: usize, seed: u64) -> (Vec<GreyPicture>, Vec<[f64; 2]>) {
        let mut chance = Chance(seed);
        let weave: Vec<[f64; 2]> = (0..count)
            .map(|_| [self.weave * chance.normal(), self.weave * chance.normal()])
            .collect();
        let frames = (0..count)
            .map(|n| self.frame(n, weave[n], &mut chance))
            .collect();
        (frames, weave)
    }

    fn frame(&self, n: usize, weave: [f64; 2], chance: &mut Chance) -> GreyPicture {
        let camera = (self.camera)(n);
        let gain = 1.0 + self.flicker * chance.normal();
        let walker = 20.0 + 2.0 * n as f64;
        let mut grey = Vec::with_capacity(WIDTH * HEIGHT);
        for y in 0..HEIGHT {
            for x in 0..WIDTH {
                let (sx, sy) = (x as f64 - weave[0], y as f64 - weave[1]);
                let is_walker = self.has_walker && (sx - walker).abs() < 26.0 && sy > 40.0;
                // Each pixel gathers the light of its area: four points of it.
                let light: f64 = [(-0.25, -0.25), (0.25, -0.25), (-0.25, 0.25), (0.25, 0.25)]
                    .iter()
                    .map(|(a, b)| {
                        let (px, py) = (sx + a, sy + b);
                        if is_walker {
                            60.0 + 20.0 * ((px - walker) * 0.4).sin() * (py * 0.3).cos()
                        } else {
                            scene(px + camera[0], py + camera[1])
                        }
                    })
                    .sum();
                let value = gain * light / 4.0 + self.grain * chance.normal();
                grey.push(value.round().clamp(0.0, 255.0) as u8);
            }
        }
        GreyPicture::new(grey, WIDTH, HEIGHT).expect("a size")
    }
}

fn steps(frames: &[GreyPicture]) -> Vec<Option<Shift>> {
    let mut finder = ShiftFinder::new(WIDTH, HEIGHT);
    let all = frames.iter().map(|f| finder.next(f).expect("one size"));
    all.skip(1).collect()
}

fn film_speed() -> Fps {
    Fps::new(18, 1).expect("a speed")
}

fn rms(values: impl Iterator<Item = f64>) -> f64 {
    let (mut sum, mut count) = (0.0, 0.0);
    for value in values {
        sum += value * value;
        count += 1.0;
    }
    f64::sqrt(sum / count)
}

/// What is left of planted weave above the frequency that stays, and how far the shift
/// finder was off. Unit: pixels of 240.
fn residual(drawn: &Drawn, count: usize, seed: u64) -> (f64, f64, f64) {
    let (frames, weave) = drawn.frames(count, seed);
    let steps = steps(&frames);
    let off = steps.iter().enumerate().flat_map(|(n, step)| {
        let step = step.expect("a step that can be told");
        let camera = |at: usize, way: usize| (drawn.camera)(at)[way];
        let wanted =
            |way: usize| weave[n + 1][way] - weave[n][way] - (camera(n + 1, way) - camera(n, way));
        [step.across - wanted(0), step.down - wanted(1)]
    });
    let off = rms(off);
    let found = steady(&steps, WIDTH, film_speed());
    let way = |which: usize| weave.iter().map(move |w| w[which]).collect::<Vec<f64>>();
    let mut was = Vec::new();
    let mut left = Vec::new();
    for which in 0..2 {
        let planted = way(which);
        let slow = smooth(&planted, 18.0, STEADY_BELOW);
        for n in 0..count {
            // What should go is the weave above the slow part; slow weave cannot be told
            // from a camera that moves.
            was.push(planted[n] - slow[n]);
            left.push(planted[n] - slow[n] + found.moves[n][which] * WIDTH as f64);
        }
    }
    (off, rms(was.into_iter()), rms(left.into_iter()))
}

#[test]
fn planted_weave_is_taken_out() {
    let pan = |n: usize| [1.7 * n as f64, 0.2 * n as f64];
    let cases = [
        ("still", Drawn { weave: 0.8, ..CALM }, 0.06),
        (
            "grain",
            Drawn {
                weave: 0.8,
                grain: 18.0,
                ..CALM
            },
            0.10,
        ),
        (
            "flicker",
            Drawn {
                weave: 0.8,
                flicker: 0.06,
                ..CALM
            },
            0.06,
        ),
        (
            "pan",
            Drawn {
                weave: 0.8,
                camera: pan,
                ..CALM
            },
            0.08,
        ),
        (
            "walker",
            Drawn {
                weave: 0.8,
                has_walker: true,
                ..CALM
            },
            0.10,
        ),
        ("large", Drawn { weave: 2.0, ..CALM }, 0.10),
    ];
    for (name, drawn, most) in cases {
        let (off, was, left) = residual(&drawn, 36, 11);
        println!("{name}: steps off by {off:.3} px, weave {was:.3} px, left {left:.3} px");
        assert!(left < most && left < was / 5.0, "{name}: {left} of {was}");
    }
}

#[test]
fn a_steady_take_is_left_alone() {
    let (frames, _) = CALM.frames(40, 5);
    let found = steady(&steps(&frames), WIDTH, film_speed());
    let moved = rms(found.moves.iter().flatten().map(|m| m * WIDTH as f64));
    println!("a steady take is moved by {moved:.3} px");
    assert!(moved < 0.06, "{moved}");
}

/// A hand that sways once in two seconds, and a pan that starts from rest, stay.
#[test]
fn the_camera_keeps_its_movement() {
    let sway = |n: usize| [6.0 * (n as f64 * 0.175).sin(), 0.0];
    let start = |n: usize| {
        [
            if n < 24 {
                0.0
            } else {
                0.04 * (n as f64 - 24.0).powi(2)
            },
            0.0,
        ]
    };
    for (name, camera) in [("sway", sway as fn(usize) -> [f64; 2]), ("start", start)] {
        let (frames, _) = Drawn { camera, ..CALM }.frames(48, 9);
        let found = steady(&steps(&frames), WIDTH, film_speed());
        let moved = rms(found.moves.iter().map(|m| m[0] * WIDTH as f64));
        let worst = found
            .moves
            .iter()
            .map(|m| m[0].abs() * WIDTH as f64)
            .fold(0.0, f64::max);
        println!("{name}: moved by {moved:.3} px, at worst {worst:.3} px");
        assert!(moved < 0.15 && worst < 0.6, "{name}: {moved} {worst}");
    }
}

#[test]
fn nothing_to_hold_on_to_is_said() {
    let flat = GreyPicture::new(vec![90; WIDTH * HEIGHT], WIDTH, HEIGHT).expect("a size");
    let steps = steps(&[flat.clone(), flat.clone(), flat]);
    assert_eq!(steps, [None, None]);
    let found = steady(&steps, WIDTH, film_speed());
    assert_eq!(found.not_told, 2);
    assert!(found.moves.iter().flatten().all(|m| m.abs() < 1e-12));
}

#[test]
fn moves_are_bounded() {
    let jump = |across| {
        Some(Shift {
            across,
            down: 0.0,
            agreement: 1.0,
        })
    };
    let mut steps = vec![jump(0.0); 30];
    steps[14] = jump(24.0);
    steps[15] = jump(-24.0);
    let found = steady(&steps, WIDTH, film_speed());
    assert!(found.bounded > 0);
    assert!(found.moves.iter().flatten().all(|m| m.abs() <= MOST_SHIFT));
}
