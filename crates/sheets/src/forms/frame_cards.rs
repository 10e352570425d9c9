//! Frame cards as a form: the film as it lies on the bench, and the ways to both
//! of its cuts.

use onestrand_film::{FrameName, Gauge, HolePlace, RollId};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::proof::proved_words;
use super::record::{
    Figure, FormRecord, FrameRecord, bite_words, form_record, missing_words, pitch_words,
    short_pitch_words,
};
use super::way::{OnRoll, WayRecord, edge_words, off_words};
use super::{Press, Ready};
use crate::frame_cards::{CardEnd, CardFrame, Fate, FrameCards, OnBench, StripCard};
use crate::picture::{Placing, Top};
use crate::pull::Pin;
use crate::way::{Edge, StripEnd};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Frame cards";
/// How long the film beside a cut is drawn. Unit: millimetres on paper.
const FILM_LONG: f64 = 41.0;
/// How wide it is drawn at most. Unit: millimetres on paper.
const FILM_WIDE: f64 = 40.0;
/// The most letters of what happens; the work order's number finds the rest.
const ACTION_MOST: usize = 34;
/// Lines of a picture on a card: 30 mm high at some 300 to the inch.
const LINES: u32 = 360;

/// Prints frame cards, with their pages to look at.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_frame_cards(cards: &FrameCards) -> Result<Printed, SheetError> {
    ready(cards)?.print()
}

fn ready(cards: &FrameCards) -> Result<Ready, SheetError> {
    let mut press = Press::new(FORM, "frame_cards.typ", include_str!("frame_cards.typ"));
    let mut records = Vec::with_capacity(cards.cards.len());
    for card in &cards.cards {
        records.push(card_record(cards, card, &mut press)?);
    }
    press.ready(&CardsRecord {
        form: furniture(cards),
        cards: records,
    })
}

#[derive(Serialize)]
struct CardsRecord {
    form: FormRecord,
    cards: Vec<CardRecord>,
}

#[derive(Serialize)]
struct CardRecord {
    number: String,
    position: String,
    roll: String,
    slate: String,
    action: String,
    length: String,
    pin: String,
    /// The ends from left to right.
    ends: Vec<EndRecord>,
}

#[derive(Serialize)]
struct EndRecord {
    title: String,
    at: String,
    film: FilmRecord,
    way: Option<WayRecord>,
    no_blade: &'static str,
    /// Other ways, a line each.
    others: Vec<String>,
    /// What must be done before the other end is cut.
    before: &'static str,
}

/// A piece of film as it is drawn. Unit: millimetres on paper.
#[derive(Serialize)]
struct FilmRecord {
    long: f64,
    wide: f64,
    pictures: Vec<PictureRecord>,
    holes: Vec<[f64; 5]>,
    /// Where the blade goes; nothing where the film is cut there already.
    cut: f64,
    captions: Vec<[String; 2]>,
    pitch: f64,
}

#[derive(Serialize)]
struct PictureRecord {
    frame: FrameRecord,
    place: [f64; 4],
    hatched: bool,
}

fn card_record(
    cards: &FrameCards,
    card: &StripCard,
    press: &mut Press,
) -> Result<CardRecord, SheetError> {
    let head = end_record(cards, card, StripEnd::Head, press)?;
    let tail = end_record(cards, card, StripEnd::Tail, press)?;
    let ends = match cards.lies.head_left {
        true => vec![head, tail],
        false => vec![tail, head],
    };
    let merged = card.last_position > card.position;
    Ok(CardRecord {
        number: words::count(card.number),
        position: match merged {
            true => format!("{} to {}", card.position, card.last_position),
            false => words::count(card.position),
        },
        roll: card.roll.to_string(),
        slate: words::plain(&card.slate),
        action: words::short(&words::plain(&card.action), ACTION_MOST),
        length: length_words(card),
        pin: match card.pin {
            Pin::Number(pin) => words::count(pin),
            Pin::ToBeWritten | Pin::None => String::new(),
        },
        ends,
    })
}

/// `60 frames`, and what is cut out where that is more.
fn length_words(card: &StripCard) -> String {
    let kept = words::counted(card.kept.len().count(), "frame", "frames");
    let cut = card.cut.len().count();
    match cut == card.kept.len().count() {
        true => kept,
        false => format!("{kept}, {} cut out", words::count(cut)),
    }
}

