//! The camera report as one file for a phone: a page without network, that keeps what is
//! written into it in the phone's own browser and hands back a CSV for the log.
//!
//! Its parts lie with the page of the program (`web/src/phone`); here they are put into
//! one file, with what is planned, under a policy that runs this script and no other.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use onestrand_film::{Fps, Frames, Gauge};
use serde::Serialize;
use sha2::{Digest, Sha256};

use crate::words;

const PAGE: &str = include_str!("../../../web/src/phone/camera.html");
const TOKENS: &str = include_str!("../../../web/src/look/tokens.css");
const STYLE: &str = include_str!("../../../web/src/phone/camera.css");
/// In the order in which each needs those before it.
const SCRIPTS: [&str; 4] = [
    include_str!("../../../web/src/phone/counters.js"),
    include_str!("../../../web/src/phone/keeping.js"),
    include_str!("../../../web/src/phone/report_csv.js"),
    include_str!("../../../web/src/phone/camera.js"),
];

/// What the page is filled with.
#[derive(Clone, Debug)]
pub struct CameraPage {
    /// By what the phone knows the report again: one film, one text. A page made anew
    /// with the same text shows what was written into the old one.
    pub id: String,
    /// By what pages made by older programs knew it: what was written into one of them
    /// is taken over where nothing is kept yet under the new text. Empty for none.
    pub id_before: String,
    /// The title of the film.
    pub title: String,
    /// The place and the day, in the maker's words; may be empty.
    pub place: String,
    /// The gauge, for feet and frames.
    pub gauge: Gauge,
    /// The speed of the camera.
    pub speed: Fps,
    /// The roll that is in the camera; empty leaves it to be written.
    pub roll: String,
    /// The camera.
    pub camera: String,
    /// The batch of the stock.
    pub batch: String,
    /// Film of a roll that can be used, nothing where it is not known.
    pub load: Option<Frames>,
    /// What is planned, in the order in which it is to be shot.
    pub setups: Vec<PlannedSetup>,
}

/// A setup that is planned.
#[derive(Clone, Debug)]
pub struct PlannedSetup {
    /// As the slate says it: `3A`.
    pub name: String,
    /// What happens, in a few words.
    pub action: String,
    /// How many takes are planned.
    pub takes: u32,
    /// The highest number of a take that was shot before; the next has the one above.
    pub shot: u32,
}

/// What the script finds.
#[derive(Serialize)]
struct Given {
    id: String,
    id_before: String,
    title: String,
    file: String,
    per_foot: u32,
    load: Option<u32>,
    setups: Vec<GivenSetup>,
    draft: GivenDraft,
}

#[derive(Serialize)]
struct GivenSetup {
    name: String,
    action: String,
    takes: u32,
    shot: u32,
}

/// What stands in the form before anything is written.
#[derive(Serialize)]
struct GivenDraft {
    roll: String,
    camera: String,
    batch: String,
    speed: String,
}

/// The page, complete in itself. The same model gives the same text.
pub fn camera_page(page: &CameraPage) -> String {
    let title = words::plain(&page.title);
    let place = words::plain(&page.place);
    let head: Vec<String> = [
        title.clone(),
        place,
        format!("{}, {} f/s", page.gauge.spec().name, page.speed),
    ]
    .into_iter()
    .filter(|words| !words.is_empty())
    .collect();
    let filled = PAGE
        .replace("/* STYLE */", &format!("{TOKENS}\n{STYLE}"))
        .replace("// SCRIPT", &script())
        .replace("{{TITLE}}", &escaped(&title))
        .replace("{{HEAD}}", &escaped(&head.join(" · ")));
    let policy = policy(&filled);
    // Last, so that nothing a person wrote is taken for a place to fill.
    filled
        .replacen("{{POLICY}}", &policy, 1)
        .replacen("\"GIVEN\"", &given(page, &title), 1)
}

/// The scripts as one: what binds files together is taken off.
fn script() -> String {
    let lines = SCRIPTS.iter().flat_map(|script| script.lines());
    let lines = lines.filter(|line| !line.starts_with("import ") && !line.starts_with("// @ts-"));
    let lines: Vec<&str> = lines
        .map(|line| line.strip_prefix("export ").unwrap_or(line))
        .collect();
    lines.join("\n")
}

/// Nothing from anywhere, and of styles and scripts only those of the page itself.
fn policy(page: &str) -> String {
    format!(
        "default-src 'none'; img-src data:; style-src '{}'; script-src '{}'; base-uri 'none'; \
         form-action 'none'",
        hash_within(page, "<style>", "</style>"),
        hash_within(page, "<script type=\"module\">", "</script>"),
    )
}

/// The name of a piece of the page in a content policy (Content Security Policy Level 3).
fn hash_within(page: &str, from: &str, to: &str) -> String {
    let after = page.split_once(from).map_or("", |(_, after)| after);
    let within = after.split_once(to).map_or("", |(within, _)| within);
    format!(
        "sha256-{}",
        STANDARD.encode(Sha256::digest(within.as_bytes()))
    )
}

/// What is planned, as data that no browser takes for markup.
fn given(page: &CameraPage, title: &str) -> String {
    let given = Given {
        id: words::plain(&page.id),
        id_before: words::plain(&page.id_before),
        title: title.to_owned(),
        file: format!("{}-camera-report.csv", file_stem(title)),
        per_foot: page.gauge.spec().frames_per_foot,
        load: page.load.map(Frames::count),
        setups: page
            .setups
            .iter()
            .map(|setup| GivenSetup {
                name: words::plain(&setup.name),
                action: words::plain(&setup.action),
                takes: setup.takes,
                shot: setup.shot,
            })
            .collect(),
        draft: GivenDraft {
            roll: words::plain(&page.roll),
            camera: words::plain(&page.camera),
            batch: words::plain(&page.batch),
            speed: page.speed.to_string(),
        },
    };
    // Plain words and numbers are always data.
    let json = serde_json::to_string(&given).unwrap_or_else(|_| "{}".to_owned());
    json.replace('<', "\\u003c").replace('>', "\\u003e")
}

/// Letters and figures that every file system takes.
fn file_stem(title: &str) -> String {
    let plain: String = title
        .to_lowercase()
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
        .collect();
    let parts: Vec<&str> = plain.split('-').filter(|part| !part.is_empty()).collect();
    match parts.join("-") {
        stem if stem.is_empty() => "film".to_owned(),
        stem => stem.chars().take(40).collect(),
    }
}

/// Words as markup; braces too, so that they are no place to fill.
fn escaped(text: &str) -> String {
    let text = text.replace('&', "&amp;").replace('<', "&lt;");
    let text = text.replace('>', "&gt;").replace('"', "&quot;");
    text.replace('{', "&#123;")
}
