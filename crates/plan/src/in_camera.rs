//! A film cut in the camera: shot in the order of the screen, its dissolves made by
//! winding back.

use onestrand_film::{FramePos, FrameRange, Frames};

use crate::found::{Found, PlanError, unless};

/// A shot of a film that is cut in the camera.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScreenShot {
    /// Its name.
    pub name: String,
    /// Frames from where it begins to come to where it has gone.
    pub frames: Frames,
    /// Frames over which it turns into the next one; none is a cut.
    pub dissolve: Frames,
    /// Line of the script, where it was read.
    pub line: Option<u64>,
}

/// What the camera can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CameraLimits {
    /// Frames of a roll that can be used.
    pub load: Frames,
    /// The most frames that can be wound back: the user's own camera says it. On many
    /// cartridges it is some 90 to 100 frames (from memory, to be tried first).
    pub wind_back: Frames,
}

/// What is done next at the camera. Places count from the head of the usable film.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CameraStep {
    /// A new roll is put in.
    Load {
        /// Which one, from 1.
        roll: usize,
    },
    /// A shot is taken.
    Expose {
        /// Its name.
        shot: String,
        /// The counter at its beginning and end.
        frames: FrameRange,
        /// Frames at its beginning over which the light comes up.
        fade_in: Frames,
        /// Frames at its end over which the light goes down.
        fade_out: Frames,
    },
    /// The film is wound back in the dark, the lens covered.
    WindBack {
        /// By so many frames.
        frames: Frames,
        /// The counter afterwards.
        to: FramePos,
    },
}

/// The film as it is shot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InCamera {
    /// What is done, in order.
    pub steps: Vec<CameraStep>,
    /// Frames used on each roll.
    pub rolls: Vec<Frames>,
}

impl InCamera {
    /// Frames of the whole film on the screen.
    #[must_use]
    pub fn frames(&self) -> Frames {
        Frames::total(self.rolls.iter().copied())
    }
}

/// Plans a film that is shot in the order of the screen.
///
/// A dissolve of n frames lays the last n of a shot over the first n of the next: the
/// light goes down over them, the film is wound back n frames, the light comes up. Shots
/// joined by dissolves cannot be parted by a roll end; nor can a shot.
///
/// # Errors
/// [`PlanError::Problems`], all at once: no shots, shots without length, dissolves longer
/// than the camera winds back or than the shot has room for, one after the last shot,
/// shots joined by dissolves that no roll holds.
///
/// # Examples
/// ```
/// # use onestrand_film::Frames;
/// # use onestrand_plan::{CameraLimits, ScreenShot, in_camera};
/// let frames = |n| Frames::new(n).expect("in range");
/// let shot = |name: &str, length, dissolve| ScreenShot {
///     name: name.into(), frames: frames(length), dissolve: frames(dissolve), line: None,
/// };
/// let camera = CameraLimits { load: frames(3552), wind_back: frames(90) };
/// let film = in_camera(&[shot("landing", 180, 48), shot("crossing", 270, 0)], &camera)?;
/// assert_eq!(film.frames(), frames(180 + 270 - 48));
/// assert!(in_camera(&[shot("landing", 180, 100), shot("crossing", 270, 0)], &camera).is_err());
/// # Ok::<(), onestrand_plan::PlanError>(())
/// ```
pub fn in_camera(shots: &[ScreenShot], camera: &CameraLimits) -> Result<InCamera, PlanError> {
    unless(problems(shots, camera), ())?;
    let mut film = Counter::default();
    let mut before = Frames::ZERO;
    for (at, shot) in shots.iter().enumerate() {
        if before == Frames::ZERO {
            film.make_room(chain_frames(&shots[at..]), camera.load);
        } else {
            film.wind_back(before);
        }
        film.expose(shot, before);
        before = shot.dissolve;
    }
    film.rolls.push(Frames::new(film.at).unwrap_or(Frames::MAX));
    Ok(InCamera {
        steps: film.steps,
        rolls: film.rolls,
    })
}

/// Frames of film from here to the next cut.
fn chain_frames(shots: &[ScreenShot]) -> u64 {
    let mut sum = 0;
    for shot in shots {
        sum += u64::from(shot.frames.count());
        if shot.dissolve == Frames::ZERO {
            break;
        }
        sum = sum.saturating_sub(u64::from(shot.dissolve.count()));
    }
    sum
}

#[derive(Default)]
struct Counter {
    steps: Vec<CameraStep>,
    rolls: Vec<Frames>,
    at: u32,
}

impl Counter {
    fn make_room(&mut self, frames: u64, load: Frames) {
        let full = u64::from(self.at) + frames > u64::from(load.count());
        if full {
            self.rolls.push(Frames::new(self.at).unwrap_or(Frames::MAX));
            self.at = 0;
        }
        if full || self.steps.is_empty() {
            let roll = self.rolls.len() + 1;
            self.steps.push(CameraStep::Load { roll });
        }
    }

    fn wind_back(&mut self, frames: Frames) {
        self.at = self.at.saturating_sub(frames.count());
        let to = FramePos::new(self.at).unwrap_or(FramePos::MAX);
        self.steps.push(CameraStep::WindBack { frames, to });
    }

    fn expose(&mut self, shot: &ScreenShot, fade_in: Frames) {
        let end = self.at.saturating_add(shot.frames.count());
        if let Ok(frames) = FrameRange::of(self.at, end) {
            self.steps.push(CameraStep::Expose {
                shot: shot.name.clone(),
                frames,
                fade_in,
                fade_out: shot.dissolve,
            });
        }
        self.at = end;
    }
}

fn problems(shots: &[ScreenShot], camera: &CameraLimits) -> Vec<Found> {
    let mut found = Vec::new();
    if shots.is_empty() {
        found.push(Found::new(None, "", "there is no shot"));
    }
    let mut before = Frames::ZERO;
    for (at, shot) in shots.iter().enumerate() {
        let begins = before == Frames::ZERO;
        let mut wrong = of_shot(shot, before, at + 1 == shots.len(), camera);
        let chain = chain_frames(&shots[at..]);
        if begins && chain > u64::from(camera.load.count()) {
            wrong.push(format!(
                "{chain} frames from here to the next cut are more than the load of {}; put a cut between",
                camera.load
            ));
        }
        let said = wrong.into_iter();
        found.extend(said.map(|said| Found::new(shot.line, format!("shot {}", shot.name), said)));
        before = shot.dissolve;
    }
    found
}

fn of_shot(shot: &ScreenShot, before: Frames, last: bool, camera: &CameraLimits) -> Vec<String> {
    let mut wrong = Vec::new();
    if shot.frames == Frames::ZERO {
        wrong.push("has no length; give it its seconds".to_owned());
        return wrong;
    }
    if shot.dissolve > camera.wind_back {
        wrong.push(format!(
            "a dissolve of {} frames is longer than the {} that the camera winds back",
            shot.dissolve, camera.wind_back
        ));
    }
    if last && shot.dissolve > Frames::ZERO {
        wrong.push("nothing follows it to dissolve into; end with a cut".to_owned());
    }
    let both = Frames::total([before, shot.dissolve]);
    if both > shot.frames {
        wrong.push(format!(
            "its {} frames have no room for dissolves of {both} together; each frame can be laid over once",
            shot.frames
        ));
    }
    wrong
}
