//! The light of the shots in words.

use onestrand_production::documents::{GradingCard, LightMeasured, LightSolved, ShotStands};

pub(crate) fn grading_card(card: &GradingCard) -> String {
    if card.shots.is_empty() {
        return "no shot has a light of its own".to_owned();
    }
    let lines = card.shots.iter().map(|shot| {
        format!(
            "{}\u{b7}{} to {:<6} R {:+} G {:+} B {:+}  {}",
            shot.roll,
            shot.first,
            shot.thrown.saturating_sub(1),
            shot.red,
            shot.green,
            shot.blue,
            shot.reason
        )
    });
    lines.collect::<Vec<_>>().join("\n")
}

pub(crate) fn light_measured(found: &LightMeasured) -> String {
    let [red, green, blue] = found.light.map(|light| 100.0 * light);
    let mut words = format!("light: red {red:.2} %, green {green:.2} %, blue {blue:.2} %");
    if !found.measured.usable {
        words.push_str("\nnot to be matched by: part of it is blown or near black");
    }
    if !found.transfer_is_said {
        words.push_str("\nthe scan does not say how its numbers follow light; taken for BT.709");
    }
    words
}

pub(crate) fn light_solved(solved: &LightSolved) -> String {
    let mut lines: Vec<String> = solved
        .shots
        .iter()
        .map(|shot| {
            let name = format!("{}\u{b7}{} {}", shot.roll, shot.first, shot.slate);
            let held = if shot.stands == ShotStands::Held { ", held" } else { "" };
            let Some([red, green, blue]) = shot.points else {
                return format!("{name}: no points");
            };
            // Added nothing, a nought loses its minus.
            let [r, g, b] = shot.measured_points.map(|p| (10.0 * p).round() / 10.0 + 0.0);
            let error = shot.error_points.map_or_else(
                || "error not known".to_owned(),
                |e| format!("\u{b1} {:.1}", e.iter().copied().fold(0.0, f64::max)),
            );
            format!("{name}: R {red:+} G {green:+} B {blue:+} (measured {r:+.1} {g:+.1} {b:+.1}, {error}){held}")
        })
        .collect();
    lines.extend(solved.words.iter().cloned());
    lines.join("\n")
}
