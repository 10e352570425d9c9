//! Something else happened than was to be done.

use onestrand_bench::{Deed, Entry, Film, Next, Place};
use onestrand_store::Production;

use super::happened::deed;
use super::line::BenchLine;
use super::room::{Room, Work};
use super::words::deed_words;
use super::write::{Said, still};
use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::HappenedWords;
use crate::error::unfit;

pub(super) fn what_happened(
    production: &Production,
    lines: u32,
    happened: &[HappenedWords],
) -> Result<Said, ProductionError> {
    let room = Room::of(production)?;
    still(&room, lines)?;
    let (words, _) = room.with(happened)?;
    let lines = happened.iter().cloned();
    let lines = lines.map(|deed| BenchLine::Deed { deed }).collect();
    Ok((words.join("; "), lines))
}

impl Room {
    /// What the bench would be with more deeds, and their words.
    pub(super) fn with(
        &self,
        happened: &[HappenedWords],
    ) -> Result<(Vec<String>, onestrand_bench::BenchLog), ProductionError> {
        let work = self.working()?;
        if happened.is_empty() {
            return Err(unfit("nothing was said".to_owned(), "say what happened"));
        }
        let mut log = self.log.clone();
        let mut words = Vec::new();
        for one in happened {
            let deed = deed(one, &work.strips)?;
            if let HappenedWords::MadeUp { reel, .. } = one {
                named(reel)?;
            }
            cut_off(&log, work, &deed)?;
            words.push(deed_words(&deed, work));
            log.add(Entry::Deed(deed))?;
        }
        Ok((words, log))
    }
}

fn named(reel: &str) -> Result<(), ProductionError> {
    text_fits("name of the reel", reel)?;
    match reel.trim().is_empty() {
        false => Ok(()),
        true => Err(unfit(
            "the reel of outs has no name".to_owned(),
            "write on it what it is called, such as Outs 1",
        )),
    }
}

/// A length that still holds film of two shots has not been cut apart.
fn cut_off(
    log: &onestrand_bench::BenchLog,
    work: &Work,
    deed: &Deed,
) -> Result<(), ProductionError> {
    let frame = match deed {
        Deed::Hang { frame, .. } => frame,
        Deed::Join {
            next: Next::Film(frame),
            ..
        } => frame,
        _ => return Ok(()),
    };
    let lengths = log.state().lengths().iter();
    let mut on_roll = lengths.filter(|l| l.place == Place::Roll);
    let holds = |film: &Film| film.holds(&frame.roll, frame.frame.index());
    let Some(length) = on_roll.find(|l| l.links.iter().any(|k| holds(&k.film))) else {
        return Ok(());
    };
    let shots = work.strips.strips.iter().filter(|strip| {
        strip.span.as_ref().is_some_and(|span| {
            length.links.iter().any(|link| match &link.film {
                Film::Roll { roll, begin, end } => {
                    *roll == span.roll
                        && span.range.begin().index() < *end
                        && *begin < span.range.end().index()
                }
                Film::Other { .. } => false,
            })
        })
    });
    match shots.count() > 1 {
        true => Err(ProductionError::CannotBe(
            onestrand_bench::CannotBe::NotCutOff {
                frame: frame.clone(),
            },
        )),
        false => Ok(()),
    }
}
