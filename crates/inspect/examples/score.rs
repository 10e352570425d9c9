//! Scores the finder of breaks on a folder of clips whose changes are known.
//!
//! The folder holds, for each clip named in `shot_changes.csv`, its measuring
//! planes in `<clip>.gray`, made by
//! `ffmpeg -i CLIP -fps_mode passthrough -vf scale=192:144:flags=area,format=gray -f rawvideo CLIP.gray`,
//! and, if wanted, `baseline_ffmpeg.csv` to compare with.
//!
//! `cargo run -p onestrand-inspect --example score -- FOLDER [-v]`

#![allow(
    clippy::print_stdout,
    reason = "an example program speaks on standard output"
)]

use onestrand_inspect::score::{KnownClip, Rates, Tally, known_clips, tally};
use onestrand_inspect::{
    BreakFinder, BreakSettings, Finding, PLANE_BYTES, PlaneRef, places_of_change,
};
use std::collections::BTreeMap;
use std::error::Error;
use std::path::Path;
use std::time::{Duration, Instant};

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let folder = arguments
        .next()
        .ok_or("say the folder with shot_changes.csv and the .gray files")?;
    let wordy = arguments.next().is_some();
    let folder = Path::new(&folder);
    let clips = known_clips(&std::fs::read_to_string(folder.join("shot_changes.csv"))?)?;
    let baseline = std::fs::read_to_string(folder.join("baseline_ffmpeg.csv")).unwrap_or_default();
    let mut groups: BTreeMap<String, [Tally; 2]> = BTreeMap::new();
    println!(
        "{:<32} {:>5} {:>7} {:>7} {:>5}  {:<22} {:<20} ms",
        "clip", "frames", "cuts", "gradual", "false", "cuts P R F1", "FFmpeg cuts/grad/false"
    );
    for clip in &clips {
        let (findings, frames, time) = read(&folder.join(format!("{}.gray", clip.file)))?;
        let ours = tally(&places_of_change(&findings), &clip.changes);
        let theirs = baseline_of(&baseline, &clip.file);
        print_clip(clip, frames, &ours, &theirs, time);
        if wordy {
            findings
                .iter()
                .for_each(|finding| println!("    {finding:?}"));
        }
        let sums = groups.entry(clip.group.clone()).or_default();
        sums[0] += ours;
        sums[1] += theirs;
    }
    for (group, [ours, theirs]) in groups {
        print_rates(&group, "this finder", &ours);
        if !baseline.is_empty() {
            print_rates(&group, "FFmpeg's scene filter", &theirs);
        }
    }
    Ok(())
}

fn read(path: &Path) -> Result<(Vec<Finding>, usize, Duration), Box<dyn Error>> {
    let bytes = std::fs::read(path).map_err(|e| format!("{}: {e}", path.display()))?;
    let mut finder = BreakFinder::new(BreakSettings::default());
    let mut findings = Vec::new();
    let began = Instant::now();
    for plane in bytes.chunks_exact(PLANE_BYTES) {
        findings.extend(finder.push(PlaneRef::new(plane)?).findings);
    }
    findings.extend(finder.finish());
    Ok((findings, bytes.len() / PLANE_BYTES, began.elapsed()))
}

/// The first row of the baseline for a clip.
fn baseline_of(table: &str, file: &str) -> Tally {
    let row = table
        .lines()
        .find(|row| row.split(',').next() == Some(file));
    let counts: Vec<u32> = row.map_or(Vec::new(), |row| {
        row.rsplit(',')
            .take(5)
            .filter_map(|text| text.parse().ok())
            .collect()
    });
    match counts[..] {
        [false_alarms, gradual, gradual_hit, cuts, cuts_hit] => Tally {
            cuts_hit,
            cuts,
            gradual_hit,
            gradual,
            false_alarms,
        },
        _ => Tally::default(),
    }
}

fn print_clip(clip: &KnownClip, frames: usize, ours: &Tally, theirs: &Tally, time: Duration) {
    let Rates {
        precision,
        recall,
        f1,
    } = ours.cut_rates();
    println!(
        "{:<32} {:>5} {:>3}/{:<3} {:>3}/{:<3} {:>5}  {:.3} {:.3} {:.3}      {:>3} {:>3} {:>3}         {:.3}",
        clip.file,
        frames,
        ours.cuts_hit,
        ours.cuts,
        ours.gradual_hit,
        ours.gradual,
        ours.false_alarms,
        precision,
        recall,
        f1,
        theirs.cuts_hit,
        theirs.gradual_hit,
        theirs.false_alarms,
        time.as_secs_f64() * 1e3 / frames.max(1) as f64
    );
}

fn print_rates(group: &str, who: &str, tally: &Tally) {
    let (cuts, all) = (tally.cut_rates(), tally.rates());
    println!(
        "{group:<13} {who:<22} cuts P {:.3} R {:.3} F1 {:.3}   all changes P {:.3} R {:.3} F1 {:.3}   false alarms {}",
        cuts.precision, cuts.recall, cuts.f1, all.precision, all.recall, all.f1, tally.false_alarms
    );
}
