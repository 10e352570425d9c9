//! Bringing scans in while the page goes on working.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use onestrand_production::{
    AddRoll, EXAMPLE_ROLLS, FilmPart, LostWorkprint, ProductionError, Progress, RollWork,
    draw_example, example_roll, lay_example_cut, lay_example_sound, log_example_roll, open_example,
    write_example_script, write_example_titles,
};
use onestrand_store::{JobId, JobKind, JobState};

use crate::desk::Desk;
use crate::house::House;
use crate::jobs::{Job, JobDocument};
use crate::problem::ServerError;
use crate::shelf::EXAMPLE;
use crate::turns::Turn;

/// Begins to bring a roll in, and gives the job.
///
/// # Errors
/// What can be told at once: a name that is taken, a scan that cannot be read.
pub(crate) fn begin_roll(
    house: &Arc<House>,
    desk: &Arc<Desk>,
    request: &AddRoll,
) -> Result<JobDocument, ServerError> {
    let meta = desk.production().meta().clone();
    let work = RollWork::open(request, &meta)?;
    let _beginning = house.jobs.beginning();
    not_under_way(house, desk, work.roll())?;
    let number = work.begin(&desk.production())?;
    Ok(spawn(house, desk, work, number))
}

/// Refuses a roll of a name that is being brought in.
///
/// # Errors
/// [`ServerError::Act`].
pub(crate) fn not_under_way(house: &House, desk: &Desk, roll: &str) -> Result<(), ServerError> {
    if house.jobs.brings_in(&desk.film, roll) {
        let roll = roll.to_owned();
        return Err(ProductionError::RollThere { roll }.into());
    }
    Ok(())
}

/// Works beside the page until it is done; a panic in it is one failed job.
pub(crate) fn beside(
    name: &str,
    job: &Arc<Job>,
    work: impl FnOnce() -> Result<(), ServerError> + Send + 'static,
) {
    let running = Arc::clone(job);
    let spawned = std::thread::Builder::new()
        .name(name.to_owned())
        .spawn(move || {
            let broken = ServerError::Broken {
                what: "work beside the page",
            };
            let ended = catch_unwind(AssertUnwindSafe(work)).unwrap_or(Err(broken));
            running.end(ended.as_ref());
        });
    if spawned.is_err() {
        job.end(Err(&ServerError::Broken {
            what: "starting work beside the page",
        }));
    }
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
        let done = request
            .as_ref()
            .is_ok_and(|r| production.roll(&r.roll).is_ok());
        if done {
            production.end_job(job.id, JobState::Done, None)?;
            continue;
        }
        production.resume_job(job.id)?;
        drop(production);
        let roll = request.map(|r| r.roll).unwrap_or_default();
        spawn_written_down(house, desk, &roll, job.params, job.id);
    }
    Ok(())
}

/// Reads what is written down as a job; its scans are opened when its turn has come.
pub(crate) fn spawn_written_down(
    house: &Arc<House>,
    desk: &Arc<Desk>,
    roll: &str,
    params: String,
    number: JobId,
) -> JobDocument {
    let words = format!("reading {roll}");
    let job = house.jobs.begin("read", &desk.film, Some(roll), &words);
    let document = job.document();
    let (house, desk) = (Arc::clone(house), Arc::clone(desk));
    let (running, roll) = (Arc::clone(&job), roll.to_owned());
    beside(&words, &job, move || {
        let ended = match turn(&house, &roll, &running) {
            Some(_turn) => {
                let meta = desk.production().meta().clone();
                RollWork::resumed(&params, &meta)
            }
            None => Err(ProductionError::Stopped),
        };
        match ended {
            Ok(work) => read(&house, &desk, &work, number, &running),
            Err(problem) => {
                RollWork::given_up(&desk.production(), number, &problem)?;
                Err(problem.into())
            }
        }
    });
    document
}

fn spawn(house: &Arc<House>, desk: &Arc<Desk>, work: RollWork, number: JobId) -> JobDocument {
    let roll = work.roll().to_owned();
    let words = format!("reading {roll}");
    let job = house.jobs.begin("read", &desk.film, Some(&roll), &words);
    let document = job.document();
    let (house, desk, running) = (Arc::clone(house), Arc::clone(desk), Arc::clone(&job));
    beside(&format!("read {roll}"), &job, move || {
        read(&house, &desk, &work, number, &running)
    });
    document
}

