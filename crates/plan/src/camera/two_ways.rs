//! Two ways to the camera's true speed, and whether they agree.

use super::camera_error::CameraError;
use super::figures::figure;
use super::opened_sum::{OpenedSum, Reckoned};
use super::true_speed::{SpeedSeen, with_error};

/// The camera's true speed by one way or more.
#[derive(Debug, Clone, PartialEq)]
pub struct TrueSpeed {
    /// Unit: frames a second.
    pub speed: f64,
    /// It lies within as much of it. Unit: frames a second.
    pub error: f64,
    /// Whether the ways agree; none where there is only one.
    pub agree: Option<bool>,
    /// The ways. Of a flicker that fits several speeds, the one that fits the others.
    pub ways: Vec<SpeedSeen>,
}

/// The true speed by what was seen.
///
/// Each way gives a stretch in which the speed lies. Ways agree where their stretches
/// have a part in common, and then the speed lies in that part. Where they do not, the
/// middle of all stretches is told with the whole of them as its error.
///
/// # Errors
/// [`CameraError::Unsaid`] without any way.
pub fn true_speed(seen: Vec<SpeedSeen>) -> Result<Reckoned<TrueSpeed>, CameraError> {
    if seen.is_empty() {
        return Err(CameraError::Unsaid {
            message: "nothing is said from which a speed could be told",
            hint: "count the bands of a lamp, the turns of a turntable or the swings of a pendulum",
        });
    }
    let ways = settled(seen);
    let low = |way: &SpeedSeen| way.speed - way.error;
    let high = |way: &SpeedSeen| way.speed + way.error;
    let most = |all: &dyn Fn(&SpeedSeen) -> f64| ways.iter().map(all).fold(f64::MIN, f64::max);
    let least = |all: &dyn Fn(&SpeedSeen) -> f64| ways.iter().map(all).fold(f64::MAX, f64::min);
    let common = (most(&low), least(&high));
    let is_common = common.0 <= common.1;
    let (from, to) = match is_common {
        true => common,
        false => (least(&low), most(&high)),
    };
    let value = TrueSpeed {
        speed: f64::midpoint(from, to),
        error: (to - from) / 2.0,
        agree: (ways.len() > 1).then_some(is_common),
        ways,
    };
    Ok(Reckoned {
        sums: sums(&value, from, to),
        taken: taken(&value),
        value,
    })
}

/// A flicker fits several speeds: the others choose among them.
fn settled(ways: Vec<SpeedSeen>) -> Vec<SpeedSeen> {
    let firm = ways.iter().find(|way| way.also.is_empty());
    let Some(firm) = firm.map(|way| way.speed) else {
        return ways;
    };
    let nearest_first = |mut way: SpeedSeen| {
        let mut all = std::mem::take(&mut way.also);
        all.push(way);
        let apart = |one: &SpeedSeen| (one.speed - firm).abs();
        all.sort_by(|a, b| apart(a).total_cmp(&apart(b)));
        let first = all.remove(0);
        SpeedSeen { also: all, ..first }
    };
    ways.into_iter().map(nearest_first).collect()
}

fn sums(found: &TrueSpeed, from: f64, to: f64) -> Vec<OpenedSum> {
    let mut all: Vec<OpenedSum> = found.ways.iter().flat_map(|way| way.sums.clone()).collect();
    if let Some(agree) = found.agree {
        let each = found.ways.iter().map(|way| {
            format!(
                "{} to {}",
                figure(way.speed - way.error, 3),
                figure(way.speed + way.error, 3)
            )
        });
        all.push(OpenedSum {
            what: if agree {
                "together"
            } else {
                "they do not agree"
            },
            formula: "what the stretches have in common; where nothing, all of them",
            figures: format!(
                "{}: {} to {}",
                each.collect::<Vec<_>>().join(" and "),
                figure(from, 3),
                figure(to, 3)
            ),
            comes: with_error(found.speed, found.error),
            source: "errors are the most that each way may be off",
        });
    }
    all
}

fn taken(found: &TrueSpeed) -> Vec<String> {
    let mut all =
        vec!["the camera ran evenly while it was counted: leave out its start".to_owned()];
    for way in found.ways.iter().filter(|way| !way.also.is_empty()) {
        let also: Vec<String> = way.also.iter().map(|one| figure(one.speed, 2)).collect();
        all.push(format!(
            "by the {} alone it might also be {} f/s: {}",
            way.way,
            also.join(" or "),
            match found.ways.len() {
                1 => "the one nearest to the speed set is told; count a second way to be sure",
                _ => "the other way chooses",
            }
        ));
    }
    all
}
