//! One process that fetches a group of frames from one start.

use std::fmt::Write as _;
use std::ops::ControlFlow;

use super::{FetchOptions, Form, FullFrame, Start};
use crate::chain::{FLAGS_FULL, RENUMBER, scaled_by_fields, to_browsing, to_plane};
use crate::decode::{Decode, HEAD, Order, PLANES_FD, Pictures, Step, decode_threads};
use crate::guard::{Arguments, LinkFolder, whole_input};
use crate::showinfo::FrameLine;
use crate::{
    Cancel, Container, Ffmpeg, FrameIndex, IntakeError, PixelLayout, PlaneHash, Sequence, Source,
    SourceKind,
};

/// The most bytes of one raw frame: 64 Mi pixels of four 16-bit samples.
const FRAME_BYTES_MOST: u64 = 512 << 20;

/// How an attempt ended, with the frames delivered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outcome {
    Complete(usize),
    Stopped(usize),
    /// The next frame was missing or not the recorded one.
    Mismatch(usize),
}

impl Outcome {
    pub(super) fn delivered(self) -> usize {
        match self {
            Self::Complete(n) | Self::Stopped(n) | Self::Mismatch(n) => n,
        }
    }
}

#[derive(Debug)]
pub(super) struct Attempt<'a> {
    pub(super) ffmpeg: &'a Ffmpeg,
    pub(super) source: &'a Source,
    pub(super) index: &'a FrameIndex,
    pub(super) options: &'a FetchOptions,
    pub(super) cancel: &'a Cancel,
}

