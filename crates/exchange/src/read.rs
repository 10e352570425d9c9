//! A file of the standard becomes a version of this film.

use onestrand_cut::{JoinKind, TrialCut};
use onestrand_film::{Fps, Gauge};

use crate::film::{Film, Version};
use crate::place_in_file::{FileText, Node, Object};
use crate::reader::Reader;
use crate::{ExchangeError, Found, schema};

/// What was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadVersion {
    /// The version, with the name it has in the file.
    pub version: Version,
    /// Whether the file says how it is usually joined; else tape was taken.
    pub says_join: bool,
    /// Line and place of each piece, in their order.
    pub places: Vec<(u64, String)>,
    /// What was taken in another way than it stands there, or left out.
    pub remarks: Vec<Found>,
}

/// What the head of the file says of itself.
struct Head {
    name: String,
    note: String,
    join: Option<JoinKind>,
}

/// Reads a version of `film` out of a file of the standard, whoever wrote it.
///
/// What can be read is read: a gap as leader, a generated picture as a card to
/// be photographed, effects as what the strand check will refuse. Each of these
/// is told in the remarks.
///
/// # Errors
/// [`ExchangeError::Problems`] with everything that cannot be read, each with
/// its line: unknown rolls, another speed, cuts inside a film frame, lengths
/// below 1 frame, frames beyond a roll, rows of pictures above one another.
pub fn read(text: &str, film: &Film) -> Result<ReadVersion, ExchangeError> {
    let file = FileText::new(text.trim_start_matches('\u{feff}'));
    let mut reader = Reader::new(film);
    let head = match whole_file(&file, &mut reader) {
        Some(head) => head,
        None => Head {
            name: String::new(),
            note: String::new(),
            join: None,
        },
    };
    reader.ended();
    if reader.problems.is_empty() && reader.pieces.is_empty() {
        reader.problem(1, "", "no piece stands in it: there is nothing to cut");
    }
    let Reader {
        pieces,
        places,
        notes,
        problems,
        remarks,
        ..
    } = reader;
    if !problems.is_empty() {
        return Err(ExchangeError::Problems { problems });
    }
    Ok(ReadVersion {
        version: Version {
            name: head.name,
            note: head.note,
            cut: TrialCut::new(pieces, head.join.unwrap_or(JoinKind::Tape)),
            notes,
        },
        says_join: head.join.is_some(),
        places,
        remarks,
    })
}

fn whole_file(file: &FileText<'_>, reader: &mut Reader<'_>) -> Option<Head> {
    let root = match file.outermost() {
        Ok(root) => root,
        Err((line, found)) => {
            let text = format!("this is no OpenTimelineIO file: {found}");
            reader.problem(line, "", text);
            return None;
        }
    };
    let Some(object) = root.object() else {
        reader.problem(
            1,
            "",
            "this is no OpenTimelineIO file: its outermost value is no object",
        );
        return None;
    };
    let head = head(&object, reader);
    rows(&object, reader);
    Some(head)
}

/// The pieces, wherever the outermost object has them.
fn rows(object: &Object<'_>, reader: &mut Reader<'_>) {
    let kind = object.kind();
    let items = if schema::is_version(&kind) {
        let tracks = object.object("tracks");
        tracks.and_then(|tracks| stack(&tracks, reader))
    } else if kind == "Stack" {
        stack(object, reader)
    } else if kind == "Track" {
        Some(object.items("children"))
    } else {
        let what = match kind.as_str() {
            "" => "says nothing of the standard".to_owned(),
            kind => format!("holds one object called {kind:?}"),
        };
        let text = format!("this is no single cut: the file {what}. Write out one cut by itself");
        reader.problem(object.line(), "", text);
        return;
    };
    match items {
        Some(items) => reader.items(&items, "", 0),
        None if reader.problems.is_empty() => {
            reader.problem(object.line(), "", "no row of pictures stands in it");
        }
        None => {}
    }
}

fn stack<'n>(stack: &Object<'n>, reader: &mut Reader<'_>) -> Option<Vec<Node<'n>>> {
    if let Some(part) = stack.field("source_range") {
        let text = "only a part of the cut is wanted: write out what is wanted, and nothing else";
        reader.problem(part.line(), "", text);
        return None;
    }
    reader.one_row(&stack.items("children"), "")
}

fn head(object: &Object<'_>, reader: &mut Reader<'_>) -> Head {
    let mut head = Head {
        name: object.text("name").unwrap_or_default(),
        note: String::new(),
        join: None,
    };
    let Some(ours) = object.ours() else {
        return head;
    };
    let film = reader.film;
    let line = ours.line();
    if ours
        .field("form")
        .and_then(Node::number)
        .is_some_and(|form| form > schema::FORM as f64)
    {
        let text = "written by a newer Onestrand: bring this one up to date first";
        reader.problem(line, "", text);
    }
    head.note = ours.text("note").unwrap_or_default();
    if let Some(text) = ours.text("usual_join") {
        match text.parse() {
            Ok(join) => head.join = Some(join),
            Err(found) => reader.problem(line, "usual join", format!("{found}")),
        }
    }
    if let Some(text) = ours.text("speed")
        && text.parse::<Fps>() != Ok(film.speed)
    {
        let text = format!(
            "a cut of a film at {text} frames a second; this one runs at {}",
            film.speed
        );
        reader.problem(line, "speed", text);
    }
    if let Some(text) = ours.text("gauge")
        && text.parse::<Gauge>() != Ok(film.gauge)
    {
        let text = format!("a cut of {text} film; this one is {}", film.gauge);
        reader.problem(line, "gauge", text);
    }
    if let Some(title) = ours.text("film").filter(|title| *title != film.title) {
        reader.remark(line, "", format!("written for the film “{title}”"));
    }
    head
}
