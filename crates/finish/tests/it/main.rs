//! The encoder fed with raw pictures: the same bits come out, whatever the
//! layout and the tags, and nothing half-made is left.

mod full_disk;
mod making;

use std::ops::ControlFlow;
use std::path::Path;

use onestrand_film::Fps;
use onestrand_finish::{Coding, FilmWriter, FinishError, PictureForm};
use onestrand_intake::{
    Cancel, FetchOptions, Ffmpeg, Form, FrameIndex, IndexRow, PixelLayout, ReadOptions, Source,
    fetch, read,
};

const FRAMES: u64 = 5;

fn form(layout: &str, colour: [Option<&str>; 4]) -> PictureForm {
    PictureForm {
        width: 64,
        height: 48,
        layout: PixelLayout::from_name(layout).expect("a known layout"),
        pixel_aspect: (1, 1),
        colour: colour.map(|tag| tag.map(str::to_owned)),
    }
}

/// Pictures whose every byte differs from frame to frame, inside the bits that
/// the layout has.
fn picture(form: &PictureForm, frame: u64) -> Vec<u8> {
    let bits = form.layout.bits();
    let bytes = form.bytes();
    let value = |i: u64| i.wrapping_mul(2_654_435_761).wrapping_add(frame * 977) >> 7;
    if bits <= 8 {
        return (0..bytes).map(|i| (value(i) & 0xff) as u8).collect();
    }
    let mask = (1_u64 << bits) - 1;
    (0..bytes / 2)
        .flat_map(|i| ((value(i) & mask) as u16).to_le_bytes())
        .collect()
}

fn write(ffmpeg: &Ffmpeg, path: &Path, form: &PictureForm) -> Result<u64, FinishError> {
    let mut writer = FilmWriter::begin(ffmpeg, path, form, Fps::EIGHTEEN, Coding::Ffv1, "t")?;
    for frame in 0..FRAMES {
        writer.push(&picture(form, frame))?;
    }
    writer.finish()
}

/// All frames of a film, raw, by the same way a finish takes them.
fn pictures_in(ffmpeg: &Ffmpeg, path: &Path, layout: PixelLayout) -> Vec<Vec<u8>> {
    let (source, _) = Source::open(ffmpeg, &[path.to_owned()]).expect("the film opens");
    let mut rows: Vec<IndexRow> = Vec::new();
    let end = read(
        ffmpeg,
        &source,
        &ReadOptions::default(),
        &Cancel::new(),
        &mut |frame| {
            rows.push((&frame).into());
            ControlFlow::Continue(())
        },
    )
    .expect("the film is read");
    let index = FrameIndex::new(rows, end.time_base);
    let wanted: Vec<u64> = (0..index.frames()).collect();
    let options = FetchOptions::new(Form::Raw(layout));
    let mut all = Vec::new();
    fetch(
        ffmpeg,
        &source,
        &index,
        &wanted,
        &options,
        &Cancel::new(),
        &mut |frame| {
            all.push(frame.bytes);
            ControlFlow::Continue(())
        },
    )
    .expect("the frames are fetched");
    all
}

#[test]
fn the_same_bits_come_out_in_every_usual_layout_and_tag() {
    let ffmpeg = Ffmpeg::locate().expect("ffmpeg is here");
    let dir = tempfile::tempdir().expect("a folder");
    let none = [None; 4];
    let cases = [
        (
            "yuv420p",
            [
                Some("tv"),
                Some("bt470bg"),
                Some("bt470bg"),
                Some("bt470bg"),
            ],
        ),
        (
            "yuv422p10le",
            [Some("tv"), Some("bt709"), Some("bt709"), Some("bt709")],
        ),
        (
            "yuv444p",
            [Some("pc"), Some("smpte170m"), None, Some("iec61966-2-1")],
        ),
        ("gbrp10le", [Some("pc"), Some("gbr"), None, None]),
        ("gray", none),
        (
            "yuv420p",
            [
                Some("tv"),
                Some("no such matrix"),
                Some("?"),
                Some("log316"),
            ],
        ),
    ];
    for (number, (layout, colour)) in cases.into_iter().enumerate() {
        let form = form(layout, colour);
        let path = dir.path().join(format!("{number}.mkv"));
        assert_eq!(write(&ffmpeg, &path, &form).expect(layout), FRAMES);
        let wanted: Vec<Vec<u8>> = (0..FRAMES).map(|n| picture(&form, n)).collect();
        assert_eq!(pictures_in(&ffmpeg, &path, form.layout), wanted, "{layout}");
    }
}

#[test]
fn a_film_given_up_leaves_nothing_and_a_wrong_picture_is_told() {
    let ffmpeg = Ffmpeg::locate().expect("ffmpeg is here");
    let dir = tempfile::tempdir().expect("a folder");
    let form = form("gray", [None, None, None, None]);
    let path = dir.path().join("given-up.mkv");
    let mut writer =
        FilmWriter::begin(&ffmpeg, &path, &form, Fps::EIGHTEEN, Coding::Ffv1, "t").expect("begun");
    writer.push(&picture(&form, 0)).expect("pushed");
    let wrong = writer.push(&[0; 7]);
    assert!(matches!(
        wrong,
        Err(FinishError::WrongPicture { found: 7, .. })
    ));
    drop(writer);
    let left = std::fs::read_dir(dir.path()).expect("a folder").count();
    assert_eq!(left, 0);
    let nowhere = dir.path().join("no such folder/x.mkv");
    assert!(matches!(
        write(&ffmpeg, &nowhere, &form),
        Err(FinishError::File { .. })
    ));
}
