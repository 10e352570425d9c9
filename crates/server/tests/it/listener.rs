//! A window that listens for events.

use std::io::{BufRead, BufReader};
use std::net::TcpStream;
use std::time::Instant;

use serde_json::Value;

use crate::served::{TOO_LONG, Window};

/// The stream of events, from the moment it was opened.
#[derive(Debug)]
pub(crate) struct Listener(BufReader<TcpStream>);

impl Listener {
    /// Listens. What happens after this returns is heard.
    pub(crate) fn of(window: &Window) -> Self {
        let stream = window.request("GET", "/api/events").begin();
        let mut lines = BufReader::new(stream);
        let mut line = String::new();
        lines.read_line(&mut line).expect("an answer");
        assert!(line.starts_with("HTTP/1.1 200"), "{line}");
        while line != "\r\n" {
            line.clear();
            lines.read_line(&mut line).expect("a header");
        }
        Self(lines)
    }

    /// The next event; the sizes of pieces and the silent lines between are no
    /// events.
    pub(crate) fn next(&mut self) -> Value {
        // Silent lines come all the while, so each of them is no sign of an event.
        let began = Instant::now();
        loop {
            assert!(began.elapsed() < TOO_LONG, "no event comes");
            let mut line = String::new();
            let count = self.0.read_line(&mut line).expect("an event comes in time");
            assert!(count > 0, "the stream has ended");
            if let Some(text) = line.strip_prefix("data: ") {
                return serde_json::from_str(text).expect("a document");
            }
        }
    }

    /// The next event of a kind.
    pub(crate) fn next_of(&mut self, kind: &str) -> Value {
        loop {
            let event = self.next();
            if event["event"] == kind {
                return event;
            }
        }
    }
}