impl Attempt<'_> {
    /// Delivers `frames` from the first on, until one does not match.
    pub(super) fn run(
        &self,
        start: Start,
        frames: &[u64],
        sink: &mut dyn FnMut(FullFrame) -> ControlFlow<()>,
    ) -> Result<Outcome, IntakeError> {
        let mut decode = Decode::start(self.ffmpeg, self.order(start, frames)?)?;
        let (width, height) = (self.source.facts().width, self.source.facts().height);
        for (n, frame) in frames.iter().copied().enumerate() {
            let Step::Frame(time, bytes, plane) = decode.next(self.cancel, n as u64)? else {
                return Ok(Outcome::Mismatch(n));
            };
            if time.size.is_some_and(|size| size != (width, height)) {
                return Err(IntakeError::OutOfStep {
                    frame,
                    what: "a picture of another size than the file's first",
                });
            }
            if !self.is_right(start, n, frame, time, &plane)? {
                return Ok(Outcome::Mismatch(n));
            }
            if sink(FullFrame {
                index: frame,
                width,
                height,
                bytes,
            })
            .is_break()
            {
                return Ok(Outcome::Stopped(n + 1));
            }
        }
        Ok(Outcome::Complete(frames.len()))
    }

    fn is_right(
        &self,
        start: Start,
        n: usize,
        frame: u64,
        time: FrameLine,
        plane: &[u8],
    ) -> Result<bool, IntakeError> {
        let row = self.index.row(frame)?;
        let time_is_right = match start {
            // The time is the number of the link.
            Start::Pictures => time.pts == i64::try_from(n).ok(),
            _ => time.pts == row.pts,
        };
        Ok(time_is_right && PlaneHash::of(plane) == row.plane)
    }

    fn order(&self, start: Start, frames: &[u64]) -> Result<Order, IntakeError> {
        let (input, links) = match self.source.sequence() {
            Some(sequence) => self.links(sequence, frames)?,
            None => whole_input(self.source)?,
        };
        let mut arguments = Arguments::default();
        arguments.add(HEAD).add(&format!(
            "-threads {}",
            decode_threads(self.options.decode_threads)
        ));
        if let Some(seconds) = self.seek_to(start) {
            arguments.add(&format!(
                "-noaccurate_seek -seek_timestamp 1 -ss {seconds:.6}"
            ));
        }
        arguments
            .extend(input)
            .add("-filter_complex")
            .push(self.filters(start, frames)?);
        let pictures = self.add_pictures(&mut arguments, frames.len())?;
        arguments.add(&format!(
            "-map [p] -fps_mode passthrough -frames:v {}",
            frames.len()
        ));
        arguments.add(&format!("-c:v rawvideo -f rawvideo pipe:{PLANES_FD}"));
        let (arguments, patience) = (arguments.into_vec(), self.options.patience);
        Ok(Order {
            arguments,
            pictures,
            planes: 1,
            queue: 1,
            patience,
            links,
        })
    }

    fn links(
        &self,
        sequence: &Sequence,
        frames: &[u64],
    ) -> Result<(Vec<std::ffi::OsString>, Option<LinkFolder>), IntakeError> {
        let mut paths = Vec::with_capacity(frames.len());
        for frame in frames {
            let number = self.index.row(*frame)?.number;
            let place = number.and_then(|n| {
                sequence
                    .pictures()
                    .binary_search_by_key(&n, |p| p.number)
                    .ok()
            });
            let not_there = || IntakeError::NotTheSame {
                frame: *frame,
                path: self.source.path().to_owned(),
            };
            paths.push(
                sequence.pictures()[place.ok_or_else(not_there)?]
                    .path
                    .as_path(),
            );
        }
        let links = LinkFolder::of(sequence, paths.into_iter())?;
        Ok((links.input(), Some(links)))
    }

    /// Where to enter the file, in seconds.
    ///
    /// FFmpeg steps back by 3/23 s of its own accord where its reader finds its
    /// way by decoding times and the coding reorders frames (ffmpeg 5.1,
    /// `open_input_file`), which would land a whole group early. So a little
    /// more than that is added where the group is long enough for both cases.
    /// MPEG streams have no table and land behind the time asked for, so there
    /// an earlier one is asked for. The landing is checked anyway.
    fn seek_to(&self, start: Start) -> Option<f64> {
        let Start::Key(key) = start else { return None };
        let at = self.index.seconds(key)?;
        if matches!(
            self.source.kind(),
            SourceKind::Film(Container::MpegTs | Container::MpegPs)
        ) {
            return Some(at - 0.25);
        }
        let next = self
            .index
            .key_after(key)
            .and_then(|next| self.index.seconds(next));
        let stepped = at + 3.0 / 23.0 + 0.002;
        Some(if next.is_none_or(|next| stepped < next) {
            stepped
        } else {
            at + 0.000_001
        })
    }

    fn filters(&self, start: Start, frames: &[u64]) -> Result<String, IntakeError> {
        let facts = self.source.facts();
        let mut chain = format!("[0:{}]", facts.stream);
        if start != Start::Pictures {
            let _ = write!(chain, "select='{}',", self.selection(start, frames)?);
        }
        let fields = scaled_by_fields(facts);
        let full = match self.options.form {
            Form::Raw(layout) if layout.name() == facts.pix_fmt => format!("format={layout}"),
            Form::Raw(layout) => format!("scale={FLAGS_FULL}{fields},format={layout}"),
            Form::Png => format!("scale={FLAGS_FULL}{fields},format={}", self.png_layout()),
            Form::Jpeg(_) => {
                format!("scale={FLAGS_FULL}{fields}:out_color_matrix=bt601,format=yuvj420p")
            }
        };
        let (browsing, plane) = (to_browsing(facts), to_plane());
        let _ = write!(
            chain,
            "showinfo=checksum=0,{RENUMBER},split[a][b];[a]{full}[f];[b]{browsing},{plane}[p]"
        );
        Ok(chain)
    }

    fn png_layout(&self) -> &'static str {
        let native = self.source.native_layout();
        match (native.is_gray(), native.bits() > 8) {
            (true, true) => "gray16be",
            (true, false) => "gray",
            (false, true) => "rgb48be",
            (false, false) => "rgb24",
        }
    }

    /// An expression that is not 0 for the wanted frames.
    fn selection(&self, start: Start, frames: &[u64]) -> Result<String, IntakeError> {
        let mut terms = Vec::new();
        for stretch in frames.chunk_by(|a, b| a + 1 == *b) {
            let (first, last) = (stretch[0], stretch[stretch.len() - 1]);
            let term = if start == Start::BeginningByCount {
                format!("between(n,{first},{last})")
            } else {
                let pts = |frame| self.index.row(frame).map(|row| row.pts.unwrap_or_default());
                format!("between(pts,{},{})", pts(first)?, pts(last)?)
            };
            terms.push(term);
        }
        Ok(terms.join("+"))
    }

    fn add_pictures(
        &self,
        arguments: &mut Arguments,
        frames: usize,
    ) -> Result<Pictures, IntakeError> {
        arguments.add(&format!(
            "-map [f] -fps_mode passthrough -frames:v {frames}"
        ));
        match self.options.form {
            Form::Raw(layout) => {
                arguments.add("-c:v rawvideo -f rawvideo pipe:1");
                Ok(Pictures::Raw(self.raw_bytes(layout)?))
            }
            Form::Png => {
                arguments.add("-c:v png -pred mixed -threads 1 -f mpjpeg pipe:1");
                Ok(Pictures::Coded)
            }
            Form::Jpeg(quality) => {
                let quality = quality.clamp(2, 31);
                arguments.add(&format!(
                    "-c:v mjpeg -huffman default -threads 1 -q:v {quality} -f mpjpeg pipe:1"
                ));
                Ok(Pictures::Coded)
            }
        }
    }

    fn raw_bytes(&self, layout: PixelLayout) -> Result<usize, IntakeError> {
        let facts = self.source.facts();
        let found = layout.frame_bytes(facts.width, facts.height);
        let too_many = IntakeError::LimitReached {
            what: "one frame in bytes",
            found,
            limit: FRAME_BYTES_MOST,
        };
        usize::try_from(found)
            .ok()
            .filter(|_| found <= FRAME_BYTES_MOST)
            .ok_or(too_many)
    }
}
