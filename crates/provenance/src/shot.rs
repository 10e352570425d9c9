//! What a shot shows of the camera that took it.

use crate::ProvenanceError;
use crate::gate::{GateOutline, Measured, PLACES, Side, measured, rough_border};
use crate::scan_picture::{Grey, ScanPicture};
use crate::standing::{Standing, StandingThing, standing};
use crate::stock::{FogSeen, StockSeen, stock};

/// Fewest pictures in which anything can be seen.
const LEAST_FRAMES: usize = 4;

/// What a shot shows of its camera, or why it does not.
#[derive(Debug, Clone, PartialEq)]
pub struct ShotSeen {
    pub(crate) gate: Result<SeenGate, GateUnseen>,
}

/// What is seen where the scan shows the gate.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SeenGate {
    pub(crate) outline: GateOutline,
    /// The same out of the first and the second half of the frames: how far they differ is
    /// how far two outlines of one camera may.
    pub(crate) halves: Option<(GateOutline, GateOutline)>,
    pub(crate) standing: Standing,
    pub(crate) stock: StockSeen,
    pub(crate) fog: FogSeen,
}

/// Why a shot says nothing of its camera.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum GateUnseen {
    /// The scan is cropped, or the picture too dark, on these sides.
    Sides(Vec<Side>),
    /// There is a dark border, and its edge is not that of a gate.
    NoEdge,
}

impl GateUnseen {
    /// The same in words for a person.
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Self::Sides(sides) if sides.len() == 4 => "this scan does not show the gate".to_owned(),
            Self::Sides(sides) => {
                let named: Vec<&str> = sides.iter().map(|side| side_word(*side)).collect();
                format!("the gate is not seen {}", named.join(" and "))
            }
            Self::NoEdge => "there is a border, but no edge of a gate could be followed".to_owned(),
        }
    }
}

fn side_word(side: Side) -> &'static str {
    match side {
        Side::Left => "on the left",
        Side::Right => "on the right",
        Side::Top => "at the top",
        Side::Bottom => "at the bottom",
    }
}

impl ShotSeen {
    /// Looks at some frames of one shot, in order, spread over it from its first to its last;
    /// 8 to 24 will do.
    ///
    /// # Errors
    /// [`ProvenanceError::TooFew`] with fewer than four, [`ProvenanceError::Sizes`].
    pub fn of(pictures: &[ScanPicture]) -> Result<Self, ProvenanceError> {
        if pictures.len() < LEAST_FRAMES {
            return Err(ProvenanceError::TooFew {
                found: pictures.len(),
                least: LEAST_FRAMES,
            });
        }
        let size = |p: &ScanPicture| (p.width(), p.height());
        if pictures.iter().any(|p| size(p) != size(&pictures[0])) {
            return Err(ProvenanceError::Sizes);
        }
        let frames: Vec<Grey> = pictures.iter().map(ScanPicture::grey).collect();
        Ok(Self {
            gate: seen_gate(pictures, &frames),
        })
    }

    /// The outline of the gate, where the scan shows it.
    #[must_use]
    pub fn outline(&self) -> Option<&GateOutline> {
        self.gate.as_ref().ok().map(|gate| &gate.outline)
    }

    /// Why the gate is not seen, where it is not.
    #[must_use]
    pub fn unseen(&self) -> Option<&GateUnseen> {
        self.gate.as_ref().err()
    }

    /// What stands still at the edge of the gate.
    #[must_use]
    pub fn standing(&self) -> &[StandingThing] {
        self.gate.as_ref().map_or(&[], |gate| &gate.standing.things)
    }

    /// The stock, where its border is seen.
    #[must_use]
    pub fn stock(&self) -> Option<&StockSeen> {
        self.gate.as_ref().ok().map(|gate| &gate.stock)
    }

    /// The fog at both ends.
    #[must_use]
    pub fn fog(&self) -> FogSeen {
        self.gate
            .as_ref()
            .map_or(FogSeen::default(), |gate| gate.fog)
    }
}

fn seen_gate(pictures: &[ScanPicture], frames: &[Grey]) -> Result<SeenGate, GateUnseen> {
    let border = rough_border(frames).map_err(GateUnseen::Sides)?;
    let gate: Measured = measured(frames, border).ok_or(GateUnseen::NoEdge)?;
    let (first, second) = frames.split_at(frames.len() / 2);
    let half = |frames| measured(frames, border).map(|m| m.outline);
    let (stock, fog) = stock(pictures, frames, &gate);
    Ok(SeenGate {
        halves: half(first).zip(half(second)),
        standing: standing(frames, &gate, PLACES),
        stock,
        fog,
        outline: gate.outline,
    })
}
