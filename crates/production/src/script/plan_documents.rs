//! What the plan found, as documents.

use onestrand_film::{Fps, Frames, RunningTime};
use onestrand_plan::{
    Block, CameraStep, Coverage, InCamera, Packing, RetakeOn, Script, StockRules, in_script_order,
    over_one_wind,
};
use onestrand_store::Production;

use super::stock::rules;
use crate::ProductionError;
use crate::documents::{
    ActionCoverDocument, CameraStepDocument, CoverageDocument, CoveredByDocument, InCameraDocument,
    OverWoundDocument, PackedRollDocument, PackedSetupDocument, PlanProblemDocument,
    RetakeOnDocument, StockWords,
};

/// What keeps a script from being planned; nothing while it is empty.
pub(super) fn problems(
    production: &Production,
    script: &Script,
    stock: &StockWords,
) -> Result<Vec<PlanProblemDocument>, ProductionError> {
    if script.scenes.is_empty() && script.setups.is_empty() {
        return Ok(Vec::new());
    }
    let speed = production.meta().speed;
    let rules = rules(stock, speed)?;
    let blocks = script.blocks(speed, Frames::new(stock.run_up)?);
    let found = script.check().err().or_else(|| {
        let nothing_yet = script.setups.is_empty();
        in_script_order(&blocks, &rules)
            .err()
            .filter(|_| !nothing_yet)
    });
    let found = found.map(|error| error.problems().to_vec());
    Ok(found
        .unwrap_or_default()
        .into_iter()
        .map(|found| PlanProblemDocument {
            place: found.place,
            message: found.message,
        })
        .collect())
}

pub(super) fn coverage_document(coverage: &Coverage) -> CoverageDocument {
    let owned = |names: Vec<&str>| names.into_iter().map(str::to_owned).collect::<Vec<_>>();
    let by_action = coverage.actions.iter().map(|action| ActionCoverDocument {
        action: action.action.clone(),
        takes: action.takes(),
        by: action
            .by
            .iter()
            .map(|by| CoveredByDocument {
                setup: by.setup.clone(),
                takes: by.takes,
            })
            .collect(),
    });
    CoverageDocument {
        actions: coverage.actions.len(),
        covered: coverage.covered(),
        uncovered: owned(coverage.uncovered()),
        single_setup: owned(coverage.single_setup()),
        single_take: owned(coverage.single_take()),
        fewest_setups: coverage.fewest_setups.len(),
        example: coverage.fewest_setups.clone(),
        setups_at_least: coverage.setups_at_least,
        by_action: by_action.collect(),
    }
}

pub(super) fn by_roll(packing: &Packing) -> Vec<PackedRollDocument> {
    let roll = |roll: &onestrand_plan::PackedRoll| PackedRollDocument {
        setups: roll.blocks.iter().map(|b| b.setup.clone()).collect(),
        frames: roll.frames.count(),
        spare: roll.spare.count(),
        blocks: roll
            .blocks
            .iter()
            .map(|block| PackedSetupDocument {
                setup: block.setup.clone(),
                takes: block.takes,
                frames: block.frames.count(),
                moved: block.moved,
                part: block.part.map(|(nth, of)| format!("{nth} of {of}")),
            })
            .collect(),
    };
    packing.rolls.iter().map(roll).collect()
}

pub(super) fn over_wound(blocks: &[Block], rules: &StockRules) -> Vec<OverWoundDocument> {
    let over = over_one_wind(blocks, rules).into_iter();
    // The takes of a setup are planned alike: one word for all of them.
    over.filter(|over| over.take == 1)
        .map(|over| OverWoundDocument {
            setup: over.setup,
            over: over.over.count(),
        })
        .collect()
}

pub(super) fn retake_on(on: RetakeOn) -> RetakeOnDocument {
    RetakeOnDocument {
        roll: on.roll,
        left: on.left.count(),
        left_after: on.left_after.map(Frames::count),
        short_by: on.short_by.count(),
    }
}

pub(super) fn in_camera_document(film: &InCamera, speed: Fps) -> InCameraDocument {
    let mut roll = 0;
    let mut counter = 0;
    let step = |step: &CameraStep| {
        let mut document = CameraStepDocument {
            act: "load".to_owned(),
            roll: 0,
            shot: None,
            from: 0,
            to: 0,
            fade_in: 0,
            fade_out: 0,
        };
        match step {
            CameraStep::Load { roll: next } => {
                roll = *next;
                counter = 0;
            }
            CameraStep::Expose {
                shot,
                frames,
                fade_in,
                fade_out,
            } => {
                document.act = "expose".to_owned();
                document.shot = Some(shot.clone());
                document.from = frames.begin().index();
                document.to = frames.end().index();
                document.fade_in = fade_in.count();
                document.fade_out = fade_out.count();
                counter = document.to;
            }
            CameraStep::WindBack { to, .. } => {
                document.act = "wind_back".to_owned();
                document.from = counter;
                document.to = to.index();
                counter = document.to;
            }
        }
        document.roll = roll;
        document
    };
    InCameraDocument {
        frames: film.frames().count(),
        clock: RunningTime::of(film.frames(), speed).to_string(),
        rolls: film.rolls.iter().map(|frames| frames.count()).collect(),
        steps: film.steps.iter().map(step).collect(),
    }
}
