//! Exact access gives the same bits as decoding from the start.

use std::ops::ControlFlow;
use std::path::Path;
use std::process::{Command, Stdio};

use onestrand_intake::{
    Cancel, FetchEnd, FetchOptions, Form, FrameIndex, FullFrame, IndexRow, IntakeError,
    PixelLayout, ReadOptions, Source, fetch,
};

use crate::media::{ffmpeg, folder, make, opened, pattern, read_all};

/// Every raw frame of a plain decode from the start, by a process of the
/// test's own that shares no argument with the crate's.
fn sequential(path: &Path, layout: PixelLayout, bytes: u64) -> Vec<blake3::Hash> {
    let output = Command::new(ffmpeg().ffmpeg_path())
        .args(["-nostdin", "-v", "error", "-i"])
        .arg(path)
        .args([
            "-map",
            "0:v:0",
            "-fps_mode",
            "passthrough",
            "-pix_fmt",
            layout.name(),
            "-f",
            "rawvideo",
            "-",
        ])
        .stdin(Stdio::null())
        .output()
        .unwrap();
    output
        .stdout
        .chunks(usize::try_from(bytes).unwrap())
        .map(blake3::hash)
        .collect()
}

fn index_of(source: &Source) -> FrameIndex {
    let (frames, end) = read_all(source, &ReadOptions::default()).unwrap();
    FrameIndex::new(frames.iter().map(IndexRow::from).collect(), end.time_base)
}

fn fetched(
    source: &Source,
    index: &FrameIndex,
    wanted: &[u64],
    form: Form,
) -> Result<(Vec<FullFrame>, FetchEnd), IntakeError> {
    let mut frames = Vec::new();
    let options = FetchOptions::new(form);
    let end = fetch(
        &ffmpeg(),
        source,
        index,
        wanted,
        &options,
        &Cancel::new(),
        &mut |frame| {
            frames.push(frame);
            ControlFlow::Continue(())
        },
    )?;
    Ok((frames, end))
}

/// Fetches stretches from all over the file and compares each frame's hash.
/// Returns how many processes the fetch of all of them took.
fn prove(path: &Path) -> FetchEnd {
    let source = opened(path);
    let index = index_of(&source);
    let layout = source.native_layout();
    assert_eq!(
        layout.name(),
        source.facts().pix_fmt,
        "delivered without conversion"
    );
    let (width, height) = (source.facts().width, source.facts().height);
    let truth = sequential(path, layout, layout.frame_bytes(width, height));
    let frames = index.frames();
    assert_eq!(truth.len() as u64, frames);
    let spread: std::collections::BTreeSet<_> = truth.iter().map(blake3::Hash::to_hex).collect();
    assert_eq!(
        spread.len(),
        truth.len(),
        "no two frames of the pattern are alike"
    );
    let stretches: Vec<u64> = (0..frames)
        .filter(|n| n % 17 < 3 || *n + 2 > frames)
        .collect();
    let backwards_ends = vec![frames - 1];
    let mut worst = FetchEnd {
        frames: 0,
        is_stopped: false,
        starts: 0,
    };
    for wanted in [
        stretches,
        backwards_ends,
        vec![frames / 2],
        (0..frames).collect(),
    ] {
        let (got, end) = fetched(&source, &index, &wanted, Form::Raw(layout)).unwrap();
        assert_eq!(got.iter().map(|f| f.index).collect::<Vec<_>>(), wanted);
        for frame in &got {
            assert_eq!((frame.width, frame.height), (width, height));
            let at = usize::try_from(frame.index).unwrap();
            assert_eq!(
                blake3::hash(&frame.bytes),
                truth[at],
                "frame {at} of {}",
                path.display()
            );
        }
        assert_eq!(end.frames, wanted.len() as u64);
        worst.starts = worst.starts.max(end.starts);
        worst.frames += end.frames;
    }
    worst
}

const H264: &str =
    "-pix_fmt yuv420p -c:v libx264 -preset veryfast -g 30 -bf 3 -x264-params scenecut=0";

#[test]
fn ffv1_in_matroska() {
    let dir = folder();
    let arguments = format!(
        "{} -pix_fmt yuv422p10le -c:v ffv1 -level 3 -g 1",
        pattern("160x120", "18", 60)
    );
    prove(&make(&arguments, &dir.path().join("a.mkv")));
}

#[test]
fn prores_in_quicktime() {
    let dir = folder();
    let arguments = format!(
        "{} -pix_fmt yuv422p10le -c:v prores_ks",
        pattern("160x120", "24", 60)
    );
    prove(&make(&arguments, &dir.path().join("a.mov")));
}

