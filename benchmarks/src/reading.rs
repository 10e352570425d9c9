//! Reading: what it costs beside a bare decode of the same clip.

use std::path::{Path, PathBuf};
use std::process::Command;

use onestrand_film::{Fps, Gauge};
use onestrand_intake::Ffmpeg;
use onestrand_store::{Meta, Production, Workprints};

use crate::clips::{self, CODINGS, Clip, Coding};
use crate::cost::{self, Cost};
use crate::figures::{Figures, megabytes, ratio};
use crate::say;
use crate::table::{Table, beside};
use crate::trouble::{Trouble, make_sure};

/// How often each is run, in turn with the other.
const ROUNDS: u32 = 3;
/// Frames of a roll: 50 ft of Super 8.
const ROLL: f64 = 3_600.0;
/// The most memory that reading may take. Source: issue 4. Unit: bytes.
const MEMORY: f64 = 400e6;

/// The costs of one clip, round by round.
#[derive(Debug)]
struct Turns {
    clip: Clip,
    bare: Vec<Cost>,
    ours: Vec<Cost>,
}

/// One coding: a clip of one frame, which shows what starting costs, and the
/// clip itself.
#[derive(Debug)]
struct Measured {
    coding: &'static Coding,
    start: Turns,
    whole: Turns,
}

/// Measures every coding and prints the table.
///
/// # Errors
/// [`Trouble`] when a clip cannot be made or read whole.
pub(crate) fn measure(frames: u32) -> Result<(), Trouble> {
    let ffmpeg = Ffmpeg::locate()?;
    let onestrand = program()?;
    let temp = std::env::temp_dir();
    let room = tempfile::tempdir().map_err(Trouble::file("make a folder", &temp))?;
    say(&format!(
        "painting {frames} pictures in {}",
        room.path().display()
    ));
    let pictures = clips::paint(room.path(), frames)?;
    let bench = Bench {
        ffmpeg: ffmpeg.ffmpeg_path(),
        onestrand: &onestrand,
        room: room.path(),
    };
    let mut all = Vec::new();
    for coding in &CODINGS {
        say(&format!(
            "making and reading {}, {ROUNDS} times beside bare",
            coding.name
        ));
        let turns = |frames| {
            let clip = clips::make(bench.ffmpeg, &pictures, coding, frames)?;
            let turns = bench.in_turn(clip)?;
            turns.clip.remove()?;
            Ok::<Turns, Trouble>(turns)
        };
        all.push(Measured {
            coding,
            start: turns(1)?,
            whole: turns(frames)?,
        });
    }
    print(&all, ffmpeg.version_text());
    Ok(())
}

/// The program under test: it lies beside this one.
pub(crate) fn program() -> Result<PathBuf, Trouble> {
    let here = std::env::current_exe();
    let here = here.map_err(Trouble::file(
        "find the folder of this program",
        Path::new("."),
    ))?;
    let onestrand = here.with_file_name("onestrand");
    match std::fs::metadata(&onestrand) {
        Ok(_) => Ok(onestrand),
        Err(why) => Err(Trouble::file("find the program to measure", &onestrand)(
            why,
        )),
    }
}

/// What runs, and where.
struct Bench<'a> {
    ffmpeg: &'a Path,
    onestrand: &'a Path,
    room: &'a Path,
}

impl Bench<'_> {
    /// Bare, ours, bare, ours …: a machine that grows slower meanwhile hurts both.
    fn in_turn(&self, clip: Clip) -> Result<Turns, Trouble> {
        let (mut bare, mut ours) = (Vec::new(), Vec::new());
        for _ in 0..ROUNDS {
            bare.push(self.bare(&clip)?);
            ours.push(self.ours(&clip)?);
        }
        Ok(Turns { clip, bare, ours })
    }

    fn bare(&self, clip: &Clip) -> Result<Cost, Trouble> {
        let mut command = Command::new(self.ffmpeg);
        command.args(["-v", "error", "-i"]).arg(&clip.input).args([
            "-map",
            "0:v:0",
            "-fps_mode",
            "passthrough",
            "-f",
            "null",
            "-",
        ]);
        cost::of(&mut command, "the bare decode")
    }

    /// One roll brought into a fresh production, and made sure that it is there.
    fn ours(&self, clip: &Clip) -> Result<Cost, Trouble> {
        let dir = self.room.join("production");
        let meta = Meta {
            title: "Benchmark".to_owned(),
            gauge: Gauge::Super8,
            speed: Fps::EIGHTEEN,
        };
        drop(Production::create(&dir, &meta)?);
        let mut command = Command::new(self.onestrand);
        command
            .args(["roll", "add"])
            .arg(&dir)
            .arg("R1")
            .arg(&clip.path);
        let cost = cost::of(&mut command, "onestrand roll add")?;
        is_read(&dir, clip)?;
        std::fs::remove_dir_all(&dir).map_err(Trouble::file("remove the production", &dir))?;
        Ok(cost)
    }
}

