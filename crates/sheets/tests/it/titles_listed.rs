//! The title list, the exposure sheet and the stand, read back.

use onestrand_film::{Fps, Gauge};
use onestrand_sheets::{
    Paper, PlanHead, Printed, StandDrawing, StandLamp, TitleExposureRow, TitleExposureSheet,
    TitleList, TitleListRow, print_exposure_sheet, print_stand_drawing, print_title_list,
};

use crate::paper;

fn head(place: &str, on: Paper) -> PlanHead {
    PlanHead {
        title: "The Ten-Past Boat".to_owned(),
        place: place.to_owned(),
        day: String::new(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
        paper: on,
    }
}

fn row(pass: u32, first: u32, last: u32, cel_1: &str, light: &str) -> TitleExposureRow {
    TitleExposureRow {
        pass,
        first,
        last,
        background: "ground".to_owned(),
        cel_1: cel_1.to_owned(),
        cel_2: String::new(),
        east_west: String::new(),
        north_south: if first > 36 {
            "cel 142.50 S, each 0.50 N".to_owned()
        } else {
            String::new()
        },
        field: String::new(),
        light: light.to_owned(),
        note: if first == 37 {
            "lettered cel in, blank cel out".to_owned()
        } else {
            String::new()
        },
    }
}

fn exposure(rows: Vec<TitleExposureRow>, passes: u32, on: Paper) -> TitleExposureSheet {
    TitleExposureSheet {
        head: head("M", on),
        words: "On the quay the ten-past boat waits for nobody but the cat".to_owned(),
        parts: [36, 126, 18],
        passes,
        rows,
        takes: 2,
        of_roll: 408,
        set_up: "25 mm lens, field 240 × 178 mm, artwork 1,079.5 mm from the lens, f/5.6"
            .to_owned(),
        remarks: vec!["Fades go by equal parts of a stop to 5 below, then shut.".to_owned()],
        warnings: Vec::new(),
    }
}

fn story(on: Paper) -> Printed {
    let rows = vec![
        row(1, 1, 36, "blank", "full"),
        row(1, 37, 162, "lettered", "full"),
        row(1, 163, 180, "blank", "full"),
    ];
    let printed = print_exposure_sheet(&exposure(rows, 1, on)).expect("a sheet");
    assert!(printed.warnings.is_empty(), "{:?}", printed.warnings);
    printed
}

fn long() -> Printed {
    let fade = (1..=30).map(|frame| {
        row(
            1,
            frame,
            frame,
            "blank",
            &format!("− {:.2} stop", 5.0 - f64::from(frame) / 6.0),
        )
    });
    let rest = [
        row(1, 31, 180, "blank", "full"),
        row(2, 37, 162, "lettered", "full"),
    ];
    let mut sheet = exposure(fade.chain(rest).collect(), 2, Paper::A4);
    sheet.warnings =
        vec!["Without a blank cel the artwork darkens by 0.13 stop: keep one in.".to_owned()];
    print_exposure_sheet(&sheet).expect("a sheet")
}

fn list(on: Paper) -> Printed {
    let one = |name: &str, words: &str, count, hold, whole| TitleListRow {
        name: name.to_owned(),
        words: words.to_owned(),
        count,
        hold,
        whole,
        ground: "picture".to_owned(),
        cel: "cel".to_owned(),
        comes: "dropped in".to_owned(),
        goes: "lifted".to_owned(),
        field: "240 × 178 mm".to_owned(),
        lens: "25 mm".to_owned(),
        distance: "1,079.5 mm".to_owned(),
        stop: "f/5.6".to_owned(),
        of_roll: whole + 24,
    };
    let list = TitleList {
        head: head("", on),
        rows: vec![
            one(
                "M",
                "On the quay the ten-past boat waits for nobody but the cat",
                12,
                126,
                180,
            ),
            one("E", "The end", 2, 45, 81),
        ],
        rule: "A title stands the longer of 2.5 s and 1 s + 0.5 s a word.".to_owned(),
        set_up: "Two lamps at 45° and 800 mm.".to_owned(),
    };
    let printed = print_title_list(&list).expect("a list");
    assert!(printed.warnings.is_empty(), "{:?}", printed.warnings);
    printed
}

fn stand(lamps: Vec<StandLamp>, subject_mm: f64, field_mm: [f64; 2]) -> StandDrawing {
    StandDrawing {
        head: head("M", Paper::A4),
        lens: "25 mm lens, f/5.6".to_owned(),
        subject_mm,
        film_to_subject_mm: subject_mm + 25.6,
        field_mm,
        shown_mm: field_mm.map(|side| side * 0.94),
        sharp_mm: Some((964.0, Some(1_227.0))),
        lamps,
        angle_degrees: 45.0,
        lamp_distance_mm: 800.0,
        glass: true,
        figures: vec![
            ("1,079.5 mm".to_owned(), "lens to artwork".to_owned()),
            ("+0.07".to_owned(), "stop to open".to_owned()),
        ],
        remarks: vec!["The lens is taken as thin.".to_owned()],
    }
}

fn story_stand() -> Printed {
    let lamp = |east| StandLamp {
        east,
        north: 0.0,
        over: 565.7,
    };
    let drawing = stand(vec![lamp(-565.7), lamp(565.7)], 1_079.5, [240.0, 178.0]);
    print_stand_drawing(&drawing).expect("a drawing")
}

/// The lamps are drawn where they stand: the measure from the axis to a lamp is 565.7 mm
/// of life at the scale that the sheet prints, measured in the page itself.
#[test]
fn the_stand_is_drawn_to_the_scale_it_prints() {
    let printed = story_stand();
    assert!(printed.warnings.is_empty(), "{:?}", printed.warnings);
    assert_eq!(printed.pages.len(), 1);
    let said = paper::flat(&printed.pdf);
    for words in [
        "1,079.5 mm",
        "565.7 mm",
        "800 mm",
        "45°",
        "sharp 964 to 1,227 mm",
        "Glass",
        "field 240 mm",
        "field 178 mm",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let scale = said
        .split("1 : ")
        .nth(1)
        .and_then(|rest| rest.split([';', ' ']).next());
    let scale: f64 = scale.expect("a scale").parse().expect("a figure");
    let all = crate::titles_true_size::boxes(&printed.pdf, 1);
    let long = |wanted: f64, upright: bool| {
        let of = |one: &[f64; 4]| {
            if upright {
                (one[3], one[2])
            } else {
                (one[2], one[3])
            }
        };
        all.iter().any(|one| {
            let (long, thin) = of(one);
            (long - wanted / scale).abs() < 0.05 && thin < 0.05
        })
    };
    assert!(
        long(565.7, false) && long(565.7, true),
        "lamp out and over, 1 : {scale}"
    );
    assert!(long(1_079.5, true), "lens over artwork");
    assert!(
        long(240.0, false) && long(178.0, false),
        "the field both ways"
    );
    assert!(!long(600.0, false), "what is not there is not found");
}

#[test]
fn small_and_large_stands_stay_on_the_page() {
    for (subject, field) in [(60.0, [20.0, 15.0]), (3_000.0, [900.0, 670.0])] {
        let lamp = |east| StandLamp {
            east,
            north: 100.0,
            over: subject * 0.6,
        };
        let drawing = stand(vec![lamp(-subject), lamp(subject)], subject, field);
        let printed = print_stand_drawing(&drawing).expect("a drawing");
        assert_eq!(printed.pages.len(), 1);
    }
    let bare = print_stand_drawing(&stand(Vec::new(), 1_079.5, [240.0, 178.0]));
    assert_eq!(bare.expect("a drawing").pages.len(), 1);
}

#[test]
fn the_exposure_sheet_tells_each_row() {
    for on in [Paper::A4, Paper::Letter] {
        let said = paper::flat(&story(on).pdf);
        for words in [
            "1–36",
            "37–162",
            "163–180",
            "126",
            "lettered cel in",
            "408",
            "Hot lamps",
            "Mains",
            "for nobody but the cat",
        ] {
            assert!(said.contains(words), "{words}: {said}");
        }
        assert!(!said.contains("Pass 1"), "{said}");
    }
}

#[test]
fn a_long_sheet_goes_on_over_pages_with_its_passes_and_warnings() {
    let printed = long();
    assert!(printed.pages.len() >= 2);
    let said = paper::flat(&printed.pdf);
    for words in [
        "Pass 1 of 2",
        "Pass 2 of 2",
        "darkens by 0.13 stop",
        "− 4.83 stop",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
}

#[test]
fn the_list_tells_each_title_and_what_they_need_of_the_roll() {
    for on in [Paper::A4, Paper::Letter] {
        let said = paper::flat(&list(on).pdf);
        for words in [
            "The end",
            "126",
            "309",
            "4 ft 21 fr",
            "1,079.5 mm",
            "f/5.6",
            "2 titles",
        ] {
            let (all, wanted) = (paper::tight(&said), paper::tight(words));
            assert!(all.contains(&wanted), "{words}: {said}");
        }
    }
}

/// To look at: `ONESTRAND_LOOK=folder`.
#[test]
fn pages_may_be_kept_to_look_at() {
    let Some(folder) = std::env::var_os("ONESTRAND_LOOK") else {
        return;
    };
    for (name, printed) in [
        ("story", story(Paper::A4)),
        ("long", long()),
        ("list", list(Paper::A4)),
        ("stand", story_stand()),
    ] {
        let file = std::path::Path::new(&folder).join(format!("{name}.pdf"));
        std::fs::write(file, &printed.pdf).expect("the folder takes it");
    }
}
