//! The sheets of the plan, read back.

use onestrand_sheets::{
    CameraReportSheet, FloorPlan, LocationFolder, Paper, PlanPaper, PlanSheet, Printed, SheetError,
    ShootingScript, print_camera_report, print_floor_plans, print_lined_script,
    print_location_folder, print_plan, print_shooting_script, print_shot_list, print_sound_report,
    print_stock_sheet, print_wild_sounds, set_plan,
};

use crate::{boat_plan, paper};

#[track_caller]
pub(crate) fn set(printed: Result<Printed, SheetError>) -> Vec<u8> {
    let printed = printed.expect("a sound sheet");
    assert_eq!(printed.warnings, []);
    assert_eq!(printed.pages.len(), paper::pages(&printed.pdf).len());
    printed.pdf
}

#[track_caller]
fn assert_says(pdf: &[u8], words: &[&str]) {
    let text = paper::flat(pdf);
    for words in words {
        assert!(text.contains(words), "{words}\n{text}");
    }
}

fn one(sheet: PlanSheet) -> Result<Printed, SheetError> {
    let paper = PlanPaper::Sheets(vec![sheet]);
    // What is set without being drawn is the same file.
    let set = set_plan(&paper)?;
    let printed = print_plan(&paper)?;
    assert_eq!(set.pdf, printed.pdf);
    assert_eq!(set.pages, printed.pages.len());
    Ok(printed)
}

fn every_sheet(on: Paper) -> Vec<(&'static str, Vec<u8>)> {
    vec![
        ("script", set(print_shooting_script(&boat_plan::script(on)))),
        (
            "planned",
            set(print_lined_script(&boat_plan::lined(on, false))),
        ),
        ("shot", set(print_lined_script(&boat_plan::lined(on, true)))),
        ("shots", set(print_shot_list(&boat_plan::shots(on)))),
        (
            "camera",
            set(print_camera_report(&boat_plan::camera_report(on))),
        ),
        (
            "sound",
            set(print_sound_report(&boat_plan::sound_report(on))),
        ),
        ("wild", set(print_wild_sounds(&boat_plan::wild_sounds(on)))),
        ("stock", set(print_stock_sheet(&boat_plan::stock(on)))),
        ("floor", set(print_floor_plans(&[boat_plan::floor(on)]))),
        ("folder", set(print_location_folder(&boat_plan::folder(on)))),
        ("visits", set(one(PlanSheet::Visits(boat_plan::visits(on))))),
        (
            "in camera",
            set(one(PlanSheet::InCamera(boat_plan::in_camera(on)))),
        ),
    ]
}

/// Paper of the size asked for, words inside the margins, none on another, none small.
#[test]
fn every_sheet_is_tidy_and_large_on_either_paper() {
    for (on, wide) in [(Paper::A4, 595.276), (Paper::Letter, 612.0)] {
        for (name, pdf) in every_sheet(on) {
            assert!((paper::size(&pdf).0 - wide).abs() < 0.1, "{name}");
            if name != "floor" && name != "folder" {
                paper::assert_tidy(&pdf);
            }
            let lowest = paper::lowest_line(&pdf);
            assert!(lowest >= 10.7, "{name} has words {lowest} pt high");
        }
    }
}

/// Seconds and takes of story 1: a take of 15 s at 18 f/s and 24 frames of run-up is 294.
#[test]
fn the_shooting_script_has_the_columns_of_the_trade_and_its_sums() {
    let pdf = set(print_shooting_script(&boat_plan::script(Paper::A4)));
    assert_says(
        &pdf,
        &[
            "The Ten-Past Boat, the landing. Super 8, 18 f/s",
            "Saturday 9 May",
            "2 The path by the river, exterior, day",
            "2 2a long pan Ida runs with a loaf Ida left to right Ida, loaf 15 × 2 294 all 588",
            "sound: bell, close",
            // Scene 2: 588 + 444 + 300.
            "3 setups, 1,332 frames",
            "Titles 1 setup, 180 frames",
            "5 scenes",
            "13 setups",
            "25 takes",
        ],
    );
    let empty = ShootingScript {
        scenes: Vec::new(),
        ..boat_plan::script(Paper::A4)
    };
    assert_says(
        &set(print_shooting_script(&empty)),
        &["There is no scene yet"],
    );
}

#[test]
fn the_shot_list_gathers_by_place_and_light_and_minds_the_lamps() {
    let list = boat_plan::shots(Paper::A4);
    let pdf = set(print_shot_list(&list));
    assert_says(
        &pdf,
        &[
            "The landing and the path, exterior, day",
            "Sun from the south-east till noon",
            "The cabin, interior, dusk 1 setup, 1,164 frames",
            "2 long, pan Ida runs with a loaf Ida, loaf 15 2 588",
            "On location.",
            "Hot lamps.",
            "Mains.",
        ],
    );
    let outside = onestrand_sheets::ShotList {
        groups: list.groups.into_iter().filter(|one| !one.inside).collect(),
        ..list
    };
    let text = paper::flat(&set(print_shot_list(&outside)));
    assert!(text.contains("On location.") && !text.contains("Hot lamps."));
}

#[test]
fn the_camera_report_comes_with_the_plan_or_blank() {
    let report = boat_plan::camera_report(Paper::A4);
    assert_says(
        &set(print_camera_report(&report)),
        &[
            "roll R1 batch camera the grey one",
            "counter start counter end f/s lens stop filter distance mark",
            "2A 2 hold NG Ida runs, nearer remark",
        ],
    );
    let blank = CameraReportSheet {
        takes: Vec::new(),
        blank_lines: 30,
        ..report
    };
    let text = paper::flat(&set(print_camera_report(&blank)));
    assert_eq!(text.matches("hold NG").count(), 30, "{text}");
    assert!(text.contains("to fill in"));
}

