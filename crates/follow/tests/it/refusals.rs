//! Taps that cannot be, taps that were missed, and a film that is lost.

use onestrand_follow::{Event, FollowError, Follower, Habits, Lost, Seen};

const CUTS: [u32; 8] = [0, 180, 324, 432, 558, 756, 942, 1158];

fn follower() -> Follower {
    Follower::new(Habits::usual(18.0), &CUTS).unwrap()
}

fn tap(at: f64, cut: Option<u32>) -> Event {
    Event {
        at,
        seen: Seen::Tap { cut },
    }
}

#[test]
fn taps_in_the_wrong_order_are_refused_and_change_nothing() {
    let mut one = follower();
    one.see(tap(10.0, Some(180))).unwrap();
    one.see(tap(24.0, Some(432))).unwrap();
    let before = one.live(30.0);
    let wrong = one.see(tap(30.0, Some(324))).unwrap_err();
    assert_eq!(
        wrong,
        FollowError::WrongOrder {
            frame: 324,
            before: 432
        }
    );
    assert_eq!(
        wrong.to_string(),
        "the cut at 324 comes before the cut at 432, which was tapped already"
    );
    let earlier = one.see(tap(20.0, Some(558))).unwrap_err();
    assert!(
        matches!(earlier, FollowError::Earlier { .. }),
        "{earlier:?}"
    );
    let none = one.see(tap(31.0, Some(559))).unwrap_err();
    assert_eq!(none, FollowError::NoSuchCut { frame: 559 });
    assert_eq!(one.live(30.0), before);
}

#[test]
fn a_double_tap_counts_once() {
    let mut one = follower();
    one.see(tap(10.0, Some(180))).unwrap();
    one.see(tap(18.0, None)).unwrap();
    let before = one.live(20.0);
    let twice = one.see(tap(18.12, None)).unwrap_err();
    assert!(
        matches!(twice, FollowError::TappedTwice { .. }),
        "{twice:?}"
    );
    assert_eq!(one.live(20.0), before);
}

#[test]
fn a_missed_tap_is_seen_by_where_the_next_one_falls() {
    let mut one = follower();
    one.see(tap(10.0, Some(180))).unwrap();
    one.see(tap(18.0, None)).unwrap();
    // 432 is not tapped; at 18 f/s 558 comes 7 s after it.
    one.see(tap(10.0 + (558.0 - 180.0) / 18.0, None)).unwrap();
    assert_eq!(one.taken(), [Some(180), Some(324), Some(558)]);
    assert_eq!(one.lost(31.5), None);
}

#[test]
fn a_tap_between_cuts_is_taken_for_none() {
    let mut one = follower();
    one.see(tap(0.0, Some(0))).unwrap();
    for cut in [180.0, 324.0, 432.0] {
        one.see(tap(cut / 18.0, None)).unwrap();
    }
    let before = one.live(28.0).unwrap();
    // 495 lies 63 frames from either cut.
    one.see(tap(495.0 / 18.0, None)).unwrap();
    let after = one.live(28.0).unwrap();
    assert_eq!(one.taken().last(), Some(&None));
    assert!((before.frame - after.frame).abs() < 0.01);
}

#[test]
fn two_readings_are_told_and_a_third_tap_settles_them() {
    // Cuts 100 frames apart everywhere: whether the first tap was this or the next cannot be
    // seen from the second.
    let cuts: Vec<u32> = (0..30).map(|nth| nth * 100).collect();
    let mut one = Follower::new(Habits::usual(18.0), &cuts).unwrap();
    one.see(tap(0.0, None)).unwrap();
    one.see(Event {
        at: 40.0,
        seen: Seen::Slipped { frames: 1.0 },
    })
    .unwrap();
    // After 50 s without a tap the speed is too uncertain to tell 900 from 1,000.
    one.see(tap(950.0 / 18.0, None)).unwrap();
    let lost = one.lost(55.0).unwrap();
    assert!(matches!(lost, Lost::TwoReadings { .. }), "{lost:?}");
    assert!(!lost.next().is_empty());
    let live = one.live(55.0).unwrap();
    assert!(live.frame_error > 20.0, "the ± holds both: {live:?}");
    // The counter settles it.
    let frame = 950.0 / 18.0 * 18.95;
    one.see(Event {
        at: 60.0,
        seen: Seen::Counter {
            frame: 1000.0 + (60.0 - 950.0 / 18.0) * 18.95,
            error: 4.0,
        },
    })
    .unwrap();
    assert_eq!(one.lost(60.5), None, "{frame}");
}

