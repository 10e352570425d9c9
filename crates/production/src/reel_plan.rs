//! Reel make-up: which films go on which reel, how full it gets, how long it runs.

use onestrand_film::{
    Fps, Frames, Gauge, Length, Quantity, ReelsAtHand, RunningTime, Shrinkage, ToWind, Winding,
    diameter,
};
use onestrand_store::Production;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::documents::{FilmToWindDocument, ReelPlanDocument, WoundWholeDocument};
use crate::films_to_wind::{FilmToWind, bases, films};
use crate::reel_choice::{Choice, Thickness, choices, thickness};
use crate::reel_labels::ReelCard;
use crate::reel_made_up::Cards;
use crate::reels::one_of;
use crate::throw::round;

/// Leader at the head where nobody says how much. Unit: feet. Source: show reels
/// want 4 to 5 ft at least for a machine that threads itself (trade practice, from
/// memory); twice that leaves a foot to lose at each threading.
const HEAD_FEET: u32 = 10;

/// Spacing between two films where nobody says how much. Unit: feet. A choice of
/// ours: some seconds of dark.
const SPACING_FEET: u32 = 2;

/// What is to be made up, and on what.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct ReelPlanRequest {
    /// The versions, in the order in which they are shown.
    pub cuts: Vec<String>,
    /// Leader at the head of each reel, such as `10ft0`.
    pub leader: Option<String>,
    /// Leader at the tail of each reel.
    pub tail_leader: Option<String>,
    /// Spacing between two films.
    pub spacing: Option<String>,
    /// The hub of all reels. Unit: millimetres.
    pub hub_mm: Option<f64>,
    /// Thickness of the film. Unit: millimetres.
    pub thickness_mm: Option<f64>,
    /// The true speed; the film's own where it is not said.
    pub speed: Option<String>,
    /// Only these reels: sizes as `50ft`, or one's own by their names.
    pub reels: Vec<String>,
    /// How it will lie: `heads`, `tails` or `not-known`.
    pub lies: Option<String>,
    /// `silent`, `magnetic` or `optical`.
    pub sound: Option<String>,
    /// Colour or black and white, in the user's words.
    pub picture: Option<String>,
    /// Whose it is.
    pub owner: Option<String>,
    /// The date on the label.
    pub date: Option<String>,
}

pub(crate) struct Makeup {
    pub(crate) gauge: Gauge,
    pub(crate) speed: Fps,
    pub(crate) head: Frames,
    pub(crate) tail: Frames,
    pub(crate) spacing: Frames,
    pub(crate) thickness: Thickness,
}

/// What is wound in one: film and strips of it.
pub(crate) struct Unit {
    pub(crate) film: usize,
    pub(crate) positions: Option<(usize, usize)>,
    pub(crate) wind: ToWind,
}

/// Makes the reels up. That it does not fit is an answer, not an error.
///
/// # Errors
/// [`ProductionError::Unfit`] for a request that makes no sense,
/// [`ProductionError::Unit`] for a measure that cannot be,
/// [`ProductionError::Store`] for a version or reel that is not there.
pub fn reel_plan(
    production: &Production,
    request: &ReelPlanRequest,
) -> Result<ReelPlanDocument, ProductionError> {
    planned(production, request).map(|(document, _)| document)
}

