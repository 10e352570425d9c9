//! What the strand check refuses, in short: a line for a printed sheet.

use onestrand_cut::{Conflict, ConflictKind};

/// Where and what: `2 and 9: 36 frames shown twice, R1·402 to 437.`
pub(crate) fn reason(conflict: &Conflict) -> String {
    let frames = conflict.frames;
    let counted = format!("{frames} {}", if frames == 1 { "frame" } else { "frames" });
    let what = match conflict.kind {
        ConflictKind::Doubled => format!("{counted} shown twice"),
        ConflictKind::Bite => format!("{counted} wanted by a join and elsewhere"),
        ConflictKind::OutsideRoll => format!("{counted} that the roll does not have"),
        ConflictKind::Effect => "an effect that no bench can make".to_owned(),
        ConflictKind::Base => "cement or weld does not hold on polyester".to_owned(),
        ConflictKind::Gauge => "two gauges joined".to_owned(),
        ConflictKind::Protected => "film that may not be cut".to_owned(),
        ConflictKind::Short => format!("{counted} too short to hold"),
        ConflictKind::OutsideTake => "reaches out of its take".to_owned(),
    };
    let mut line = format!("{}: {what}", places(&conflict.positions));
    if let Some(roll) = &conflict.roll {
        line.push_str(&format!(", {roll}"));
        match conflict.span {
            Some((first, end)) if end - first > 1 => {
                line.push_str(&format!("·{first} to {}", end - 1));
            }
            Some((first, _)) => line.push_str(&format!("·{first}")),
            None => {}
        }
    }
    line.push('.');
    line
}

/// `2`, `2 and 9`, `2, 3 and 9`.
fn places(positions: &[usize]) -> String {
    let words: Vec<String> = positions.iter().map(ToString::to_string).collect();
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => words.concat(),
    }
}

#[cfg(test)]
mod tests {
    use onestrand_film::RollId;

    use super::*;

    #[test]
    fn a_reason_names_the_places_the_frames_and_the_roll() {
        let mut conflict = Conflict {
            kind: ConflictKind::Doubled,
            positions: vec![2, 3, 9],
            roll: Some(RollId::new("R1").expect("a roll")),
            span: Some((402, 438)),
            frames: 36,
        };
        let said = reason(&conflict);
        assert_eq!(said, "2, 3 and 9: 36 frames shown twice, R1·402 to 437.");
        conflict.kind = ConflictKind::Bite;
        conflict.positions = vec![2];
        (conflict.span, conflict.frames) = (Some((402, 403)), 1);
        let said = reason(&conflict);
        assert_eq!(said, "2: 1 frame wanted by a join and elsewhere, R1·402.");
        conflict.kind = ConflictKind::Gauge;
        (conflict.roll, conflict.span) = (None, None);
        assert_eq!(reason(&conflict), "2: two gauges joined.");
    }
}
