//! The projector: how fast it truly runs, out of taps at known frames.
//!
//! The straight line t = t₀ + n/v by least squares, or with creep a curve t = t₀ + bn + cn²;
//! fitted with polynomials that stand square to each other over the taps (Forsythe 1957),
//! so that no equations need solving and no digits are lost.

use super::student::t_95;
use crate::DubError;
use crate::dub_error::positive;

/// A tap: a frame, and when it was seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tap {
    /// The running frame.
    pub frame: f64,
    /// When. Unit: seconds.
    pub seconds: f64,
}

/// When a frame will come.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Predicted {
    /// The running frame.
    pub frame: f64,
    /// When. Unit: seconds.
    pub seconds: f64,
    /// Half the range that holds 95 of 100 such frames. Unit: frames.
    pub error_frames: f64,
}

/// A projector as its taps show it.
#[derive(Debug, Clone, PartialEq)]
pub struct ProjectorFit {
    /// Its speed; with creep the speed at the last tap. Unit: frames a second.
    pub speed: f64,
    /// Half the range that holds the true speed in 95 of 100 cases. Unit: frames a second;
    /// infinite where there are no more taps than unknowns.
    pub speed_error: f64,
    /// Its standard error. Unit: frames a second.
    pub standard_error: f64,
    /// How far the taps lie off the line: root of the mean square by degrees of freedom.
    /// Unit: frames.
    pub residual_frames: f64,
    /// How fast it was at the first tap. Unit: frames a second.
    pub speed_at_first: f64,
    basis: Basis,
}

/// Polynomials square to each other over the taps, with what the fit gives each.
#[derive(Debug, Clone, PartialEq)]
struct Basis {
    mean: f64,
    shift: f64,
    spread: f64,
    squares: Vec<f64>,
    weights: Vec<f64>,
    taps: usize,
    sigma: f64,
    freedom: usize,
}

impl Basis {
    fn of(taps: &[Tap], curved: bool) -> Self {
        let n = taps.len() as f64;
        let mean = taps.iter().map(|tap| tap.frame).sum::<f64>() / n;
        let far: Vec<f64> = taps.iter().map(|tap| tap.frame - mean).collect();
        let second: f64 = far.iter().map(|x| x * x).sum();
        let shift = far.iter().map(|x| x * x * x).sum::<f64>() / second;
        let mut basis = Self {
            mean,
            shift,
            spread: second / n,
            squares: Vec::new(),
            weights: Vec::new(),
            taps: taps.len(),
            sigma: 0.0,
            freedom: taps.len() - if curved { 3 } else { 2 },
        };
        let terms = if curved { 3 } else { 2 };
        for term in 0..terms {
            let of = |tap: &Tap| basis.term(term, tap.frame);
            let square: f64 = taps.iter().map(|tap| of(tap) * of(tap)).sum();
            let with: f64 = taps.iter().map(|tap| of(tap) * tap.seconds).sum();
            basis.squares.push(square);
            basis.weights.push(with / square);
        }
        let left: f64 = taps
            .iter()
            .map(|tap| (tap.seconds - basis.seconds(tap.frame)).powi(2))
            .sum();
        basis.sigma = match basis.freedom {
            0 => 0.0,
            free => (left / free as f64).sqrt(),
        };
        basis
    }

    /// The polynomial of a degree at a frame.
    fn term(&self, degree: usize, frame: f64) -> f64 {
        let x = frame - self.mean;
        match degree {
            0 => 1.0,
            1 => x,
            _ => x * x - self.shift * x - self.spread,
        }
    }

    fn slope_of_term(&self, degree: usize, frame: f64) -> f64 {
        match degree {
            0 => 0.0,
            1 => 1.0,
            _ => 2.0 * (frame - self.mean) - self.shift,
        }
    }

    fn seconds(&self, frame: f64) -> f64 {
        let terms = self.weights.iter().enumerate();
        terms
            .map(|(term, weight)| weight * self.term(term, frame))
            .sum()
    }

    /// Seconds a frame there, with its standard error.
    fn slope(&self, frame: f64) -> (f64, f64) {
        let mut slope = 0.0;
        let mut square = 0.0;
        for (term, weight) in self.weights.iter().enumerate() {
            let here = self.slope_of_term(term, frame);
            slope += weight * here;
            square += here * here / self.squares[term];
        }
        (slope, self.sigma * square.sqrt())
    }

    /// The standard error of a single frame's time.
    fn error_at(&self, frame: f64) -> f64 {
        let terms = self.squares.iter().enumerate();
        let line: f64 = terms
            .map(|(term, square)| self.term(term, frame).powi(2) / square)
            .sum();
        self.sigma * (1.0 + line).sqrt()
    }
}

/// Fits a projector to taps: a straight line, or with `creep` a curve for a machine that
/// warms up.
///
/// # Errors
/// [`DubError::TooFew`] under two taps, three with creep; [`DubError::WrongOrder`] where a
/// later tap has no later frame or time; [`DubError::NoMachine`] where what fits best runs
/// backward.
pub fn fit_projector(taps: &[Tap], creep: bool) -> Result<ProjectorFit, DubError> {
    let least = if creep { 3 } else { 2 };
    if taps.len() < least {
        let found = taps.len();
        return Err(DubError::TooFew { found, least });
    }
    let later = |two: &[Tap]| two[1].frame > two[0].frame && two[1].seconds > two[0].seconds;
    if let Some(nth) = taps.windows(2).position(|two| !later(two)) {
        return Err(DubError::WrongOrder { nth: nth + 2 });
    }
    let basis = Basis::of(taps, creep);
    let (first, last) = (taps[0].frame, taps[taps.len() - 1].frame);
    let (slope, slope_error) = basis.slope(last);
    let (slope_first, _) = basis.slope(first);
    if slope <= 0.0 || slope_first <= 0.0 {
        return Err(DubError::NoMachine);
    }
    let speed = 1.0 / slope;
    // An error of the seconds a frame, seen in frames a second.
    let standard_error = slope_error * speed * speed;
    let bound = match basis.freedom {
        0 => f64::INFINITY,
        free => t_95(free) * standard_error,
    };
    Ok(ProjectorFit {
        speed,
        speed_error: bound,
        standard_error,
        residual_frames: basis.sigma * speed,
        speed_at_first: 1.0 / slope_first,
        basis,
    })
}

impl ProjectorFit {
    /// When a frame will come.
    #[must_use]
    pub fn predict(&self, frame: f64) -> Predicted {
        let (slope, _) = self.basis.slope(frame);
        let error = match self.basis.freedom {
            0 => f64::INFINITY,
            free => t_95(free) * self.basis.error_at(frame) / slope.abs(),
        };
        Predicted {
            frame,
            seconds: self.basis.seconds(frame),
            error_frames: error,
        }
    }

    /// How many taps it rests on.
    #[must_use]
    pub const fn taps(&self) -> usize {
        self.basis.taps
    }
}

/// How many frames something laid at one speed ends late when the machine runs at another;
/// negative for early. Unit: frames of the machine. `frames` is the length of the film.
///
/// # Errors
/// [`DubError::NotPositive`].
pub fn frames_off(frames: f64, laid_at: f64, runs_at: f64) -> Result<f64, DubError> {
    let laid_at = positive("the speed it was laid at", laid_at)?;
    let runs_at = positive("the speed of the machine", runs_at)?;
    Ok(frames / laid_at * runs_at - frames)
}
