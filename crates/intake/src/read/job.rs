//! One reading at work.

use std::io::{BufReader, Read, pipe};
use std::ops::ControlFlow;
use std::process::ChildStdout;
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use super::meeting::{Meeting, Met, Stream, out_of_step};
use super::verdict::{Complaints, Verdict};
use super::{FileFrame, Making, ReadEnd, ReadOptions};
use crate::chain::{RENUMBER, to_browsing, to_plane};
use crate::guard::{Arguments, LinkFolder, film_input};
use crate::mpjpeg::next_picture;
use crate::process::{Launch, Limits, Running};
use crate::showinfo::{self, LogLine};
use crate::{Cancel, Ffmpeg, IntakeError, Plane, Ratio, Source, SourceKind};

/// How often the lever and the clock are looked at while nothing comes.
const LOOK: Duration = Duration::from_millis(50);
/// Threads beyond this bring nothing for one scan and cost memory.
const THREADS_MOST: usize = 4;
/// The descriptor on which FFmpeg writes the planes.
const PLANES_FD: i32 = 3;

pub(super) struct Job<'a> {
    source: &'a Source,
    patience: Duration,
    meeting: Arc<Meeting>,
    log: Arc<Mutex<Log>>,
    running: Running,
    // Dropped after `running`, so that FFmpeg is dead and its pipes have ended.
    readers: Readers,
    /// Kept until FFmpeg has ended.
    _links: Option<LinkFolder>,
}

#[derive(Debug, Default)]
struct Log {
    complaints: Complaints,
    frames: u64,
    time_base: Option<Ratio>,
}

impl<'a> Job<'a> {
    pub(super) fn start(
        ffmpeg: &Ffmpeg,
        source: &'a Source,
        options: &ReadOptions,
    ) -> Result<Self, IntakeError> {
        let with_pictures = options.making == Making::PicturesAndPlanes;
        let (input, links) = input_of(source)?;
        let arguments = arguments(source, options, input);
        let failed = |source| IntakeError::StartFailed {
            program: ffmpeg.ffmpeg_path().to_owned(),
            source,
        };
        let (planes, planes_end) = pipe().map_err(failed)?;
        let meeting = Arc::new(Meeting::new(options.queue, with_pictures));
        let log = Arc::new(Mutex::new(Log::default()));
        let mut running = Launch::new(ffmpeg.ffmpeg_path(), arguments, Limits::pipes_only())
            .with_pipe(planes_end.into(), PLANES_FD)
            .with_lines(line_sink(Arc::clone(&meeting), Arc::clone(&log)))
            .start()?;
        let mut readers = Readers {
            meeting: Arc::clone(&meeting),
            threads: Vec::new(),
        };
        let to = Arc::clone(&meeting);
        readers
            .threads
            .push(std::thread::spawn(move || read_planes(planes, &to)));
        if let Some(pictures) = running.take_stdout().filter(|_| with_pictures) {
            let to = Arc::clone(&meeting);
            readers
                .threads
                .push(std::thread::spawn(move || read_pictures(pictures, &to)));
        }
        Ok(Self {
            source,
            patience: options.patience,
            meeting,
            log,
            running,
            readers,
            _links: links,
        })
    }

    pub(super) fn run(
        mut self,
        cancel: &Cancel,
        sink: &mut dyn FnMut(FileFrame) -> ControlFlow<()>,
    ) -> Result<ReadEnd, IntakeError> {
        let mut verdict = Verdict::new(self.source);
        let mut waiting_since = Instant::now();
        loop {
            if cancel.is_cancelled() {
                return Err(IntakeError::Cancelled {
                    frames: verdict.frames(),
                });
            }
            match self.meeting.next(LOOK) {
                Met::Frame(time, jpeg, plane) => {
                    let frame = verdict.see(time, jpeg, plane)?;
                    if sink(frame).is_break() {
                        return Ok(verdict.stopped(self.time_base()));
                    }
                    waiting_since = Instant::now();
                }
                Met::Nothing if self.meeting.silence(waiting_since) < self.patience => {}
                Met::Nothing => {
                    self.running.kill();
                    let (program, seconds) = ("ffmpeg".to_owned(), self.patience.as_secs());
                    return Err(IntakeError::Stalled {
                        program,
                        seconds,
                        frames: verdict.frames(),
                    });
                }
                Met::Fault(what) => return Err(out_of_step(verdict.frames(), what)),
                Met::End(left) => return self.finish(verdict, left),
            }
        }
    }

