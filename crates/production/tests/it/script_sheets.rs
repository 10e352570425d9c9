//! The paper of the plan, and the camera report that comes back from a phone.

use std::path::Path;
use std::process::Command;

use onestrand_film::{Frames, Gauge};
use onestrand_plan::read_camera_report;
use onestrand_production::documents::{
    FloorPlanWords, PlanCameraWords, PlanLineWords, PlanMarkWords, RecceWords,
};
use onestrand_production::{
    Cancel, LogReading, Production, ProductionError, Quiet, ScriptChangeKind, ScriptSheet,
    ScriptSheetsAsked, gather_script_sheets, import_log_text, script_sheets,
};

use crate::scripts::{boat, said};

fn asked() -> ScriptSheetsAsked {
    ScriptSheetsAsked {
        place: "the landing".to_owned(),
        day: "9 May".to_owned(),
        ..ScriptSheetsAsked::default()
    }
}

/// The text of a sheet as poppler reads it, blanks made one.
fn text(production: &Production, sheet: ScriptSheet, asked: &ScriptSheetsAsked) -> String {
    let gathered = gather_script_sheets(production, asked).expect("gathered");
    let printed = gathered.print_one(sheet).expect("printed");
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join(printed.file_name);
    std::fs::write(&file, printed.pdf).expect("written");
    let read = Command::new("pdftotext")
        .args(["-raw", "-enc", "UTF-8"])
        .arg(&file)
        .arg("-")
        .output()
        .expect("pdftotext of poppler-utils must be installed");
    let text = String::from_utf8(read.stdout).expect("UTF-8");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn assert_says(text: &str, all: &[&str]) {
    for words in all {
        assert!(text.contains(words), "{words}\n{text}");
    }
}

fn log(production: &mut Production, text: &str) {
    let reading = LogReading::default();
    import_log_text(production, Path::new("log.csv"), text.into(), &reading).expect("brought in");
}

/// Story 1 with one take only of 2B, 5 and 6A: 33 takes, 10,593 frames, three cartridges
/// by moving three blocks; in the order of the script four.
#[test]
fn the_sheets_say_what_the_film_has() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat(&dir.path().join("boat"));
    let script = text(&film, ScriptSheet::ShootingScript, &asked());
    assert_says(
        &script,
        &[
            "The Ten-Past Boat, the landing. Super 8, 18 f/s",
            "7 scenes",
            "19 setups",
            "33 takes",
            "10,593 frames",
            "Titles 2 setups, 309 frames",
        ],
    );
    let stock = text(&film, ScriptSheet::StockSheet, &asked());
    assert_says(
        &stock,
        &[
            "3 rolls to shoot",
            "10,593 frames",
            "63 frames to spare",
            "3 rolls: no plan does with fewer.",
            "3 setups are moved out of the order of the script: the fewest there are.",
            "In the order of the script it would take 4 rolls.",
            "3,552 frames of a roll can be used; a take has 24 frames of run-up",
        ],
    );
    let lined = text(&film, ScriptSheet::LinedScript, &asked());
    assert_says(&lined, &["as it is planned, a line a setup", "17 setups"]);
    let sounds = text(&film, ScriptSheet::WildSounds, &asked());
    assert_says(
        &sounds,
        &[
            "chain of the ferry on the ferry 40 s 1 m",
            "sound where length distance remark got",
        ],
    );
    let folder = text(&film, ScriptSheet::LocationFolder, &asked());
    assert_says(
        &folder,
        &["Location folder", "On location.", "Sound report"],
    );
    // Nobody drew a floor plan: the folder has none, and the sheet says so.
    assert!(!folder.contains("Floor plan"));
    let floor = text(&film, ScriptSheet::FloorPlan, &asked());
    assert_says(&floor, &["Nothing is drawn on the floor yet."]);
}

