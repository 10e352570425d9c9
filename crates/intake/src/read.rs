//! Reading a whole source: one decode, a picture and a plane for each frame.

mod verdict;

use std::ops::ControlFlow;
use std::time::Duration;

use self::verdict::Verdict;
use crate::chain::{RENUMBER, to_browsing, to_jpeg, to_planes};
use crate::decode::{Decode, HEAD, Order, PLANES_FD, Pictures, Step, decode_threads};
use crate::guard::{Arguments, whole_input};
use crate::{Cancel, Ffmpeg, IntakeError, Plane, Ratio, Source, Warning};

/// One frame of the file. Not yet a frame of film: a transfer may show one
/// film frame in several file frames, and leave others out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileFrame {
    /// Its place among the frames that FFmpeg decodes, from 0, without holes.
    pub index: u64,
    /// Its time in ticks of [`ReadEnd::time_base`], the file's own count with
    /// its own start; nothing for image sequences, and where the file has none.
    pub pts: Option<i64>,
    /// Whether decoding can begin here.
    pub key: bool,
    /// Where its data begin in the file, in bytes, where FFmpeg says so (not
    /// from version 7 on).
    pub byte_pos: Option<u64>,
    /// For image sequences the number in the picture's name.
    pub number: Option<u64>,
    /// Pixels across and down of the original, as shown.
    pub size: (u32, u32),
    /// The browsing picture as a JPEG file; empty when none were asked for.
    pub jpeg: Vec<u8>,
    /// The measuring plane.
    pub plane: Plane,
    /// Planes of the top and of the bottom field alone, each scaled from its own
    /// lines, where the frame is woven of two ([`crate::StreamFacts::first_field`]).
    pub fields: Option<(Plane, Plane)>,
}

/// How to read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadOptions {
    /// What is made of each frame.
    pub making: Making,
    /// The scale of JPEG quantisation, 2 (finest) to 31; 6 by default.
    pub picture_quality: u8,
    /// How long FFmpeg may give nothing before the reading counts as stalled.
    pub patience: Duration,
    /// Frames that may wait for the sink before FFmpeg is made to wait.
    pub queue: usize,
    /// Threads for decoding; 0 for as many as the machine has, at most 4.
    pub decode_threads: u8,
}

/// What is made of each frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Making {
    /// A browsing picture and a measuring plane.
    PicturesAndPlanes,
    /// Measuring planes only, the same as with pictures.
    PlanesOnly,
}

impl Default for ReadOptions {
    fn default() -> Self {
        Self {
            making: Making::PicturesAndPlanes,
            picture_quality: 6,
            patience: Duration::from_secs(120),
            queue: 24,
            decode_threads: 0,
        }
    }
}

/// How a reading ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadEnd {
    /// File frames delivered: all that FFmpeg decodes, or fewer when the sink
    /// stopped the reading.
    pub frames: u64,
    /// Whether the sink stopped it.
    pub is_stopped: bool,
    /// Seconds a tick of [`FileFrame::pts`].
    pub time_base: Option<Ratio>,
    /// What the user should know.
    pub warnings: Vec<Warning>,
}

/// Reads every frame of `source` in order and hands it to `sink`.
///
/// One FFmpeg process decodes once. While the sink is at work at most
/// [`ReadOptions::queue`] frames wait, then FFmpeg is made to wait. The sink
/// runs on the calling thread; when it breaks, FFmpeg is killed and the reading
/// ends with [`ReadEnd::is_stopped`].
///
/// # Errors
/// [`IntakeError::Cancelled`], [`IntakeError::Stalled`],
/// [`IntakeError::NoFrames`], [`IntakeError::ChildFailed`],
/// [`IntakeError::OutOfStep`], [`IntakeError::Changed`], [`IntakeError::Disk`]. A file that breaks off is
/// none: its frames are delivered and [`Warning::Truncated`] says where it ends.
pub fn read(
    ffmpeg: &Ffmpeg,
    source: &Source,
    options: &ReadOptions,
    cancel: &Cancel,
    sink: &mut dyn FnMut(FileFrame) -> ControlFlow<()>,
) -> Result<ReadEnd, IntakeError> {
    let mut decode = Decode::start(ffmpeg, order(source, options)?)?;
    let mut verdict = Verdict::new(source);
    // A run of pictures has no times of its own.
    let time_base = |decode: &Decode| decode.time_base().filter(|_| source.sequence().is_none());
    while let Step::Frame(time, jpeg, plane) = decode.next(cancel, verdict.frames())? {
        if sink(verdict.see(time, jpeg, plane)?).is_break() {
            return Ok(verdict.stopped(time_base(&decode)));
        }
    }
    let time_base = time_base(&decode);
    source.see_unchanged()?;
    verdict.ended(decode.finish()?, time_base)
}

/// Scaling a frame is so little work that sharing it out costs more than it
/// gains: 0.4 ms a frame of 1440×1080 less with one thread (measured).
const ONE_FILTER_THREAD: &str = "-filter_complex_threads 1";

fn order(source: &Source, options: &ReadOptions) -> Result<Order, IntakeError> {
    let (input, links) = whole_input(source)?;
    let mut arguments = Arguments::default();
    arguments
        .add(HEAD)
        .add(&format!(
            "-threads {}",
            decode_threads(options.decode_threads)
        ))
        .extend(input);
    let facts = source.facts();
    let (browsing, plane) = (to_browsing(facts), to_planes(facts));
    let head = format!(
        "[0:{}]showinfo=checksum=0,{RENUMBER},{browsing}",
        facts.stream
    );
    let pictures = match options.making {
        Making::PicturesAndPlanes => {
            let colour = to_jpeg(facts);
            arguments
                .add(ONE_FILTER_THREAD)
                .add("-filter_complex")
                .push(format!("{head},split[w][b];[w]{colour}[a];[b]{plane}[p]"));
            let quality = options.picture_quality.clamp(2, 31);
            arguments.add("-map [a] -fps_mode passthrough -c:v mjpeg -huffman default -threads 2");
            arguments.add(&format!("-q:v {quality} -f mpjpeg pipe:1"));
            Pictures::Coded
        }
        Making::PlanesOnly => {
            arguments
                .add(ONE_FILTER_THREAD)
                .add("-filter_complex")
                .push(format!("{head},{plane}[p]"));
            Pictures::None
        }
    };
    arguments.add(&format!(
        "-map [p] -fps_mode passthrough -c:v rawvideo -f rawvideo pipe:{PLANES_FD}"
    ));
    let (arguments, queue, patience) = (arguments.into_vec(), options.queue, options.patience);
    Ok(Order {
        arguments,
        pictures,
        planes: if facts.first_field().is_some() { 3 } else { 1 },
        queue,
        patience,
        links,
    })
}
