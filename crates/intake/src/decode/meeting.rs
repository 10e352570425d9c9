//! Where the three streams of one decode meet: times, pictures, planes.
//!
//! The times come from standard error, the pictures (browsing pictures when
//! reading, full-size frames when fetching) and the planes from two pipes.
//! FFmpeg writes them in turns, and its JPEG encoder may hold a few pictures
//! back while planes go on. So a stream is made to wait only while a complete
//! frame lies ready for the sink; as long as the sink itself waits, every
//! stream may go on. That can never lock up, and it stays bounded, because
//! FFmpeg holds back only a handful, and beyond [`STRAY_MOST`] we give up.

use std::collections::VecDeque;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use crate::showinfo::FrameLine;

/// How far one stream may run ahead of another, in frames.
const STRAY_MOST: usize = 256;

/// The sources of a complete frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stream {
    Times,
    Pictures,
    Planes,
}

#[derive(Debug, Default)]
struct State {
    times: VecDeque<FrameLine>,
    pictures: VecDeque<Vec<u8>>,
    planes: VecDeque<Vec<u8>>,
    ended: [bool; 3],
    closed: bool,
    fault: Option<&'static str>,
    last_sign: Option<Instant>,
}

/// A complete frame, or why there is none.
#[derive(Debug)]
pub(super) enum Met {
    Frame(FrameLine, Vec<u8>, Vec<u8>),
    /// All streams ended; what is left over of times, pictures and planes.
    End([usize; 3]),
    /// Nothing within the time given to wait.
    Nothing,
    Fault(&'static str),
}

#[derive(Debug)]
pub(super) struct Meeting {
    state: Mutex<State>,
    changed: Condvar,
    queue: usize,
    with: [bool; 3],
}

impl Meeting {
    /// `with` says which of times, pictures and planes there will be.
    pub(super) fn new(queue: usize, with: [bool; 3]) -> Self {
        let state = State {
            ended: with.map(|there| !there),
            ..State::default()
        };
        Self {
            state: Mutex::new(state),
            changed: Condvar::new(),
            queue: queue.max(1),
            with,
        }
    }

    fn lock(&self) -> MutexGuard<'_, State> {
        // A panicking reader leaves whole values behind; go on.
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn is_ready(&self, state: &State) -> bool {
        let [times, pictures, planes] = self.with;
        (!times || !state.times.is_empty())
            && (!pictures || !state.pictures.is_empty())
            && (!planes || !state.planes.is_empty())
    }

    /// A line of times; never made to wait, since it is only a few bytes and
    /// FFmpeg cannot run ahead of its pipes.
    pub(super) fn push_time(&self, line: FrameLine) {
        let mut state = self.lock();
        state.times.push_back(line);
        self.after_push(&mut state, Stream::Times);
    }

    /// A picture; waits its turn. `false` when nobody wants more.
    pub(super) fn push_picture(&self, picture: Vec<u8>) -> bool {
        let mut state = self.turn(|state| state.pictures.len());
        state.pictures.push_back(picture);
        self.after_push(&mut state, Stream::Pictures);
        !state.closed
    }

    /// A plane; waits its turn. `false` when nobody wants more.
    pub(super) fn push_plane(&self, plane: Vec<u8>) -> bool {
        let mut state = self.turn(|state| state.planes.len());
        state.planes.push_back(plane);
        self.after_push(&mut state, Stream::Planes);
        !state.closed
    }

    fn turn(&self, length: impl Fn(&State) -> usize) -> MutexGuard<'_, State> {
        let mut state = self.lock();
        while !state.closed && length(&state) >= self.queue && self.is_ready(&state) {
            state = self
                .changed
                .wait(state)
                .unwrap_or_else(PoisonError::into_inner);
        }
        state
    }

    fn after_push(&self, state: &mut State, stream: Stream) {
        state.last_sign = Some(Instant::now());
        let length = match stream {
            Stream::Times => state.times.len(),
            Stream::Pictures => state.pictures.len(),
            Stream::Planes => state.planes.len(),
        };
        if length > STRAY_MOST + self.queue {
            state.fault = Some("one stream ran far ahead of the others");
            state.closed = true;
        }
        self.changed.notify_all();
    }

    /// A stream is over, with what went wrong if anything did.
    pub(super) fn end(&self, stream: Stream, fault: Option<&'static str>) {
        let mut state = self.lock();
        state.ended[stream as usize] = true;
        state.fault = state.fault.or(fault);
        self.changed.notify_all();
    }

    /// Nobody wants more; all that wait are let go.
    pub(super) fn close(&self) {
        self.lock().closed = true;
        self.changed.notify_all();
    }

    /// The next complete frame, waiting at most `wait`.
    pub(super) fn next(&self, wait: Duration) -> Met {
        let until = Instant::now() + wait;
        let mut state = self.lock();
        loop {
            if self.is_ready(&state) {
                let time = state.times.pop_front().unwrap_or(FrameLine::NONE);
                let picture = state.pictures.pop_front().unwrap_or_default();
                let plane = state.planes.pop_front().unwrap_or_default();
                self.changed.notify_all();
                return Met::Frame(time, picture, plane);
            }
            if let Some(fault) = state.fault {
                return Met::Fault(fault);
            }
            if state.ended == [true; 3] {
                return Met::End([state.times.len(), state.pictures.len(), state.planes.len()]);
            }
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() {
                return Met::Nothing;
            }
            state = self
                .changed
                .wait_timeout(state, left)
                .unwrap_or_else(PoisonError::into_inner)
                .0;
        }
    }

    /// How long since anything came, counted from `from` at the earliest.
    pub(super) fn silence(&self, from: Instant) -> Duration {
        self.lock()
            .last_sign
            .map_or(from, |sign| sign.max(from))
            .elapsed()
    }
}

#[cfg(test)]
mod tests;
