//! The clips that reading is measured on, made anew in each run.
//!
//! They show the three rolls of the example film in turn, scaled up, with
//! grain put on at the size of the clip: pictures that move, do not repeat,
//! and change at known frames.

use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};
use std::process::Command;

use onestrand_example::{FRAME_BYTES, HEIGHT, ROLLS, RollPainter, WIDTH};

use crate::cost::output_of;
use crate::trouble::Trouble;

/// Film frames between two changes of picture.
const SHOT: u32 = 48;
/// The first frame taken of each roll: behind the fog of its start.
const FIRST: u32 = 100;

/// A way of coding a scan, and what reading it may cost.
#[derive(Debug)]
pub(crate) struct Coding {
    /// Its name in the table.
    pub(crate) name: &'static str,
    /// File, or folder and pattern of files.
    pub(crate) file: &'static str,
    /// How FFmpeg names its layout of pixels.
    pixels: &'static str,
    /// What FFmpeg is told.
    arguments: &'static str,
    /// The most processor time that reading may take, as a multiple of the
    /// bare decode. Source: issue 4.
    pub(crate) at_most: Option<f64>,
    /// File frames a second, of film at 18; nothing for one file frame each.
    pub(crate) telecined: Option<u32>,
    /// The most frames: uncompressed pictures are large.
    most: u32,
}

/// Every coding that is measured.
pub(crate) const CODINGS: [Coding; 7] = [
    Coding {
        name: "H.264, long GOP",
        file: "h264.mp4",
        pixels: "yuv420p",
        arguments: "-c:v libx264 -preset medium -crf 18",
        at_most: Some(1.35),
        telecined: None,
        most: u32::MAX,
    },
    Coding {
        name: "H.264, 18 into 30",
        file: "telecined.mp4",
        pixels: "yuv420p",
        arguments: "-c:v libx264 -preset medium -crf 18",
        at_most: Some(1.50),
        telecined: Some(30),
        most: u32::MAX,
    },
    Coding {
        name: "ProRes 422 HQ",
        file: "prores.mov",
        pixels: "yuv422p10le",
        arguments: "-c:v prores_ks -profile:v 3",
        at_most: Some(1.50),
        telecined: None,
        most: u32::MAX,
    },
    Coding {
        name: "FFV1, 10 bit",
        file: "ffv1.mkv",
        pixels: "yuv422p10le",
        arguments: "-c:v ffv1 -level 3 -slices 4 -g 1",
        at_most: Some(1.20),
        telecined: None,
        most: u32::MAX,
    },
    Coding {
        name: "MJPEG",
        file: "mjpeg.avi",
        pixels: "yuvj422p",
        arguments: "-c:v mjpeg -q:v 3",
        at_most: Some(2.10),
        telecined: None,
        most: u32::MAX,
    },
    Coding {
        name: "DPX, 10 bit",
        file: "dpx/%06d.dpx",
        pixels: "gbrp10be",
        arguments: "-c:v dpx",
        at_most: None,
        telecined: None,
        most: 48,
    },
    Coding {
        name: "TIFF, 16 bit",
        file: "tiff/%06d.tif",
        pixels: "rgb48le",
        arguments: "-c:v tiff -compression_algo raw",
        at_most: None,
        telecined: None,
        most: 48,
    },
];

impl Coding {
    /// How many frames its clip has when so many are asked for.
    pub(crate) fn frames(&self, asked: u32) -> u32 {
        asked.min(self.most)
    }

    /// The rate of a file that repeats film frames; a clip of one frame, which shows
    /// what starting costs, has nothing to repeat.
    fn repeating(&self, film_frames: u32) -> Option<u32> {
        self.telecined.filter(|_| film_frames > 1)
    }

    /// How many file frames show so many film frames.
    fn file_frames(&self, film_frames: u32) -> u32 {
        match self.repeating(film_frames) {
            // FFmpeg shows a film frame until the next one's time, to the nearest
            // file frame.
            Some(rate) => (film_frames * rate + FILM / 2) / FILM,
            None => film_frames,
        }
    }
}

/// The speed at which the film of the clips is run. Unit: frames a second.
const FILM: u32 = 18;

/// A clip on the disk.
#[derive(Debug)]
pub(crate) struct Clip {
    /// The film file, or the folder of pictures.
    pub(crate) path: PathBuf,
    /// What FFmpeg is given to read it.
    pub(crate) input: PathBuf,
    /// Film frames that it shows.
    pub(crate) film_frames: u32,
    /// Its file frames.
    pub(crate) frames: u32,
    /// What it takes on the disk. Unit: bytes.
    pub(crate) bytes: u64,
}

impl Clip {
    /// Takes it off the disk again.
    ///
    /// # Errors
    /// [`Trouble::File`].
    pub(crate) fn remove(&self) -> Result<(), Trouble> {
        let gone = if self.path.is_dir() {
            std::fs::remove_dir_all(&self.path)
        } else {
            std::fs::remove_file(&self.path)
        };
        gone.map_err(Trouble::file("remove the clip", &self.path))
    }
}

