//! Senders that say too much, too slowly, or come too many at a time.

use std::io::{Read, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};

use serde_json::json;

use crate::served::{Answer, Bench, TOO_LONG, connect, film};

/// What a head and a piece of a body may take in these tests.
const LIMIT: Duration = Duration::from_millis(400);

/// Between two bytes of a slow sender: far below the limit, so that only the
/// whole can be too slow.
const DRIP: Duration = Duration::from_millis(40);

fn bench() -> Bench {
    Bench::with(|settings| {
        settings.limits.head = LIMIT;
        settings.limits.body = LIMIT;
    })
}

/// Sends a byte now and then until the server closes. Gives what was answered,
/// and how long the server has listened.
fn drip(stream: &mut TcpStream, mut bytes: impl Iterator<Item = u8>) -> (Vec<u8>, Duration) {
    let began = Instant::now();
    let mut heard = Vec::new();
    stream.set_read_timeout(Some(DRIP)).expect("a limit");
    while began.elapsed() < TOO_LONG {
        if let Some(byte) = bytes.next()
            && stream.write_all(&[byte]).is_err()
        {
            break;
        }
        let mut part = [0; 4096];
        // Waiting for the next byte is the very thing tested here.
        match stream.read(&mut part) {
            Ok(0) => break,
            Ok(count) => heard.extend_from_slice(&part[..count]),
            Err(e) if matches!(e.kind(), std::io::ErrorKind::WouldBlock) => {}
            Err(_) => break,
        }
    }
    (heard, began.elapsed())
}

/// Far more than any limit here, far less than it takes to send all.
const CLOSED_BY: Duration = Duration::from_secs(10);

#[test]
fn a_head_that_comes_slowly_is_not_waited_for() {
    let bench = bench();
    let head = bench.window.request("GET", "/api/shelf").head();
    let slow = head.bytes().chain(std::iter::repeat(b'a'));
    // Stop short of the end, which would make it a request.
    let without_end = slow.filter(|b| *b != b'\n');
    let (heard, took) = drip(&mut connect(bench.window.port), without_end);
    assert!(took < CLOSED_BY, "{took:?}");
    assert!(took >= LIMIT / 2, "{took:?}");
    assert!(!heard.starts_with(b"HTTP/1.1 200"));
}

#[test]
fn a_connection_that_says_nothing_is_closed() {
    let bench = bench();
    let (heard, took) = drip(&mut connect(bench.window.port), std::iter::empty());
    assert!(heard.is_empty() && took < CLOSED_BY, "{took:?}");
    // Also one that has asked, was answered, and then says nothing more.
    let ask = bench
        .window
        .request("GET", "/api/shelf")
        .without("Connection");
    let (heard, took) = drip(&mut ask.begin(), std::iter::empty());
    assert!(heard.starts_with(b"HTTP/1.1 200"));
    assert!(took < CLOSED_BY, "{took:?}");
}

#[test]
fn a_body_that_stops_or_comes_slowly_is_not_waited_for() {
    let bench = bench();
    let ask = bench.window.request("POST", "/api/films");
    let ask = ask
        .with("Content-Type", "application/json")
        .with("Content-Length", "60000");
    for bytes in [&b"{"[..], &[b' '; 60_000][..]] {
        let (heard, took) = drip(&mut ask.begin(), bytes.iter().copied());
        assert!(took < CLOSED_BY, "{took:?}");
        assert!(took >= LIMIT / 2, "{took:?}");
        assert!(heard.starts_with(b"HTTP/1.1 4"), "{heard:?}");
    }
    let copy = bench
        .window
        .request("PUT", &film("scans/slow.mkv?bytes=60000"));
    let copy = copy.with("Content-Length", "60000");
    let (_, took) = drip(&mut copy.begin(), std::iter::repeat(b'x'));
    assert!(took < CLOSED_BY, "{took:?}");
    let scans = bench.film_dir().join("scans");
    let left = std::fs::read_dir(scans).map_or(0, Iterator::count);
    assert_eq!(left, 0, "nothing half-made is left");
}

