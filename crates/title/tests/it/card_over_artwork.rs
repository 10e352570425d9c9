//! The story of the card over artwork, and of the blank cel.

use onestrand_title::{
    Background, CEL_DENSITY, CelIn, DissolveTo, Exposing, ExposureAsked, ExposureLine,
    ExposureSheet, ExposureTimes, LettersBy, SheetWarning, exposure_sheet, replay,
};

fn story() -> ExposureAsked {
    ExposureAsked {
        before: 36,
        after: 18,
        ..ExposureAsked::plain(126)
    }
}

/// Story 10: 36 artwork and blank cel, 126 lettered, 18 blank cel are 180; the end title
/// 45 + 36 are 81. With 24 frames of run-up each they need 309 of the roll (story 2).
#[test]
fn the_sheet_is_that_of_the_story() {
    let sheet = exposure_sheet(&story()).expect("a sheet");
    let lines: Vec<_> = sheet
        .lines
        .iter()
        .map(|line| (line.from, line.to, line.background, line.cel_1))
        .collect();
    let ground = Background::Ground;
    assert_eq!(
        lines,
        [
            (0, 36, ground, CelIn::Blank),
            (36, 162, ground, CelIn::Lettered),
            (162, 180, ground, CelIn::Blank),
        ]
    );
    assert_eq!((sheet.frames, sheet.passes), (180, 1));
    assert_eq!(sheet.warnings, []);
    let end = ExposureAsked {
        after: 36,
        ..ExposureAsked::plain(45)
    };
    let end = exposure_sheet(&end).expect("a sheet");
    assert_eq!(end.frames, 81);
    assert_eq!(sheet.need.frames + end.need.frames, 309);
    let spare = ExposureAsked {
        spares: 1,
        ..story()
    };
    let need = exposure_sheet(&spare).expect("a sheet").need;
    assert_eq!((need.takes, need.frames_each, need.frames), (2, 204, 408));
}

/// The job, stage 2.11: about 0.13 stop for a density of 0.04. Played back from the lines,
/// the artwork keeps its light with the blank cel and loses as much without it.
#[test]
fn without_the_blank_cel_the_artwork_darkens() {
    let light = |asked: &ExposureAsked| {
        let film = replay(&exposure_sheet(asked).expect("a sheet"));
        [35, 36, 161, 162].map(|frame: usize| film[frame].ground_light.log2())
    };
    let kept = light(&story());
    assert!(kept.iter().all(|stops| stops.abs() < 1e-12), "{kept:?}");
    let bare = ExposureAsked {
        blank_cel: false,
        ..story()
    };
    let [before, under, still, after] = light(&bare);
    assert!((before - under - 0.1329).abs() < 5e-5, "{before} {under}");
    assert!((after - still - 0.1329).abs() < 5e-5, "{after} {still}");
    let warned = exposure_sheet(&bare).expect("a sheet").warnings;
    let [SheetWarning::Darkens { stops }] = warned[..] else {
        panic!("{warned:?}");
    };
    assert!((stops - (before - under)).abs() < 1e-12);
    // Twice the density, twice the stops.
    let thick = ExposureAsked {
        cel_density: 2.0 * CEL_DENSITY,
        ..bare
    };
    let [before, under, ..] = light(&thick);
    assert!((before - under - 0.2658).abs() < 1e-4);
}

/// Every frame of a fade is as many parts of a stop from the one before it, down to 5
/// stops: read off the lines.
#[test]
fn a_fade_goes_by_equal_parts_of_a_stop() {
    let asked = ExposureAsked {
        fade_in: 10,
        fade_out: 20,
        ..story()
    };
    let sheet = exposure_sheet(&asked).expect("a sheet");
    let stops: Vec<f64> = replay(&sheet)
        .iter()
        .map(|on| on.ground_light.log2())
        .collect();
    assert!((stops[0] + 5.0).abs() < 1e-9 && (stops[179] + 5.0).abs() < 1e-9);
    for frame in 0..10 {
        assert!(
            (stops[frame + 1] - stops[frame] - 0.5).abs() < 1e-9,
            "{frame}"
        );
    }
    for frame in 159..179 {
        assert!(
            (stops[frame] - stops[frame + 1] - 0.25).abs() < 1e-9,
            "{frame}"
        );
    }
    assert!(stops[10..160].iter().all(|stops| stops.abs() < 1e-9));
}

