//! The exposure sheet in words: a line for frames that are exposed alike.

use onestrand_production::documents::{ExposureLineDocument, TitleSheetDocument};

pub(crate) fn title_sheet(sheet: &TitleSheetDocument) -> String {
    let mut lines = vec![sheet.opened.text.clone()];
    let several = sheet.passes > 1;
    for line in &sheet.lines {
        let pass = match several {
            true => format!("pass {} ", line.pass),
            false => String::new(),
        };
        lines.push(format!("  {pass}{}", line_words(line)));
    }
    let need = &sheet.need;
    let footage = need.footage.as_deref().unwrap_or_default();
    lines.push(format!(
        "  roll: {} takes of {} frames with run-up = {} frames {footage}",
        need.takes, need.frames_each, need.frames
    ));
    for warning in &sheet.warnings {
        lines.push(format!("  look out: {}; {}", warning.what, warning.next));
    }
    for one in &sheet.opened.taken {
        lines.push(format!("  taken: {one}"));
    }
    for caution in &sheet.cautions {
        lines.push(format!("  mind: {caution}"));
    }
    let all: Vec<&str> = lines.iter().map(|line| line.trim_end()).collect();
    all.join("\n")
}

fn line_words(line: &ExposureLineDocument) -> String {
    let frames = match line.to - line.from {
        1 => format!("{}", line.to),
        _ => format!("{} to {}", line.from + 1, line.to),
    };
    let light = match line.stops {
        None => "shut".to_owned(),
        Some(stops) if stops.abs() < 5e-4 => "full".to_owned(),
        Some(stops) => format!("{stops:+.2} stop ({:.0} %)", line.part * 100.0),
    };
    let mut words = format!(
        "{frames:>9}  {:<7} {:<8} {light}",
        line.background, line.cel_1
    );
    for (what, [east, south], [by_east, by_south]) in [
        ("artwork", line.art_mm, line.art_step_mm),
        ("lettering", line.letters_mm, line.letters_step_mm),
    ] {
        let moves = by_east != 0.0 || by_south != 0.0;
        if moves || east != 0.0 || south != 0.0 {
            words.push_str(&format!(", {what} at E {east:.2} S {south:.2} mm"));
        }
        if moves {
            words.push_str(&format!(", each frame E {by_east:+.3} S {by_south:+.3}"));
        }
    }
    if !line.note.is_empty() {
        words.push_str(&format!("  | {}", line.note));
    }
    words
}
