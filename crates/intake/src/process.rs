//! Running another program under guard.
//!
//! Every program this crate starts, and the encoder that `onestrand-finish`
//! starts, goes through here: nothing on its standard input unless asked, its
//! words caught and bounded, memory and file size limited, killed when its
//! handle is dropped, and an ending that says what happened.

use std::collections::VecDeque;
use std::ffi::OsString;
use std::io::{self, BufReader, Read};
use std::os::fd::OwnedFd;
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, ExitStatus, Stdio};
use std::sync::mpsc;
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use command_fds::{CommandFdExt, FdMapping};
use rustix::process::{Pid, Resource, Rlimit, prlimit};

use crate::lines::read_lines;
use crate::{Cancel, IntakeError};

/// How many of a child's last lines are kept.
const TAIL_LINES: usize = 24;

/// What a child may use at most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Address space in bytes. FFmpeg's threads reserve far more than they
    /// touch, so this is a stop against bombs, not a budget.
    pub address_space: u64,
    /// The largest file it may write, in bytes; none for no bound. Pipes do
    /// not count, so a child that only talks to us gets 0.
    pub file_size: Option<u64>,
}

impl Limits {
    /// For a child that only writes to pipes: 6 GiB of address space, no files.
    #[must_use]
    pub fn pipes_only() -> Self {
        Self {
            address_space: 6 << 30,
            file_size: Some(0),
        }
    }

    /// For a child that writes one file of any size: 12 GiB of address space.
    #[must_use]
    pub fn writes_a_file() -> Self {
        Self {
            address_space: 12 << 30,
            file_size: None,
        }
    }

    pub(crate) fn short_question() -> Self {
        Self {
            address_space: 4 << 30,
            file_size: Some(0),
        }
    }

    fn lay_upon(self, child: &Child) -> io::Result<()> {
        let Some(pid) = i32::try_from(child.id()).ok().and_then(Pid::from_raw) else {
            return Ok(());
        };
        let fixed = |bytes: u64| Rlimit {
            current: Some(bytes),
            maximum: Some(bytes),
        };
        let mut wanted = vec![(Resource::As, self.address_space), (Resource::Core, 0)];
        wanted.extend(self.file_size.map(|bytes| (Resource::Fsize, bytes)));
        for (resource, bytes) in wanted {
            match prlimit(Some(pid), resource, fixed(bytes)) {
                // Ended already, or the user's own limit is lower still.
                Ok(_) | Err(rustix::io::Errno::SRCH | rustix::io::Errno::PERM) => {}
                Err(error) => return Err(error.into()),
            }
        }
        Ok(())
    }
}

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
        let mut child = command.spawn().map_err(&failed)?;
        // Our copies of the pipe ends live in `command`; without closing them
        // the pipes would never end.
        drop(command);
        let stderr = child.stderr.take().expect("standard error was piped above");
        let mut running = Running {
            program: self.program.clone(),
            child,
            tail: None,
        };
        self.limits.lay_upon(&running.child).map_err(failed)?;
        running.tail = Some(std::thread::spawn(move || keep_tail(stderr, self.lines)));
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

fn keep_tail(stderr: impl Read, mut lines: Option<LineSink>) -> VecDeque<String> {
    let mut tail = VecDeque::with_capacity(TAIL_LINES);
    read_lines(BufReader::new(stderr), |line| {
        if let Some(sink) = lines.as_mut() {
            sink(line);
        }
        // Frame lines come by the thousand and say nothing of failures.
        if crate::showinfo::is_chatter(line) {
            return;
        }
        if tail.len() == TAIL_LINES {
            tail.pop_front();
        }
        tail.push_back(String::from_utf8_lossy(line).into_owned());
    });
    tail
}

/// What a program wrote and how it ended.
#[derive(Debug)]
pub struct Collected {
    /// Standard output.
    pub output: Vec<u8>,
    /// The ending.
    pub ended: Ended,
}

/// How a program ended.
#[derive(Debug)]
pub struct Ended {
    /// The system's word.
    pub status: ExitStatus,
    /// Its last lines, oldest first, at most 24.
    pub said: Vec<String>,
    program: PathBuf,
}

impl Ended {
    /// Whether it ended well.
    #[must_use]
    pub fn is_success(&self) -> bool {
        self.status.success()
    }

    /// The last complaint, shortened to one line of at most 200 characters.
    #[must_use]
    pub fn complaint(&self) -> String {
        crate::showinfo::complaint_from(&self.said)
    }

    /// The failure as an error, `frames` having been handled by then.
    #[must_use]
    pub fn into_error(self, frames: u64) -> IntakeError {
        IntakeError::ChildFailed {
            program: name_of(&self.program),
            status: self.status.to_string(),
            frames,
            said: self.complaint(),
        }
    }
}

/// A program at work; dropping it kills it.
#[derive(Debug)]
pub struct Running {
    program: PathBuf,
    child: Child,
    tail: Option<JoinHandle<VecDeque<String>>>,
}

impl Running {
    /// The way to its standard input, once, if it was [`Launch::fed`].
    pub fn take_stdin(&mut self) -> Option<ChildStdin> {
        self.child.stdin.take()
    }

    /// The way from its standard output, once.
    pub fn take_stdout(&mut self) -> Option<ChildStdout> {
        self.child.stdout.take()
    }

    /// The system's number of the process.
    #[must_use]
    pub fn id(&self) -> u32 {
        self.child.id()
    }

    /// Ends it at once. What it had to say is kept.
    pub fn kill(&mut self) {
        // It may have ended by itself; then there is nothing to do.
        let _ = self.child.kill();
    }

    /// Closes its standard input and waits until it has ended.
    ///
    /// # Errors
    /// [`IntakeError::StartFailed`] when the system lost track of it.
    pub fn wait(mut self) -> Result<Ended, IntakeError> {
        drop(self.child.stdin.take());
        drop(self.child.stdout.take());
        let status = self.child.wait();
        let status = status.map_err(|source| IntakeError::StartFailed {
            program: self.program.clone(),
            source,
        })?;
        let said = self
            .tail
            .take()
            .and_then(|tail| tail.join().ok())
            .unwrap_or_default();
        Ok(Ended {
            status,
            said: said.into(),
            program: self.program.clone(),
        })
    }

    /// Kills it and says that it gave nothing for too long.
    pub(crate) fn stalled(mut self, patience: Duration, frames: u64) -> IntakeError {
        self.kill();
        IntakeError::Stalled {
            program: name_of(&self.program),
            seconds: patience.as_secs(),
            frames,
        }
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        self.kill();
        let _ = self.child.wait();
    }
}

fn name_of(program: &Path) -> String {
    program
        .file_name()
        .unwrap_or(program.as_os_str())
        .to_string_lossy()
        .into_owned()
}
