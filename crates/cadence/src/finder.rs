//! From planes to film frames, as the planes come.

use onestrand_film::Fps;

use crate::CadenceError;
use crate::assemble::Assembler;
use crate::course::Course;
use crate::exposure::{Measured, measure};
use crate::faults::lone_repeats;
use crate::film_frame::{Fault, FilmFrame};
use crate::search::{self, Cadence, Search, lone_cadence};
use crate::shown::{Shown, blends, is_momentary, turns};
use crate::speed::{self, settled_step};
use crate::steps::{Step, Steps};
use crate::stride::{AROUND, Stride, stride};
use crate::track::{self, Tracker};

/// Windows of the search that must have shown something before a cadence is
/// settled on: some 25 seconds.
const ASKED: usize = 8;
/// File frames after which a cadence is settled on, whatever they showed.
const WAITED: usize = 2048;
/// Windows of the tracker that may still change its mind.
const LAG: usize = 6;
/// File frames before the newest positions that are told only with later ones.
const MARGIN: usize = 24;
/// Film frames whose file frames are counted for the cadence.
const COUNTED: usize = 400;

/// What is known of a transfer before it is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CadenceSettings {
    /// File frames a second (fields, where fields are pushed).
    pub file_rate: Option<Fps>,
    /// The speed at which the film was run, as far as somebody knows.
    pub film_speed: Option<Fps>,
}

/// How a file shows the film.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Transfer {
    /// Each file frame shows one film frame, each film frame once.
    OneToOne,
    /// Film frames are repeated; each file frame shows one alone.
    Repeated,
    /// File frames blend film frames.
    Blended,
}

/// What was found at the end.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// How the file shows the film.
    pub transfer: Transfer,
    /// Film frames a file frame, on average.
    pub step: f64,
    /// Share of a file frame for which its shutter was open.
    pub exposure: f64,
    /// The film's speed in frames a second, where the file's rate is known.
    pub film_speed: Option<Fps>,
    /// File frames of each film frame over one cycle (or, without a cycle, over
    /// the first 32 film frames).
    pub cadence: Vec<u32>,
    /// File frames that show nothing that another does not: how many more
    /// there are than film frames shown.
    pub repeats: u64,
    /// File frames that show more than one film frame.
    pub blended_file_frames: u64,
    /// Faults of the machine, in order.
    pub faults: Vec<Fault>,
}

/// Finds the film frames of a roll among the frames of its file.
#[derive(Debug)]
pub struct CadenceFinder {
    settings: CadenceSettings,
    measure: Steps,
    steps: Vec<Step>,
    strides: Vec<Stride>,
    stage: Stage,
}

#[derive(Debug)]
enum Stage {
    Searching {
        search: Search,
        next: usize,
    },
    Plain {
        assembler: Box<Assembler>,
        next: usize,
    },
    Following(Box<Following>),
}

impl CadenceFinder {
    /// A finder for one roll.
    #[must_use]
    pub fn new(settings: CadenceSettings) -> Self {
        Self {
            settings,
            measure: Steps::default(),
            steps: Vec::new(),
            strides: Vec::new(),
            stage: Stage::Searching {
                search: Search::default(),
                next: 0,
            },
        }
    }

    /// Takes the next file frame, and tells film frames that are certain now.
    ///
    /// # Errors
    /// [`CadenceError::PlaneSize`].
    pub fn push(&mut self, plane: &[u8]) -> Result<Vec<FilmFrame>, CadenceError> {
        self.steps.push(self.measure.push(plane)?);
        let known = self.steps.len().saturating_sub(AROUND + 1);
        self.see(known);
        Ok(self.go_on(false))
    }

    /// Tells the rest and what was found.
    #[must_use]
    pub fn finish(mut self) -> (Vec<FilmFrame>, Found) {
        self.see(self.steps.len());
        let frames = self.go_on(true);
        (frames, self.found())
    }

    fn see(&mut self, until: usize) {
        for at in self.strides.len()..until {
            // Only the neighbourhood matters, and a copy of all would cost.
            self.strides.push(stride(&self.steps, at));
        }
    }

