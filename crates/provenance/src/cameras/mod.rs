//! Whose camera: shots put together by the outline of the gate they were taken through.

mod likeness;
mod stocks;

use crate::gate::GateOutline;
use crate::grouping::{belongs, grouped};
use crate::laid;
use crate::shot::{SeenGate, ShotSeen};

use self::likeness::{floor_of, likeness_of};
use self::stocks::stock_likeness;

/// From here on a shot's place is told as known; below it is a guess.
pub const SURE: f64 = 0.9;

/// Where one shot lies among the groups.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShotPlace {
    /// Number of its camera in [`CamerasFound::cameras`]; nothing where the gate is not seen.
    pub camera: Option<usize>,
    /// How probable that is: that it was taken through this gate, or, where it lies alone,
    /// through none of the others. 0 to 1.
    pub probability: f64,
    /// The camera it is of otherwise, and how probable that is.
    pub otherwise: Option<(usize, f64)>,
    /// Number of its stock in [`CamerasFound::stocks`]; nothing where the border is too black.
    pub stock: Option<usize>,
    /// How probable the stock is.
    pub stock_probability: f64,
}

/// One camera as its shots show it.
#[derive(Debug, Clone, PartialEq)]
pub struct CameraSeen {
    /// The shots, by their place among those handed in.
    pub shots: Vec<usize>,
    /// The outline of its gate, out of all of them.
    pub outline: GateOutline,
    /// How far its shots' outlines lie from it, in thousandths of the picture's width.
    pub spread: f64,
    /// How far the nearest other camera's outline lies from it, in the same.
    pub nearest: Option<f64>,
}

/// Shots by cameras and by stocks.
#[derive(Debug, Clone, PartialEq)]
pub struct CamerasFound {
    /// The cameras, the one with the earliest shot first.
    pub cameras: Vec<CameraSeen>,
    /// The stocks: shots of each.
    pub stocks: Vec<Vec<usize>>,
    /// Every shot, in the order handed in.
    pub shots: Vec<ShotPlace>,
    /// How far two outlines of one gate differ here, found from halves of the same shots, in
    /// thousandths of the picture's width.
    pub noise: f64,
}

/// Puts shots together by camera, and by stock.
#[must_use]
pub fn find_cameras(shots: &[ShotSeen]) -> CamerasFound {
    let gates: Vec<Option<&SeenGate>> = shots.iter().map(|s| s.gate.as_ref().ok()).collect();
    let seen: Vec<usize> = (0..shots.len()).filter(|&i| gates[i].is_some()).collect();
    let floor = floor_of(
        gates
            .iter()
            .flatten()
            .filter_map(|gate| gate.halves.as_ref()),
    );
    let outlines: Vec<Option<&GateOutline>> = shots.iter().map(ShotSeen::outline).collect();
    let of_group = |group: &[usize]| {
        let all: Vec<&GateOutline> = group.iter().filter_map(|&i| outlines[i]).collect();
        laid::mean(&all, floor)
    };
    let like = |a: &[usize], b: &[usize]| likeness_of(&of_group(a)?, &of_group(b)?, floor);
    let groups = grouped(&seen, &like);
    let (stocks, stock_of) = by_stock(&gates, &seen);
    let places = (0..shots.len()).map(|shot| {
        let (stock, stock_probability) = stock_of[shot];
        let mut place = ShotPlace {
            camera: None,
            probability: 0.0,
            otherwise: None,
            stock,
            stock_probability,
        };
        if gates[shot].is_some() {
            let found = belongs(shot, &groups, &like);
            place.camera = Some(found.group);
            place.probability = found.probability;
            place.otherwise = found.otherwise;
        }
        place
    });
    CamerasFound {
        shots: places.collect(),
        cameras: told(&groups, &outlines, floor),
        stocks,
        noise: f64::from(floor),
    }
}

/// The stock of each shot, and how sure that is.
type StockOf = Vec<(Option<usize>, f64)>;

fn by_stock(gates: &[Option<&SeenGate>], seen: &[usize]) -> (Vec<Vec<usize>>, StockOf) {
    let stock = |i: usize| gates[i].map(|gate| &gate.stock);
    let toned: Vec<usize> = seen
        .iter()
        .copied()
        .filter(|&i| stock(i).is_some_and(|s| s.border.is_some()))
        .collect();
    let like = |a: &[usize], b: &[usize]| {
        let of = |group: &[usize]| group.iter().filter_map(|&i| stock(i)).collect::<Vec<_>>();
        stock_likeness(&of(a), &of(b))
    };
    let groups = grouped(&toned, &like);
    let of = |shot: usize| {
        if !toned.contains(&shot) {
            return (None, 0.0);
        }
        let found = belongs(shot, &groups, &like);
        (Some(found.group), found.probability)
    };
    let all = (0..gates.len()).map(of).collect();
    (groups, all)
}

fn told(groups: &[Vec<usize>], all: &[Option<&GateOutline>], floor: f32) -> Vec<CameraSeen> {
    let mut cameras: Vec<CameraSeen> = Vec::new();
    for group in groups {
        let members: Vec<&GateOutline> = group.iter().filter_map(|&i| all[i]).collect();
        let Some(outline) = laid::mean(&members, floor) else {
            continue;
        };
        let off = members
            .iter()
            .filter_map(|member| apart(&outline, member, floor));
        cameras.push(CameraSeen {
            shots: group.clone(),
            spread: off.clone().sum::<f64>() / off.count().max(1) as f64,
            outline,
            nearest: None,
        });
    }
    for i in 0..cameras.len() {
        let others = (0..cameras.len()).filter(|&j| j != i);
        let far = others.filter_map(|j| apart(&cameras[i].outline, &cameras[j].outline, floor));
        cameras[i].nearest = far.min_by(f64::total_cmp);
    }
    cameras
}

/// How far two outlines lie from each other on the mean, in thousandths of the width.
fn apart(a: &GateOutline, b: &GateOutline, floor: f32) -> Option<f64> {
    let laid = laid::lay(a, b, floor)?;
    let mut off: Vec<f32> = laid.rests.iter().map(|r| r.0.abs()).collect();
    Some(f64::from(1.4826 * crate::median::median(&mut off)))
}
