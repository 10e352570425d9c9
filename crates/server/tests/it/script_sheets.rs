//! The paper of the plan, looked at and fetched; the camera report for a phone.

use crate::served::{Bench, film};

#[test]
fn every_sheet_of_the_plan_is_looked_at_and_fetched() {
    let bench = Bench::new();
    for sheet in [
        "shooting-script",
        "lined-script",
        "shot-list",
        "floor-plan",
        "stock-sheet",
        "camera-report",
        "sound-report",
        "wild-sounds",
        "visits",
        "in-camera",
        "location-folder",
    ] {
        let at = format!("script/sheets/{sheet}");
        let seen = bench.window.get(&film(&at)).ok();
        assert_eq!(seen["file_name"], format!("{sheet}.pdf"));
        let last = seen["pages"].as_u64().expect("pages");
        let page = bench.window.get(&film(&format!("{at}/pages/{last}")));
        assert_eq!(page.header("content-type"), Some("image/svg+xml"));
        let beyond = format!("{at}/pages/{}", last + 1);
        bench.window.get(&film(&beyond)).refused(404);
        let pdf = bench.window.get(&film(&format!(
            "{at}/pdf?paper=letter&day=9%20May&place=quay"
        )));
        assert!(pdf.body.starts_with(b"%PDF"), "{sheet}");
    }
}

#[test]
fn the_page_for_a_phone_is_a_file_to_keep() {
    let bench = Bench::new();
    let page = bench.window.get(&film("script/camera-page?day=9%20May"));
    assert_eq!(
        page.header("content-disposition"),
        Some("attachment; filename=\"camera-report.html\"")
    );
    let text = String::from_utf8(page.body).expect("text");
    assert!(text.starts_with("<!doctype html>") && text.contains("9 May"));
}

#[test]
fn what_is_not_there_is_refused() {
    let bench = Bench::new();
    for (rest, status) in [
        ("script/sheets/pull-list", 404),
        ("script/sheets/shot-list/pdf?paper=a3", 400),
        ("script/sheets/shot-list?scenes=77", 422),
        ("script/camera-page?scenes=77", 422),
    ] {
        bench.window.get(&film(rest)).refused(status);
    }
}
