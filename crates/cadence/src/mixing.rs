//! Unmixing of full pictures, part by part.

use crate::CadenceError;
use crate::recipe::{GRADES, Recipe, WORTH};
use crate::unmix::Sample;

/// Samples either way that are graded together.
const PART: usize = 8;
/// Of so many lines one is measured.
const LISTENED: usize = 3;
/// Noise that rounding makes. Unit: samples squared.
const ROUNDING: f32 = 1.0 / 12.0;
/// What coding took from all file frames alike, mostly grain: no sum of them
/// shows it, and it is no less when they are put together. In drawn rolls once
/// (ProRes) to four times (H.264) what is heard; taken at its most.
const UNHEARD: f64 = 4.0;

/// One layer of the pictures that are put together: light, or one of two colours,
/// or all colours with their samples by turns.
#[derive(Debug, Clone)]
pub struct Layer<'a, S> {
    /// The layer of each picture, in the order of [`Recipe::file_frames`].
    pub pictures: Vec<&'a [S]>,
    /// Samples in a line.
    pub width: usize,
}

/// Puts a film frame together of the pictures of file frames, layer by layer, or
/// gives nothing where the best file frame is as near the film, as far as the first
/// layer shows.
///
/// In parts where neighbouring film frames hardly differ, file frames are averaged,
/// which takes away noise of coding; where they differ much, the neighbours are
/// taken out; between, by what errs least. How noisy the pictures are is heard
/// where sums of them should leave nothing.
///
/// # Errors
/// [`CadenceError::PictureSize`] when pictures of a layer differ in size or are
/// not of whole lines; [`CadenceError::PictureCount`] when a layer has more or
/// fewer pictures than the recipe has file frames.
///
/// # Examples
/// ```
/// use onestrand_cadence::{FilmFrame, Layer, unmix_picture};
///
/// # fn picture_of(_: u64) -> &'static [u8] { &[] }
/// fn picture(film: &FilmFrame, width: usize) -> Option<Vec<u8>> {
///     let recipe = film.recipe.as_ref()?;
///     let pictures = recipe.file_frames().iter().map(|k| picture_of(*k)).collect();
///     let layers = unmix_picture(recipe, &[Layer { pictures, width }]).ok()??;
///     layers.into_iter().next()
/// }
/// ```
pub fn unmix_picture<S: Sample>(
    recipe: &Recipe,
    layers: &[Layer<'_, S>],
) -> Result<Option<Vec<Vec<S>>>, CadenceError> {
    for layer in layers {
        check(recipe, layer)?;
    }
    let mut mixed = Vec::with_capacity(layers.len());
    for (number, layer) in layers.iter().enumerate() {
        let parts = Parts::of(recipe, layer);
        // Without a sum that should be silent nobody knows how noisy they are.
        if number == 0 && (recipe.silent.is_empty() || !parts.is_worth_it(recipe)) {
            return Ok(None);
        }
        mixed.push(parts.mix(recipe, layer));
    }
    Ok(Some(mixed))
}

fn check<S>(recipe: &Recipe, layer: &Layer<'_, S>) -> Result<(), CadenceError> {
    if layer.pictures.len() != recipe.file_frames.len() {
        return Err(CadenceError::PictureCount {
            wanted: recipe.file_frames.len(),
            found: layer.pictures.len(),
        });
    }
    let first = layer.pictures[0].len();
    let other = layer.pictures.iter().find(|picture| picture.len() != first);
    if let Some(other) = other {
        return Err(CadenceError::PictureSize {
            first,
            other: other.len(),
        });
    }
    if layer.width == 0 || !first.is_multiple_of(layer.width) {
        let whole = first / layer.width.max(1) * layer.width;
        return Err(CadenceError::PictureSize {
            first,
            other: whole,
        });
    }
    Ok(())
}

/// What the parts of a layer show of the film and of the noise.
#[derive(Debug)]
struct Parts {
    across: usize,
    down: usize,
    /// The variance that sets film frames apart, and that of the noise heard.
    differ: Vec<f32>,
    noise: Vec<f32>,
}

impl Parts {
    fn of<S: Sample>(recipe: &Recipe, layer: &Layer<'_, S>) -> Self {
        let height = layer.pictures[0].len() / layer.width;
        let (across, down) = (layer.width.div_ceil(PART), height.div_ceil(PART));
        let sums = Sums::of(recipe);
        let mut changed = vec![0.0_f32; across * down];
        let mut heard = vec![0.0_f32; across * down];
        let mut counted = vec![0.0_f32; across * down];
        let mut line = vec![[0.0_f32; 2]; layer.width];
        for y in (0..height).step_by(LISTENED) {
            sums.squares(layer, y, &mut line);
            let row = y / PART * across;
            for (at, squares) in line.chunks(PART).enumerate() {
                for [change, silence] in squares {
                    changed[row + at] += change;
                    heard[row + at] += silence;
                }
                counted[row + at] += squares.len() as f32;
            }
        }
        let spread = |sums: Vec<f32>| smooth(&sums, (across, down));
        let (changed, heard, counted) = (spread(changed), spread(heard), spread(counted));
        let noise: Vec<f32> = heard
            .iter()
            .zip(&counted)
            .map(|(heard, count)| heard / count / sums.silent_count().max(1.0) + ROUNDING)
            .collect();
        let differ = changed
            .iter()
            .zip(&counted)
            .zip(&noise)
            .map(|((changed, count), noise)| sums.differ(changed / count, *noise))
            .collect();
        Self {
            across,
            down,
            differ,
            noise,
        }
    }

    /// Whether the film frame put together errs less than the best file frame, by
    /// what is known of the parts.
    fn is_worth_it(&self, recipe: &Recipe) -> bool {
        let squares = |weights: &[f64]| weights.iter().map(|w| w * w).sum::<f64>();
        let graded: Vec<[f64; 2]> = recipe
            .weights
            .iter()
            .map(|weights| [recipe.left(weights), squares(weights)])
            .collect();
        let single = recipe.left(&recipe.alone());
        let (mut mixed, mut best) = (0.0, 0.0);
        for (at, (differ, noise)) in self.differ.iter().zip(&self.noise).enumerate() {
            let (differ, noise) = (f64::from(*differ), f64::from(*noise));
            let between = Between::of(self.grade(at));
            let [left, taken] = [0, 1].map(|which| between.of_table(|grade| graded[grade][which]));
            mixed += differ * left + noise * (taken + UNHEARD);
            best += differ * single + noise * (1.0 + UNHEARD);
        }
        mixed < WORTH * best
    }

    /// The grade of a part, reckoned between the steps of the table.
    fn grade(&self, at: usize) -> f32 {
        grade(self.differ[at], self.noise[at])
    }

    fn mix<S: Sample>(&self, recipe: &Recipe, layer: &Layer<'_, S>) -> Vec<S> {
        let height = layer.pictures[0].len() / layer.width;
        let mut mixed = Vec::with_capacity(layer.pictures[0].len());
        let mut line = vec![0.0_f32; layer.width];
        for y in 0..height {
            let weights = self.weights_along(recipe, y);
            line.fill(0.0);
            for (number, picture) in layer.pictures.iter().enumerate() {
                let row = &picture[y * layer.width..(y + 1) * layer.width];
                add_line(&mut line, row, &weights, number);
            }
            mixed.extend(line.iter().map(|level| S::nearest(*level)));
        }
        mixed
    }

    /// Weights at the middles of the parts along a line, between those of the
    /// parts above and below.
    fn weights_along(&self, recipe: &Recipe, y: usize) -> Vec<Vec<f32>> {
        let (up, low, share) = beside(y, self.down);
        let column = |x: usize| -> Vec<f32> {
            let (above, below) = (
                self.grade(up * self.across + x),
                self.grade(low * self.across + x),
            );
            let between = Between::of(above + (below - above) * share);
            (0..recipe.file_frames.len())
                .map(|at| between.of_table(|grade| recipe.weights[grade][at]) as f32)
                .collect()
        };
        (0..self.across).map(column).collect()
    }
}

/// Adds one picture's line, with weights that change evenly from the middle of a
/// part to the next.
fn add_line<S: Sample>(line: &mut [f32], row: &[S], weights: &[Vec<f32>], number: usize) {
    let mut from = 0;
    let mut edge = PART / 2;
    let mut left = 0;
    while from < line.len() {
        let right = if from == 0 {
            0
        } else {
            (left + 1).min(weights.len() - 1)
        };
        let until = edge.min(line.len());
        let (one, other) = (weights[left][number], weights[right][number]);
        let slope = (other - one) / PART as f32;
        let samples = line[from..until].iter_mut().zip(&row[from..until]);
        for (at, (sum, sample)) in samples.enumerate() {
            *sum += (one + slope * (at as f32 + 0.5)) * (*sample).into();
        }
        left = if from == 0 { 0 } else { right };
        from = until;
        edge += PART;
    }
}

/// The parts above and below a line (or the same twice at an edge), and how far it
/// lies from the one to the other.
fn beside(at: usize, count: usize) -> (usize, usize, f32) {
    let place = (at as f32 + 0.5) / PART as f32 - 0.5;
    let first = place.floor().max(0.0) as usize;
    let second = (first + 1).min(count - 1);
    (
        first.min(count - 1),
        second,
        (place - first as f32).clamp(0.0, 1.0),
    )
}

/// Where a part stands in the table of grades.
fn grade(differ: f32, noise: f32) -> f32 {
    let ratio = f64::from(differ / noise.max(1e-6)).max(1e-6).log2();
    let steps = GRADES.map(f64::log2);
    let above = steps.iter().position(|step| *step > ratio);
    match above {
        Some(0) => 0.0,
        None => (GRADES.len() - 1) as f32,
        Some(at) => {
            ((at - 1) as f64 + (ratio - steps[at - 1]) / (steps[at] - steps[at - 1])) as f32
        }
    }
}

/// A place in the table of grades between two of them.
#[derive(Debug, Clone, Copy)]
struct Between {
    low: usize,
    share: f64,
}

impl Between {
    fn of(grade: f32) -> Self {
        Self {
            low: grade.floor() as usize,
            share: f64::from(grade - grade.floor()),
        }
    }

    fn of_table(self, value: impl Fn(usize) -> f64) -> f64 {
        let (low, high) = (value(self.low), value((self.low + 1).min(GRADES.len() - 1)));
        low + (high - low) * self.share
    }
}

/// Sums over each part and the eight around it.
fn smooth(sums: &[f32], (across, down): (usize, usize)) -> Vec<f32> {
    let around = |at: usize, end: usize| at.saturating_sub(1)..(at + 2).min(end);
    let one = |at: usize| {
        let (x, y) = (at % across, at / across);
        around(y, down)
            .flat_map(|y| around(x, across).map(move |x| y * across + x))
            .map(|near| sums[near])
            .sum()
    };
    (0..sums.len()).map(one).collect()
}

/// Sums of pictures by which film and noise are measured.
#[derive(Debug)]
struct Sums<'a> {
    silent: &'a [Vec<f64>],
    /// Pairs of pictures that follow each other and show the film frame.
    pairs: Vec<usize>,
    /// What the film adds to the squares of their differences, and how many.
    differ: f32,
}

