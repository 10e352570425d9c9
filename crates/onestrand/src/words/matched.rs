//! Where to cut on the action, in words.

use onestrand_production::documents::{MatchPointDocument, MatchedDocument, MatchedTake};

pub(crate) fn matched(found: &MatchedDocument) -> String {
    let how = match found.strength {
        Some(_) => "by the pictures",
        None => "by two marks",
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
