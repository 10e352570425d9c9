//! Versions that came in and went out, in words.

use onestrand_production::{CutImported, ExchangeWritten, ImportProblem};

use super::{counted, unknown};

/// The most remarks that are said one by one at a terminal; `--json` has all.
const REMARKS_MOST: usize = 20;

pub(crate) fn cut_imported(done: &CutImported) -> String {
    let extra = unknown(&done.unknown_columns);
    let mut text = format!(
        "{}: {} pieces, {} frames{extra}",
        done.cut,
        done.pieces,
        counted(u64::from(done.frames)),
    );
    match done.notes {
        0 => {}
        1 => text.push_str("; 1 note on a frame came with it"),
        n => text.push_str(&format!("; {n} notes on frames came with it")),
    }
    for one in done.remarks.iter().take(REMARKS_MOST) {
        text.push_str(&format!("\n  {}", remark(one)));
    }
    if done.remarks.len() > REMARKS_MOST {
        let more = done.remarks.len() - REMARKS_MOST;
        text.push_str(&format!("\n  and {more} more; --json tells all"));
    }
    text.push_str(&format!("\nNext: onestrand check DIR --cut {}", done.cut));
    text
}

fn remark(one: &ImportProblem) -> String {
    let place = match one.column.as_str() {
        "" => String::new(),
        place => format!(", {place}"),
    };
    format!("line {}{place}: {}", one.line, one.message)
}

pub(crate) fn exchanged(done: &ExchangeWritten) -> String {
    let mut text = format!(
        "{}: {} pieces, {} frames at {} f/s, {} notes on frames: {}",
        done.cut,
        done.pieces,
        counted(u64::from(done.frames)),
        done.speed,
        done.notes,
        done.path
    );
    if !done.by_scan.is_empty() {
        let rolls = done.by_scan.join(", ");
        text.push_str(&format!("\n  by the file of the scan: {rolls}"));
    }
    if !done.by_name.is_empty() {
        let rolls = done.by_name.join(", ");
        text.push_str(&format!(
            "\n  by name only, since no scan is known to show it frame for frame at this speed: {rolls}"
        ));
    }
    text
}
