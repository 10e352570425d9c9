//! Workprints: pictures before rows, and never seen half-made.

use onestrand_film::FrameRange;
use onestrand_store::{FileFrameRow, NewFrame, WorkprintWriter, Workprints};

fn frame(jpeg: Option<&[u8]>, index: u64) -> NewFrame<'_> {
    NewFrame {
        jpeg,
        shown_by: jpeg.map(|_| (0, index)),
        made_of: index.is_multiple_of(7).then(|| format!("woven {index} 1")),
        level: 100.5,
        sharpness: 3.25,
        change: 0.125,
    }
}

fn file_frame(index: u64) -> FileFrameRow {
    FileFrameRow {
        pts: Some(i64::try_from(index).expect("small") * 512),
        key: index.is_multiple_of(12),
        number: None,
        byte_pos: Some(index * 1000),
        plane: index.wrapping_mul(0x9e37_79b9_7f4a_7c15),
    }
}

pub(crate) fn picture(index: u64, salt: u8) -> Vec<u8> {
    vec![salt; 10 + usize::try_from(index % 90).expect("small")]
}

pub(crate) fn write(dir: &std::path::Path, salt: u8, frames: u64) -> WorkprintWriter {
    write_roll(dir, "R1", salt, frames)
}

pub(crate) fn write_roll(
    dir: &std::path::Path,
    roll: &str,
    salt: u8,
    frames: u64,
) -> WorkprintWriter {
    let mut writer = WorkprintWriter::begin(dir, roll).expect("begun");
    for index in 0..frames {
        let jpeg = picture(index, salt);
        // Frame 300 is missing from the transfer.
        let seen = (index != 300).then_some(jpeg.as_slice());
        writer.push(&frame(seen, index)).expect("pushed");
        writer
            .push_file_frame(0, index, file_frame(index))
            .expect("pushed");
    }
    writer.push_part(0, Some((1, 90_000))).expect("pushed");
    writer
}

fn files(dir: &std::path::Path) -> usize {
    let entries = std::fs::read_dir(dir.join("workprints")).expect("a folder");
    entries
        .filter(|e| {
            let path = e.as_ref().expect("an entry").path();
            path.extension().is_some_and(|x| x == "mjpeg")
        })
        .count()
}

#[test]
fn frames_come_back_as_they_were_put() {
    let dir = tempfile::tempdir().expect("a folder");
    assert_eq!(
        write(dir.path(), 7, 1000)
            .finish("hash", "what was found")
            .expect("finished"),
        1000
    );
    let mut prints = Workprints::open(dir.path()).expect("open");
    let info = prints.info("R1").expect("info").expect("there");
    assert_eq!((info.frames, info.scan.as_str()), (1000, "hash"));
    assert_eq!(
        prints.picture("R1", 999).expect("read"),
        Some(picture(999, 7))
    );
    assert_eq!(prints.picture("R1", 300).expect("read"), None);
    assert_eq!(prints.picture("R1", 1000).expect("read"), None);
    assert_eq!(prints.picture("R2", 0).expect("read"), None);
    let rows = prints
        .rows("R1", FrameRange::of(299, 302).expect("a range"))
        .expect("rows");
    assert_eq!(rows.len(), 3);
    assert_eq!(rows[1].shown_by, None);
    assert_eq!(rows[2].shown_by, Some((0, 301)));
    let part = prints.part_index("R1", 0).expect("an index");
    assert_eq!((part.time_base, part.rows.len()), (Some((1, 90_000)), 1000));
    assert_eq!(part.rows[999], file_frame(999));
    assert_eq!(info.report, "what was found");
    // The file is plain pictures one after another.
    let whole: usize = (0..1000)
        .filter(|i| *i != 300)
        .map(|i| picture(i, 7).len())
        .sum();
    assert_eq!(
        std::fs::metadata(&info.file).expect("the file").len(),
        whole as u64
    );
}

