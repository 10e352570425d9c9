//! How sharp and how contrasty one copy is beside the other.

use super::Pair;
use crate::median::{middle, quantile};
use crate::scan_picture::Grey;

/// How much more the first has than the second, as a natural logarithm, and its error.
pub(super) struct More {
    pub(super) of: f32,
    pub(super) error: f32,
}

fn over(mut values: Vec<f32>) -> Option<More> {
    if values.len() < 3 {
        return None;
    }
    let count = values.len() as f32;
    let (of, spread) = middle(&mut values);
    Some(More {
        of,
        error: 1.25 * spread / count.sqrt(),
    })
}

/// How much sharper the first is: fine detail beside coarse detail, at strong edges, grain
/// taken off.
pub(super) fn sharper(pairs: &[Pair]) -> Option<More> {
    let more = |pair: &Pair| Some(detail(&pair.first[1])? - detail(&pair.second[1])?);
    over(pairs.iter().filter_map(more).collect())
}

/// Fine detail beside coarse detail, as a natural logarithm; nothing without edges.
fn detail(picture: &Grey) -> Option<f32> {
    let (one, two, six) = (
        picture.softened(1),
        picture.softened(2),
        picture.softened(6),
    );
    let inner = |at: usize| {
        let (x, y) = (at % picture.width, at / picture.width);
        (picture.width / 5..picture.width * 4 / 5).contains(&x)
            && (picture.height / 5..picture.height * 4 / 5).contains(&y)
    };
    let places: Vec<(f32, f32)> = (0..picture.levels.len())
        .filter(|&at| inner(at))
        .map(|at| {
            (
                picture.levels[at] - one.levels[at],
                two.levels[at] - six.levels[at],
            )
        })
        .collect();
    let mut coarse: Vec<f32> = places.iter().map(|p| p.1.abs()).collect();
    let (flat, edge) = (quantile(&mut coarse, 0.3), quantile(&mut coarse, 0.93));
    let mean = |is: &dyn Fn(f32) -> bool| {
        let of = places.iter().filter(|p| is(p.1.abs()));
        let count = of.clone().count().max(1) as f32;
        let sum = of.fold((0.0, 0.0), |s, p| (s.0 + p.0 * p.0, s.1 + p.1 * p.1));
        (sum.0 / count, sum.1 / count)
    };
    let (at_edges, in_flats) = (mean(&|c| c >= edge), mean(&|c| c <= flat));
    let (fine, coarse) = (at_edges.0 - in_flats.0, at_edges.1 - in_flats.1);
    (fine > 0.15 * in_flats.0 && coarse > 4.0).then(|| 0.5 * (fine / coarse).ln())
}

/// How much more contrast the second has than the first.
pub(super) fn harder(pairs: &[Pair]) -> Option<More> {
    let more = |pair: &Pair| {
        let (first, second) = (pair.first[1].softened(4), pair.second[1].softened(4));
        let (w, h) = (first.width, first.height);
        let (mut a, mut b) = (Vec::new(), Vec::new());
        for y in (h / 5..h * 4 / 5).step_by(6) {
            for x in (w / 5..w * 4 / 5).step_by(6) {
                let (u, v) = pair.placed.place(&first, &second, x as f32, y as f32);
                a.push(first.at(x, y));
                b.push(second.between(u, v));
            }
        }
        let range = |l: &mut Vec<f32>| quantile(l, 0.9) - quantile(l, 0.1);
        let (a, b) = (range(&mut a), range(&mut b));
        (a > 15.0 && b > 15.0).then(|| (b / a).ln())
    };
    over(pairs.iter().filter_map(more).collect())
}
