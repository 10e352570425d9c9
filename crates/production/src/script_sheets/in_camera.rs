//! The film cut in the camera, from the plan of the film.

use onestrand_film::Frames;
use onestrand_sheets::{InCameraSheet, InCameraStep};

use super::ScriptSheetsToPrint;
use super::scripts::what_happens;
use crate::ProductionError;
use crate::documents::CameraStepDocument;

/// Whether some setup turns into the next one, so that it is cut in the camera.
pub(super) fn is_meant(gathered: &ScriptSheetsToPrint) -> bool {
    let mut setups = gathered.script.setups.iter();
    setups.any(|one| one.setup.dissolve > 0)
}

/// All of the film: what is shot in the order of the screen is not shot in part.
pub(super) fn sheet(gathered: &ScriptSheetsToPrint) -> InCameraSheet {
    let (steps, of, problems) = match gathered.plan.film_in_camera() {
        Ok(film) => {
            let steps = film.steps.iter().map(|one| step(gathered, one)).collect();
            (steps, film.frames, Vec::new())
        }
        Err(problem) => (Vec::new(), 0, said(&problem)),
    };
    InCameraSheet {
        head: gathered.head.clone(),
        steps,
        frames: frames(of),
        wind_back: frames(gathered.plan.wind_back()),
        problems,
    }
}

fn frames(count: u32) -> Frames {
    Frames::new(count).unwrap_or(Frames::MAX)
}

/// Everything that keeps it from being planned, a line each.
fn said(problem: &ProductionError) -> Vec<String> {
    match problem {
        ProductionError::Plan { source } => {
            let found = source.problems().iter();
            found
                .map(|one| format!("{} {}", one.place, one.message).trim().to_owned())
                .collect()
        }
        other => vec![other.to_string()],
    }
}

fn step(gathered: &ScriptSheetsToPrint, step: &CameraStepDocument) -> InCameraStep {
    let (from, to) = (frames(step.from), frames(step.to));
    match (&*step.act, &step.shot) {
        ("wind_back", _) => InCameraStep::WindBack { from, to },
        (_, Some(setup)) => InCameraStep::Take {
            action: {
                let mut setups = gathered.script.setups.iter().map(|one| &one.setup);
                let found = setups.find(|one| &one.name == setup);
                found.map_or_else(String::new, |one| what_happens(gathered, one))
            },
            setup: setup.clone(),
            from,
            to,
            light_up: frames(step.fade_in),
            light_down: frames(step.fade_out),
        },
        (_, None) => InCameraStep::Load { roll: step.roll },
    }
}
