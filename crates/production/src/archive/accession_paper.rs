//! The accession sheet of a film on paper.

use onestrand_sheets::{Paper, PartForm, PartSheet, SheetPart, print_part_sheet};

use super::accession::{KINDS, known_words};
use super::box_plan::BoxPlan;
use super::write_box::ScansList;
use crate::ProductionError;
use crate::documents::BoxedFileDocument;

/// Its bytes.
pub(super) fn accession_pdf(plan: &BoxPlan, list: &ScansList) -> Result<Vec<u8>, ProductionError> {
    let words = &plan.words;
    let sheet = PartSheet {
        form: PartForm::AccessionSheet,
        title: plan.title.clone(),
        facts: plan.about.clone(),
        figures: [
            (&words.number, "number"),
            (&words.keeper, "kept by"),
            (&words.look_again, "look at it again on"),
        ]
        .into_iter()
        .filter(|(value, _)| !value.is_empty())
        .map(|(value, label)| (value.clone(), label.to_owned()))
        .collect(),
        parts: vec![statements(plan), physical(plan), actions(plan), files(list)],
        assumptions: vec![
            "What is guessed stands as a guess. Whoever learns more writes it down with who says \
             so or where it is written, and lets the old words stand."
                .to_owned(),
        ],
        paper: Paper::A4,
    };
    Ok(print_part_sheet(&sheet)?.pdf)
}

fn column(head: &str, wide: f64) -> (String, f64) {
    (head.to_owned(), wide)
}

fn statements(plan: &BoxPlan) -> SheetPart {
    let rows = KINDS.iter().flat_map(|(what, meaning, _)| {
        let mut rows: Vec<Vec<String>> = plan
            .words
            .statements
            .iter()
            .filter(|one| one.what == *what)
            .map(|one| {
                let value = match one.value.as_str() {
                    "" => "not known".to_owned(),
                    value => value.to_owned(),
                };
                let known = match one.known.as_str() {
                    "not-known" => "",
                    known => known_words(known),
                };
                vec![
                    (*meaning).to_owned(),
                    value,
                    known.to_owned(),
                    one.source.clone(),
                ]
            })
            .collect();
        // Another title than the film's is no gap.
        if rows.is_empty() && !["title", "other_title"].contains(what) {
            rows.push(vec![
                (*meaning).to_owned(),
                "not said".to_owned(),
                String::new(),
                String::new(),
            ]);
        }
        rows
    });
    SheetPart {
        heading: "What is known of it".to_owned(),
        before: match plan.words.kept.as_str() {
            "" => Vec::new(),
            kept => vec![format!("Kept: {kept}")],
        },
        columns: vec![
            column("what", 46.0),
            column("is said", 0.0),
            column("how it is known", 36.0),
            column("by whom, where", 40.0),
        ],
        rows: rows.collect(),
        small: false,
    }
}

fn physical(plan: &BoxPlan) -> SheetPart {
    SheetPart {
        heading: "The film itself".to_owned(),
        columns: vec![
            column("roll", 16.0),
            column("length", 44.0),
            column("base, shrinkage", 40.0),
            column("state as it was found", 0.0),
        ],
        rows: plan.physical.clone(),
        ..SheetPart::default()
    }
}

fn actions(plan: &BoxPlan) -> SheetPart {
    SheetPart {
        heading: "What was done to it".to_owned(),
        before: match plan.actions.is_empty() {
            true => vec!["Nothing is written down.".to_owned()],
            false => Vec::new(),
        },
        columns: vec![
            column("on", 24.0),
            column("to", 24.0),
            column("what", 0.0),
            column("by", 34.0),
        ],
        rows: plan
            .actions
            .iter()
            .map(|one| {
                vec![
                    one.on.clone(),
                    one.to.clone(),
                    one.what.clone(),
                    one.by.clone(),
                ]
            })
            .collect(),
        small: false,
    }
}

fn files(list: &ScansList) -> SheetPart {
    let row = |of: &str, file: &BoxedFileDocument| {
        let place = match &file.path {
            Some(path) => format!("in this box: {path}"),
            None => format!("not in this box; it was at {}", file.place),
        };
        let sum = file
            .sha256
            .clone()
            .unwrap_or_else(|| "not found".to_owned());
        vec![of.to_owned(), place, file.bytes.to_string(), sum]
    };
    let scans = list.scans.iter().flat_map(|scan| {
        // A run of pictures has thousands: the first stands for it, the rest in scans.json.
        let files = scan.files.iter().take(1);
        files.map(move |file| row(&format!("scan of {}", scan.roll), file))
    });
    let finishes = list.finishes.iter().map(|file| row("finish", file));
    SheetPart {
        heading: "Files with their checksums (SHA-256)".to_owned(),
        columns: vec![
            column("what", 22.0),
            column("where", 0.0),
            column("bytes", 26.0),
            column("SHA-256", 60.0),
        ],
        rows: scans.chain(finishes).collect(),
        small: true,
        ..SheetPart::default()
    }
}
