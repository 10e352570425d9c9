//! Runs of pictures, while others read and write.

use onestrand_film::FrameRange;
use onestrand_store::{WorkprintWriter, Workprints};

use crate::workprints::{picture, write, write_roll};

fn range(first: u32, thrown: u32) -> FrameRange {
    FrameRange::of(first, thrown).expect("a range")
}

fn finished(writer: WorkprintWriter) {
    writer.finish("hash", "what was found").expect("finished");
}

#[test]
fn a_run_holds_what_each_frame_holds() {
    let dir = tempfile::tempdir().expect("a folder");
    finished(write(dir.path(), 7, 700));
    let mut prints = Workprints::open(dir.path()).expect("open");
    // Frame 300 has no picture; the roll ends before frame 700.
    for (first, thrown) in [
        (0, 24),
        (0, 1),
        (290, 310),
        (299, 301),
        (300, 301),
        (690, 720),
        (0, 900),
    ] {
        let run = prints.run("R1", range(first, thrown)).expect("read");
        let together = prints.run_together("R1", range(first, thrown));
        let together = together.expect("read");
        assert_eq!(
            together.bytes,
            run.iter().flatten().flatten().copied().collect::<Vec<u8>>()
        );
        let lengths: Vec<_> = run.iter().map(|p| p.as_ref().map(Vec::len)).collect();
        assert_eq!(together.lengths, lengths);
        let there = thrown.min(700);
        assert_eq!(run.len(), (there - first) as usize);
        for (frame, found) in (first..there).zip(&run) {
            let made = (frame != 300).then(|| picture(u64::from(frame), 7));
            assert_eq!(found, &made, "frame {frame} of {first} to {thrown}");
            assert_eq!(found, &prints.picture("R1", frame).expect("read"));
        }
    }
    assert_eq!(
        prints.run("R1", range(700, 900)).expect("read"),
        Vec::<Option<Vec<u8>>>::new()
    );
    assert_eq!(
        prints.run("R2", range(0, 9)).expect("read"),
        Vec::<Option<Vec<u8>>>::new()
    );
}

#[test]
fn a_picture_file_that_was_thrown_away_is_no_picture() {
    let dir = tempfile::tempdir().expect("a folder");
    finished(write(dir.path(), 7, 20));
    let mut prints = Workprints::open(dir.path()).expect("open");
    let info = prints.info("R1").expect("info").expect("there");
    assert!(prints.picture("R1", 3).expect("read").is_some());
    std::fs::remove_file(&info.file).expect("removed");
    prints.forget("R1");
    assert_eq!(prints.picture("R1", 3).expect("read"), None);
    assert_eq!(prints.info("R1").expect("info"), None);
}

#[test]
fn a_workprint_is_known_by_its_scans_and_its_number() {
    let dir = tempfile::tempdir().expect("a folder");
    let prints = Workprints::open(dir.path()).expect("open");
    assert_eq!(prints.identity("R1").expect("asked"), None);
    let scans = "728f24c98d30661f18ad499aa146 0099aabbccddeeff0011";
    write(dir.path(), 1, 5).finish(scans, "").expect("finished");
    let first = prints.identity("R1").expect("asked").expect("known");
    assert_eq!(first, "728f24c98d30661f-0099aabbccddeeff-1");
    assert_eq!(prints.identity("R1").expect("asked").as_ref(), Some(&first));
    write(dir.path(), 2, 5).finish(scans, "").expect("finished");
    assert_ne!(prints.identity("R1").expect("asked"), Some(first));
}

/// One thread reads a roll again and again, the other looks all the while: each
/// look sees one reading whole, never two mixed and never none.
#[test]
fn a_roll_read_again_is_seen_whole_by_whoever_looks_meanwhile() {
    let dir = tempfile::tempdir().expect("a folder");
    finished(write(dir.path(), 1, 300));
    let last = 12;
    std::thread::scope(|scope| {
        let reading = scope.spawn(|| {
            for salt in 2..=last {
                finished(write(dir.path(), salt, 300));
                // Other rolls come and are given up at the same time.
                drop(write_roll(dir.path(), "R2", salt, 260));
            }
        });
        let mut prints = Workprints::open(dir.path()).expect("open");
        let mut seen = 1;
        while !reading.is_finished() {
            let run = prints.run("R1", range(100, 124)).expect("read");
            let first = run[0].as_ref().expect("a picture")[0];
            assert!(first >= seen, "an older reading after a newer one");
            seen = first;
            for (frame, found) in (100..).zip(&run) {
                assert_eq!(found.as_ref(), Some(&picture(frame, seen)));
            }
            assert!(
                Workprints::open(dir.path())
                    .expect("open")
                    .info("R1")
                    .is_ok()
            );
        }
        let run = prints.run("R1", range(100, 101)).expect("read");
        assert_eq!(run, [Some(picture(100, last))]);
    });
}

#[test]
fn many_who_find_no_index_make_one() {
    let dir = tempfile::tempdir().expect("a folder");
    std::thread::scope(|scope| {
        for salt in 0..6 {
            let roll = format!("R{salt}");
            let dir = dir.path();
            scope.spawn(move || finished(write_roll(dir, &roll, salt, 20)));
        }
    });
    let mut prints = Workprints::open(dir.path()).expect("open");
    for salt in 0..6 {
        let found = prints.picture(&format!("R{salt}"), 9).expect("read");
        assert_eq!(found, Some(picture(9, salt)));
    }
}
