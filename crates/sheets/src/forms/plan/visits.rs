//! The visits as a form: their photographs large and grey, with room to write.

use serde::Serialize;

use super::furniture::{count_of, plan_form, say_missing};
use crate::forms::Press;
use crate::forms::record::{Figure, FormRecord};
use crate::picture::{self, Placing};
use crate::plan::{Visit, VisitsSheet};
use crate::{SheetError, words};

/// What the form calls itself.
pub(super) const FORM: &str = "Visits";

#[derive(Serialize)]
pub(super) struct VisitsRecord {
    pub(super) form: FormRecord,
    visits: Vec<VisitRecord>,
}

#[derive(Serialize)]
struct VisitRecord {
    place: String,
    scenes: String,
    words: String,
    photograph: Option<PhotographRecord>,
    /// What is said where the photograph cannot be shown.
    lost: String,
}

#[derive(Serialize)]
struct PhotographRecord {
    file: String,
    aspect: f64,
    alt: String,
}

pub(super) fn record(sheet: &VisitsSheet, press: &mut Press) -> VisitsRecord {
    let visits = sheet.visits.iter().map(|one| visit(one, press)).collect();
    VisitsRecord {
        form: furniture(sheet),
        visits,
    }
}

fn visit(visit: &Visit, press: &mut Press) -> VisitRecord {
    let place = words::plain(&visit.place);
    let bytes = visit.photograph.as_deref();
    let placed = bytes.map(|bytes| {
        let placing = Placing::A_PHOTOGRAPH;
        picture::place(&mut press.job, press.form, &place, bytes, placing)
    });
    // A photograph that cannot be read keeps nobody from the words.
    let (photograph, lost) = match placed {
        None => (None, words::plain(&visit.lost)),
        Some(Ok(placed)) => {
            let photograph = PhotographRecord {
                file: placed.name.to_string(),
                aspect: placed.aspect,
                alt: format!("photograph of {place}"),
            };
            (Some(photograph), String::new())
        }
        Some(Err(SheetError::Picture { source, .. })) => (
            None,
            format!("Without its photograph, which cannot be read: {source}."),
        ),
        Some(Err(problem)) => (None, format!("Without its photograph: {problem}.")),
    };
    let many = if visit.scenes.len() == 1 {
        "scene"
    } else {
        "scenes"
    };
    VisitRecord {
        scenes: match visit.scenes.is_empty() {
            true => String::new(),
            false => format!("{many} {}", words::plain(&visit.scenes.join(", "))),
        },
        words: words::plain(&visit.words),
        place,
        photograph,
        lost,
    }
}

fn furniture(sheet: &VisitsSheet) -> FormRecord {
    let head = &sheet.head;
    let mut form = plan_form(
        head,
        FORM,
        "what was seen, and what is seen on the day",
        &[],
    );
    let shown = sheet.visits.iter().filter(|one| one.photograph.is_some());
    form.figures = vec![
        Figure::counted(count_of(sheet.visits.len()), "visit", "visits"),
        Figure::counted(count_of(shown.count()), "photograph", "photographs"),
    ];
    form.foot = vec!["Write down what is other than it was.".to_owned()];
    let visits = sheet.visits.iter();
    let said = visits.flat_map(|one| [&*one.place, &*one.words]);
    say_missing(&mut form, head, said);
    form
}