#[test]
fn a_body_that_keeps_coming_may_take_its_time() {
    let limit = Duration::from_millis(1_500);
    let bench = Bench::with(|settings| settings.limits.body = limit);
    // Longer in all than the limit, but a good piece of it again and again.
    let (pieces, pause) = (25, limit / 10);
    let bytes = pieces * 40_000;
    let target = film(&format!("scans/long.mkv?bytes={bytes}"));
    let copy = bench.window.request("PUT", &target);
    let mut stream = copy.with("Content-Length", &bytes.to_string()).begin();
    let began = Instant::now();
    stream.set_read_timeout(Some(pause)).expect("a limit");
    for _ in 0..pieces {
        stream.write_all(&[7; 40_000]).expect("taken");
        let _nothing_yet = stream.read(&mut [0; 1]);
    }
    assert!(began.elapsed() > 2 * limit);
    stream.set_read_timeout(Some(TOO_LONG)).expect("a limit");
    let answer = Answer::read(&mut stream).expect("an answer");
    assert_eq!(answer.ok()["bytes"], bytes);
}

#[test]
fn a_huge_document_is_refused_and_not_kept() {
    let bench = Bench::new();
    let title = "x".repeat(2 << 20);
    let new = json!({ "title": title, "gauge": "super8", "speed": "18" });
    let answer = bench.window.post("/api/films", &new);
    assert_eq!(answer.refused(413), "server.too_large");
    // The same without saying beforehand how much it is.
    let ask = bench.window.request("POST", "/api/films");
    let ask = ask
        .with("Content-Type", "application/json")
        .with("Transfer-Encoding", "chunked");
    let mut stream = ask.begin();
    let piece = format!("10000\r\n{}\r\n", " ".repeat(0x10000));
    for _ in 0..64 {
        if stream.write_all(piece.as_bytes()).is_err() {
            break;
        }
    }
    let answer = Answer::read(&mut stream).expect("an answer");
    assert_eq!(answer.refused(413), "server.too_large");
    let films = bench.window.get("/api/shelf").ok()["films"].clone();
    assert_eq!(films.as_array().map(Vec::len), Some(1));
}

#[test]
fn a_huge_head_is_refused() {
    let bench = Bench::new();
    let ask = bench.window.request("GET", "/api/shelf");
    for wrong in [
        ask.clone().with("X-Much", &"x".repeat(2 << 20)),
        (0..2_000).fold(ask.clone(), |ask, n| ask.and(&format!("X-{n}"), "1")),
        {
            let mut long = ask.clone();
            long.line = format!("GET /api/shelf?{} HTTP/1.1", "x".repeat(2 << 20));
            long
        },
    ] {
        let answer = wrong.try_send();
        let status = answer.as_ref().map_or(431, |a| a.status);
        assert!((400..500).contains(&status), "{answer:?}");
    }
    ask.send().ok();
}

#[test]
fn what_is_no_request_ends_that_connection_alone() {
    let bench = Bench::new();
    for wrong in [
        &b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03"[..],
        b"\r\n\r\n\r\n",
        b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
        b"GET /api/shelf\r\n\r\n",
        b"GET  / HTTP/1.1\r\nHost: \x00\r\n\r\n",
        b"POST /api/films HTTP/1.1\r\nContent-Length: -1\r\n\r\n",
        b"POST /api/films HTTP/1.1\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\nhello",
    ] {
        let mut stream = connect(bench.window.port);
        let _sent = stream.write_all(wrong);
        let _all = stream.shutdown(std::net::Shutdown::Write);
        let answer = Answer::read(&mut stream);
        let status = answer.as_ref().map_or(400, |a| a.status);
        assert!((400..500).contains(&status), "{answer:?}");
    }
    bench.window.get("/api/shelf").ok();
}

#[test]
fn more_connections_than_there_is_room_for_are_closed_at_once() {
    let bench = Bench::with(|settings| settings.limits.connections = 4);
    // Windows that listen hold their places for long. What asked before them has
    // its place until the server has seen that it is gone.
    let began = Instant::now();
    let mut listening: Vec<TcpStream> = Vec::new();
    while listening.len() < 4 {
        assert!(began.elapsed() < CLOSED_BY, "{} listen", listening.len());
        let mut stream = bench.window.request("GET", "/api/events").begin();
        let mut head = [0; 12];
        if stream.read_exact(&mut head).is_ok() {
            assert_eq!(&head, b"HTTP/1.1 200");
            listening.push(stream);
        }
    }
    let ask = bench.window.request("GET", "/api/shelf");
    assert!(ask.try_send().is_none(), "closed without an answer");
    // A place that is given back is a place, as soon as the server has seen it.
    drop(listening);
    let began = Instant::now();
    while ask.try_send().is_none() {
        assert!(began.elapsed() < CLOSED_BY);
    }
    ask.send().ok();
}