fn end_record(
    cards: &FrameCards,
    card: &StripCard,
    which: StripEnd,
    press: &mut Press,
) -> Result<EndRecord, SheetError> {
    let end = match which {
        StripEnd::Head => &card.head,
        StripEnd::Tail => &card.tail,
    };
    let on = OnRoll {
        head: &cards.head,
        roll: &card.roll,
    };
    let (name, other) = match which {
        StripEnd::Head => ("Head", "tail"),
        StripEnd::Tail => ("Tail", "head"),
    };
    let cut = end.edge == Edge::Cut;
    let act = match (cut, cards.head.is_proved()) {
        (true, true) => "cut before",
        _ => "line before",
    };
    let mut others = Vec::new();
    if let Some((near, off)) = end.near.as_ref().filter(|_| cut) {
        others.push(format!("or {}, {}", on.in_a_line(near), off_words(*off)));
    }
    if let Some(over) = end.from_other_cut.as_ref().filter(|_| cut) {
        let count = words::signed(over.count);
        others.push(format!(
            "or from the {other} cut {count}, {}",
            on.mm(over.count)
        ));
    }
    Ok(EndRecord {
        title: format!("{name}: {act}"),
        at: on.name(end.at),
        film: film_record(cards, card, end, press)?,
        way: cut.then(|| on.way(&end.way, Some(end.off))).flatten(),
        no_blade: edge_words(end.edge),
        others,
        before: match (cut && end.before_other_cut, which) {
            (false, _) => "",
            (true, StripEnd::Tail) => "Count this way before the head is cut, and mark it.",
            (true, StripEnd::Head) => "Count this way before the tail is cut, and mark it.",
        },
    })
}

/// How the film lies, in its own millimetres times a scale.
struct Drawing {
    gauge: Gauge,
    scale: f64,
    head_left: bool,
    /// Whether the edge that is left when one looks through the base, heads up,
    /// lies below on the paper.
    left_below: bool,
}

impl Drawing {
    fn mm(&self, um: u32) -> f64 {
        f64::from(um) / 1000.0 * self.scale
    }

    fn wide(&self) -> f64 {
        self.mm(self.gauge.spec().strip.width_um)
    }

    fn pitch(&self) -> f64 {
        self.mm(self.gauge.spec().pitch_um)
    }

    /// From the upper edge to a thing that lies so far from the left edge.
    fn down(&self, from_left: f64, size: f64) -> f64 {
        match self.left_below {
            true => self.wide() - from_left - size,
            false => from_left,
        }
    }

    /// The picture in the frame so far from the left: along, down, long, wide.
    fn picture(&self, place: usize) -> [f64; 4] {
        let spec = self.gauge.spec();
        let (wide, long) = (
            self.mm(spec.camera.width_um),
            self.mm(spec.camera.height_um),
        );
        let along = place as f64 * self.pitch() + (self.pitch() - long) / 2.0;
        let left = self.mm(spec.strip.picture_left_um);
        [along, self.down(left, wide), long, wide]
    }

    /// Holes along so many frames: along, down, long, wide, radius.
    fn holes(&self, frames: usize) -> Vec<[f64; 5]> {
        let strip = &self.gauge.spec().strip;
        let Some((across, along)) = strip.hole_um else {
            return Vec::new();
        };
        let (across, along) = (self.mm(across), self.mm(along));
        let radius = self.mm(strip.radius_um.unwrap_or_default());
        let edge = strip
            .edge_um
            .map_or((self.wide() - across) / 2.0, |um| self.mm(um));
        let hole = |middle: f64| {
            [
                middle - along / 2.0,
                self.down(edge, across),
                along,
                across,
                radius,
            ]
        };
        let pitch = self.pitch();
        match strip.place {
            HolePlace::BesidePicture => (0..frames)
                .map(|i| hole((i as f64 + 0.5) * pitch))
                .collect(),
            // Holes on the lines within the piece; those at its ends would be halved.
            _ => (1..frames).map(|i| hole(i as f64 * pitch)).collect(),
        }
    }
}

