//! A frame so small that dust, grain and weave are gone: where it is seen
//! whether a picture is a mixture of two others.

use crate::shift::Coarse;
use crate::small::{SMALL_HEIGHT, SMALL_WIDTH};

const WIDTH: usize = SMALL_WIDTH / 4;
const HEIGHT: usize = SMALL_HEIGHT / 4;
/// Pixels of it: 24×18.
pub(crate) const PIXELS: usize = WIDTH * HEIGHT;
const INNER: usize = (WIDTH - 2) * (HEIGHT - 2);

/// An eighth of the plane each way, its mean taken off.
#[derive(Debug)]
pub(crate) struct Tiny {
    pixels: Box<[f32; PIXELS]>,
    /// Sum of the squares of the pixels.
    pub(crate) energy: f32,
}

/// How a frame lies between two others.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Between {
    /// How far it has gone from the first to the second. 0 at the first, 1 at
    /// the second.
    pub(crate) share: f32,
    /// What of it is no mixture of both, as a share of their difference.
    pub(crate) rest: f32,
}

/// Two frames with what is reckoned from both.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ends<'a> {
    a: &'a Tiny,
    b: &'a Tiny,
    common: f32,
    apart: f32,
}

impl Tiny {
    /// Halves a quartered plane once more.
    ///
    /// Pixels are levels to the power of 1.5, between levels and light: cameras
    /// add the light of two exposures, machines mix their levels, and here
    /// either is near enough to adding.
    pub(crate) fn of(coarse: &Coarse) -> Self {
        let mut pixels = Box::new(coarse.halved());
        pixels
            .iter_mut()
            .for_each(|level| *level *= level.sqrt() / 16.0);
        let mean = pixels.iter().sum::<f32>() / PIXELS as f32;
        pixels.iter_mut().for_each(|level| *level -= mean);
        let energy = product(&pixels[..], &pixels[..]);
        Self { pixels, energy }
    }

    /// What stands out of the eight pixels about it, inside the border: the
    /// edges of things, which a pan moves and a dissolve does not.
    pub(crate) fn edges(&self) -> [f32; INNER] {
        std::array::from_fn(|place| {
            let (x, y) = (place % (WIDTH - 2), place / (WIDTH - 2));
            let rows = self.pixels.chunks_exact(WIDTH).skip(y).take(3);
            let about: f32 = rows.map(|row| row[x..x + 3].iter().sum::<f32>()).sum();
            self.pixels[(y + 1) * WIDTH + x + 1] - about / 9.0
        })
    }
}

impl<'a> Ends<'a> {
    pub(crate) fn new(a: &'a Tiny, b: &'a Tiny) -> Self {
        let common = product(&a.pixels[..], &b.pixels[..]);
        Self {
            a,
            b,
            common,
            apart: a.energy + b.energy - 2.0 * common,
        }
    }

    /// Whether both show something, and not the same.
    pub(crate) fn differ(&self) -> bool {
        /// A deviation of two and a half levels: less is black or bare film.
        const LEAST_ENERGY: f32 = 6.25 * PIXELS as f32;
        self.a.energy.min(self.b.energy) > LEAST_ENERGY
            && self.apart > 0.5 * (self.a.energy + self.b.energy)
    }

    /// Where `frame` lies between the two, from products alone.
    pub(crate) fn between(&self, frame: &Tiny) -> Between {
        let with_a = product(&frame.pixels[..], &self.a.pixels[..]);
        let with_b = product(&frame.pixels[..], &self.b.pixels[..]);
        let off = frame.energy + self.a.energy - 2.0 * with_a;
        let along = with_b - self.common - with_a + self.a.energy;
        let share = along / self.apart;
        let rest = (off - share * along).max(0.0);
        Between {
            share,
            rest: (rest / self.apart).sqrt(),
        }
    }