#[test]
fn sound_report_and_wild_sounds_have_their_columns_and_empty_lines() {
    assert_says(
        &set(print_sound_report(&boat_plan::sound_report(Paper::A4))),
        &[
            "tape speed reference tone",
            "cut counter what microphone, distance wild, sync remark",
            "the bell, three strokes 2 m, then 20 m wild sync",
            "Hearing.",
        ],
    );
    assert_says(
        &set(print_wild_sounds(&boat_plan::wild_sounds(Paper::A4))),
        &[
            "sound where length distance remark got",
            "chain over the rollers deck 2 min 1 m",
        ],
    );
}

/// Roll ends of story 1: 3,516, 3,534 and, with the titles' 309, 3,543 of 3,552.
#[test]
fn the_stock_sheet_says_what_goes_on_which_roll() {
    assert_says(
        &set(print_stock_sheet(&boat_plan::stock(Paper::A4))),
        &[
            "stock batch length rolls bought expires process paid price",
            "2241 50 ft 3 March 2027-11 yes no 42.00",
            "R1 3,516 frames, 48 ft 60 fr, 3:15.3 36 to spare",
            "R2 3,534 frames",
            "9 to spare, 309 kept back (hatched)",
            "2B 1 take, 150 frames, moved",
            "63 frames to spare",
            "Fewer than three rolls cannot do",
        ],
    );
}

/// 20 m of ground need 100 mm of paper at 1 : 200, and 200 at 1 : 100, which has no room.
#[test]
fn the_floor_plan_is_drawn_at_a_scale_a_ruler_has() {
    let plan = boat_plan::floor(Paper::A4);
    assert_says(
        &set(print_floor_plans(std::slice::from_ref(&plan))),
        &[
            "1 : 200 scale, printed at full size",
            "0 10 m",
            "landing stage",
            "09:00: from 103°, 35° high",
        ],
    );
    // The bar is 10 m at 1 : 200, 50 mm, whatever the drawing.
    let nothing = FloorPlan {
        outlines: Vec::new(),
        line_of_action: None,
        marks: Vec::new(),
        cameras: Vec::new(),
        north: None,
        sun: Vec::new(),
        ..plan.clone()
    };
    assert_says(
        &set(print_floor_plans(&[nothing])),
        &["Nothing is drawn on the floor yet.", "not known north"],
    );
    let mut wild = plan;
    wild.marks[0].at = (f64::NAN, 2.0);
    wild.marks[1].at = (1e300, 2.0);
    wild.sun[0].altitude = -4.0;
    let text = paper::flat(&set(print_floor_plans(&[wild.clone(), wild])));
    assert!(text.contains("bell") && !text.contains("Ida") && !text.contains("09:00"));
}

#[test]
fn a_folder_has_a_cover_that_says_where_each_sheet_lies() {
    let pdf = set(print_location_folder(&boat_plan::folder(Paper::A4)));
    let pages: Vec<String> = paper::pages(&pdf)
        .iter()
        .map(|page| page.split_whitespace().collect::<Vec<_>>().join(" "))
        .collect();
    for words in [
        "The Ten-Past Boat the landing Saturday 9 May Sun up 05:21",
        "owner of the place, telephone",
        "Park at the chapel",
        "On location.",
        "Hot lamps.",
        "Hearing.",
    ] {
        assert!(pages[0].contains(words), "{words}\n{}", pages[0]);
    }
    for form in [
        "Shooting script",
        "Lined script",
        "Shot list",
        "Floor plan",
        "Stock sheet",
        "Camera report",
        "Sound report",
        "Wild sounds",
    ] {
        let at = pages.iter().skip(1).position(|page| page.starts_with(form));
        let sheet = at.expect(form) + 2;
        let listed = pages[0].split(form).nth(1).expect(form);
        let mut numbers = listed.split("sheet ").skip(1);
        let said = numbers.find(|said| said.starts_with(|c: char| c.is_ascii_digit()));
        let said = said.and_then(|said| said.split(' ').next()).expect(form);
        assert_eq!(said, sheet.to_string(), "{form}");
    }
    // Numbered through, and cautioned once.
    let last = pages.len();
    assert!(pages[last - 1].contains(&format!("sheet {last} of {last}")));
    assert!(pages[1..].iter().all(|page| !page.contains("Take care")));
    let empty = LocationFolder {
        sheets: Vec::new(),
        ..boat_plan::folder(Paper::Letter)
    };
    assert_eq!(paper::pages(&set(print_location_folder(&empty))).len(), 1);
}

#[test]
fn a_persons_words_are_no_order_to_the_form() {
    let mut folder = boat_plan::folder(Paper::A4);
    folder.head.title = "#panic() *bold* $x$ <b> \u{202e}".to_owned();
    folder.recce = vec!["\"; #import \"x\"".to_owned()];
    let PlanSheet::ShootingScript(script) = &mut folder.sheets[0] else {
        panic!("the script lies first");
    };
    script.scenes[0].setups[0].action = "#set page(width: 1mm)\nand on".to_owned();
    assert_says(
        &set(print_location_folder(&folder)),
        &[
            "#panic() *bold* $x$ <b>",
            "\"; #import \"x\"",
            "#set page(width: 1mm) and on",
        ],
    );
}
