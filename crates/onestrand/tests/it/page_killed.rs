//! The program that serves the page, killed (signal 9) while a window changes a
//! film: started again it has all that was acknowledged, and what was not is
//! carried out once when the window sends it again under its key.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::PathBuf;
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

use serde_json::{Value, json};

use crate::program::{call, onestrand};

/// A film, and the memory of who was let in.
pub(crate) struct Bench {
    dir: tempfile::TempDir,
}

/// The program while it serves, and how a window asks it.
pub(crate) struct Serving {
    pub(crate) child: Child,
    port: u16,
    code: String,
}

impl Bench {
    pub(crate) fn new() -> Self {
        let bench = Self {
            dir: tempfile::tempdir().expect("a folder"),
        };
        let film = bench.path("film");
        let film = film.to_str().expect("plain");
        call(["new", film, "--title", "Killed", "--gauge", "super8"]).ok();
        std::fs::create_dir(bench.path("media")).expect("a folder");
        bench
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.dir.path().join(name)
    }

    /// Starts the program and waits until it says where the page is.
    /// Serves. A port that was just let go may be held a moment longer by a child
    /// process that another test is starting.
    pub(crate) fn serve(&self, port: u16) -> Serving {
        let patience = Instant::now() + Duration::from_secs(20);
        loop {
            match self.try_to_serve(port) {
                Ok(serving) => return serving,
                Err(said) if said.contains("listen on port") && Instant::now() < patience => {
                    std::thread::sleep(Duration::from_millis(20));
                }
                Err(said) => panic!("it does not serve: {said}"),
            }
        }
    }

    /// The same, or what the program says instead.
    fn try_to_serve(&self, port: u16) -> Result<Serving, String> {
        let mut child = onestrand()
            .args([
                "--json",
                "open",
                "--no-browser",
                "--port",
                &port.to_string(),
            ])
            .arg(self.path("film"))
            .arg("--media")
            .arg(self.path("media"))
            .env("HOME", self.dir.path())
            .env("XDG_STATE_HOME", self.path("state"))
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program starts");
        let mut said = String::new();
        let out = child.stdout.take().expect("a pipe");
        let mut out = BufReader::new(out);
        let open = loop {
            let read = out.read_line(&mut said).expect("it says something");
            assert!(read > 0, "it ended: {said}");
            if let Ok(document) = serde_json::from_str::<Value>(&said) {
                match document["open"].as_str() {
                    Some(address) => break address.to_owned(),
                    None => {
                        let _ended = child.wait();
                        return Err(said);
                    }
                }
            }
        };
        let rest = open.strip_prefix("http://127.0.0.1:").expect("an address");
        let (port, code) = rest.split_once("/?code=").expect("a code");
        Ok(Serving {
            child,
            port: port.parse().expect("a port"),
            code: code.to_owned(),
        })
    }
}

impl Drop for Serving {
    fn drop(&mut self) {
        let _ended = self.child.kill();
        let _ended = self.child.wait();
    }
}

/// One window: it knows its cookie, and the port at which the program is found
/// again.
#[derive(Clone)]
pub(crate) struct Window {
    pub(crate) port: u16,
    cookie: String,
}

impl Window {
    /// Asks; nothing when no whole answer comes.
    fn ask(&self, method: &str, target: &str, body: &str) -> Option<(u16, String)> {
        let mut stream = TcpStream::connect(("127.0.0.1", self.port)).ok()?;
        stream
            .set_read_timeout(Some(Duration::from_secs(30)))
            .expect("a limit");
        let (port, cookie, length) = (self.port, &self.cookie, body.len());
        let request = format!(
            "{method} {target} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nCookie: {cookie}\r\n\
             Connection: close\r\nContent-Type: application/json\r\nContent-Length: {length}\r\n\r\n{body}"
        );
        stream.write_all(request.as_bytes()).ok()?;
        let mut answer = String::new();
        stream.read_to_string(&mut answer).ok()?;
        let (head, body) = answer.split_once("\r\n\r\n")?;
        let status = head.split(' ').nth(1)?.parse().ok()?;
        let promised = head
            .lines()
            .find_map(|l| l.strip_prefix("content-length: "));
        let whole = promised.is_none_or(|n| n.parse() == Ok(body.len()));
        whole.then(|| (status, answer.clone()))
    }

    pub(crate) fn document(&self, method: &str, target: &str, body: &str) -> Option<Value> {
        let (status, answer) = self.ask(method, target, body)?;
        assert_eq!(status, 200, "{answer}");
        let (_, body) = answer.split_once("\r\n\r\n")?;
        serde_json::from_str(body).ok()
    }

    pub(crate) fn enter(serving: &Serving) -> Self {
        let stranger = Self {
            port: serving.port,
            cookie: String::new(),
        };
        let target = format!("/?code={}", serving.code);
        let (status, answer) = stranger.ask("GET", &target, "").expect("an answer");
        assert_eq!(status, 303, "{answer}");
        let set = answer.lines().find_map(|l| l.strip_prefix("set-cookie: "));
        let cookie = set.and_then(|s| s.split(';').next()).expect("a cookie");
        Self {
            cookie: cookie.to_owned(),
            ..stranger
        }
    }
}

