//! The light of a scene solved together: every shot that shows the same things.

use nalgebra::{Cholesky, DMatrix, Dyn};

use crate::points::{LOG_EXPOSURE_PER_POINT, points_for};
use crate::{LightError, robust};

/// One thing read in one shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// The shot, counted from 0.
    pub shot: usize,
    /// The thing, counted from 0: the same number in every shot that shows it.
    pub thing: usize,
    /// log10 of its mean light: red, green, blue.
    pub log: [f64; 3],
}

/// What is held while the rest is matched to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeldAt {
    /// This shot keeps its light; the others come to it.
    Shot(usize),
    /// The points of all shots that hang together sum to nothing.
    Mean,
}

/// Where a shot stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// It is the one the others come to.
    Held,
    /// It was solved.
    Solved,
    /// No chain of things leads from it to the shot that is held, or nothing was read in it.
    Apart,
}

/// A shot as it was solved.
#[derive(Debug, Clone, PartialEq)]
pub struct SolvedShot {
    /// Where it stands.
    pub standing: Standing,
    /// How much light it wants. Unit: points.
    pub points: [f64; 3],
    /// Standard error of it, from how far the readings disagree; none where nothing could
    /// disagree. Unit: points.
    pub error: Option<[f64; 3]>,
    /// Things read in it that another shot of the same group shows.
    pub readings: usize,
}

/// A reading as it fits.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedReading {
    /// What is left over when everything is matched. Unit: points.
    pub left: [f64; 3],
    /// How much it counted. Range: 0, not believed, to 1.
    pub weight: f64,
    /// Whether it stands so far off that it hardly counted: likely another thing, a
    /// reflection, a shadow.
    pub is_off: bool,
}

/// A scene as it was solved.
#[derive(Debug, Clone, PartialEq)]
pub struct SolvedScene {
    /// Each shot.
    pub shots: Vec<SolvedShot>,
    /// Each reading, as given.
    pub readings: Vec<FittedReading>,
}

/// Solves a scene: points for `shots` shots, so that each thing has one light in all.
///
/// In log exposure each reading is its thing plus its shot; both are found together by
/// least squares, each reading counted by how well it agrees
/// (see `docs/LIGHT.md`). Shots that no chain of things joins to the held one are told
/// and get no points; with [`HeldAt::Mean`] each group that hangs together is held at its
/// own mean.
///
/// # Errors
/// [`LightError::NothingShared`], [`LightError::ReadTwice`], [`LightError::NoLight`],
/// [`LightError::OutOfRange`].
pub fn solve_scene(
    readings: &[Reading],
    shots: usize,
    held: HeldAt,
) -> Result<SolvedScene, LightError> {
    look_over(readings, shots, held)?;
    let things = readings.iter().map(|r| r.thing + 1).max().unwrap_or(0);
    let groups = groups(readings, shots, things);
    let mut scene = SolvedScene {
        shots: vec![apart(); shots],
        readings: readings.iter().map(|_| alone()).collect(),
    };
    let mut shared = false;
    for group in 0..shots + things {
        let members: Vec<usize> = (0..readings.len())
            .filter(|at| groups[readings[*at].shot] == group)
            .collect();
        let in_group: Vec<usize> = (0..shots).filter(|s| groups[*s] == group).collect();
        if in_group.len() < 2 {
            continue;
        }
        shared = true;
        let anchor = match held {
            HeldAt::Shot(shot) if groups[shot] == group => shot,
            HeldAt::Shot(_) => continue,
            HeldAt::Mean => in_group[0],
        };
        let group = Group {
            shots: in_group,
            anchor,
            is_mean: held == HeldAt::Mean,
        };
        group.solve(readings, &members, &mut scene);
    }
    if let HeldAt::Shot(shot) = held {
        scene.shots[shot].standing = Standing::Held;
    }
    if shared {
        Ok(scene)
    } else {
        Err(LightError::NothingShared)
    }
}

fn apart() -> SolvedShot {
    SolvedShot {
        standing: Standing::Apart,
        points: [0.0; 3],
        error: None,
        readings: 0,
    }
}

fn alone() -> FittedReading {
    FittedReading {
        left: [0.0; 3],
        weight: 0.0,
        is_off: false,
    }
}

