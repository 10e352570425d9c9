//! The camera, frame by frame, out of the lines of a sheet.

use crate::sheet::asked::Exposing;
use crate::sheet::exposed::Exposed;
use crate::sheet::line::{Background, CelIn, ExposureLine, ExposureSheet};
use crate::sheet::warning::darkening_stops;

/// What a camera that does what the sheet says puts on each frame.
///
/// Nothing is read but the lines and the head of the sheet: densities, the cels reckoned
/// with, exposure times. A frame that several passes expose gets the light of all.
#[must_use]
pub fn replay(sheet: &ExposureSheet) -> Vec<Exposed> {
    let mut film = vec![Exposed::DARK; sheet.frames as usize];
    for line in &sheet.lines {
        for frame in line.from..line.to {
            if let Some(on_film) = film.get_mut(frame as usize) {
                expose(sheet, line, frame, on_film);
            }
        }
    }
    film
}

fn expose(sheet: &ExposureSheet, line: &ExposureLine, frame: u32, on_film: &mut Exposed) {
    let Some(stops) = line.stops else {
        return;
    };
    // Only the way of exposing that the exposure was not found for lasts longer or shorter.
    let time = match (line.exposing, sheet.times) {
        (Exposing::Single, Some(times)) => times.single_over_running(),
        _ => 0.0,
    };
    let through = f64::from(line.cels()) - f64::from(sheet.cels_reckoned);
    let light = (stops + time + line.iris_stops).exp2();
    let behind = light * (-through * darkening_stops(sheet.cel_density)).exp2();
    let steps = f64::from(frame - line.from);
    let moved = |at: (f64, f64), by: (f64, f64)| (at.0 + by.0 * steps, at.1 + by.1 * steps);
    match line.background {
        Background::Ground | Background::Card => on_film.ground_light += behind,
        Background::Next => on_film.next_light += light,
        Background::Black => {}
    }
    if matches!(line.background, Background::Ground | Background::Card) {
        on_film.art_mm = moved(line.art_mm, line.art_step_mm);
        on_film.cels = on_film.cels.max(line.cels());
    }
    if line.background == Background::Card || line.cel_1 == CelIn::Lettered {
        on_film.letter_light += light;
        on_film.lettered = true;
        on_film.letters_cover = line.background != Background::Black;
        on_film.letters_mm = moved(line.letters_mm, line.letters_step_mm);
    }
}