/// Which frame of which roll picture `number` of a clip shows.
pub(crate) fn picture(number: u32) -> (u8, u32) {
    let rolls = u32::from(ROLLS);
    let roll = number / SHOT % rolls;
    let frame = FIRST + number / (SHOT * rolls) * SHOT + number % SHOT;
    // A remainder of three fits.
    (roll as u8 + 1, frame)
}

/// Paints the pictures of all clips into one file, RGB24, and says where.
///
/// # Errors
/// [`Trouble::File`] or [`Trouble::Example`].
pub(crate) fn paint(folder: &Path, frames: u32) -> Result<PathBuf, Trouble> {
    let path = folder.join("pictures.rgb");
    let unwritten = || Trouble::file("write the pictures", &path);
    let painters = (1..=ROLLS)
        .map(RollPainter::new)
        .collect::<Result<Vec<_>, _>>()?;
    let mut file = BufWriter::with_capacity(1 << 20, File::create(&path).map_err(unwritten())?);
    let mut bytes = vec![0; FRAME_BYTES];
    for number in 0..frames {
        let (roll, frame) = picture(number);
        painters[usize::from(roll) - 1].paint(frame, &mut bytes)?;
        file.write_all(&bytes).map_err(unwritten())?;
    }
    file.flush().map_err(unwritten())?;
    drop(file);
    Ok(path)
}

/// Makes the clip of a coding out of the painted pictures.
///
/// # Errors
/// [`Trouble::Child`] when FFmpeg refuses, [`Trouble::File`].
pub(crate) fn make(
    ffmpeg: &Path,
    pictures: &Path,
    coding: &Coding,
    asked: u32,
) -> Result<Clip, Trouble> {
    let film_frames = coding.frames(asked);
    let folder = pictures.parent().unwrap_or(Path::new("."));
    let input = folder.join(coding.file);
    let is_run = coding.file.contains('%');
    let path = match input.parent() {
        Some(of_run) if is_run => of_run.to_owned(),
        _ => input.clone(),
    };
    if is_run {
        std::fs::create_dir_all(&path).map_err(Trouble::file("make the folder", &path))?;
    }
    let mut command = Command::new(ffmpeg);
    command
        .args([
            "-nostdin", "-v", "error", "-f", "rawvideo", "-pix_fmt", "rgb24",
        ])
        .args(["-s", &format!("{WIDTH}x{HEIGHT}")])
        .args(["-r", &FILM.to_string()])
        .args([
            "-t",
            &format!("{:.6}", f64::from(film_frames) / f64::from(FILM)),
            "-i",
        ])
        .arg(pictures)
        .args(["-vf", &filter(coding, film_frames)])
        .args(coding.arguments.split_ascii_whitespace())
        .arg("-y")
        .arg(&input);
    output_of(&mut command, &format!("making the clip {}", coding.name))?;
    let bytes = size_of(&path).map_err(Trouble::file("look at the clip", &path))?;
    Ok(Clip {
        path,
        input,
        film_frames,
        frames: coding.file_frames(film_frames),
        bytes,
    })
}

/// To 1440×1080 with grain. FFmpeg's grain knows eight bits only; the little
/// step of size after it fills the lower bits, as in a scan.
fn filter(coding: &Coding, film_frames: u32) -> String {
    // A repeat is the same picture with the same grain.
    let repeats = coding
        .repeating(film_frames)
        .map_or_else(String::new, |rate| format!("fps={rate},"));
    format!(
        "scale=1436:1076:flags=bicubic,format=yuv444p,noise=alls=12:allf=t:all_seed=7,\
         {repeats}scale=1440:1080:flags=bicubic,format={}",
        coding.pixels
    )
}

fn size_of(path: &Path) -> std::io::Result<u64> {
    if !path.is_dir() {
        return Ok(std::fs::metadata(path)?.len());
    }
    let mut sum = 0;
    for entry in std::fs::read_dir(path)? {
        sum += entry?.metadata()?.len();
    }
    Ok(sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_shot_is_of_another_roll_and_no_picture_stands_twice() {
        assert_eq!(picture(0), (1, 100));
        assert_eq!(picture(47), (1, 147));
        assert_eq!(picture(48), (2, 100));
        assert_eq!(picture(144), (1, 148));
        let mut all: Vec<_> = (0..9_000).map(picture).collect();
        assert!(
            all.iter()
                .all(|(_, frame)| *frame < onestrand_example::FRAMES_PER_ROLL)
        );
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), 9_000);
    }

    #[test]
    fn long_clips_are_for_coded_files_only() {
        let frames = CODINGS.map(|coding| coding.frames(288));
        assert_eq!(frames, [288, 288, 288, 288, 288, 48, 48]);
        let file_frames = CODINGS.map(|coding| coding.file_frames(coding.frames(288)));
        assert_eq!(file_frames, [288, 480, 288, 288, 288, 48, 48]);
    }
}