fn is_read(dir: &Path, clip: &Clip) -> Result<(), Trouble> {
    let production = Production::open(dir)?;
    let roll = production.roll("R1")?;
    let film_frames = u64::from(clip.film_frames);
    make_sure("film frames of the roll", roll.frames.into(), film_frames)?;
    let mut prints = Workprints::open(dir)?;
    let mut pictures = 0;
    for frame in 0..clip.film_frames {
        pictures += u64::from(
            prints
                .picture("R1", frame)?
                .is_some_and(|jpeg| !jpeg.is_empty()),
        );
    }
    make_sure("pictures in the workprint", pictures, film_frames)?;
    let of_file = prints.part_index("R1", 0)?.rows.len() as u64;
    make_sure("file frames in the index", of_file, clip.frames.into())
}

fn median(costs: &[Cost], of: fn(&Cost) -> f64) -> f64 {
    Figures::of(costs.iter().map(of)).median()
}

/// Processor time, bare and ours. Unit: seconds.
fn processor(turns: &Turns) -> [f64; 2] {
    [&turns.bare, &turns.ours].map(|costs| median(costs, |cost| cost.processor))
}

/// What a longer clip would take, in a straight line from one of one frame and
/// one of `frames`.
fn carried_on(one: f64, whole: f64, frames: f64, to: f64) -> f64 {
    one + (whole - one) / (frames - 1.0) * (to - 1.0)
}

fn print(all: &[Measured], version: &str) {
    println!("Reading, 1440×1080: `onestrand roll add` (pictures, planes, breaks, index, store,");
    println!("hash) beside a bare decode by FFmpeg {version}. Processor time of all processes,");
    println!(
        "medians of {ROUNDS} runs of each in turn. start: what a clip of one frame costs more than"
    );
    println!("bare; whole roll: the ratio carried on in a straight line to {ROLL} frames, for");
    println!("information; spread: least and greatest ratio of a pair.\n");
    print!("{}", ratios(all));
    println!();
    if crate::memory::can_be_seen() {
        print!("{}", memory(all));
    } else {
        println!("Memory: not measured, this kernel does not name the children of a process.");
    }
    println!();
}

fn ratios(all: &[Measured]) -> Table {
    let mut table = Table::new(&[
        "clip",
        "frames",
        "kB/frame",
        "bare ms/f",
        "ours ms/f",
        "start s",
        "wall ratio",
        "whole roll",
        "spread",
        "ratio",
        "target",
        "",
    ]);
    for one in all {
        let whole = &one.whole;
        let frames = f64::from(whole.clip.frames);
        let [bare, ours] = processor(whole);
        let [bare_start, ours_start] = processor(&one.start);
        let roll =
            carried_on(ours_start, ours, frames, ROLL) / carried_on(bare_start, bare, frames, ROLL);
        let wall = median(&whole.ours, |cost| cost.wall) / median(&whole.bare, |cost| cost.wall);
        let pairs = whole.ours.iter().zip(&whole.bare);
        let pairs = Figures::of(pairs.map(|(ours, bare)| ours.processor / bare.processor));
        let [target, verdict] = beside(ours / bare, one.coding.at_most, ratio);
        table.row([
            one.coding.name.to_owned(),
            whole.clip.frames.to_string(),
            format!("{:.0}", whole.clip.bytes as f64 / frames / 1e3),
            format!("{:.2}", bare / frames * 1e3),
            format!("{:.2}", ours / frames * 1e3),
            format!("{:.2}", ours_start - bare_start),
            ratio(wall),
            ratio(roll),
            format!("{}–{}", ratio(pairs.best()), ratio(pairs.worst())),
            ratio(ours / bare),
            target,
            verdict,
        ]);
    }
    table
}

fn memory(all: &[Measured]) -> Table {
    let mut table = Table::new(&["memory while reading", "bare", "ours", "target", ""]);
    let peak = |costs: &[Cost]| Figures::of(costs.iter().map(|cost| cost.peak as f64)).worst();
    for one in all {
        let [target, verdict] = beside(peak(&one.whole.ours), Some(MEMORY), megabytes);
        table.row([
            one.coding.name.to_owned(),
            megabytes(peak(&one.whole.bare)),
            megabytes(peak(&one.whole.ours)),
            target,
            verdict,
        ]);
    }
    table
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_starting_costs_is_not_counted_for_each_frame() {
        // Half a second to start, then 10 ms a frame.
        let of = |frames: f64| 0.5 + 0.01 * frames;
        let roll = carried_on(of(1.0), of(288.0), 288.0, 3_600.0);
        assert!((roll - of(3_600.0)).abs() < 1e-9, "{roll}");
    }
}
