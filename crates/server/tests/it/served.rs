//! A server on a shelf of its own, and a client that can say every line of a
//! request wrongly.

use std::io::{Read, Write};
use std::net::{IpAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU16, Ordering};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use onestrand_server::{Limits, ServeError, Server, Settings};
use serde_json::Value;

/// Longer than any answer may take; a test that waits so long has failed.
pub(crate) const TOO_LONG: Duration = Duration::from_secs(60);

/// A server that answers until it is dropped.
#[derive(Debug)]
pub(crate) struct Served {
    pub(crate) port: u16,
    pub(crate) code: String,
    stop: Arc<AtomicBool>,
    thread: Option<JoinHandle<()>>,
}

/// Settings for a shelf, with nothing chosen and nothing kept.
pub(crate) fn settings(shelf: &Path) -> Settings {
    Settings {
        dir: shelf.to_owned(),
        port: Some(0),
        media: Vec::new(),
        home: None,
        state: None,
        tablets_at: vec![IpAddr::from([127, 0, 0, 1])],
        tablet: false,
        limits: Limits::default(),
    }
}

/// A server that listens. A port that was just let go may be held a moment
/// longer by a child process that another test is starting: between fork and
/// exec it has all that this process had open.
fn listening(settings: &Settings) -> Server {
    let patience = Instant::now() + Duration::from_secs(20);
    loop {
        match Server::ready(settings) {
            Err(ServeError::Port { .. }) if Instant::now() < patience => {
                std::thread::sleep(Duration::from_millis(20));
            }
            ready => return ready.expect("the server is ready"),
        }
    }
}

impl Served {
    pub(crate) fn with(settings: &Settings) -> Self {
        let server = listening(settings);
        let address = server.address().to_owned();
        let rest = address
            .strip_prefix("http://127.0.0.1:")
            .expect("an address");
        let (port, code) = rest.split_once("/?code=").expect("a code");
        let stop = Arc::new(AtomicBool::new(false));
        let stopped = Arc::clone(&stop);
        Self {
            port: port.parse().expect("a port"),
            code: code.to_owned(),
            stop,
            thread: Some(std::thread::spawn(move || {
                server.run(|| stopped.load(Ordering::Relaxed));
            })),
        }
    }

    pub(crate) fn on(shelf: &Path) -> Self {
        Self::with(&settings(shelf))
    }

    /// A browser that nobody has let in.
    pub(crate) fn stranger(&self) -> Window {
        Window {
            port: self.port,
            cookie: None,
        }
    }

    /// A browser that has exchanged the code. The code goes once.
    pub(crate) fn enter(&self) -> Window {
        let stranger = self.stranger();
        let answer = stranger.get(&format!("/?code={}", self.code));
        assert_eq!(answer.status, 303, "{answer:?}");
        let set = answer.header("set-cookie").expect("a cookie");
        let cookie = set.split(';').next().expect("its value").to_owned();
        Window {
            cookie: Some(cookie),
            ..stranger
        }
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        if let Some(thread) = self.thread.take() {
            let _ended = thread.join();
        }
    }
}

/// One browser window: where it asks, and with which cookie.
#[derive(Debug, Clone)]
pub(crate) struct Window {
    pub(crate) port: u16,
    pub(crate) cookie: Option<String>,
}

impl Window {
    /// A request as the page would make it, to be changed at will.
    pub(crate) fn request(&self, method: &str, target: &str) -> Request {
        let request = Request {
            port: self.port,
            line: format!("{method} {target} HTTP/1.1"),
            headers: Vec::new(),
            body: Vec::new(),
        };
        let request = request
            .with("Host", &format!("127.0.0.1:{}", self.port))
            .with("Connection", "close");
        match &self.cookie {
            Some(cookie) => request.with("Cookie", cookie),
            None => request,
        }
    }

    pub(crate) fn get(&self, target: &str) -> Answer {
        self.request("GET", target).send()
    }

    pub(crate) fn post(&self, target: &str, document: &Value) -> Answer {
        self.request("POST", target).json(document).send()
    }
}