/// Waits until fewer rolls are read at once; nothing when it was stopped before.
fn turn<'a>(house: &'a House, roll: &str, job: &Job) -> Option<Turn<'a>> {
    let words = format!("{roll} waits until another roll has been read");
    house.turns.take(&job.cancel, || job.waits(&words))
}

/// Reads without holding the production, then keeps.
fn read(
    house: &House,
    desk: &Desk,
    work: &RollWork,
    number: JobId,
    job: &Arc<Job>,
) -> Result<(), ServerError> {
    let mut teller = job.teller();
    let read = match turn(house, work.roll(), job) {
        Some(_turn) => work.read(desk.dir(), &job.cancel, &mut teller),
        None => Err(ProductionError::Stopped),
    };
    let mut production = desk.production();
    work.keep(&mut production, number, read, &mut teller)?;
    let roll = work.roll().to_owned();
    desk.forget_pictures(&roll);
    let parts = vec![FilmPart::Roll(roll.clone()), FilmPart::Takes(roll.clone())];
    desk.was_changed(&production, &format!("bring in {roll}"), parts);
    Ok(())
}

/// Begins to make a roll's workprint again that is lost, or was made by an older program
/// that did not keep all that this one does.
///
/// # Errors
/// [`ServerError::NotThere`] when there is none to make.
pub(crate) fn begin_again(
    house: &Arc<House>,
    desk: &Arc<Desk>,
    roll: &str,
) -> Result<JobDocument, ServerError> {
    let _beginning = house.jobs.beginning();
    not_under_way(house, desk, roll)?;
    let lost = LostWorkprint::or_older(&desk.production(), roll)?;
    let lost = lost.ok_or_else(|| ServerError::NotThere {
        what: "lost workprint of",
        name: roll.to_owned(),
    })?;
    let words = format!("reading {roll} again");
    let job = house.jobs.begin("read", &desk.film, Some(roll), &words);
    let document = job.document();
    let (house, desk) = (Arc::clone(house), Arc::clone(desk));
    let (running, roll) = (Arc::clone(&job), roll.to_owned());
    beside(&words, &job, move || {
        let made = match turn(&house, &roll, &running) {
            Some(_turn) => lost.make_again(&running.cancel, &mut running.teller()),
            None => Err(ProductionError::Stopped),
        };
        desk.forget_pictures(&roll);
        made?;
        let parts = vec![FilmPart::Roll(roll.clone())];
        desk.was_changed(&desk.production(), &format!("read {roll} again"), parts);
        Ok(())
    });
    Ok(document)
}

/// Begins to make the example on the shelf, unless it is there or under way.
pub(crate) fn begin_example(house: &Arc<House>) -> Result<JobDocument, ServerError> {
    let _beginning = house.jobs.beginning();
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
    let (house, running) = (Arc::clone(house), Arc::clone(&job));
    beside("draw the example", &job, move || {
        make_example(&house, &running)
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
            read(house, &desk, &work, number, job)?;
        }
        let mut production = desk.production();
        if log_example_roll(&mut production, roll)? {
            let parts = vec![FilmPart::Takes(request.roll.clone())];
            desk.was_changed(&production, &format!("the log of {}", request.roll), parts);
        }
    }
    let mut production = desk.production();
    if lay_example_cut(&mut production)? {
        let parts = vec![FilmPart::Cut("v1".to_owned()), FilmPart::Notes];
        desk.was_changed(
            &production,
            "mark what is seen, and lay the first cut",
            parts,
        );
    }
    if write_example_script(&mut production)? {
        desk.was_changed(&production, "write the shooting script", Vec::new());
    }
    if write_example_titles(&mut production)? {
        desk.was_changed(&production, "write the titles", Vec::new());
    }
    if lay_example_sound(&mut production, &job.cancel, &mut teller)? {
        desk.was_changed(&production, "lay the sounds", Vec::new());
    }
    teller.note("the example is ready");
    Ok(())
}
