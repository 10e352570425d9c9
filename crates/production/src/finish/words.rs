//! A finish in words.

use super::FinishDocument;

/// A count with commas between thousands, as on the sheets.
#[must_use]
pub fn counted(number: u64) -> String {
    let digits = number.to_string();
    let mut out = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

/// What was made, for people.
#[must_use]
pub fn finish_words(made: &FinishDocument) -> String {
    let mut lines = vec![format!(
        "{}: {} frames, {} at {} f/s, {} × {}, {}",
        made.path,
        counted(made.frames),
        made.clock,
        made.speed,
        made.width,
        made.height,
        made.coding,
    )];
    lines.push(format!("It shows {}: {}.", made.cut, made.shows.words()));
    if made.file_rate != made.speed {
        lines.push(format!(
            "{}; {} frames of the file.",
            made.pattern,
            counted(made.file_frames)
        ));
    }
    if let Some(sound) = &made.sound {
        let leader = match sound.leader_frames {
            0 => String::new(),
            frames => format!(", without its {frames} frames of leader"),
        };
        lines.push(format!("The sound is {}{leader}.", sound.path));
    }
    if made.cards > 0 {
        lines.push(format!(
            "{} frames are drawn titles, which are not photographed yet.",
            counted(made.cards)
        ));
    }
    if made.missing > 0 {
        lines.push(format!(
            "{} frames of the cut are in no scan and stand black",
            counted(made.missing)
        ));
    }
    if made.turned > 0 {
        lines.push(format!(
            "{} frames lie turned on the strip; here they stand upright.",
            counted(made.turned)
        ));
    }
    if let Some(treated) = &made.treated {
        let done = [
            (treated.light, "matched in light"),
            (treated.steadied, "steadied"),
            (treated.flicker, "evened in light"),
        ];
        let done: Vec<&str> = done.iter().filter(|one| one.0).map(|one| one.1).collect();
        lines.push(format!("The pictures are {}.", done.join(", ")));
    }
    if made.kept > 0 {
        lines.push(format!(
            "{} frames were there from before it was stopped.",
            counted(made.kept)
        ));
    }
    for (what, path) in [("list", &made.list), ("captions", &made.captions)] {
        if let Some(path) = path {
            lines.push(format!("{what}: {path}"));
        }
    }
    lines.join("\n")
}
