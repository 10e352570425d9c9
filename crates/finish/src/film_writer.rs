//! Raw pictures in, one film file out.

use std::ffi::OsString;
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::process::ChildStdin;

use onestrand_film::Fps;
use onestrand_intake::process::{Launch, Limits, Running};
use onestrand_intake::{Ffmpeg, PixelLayout};

use crate::FinishError;

/// The form of the pictures that are fed in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PictureForm {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// How the bytes lie.
    pub layout: PixelLayout,
    /// Shape of a pixel, width to height.
    pub pixel_aspect: (u64, u64),
    /// Tags of the colours as FFmpeg names them: range, matrix, primaries and
    /// transfer; what is not known is not tagged.
    pub colour: [Option<String>; 4],
}

impl PictureForm {
    /// Bytes of one picture.
    #[must_use]
    pub fn bytes(&self) -> u64 {
        self.layout.frame_bytes(self.width, self.height)
    }
}

/// How the file is coded. All go into Matroska, or into MP4 where the name of the
/// file ends so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Coding {
    /// FFV1, version 3, every frame a key frame, with checksums (RFC 9043):
    /// the same bits come out.
    Ffv1,
    /// H.264 for looking at, in the layout 4:2:0.
    H264 {
        /// Constant rate factor, 0 (lossless) to 51.
        crf: u8,
        /// Frames from key frame to key frame at most.
        group: u32,
    },
}

/// A film file in the making. Dropped before [`FilmWriter::finish`], it takes
/// away what it has written.
#[derive(Debug)]
pub struct FilmWriter {
    path: PathBuf,
    part: PathBuf,
    form: PictureForm,
    running: Option<Running>,
    feed: Option<ChildStdin>,
    frames: u64,
}

impl FilmWriter {
    /// Starts the encoder of a film of this form at this speed.
    ///
    /// `title` is written into the file.
    ///
    /// # Errors
    /// [`FinishError::File`] when the folder cannot be written to,
    /// [`FinishError::Intake`] when FFmpeg cannot be started.
    pub fn begin(
        ffmpeg: &Ffmpeg,
        path: &Path,
        form: &PictureForm,
        speed: Fps,
        coding: Coding,
        title: &str,
    ) -> Result<Self, FinishError> {
        let part = part_name(path);
        // Tried first, so that a full or locked disk is told in plain words.
        std::fs::File::create(&part).map_err(|source| FinishError::File {
            source,
            path: path.to_owned(),
        })?;
        let container = match path
            .extension()
            .is_some_and(|e| e.eq_ignore_ascii_case("mp4"))
        {
            true => "mp4",
            false => "matroska",
        };
        let arguments = arguments((&part, container), form, speed, coding, title);
        let launch = Launch::new(ffmpeg.ffmpeg_path(), arguments, Limits::writes_a_file()).fed();
        let started = launch.start();
        let mut writer = Self {
            path: path.to_owned(),
            part,
            form: form.clone(),
            running: None,
            feed: None,
            frames: 0,
        };
        let mut running = started?;
        writer.feed = running.take_stdin();
        writer.running = Some(running);
        Ok(writer)
    }

    /// Adds the next picture.
    ///
    /// # Errors
    /// [`FinishError::WrongPicture`], or [`FinishError::Intake`] with what the
    /// encoder said when it gave up.
    pub fn push(&mut self, picture: &[u8]) -> Result<(), FinishError> {
        if picture.len() as u64 != self.form.bytes() {
            return Err(FinishError::WrongPicture {
                found: picture.len(),
                wanted: self.form.bytes(),
            });
        }
        let written = match self.feed.as_mut() {
            Some(feed) => feed.write_all(picture),
            None => Err(ErrorKind::BrokenPipe.into()),
        };
        if let Err(source) = written {
            return Err(self.failure(source));
        }
        self.frames += 1;
        Ok(())
    }

    /// Ends the film and puts it under its name. Gives the number of frames.
    ///
    /// # Errors
    /// [`FinishError::Intake`] with what the encoder said, or
    /// [`FinishError::File`].
    pub fn finish(mut self) -> Result<u64, FinishError> {
        drop(self.feed.take());
        if let Some(running) = self.running.take() {
            let ended = running.wait()?;
            if !ended.is_success() {
                return Err(ended.into_error(self.frames).into());
            }
        }
        std::fs::rename(&self.part, &self.path).map_err(|source| FinishError::File {
            source,
            path: self.path.clone(),
        })?;
        Ok(self.frames)
    }

