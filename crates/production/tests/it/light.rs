//! The light of shots from patches to points, kept and taken back, out and in; weave and
//! flicker planted in a workprint and taken out of pictures at full size.

use image::ExtendedColorType;
use image::codecs::jpeg::JpegEncoder;
use onestrand_film::{FrameName, FrameRange, RollId, Span};
use onestrand_intake::Cancel;
use onestrand_production::documents::{
    FrameAsked, GradedShot, LightAsked, LightSolved, PatchWords, ShotStands,
};
use onestrand_production::{
    FilmChange, LightChange, LightChangeKind, PaperRoll, Production, Quiet, TreatmentChoice,
    add_paper_roll, decision_list, grading_card, lit_picture, points_of_decision_list, solve_light,
    treatment_of,
};

use crate::in_the_hand::change;
use crate::numbered::workprint;
use crate::one_roll::meta;

const WIDTH: u32 = 480;
const HEIGHT: u32 = 360;

/// ITU-R BT.709-6, item 1.2: the number of a light.
fn number(light: f64) -> f64 {
    let light = light.clamp(0.0, 1.0);
    if light < 0.018 {
        4.5 * light
    } else {
        1.099 * light.powf(0.45) - 0.099
    }
}

fn jpeg(light: impl Fn(u32, u32) -> [f64; 3]) -> Vec<u8> {
    let mut rgb = Vec::new();
    for y in 0..HEIGHT {
        for x in 0..WIDTH {
            rgb.extend(light(x, y).map(|l| (255.0 * number(l)).round() as u8));
        }
    }
    let mut out = Vec::new();
    JpegEncoder::new_with_quality(&mut out, 92)
        .encode(&rgb, WIDTH, HEIGHT, ExtendedColorType::Rgb8)
        .expect("coded");
    out
}

/// A production with a roll of these pictures, and takes that begin at these frames.
fn film(dir: &std::path::Path, jpegs: &[Vec<u8>], takes: &[u32]) -> Production {
    let mut production = Production::create(&dir.join("film"), &meta()).expect("new");
    let paper = PaperRoll {
        roll: "R1".to_owned(),
        frames: u32::try_from(jpegs.len()).expect("few"),
        gauge: None,
        base: "not-known".to_owned(),
        fit: "project".to_owned(),
        wind: None,
    };
    add_paper_roll(&mut production, &paper).expect("added");
    for frame in takes {
        let roll = "R1".to_owned();
        let begins = FilmChange::BreakAt {
            roll,
            frame: *frame,
        };
        change(&mut production, &begins).expect("a take");
    }
    drop(workprint(production.dir(), jpegs, &[]));
    production
}

/// Light of three things, and the points that three shots want.
const THINGS: [[f64; 3]; 3] = [[0.30, 0.22, 0.15], [0.18, 0.18, 0.19], [0.09, 0.16, 0.24]];
const WANTED: [[i16; 3]; 3] = [[0, 0, 0], [5, 5, 7], [-4, -6, -3]];

/// Three takes of four frames; each thing is a square somewhere else in each.
fn three_shots() -> Vec<Vec<u8>> {
    let one = |shot: usize| {
        jpeg(move |x, y| {
            let thing = (0..3).find(|thing| {
                let (left, top) = corner(shot, *thing);
                (left..left + 60).contains(&x) && (top..top + 60).contains(&y)
            });
            let light = thing.map_or([0.12, 0.12, 0.12], |thing| THINGS[thing]);
            std::array::from_fn(|c| light[c] * 10_f64.powf(-0.025 * f64::from(WANTED[shot][c])))
        })
    };
    (0..3).flat_map(|shot| vec![one(shot); 4]).collect()
}

fn corner(shot: usize, thing: usize) -> (u32, u32) {
    let (shot, thing) = (shot as u32, thing as u32);
    (30 + 130 * thing + 20 * shot, 40 + 90 * shot + 30 * thing)
}

fn patch(shot: usize, thing: usize) -> PatchWords {
    let (left, top) = corner(shot, thing);
    let parts = |pixels: u32, of: u32| (pixels + 12) * 10_000 / of;
    PatchWords {
        thing: format!("thing {thing}"),
        roll: "R1".to_owned(),
        frame: shot as u32 * 4 + 1,
        left: parts(left, WIDTH),
        top: parts(top, HEIGHT),
        width: 36 * 10_000 / WIDTH,
        height: 36 * 10_000 / HEIGHT,
    }
}

fn asked() -> LightAsked {
    let all = (0..3).flat_map(|shot| (0..3).map(move |thing| patch(shot, thing)));
    LightAsked {
        patches: all.collect(),
        held: Some(FrameAsked {
            roll: "R1".to_owned(),
            frame: 2,
        }),
        cut: None,
    }
}