    fn time_base(&self) -> Option<Ratio> {
        let in_log = self
            .log
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .time_base;
        self.source.sequence().is_none().then_some(in_log).flatten()
    }

    fn finish(self, verdict: Verdict<'_>, left: [usize; 3]) -> Result<ReadEnd, IntakeError> {
        let time_base = self.time_base();
        drop(self.readers);
        let ended = self.running.wait()?;
        let log = std::mem::take(&mut *self.log.lock().unwrap_or_else(PoisonError::into_inner));
        verdict.ended(&ended, log.complaints, left, time_base)
    }
}

/// The threads that read FFmpeg's pipes; let go and awaited when dropped.
struct Readers {
    meeting: Arc<Meeting>,
    threads: Vec<JoinHandle<()>>,
}

impl Drop for Readers {
    fn drop(&mut self) {
        self.meeting.close();
        for thread in self.threads.drain(..) {
            // A panic there has shown as a stream that never ended.
            let _ = thread.join();
        }
    }
}

fn input_of(source: &Source) -> Result<(Vec<std::ffi::OsString>, Option<LinkFolder>), IntakeError> {
    match source.kind() {
        SourceKind::Film(container) => Ok((film_input(source.path(), *container), None)),
        SourceKind::Sequence(sequence) => {
            let links = LinkFolder::of(sequence, sequence.readable().map(|p| p.path.as_path()))?;
            Ok((links.input(), Some(links)))
        }
    }
}

fn arguments(
    source: &Source,
    options: &ReadOptions,
    input: Vec<std::ffi::OsString>,
) -> Vec<std::ffi::OsString> {
    let threads = match options.decode_threads {
        0 => std::thread::available_parallelism()
            .map_or(1, usize::from)
            .min(THREADS_MOST),
        given => usize::from(given),
    };
    let mut arguments = Arguments::default();
    arguments.add("-nostdin -hide_banner -nostats -loglevel repeat+level+info -copyts");
    arguments.add(&format!("-threads {threads}")).extend(input);
    let facts = source.facts();
    let browsing = to_browsing(facts.browse_size());
    let head = format!(
        "[0:{}]showinfo=checksum=0,{RENUMBER},{browsing}",
        facts.stream
    );
    let plane = to_plane();
    if options.making == Making::PicturesAndPlanes {
        arguments
            .add("-filter_complex")
            .push(format!("{head},split[a][b];[b]{plane}[p]"));
        let quality = options.picture_quality.clamp(2, 31);
        arguments.add("-map [a] -fps_mode passthrough -c:v mjpeg -huffman default -threads 2");
        arguments.add(&format!("-q:v {quality} -f mpjpeg pipe:1"));
    } else {
        arguments
            .add("-filter_complex")
            .push(format!("{head},{plane}[p]"));
    }
    arguments.add(&format!(
        "-map [p] -fps_mode passthrough -c:v rawvideo -f rawvideo pipe:{PLANES_FD}"
    ));
    arguments.into_vec()
}

fn line_sink(meeting: Arc<Meeting>, log: Arc<Mutex<Log>>) -> crate::process::LineSink {
    let end = EndTimes(meeting);
    Box::new(move |line| {
        let mut log = log.lock().unwrap_or_else(PoisonError::into_inner);
        match showinfo::parse(line) {
            LogLine::Frame(frame) => {
                log.frames += 1;
                end.0.push_time(frame);
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
struct EndTimes(Arc<Meeting>);

impl Drop for EndTimes {
    fn drop(&mut self) {
        self.0.end(Stream::Times, None);
    }
}

fn read_pictures(from: ChildStdout, to: &Meeting) {
    let mut from = BufReader::with_capacity(1 << 18, from);
    let fault = loop {
        match next_picture(&mut from) {
            Ok(Some(picture)) => {
                if !to.push_picture(picture) {
                    break None;
                }
            }
            Ok(None) => break None,
            // A killed FFmpeg breaks off within a picture; its status tells.
            Err(error) if error.kind() == std::io::ErrorKind::UnexpectedEof => break None,
            Err(_) => break Some("the stream of browsing pictures is malformed"),
        }
    };
    to.end(Stream::Pictures, fault);
}

fn read_planes(mut from: impl Read, to: &Meeting) {
    loop {
        let mut plane = vec![0; Plane::BYTES];
        if from.read_exact(&mut plane).is_err() || !to.push_plane(plane) {
            break;
        }
    }
    to.end(Stream::Planes, None);
}
