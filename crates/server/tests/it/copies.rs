//! Scans copied into a film's folder, as they come.

use std::io::Write;
use std::time::{Duration, Instant};

use serde_json::json;

use crate::served::{Answer, Bench, film};

fn put(bench: &Bench, name: &str, promised: u64, bytes: &[u8]) -> Answer {
    let target = film(&format!("scans/{name}?bytes={promised}"));
    let ask = bench.window.request("PUT", &target);
    ask.body("application/octet-stream", bytes).send()
}

/// The names of what lies in the film's folder of scans.
fn lying(bench: &Bench) -> Vec<String> {
    let Ok(entries) = std::fs::read_dir(bench.film_dir().join("scans")) else {
        return Vec::new();
    };
    let mut names: Vec<String> = entries
        .map(|e| {
            e.expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort();
    names
}

#[test]
fn a_copy_stands_under_its_name_when_it_is_whole() {
    let bench = Bench::new();
    let bytes: Vec<u8> = (0..300_000_u32).map(|n| (n % 251) as u8).collect();
    let copied = put(&bench, "roll%20one.mkv", 300_000, &bytes).ok();
    assert_eq!(copied["bytes"], 300_000);
    let path = bench.film_dir().join("scans/roll one.mkv");
    assert_eq!(copied["path"], path.to_str().expect("plain"));
    assert_eq!(std::fs::read(&path).expect("there"), bytes);
    assert_eq!(lying(&bench), ["roll one.mkv"]);
    // It may be brought in from there, also into a film that was begun just
    // now: what is refused here is what it holds, not where it lies.
    let roll = json!({ "roll": "R9", "files": [path.to_str()] });
    let answer = bench.window.post(&film("rolls"), &roll);
    assert_ne!(answer.refused(422), "server.outside_folders");
    // Nothing is written over.
    let again = put(&bench, "roll%20one.mkv", 3, b"new");
    again.refused(409);
    assert_eq!(std::fs::read(&path).expect("there"), bytes);
}

#[test]
fn a_copy_of_another_size_than_promised_leaves_nothing() {
    let bench = Bench::new();
    for (promised, bytes) in [(10, &b"123456789"[..]), (10, b"12345678901"), (0, b"1")] {
        put(&bench, "a.mkv", promised, bytes).refused(400);
        assert_eq!(lying(&bench), Vec::<String>::new());
    }
    let much = put(&bench, "a.mkv", u64::MAX, b"1");
    assert_eq!(much.refused(413), "server.no_room");
    assert_eq!(lying(&bench), Vec::<String>::new());
    put(&bench, "a.mkv", 0, b"").ok();
}

#[test]
fn only_a_plain_name_is_a_name() {
    let bench = Bench::new();
    let long = "x".repeat(240);
    for name in [
        "..",
        ".",
        ".hidden",
        "a%2Fb.mkv",
        "..%2F..%2Fa.mkv",
        "%2Fetc%2Fa.mkv",
        "a%5Cb.mkv",
        "a%00.mkv",
        "a%0A.mkv",
        "%1B%5B2J.mkv",
        long.as_str(),
    ] {
        let answer = put(&bench, name, 1, b"1");
        assert!((400..500).contains(&answer.status), "{name}: {answer:?}");
        assert_eq!(lying(&bench), Vec::<String>::new(), "{name}");
    }
    let shelf = bench.dir.path().join("shelf");
    let beside = std::fs::read_dir(shelf).expect("the shelf").count();
    assert_eq!(beside, 1, "nothing lies beside the film");
    put(&bench, "na%C3%AFve%20%25d.mkv", 1, b"1").ok();
    assert_eq!(lying(&bench), ["naïve %d.mkv"]);
}

/// What is left after a while: the server sees a lost sender in its own time.
fn left_in_the_end(bench: &Bench) -> Vec<String> {
    let began = Instant::now();
    loop {
        let left = lying(bench);
        if left.is_empty() || began.elapsed() > Duration::from_secs(10) {
            return left;
        }
    }
}

#[test]
fn a_copy_that_is_cut_off_leaves_nothing() {
    let bench = Bench::new();
    let ask = bench
        .window
        .request("PUT", &film("scans/cut.mkv?bytes=9000000"));
    let ask = ask.with("Content-Length", "9000000");
    for how in 0..2 {
        let mut stream = ask.begin();
        stream.write_all(&vec![1; 3_000_000]).expect("taken");
        // It has come so far that there is something to leave.
        let began = Instant::now();
        while lying(&bench).is_empty() && began.elapsed() < Duration::from_secs(10) {}
        assert_eq!(lying(&bench).len(), 1);
        assert_ne!(lying(&bench), ["cut.mkv"], "not under its name yet");
        match how {
            0 => drop(stream),
            _ => stream.shutdown(std::net::Shutdown::Write).expect("closed"),
        }
        assert_eq!(left_in_the_end(&bench), Vec::<String>::new(), "{how}");
    }
}

#[test]
fn a_copy_under_way_when_the_program_ends_leaves_nothing() {
    let mut bench = Bench::new();
    let ask = bench
        .window
        .request("PUT", &film("scans/cut.mkv?bytes=9000000"));
    let mut stream = ask.with("Content-Length", "9000000").begin();
    stream.write_all(&[1; 100_000]).expect("taken");
    let began = Instant::now();
    while lying(&bench).is_empty() && began.elapsed() < Duration::from_secs(10) {}
    assert_eq!(lying(&bench).len(), 1);
    drop(bench.served.take());
    assert_eq!(left_in_the_end(&bench), Vec::<String>::new());
    drop(stream);
}

/// Killed in the middle, the program can clear nothing away; it does so when
/// it opens the film again.
#[test]
fn what_a_kill_has_left_goes_when_the_film_is_opened() {
    let mut bench = Bench::new();
    let ask = bench
        .window
        .request("PUT", &film("scans/killed.mkv?bytes=9000000"));
    let mut stream = ask.with("Content-Length", "9000000").begin();
    stream.write_all(&[1; 100_000]).expect("taken");
    let began = Instant::now();
    while lying(&bench).is_empty() && began.elapsed() < Duration::from_secs(10) {}
    let part = bench.film_dir().join("scans").join(&lying(&bench)[0]);
    drop(stream);
    drop(bench.served.take());
    std::fs::write(&part, b"as a kill leaves it").expect("written");
    std::fs::write(bench.film_dir().join("scans/own.mkv.part"), b"the user's").expect("written");
    bench.start_again();
    bench.window.get(&film("")).ok();
    assert_eq!(lying(&bench), ["own.mkv.part"]);
    put(&bench, "killed.mkv", 1, b"1").ok();
}

#[test]
fn two_copies_of_one_name_at_a_time_do_not_mix() {
    let bench = Bench::new();
    let ask = bench
        .window
        .request("PUT", &film("scans/two.mkv?bytes=200000"));
    let ask = ask.with("Content-Length", "200000");
    let mut first = ask.begin();
    first.write_all(&[1; 100_000]).expect("taken");
    let began = Instant::now();
    while lying(&bench).is_empty() && began.elapsed() < Duration::from_secs(10) {}
    put(&bench, "two.mkv", 200_000, &[2; 200_000]).refused(409);
    // Nor does one under the name that the first has while it comes.
    let part = lying(&bench)[0].clone();
    let other = put(&bench, &part, 3, b"333");
    assert!(other.status == 200 || (400..500).contains(&other.status));
    first.write_all(&[1; 100_000]).expect("taken");
    Answer::read(&mut first).expect("an answer").ok();
    let kept = std::fs::read(bench.film_dir().join("scans/two.mkv")).expect("there");
    assert!(kept.len() == 200_000 && kept.iter().all(|b| *b == 1));
}
