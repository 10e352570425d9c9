//! Steps of light of one view: planted in scans, asked by the check, and answered once.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::LazyLock;

use onestrand_example::{FRAME_BYTES, HEIGHT, RollPainter, WIDTH};
use onestrand_intake::Cancel;
use onestrand_production::documents::{CheckDocument, CutChange, PieceForm, PieceWord};
use onestrand_production::{
    AddRoll, AnswerQuestion, FilmChange, NewCut, Production, Quiet, add_roll, check_cut,
};

use crate::in_the_hand::change;
use crate::one_roll::{meta, request};

/// The end of 2-T1 and, after the light of its start, the beginning of 2-T2.
const ENDS: u32 = 1038;
const BEGINS: u32 = 1062;
const FRAMES: u32 = 12;

/// The pictures of both, painted once.
static PAINTED: LazyLock<[Vec<Vec<u8>>; 2]> = LazyLock::new(|| {
    let painter = RollPainter::new(1).expect("roll 1");
    let one = |frame| {
        let mut pixels = vec![0; FRAME_BYTES];
        painter.paint(frame, &mut pixels).expect("painted");
        pixels
    };
    [ENDS, BEGINS].map(|first| (first..first + FRAMES).map(one).collect())
});

/// A scan of these pictures, with as many points more light on the scanner.
fn scan(file: PathBuf, pictures: &[Vec<u8>], points: f64) -> PathBuf {
    let gain = (points / 12.0).exp2();
    let brighter: Vec<u8> = (0..=255_u8)
        .map(|level| {
            let light = gain * (f64::from(level) / 255.0).powf(2.2);
            (255.0 * light.min(1.0).powf(1.0 / 2.2)).round() as u8
        })
        .collect();
    let mut ffmpeg = Command::new("ffmpeg")
        .args([
            "-v", "error", "-f", "rawvideo", "-pix_fmt", "rgb24", "-r", "18",
        ])
        .args([
            "-s",
            &format!("{WIDTH}x{HEIGHT}"),
            "-i",
            "-",
            "-c:v",
            "ffv1",
        ])
        .arg(&file)
        .stdin(Stdio::piped())
        .spawn()
        .expect("ffmpeg starts");
    let mut pipe = ffmpeg.stdin.take().expect("a pipe");
    for picture in pictures {
        let lit: Vec<u8> = picture.iter().map(|l| brighter[usize::from(*l)]).collect();
        pipe.write_all(&lit).expect("written");
    }
    drop(pipe);
    assert!(ffmpeg.wait().expect("ended").success());
    file
}

/// A film of two rolls: 2-T1 on the one, 2-T2 on the other with more light.
fn film(dir: &Path, points: f64) -> Production {
    let mut production = Production::create(&dir.join("film"), &meta()).expect("new");
    let [ends, begins] = &*PAINTED;
    for (roll, pictures, points) in [("R1", ends, 0.0), ("R2", begins, points)] {
        let file = scan(dir.join(format!("{roll}.mkv")), pictures, points);
        let roll = AddRoll {
            roll: roll.to_owned(),
            ..request(&file)
        };
        add_roll(&mut production, &roll, &Cancel::new(), &mut Quiet).expect("read");
    }
    let new = NewCut {
        cut: "v1".to_owned(),
        ..NewCut::default()
    };
    change(&mut production, &FilmChange::NewCut(new)).expect("begun");
    for (at, (roll, slate)) in [("R1", "2-T1"), ("R2", "2-T2")].into_iter().enumerate() {
        let piece = PieceForm {
            kind: PieceWord::Shot,
            roll: Some(roll.to_owned()),
            first: Some(0),
            thrown: Some(FRAMES),
            frames: None,
            title: None,
            slate: Some(slate.to_owned()),
            join: None,
            effect: None,
            note: String::new(),
        };
        let laid = FilmChange::ChangeCut {
            cut: "v1".to_owned(),
            cut_change: CutChange::Insert { at, piece },
        };
        change(&mut production, &laid).expect("laid in");
    }
    production
}

fn check(production: &Production) -> CheckDocument {
    check_cut(production, "v1", None).expect("checked")
}

/// What is asked of the light, in words.
fn asked(production: &Production) -> Vec<String> {
    let questions = check(production).questions.into_iter();
    let light = questions.filter(|question| question.kind == "light");
    light.map(|question| question.text).collect()
}

#[test]
fn a_second_scan_under_another_light_is_asked_about_in_points() {
    for (points, words) in [
        (0.0, None),
        (4.0, None),
        (9.0, Some("lighter")),
        (-12.0, Some("darker")),
    ] {
        let dir = tempfile::tempdir().expect("a folder");
        let found = asked(&film(dir.path(), points));
        let Some(words) = words else {
            assert_eq!(found, Vec::<String>::new(), "{points}");
            continue;
        };
        let [text] = found.as_slice() else {
            panic!("{points}: {found:?}");
        };
        // The takes themselves are drawn a point or two apart.
        let said: f64 = text["2 (2-T2) is ".len()..]
            .split(' ')
            .next()
            .and_then(|number| number.parse().ok())
            .expect("a number of points");
        assert!((said - points.abs()).abs() <= 3.0, "{points}: {text}");
        assert!(text.contains(words) && text.contains("1 (2-T1)"), "{text}");
    }
}

#[test]
fn a_step_of_light_is_answered_once_and_asked_no_more_without_its_measures() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), 12.0);
    let found = check(&production).questions;
    let light = found.iter().find(|question| question.kind == "light");
    let key = light.expect("a question of the light").key.clone();
    let answer = FilmChange::AnswerQuestion(AnswerQuestion {
        key,
        note: "the sun comes out".to_owned(),
    });
    change(&mut production, &answer).expect("answered");
    assert_eq!(asked(&production), Vec::<String>::new());
    let answered = check(&production).answered;
    let light = answered.iter().find(|question| question.kind == "light");
    let note = light.and_then(|question| question.note.as_deref());
    assert_eq!(note, Some("the sun comes out"));
    production.undo().expect("undone");
    assert_eq!(asked(&production).len(), 1);
    // The workprints are thrown away: what is not measured is not asked.
    std::fs::remove_dir_all(dir.path().join("film/workprints")).expect("thrown away");
    assert_eq!(asked(&production), Vec::<String>::new());
}
