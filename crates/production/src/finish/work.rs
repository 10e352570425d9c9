//! A finish gathered from the film, and made without it.

use std::path::Path;

use onestrand_film::{Fps, Frames, RollId, RunningTime, Span};
use onestrand_finish::{
    Coding, Container, FinishError, FinishPlan, Made, Pattern, Place, Treat, make,
};
use onestrand_intake::{Cancel, Ffmpeg};
use onestrand_store::Production;

use super::cards::Cards;
use super::document::coding_words;
use super::plan::{Plan, Said, Stretch, as_it_is, planned};
use super::sound::{FittingSound, fitting};
use super::{FinishDocument, FinishRequest, FinishShows, FinishSoundDocument, list, rolls_of};
use crate::bench_room::strip_as_it_is;
use crate::light::{TreatedPlaces, TreatmentChoice, treatment_of};
use crate::print_sheets::write_whole;
use crate::{ProductionError, Progress, strand, workprint};

/// All that a finish is made from. It needs the production no more, so that the film can
/// be worked on while it is made.
#[derive(Debug)]
pub struct FinishWork {
    request: FinishRequest,
    ffmpeg: Ffmpeg,
    laid: Laid,
    plan: FinishPlan,
    said: Vec<Said>,
    treated: Option<TreatedPlaces>,
    sound: Option<FittingSound>,
    captions: Option<String>,
    speed: Fps,
}