    fn go_on(&mut self, is_end: bool) -> Vec<FilmFrame> {
        if let Stage::Searching { search, next } = &mut self.stage {
            while *next + search::WINDOW <= self.strides.len() {
                search.ask(&self.strides[*next..*next + search::WINDOW]);
                *next += search::HOP;
            }
            let is_settled = search.windows() >= ASKED || self.strides.len() >= WAITED;
            if !is_settled && !is_end {
                return Vec::new();
            }
            let lone = || lone_cadence(&lone_repeats(&self.steps, &self.strides));
            let known = (self.steps.as_slice(), self.strides.as_slice());
            let follow = |cadence| Following::new(cadence, known, &self.settings);
            let following = search.found().or_else(lone).and_then(follow);
            self.stage = match following {
                Some(following) => Stage::Following(Box::new(following)),
                None => Stage::Plain {
                    assembler: Box::new(Assembler::plain()),
                    next: 0,
                },
            };
        }
        match &mut self.stage {
            Stage::Plain { assembler, next } => {
                for at in *next..self.strides.len() {
                    let shown = Shown::one(at as i64);
                    assembler.push(at as u64, shown, &self.strides[at], &self.steps[at]);
                }
                *next = self.strides.len();
                assembler.told(is_end)
            }
            Stage::Following(following) => following.go_on(&self.strides, &self.steps, is_end),
            Stage::Searching { .. } => Vec::new(),
        }
    }

    fn found(&self) -> Found {
        match &self.stage {
            Stage::Following(following) => following.found(&self.settings, self.steps.len()),
            Stage::Plain { assembler, .. } => plain(&self.settings, assembler.faults()),
            Stage::Searching { .. } => plain(&self.settings, &[]),
        }
    }
}

fn plain(settings: &CadenceSettings, faults: &[Fault]) -> Found {
    Found {
        transfer: Transfer::OneToOne,
        step: 1.0,
        exposure: 0.0,
        film_speed: settings.film_speed,
        cadence: vec![1],
        repeats: 0,
        blended_file_frames: 0,
        faults: faults.to_vec(),
    }
}

/// A cadence that is followed along the roll.
#[derive(Debug)]
struct Following {
    tracker: Tracker,
    /// Exposure as the tracker takes it, and as it was then measured.
    assumed: f64,
    exposure: f64,
    step: f64,
    windows: usize,
    course: Course,
    assembler: Assembler,
    next: usize,
    last_turn: Option<i64>,
    /// Middles of the turns shown.
    turned: Vec<f64>,
    told: u64,
    blended: u64,
    /// File frames of the first film frames.
    counted: Vec<u32>,
}

impl Following {
    fn new(
        cadence: Cadence,
        (steps, strides): (&[Step], &[Stride]),
        settings: &CadenceSettings,
    ) -> Option<Self> {
        // A speed and what lacks it to one to one show nearly the same changes,
        // in the other direction; over all that is known one fits better.
        let tried = |step: f64| {
            let course = try_out(step, cadence.exposure, strides);
            let measured = measure(course.positions(), strides, step);
            (course, measured)
        };
        let straight = tried(cadence.step);
        let mirrored = tried(1.0 - cadence.step);
        let is_mirrored = mirrored.1.fit > straight.1.fit;
        let (course, measured) = if is_mirrored { mirrored } else { straight };
        if cadence.is_doubtful && !measured.is_seen_over_turns() {
            return None;
        }
        let Measured {
            exposure, rests, ..
        } = measured;
        let step = if is_momentary(exposure, cadence.step) {
            let turned = turns(&course, (steps, strides), (0, strides.len()), None);
            settled_step(&middles(&turned), settings)
        } else {
            settled_step(course.positions(), settings)
        };
        if !search::is_believable(step, exposure, rests) {
            return None;
        }
        Some(Self {
            tracker: Tracker::new(step, exposure),
            assumed: exposure,
            exposure,
            step,
            windows: 0,
            course: Course::default(),
            assembler: Assembler::new(step, exposure * step),
            next: 0,
            last_turn: None,
            turned: Vec::new(),
            told: 0,
            blended: 0,
            counted: Vec::new(),
        })
    }

