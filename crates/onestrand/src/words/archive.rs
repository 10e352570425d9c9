//! The archive box in words.

use onestrand_production::documents::{
    AccessionDocument, BoxCheckDocument, BoxDocument, UnboxedDocument,
};

use super::counted;

/// A box that was made.
pub(crate) fn boxed(made: &BoxDocument) -> String {
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
pub(crate) fn box_checked(found: &BoxCheckDocument) -> String {
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
pub(crate) fn unboxed(taken: &UnboxedDocument) -> String {
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

/// What is said of a film.
pub(crate) fn accession(found: &AccessionDocument) -> String {
    let words = &found.words;
    let mut told = Vec::new();
    for (what, value) in [
        ("number", &words.number),
        ("kept by", &words.keeper),
        ("kept", &words.kept),
        ("look again on", &words.look_again),
    ] {
        if !value.is_empty() {
            told.push(format!("{what}: {value}"));
        }
    }
    for (number, said) in (1..).zip(&words.statements) {
        let value = match said.value.as_str() {
            "" => "not known",
            value => value,
        };
        let known = match said.known.as_str() {
            "maker" => "the maker says so",
            "written" => "written on can, leader or paper",
            "guess" => "guessed",
            _ => "",
        };
        let how = [known, said.source.as_str()];
        let how: Vec<&str> = how.into_iter().filter(|part| !part.is_empty()).collect();
        let how = match how.is_empty() {
            true => String::new(),
            false => format!(" ({})", how.join(": ")),
        };
        told.push(format!("{number:>3}  {}: {value}{how}", said.what));
    }
    if words.statements.is_empty() {
        told.push(
            "nothing is said of the film yet: `onestrand box say DIR date 1961 --known guess`"
                .to_owned(),
        );
    }
    for action in &found.actions {
        told.push(format!("  {}  {}: {}", action.on, action.to, action.what));
    }
    told.join("\n")
}
