//! A box in words, for both faces of the program.

use crate::documents::{BoxCheckDocument, BoxDocument, UnboxedDocument};

/// A box that was made.
#[must_use]
pub fn box_words(made: &BoxDocument) -> String {
    let mut told = vec![format!(
        "{}: {} files, {} bytes, read back and whole",
        made.place,
        counted(made.files),
        counted(made.bytes)
    )];
    for scan in &made.scans {
        let where_now = scan.files.first().map_or("", |file| file.place.as_str());
        let how = match scan.found.as_str() {
            "where_read" => String::new(),
            "beside" => format!(", found at {where_now}"),
            "by_fixity" => format!(", had moved: found by its checksum at {where_now}"),
            _ => format!(", NOT FOUND; it was at {where_now}"),
        };
        let lies = match scan.in_box {
            true => "in the box",
            false => "not in the box, its checksums are",
        };
        told.push(format!("  scan of {}: {lies}{how}", scan.roll));
    }
    let sheets = match made.sheets {
        1 => "1 sheet".to_owned(),
        n => format!("{n} sheets"),
    };
    told.push(format!("  {sheets} as PDF"));
    told.extend(
        made.mixes
            .iter()
            .chain(&made.finishes)
            .map(|path| format!("  {path}")),
    );
    told.extend(
        made.left_out
            .iter()
            .map(|left| format!("  not in it: {}: {}", left.what, left.why)),
    );
    told.join("\n")
}

/// A box that was looked at.
#[must_use]
pub fn box_checked_words(found: &BoxCheckDocument) -> String {
    let mut told = vec![format!(
        "{}{}: {} files, {} bytes{}",
        match found.title.as_str() {
            "" => String::new(),
            title => format!("{title}, "),
        },
        found.place,
        counted(found.files),
        counted(found.bytes),
        match found.ok {
            true => ": whole, not one bit differs",
            false => ": NOT WHOLE",
        }
    )];
    told.extend(
        found
            .problems
            .iter()
            .map(|problem| format!("  {}", problem.words)),
    );
    for outside in &found.outside {
        told.push(match &outside.found {
            Some(path) if *path == outside.place => {
                format!(
                    "  scan of {} outside of the box: still at {path}, the same",
                    outside.of
                )
            }
            Some(path) => {
                format!(
                    "  scan of {} outside of the box: found again at {path}",
                    outside.of
                )
            }
            None => format!(
                "  scan of {} outside of the box: not found; it was at {} (look with --media)",
                outside.of, outside.place
            ),
        });
    }
    told.join("\n")
}

/// A production that was taken out of a box.
#[must_use]
pub fn unboxed_words(taken: &UnboxedDocument) -> String {
    let mut told = format!(
        "{}: {}, {} files, {} bytes, each as it was put in",
        taken.dir,
        taken.title,
        counted(taken.files),
        counted(taken.bytes)
    );
    if !taken.scans_outside.is_empty() {
        told.push_str(&format!(
            "\nthe scans of {} do not lie in the box: say where they are with `onestrand roll moved`",
            taken.scans_outside.join(", ")
        ));
    }
    told
}

/// A count with commas between thousands, as on the sheets.
pub(super) fn counted(number: u64) -> String {
    let digits = number.to_string();
    let mut out = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}
