//! A card as it is set, measured and exposed.

use onestrand_lettering::{Contrast, Remedy, SetCard, contrast};
use onestrand_store::Production;

use super::field::Field;
use super::lettered::set_title;
use super::reckoned::{Reckoned, Shop, refused};
use super::sheet::{SheetFor, title_sheet};
use super::stand_kept::{number, stand_of};
use super::title_film::TitleFilm;
use crate::ProductionError;
use crate::documents::{
    CardContrastDocument, CardRunDocument, ContrastRemedyDocument, ContrastRemedyWords,
    LettersDownWord, LettersReadDocument, StandWords, TitleCardDocument, TitleProblemDocument,
    TitleWords,
};

/// How wide a card is drawn to be measured: half of a usual workprint, for letters are
/// measured in squares of capitals, not of pixels. Unit: pixels.
const MEASURED: u32 = 480;

/// How one title is set, measured and exposed; it need not be kept.
///
/// What cannot be set is told among the problems; the rest is reckoned all the same.
///
/// # Errors
/// [`ProductionError::Unfit`] when the stand or a length cannot be read,
/// [`ProductionError::Store`].
pub fn title_card(
    production: &Production,
    title: &TitleWords,
) -> Result<TitleCardDocument, ProductionError> {
    let stand = stand_of(production)?;
    let shop = Shop::of(production, &stand)?;
    let set = set_title(production, title, &shop);
    let reckoned = Reckoned::of(title, &shop, set.as_ref().ok().map(SetCard::full_height))?;
    let mut problems = reckoned.problems;
    let field = Field::of(&shop)?;
    let card = match set {
        Ok(card) => Some(card),
        // That there are no words is told already, in words for this room.
        Err(_) if reckoned.words == 0 => None,
        Err(error) => {
            problems.push(refused(&error.to_string(), &error.hint()));
            None
        }
    };
    let film = match TitleFilm::draw(production, title, MEASURED) {
        Ok(film) => Some(film),
        Err(error) => {
            let told = problems.iter().any(|p| p.what == error.to_string());
            if !told {
                problems.push(refused(&error.to_string(), &error.hint()));
            }
            None
        }
    };
    let letters = match &card {
        Some(card) => Some(letters(card, &field, &stand, reckoned.words)?),
        None => None,
    };
    if let Some(small) = letters.as_ref().filter(|letters| !letters.last_row_reads) {
        problems.push(too_small(small));
    }
    let crawls = film.as_ref().and_then(|film| {
        let lines = card.as_ref()?.lines();
        film.crawl_measures(&field, stand.safe, lines.len(), reckoned.by_rule)
    });
    let film_of = SheetFor {
        gauge: Some(shop.gauge),
        speed: shop.speed,
        crawls,
    };
    // Why there is none is told already.
    let sheet = title_sheet(&reckoned.asked, &film_of).ok();
    let contrast = film.as_ref().zip(card.as_ref());
    let contrast = contrast.and_then(|(film, card)| match title.shooting.crawl {
        0 => stands_out(film),
        _ => crawl_stands_out(film, card),
    });
    Ok(TitleCardDocument {
        words: reckoned.words,
        by_rule: reckoned.by_rule,
        hold: reckoned.hold,
        letters,
        contrast,
        shown: part_of(field.shown_mm, field.seen_mm),
        safe: {
            let safe = f64::from(stand.safe) / 100.0;
            let (wide, high) = field.shown_mm;
            part_of((wide * safe, high * safe), field.seen_mm)
        },
        runs: film.as_ref().map(runs).unwrap_or_default(),
        frames: reckoned.whole,
        sheet,
        problems,
    })
}

fn stands_out(film: &TitleFilm) -> Option<CardContrastDocument> {
    let (ground, layer) = film.parts();
    let layer = layer?;
    let measured = contrast(ground, layer, film.size());
    Some(contrast_document(&measured, film.size()))
}

/// Pictures of a crawl that are measured: of a longer one the rest looks like them.
const CRAWL_MEASURED: u32 = 8;

/// How a crawl stands out: each line goes over the whole of the picture, so the lettering
/// is measured a picture's height apart, and the worst counts. Nothing is gained by letting
/// it stand elsewhere.
fn crawl_stands_out(film: &TitleFilm, card: &SetCard) -> Option<CardContrastDocument> {
    let (ground, _) = film.parts();
    let (width, height) = film.size();
    // At least one, and no more than are measured.
    let pictures = card
        .full_height()
        .ceil()
        .clamp(1.0, f64::from(CRAWL_MEASURED)) as u32;
    let all = (0..pictures).map(|picture| {
        let layer = card.draw(width, height, f64::from(picture));
        let has_letters = layer.letters().iter().any(|part| *part > 0);
        has_letters.then(|| contrast(ground, &layer, (width, height)))
    });
    let worst = all.flatten().min_by(|a, b| a.ratio.total_cmp(&b.ratio))?;
    let mut document = contrast_document(&worst, (width, height));
    document
        .remedies
        .retain(|one| !matches!(one.remedy, ContrastRemedyDocument::Move { .. }));
    Some(document)
}

