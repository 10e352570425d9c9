//! Film in the fields of interlaced files.

use std::process::Command;

use onestrand_cadence::{CadenceSettings, FieldFinder, FieldOrder, PLANE_BYTES, WovenFrame, weave};
use onestrand_telecine::{Coding, Look, Projection, Roll, Scene, Transfer, field_of, levels};

const SIZE: (usize, usize) = (192, 288);

fn settings(rate: &str) -> CadenceSettings {
    CadenceSettings {
        file_rate: rate.parse().ok(),
        film_speed: None,
    }
}

/// Film shown in fields, and the film frame of each field.
fn woven(film: (u32, u32), fields: (u32, u32), order: FieldOrder) -> (Vec<WovenFrame>, Vec<u32>) {
    let scenes = [
        (Scene::Walk, 120),
        (Scene::Pan(0.008), 90),
        (Scene::Title, 50),
        (Scene::Still, 60),
        (Scene::Walk, 80),
    ];
    let roll = Roll::new(SIZE, Look::FAIR, 77, &scenes);
    let transfer = Transfer::clean(film, fields);
    let truth = transfer
        .truth(roll.frames())
        .iter()
        .map(|shown| shown.most())
        .collect();
    let rate = format!("{}/{}", fields.0, fields.1 * 2);
    let mut finder = FieldFinder::new(settings(&rate), order);
    let mut told = Vec::new();
    let mut older: Option<Vec<u8>> = None;
    for frame in Projection::new(&roll, &transfer, Coding { noise: 0.4 }) {
        let picture = levels(&frame.levels);
        let Some(first) = older.take() else {
            older = Some(picture);
            continue;
        };
        let (top, bottom) = match order {
            FieldOrder::TopFirst => (&first, &picture),
            FieldOrder::BottomFirst => (&picture, &first),
        };
        let (top, bottom) = (field_of(top, SIZE.0, 0), field_of(bottom, SIZE.0, 1));
        told.extend(
            finder
                .push(&top, &bottom)
                .expect("fields have the size of planes"),
        );
    }
    told.extend(finder.finish().0);
    (told, truth)
}

#[test]
fn film_frames_are_woven_of_fields_of_their_own() {
    for (film, fields, order, counts) in [
        ((24, 1), (60, 1), FieldOrder::TopFirst, [2, 3]),
        ((24, 1), (60, 1), FieldOrder::BottomFirst, [2, 3]),
        ((18, 1), (60, 1), FieldOrder::TopFirst, [3, 4]),
        ((15, 1), (60, 1), FieldOrder::TopFirst, [4, 4]),
        ((16, 1), (50, 1), FieldOrder::BottomFirst, [3, 4]),
        ((25, 1), (50, 1), FieldOrder::TopFirst, [2, 2]),
    ] {
        let (told, truth) = woven(film, fields, order);
        let what = format!("{film:?} into {fields:?} fields, {order:?}");
        assert_eq!(told.len(), 400, "{what}");
        let shows = |file_frame: u64, is_top: bool| {
            let is_older = is_top == (order == FieldOrder::TopFirst);
            truth[2 * file_frame as usize + usize::from(!is_older)]
        };
        for frame in &told[..399] {
            let top = shows(frame.top.expect("every film frame has a top field"), true);
            let bottom = shows(frame.bottom.expect("and a bottom field"), false);
            // Both fields from one film frame: nothing to comb.
            assert_eq!((top, bottom), (frame.number, frame.number), "{what}");
        }
        let inner = &told[1..398];
        assert!(
            inner.iter().all(|frame| counts.contains(&frame.fields)),
            "{what}"
        );
    }
}

#[test]
fn a_real_pulldown_of_2_and_3_fields_is_undone() {
    // 120 film frames in 150 interlaced frames, 2 and 3 fields from the first on.
    let clip = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../tests/media/video/pulldown_23_interlaced.mp4"
    );
    let out = Command::new("ffmpeg")
        .args(["-v", "error", "-i", clip, "-vf"])
        .arg("setfield=tff,separatefields,scale=192:144:flags=area,format=gray")
        .args(["-vsync", "0", "-f", "rawvideo", "pipe:1"])
        .output()
        .expect("FFmpeg is here");
    let planes: Vec<&[u8]> = out.stdout.chunks_exact(PLANE_BYTES).collect();
    assert_eq!(planes.len(), 300);
    let mut finder = FieldFinder::new(settings("30000/1001"), FieldOrder::TopFirst);
    let mut told = Vec::new();
    for fields in planes.chunks_exact(2) {
        told.extend(finder.push(fields[0], fields[1]).expect("planes"));
    }
    let (rest, found) = finder.finish();
    told.extend(rest);
    assert_eq!(told.len(), 120);
    assert_eq!(
        found.film_speed.map(|speed| speed.to_string()),
        Some("24000/1001".to_owned())
    );
    let truth: Vec<u32> = (0..120)
        .flat_map(|film| vec![film; if film % 2 == 0 { 2 } else { 3 }])
        .collect();
    for frame in &told {
        let top = truth[2 * frame.top.expect("a top field") as usize];
        let bottom = truth[2 * frame.bottom.expect("a bottom field") as usize + 1];
        assert_eq!((top, bottom), (frame.number, frame.number));
    }
}

#[test]
fn lines_are_woven_by_turns() {
    let woven = weave(&[1, 1, 2, 2, 3, 3], &[9, 9, 8, 8, 7, 7], 2).expect("one size");
    assert_eq!(woven, [1, 1, 8, 8, 3, 3]);
    assert!(weave(&[1, 2], &[1], 1).is_err());
}
