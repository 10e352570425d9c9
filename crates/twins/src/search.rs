//! Which framing two takes share: all are tried on every few frames.

use crate::framing::{Framing, Window, framings};
use crate::lattice::{Lattice, Way};
use crate::likeness::Likeness;
use crate::movement::TakeMovement;
use crate::scene::sameness;
use crate::tracks::{Track, WindowLight};

/// Evidence that a frame of full likeness gives, in logarithms of a chance.
/// Neighbouring frames tell nearly the same, so it is far below what all fields
/// of a frame would allow if each spoke for itself.
pub(crate) const WEIGHT: f32 = 3.0;
/// What a step aside costs the best way: as much as its chance says.
pub(crate) const BEND: f32 = 1.1;
/// What it is worth when what stands still is the same. It decides between
/// framings that movement leaves open: in a pan, and where one figure crosses,
/// a framing off to the side is as good as a moment later.
pub(crate) const SCENE: f32 = 15.0;
/// Frames over which change is looked at, before and after: a third of a second
/// at 18 frames a second, in which a limb moves well over its grain.
pub(crate) const REACH: usize = 6;
/// So many frames of a take are looked at in the search.
const LOOKS: usize = 120;
/// Framings about the best that are tried, in shares of their width.
const FINER: [f32; 2] = [0.125, 0.06];
/// Paces are tried from 1 on by so much,
const PACE_STEP: f32 = 0.025;
/// so often, either way: from 0.8 to 1.25.
const PACE_STEPS: usize = 10;
/// How many of the best are made finer.
const KEPT: usize = 2;

/// A framing and what speaks for it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Tried {
    pub(crate) framing: Framing,
    /// How alike what stands still is. Range: 0 to 1.
    pub(crate) scene: f32,
    /// What moves, along the best way.
    pub(crate) evidence: f32,
}

impl Tried {
    pub(crate) fn score(&self) -> f32 {
        self.evidence + SCENE * self.scene
    }
}

/// Two takes on every few frames.
pub(crate) struct Search<'a> {
    here: &'a TakeMovement,
    there: &'a TakeMovement,
    /// From one frame that is looked at to the next.
    pub(crate) stride: usize,
    whole: [Track; 2],
}

impl<'a> Search<'a> {
    pub(crate) fn new(here: &'a TakeMovement, there: &'a TakeMovement) -> Self {
        let longest = here.frames().max(there.frames());
        // Change over a stride and back must not go beyond the reach by much.
        let stride = longest.div_ceil(LOOKS).max(2);
        let whole = [here, there].map(|take| track(take, Window::WHOLE, stride));
        Self {
            here,
            there,
            stride,
            whole,
        }
    }

    /// All framings tried, the best first.
    pub(crate) fn tried(&self) -> Vec<Tried> {
        let mut tried: Vec<Tried> = framings().into_iter().map(|f| self.try_out(f)).collect();
        for step in FINER {
            sort(&mut tried);
            let best: Vec<Framing> = tried.iter().take(KEPT).map(|t| t.framing).collect();
            for near in best.into_iter().flat_map(|framing| framing.near(step)) {
                if !tried.iter().any(|t| t.framing == near) {
                    tried.push(self.try_out(near));
                }
            }
        }
        sort(&mut tried);
        tried
    }

    /// The pace with the most evidence; of equals that nearest to 1.
    pub(crate) fn pace(&self, framing: Framing) -> f32 {
        let mut best = (f32::NEG_INFINITY, 1.0);
        for step in 0..=PACE_STEPS {
            for pace in [
                1.0 + PACE_STEP * step as f32,
                1.0 / (1.0 + PACE_STEP * step as f32),
            ] {
                let evidence = self.lattice(framing, pace).best_evidence(BEND);
                if evidence > best.0 {
                    best = (evidence, pace);
                }
            }
        }
        best.1
    }

    fn try_out(&self, framing: Framing) -> Tried {
        let scene = sameness(self.here.standing(), self.there.standing(), framing);
        Tried {
            framing,
            scene: scene.max(0.0),
            evidence: self.lattice(framing, 1.0).best_evidence(BEND),
        }
    }

    /// The best way under a framing, on the frames looked at.
    pub(crate) fn way(&self, framing: Framing, speed: f32) -> Option<Way> {
        self.lattice(framing, speed).best_way(BEND)
    }

    fn lattice(&self, framing: Framing, speed: f32) -> Lattice {
        let make =
            |take, window| (window != Window::WHOLE).then(|| track(take, window, self.stride));
        let (here, there) = (
            make(self.here, framing.first),
            make(self.there, framing.second),
        );
        let here = here.as_ref().unwrap_or(&self.whole[0]);
        let there = there.as_ref().unwrap_or(&self.whole[1]);
        Likeness::of(&[(here, there)]).lattice(speed, 1, WEIGHT * self.stride as f32)
    }
}

fn track(take: &TakeMovement, window: Window, stride: usize) -> Track {
    WindowLight::of(take, window, stride).changes((REACH / stride).max(1))
}

fn sort(tried: &mut [Tried]) {
    tried.sort_by(|a, b| b.score().total_cmp(&a.score()));
}
