//! A card lettered without a film, and written as a picture.

use std::path::{Path, PathBuf};

use onestrand_film::Gauge;
use onestrand_lettering::{
    Across, CardAsked, Design, Down, Fitted, SetCard, contrast, ground_of, laid_over, set,
};
use onestrand_pictures::encode_png;
use onestrand_title::{aperture_mm, count_words};

use super::cards::contrast_document;
use crate::ProductionError;
use crate::documents::{PictureFittedDocument, TitleCardMadeDocument};
use crate::error::{file, unfit};
use crate::print_sheets::write_whole;
use crate::throw::round;

/// Sides of a picture that is made. Unit: pixels.
const SIDES: std::ops::RangeInclusive<u32> = 64..=8192;

/// A card to letter. What stands as text is read as a person writes it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TitleLetteredRequest {
    /// The words, with the line ends as typed.
    pub words: String,
    /// The file that they came from, which is not written over.
    pub words_file: Option<PathBuf>,
    /// The design's word, such as `brush`.
    pub design: String,
    /// The gauge.
    pub gauge: String,
    /// The picture to write, a PNG.
    pub out: PathBuf,
    /// Its size, such as `1440x1080`. Unit: pixels.
    pub size: String,
    /// A picture under the words.
    pub picture: Option<PathBuf>,
    /// A plain ground instead: a grey in per cent such as `20`, or a colour such as
    /// `#203040`.
    pub ground: Option<String>,
    /// A typeface of the user's own.
    pub font: Option<PathBuf>,
    /// `left`, `centre` or `right`; centre when not said.
    pub across: Option<String>,
    /// `top`, `middle` or `low`; middle when not said.
    pub down: Option<String>,
    /// Height of a capital. Unit: per cent of the picture's height.
    pub letter_height: Option<f64>,
    /// The part of what is shown that is safe; 80 when not said. Unit: per cent.
    pub safe_percent: Option<f64>,
    /// Black letters.
    pub black: bool,
    /// A contour around the letters.
    pub outline: bool,
    /// A shadow beside them.
    pub shadow: bool,
    /// A plate behind them.
    pub plate: bool,
}

/// Letters a card and writes it as a PNG, under its name only once it is whole.
///
/// # Errors
/// [`ProductionError::Lettering`] for words or a font or picture that cannot be,
/// [`ProductionError::Unfit`] for what cannot be read, [`ProductionError::Unit`] for a
/// gauge that there is none of, [`ProductionError::File`].
pub fn letter_title(
    request: &TitleLetteredRequest,
) -> Result<TitleCardMadeDocument, ProductionError> {
    let gauge: Gauge = request.gauge.parse()?;
    let size = size_of(&request.size)?;
    keeps_what_it_reads(request)?;
    let [wide, high] = aperture_mm(gauge.spec().shown);
    let card = set(&card_asked(request, (wide, high))?)?;
    let (ground, fitted) = ground(request, size)?;
    let layer = card.draw(size.0, size.1, 0.0);
    let measured = contrast(&ground, &layer, size);
    let shown = laid_over(&ground, &layer, 1.0, 1.0);
    write_whole(&request.out, &png(&shown, size)?)?;
    let contrast = contrast_document(&measured, size);
    let warnings = warnings(&card, fitted.as_ref(), &contrast);
    let ink = card.bounds();
    Ok(TitleCardMadeDocument {
        out: request.out.display().to_string(),
        size: [size.0, size.1],
        gauge: gauge.to_string(),
        aperture_mm: [wide, high],
        design: card.design().word().to_owned(),
        words: count_words(&request.words),
        lines: card.lines().iter().map(|line| line.text.clone()).collect(),
        capital_height: round(card.capital_height(), 4),
        x_height: round(card.x_height(), 4),
        ink: [ink.left, ink.top, ink.right, ink.bottom].map(|side| round(side, 4)),
        contrast,
        picture: fitted.map(|fitted| PictureFittedDocument {
            was: [fitted.was.0, fitted.was.1],
            cut_across_percent: round(fitted.cut_across * 100.0, 1),
            cut_down_percent: round(fitted.cut_down * 100.0, 1),
            enlarged: round(fitted.enlarged, 3),
        }),
        warnings,
    })
}

/// What is asked of the lettering.
pub(super) fn card_asked(
    request: &TitleLetteredRequest,
    aspect_mm: (f64, f64),
) -> Result<CardAsked, ProductionError> {
    let design: Design = request.design.parse()?;
    let face = request.font.as_deref().map(bytes_of).transpose()?;
    Ok(CardAsked {
        safe: request.safe_percent.unwrap_or(80.0) / 100.0,
        letter_height: request.letter_height.map(|percent| percent / 100.0),
        across: match request.across.as_deref() {
            None | Some("centre" | "center") => Across::Centre,
            Some("left") => Across::Left,
            Some("right") => Across::Right,
            Some(other) => return Err(no_place(other, "left, centre or right")),
        },
        down: match request.down.as_deref() {
            None | Some("middle") => Down::Middle,
            Some("top") => Down::Top,
            Some("low" | "bottom") => Down::Low,
            Some(other) => return Err(no_place(other, "top, middle or low")),
        },
        outline: request.outline.then_some(true),
        shadow: request.shadow.then_some(true),
        plate: request.plate,
        dark_on_light: request.black,
        face,
        ..CardAsked::new(request.words.clone(), design, aspect_mm)
    })
}