#[test]
fn what_was_shot_draws_the_lines_and_numbers_the_next_takes() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("boat"));
    log(
        &mut film,
        "roll,slate,take,in,out,use\nR1,2A,1,1352,1568,no\nR1,2A,2,1568,1801,yes\n",
    );
    let lined = text(&film, ScriptSheet::LinedScript, &asked());
    assert_says(
        &lined,
        &[
            "as it was shot, a line a take",
            "2A-T1",
            "2A-T2",
            "1 circled",
            "2 takes",
            "16 setups not shot",
            "14 actions not shot",
            "2B",
        ],
    );
    // Two takes of 2A are planned, and of the two shot one is no good.
    let report = text(&film, ScriptSheet::CameraReport, &asked());
    assert_says(&report, &["2A 3 hold NG", "2B 1 hold NG"]);
    assert!(
        !report.contains("2A 1 hold") && !report.contains("2A 4 hold"),
        "{report}"
    );
}

/// A take that is no good covers nothing, on paper as in the room.
#[test]
fn an_action_that_only_bad_takes_show_counts_as_not_shot() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("boat"));
    log(
        &mut film,
        "roll,slate,take,in,out,use\nR1,2A,1,1352,1568,no\nR1,2,1,1568,1801,yes\nR1,3,1,1801,1900,no\n",
    );
    let script = onestrand_production::script_document(&film).expect("read");
    let uncovered = script.shot.expect("takes").uncovered;
    let setups = script.setups.iter().map(|one| &one.setup);
    let three = { setups }.find(|setup| setup.name == "3").expect("a 3");
    assert!(!three.shown.is_empty());
    for shown in &three.shown {
        assert!(uncovered.contains(&shown.action), "{uncovered:?}");
    }
    let not_shot = uncovered.len();
    let lined = text(&film, ScriptSheet::LinedScript, &asked());
    assert_says(
        &lined,
        &[
            "2A-T1 NG",
            "3-T1 NG",
            "2 NG",
            &format!("{not_shot} actions not shot"),
        ],
    );
    assert!(!lined.contains("2-T1 NG"), "{lined}");
}

#[test]
fn only_some_scenes_are_shot_on_a_day() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat(&dir.path().join("boat"));
    let scenes = |all: &[&str]| ScriptSheetsAsked {
        scenes: all.iter().map(|one| (*one).to_owned()).collect(),
        ..asked()
    };
    let list = text(&film, ScriptSheet::ShotList, &scenes(&["2"]));
    assert_says(&list, &["3 setups", "(scene 2)"]);
    assert!(!list.contains("3A") && !list.contains("Titles"), "{list}");
    let refused = gather_script_sheets(&film, &scenes(&["2", "99"])).expect_err("no such scene");
    assert!(
        matches!(refused, ProductionError::Unfit { .. }),
        "{refused}"
    );
    assert!(refused.to_string().contains("99"));
}

/// A white picture with a black left half, as a PNG.
fn photograph() -> Vec<u8> {
    let picture = image::RgbImage::from_fn(120, 80, |x, _| {
        image::Rgb(if x < 60 { [0; 3] } else { [255, 240, 200] })
    });
    let mut bytes = std::io::Cursor::new(Vec::new());
    picture
        .write_to(&mut bytes, image::ImageFormat::Png)
        .expect("memory");
    bytes.into_inner()
}

/// Black, grey and coloured dots of a page, by poppler.
fn dots(production: &Production, sheet: ScriptSheet) -> (usize, usize) {
    let gathered = gather_script_sheets(production, &asked()).expect("gathered");
    let printed = gathered.set_one(sheet).expect("set");
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join(printed.file_name);
    std::fs::write(&file, printed.pdf).expect("written");
    let drawn = Command::new("pdftoppm")
        .args(["-r", "20", "-png", "-singlefile"])
        .arg(&file)
        .arg(folder.path().join("page"))
        .status()
        .expect("pdftoppm of poppler-utils must be installed");
    assert!(drawn.success());
    let page = image::open(folder.path().join("page.png")).expect("a page");
    let page = page.into_rgb8();
    let black = page.pixels().filter(|dot| dot.0 == [0; 3]).count();
    let coloured = page.pixels().filter(|dot| dot.0[0] != dot.0[2]).count();
    (black, coloured)
}

