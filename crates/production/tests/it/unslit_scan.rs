//! A drawn scan of a strip that was not slit, parted into its halves.

use std::path::{Path, PathBuf};

use image::{GrayImage, ImageFormat, Luma, imageops};
use onestrand_intake::Cancel;
use onestrand_production::{Quiet, ReadRequest, Unslit, read_scan};

/// Pixels across and down of one regular 8 frame.
const FRAME: (u32, u32) = (80, 60);

/// A frame that says its number by its tone and which way is up by a light corner.
fn frame(number: u32) -> GrayImage {
    let mut drawn = GrayImage::from_pixel(FRAME.0, FRAME.1, Luma([tone(number)]));
    for (x, y) in (0..20).flat_map(|x| (0..12).map(move |y| (x, y))) {
        drawn.put_pixel(x, y, Luma([250]));
    }
    // Something that moves, so that no frame stands twice.
    for (x, y) in (0..16).flat_map(|x| (0..16).map(move |y| (x, y))) {
        drawn.put_pixel(30 + (number * 3) % 30 + x, 30 + y, Luma([20]));
    }
    drawn
}

fn tone(number: u32) -> u8 {
    u8::try_from(60 + number * 10).expect("few frames")
}

/// The strip as a machine shows it that moves by `down` frames: the first run on one
/// side, the second beside it, upside down and from its tail.
fn scan(dir: &Path, pictures: u32, unslit: Unslit) -> Vec<PathBuf> {
    let Unslit {
        first_is_left,
        down,
    } = unslit;
    let last = pictures * down - 1;
    let (wide, high) = FRAME;
    (0..pictures)
        .map(|picture| {
            let mut drawn = GrayImage::new(wide * 2, high * down);
            for row in 0..down {
                let along = picture * down + row;
                let first = frame(along);
                let second = imageops::rotate180(&frame(last - along));
                let (left, right) = match first_is_left {
                    true => (first, second),
                    false => (second, first),
                };
                let top = i64::from(row * high);
                imageops::replace(&mut drawn, &left, 0, top);
                imageops::replace(&mut drawn, &right, i64::from(wide), top);
            }
            let path = dir.join(format!("strip_{picture:04}.png"));
            drawn
                .save_with_format(&path, ImageFormat::Png)
                .expect("written");
            path
        })
        .collect()
}

fn request(files: Vec<PathBuf>, to: Option<&Path>, unslit: Unslit) -> ReadRequest {
    ReadRequest {
        files,
        gauge: None,
        film_speed: None,
        measured: None,
        shrinkage: None,
        frames_dir: to.map(Path::to_owned),
        unslit: Some(unslit),
    }
}

#[test]
fn both_halves_run_forward_and_stand_upright_wherever_the_first_run_lies() {
    for (first_is_left, down) in [(true, 2), (false, 2), (true, 1), (false, 1)] {
        let unslit = Unslit {
            first_is_left,
            down,
        };
        let dir = tempfile::tempdir().expect("a folder");
        let pictures = 12 / down;
        let files = scan(dir.path(), pictures, unslit);
        let out = dir.path().join("out");
        let asked = request(files, Some(&out), unslit);
        let found = read_scan(&asked, &Cancel::new(), &mut Quiet).expect("read");
        assert_eq!(found.film.frames, pictures);
        for run in ["first-run", "second-run"] {
            let mut names: Vec<String> = std::fs::read_dir(out.join(run))
                .expect("a folder")
                .map(|entry| {
                    entry
                        .expect("an entry")
                        .file_name()
                        .into_string()
                        .expect("plain")
                })
                .collect();
            names.sort();
            assert_eq!(names.len(), 12, "{run} {unslit:?}");
            for (number, name) in (0_u32..).zip(&names) {
                assert_eq!(name, &format!("frame_{number:06}.png"));
                let seen = image::open(out.join(run).join(name))
                    .expect("a picture")
                    .to_luma8();
                assert_eq!(seen, frame(number), "{run} {number} {unslit:?}");
            }
        }
    }
}

#[test]
fn the_halves_need_a_folder_and_one_or_two_pictures_down() {
    let dir = tempfile::tempdir().expect("a folder");
    let left = |down| Unslit {
        first_is_left: true,
        down,
    };
    let files = scan(dir.path(), 3, left(1));
    let nowhere = request(files.clone(), None, left(1));
    let refused = read_scan(&nowhere, &Cancel::new(), &mut Quiet).expect_err("no folder");
    assert!(
        refused.hint().contains("folder for the frames"),
        "{refused}"
    );
    let out = dir.path().join("out");
    let three = request(files, Some(&out), left(3));
    let refused = read_scan(&three, &Cancel::new(), &mut Quiet).expect_err("three");
    assert!(
        refused.to_string().contains("3 pictures below each other"),
        "{refused}"
    );
    assert!(!out.exists(), "nothing is made before it is refused");
}
