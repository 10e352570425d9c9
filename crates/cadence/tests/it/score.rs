//! Transfers shown to the finder, and the outcome held against the truth.

use onestrand_cadence::{CadenceFinder, CadenceSettings, FilmFrame, Found, Standing};
use onestrand_telecine::{Coding, Look, Projection, Roll, Scene, Shown, Transfer, levels};

/// Noise that coding leaves on a measuring plane: H.264 at crf 23 of a
/// 1440×1080 file leaves 0.2 to 0.4.
pub(crate) const CODING: Coding = Coding { noise: 0.35 };

/// What the finder made of a transfer.
pub(crate) struct Outcome {
    pub(crate) frames: Vec<FilmFrame>,
    pub(crate) found: Found,
    pub(crate) truth: Vec<Shown>,
}

impl Outcome {
    /// How much of a film frame a file frame shows.
    pub(crate) fn share(&self, film: u32, file: u64) -> f32 {
        let shown = self.truth.get(file as usize).map(|shown| &shown.weights);
        let of = |w: &(u32, f32)| if w.0 == film { w.1 } else { 0.0 };
        shown.map_or(0.0, |weights| weights.iter().map(of).sum())
    }

    /// The most that any file frame shows of it.
    pub(crate) fn best(&self, frame: &FilmFrame) -> f32 {
        let near = frame.file_frames.0.saturating_sub(9)..frame.file_frames.1 + 9;
        near.map(|k| self.share(frame.number, k))
            .fold(0.0, f32::max)
    }

    /// Film frames whose file frame shows them by more than a seventh less than
    /// the best one does.
    pub(crate) fn misplaced(&self) -> Vec<u32> {
        let is_off = |frame: &&FilmFrame| match frame.shown_by {
            Some(k) => self.share(frame.number, k) < self.best(frame).max(0.2) - 0.15,
            None => true,
        };
        self.frames
            .iter()
            .filter(is_off)
            .map(|frame| frame.number)
            .collect()
    }

    pub(crate) fn count(&self, standing: Standing) -> usize {
        self.frames
            .iter()
            .filter(|frame| frame.standing == standing)
            .count()
    }
}

/// Shows a transfer of a roll, as planes, to the finder.
pub(crate) fn find(roll: &Roll, transfer: &Transfer, coding: Coding) -> Outcome {
    let planes = Projection::new(roll, transfer, coding).map(|frame| levels(&frame.levels));
    let truth = transfer.truth(roll.frames());
    find_in(planes, truth, settings(transfer.file))
}

/// What a file says of its rate.
pub(crate) fn settings(file: (u32, u32)) -> CadenceSettings {
    CadenceSettings {
        file_rate: format!("{}/{}", file.0, file.1).parse().ok(),
        film_speed: None,
    }
}

/// Shows planes to the finder.
pub(crate) fn find_in(
    planes: impl Iterator<Item = Vec<u8>>,
    truth: Vec<Shown>,
    settings: CadenceSettings,
) -> Outcome {
    let mut finder = CadenceFinder::new(settings);
    let mut frames = Vec::new();
    for plane in planes {
        frames.extend(
            finder
                .push(&plane)
                .expect("a plane has the size of a plane"),
        );
    }
    let (rest, found) = finder.finish();
    frames.extend(rest);
    Outcome {
        frames,
        found,
        truth,
    }
}

/// A roll with something of everything: 800 frames.
pub(crate) fn mixed_roll(look: Look, seed: u64) -> Roll {
    let scenes = [
        (Scene::Walk, 130),
        (Scene::Pan(0.008), 110),
        (Scene::Still, 90),
        (Scene::Black, 60),
        (Scene::Title, 80),
        (Scene::Walk, 150),
        (Scene::Clear, 40),
        (Scene::Pan(-0.012), 140),
    ];
    Roll::new((192, 144), look, seed, &scenes)
}
