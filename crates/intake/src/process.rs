//! Running another program under guard.
//!
//! Every program this crate starts, and the encoder that `onestrand-finish`
//! starts, goes through here: nothing on its standard input unless asked, its
//! words caught and bounded, memory and file size limited, killed when its
//! handle is dropped, and an ending that says what happened.

mod limits;
mod running;

use std::ffi::OsString;
use std::io::{self, Read};
use std::os::fd::OwnedFd;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::mpsc;
use std::time::{Duration, Instant};

use command_fds::{CommandFdExt, FdMapping};

pub use self::limits::Limits;
pub use self::running::{Ended, Running};
use crate::{Cancel, IntakeError};

/// What happens to each line that a child says on standard error.
pub type LineSink = Box<dyn FnMut(&[u8]) + Send>;

/// A program about to be started.
pub struct Launch {
    program: PathBuf,
    arguments: Vec<OsString>,
    limits: Limits,
    feed: bool,
    pipes: Vec<(OwnedFd, i32)>,
    lines: Option<LineSink>,
}

impl std::fmt::Debug for Launch {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Launch")
            .field("program", &self.program)
            .field("arguments", &self.arguments)
            .finish_non_exhaustive()
    }
}

impl Launch {
    /// A program with its arguments and limits; nothing on its standard input.
    #[must_use]
    pub fn new(program: &Path, arguments: Vec<OsString>, limits: Limits) -> Self {
        Self {
            program: program.to_owned(),
            arguments,
            limits,
            feed: false,
            pipes: Vec::new(),
            lines: None,
        }
    }

    /// Lets the caller write to the program's standard input.
    #[must_use]
    pub fn fed(mut self) -> Self {
        self.feed = true;
        self
    }

    /// Gives the program one more file descriptor under this number (3 or more).
    #[must_use]
    pub fn with_pipe(mut self, end: OwnedFd, number: i32) -> Self {
        self.pipes.push((end, number));
        self
    }

    /// Hands each line of standard error to `lines`, besides keeping the last ones.
    #[must_use]
    pub fn with_lines(mut self, lines: LineSink) -> Self {
        self.lines = Some(lines);
        self
    }

    /// Starts the program.
    ///
    /// # Errors
    /// [`IntakeError::ProgramMissing`] or [`IntakeError::StartFailed`].
    pub fn start(self) -> Result<Running, IntakeError> {
        let failed = |source: io::Error| match source.kind() {
            io::ErrorKind::NotFound => IntakeError::ProgramMissing {
                program: self.program.clone(),
            },
            _ => IntakeError::StartFailed {
                program: self.program.clone(),
                source,
            },
        };
        let mut command = Command::new(&self.program);
        command
            .args(&self.arguments)
            .stdin(if self.feed {
                Stdio::piped()
            } else {
                Stdio::null()
            })
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            // FFREPORT would have FFmpeg write log files beside the user's.
            .env_remove("FFREPORT")
            .env("AV_LOG_FORCE_NOCOLOR", "1")
            .env("LC_ALL", "C");
        let mappings = self
            .pipes
            .into_iter()
            .map(|(parent_fd, child_fd)| FdMapping {
                parent_fd,
                child_fd,
            });
        command
            .fd_mappings(mappings.collect())
            .map_err(|e| failed(io::Error::other(e)))?;
        let child = command.spawn().map_err(&failed)?;
        // Our copies of the pipe ends live in `command`; without closing them
        // the pipes would never end.
        drop(command);
        let mut running = Running::new(self.program.clone(), child);
        self.limits.lay_upon(running.child()).map_err(failed)?;
        running.listen(self.lines);
        Ok(running)
    }

    /// Runs the program to its end and keeps what it wrote to standard output.
    ///
    /// # Errors
    /// As [`Launch::start`]; [`IntakeError::LimitReached`] beyond `most` bytes,
    /// [`IntakeError::Stalled`] when it says nothing for `patience`,
    /// [`IntakeError::Cancelled`].
    pub fn collect(
        self,
        cancel: &Cancel,
        patience: Duration,
        most: usize,
    ) -> Result<Collected, IntakeError> {
        let mut running = self.start()?;
        let stdout = running
            .take_stdout()
            .expect("standard output was piped at the start");
        let (send, receive) = mpsc::sync_channel(4);
        std::thread::spawn(move || send_chunks(stdout, &send));
        let mut output = Vec::new();
        let mut waiting_since = Instant::now();
        loop {
            if cancel.is_cancelled() {
                return Err(IntakeError::Cancelled { frames: 0 });
            }
            match receive.recv_timeout(Duration::from_millis(50)) {
                Ok(chunk) => output.extend_from_slice(&chunk),
                Err(mpsc::RecvTimeoutError::Disconnected) => break,
                Err(mpsc::RecvTimeoutError::Timeout) if waiting_since.elapsed() < patience => {
                    continue;
                }
                Err(mpsc::RecvTimeoutError::Timeout) => return Err(running.stalled(patience, 0)),
            }
            waiting_since = Instant::now();
            if output.len() > most {
                let (found, limit) = (output.len() as u64, most as u64);
                return Err(IntakeError::LimitReached {
                    what: "the answer of a helper program in bytes",
                    found,
                    limit,
                });
            }
        }
        let ended = running.wait()?;
        Ok(Collected { output, ended })
    }
}

fn send_chunks(mut from: impl Read, to: &mpsc::SyncSender<Vec<u8>>) {
    loop {
        let mut chunk = vec![0; 64 * 1024];
        match from.read(&mut chunk) {
            Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
            Ok(0) | Err(_) => return,
            Ok(length) => {
                chunk.truncate(length);
                if to.send(chunk).is_err() {
                    return;
                }
            }
        }
    }
}

/// What a program wrote and how it ended.
#[derive(Debug)]
pub struct Collected {
    /// Standard output.
    pub output: Vec<u8>,
    /// The ending.
    pub ended: Ended,
}
