//! The log of the bench brought up to what a scan of the reel shows.

use onestrand_production::documents::{BenchWrite, SeenStrip};
use onestrand_production::{ProductionError, SeenRequest, seen_on_the_reel};

use crate::bench_room::{SHOTS, bench, go_ahead, told, write};

fn strip((roll, first, thrown): (&str, u32, u32)) -> SeenStrip {
    SeenStrip {
        roll: roll.to_owned(),
        first,
        thrown,
        mirrored: false,
        upside_down: false,
    }
}

fn asked(film: Vec<SeenStrip>) -> SeenRequest {
    SeenRequest {
        cut: "v1".to_owned(),
        film,
    }
}

#[test]
fn acts_that_nobody_ticked_are_written_as_the_scan_shows_them() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    go_ahead(&mut production);
    // Three shots were joined; the second was cut two frames late, the third turned over.
    let mut film: Vec<SeenStrip> = SHOTS.into_iter().take(3).map(strip).collect();
    film[1].thrown += 2;
    film[2].mirrored = true;
    let seen = seen_on_the_reel(&production, &asked(film.clone())).expect("a log");
    assert!(seen.on_the_bench && seen.refused.is_empty(), "{seen:?}");
    assert_eq!(seen.strips, [3, 0]);
    assert_eq!(seen.acts[1], 3, "three joins");
    assert_eq!(seen.words.len() as u32, seen.acts.iter().sum::<u32>());
    assert!(
        seen.words.iter().any(|w| w == "cut before R1·1292"),
        "{:?}",
        seen.words
    );
    // Shots 4 and 5 are not on the scan: whether they were cut out before nobody knows.
    assert_eq!(
        seen.acts[0], 6,
        "two cuts for each shot seen: {:?}",
        seen.words
    );
    let before = told(&production).0;
    assert_eq!(before.lines, seen.lines, "nothing was written");
    let all = BenchWrite::Seen {
        lines: seen.lines,
        scan: "reel.mkv".to_owned(),
        film: film.clone(),
    };
    write(&mut production, all.clone()).expect("written");
    let (after, on) = told(&production);
    assert_eq!(
        after.lines,
        seen.lines + 1 + u32::try_from(seen.words.len()).expect("few")
    );
    assert_eq!(on.joins.done, 3);
    let stale = write(&mut production, all).expect_err("it was for the log as it was");
    assert!(matches!(stale, ProductionError::Store(_)), "{stale}");
    let again = seen_on_the_reel(&production, &asked(film)).expect("a log");
    assert_eq!(
        (again.strips, again.words.len()),
        ([3, 3], 0),
        "all is there"
    );
}

#[test]
fn what_the_log_has_otherwise_is_refused_with_both() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    go_ahead(&mut production);
    let lines = told(&production).0.lines;
    let film: Vec<SeenStrip> = SHOTS.into_iter().take(2).map(strip).collect();
    let scan = "reel.mkv".to_owned();
    let ahead = BenchWrite::Seen { lines, scan, film };
    write(&mut production, ahead).expect("written");
    let less = vec![strip(SHOTS[0])];
    let seen = seen_on_the_reel(&production, &asked(less.clone())).expect("a log");
    assert_eq!(
        seen.refused,
        "the log has R1·1200–1289 on the reel, and the scan does not show it"
    );
    let lines = seen.lines;
    let refused = BenchWrite::Seen {
        lines,
        scan: "reel.mkv".to_owned(),
        film: less,
    };
    let refused = write(&mut production, refused).expect_err("the log has more");
    assert!(refused.hint().contains("Bench room"), "{}", refused.hint());
    let other = SeenRequest {
        cut: "v2".to_owned(),
        film: vec![strip(SHOTS[0])],
    };
    let other = seen_on_the_reel(&production, &other).expect("a log");
    assert!(!other.on_the_bench && other.words.is_empty());
}
