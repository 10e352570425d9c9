//! How well takes are laid beside each other, on a folder of clips: every shot
//! of each is taken again, slower and faster, closer, lit otherwise, with grain
//! and flicker, and marks hidden in it are looked for.
//!
//! The folder is laid out as `tests/media/video`: clips, and their breaks in
//! `shot_changes.csv`.
//!
//! `cargo run -p onestrand-twins --example retakes -- FOLDER [SEED [PART OF A NAME]]`

#![allow(
    clippy::print_stdout,
    reason = "an example program speaks on standard output"
)]

#[path = "../../tests/it/retake.rs"]
mod retake;
mod shots;
mod table;

use std::error::Error;
use std::path::Path;
use std::time::{Duration, Instant};

use onestrand_film::FramePos;
use onestrand_twins::{
    GreyPicture, MatchWish, MovementReader, TakeMovement, lay_beside, match_points,
};
use retake::{Chance, HEIGHT, Retake, WIDTH};
use shots::Shot;
use table::{Outcome, Table};

const SPEEDS: [f32; 5] = [0.9, 0.95, 1.0, 1.05, 1.1];
const SHARES: [f32; 3] = [1.0, 0.7, 0.5];
const EXPOSURES: [f32; 3] = [-1.0, 0.0, 0.7];
/// Marks hidden in each pair.
const MARKS: usize = 8;

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let folder = arguments.next().ok_or("say the folder with the clips")?;
    let seed = arguments.next().map_or(Ok(1), |word| word.parse())?;
    let part = arguments.next().unwrap_or_default();
    let mut shots = shots::read(Path::new(&folder))?;
    shots.retain(|shot| shot.name.contains(&part));
    let mut table = Table::default();
    let (mut pairs, mut spent) = (0_u32, Duration::ZERO);
    for (which, shot) in shots.iter().enumerate() {
        let mut of_shot = Table::default();
        for (n, (speed, share)) in all_pairs().enumerate() {
            let mut chance = Chance(seed * 1_000_003 + (which * 100 + n) as u64);
            let trial = Trial::new(shot, speed, share, &mut chance);
            let (outcome, time) = trial.run(shot, &mut chance)?;
            (pairs, spent) = (pairs + 1, spent + time);
            for name in trial.names() {
                table.add(&name, &outcome);
            }
            of_shot.add(&shot.name, &outcome);
        }
        print!("{of_shot}");
    }
    println!("\n{}", Table::HEAD);
    print!("{table}");
    println!(
        "{:.0} ms a pair",
        1e3 * spent.as_secs_f64() / f64::from(pairs)
    );
    strangers(&shots, seed)
}

fn all_pairs() -> impl Iterator<Item = (f32, f32)> {
    SPEEDS
        .into_iter()
        .flat_map(|speed| SHARES.into_iter().map(move |share| (speed, share)))
}

/// A shot taken twice.
struct Trial {
    here: Retake,
    there: Retake,
}

impl Trial {
    fn new(shot: &Shot, speed: f32, share: f32, chance: &mut Chance) -> Self {
        let here = Retake {
            seed: chance.bits() % 1000,
            ..Retake::PLAIN
        };
        let free = 1.0 - share;
        let there = Retake {
            start: 0.15 * shot.planes.len() as f32,
            speed,
            wavers: 1.0,
            view: (free * chance.share(), free * chance.share(), share),
            exposure: EXPOSURES[(chance.bits() % 3) as usize],
            mixes: chance.bits().is_multiple_of(2),
            seed: chance.bits() % 1000,
            ..Retake::PLAIN
        };
        Self { here, there }
    }

    fn names(&self) -> [String; 4] {
        let there = &self.there;
        [
            "all".to_owned(),
            format!("speed {:.2}", there.speed),
            format!("shows {:.1} of the width", there.view.2),
            format!("{:+.1} stops", there.exposure),
        ]
    }

    fn run(&self, shot: &Shot, chance: &mut Chance) -> Result<(Outcome, Duration), Box<dyn Error>> {
        let source = shot.planes();
        let length = source.len() as f32;
        let until = (0.85 * length) as usize;
        let here = movement(&self.here.planes(&source[..until], until))?;
        let there = movement(&self.there.planes(&source, usize::MAX))?;
        let began = Instant::now();
        let found = lay_beside(&here, &there);
        let time = began.elapsed();
        let map = match found {
            Ok(map) => map,
            Err(why) => return Ok((Outcome::refused(why), time)),
        };
        let mut outcome = Outcome::laid();
        for _ in 0..MARKS {
            let frame = length * (0.18 + 0.66 * chance.share());
            let frame = FramePos::new(frame as u32)?;
            let truth = self.there.frame_at(self.here.moment(frame.index() as f32));
            let place = map.there(frame);
            let off = place.map(|p| (p.decimal() - f64::from(truth)).abs());
            outcome.mark(off, place.map(|p| p.uncertain));
        }
        let wish = MatchWish::new(here.range(), there.range());
        for point in match_points(&map, Some((&here, &there)), &wish, |_, _| true) {
            let frame = self.here.moment(point.leave.index() as f32);
            let off = point.due.decimal() - f64::from(self.there.frame_at(frame));
            outcome.offer(off.abs());
        }
        Ok((outcome, time))
    }
}

fn movement(planes: &[Vec<u8>]) -> Result<TakeMovement, Box<dyn Error>> {
    let mut reader = MovementReader::new(FramePos::ZERO);
    for plane in planes {
        reader.push(GreyPicture::new(WIDTH, HEIGHT, plane)?)?;
    }
    Ok(reader.finish()?)
}

/// Shots that have nothing to do with each other must not be laid.
fn strangers(shots: &[Shot], seed: u64) -> Result<(), Box<dyn Error>> {
    let (mut pairs, mut laid) = (0, Vec::new());
    for (which, shot) in shots.iter().enumerate() {
        for on in [1, 3, 7, 12] {
            let other = &shots[(which + on) % shots.len()];
            if std::ptr::eq(shot, other) {
                continue;
            }
            let take = |shot: &Shot, seed| {
                let retake = Retake {
                    seed,
                    ..Retake::PLAIN
                };
                movement(&retake.planes(&shot.planes(), 400))
            };
            pairs += 1;
            let map = lay_beside(&take(shot, seed + 1)?, &take(other, seed + 2)?);
            if let Ok(map) = map {
                let strength = map.strength().unwrap_or_default();
                laid.push(format!(
                    "{} on {}: strength {strength:.0}",
                    shot.name, other.name
                ));
            }
        }
    }
    println!(
        "\n{} of {pairs} pairs of different shots were laid",
        laid.len()
    );
    laid.iter().for_each(|line| println!("  {line}"));
    Ok(())
}
