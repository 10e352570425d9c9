//! The name of a loose strip out of a photograph.

use std::path::PathBuf;
use std::sync::Arc;

use onestrand_film::Gauge;
use onestrand_intake::Cancel;
use onestrand_proof::{
    Beyond, FoundBy, FoundStrip, GreyPicture, RollSketches, StripPlace, find_strips, name_strip,
};
use onestrand_store::Production;

use super::photograph;
use super::sketches::SketchMemory;
use crate::documents::{NamedDocument, StripCandidate, StripFramePlace};
use crate::error::unfit;
use crate::on_action::PictureSource;
use crate::{ProductionError, Progress};

/// Below this a name is told as a guess.
const SURE: f32 = 0.9;
/// Below this nothing is told of what only has an outline: it may be no film at all.
const LIKELY: f32 = 0.5;

/// The rolls a strip may be of, so that nobody waits for the production while it is
/// looked for.
#[derive(Debug, Clone)]
pub struct StripRolls {
    pub(super) dir: PathBuf,
    pub(super) rolls: Vec<(String, u32)>,
    gauges: Vec<Gauge>,
}

impl StripRolls {
    /// All rolls that have pictures.
    ///
    /// # Errors
    /// [`ProductionError::Store`]; [`ProductionError::Unfit`] when no roll has pictures.
    pub fn of(production: &Production) -> Result<Self, ProductionError> {
        let records = production.rolls()?;
        let seen: Vec<_> = records.iter().filter(|r| !r.scans.is_empty()).collect();
        if seen.is_empty() {
            return Err(unfit(
                "no roll has been scanned yet, so there is nothing to look in".to_owned(),
                "bring in the scans of the rolls first",
            ));
        }
        let mut gauges: Vec<Gauge> = Vec::new();
        for record in &seen {
            let gauge = record.gauge.parse().unwrap_or(production.meta().gauge);
            if !gauges.contains(&gauge) {
                gauges.push(gauge);
            }
        }
        Ok(Self {
            dir: production.dir().to_owned(),
            rolls: seen.iter().map(|r| (r.name.clone(), r.frames)).collect(),
            gauges,
        })
    }