/// The plan, with the record of each reel that its labels are written from.
pub(crate) fn planned(
    production: &Production,
    request: &ReelPlanRequest,
) -> Result<(ReelPlanDocument, Vec<ReelCard>), ProductionError> {
    let films = films(production, request)?;
    let makeup = makeup(production, request, &films)?;
    let mut assumptions = assumptions(&makeup, request);
    let choice = choices(
        production,
        request,
        makeup.gauge,
        &makeup.thickness,
        &mut assumptions,
    )?;
    let beside = makeup.head.count() + makeup.tail.count();
    let at_hand = at_hand(&choice, beside)?;
    let units = units(&films, &makeup, &at_hand)?;
    let wind: Vec<ToWind> = units.iter().map(|unit| unit.wind).collect();
    let filled = at_hand.fill(&wind);
    let problem = match &filled {
        Some(_) => String::new(),
        None => why_not(&choice, &units, &films, &makeup),
    };
    let cards = Cards {
        production,
        request,
        makeup: &makeup,
        films: &films,
    };
    let reels = match &filled {
        Some(filled) => cards.reels(filled, &units, &choice)?,
        None => Vec::new(),
    };
    let (reels, written): (Vec<_>, Vec<_>) = reels.into_iter().unzip();
    let document = ReelPlanDocument {
        title: production.meta().title.clone(),
        gauge: makeup.gauge.to_string(),
        speed: makeup.speed.to_string(),
        thickness_mm: makeup.thickness.mm,
        thickness_known: makeup.thickness.known,
        leader_frames: makeup.head.count(),
        tail_leader_frames: makeup.tail.count(),
        spacing_frames: makeup.spacing.count(),
        whole: makeup.whole(&films, request)?,
        films: films
            .iter()
            .map(|film| makeup.film_document(film))
            .collect(),
        fits: filled.is_some(),
        problem,
        reels,
        choice: choice.iter().map(|one| one.document.clone()).collect(),
        assumptions,
    };
    Ok((document, written))
}

fn makeup(
    production: &Production,
    request: &ReelPlanRequest,
    films: &[FilmToWind],
) -> Result<Makeup, ProductionError> {
    let gauge = production.meta().gauge;
    let speed = match said(request.speed.as_deref()) {
        Some(text) => text.parse()?,
        None => production.meta().speed,
    };
    if let Some(lies) = &request.lies {
        one_of("way it lies", lies, &["heads", "tails", "not-known"])?;
    }
    if let Some(sound) = &request.sound {
        one_of("sound", sound, &["silent", "magnetic", "optical"])?;
    }
    let feet = |feet: u32| Frames::new(feet * gauge.spec().frames_per_foot);
    let length = |text: &Option<String>, usual: u32| match said(text.as_deref()) {
        Some(text) => text
            .parse::<Quantity>()?
            .frames(gauge, speed, Shrinkage::NONE),
        None => feet(usual),
    };
    let spacing = length(&request.spacing, SPACING_FEET)?;
    Ok(Makeup {
        gauge,
        speed,
        head: length(&request.leader, HEAD_FEET)?,
        tail: length(&request.tail_leader, 0)?,
        spacing: if films.len() > 1 {
            spacing
        } else {
            Frames::ZERO
        },
        thickness: thickness(request.thickness_mm, &bases(production, films)?)?,
    })
}

pub(crate) fn said(text: Option<&str>) -> Option<&str> {
    text.map(str::trim).filter(|text| !text.is_empty())
}

fn assumptions(makeup: &Makeup, request: &ReelPlanRequest) -> Vec<String> {
    let per_foot = makeup.gauge.spec().frames_per_foot;
    let mut all = vec![
        makeup.thickness.words.clone(),
        format!("{per_foot} frames a foot, new film; joins add no thickness worth counting"),
    ];
    if said(request.leader.as_deref()).is_none() {
        all.push(format!(
            "{HEAD_FEET} ft of leader at the head of each reel: a machine that threads itself wants 4 to 5 ft, common practice"
        ));
    }
    if said(request.tail_leader.as_deref()).is_none() {
        all.push("no leader at the tail: a metre is common practice".to_owned());
    }
    if said(request.spacing.as_deref()).is_none() && makeup.spacing > Frames::ZERO {
        all.push(format!("{SPACING_FEET} ft of spacing between two films"));
    }
    if said(request.speed.as_deref()).is_none() {
        all.push(format!(
            "run at the film's own {} f/s: say the measured speed for the true time",
            makeup.speed
        ));
    }
    all
}

fn at_hand(choice: &[Choice], beside: u32) -> Result<ReelsAtHand, ProductionError> {
    let rest = |one: &Choice| {
        let takes = one.document.takes_frames;
        (takes > beside).then(|| takes - beside)
    };
    let plenty = choice.iter().filter(|one| !one.document.own);
    let plenty = plenty.filter_map(rest).max();
    let single = choice.iter().filter(|one| one.document.own);
    let single = single.map(|one| Frames::new(rest(one).unwrap_or(0)));
    Ok(ReelsAtHand {
        plenty: plenty.map(Frames::new).transpose()?,
        single: single.collect::<Result<_, _>>()?,
    })
}

