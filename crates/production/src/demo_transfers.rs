//! Transfers of the example at a rate of their own, as others would have made
//! them: for whoever wants to see film frames found again among file frames.

use std::path::{Path, PathBuf};

use onestrand_example::{FRAME_BYTES, FRAMES_PER_ROLL};
use onestrand_film::Fps;
use onestrand_finish::{Coding, FilmWriter, PictureForm};
use onestrand_intake::Ffmpeg;

use crate::ProductionError;

/// As the scans, but with fewer key frames: a file that is only looked at.
const CODED: Coding = Coding::H264 {
    crf: 23,
    group: 250,
    pace: "superfast",
};

/// How a transfer was made.
#[derive(Debug, Clone, Copy)]
pub(crate) struct ExampleTransfer {
    /// The roll, counted from 1.
    pub(crate) roll: u8,
    /// Its file.
    pub(crate) file: &'static str,
    /// Speed of the film in the machine. Unit: frames in a second, as a fraction.
    film: (u64, u64),
    /// File frames in a second, as a fraction.
    rate: (u64, u64),
    /// Whether a file frame is exposed for the whole of its time, so that it may
    /// show two film frames; otherwise it shows the one that is there as it begins.
    whole: bool,
}

/// All of them: a telecine at 25 f/s that repeats frames, and a copy off the wall
/// that mixes them. Source: acceptance story 3.
pub(crate) const TRANSFERS: [ExampleTransfer; 2] = [
    ExampleTransfer {
        roll: 1,
        file: "R1-25.mp4",
        film: (18, 1),
        rate: (25, 1),
        whole: false,
    },
    ExampleTransfer {
        roll: 2,
        file: "R2-wall.mp4",
        film: (1764, 100),
        rate: (30_000, 1001),
        whole: true,
    },
];

impl ExampleTransfer {
    /// Where it lies beside the scans.
    pub(crate) fn path(&self, scans: &Path) -> PathBuf {
        scans.join(self.file)
    }

    /// Film frames that pass while the file counts `files`, as a fraction.
    fn passed(&self, files: u64) -> (u64, u64) {
        let num = files * self.film.0 * self.rate.1;
        (num, self.film.1 * self.rate.0)
    }

    /// File frames that are whole when so many film frames have passed.
    fn file_frames(&self, films: u64) -> u64 {
        let (num, den) = self.passed(1);
        if self.whole {
            films * den / num
        } else {
            (films * den).div_ceil(num)
        }
    }

    /// What file frame `file` shows: the first film frame, and the share of it in
    /// 256 parts; the rest is the next one's.
    fn shows(&self, file: u64) -> (u64, u32) {
        let (begin, den) = self.passed(file);
        let first = begin / den;
        if !self.whole {
            return (first, 256);
        }
        let (end, _) = self.passed(file + 1);
        let edge = (first + 1) * den;
        if end <= edge {
            return (first, 256);
        }
        let share = ((edge - begin) * 256 + (end - begin) / 2) / (end - begin);
        (first, u32::try_from(share).unwrap_or(256))
    }
}

/// A transfer in the making: film frames go in one after the other.
#[derive(Debug)]
pub(crate) struct TransferWriter {
    transfer: ExampleTransfer,
    writer: FilmWriter,
    /// The film frame before, and how many have come.
    before: Vec<u8>,
    mixed: Vec<u8>,
    films: u64,
    files: u64,
}

impl TransferWriter {
    /// Begins the file.
    ///
    /// # Errors
    /// [`ProductionError::Finish`].
    pub(crate) fn begin(
        ffmpeg: &Ffmpeg,
        transfer: ExampleTransfer,
        (path, form, title): (&Path, &PictureForm, &str),
    ) -> Result<Self, ProductionError> {
        let rate = Fps::new(transfer.rate.0, transfer.rate.1)?;
        Ok(Self {
            transfer,
            writer: FilmWriter::begin(ffmpeg, path, form, rate, CODED, title)?,
            before: Vec::new(),
            mixed: vec![0; FRAME_BYTES],
            films: 0,
            files: 0,
        })
    }

    /// Takes the next film frame, and writes what the file then shows.
    ///
    /// # Errors
    /// [`ProductionError::Finish`].
    pub(crate) fn push(&mut self, picture: &[u8]) -> Result<(), ProductionError> {
        self.films += 1;
        for file in self.files..self.transfer.file_frames(self.films) {
            let (first, share) = self.transfer.shows(file);
            if share == 256 {
                let shown = if first + 1 == self.films {
                    picture
                } else {
                    &self.before
                };
                self.writer.push(shown)?;
            } else {
                mix(&self.before, picture, share, &mut self.mixed);
                self.writer.push(&self.mixed)?;
            }
            self.files = file + 1;
        }
        self.before.clear();
        self.before.extend_from_slice(picture);
        Ok(())
    }

    /// Ends the file.
    ///
    /// # Errors
    /// [`ProductionError::Finish`].
    pub(crate) fn finish(self) -> Result<u64, ProductionError> {
        debug_assert_eq!(self.films, u64::from(FRAMES_PER_ROLL), "a whole roll");
        Ok(self.writer.finish()?)
    }
}

/// `share` of 256 parts of the first picture and the rest of the second.
fn mix(first: &[u8], second: &[u8], share: u32, out: &mut [u8]) {
    let rest = 256 - share;
    for ((out, a), b) in out.iter_mut().zip(first).zip(second) {
        *out = ((u32::from(*a) * share + u32::from(*b) * rest + 128) >> 8) as u8;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Story 3: file frames, and those that show two film frames.
    #[test]
    fn the_transfers_have_the_frames_of_story_three() {
        let [telecine, wall] = TRANSFERS;
        assert_eq!(telecine.file_frames(3600), 5000);
        assert_eq!(wall.file_frames(3600), 6116);
        let two = |transfer: ExampleTransfer| {
            let all = 0..transfer.file_frames(3600);
            all.filter(|file| transfer.shows(*file).1 < 256).count()
        };
        // A share of less than half a 256th is none: one blend in 3,600 may go so.
        assert_eq!(two(telecine), 0);
        assert!((3590..=3600).contains(&two(wall)), "{}", two(wall));
    }

    #[test]
    fn the_telecine_repeats_by_the_cadence_that_is_written_down() {
        let [telecine, _] = TRANSFERS;
        let mut shown = vec![0_u32; 18];
        for file in 0..25 {
            shown[telecine.shows(file).0 as usize] += 1;
        }
        assert_eq!(
            shown,
            [2, 1, 2, 1, 1, 2, 1, 2, 1, 1, 2, 1, 2, 1, 1, 2, 1, 1]
        );
    }

    #[test]
    fn a_mix_has_its_shares() {
        let mut out = [0; 3];
        mix(&[0, 100, 255], &[200, 100, 255], 64, &mut out);
        assert_eq!(out, [150, 100, 255]);
    }
}