    /// Whether the edges of things in `middle` are those of both pictures, one
    /// over the other, and the two have nothing in common.
    ///
    /// In a pan the middle has edges of its own; where figures move on a ground
    /// that stays, the two have the ground in common.
    pub(crate) fn lie_over_each_other_in(&self, middle: &Tiny) -> bool {
        /// Least part that each must have, and least part of the edges that
        /// both together explain: figures walk and hide some.
        const LEAST_PART: f32 = 0.1;
        const LEAST_EXPLAINED: f32 = 0.2;
        /// Unlike pictures agree by chance in so much.
        const BY_CHANCE: f32 = 0.35;
        let (a, b, middle) = (self.a.edges(), self.b.edges(), middle.edges());
        let (aa, bb, ab) = (product(&a, &a), product(&b, &b), product(&a, &b));
        let (ma, mb) = (product(&middle, &a), product(&middle, &b));
        let alone = aa * bb - ab * ab;
        let of_a = (ma * bb - mb * ab) / alone;
        let of_b = (mb * aa - ma * ab) / alone;
        let explained = (of_a * ma + of_b * mb) / product(&middle, &middle);
        of_a.min(of_b) > LEAST_PART
            && explained > LEAST_EXPLAINED
            && (ab / (aa * bb).sqrt()).abs() < BY_CHANCE
            && kept(&a, &b).max(kept(&b, &a)) < BY_CHANCE
    }
}

/// Share of one picture's edges that stand in the same place in another.
fn kept(a: &[f32], b: &[f32]) -> f32 {
    /// Less is grain. Unit: levels.
    const EDGE: f32 = 2.0;
    let edges = || a.iter().zip(b).filter(|(a, _)| a.abs() > EDGE);
    let same = edges().filter(|(a, b)| (*a - *b).abs() < 0.5 * a.abs());
    same.count() as f32 / edges().count().max(1) as f32
}

/// Sum of the products, eight at once.
fn product(a: &[f32], b: &[f32]) -> f32 {
    const LANES: usize = 8;
    let mut sums = [0.0_f32; LANES];
    let (a, b) = (a.chunks_exact(LANES), b.chunks_exact(LANES));
    let rest = a.remainder().iter().zip(b.remainder());
    let rest: f32 = rest.map(|(a, b)| a * b).sum();
    for (a, b) in a.zip(b) {
        for (sum, (a, b)) in sums.iter_mut().zip(a.iter().zip(b)) {
            *sum += a * b;
        }
    }
    rest + sums.iter().sum::<f32>()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A picture of boxes from a few numbers.
    fn picture(seed: usize) -> [f32; PIXELS] {
        std::array::from_fn(|place| {
            let (x, y) = (place % WIDTH / 3, place / WIDTH / 3);
            let mixed = (x * 73_856_093) ^ (y * 19_349_663) ^ (seed * 83_492_791);
            (mixed / 7 % 101) as f32 - 50.0
        })
    }

    fn tiny(pixels: [f32; PIXELS]) -> Tiny {
        let mean = pixels.iter().sum::<f32>() / PIXELS as f32;
        let pixels = Box::new(pixels.map(|level| level - mean));
        let energy = product(&pixels[..], &pixels[..]);
        Tiny { pixels, energy }
    }

    fn mixed(a: &Tiny, b: &Tiny, share: f32) -> Tiny {
        tiny(std::array::from_fn(|place| {
            a.pixels[place] * (1.0 - share) + b.pixels[place] * share
        }))
    }

    #[test]
    fn a_mixture_lies_between_both_and_nowhere_else() {
        let (a, b) = (tiny(picture(1)), tiny(picture(2)));
        let ends = Ends::new(&a, &b);
        assert!(ends.differ());
        for share in [0.0, 0.25, 0.6, 1.0] {
            let at = ends.between(&mixed(&a, &b, share));
            assert!((at.share - share).abs() < 0.01, "{share}: {at:?}");
            assert!(at.rest < 0.05, "{share}: {at:?}");
        }
        assert!(ends.between(&tiny(picture(3))).rest > 0.5);
    }

    #[test]
    fn edges_of_both_lie_over_each_other_only_in_a_mixture() {
        let (a, b) = (tiny(picture(1)), tiny(picture(2)));
        let ends = Ends::new(&a, &b);
        assert!(ends.lie_over_each_other_in(&mixed(&a, &b, 0.5)));
        assert!(!ends.lie_over_each_other_in(&tiny(picture(3))));
        let mostly = mixed(&a, &b, 0.1);
        assert!(!Ends::new(&a, &mostly).lie_over_each_other_in(&a));
    }
}
