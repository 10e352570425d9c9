//! The shots of clips whose breaks are known.

use std::collections::BTreeMap;
use std::error::Error;
use std::ops::ControlFlow;
use std::path::Path;

use onestrand_intake::{Cancel, Ffmpeg, FileFrame, Making, ReadOptions, Source, read as read_scan};

/// Shorter shots are left out: in three seconds somebody moves.
const SHORTEST: usize = 60;

/// What lies between two breaks.
pub(crate) struct Shot {
    /// Clip and frames.
    pub(crate) name: String,
    pub(crate) planes: Vec<Vec<u8>>,
}

impl Shot {
    pub(crate) fn planes(&self) -> Vec<&[u8]> {
        self.planes.iter().map(Vec::as_slice).collect()
    }
}

/// All shots of the clips that `shot_changes.csv` names. A flash or a foreign
/// frame ends a shot like a break.
pub(crate) fn read(folder: &Path) -> Result<Vec<Shot>, Box<dyn Error>> {
    let table = std::fs::read_to_string(folder.join("shot_changes.csv"))?;
    let mut clips: BTreeMap<&str, Vec<(usize, usize)>> = BTreeMap::new();
    for row in table.lines().skip(1) {
        let cells: Vec<&str> = row.split(',').collect();
        let [clip, kind, start, end, ..] = cells[..] else {
            return Err(format!("a row with too few cells: {row}").into());
        };
        let changes = clips.entry(clip).or_default();
        if kind != "none" {
            changes.push((start.parse()?, end.parse()?));
        }
    }
    let mut shots = Vec::new();
    for (clip, changes) in clips {
        shots.extend(shots_of(clip, &changes, planes(&folder.join(clip))?));
    }
    Ok(shots)
}

fn shots_of(clip: &str, changes: &[(usize, usize)], planes: Vec<Vec<u8>>) -> Vec<Shot> {
    let count = planes.len();
    let mut shots = Vec::new();
    let mut from = 0;
    for &(start, end) in changes.iter().chain([&(count, count)]) {
        if start >= from + SHORTEST {
            shots.push(Shot {
                name: format!("{clip} {from}–{start}"),
                planes: planes[from..start].to_vec(),
            });
        }
        // A cut begins a shot; a change over some frames lies in none.
        from = from.max(if end > start { end + 1 } else { start });
    }
    shots
}

fn planes(clip: &Path) -> Result<Vec<Vec<u8>>, Box<dyn Error>> {
    let ffmpeg = Ffmpeg::locate()?;
    let (source, _) = Source::open(&ffmpeg, &[clip.to_owned()])?;
    let options = ReadOptions {
        making: Making::PlanesOnly,
        ..ReadOptions::default()
    };
    let mut planes = Vec::new();
    let mut sink = |frame: FileFrame| {
        planes.push(frame.plane.into_bytes());
        ControlFlow::Continue(())
    };
    read_scan(&ffmpeg, &source, &options, &Cancel::new(), &mut sink)?;
    Ok(planes)
}
