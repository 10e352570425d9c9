//! What is wanted of a title on film.

use crate::crawl::Crawl;
use crate::sheet::art_move::ArtMove;
use crate::title_error::{TitleError, within};

/// How lettering comes over the ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LettersBy {
    /// On a clear cel laid over the artwork.
    #[default]
    Cel,
    /// Drawn on a card of its own that is laid in place of the ground.
    Card,
    /// White on black, exposed a second time over the ground after winding back.
    SecondExposure,
}

/// How a frame is exposed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Exposing {
    /// Frame by frame with the single-frame release.
    #[default]
    Single,
    /// The camera running at its speed.
    Running,
}

/// How long a frame gets light by each way of exposing.
///
/// Unit: seconds. Range: 0.0001 to 60.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExposureTimes {
    /// The camera running: opening of the shutter ÷ 360 ÷ speed.
    pub running_s: f64,
    /// By the single-frame release, from the camera's manual or a test.
    pub single_s: f64,
}

impl ExposureTimes {
    /// How much more light a single frame gets than a running one. Unit: stops.
    #[must_use]
    pub fn single_over_running(&self) -> f64 {
        (self.single_s / self.running_s).log2()
    }
}

/// Another card that the last frames dissolve into.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DissolveTo {
    /// Its name.
    pub name: String,
    /// Frames over which both are on the film. Range: 2 to the whole card.
    pub frames: u32,
}

/// What is wanted of a title on film.
///
/// Frames count from 0, the first of the card. `before`, `hold` and `after` together are
/// all of it; fades and the dissolve lie within, at its ends.
#[derive(Debug, Clone, PartialEq)]
pub struct ExposureAsked {
    /// How lettering comes over the ground.
    pub letters_by: LettersBy,
    /// The ground alone, before the lettering. Unit: frames.
    pub before: u32,
    /// All of the lettering, to be read. Unit: frames. Range: 1 and more.
    pub hold: u32,
    /// The ground alone, after the lettering. Unit: frames.
    pub after: u32,
    /// The lettering comes slowly, over the last of `before`; 0 drops it at once.
    /// Unit: frames.
    pub letters_in: u32,
    /// The lettering goes slowly, over the first of `after`; 0 lifts it at once.
    /// Unit: frames.
    pub letters_out: u32,
    /// All of it comes out of the dark. Unit: frames; 0 for none.
    pub fade_in: u32,
    /// All of it goes into the dark. Unit: frames; 0 for none.
    pub fade_out: u32,
    /// Another card that comes over the last frames.
    pub dissolve: Option<DissolveTo>,
    /// The lettering moves.
    pub crawl: Option<Crawl>,
    /// The artwork moves.
    pub art_move: Option<ArtMove>,
    /// A cel without lettering lies on the artwork whenever the lettered one does not.
    pub blank_cel: bool,
    /// Another cel that lies in all along, such as a plate under the lettering: its name.
    pub second_cel: Option<String>,
    /// Density of one cel. Range: 0 to 1. [`CEL_DENSITY`] where none is measured.
    pub cel_density: f64,
    /// How frames are exposed where nothing changes from one to the next; all others are
    /// exposed singly.
    pub exposing: Exposing,
    /// The exposure times, where they are known.
    pub times: Option<ExposureTimes>,
    /// How often it is shot beside the first time.
    pub spares: u32,
    /// Film run before the first frame of each take, and as shut as it was. Unit: frames.
    pub run_up: u32,
    /// How far the camera winds back; none where any length. Unit: frames.
    pub wind_back_most: Option<u32>,
}

/// Density of one clear cel, where none is measured: one of the figures with which
/// darkening is told, about 0.13 stop. From memory.
pub const CEL_DENSITY: f64 = 0.04;

/// Run-up before each take, the frames the plan of the film reckons with.
pub const RUN_UP: u32 = 24;

