//! How long it takes to look for a strip in a hundred thousand frames.
//!
//! `cargo run --release -p onestrand-proof --example search [FRAMES]`

#![expect(clippy::print_stdout)]

use std::time::Instant;

use onestrand_film::Gauge;
use onestrand_proof::{GreyPicture, RollSketches, Sketch, find_strips, name_strip};

const WIDE: usize = 96;
const HIGH: usize = 72;

/// A frame of a made-up shot: three soft lights that wander over a ground of their own.
fn frame(shot: u64, at: usize) -> Vec<u8> {
    let part = |n: u64| {
        let mut z = (shot * 16 + n + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        ((z ^ (z >> 31)) >> 40) as f32 / (1_u64 << 24) as f32
    };
    let t = at as f32 / 60.0;
    let lights: [(f32, f32, f32); 3] = std::array::from_fn(|n| {
        let n = n as u64 * 5;
        let x = part(n) + (part(n + 1) - 0.5) * t;
        let y = part(n + 2) + (part(n + 3) - 0.5) * t;
        (x * WIDE as f32, y * HIGH as f32, 6.0 + 14.0 * part(n + 4))
    });
    let level = |at: usize| {
        let (x, y) = ((at % WIDE) as f32, (at / WIDE) as f32);
        let sum: f32 = lights
            .iter()
            .map(|&(cx, cy, r)| (-((x - cx).powi(2) + (y - cy).powi(2)) / (2.0 * r * r)).exp())
            .sum();
        (40.0 + 170.0 * sum).min(255.0) as u8
    };
    (0..WIDE * HIGH).map(level).collect()
}

/// Twelve frames in a column: a photograph without a light box.
fn column(frames: &[Vec<u8>]) -> (usize, usize, Vec<u8>) {
    (WIDE, HIGH * frames.len(), frames.concat())
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let wanted = std::env::args().nth(1).and_then(|n| n.parse().ok());
    let frames: usize = wanted.unwrap_or(100_000);
    let tenth = searched((frames / 10).max(180))?;
    let all = searched(frames.max(1_800))?;
    println!("ten times the frames take {:.1} times as long", all / tenth);
    Ok(())
}

/// Looks for twelve frames among so many, three times. Gives the shortest. Unit: seconds.
fn searched(frames: usize) -> Result<f64, Box<dyn std::error::Error>> {
    let a_roll = 3_600;
    let mut rolls = vec![RollSketches::new()];
    for number in 0..frames {
        if number % a_roll == 0 && number > 0 {
            rolls.push(RollSketches::new());
        }
        let levels = frame(number as u64 / 90, number % 90);
        let sketch = Sketch::of(GreyPicture::new(WIDE, HIGH, &levels)?);
        rolls.last_mut().ok_or("no roll")?.push(Some(&sketch));
    }
    let first = frames * 2 / 3 / 90 * 90 + 20;
    let strip: Vec<Vec<u8>> = (first..first + 12)
        .map(|n| frame(n as u64 / 90, n % 90))
        .collect();
    let (wide, high, levels) = column(&strip);
    let strips = find_strips(GreyPicture::new(wide, high, &levels)?, Gauge::Super8);
    let mut shortest = f64::MAX;
    for _ in 0..3 {
        let start = Instant::now();
        let places = name_strip(&strips, &rolls);
        let took = start.elapsed().as_secs_f64();
        let told = places.first().ok_or("the strip was not found")?;
        let whole = told.roll * a_roll + told.first..told.roll * a_roll + told.end;
        println!(
            "{frames} frames searched in {took:.2} s, {:.1} microseconds a frame: {}, sure {:.3}",
            1e6 * took / frames as f64,
            if whole.contains(&first) {
                "found"
            } else {
                "NOT FOUND"
            },
            told.confidence,
        );
        shortest = shortest.min(took);
    }
    Ok(shortest)
}
