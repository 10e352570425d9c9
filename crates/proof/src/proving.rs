//! The scan of a cut reel laid beside the plan.

mod course;
mod judged;
mod laid;
mod planned;
mod rack;
mod replaced;
mod slack;
mod steps;

use crate::rolls::RollSketches;
use crate::way::Way;

pub use judged::{FaultKind, ReelFault};

/// What a version wants at one frame of the reel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted {
    /// A frame of a roll: number of the roll in the order handed in, and frame.
    Frame(usize, usize),
    /// Leader, a card not yet photographed, a roll without pictures: anything will do.
    Anything,
}

/// Frames of a roll that follow each other on the reel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ReelSpan {
    /// Frame of the scan at which it begins.
    pub at: usize,
    /// Number of the roll.
    pub roll: usize,
    /// First frame of the roll, half-open. Upside down it runs from its end.
    pub first: usize,
    /// One behind the last.
    pub end: usize,
    /// How it lies beside the roll's scan.
    pub way: Way,
}

/// What is on a reel.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ReelProof {
    /// What was recognised, in the order of the reel.
    pub spans: Vec<ReelSpan>,
    /// Where it is not the plan.
    pub faults: Vec<ReelFault>,
}

/// Lays the scan of a reel beside its plan.
///
/// `scan` holds its true film frames in order, without head and tail leader or with
/// them: what shows nothing at either end is passed over.
#[must_use]
pub fn prove_reel(scan: &RollSketches, rolls: &[RollSketches], plan: &[Wanted]) -> ReelProof {
    let (walk, course) = course::course(scan, rolls, plan);
    let spans = judged::spans(&course);
    let mut faults = judged::faults(scan, (&walk, &course), plan);
    rack::out_of_rack((scan, rolls), &course, &mut faults);
    faults.sort_by_key(|fault| fault.at);
    ReelProof { spans, faults }
}