/// Over a dissolve the light of both cards together is that of one.
#[test]
fn a_dissolve_keeps_the_light() {
    let to = DissolveTo {
        name: "T2".to_owned(),
        frames: 12,
    };
    let asked = ExposureAsked {
        dissolve: Some(to),
        wind_back_most: Some(10),
        ..story()
    };
    let sheet = exposure_sheet(&asked).expect("a sheet");
    assert_eq!((sheet.passes, sheet.need.wound_back), (2, 12));
    let back = SheetWarning::WindsBack {
        frames: 12,
        most: 10,
    };
    assert_eq!(sheet.warnings, [back]);
    for on in replay(&sheet) {
        assert!((on.ground_light + on.next_light - 1.0).abs() < 1e-12);
    }
}

/// A single frame gets more light than a running one: the iris takes it back, and the
/// light on the film is even.
#[test]
fn running_and_single_frames_come_out_alike() {
    let times = ExposureTimes {
        running_s: 1.0 / 43.2,
        single_s: 1.0 / 30.0,
    };
    let asked = ExposureAsked {
        fade_in: 12,
        exposing: Exposing::Running,
        times: Some(times),
        ..story()
    };
    let sheet = exposure_sheet(&asked).expect("a sheet");
    let single = sheet
        .lines
        .iter()
        .find(|line| line.exposing == Exposing::Single);
    let iris = single.expect("fades are single frames").iris_stops;
    assert!(
        (iris + 0.526).abs() < 5e-4,
        "log2(43.2 / 30) = 0.526: {iris}"
    );
    let film = replay(&sheet);
    assert!(
        film[12..]
            .iter()
            .all(|on| (on.ground_light - 1.0).abs() < 1e-12)
    );
    let forgotten = ExposureSheet {
        lines: sheet
            .lines
            .iter()
            .map(|line| ExposureLine {
                iris_stops: 0.0,
                ..line.clone()
            })
            .collect(),
        ..sheet
    };
    let over = replay(&forgotten)[11].ground_light / film[11].ground_light;
    assert!(
        (over - 1.44).abs() < 1e-9,
        "43.2 / 30 times the light: {over}"
    );
    let unknown = ExposureAsked {
        times: None,
        ..asked
    };
    let warned = exposure_sheet(&unknown).expect("a sheet").warnings;
    assert!(warned.contains(&SheetWarning::TimesUnknown));
}

#[test]
fn what_cannot_be_is_refused_with_a_way_out() {
    let to = |frames| {
        Some(DissolveTo {
            name: "T2".to_owned(),
            frames,
        })
    };
    let odd = [
        ExposureAsked::plain(0),
        ExposureAsked {
            letters_in: 37,
            ..story()
        },
        ExposureAsked {
            fade_in: 100,
            fade_out: 100,
            ..story()
        },
        ExposureAsked {
            fade_out: 10,
            dissolve: to(10),
            ..story()
        },
        ExposureAsked {
            dissolve: to(1),
            ..story()
        },
        ExposureAsked {
            cel_density: f64::NAN,
            ..story()
        },
        ExposureAsked {
            before: u32::MAX,
            ..story()
        },
        ExposureAsked {
            spares: 1_000,
            ..story()
        },
    ];
    for asked in odd {
        let refused = exposure_sheet(&asked).expect_err("cannot be");
        assert!(!refused.hint().is_empty() && refused.code().starts_with("title."));
    }
    let white = ExposureAsked {
        letters_by: LettersBy::SecondExposure,
        blank_cel: false,
        ..story()
    };
    let sheet = exposure_sheet(&white).expect("a sheet");
    assert_eq!(
        (sheet.passes, sheet.need.wound_back, sheet.warnings.len()),
        (2, 144, 0)
    );
}
