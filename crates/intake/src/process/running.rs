//! A child at work, and how it ended.

use std::collections::VecDeque;
use std::io::{BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, ExitStatus};
use std::thread::JoinHandle;
use std::time::Duration;

use super::LineSink;
use crate::IntakeError;
use crate::lines::read_lines;

/// How many of a child's last lines are kept.
const TAIL_LINES: usize = 24;

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

/// How a program ended.
#[derive(Debug)]
pub struct Ended {
    /// The system's word.
    pub status: ExitStatus,
    /// Its last lines, oldest first, at most 24.
    pub said: Vec<String>,
    pub(super) program: PathBuf,
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
    pub(super) fn new(program: PathBuf, child: Child) -> Self {
        Self {
            program,
            child,
            tail: None,
        }
    }

    pub(super) fn child(&self) -> &Child {
        &self.child
    }

    /// Begins to listen to its standard error.
    pub(super) fn listen(&mut self, lines: Option<LineSink>) {
        let stderr = self.child.stderr.take();
        self.tail = stderr.map(|stderr| std::thread::spawn(move || keep_tail(stderr, lines)));
    }

    /// The way to its standard input, once, if it was [`Launch::fed`](super::Launch::fed).
    pub fn take_stdin(&mut self) -> Option<ChildStdin> {
        let stdin = self.child.stdin.take();
        if let Some(stdin) = &stdin {
            crate::decode::widen(stdin);
        }
        stdin
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