/// A request, line by line.
#[derive(Debug, Clone)]
pub(crate) struct Request {
    pub(crate) port: u16,
    pub(crate) line: String,
    headers: Vec<(String, String)>,
    body: Vec<u8>,
}

impl Request {
    /// Says a header so, whatever was said before.
    pub(crate) fn with(self, name: &str, value: &str) -> Self {
        let mut request = self.without(name);
        request.headers.push((name.to_owned(), value.to_owned()));
        request
    }

    /// Says a header once more.
    pub(crate) fn and(mut self, name: &str, value: &str) -> Self {
        self.headers.push((name.to_owned(), value.to_owned()));
        self
    }

    pub(crate) fn without(mut self, name: &str) -> Self {
        self.headers.retain(|(n, _)| !n.eq_ignore_ascii_case(name));
        self
    }

    pub(crate) fn body(mut self, kind: &str, body: &[u8]) -> Self {
        self.body = body.to_vec();
        self.with("Content-Type", kind)
            .with("Content-Length", &body.len().to_string())
    }

    pub(crate) fn json(self, document: &Value) -> Self {
        self.body("application/json", document.to_string().as_bytes())
    }

    /// The lines up to the body.
    pub(crate) fn head(&self) -> String {
        let lines: String = self
            .headers
            .iter()
            .map(|(name, value)| format!("{name}: {value}\r\n"))
            .collect();
        format!("{}\r\n{lines}\r\n", self.line)
    }

    /// Connects and says the head alone.
    pub(crate) fn begin(&self) -> TcpStream {
        let mut stream = connect(self.port);
        // A server that has closed already answers all the same.
        let _sent = stream.write_all(self.head().as_bytes());
        stream
    }

    pub(crate) fn send(&self) -> Answer {
        self.try_send().expect("an answer")
    }

    /// Nothing when the connection was closed without an answer.
    pub(crate) fn try_send(&self) -> Option<Answer> {
        let mut stream = connect(self.port);
        let mut whole = self.head().into_bytes();
        whole.extend_from_slice(&self.body);
        let _sent = stream.write_all(&whole);
        Answer::read(&mut stream)
    }
}

pub(crate) fn connect(port: u16) -> TcpStream {
    let stream = TcpStream::connect(("127.0.0.1", port)).expect("a connection");
    stream.set_read_timeout(Some(TOO_LONG)).expect("a limit");
    stream.set_nodelay(true).expect("small pieces at once");
    stream
}

/// What was answered.
#[derive(Clone)]
pub(crate) struct Answer {
    pub(crate) status: u16,
    headers: Vec<(String, String)>,
    pub(crate) body: Vec<u8>,
}

impl std::fmt::Debug for Answer {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let body = String::from_utf8_lossy(&self.body[..self.body.len().min(600)]);
        write!(f, "{} {:?} {body}", self.status, self.headers)
    }
}

impl Answer {
    /// Reads until the server closes.
    pub(crate) fn read(stream: &mut TcpStream) -> Option<Self> {
        let mut bytes = Vec::new();
        let mut part = [0; 1 << 16];
        // A reset after the answer takes nothing of it away.
        while let Ok(count @ 1..) = stream.read(&mut part) {
            bytes.extend_from_slice(&part[..count]);
        }
        Self::parse(&bytes)
    }

    fn parse(bytes: &[u8]) -> Option<Self> {
        let end = bytes.windows(4).position(|w| w == b"\r\n\r\n")?;
        let head = String::from_utf8_lossy(&bytes[..end]).into_owned();
        let mut lines = head.split("\r\n");
        let status = lines.next()?.split(' ').nth(1)?.parse().ok()?;
        let headers: Vec<(String, String)> = lines
            .filter_map(|line| line.split_once(':'))
            .map(|(name, value)| (name.to_ascii_lowercase(), value.trim().to_owned()))
            .collect();
        Some(Self {
            status,
            headers,
            body: bytes[end + 4..].to_vec(),
        })
    }

    pub(crate) fn header(&self, name: &str) -> Option<&str> {
        let found = self.headers.iter().find(|(n, _)| n == name);
        found.map(|(_, value)| value.as_str())
    }

