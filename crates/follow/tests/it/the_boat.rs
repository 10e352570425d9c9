//! Story 11: taps at five cuts of v2, and what is told of the projector.

use onestrand_dub::{Tap, fit_projector};
use onestrand_follow::{Event, Follower, Habits, Seen};

/// The starts of v2 (story 9).
const V2: [u32; 22] = [
    0, 180, 324, 432, 558, 630, 756, 816, 942, 1158, 1230, 1338, 1410, 1554, 1626, 1734, 1896,
    2076, 2148, 2202, 2346, 2571,
];
const TAPS: [(u32, f64); 5] = [
    (558, 30.47),
    (942, 51.25),
    (1338, 72.94),
    (1734, 94.50),
    (2202, 119.88),
];

#[test]
fn the_straight_line_says_what_the_story_prints() {
    let taps: Vec<Tap> = TAPS
        .iter()
        .map(|(frame, seconds)| Tap {
            frame: f64::from(*frame),
            seconds: *seconds,
        })
        .collect();
    let fit = fit_projector(&taps, false).unwrap();
    assert_eq!(
        format!("{:.2} ± {:.2}", fit.speed, fit.speed_error),
        "18.37 ± 0.06"
    );
    let at = fit.predict(2346.0).seconds;
    assert_eq!(format!("{at:.2}"), "127.76");
}

#[test]
fn the_follower_agrees_with_the_line_within_what_it_states() {
    let mut follower = Follower::new(Habits::usual(18.0), &V2).unwrap();
    for (nth, (frame, at)) in TAPS.iter().enumerate() {
        let cut = (nth == 0).then_some(*frame);
        let seen = Seen::Tap { cut };
        follower.see(Event { at: *at, seen }).unwrap();
    }
    let frames: Vec<Option<u32>> = TAPS.iter().map(|(frame, _)| Some(*frame)).collect();
    assert_eq!(follower.taken(), frames);
    let comes = follower.comes(2346.0).unwrap();
    let live = follower.live(119.88).unwrap();
    println!(
        "story 11 followed: {:.2} ± {:.2} f/s, 2,346 at {:.2} s ± {:.1} frames",
        live.speed, live.speed_error, comes.at, comes.error_frames
    );
    assert!((live.speed - 18.37).abs() <= live.speed_error, "{live:?}");
    let off = (comes.at - 127.76) * live.speed;
    assert!(off.abs() <= comes.error_frames, "{comes:?}");
    // Not at 130.33 s, as the nominal speed has it.
    assert!((130.33 - comes.at) * live.speed > comes.error_frames * 3.0);
    assert_eq!(follower.next_cut(119.9), Some(2346));
}
