//! A scan of double-run film that was not slit: its pictures parted into the two halves.

use std::path::{Path, PathBuf};

use onestrand_pictures::{PictureError, Png};

use crate::ProductionError;
use crate::error::{file, unfit};

/// How an unslit strip lies in the pictures of its scan.
///
/// Both halves lie beside each other. The strip ran through the camera twice, the
/// second time from its other end and on its other edge: so the pictures of the
/// second run stand upside down beside those of the first and run backwards
/// (common practice; it follows from how the spools are changed over).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unslit {
    /// Whether the first run lies on the left.
    pub first_is_left: bool,
    /// Pictures one below the other in each half: two where the machine moved by a
    /// 16 mm frame, one where it moved by a regular 8 frame. Range: 1 or 2.
    pub down: u32,
}

/// Which run of the camera.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Run {
    First,
    Second,
}

impl Run {
    pub(crate) const BOTH: [Self; 2] = [Self::First, Self::Second];

    /// The folder its pictures go to.
    pub(crate) const fn folder(self) -> &'static str {
        match self {
            Self::First => "first-run",
            Self::Second => "second-run",
        }
    }
}

impl Unslit {
    /// How many film frames each half has.
    pub(crate) const fn frames(self, pictures: u32) -> u32 {
        pictures.saturating_mul(self.down)
    }

    pub(crate) fn check(self) -> Result<Self, ProductionError> {
        match self.down {
            1 | 2 => Ok(self),
            other => Err(unfit(
                format!("{other} pictures below each other"),
                "one, or two where the scan shows whole 16 mm frames",
            )),
        }
    }

    /// Makes the folders of both halves.
    pub(crate) fn make_folders(dir: &Path) -> Result<(), ProductionError> {
        for run in Run::BOTH {
            let folder = dir.join(run.folder());
            std::fs::create_dir(&folder).map_err(file("make the folder", &folder))?;
        }
        Ok(())
    }

    /// Writes the film frames that one picture of the scan shows, each under its
    /// number in its own half. `picture` counts from 0, of `pictures`.
    pub(crate) fn write(
        self,
        dir: &Path,
        png: &[u8],
        (picture, pictures): (u32, u32),
    ) -> Result<(), ProductionError> {
        let path = |run: Run, frame: u32| -> PathBuf {
            dir.join(run.folder()).join(format!("frame_{frame:06}.png"))
        };
        let whole = Png::read(png).map_err(|problem| unreadable(&problem))?;
        let last = self.frames(pictures).saturating_sub(1);
        for row in 0..self.down {
            let along = picture * self.down + row;
            for run in Run::BOTH {
                let frame = match run {
                    Run::First => along,
                    // Upside down, and from the other end.
                    Run::Second => last.saturating_sub(along),
                };
                let part = self
                    .part(&whole, run, row)
                    .map_err(|problem| unreadable(&problem))?;
                let path = path(run, frame);
                std::fs::write(&path, part).map_err(file("write the frame", &path))?;
            }
        }
        Ok(())
    }

    /// The part of a scan's picture that shows one frame of a half, turned upright.
    fn part(self, whole: &Png, run: Run, row: u32) -> Result<Vec<u8>, PictureError> {
        let (width, height) = whole.size();
        let (wide, high) = (width / 2, height / self.down);
        let is_left = (run == Run::First) == self.first_is_left;
        // An odd line in the middle belongs to neither.
        let left = if is_left { 0 } else { width - wide };
        let top = if row == 0 { 0 } else { height - high };
        whole.piece((left, top), (wide, high), run == Run::Second)
    }
}

fn unreadable(problem: &PictureError) -> ProductionError {
    unfit(
        format!("a picture of the scan cannot be parted: {problem}"),
        "read the scan without parting it, and look at the pictures",
    )
}
