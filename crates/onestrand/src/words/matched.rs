//! Where to cut on the action, in words.

use onestrand_production::documents::{
    MatchPointDocument, MatchedDocument, MatchedTake, TwinsDocument,
};

pub(crate) fn matched(found: &MatchedDocument) -> String {
    let how = match (found.strength, found.marks_kept) {
        (Some(_), _) => "by the pictures",
        (None, true) => "by the two marks that are kept",
        (None, false) => "by two marks",
    };
    let mut lines = vec![format!(
        "{} beside {}, {how}: {:.4} frames there for each frame here",
        called(&found.from),
        called(&found.to),
        found.pace
    )];
    lines.extend(points(&found.from, &found.to, &found.points));
    lines.extend(points(&found.to, &found.from, &found.back));
    lines.join("\n")
}

fn points(from: &MatchedTake, to: &MatchedTake, points: &[MatchPointDocument]) -> Vec<String> {
    if points.is_empty() {
        return vec![format!(
            "from {} to {}: no place is sure enough",
            called(from),
            called(to)
        )];
    }
    let mut lines = vec![format!("from {} to {}:", called(from), called(to))];
    lines.extend(points.iter().map(|point| {
        let entries: Vec<String> = point
            .entries
            .iter()
            .map(|entry| {
                format!(
                    "{}\u{b7}{} repeats {:.2}",
                    to.roll, entry.enter, entry.repeats
                )
            })
            .collect();
        format!(
            "  leave before {}\u{b7}{}: due {:.2}, off by {:.2} at most twice in three; {}",
            from.roll,
            point.leave,
            point.due,
            point.uncertain,
            entries.join(", ")
        )
    }));
    lines
}

/// `3-T2`, or its first frame where nobody named it.
fn called(take: &MatchedTake) -> String {
    match &take.slate {
        Some(slate) => slate.clone(),
        None => format!("{}\u{b7}{}", take.roll, take.first),
    }
}

pub(crate) fn twins(found: &TwinsDocument) -> String {
    let mut lines: Vec<String> = found
        .pairs
        .iter()
        .map(|pair| {
            let how = match pair.strength {
                Some(strength) => format!("by the pictures, strength {strength}"),
                None => "by your marks".to_owned(),
            };
            format!(
                "{} and {} show the same, {how}: {:.4} frames there for each frame here",
                called(&pair.from),
                called(&pair.to),
                pair.pace
            )
        })
        .collect();
    lines.push(match found.looked_at {
        0 => "no takes were laid beside each other by their pictures".to_owned(),
        1 => "1 pair of takes was looked at".to_owned(),
        pairs => format!("{pairs} pairs of takes were looked at"),
    });
    lines.join("\n")
}
