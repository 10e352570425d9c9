//! Bringing scans in while the page goes on working.

use std::sync::Arc;

use onestrand_production::{
    AddRoll, EXAMPLE_ROLLS, FilmPart, LostWorkprint, Progress, RollWork, draw_example,
    example_roll, lay_example_cut, log_example_roll, open_example,
};
use onestrand_store::{JobId, JobKind, JobState};

use crate::desk::Desk;
use crate::house::House;
use crate::jobs::{Job, JobDocument};
use crate::problem::ServerError;
use crate::shelf::EXAMPLE;

/// Begins to bring a roll in, and gives the job.
///
/// # Errors
/// What can be told at once: a name that is taken, a scan that cannot be read.
pub(crate) fn begin_roll(
    house: &Arc<House>,
    desk: &Arc<Desk>,
    request: &AddRoll,
) -> Result<JobDocument, ServerError> {
    if house.jobs.brings_in(&desk.film, &request.roll) {
        return Err(onestrand_production::ProductionError::RollThere {
            roll: request.roll.clone(),
        }
        .into());
    }
    let meta = desk.production().meta().clone();
    let work = RollWork::open(request, &meta)?;
    let number = work.begin(&desk.production())?;
    Ok(spawn(house, desk, work, number))
}

/// Carries on what a kill has left undone in a film that was just opened.
pub(crate) fn carry_on(house: &Arc<House>, desk: &Arc<Desk>) -> Result<(), ServerError> {
    let waiting = desk.production().interrupted_jobs()?;
    for job in waiting {
        if job.kind != JobKind::Read {
            // The page makes no finish yet; the command line carries it on.
            continue;
        }
        let production = desk.production();
        let request: Result<AddRoll, _> = serde_json::from_str(&job.params);
        // The roll may have been kept just before the kill.
        let done = request.is_ok_and(|r| production.roll(&r.roll).is_ok());
        if done {
            production.end_job(job.id, JobState::Done, None)?;
            continue;
        }
        let meta = production.meta().clone();
        production.resume_job(job.id)?;
        drop(production);
        match RollWork::resumed(&job.params, &meta) {
            Ok(work) => {
                spawn(house, desk, work, job.id);
            }
            Err(problem) => {
                desk.production()
                    .end_job(job.id, JobState::Failed, Some(&problem.to_string()))?;
                let told = house.jobs.begin("read", &desk.film, None, &job.words);
                told.end(Err(&problem.into()));
            }
        }
    }
    Ok(())
}

fn spawn(house: &Arc<House>, desk: &Arc<Desk>, work: RollWork, number: JobId) -> JobDocument {
    let roll = work.roll().to_owned();
    let words = format!("reading {roll}");
    let job = house.jobs.begin("read", &desk.film, Some(&roll), &words);
    let document = job.document();
    let (desk, running) = (Arc::clone(desk), Arc::clone(&job));
    let thread = std::thread::Builder::new().name(format!("read {roll}"));
    let spawned = thread.spawn(move || {
        let ended = read(&desk, &work, number, &running);
        running.end(ended.as_ref());
    });
    if spawned.is_err() {
        job.end(Err(&ServerError::Broken {
            what: "starting work beside the page",
        }));
    }
    document
}

/// Reads without holding the production, then keeps.
fn read(desk: &Desk, work: &RollWork, number: JobId, job: &Arc<Job>) -> Result<(), ServerError> {
    let mut teller = job.teller();
    let read = work.read(desk.dir(), &job.cancel, &mut teller);
    let mut production = desk.production();
    work.keep(&mut production, number, read, &mut teller)?;
    let roll = work.roll().to_owned();
    desk.forget_pictures(&roll);
    let parts = vec![FilmPart::Roll(roll.clone()), FilmPart::Takes(roll.clone())];
    desk.was_changed(&production, &format!("bring in {roll}"), parts);
    Ok(())
}

/// Begins to make a roll's lost workprint again.
///
/// # Errors
/// [`ServerError::NotThere`] when there is none to make.
pub(crate) fn begin_again(
    house: &Arc<House>,
    desk: &Arc<Desk>,
    roll: &str,
) -> Result<JobDocument, ServerError> {
    if house.jobs.brings_in(&desk.film, roll) {
        return Err(onestrand_production::ProductionError::RollThere {
            roll: roll.to_owned(),
        }
        .into());
    }
    let lost = LostWorkprint::of(&desk.production(), roll)?;
    let lost = lost.ok_or_else(|| ServerError::NotThere {
        what: "lost workprint of",
        name: roll.to_owned(),
    })?;
    let words = format!("reading {roll} again");
    let job = house.jobs.begin("read", &desk.film, Some(roll), &words);
    let document = job.document();
    let (desk, roll) = (Arc::clone(desk), roll.to_owned());
    std::thread::spawn(move || {
        let ended = lost
            .make_again(&job.cancel, &mut job.teller())
            .map_err(ServerError::from);
        desk.forget_pictures(&roll);
        if ended.is_ok() {
            let parts = vec![FilmPart::Roll(roll.clone())];
            desk.was_changed(&desk.production(), &format!("read {roll} again"), parts);
        }
        job.end(ended.as_ref());
    });
    Ok(document)
}

/// Begins to make the example on the shelf, unless it is there or under way.
pub(crate) fn begin_example(house: &Arc<House>) -> Result<JobDocument, ServerError> {
    if let Some(running) = house
        .jobs
        .documents()
        .into_iter()
        .find(|j| j.kind == "example" && j.state == "running")
    {
        return Ok(running);
    }
    let job = house
        .jobs
        .begin("example", EXAMPLE, None, "drawing the example");
    let document = job.document();
    let (house, running) = (Arc::clone(house), job);
    std::thread::spawn(move || {
        let ended = make_example(&house, &running);
        running.end(ended.as_ref());
    });
    Ok(document)
}

fn make_example(house: &Arc<House>, job: &Arc<Job>) -> Result<(), ServerError> {
    let mut teller = job.teller();
    let dir = house.shelf.place(EXAMPLE)?;
    draw_example(&dir, &job.cancel, &mut teller)?;
    let desk = if onestrand_production::Production::is_here(&dir) {
        house.shelf.film(EXAMPLE)?.0
    } else {
        house.shelf.put(EXAMPLE, open_example(&dir)?)?
    };
    house.places.add(&dir);
    for roll in 1..=EXAMPLE_ROLLS {
        let request = example_roll(&dir, roll);
        job.at_roll(&request.roll);
        if desk.production().roll(&request.roll).is_err() {
            let meta = desk.production().meta().clone();
            let work = RollWork::open(&request, &meta)?;
            let number = work.begin(&desk.production())?;
            read(&desk, &work, number, job)?;
        }
        let mut production = desk.production();
        if log_example_roll(&mut production, roll)? {
            let parts = vec![FilmPart::Takes(request.roll.clone())];
            desk.was_changed(&production, &format!("the log of {}", request.roll), parts);
        }
    }
    let mut production = desk.production();
    if lay_example_cut(&mut production)? {
        let parts = vec![FilmPart::Cut("v1".to_owned())];
        desk.was_changed(&production, "lay the first cut", parts);
    }
    teller.note("the example is ready");
    Ok(())
}