#[test]
fn a_reading_given_up_leaves_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    drop(write(dir.path(), 7, 700));
    assert_eq!(files(dir.path()), 0);
    let prints = Workprints::open(dir.path()).expect("open");
    assert_eq!(prints.info("R1").expect("info"), None);
}

#[test]
fn the_old_workprint_stays_until_the_new_one_is_whole() {
    let dir = tempfile::tempdir().expect("a folder");
    write(dir.path(), 1, 20)
        .finish("hash", "what was found")
        .expect("finished");
    let second = write(dir.path(), 2, 10);
    assert_eq!(files(dir.path()), 2);
    let mut prints = Workprints::open(dir.path()).expect("open");
    assert_eq!(prints.picture("R1", 3).expect("read"), Some(picture(3, 1)));
    assert_eq!(
        second.finish("hash", "what was found").expect("finished"),
        10
    );
    assert_eq!(files(dir.path()), 1);
    // Whoever looked before sees the new one from now on.
    assert_eq!(prints.picture("R1", 3).expect("read"), Some(picture(3, 2)));
    assert_eq!(prints.picture("R1", 15).expect("read"), None);
}

#[test]
fn what_a_killed_process_left_is_swept_at_the_next_start() {
    let dir = tempfile::tempdir().expect("a folder");
    write_roll(dir.path(), "R2", 3, 20)
        .finish("hash", "what was found")
        .expect("finished");
    let writer = write(dir.path(), 7, 600);
    // As after a kill: nothing is dropped, nothing tidied.
    std::mem::forget(writer);
    // As after a kill between the rows and the file of one that was replaced.
    let left = dir.path().join("workprints/R-2-31.mjpeg");
    std::fs::write(&left, b"pictures").expect("written");
    // No name that a workprint gets: the user's own.
    let own = dir.path().join("workprints/for-Ida.mjpeg");
    std::fs::write(&own, b"pictures").expect("written");
    assert_eq!(files(dir.path()), 4);
    let mut prints = Workprints::open(dir.path()).expect("open");
    assert_eq!(prints.info("R1").expect("info"), None);
    assert_eq!(prints.picture("R1", 0).expect("read"), None);
    assert_eq!(files(dir.path()), 4);
    Workprints::sweep(dir.path()).expect("swept");
    assert_eq!(files(dir.path()), 2);
    assert!(!left.exists() && own.exists());
    assert_eq!(prints.picture("R2", 3).expect("read"), Some(picture(3, 3)));
    assert_eq!(rows_of_all(dir.path()), 20);
}

fn rows_of_all(dir: &std::path::Path) -> i64 {
    let db = rusqlite::Connection::open(dir.join("workprints/index.db")).expect("the index");
    db.query_row("SELECT count(*) FROM frame", [], |r| r.get(0))
        .expect("a count")
}

#[test]
fn one_roll_finished_leaves_another_under_way_alone() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut other = write_roll(dir.path(), "R2", 5, 700);
    write(dir.path(), 7, 20)
        .finish("hash", "what was found")
        .expect("finished");
    other
        .push(&frame(Some(&picture(700, 5)), 700))
        .expect("pushed");
    assert_eq!(
        other.finish("hash", "what was found").expect("finished"),
        701
    );
    let mut prints = Workprints::open(dir.path()).expect("open");
    assert_eq!(
        prints.picture("R2", 700).expect("read"),
        Some(picture(700, 5))
    );
    assert_eq!(
        prints.picture("R1", 19).expect("read"),
        Some(picture(19, 7))
    );
}

#[test]
fn a_lost_or_foreign_index_is_made_anew() {
    let dir = tempfile::tempdir().expect("a folder");
    write(dir.path(), 7, 20)
        .finish("hash", "what was found")
        .expect("finished");
    std::fs::write(
        dir.path().join("workprints/index.db"),
        b"no database at all, but long enough to be read as one",
    )
    .expect("written");
    let prints = Workprints::open(dir.path()).expect("open");
    assert_eq!(prints.info("R1").expect("info"), None);
    write(dir.path(), 8, 5)
        .finish("hash", "what was found")
        .expect("finished");
}