    fn go_on(&mut self, strides: &[Stride], steps: &[Step], is_end: bool) -> Vec<FilmFrame> {
        while self.windows * track::HOP + track::WINDOW / 2 <= strides.len()
            || (is_end && self.windows * track::HOP < strides.len())
        {
            self.tracker.push(&window(strides, self.windows));
            self.windows += 1;
        }
        let anchors = self.tracker.settle(if is_end { 0 } else { LAG });
        if anchors.is_empty() && !is_end {
            return Vec::new();
        }
        self.course.take(anchors, strides, self.assumed);
        if is_end {
            self.course.finish(strides.len(), strides, self.assumed);
        }
        let known = self.course.positions().len();
        let until = if is_end {
            known
        } else {
            known.saturating_sub(MARGIN)
        };
        if until > self.next {
            self.show(strides, steps, until);
        }
        let frames = self.assembler.told(is_end);
        self.told += frames.iter().filter(|f| f.shown_by.is_some()).count() as u64;
        let is_short = self.counted.len() < COUNTED;
        let counts = frames.iter().filter(|_| is_short);
        self.counted
            .extend(counts.map(|f| (f.file_frames.1 - f.file_frames.0) as u32));
        frames
    }

    fn show(&mut self, strides: &[Stride], steps: &[Step], until: usize) {
        let known = self.course.positions().len();
        let shown = if is_momentary(self.exposure, self.step) {
            turns(
                &self.course,
                (steps, strides),
                (self.next, known),
                self.last_turn,
            )
        } else {
            blends(&self.course, (self.next, known), self.exposure)
        };
        for (at, shown) in (self.next..until).zip(shown) {
            self.last_turn = Some(shown.first);
            self.turned.push(shown.first as f64 + 0.5);
            self.blended += u64::from(shown.turns().nth(1).is_some());
            self.assembler
                .push(at as u64, shown, &strides[at], &steps[at]);
        }
        self.next = until;
    }

    fn found(&self, settings: &CadenceSettings, file_frames: usize) -> Found {
        let is_momentary = is_momentary(self.exposure, self.step);
        let positions = if is_momentary {
            &self.turned
        } else {
            self.course.positions()
        };
        let step = settled_step(positions, settings);

        Found {
            transfer: if is_momentary {
                Transfer::Repeated
            } else {
                Transfer::Blended
            },
            step,
            exposure: self.exposure,
            film_speed: speed::film_speed(step, settings),
            cadence: self.cadence(step, settings),
            repeats: (file_frames as u64).saturating_sub(self.told),
            blended_file_frames: self.blended,
            faults: self.assembler.faults().to_vec(),
        }
    }

    fn cadence(&self, step: f64, settings: &CadenceSettings) -> Vec<u32> {
        let counted = if is_momentary(self.exposure, self.step) {
            self.counted.clone()
        } else {
            // Of blends, the file frames that begin in each film frame.
            let begins = |frame: usize| (frame as f64 / step).ceil();
            (0..COUNTED)
                .map(|frame| (begins(frame + 1) - begins(frame)) as u32)
                .collect()
        };
        speed::cadence(step, settings, &counted)
    }
}

/// The middles of turns that file frames show.
fn middles(shown: &[Shown]) -> Vec<f64> {
    shown.iter().map(|shown| shown.first as f64 + 0.5).collect()
}

/// The strides around the middle of a window; nothing beyond the ends.
fn window(strides: &[Stride], number: usize) -> Vec<Stride> {
    let first = (number * track::HOP) as i64 - (track::WINDOW / 2) as i64;
    (first..first + track::WINDOW as i64)
        .map(|at| {
            usize::try_from(at)
                .ok()
                .and_then(|at| strides.get(at))
                .copied()
                .unwrap_or_default()
        })
        .collect()
}

/// Follows a cadence over what there is, to measure it.
fn try_out(step: f64, exposure: f64, strides: &[Stride]) -> Course {
    let mut tracker = Tracker::new(step, exposure);
    let windows = strides.len() / track::HOP + 1;
    (0..windows).for_each(|number| tracker.push(&window(strides, number)));
    let mut course = Course::default();
    course.take(tracker.settle(0), strides, exposure);
    course.finish(strides.len(), strides, exposure);
    course
}
