//! From a frame of a roll to the time of the action it shows.

use crate::log::ExampleTake;

/// Time of the action at a frame of a take. Unit: frames of the scene's clock.
///
/// Between two known moments the clock runs evenly; before the first and after
/// the last it runs on at the pace of its neighbours. So an action that took
/// 48 frames in the master and 49 in the close-up is the same action.
#[must_use]
pub fn action_time(take: &ExampleTake, frame: u32) -> f32 {
    let moments = known_moments(take);
    let last = moments.len() - 1;
    let next = moments
        .iter()
        .position(|(at, _)| *at > frame)
        .unwrap_or(last)
        .clamp(1, last);
    let (f0, t0) = moments[next - 1];
    let (f1, t1) = moments[next];
    let pace = (t1 - t0) / (f1 - f0) as f32;
    t0 + (frame as f32 - f0 as f32) * pace
}

/// Moments of the action known in a take: frame of the roll, time of the action.
///
/// The frames of rope, splash, bell, lever, loaf and foot are the marks of the
/// story; the rest is how the takes were played.
fn known_moments(take: &ExampleTake) -> Vec<(u32, f32)> {
    let start = take.span_in;
    let plain = |first: f32, pace: f32| vec![(start, first), (start + 100, first + 100.0 * pace)];
    match (take.slate, take.take) {
        ("3", 1) => vec![(1945, 6.0), (2251, 312.0), (2297, 360.0), (2611, 668.0)],
        ("3", _) => vec![(2611, 0.0), (2923, 312.0), (2971, 360.0), (3313, 702.0)],
        ("3A", 1) => plain(70.0, 1.0),
        ("3A", _) => plain(72.0, 1.0),
        ("3B", 1) => vec![(352, 312.0), (402, 360.0)],
        ("3B", _) => vec![(531, 312.0), (580, 360.0)],
        ("4", 1) => plain(8.0, 1.05),
        ("4A", 1) => plain(186.0, 1.0),
        ("4A", _) => plain(195.0, 1.0),
        ("4B", 1) => vec![(2311, 430.0), (2330, 448.0), (2349, 467.0)],
        ("4B", _) => vec![(2441, 430.0), (2459, 448.0), (2478, 467.0)],
        ("5A", 1) => plain(170.0, 1.0),
        ("5A", _) => plain(187.0, 1.0),
        ("6", 1) => plain(0.0, 1.05),
        ("6A", _) => plain(140.0, 1.0),
        ("6B", 1) => vec![(1718, 150.0), (1768, 200.0)],
        ("6B", _) => vec![(1846, 150.0), (1896, 200.0)],
        ("1", 2) => plain(240.0, 1.0),
        ("2", 1) => plain(-12.0, 0.94),
        ("2A", 1) => plain(5.0, 0.97),
        ("5B", 1) => plain(10.0, 0.95),
        ("7", 1) => plain(20.0, 1.1),
        _ => plain(0.0, 1.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::log::takes;

    #[test]
    fn the_clock_never_runs_backwards() {
        for take in takes() {
            for frame in take.span_in + 1..take.span_out {
                let step = action_time(take, frame) - action_time(take, frame - 1);
                assert!(
                    (0.5..2.0).contains(&step),
                    "{} at {frame}: {step}",
                    take.name()
                );
            }
        }
    }

    #[test]
    fn master_and_close_up_differ_by_one_frame_in_forty_eight() {
        let of = |slate: &str| {
            takes()
                .iter()
                .find(|t| t.slate == slate && t.take == 2)
                .expect("the take is in the log")
        };
        let master = action_time(of("3"), 2971) - action_time(of("3"), 2923);
        let close = action_time(of("3B"), 580) - action_time(of("3B"), 531);
        assert!((master - 48.0).abs() < 1e-3 && (close - 48.0).abs() < 1e-3);
    }
}
