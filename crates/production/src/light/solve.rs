//! A scene solved together.

use std::collections::BTreeMap;

use onestrand_light::{HeldAt, Points, Reading, SolvedScene, Standing, solve_scene};
use onestrand_store::{Production, Workprints};

use super::frames::{Shot, Shots, transfer_of_roll};
use super::measure::{measured, told};
use crate::ProductionError;
use crate::documents::{LightAsked, LightSolved, PatchFits, PatchMeasured, ShotSolved, ShotStands};
use crate::error::unfit;

/// The most patches of one question: a scene has some dozens of shots.
const MOST_PATCHES: usize = 600;

/// Measures patches and solves the shots they lie in together.
///
/// # Errors
/// [`ProductionError::Light`] where no two shots share a thing, [`ProductionError::Unfit`]
/// and [`ProductionError::Store`].
pub fn solve_light(
    production: &Production,
    asked: &LightAsked,
) -> Result<LightSolved, ProductionError> {
    if asked.patches.len() > MOST_PATCHES {
        return Err(unfit(
            format!("{} patches, at most {MOST_PATCHES}", asked.patches.len()),
            "solve a scene at a time",
        ));
    }
    let scene = Scene::of(production, asked)?;
    let (readings, places) = scene.readings();
    let held = match &asked.held {
        None => HeldAt::Mean,
        Some(frame) => HeldAt::Shot(scene.shot_of(production, &frame.roll, frame.frame)?),
    };
    let solved = solve_scene(&readings, scene.shots.len(), held)?;
    Ok(scene.told(&solved, &places))
}

struct Scene {
    kind: Shots,
    shots: Vec<Shot>,
    /// Each patch: measured, its shot, its thing.
    patches: Vec<(PatchMeasured, usize, usize)>,
    words: Vec<String>,
}

impl Scene {
    fn of(production: &Production, asked: &LightAsked) -> Result<Self, ProductionError> {
        let kind = Shots::of(production, asked.cut.as_deref())?;
        let mut prints = Workprints::open(production.dir())?;
        let mut found = Vec::new();
        let mut unsaid = Vec::new();
        for patch in &asked.patches {
            let shot = kind.holding(production, &patch.roll, patch.frame)?;
            let (transfer, is_said) = transfer_of_roll(production, &patch.roll);
            if !is_said && !unsaid.contains(&patch.roll) {
                unsaid.push(patch.roll.clone());
            }
            let light = measured(&mut prints, patch, transfer)?;
            found.push((told(patch, &light), shot));
        }
        let mut shots: Vec<Shot> = found.iter().map(|(_, shot)| shot.clone()).collect();
        shots.sort();
        shots.dedup();
        let mut things: Vec<&str> = asked.patches.iter().map(|p| p.thing.trim()).collect();
        things.sort_unstable();
        things.dedup();
        let patches = found
            .into_iter()
            .map(|(patch, shot)| {
                let thing = things.binary_search(&patch.patch.thing.trim()).unwrap_or(0);
                let shot = shots.binary_search(&shot).unwrap_or(0);
                (patch, shot, thing)
            })
            .collect();
        let words = unsaid.iter().map(|roll| {
            format!("the scan of {roll} does not say how its numbers follow light; it is taken for BT.709")
        });
        Ok(Self {
            kind,
            shots,
            patches,
            words: words.collect(),
        })
    }

    fn shot_of(
        &self,
        production: &Production,
        roll: &str,
        frame: u32,
    ) -> Result<usize, ProductionError> {
        let shot = self.kind.holding(production, roll, frame)?;
        self.shots.binary_search(&shot).map_err(|_| {
            unfit(
                format!("no patch lies in the shot of {roll}·{frame}, which is to be held"),
                "drag a thing in it too, or hold another shot",
            )
        })
    }

