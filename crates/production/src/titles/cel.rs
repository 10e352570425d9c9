//! A cel of true size, lettered without a film.

use std::path::PathBuf;

use onestrand_film::Gauge;
use onestrand_lettering::set;
use onestrand_sheets::{Paper, TitleCel, TrueSizeHead, print_title_cel, title_cel_svg};
use serde::Serialize;

use super::lettered_card::{TitleLetteredRequest, card_asked};
use super::stand::{TitleFieldRequest, title_field};
use crate::ProductionError;
use crate::error::unfit;
use crate::print_sheets::write_whole;
use crate::throw::round;

/// A cel to print.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TitleCelRequest {
    /// Words, design and gauge; picture, ground and size are not read.
    pub letters: TitleLetteredRequest,
    /// How wide the camera sees the artwork. Unit: millimetres.
    pub width_mm: f64,
    /// The gate as it was measured, such as `5.69x4.22`.
    pub gate: Option<String>,
    /// White letters on black, for a second exposure.
    pub reversed: bool,
    /// Mirrored, to be printed on the back of clear film.
    pub mirrored: bool,
    /// On Letter in place of A4.
    pub letter: bool,
}

/// The answer of `title cel`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TitleCelMade {
    /// The file.
    pub path: PathBuf,
    /// `pdf` or `svg`.
    pub kind: &'static str,
    /// Pages; one drawing of an SVG.
    pub pages: usize,
    /// What the camera sees. Unit: millimetres.
    pub field_mm: [f64; 2],
    /// What of it is shown.
    pub shown_mm: [f64; 2],
    /// A capital on the cel. Unit: millimetres.
    pub capital_mm: f64,
    /// Lines as they are broken.
    pub lines: Vec<String>,
}

/// Letters a cel true to size and writes it as a PDF or an SVG, as the name of the file
/// says.
///
/// # Errors
/// [`ProductionError::Lettering`] for words that cannot be set, [`ProductionError::Title`]
/// for a field that cannot be, [`ProductionError::Unfit`] for a file of another kind,
/// [`ProductionError::Sheets`], [`ProductionError::File`].
pub fn title_cel(request: &TitleCelRequest) -> Result<TitleCelMade, ProductionError> {
    let out = &request.letters.out;
    let kind = out
        .extension()
        .and_then(|kind| kind.to_str())
        .unwrap_or_default();
    let kind = match kind.to_ascii_lowercase().as_str() {
        "pdf" => "pdf",
        "svg" => "svg",
        _ => {
            return Err(unfit(
                format!("a cel cannot be written as {}", out.display()),
                "let the name end in .pdf, to print, or in .svg, to draw on",
            ));
        }
    };
    let gauge: Gauge = request.letters.gauge.parse()?;
    let field = title_field(&TitleFieldRequest {
        gauge: gauge.to_string(),
        // Which lens it is does not matter to the field.
        lens_mm: 25.0,
        width_mm: Some(request.width_mm),
        gate: request.gate.clone(),
        safe_percent: request.letters.safe_percent,
        ..TitleFieldRequest::default()
    })?;
    let [wide, high] = field.aperture_mm;
    let card = set(&card_asked(&request.letters, (wide, high))?)?;
    let shown = (field.shown_mm[0], field.shown_mm[1]);
    let at = (
        (field.field_mm[0] - shown.0) / 2.0,
        (field.field_mm[1] - shown.1) / 2.0,
    );
    let first = card.lines().first().map(|line| line.text.clone());
    let cel = TitleCel {
        head: TrueSizeHead {
            title: String::new(),
            of: first.unwrap_or_default(),
            field_mm: field.field_mm,
            shown_mm: field.shown_mm,
            safe_mm: field.safe_mm,
            paper: match request.letter {
                true => Paper::Letter,
                false => Paper::A4,
            },
        },
        outlines: card.path_data_at(shown, at),
        pen_mm: card.pen_mm(shown),
        high_mm: field.field_mm[1],
        reversed: request.reversed,
        mirrored: request.mirrored,
    };
    let pages = match kind {
        "svg" => {
            write_whole(out, title_cel_svg(&cel).as_bytes())?;
            1
        }
        _ => {
            let printed = print_title_cel(&cel)?;
            write_whole(out, &printed.pdf)?;
            printed.pages.len()
        }
    };
    Ok(TitleCelMade {
        path: out.clone(),
        kind,
        pages,
        field_mm: field.field_mm,
        shown_mm: field.shown_mm,
        capital_mm: round(card.capital_height() * shown.1, 2),
        lines: card.lines().iter().map(|line| line.text.clone()).collect(),
    })
}
