//! A programme on paper: the note, and labels for its reels.

use onestrand_sheets::{Paper, PartForm, PartSheet, SheetPart, print_part_sheet};

use crate::documents::{FootageDocument, ProgrammeDocument, ProgrammeForm, ProgrammeRowDocument};
use crate::{PrintedSheet, ProductionError};

/// Prints the note of a programme.
///
/// # Errors
/// [`ProductionError::Sheets`] when the form cannot be set.
pub fn print_programme(
    form: &ProgrammeForm,
    plan: &ProgrammeDocument,
    letter: bool,
) -> Result<PrintedSheet, ProductionError> {
    let parts = vec![shown(plan), reels(plan), remarks(form, plan)];
    print(form, plan, parts, letter, "programme")
}

/// Prints the labels of the reels of a programme: what lies on each, for reel and can.
///
/// # Errors
/// As [`print_programme`].
pub fn print_programme_labels(
    form: &ProgrammeForm,
    plan: &ProgrammeDocument,
    letter: bool,
) -> Result<PrintedSheet, ProductionError> {
    let count = plan.reels.len();
    let parts = plan.reels.iter().map(|reel| SheetPart {
        heading: format!("Reel {} of {count}", reel.reel),
        before: vec![
            format!(
                "{}, {} f/s. {} with leaders, films {}.",
                gauge_name(&reel.gauge),
                reel.speed,
                footage(reel.footage),
                reel.clock
            ),
            "Heads or tails out: look, and write it here ……………   Wound back after the showing: ……………".to_owned(),
        ],
        columns: vec![("on it, in this order".to_owned(), 0.0), ("begins".to_owned(), 24.0), ("time".to_owned(), 24.0)],
        rows: plan
            .rows
            .iter()
            .filter(|row| row.reel == Some(reel.reel))
            .map(|row| vec![named(row), row.begins.clone(), row.clock.clone()])
            .collect(),
        small: false,
    });
    print(form, plan, parts.collect(), letter, "programme-reels")
}

fn print(
    form: &ProgrammeForm,
    plan: &ProgrammeDocument,
    parts: Vec<SheetPart>,
    letter: bool,
    name: &'static str,
) -> Result<PrintedSheet, ProductionError> {
    let said = [&form.place, &form.day, &form.machine].map(|words| words.trim());
    let said: Vec<&str> = said.into_iter().filter(|words| !words.is_empty()).collect();
    let mut figures = vec![
        (plan.clock.clone(), "from first to last picture".to_owned()),
        (
            plan.reels.len().to_string(),
            counted(plan.reels.len(), "reel", "reels"),
        ),
        (
            plan.changes.to_string(),
            counted(plan.changes as usize, "change", "changes"),
        ),
    ];
    figures.extend(plan.throws.iter().map(|throw| {
        (
            format!("{} m", throw.throw_m),
            format!("lens to screen, {}", gauge_name(&throw.gauge)),
        )
    }));
    let sheet = PartSheet {
        form: PartForm::ProgrammeNote,
        title: match form.title.trim() {
            "" => "Our films".to_owned(),
            title => title.to_owned(),
        },
        facts: said.join(", "),
        figures,
        parts,
        assumptions: plan.assumptions.clone(),
        paper: match letter {
            true => Paper::Letter,
            false => Paper::A4,
        },
    };
    let printed = print_part_sheet(&sheet)?;
    Ok(PrintedSheet {
        sheet: name,
        file_name: format!("{name}.pdf"),
        pdf: printed.pdf,
        pages: printed.pages,
    })
}

fn counted(count: usize, one: &str, many: &str) -> String {
    match count {
        1 => one.to_owned(),
        _ => many.to_owned(),
    }
}

/// The gauge as people call it.
fn gauge_name(code: &str) -> String {
    let known = code.parse::<onestrand_film::Gauge>();
    known.map_or_else(|_| code.to_owned(), |gauge| gauge.spec().name.to_owned())
}

fn footage(at: FootageDocument) -> String {
    format!("{} ft {} fr", at.feet, at.frames)
}

fn named(row: &ProgrammeRowDocument) -> String {
    let by = [row.asked.maker.trim(), row.asked.year.trim()];
    let by: Vec<&str> = by.into_iter().filter(|words| !words.is_empty()).collect();
    match by.is_empty() {
        true => row.title.clone(),
        false => format!("{} ({})", row.title, by.join(", ")),
    }
}

fn shown(plan: &ProgrammeDocument) -> SheetPart {
    let columns = [
        ("begins", 18.0),
        ("title, maker, year", 0.0),
        ("gauge, f/s, sound", 42.0),
        ("length", 30.0),
        ("time", 18.0),
        ("reel", 14.0),
    ];
    let rows = plan.rows.iter().map(|row| {
        let how = match row.gauge.as_str() {
            "" => String::new(),
            gauge => {
                let sound = match row.asked.sound.trim() {
                    "" => "sound not said",
                    sound => sound,
                };
                format!("{}, {} f/s, {sound}", gauge_name(gauge), row.speed)
            }
        };
        let title = match (row.asked.what.as_str(), row.problem.as_str()) {
            ("interval", _) => "INTERVAL".to_owned(),
            (_, "") => named(row),
            (_, problem) => format!("{}: CANNOT BE SHOWN SO: {problem}", named(row)),
        };
        vec![
            row.begins.clone(),
            title,
            how,
            row.footage.map_or_else(String::new, footage),
            row.clock.clone(),
            row.reel.map_or_else(String::new, |reel| reel.to_string()),
        ]
    });
    SheetPart {
        heading: "What is shown".to_owned(),
        columns: columns.map(|(head, wide)| (head.to_owned(), wide)).to_vec(),
        rows: rows.collect(),
        ..SheetPart::default()
    }
}

fn reels(plan: &ProgrammeDocument) -> SheetPart {
    let rows = plan.reels.iter().map(|reel| {
        let before = plan.rows.iter().find(|row| row.reel == Some(reel.reel));
        vec![
            reel.reel.to_string(),
            format!("{}, {} f/s", gauge_name(&reel.gauge), reel.speed),
            reel.films.join(" · "),
            footage(reel.footage),
            reel.clock.clone(),
            before.map_or_else(String::new, |row| row.before.clone()),
        ]
    });
    let columns = [
        ("reel", 14.0),
        ("gauge, f/s", 34.0),
        ("on it", 0.0),
        ("with leaders", 30.0),
        ("films", 18.0),
        ("change", 28.0),
    ];
    SheetPart {
        heading: "Reels, as they are threaded".to_owned(),
        columns: columns.map(|(head, wide)| (head.to_owned(), wide)).to_vec(),
        rows: rows.collect(),
        ..SheetPart::default()
    }
}

fn remarks(form: &ProgrammeForm, plan: &ProgrammeDocument) -> SheetPart {
    let mut before: Vec<String> = plan
        .throws
        .iter()
        .map(|throw| {
            format!(
                "{}: lens of {} mm, {} m from the screen of {}, the picture {:.0} mm high.",
                gauge_name(&throw.gauge),
                form.lens_mm,
                throw.throw_m,
                form.screen,
                throw.high_mm
            )
        })
        .collect();
    before.extend(plan.remarks.iter().cloned());
    before.push(
        "Before the doors open: a spare lamp and its tool, the right take-up reel, a cleaned gate, \
         the loop and the sound tried on leader, the way to the light switch clear."
            .to_owned(),
    );
    SheetPart {
        heading: "For whoever shows it".to_owned(),
        before,
        ..SheetPart::default()
    }
}
