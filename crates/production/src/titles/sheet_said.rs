//! An exposure sheet by what is said at the command line or in an address.

use onestrand_film::Gauge;
use onestrand_title::{
    ArtMove, CEL_DENSITY, Crawl, CrawlMeasures, DissolveTo, Exposing, ExposureAsked, ExposureTimes,
    HoldRule, LettersBy, RUN_UP, SAFE,
};
use serde::Deserialize;
use utoipa::IntoParams;

use super::sheet::{SheetFor, title_sheet};
use super::stand_kept::{gate, time};
use crate::ProductionError;
use crate::camera::numbers;
use crate::documents::TitleSheetDocument;
use crate::error::unfit;

/// What is wanted of a title on film.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct TitleSheetRequest {
    /// Words, for the hold by our own rule.
    pub words: Option<usize>,
    /// Or the hold itself. Unit: frames.
    pub hold: Option<u32>,
    /// The ground alone before the lettering. Unit: frames.
    pub before: Option<u32>,
    /// The ground alone after it. Unit: frames.
    pub after: Option<u32>,
    /// The lettering comes over as many. Unit: frames.
    pub letters_in: Option<u32>,
    /// The lettering goes over as many. Unit: frames.
    pub letters_out: Option<u32>,
    /// Out of the dark. Unit: frames.
    pub fade_in: Option<u32>,
    /// Into the dark. Unit: frames.
    pub fade_out: Option<u32>,
    /// Into another card. Unit: frames.
    pub dissolve: Option<u32>,
    /// The name of that card.
    pub dissolve_to: Option<String>,
    /// `cel`, `card` or `second`: on a cel, on a card of its own, or exposed a second time.
    pub letters_by: Option<String>,
    /// No blank cel lies in when the lettered one does not.
    pub no_blank_cel: Option<bool>,
    /// Another cel that lies in all along: its name.
    pub second_cel: Option<String>,
    /// Density of one cel.
    pub density: Option<f64>,
    /// A crawl upwards: the step of each frame. Unit: millimetres on the artwork.
    pub crawl: Option<f64>,
    /// How tall the lettering of the crawl is. Unit: millimetres on the artwork.
    pub text_high: Option<f64>,
    /// What is shown of the artwork, such as `224x169`. Unit: millimetres.
    pub shown: Option<String>,
    /// The thinnest stroke of the letters. Unit: millimetres on the artwork.
    pub stroke: Option<f64>,
    /// Words in one line of the crawl, for how long it must be in view.
    pub line_words: Option<usize>,
    /// The artwork moves: from east, from south, to east, to south, such as `-20 0 20 0`.
    /// Unit: millimetres.
    pub art_move: Option<String>,
    /// The first frame of the move, from 0.
    pub move_from: Option<u32>,
    /// Frames of the move; to the end of the card when not said.
    pub move_frames: Option<u32>,
    /// Frames over which the move begins softly, and over which it ends so.
    pub ease: Option<u32>,
    /// The camera runs where nothing changes.
    pub running: Option<bool>,
    /// How long a frame gets light while the camera runs, such as `1/43`. Unit: seconds.
    pub running_time: Option<String>,
    /// How long a single one gets light, such as `1/30`. Unit: seconds.
    pub single_time: Option<String>,
    /// How often it is shot, the first counted.
    pub takes: Option<u32>,
    /// Film run before each take. Unit: frames.
    pub run_up: Option<u32>,
    /// The furthest that the camera winds back. Unit: frames.
    pub wind_back: Option<u32>,
    /// The gauge, for feet and frames.
    pub gauge: Option<String>,
    /// Frames a second; `18` when not said.
    pub speed: Option<String>,
}

/// The exposure sheet of what is said.
///
/// # Errors
/// [`ProductionError::Title`] for what cannot be, [`ProductionError::Unfit`] where too
/// little or too much is said, [`ProductionError::Unit`] for a gauge or speed that is none.
pub fn title_sheet_said(
    request: &TitleSheetRequest,
) -> Result<TitleSheetDocument, ProductionError> {
    let (asked, film) = sheet_asked(request)?;
    title_sheet(&asked, &film)
}