impl FinishWork {
    /// Gathers a finish: which frame of which scan stands where, titles drawn, weave and
    /// flicker measured where that is asked for.
    ///
    /// # Errors
    /// As [`finish`](super::finish).
    pub fn gather(
        production: &Production,
        request: &FinishRequest,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<Self, ProductionError> {
        let request = request.clone().in_full()?;
        let able = Able::of(production, &request, cancel)?;
        Self::of_able(production, request, able, cancel, progress)
    }

    /// Gathers a finish that was found to be able to be made.
    ///
    /// # Errors
    /// As [`finish`](super::finish).
    pub(super) fn of_able(
        production: &Production,
        request: FinishRequest,
        able: Able,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<Self, ProductionError> {
        let Able {
            ffmpeg,
            laid,
            sound,
        } = able;
        let rolls = rolls_of(&strand::cut(production, &request.cut)?);
        workprint::ready_workprints(production, &rolls, cancel, progress)?;
        let speed = production.meta().speed;
        // A card is drawn as wide as the pictures of the rolls.
        let width = widest(production, &rolls)?;
        let mut cards = Cards::default();
        let mut draw = |title: &str| match request.black_cards {
            true => Ok(None),
            false => cards.of(production, title, width, progress),
        };
        let mut places = Plan::of(production, &laid.stretches, &mut draw)?;
        let title = format!(
            "{}, {}: {}",
            production.meta().title,
            request.cut,
            laid.shows.words()
        );
        let plan = FinishPlan {
            cards: cards.into_films(),
            pattern: pattern(production, &request)?,
            sound: sound.as_ref().map(|fits| fits.sound.clone()),
            ..FinishPlan::plain(
                places.open_scans(production, &ffmpeg, cancel)?,
                std::mem::take(&mut places.places),
                speed,
                title,
                request.out.clone(),
            )?
        };
        let said = places.said;
        let treated = treated(
            production,
            &request,
            (&laid, &said),
            &plan,
            cancel,
            progress,
        )?;
        let captions = match &request.captions {
            Some(_) => Some(crate::dub::captions(production, &request.cut)?.vtt),
            None => None,
        };
        Ok(Self {
            request,
            ffmpeg,
            laid,
            plan,
            said,
            treated,
            sound,
            captions,
            speed,
        })
    }

    /// Makes it. Stopped, it goes on behind its last whole part when the same is gathered
    /// and made again.
    ///
    /// # Errors
    /// As [`finish`](super::finish).
    pub fn make(
        mut self,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<FinishDocument, ProductionError> {
        progress.begin("finishing", Some(self.plan.places.len() as u64));
        let treat = self.treated.as_mut().map(|t| t as &mut dyn Treat);
        let made = make(&self.ffmpeg, &self.plan, treat, cancel, &mut |n| {
            progress.at(n);
        })?;
        if let Some(path) = &self.request.list {
            list::write(path, self.plan.pattern, &self.said, &made)?;
        }
        if let (Some(path), Some(text)) = (&self.request.captions, &self.captions) {
            write_whole(path, text.as_bytes())?;
        }
        self.told(&made)
    }

    fn told(&self, made: &Made) -> Result<FinishDocument, ProductionError> {
        let (plan, request) = (&self.plan, &self.request);
        let places = |is: fn(&Place) -> bool| plan.places.iter().filter(|p| is(p)).count() as u64;
        let is_missing = |one: &&Said| matches!(one, Said::Missing(_));
        let (width, height) = plan.scans.first().map_or((0, 0), |s| {
            let facts = s.source.facts();
            (facts.width, facts.height)
        });
        let frames = Frames::new(u32::try_from(made.frames).unwrap_or(u32::MAX))?;
        let text = |path: &Path| crate::film_frames::path_text(path);
        Ok(FinishDocument {
            cut: request.cut.clone(),
            path: text(&request.out),
            frames: made.frames,
            speed: self.speed.to_string(),
            clock: RunningTime::of(frames, self.speed).to_string(),
            width,
            height,
            coding: coding_words(plan.coding, Container::of(&plan.path)),
            black: places(|p| *p == Place::Black),
            missing: self.said.iter().filter(is_missing).count() as u64,
            shows: self.laid.shows,
            turned: self.laid.turned,
            cards: places(|p| matches!(p, Place::Card { .. })),
            file_rate: plan.pattern.file_rate().to_string(),
            file_frames: made.file_frames,
            pattern: plan.pattern.words(),
            kept: made.kept,
            treated: self.treated.as_ref().map(TreatedPlaces::document),
            sound: self.sound.as_ref().map(|fits| FinishSoundDocument {
                path: text(&fits.sound.path),
                leader_frames: fits.leader,
                samples: fits.sound.samples,
            }),
            list: request.list.as_deref().map(text),
            captions: request.captions.as_deref().map(text),
        })
    }
}

/// What is found out before anything is made: the strip laid, the sound read once.
#[derive(Debug)]
pub(super) struct Able {
    ffmpeg: Ffmpeg,
    laid: Laid,
    sound: Option<FittingSound>,
}

impl Able {
    /// Says at once what cannot be made at all.
    ///
    /// # Errors
    /// As [`finish`](super::finish).
    pub(super) fn of(
        production: &Production,
        request: &FinishRequest,
        cancel: &Cancel,
    ) -> Result<Self, ProductionError> {
        pattern(production, request)?;
        leave_the_master_alone(request)?;
        let laid = Laid::of(production, request)?;
        let ffmpeg = Ffmpeg::locate()?;
        let speed = production.meta().speed;
        let sound = match &request.sound {
            Some(path) => Some(fitting(&ffmpeg, path, laid.frames()?, speed, cancel)?),
            None => None,
        };
        Ok(Self {
            ffmpeg,
            laid,
            sound,
        })
    }
}

/// What is shown, stretch by stretch.
#[derive(Debug)]
struct Laid {
    stretches: Vec<Stretch>,
    shows: FinishShows,
    turned: u64,
}

impl Laid {
    fn of(production: &Production, request: &FinishRequest) -> Result<Self, ProductionError> {
        let is_on_the_bench = match request.whole {
            true => None,
            false => strip_as_it_is(production, &request.cut)?,
        };
        if let Some((version, parts)) = is_on_the_bench {
            let (stretches, turned) = as_it_is(&version, parts);
            let shows = FinishShows::Strip;
            return Ok(Self {
                stretches,
                shows,
                turned,
            });
        }
        let cut = strand::cuttable(production, &request.cut, None)?.cut;
        Ok(Self {
            stretches: planned(&cut),
            shows: match request.whole {
                true => FinishShows::Whole,
                false => FinishShows::Planned,
            },
            turned: 0,
        })
    }

    /// All of them.
    fn frames(&self) -> Result<u32, ProductionError> {
        let one = |stretch: &Stretch| match stretch {
            Stretch::Frames(_, range, _) => u64::from(range.len().count()),
            Stretch::Leader(frames) | Stretch::Card(_, frames) => u64::from(*frames),
        };
        let all: u64 = self.stretches.iter().map(one).sum();
        Ok(Frames::new(u32::try_from(all).unwrap_or(u32::MAX))?.count())
    }
}

fn pattern(production: &Production, request: &FinishRequest) -> Result<Pattern, ProductionError> {
    let speed = production.meta().speed;
    let file_rate = match &request.file_rate {
        Some(text) => text.parse::<Fps>()?,
        None => speed,
    };
    Ok(Pattern::new(speed, file_rate)?)
}

/// Steadied or evened pictures are for showing; what is kept for good shows the film as
/// it is.
fn leave_the_master_alone(request: &FinishRequest) -> Result<(), ProductionError> {
    let is_master = Coding::usual(Container::of(&request.out)).is_exact();
    let what = match request.treat {
        TreatmentChoice { steady: true, .. } => "steadied",
        TreatmentChoice { flicker: true, .. } => "evened out",
        _ => return Ok(()),
    };
    match is_master {
        true => Err(FinishError::MasterChanged { what }.into()),
        false => Ok(()),
    }
}

/// What is done to the pictures, place by place; nothing where nothing was asked for.
fn treated(
    production: &Production,
    request: &FinishRequest,
    (laid, said): (&Laid, &[Said]),
    plan: &FinishPlan,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<Option<TreatedPlaces>, ProductionError> {
    if request.treat.is_none() {
        return Ok(None);
    }
    let span = |stretch: &Stretch| match stretch {
        Stretch::Frames(roll, range, _) => Some(Span {
            roll: roll.clone(),
            range: *range,
        }),
        _ => None,
    };
    let spans: Vec<Span> = laid.stretches.iter().filter_map(span).collect();
    let first = plan.scans.first().map(|scan| scan.source.facts());
    let transfer = first.and_then(|facts| facts.transfer.as_deref());
    let treatment = treatment_of(
        production,
        &spans,
        request.treat,
        transfer,
        cancel,
        progress,
    )?;
    let name = |one: &Said| match one {
        Said::Frame(name) => Some(name.clone()),
        _ => None,
    };
    Ok(Some(treatment.at_places(said.iter().map(name).collect())))
}

/// How wide the pictures of these rolls are. Unit: pixels.
fn widest(production: &Production, rolls: &[RollId]) -> Result<u32, ProductionError> {
    let mut widest = 0;
    for roll in rolls {
        let record = production.roll(roll.as_str())?;
        widest = record
            .scans
            .iter()
            .map(|s| s.facts.width)
            .fold(widest, u32::max);
    }
    match widest {
        0 => Err(FinishError::NoScan.into()),
        some => Ok(some),
    }
}
