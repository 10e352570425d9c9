//! The change list as a form.

use onestrand_film::{FrameDelta, FrameName, RunningTime};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::proof::proved_words;
use super::record::{
    Figure, FormRecord, FrameRecord, bite_words, form_record, length_words, missing_words,
    short_bite_words,
};
use super::{Press, Ready};
use crate::changes::{ChangeList, ChangeRow, ChangedFilm};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Change list";

/// Prints a change list, with its pages to look at.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_change_list(list: &ChangeList) -> Result<Printed, SheetError> {
    ready(list)?.print()
}

pub(super) fn ready(list: &ChangeList) -> Result<Ready, SheetError> {
    let mut press = Press::new(FORM, "changes.typ", include_str!("changes.typ"));
    let mut rows = Vec::with_capacity(list.rows.len());
    for (place, row) in list.rows.iter().enumerate() {
        rows.push(row_record(list, row, place + 1, &mut press)?);
    }
    press.ready(&ChangesRecord {
        form: furniture(list),
        rows,
    })
}

#[derive(Serialize)]
struct ChangesRecord {
    form: FormRecord,
    rows: Vec<RowRecord>,
}

#[derive(Serialize)]
struct RowRecord {
    number: String,
    at: String,
    at_frame: String,
    act: String,
    picture: Option<FrameRecord>,
    kind: &'static str,
    slate: String,
    from_to: String,
    frames: String,
    to: String,
    to_frame: String,
    offset: String,
    offset_feet: String,
}

fn row_record(
    list: &ChangeList,
    row: &ChangeRow,
    number: usize,
    press: &mut Press,
) -> Result<RowRecord, SheetError> {
    let gauge = list.head.gauge;
    let mut record = RowRecord {
        number: number.to_string(),
        at: words::footage(gauge.footage(row.at)),
        at_frame: format!("frame {}", words::count(row.at.count())),
        act: words::plain(&row.act),
        picture: None,
        kind: "piece",
        slate: String::new(),
        from_to: String::new(),
        frames: words::count(row.frames.count()),
        to: row
            .to
            .map(|to| words::footage(gauge.footage(to)))
            .unwrap_or_default(),
        to_frame: row
            .to
            .map(|to| format!("frame {}", words::count(to.count())))
            .unwrap_or_default(),
        offset: words::signed(row.offset_after),
        offset_feet: words::footage(gauge.footage(words::size(row.offset_after))),
    };
    match &row.film {
        ChangedFilm::Piece { span, slate } => {
            let name: FrameName = span.first();
            record.slate = words::plain(slate);
            record.from_to = format!("{name} to {}", span.last().frame);
            record.picture = Some(press.frame("first frame", &name, row.picture.as_deref())?);
        }
        ChangedFilm::Leader => {
            record.kind = "leader";
            record.from_to = "leader".to_owned();
        }
        ChangedFilm::Card { title } => {
            record.kind = "card";
            record.slate = "card to shoot".to_owned();
            record.from_to = words::plain(title);
        }
    }
    Ok(record)
}

fn furniture(list: &ChangeList) -> FormRecord {
    let head = &list.head;
    let old = words::plain(&list.old);
    let mut form = form_record(head, FORM, "");
    form.kind = format!("from {} to {}", words::short(&old, 30), form.version);
    let net = i64::from(list.new_frames.count()) - i64::from(list.old_frames.count());
    let net = i32::try_from(net)
        .ok()
        .and_then(|n| FrameDelta::new(n).ok());
    let changes = u32::try_from(list.rows.len()).unwrap_or(u32::MAX);
    form.figures = vec![
        Figure::counted(changes, "change", "changes"),
        Figure::new(
            words::footage(head.gauge.footage(list.old_frames)),
            format!("{} now", words::short(&old, 12)),
        ),
        Figure::new(
            words::footage(head.gauge.footage(list.new_frames)),
            format!("{} then", words::short(&words::plain(&head.version), 12)),
        ),
        Figure::new(words::signed(net.unwrap_or_default()), "frames in all"),
        Figure::new(
            RunningTime::of(list.new_frames, head.speed).to_string(),
            format!("min at {} f/s then", head.speed),
        ),
    ];
    form.foot = vec![
        "“At” counts in the version as it is joined now; “new place” in the new one.".to_owned(),
    ];
    form.foot.extend(short_bite_words(&head.joins));
    form.totals = vec![length_words(head, list.new_frames), proved_words(head)];
    form.assumptions = assumptions(list);
    form
}

fn assumptions(list: &ChangeList) -> Vec<String> {
    let head = &list.head;
    let mut lines = vec![
        format!(
            "Two frames are the same when they have one name, roll and frame. What stays is the \
             longest run of frames that both versions have in one order. Feet and frames at {} \
             frames a foot, from the first frame of the cut without its head leader.",
            head.gauge.spec().frames_per_foot
        ),
        "“Offset after” is by how much whatever follows then lies later (+) or earlier (−): carry \
         sound notes by it."
            .to_owned(),
        "Opening a join may cost frames of its own; this list does not count them.".to_owned(),
    ];
    lines.extend(bite_words(&head.joins));
    lines.extend(missing_words(&all_words(list)));
    lines
}

fn all_words(list: &ChangeList) -> String {
    let mut all = vec![
        list.head.title.as_str(),
        list.head.version.as_str(),
        &list.old,
    ];
    for row in &list.rows {
        match &row.film {
            ChangedFilm::Piece { slate, .. } => all.push(slate),
            ChangedFilm::Card { title } => all.push(title),
            ChangedFilm::Leader => {}
        }
    }
    all.join("\n")
}