#[test]
fn visits_are_printed_with_their_photographs_in_grey() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("boat"));
    let folder = text(&film, ScriptSheet::LocationFolder, &asked());
    assert!(!folder.contains("Visits"), "{folder}");
    let empty = text(&film, ScriptSheet::Visits, &asked());
    assert_says(&empty, &["No visit is written down yet."]);
    let name = onestrand_production::keep_photograph(&film, &photograph()).expect("kept");
    let recce = RecceWords {
        place: "The quay".to_owned(),
        scenes: vec!["3".to_owned(), "5".to_owned()],
        words: "light from the north until ten".to_owned(),
        photograph: String::new(),
    };
    let kind = |recce: &RecceWords| ScriptChangeKind::Recce {
        recce: recce.clone(),
    };
    said(&mut film, None, None, kind(&recce)).expect("kept");
    let (before, _) = dots(&film, ScriptSheet::Visits);
    let script = onestrand_production::script_document(&film).expect("read");
    let id = script.recces[0].id;
    let recce = RecceWords {
        photograph: name.clone(),
        ..recce
    };
    said(&mut film, Some(id), None, kind(&recce)).expect("kept");
    let words = [
        "The quay",
        "scenes 3, 5",
        "light from the north until ten",
        "on the day",
    ];
    for sheet in [ScriptSheet::Visits, ScriptSheet::LocationFolder] {
        assert_says(&text(&film, sheet, &asked()), &words);
    }
    // 168 mm by 112 mm at 20 dots an inch are 132 by 88; the half of them, 5,808, is black.
    // A thin rule below is 135 more or less, as it falls on the dots; there are four.
    let (after, coloured) = dots(&film, ScriptSheet::Visits);
    assert!(
        (5_200..6_500).contains(&(after - before)),
        "{before} {after}"
    );
    assert_eq!(coloured, 0);
    // A photograph that was lost takes nothing else with it.
    std::fs::remove_file(film.dir().join("recce").join(&name)).expect("there");
    let lost = text(&film, ScriptSheet::Visits, &asked());
    assert_says(&lost, &["The quay", "Without its photograph"]);
    // Nor one that is broken.
    std::fs::write(film.dir().join("recce").join(&name), &photograph()[..40]).expect("there");
    let broken = text(&film, ScriptSheet::Visits, &asked());
    assert_says(&broken, &["The quay", "which cannot be read"]);
}

/// 2 turns into 2A over 48 frames: the light goes down from where the film is wound back
/// to, and is up again where it was wound back from. A foot of Super 8 is 72 frames.
#[test]
fn a_film_cut_in_the_camera_is_printed_step_by_step() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("boat"));
    let folder = text(&film, ScriptSheet::LocationFolder, &asked());
    assert!(!folder.contains("Cut in the camera"), "{folder}");
    let cuts = text(&film, ScriptSheet::InCamera, &asked());
    assert_says(&cuts, &["Load roll 1, counter to 0", "0 dissolves"]);
    let script = onestrand_production::script_document(&film).expect("read");
    let plan = onestrand_production::PlanAsked::default();
    for setup in ["2", "2A"] {
        let mut setups = script.setups.iter();
        let one = setups.find(|one| one.setup.name == setup).expect(setup);
        let mut setup = one.setup.clone();
        setup.dissolve = if setup.name == "2" { 48 } else { 0 };
        let change = ScriptChangeKind::Setup { setup };
        said(&mut film, Some(one.id), None, change).expect("said");
    }
    let asked_in_camera = onestrand_production::PlanAsked {
        in_camera: true,
        ..plan
    };
    let plan = onestrand_production::plan_film(&film, &asked_in_camera, &Cancel::new(), &mut Quiet);
    let steps = plan.expect("planned").in_camera.expect("asked for").steps;
    let back = steps
        .iter()
        .find(|one| one.act == "wind_back")
        .expect("one");
    assert_eq!(back.from - back.to, 48);
    let footage = |frames: u32| format!("{}+{}", frames / 72, frames % 72);
    for sheet in [ScriptSheet::InCamera, ScriptSheet::LocationFolder] {
        let text = text(&film, sheet, &asked());
        assert_says(
            &text,
            &[
                "Cut in the camera",
                "1 dissolve",
                "Cover the lens, wind back 48 frames",
                &format!("down over 48 frames, from {}", footage(back.to)),
                &format!("up over 48 frames, full at {}", footage(back.from)),
            ],
        );
    }
    // More than the camera winds back: what is wrong is printed, not a plan.
    let asked = asked();
    let mut setups = script.setups.iter();
    let one = setups.find(|one| one.setup.name == "2").expect("2");
    let mut setup = one.setup.clone();
    setup.dissolve = 200;
    said(
        &mut film,
        Some(one.id),
        None,
        ScriptChangeKind::Setup { setup },
    )
    .expect("said");
    let wrong = text(&film, ScriptSheet::InCamera, &asked);
    assert_says(&wrong, &["Not planned yet", "shot 2"]);
    assert!(!wrong.contains("Load roll"), "{wrong}");
}

