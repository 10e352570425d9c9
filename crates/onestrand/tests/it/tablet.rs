//! The tablet's door by command: where it is and what opens it is printed, and without
//! the word nothing is opened.

use std::io::{BufRead, BufReader};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};

use serde_json::Value;

use crate::program::{call, onestrand};

/// The program while it serves; ended when dropped.
struct Serving(Child);

impl Drop for Serving {
    fn drop(&mut self) {
        let _ended = self.0.kill();
        let _ended = self.0.wait();
    }
}

struct Film(tempfile::TempDir);

impl Film {
    fn new() -> Self {
        let dir = tempfile::tempdir().expect("a folder");
        let film = dir.path().join("film");
        let film = film.to_str().expect("plain");
        call(["new", film, "--title", "A Boat", "--gauge", "super8"]).ok();
        Self(dir)
    }

    fn open(&self, what: &str, more: &[&str]) -> Command {
        let mut command = onestrand();
        command
            .args(["open", "--no-browser", "--port", "0"])
            .args(more)
            .arg(self.0.path().join(what))
            .env("HOME", self.0.path())
            .env("XDG_STATE_HOME", self.0.path().join("state"))
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        command
    }

    /// What stands on so many lines of its standard output.
    fn said(&self, more: &[&str], lines: usize) -> (Serving, Vec<String>) {
        let mut child = self.open("film", more).spawn().expect("it starts");
        let out = BufReader::new(child.stdout.take().expect("a pipe"));
        let said = out.lines().take(lines).map(|line| line.expect("a line"));
        (Serving(child), said.collect())
    }
}

const DOOR: [&str; 3] = ["--tablet", "--tablet-at", "127.0.0.1"];

#[test]
fn address_and_code_are_printed_and_the_door_listens() {
    let film = Film::new();
    let (_serving, said) = film.said(&DOOR, 2);
    assert!(said[0].starts_with("open http://127.0.0.1:"), "{said:?}");
    let rest = said[1].strip_prefix("tablet http://").expect("an address");
    let (at, code) = rest.split_once("/ code ").expect("a code");
    assert!(TcpStream::connect(at).is_ok(), "{at}");
    assert_eq!(code.len(), 8, "{code}");
    assert!(code.bytes().all(|c| c.is_ascii_digit()), "{code}");
}

#[test]
fn as_one_document() {
    let film = Film::new();
    let (_serving, said) = film.said(&["--json", DOOR[0], DOOR[1], DOOR[2]], 1);
    let document: Value = serde_json::from_str(&said[0]).expect("one document on one line");
    assert!(document["open"].is_string());
    assert!(document["tablet"]["addresses"][0].is_string(), "{document}");
    assert!(document["tablet"]["code"].is_string(), "{document}");
}

#[test]
fn without_the_word_it_stays_shut() {
    let film = Film::new();
    let (_serving, said) = film.said(&["--json", DOOR[1], DOOR[2]], 1);
    let document: Value = serde_json::from_str(&said[0]).expect("a document");
    assert!(document["open"].is_string());
    assert_eq!(document.get("tablet"), None);
}

#[test]
fn it_is_refused_for_a_shelf_and_for_the_world_at_large() {
    let film = Film::new();
    for (what, more, word) in [
        (".", &DOOR[..], "this is a shelf"),
        (
            "film",
            &["--tablet-at", "0.0.0.0"],
            "a network of one's own",
        ),
        (
            "film",
            &["--tablet-at", "203.0.113.9"],
            "a network of one's own",
        ),
    ] {
        let ended = film.open(what, more).output().expect("it ends");
        assert_eq!(ended.status.code(), Some(1), "{ended:?}");
        let said = String::from_utf8_lossy(&ended.stderr).into_owned();
        assert!(said.contains(word), "{said}");
    }
}
