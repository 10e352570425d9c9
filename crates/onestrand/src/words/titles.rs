//! The titles of a film in words.

use onestrand_production::Meta;
use onestrand_production::documents::{TitleDocument, TitlesDocument};

pub(crate) fn titles(titles: &TitlesDocument, meta: &Meta) -> String {
    if titles.titles.is_empty() {
        return "No titles yet: write the first one in the room of the titles.".to_owned();
    }
    let footage = |frames: u32| {
        let count = onestrand_film::Frames::new(frames).ok();
        count.map_or(String::new(), |count| meta.gauge.footage(count).to_string())
    };
    let mut lines: Vec<String> = titles.titles.iter().map(row).collect();
    lines.push(format!(
        "all: {} frames on the screen, {} of the roll ({})",
        titles.whole,
        titles.of_roll,
        footage(titles.of_roll)
    ));
    for title in &titles.titles {
        for problem in &title.problems {
            lines.push(format!(
                "  {}: {}; {}",
                title.title.name, problem.what, problem.next
            ));
        }
    }
    for name in &titles.without_title {
        lines.push(format!(
            "  the cut has a card {name} that no title is named for"
        ));
    }
    lines.join("\n")
}

fn row(title: &TitleDocument) -> String {
    let first = title.title.words.lines().next().unwrap_or_default();
    let shot = match title.photographed {
        0 => "to shoot".to_owned(),
        1 => "photographed".to_owned(),
        takes => format!("photographed, {takes} takes"),
    };
    format!(
        "{:<4} {:>3} words, {} frames of {}, {} of the roll, {shot}: {first}",
        title.title.name, title.words, title.hold, title.whole, title.of_roll
    )
}
