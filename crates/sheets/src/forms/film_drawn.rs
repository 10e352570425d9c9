//! Film as it lies on the bench, drawn to scale.

use onestrand_film::{FrameName, Gauge, HolePlace, RollId};
use serde::Serialize;

use super::Press;
use super::record::FrameRecord;
use crate::SheetError;
use crate::frame_cards::{CardEnd, CardFrame, Fate, FrameCards, OnBench, StripCard};
use crate::picture::{Placing, Top};

/// How long the film beside a cut is drawn. Unit: millimetres on paper.
const FILM_LONG: f64 = 41.0;
/// How wide it is drawn at most. Unit: millimetres on paper.
const FILM_WIDE: f64 = 40.0;
/// Lines of a picture on a card: 30 mm high at some 300 to the inch.
const LINES: u32 = 360;

/// A piece of film as it is drawn. Unit: millimetres on paper.
#[derive(Serialize)]
pub(super) struct FilmRecord {
    long: f64,
    wide: f64,
    pictures: Vec<PictureRecord>,
    holes: Vec<[f64; 5]>,
    /// Where the blade goes; nothing where the film is cut there already.
    cut: f64,
    captions: Vec<[String; 2]>,
    pitch: f64,
}

#[derive(Serialize)]
struct PictureRecord {
    frame: FrameRecord,
    place: [f64; 4],
    hatched: bool,
}

/// How the film lies, in its own millimetres times a scale.
struct Drawing {
    gauge: Gauge,
    scale: f64,
    head_left: bool,
    /// Whether the edge that is left when one looks through the base, heads up,
    /// lies below on the paper.
    left_below: bool,
}

impl Drawing {
    fn mm(&self, um: u32) -> f64 {
        f64::from(um) / 1000.0 * self.scale
    }

    fn wide(&self) -> f64 {
        self.mm(self.gauge.spec().strip.width_um)
    }

    fn pitch(&self) -> f64 {
        self.mm(self.gauge.spec().pitch_um)
    }

    /// From the upper edge to a thing that lies so far from the left edge.
    fn down(&self, from_left: f64, size: f64) -> f64 {
        match self.left_below {
            true => self.wide() - from_left - size,
            false => from_left,
        }
    }

    /// The picture in the frame so far from the left: along, down, long, wide.
    fn picture(&self, place: usize) -> [f64; 4] {
        let spec = self.gauge.spec();
        let (wide, long) = (
            self.mm(spec.camera.width_um),
            self.mm(spec.camera.height_um),
        );
        let along = place as f64 * self.pitch() + (self.pitch() - long) / 2.0;
        let left = self.mm(spec.strip.picture_left_um);
        [along, self.down(left, wide), long, wide]
    }

    /// Holes along so many frames: along, down, long, wide, radius.
    fn holes(&self, frames: usize) -> Vec<[f64; 5]> {
        let strip = &self.gauge.spec().strip;
        let Some((across, along)) = strip.hole_um else {
            return Vec::new();
        };
        let (across, along) = (self.mm(across), self.mm(along));
        let radius = self.mm(strip.radius_um.unwrap_or_default());
        let edge = strip
            .edge_um
            .map_or((self.wide() - across) / 2.0, |um| self.mm(um));
        let hole = |middle: f64| {
            [
                middle - along / 2.0,
                self.down(edge, across),
                along,
                across,
                radius,
            ]
        };
        let pitch = self.pitch();
        match strip.place {
            HolePlace::BesidePicture => (0..frames)
                .map(|i| hole((i as f64 + 0.5) * pitch))
                .collect(),
            // Holes on the lines within the piece; those at its ends would be halved.
            _ => (1..frames).map(|i| hole(i as f64 * pitch)).collect(),
        }
    }
}

/// The film about a cut.
pub(super) fn film_record(
    cards: &FrameCards,
    card: &StripCard,
    end: &CardEnd,
    press: &mut Press,
) -> Result<FilmRecord, SheetError> {
    let OnBench {
        emulsion_up,
        head_left,
    } = cards.lies;
    let gauge = cards.head.gauge_of(&card.roll);
    let spec = gauge.spec();
    // Both ends are drawn to the same scale.
    let ends = card.head.frames.len().max(card.tail.frames.len());
    let count = ends.max(2);
    let long = f64::from(spec.pitch_um) / 1000.0 * count as f64;
    let wide = f64::from(spec.strip.width_um) / 1000.0;
    let drawing = Drawing {
        gauge,
        scale: (FILM_LONG / long).min(FILM_WIDE / wide),
        head_left,
        left_below: head_left != emulsion_up,
    };
    let placing = Placing {
        height: LINES,
        mirrored: emulsion_up != card.is_print,
        top: match head_left {
            true => Top::Left,
            false => Top::Right,
        },
    };
    let mut frames: Vec<&CardFrame> = end.frames.iter().collect();
    if !drawing.head_left {
        frames.reverse();
    }
    let mut pictures = Vec::with_capacity(frames.len());
    for (place, frame) in frames.iter().enumerate() {
        pictures.push(picture_record(
            &card.roll,
            frame,
            drawing.picture(place),
            placing,
            press,
        )?);
    }
    // The cut lies before its frame, seen along the roll.
    let before = end.frames.iter().filter(|f| f.frame < end.at).count();
    let before = match head_left {
        true => before,
        false => frames.len() - before,
    };
    Ok(FilmRecord {
        long: drawing.pitch() * frames.len() as f64,
        wide: drawing.wide(),
        pictures,
        holes: drawing.holes(frames.len()),
        cut: drawing.pitch() * before as f64,
        captions: frames.iter().map(|frame| caption(frame)).collect(),
        pitch: drawing.pitch(),
    })
}

fn picture_record(
    roll: &RollId,
    frame: &CardFrame,
    place: [f64; 4],
    placing: Placing,
    press: &mut Press,
) -> Result<PictureRecord, SheetError> {
    let name = FrameName {
        roll: roll.clone(),
        frame: frame.frame,
    };
    let [_, fate] = caption(frame);
    Ok(PictureRecord {
        frame: press.frame_as(
            &format!("frame {fate}"),
            &name,
            frame.picture.as_deref(),
            placing,
        )?,
        place,
        hatched: frame.fate != Fate::Kept,
    })
}

/// Its number, and what becomes of it.
fn caption(frame: &CardFrame) -> [String; 2] {
    let fate = match frame.fate {
        Fate::Kept => "kept".to_owned(),
        Fate::Eaten => "join".to_owned(),
        Fate::Thrown => "thrown".to_owned(),
        Fate::WantedIn(position) => format!("in shot {position}"),
    };
    [frame.frame.to_string(), fate]
}