#[test]
fn the_folder_is_written_and_a_sheet_that_is_none_is_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat(&dir.path().join("boat"));
    let out = dir.path().join("out");
    let print = |only| script_sheets(&film, &out, only, &asked(), &Cancel::new(), &mut Quiet);
    let one = print(Some("camera-page")).expect("written");
    assert_eq!(one.files.len(), 1);
    let page = std::fs::read_to_string(out.join("camera-report.html")).expect("there");
    assert!(page.contains("\"load\":3600") && page.contains("\"name\":\"2A\""));
    let created = film.created().expect("read");
    assert!(page.contains(&format!("\"id\":\"The Ten-Past Boat {created}\"")));
    assert!(page.contains("\"id_before\":\"The Ten-Past Boat\""));
    // All of them: the folder too, but no visits and no film cut in the camera.
    let all = print(None).expect("written");
    let names: Vec<&str> = all.files.iter().map(|file| file.sheet).collect();
    assert_eq!(names.len(), ScriptSheet::ALL.len() - 2 + 1);
    assert!(!names.contains(&"visits") && !names.contains(&"in-camera"));
    let refused = print(Some("pull-list")).expect_err("no sheet of the plan");
    assert!(refused.to_string().contains("pull-list"), "{refused}");
}

/// What the page on the phone writes (`web/src/phone/report_csv.js`), with text that means
/// harm to tables: a comma, a quote, a line end, a formula. Both readers find every take,
/// and the text as it was written.
#[test]
fn a_report_from_a_phone_joins_the_log_whole() {
    let csv = "\u{feff}roll,slate,take,start,end,mark,remark,day,lens\r\n\
               R1,3A,1,24,390,good,\"sun, then \"\"cloud\"\"\",2026-05-09,10 mm\r\n\
               R1,3A,2,390,762,hold,\" =HYPERLINK(\"\"x\"\",1)\",2026-05-09,\r\n\
               R2,4,1,18,290,NG,\"one\ntwo\",2026-05-09,\" +2 lens\"\r\n\
               R2,4,2,290,470,,,2026-05-09,\r\n";
    let load = Frames::new(3_600).expect("in range");
    let report = read_camera_report(csv, Gauge::Super8, load).expect("a report");
    let remarks: Vec<&str> = report
        .takes
        .iter()
        .map(|take| take.remark.as_str())
        .collect();
    assert_eq!(report.takes.len(), 4);
    assert!(remarks[0].starts_with("sun, then \"cloud\""), "{remarks:?}");
    assert!(remarks[1].starts_with("=HYPERLINK(\"x\",1)"), "{remarks:?}");
    assert!(remarks[2].starts_with("one\ntwo"), "{remarks:?}");
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("boat"));
    log(&mut film, csv);
    let takes = film.takes().expect("takes");
    let seen: Vec<(String, u32, u32, String, String)> = takes
        .into_iter()
        .map(|take| {
            let slate = format!(
                "{}-T{}",
                take.setup.unwrap_or_default(),
                take.take.unwrap_or(0)
            );
            (slate, take.first, take.thrown, take.rating, take.note)
        })
        .collect();
    let brief: Vec<(&str, u32, u32, &str)> = seen
        .iter()
        .map(|(slate, first, thrown, rating, _)| (&**slate, *first, *thrown, &**rating))
        .collect();
    assert_eq!(
        brief,
        [
            ("3A-T1", 24, 390, "circled"),
            ("3A-T2", 390, 762, "hold"),
            ("4-T1", 18, 290, "ng"),
            ("4-T2", 290, 470, "none"),
        ]
    );
    assert_eq!(
        seen[0].4,
        "sun, then \"cloud\"; day: 2026-05-09; lens: 10 mm"
    );
    assert_eq!(seen[1].4, "=HYPERLINK(\"x\",1); day: 2026-05-09");
    assert_eq!(seen[2].4, "one\ntwo; day: 2026-05-09; lens: +2 lens");
}

