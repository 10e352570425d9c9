//! What a reading has found so far: pieces, notes, problems, remarks.

use std::collections::BTreeMap;

use onestrand_cut::{Effect, Piece, PieceKind};
use onestrand_film::Frames;

use crate::Found;
use crate::counting::{Time, decimal, whole};
use crate::film::{Film, FrameNote};
use crate::place_in_file::Node;

/// How deep cuts may lie in one another before it is no cut any more.
const DEEPEST: usize = 16;

/// A reading on its way.
#[derive(Debug)]
pub(crate) struct Reader<'f> {
    pub(crate) film: &'f Film,
    pub(crate) pieces: Vec<Piece>,
    /// Where each piece stands in the file.
    pub(crate) places: Vec<(u64, String)>,
    pub(crate) notes: Vec<FrameNote>,
    pub(crate) problems: Vec<Found>,
    pub(crate) remarks: Vec<Found>,
    /// Other rates than the film's, each with the places it is met in.
    other_rates: BTreeMap<String, Vec<(u64, String)>>,
    /// A dissolve that waits for the piece after it.
    dissolve: Option<String>,
}

impl<'f> Reader<'f> {
    pub(crate) fn new(film: &'f Film) -> Self {
        Self {
            film,
            pieces: Vec::new(),
            places: Vec::new(),
            notes: Vec::new(),
            problems: Vec::new(),
            remarks: Vec::new(),
            other_rates: BTreeMap::new(),
            dissolve: None,
        }
    }

    pub(crate) fn problem(&mut self, line: u64, place: &str, message: impl Into<String>) {
        self.problems.push(found(line, place, message.into()));
    }

    pub(crate) fn remark(&mut self, line: u64, place: &str, message: impl Into<String>) {
        self.remarks.push(found(line, place, message.into()));
    }

