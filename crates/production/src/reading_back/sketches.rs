//! What the frames of all rolls are known by: made of their browsing pictures once, and
//! kept beside the workprints, where it may be thrown away like them.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use onestrand_film::FrameRange;
use onestrand_intake::Cancel;
use onestrand_proof::{GreyPicture, RollSketches, Sketch};

use crate::error::unfit;
use crate::on_action::PictureSource;
use crate::small_pictures::scaled_down;
use crate::{ProductionError, Progress};

/// How small a picture will do. Unit: pixels.
const LEAST_SIZE: (u16, u16) = (90, 60);
/// Pictures fetched at a time.
const AT_ONCE: u32 = 64;

/// Sketches of rolls that were looked at lately.
#[derive(Debug, Default)]
pub struct SketchMemory {
    rolls: BTreeMap<String, (String, Arc<RollSketches>)>,
}

impl SketchMemory {
    /// The sketches of a roll, out of memory, out of the workprints, or made anew.
    pub(crate) fn of_roll(
        &mut self,
        dir: &Path,
        (roll, frames): (&str, u32),
        source: &mut dyn PictureSource,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<Arc<RollSketches>, ProductionError> {
        let identity = source.identity(roll)?.unwrap_or_default();
        if let Some((_, known)) = self.rolls.get(roll).filter(|(id, _)| *id == identity) {
            return Ok(Arc::clone(known));
        }
        let path = kept_at(dir, roll);
        let made = match kept(&path, &identity) {
            Some(kept) if kept.frames() == frames as usize => kept,
            _ => {
                let made = made(roll, frames, source, cancel, progress)?;
                // It can be made again: that it is not kept is no trouble.
                let _not_kept = keep(&path, &identity, &made);
                made
            }
        };
        let made = Arc::new(made);
        self.rolls
            .insert(roll.to_owned(), (identity, Arc::clone(&made)));
        Ok(made)
    }
}

fn kept_at(dir: &Path, roll: &str) -> PathBuf {
    dir.join("workprints").join(format!("{roll}.sketches"))
}

fn kept(path: &Path, identity: &str) -> Option<RollSketches> {
    let bytes = std::fs::read(path).ok()?;
    let rest = bytes
        .strip_prefix(identity.as_bytes())?
        .strip_prefix(b"\n")?;
    RollSketches::from_bytes(rest).ok()
}

fn keep(path: &Path, identity: &str, sketches: &RollSketches) -> std::io::Result<()> {
    let mut bytes = identity.as_bytes().to_vec();
    bytes.push(b'\n');
    bytes.extend(sketches.to_bytes());
    let half = path.with_extension("sketches-new");
    std::fs::write(&half, bytes)?;
    std::fs::rename(half, path)
}

fn made(
    roll: &str,
    frames: u32,
    source: &mut dyn PictureSource,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<RollSketches, ProductionError> {
    progress.begin(&format!("looking at {roll}"), Some(u64::from(frames)));
    let mut sketches = RollSketches::new();
    let mut from = 0;
    while from < frames {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        let to = frames.min(from + AT_ONCE);
        let pictures = source.run(roll, FrameRange::of(from, to)?)?;
        for at in 0..(to - from) as usize {
            let sketch = match pictures.get(at).and_then(Option::as_ref) {
                Some(jpeg) => Some(sketch(jpeg)?),
                None => None,
            };
            sketches.push(sketch.as_ref());
        }
        from = to;
        progress.at(u64::from(from));
    }
    Ok(sketches)
}

/// What one browsing picture is known by.
pub(super) fn sketch(jpeg: &[u8]) -> Result<Sketch, ProductionError> {
    let small = scaled_down(jpeg, LEAST_SIZE)?;
    let grey = small.grey();
    let picture = GreyPicture::new(small.width as usize, small.height as usize, &grey)
        .map_err(|problem| unfit(problem.to_string(), "read the scan again"))?;
    Ok(Sketch::of(picture))
}
