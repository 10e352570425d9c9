//! The cover of a location folder, and the sheets behind it.

use serde::Serialize;

use super::furniture::plan_form;
use super::{PagesRecord, PartRecord, scripts};
use crate::forms::record::FormRecord;
use crate::plan::{LocationFolder, PlanSheet};
use crate::words;

/// What the form calls itself.
pub(super) const FORM: &str = "Location folder";

#[derive(Serialize)]
pub(super) struct CoverRecord {
    form: FormRecord,
    /// The title, the place and the day in full.
    title: String,
    place: String,
    day: String,
    sun: String,
    recce: Vec<String>,
    contents: Vec<ContentRecord>,
}

#[derive(Serialize)]
struct ContentRecord {
    form: &'static str,
    kind: String,
}

pub(super) fn pages(folder: &LocationFolder, mut parts: Vec<PartRecord>) -> PagesRecord {
    let mut contents = Vec::new();
    for part in &mut parts {
        let form = part.form();
        // What to take care of stands once, on the cover.
        form.cautions.clear();
        contents.push(ContentRecord {
            form: form.form,
            kind: form.kind.clone(),
        });
    }
    let head = &folder.head;
    let mut form = plan_form(head, FORM, "", &care(folder));
    form.foot = vec!["Kept with the camera. The sheets are numbered through.".to_owned()];
    let said = folder.recce.iter().map(String::as_str);
    super::furniture::say_missing(&mut form, head, said);
    let cover = CoverRecord {
        title: words::plain(&head.title),
        place: words::plain(&head.place),
        day: words::plain(&head.day),
        sun: words::plain(&folder.sun),
        recce: folder.recce.iter().map(|note| words::plain(note)).collect(),
        contents,
        form,
    };
    PagesRecord {
        cover: Some(cover),
        parts,
    }
}

/// What to take care of: on location always, at lamps where one shoots inside, at the
/// headphones where sound is recorded.
fn care(folder: &LocationFolder) -> Vec<&'static str> {
    let mut care = vec!["location", "people"];
    for sheet in &folder.sheets {
        let more = match sheet {
            PlanSheet::ShotList(list) => scripts::care_of(list),
            PlanSheet::SoundReport(_) => vec!["hearing"],
            _ => Vec::new(),
        };
        for key in more {
            if !care.contains(&key) {
                care.push(key);
            }
        }
    }
    care
}
