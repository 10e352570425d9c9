//! Making reels up, and the hall, on the command line.

use onestrand_production::{self as acts, Cancel, ReelPlanRequest, ThrowRequest};

use crate::answer::Answer;
use crate::arguments::{Paper, ReelPlan, ThrowAsked, word};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::words;

pub(crate) fn reel_plan(given: ReelPlan, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let request = ReelPlanRequest {
        cuts: given.cut,
        leader: given.leader,
        tail_leader: given.tail_leader,
        spacing: given.spacing,
        hub_mm: given.hub,
        thickness_mm: given.thickness,
        speed: given.speed,
        reels: given.reel,
        lies: given.lies.map(word),
        sound: given.sound.map(word),
        picture: given.picture,
        owner: given.owner,
        date: given.date,
    };
    let plan = acts::reel_plan(&production, &request)?;
    let mut words = words::reel_plan(&plan);
    if let Some(file) = &given.labels {
        let letter = given.paper == Paper::Letter;
        let labels = acts::gather_reel_labels(&production, &request, letter)?;
        labels.write(file)?;
        words.push_str(&format!("\nlabels: {}", file.display()));
    }
    let is_yes = plan.fits;
    Ok(Answer {
        is_yes,
        ..Answer::yes(&plan, words)
    })
}

pub(crate) fn throw(given: ThrowAsked) -> Outcome {
    let request = ThrowRequest {
        gauge: given.gauge,
        lens_mm: given.lens,
        width: given.width,
        distance: given.distance,
        last_row: given.last_row,
    };
    let hall = acts::throw(&request)?;
    let words = words::throw(&hall);
    Ok(Answer::yes(&hall, words))
}
