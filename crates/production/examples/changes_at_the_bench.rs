//! Strong changes inside takes of a film: which are told, and what share of the time of
//! [`bench_room`] goes into them.
//!
//! `cargo run --release -p onestrand-production --example changes_at_the_bench FILM`
//!
//! What is timed for them is what the landmarks do: level and change of every frame are
//! read out of the workprints, and looked through take by take. Both are timed in turn
//! in one run; the medians are told.
#![expect(clippy::print_stdout, reason = "a program that prints its figures")]

use std::error::Error;
use std::path::Path;
use std::time::{Duration, Instant};

use onestrand_inspect::{SeenFrame, StrongChange, strong_changes};
use onestrand_production::{Production, bench_room, list_rolls};
use onestrand_store::Workprints;

/// Rounds of both.
const ROUNDS: usize = 31;

/// The changes of a roll, and how many rows were read for them.
fn changes(
    production: &Production,
    roll: &str,
) -> Result<(usize, Vec<StrongChange>), Box<dyn Error>> {
    let prints = Workprints::open(production.dir())?;
    let seen = prints.light_and_change(roll)?;
    let mut found = Vec::new();
    for take in production.takes_of(roll)? {
        let before = |end: u32| seen.partition_point(|row| row.0 < end);
        let frames: Vec<SeenFrame> = seen[before(take.first)..before(take.thrown)]
            .iter()
            .map(|(_, level, change)| SeenFrame {
                level: *level as f32,
                change: *change as f32,
            })
            .collect();
        found.extend(strong_changes(&frames, take.first));
    }
    Ok((seen.len(), found))
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times[times.len() / 2]
}

fn main() -> Result<(), Box<dyn Error>> {
    let film = std::env::args().nth(1).ok_or("name a film")?;
    let production = Production::open(Path::new(&film))?;
    let rolls: Vec<String> = list_rolls(&production)?
        .into_iter()
        .map(|roll| roll.roll)
        .collect();
    for roll in &rolls {
        let (rows, found) = changes(&production, roll)?;
        println!("{roll}: {rows} rows, {} strong changes", found.len());
        for change in found {
            println!(
                "  {roll}·{} {:?} × {:.1}",
                change.at, change.kind, change.stands_out
            );
        }
    }
    let (mut all, mut of_changes) = (Vec::new(), Vec::new());
    let mut is_on_the_bench = false;
    for _ in 0..ROUNDS {
        let begun = Instant::now();
        is_on_the_bench = bench_room(&production)?.on_the_bench.is_some();
        all.push(begun.elapsed());
        let begun = Instant::now();
        for roll in &rolls {
            changes(&production, roll)?;
        }
        of_changes.push(begun.elapsed());
    }
    let (all, of_changes) = (median(all), median(of_changes));
    println!("a version is on the bench: {is_on_the_bench}");
    println!(
        "the room {all:?}, changes of all rolls {of_changes:?}: {:.1} % of it",
        100.0 * of_changes.as_secs_f64() / all.as_secs_f64()
    );
    Ok(())
}
