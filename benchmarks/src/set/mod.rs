//! A labelled folder: how well breaks are found in it, beside FFmpeg's own
//! filter, and whether every file frame is read.

mod folder;
mod rates;
mod scene;

use std::ops::ControlFlow;
use std::path::Path;

use onestrand_inspect::score::{KnownClip, known_clips};
use onestrand_inspect::{BreakFinder, BreakSettings, PlaneRef, places_of_change};
use onestrand_intake::{Cancel, Ffmpeg, Making, ReadOptions, Source, read};

use self::folder::Scan;
use self::rates::Scored;
use crate::say;
use crate::table::Table;
use crate::trouble::Trouble;

/// The list of known changes in a labelled folder.
const LIST: &str = "shot_changes.csv";

/// Reads every scan of the folder, and prints the tables. Without a list of
/// known changes only the file frames are compared.
///
/// # Errors
/// [`Trouble`] when the folder or its list cannot be read. A scan that cannot
/// be read is a row of the table.
pub(crate) fn measure(folder: &Path) -> Result<(), Trouble> {
    let ffmpeg = Ffmpeg::locate()?;
    let list = folder.join(LIST);
    let known = if list.is_file() {
        known_clips(
            &std::fs::read_to_string(&list).map_err(Trouble::file("read the list", &list))?,
        )?
    } else {
        Vec::new()
    };
    let mut frames = Table::new(&["file", "read", "FFmpeg decodes", ""]);
    let mut scored = Vec::new();
    for scan in folder::scans(folder)? {
        say(&format!("reading {}", scan.name));
        let ours = ours(&ffmpeg, &scan);
        let theirs = scene::scores(ffmpeg.ffmpeg_path(), &scan);
        frames.row(frame_row(&scan, &ours, &theirs));
        let clip = known.iter().find(|clip| clip.file == scan.name);
        if let (Some(clip), Ok(ours), Ok(scores)) = (clip, ours, theirs) {
            scored.push(Scored {
                clip: clip.clone(),
                ours: ours.breaks,
                scores,
            });
        }
    }
    println!(
        "Labelled folder {}\n\nFile frames.\n\n{frames}",
        folder.display()
    );
    if known.is_empty() {
        println!("There is no list of known changes ({LIST}) in it, so breaks are not scored.\n");
        return Ok(());
    }
    let lacking = known
        .iter()
        .filter(|clip| !scored.iter().any(|s| s.clip.file == clip.file));
    let lacking: Vec<&str> = lacking.map(|clip: &KnownClip| clip.file.as_str()).collect();
    if !lacking.is_empty() {
        println!("In the list but not scored: {}\n", lacking.join(", "));
    }
    rates::print(&scored);
    Ok(())
}

/// What our reading found.
struct Found {
    frames: u64,
    breaks: Vec<u32>,
}

fn ours(ffmpeg: &Ffmpeg, scan: &Scan) -> Result<Found, Trouble> {
    let (source, _) = Source::open(ffmpeg, std::slice::from_ref(&scan.path))?;
    let options = ReadOptions {
        making: Making::PlanesOnly,
        ..ReadOptions::default()
    };
    let mut finder = BreakFinder::new(BreakSettings::default());
    let mut findings = Vec::new();
    let mut wrong = None;
    let mut sink = |frame: onestrand_intake::FileFrame| match PlaneRef::new(frame.plane.bytes()) {
        Ok(plane) => {
            findings.extend(finder.push(plane).findings);
            ControlFlow::Continue(())
        }
        Err(error) => {
            wrong = Some(error);
            ControlFlow::Break(())
        }
    };
    let end = read(ffmpeg, &source, &options, &Cancel::new(), &mut sink)?;
    if let Some(error) = wrong {
        return Err(error.into());
    }
    findings.extend(finder.finish());
    Ok(Found {
        frames: end.frames,
        breaks: places_of_change(&findings),
    })
}

fn frame_row(
    scan: &Scan,
    ours: &Result<Found, Trouble>,
    theirs: &Result<Vec<f64>, Trouble>,
) -> [String; 4] {
    let verdict = match (ours, theirs) {
        (Ok(ours), Ok(theirs)) if ours.frames == theirs.len() as u64 => "same".to_owned(),
        (Ok(_), Ok(_)) => "DIFFERS".to_owned(),
        (Err(trouble), Ok(_)) => format!("NOT READ: {trouble}"),
        (Ok(_), Err(trouble)) => format!("only we read it: {trouble}"),
        (Err(trouble), Err(_)) => format!("neither reads it: {trouble}"),
    };
    let count = |frames: Option<u64>| frames.map_or("-".to_owned(), |n| n.to_string());
    [
        scan.name.clone(),
        count(ours.as_ref().ok().map(|found| found.frames)),
        count(theirs.as_ref().ok().map(|scores| scores.len() as u64)),
        verdict,
    ]
}
