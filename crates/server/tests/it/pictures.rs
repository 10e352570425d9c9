//! Pictures of rolls: one, a run of them, small ones, and how long a browser
//! may keep them.

use std::path::Path;

use serde_json::{Value, json};

use crate::listener::Listener;
use crate::served::{Answer, Bench, film};

/// A bench with two rolls that are read: R8, 266 frames, and R9, five of which
/// the third was never scanned.
fn bench() -> Bench {
    let media = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/media");
    let media = media.canonicalize().expect("part of the repository");
    let bench = Bench::with(|settings| settings.media = vec![media.clone()]);
    let mut listener = Listener::of(&bench.window);
    for (roll, scan) in [
        ("R8", "video/camera_stops_b.mp4"),
        ("R9", "frames/market_street_1906_dpx10"),
    ] {
        let form = json!({ "roll": roll, "files": [media.join(scan)] });
        bench.window.post(&film("rolls"), &form).ok();
    }
    let mut done = 0;
    while done < 2 {
        let job = listener.next_of("job")["job"].clone();
        assert_ne!(job["state"], "failed", "{job}");
        done += usize::from(job["state"] == "done");
    }
    bench
}

fn ask(bench: &Bench, roll: &str, what: &str) -> Answer {
    bench.window.get(&film(&format!("rolls/{roll}/{what}")))
}

/// One whole picture, or nothing.
fn picture(bench: &Bench, roll: &str, frame: u64) -> Option<Vec<u8>> {
    let answer = ask(bench, roll, &format!("pictures/{frame}"));
    match answer.status {
        204 => {
            assert_eq!(answer.body, b"");
            None
        }
        _ => {
            assert_eq!(
                (answer.status, answer.header("content-type")),
                (200, Some("image/jpeg"))
            );
            Some(answer.body)
        }
    }
}

/// A run, taken apart by its own lengths.
fn run(bench: &Bench, roll: &str, first: u64, count: u64) -> Vec<Option<Vec<u8>>> {
    let answer = ask(bench, roll, &format!("run?first={first}&count={count}"));
    assert_eq!(answer.status, 200, "{answer:?}");
    let mut rest = answer.body.as_slice();
    let mut pictures = Vec::new();
    while let Some((length, more)) = rest.split_first_chunk::<4>() {
        let length = u32::from_le_bytes(*length) as usize;
        let (jpeg, more) = more.split_at(length);
        pictures.push((length > 0).then(|| jpeg.to_vec()));
        rest = more;
    }
    assert_eq!(rest, b"", "nothing is left over");
    pictures
}

#[test]
fn a_run_is_the_same_as_picture_by_picture() {
    let bench = bench();
    for (first, count) in [(0, 1), (0, 24), (100, 96), (257, 9)] {
        let one_by_one: Vec<_> = (first..first + count)
            .map(|f| picture(&bench, "R8", f))
            .collect();
        assert!(one_by_one.iter().all(Option::is_some));
        assert_eq!(run(&bench, "R8", first, count), one_by_one, "from {first}");
    }
    // Neighbours are not the same picture, so an exchange would be seen.
    let two = run(&bench, "R8", 20, 2);
    assert_ne!(two[0], two[1]);
    // One request is answered with four seconds at most, and with one frame at
    // least.
    assert_eq!(run(&bench, "R8", 0, 5_000).len(), 96);
    assert_eq!(run(&bench, "R8", 0, 0).len(), 1);
}

#[test]
fn a_run_ends_where_the_roll_does() {
    let bench = bench();
    let last = run(&bench, "R8", 261, 24);
    assert_eq!(last.len(), 5);
    assert_eq!(last[4], picture(&bench, "R8", 265));
    for beyond in [266, 267, 99_999_990] {
        assert_eq!(run(&bench, "R8", beyond, 8), Vec::new(), "{beyond}");
        assert_eq!(picture(&bench, "R8", beyond), None, "{beyond}");
    }
    for (roll, what) in [
        ("R8", "run?first=100000000&count=8"),
        ("R8", "run?first=4294967295&count=8"),
        ("R8", "run?first=-1&count=8"),
        ("R8", "run?first=0&count=4294967296"),
        ("R8", "run?first=0"),
        ("R8", "pictures/-1"),
        ("R8", "pictures/4294967296"),
        ("R8", "small/0?height=65536"),
        ("R8", "small/0"),
    ] {
        let answer = ask(&bench, roll, what);
        assert!([400, 422].contains(&answer.status), "{what}: {answer:?}");
        answer.refused(answer.status);
    }
    // Of a roll on paper there are none; of no roll neither.
    for roll in ["R1", "R77"] {
        assert_eq!(picture(&bench, roll, 0), None);
        assert_eq!(run(&bench, roll, 0, 8), Vec::new());
    }
}

#[test]
fn a_frame_that_was_never_scanned_has_no_picture() {
    let bench = bench();
    let all = run(&bench, "R9", 0, 96);
    let there: Vec<bool> = all.iter().map(Option::is_some).collect();
    assert_eq!(there, [true, true, false, true, true]);
    for (frame, in_run) in (0..).zip(&all) {
        assert_eq!(picture(&bench, "R9", frame), *in_run);
    }
    assert_eq!(ask(&bench, "R9", "small/2?height=90").status, 204);
}