fn film_record(
    cards: &FrameCards,
    card: &StripCard,
    end: &CardEnd,
    press: &mut Press,
) -> Result<FilmRecord, SheetError> {
    let OnBench {
        emulsion_up,
        head_left,
    } = cards.lies;
    let gauge = cards.head.gauge_of(&card.roll);
    let spec = gauge.spec();
    // Both ends are drawn to the same scale.
    let ends = card.head.frames.len().max(card.tail.frames.len());
    let count = ends.max(2);
    let long = f64::from(spec.pitch_um) / 1000.0 * count as f64;
    let wide = f64::from(spec.strip.width_um) / 1000.0;
    let drawing = Drawing {
        gauge,
        scale: (FILM_LONG / long).min(FILM_WIDE / wide),
        head_left,
        left_below: head_left != emulsion_up,
    };
    let placing = Placing {
        height: LINES,
        mirrored: emulsion_up != card.is_print,
        top: match head_left {
            true => Top::Left,
            false => Top::Right,
        },
    };
    let mut frames: Vec<&CardFrame> = end.frames.iter().collect();
    if !drawing.head_left {
        frames.reverse();
    }
    let mut pictures = Vec::with_capacity(frames.len());
    for (place, frame) in frames.iter().enumerate() {
        pictures.push(picture_record(
            &card.roll,
            frame,
            drawing.picture(place),
            placing,
            press,
        )?);
    }
    // The cut lies before its frame, seen along the roll.
    let before = end.frames.iter().filter(|f| f.frame < end.at).count();
    let before = match head_left {
        true => before,
        false => frames.len() - before,
    };
    Ok(FilmRecord {
        long: drawing.pitch() * frames.len() as f64,
        wide: drawing.wide(),
        pictures,
        holes: drawing.holes(frames.len()),
        cut: drawing.pitch() * before as f64,
        captions: frames.iter().map(|frame| caption(frame)).collect(),
        pitch: drawing.pitch(),
    })
}

fn picture_record(
    roll: &RollId,
    frame: &CardFrame,
    place: [f64; 4],
    placing: Placing,
    press: &mut Press,
) -> Result<PictureRecord, SheetError> {
    let name = FrameName {
        roll: roll.clone(),
        frame: frame.frame,
    };
    let [_, fate] = caption(frame);
    Ok(PictureRecord {
        frame: press.frame_as(
            &format!("frame {fate}"),
            &name,
            frame.picture.as_deref(),
            placing,
        )?,
        place,
        hatched: frame.fate != Fate::Kept,
    })
}

/// Its number, and what becomes of it.
fn caption(frame: &CardFrame) -> [String; 2] {
    let fate = match frame.fate {
        Fate::Kept => "kept".to_owned(),
        Fate::Eaten => "join".to_owned(),
        Fate::Thrown => "thrown".to_owned(),
        Fate::WantedIn(position) => format!("in shot {position}"),
    };
    [frame.frame.to_string(), fate]
}

/// How film lies, in words.
fn lies_words(lies: OnBench) -> String {
    let side = if lies.emulsion_up { "emulsion" } else { "base" };
    let head = if lies.head_left { "left" } else { "right" };
    format!("{side} up, head to the {head}")
}

fn furniture(cards: &FrameCards) -> FormRecord {
    let head = &cards.head;
    let mut form = form_record(head, FORM, "to be cut apart, one a strip");
    let count = u32::try_from(cards.cards.len()).unwrap_or(u32::MAX);
    form.figures = vec![
        Figure::counted(count, "card", "cards"),
        Figure::new(lies_words(cards.lies), "as the film lies"),
        Figure::new(
            format!("{} frames", words::count(cards.limit)),
            "longest count",
        ),
    ];
    form.foot = vec![
        "The landmark is frame 0; the line before the count is meant. A minus goes back."
            .to_owned(),
        short_pitch_words(head),
    ];
    form.totals = vec![proved_words(head)];
    form.assumptions = assumptions(cards);
    form
}

fn assumptions(cards: &FrameCards) -> Vec<String> {
    let head = &cards.head;
    let print = cards.cards.iter().any(|card| card.is_print);
    let mut lines = vec![
        format!(
            "Pictures are drawn as the film lies on your bench: {}. Camera original reads right \
             through its base{}.",
            lies_words(cards.lies),
            if print { ", a contact print through its emulsion" } else { "" },
        ),
        "What is hatched does not stay in the cut; “join” is what the join eats. “No.” is the number \
         in the work order. The big count begins at what cannot be mistaken; \
         every count begins again at 0. A paper slip is your own: it tells nothing of whether the \
         count is right."
            .to_owned(),
        format!(
            "± is the larger of two: a slip of one frame in {} counted, or a ruler read to 0.5 mm \
             whose scale is good to 0.1 %, with the shrinkage open by 1 % where it was not measured. \
             Common practice, from memory. The pictures have the last word.",
            cards.one_slip_in
        ),
        pitch_words(head),
    ];
    lines.extend(bite_words(&head.joins));
    lines.extend(missing_words(&all_words(cards)));
    lines
}

/// Everything on the cards that a person wrote.
fn all_words(cards: &FrameCards) -> String {
    let mut all = vec![cards.head.title.as_str(), cards.head.version.as_str()];
    for card in &cards.cards {
        all.extend([card.slate.as_str(), card.action.as_str()]);
        for end in [&card.head, &card.tail] {
            let near = end.near.iter().map(|(way, _)| way);
            all.extend(end.way.iter().chain(near).map(|one| one.words.as_str()));
        }
    }
    all.join("\n")
}