    pub(crate) fn document(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap_or(Value::Null)
    }

    /// The document of an answer that must be yes.
    pub(crate) fn ok(&self) -> Value {
        assert_eq!(self.status, 200, "{self:?}");
        let document = self.document();
        assert!(!document.is_null(), "no document: {self:?}");
        document
    }

    /// The code of an answer that must be no, said in the one form.
    pub(crate) fn refused(&self, status: u16) -> String {
        assert_eq!(self.status, status, "{self:?}");
        let document = self.document();
        for field in ["code", "message", "hint"] {
            let text = document[field].as_str().unwrap_or("");
            assert!(!text.is_empty(), "no {field}: {self:?}");
        }
        document["code"].as_str().expect("a code").to_owned()
    }
}

/// A free port that nobody is given by chance while a program is started again:
/// those given by chance lie above (`ip_local_port_range`, Linux's `ip(7)`).
fn lasting_port() -> u16 {
    static NEXT: AtomicU16 = AtomicU16::new(0);
    let begin = u16::try_from(std::process::id() % 50).expect("small") * 200;
    let free = |port: &u16| TcpListener::bind(("127.0.0.1", *port)).is_ok();
    std::iter::repeat_with(|| NEXT.fetch_add(1, Ordering::Relaxed))
        .map(|next| 20_000 + (begin + next) % 10_000)
        .take(10_000)
        .find(free)
        .expect("a free port")
}

/// A shelf with a film of paper rolls, and a window that is in.
#[derive(Debug)]
pub(crate) struct Bench {
    pub(crate) served: Option<Served>,
    pub(crate) window: Window,
    pub(crate) dir: tempfile::TempDir,
}

/// The film of a [`Bench`] in addresses.
pub(crate) const FILM: &str = "a-boat";

impl Bench {
    pub(crate) fn new() -> Self {
        Self::with(|_| {})
    }

    /// The same with other settings; `R1` and `R2` are known on paper, with
    /// 3,600 frames each, and there is an empty version `v1`.
    pub(crate) fn with(change: impl FnOnce(&mut Settings)) -> Self {
        let dir = tempfile::tempdir().expect("a folder");
        let mut settings = settings(&dir.path().join("shelf"));
        settings.state = Some(dir.path().join("state"));
        settings.port = Some(lasting_port());
        change(&mut settings);
        let served = Served::with(&settings);
        let window = served.enter();
        let bench = Self {
            served: Some(served),
            window,
            dir,
        };
        let new = serde_json::json!({ "title": "A Boat", "gauge": "super8", "speed": "18" });
        let film = bench.window.post("/api/films", &new).ok();
        assert_eq!(film["film"], FILM);
        for roll in ["R1", "R2"] {
            bench.paper(roll).ok();
        }
        let change = serde_json::json!({ "film_change": "new_cut", "cut": "v1" });
        bench.change("first", 2, &change).ok();
        bench
    }

    pub(crate) fn film_dir(&self) -> PathBuf {
        self.dir.path().join("shelf").join(FILM)
    }

    pub(crate) fn paper(&self, roll: &str) -> Answer {
        let form = serde_json::json!({ "roll": roll, "frames": 3600, "base": "triacetate", "fit": "project" });
        self.window.post(&film("paper"), &form)
    }

    pub(crate) fn change(&self, key: &str, revision: u64, change: &Value) -> Answer {
        let asked = serde_json::json!({ "key": key, "revision": revision, "change": change });
        self.window.post(&film("changes"), &asked)
    }

    /// Ends the program and starts it again on the same shelf, with the same
    /// memory of who was let in and on the same port.
    pub(crate) fn start_again(&mut self) {
        drop(self.served.take());
        let mut settings = settings(&self.dir.path().join("shelf"));
        settings.state = Some(self.dir.path().join("state"));
        settings.port = Some(self.window.port);
        self.served = Some(Served::with(&settings));
    }
}

/// An address of the film of a [`Bench`].
pub(crate) fn film(rest: &str) -> String {
    match rest {
        "" => format!("/api/films/{FILM}"),
        rest => format!("/api/films/{FILM}/{rest}"),
    }
}