/// What is asked, and for which film.
pub(crate) fn sheet_asked(
    request: &TitleSheetRequest,
) -> Result<(ExposureAsked, SheetFor), ProductionError> {
    let gauge: Option<Gauge> = request.gauge.as_deref().map(str::parse).transpose()?;
    let speed = request.speed.as_deref().unwrap_or("18").parse()?;
    let by_words = |words| {
        let found = onestrand_title::hold(words, &HoldRule::default(), speed)?;
        Ok::<u32, ProductionError>(found.frames.count())
    };
    let crawl = crawl(request)?;
    let hold = match (request.hold, request.words, &crawl) {
        (Some(hold), _, _) => hold,
        (None, _, Some((_, frames, _))) => *frames,
        (None, Some(words), None) => by_words(words)?,
        (None, None, None) => {
            return Err(unfit(
                "how long the lettering stands is not said".to_owned(),
                "say its words, such as 12, or its hold in frames, or let it crawl",
            ));
        }
    };
    let line_hold = by_words(request.line_words.unwrap_or(3))?;
    let crawls = crawl.as_ref().map(|(_, _, shown)| CrawlMeasures {
        shown_mm: *shown,
        stroke_mm: request.stroke,
        safe_high_mm: shown[1] * SAFE,
        line_hold,
    });
    let mut asked = ExposureAsked {
        letters_by: letters_by(request)?,
        before: request.before.unwrap_or(0),
        after: request.after.unwrap_or(0),
        letters_in: request.letters_in.unwrap_or(0),
        letters_out: request.letters_out.unwrap_or(0),
        fade_in: request.fade_in.unwrap_or(0),
        fade_out: request.fade_out.unwrap_or(0),
        dissolve: dissolve(request)?,
        crawl: crawl.map(|(crawl, _, _)| crawl),
        blank_cel: request.no_blank_cel != Some(true),
        second_cel: request.second_cel.clone(),
        cel_density: request.density.unwrap_or(CEL_DENSITY),
        exposing: match request.running {
            Some(true) => Exposing::Running,
            _ => Exposing::Single,
        },
        times: times(request)?,
        spares: request.takes.unwrap_or(1).saturating_sub(1),
        run_up: request.run_up.unwrap_or(RUN_UP),
        wind_back_most: request.wind_back,
        ..ExposureAsked::plain(hold)
    };
    asked.art_move = art_move(request, asked.frames())?;
    let film = SheetFor {
        gauge,
        speed,
        crawls,
    };
    Ok((asked, film))
}

fn letters_by(request: &TitleSheetRequest) -> Result<LettersBy, ProductionError> {
    match request.letters_by.as_deref().unwrap_or("cel") {
        "cel" => Ok(LettersBy::Cel),
        "card" => Ok(LettersBy::Card),
        "second" => Ok(LettersBy::SecondExposure),
        other => Err(unfit(
            format!("lettering by {other:?}"),
            "say cel, card or second: on a cel, on a card of its own, or exposed a second time",
        )),
    }
}

fn dissolve(request: &TitleSheetRequest) -> Result<Option<DissolveTo>, ProductionError> {
    let name = request.dissolve_to.as_deref().map(str::trim);
    match (request.dissolve.filter(|frames| *frames > 0), name) {
        (None, None) => Ok(None),
        (Some(frames), name) => Ok(Some(DissolveTo {
            name: name.unwrap_or("the next card").to_owned(),
            frames,
        })),
        (None, Some(name)) => Err(unfit(
            format!("a dissolve into {name} over no frames"),
            "say over how many frames, such as 24",
        )),
    }
}

type Crawls = (Crawl, u32, [f64; 2]);

fn crawl(request: &TitleSheetRequest) -> Result<Option<Crawls>, ProductionError> {
    let Some(step) = request.crawl else {
        return Ok(None);
    };
    let shown = gate(request.shown.as_deref().unwrap_or_default())?;
    let Some((text, (wide, high))) = request.text_high.zip(shown) else {
        return Err(unfit(
            "a crawl wants the height of its lettering and what is shown of the artwork".to_owned(),
            "say both in millimetres, such as 400 and 224x169: `title field` tells what is shown",
        ));
    };
    let (crawl, frames) = Crawl::upwards(text, high, step)?;
    Ok(Some((crawl, frames, [wide, high])))
}

fn art_move(request: &TitleSheetRequest, card: u32) -> Result<Option<ArtMove>, ProductionError> {
    const EXAMPLE: &str = "-20 0 20 0";
    let Some(text) = request.art_move.as_deref() else {
        return Ok(None);
    };
    let all = numbers(text, EXAMPLE)?;
    let [from_east, from_south, to_east, to_south] = all[..] else {
        return Err(unfit(
            format!("the move {text:?} is not four numbers"),
            "say where it begins and ends, east and south of the middle in mm: -20 0 20 0",
        ));
    };
    let first = request.move_from.unwrap_or(0);
    let rest = card.saturating_sub(first).saturating_sub(1);
    let ease = request.ease.unwrap_or(0);
    Ok(Some(ArtMove {
        from_mm: (from_east, from_south),
        to_mm: (to_east, to_south),
        first,
        frames: request.move_frames.unwrap_or(rest),
        ease_in: ease,
        ease_out: ease,
    }))
}

fn times(request: &TitleSheetRequest) -> Result<Option<ExposureTimes>, ProductionError> {
    let read = |what, text: &Option<String>| time(what, text.as_deref().unwrap_or_default());
    let running = read("the exposure while running", &request.running_time)?;
    let single = read("the exposure of a single frame", &request.single_time)?;
    match (running, single) {
        (None, None) => Ok(None),
        (Some(running_s), Some(single_s)) => Ok(Some(ExposureTimes {
            running_s,
            single_s,
        })),
        _ => Err(unfit(
            "one of the exposure times is said, and both are wanted".to_owned(),
            "say both, such as 1/43 running and 1/30 singly",
        )),
    }
}