/// A free port that nobody is given by chance between two starts: those lie above
/// (`ip_local_port_range`, Linux's `ip(7)`).
pub(crate) fn free_port(mut among: std::ops::Range<u16>) -> u16 {
    let free = |port: &u16| TcpListener::bind(("127.0.0.1", *port)).is_ok();
    among.find(free).expect("a free port")
}

/// What the window asks for next: three pieces laid in, then one taken back.
fn wish(number: usize) -> Option<String> {
    (number % 4 != 3).then(|| format!("piece {number}"))
}

/// Sends the wish of this number against a revision. Nothing when the program
/// is gone.
fn send(window: &Window, number: usize, revision: u64) -> Option<Value> {
    let key = format!("key-{number}");
    match wish(number) {
        Some(note) => {
            let piece = json!({ "kind": "leader", "frames": 7, "note": note });
            let change = json!({ "change": "insert", "at": 0, "piece": piece });
            let change = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": change });
            let body = json!({ "key": key, "revision": revision, "change": change });
            window.document("POST", "/api/films/film/changes", &body.to_string())
        }
        None => {
            let body = json!({ "key": key }).to_string();
            window.document("POST", "/api/films/film/undo", &body)
        }
    }
}

/// The same by hand; the newest piece stands first.
fn make(pieces: &mut Vec<String>, number: usize) {
    match wish(number) {
        Some(note) => pieces.insert(0, note),
        None => drop(pieces.remove(0)),
    }
}

fn there(window: &Window) -> Vec<String> {
    let cut = window.document("GET", "/api/films/film/cuts/v1", "");
    let cut = cut.expect("the cut");
    let pieces = cut["pieces"].as_array().expect("pieces");
    let note = |p: &Value| p["note"].as_str().expect("a note").to_owned();
    pieces.iter().map(note).collect()
}

/// Parts of a span fixed once, so that a failure can be had again.
fn moments(count: u64, span: Duration) -> impl Iterator<Item = Duration> {
    let mut state = 0x2545_f491_4f6c_dd1d_u64;
    (0..count).map(move |_| {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        span.mul_f64(f64::from(u32::try_from(state >> 40).unwrap_or(0)) / f64::from(1_u32 << 24))
    })
}

#[test]
fn a_page_served_and_killed_at_twenty_moments_loses_nothing_that_was_acknowledged() {
    let bench = Bench::new();
    let port = free_port(30_100..31_000);
    let mut serving = bench.serve(port);
    let window = Window::enter(&serving);
    let body =
        json!({ "key": "cut", "revision": 0, "change": { "film_change": "new_cut", "cut": "v1" } });
    let new = window.document("POST", "/api/films/film/changes", &body.to_string());
    let mut revision = new.expect("kept")["revision"].as_u64().expect("one");

    // Twelve undisturbed, to know where the moments have to fall.
    let (mut pieces, mut number) = (Vec::new(), 0);
    let began = Instant::now();
    while number < 12 {
        let kept = send(&window, number, revision).expect("kept");
        revision = kept["revision"].as_u64().expect("one");
        make(&mut pieces, number);
        number += 1;
    }
    let span = began.elapsed();
    let mut acknowledged = 0;
    for moment in moments(20, span) {
        let mut child = serving;
        let killing = std::thread::spawn(move || {
            // Waiting for a moment to pass is the very thing tested here.
            std::thread::sleep(moment);
            child.child.kill().expect("killed");
            child.child.wait().expect("ended");
        });
        while let Some(kept) = send(&window, number, revision) {
            revision = kept["revision"].as_u64().expect("one");
            make(&mut pieces, number);
            number += 1;
            acknowledged += 1;
        }
        killing.join().expect("killed");
        serving = bench.serve(window.port);
        // The window is known without a code, and sends what was not answered
        // as it was, under its key; as often as it likes. On a quick disk half
        // of these are on the disk already, and only the answer was lost.
        let again = send(&window, number, revision).expect("kept");
        make(&mut pieces, number);
        assert_eq!(there(&window), pieces, "after {moment:?}, at {number}");
        let twice = send(&window, number, revision).expect("kept");
        assert_eq!(
            (&twice["already"], &twice["revision"]),
            (&json!(true), &again["revision"])
        );
        assert_eq!(there(&window), pieces, "after {moment:?}, at {number}");
        revision = again["revision"].as_u64().expect("one");
        number += 1;
    }
    assert!(
        acknowledged >= 20,
        "the moments fall among changes: {acknowledged}"
    );
    drop(serving);
    let film = bench.path("film");
    let journal = call(["journal", film.to_str().expect("plain"), "--most", "1000"]).ok();
    let lines = journal["journal"].as_array().expect("lines").len();
    let made = (0..number).filter(|n| wish(*n).is_some()).count();
    assert_eq!(lines, made + 1, "each piece once, and the version");
}