fn look_over(readings: &[Reading], shots: usize, held: HeldAt) -> Result<(), LightError> {
    let too_many = |what, given: usize, most: usize| LightError::OutOfRange {
        what,
        given: given as f64,
        least: 0.0,
        most: most as f64,
    };
    if let HeldAt::Shot(shot) = held
        && shot >= shots
    {
        return Err(too_many("the held shot", shot, shots.saturating_sub(1)));
    }
    let mut seen = std::collections::BTreeSet::new();
    for (at, reading) in readings.iter().enumerate() {
        let Reading { shot, thing, log } = *reading;
        if shot >= shots {
            return Err(too_many("a shot", shot, shots.saturating_sub(1)));
        }
        if thing >= readings.len() {
            return Err(too_many("a thing", thing, readings.len() - 1));
        }
        if !log.iter().all(|log| log.is_finite()) {
            return Err(LightError::NoLight { at });
        }
        if !seen.insert((shot, thing)) {
            return Err(LightError::ReadTwice { at, shot, thing });
        }
    }
    Ok(())
}

/// Which group each shot belongs to: the smallest number of a shot or thing in it.
fn groups(readings: &[Reading], shots: usize, things: usize) -> Vec<usize> {
    let mut group: Vec<usize> = (0..shots + things).collect();
    loop {
        let mut is_settled = true;
        for reading in readings {
            let (shot, thing) = (reading.shot, shots + reading.thing);
            let least = group[shot].min(group[thing]);
            is_settled &= group[shot] == least && group[thing] == least;
            (group[shot], group[thing]) = (least, least);
        }
        if is_settled {
            return group;
        }
    }
}

/// Shots that hang together by things.
struct Group {
    shots: Vec<usize>,
    anchor: usize,
    is_mean: bool,
}

/// The unknowns of a reading: its thing's, and its shot's unless that is the anchor.
type Columns = (usize, Option<usize>);

impl Group {
    fn solve(&self, readings: &[Reading], members: &[usize], scene: &mut SolvedScene) {
        let mut things: Vec<usize> = members.iter().map(|at| readings[*at].thing).collect();
        things.sort_unstable();
        things.dedup();
        let free: Vec<usize> = self
            .shots
            .iter()
            .copied()
            .filter(|shot| *shot != self.anchor)
            .collect();
        let columns: Vec<Columns> = members
            .iter()
            .map(|at| {
                let reading = readings[*at];
                let thing = things.binary_search(&reading.thing).unwrap_or(0);
                let shot = free.binary_search(&reading.shot).ok();
                (thing, shot.map(|shot| things.len() + shot))
            })
            .collect();
        let logs: Vec<[f64; 3]> = members.iter().map(|at| readings[*at].log).collect();
        let fit = Fit::robust(&columns, &logs, things.len() + free.len());
        let counts = |at: &usize| {
            members
                .iter()
                .filter(|m| readings[**m].thing == readings[*at].thing)
                .count()
                > 1
        };
        for (at, (left, weight)) in members.iter().zip(fit.left.iter().zip(&fit.weights)) {
            scene.readings[*at] = FittedReading {
                left: left.map(|left| left / LOG_EXPOSURE_PER_POINT),
                weight: *weight,
                is_off: *weight < robust::OFF,
            };
            let reading = readings[*at];
            scene.shots[reading.shot].readings += usize::from(counts(at));
        }
        let column = |shot: usize| free.binary_search(&shot).ok().map(|c| things.len() + c);
        self.write(&fit, column, scene);
    }

    /// Points and errors from the fit.
    fn write(&self, fit: &Fit, column: impl Fn(usize) -> Option<usize>, scene: &mut SolvedScene) {
        let count = self.shots.len() as f64;
        let value = |shot: usize, colour: usize| {
            column(shot).map_or(0.0, |column| fit.solution[(column, colour)])
        };
        let mean =
            |colour: usize| self.shots.iter().map(|s| value(*s, colour)).sum::<f64>() / count;
        let means = if self.is_mean {
            [mean(0), mean(1), mean(2)]
        } else {
            [0.0; 3]
        };
        for shot in &self.shots {
            let solved = &mut scene.shots[*shot];
            solved.standing = Standing::Solved;
            for (colour, mean) in means.iter().enumerate() {
                solved.points[colour] = points_for(value(*shot, colour) - mean);
            }
            let spread = self.spread(fit, &column, *shot);
            solved.error = fit
                .scatter
                .map(|scatter| scatter.map(|scatter| scatter * spread / LOG_EXPOSURE_PER_POINT));
        }
    }