    /// What stands one after another in a track.
    pub(crate) fn items(&mut self, items: &[Node<'_>], within: &str, depth: usize) {
        for (index, node) in items.iter().enumerate() {
            let Some(object) = node.object() else {
                self.problem(
                    node.line(),
                    within,
                    "this is no object of the standard: take it out there",
                );
                continue;
            };
            let name = object.text("name").unwrap_or_default();
            let place = match name.as_str() {
                "" => format!("{within}no. {}", index + 1),
                name => format!("{within}no. {} “{name}”", index + 1),
            };
            match object.kind().as_str() {
                "Clip" => self.clip(&object, &place),
                "Gap" => self.gap(&object, &place),
                "Transition" => self.transition(&object, &place),
                "Stack" | "Track" => self.nested(&object, &place, depth),
                other => {
                    let text = format!(
                        "nothing is known of an object called {other:?}: take it out there"
                    );
                    self.problem(object.line(), &place, text);
                }
            }
        }
    }

    /// A piece has been read.
    pub(crate) fn laid(&mut self, mut piece: Piece, line: u64, place: &str) {
        let is_shot = matches!(piece.kind, PieceKind::Shot(_));
        if is_shot && let Some(words) = self.dissolve.take() {
            mark_dissolve(&mut piece, &words);
        }
        self.pieces.push(piece);
        self.places.push((line, place.to_owned()));
    }

    /// A dissolve or a fade: kept as what the bench cannot make, at the piece
    /// before it, or at the one after where there is no picture before.
    fn transition(&mut self, object: &crate::place_in_file::Object<'_>, place: &str) {
        let kind = object.text("transition_type").unwrap_or_default();
        let what = match kind.as_str() {
            "" | "SMPTE_Dissolve" => "a dissolve".to_owned(),
            other => format!("a transition ({other})"),
        };
        let words = format!("{what} was here: the bench cannot make it");
        let text = format!("{words}; it is kept as a fade, which the strand check refuses");
        self.remark(object.line(), place, text);
        match self.pieces.last_mut() {
            Some(before) if matches!(before.kind, PieceKind::Shot(_)) => {
                mark_dissolve(before, &words);
            }
            _ => self.dissolve = Some(words),
        }
    }

    /// At the end of the cut: a dissolve after which no picture came.
    pub(crate) fn ended(&mut self) {
        if let (Some(words), Some(last)) = (self.dissolve.take(), self.pieces.last_mut()) {
            mark_dissolve(last, &words);
        }
        let rates = std::mem::take(&mut self.other_rates);
        for (rate, places) in rates {
            let Some((line, place)) = places.first().cloned() else {
                continue;
            };
            let more = match places.len() {
                1 => String::new(),
                2 => ", here and in 1 more place".to_owned(),
                n => format!(", here and in {} more places", n - 1),
            };
            let speed = self.film.speed;
            let text = format!(
                "counted at {rate} frames a second{more}, and the film runs at {speed}: set the \
                 cut to {speed} frames a second there, so that it counts film frames"
            );
            self.problem(line, &place, text);
        }
        self.problems.sort_by_key(|found| found.line);
        self.remarks.sort_by_key(|found| found.line);
    }

    /// Nothing but a cut of its own laid in whole: it is read in its place.
    fn nested(&mut self, object: &crate::place_in_file::Object<'_>, place: &str, depth: usize) {
        let line = object.line();
        if depth >= DEEPEST {
            self.problem(
                line,
                place,
                "cuts lie in one another too deep; lay it out flat",
            );
            return;
        }
        if object.field("source_range").is_some() {
            let text = "a cut within the cut, and only a part of it is wanted: which frames that \
                        leaves is not said frame by frame. Lay it out flat there";
            self.problem(line, place, text);
            return;
        }
        let children = object.items("children");
        let inner = if object.kind() == "Stack" {
            let Some(rows) = self.one_row(&children, place) else {
                return;
            };
            rows
        } else {
            children
        };
        self.remark(line, place, "a cut within the cut: read in its place");
        self.items(&inner, &format!("{place}, "), depth + 1);
    }

    /// The one row of pictures of a stack. Several are a problem; sound is told.
    pub(crate) fn one_row<'n>(
        &mut self,
        children: &[Node<'n>],
        place: &str,
    ) -> Option<Vec<Node<'n>>> {
        let mut rows: Vec<(u64, Vec<Node<'n>>)> = Vec::new();
        let mut sounds = 0;
        for node in children {
            let Some(object) = node.object() else {
                continue;
            };
            if object.kind() != "Track" {
                rows.push((node.line(), vec![*node]));
                continue;
            }
            let inside = object.items("children");
            let kind = object.text("kind").unwrap_or_else(|| "Video".to_owned());
            let is_on = object.field("enabled").and_then(Node::truth) != Some(false);
            if kind != "Video" {
                sounds += usize::from(!inside.is_empty());
            } else if !is_on {
                let text = "a row of pictures that is switched off: left out";
                self.remark(node.line(), place, text);
            } else if object.field("source_range").is_some() {
                let text = "only a part of this row of pictures is wanted: lay out there what is \
                            wanted, and nothing else";
                self.problem(node.line(), place, text);
            } else if !inside.is_empty() {
                rows.push((node.line(), inside));
            }
        }
        if sounds > 0 {
            let line = children.first().map_or(1, |node| node.line());
            self.remark(
                line,
                place,
                format!("sound is left out: {sounds} of its rows"),
            );
        }
        let count = rows.len();
        for (line, _) in rows.iter().skip(1) {
            let text = format!(
                "{count} rows of pictures lie one above the other: a strand has one. Put all into \
                 the first"
            );
            self.problem(*line, place, text);
        }
        rows.into_iter().next().map(|(_, row)| row)
    }

    /// Frames of the running cut in a time of the standard. Another rate is
    /// reckoned over where that gives whole frames, and told.
    pub(crate) fn running(&mut self, time: Time, line: u64, place: &str) -> Option<i64> {
        let speed = self.film.speed;
        if time.is_at(speed) {
            return self.whole(time.whole(), time.value, line, place);
        }
        let frames = time.frames_at(speed);
        let Some(frames) = whole(frames) else {
            self.other_rate(time.rate, line, place);
            return None;
        };
        let text = format!(
            "{} at {} frames a second, taken as {frames} at {speed}",
            decimal(time.value),
            decimal(time.rate)
        );
        self.remark(line, place, text);
        Some(frames)
    }

    /// A count that has to be whole.
    pub(crate) fn whole(
        &mut self,
        count: Option<i64>,
        value: f64,
        line: u64,
        place: &str,
    ) -> Option<i64> {
        if count.is_none() {
            let text = format!(
                "{} frames: the cut falls inside a frame of the film. Move it to a whole frame",
                decimal(value)
            );
            self.problem(line, place, text);
        }
        count
    }

    /// A rate that is not the film's: told once for all its places.
    pub(crate) fn other_rate(&mut self, rate: f64, line: u64, place: &str) {
        let places = self.other_rates.entry(decimal(rate)).or_default();
        // Beginning and length of one clip are one place.
        if places.last().is_none_or(|(_, last)| last != place) {
            places.push((line, place.to_owned()));
        }
    }

    /// A length that a piece can have.
    pub(crate) fn length(&mut self, frames: i64, line: u64, place: &str) -> Option<Frames> {
        let length = u32::try_from(frames).ok().and_then(|n| Frames::new(n).ok());
        match length {
            Some(length) if length > Frames::ZERO => Some(length),
            _ => {
                let text =
                    format!("{frames} frames long: a piece has at least 1. Take it out there");
                self.problem(line, place, text);
                None
            }
        }
    }
}

fn found(line: u64, place: &str, message: String) -> Found {
    // A name in somebody's file may hold anything; on a screen it is one line.
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    Found {
        line,
        place: plain(place),
        message: plain(&message),
    }
}

fn mark_dissolve(piece: &mut Piece, words: &str) {
    piece.effect = piece.effect.or(Some(Effect::Fade));
    add_words(&mut piece.note, words);
}

/// More words on a note that may have some.
pub(crate) fn add_words(note: &mut String, words: &str) {
    if !note.is_empty() {
        note.push_str("; ");
    }
    note.push_str(words);
}