    pub(super) fn sketches(
        &self,
        memory: &mut SketchMemory,
        source: &mut dyn PictureSource,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<Vec<Arc<RollSketches>>, ProductionError> {
        let of = |(roll, frames): &(String, u32)| {
            memory.of_roll(&self.dir, (roll, *frames), source, cancel, progress)
        };
        self.rolls.iter().map(of).collect()
    }
}

/// Looks in a photograph for a strip and in all rolls for its frames.
///
/// # Errors
/// [`ProductionError::Unfit`] when the photograph cannot be read; others of the
/// workprints; [`ProductionError::Stopped`].
pub fn name_strip_in(
    photograph: &[u8],
    rolls: &StripRolls,
    memory: &mut SketchMemory,
    source: &mut dyn PictureSource,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<NamedDocument, ProductionError> {
    let photo = photograph::read(photograph)?;
    let grey = GreyPicture::new(photo.width, photo.height, &photo.levels).map_err(|problem| {
        unfit(
            problem.to_string(),
            "hand in a photograph of at least a thousand pixels along the strip",
        )
    })?;
    progress.begin("looking for the strip", None);
    let mut strips: Vec<FoundStrip> = Vec::new();
    for &gauge in &rolls.gauges {
        strips.extend(find_strips(grey, gauge));
    }
    if strips.is_empty() {
        return Ok(told(Vec::new(), None, &strips));
    }
    let sketches = rolls.sketches(memory, source, cancel, progress)?;
    if cancel.is_cancelled() {
        return Err(ProductionError::Stopped);
    }
    progress.begin("comparing it with all rolls", None);
    let all: Vec<RollSketches> = sketches.iter().map(|s| s.as_ref().clone()).collect();
    let mut places = name_strip(&strips, &all);
    let is_film = |place: &StripPlace| {
        strips[place.strip].by == FoundBy::Perforations || place.confidence >= LIKELY
    };
    places.retain(is_film);
    let candidates: Vec<StripCandidate> = places
        .iter()
        .map(|place| {
            candidate(
                place,
                &strips[place.strip],
                rolls,
                (photo.width, photo.height),
            )
        })
        .collect();
    Ok(told(candidates, places.first(), &strips))
}

fn told(
    candidates: Vec<StripCandidate>,
    best: Option<&StripPlace>,
    strips: &[FoundStrip],
) -> NamedDocument {
    // Whatever has an outline may be a row of pictures: only holes say that it is film.
    let film = !candidates.is_empty() || strips.iter().any(|s| s.by == FoundBy::Perforations);
    let (words, hint) = match (candidates.first(), best) {
        (Some(first), Some(best)) => {
            let side = if first.mirrored { ", seen from the other side" } else { "" };
            let way = if first.upside_down { ", heads down" } else { ", heads up" };
            let span = format!("{}·{}–{}", first.roll, first.first, first.thrown.saturating_sub(1));
            let still = if first.still {
                format!(
                    "; nothing moves enough to tell which {} of these frames",
                    first.frames
                )
            } else {
                String::new()
            };
            let hidden = hidden(first);
            if best.confidence >= SURE {
                (format!("{span}{way}{side}{still}{hidden}"), String::new())
            } else {
                (
                    format!("perhaps {span}{way}{side}{still}"),
                    "lay it beside the pictures of that place before you trust it".to_owned(),
                )
            }
        }
        _ if film => (
            "not known: no roll of this film has these pictures".to_owned(),
            "photograph it again from straight above, sharp and without reflections, the whole width of the strip with its holes; or bring in the roll it may be of".to_owned(),
        ),
        _ => (
            "there is no film in this photograph that could be seen".to_owned(),
            "lay the strip on a light box or a bright window, so that light comes through its holes, and fill the picture with it".to_owned(),
        ),
    };
    NamedDocument {
        still: candidates.first().is_some_and(|c| c.still),
        candidates,
        film,
        words,
        hint,
    }
}

fn hidden(first: &StripCandidate) -> &'static str {
    if first.hidden_before || first.hidden_behind {
        "; these at least: more of the strip may be hidden"
    } else {
        ""
    }
}

fn candidate(
    place: &StripPlace,
    strip: &FoundStrip,
    rolls: &StripRolls,
    (width, height): (usize, usize),
) -> StripCandidate {
    let mut up = strip.up;
    if place.way.upside_down {
        up = (-up.0, -up.1);
    }
    let turned = f64::from(up.0.atan2(-up.1).to_degrees()).rem_euclid(360.0);
    let number = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
    let (from, to) = place.seen;
    let frames = strip.frames.get(from..to).unwrap_or(&[]);
    let begin = frames.first().map_or(0, |frame| frame.place);
    let places = frames.iter().map(|frame| {
        let off = u32::try_from(frame.place - begin).unwrap_or(0);
        let likely = if place.backwards {
            number(place.likeliest).saturating_sub(off)
        } else {
            number(place.likeliest) + off
        };
        let share = |(x, y): (f32, f32)| {
            (
                rounded(f64::from(x) / width as f64, 4),
                rounded(f64::from(y) / height as f64, 4),
            )
        };
        StripFramePlace {
            frame: likely,
            corners: frame.corners.into_iter().map(share).collect(),
        }
    });
    StripCandidate {
        roll: rolls
            .rolls
            .get(place.roll)
            .map(|r| r.0.clone())
            .unwrap_or_default(),
        first: number(place.first),
        thrown: number(place.end),
        confidence: rounded(f64::from(place.confidence), 3),
        mirrored: place.way.mirrored,
        upside_down: up.1 > 0.0,
        still: place.still,
        hidden_before: place.beyond.0 != Beyond::Ends,
        hidden_behind: place.beyond.1 != Beyond::Ends,
        turned: rounded(turned, 1),
        frames: number(place.frames),
        likeness: rounded(f64::from(place.likeness), 3),
        places: places.collect(),
    }
}

/// A measured value with so many places behind the point.
fn rounded(value: f64, places: i32) -> f64 {
    let scale = 10_f64.powi(places);
    // No minus before a nought.
    (value * scale).round() / scale + 0.0
}