impl ExposureAsked {
    /// Lettering on a cel for so many frames, nothing else.
    #[must_use]
    pub const fn plain(hold: u32) -> Self {
        Self {
            letters_by: LettersBy::Cel,
            before: 0,
            hold,
            after: 0,
            letters_in: 0,
            letters_out: 0,
            fade_in: 0,
            fade_out: 0,
            dissolve: None,
            crawl: None,
            art_move: None,
            blank_cel: true,
            second_cel: None,
            cel_density: CEL_DENSITY,
            exposing: Exposing::Single,
            times: None,
            spares: 0,
            run_up: RUN_UP,
            wind_back_most: None,
        }
    }

    /// Frames of one take, without its run-up.
    #[must_use]
    pub const fn frames(&self) -> u32 {
        self.before
            .saturating_add(self.hold)
            .saturating_add(self.after)
    }

    /// The first frame on which there is any of the lettering, and the first without
    /// after it.
    #[must_use]
    pub const fn lettered(&self) -> (u32, u32) {
        let from = self.before.saturating_sub(self.letters_in);
        (from, self.before + self.hold + self.letters_out)
    }

    /// Frames of the dissolve.
    pub(crate) fn dissolving(&self) -> u32 {
        self.dissolve.as_ref().map_or(0, |to| to.frames)
    }

    /// Whether all of this can be.
    ///
    /// # Errors
    /// [`TitleError::OutOfRange`] and [`TitleError::CannotBoth`].
    pub fn check(&self) -> Result<(), TitleError> {
        let part = |what, frames: u32, least: f64| {
            let hint = "a card is 1 to 100,000 frames";
            within(what, f64::from(frames), (least, 100_000.0), hint)
        };
        part("frames of the hold", self.hold, 1.0)?;
        part("frames before the lettering", self.before, 0.0)?;
        part("frames after the lettering", self.after, 0.0)?;
        part("frames of the fade in", self.fade_in, 0.0)?;
        part("frames of the fade out", self.fade_out, 0.0)?;
        part("frames of run-up", self.run_up, 0.0)?;
        let hint = "say how often it is shot beside the first time, such as 1";
        within("spare takes", f64::from(self.spares), (0.0, 99.0), hint)?;
        let hint = "a clear cel has a density of about 0.04";
        within("the density of a cel", self.cel_density, (0.0, 1.0), hint)?;
        if let Some(times) = self.times {
            let hint = "such as 1/43 s running and 1/30 s singly: the manual tells";
            for time in [times.running_s, times.single_s] {
                within("the exposure time in s", time, (1e-4, 60.0), hint)?;
            }
        }
        if let Some(crawl) = &self.crawl {
            crawl.check()?;
        }
        if let Some(art_move) = &self.art_move {
            art_move.check(self.frames())?;
        }
        self.fits_together()
    }

    fn fits_together(&self) -> Result<(), TitleError> {
        let refuse = |message: String, hint| Err(TitleError::CannotBoth { message, hint });
        let frames = self.frames();
        if self.letters_in > self.before || self.letters_out > self.after {
            return refuse(
                format!(
                    "the lettering comes over {} and goes over {} frames, with {} before and \
                     {} after it",
                    self.letters_in, self.letters_out, self.before, self.after
                ),
                "let more of the ground stand before and after, or let it come faster",
            );
        }
        let tail = self.fade_out.saturating_add(self.dissolving());
        if self.fade_out > 0 && self.dissolve.is_some() {
            return refuse(
                "it fades out and dissolves at its end".to_owned(),
                "choose one of them",
            );
        }
        if self.fade_in.saturating_add(tail) > frames {
            return refuse(
                format!(
                    "{} frames of fade in and {tail} at the end are more than its {frames}",
                    self.fade_in
                ),
                "make the fades shorter, or let it stand longer",
            );
        }
        if self.dissolve.is_some() && self.dissolving() < 2 {
            return refuse(
                "a dissolve of less than 2 frames is a cut".to_owned(),
                "leave it out, or give it 12 frames and more",
            );
        }
        Ok(())
    }
}
