//! One picture laid over another that shows the same: size and shift.

use crate::scan_picture::Grey;

/// How the second picture lies: a place of the first, from its middle, times `size`, and
/// shifted, is the place in the second from its middle. Unit of the shift: pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Placed {
    pub(super) size: f32,
    pub(super) shift: (f32, f32),
}

impl Placed {
    /// The place in the second picture that shows a place of the first.
    pub(super) fn place(self, first: &Grey, second: &Grey, x: f32, y: f32) -> (f32, f32) {
        let middle = |g: &Grey| (g.width as f32 / 2.0, g.height as f32 / 2.0);
        let ((ax, ay), (bx, by)) = (middle(first), middle(second));
        (
            (x - ax) * self.size + bx + self.shift.0,
            (y - ay) * self.size + by + self.shift.1,
        )
    }
}

/// Pictures are the same from so much likeness on.
const LIKE: f32 = 0.8;
/// The first look is at pictures about so wide. Unit: pixels.
const SMALL: usize = 96;
/// Part of the first picture that is compared, from its middle.
const PART: f32 = 0.33;

/// Lays the second over the first; nothing where they do not show the same.
pub(super) fn placed(first: &Grey, second: &Grey, known: Option<Placed>) -> Option<Placed> {
    let by = (first.width / SMALL).max(1);
    let (small, other) = (first.reduced(by), second.reduced(by));
    let unit = by as f32;
    let begin = match known {
        Some(known) => Placed {
            shift: (known.shift.0 / unit, known.shift.1 / unit),
            ..known
        },
        None => searched(&small, &other),
    };
    let rough = climbed((&small, &other), begin, (0.012, 1.0), 4, 1);
    let full = Placed {
        shift: (rough.shift.0 * unit, rough.shift.1 * unit),
        ..rough
    };
    let soft = (first.softened(1), second.softened(1));
    let step = (first.width / 120).max(2);
    let fine = climbed((&soft.0, &soft.1), full, (0.003, 1.5), 6, step);
    (likeness(&soft.0, &soft.1, fine, step) >= LIKE).then_some(fine)
}

/// Every size and shift on a coarse lattice.
fn searched(first: &Grey, second: &Grey) -> Placed {
    let mut best = (
        f32::MIN,
        Placed {
            size: 1.0,
            shift: (0.0, 0.0),
        },
    );
    let reach = (first.width / 10) as i32;
    for size in 0..16 {
        let size = 0.82 + 0.025 * size as f32;
        for dy in -reach..=reach {
            for dx in -reach..=reach {
                let tried = Placed {
                    size,
                    shift: (dx as f32, dy as f32),
                };
                let like = likeness(first, second, tried, 5);
                if like > best.0 {
                    best = (like, tried);
                }
            }
        }
    }
    best.1
}

/// Steps to what is liker, with smaller and smaller steps.
fn climbed(
    (first, second): (&Grey, &Grey),
    begin: Placed,
    steps: (f32, f32),
    halvings: u32,
    every: usize,
) -> Placed {
    let mut best = (likeness(first, second, begin, every), begin);
    let (mut size, mut shift) = steps;
    for _halving in 0..halvings {
        for _try in 0..6 {
            let at = best.1;
            let tries = [(size, 0.0, 0.0), (0.0, shift, 0.0), (0.0, 0.0, shift)];
            for (s, x, y) in tries.into_iter().flat_map(|t| [t, (-t.0, -t.1, -t.2)]) {
                let tried = Placed {
                    size: at.size + s,
                    shift: (at.shift.0 + x, at.shift.1 + y),
                };
                let like = likeness(first, second, tried, every);
                if like > best.0 {
                    best = (like, tried);
                }
            }
            if best.1 == at {
                break;
            }
        }
        (size, shift) = (size / 2.0, shift / 2.0);
    }
    best.1
}

/// How like they are where both show something: correlation, -1 to 1.
fn likeness(first: &Grey, second: &Grey, placed: Placed, every: usize) -> f32 {
    let (w, h) = (first.width as f32, first.height as f32);
    let (mut n, mut sums) = (0.0_f64, [0.0_f64; 5]);
    for y in ((h * (0.5 - PART)) as usize..(h * (0.5 + PART)) as usize).step_by(every) {
        for x in ((w * (0.5 - PART)) as usize..(w * (0.5 + PART)) as usize).step_by(every) {
            let (u, v) = placed.place(first, second, x as f32, y as f32);
            if !second.holds(u, v) {
                return -1.0;
            }
            let (a, b) = (f64::from(first.at(x, y)), f64::from(second.between(u, v)));
            n += 1.0;
            for (sum, value) in sums.iter_mut().zip([a, b, a * a, b * b, a * b]) {
                *sum += value;
            }
        }
    }
    let [a, b, aa, bb, ab] = sums.map(|sum| sum / n);
    let spread = ((aa - a * a) * (bb - b * b)).sqrt();
    ((ab - a * b) / spread.max(1e-6)) as f32
}
