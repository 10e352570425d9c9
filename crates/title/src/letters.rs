//! How high letters must be for the last row.

use onestrand_film::{HallLength, LETTER_ARC_MINUTES};

use crate::title_error::{TitleError, within};

/// How large letters must appear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LetterRule {
    /// The word in commands and files.
    pub code: &'static str,
    /// The words on screens and sheets.
    pub name: &'static str,
    /// Unit: minutes of arc.
    pub arc_minutes: f64,
    /// Where it is from, and how sure that is.
    pub source: &'static str,
}

/// The rules for letters, the usual one first.
pub const LETTER_RULES: [LetterRule; 2] = [
    LetterRule {
        code: "ease",
        name: "read with ease",
        arc_minutes: LETTER_ARC_MINUTES,
        source: "2 × distance × tan 10′: an editable figure of the trade",
    },
    LetterRule {
        code: "smallest",
        name: "smallest legible",
        arc_minutes: 8.6,
        source: "1/50 of the picture's height at 8 heights: pamphlets on legibility, from \
                 memory; the angle reckoned",
    },
];

/// A hall and a picture in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LettersAsked {
    /// From the screen to the last row.
    pub last_row: HallLength,
    /// Across the picture on the screen.
    pub screen: HallLength,
    /// Width and height of what is shown, on the artwork. Unit: millimetres.
    pub shown_mm: [f64; 2],
    /// How large letters must appear. Unit: minutes of arc. Range: 1 to 120.
    pub arc_minutes: f64,
}

/// How high letters must be: a capital from its foot to its top.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Letters {
    /// On the screen. Unit: millimetres.
    pub on_screen_mm: f64,
    /// On the artwork. Unit: millimetres.
    pub on_art_mm: f64,
    /// As a part of the height of the picture.
    pub of_height: f64,
}

/// How high letters must be on the screen to be read with ease from so far: 2 d tan 10′.
/// Unit: millimetres.
///
/// ```
/// # use onestrand_title::letter_height_mm;
/// assert_eq!(format!("{:.1}", letter_height_mm(5_000.0)), "29.1");
/// ```
#[must_use]
pub fn letter_height_mm(last_row_mm: f64) -> f64 {
    of_arc(last_row_mm, LETTER_ARC_MINUTES)
}

/// What an arc of so many minutes is across, from so far. Unit: millimetres.
fn of_arc(distance_mm: f64, arc_minutes: f64) -> f64 {
    2.0 * distance_mm * (arc_minutes / 120.0).to_radians().tan()
}

/// How high letters must be for the last row: 2 d tan(arc ÷ 2) on the screen, and as much
/// smaller on the artwork as the artwork is.
///
/// # Errors
/// [`TitleError::OutOfRange`] for what no hall or artwork is.
///
/// ```
/// # use onestrand_title::{LettersAsked, letters};
/// let asked = LettersAsked {
///     last_row: "5m".parse()?, screen: "1.2m".parse()?, shown_mm: [223.97, 169.14], arc_minutes: 20.0,
/// };
/// let found = letters(&asked)?;
/// assert_eq!(format!("{:.1} {:.1}", found.on_screen_mm, found.on_art_mm), "29.1 5.4");
/// assert!(letters(&LettersAsked { arc_minutes: 0.0, ..asked }).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn letters(asked: &LettersAsked) -> Result<Letters, TitleError> {
    let hint = "20 reads with ease, 8.6 is the smallest that is legible";
    let arc = within("minutes of arc", asked.arc_minutes, (1.0, 120.0), hint)?;
    let hint = "what is shown of the artwork, such as 224 × 169 mm";
    for side in asked.shown_mm {
        within(
            "a side of the shown field in mm",
            side,
            (1.0, 5_000.0),
            hint,
        )?;
    }
    let on_screen_mm = of_arc(asked.last_row.mm(), arc);
    let on_art_mm = on_screen_mm * asked.shown_mm[0] / asked.screen.mm();
    Ok(Letters {
        on_screen_mm,
        on_art_mm,
        of_height: on_art_mm / asked.shown_mm[1],
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use onestrand_film::letter_height;

    fn asked(row: &str, arc_minutes: f64) -> LettersAsked {
        LettersAsked {
            last_row: row.parse().expect("a row"),
            screen: "1.2m".parse().expect("a screen"),
            shown_mm: [224.0, 169.1],
            arc_minutes,
        }
    }

    /// The hall's own sum, in the film crate, says the same.
    #[test]
    fn hall_and_stand_agree() {
        for row in ["2m", "5m", "17.5m"] {
            let asked = asked(row, LETTER_ARC_MINUTES);
            let found = letters(&asked).expect("letters").on_screen_mm;
            assert!(
                (found - letter_height(asked.last_row)).abs() < 1e-9,
                "{row}"
            );
        }
    }

    /// O074: 8.6 minutes are 1/50 of the height at 8 heights.
    #[test]
    fn the_smallest_legible_is_a_fiftieth_at_eight_heights() {
        let high = 1_200.0 * 169.1 / 224.0;
        let row = format!("{:.3}mm", high * 8.0);
        let found = letters(&asked(&row, LETTER_RULES[1].arc_minutes)).expect("letters");
        assert!((found.of_height - 0.02).abs() < 2e-5, "{}", found.of_height);
    }
}
