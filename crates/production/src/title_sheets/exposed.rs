//! The exposure sheet of one title.

use onestrand_sheets::{TitleExposureRow, TitleExposureSheet};

use super::listed::one_line;
use super::{TitleSheetsToPrint, TitleToPrint};
use crate::ProductionError;
use crate::documents::ExposureLineDocument;
use crate::error::unfit;

pub(super) fn sheet(
    all: &TitleSheetsToPrint,
    one: &TitleToPrint,
) -> Result<TitleExposureSheet, ProductionError> {
    let sheet = one.card.sheet.as_ref().ok_or_else(|| {
        let why = one.card.problems.iter().find(|problem| problem.refused);
        let what = why.map_or("this title cannot be exposed so", |why| &why.what);
        let next = why.map_or("look at its frames", |why| &why.next);
        unfit(what.to_owned(), next)
    })?;
    let mut head = all.head.clone();
    head.place = format!("title {}", one.title.title.name);
    let asks = one.card.problems.iter().filter(|problem| !problem.refused);
    Ok(TitleExposureSheet {
        head,
        words: one_line(&one.title.title.words),
        parts: sheet.parts,
        passes: sheet.passes,
        rows: sheet.lines.iter().map(row).collect(),
        takes: sheet.need.takes,
        of_roll: sheet.need.frames,
        set_up: all.set_up(),
        remarks: sheet
            .opened
            .taken
            .iter()
            .map(|said| sentence(said))
            .collect(),
        warnings: sheet
            .warnings
            .iter()
            .map(|warning| format!("{}: {}.", sentence_open(&warning.what), warning.next))
            .chain(asks.map(|ask| format!("{}: {}.", sentence_open(&ask.what), ask.next)))
            .collect(),
    })
}

fn row(line: &ExposureLineDocument) -> TitleExposureRow {
    let cel = |word: &str| match word {
        "none" => String::new(),
        word => word.to_owned(),
    };
    TitleExposureRow {
        pass: line.pass,
        first: line.from + 1,
        last: line.to,
        background: match line.background.as_str() {
            "ground" => "artwork".to_owned(),
            "next" => "next card".to_owned(),
            word => word.to_owned(),
        },
        cel_1: cel(&line.cel_1),
        cel_2: cel(&line.cel_2),
        east_west: moved(
            (line.art_mm[0], line.art_step_mm[0]),
            (line.letters_mm[0], line.letters_step_mm[0]),
            ("E", "W"),
        ),
        north_south: moved(
            (line.art_mm[1], line.art_step_mm[1]),
            (line.letters_mm[1], line.letters_step_mm[1]),
            ("S", "N"),
        ),
        field: String::new(),
        light: match line.stops {
            None => "shut".to_owned(),
            Some(stops) if stops.abs() < 5e-4 => "full".to_owned(),
            Some(stops) if stops < 0.0 => format!("− {:.2} stop", -stops),
            Some(stops) => format!("+ {stops:.2} stop"),
        },
        note: line.note.clone(),
    }
}

/// Where artwork and cel lie along one way, and their steps.
fn moved(art: (f64, f64), cel: (f64, f64), signs: (&str, &str)) -> String {
    let way = |mm: f64| if mm < 0.0 { signs.1 } else { signs.0 };
    let one = |what: &str, (at, step): (f64, f64)| {
        if at == 0.0 && step == 0.0 {
            return None;
        }
        let mut words = format!("{what} {:.2} {}", at.abs(), way(at));
        if step != 0.0 {
            words.push_str(&format!(", each {:.2} {}", step.abs(), way(step)));
        }
        Some(words)
    };
    let both = [one("art", art), one("cel", cel)];
    both.into_iter().flatten().collect::<Vec<_>>().join("; ")
}

fn sentence_open(words: &str) -> String {
    let mut letters = words.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

/// Words as a sentence of their own.
pub(super) fn sentence(words: &str) -> String {
    format!("{}.", sentence_open(words.trim_end_matches('.')))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_and_steps_are_said_with_their_way() {
        assert_eq!(moved((0.0, 0.0), (0.0, 0.0), ("S", "N")), "");
        assert_eq!(
            moved((0.0, 0.0), (142.5, -0.5), ("S", "N")),
            "cel 142.50 S, each 0.50 N"
        );
        assert_eq!(
            moved((-3.0, 0.25), (1.0, 0.0), ("E", "W")),
            "art 3.00 W, each 0.25 E; cel 1.00 E"
        );
    }
}
