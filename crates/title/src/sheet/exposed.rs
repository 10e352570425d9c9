//! What is on a frame of film.

use crate::sheet::asked::{ExposureAsked, LettersBy};
use crate::sheet::build::FADE_STOPS;
use crate::sheet::warning::darkening_stops;

/// What is on a frame of film.
///
/// Light is as a part of the right exposure, 1 the whole. Where a part a of a place is
/// under the letters, the frame shows ground × (`ground_light` − a · `letter_light`) +
/// letters × a · `letter_light` where letters cover, and ground × `ground_light` + letters
/// × a · `letter_light` where they do not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exposed {
    /// Light of the ground where no letter lies.
    pub ground_light: f64,
    /// Light of the letters.
    pub letter_light: f64,
    /// Light of the other card of a dissolve.
    pub next_light: f64,
    /// Where the letters lie, east and south of their place. Unit: millimetres.
    pub letters_mm: (f64, f64),
    /// Where the ground lies, east and south of its place. Unit: millimetres.
    pub art_mm: (f64, f64),
    /// Whether there is any lettering.
    pub lettered: bool,
    /// Whether the letters keep the ground off the film: not where they are exposed a
    /// second time.
    pub letters_cover: bool,
    /// The most cels that lay on the ground.
    pub cels: u32,
}

impl Exposed {
    /// A frame that got no light.
    pub(crate) const DARK: Self = Self {
        ground_light: 0.0,
        letter_light: 0.0,
        next_light: 0.0,
        letters_mm: (0.0, 0.0),
        art_mm: (0.0, 0.0),
        lettered: false,
        letters_cover: false,
        cels: 0,
    };
}

/// What frame `n` of a card is to be, worked out directly from what is asked, without a
/// sheet; none beyond its last frame.
///
/// ```
/// # use onestrand_title::{ExposureAsked, card_frame};
/// let asked = ExposureAsked { before: 36, after: 18, ..ExposureAsked::plain(126) };
/// assert!(!card_frame(&asked, 35).expect("a frame").lettered);
/// assert!(card_frame(&asked, 36).expect("a frame").lettered);
/// assert_eq!(card_frame(&asked, 180), None);
/// ```
#[must_use]
pub fn card_frame(asked: &ExposureAsked, n: u32) -> Option<Exposed> {
    if n >= asked.frames() {
        return None;
    }
    let whole = fade_light(asked, n);
    let letters = letter_share(asked, n);
    let next = next_share(asked, n);
    let stays = whole * (1.0 - next);
    let is_cel = asked.letters_by == LettersBy::Cel;
    // The exposure is right through the cel: without one the ground gets more.
    let bare = match is_cel && !asked.blank_cel {
        true => darkening_stops(asked.cel_density).exp2(),
        false => 1.0,
    };
    let is_double = asked.letters_by == LettersBy::SecondExposure;
    let ground = match is_double {
        true => 1.0,
        false => (1.0 - letters) * bare + letters,
    };
    let lettered = letters > 0.0;
    let (from, _) = asked.lettered();
    let crawled = asked.crawl.filter(|_| lettered);
    let on_ground = u32::from(is_cel && (asked.blank_cel || lettered));
    Some(Exposed {
        ground_light: stays * ground,
        letter_light: stays * letters,
        next_light: whole * next,
        letters_mm: crawled.map_or((0.0, 0.0), |crawl| crawl.at(n - from)),
        art_mm: asked.art_move.map_or((0.0, 0.0), |art_move| art_move.at(n)),
        lettered,
        letters_cover: lettered && !is_double,
        cels: on_ground + u32::from(asked.second_cel.is_some()),
    })
}

/// Equal parts of a stop, from [`FADE_STOPS`] below to the whole light and back.
fn fade_light(asked: &ExposureAsked, n: u32) -> f64 {
    let (fade_in, fade_out) = (asked.fade_in, asked.fade_out);
    let out_from = asked.frames() - fade_out;
    if n < fade_in {
        let left = f64::from(fade_in - n);
        return (-FADE_STOPS * left / f64::from(fade_in)).exp2();
    }
    if n >= out_from {
        let done = f64::from(n - out_from + 1);
        return (-FADE_STOPS * done / f64::from(fade_out)).exp2();
    }
    1.0
}

/// How much of the lettering there is.
fn letter_share(asked: &ExposureAsked, n: u32) -> f64 {
    let (from, end) = asked.lettered();
    let (full, going) = (asked.before, asked.before + asked.hold);
    if n < from || n >= end {
        return 0.0;
    }
    if n < full {
        return f64::from(n - from + 1) / f64::from(asked.letters_in + 1);
    }
    if n >= going {
        return f64::from(end - n) / f64::from(asked.letters_out + 1);
    }
    1.0
}

/// How much of the other card there is.
fn next_share(asked: &ExposureAsked, n: u32) -> f64 {
    let over = asked.dissolving();
    let from = asked.frames() - over;
    match n >= from {
        true => f64::from(n - from + 1) / f64::from(over + 1),
        false => 0.0,
    }
}