#[test]
fn sound_files_are_entered_at_their_key_frames() {
    let dir = folder();
    prove(&make(
        &format!("{} {H264}", pattern("160x120", "18", 130)),
        &dir.path().join("a.mp4"),
    ));
    for (name, coding) in [
        ("b.mp4", H264),
        ("b.mkv", H264),
        ("b.mov", "-pix_fmt yuv422p10le -c:v prores_ks"),
        ("b.avi", "-c:v mjpeg"),
        ("b.ts", "-c:v mpeg2video -g 12 -bf 2"),
        ("b.mpg", "-c:v mpeg2video -g 12 -bf 2"),
    ] {
        let source = opened(&make(
            &format!("{} {coding}", pattern("96x64", "25", 130)),
            &dir.path().join(name),
        ));
        let index = index_of(&source);
        let (_, end) = fetched(
            &source,
            &index,
            &[100, 101],
            Form::Raw(source.native_layout()),
        )
        .unwrap();
        assert_eq!(end.starts, 1, "{name}: the first start must be right");
    }
}

#[test]
fn a_start_that_is_not_zero() {
    let dir = folder();
    let arguments = format!(
        "{} {H264} -output_ts_offset 7.25",
        pattern("160x120", "25", 100)
    );
    for name in ["a.mp4", "a.mkv", "a.ts"] {
        let file = make(&arguments, &dir.path().join(name));
        prove(&file);
    }
}

#[test]
fn an_edit_list_that_hides_the_first_frames() {
    let dir = folder();
    let whole = make(
        &format!("{} {H264}", pattern("160x120", "25", 130)),
        &dir.path().join("whole.mp4"),
    );
    let cut = dir.path().join("cut.mp4");
    make(&format!("-ss 1.7 -i {} -c copy", whole.display()), &cut);
    let frames = prove(&cut);
    assert!(frames.frames > 0);
}

#[test]
fn a_rate_that_varies() {
    let dir = folder();
    let varied = format!(
        "{} -vf setpts='(N+mod(N*N\\,7)/11+gte(N\\,40)*20)/18/TB' -fps_mode passthrough {H264}",
        pattern("160x120", "18", 90)
    );
    for name in ["a.mkv", "a.mp4"] {
        let file = make(&varied, &dir.path().join(name));
        prove(&file);
    }
}

#[test]
fn open_groups() {
    let dir = folder();
    let arguments = format!("{} {H264}:open-gop=1", pattern("160x120", "25", 130));
    prove(&make(&arguments, &dir.path().join("a.mkv")));
    let mpeg2 = format!(
        "{} -c:v mpeg2video -g 12 -bf 2 -q:v 4",
        pattern("160x120", "25", 80)
    );
    prove(&make(&mpeg2, &dir.path().join("a.mpg")));
    prove(&make(&mpeg2, &dir.path().join("a.ts")));
}

#[test]
fn motion_jpeg_in_avi() {
    let dir = folder();
    prove(&make(
        &format!("{} -c:v mjpeg -q:v 3", pattern("160x120", "18", 60)),
        &dir.path().join("a.avi"),
    ));
}

#[test]
fn odd_sizes_and_other_layouts() {
    let dir = folder();
    for (layout, codec) in [
        ("yuv420p", "ffv1"),
        ("yuv444p12le", "ffv1"),
        ("gray16le", "ffv1"),
        ("gray", "ffv1"),
        ("gbrp10le", "ffv1"),
        ("yuva420p", "ffv1"),
        ("rgb48le", "ffv1"),
        ("yuv411p", "ffv1"),
    ] {
        let arguments = format!(
            "{} -pix_fmt {layout} -c:v {codec}",
            pattern("99x61", "18", 20)
        );
        prove(&make(&arguments, &dir.path().join(format!("{layout}.mkv"))));
    }
}

#[test]
fn runs_of_pictures() {
    let dir = folder();
    for (kind, layout, own) in [
        ("dpx", "gbrp10be", "gbrp10le"),
        ("tif", "rgb48le", "rgb48le"),
        ("png", "rgb48be", "rgb48be"),
        ("jpg", "yuvj420p", "yuvj420p"),
    ] {
        let run = dir.path().join(kind);
        std::fs::create_dir(&run).unwrap();
        let pictures = run.join(format!("roll%05d.{kind}"));
        let arguments = format!(
            "{} -pix_fmt {layout} -start_number 98",
            pattern("120x90", "18", 12)
        );
        make(&arguments, &pictures);
        std::fs::remove_file(run.join(format!("roll00103.{kind}"))).unwrap();
        let source = opened(&run);
        assert_eq!(source.facts().pix_fmt, own);
        let index = index_of(&source);
        assert_eq!(index.frames(), 11);
        let (got, _) = fetched(
            &source,
            &index,
            &[0, 4, 5, 10],
            Form::Raw(source.native_layout()),
        )
        .unwrap();
        for (frame, number) in got.iter().zip([98, 102, 104, 109]) {
            assert_eq!(
                index.rows()[usize::try_from(frame.index).unwrap()].number,
                Some(number)
            );
            let file = run.join(format!("roll{number:05}.{kind}"));
            let layout = source.native_layout();
            let truth = sequential(&file, layout, layout.frame_bytes(120, 90));
            assert_eq!(vec![blake3::hash(&frame.bytes)], truth, "{kind} {number}");
        }
        assert_eq!(got.len(), 4);
    }
}

