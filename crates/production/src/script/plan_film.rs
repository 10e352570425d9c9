//! Stock, packing and coverage of a film.

use onestrand_film::{Fps, Frames};
use onestrand_plan::{
    Block, Coverage, Packing, PlanError, Script, StockRules, in_script_order, one_more_take,
    over_one_wind, pack, planned_coverage, retake, stock_cost,
};
use onestrand_store::Production;

use super::drawn::{rolls_left, takes_by_setup, takes_drawn};
use super::kept::KeptScript;
use super::stock::{price, rules, seconds, stock_of};
use crate::documents::{
    ActionCoverDocument, CostDocument, CoverageDocument, CoveredByDocument, LinedTakeDocument,
    OneMoreTakeDocument, OverWoundDocument, PackedRollDocument, PackedSetupDocument, PlanDocument,
    PlanProblemDocument, RetakeDocument, RetakeOnDocument, ScriptOrderDocument, StockWords,
};
use crate::{Cancel, ProductionError, Progress};

/// With what a plan is reckoned, where it is not as the film has it, and what besides.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PlanAsked {
    /// Frames of a roll that can be used.
    pub load: Option<u32>,
    /// Frames of run-up and run-out of each take.
    pub run_up: Option<u32>,
    /// Frames of the last roll that no take may use.
    pub kept_back: Option<u32>,
    /// Seconds on one wind of the motor.
    pub one_wind: Option<String>,
    /// Frames shown are those of this version.
    pub cut: Option<String>,
    /// What one more take of this setup does; of all setups when it is empty.
    pub one_more: Option<String>,
}

