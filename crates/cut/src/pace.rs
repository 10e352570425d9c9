//! Pace: how long the pictures stand. A picture, not advice.

use onestrand_film::Fps;

use crate::{Piece, PieceKind, TrialCut};

/// Lengths of the pictures of a cut; titles, leader and cards left out.
///
/// Unit: seconds at the running speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// Pictures counted.
    pub pictures: usize,
    /// Their mean length.
    pub mean_seconds: f64,
    /// Their median length; the mean of the middle two for an even number.
    pub median_seconds: f64,
}

impl Pace {
    /// The pace of a cut, or nothing when it has no picture.
    #[must_use]
    pub fn of(cut: &TrialCut, fps: Fps) -> Option<Self> {
        let mut frames: Vec<u32> = cut
            .pieces()
            .iter()
            .filter(|p| is_picture(p))
            .map(|p| p.frames().count())
            .collect();
        if frames.is_empty() {
            return None;
        }
        frames.sort_unstable();
        let pictures = frames.len();
        let total: u64 = frames.iter().map(|f| u64::from(*f)).sum();
        let middle = f64::from(frames[(pictures - 1) / 2]) + f64::from(frames[pictures / 2]);
        Some(Self {
            pictures,
            mean_seconds: total as f64 / pictures as f64 / fps.as_f64(),
            median_seconds: middle / 2.0 / fps.as_f64(),
        })
    }
}

fn is_picture(piece: &Piece) -> bool {
    let title = piece.slate.as_ref().is_some_and(crate::Slate::is_title);
    matches!(piece.kind, PieceKind::Shot(_)) && !title
}