    /// The encoder closed its ears: what it said is the reason, not the pipe.
    fn failure(&mut self, source: std::io::Error) -> FinishError {
        drop(self.feed.take());
        match self.running.take().map(Running::wait) {
            Some(Ok(ended)) => ended.into_error(self.frames).into(),
            Some(Err(problem)) => problem.into(),
            None => FinishError::File {
                source,
                path: self.path.clone(),
            },
        }
    }
}

impl Drop for FilmWriter {
    fn drop(&mut self) {
        drop(self.feed.take());
        drop(self.running.take());
        // After a good end there is nothing under this name any more.
        let _gone = std::fs::remove_file(&self.part);
    }
}

/// Hidden beside its place: FFmpeg is told the form, not left to guess it.
fn part_name(path: &Path) -> PathBuf {
    let mut name = OsString::from(".");
    name.push(path.file_name().unwrap_or_default());
    name.push(".part");
    path.with_file_name(name)
}

fn arguments(
    (part, container): (&Path, &str),
    form: &PictureForm,
    speed: Fps,
    coding: Coding,
    title: &str,
) -> Vec<OsString> {
    let mut all: Vec<OsString> = Vec::new();
    let mut add = |words: &str| all.extend(words.split_whitespace().map(OsString::from));
    add("-hide_banner -nostats -loglevel error -protocol_whitelist file,pipe");
    add(&format!(
        "-f rawvideo -pix_fmt {} -s {}x{} -framerate {speed} -i pipe:0 -map 0:v",
        form.layout.name(),
        form.width,
        form.height
    ));
    let (across, down) = form.pixel_aspect;
    for (tag, value) in TAGS.iter().zip(&form.colour) {
        if let Some(word) = value.as_deref().and_then(|v| tag.word(v)) {
            add(&format!("-{} {word}", tag.flag));
        }
    }
    match coding {
        Coding::Ffv1 => add(&format!(
            "-vf setsar={across}/{down} -c:v ffv1 -level 3 -coder 1 -context 1 -g 1 -slices 4 -slicecrc 1 -threads 2"
        )),
        Coding::H264 { crf, group } => add(&format!(
            "-vf format=yuv420p,setsar={across}/{down} -c:v libx264 -preset superfast -crf {crf} -g {group}"
        )),
    }
    add("-fps_mode passthrough");
    all.push("-metadata".into());
    all.push(format!("title={title}").into());
    all.extend(["-y", "-f", container].map(OsString::from));
    let mut target = OsString::from("file:");
    target.push(part);
    all.push(target);
    all
}

/// A colour tag: the encoder's option for it, and the words that FFmpeg reports
/// with those it wants, where the two differ. FFmpeg names some of its own
/// tables in two ways (libavutil's names and libavcodec's options).
struct Tag {
    flag: &'static str,
    known: &'static [&'static str],
    otherwise: &'static [(&'static str, &'static str)],
}

impl Tag {
    /// The encoder's word for a reported one; none where it has none, so that
    /// an odd tag never keeps a film from being finished.
    fn word<'a>(&self, reported: &'a str) -> Option<&'a str> {
        let other = self.otherwise.iter().find(|pair| pair.0 == reported);
        match other {
            Some(pair) => Some(pair.1),
            None => self.known.contains(&reported).then_some(reported),
        }
    }
}

const TAGS: [Tag; 4] = [
    Tag {
        flag: "color_range",
        known: &["tv", "pc"],
        otherwise: &[],
    },
    Tag {
        flag: "colorspace",
        known: &[
            "bt709",
            "fcc",
            "bt470bg",
            "smpte170m",
            "smpte240m",
            "bt2020nc",
            "bt2020c",
        ],
        otherwise: &[("gbr", "rgb")],
    },
    Tag {
        flag: "color_primaries",
        known: &[
            "bt709",
            "bt470m",
            "bt470bg",
            "smpte170m",
            "smpte240m",
            "film",
            "bt2020",
            "smpte428",
            "smpte431",
            "smpte432",
        ],
        otherwise: &[],
    },
    Tag {
        flag: "color_trc",
        known: &[
            "bt709",
            "smpte170m",
            "smpte240m",
            "linear",
            "iec61966-2-1",
            "bt2020-10",
            "bt2020-12",
            "smpte2084",
            "smpte428",
            "arib-std-b67",
        ],
        otherwise: &[
            ("bt470m", "gamma22"),
            ("bt470bg", "gamma28"),
            ("log100", "log"),
            ("log316", "log_sqrt"),
        ],
    },
];
