//! Places on the film that a hand can find and count from.

use onestrand_cut::{Slate, Strand};
use onestrand_film::{FrameName, FramePos, RollId};

/// What is to be seen there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LandmarkKind {
    /// The head of the roll.
    Head,
    /// Where the camera stopped: the first frame of a take.
    CameraStop(Option<Slate>),
    /// Where the blade went before: the end of a piece already taken.
    LastCut,
}

/// A place to count from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Landmark {
    /// What is to be seen.
    pub kind: LandmarkKind,
    /// Where: this frame is 0 of the count.
    pub at: FrameName,
}

impl Landmark {
    /// The words for it on a sheet.
    #[must_use]
    pub fn words(&self) -> String {
        match &self.kind {
            LandmarkKind::Head => "head of the roll".to_owned(),
            LandmarkKind::CameraStop(Some(slate)) => format!("camera stop {slate}"),
            LandmarkKind::CameraStop(None) => "camera stop".to_owned(),
            LandmarkKind::LastCut => "last cut".to_owned(),
        }
    }

    /// The nearest landmark at or before a frame, given the ends of the pieces
    /// already taken from that roll.
    pub(crate) fn before(
        strand: &Strand,
        roll: &RollId,
        frame: FramePos,
        ends_taken: &[FramePos],
    ) -> Self {
        let take = strand
            .takes_of(roll)
            .iter()
            .rfind(|t| t.span.range.begin() <= frame);
        let cut = ends_taken.iter().copied().filter(|e| *e <= frame).max();
        let (kind, at) = match (take, cut) {
            (Some(t), Some(c)) if c > t.span.range.begin() => (LandmarkKind::LastCut, c),
            (None, Some(c)) => (LandmarkKind::LastCut, c),
            (Some(t), _) => {
                let slate = t.slate.clone();
                (LandmarkKind::CameraStop(slate), t.span.range.begin())
            }
            (None, None) => (LandmarkKind::Head, FramePos::ZERO),
        };
        let roll = roll.clone();
        Self {
            kind,
            at: FrameName { roll, frame: at },
        }
    }
}