fn keep_all(solved: &LightSolved, patches: Vec<PatchWords>) -> FilmChange {
    let one = |shot: &onestrand_production::documents::ShotSolved| {
        let [red, green, blue] = shot.points.expect("points");
        GradedShot {
            roll: shot.roll.clone(),
            first: shot.first,
            thrown: shot.thrown,
            red,
            green,
            blue,
            reason: "the quay".to_owned(),
        }
    };
    let shots = solved.shots.iter().map(one).collect();
    let to = LightChangeKind::Keep { shots, patches };
    FilmChange::Light(Box::new(LightChange { to }))
}

#[test]
fn shots_are_matched_kept_sent_out_and_taken_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), &three_shots(), &[0, 4, 8]);
    let solved = solve_light(&production, &asked()).expect("solved");
    assert_eq!(solved.shots[0].stands, ShotStands::Held);
    for (shot, wanted) in solved.shots.iter().zip(WANTED) {
        assert_eq!(shot.points, Some(wanted));
        for (found, wanted) in shot.measured_points.iter().zip(wanted) {
            // Eight bits and JPEG: a number of 100 is known to half of one, 0.1 point.
            assert!(
                (found - f64::from(wanted)).abs() < 0.3,
                "{found} for {wanted}"
            );
        }
    }
    assert!(
        solved.words.iter().any(|w| w.contains("BT.709")),
        "no scan, and so said"
    );

    change(&mut production, &keep_all(&solved, asked().patches)).expect("kept");
    let card = grading_card(&production).expect("a card");
    assert_eq!((card.shots.len(), card.patches.len()), (3, 9));
    let (text, count) = decision_list(&production).expect("a list");
    assert_eq!(count, 3);
    let (back, left) = points_of_decision_list(&text).expect("read");
    assert!(left.is_empty(), "{left:?}");
    assert_eq!(back.len(), 3);
    for (back, kept) in back.iter().zip(&card.shots) {
        assert_eq!(
            (back.red, back.green, back.blue),
            (kept.red, kept.green, kept.blue)
        );
        assert_eq!((back.first, back.thrown), (kept.first, kept.thrown));
    }
    production.undo().expect("undone");
    assert!(grading_card(&production).expect("a card").shots.is_empty());
    production.redo().expect("done again");
    assert_eq!(grading_card(&production).expect("a card"), card);
}

#[test]
fn a_matched_picture_shows_the_thing_as_the_held_one_does() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path(), &three_shots(), &[0, 4, 8]);
    let middle = |shot: usize, points: [i16; 3]| {
        let frame = shot as u32 * 4 + 1;
        let jpeg = lit_picture(&production, "R1", frame, points).expect("made");
        let picture = image::load_from_memory(&jpeg)
            .expect("a picture")
            .into_rgb8();
        let (left, top) = corner(shot, 0);
        picture.get_pixel(left + 30, top + 30).0
    };
    let held = middle(0, [0, 0, 0]);
    let apart = |a: [u8; 3]| {
        a.iter()
            .zip(held)
            .map(|(a, b)| a.abs_diff(b))
            .max()
            .expect("three")
    };
    for (shot, wanted) in WANTED.iter().enumerate().skip(1) {
        assert!(apart(middle(shot, [0, 0, 0])) > 10);
        assert!(
            apart(middle(shot, *wanted)) <= 3,
            "{:?} {held:?}",
            middle(shot, *wanted)
        );
    }
}

#[test]
fn what_cannot_be_is_refused_and_nothing_is_changed() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), &three_shots(), &[0, 4, 8]);
    let keep = |first, thrown, red| {
        let shots = vec![GradedShot {
            roll: "R1".to_owned(),
            first,
            thrown,
            red,
            green: 0,
            blue: 0,
            reason: String::new(),
        }];
        let patches = Vec::new();
        let to = LightChangeKind::Keep { shots, patches };
        FilmChange::Light(Box::new(LightChange { to }))
    };
    for wrong in [keep(4, 4, 1), keep(4, 13, 1), keep(0, 4, 61)] {
        assert!(change(&mut production, &wrong).is_err());
    }
    let alone = LightAsked {
        patches: vec![patch(0, 0), patch(1, 1)],
        ..asked()
    };
    let refused = solve_light(&production, &alone).expect_err("nothing is shared");
    assert_eq!(refused.code(), "light.nothing_shared");
    assert!(grading_card(&production).expect("a card").shots.is_empty());
}

