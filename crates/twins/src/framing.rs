//! Which part of one take's view the other take shows.

use crate::picture::{CELLS_HIGH, CELLS_WIDE};

/// A part of a view, in shares of its sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Window {
    pub(crate) left: f32,
    pub(crate) top: f32,
    /// Of the width and of the height alike: views keep their shape.
    pub(crate) share: f32,
}

impl Window {
    pub(crate) const WHOLE: Self = Self {
        left: 0.0,
        top: 0.0,
        share: 1.0,
    };

    /// The window nearest to this that lies inside the view.
    pub(crate) fn inside(self) -> Self {
        let share = self.share.min(1.0);
        Self {
            left: self.left.clamp(0.0, 1.0 - share),
            top: self.top.clamp(0.0, 1.0 - share),
            share,
        }
    }

    /// Cells of the view in it.
    pub(crate) fn cells(self) -> f32 {
        self.share * self.share * (CELLS_WIDE * CELLS_HIGH) as f32
    }
}

/// How two views lie to each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Framing {
    /// What of the first take is compared.
    pub(crate) first: Window,
    /// What of the second.
    pub(crate) second: Window,
}

impl Framing {
    pub(crate) const SAME: Self = Self {
        first: Window::WHOLE,
        second: Window::WHOLE,
    };

    fn of(second_is_closer: bool, window: Window) -> Self {
        if second_is_closer {
            Self {
                first: window,
                second: Window::WHOLE,
            }
        } else {
            Self {
                first: Window::WHOLE,
                second: window,
            }
        }
    }

    /// Framings a little beside this one, to be tried when it was the best of all.
    pub(crate) fn near(self, step: f32) -> Vec<Self> {
        let closer = self.second == Window::WHOLE;
        let window = if closer { self.first } else { self.second };
        let mut near = Vec::new();
        for share in [
            window.share / (1.0 + step),
            window.share,
            window.share * (1.0 + step),
        ] {
            for down in [-1.0, 0.0, 1.0] {
                for right in [-1.0, 0.0, 1.0] {
                    // The middle stays where it is when the size changes.
                    let grown = 0.5 * (window.share - share);
                    let tried = Window {
                        left: window.left + grown + right * step * share,
                        top: window.top + grown + down * step * share,
                        share,
                    };
                    let tried = tried.inside();
                    if tried != window && !near.contains(&Self::of(closer, tried)) {
                        near.push(Self::of(closer, tried));
                    }
                }
            }
        }
        near
    }
}

/// Sizes of what a closer take shows of a wider one, each four fifths of the
/// one before. A quarter of the width has twelve cells; less is not measured.
const SHARES: [f32; 7] = [1.0, 0.8, 0.64, 0.512, 0.41, 0.328, 0.262];

/// All framings that are tried first: windows of each size, a quarter of their
/// own width apart, so that each true one lies within an eighth of one tried.
pub(crate) fn framings() -> Vec<Framing> {
    let mut all = vec![Framing::SAME];
    for share in &SHARES[1..] {
        let free = 1.0 - share;
        let places = (free / (0.25 * share)).ceil().max(1.0);
        for down in 0..=places as usize {
            for right in 0..=places as usize {
                let window = Window {
                    left: free * right as f32 / places,
                    top: free * down as f32 / places,
                    share: *share,
                };
                all.push(Framing::of(true, window));
                all.push(Framing::of(false, window));
            }
        }
    }
    all
}