/// Width and height of a JPEG, by the marker that begins its frame (SOF0, SOF1
/// or SOF2; ITU-T T.81, table B.1).
fn size(jpeg: &[u8]) -> (u16, u16) {
    let mut at = 2;
    loop {
        let length = u16::from_be_bytes([jpeg[at + 2], jpeg[at + 3]]);
        if matches!(jpeg[at + 1], 0xc0..=0xc2) {
            let side = |at: usize| u16::from_be_bytes([jpeg[at], jpeg[at + 1]]);
            return (side(at + 7), side(at + 5));
        }
        at += 2 + usize::from(length);
    }
}

#[test]
fn small_pictures_are_as_large_as_asked_for_or_a_little_more() {
    let bench = bench();
    let whole = size(&picture(&bench, "R8", 0).expect("a picture"));
    for height in [1, 40, 60, 90] {
        let answer = ask(&bench, "R8", &format!("small/0?height={height}"));
        assert_eq!(answer.status, 200);
        let small = size(&answer.body);
        assert!(
            small.1 >= height.min(whole.1) && small.1 <= whole.1,
            "{small:?}"
        );
        assert!(
            small.1 < whole.1 || height * 2 > whole.1,
            "{small:?} of {whole:?}"
        );
    }
    let large = ask(&bench, "R8", "small/0?height=65535");
    assert_eq!(size(&large.body), whole);
}

#[test]
fn a_strip_says_how_its_cells_lie() {
    let bench = bench();
    let frames: Vec<String> = (0..30).map(|n| (n * 9).to_string()).collect();
    let answer = ask(
        &bench,
        "R8",
        &format!("strip?height=60&frames={}", frames.join(",")),
    );
    assert_eq!(
        (answer.status, answer.header("content-type")),
        (200, Some("image/jpeg"))
    );
    let cells = answer
        .header("x-onestrand-cells")
        .expect("how the cells lie");
    let cells: Vec<u16> = cells
        .split(' ')
        .map(|n| n.parse().expect("a number"))
        .collect();
    let [width, height, across, down, rows] = cells[..] else {
        panic!("{cells:?}");
    };
    assert!(
        height >= 60 && across >= width && down >= height,
        "{cells:?}"
    );
    // Thirty in columns of so many.
    let columns = 30_u16.div_ceil(rows);
    assert_eq!(size(&answer.body), (columns * across, rows * down));
    for (frames, height) in [
        ("".to_owned(), 60),
        ("1,,2".to_owned(), 60),
        ("1,x".to_owned(), 60),
        ("-1".to_owned(), 60),
        ("4294967295".to_owned(), 60),
        (vec!["0"; 481].join(","), 60),
        // So large that no program should make it.
        (vec!["0"; 480].join(","), 65_535),
    ] {
        let answer = ask(
            &bench,
            "R8",
            &format!("strip?height={height}&frames={frames}"),
        );
        assert!(
            [400, 422].contains(&answer.status),
            "{frames:.40}: {answer:?}"
        );
        answer.refused(answer.status);
    }
    let none = ask(
        &bench,
        "R1",
        &format!("strip?height=65535&frames={}", vec!["0"; 480].join(",")),
    );
    none.refused(422);
}

/// What a browser may keep, it never asks for again; so only that which can
/// never become anything else.
#[test]
fn only_pictures_under_their_own_name_are_kept() {
    let bench = bench();
    let log = bench.window.get(&film("rolls/R8")).ok();
    let name = log["roll"]["pictures"].as_str().expect("a name").to_owned();
    let kept = |what: &str, name: Option<&str>| {
        let more =
            name.map(|n| format!("{}pictures={n}", if what.contains('?') { "&" } else { "?" }));
        let answer = ask(&bench, "R8", &format!("{what}{}", more.unwrap_or_default()));
        answer
            .header("cache-control")
            .expect("it is said")
            .to_owned()
    };
    let whats = [
        "pictures/5",
        "run?first=5&count=3",
        "small/5?height=60",
        "strip?frames=5,6&height=60",
    ];
    for what in whats {
        assert_eq!(
            kept(what, Some(&name)),
            "private, max-age=31536000, immutable",
            "{what}"
        );
        for other in [None, Some(""), Some("another"), Some(&name[1..])] {
            assert_eq!(kept(what, other), "no-store", "{what} {other:?}");
        }
    }
    assert_eq!(kept("pictures/266", Some(&name)), "no-store");
    // A workprint that was thrown away: that nothing is there is not kept, since
    // it may be made again under the same name.
    std::fs::remove_dir_all(bench.film_dir().join("workprints")).expect("thrown away");
    let mut bench = bench;
    bench.start_again();
    let log = bench.window.get(&film("rolls/R8")).ok();
    assert_eq!(log["roll"]["pictures"], Value::Null);
    for what in whats {
        let named = format!(
            "{what}{}pictures={name}",
            if what.contains('?') { "&" } else { "?" }
        );
        assert_eq!(
            ask(&bench, "R8", &named).header("cache-control"),
            Some("no-store"),
            "{what}"
        );
    }
}
