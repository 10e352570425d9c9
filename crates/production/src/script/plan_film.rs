//! Stock, packing and coverage of a film.

use onestrand_film::{Fps, Frames, RunningTime};
use onestrand_plan::{
    Block, CameraLimits, Coverage, Packing, PlanError, RollLeft, ScreenShot, Script, Setup,
    ShootingRatio, StockRules, in_camera, in_script_order, one_more_take, pack, planned_coverage,
    retake, stock_cost,
};
use onestrand_store::Production;

use super::drawn::{rolls_left, takes_by_setup, takes_drawn};
use super::kept::KeptScript;
use super::plan_documents::{
    by_roll, coverage_document, in_camera_document, over_wound, retake_on,
};
use super::stock::{price, rules, seconds, stock_of};
use crate::documents::{
    CostDocument, InCameraDocument, LinedTakeDocument, OneMoreTakeDocument, PlanDocument,
    RetakeDocument, ScriptOrderDocument, StockWords,
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
    /// Also the film cut in the camera.
    pub in_camera: bool,
    /// How far the camera can wind back. Unit: frames.
    pub wind_back: Option<u32>,
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
    PlanWork::read(production, asked)?.reckon(cancel, progress)
}

/// All that a plan is reckoned from, so that the film need not be held meanwhile.
#[derive(Debug, Clone)]
pub struct PlanWork {
    script: Script,
    stock: StockWords,
    speed: Fps,
    blocks: Vec<Block>,
    rules: StockRules,
    takes: Vec<LinedTakeDocument>,
    left: Vec<RollLeft>,
    shown: Option<Frames>,
    /// Frames of a whole roll.
    whole: u32,
    one_more: Option<String>,
    in_camera: bool,
}

impl PlanWork {
    /// Reads it from the film.
    ///
    /// # Errors
    /// [`ProductionError::Store`], [`ProductionError::Unfit`] for figures that are none.
    pub fn read(production: &Production, asked: &PlanAsked) -> Result<Self, ProductionError> {
        let meta = production.meta();
        let stock = stock_asked(production, asked)?;
        let mut script = KeptScript::read(production)?.model();
        crate::titles::plan_titles(production, &mut script)?;
        let takes = takes_drawn(production)?;
        let load = meta.gauge.spec().load;
        Ok(Self {
            blocks: script.blocks(meta.speed, Frames::new(stock.run_up)?),
            rules: rules(&stock, meta.speed)?,
            left: rolls_left(production, &takes, &stock)?,
            shown: shown_frames(production, &stock, asked.cut.as_deref())?,
            whole: load.map_or(stock.load, |(frames, _)| frames.max(stock.load)),
            speed: meta.speed,
            one_more: asked.one_more.clone(),
            in_camera: asked.in_camera,
            script,
            stock,
            takes,
        })
    }

