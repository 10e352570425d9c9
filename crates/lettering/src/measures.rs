//! What makes sense as a measure of a card.

use crate::{CardAsked, LetteringError};

/// Most characters of a card or crawl: some twenty pages.
const MOST_CHARACTERS: usize = 40_000;

fn within(what: &'static str, value: f64, range: (f64, f64)) -> Result<(), LetteringError> {
    if value >= range.0 && value <= range.1 {
        return Ok(());
    }
    Err(LetteringError::OutOfRange {
        what,
        value,
        least: range.0,
        greatest: range.1,
    })
}

/// A picture that a card can be drawn as.
pub(crate) fn picture_size((width, height): (u32, u32)) -> Result<(), LetteringError> {
    let range = (16.0, 8192.0);
    within("a picture width in pixels", f64::from(width), range)?;
    within("a picture height in pixels", f64::from(height), range)
}

/// The numbers of a card, before anything is set.
pub(crate) fn of_asked(asked: &CardAsked) -> Result<(), LetteringError> {
    let (width, height) = asked.aspect_mm;
    within("an aperture width in mm", width, (0.5, 5000.0))?;
    within("an aperture height in mm", height, (0.5, 5000.0))?;
    within("a width over the height", width / height, (0.4, 4.0))?;
    within("a safe part of the picture", asked.safe, (0.3, 1.0))?;
    if let Some(tall) = asked.letter_height {
        within(
            "a capital height in parts of the picture height",
            tall,
            (0.01, 0.8),
        )?;
    }
    let characters = asked.words.chars().count();
    if characters > MOST_CHARACTERS {
        return Err(LetteringError::TextTooLong {
            characters,
            most: MOST_CHARACTERS,
        });
    }
    Ok(())
}