    /// How much of the scatter of one reading comes through to a shot.
    fn spread(&self, fit: &Fit, column: &impl Fn(usize) -> Option<usize>, shot: usize) -> f64 {
        let mut wanted = DMatrix::zeros(fit.solution.nrows(), 1);
        if self.is_mean {
            for other in self.shots.iter().filter_map(|s| column(*s)) {
                wanted[other] -= 1.0 / self.shots.len() as f64;
            }
        }
        if let Some(own) = column(shot) {
            wanted[own] += 1.0;
        }
        let through = fit.factor.solve(&wanted);
        (wanted.transpose() * through)[0].max(0.0).sqrt()
    }
}

struct Fit {
    solution: DMatrix<f64>,
    factor: Cholesky<f64, Dyn>,
    left: Vec<[f64; 3]>,
    weights: Vec<f64>,
    /// Scatter of one reading, each colour. Unit: log10 exposure.
    scatter: Option<[f64; 3]>,
}

impl Fit {
    /// Solves again and again, each time counting each reading by how it fits.
    fn robust(columns: &[Columns], logs: &[[f64; 3]], unknowns: usize) -> Self {
        let mut fit = Self::weighted(columns, logs, unknowns, vec![1.0; logs.len()]);
        let spare = logs.len().saturating_sub(unknowns);
        if spare > 0 {
            for step in 0..robust::STEPS {
                let sizes: Vec<f64> = fit.left.iter().map(largest).collect();
                let weights = robust::weights(&sizes, spare, step);
                fit = Self::weighted(columns, logs, unknowns, weights);
            }
            fit.scatter = Some(fit.scatter_of(spare));
        }
        fit
    }

    fn weighted(
        columns: &[Columns],
        logs: &[[f64; 3]],
        unknowns: usize,
        weights: Vec<f64>,
    ) -> Self {
        let mut normal = DMatrix::<f64>::zeros(unknowns, unknowns);
        let mut right = DMatrix::<f64>::zeros(unknowns, 3);
        for ((&(thing, shot), log), weight) in columns.iter().zip(logs).zip(&weights) {
            for own in std::iter::once(thing).chain(shot) {
                normal[(own, own)] += weight;
                for colour in 0..3 {
                    right[(own, colour)] += weight * log[colour];
                }
            }
            if let Some(shot) = shot {
                normal[(thing, shot)] += weight;
                normal[(shot, thing)] += weight;
            }
        }
        let factor = positive(normal);
        let solution = factor.solve(&right);
        let left = columns
            .iter()
            .zip(logs)
            .map(|(&(thing, shot), log)| {
                std::array::from_fn(|colour| {
                    let shot = shot.map_or(0.0, |shot| solution[(shot, colour)]);
                    log[colour] - solution[(thing, colour)] - shot
                })
            })
            .collect();
        Self {
            solution,
            factor,
            left,
            weights,
            scatter: None,
        }
    }

    /// The scatter that the believed readings have, over what they have to spare.
    fn scatter_of(&self, spare: usize) -> [f64; 3] {
        let disbelieved: f64 = self.weights.iter().map(|w| 1.0 - w).sum();
        let spare = (spare as f64 - disbelieved).max(1.0);
        std::array::from_fn(|colour| {
            let each = self.left.iter().zip(&self.weights);
            let sum: f64 = each.map(|(left, w)| w * left[colour] * left[colour]).sum();
            (sum / spare).sqrt().max(robust::READING_NOISE)
        })
    }
}

fn largest(left: &[f64; 3]) -> f64 {
    left.iter()
        .fold(0.0, |most, left| f64::max(most, left.abs()))
}

/// The factor of the normal equations. They are positive since the group hangs together
/// and every weight is above zero; a trace on the diagonal covers what rounding does.
fn positive(normal: DMatrix<f64>) -> Cholesky<f64, Dyn> {
    let size = normal.nrows();
    let mut trace = 1e-12;
    loop {
        let lifted = &normal + DMatrix::identity(size, size) * trace;
        if let Some(factor) = lifted.cholesky() {
            return factor;
        }
        trace *= 100.0;
    }
}

#[cfg(test)]
mod tests;
