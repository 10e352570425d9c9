//! One FFmpeg at work, its three streams brought together frame by frame.

mod complaints;
mod meeting;
mod pipes;

use std::ffi::OsString;
use std::io::pipe;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

pub(crate) use complaints::Complaints;

use self::meeting::{Meeting, Met, Stream};
use self::pipes::Readers;
use crate::guard::LinkFolder;
use crate::process::{Ended, Launch, Limits, LineSink, Running};
use crate::showinfo::{self, FrameLine, LogLine};
use crate::{Cancel, Ffmpeg, IntakeError, Ratio};

/// How often the lever and the clock are looked at while nothing comes.
const LOOK: Duration = Duration::from_millis(50);
/// Threads beyond this bring nothing for one scan and cost memory.
const THREADS_MOST: usize = 4;
/// The descriptor on which FFmpeg writes the planes; pictures go to 1.
pub(crate) const PLANES_FD: i32 = 3;
/// What every FFmpeg of ours is told first: no keyboard, no statistics, each
/// complaint with its level, and the file's own times.
pub(crate) const HEAD: &str = "-nostdin -hide_banner -nostats -loglevel repeat+level+info -copyts";

/// What comes on descriptor 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pictures {
    None,
    /// Coded pictures in FFmpeg's `mpjpeg` stream.
    Coded,
    /// Raw pictures of this many bytes each.
    Raw(usize),
}

/// What is to be started.
#[derive(Debug)]
pub(crate) struct Order {
    pub(crate) arguments: Vec<OsString>,
    pub(crate) pictures: Pictures,
    /// Planes that come one below the other for each frame.
    pub(crate) planes: usize,
    pub(crate) queue: usize,
    pub(crate) patience: Duration,
    /// Kept until FFmpeg has ended.
    pub(crate) links: Option<LinkFolder>,
}

/// The next thing that a decode gives.
#[derive(Debug)]
pub(crate) enum Step {
    /// Time, picture and plane of one frame.
    Frame(FrameLine, Vec<u8>, Vec<u8>),
    End,
}

/// What is known once a decode has ended by itself.
#[derive(Debug)]
pub(crate) struct Ending {
    pub(crate) ended: Ended,
    pub(crate) complaints: Complaints,
    pub(crate) is_in_step: bool,
}

/// An FFmpeg at work. Dropping it kills the process and lets its readers go.
#[derive(Debug)]
pub(crate) struct Decode {
    patience: Duration,
    meeting: Arc<Meeting>,
    log: Arc<Mutex<Log>>,
    running: Running,
    // Dropped after `running`, so that FFmpeg is dead and its pipes have ended.
    readers: Readers,
    _links: Option<LinkFolder>,
    waiting_since: Instant,
    is_in_step: bool,
}

#[derive(Debug, Default)]
struct Log {
    complaints: Complaints,
    frames: u64,
    time_base: Option<Ratio>,
}

/// The given number of threads, or as many as the machine has, at most four.
pub(crate) fn decode_threads(given: u8) -> usize {
    match given {
        0 => std::thread::available_parallelism()
            .map_or(1, usize::from)
            .min(THREADS_MOST),
        given => usize::from(given),
    }
}

