//! `title` at the command line: figures as a checker would ask for them.

use serde_json::{Value, json};

use crate::program::{call, onestrand};

fn title(line: &str) -> crate::program::Called {
    let arguments = ["title"].into_iter().chain(line.split(' '));
    call(arguments.map(|part| part.replace('_', " ")))
}

/// What it prints for people.
fn words(line: &str) -> String {
    let arguments = ["title"].into_iter().chain(line.split(' '));
    let output = onestrand().args(arguments).output().expect("it starts");
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn near(found: &Value, wanted: f64, by: f64) {
    let found = found
        .as_f64()
        .unwrap_or_else(|| panic!("a figure: {found}"));
    assert!((found - wanted).abs() <= by, "{found}, not {wanted}");
}

/// Story 10, as the-job tells it, and the line of the command reference.
#[test]
fn the_story_of_titles_is_told_figure_by_figure() {
    let hold = title("hold --words 12 --speed 18").ok();
    assert_eq!(
        (&hold["seconds"], &hold["frames"]),
        (&json!(7.0), &json!(126))
    );
    let field = title(
        "field --gauge super8 --lens 25 --width 240 --gate 5.69x4.22 --coc 0.0127 --stop 5.6 --last-row 5m --screen 1.2m",
    );
    let field = field.ok();
    for (name, wanted, by) in [
        ("magnification", 0.02371, 5e-6),
        ("subject_mm", 1_079.5, 0.05),
        ("film_to_subject_mm", 1_105.1, 0.06),
        ("image_mm", 25.59, 0.005),
        ("exposure_stops", 0.07, 0.005),
        ("near_mm", 964.0, 0.5),
        ("far_mm", 1_227.0, 0.5),
    ] {
        near(&field[name], wanted, by);
    }
    for (name, wide, high) in [
        ("field_mm", 240.0, 178.0),
        ("shown_mm", 224.0, 169.1),
        ("safe_mm", 179.2, 135.3),
    ] {
        near(&field[name][0], wide, 0.05);
        near(&field[name][1], high, 0.05);
    }
    near(&field["letters"][0]["on_screen_mm"], 29.1, 0.05);
    near(&field["letters"][0]["on_art_mm"], 5.4, 0.05);
    let light = title("light --angle 45 --distance 800 --field 240x178").ok();
    near(&light["edge_stops"], 0.07, 0.005);
    near(&light["corner_stops"], 0.04, 0.005);
    assert_eq!(light["cautions"].as_array().map(Vec::len), Some(3));
    let sheet = title("sheet --words 12 --before 36 --after 18 --gauge super8").ok();
    assert_eq!(
        (&sheet["frames"], &sheet["parts"]),
        (&json!(180), &json!([36, 126, 18]))
    );
    assert_eq!(sheet["need"]["frames"], 204);
    let end = title("sheet --words 2 --after 36").ok();
    assert_eq!(end["frames"], 81);
}

/// Rows O060, O062, O065 and O068 by the copy stand: the close-up lens is the plan's, the
/// field the stand's.
#[test]
fn close_up_rows_come_out_by_the_copy_stand() {
    for (line, wide, high) in [
        ("super8 --lens 9 --diopter 1", 590.0, 445.6),
        ("super8 --lens 25 --diopter 4", 53.1, 40.1),
        ("16 --lens 25 --diopter 2", 193.0, 144.2),
        ("regular8 --lens 12.5 --diopter 1,2", 116.5, 87.5),
    ] {
        let found = title(&format!("field --gauge {line}")).ok();
        near(&found["shown_mm"][0], wide, 0.0501);
        near(&found["shown_mm"][1], high, 0.0501);
        assert_eq!(found["focus_mm"], Value::Null);
        near(&found["exposure_stops"], 0.0, 1e-9);
    }
    let set = title("field --gauge super8 --lens 25 --diopter 3 --focus 1m").ok();
    near(&set["subject_mm"], 250.0, 0.05);
    let back = title("field --gauge super8 --lens 25 --diopter 3 --distance 250mm").ok();
    near(&back["focus_mm"], 1_000.0, 0.1);
    assert_eq!(set["field_mm"], back["field_mm"]);
    let wide = title("field --gauge super8 --lens 25 --diopter 3 --width 60").ok();
    near(&wide["field_mm"][0], 60.0, 0.01);
}

#[test]
fn a_sheet_in_words_tells_what_the_hand_does() {
    let bare = words("sheet --words 12 --before 36 --after 18 --no-blank-cel --takes 2");
    assert!(bare.contains("darkens by 0.13 stop"), "{bare}");
    assert!(bare.contains("408 of the roll"), "{bare}");
    let slow =
        words("sheet --hold 60 --before 24 --after 24 --letters-in 12 --wind-back 8 --speed 24");
    assert!(slow.contains("wind back"), "{slow}");
    assert!(slow.contains("the camera does 8 at most"), "{slow}");
    let white = title("sheet --hold 60 --before 24 --letters-by second --gauge super8").ok();
    let warned = white["warnings"].to_string();
    assert!(warned.contains("Super 8 cartridge"), "{warned}");
    let crawl = title("sheet --crawl 1.2 --text-high 400 --shown 224x169.1 --stroke 1").ok();
    assert_eq!(crawl["frames"], 476);
    let warned = crawl["warnings"].to_string();
    assert!(warned.contains("letters show twice"), "{warned}");
}

#[test]
fn what_cannot_be_is_refused_with_its_code_and_a_way_out() {
    for (line, code) in [
        ("hold --text _", "title.no_words"),
        ("hold --words 0", "title.no_words"),
        ("hold --words 12 --speed 0", "film.out_of_range"),
        ("hold --words 12 --rule quick", "production.unfit"),
        ("field --gauge super8 --lens 25", "production.unfit"),
        (
            "field --gauge super8 --lens 25 --width 240 --closest 1.5m",
            "title.too_near",
        ),
        (
            "field --gauge super8 --lens 25 --width 240 --diopter 3",
            "title.close_up_too_strong",
        ),
        (
            "field --gauge super8 --lens 0 --width 240",
            "title.out_of_range",
        ),
        ("field --gauge vhs --lens 25 --width 240", "film.unreadable"),
        (
            "field --gauge super8 --lens 25 --width 240 --gate five",
            "production.unfit",
        ),
        (
            "light --angle 95 --distance 800 --field 240x178",
            "title.out_of_range",
        ),
        (
            "light --angle 45 --distance 800 --field wide",
            "production.unfit",
        ),
        ("sheet", "production.unfit"),
        ("sheet --hold 10 --fade-in 20", "title.cannot_both"),
        ("sheet --hold 10 --letters-by paint", "production.unfit"),
    ] {
        let refused = title(line).refused();
        assert_eq!(refused["code"], code, "{line}: {refused}");
        let hint = refused["hint"].as_str().unwrap_or_default();
        assert!(!hint.is_empty(), "{line}");
    }
}
