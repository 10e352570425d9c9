//! A flash belongs to the frame it was measured on: where a break is moved it is
//! measured anew, out of the pictures that are kept.

use std::path::{Path, PathBuf};
use std::process::Command;

use onestrand_production::{FilmChange, Production};
use onestrand_store::TakeRecord;

use crate::one_roll::read_once;

/// Two takes of forty frames; the second begins with one frame 1.2 stops over, and so
/// is one inside the first, on film with grain.
fn flashed(dir: &Path) -> PathBuf {
    let file = dir.join("flashed.mkv");
    // Levels stand for light to the power of 2.2: 1.2 stops over is 1.46 times as high.
    let over = "lutrgb=r=val*1.46:g=val*1.46:b=val*1.46:enable='eq(n,40)+eq(n,20)'";
    let first = "mandelbrot=s=320x240:r=18:end_scale=0.29";
    let second = "mandelbrot=s=320x240:r=18:start_x=-1.2:start_y=0.2:start_scale=0.6:end_scale=0.5";
    let filter = format!(
        "[0:v]trim=end_frame=40,format=gbrp,lutrgb=r=val*0.55+12:g=val*0.55+12:b=val*0.55+12[a];\
         [1:v]trim=end_frame=40,format=gbrp,lutrgb=r=val*0.5+20:g=val*0.5+20:b=val*0.5+20[b];\
         [a][b]concat,format=gbrp,{over},noise=alls=6:allf=t,format=yuv444p"
    );
    let made = Command::new("ffmpeg")
        .args(["-v", "error", "-f", "lavfi", "-i", first])
        .args(["-f", "lavfi", "-i", second, "-filter_complex", &filter])
        .args(["-c:v", "ffv1"])
        .arg(&file)
        .status()
        .expect("ffmpeg starts");
    assert!(made.success());
    file
}

fn change(production: &mut Production, change: &FilmChange) -> String {
    let (words, act) = change.act(production).expect("it fits");
    production.act(&words, &act).expect("kept");
    words
}

fn moved(production: &mut Production, frame: u32, to: u32) -> (String, TakeRecord) {
    let roll = "R1".to_owned();
    let words = change(production, &FilmChange::MoveBreak { roll, frame, to });
    (words, at(production, to))
}

fn at(production: &Production, first: u32) -> TakeRecord {
    let takes = production.takes_of("R1").expect("takes");
    let found = takes.iter().find(|take| take.first == first);
    found.expect("a take begins there").clone()
}

fn stops(take: &TakeRecord) -> f64 {
    take.flash_stops.expect("a flash")
}

#[test]
fn a_moved_break_leaves_its_flash_behind_and_finds_it_again() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = read_once(dir.path(), &flashed(dir.path()));
    let read = at(&production, 40);
    assert_eq!(read.flash_frames, 1, "{read:?}");
    assert!((stops(&read) - 1.2).abs() < 0.15, "{read:?}");

    let (words, take) = moved(&mut production, 40, 43);
    assert_eq!((take.flash_frames, take.flash_stops), (0, None), "{words}");
    assert!(words.ends_with("; it has no flash there"), "{words}");

    // Back at its own place it has what the reading measured there.
    let (words, take) = moved(&mut production, 43, 40);
    assert_eq!((take.flash_frames, take.flash_stops), (1, read.flash_stops));
    assert!(words.contains("its first frame is over there"), "{words}");

    // Where the reading saw light inside a take and no break, the kept pictures tell:
    // as much as the film was exposed.
    let roll = || "R1".to_owned();
    let frame = 20;
    change(
        &mut production,
        &FilmChange::BreakAt {
            roll: roll(),
            frame,
        },
    );
    let set = at(&production, 20);
    assert_eq!(set.flash_frames, 1, "{set:?}");
    assert!((stops(&set) - 1.2).abs() < 0.15, "{set:?}");
    let (words, take) = moved(&mut production, 20, 17);
    assert_eq!((take.flash_frames, take.flash_stops), (0, None), "{words}");

    // Without pictures the old measure is not carried along.
    std::fs::remove_dir_all(production.dir().join("workprints")).expect("thrown away");
    let (words, take) = moved(&mut production, 40, 42);
    assert_eq!((take.flash_frames, take.flash_stops), (0, None));
    assert!(words.ends_with("no longer known"), "{words}");
}