impl Decode {
    pub(crate) fn start(ffmpeg: &Ffmpeg, order: Order) -> Result<Self, IntakeError> {
        let failed = |source| IntakeError::StartFailed {
            program: ffmpeg.ffmpeg_path().to_owned(),
            source,
        };
        let with = [true, order.pictures != Pictures::None, order.planes > 0];
        let meeting = Arc::new(Meeting::new(order.queue, with));
        let log = Arc::new(Mutex::new(Log::default()));
        let mut launch = Launch::new(ffmpeg.ffmpeg_path(), order.arguments, Limits::pipes_only())
            .with_lines(line_sink(Arc::clone(&meeting), Arc::clone(&log)));
        let mut planes = None;
        if order.planes > 0 {
            let (reader, writer) = pipe().map_err(failed)?;
            widen(&reader);
            launch = launch.with_pipe(writer.into(), PLANES_FD);
            planes = Some(reader);
        }
        let mut running = launch.start()?;
        let mut readers = Readers::new(&meeting);
        let pictures = running.take_stdout();
        if let Some(pictures) = &pictures {
            widen(pictures);
        }
        readers.read(pictures, planes.map(|p| (p, order.planes)), order.pictures);
        let (patience, waiting_since) = (order.patience, Instant::now());
        let _links = order.links;
        Ok(Self {
            patience,
            meeting,
            log,
            running,
            readers,
            _links,
            waiting_since,
            is_in_step: true,
        })
    }

    /// The next frame, or the end.
    pub(crate) fn next(&mut self, cancel: &Cancel, frames: u64) -> Result<Step, IntakeError> {
        // The time that the caller's sink took is not FFmpeg's silence.
        self.waiting_since = Instant::now();
        loop {
            if cancel.is_cancelled() {
                return Err(IntakeError::Cancelled { frames });
            }
            match self.meeting.next(LOOK) {
                Met::Frame(time, picture, plane) => return Ok(Step::Frame(time, picture, plane)),
                Met::End(left) => {
                    self.is_in_step = left == [0; 3];
                    return Ok(Step::End);
                }
                Met::Fault(what) => {
                    return Err(IntakeError::OutOfStep {
                        frame: frames,
                        what,
                    });
                }
                Met::Nothing if self.meeting.silence(self.waiting_since) < self.patience => {}
                Met::Nothing => {
                    self.running.kill();
                    let (program, seconds) = ("ffmpeg".to_owned(), self.patience.as_secs());
                    return Err(IntakeError::Stalled {
                        program,
                        seconds,
                        frames,
                    });
                }
            }
        }
    }

    fn log(&self) -> MutexGuard<'_, Log> {
        self.log.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The time base that FFmpeg said the times are counted in.
    pub(crate) fn time_base(&self) -> Option<Ratio> {
        self.log().time_base
    }

    /// Waits for FFmpeg, which has closed its pipes, to end.
    pub(crate) fn finish(self) -> Result<Ending, IntakeError> {
        drop(self.readers);
        let ended = self.running.wait()?;
        let complaints = std::mem::take(
            &mut self
                .log
                .lock()
                .unwrap_or_else(PoisonError::into_inner)
                .complaints,
        );
        Ok(Ending {
            ended,
            complaints,
            is_in_step: self.is_in_step,
        })
    }
}

fn line_sink(meeting: Arc<Meeting>, log: Arc<Mutex<Log>>) -> LineSink {
    let times = Times(meeting);
    Box::new(move |line| {
        let mut log = log.lock().unwrap_or_else(PoisonError::into_inner);
        match showinfo::parse(line) {
            LogLine::Frame(frame) => {
                log.frames += 1;
                times.0.push_time(frame);
            }
            LogLine::TimeBase(num, den) => {
                log.time_base.get_or_insert(Ratio {
                    num: num.into(),
                    den: den.into(),
                });
            }
            LogLine::Complaint(words) => {
                let frames = log.frames;
                log.complaints.add(frames, words);
            }
            LogLine::Other => {}
        }
    })
}

/// Ends the stream of times when standard error is closed.
struct Times(Arc<Meeting>);

impl Drop for Times {
    fn drop(&mut self) {
        self.0.end(Stream::Times, None);
    }
}

/// Gives a pipe room for several frames, so that FFmpeg and we wake each other
/// seldom. The system may refuse; then the pipe stays as narrow as it was.
pub(crate) fn widen(pipe: impl std::os::fd::AsFd) {
    const ROOM: usize = 1 << 20;
    let _room = rustix::pipe::fcntl_setpipe_size(pipe, ROOM);
}
