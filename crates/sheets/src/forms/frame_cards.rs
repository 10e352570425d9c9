//! Frame cards as a form: the film as it lies on the bench, and the ways to both
//! of its cuts.

use onestrand_typeset::Printed;
use serde::Serialize;

use super::film_drawn::{FilmRecord, film_record};
use super::proof::proved_words;
use super::record::{
    Figure, FormRecord, bite_words, form_record, missing_words, pitch_words, short_pitch_words,
};
use super::way::{OnRoll, WayRecord, edge_words, off_words};
use super::{Press, Ready};
use crate::frame_cards::{FrameCards, OnBench, StripCard};
use crate::pull::Pin;
use crate::way::{Edge, StripEnd};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Frame cards";
/// The most letters of what happens; the work order's number finds the rest.
const ACTION_MOST: usize = 34;

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
