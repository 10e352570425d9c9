//! The work at the bench on the command line.

use onestrand_film::FrameName;
use onestrand_production::documents::{BenchWrite, HappenedWords};
use onestrand_production::{
    self as acts, Cancel, FilmChange, MeaningRequest, Production, bench_room,
};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{Happening, LaidWord, Work, WorkHappened};
use crate::bar::Bar;
use crate::commands::{Outcome, join_kind, open};
use crate::in_the_hand::keep;
use crate::words::work as words;

/// Does one command of the bench, and shows the bench afterwards.
pub(crate) fn work(command: Work, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let (dir, write) = match command {
        Work::Begin(begin) => {
            let write = BenchWrite::Begin {
                cut: begin.cut,
                pins: begin.pins,
                tails: begin.tails,
                to_and_fro: begin.to_and_fro,
            };
            (begin.dir, Some(write))
        }
        Work::Show { dir } => (dir, None),
        Work::Tick { dir } => {
            let mut production = open(&dir, cancel, bar)?;
            let lines = bench_room(&production)?.lines;
            return written(&mut production, BenchWrite::Tick { lines });
        }
        Work::Happened(given) => return happened(&given, cancel, bar),
        Work::Strike { dir, line, reason } => (dir, Some(BenchWrite::Strike { line, reason })),
        Work::GoAhead { dir, roll, because } => {
            let words = because;
            (dir, Some(BenchWrite::GoAhead { roll, words }))
        }
        Work::Mend { dir } => (dir, Some(BenchWrite::Mend {})),
        Work::PlanAnew { dir, pins } => (dir, Some(BenchWrite::PlanAnew { pins })),
        Work::Life { dir, frame } => {
            let production = open(&dir, cancel, bar)?;
            let (roll, at) = (frame.roll.to_string(), frame.frame.index());
            let life = acts::strip_history(&production, &roll, at)?;
            let told = format!("{}: {}", life.frame, life.words);
            return Ok(Answer::yes(&life, told));
        }
        Work::TakeOff { dir } => (dir, Some(BenchWrite::TakeOff {})),
    };
    let mut production = open(&dir, cancel, bar)?;
    match write {
        Some(write) => written(&mut production, write),
        None => shown(&production),
    }
}

fn shown(production: &Production) -> Outcome {
    let room = bench_room(production)?;
    let told = words::bench(&room);
    Ok(Answer::yes(&room, told))
}

fn written(production: &mut Production, write: BenchWrite) -> Outcome {
    keep(production, &FilmChange::AtTheBench(write))?;
    shown(production)
}

fn happened(given: &WorkHappened, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let happened = vec![happening(&given.what)];
    let request = MeaningRequest {
        happened: happened.clone(),
    };
    let meaning = acts::bench_meaning(&production, &request)?;
    let mut told = words::meaning(&meaning);
    if !given.only_ask {
        let lines = bench_room(&production)?.lines;
        let write = BenchWrite::Happened { lines, happened };
        keep(&mut production, &FilmChange::AtTheBench(write))?;
        told.push_str("\nWritten down.");
    }
    let room = bench_room(&production)?;
    Ok(Answer::yes(
        &json!({ "meaning": meaning, "written": !given.only_ask, "bench": room }),
        told,
    ))
}

fn named(frame: &FrameName) -> (String, u32) {
    (frame.roll.to_string(), frame.frame.index())
}

fn happening(what: &Happening) -> HappenedWords {
    match what {
        Happening::Mounted { roll } => HappenedWords::Mounted { roll: roll.clone() },
        Happening::Unmounted => HappenedWords::Unmounted {},
        Happening::Cut { before } => {
            let (roll, before) = named(before);
            HappenedWords::Cut { roll, before }
        }
        Happening::Hung { frame, pin } => {
            let (roll, frame) = named(frame);
            let pin = *pin;
            HappenedWords::Hung { roll, frame, pin }
        }
        Happening::Joined {
            frame,
            position,
            join,
            laid,
        } => {
            let frame = frame.as_ref().map(named);
            HappenedWords::Joined {
                roll: frame.clone().map(|f| f.0),
                frame: frame.map(|f| f.1),
                position: *position,
                join: join_kind(*join).word().to_owned(),
                laid: match laid {
                    LaidWord::Right => "right",
                    LaidWord::TurnedOver => "turned_over",
                    LaidWord::EndForEnd => "end_for_end",
                }
                .to_owned(),
                ends: false,
            }
        }
        Happening::Opened { join } => HappenedWords::Opened { join: *join },
        Happening::Torn { first, frames } => {
            let (roll, first) = named(first);
            let out = first.saturating_add(*frames);
            HappenedWords::Torn { roll, first, out }
        }
        Happening::LetGo { first, frames } => {
            let (roll, first) = named(first);
            let out = first.saturating_add(*frames);
            HappenedWords::LetGo { roll, first, out }
        }
        Happening::MadeUp { frame, reel } => {
            let (roll, frame) = named(frame);
            let reel = reel.clone();
            HappenedWords::MadeUp { roll, frame, reel }
        }
    }
}
