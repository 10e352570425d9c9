//! A made-up reel as it is told: what is wound on it, how full it is, its labels.

use onestrand_film::{Filled, Frames, RunningTime};
use onestrand_store::Production;

use crate::ProductionError;
use crate::documents::{MadeUpReelDocument, WoundStretchDocument};
use crate::error::unfit;
use crate::films_to_wind::FilmToWind;
use crate::reel_choice::Choice;
use crate::reel_labels::ReelCard;
use crate::reel_plan::{Makeup, ReelPlanRequest, Unit, footage_words, said};
use crate::throw::round;

/// Everything a made-up reel is told from.
pub(crate) struct Cards<'a> {
    pub(crate) production: &'a Production,
    pub(crate) request: &'a ReelPlanRequest,
    pub(crate) makeup: &'a Makeup,
    pub(crate) films: &'a [FilmToWind],
}

impl Cards<'_> {
    /// All of them, in order.
    pub(crate) fn reels(
        &self,
        filled: &[Filled],
        units: &[Unit],
        choice: &[Choice],
    ) -> Result<Vec<(MadeUpReelDocument, ReelCard)>, ProductionError> {
        let own: Vec<&Choice> = choice.iter().filter(|one| one.document.own).collect();
        let mut reels = Vec::new();
        for (number, one) in (1..).zip(filled) {
            let wound = self.wound(&units[one.first..one.thrown])?;
            let frames: u32 = wound.iter().map(|stretch| stretch.frames).sum();
            let takes = |one: &&Choice| !one.document.own && one.document.takes_frames >= frames;
            let reel = match one.single {
                Some(place) => own[place],
                // The smallest of the plenty that takes it.
                None => choice.iter().find(takes).ok_or_else(|| {
                    unfit("a reel was filled that is none".to_owned(), "tell us of it")
                })?,
            };
            reels.push(self.reel(number, filled.len(), reel, wound)?);
        }
        Ok(reels)
    }

    fn wound(&self, units: &[Unit]) -> Result<Vec<WoundStretchDocument>, ProductionError> {
        let makeup = self.makeup;
        let mut all = Vec::new();
        let mut push = |what: &str, cut: Option<(&str, Option<(usize, usize)>)>, frames: u32| {
            if frames == 0 {
                return Ok::<(), ProductionError>(());
            }
            all.push(WoundStretchDocument {
                what: what.to_owned(),
                cut: cut.map(|(name, _)| name.to_owned()),
                from: cut.and_then(|(_, part)| part.map(|(from, _)| from)),
                to: cut.and_then(|(_, part)| part.map(|(_, to)| to)),
                frames,
                footage: makeup.gauge.footage(Frames::new(frames)?).into(),
            });
            Ok(())
        };
        push("leader", None, makeup.head.count())?;
        let mut at = 0;
        while at < units.len() {
            let film = units[at].film;
            let to = at
                + units[at..]
                    .iter()
                    .take_while(|unit| unit.film == film)
                    .count();
            if at > 0 {
                push("spacing", None, units[at].wind.spacing.count())?;
            }
            let frames = units[at..to]
                .iter()
                .map(|unit| unit.wind.frames.count())
                .sum();
            let ends = units[at].positions.zip(units[to - 1].positions);
            // A film that was divided for nothing is told whole.
            let whole = frames == self.films[film].frames.count();
            let part = ends.filter(|_| !whole).map(|(a, b)| (a.0, b.1));
            push("film", Some((&self.films[film].cut, part)), frames)?;
            at = to;
        }
        push("tail_leader", None, makeup.tail.count())?;
        Ok(all)
    }

    fn reel(
        &self,
        number: usize,
        of: usize,
        reel: &Choice,
        wound: Vec<WoundStretchDocument>,
    ) -> Result<(MadeUpReelDocument, ReelCard), ProductionError> {
        let makeup = self.makeup;
        let sum = |film: bool| {
            let those = wound.iter().filter(|s| !film || s.what == "film");
            Frames::new(those.map(|s| s.frames).sum())
        };
        let (frames, films) = (sum(false)?, sum(true)?);
        let takes = reel.document.takes_frames;
        let room = Frames::new(takes.saturating_sub(frames.count()))?;
        let films_clock = RunningTime::of(films, makeup.speed).to_string();
        let or_nothing = |text: &Option<String>| said(text.as_deref()).unwrap_or("").to_owned();
        let card = ReelCard {
            title: self.production.meta().title.clone(),
            films: wound.iter().filter_map(in_words).collect(),
            number,
            of,
            gauge: makeup.gauge.spec().name,
            speed: makeup.speed.to_string(),
            sound: or_nothing(&self.request.sound),
            picture: or_nothing(&self.request.picture),
            lies: or_nothing(&self.request.lies),
            owner: or_nothing(&self.request.owner),
            date: or_nothing(&self.request.date),
            films_footage: footage_words(makeup.gauge, films),
            films_clock: films_clock.clone(),
            footage: footage_words(makeup.gauge, frames),
            reel: reel.words(),
        };
        let document = MadeUpReelDocument {
            number,
            of,
            reel: reel.document.clone(),
            frames: frames.count(),
            footage: makeup.gauge.footage(frames).into(),
            clock: RunningTime::of(frames, makeup.speed).to_string(),
            films_clock,
            across_mm: round(makeup.across(frames, reel.document.hub_mm)?, 1),
            full_percent: round(
                f64::from(frames.count()) * 100.0 / f64::from(takes.max(1)),
                1,
            ),
            room_frames: room.count(),
            room: makeup.gauge.footage(room).into(),
            labels: card.labels(),
            wound,
        };
        Ok((document, card))
    }
}

/// A film on a reel: `v2`, or `v2, no. 1 to 12`.
fn in_words(stretch: &WoundStretchDocument) -> Option<String> {
    let cut = stretch.cut.as_ref()?;
    Some(match stretch.from.zip(stretch.to) {
        None => cut.clone(),
        Some((from, to)) if from == to => format!("{cut}, no. {from}"),
        Some((from, to)) => format!("{cut}, no. {from} to {to}"),
    })
}