/// A place in the south of England on midsummer's day, by British summer time.
///
/// Sun: rise 04:43 and set 21:21 at London (51.5° N, 0.1° W) on 21 June as almanacs have
/// it, from memory, to the minute or two; the sums are checked in the crate `plan`.
#[test]
fn a_floor_plan_is_printed_to_scale_with_the_sun_of_its_day() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("boat"));
    let plan = FloorPlanWords {
        name: "The landing".to_owned(),
        scenes: vec!["3".to_owned()],
        width: 1200,
        height: 800,
        north: 0,
        latitude: Some(51_500),
        longitude: Some(-100),
        day: "2026-06-21".to_owned(),
        utc_offset: 60,
        lines: vec![PlanLineWords {
            points: vec![[0, 0], [1200, 0], [1200, 800], [0, 800], [0, 0]],
            words: "planks".to_owned(),
        }],
        line_of_action: Some([[200, 300], [1000, 300]]),
        cameras: vec![PlanCameraWords {
            setup: "3".to_owned(),
            at: [600, 750],
            looks: 0,
            lens: 130,
        }],
        marks: vec![PlanMarkWords {
            words: "Bram".to_owned(),
            at: [600, 300],
            goes_to: Some([900, 300]),
        }],
    };
    said(&mut film, None, None, ScriptChangeKind::FloorPlan { plan }).expect("drawn");
    let recce = RecceWords {
        place: "The landing".to_owned(),
        words: "floods at spring tide".to_owned(),
        ..RecceWords::default()
    };
    said(&mut film, None, None, ScriptChangeKind::Recce { recce }).expect("kept");
    let floor = text(&film, ScriptSheet::FloorPlan, &asked());
    assert_says(
        &floor,
        &[
            // 12 m are 120 mm at 1 : 100, and 240 at 1 : 50, which has no room.
            "1 : 100",
            "The landing, scene 3",
            "Bram",
            "13 mm",
            "Sun on 2026-06-21: up 04:4",
            "down 21:2",
            "NREL report TP-560-34302",
        ],
    );
    let list = text(&film, ScriptSheet::ShotList, &asked());
    assert_eq!(list.matches("Sun on 2026-06-21").count(), 1, "{list}");
    let folder = text(&film, ScriptSheet::LocationFolder, &asked());
    assert_says(
        &folder,
        &["The landing: floods at spring tide", "Floor plan"],
    );
    // Scenes elsewhere need no plan of it.
    let elsewhere = ScriptSheetsAsked {
        scenes: vec!["7".to_owned()],
        ..asked()
    };
    let elsewhere = text(&film, ScriptSheet::LocationFolder, &elsewhere);
    assert!(!elsewhere.contains("Floor plan"), "{elsewhere}");
}