    /// One reading for each thing of a shot, the mean where it was dragged in several of its
    /// frames; and which reading each patch went into.
    fn readings(&self) -> (Vec<Reading>, Vec<Option<usize>>) {
        let mut sums: BTreeMap<(usize, usize), ([f64; 3], f64)> = BTreeMap::new();
        let usable = |patch: &PatchMeasured| patch.log.filter(|_| patch.usable);
        for (patch, shot, thing) in &self.patches {
            if let Some(log) = usable(patch) {
                let sum = sums.entry((*shot, *thing)).or_insert(([0.0; 3], 0.0));
                sum.1 += 1.0;
                for (sum, log) in sum.0.iter_mut().zip(log) {
                    *sum += log;
                }
            }
        }
        let keys: Vec<(usize, usize)> = sums.keys().copied().collect();
        let readings = sums
            .into_iter()
            .map(|((shot, thing), (sum, count))| Reading {
                shot,
                thing,
                log: sum.map(|sum| sum / count),
            })
            .collect();
        let place = |(patch, shot, thing): &(PatchMeasured, usize, usize)| {
            usable(patch)?;
            keys.binary_search(&(*shot, *thing)).ok()
        };
        (readings, self.patches.iter().map(place).collect())
    }

    fn told(mut self, solved: &SolvedScene, places: &[Option<usize>]) -> LightSolved {
        let patches: Vec<PatchFits> = self
            .patches
            .drain(..)
            .zip(places)
            .map(|((measured, _, _), place)| {
                let fit = place.and_then(|at| solved.readings.get(at));
                PatchFits {
                    measured,
                    left_points: fit.map_or([0.0; 3], |fit| fit.left),
                    off: fit.is_some_and(|fit| fit.is_off),
                }
            })
            .collect();
        let shots: Vec<ShotSolved> = self
            .shots
            .iter()
            .zip(&solved.shots)
            .map(|(shot, solved)| shot_told(shot, solved))
            .collect();
        let mut words = self.words;
        words.extend(words_of_patches(&patches));
        words.extend(shots.iter().filter_map(words_of_shot));
        LightSolved {
            shots,
            patches,
            words,
        }
    }
}

fn shot_told(shot: &Shot, solved: &onestrand_light::SolvedShot) -> ShotSolved {
    let stands = match solved.standing {
        Standing::Held => ShotStands::Held,
        Standing::Solved => ShotStands::Solved,
        Standing::Apart => ShotStands::Apart,
    };
    let whole = Points::nearest(solved.points).ok();
    let whole = whole.filter(|_| stands != ShotStands::Apart);
    ShotSolved {
        roll: shot.roll.clone(),
        first: shot.first,
        thrown: shot.thrown,
        slate: shot.slate.clone(),
        stands,
        measured_points: solved.points,
        points: whole.map(Points::rgb),
        slopes: whole.map(Points::slopes),
        error_points: solved.error,
        things: solved.readings,
    }
}

fn words_of_patches(patches: &[PatchFits]) -> Vec<String> {
    let one = |fits: &PatchFits| {
        let measured = &fits.measured;
        let patch = &measured.patch;
        let name = format!("{} in {}·{}", patch.thing, patch.roll, patch.frame);
        if !measured.usable {
            let why = if measured.blown > measured.black {
                "blown"
            } else {
                "near black"
            };
            return Some(format!("{name} is {why} in part; it does not count"));
        }
        let far = fits
            .left_points
            .iter()
            .fold(0.0, |most, left| f64::max(most, left.abs()));
        fits.off.then(|| {
            format!("{name} does not fit the rest by {far:.0} points: another thing, a reflection, a shadow?")
        })
    };
    patches.iter().filter_map(one).collect()
}

fn words_of_shot(shot: &ShotSolved) -> Option<String> {
    let name = format!(
        "{}·{} to {}",
        shot.roll,
        shot.first,
        shot.thrown.saturating_sub(1)
    );
    match shot.stands {
        ShotStands::Apart => Some(format!(
            "nothing in {name} is seen in a shot that hangs together with the held one; it gets no points"
        )),
        _ if shot.points.is_none() => Some(format!(
            "{name} wants more than 60 points: a printer has no such light"
        )),
        _ => None,
    }
}