/// A field in the middle of a larger one: left, top, width, height in thousandths.
fn part_of(inner: (f64, f64), outer: (f64, f64)) -> [i32; 4] {
    let thousandths = |part: f64| (part * 1000.0).round() as i32;
    let (wide, high) = (inner.0 / outer.0, inner.1 / outer.1);
    [
        thousandths((1.0 - wide) / 2.0),
        thousandths((1.0 - high) / 2.0),
        thousandths(wide),
        thousandths(high),
    ]
}

fn runs(film: &TitleFilm) -> Vec<CardRunDocument> {
    let mut runs: Vec<CardRunDocument> = Vec::new();
    for picture in film.first_alike() {
        match runs.last_mut() {
            Some(run) if run.picture == picture => run.frames += 1,
            _ => runs.push(CardRunDocument { frames: 1, picture }),
        }
    }
    runs
}

/// How the letters are read from the last row.
fn letters(
    card: &SetCard,
    field: &Field,
    stand: &StandWords,
    words: usize,
) -> Result<LettersReadDocument, ProductionError> {
    let last_row = number("the last row", &stand.last_row)?.unwrap_or(0.0);
    let screen = number("the screen", &stand.screen)?.unwrap_or(0.0);
    let needed = onestrand_title::letter_height_mm(last_row * 1000.0);
    let on_screen_high = screen * field.shown_mm.1 / field.shown_mm.0;
    // The rule is for capitals, from foot to top.
    let read = card.capital_height();
    let mm = |mm: f64| format!("{mm:.1}");
    let thousandths = |part: f64| (part * 1000.0).round() as u32;
    let needed_on_art = match screen > 0.0 {
        true => needed * field.shown_mm.0 / screen,
        false => 0.0,
    };
    Ok(LettersReadDocument {
        lines: card.lines().iter().map(|l| l.text.clone()).collect(),
        words,
        capitals: thousandths(card.capital_height()),
        small: thousandths(card.x_height()),
        on_art_mm: mm(read * field.shown_mm.1),
        on_screen_mm: mm(read * on_screen_high),
        needed_on_screen_mm: mm(needed),
        needed_on_art_mm: mm(needed_on_art),
        last_row_reads: screen <= 0.0 || read * on_screen_high >= needed - 0.05,
    })
}

fn too_small(letters: &LettersReadDocument) -> TitleProblemDocument {
    TitleProblemDocument {
        what: format!(
            "the letters are {} mm high on the screen, and the last row needs {} mm",
            letters.on_screen_mm, letters.needed_on_screen_mm
        ),
        next: "use larger letters or fewer words, or make two cards of it".to_owned(),
        refused: false,
    }
}

/// How letters stand out, with what may be done.
pub(super) fn contrast_document(found: &Contrast, size: (u32, u32)) -> CardContrastDocument {
    let tenths = |ratio: f64| (ratio * 10.0).floor() as u32;
    let across = |px: u32| px * 1000 / size.0.max(1);
    let down = |px: u32| px * 1000 / size.1.max(1);
    let at = found.worst;
    CardContrastDocument {
        least_tenths: tenths(found.ratio),
        usual_tenths: tenths(found.typical),
        asked_tenths: tenths(found.wanted),
        enough: found.enough,
        least_at: [across(at.x), down(at.y), across(at.width), down(at.height)],
        remedies: found
            .remedies
            .iter()
            .filter_map(|remedy| remedy_words(*remedy))
            .collect(),
    }
}

/// A remedy as the room can carry it out.
fn remedy_words(remedy: Remedy) -> Option<ContrastRemedyWords> {
    let (remedy, words) = match remedy {
        Remedy::Move { down } if down > 0.0 => (
            ContrastRemedyDocument::Move {
                down: LettersDownWord::Low,
            },
            "let the words stand low, where the picture is quieter".to_owned(),
        ),
        Remedy::Move { .. } => (
            ContrastRemedyDocument::Move {
                down: LettersDownWord::Top,
            },
            "let the words stand at the top, where the picture is quieter".to_owned(),
        ),
        Remedy::Plate => (
            ContrastRemedyDocument::Plate,
            "lay a plate under the words".to_owned(),
        ),
        Remedy::Darken { stops } => {
            let tenths = (stops * 10.0).ceil().max(1.0) as u32;
            let words = format!(
                "darken the artwork by {}.{} stops",
                tenths / 10,
                tenths % 10
            );
            (ContrastRemedyDocument::Darken { tenths }, words)
        }
        Remedy::DarkLetters => (
            ContrastRemedyDocument::OtherInk,
            "letters of the other ink: dark for light, light for dark".to_owned(),
        ),
        _ => return None,
    };
    Some(ContrastRemedyWords { remedy, words })
}
