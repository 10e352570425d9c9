//! The answer of the strand check in words.

use onestrand_production::Meta;
use onestrand_production::documents::{CheckDocument, ConflictDocument};

use super::{counted, length};

pub(crate) fn check(found: &CheckDocument, meta: &Meta) -> String {
    let verdict = if found.ok {
        format!("{} can be cut with {}.", found.cut, found.join)
    } else {
        format!("{} cannot be made so with {}.", found.cut, found.join)
    };
    let mut lines = vec![
        verdict,
        format!(
            "{}; {} pieces, {} joins, {} frames eaten",
            length(found.frames, meta),
            found.pieces,
            found.joins,
            found.eaten
        ),
    ];
    for roll in &found.rolls {
        let proof = if roll.proved { "" } else { "  NOT PROVED" };
        lines.push(format!(
            "  {:<4} {} used + {} eaten + {} left = {}{proof}",
            roll.roll,
            counted(u64::from(roll.used)),
            counted(u64::from(roll.eaten)),
            counted(u64::from(roll.left)),
            counted(u64::from(roll.frames))
        ));
    }
    for conflict in &found.conflicts {
        lines.push(conflict_words(conflict));
        for way in &conflict.remedies {
            let label = if way.mends {
                "way out"
            } else {
                "not by itself"
            };
            lines.push(format!("      {label}: {}", way.text));
        }
    }
    for way in &found.mend_all {
        lines.push(format!("  all at once: {}", way.text));
    }
    for question in &found.questions {
        lines.push(format!(
            "  asks at {}: {}",
            joined(&question.positions, " | "),
            question.text
        ));
    }
    if let Some(pace) = found.pace {
        lines.push(format!(
            "  pictures stand {:.2} s in the mean, {:.1} s in the median",
            pace.mean_seconds, pace.median_seconds
        ));
    }
    for one in &found.assumptions {
        lines.push(format!("  taken: {one}"));
    }
    lines.join("\n")
}

fn joined(positions: &[usize], between: &str) -> String {
    let all: Vec<String> = positions.iter().map(usize::to_string).collect();
    all.join(between)
}

/// One line, as under the check itself.
pub(crate) fn conflict_words(conflict: &ConflictDocument) -> String {
    let place = joined(&conflict.positions, ", ");
    let frames = match conflict.frames {
        1 => "1 frame".to_owned(),
        n => format!("{} frames", counted(u64::from(n))),
    };
    let span = conflict
        .span
        .as_ref()
        .map_or_else(String::new, |s| match s.thrown - s.first {
            1 => format!(" {}·{}", s.roll, s.first),
            _ => format!(" {}·{} to {}", s.roll, s.first, s.thrown - 1),
        });
    let what = match conflict.kind {
        "doubled" => format!("{frames} shown twice:{span}"),
        "bite" => format!("{frames} wanted twice, once by a join:{span}"),
        "outside_roll" => format!("{frames} that the roll does not have:{span}"),
        "effect" => "an effect that no splicer can make".to_owned(),
        "base" => "cement or weld does not hold on polyester".to_owned(),
        "gauge" => "unlike gauges cannot be joined".to_owned(),
        "protected" => format!("a roll that is not to be cut:{span}"),
        "short" => format!("too short to hold beside its joins, by {frames}:{span}"),
        "outside_take" => format!("reaches out of its take:{span}"),
        other => other.to_owned(),
    };
    format!("  {} at {place}: {what}", conflict.severity)
}
