//! Exact access: any file frames again, at full size, the same bits.

mod attempt;
mod plan;

use std::ops::ControlFlow;
use std::time::Duration;

use crate::{Cancel, Ffmpeg, FrameIndex, IntakeError, PixelLayout, Source};

use self::attempt::{Attempt, Outcome};
use self::plan::{Group, Start, plan};

/// In which form full-size frames are delivered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Form {
    /// Raw pixels. In the source's own layout ([`Source::native_layout`])
    /// these are the decoder's own bits.
    Raw(PixelLayout),
    /// A PNG file: 16 bits a sample when the source has more than 8, grey when
    /// it is grey.
    Png,
    /// A JPEG file, quantisation scale 2 (finest) to 31.
    Jpeg(u8),
}

/// A file frame at full size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FullFrame {
    /// Which file frame it is.
    pub index: u64,
    /// Pixels across, as shown.
    pub width: u32,
    /// Pixels down, as shown.
    pub height: u32,
    /// Raw pixels or a whole PNG or JPEG file, as asked for.
    pub bytes: Vec<u8>,
}

/// How to fetch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FetchOptions {
    /// The form of the frames.
    pub form: Form,
    /// How long FFmpeg may give nothing before the fetch counts as stalled.
    /// Frames before the wanted ones give nothing, so it is a matter of minutes.
    pub patience: Duration,
    /// Threads for decoding; 0 for as many as the machine has, at most 4.
    pub decode_threads: u8,
}

impl FetchOptions {
    /// In this form, with four minutes of patience and threads by the machine.
    #[must_use]
    pub fn new(form: Form) -> Self {
        Self {
            form,
            patience: Duration::from_secs(240),
            decode_threads: 0,
        }
    }
}

/// How a fetch ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FetchEnd {
    /// Frames delivered.
    pub frames: u64,
    /// Whether the sink stopped it.
    pub is_stopped: bool,
    /// FFmpeg processes that were started. More than a few for one stretch of
    /// frames means that the file cannot be entered where its index says.
    pub starts: u64,
}

impl Source {
    /// The layout in which raw frames are delivered without loss: the source's
    /// own where it is in the table, else the nearest ([`PixelLayout::nearest`]).
    #[must_use]
    pub fn native_layout(&self) -> PixelLayout {
        PixelLayout::nearest(&self.facts().pix_fmt)
    }
}

/// Fetches the file frames `wanted`, which must rise, in that order.
///
/// Decoding begins at the key frame before each stretch, and each frame is
/// checked against the index before it is handed on: its time must be the
/// recorded one, and its measuring plane, made in the same process, the
/// recorded one to the bit. Where that fails (open groups, damaged time stamps,
/// files that cannot be entered in the middle) decoding begins earlier, at last
/// from the first frame of the file, counting. What is handed on is always what
/// a decode from the start gives.
///
/// # Errors
/// [`IntakeError::NotInIndex`], [`IntakeError::OutOfOrder`],
/// [`IntakeError::NotTheSame`] when the file no longer gives the recorded
/// picture, [`IntakeError::Cancelled`], [`IntakeError::Stalled`],
/// [`IntakeError::LimitReached`], and those of starting FFmpeg.
pub fn fetch(
    ffmpeg: &Ffmpeg,
    source: &Source,
    index: &FrameIndex,
    wanted: &[u64],
    options: &FetchOptions,
    cancel: &Cancel,
    sink: &mut dyn FnMut(FullFrame) -> ControlFlow<()>,
) -> Result<FetchEnd, IntakeError> {
    let mut end = FetchEnd {
        frames: 0,
        is_stopped: false,
        starts: 0,
    };
    let attempt = Attempt {
        ffmpeg,
        source,
        index,
        options,
        cancel,
    };
    for group in plan(source, index, wanted)? {
        if fetch_group(&attempt, &group, &mut end, sink)?.is_break() {
            end.is_stopped = true;
            break;
        }
    }
    Ok(end)
}

/// Tries one start after another until the group is complete.
fn fetch_group(
    attempt: &Attempt<'_>,
    group: &Group,
    end: &mut FetchEnd,
    sink: &mut dyn FnMut(FullFrame) -> ControlFlow<()>,
) -> Result<ControlFlow<()>, IntakeError> {
    let mut left = group.frames.as_slice();
    for start in &group.starts {
        end.starts += 1;
        let before = left.len();
        let outcome = attempt.run(*start, left, &mut |frame| {
            end.frames += 1;
            sink(frame)
        })?;
        left = &left[outcome.delivered()..];
        match outcome {
            Outcome::Stopped(_) => return Ok(ControlFlow::Break(())),
            Outcome::Complete(_) => return Ok(ControlFlow::Continue(())),
            // Some came right and one did not: the next start goes on there.
            Outcome::Mismatch(_) => debug_assert!(left.len() <= before),
        }
    }
    let frame = left.first().copied().unwrap_or_default();
    Err(IntakeError::NotTheSame {
        frame,
        path: attempt.source.path().to_owned(),
    })
}