/// A scene that is known between the pixels too. Light.
fn scene(x: f64, y: f64) -> f64 {
    let waves = 0.4 * (x * 0.055 + y * 0.025).sin() + 0.3 * (y * 0.085 - x * 0.03).cos();
    let fine = 0.2 * (x * 0.21).sin() * (y * 0.19).sin();
    0.2 + 0.1 * (waves + fine)
}

/// Planted weave (right, down; pixels of 480) and flicker (log10 light) of a frame.
fn planted(frame: u32) -> ([f64; 2], f64) {
    let chance = |salt: u32| {
        let mixed = (frame * 7 + salt).wrapping_mul(2_654_435_761) >> 8;
        f64::from(mixed % 2001) / 1000.0 - 1.0
    };
    ([2.0 * chance(1), 1.5 * chance(2)], 0.06 * chance(3))
}

/// The frame at full size: planes of green, blue, red.
fn planes(frame: Option<u32>) -> Vec<u8> {
    let (weave, flicker) = frame.map_or(([0.0; 2], 0.0), planted);
    let mut plane = Vec::new();
    for y in 0..HEIGHT {
        for x in 0..WIDTH {
            let light = scene(f64::from(x) - weave[0], f64::from(y) - weave[1]);
            let value = 65_535.0 * number(light * 10_f64.powf(flicker));
            plane.extend_from_slice(&(value.round() as u16).to_le_bytes());
        }
    }
    plane.repeat(3)
}

/// Root mean square of what lies between two pictures, away from the edge. Unit: per cent
/// of the whole range.
fn apart(a: &[u8], b: &[u8]) -> f64 {
    let value =
        |bytes: &[u8], at: usize| f64::from(u16::from_le_bytes([bytes[2 * at], bytes[2 * at + 1]]));
    let (mut sum, mut count) = (0.0, 0.0);
    for y in 20..HEIGHT as usize - 20 {
        for x in 20..WIDTH as usize - 20 {
            let at = y * WIDTH as usize + x;
            sum += (value(a, at) - value(b, at)).powi(2);
            count += 1.0;
        }
    }
    100.0 * f64::sqrt(sum / count) / 65_535.0
}

#[test]
fn weave_and_flicker_are_taken_out_of_the_finish() {
    let dir = tempfile::tempdir().expect("a folder");
    let frames = 44;
    let jpegs: Vec<Vec<u8>> = (0..frames)
        .map(|frame| {
            let (weave, flicker) = planted(frame);
            jpeg(|x, y| {
                let light = scene(f64::from(x) - weave[0], f64::from(y) - weave[1]);
                [light * 10_f64.powf(flicker); 3]
            })
        })
        .collect();
    let production = film(dir.path(), &jpegs, &[0]);
    let roll = RollId::new("R1").expect("a name");
    let span = Span::new(roll.clone(), FrameRange::of(12, 32).expect("not reversed"));
    let choice = TreatmentChoice {
        light: false,
        steady: true,
        flicker: true,
    };
    let mut treatment = treatment_of(
        &production,
        &[span],
        choice,
        Some("bt709"),
        &Cancel::new(),
        &mut Quiet,
    )
    .expect("measured");
    let still = planes(None);
    let (mut was, mut left) = (Vec::new(), Vec::new());
    for frame in 12..32 {
        let name = FrameName {
            roll: roll.clone(),
            frame: onestrand_film::FramePos::new(frame).expect("a frame"),
        };
        assert!(treatment.changes(&name));
        let mut picture = planes(Some(frame));
        was.push(apart(&picture, &still));
        treatment
            .apply(&name, &mut picture, WIDTH, HEIGHT)
            .expect("treated");
        left.push(apart(&picture, &still));
    }
    let mean = |all: &[f64]| all.iter().sum::<f64>() / all.len() as f64;
    // What wavers slower than is taken out stays: a third of what was planted at most.
    assert!(
        mean(&left) < 0.4 * mean(&was),
        "{:.3} of {:.3}",
        mean(&left),
        mean(&was)
    );
    let told = treatment.document();
    let stretch = &told.stretches[0];
    assert_eq!(stretch.steps_not_told, 0);
    let weave = stretch.weave_um.expect("measured");
    // 2 pixels of 480 evenly either way are 1.15 root mean square; the gate is 5.79 mm.
    assert!(weave[0] > 6.0 && weave[0] < 20.0, "{weave:?}");
    assert!(stretch.flicker_stops.expect("measured") > 0.05);

    // Not asked for, nothing is done.
    let none = treatment_of(
        &production,
        &[],
        TreatmentChoice::default(),
        None,
        &Cancel::new(),
        &mut Quiet,
    );
    assert!(none.expect("nothing").document().stretches.is_empty());
}
