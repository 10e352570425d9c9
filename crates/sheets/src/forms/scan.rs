//! The scan sheet as a form.

use onestrand_typeset::Printed;
use serde::Serialize;

use super::record::{Figure, FormRecord, NAMES_MOST, missing_words, roll_form};
use super::{Press, Ready};
use crate::rolls::{ScanRow, ScanSheet};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Scan sheet";

/// Prints a scan sheet, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_scan_sheet(sheet: &ScanSheet) -> Result<Printed, SheetError> {
    ready(sheet)?.print()
}

pub(super) fn ready(sheet: &ScanSheet) -> Result<Ready, SheetError> {
    let press = Press::new(FORM, "scan.typ", include_str!("scan.typ"));
    press.ready(&SheetRecord {
        form: furniture(sheet),
        scans: sheet.scans.iter().map(record).collect(),
    })
}

#[derive(Serialize)]
struct SheetRecord {
    form: FormRecord,
    scans: Vec<RowRecord>,
}

#[derive(Serialize)]
struct RowRecord {
    roll: String,
    file: String,
    facts: String,
    rate: String,
    file_frames: String,
    found: String,
    expected: String,
    difference: String,
    checksum: String,
}

fn record(row: &ScanRow) -> RowRecord {
    let of_roll = |words: String| {
        if row.first_of_roll {
            words
        } else {
            String::new()
        }
    };
    let expected = row.expected.map(|frames| words::count(frames.count()));
    let difference = row.expected.map(|frames| {
        let off = i64::from(row.found.count()) - i64::from(frames.count());
        match off {
            0 => "0".to_owned(),
            n if n < 0 => format!("− {}", n.unsigned_abs()),
            n => format!("+ {n}"),
        }
    });
    RowRecord {
        roll: of_roll(row.roll.to_string()),
        file: words::plain(&row.file),
        facts: format!(
            "{}{} × {}, {}, {}",
            film_words(row),
            row.size.0,
            row.size.1,
            words::plain(&row.coding),
            bytes_words(row.bytes)
        ),
        rate: words::plain(&row.rate),
        file_frames: words::count(u32::try_from(row.file_frames).unwrap_or(u32::MAX)),
        found: of_roll(words::count(row.found.count())),
        expected: of_roll(expected.unwrap_or_else(|| "not measured".to_owned())),
        difference: of_roll(difference.unwrap_or_default()),
        checksum: row.checksum.clone(),
    }
}

/// The frames of the roll that a file shows: `film frames 0 to 3,599; `.
fn film_words(row: &ScanRow) -> String {
    row.film.map_or_else(String::new, |film| {
        let (first, last) = (film.begin().index(), film.last().index());
        format!(
            "film frames {} to {}; ",
            words::count(first),
            words::count(last)
        )
    })
}

/// A size in the decimal units that disks are sold by.
fn bytes_words(bytes: u64) -> String {
    let tenth = |unit: u64| {
        let tenths = (u128::from(bytes) * 10 + u128::from(unit) / 2) / u128::from(unit);
        format!("{}.{}", tenths / 10, tenths % 10)
    };
    match bytes {
        0..1_000_000 => format!("{} kB", tenth(1_000)),
        1_000_000..1_000_000_000 => format!("{} MB", tenth(1_000_000)),
        _ => format!("{} GB", tenth(1_000_000_000)),
    }
}

fn furniture(sheet: &ScanSheet) -> FormRecord {
    let mut form = roll_form(&sheet.head, FORM, "which file holds which film");
    let mut names: Vec<&str> = sheet.scans.iter().map(|scan| scan.roll.as_str()).collect();
    names.dedup();
    let files = u32::try_from(sheet.scans.len()).unwrap_or(u32::MAX);
    form.figures = vec![
        Figure::new(words::row_of_names(&names, NAMES_MOST), "rolls"),
        Figure::counted(files, "file", "files"),
    ];
    form.foot = vec!["Write the machine and the day of the scan on the line.".to_owned()];
    form.assumptions = vec![
        "Frames found are film frames that some file of the roll shows; frames expected are those \
         that the length measured on the bench holds, less its shrinkage. A roll is proved when \
         both agree and none is missing."
            .to_owned(),
        "The checksum is BLAKE3 over the whole file, or over all pictures of a run one after the \
         other: the same checksum, the same scan."
            .to_owned(),
    ];
    let written = sheet.scans.iter().map(|scan| scan.file.as_str());
    let all: Vec<&str> = written.chain([sheet.head.title.as_str()]).collect();
    form.assumptions.extend(missing_words(&all.join("\n")));
    form
}

#[cfg(test)]
mod tests {
    use super::bytes_words;

    #[test]
    fn sizes_are_rounded_half_up_to_a_tenth() {
        for (bytes, words) in [
            (0, "0.0 kB"),
            (999_949, "999.9 kB"),
            (67_250_000, "67.3 MB"),
            (1_000_000_000, "1.0 GB"),
        ] {
            assert_eq!(bytes_words(bytes), words);
        }
    }
}
