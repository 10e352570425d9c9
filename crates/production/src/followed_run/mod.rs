//! A projector followed while the mix runs: the version's cuts, what was seen and heard, and
//! what is known of it. Held in memory only; what is kept of a run is its line in the log.

use onestrand_dub::{Tap, fit_projector};
use onestrand_follow::{Event, FollowError, Follower, Habits, Listener, Seen, Source};
use onestrand_store::Production;

use crate::ProductionError;
use crate::documents::{
    AstrayDocument, ComesDocument, FollowedDocument, LineDocument, LiveDocument, RunAsked, RunSeen,
    SeenAt, SeenWords,
};
use crate::dub::{mix_of, speed_of, version_cuts};
use crate::error::unfit;

/// A counter read by eye and typed, one standard deviation. Unit: seconds of film.
const COUNTER_READ: f64 = 0.4;
/// As many frames are asked for at most.
const MOST_ASKED: usize = 64;
/// A piece of sound is no longer. Unit: seconds.
const LONGEST_PIECE: f64 = 5.0;

/// What is heard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ear {
    /// Blades of the shutter where light is heard through a cell; nothing for the claw.
    pub blades: Option<u8>,
    /// Samples a second.
    pub rate: f64,
    /// The time of the first sample, on the clock of the page. Unit: seconds.
    pub at: f64,
    /// How late the microphone is. Unit: seconds.
    pub lag: f64,
}

/// A run.
#[derive(Debug)]
pub struct FollowedRun {
    follower: Follower,
    listener: Option<(Option<u8>, f64, Listener)>,
    nominal: f64,
    taps: Vec<f64>,
    started: Option<(f64, f64)>,
}

impl FollowedRun {
    /// Begins to follow a version.
    ///
    /// # Errors
    /// [`ProductionError::Store`] when there is no such version; [`ProductionError::Unfit`]
    /// for a speed that cannot be.
    pub fn begin(
        production: &Production,
        cut: &str,
        asked: &RunAsked,
    ) -> Result<Self, ProductionError> {
        let speed = speed_of(production, &mix_of(production)?)?;
        let nominal = asked.speed.unwrap_or_else(|| speed.as_f64());
        let mut habits = Habits::usual(nominal);
        habits.late = asked.late_ms / 1000.0;
        if let Some(error) = asked.speed_error.filter(|_| asked.speed.is_some()) {
            // A machine is not quite the same the next time: cold, warm, another hour.
            habits.off_nominal = (error / 1.96).hypot(0.005 * nominal);
        }
        let cuts = version_cuts(production, cut)?;
        let follower = Follower::new(habits, &cuts).map_err(cannot)?;
        Ok(Self {
            follower,
            listener: None,
            nominal,
            taps: Vec::new(),
            started: None,
        })
    }

    /// Takes in what was seen and tells what is known.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] for what cannot be, such as a tap in the wrong order; what
    /// came before it in the list is taken in.
    pub fn seen(&mut self, seen: &RunSeen) -> Result<FollowedDocument, ProductionError> {
        for event in &seen.events {
            self.one(event)?;
        }
        Ok(self.document(seen.now, &seen.when))
    }

    fn one(&mut self, event: &SeenAt) -> Result<(), ProductionError> {
        let seen = match event.seen {
            SeenWords::Started { frame } => Seen::Started {
                frame: frame as f64,
            },
            SeenWords::Tap { cut } => Seen::Tap { cut },
            SeenWords::Counter { frame } => Seen::Counter {
                frame: frame as f64,
                error: COUNTER_READ * self.nominal,
            },
        };
        let at = event.at;
        self.follower.see(Event { at, seen }).map_err(cannot)?;
        match seen {
            Seen::Tap { .. } => self.taps.push(at),
            Seen::Started { frame } => {
                self.started = Some((at, frame));
                self.taps.clear();
                if let Some((_, _, listener)) = self.listener.as_mut() {
                    listener.started(at, frame);
                }
            }
            _ => {}
        }
        Ok(())
    }

    /// Hears a piece of sound, one channel, and tells what is known.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] for sound that cannot be.
    pub fn hear(
        &mut self,
        ear: &Ear,
        samples: &[f32],
    ) -> Result<FollowedDocument, ProductionError> {
        if samples.len() as f64 > LONGEST_PIECE * ear.rate || !ear.at.is_finite() {
            return Err(unfit(
                "a piece of sound of more than five seconds, or without a time".to_owned(),
                "load the page again",
            ));
        }
        let same = |(blades, rate, _): &(Option<u8>, f64, Listener)| {
            *blades == ear.blades && (rate - ear.rate).abs() < 0.5
        };
        if !self.listener.as_ref().is_some_and(same) {
            let source = ear
                .blades
                .map_or(Source::Claw, |blades| Source::Light { blades });
            let mut listener =
                Listener::new(source, ear.rate, self.nominal, ear.lag).map_err(cannot)?;
            // What began before one listened is not heard to begin, which the listener knows.
            if let Some((at, frame)) = self.started {
                listener.started(at, frame);
            }
            self.listener = Some((ear.blades, ear.rate, listener));
        }
        let events = match self.listener.as_mut() {
            Some((_, _, listener)) => listener.hear(ear.at, samples),
            None => Vec::new(),
        };
        for event in events {
            self.follower.see(event).map_err(cannot)?;
        }
        let now = ear.at + samples.len() as f64 / ear.rate;
        Ok(self.document(now, &[]))
    }

    fn document(&self, now: f64, when: &[u32]) -> FollowedDocument {
        let live = self.follower.live(now).map(|live| LiveDocument {
            at: now,
            frame: live.frame,
            frame_error: live.frame_error,
            speed: live.speed,
            speed_error: live.speed_error,
            still_to_come: live.still_to_come,
        });
        let comes = when.iter().take(MOST_ASKED).filter_map(|frame| {
            let comes = self.follower.comes(f64::from(*frame))?;
            Some(ComesDocument {
                frame: *frame,
                at: comes.at,
                error_frames: comes.error_frames,
            })
        });
        FollowedDocument {
            run: String::new(),
            live,
            lost: self.follower.lost(now).map(|lost| AstrayDocument {
                words: lost.words(),
                next: lost.next().to_owned(),
            }),
            hears: self
                .listener
                .as_ref()
                .is_some_and(|(_, _, listener)| listener.hears()),
            next_cut: self.follower.next_cut(now),
            taken: self.follower.taken().to_vec(),
            comes: comes.collect(),
            line: self.line(),
        }
    }

    /// The straight line through the taps that fit a cut, as story 11 prints it.
    fn line(&self) -> Option<LineDocument> {
        let taps: Vec<Tap> = self
            .taps
            .iter()
            .zip(self.follower.taken())
            .filter_map(|(at, taken)| {
                Some(Tap {
                    frame: f64::from((*taken)?),
                    seconds: *at,
                })
            })
            .collect();
        let fit = fit_projector(&taps, false).ok()?;
        Some(LineDocument {
            speed: fit.speed,
            speed_error: fit.speed_error.is_finite().then_some(fit.speed_error),
        })
    }
}

fn cannot(why: FollowError) -> ProductionError {
    unfit(why.to_string(), why.hint())
}