fn no_place(given: &str, places: &str) -> ProductionError {
    unfit(
        format!("“{given}” is no place on a card"),
        &format!("say {places}"),
    )
}

/// A picture is never written over what the card is made of.
fn keeps_what_it_reads(request: &TitleLetteredRequest) -> Result<(), ProductionError> {
    let Ok(out) = request.out.canonicalize() else {
        return Ok(());
    };
    let read = [&request.picture, &request.font, &request.words_file];
    let read = read.into_iter().flatten();
    if read
        .filter_map(|path| path.canonicalize().ok())
        .any(|path| path == out)
    {
        return Err(unfit(
            format!(
                "the card would be written over what it is made of: {}",
                out.display()
            ),
            "give --out another name",
        ));
    }
    Ok(())
}

fn bytes_of(path: &Path) -> Result<Vec<u8>, ProductionError> {
    std::fs::read(path).map_err(file("read", path))
}

/// `1440x1080`.
fn size_of(given: &str) -> Result<(u32, u32), ProductionError> {
    let sides = given.split_once(['x', '×', 'X']);
    let side = |text: &str| text.trim().parse().ok().filter(|side| SIDES.contains(side));
    sides
        .and_then(|(wide, high)| Some((side(wide)?, side(high)?)))
        .ok_or_else(|| {
            unfit(
                format!("“{given}” is no size of a picture"),
                "write pixels across and down, such as 1440x1080; each side from 64 to 8192",
            )
        })
}

/// What lies under the words.
fn ground(
    request: &TitleLetteredRequest,
    size: (u32, u32),
) -> Result<(Vec<u8>, Option<Fitted>), ProductionError> {
    if let Some(path) = &request.picture {
        let (ground, fitted) = ground_of(&bytes_of(path)?, size)?;
        return Ok((ground, Some(fitted)));
    }
    let usual = if request.black { "94" } else { "0" };
    let colour = colour_of(request.ground.as_deref().unwrap_or(usual))?;
    Ok((colour.repeat(size.0 as usize * size.1 as usize), None))
}

/// A grey in per cent of white as it looks, or a colour of sRGB.
fn colour_of(given: &str) -> Result<[u8; 3], ProductionError> {
    let refused = || {
        unfit(
            format!("“{given}” is no ground"),
            "write a grey in per cent, 0 for black to 100 for white, or a colour such as #203040",
        )
    };
    if let Some(hex) = given.strip_prefix('#') {
        let value = u32::from_str_radix(hex, 16).map_err(|_| refused())?;
        if hex.len() != 6 {
            return Err(refused());
        }
        let [_, red, green, blue] = value.to_be_bytes();
        return Ok([red, green, blue]);
    }
    let percent: f64 = given
        .trim_end_matches('%')
        .trim()
        .parse()
        .map_err(|_| refused())?;
    if !(0.0..=100.0).contains(&percent) {
        return Err(refused());
    }
    Ok([(percent * 2.55).round() as u8; 3])
}

fn png(rgb: &[u8], size: (u32, u32)) -> Result<Vec<u8>, ProductionError> {
    encode_png(rgb, size).map_err(|error| {
        unfit(
            format!("the picture could not be written as PNG: {error}"),
            "try a smaller size",
        )
    })
}

/// What wants a look.
fn warnings(
    card: &SetCard,
    fitted: Option<&Fitted>,
    contrast: &crate::documents::CardContrastDocument,
) -> Vec<String> {
    let mut warnings = Vec::new();
    if let Some(fitted) = fitted.filter(|fitted| fitted.is_another_shape()) {
        let (cut, sides) = if fitted.cut_across > fitted.cut_down {
            (fitted.cut_across, "left and right")
        } else {
            (fitted.cut_down, "top and bottom")
        };
        warnings.push(format!(
            "the picture has another shape than the card: {:.0} % was cut away, at {sides}; crop it yourself to choose what goes",
            cut * 100.0
        ));
    }
    if let Some(fitted) = fitted.filter(|fitted| fitted.enlarged > 1.5) {
        warnings.push(format!(
            "the picture was enlarged {:.1} times and looks soft; scan or photograph it larger",
            fitted.enlarged
        ));
    }
    if !contrast.enough {
        let remedies: Vec<&str> = contrast.remedies.iter().map(|r| r.words.as_str()).collect();
        warnings.push(format!(
            "the letters stand out by {:.1} to 1 at their worst place, {:.1} to 1 is wanted{}",
            f64::from(contrast.least_tenths) / 10.0,
            f64::from(contrast.asked_tenths) / 10.0,
            match remedies.as_slice() {
                [] => "; try another picture, or a plate behind the words".to_owned(),
                some => format!("; any of these is enough: {}", some.join("; ")),
            }
        ));
    }
    // 20 minutes of arc at the last row of a hall in which the screen is 1,200 mm wide
    // and the last row 5 m away: 29.1 mm of 900.
    if card.capital_height() < 0.032 {
        warnings.push(format!(
            "a capital is {:.1} % of the picture's height; for a screen 1.2 m wide and a last row at 5 m it is to be 3.2 %: set fewer words, or larger letters",
            card.capital_height() * 100.0
        ));
    }
    warnings
}
