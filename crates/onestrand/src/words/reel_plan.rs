//! Made-up reels and the hall in words.

use onestrand_production::documents::{
    FootageDocument, MadeUpReelDocument, ReelPlanDocument, ThrowDocument, WoundStretchDocument,
};

use super::counted;

fn feet(footage: FootageDocument) -> String {
    format!("{} ft {} fr", footage.feet, footage.frames)
}

pub(crate) fn reel_plan(plan: &ReelPlanDocument) -> String {
    let mut lines = Vec::new();
    for film in &plan.films {
        let open = match film.can_be_cut {
            true => "",
            false => "; the strand check refuses it as it stands",
        };
        lines.push(format!(
            "{}: {}, {}{open}.",
            film.cut,
            feet(film.footage),
            film.clock
        ));
    }
    let whole = &plan.whole;
    lines.push(format!(
        "All of it with its leaders: {} frames = {}, {}; on a hub of {} mm it winds to {} mm across.",
        counted(u64::from(whole.frames)),
        feet(whole.footage),
        whole.clock,
        whole.hub_mm,
        whole.across_mm
    ));
    match plan.fits {
        true => lines.extend(plan.reels.iter().flat_map(reel)),
        false => lines.push(format!("It does not go on the reels. {}", plan.problem)),
    }
    for one in &plan.assumptions {
        lines.push(format!("  taken: {one}"));
    }
    lines.join("\n")
}

fn reel(reel: &MadeUpReelDocument) -> Vec<String> {
    let wound: Vec<String> = reel.wound.iter().map(stretch).collect();
    let flange = reel
        .reel
        .flange_mm
        .map_or_else(String::new, |mm| format!(", {mm} mm across"));
    vec![
        format!(
            "Reel {} of {}: {}{flange}",
            reel.number, reel.of, reel.reel.reel
        ),
        format!("  {}", wound.join(", then ")),
        format!(
            "  {}, {}; winds to {} mm; {} % full, {} more would go on it",
            feet(reel.footage),
            reel.clock,
            reel.across_mm,
            reel.full_percent,
            feet(reel.room)
        ),
        format!("  label: {}", reel.labels.reel.join(" | ")),
        format!("  head leader: {}", reel.labels.head_leader.join(" | ")),
        format!("  tail leader: {}", reel.labels.tail_leader.join(" | ")),
        format!("  can: {}", reel.labels.can.join(" | ")),
    ]
}

fn stretch(stretch: &WoundStretchDocument) -> String {
    let what = match (
        stretch.what.as_str(),
        &stretch.cut,
        stretch.from.zip(stretch.to),
    ) {
        ("film", Some(cut), Some((from, to))) if from == to => format!("{cut} no. {from}"),
        ("film", Some(cut), Some((from, to))) => format!("{cut} no. {from} to {to}"),
        ("film", Some(cut), None) => cut.clone(),
        ("tail_leader", ..) => "tail leader".to_owned(),
        (what, ..) => what.to_owned(),
    };
    format!("{what} {}", feet(stretch.footage))
}

pub(crate) fn throw(hall: &ThrowDocument) -> String {
    let [wide, high] = hall.picture_mm;
    let mut lines = vec![format!(
        "Lens {} mm, {} m from the screen: the picture is {wide} × {high} mm.",
        hall.lens_mm, hall.throw_m
    )];
    if let Some(row) = &hall.last_row {
        lines.push(format!(
            "The last row, {} m away, wants letters {} mm high on the screen; {} of them would \
             stand on each other in the picture. It sits {} heights of the picture away.",
            row.distance_mm / 1000.0,
            row.letter_mm,
            row.letters_in_picture,
            row.heights_away
        ));
    }
    for sum in &hall.sums {
        lines.push(format!("  {sum}"));
    }
    for one in &hall.assumptions {
        lines.push(format!("  taken: {one}"));
    }
    lines.join("\n")
}
