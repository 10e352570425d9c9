//! What was found with the film in the hand, reels, and a shelf that was read, in
//! words.

use onestrand_production::documents::{InspectionDocument, ReelDocument};
use onestrand_production::{ShelfRead, ShelfRow};

use super::counted;

pub(crate) fn inspection(roll: &str, found: &InspectionDocument) -> String {
    let said = &found.condition;
    let mut lines = vec![roll.to_owned()];
    for (asked, known) in [
        ("accession number", &found.accession),
        ("lies", &found.lies),
        ("picture", &said.picture),
        ("acid strip", &said.acid),
        ("smell of vinegar", &said.vinegar),
        ("lies flat?", &said.warping),
        ("perforations", &said.perforations),
        ("scratches", &said.scratches),
        ("colour", &said.fading),
        ("sound", &said.sound),
        ("inspected by", &said.by),
        ("note", &said.note),
    ] {
        if !known.is_empty() {
            lines.push(format!("  {asked}: {known}"));
        }
    }
    if let Some(mm) = &found.hundred.mm {
        lines.push(format!(
            "  a hundred frames: {mm} mm, new {} mm ({}): {} % shrunk",
            found.hundred.new_mm,
            found.hundred.source,
            found.hundred.shrinkage.as_deref().unwrap_or("not known")
        ));
    }
    if let Some(wound) = &found.wound {
        lines.push(format!(
            "  on its reel: about {} ft {} fr, {} to {} frames; {}",
            wound.footage.feet,
            wound.footage.frames,
            counted(u64::from(wound.between.0)),
            counted(u64::from(wound.between.1)),
            wound.sum
        ));
        if wound.thickness_taken {
            lines.push(format!(
                "  taken: film {} mm thick; measure yours with a micrometer",
                wound.thickness_mm
            ));
        }
    }
    for join in &found.joins {
        let note = match join.note.as_str() {
            "" => String::new(),
            note => format!(", {note}"),
        };
        let kind = join.kind.replace('-', " ");
        lines.push(format!("  join before {}: {kind}{note}", join.frame));
    }
    for on in &found.on_reels {
        lines.push(format!(
            "  on {}, part {}: {} to {}",
            on.reel,
            on.place,
            on.first,
            on.thrown.saturating_sub(1)
        ));
    }
    for caution in &found.cautions {
        lines.push(format!("  caution: {caution}"));
    }
    if lines.len() == 1 {
        lines.push("  nobody has looked at it yet".to_owned());
    }
    lines.join("\n")
}

pub(crate) fn reels(reels: &[ReelDocument]) -> String {
    if reels.is_empty() {
        return "no reels yet. Next: onestrand reel put DIR NAME --wound R1".to_owned();
    }
    reels.iter().map(reel).collect::<Vec<_>>().join("\n")
}

fn reel(reel: &ReelDocument) -> String {
    let said = &reel.words;
    let size = said.feet.map(|feet| format!("{feet} ft"));
    let across = said.across_mm.as_ref().map(|mm| format!("{mm} mm across"));
    let hub = said.hub_mm.as_ref().map(|mm| format!("hub {mm} mm"));
    let facts = [
        Some(said.kind.clone()),
        size,
        across,
        hub,
        Some(match said.lies.as_str() {
            "not-known" => "heads or tails not known".to_owned(),
            lies => format!("{lies} out"),
        }),
        Some(said.kept_in.clone()),
        Some(said.accession.clone()),
        Some(said.note.clone()),
    ];
    let facts: Vec<String> = facts
        .into_iter()
        .flatten()
        .filter(|fact| !fact.is_empty())
        .collect();
    let part = |part: &onestrand_production::documents::WoundPart| match (part.first, part.thrown) {
        (Some(first), Some(thrown)) => {
            format!("{} {first} to {}", part.roll, thrown.saturating_sub(1))
        }
        _ => part.roll.clone(),
    };
    let wound: Vec<String> = said.wound.iter().map(part).collect();
    let wound = match wound.as_slice() {
        [] => "nothing".to_owned(),
        some => some.join(", then "),
    };
    let more = if reel.too_much {
        "; more than it takes"
    } else {
        ""
    };
    format!(
        "{}: {}\n  {wound}: {} ft {} fr{more}",
        reel.reel,
        facts.join(", "),
        reel.footage.feet,
        reel.footage.frames
    )
}

/// The summary of a shelf: a line a scan, and how many of each kind.
pub(crate) fn shelf(read: &ShelfRead) -> String {
    let mut lines: Vec<String> = read.rolls.iter().map(shelf_row).collect();
    lines.push(format!(
        "{} read, {} read before, {} failed, {} stopped",
        read.read, read.read_before, read.failed, read.stopped
    ));
    lines.join("\n")
}

fn shelf_row(row: &ShelfRow) -> String {
    let mut text = format!("{:<6} {}", row.roll, row.file);
    if let Some(problem) = &row.problem {
        return format!(
            "{text}\n       failed: {}; {}",
            problem.message, problem.hint
        );
    }
    let Some(footage) = &row.footage else {
        return format!("{text}\n       stopped");
    };
    let before = if row.came_of_it == "read_before" {
        "read before: "
    } else {
        ""
    };
    text.push_str(&format!(
        "\n       {before}{} frames = {} ft {} fr, {} takes, {} breaks",
        counted(u64::from(row.frames)),
        footage.feet,
        footage.frames,
        row.takes,
        row.breaks
    ));
    if row.missing > 0 {
        text.push_str(&format!(", {} without a picture", row.missing));
    }
    match row.difference {
        _ if row.proved => text.push_str("; proved"),
        Some(off) => text.push_str(&format!("; {off:+} against the bench, NOT PROVED")),
        None => text.push_str("; not measured, NOT PROVED"),
    }
    let signs: Vec<String> = row
        .signs
        .iter()
        .map(|(kind, count)| format!("{kind} {count}"))
        .collect();
    if !signs.is_empty() {
        text.push_str(&format!("\n       signs: {}", signs.join(", ")));
    }
    for warning in &row.warnings {
        text.push_str(&format!("\n       note: {warning}"));
    }
    text
}
