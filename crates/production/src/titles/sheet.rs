//! The exposure sheet of a title as a document.

use onestrand_film::{Fps, Frames, Gauge};
use onestrand_title::{
    self as title, Crawl, CrawlMeasures, ExposureAsked, ExposureLine, ExposureSheet,
};

use super::opened_sum::sum;
use super::sheet_words::{
    background, cartridge_warning, cel, crawl_warning, exposing, note, warning,
};
use crate::ProductionError;
use crate::camera::{figure, plate, signed};
use crate::documents::{
    CameraOpenedDocument, ExposureLineDocument, TitleNeedDocument, TitleSheetDocument,
    TitleWarningDocument,
};
use crate::throw::round;

/// What is known of the film a title is for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetFor {
    /// The gauge, for feet and frames.
    pub gauge: Option<Gauge>,
    /// Frames a second.
    pub speed: Fps,
    /// What is known of what crawls, to judge its step.
    pub crawls: Option<CrawlMeasures>,
}

/// The exposure sheet of what is asked.
///
/// # Errors
/// [`ProductionError::Title`] for what cannot be.
pub fn title_sheet(
    asked: &ExposureAsked,
    film: &SheetFor,
) -> Result<TitleSheetDocument, ProductionError> {
    let sheet = title::exposure_sheet(asked)?;
    let mut warnings: Vec<TitleWarningDocument> = sheet.warnings.iter().map(warning).collect();
    if let Some((crawl, seen)) = asked.crawl.zip(film.crawls) {
        let best = Crawl::largest_good_step_mm(&seen);
        let faults = crawl.faults(&seen);
        warnings.extend(faults.iter().map(|fault| crawl_warning(fault, best)));
    }
    if asked.wind_back_most.is_none() && film.gauge == Some(Gauge::Super8) {
        warnings.extend(cartridge_warning(sheet.need.wound_back));
    }
    let footage = |frames: u32| -> Option<String> {
        let count = Frames::new(frames).ok()?;
        Some(film.gauge?.footage(count).to_string())
    };
    let opened = opened(asked, &sheet, film);
    Ok(TitleSheetDocument {
        frames: sheet.frames,
        parts: [asked.before, asked.hold, asked.after],
        seconds: round(f64::from(sheet.frames) / film.speed.as_f64(), 3),
        passes: sheet.passes,
        lines: lines(asked, &sheet),
        need: TitleNeedDocument {
            takes: sheet.need.takes,
            frames_each: sheet.need.frames_each,
            frames: sheet.need.frames,
            footage: footage(sheet.need.frames),
            wound_back: sheet.need.wound_back,
        },
        single_over_running_stops: sheet
            .times
            .map(|times| round(times.single_over_running(), 3)),
        warnings,
        cautions: onestrand_sheets::stand_caution_words(false),
        opened,
    })
}

fn lines(asked: &ExposureAsked, sheet: &ExposureSheet) -> Vec<ExposureLineDocument> {
    let before = std::iter::once(None).chain(sheet.lines.iter().map(Some));
    let pairs = before.zip(&sheet.lines);
    pairs
        .map(|(before, line)| document(asked, before, line))
        .collect()
}

fn document(
    asked: &ExposureAsked,
    before: Option<&ExposureLine>,
    line: &ExposureLine,
) -> ExposureLineDocument {
    let pair = |(east, south): (f64, f64)| [round(east, 3), round(south, 3)];
    ExposureLineDocument {
        pass: line.pass,
        from: line.from,
        to: line.to,
        background: background(line.background).to_owned(),
        cel_1: cel(line.cel_1).to_owned(),
        cel_2: cel(line.cel_2).to_owned(),
        art_mm: pair(line.art_mm),
        art_step_mm: pair(line.art_step_mm),
        letters_mm: pair(line.letters_mm),
        letters_step_mm: pair(line.letters_step_mm),
        stops: line.stops.map(|stops| round(stops, 3)),
        part: round(line.part(), 4),
        exposing: exposing(line.exposing).to_owned(),
        iris_stops: round(line.iris_stops, 3),
        note: note(asked, before, line),
    }
}

fn opened(asked: &ExposureAsked, sheet: &ExposureSheet, film: &SheetFor) -> CameraOpenedDocument {
    let need = sheet.need;
    let seconds = figure(f64::from(sheet.frames) / film.speed.as_f64(), 2);
    let parts = format!("{} + {} + {}", asked.before, asked.hold, asked.after);
    let mut sums = vec![
        sum(
            "frames",
            "ground alone + lettering + ground alone",
            parts.clone(),
            format!("{} frames, {seconds} s", sheet.frames),
            "fades and dissolves lie within",
        ),
        sum(
            "of the roll",
            "takes × (frames + run-up)",
            format!("{} × ({} + {})", need.takes, sheet.frames, asked.run_up),
            format!("{} frames", need.frames),
            "the run-up is that of the plan of the film; a further pass takes no more film",
        ),
        sum(
            "one cel more",
            "density × log2(10)",
            format!("{} × 3.322", figure(asked.cel_density, 3)),
            format!(
                "{} stop darker",
                figure(title::darkening_stops(asked.cel_density), 2)
            ),
            "density is the decimal logarithm of the light kept back",
        ),
    ];
    if let Some(times) = sheet.times {
        sums.push(sum(
            "single against running",
            "log2(single ÷ running)",
            format!(
                "{} s ÷ {} s",
                figure(times.single_s, 4),
                figure(times.running_s, 4)
            ),
            format!("{} stop", signed(times.single_over_running(), 2)),
            "light adds up over time",
        ));
    }
    let fade = match asked.fade_in + asked.fade_out {
        0 => Vec::new(),
        _ => vec![format!(
            "fades go by equal parts of a stop to {} below, then shut: a figure of the trade; where the ring ends before, use the variable shutter, or a card before the lens",
            figure(title::FADE_STOPS, 0)
        )],
    };
    let passes = match sheet.passes {
        1 => String::new(),
        n => format!(", {n} passes"),
    };
    CameraOpenedDocument {
        plates: vec![
            plate("frames", sheet.frames.to_string(), parts.clone()),
            plate("on the screen", seconds.clone(), "seconds"),
            plate(
                "of the roll",
                need.frames.to_string(),
                "frames with spares and run-up",
            ),
        ],
        sums,
        taken: fade,
        text: format!(
            "{parts} = {} frames, {seconds} s{passes}; {} of the roll",
            sheet.frames, need.frames
        ),
    }
}
