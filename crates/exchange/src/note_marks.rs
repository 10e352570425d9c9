//! Notes on frames, which the standard has as markers on a clip.

use onestrand_film::{FrameName, FramePos, RollId, Span};
use serde_json::{Value, json};

use crate::film::FrameNote;
use crate::media::Counted;
use crate::place_in_file::{Node, Object};
use crate::reader::Reader;
use crate::schema;
use crate::write::{range, time};

/// The notes that fall inside a span, as marks on it.
pub(crate) fn written(notes: &[FrameNote], span: &Span, speed: onestrand_film::Fps) -> Vec<Value> {
    let inside =
        |note: &&FrameNote| note.frame.roll == span.roll && span.range.contains(note.frame.frame);
    let one = |note: &FrameNote| {
        json!({
            schema::SCHEMA: schema::MARKER,
            "metadata": { schema::OURS: { "writer": note.writer, "words": note.words } },
            "name": note.writer,
            "color": "YELLOW",
            "comment": note.words,
            "marked_range": range(
                time(i64::from(note.frame.frame.index()), speed),
                time(1, speed),
            ),
        })
    };
    notes.iter().filter(inside).map(one).collect()
}

impl Reader<'_> {
    /// The marks on a clip that shows this roll, counted as the clip is.
    pub(crate) fn marks(&mut self, clip: &Object<'_>, counted: &Counted, place: &str) {
        for node in clip.items("markers") {
            let Some(mark) = node.object() else { continue };
            if let Some(note) = self.mark(&mark, counted, place)
                && !self.notes.contains(&note)
            {
                self.notes.push(note);
            }
        }
    }

    fn mark(&mut self, mark: &Object<'_>, counted: &Counted, place: &str) -> Option<FrameNote> {
        let place = format!("{place}, a mark");
        let said = |field: &str| mark.text(field).filter(|words| !words.trim().is_empty());
        let ours = mark.ours();
        let own = |field: &str| ours.as_ref().and_then(|ours| ours.text(field));
        let Some(words) = own("words")
            .or_else(|| said("comment"))
            .or_else(|| said("name"))
        else {
            self.remark(mark.line(), &place, "without words: left out");
            return None;
        };
        let frame = start_of(mark).and_then(|start| counted.quietly(start, self.film.speed));
        match frame.and_then(|frame| on_roll(&counted.roll, counted.frames, frame)) {
            Some(frame) => Some(FrameNote {
                frame,
                words,
                writer: own("writer").unwrap_or_default(),
            }),
            None => {
                let text = format!("falls on no frame of {}: left out ({words})", counted.roll);
                self.remark(mark.line(), &place, text);
                None
            }
        }
    }
}

fn start_of(mark: &Object<'_>) -> Option<crate::counting::Time> {
    let range = mark.field("marked_range").and_then(Node::object)?;
    crate::counting::Time::of(range.field("start_time")?)
}

fn on_roll(roll: &RollId, frames: u32, frame: i64) -> Option<FrameName> {
    let index = u32::try_from(frame).ok().filter(|index| *index < frames)?;
    Some(FrameName {
        roll: roll.clone(),
        frame: FramePos::new(index).ok()?,
    })
}