    /// Reckons it; up to some seconds.
    ///
    /// # Errors
    /// As [`plan_film`].
    pub fn reckon(
        self,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<PlanDocument, ProductionError> {
        self.script.check()?;
        let packing = pack(&self.blocks, &self.rules)?;
        let order = in_script_order(&self.blocks, &self.rules)?;
        let shot = takes_by_setup(&self.takes);
        let shot = onestrand_plan::coverage(&self.script, &shot);
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
            coverage: coverage_document(&planned_coverage(&self.script)),
            shot: (!self.takes.is_empty()).then(|| coverage_document(&shot)),
            retakes: self.retakes(&shot),
            one_more: self.one_more(&packing, cancel, progress)?,
            over_wound: over_wound(&self.blocks, &self.rules),
            shown_frames: self.shown.map(Frames::count),
            ratio: self.ratio(&packing),
            cost: self.cost(&packing),
            lasts: self.lasts(packing.rolls.len())?,
            in_camera: self.cut_in_camera()?,
            stock: self.stock,
        })
    }

    /// The film cut in the camera alone, asked for or not: quick.
    ///
    /// # Errors
    /// [`ProductionError::Plan`] with everything that keeps it from being planned.
    pub(crate) fn film_in_camera(&self) -> Result<InCameraDocument, ProductionError> {
        self.script.check()?;
        self.each_setup_once()
    }

    /// How far back the camera is reckoned to wind. Unit: frames.
    pub(crate) const fn wind_back(&self) -> u32 {
        self.stock.wind_back
    }

    fn cut_in_camera(&self) -> Result<Option<InCameraDocument>, ProductionError> {
        self.in_camera.then(|| self.each_setup_once()).transpose()
    }

    /// Each setup once, in the order of the script, as the camera will have it.
    fn each_setup_once(&self) -> Result<InCameraDocument, ProductionError> {
        let shot = |setup: &Setup| ScreenShot {
            name: setup.name.clone(),
            frames: setup.seconds.frames_up(self.speed),
            dissolve: setup.dissolve,
            line: setup.line,
        };
        let shots: Vec<ScreenShot> = self.script.setups.iter().map(shot).collect();
        let camera = CameraLimits {
            load: self.rules.load,
            wind_back: Frames::new(self.stock.wind_back)?,
        };
        let film = in_camera(&shots, &camera)?;
        Ok(in_camera_document(&film, self.speed))
    }

    fn ratio(&self, packing: &Packing) -> Option<String> {
        let shot = packing.frames;
        let ratio = self.shown.map(|shown| ShootingRatio { shot, shown });
        ratio.map(|ratio| ratio.to_string())
    }

    fn cost(&self, packing: &Packing) -> CostDocument {
        let shown = self.shown.unwrap_or(Frames::ZERO);
        let cost = stock_cost(packing.rolls.len(), price(&self.stock), shown, self.speed);
        CostDocument {
            whole: cost.whole,
            shown_second: cost.shown_second,
            money: self.stock.money.clone(),
        }
    }

    /// How long so many whole rolls run.
    fn lasts(&self, rolls: usize) -> Result<String, ProductionError> {
        let whole = u64::from(self.whole) * rolls as u64;
        let frames = Frames::new(u32::try_from(whole).unwrap_or(u32::MAX))?;
        Ok(RunningTime::of(frames, self.speed).to_string())
    }

    fn one_more(
        &self,
        packing: &Packing,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<Vec<OneMoreTakeDocument>, ProductionError> {
        let Some(setup) = &self.one_more else {
            return Ok(Vec::new());
        };
        let mut all = Vec::new();
        let wanted = |name: &str| setup.is_empty() || name.eq_ignore_ascii_case(setup);
        for (nth, block) in self.blocks.iter().enumerate() {
            if !wanted(&block.setup) {
                continue;
            }
            if cancel.is_cancelled() {
                return Err(ProductionError::Stopped);
            }
            progress.note(&format!("one more take of {}", block.setup));
            let more = one_more_take(&self.blocks, &self.rules, packing, nth)?;
            all.push(OneMoreTakeDocument {
                setup: more.setup,
                frames: more.frames.count(),
                rolls_more: more.rolls_more,
                moved: more.moved,
                spare: more.spare.count(),
            });
        }
        Ok(all)
    }

    /// What a retake would do, for each setup on whose one take an action hangs.
    fn retakes(&self, coverage: &Coverage) -> Vec<RetakeDocument> {
        let shot = takes_by_setup(&self.takes);
        let is_open = |block: &&Block| shot.get(&block.setup).copied().unwrap_or(0) == 0;
        let still: Vec<&Block> = self.blocks.iter().filter(is_open).collect();
        let wanted = Frames::total(still.iter().map(|block| block.frames()));
        let mut all: Vec<RetakeDocument> = Vec::new();
        for action in coverage.actions.iter().filter(|a| a.takes() == 1) {
            let Some(by) = action.by.first() else {
                continue;
            };
            if let Some(known) = all.iter_mut().find(|one| one.setup == by.setup) {
                known.actions.push(action.action.clone());
                continue;
            }
            let block = self.blocks.iter().find(|block| block.setup == by.setup);
            let Some(needs) = block.and_then(|block| block.takes.first()) else {
                continue;
            };
            let on = retake(*needs, &self.left, wanted);
            all.push(RetakeDocument {
                setup: by.setup.clone(),
                actions: vec![action.action.clone()],
                needs: needs.count(),
                still_wanted: wanted.count(),
                still: still.iter().map(|block| block.setup.clone()).collect(),
                on: on.into_iter().map(retake_on).collect(),
            });
        }
        all
    }
}

fn stock_asked(production: &Production, asked: &PlanAsked) -> Result<StockWords, ProductionError> {
    let mut stock = stock_of(production)?;
    stock.load = asked.load.unwrap_or(stock.load);
    stock.run_up = asked.run_up.unwrap_or(stock.run_up);
    stock.kept_back = asked.kept_back.unwrap_or(stock.kept_back);
    stock.wind_back = asked.wind_back.unwrap_or(stock.wind_back);
    if let Some(wind) = &asked.one_wind {
        stock.one_wind.clone_from(wind);
    }
    Ok(stock)
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

impl From<PlanError> for ProductionError {
    fn from(error: PlanError) -> Self {
        Self::Plan { source: error }
    }
}
