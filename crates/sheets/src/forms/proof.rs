//! Whether the scans are proved, in words; and what a running head shortens.

use onestrand_film::Frames;

use super::record::NAMES_MOST;
use crate::head::{Head, Proof, RollState};
use crate::words;

/// The most letters of a title in the running head; the whole of a longer one
/// stands on the last sheet.
pub(super) const TITLE_MOST: usize = 90;
/// The same for the name of a version.
pub(super) const VERSION_MOST: usize = 30;
/// The most rolls that the running head blames one by one.
pub(super) const BLAMED_MOST: usize = 4;
/// The most letters of one roll's blame in the running head.
const BLAME_MOST: usize = 160;

/// Which rolls are proved, for the foot: `scans proved complete: R1 R2`.
pub(super) fn proved_words(head: &Head) -> String {
    let proved: Vec<&str> = head
        .rolls
        .iter()
        .filter(|roll| roll.proof == Proof::Proved)
        .map(|roll| roll.roll.as_str())
        .collect();
    let names = proved.join(" ");
    if proved.is_empty() {
        "no scan proved complete".to_owned()
    } else if names.len() <= NAMES_MOST {
        format!("scans proved complete: {names}")
    } else {
        format!(
            "{} of {} scans proved complete",
            proved.len(),
            head.rolls.len()
        )
    }
}

/// Why the sheet is not proved, short enough for a running head.
pub(super) fn not_proved(head: &Head) -> Vec<String> {
    let blamed: Vec<String> = head.rolls.iter().filter_map(blame).collect();
    if blamed.len() <= BLAMED_MOST {
        return blamed
            .iter()
            .map(|line| words::short(line, BLAME_MOST))
            .collect();
    }
    let names: Vec<&str> = head
        .rolls
        .iter()
        .filter(|roll| roll.proof != Proof::Proved)
        .map(|roll| roll.roll.as_str())
        .collect();
    let names = words::row_of_names(&names, BLAME_MOST);
    vec![format!(
        "{} rolls: {names}. Why, see the last sheet.",
        blamed.len()
    )]
}

/// What the running head had to shorten, in full, for the last sheet.
pub(super) fn in_full(head: &Head) -> Vec<String> {
    let mut lines = Vec::new();
    let blamed: Vec<String> = head.rolls.iter().filter_map(blame).collect();
    let cut = blamed.iter().any(|line| line.chars().count() > BLAME_MOST);
    if cut || blamed.len() > BLAMED_MOST {
        lines.extend(blamed.iter().map(|line| format!("Not proved, {line}")));
    }
    for (what, words, most) in [
        ("title", &head.title, TITLE_MOST),
        ("version", &head.version, VERSION_MOST),
    ] {
        let words = words::plain(words);
        if words.chars().count() > most {
            lines.push(format!("The {what} in full: {words}"));
        }
    }
    lines
}

/// What is missing of one roll's proof; nothing when it is proved.
fn blame(roll: &RollState) -> Option<String> {
    let name = &roll.roll;
    match &roll.proof {
        Proof::Proved => None,
        Proof::PaperOnly => Some(format!("{name}: known on paper only, never scanned.")),
        Proof::NotProved {
            found,
            expected,
            why,
        } => {
            let why = words::plain(why);
            let mut line = format!("{name}: {}", found_words(*found, *expected));
            if !why.is_empty() {
                line.push_str(&format!(" {why}"));
            }
            Some(line)
        }
    }
}

/// Frames found against frames expected.
fn found_words(found: Frames, expected: Option<Frames>) -> String {
    let found_text = words::counted(found.count(), "frame", "frames");
    let Some(expected) = expected else {
        return format!("{found_text} found, none expected: its length was not measured.");
    };
    let (short, over) = (
        expected.saturating_sub(found),
        found.saturating_sub(expected),
    );
    let difference = match (short.count(), over.count()) {
        (0, 0) => "the count agrees".to_owned(),
        (short, 0) => format!("{} short", words::count(short)),
        (_, over) => format!("{} too many", words::count(over)),
    };
    format!(
        "{found_text} found, {} expected by its measured length, {difference}.",
        words::count(expected.count())
    )
}