#[test]
fn times_that_stand_still_are_counted() {
    let dir = folder();
    let file = make(
        &format!("{} {H264}", pattern("160x120", "25", 70)),
        &dir.path().join("a.mkv"),
    );
    let source = opened(&file);
    let index = index_of(&source);
    let mut rows = index.rows().to_vec();
    let layout = source.native_layout();
    let truth = sequential(&file, layout, layout.frame_bytes(160, 120));
    // An index without times still finds the frames.
    let untimed = FrameIndex::new(rows.clone(), None);
    let (got, end) = fetched(&source, &untimed, &[40, 41, 60], Form::Raw(layout)).unwrap();
    assert_eq!(
        got.iter()
            .map(|f| blake3::hash(&f.bytes))
            .collect::<Vec<_>>(),
        [truth[40], truth[41], truth[60]]
    );
    assert_eq!(end.starts, 1);
    // Key frames marked where there are none: the first start fails, a later one is right.
    rows[45].key = true;
    let astray = FrameIndex::new(rows, Some(onestrand_intake::Ratio { num: 1, den: 1000 }));
    let (got, _) = fetched(&source, &astray, &[50, 60], Form::Raw(layout)).unwrap();
    assert_eq!(
        got.iter()
            .map(|f| blake3::hash(&f.bytes))
            .collect::<Vec<_>>(),
        [truth[50], truth[60]]
    );
}

#[test]
fn another_picture_than_recorded_is_never_handed_on() {
    let dir = folder();
    let file = make(
        &format!("{} {H264}", pattern("160x120", "25", 70)),
        &dir.path().join("a.mp4"),
    );
    let index = index_of(&opened(&file));
    let other = pattern("160x120", "25", 70).replace("testsrc2", "testsrc");
    make(&format!("{other} {H264}"), &file);
    let source = opened(&file);
    let mut seen = 0;
    let options = FetchOptions::new(Form::Raw(source.native_layout()));
    let error = fetch(
        &ffmpeg(),
        &source,
        &index,
        &[35],
        &options,
        &Cancel::new(),
        &mut |_| {
            seen += 1;
            ControlFlow::Continue(())
        },
    )
    .unwrap_err();
    assert_eq!((error.code(), seen), ("intake.not_the_same", 0));
}

#[test]
fn stills_are_whole_files() {
    let dir = folder();
    let file = make(
        &format!(
            "{} -pix_fmt yuv422p10le -c:v ffv1",
            pattern("160x120", "18", 20)
        ),
        &dir.path().join("a.mkv"),
    );
    let source = opened(&file);
    let index = index_of(&source);
    let (pngs, _) = fetched(&source, &index, &[3, 9], Form::Png).unwrap();
    assert_eq!(pngs.len(), 2);
    for png in &pngs {
        assert!(
            png.bytes.starts_with(b"\x89PNG\r\n\x1a\n")
                && png.bytes.ends_with(b"IEND\xae\x42\x60\x82")
        );
        assert_eq!(png.bytes[24], 16, "ten bits go into sixteen");
        assert_eq!(&png.bytes[16..24], b"\0\0\0\xa0\0\0\0\x78");
    }
    assert_ne!(pngs[0].bytes, pngs[1].bytes);
    let (jpegs, _) = fetched(&source, &index, &[3], Form::Jpeg(3)).unwrap();
    assert!(jpegs[0].bytes.starts_with(b"\xff\xd8") && jpegs[0].bytes.ends_with(b"\xff\xd9"));
}

#[test]
fn a_sink_may_stop_and_a_lever_too() {
    let dir = folder();
    let file = make(
        &format!("{} {H264}", pattern("160x120", "25", 70)),
        &dir.path().join("a.mp4"),
    );
    let source = opened(&file);
    let index = index_of(&source);
    let options = FetchOptions::new(Form::Raw(source.native_layout()));
    let wanted: Vec<u64> = (0..70).collect();
    let end = fetch(
        &ffmpeg(),
        &source,
        &index,
        &wanted,
        &options,
        &Cancel::new(),
        &mut |f| {
            if f.index == 5 {
                ControlFlow::Break(())
            } else {
                ControlFlow::Continue(())
            }
        },
    )
    .unwrap();
    assert!(end.is_stopped && end.frames == 6);
    let lever = Cancel::new();
    let error = fetch(
        &ffmpeg(),
        &source,
        &index,
        &wanted,
        &options,
        &lever,
        &mut |_| {
            lever.cancel();
            ControlFlow::Continue(())
        },
    )
    .unwrap_err();
    assert_eq!(error.code(), "intake.cancelled");
}
