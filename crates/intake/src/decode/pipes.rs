//! The threads that read FFmpeg's pipes.

use std::io::{BufReader, ErrorKind, PipeReader, Read};
use std::process::ChildStdout;
use std::sync::Arc;
use std::thread::JoinHandle;

use super::Pictures;
use super::meeting::{Meeting, Stream};
use crate::Plane;
use crate::mpjpeg::next_picture;

/// The threads that read FFmpeg's pipes; let go and awaited when dropped.
#[derive(Debug)]
pub(super) struct Readers {
    meeting: Arc<Meeting>,
    threads: Vec<JoinHandle<()>>,
}

impl Readers {
    pub(super) fn new(meeting: &Arc<Meeting>) -> Self {
        Self {
            meeting: Arc::clone(meeting),
            threads: Vec::new(),
        }
    }

    pub(super) fn read(
        &mut self,
        stdout: Option<ChildStdout>,
        planes: Option<(PipeReader, usize)>,
        pictures: Pictures,
    ) {
        if let Some((planes, each)) = planes {
            let to = Arc::clone(&self.meeting);
            self.threads
                .push(std::thread::spawn(move || read_planes(planes, each, &to)));
        }
        let Some(stdout) = stdout else { return };
        let to = Arc::clone(&self.meeting);
        match pictures {
            Pictures::None => {}
            Pictures::Coded => self
                .threads
                .push(std::thread::spawn(move || read_coded(stdout, &to))),
            Pictures::Raw(bytes) => self
                .threads
                .push(std::thread::spawn(move || read_raw(stdout, bytes, &to))),
        }
    }
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

fn read_coded(from: ChildStdout, to: &Meeting) {
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
            Err(error) if error.kind() == ErrorKind::UnexpectedEof => break None,
            Err(_) => break Some("the stream of pictures is malformed"),
        }
    };
    to.end(Stream::Pictures, fault);
}

fn read_raw(mut from: impl Read, bytes: usize, to: &Meeting) {
    loop {
        // Read into room that is not filled with zeros first: pictures are large.
        let mut picture = Vec::with_capacity(bytes);
        let read = from.by_ref().take(bytes as u64).read_to_end(&mut picture);
        if read.is_err() || picture.len() != bytes || !to.push_picture(picture) {
            break;
        }
    }
    to.end(Stream::Pictures, None);
}

fn read_planes(mut from: impl Read, each: usize, to: &Meeting) {
    loop {
        let mut plane = vec![0; each * Plane::BYTES];
        if from.read_exact(&mut plane).is_err() || !to.push_plane(plane) {
            break;
        }
    }
    to.end(Stream::Planes, None);
}
