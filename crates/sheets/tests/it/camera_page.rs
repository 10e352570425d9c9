//! The camera report for a phone: one file that asks nothing of anybody.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use onestrand_film::{Fps, Gauge};
use onestrand_sheets::{CameraPage, PlannedSetup, camera_page};
use sha2::{Digest, Sha256};

use crate::boat_plan;

pub(crate) fn page() -> CameraPage {
    CameraPage {
        id: "boat 2026-05-09T08:00:00Z".to_owned(),
        id_before: "boat".to_owned(),
        title: "The Ten-Past Boat".to_owned(),
        place: "the landing, Saturday 9 May".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
        roll: "R1".to_owned(),
        camera: "the grey one".to_owned(),
        batch: String::new(),
        load: Some(boat_plan::frames(3_552)),
        setups: vec![PlannedSetup {
            name: "3A".to_owned(),
            action: "Bram, his watch, the rope".to_owned(),
            takes: 2,
            shot: 0,
        }],
    }
}

fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
    let after = text.split_once(from).expect(from).1;
    after.split_once(to).expect(to).0
}

#[test]
fn the_file_is_whole_and_names_no_other() {
    let html = camera_page(&page());
    assert_eq!(html, camera_page(&page()));
    assert!(html.len() < 80_000, "{} bytes", html.len());
    for outside in [
        "http:", "https:", "//cdn", "@import", "url(", " src=", "import(",
    ] {
        let code = html.replace("@typedef {import(", "");
        assert!(!code.contains(outside), "{outside}");
    }
    let lines = html.lines().map(str::trim_start);
    for line in lines {
        assert!(
            !line.starts_with("import ") && !line.starts_with("export "),
            "{line}"
        );
    }
    assert_eq!(html.matches("</script").count(), 2);
    assert!(html.contains("\"per_foot\":72") && html.contains("\"load\":3552"));
    assert!(html.contains("the-ten-past-boat-camera-report.csv"));
}

/// The policy names the very style and script of the page, by their SHA-256.
#[test]
fn the_policy_lets_this_script_run_and_no_other() {
    let html = camera_page(&page());
    let policy = between(&html, "Content-Security-Policy\" content=\"", "\"");
    assert!(
        policy.starts_with("default-src 'none'; img-src data:;"),
        "{policy}"
    );
    assert!(!policy.contains("unsafe"));
    for (from, to) in [
        ("<style>", "</style>"),
        ("<script type=\"module\">", "</script>"),
    ] {
        let hash = STANDARD.encode(Sha256::digest(between(&html, from, to)));
        assert!(policy.contains(&format!("'sha256-{hash}'")), "{from}");
    }
}

#[test]
fn a_persons_words_are_no_order_to_the_page() {
    let mut page = page();
    let hostile =
        "</script><script>alert(1)</script> {{POLICY}} {{HEAD}} \"GIVEN\" /* STYLE */ &amp;";
    page.title = hostile.to_owned();
    page.place = "<img src=x onerror=alert(1)>".to_owned();
    page.setups[0].action = hostile.to_owned();
    let html = camera_page(&page);
    assert_eq!(html.matches("<script").count(), 2);
    assert!(!html.contains("<img") && !html.contains("alert(1)</script>"));
    let given = between(&html, "application/json\">", "</script>");
    let given: serde_json::Value = serde_json::from_str(given.trim()).expect("JSON");
    assert_eq!(given["title"], hostile);
    assert_eq!(given["setups"][0]["action"], hostile);
}