/// The plan of a film: how much film it takes, on which rolls, and what covers what.
///
/// # Errors
/// [`ProductionError::Plan`] with everything that keeps it from being planned;
/// [`ProductionError::Stopped`] when the user stopped it.
pub fn plan_film(
    production: &Production,
    asked: &PlanAsked,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<PlanDocument, ProductionError> {
    let speed = production.meta().speed;
    let kept = KeptScript::read(production)?;
    let stock = stock_asked(production, asked)?;
    let script = kept.model();
    let rules = rules(&stock, speed)?;
    script.check()?;
    let blocks = script.blocks(speed, Frames::new(stock.run_up)?);
    let packing = pack(&blocks, &rules)?;
    let takes = takes_drawn(production)?;
    let shown = shown_frames(production, &stock, asked.cut.as_deref())?;
    let ratio = shown.map(|shown| onestrand_plan::ShootingRatio {
        shot: packing.frames,
        shown,
    });
    let cost = stock_cost(
        packing.rolls.len(),
        price(&stock),
        shown.unwrap_or(Frames::ZERO),
        speed,
    );
    let shot = takes_by_setup(&takes);
    let order = in_script_order(&blocks, &rules)?;
    let lasts = lasts(packing.rolls.len(), production, &stock)?;
    Ok(PlanDocument {
        takes: packing.takes,
        frames: packing.frames.count(),
        rolls: packing.rolls.len(),
        by_roll: by_roll(&packing),
        moved: packing.moved,
        rolls_at_least: packing.rolls_at_least,
        moved_at_least: packing.moved_at_least,
        spare: packing.spare().count(),
        script_order: ScriptOrderDocument {
            rolls: order.len(),
            frames: order.iter().map(|frames| frames.count()).collect(),
        },
        coverage: coverage_document(&planned_coverage(&script)),
        shot: (!takes.is_empty())
            .then(|| coverage_document(&onestrand_plan::coverage(&script, &shot))),
        retakes: retakes(production, &script, &blocks, &takes, &stock)?,
        one_more: one_more(&blocks, &rules, &packing, asked, cancel, progress)?,
        over_wound: over_wound(&blocks, &rules),
        shown_frames: shown.map(Frames::count),
        ratio: ratio.map(|ratio| ratio.to_string()),
        cost: CostDocument {
            whole: cost.whole,
            shown_second: cost.shown_second,
            money: stock.money.clone(),
        },
        lasts,
        stock,
    })
}

fn stock_asked(production: &Production, asked: &PlanAsked) -> Result<StockWords, ProductionError> {
    let mut stock = stock_of(production)?;
    stock.load = asked.load.unwrap_or(stock.load);
    stock.run_up = asked.run_up.unwrap_or(stock.run_up);
    stock.kept_back = asked.kept_back.unwrap_or(stock.kept_back);
    if let Some(wind) = &asked.one_wind {
        stock.one_wind.clone_from(wind);
    }
    Ok(stock)
}

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

fn by_roll(packing: &Packing) -> Vec<PackedRollDocument> {
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

/// Frames that will be shown: what the user said, a version, or the newest version.
fn shown_frames(
    production: &Production,
    stock: &StockWords,
    cut: Option<&str>,
) -> Result<Option<Frames>, ProductionError> {
    if let Some(cut) = cut {
        return Ok(Some(crate::strand::cut(production, cut)?.frames()));
    }
    if !stock.shown.is_empty() {
        let shown = seconds(&stock.shown)?;
        return Ok(Some(shown.frames_up(production.meta().speed)));
    }
    let names = production.cut_names()?;
    let newest = names
        .last()
        .map(|name| crate::strand::cut(production, name));
    Ok(newest.transpose()?.map(|cut| cut.frames()))
}

/// How long so many whole rolls run.
fn lasts(
    rolls: usize,
    production: &Production,
    stock: &StockWords,
) -> Result<String, ProductionError> {
    let meta = production.meta();
    let whole = meta
        .gauge
        .spec()
        .load
        .map_or(stock.load, |(frames, _)| frames);
    let whole = u64::from(whole.max(stock.load)) * rolls as u64;
    let frames = Frames::new(u32::try_from(whole).unwrap_or(u32::MAX))?;
    Ok(clock(frames, meta.speed))
}

fn clock(frames: Frames, speed: Fps) -> String {
    onestrand_film::RunningTime::of(frames, speed).to_string()
}

fn over_wound(blocks: &[Block], rules: &StockRules) -> Vec<OverWoundDocument> {
    let over = over_one_wind(blocks, rules).into_iter();
    // The takes of a setup are planned alike: one word for all of them.
    over.filter(|over| over.take == 1)
        .map(|over| OverWoundDocument {
            setup: over.setup,
            over: over.over.count(),
        })
        .collect()
}

fn one_more(
    blocks: &[Block],
    rules: &StockRules,
    packing: &Packing,
    asked: &PlanAsked,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<Vec<OneMoreTakeDocument>, ProductionError> {
    let Some(setup) = &asked.one_more else {
        return Ok(Vec::new());
    };
    let mut all = Vec::new();
    let wanted = |name: &str| setup.is_empty() || name.eq_ignore_ascii_case(setup);
    for (nth, block) in blocks.iter().enumerate() {
        if !wanted(&block.setup) {
            continue;
        }
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        progress.note(&format!("one more take of {}", block.setup));
        let more = one_more_take(blocks, rules, packing).nth(nth);
        let more = more.transpose()?;
        all.extend(more.map(|more| OneMoreTakeDocument {
            setup: more.setup,
            frames: more.frames.count(),
            rolls_more: more.rolls_more,
            moved: more.moved,
            spare: more.spare.count(),
        }));
    }
    Ok(all)
}

/// What a retake would do, for each setup on whose one take an action hangs.
fn retakes(
    production: &Production,
    script: &Script,
    blocks: &[Block],
    takes: &[LinedTakeDocument],
    stock: &StockWords,
) -> Result<Vec<RetakeDocument>, ProductionError> {
    if takes.is_empty() {
        return Ok(Vec::new());
    }
    let shot = takes_by_setup(takes);
    let coverage = onestrand_plan::coverage(script, &shot);
    let left = rolls_left(production, takes, stock)?;
    let taken = |block: &&Block| shot.get(&block.setup).copied().unwrap_or(0) == 0;
    let still: Vec<&Block> = blocks.iter().filter(taken).collect();
    let wanted = Frames::total(still.iter().map(|block| block.frames()));
    let mut all: Vec<RetakeDocument> = Vec::new();
    for action in coverage.actions.iter().filter(|action| action.takes() == 1) {
        let Some(by) = action.by.first() else {
            continue;
        };
        if let Some(known) = all.iter_mut().find(|one| one.setup == by.setup) {
            known.actions.push(action.action.clone());
            continue;
        }
        let block = blocks.iter().find(|block| block.setup == by.setup);
        let Some(needs) = block.and_then(|block| block.takes.first()) else {
            continue;
        };
        let on = retake(*needs, &left, wanted).into_iter();
        all.push(RetakeDocument {
            setup: by.setup.clone(),
            actions: vec![action.action.clone()],
            needs: needs.count(),
            still_wanted: wanted.count(),
            still: still.iter().map(|block| block.setup.clone()).collect(),
            on: on
                .map(|on| RetakeOnDocument {
                    roll: on.roll,
                    left: on.left.count(),
                    left_after: on.left_after.map(Frames::count),
                    short_by: on.short_by.count(),
                })
                .collect(),
        });
    }
    Ok(all)
}

impl From<PlanError> for ProductionError {
    fn from(error: PlanError) -> Self {
        Self::Plan { source: error }
    }
}
