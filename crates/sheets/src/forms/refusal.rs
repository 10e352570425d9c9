//! Why a version cannot be cut, at the head of a sheet that is for notes only.

use crate::words;

/// The most reasons that the running head names one by one.
const NAMED_MOST: usize = 4;
/// The most letters of one reason in the running head.
const REASON_MOST: usize = 120;

/// The reasons, short enough for a running head.
pub(super) fn not_cuttable(reasons: &[String]) -> Vec<String> {
    let named = if reasons.len() <= NAMED_MOST {
        reasons.len()
    } else {
        NAMED_MOST - 1
    };
    let mut lines: Vec<String> = reasons[..named]
        .iter()
        .map(|reason| words::short(&words::plain(reason), REASON_MOST))
        .collect();
    let more = u32::try_from(reasons.len() - named).unwrap_or(u32::MAX);
    if more > 0 {
        lines.push(format!(
            "And at {}, see the last sheet.",
            words::counted(more, "other place", "other places")
        ));
    }
    lines
}

/// What the running head had to shorten, in full, for the last sheet.
pub(super) fn refused_in_full(reasons: &[String]) -> Vec<String> {
    let long = |reason: &String| reason.chars().count() > REASON_MOST;
    if reasons.len() <= NAMED_MOST && !reasons.iter().any(long) {
        return Vec::new();
    }
    let line = |reason: &String| format!("Not cuttable, {}", words::plain(reason));
    reasons.iter().map(line).collect()
}