impl<'a> Sums<'a> {
    fn of(recipe: &'a Recipe) -> Self {
        let shows = |at: usize| {
            recipe.rows[at]
                .get(recipe.place)
                .is_some_and(|share| *share > 0.0)
        };
        let pairs: Vec<usize> = (1..recipe.rows.len())
            .filter(|at| shows(*at) || shows(at - 1))
            .collect();
        let differ = |pair: &usize| {
            let (one, other) = (&recipe.rows[pair - 1], &recipe.rows[*pair]);
            let turns = one.len().max(other.len());
            let of = |row: &[f64], turn: usize| row.get(turn).copied().unwrap_or(0.0);
            (0..turns)
                .map(|turn| (of(one, turn) - of(other, turn)).powi(2))
                .sum::<f64>()
        };
        Self {
            silent: &recipe.silent,
            differ: pairs.iter().map(differ).sum::<f64>() as f32,
            pairs,
        }
    }

    fn silent_count(&self) -> f32 {
        self.silent.len() as f32
    }

    /// The variance of the film from the mean square of changes.
    fn differ(&self, changed: f32, noise: f32) -> f32 {
        (changed - 2.0 * self.pairs.len() as f32 * noise).max(0.0) / self.differ.max(1e-3)
    }

    /// Along a line the squares of changes and of what should be silent.
    fn squares<S: Sample>(&self, layer: &Layer<'_, S>, y: usize, line: &mut [[f32; 2]]) {
        let rows: Vec<&[S]> = layer
            .pictures
            .iter()
            .map(|picture| &picture[y * layer.width..(y + 1) * layer.width])
            .collect();
        line.fill([0.0; 2]);
        for pair in &self.pairs {
            for ((squares, a), b) in line.iter_mut().zip(rows[pair - 1]).zip(rows[*pair]) {
                let change: f32 = (*a).into() - (*b).into();
                squares[0] += change * change;
            }
        }
        let mut sum = vec![0.0_f32; layer.width];
        for silent in self.silent {
            sum.fill(0.0);
            for (row, weight) in rows.iter().zip(silent) {
                let weight = *weight as f32;
                sum.iter_mut()
                    .zip(*row)
                    .for_each(|(sum, sample)| *sum += weight * (*sample).into());
            }
            line.iter_mut()
                .zip(&sum)
                .for_each(|(squares, sum)| squares[1] += sum * sum);
        }
    }
}

#[cfg(test)]
mod tests;
