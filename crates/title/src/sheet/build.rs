//! From what is asked to the lines of the sheet.

use crate::crawl::Crawl;
use crate::sheet::art_move::ArtMove;
use crate::sheet::asked::{Exposing, ExposureAsked, LettersBy};
use crate::sheet::line::{Background, CelIn, ExposureLine, ExposureSheet};
use crate::sheet::need::need;
use crate::sheet::warning::warnings;
use crate::title_error::TitleError;

/// How far down a fade goes before the lens is shut. Unit: stops. An editable figure of
/// the trade: the job's stage sheet.
pub const FADE_STOPS: f64 = 5.0;

/// How light changes over some frames.
#[derive(Debug, Clone, Copy)]
struct Ramp {
    from: u32,
    frames: u32,
    goes: Goes,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Goes {
    /// Out of the dark by equal parts of a stop.
    StopsUp,
    /// Into the dark by equal parts of a stop.
    StopsDown,
    /// Grows by equal parts of the whole light.
    ShareUp,
    /// Shrinks by equal parts of the whole light.
    ShareDown,
}

impl Ramp {
    const fn new(from: u32, frames: u32, goes: Goes) -> Self {
        Self { from, frames, goes }
    }

    const fn end(self) -> u32 {
        self.from + self.frames
    }

    /// Stops on a frame within it, stepping from its begin.
    fn stops(self, frame: u32) -> f64 {
        let parts = f64::from(self.frames);
        let step = f64::from(frame - self.from);
        match self.goes {
            Goes::StopsUp => -FADE_STOPS + FADE_STOPS / parts * step,
            Goes::StopsDown => -FADE_STOPS / parts * (step + 1.0),
            Goes::ShareUp => ((step + 1.0) / (parts + 1.0)).log2(),
            Goes::ShareDown => (1.0 - (step + 1.0) / (parts + 1.0)).log2(),
        }
    }
}

/// A stretch of one pass in which the same things lie under the camera.
#[derive(Debug)]
struct Part {
    pass: u32,
    from: u32,
    to: u32,
    background: Background,
    cel_1: CelIn,
    ramps: Vec<Ramp>,
}

/// The exposure sheet of a title.
///
/// # Errors
/// [`TitleError::OutOfRange`] and [`TitleError::CannotBoth`] for what cannot be.
///
/// ```
/// # use onestrand_title::{ExposureAsked, exposure_sheet};
/// let asked = ExposureAsked { before: 36, after: 18, ..ExposureAsked::plain(126) };
/// let sheet = exposure_sheet(&asked)?;
/// assert_eq!((sheet.frames, sheet.lines.len()), (180, 3));
/// assert!(exposure_sheet(&ExposureAsked::plain(0)).is_err());
/// # Ok::<(), onestrand_title::TitleError>(())
/// ```
pub fn exposure_sheet(asked: &ExposureAsked) -> Result<ExposureSheet, TitleError> {
    asked.check()?;
    let places = asked
        .art_move
        .map(|art_move| table(&art_move))
        .unwrap_or_default();
    let mut lines = Vec::new();
    for part in parts(asked) {
        lay(asked, &places, &part, &mut lines);
    }
    let passes = lines.iter().map(|line| line.pass).max().unwrap_or(1);
    // Each further pass winds back from the last frame exposed to its own first.
    let ends = |pass: u32| {
        let of = lines.iter().filter(move |line| line.pass == pass);
        let from = of.clone().map(|line| line.from).min().unwrap_or(0);
        (from, of.map(|line| line.to).max().unwrap_or(0))
    };
    let back = (2..=passes).map(|pass| ends(pass - 1).1.saturating_sub(ends(pass).0));
    let need = need(asked, back.max().unwrap_or(0));
    let runs = lines
        .iter()
        .filter(|line| line.exposing == Exposing::Running);
    let runs = u32::try_from(runs.count()).unwrap_or(u32::MAX);
    let is_mixed = lines.iter().any(|line| line.exposing == Exposing::Single);
    let lettered = u32::from(asked.letters_by == LettersBy::Cel);
    Ok(ExposureSheet {
        frames: asked.frames(),
        passes,
        cel_density: asked.cel_density,
        cels_reckoned: lettered + u32::from(asked.second_cel.is_some()),
        times: asked.times,
        warnings: warnings(asked, &need, runs, is_mixed),
        need,
        lines,
    })
}

/// What lies under the camera, pass by pass.
fn parts(asked: &ExposureAsked) -> Vec<Part> {
    let frames = asked.frames();
    let (full, going) = (asked.before, asked.before + asked.hold);
    let (from, end) = asked.lettered();
    let is_slow = asked.letters_in > 0 || asked.letters_out > 0;
    let comes = Ramp::new(from, asked.letters_in, Goes::ShareUp);
    let goes = Ramp::new(going, asked.letters_out, Goes::ShareDown);
    let part = |pass, from, to, background, cel_1, ramps: &[Ramp]| Part {
        pass,
        from,
        to,
        background,
        cel_1,
        ramps: ramps.to_vec(),
    };
    let blank = match asked.letters_by == LettersBy::Cel && asked.blank_cel {
        true => CelIn::Blank,
        false => CelIn::None,
    };
    let (background, cel) = match asked.letters_by {
        LettersBy::Cel => (Background::Ground, CelIn::Lettered),
        LettersBy::Card => (Background::Card, CelIn::None),
        LettersBy::SecondExposure => (Background::Black, CelIn::Lettered),
    };
    let lettered = |pass| part(pass, from, end, background, cel, &[comes, goes]);
    let mut all = match (asked.letters_by, is_slow) {
        (LettersBy::SecondExposure, _) => vec![
            part(1, 0, frames, Background::Ground, blank, &[]),
            lettered(2),
        ],
        (_, true) => {
            let away = Ramp::new(from, asked.letters_in, Goes::ShareDown);
            let back = Ramp::new(going, asked.letters_out, Goes::ShareUp);
            vec![
                part(1, 0, full, Background::Ground, blank, &[away]),
                part(1, going, frames, Background::Ground, blank, &[back]),
                lettered(2),
            ]
        }
        (_, false) => vec![
            part(1, 0, full, Background::Ground, blank, &[]),
            lettered(1),
            part(1, going, frames, Background::Ground, blank, &[]),
        ],
    };
    let last = all.iter().map(|part| part.pass).max().unwrap_or(1);
    if asked.dissolve.is_some() {
        let over = asked.dissolving();
        let away = Ramp::new(frames - over, over, Goes::ShareDown);
        all.iter_mut().for_each(|part| part.ramps.push(away));
        let next = Ramp::new(frames - over, over, Goes::ShareUp);
        all.push(part(
            last + 1,
            frames - over,
            frames,
            Background::Next,
            CelIn::None,
            &[next],
        ));
    }
    let fade_in = Ramp::new(0, asked.fade_in, Goes::StopsUp);
    let fade_out = Ramp::new(frames - asked.fade_out, asked.fade_out, Goes::StopsDown);
    all.iter_mut()
        .for_each(|part| part.ramps.extend([fade_in, fade_out]));
    all.retain(|part| part.from < part.to);
    shut_between(all)
}

/// Where a pass leaves frames out between two parts, the film runs through shut.
fn shut_between(parts: Vec<Part>) -> Vec<Part> {
    let mut all: Vec<Part> = Vec::new();
    for part in parts {
        let hole = all
            .last()
            .filter(|last| last.pass == part.pass && last.to < part.from);
        if let Some(last) = hole {
            let (pass, from) = (last.pass, last.to);
            all.push(Part {
                pass,
                from,
                to: part.from,
                background: Background::Black,
                cel_1: CelIn::None,
                ramps: Vec::new(),
            });
        }
        all.push(part);
    }
    all
}

/// Where the artwork lies after each step, step by step. Unit: millimetres.
fn table(art_move: &ArtMove) -> Vec<(f64, f64)> {
    let whole: f64 = (1..=art_move.frames)
        .map(|step| art_move.weight(step))
        .sum();
    let (from, to) = (art_move.from_mm, art_move.to_mm);
    let mut done = 0.0;
    let mut places = vec![from];
    for step in 1..=art_move.frames {
        done += art_move.weight(step) / whole;
        places.push((
            from.0 + (to.0 - from.0) * done,
            from.1 + (to.1 - from.1) * done,
        ));
    }
    places
}

/// Lays the lines of a part: one where nothing changes or only by equal steps, one a frame
/// where light changes or steps grow.
fn lay(asked: &ExposureAsked, places: &[(f64, f64)], part: &Part, lines: &mut Vec<ExposureLine>) {
    let is_shut = part.background == Background::Black && part.cel_1 == CelIn::None;
    let art_move = asked
        .art_move
        .filter(|_| part.background != Background::Next && !is_shut);
    let place = |frame: u32| {
        let first = art_move.map_or(0, |art_move| art_move.first);
        let step = frame.saturating_sub(first) as usize;
        let found = art_move.and_then(|_| places.get(step).or(places.last()));
        found.copied().unwrap_or((0.0, 0.0))
    };
    let mut cuts: Vec<u32> = part
        .ramps
        .iter()
        .flat_map(|ramp| [ramp.from, ramp.end()])
        .collect();
    if let Some(art_move) = art_move {
        let (first, end) = (art_move.first, art_move.first + art_move.frames);
        cuts.extend([
            first,
            first + art_move.ease_in,
            end - art_move.ease_out,
            end,
        ]);
    }
    cuts.extend([part.from, part.to]);
    cuts.retain(|cut| (part.from..=part.to).contains(cut));
    cuts.sort_unstable();
    cuts.dedup();
    for ends in cuts.windows(2) {
        let [from, to] = [ends[0], ends[1]];
        let lit: Vec<Ramp> = part
            .ramps
            .iter()
            .copied()
            .filter(|ramp| ramp.from <= from && to <= ramp.end() && ramp.frames > 0)
            .collect();
        let eased = art_move.is_some_and(|art_move| {
            let end = art_move.first + art_move.frames;
            let grows = from >= art_move.first && to <= art_move.first + art_move.ease_in;
            grows || (from >= end - art_move.ease_out && to <= end)
        });
        let step = match lit.is_empty() && !eased {
            true => to - from,
            false => 1,
        };
        for at in (from..to).step_by(step as usize) {
            let stops = lit.iter().map(|ramp| ramp.stops(at)).sum();
            let stops = Some(stops).filter(|_| !is_shut);
            let next = place(at + 1);
            let art_step_mm = (next.0 - place(at).0, next.1 - place(at).1);
            lines.push(line(
                asked,
                part,
                (at, at + step),
                stops,
                (place(at), art_step_mm),
            ));
        }
    }
}

type Pair = (f64, f64);

fn line(
    asked: &ExposureAsked,
    part: &Part,
    (from, to): (u32, u32),
    stops: Option<f64>,
    (art_mm, art_step_mm): (Pair, Pair),
) -> ExposureLine {
    let is_lettered = part.cel_1 == CelIn::Lettered || part.background == Background::Card;
    let crawl: Option<Crawl> = asked.crawl.filter(|_| is_lettered);
    let (first, _) = asked.lettered();
    let letters_mm = crawl.map_or((0.0, 0.0), |crawl| crawl.at(from - first));
    let letters_step_mm = crawl.map_or((0.0, 0.0), |crawl| crawl.step_mm);
    // One frame has no step within it.
    let within = |step: Pair| if to - from > 1 { step } else { (0.0, 0.0) };
    let (art_step_mm, letters_step_mm) = (within(art_step_mm), within(letters_step_mm));
    let is_still = to - from > 1 && art_step_mm == (0.0, 0.0) && letters_step_mm == (0.0, 0.0);
    let exposing = match is_still {
        true => asked.exposing,
        false => Exposing::Single,
    };
    let is_next = part.background == Background::Next;
    ExposureLine {
        pass: part.pass,
        from,
        to,
        background: part.background,
        cel_1: part.cel_1,
        cel_2: match asked.second_cel.is_some()
            && matches!(part.background, Background::Ground | Background::Card)
        {
            true => CelIn::Second,
            false => CelIn::None,
        },
        art_mm: if is_next { (0.0, 0.0) } else { art_mm },
        art_step_mm,
        letters_mm,
        letters_step_mm,
        stops,
        exposing,
        iris_stops: match (exposing, asked.times) {
            (Exposing::Single, Some(times)) => -times.single_over_running(),
            _ => 0.0,
        },
    }
}