#[test]
fn a_film_that_was_stopped_is_found_again_by_taps() {
    let cuts: Vec<u32> = vec![0, 180, 300, 470, 558, 756, 830, 942, 1158, 1240, 1410];
    let mut one = Follower::new(Habits::usual(18.0), &cuts).unwrap();
    for cut in [0_u32, 180, 300, 470] {
        one.see(tap(f64::from(cut) / 18.0, (cut == 0).then_some(0)))
            .unwrap();
    }
    // The belt slips: everything behind comes 2.3 s later.
    let late = |cut: u32| f64::from(cut) / 18.0 + 2.3;
    let off = |one: &Follower, cut: u32| one.live(late(cut)).unwrap().frame - f64::from(cut);
    one.see(tap(late(558), None)).unwrap();
    // One tap that fits nothing is taken for none; nothing shows yet that it slipped.
    assert!(off(&one, 558) > 35.0);
    one.see(tap(late(756), None)).unwrap();
    one.see(tap(late(830), None)).unwrap();
    assert!(off(&one, 830).abs() <= 3.0, "{:?}", one.taken());
    assert_eq!(one.lost(late(830)), None);
}

#[test]
fn taps_that_fit_nothing_say_that_it_is_lost() {
    let mut one = Follower::new(Habits::usual(18.0), &[0, 500, 1000, 1500, 9000]).unwrap();
    for cut in [0_u32, 500, 1000, 1500] {
        one.see(tap(f64::from(cut) / 18.0, None)).unwrap();
    }
    one.see(tap(1700.0 / 18.0, None)).unwrap();
    one.see(tap(1850.0 / 18.0, None)).unwrap();
    let lost = one.lost(1860.0 / 18.0).unwrap();
    assert_eq!(lost, Lost::Strays { taps: 2 });
    assert_eq!(lost.words(), "lost: 2 taps one after the other fit no cut");
    // Without a tap for long it may be anywhere, and that is said.
    let lost = one.lost(4000.0).unwrap();
    assert!(!lost.next().is_empty());
}

#[test]
fn events_that_come_late_are_put_where_they_belong() {
    let events = [
        Event {
            at: 0.0,
            seen: Seen::Started { frame: -60.0 },
        },
        tap(4.0, None),
        Event {
            at: 8.0,
            seen: Seen::Heard {
                count: 100.0,
                error: 0.08,
            },
        },
        Event {
            at: 8.4,
            seen: Seen::Heard {
                count: 107.3,
                error: 0.08,
            },
        },
        tap(13.9, None),
    ];
    let in_order = events.iter().fold(follower(), |mut one, event| {
        one.see(*event).unwrap();
        one
    });
    let mixed = [0, 1, 3, 2, 4].iter().fold(follower(), |mut one, nth| {
        one.see(events[*nth]).unwrap();
        one
    });
    let (a, b) = (in_order.live(20.0).unwrap(), mixed.live(20.0).unwrap());
    assert!((a.frame - b.frame).abs() < 1e-6, "{a:?} {b:?}");
}

#[test]
fn the_motor_switched_on_begins_another_run() {
    let mut one = follower();
    one.see(tap(10.0, Some(558))).unwrap();
    one.see(tap(14.0, None)).unwrap();
    let seen = Seen::Started { frame: -60.0 };
    one.see(Event { at: 60.0, seen }).unwrap();
    assert!(one.taken().is_empty());
    // The cuts of the head come again, and are no step back.
    one.see(tap(64.0, Some(0))).unwrap();
    assert!(one.live(64.0).unwrap().frame.abs() < 3.0);
}

#[test]
fn nothing_is_told_before_anything_was_seen() {
    let one = follower();
    assert_eq!(one.live(3.0), None);
    assert_eq!(one.comes(500.0), None);
    assert_eq!(one.lost(3.0), Some(Lost::NotYet));
    assert_eq!(one.next_cut(3.0), Some(0));
}

#[test]
fn numbers_that_cannot_be_are_refused() {
    let mut one = follower();
    for seen in [
        Seen::Counter {
            frame: f64::NAN,
            error: 1.0,
        },
        Seen::Counter {
            frame: 3.0,
            error: 0.0,
        },
        Seen::Heard {
            count: 1.0,
            error: -1.0,
        },
        Seen::Slipped { frames: -1.0 },
        Seen::Counts {
            from: 0.0,
            shares: [0.0; 5],
        },
    ] {
        let wrong = one.see(Event { at: 1.0, seen });
        assert!(
            matches!(wrong, Err(FollowError::CannotBe { .. })),
            "{seen:?}"
        );
    }
    assert!(Follower::new(Habits::usual(0.0), &CUTS).is_err());
}