/// The films in one each; one that goes on no reel in strips.
fn units(
    films: &[FilmToWind],
    makeup: &Makeup,
    at_hand: &ReelsAtHand,
) -> Result<Vec<Unit>, ProductionError> {
    let largest = at_hand.single.iter().chain(&at_hand.plenty).max();
    let mut units = Vec::new();
    for (film, one) in films.iter().enumerate() {
        let whole = largest.is_some_and(|takes| one.frames <= *takes);
        if whole || one.strips.len() < 2 {
            let wind = ToWind {
                frames: one.frames,
                spacing: makeup.spacing,
            };
            units.push(Unit {
                film,
                positions: None,
                wind,
            });
            continue;
        }
        for (place, (frames, from, to)) in one.strips.iter().enumerate() {
            let spacing = if place == 0 {
                makeup.spacing
            } else {
                Frames::ZERO
            };
            let wind = ToWind {
                frames: Frames::new(*frames)?,
                spacing,
            };
            units.push(Unit {
                film,
                positions: Some((*from, *to)),
                wind,
            });
        }
    }
    Ok(units)
}

fn why_not(choice: &[Choice], units: &[Unit], films: &[FilmToWind], makeup: &Makeup) -> String {
    let Some(largest) = choice.iter().max_by_key(|one| one.document.takes_frames) else {
        return format!(
            "No list of reels of {} is known. Measure one of yours: hub, and how many feet it takes.",
            makeup.gauge.spec().name
        );
    };
    let beside = makeup.head.count() + makeup.tail.count();
    let takes = largest.document.takes_frames.saturating_sub(beside);
    let long = units.iter().find(|unit| unit.wind.frames.count() > takes);
    match long {
        Some(unit) => format!(
            "{} of {} is {} long; the largest reel, {}, takes {} beside its leaders. A longer reel is wanted.",
            unit.positions.map_or_else(
                || "All".to_owned(),
                |(from, to)| if from == to {
                    format!("No. {from}")
                } else {
                    format!("No. {from} to {to}")
                }
            ),
            films[unit.film].cut,
            footage_words(makeup.gauge, unit.wind.frames),
            largest.document.reel,
            footage_words(makeup.gauge, Frames::new(takes).unwrap_or(Frames::ZERO)),
        ),
        None => "These reels do not take it all: name more of them, or larger ones.".to_owned(),
    }
}

/// `46 ft 60 fr`.
pub(crate) fn footage_words(gauge: Gauge, frames: Frames) -> String {
    let footage = gauge.footage(frames);
    format!("{} ft {} fr", footage.feet(), footage.frames())
}

impl Makeup {
    fn film_document(&self, film: &FilmToWind) -> FilmToWindDocument {
        FilmToWindDocument {
            cut: film.cut.clone(),
            frames: film.frames.count(),
            footage: self.gauge.footage(film.frames).into(),
            clock: RunningTime::of(film.frames, self.speed).to_string(),
            can_be_cut: film.can_be_cut,
        }
    }

    fn whole(
        &self,
        films: &[FilmToWind],
        request: &ReelPlanRequest,
    ) -> Result<WoundWholeDocument, ProductionError> {
        let between = self.spacing.count() * u32::try_from(films.len() - 1).unwrap_or(0);
        let film: u32 = films.iter().map(|film| film.frames.count()).sum();
        let frames = Frames::new(film + between + self.head.count() + self.tail.count())?;
        let usual = self.gauge.spec().hub_um.unwrap_or(32_000);
        let hub_mm = request.hub_mm.unwrap_or(f64::from(usual) / 1000.0);
        Ok(WoundWholeDocument {
            frames: frames.count(),
            footage: self.gauge.footage(frames).into(),
            clock: RunningTime::of(frames, self.speed).to_string(),
            hub_mm,
            across_mm: round(self.across(frames, hub_mm)?, 1),
        })
    }

    /// Across the wound film on a hub.
    pub(crate) fn across(&self, frames: Frames, hub_mm: f64) -> Result<f64, ProductionError> {
        let length = Length::by_feet(frames, self.gauge, Shrinkage::NONE);
        Ok(diameter(length, Winding::new(hub_mm, self.thickness.mm)?))
    }
}
