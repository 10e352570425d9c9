//! Raw pictures in, one film file out.

use std::ffi::OsString;
use std::io::{ErrorKind, Read, Write};
use std::path::{Path, PathBuf};
use std::process::ChildStdin;

use onestrand_film::Fps;
use onestrand_intake::process::{Launch, Limits, Running};
use onestrand_intake::{Ffmpeg, PixelLayout};

use crate::coding::{Coding, ColourWay, Container, tag_words, tags_on_pictures};
use crate::whole::{self, COUNTED};
use crate::{FinishError, SoundOfFilm};

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
    is_counted: bool,
}

impl FilmWriter {
    /// Starts the encoder of a film of this form at this speed.
    ///
    /// `title` is written into the file; its name says what it lies in
    /// ([`Container::of`]).
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
        let writing = Writing {
            scan: form,
            speed,
            coding,
            container: Container::of(path),
            title,
            made: Made::ForItself,
        };
        Self::begin_as(ffmpeg, path, form, writing)
    }

    /// Starts the encoder of pictures that are `fed` otherwise than the scan has them.
    ///
    /// # Errors
    /// As [`FilmWriter::begin`].
    pub(crate) fn begin_as(
        ffmpeg: &Ffmpeg,
        path: &Path,
        form: &PictureForm,
        writing: Writing<'_>,
    ) -> Result<Self, FinishError> {
        let part = part_name(path);
        // Tried first, so that a full or locked disk is told in plain words.
        std::fs::File::create(&part).map_err(|source| FinishError::File {
            source,
            path: path.to_owned(),
        })?;
        let arguments = arguments(&part, form, writing);
        let launch = Launch::new(ffmpeg.ffmpeg_path(), arguments, Limits::writes_a_file()).fed();
        let started = launch.start();
        let mut writer = Self {
            path: path.to_owned(),
            part,
            form: form.clone(),
            running: None,
            feed: None,
            frames: 0,
            is_counted: matches!(writing.made, Made::Whole(_)),
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
    /// [`FinishError::Intake`] with what the encoder said, [`FinishError::FramesLost`]
    /// where it counts its frames and they are fewer than it was given, or
    /// [`FinishError::File`].
    pub fn finish(mut self) -> Result<u64, FinishError> {
        drop(self.feed.take());
        if let Some(mut running) = self.running.take() {
            let mut told = Vec::new();
            if let Some(mut words) = running.take_stdout() {
                // Nothing told is no frame counted, and is told below.
                let _told = words.read_to_end(&mut told);
            }
            let ended = running.wait()?;
            if !ended.is_success() {
                return Err(ended.into_error(self.frames).into());
            }
            if self.is_counted {
                let wanted = self.frames;
                whole::has_all(&String::from_utf8_lossy(&told), wanted)?;
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

/// What is written, and how.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Writing<'a> {
    /// The pictures as the scan has them.
    pub(crate) scan: &'a PictureForm,
    /// Frames a second of the file.
    pub(crate) speed: Fps,
    pub(crate) coding: Coding,
    pub(crate) container: Container,
    /// Written into the file.
    pub(crate) title: &'a str,
    pub(crate) made: Made<'a>,
}

/// What a film file is made as.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Made<'a> {
    /// By itself, as it comes.
    ForItself,
    /// A part, which is read once more and thrown away.
    Part,
    /// A whole finish, with its sound.
    Whole(Option<&'a SoundOfFilm>),
}

fn arguments(part: &Path, fed: &PictureForm, writing: Writing<'_>) -> Vec<OsString> {
    let mut all: Vec<OsString> = Vec::new();
    let mut add = |words: &str| all.extend(words.split_whitespace().map(OsString::from));
    // Without -xerror a disk that is full at the very end is no failure to FFmpeg.
    add("-hide_banner -nostats -loglevel error -xerror -protocol_whitelist file,pipe");
    add(&format!(
        "-f rawvideo -pix_fmt {} -s {}x{} -framerate {} -i pipe:0",
        fed.layout.name(),
        fed.width,
        fed.height,
        writing.speed
    ));
    if let Made::Whole(sound) = writing.made {
        all.extend(whole::sound_in(sound));
        all.extend(COUNTED.split_whitespace().map(OsString::from));
    }
    let mut add = |words: &str| all.extend(words.split_whitespace().map(OsString::from));
    add("-map 0:v");
    let way = ColourWay::of(fed, writing.scan, writing.coding);
    for words in tag_words(&way.tags) {
        add(&words);
    }
    let (across, down) = fed.pixel_aspect;
    let before = way.filter.map(|words| words + ",").unwrap_or_default();
    let after = match writing.coding {
        Coding::ProRes => tags_on_pictures(&way.tags).map(|words| format!(",{words}")),
        _ => None,
    };
    let after = after.unwrap_or_default();
    add(&format!("-vf {before}setsar={across}/{down}{after}"));
    add(&writing.coding.words());
    add("-fps_mode passthrough");
    match writing.made {
        Made::ForItself => {}
        // A part has no checksums of its own: FFV1's slices have theirs.
        Made::Part if writing.container == Container::Matroska => add("-write_crc32 0"),
        Made::Part => {}
        Made::Whole(sound) => all.extend(whole::ends(writing.container, sound)),
    }
    all.push("-metadata".into());
    all.push(format!("title={}", writing.title).into());
    all.extend(["-y", "-f", writing.container.muxer()].map(OsString::from));
    let mut target = OsString::from("file:");
    target.push(part);
    all.push(target);
    all
}
