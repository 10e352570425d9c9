//! Columns that are played back follow the projector for ten minutes.

use onestrand_follow::{Event, Follower, Habits, Listener, Pace, Rate, Seen, Source};

use crate::by_ear::{RATE, Room, Sounding};
use crate::drawn::{Dice, Drawn, Projector, cuts};

const MINUTES: f64 = 10.0;

/// How far what is played was off at worst, in frames.
fn ten_minutes(nominal: f64, seed: u64, by_ear: bool) -> f64 {
    let mut dice = Dice::new(seed + 77 + nominal as u64);
    let drawn = Drawn {
        nominal,
        warms: 0.02,
        flutter: 0.003,
    };
    let first = -180.0 + dice.even(0.05, 0.7);
    let projector = Projector::new(&mut dice, drawn, first);
    let cuts = cuts(&mut dice, 16_000);
    let mut follower = Follower::new(Habits::usual(nominal), &cuts).unwrap();
    let mut listener = Listener::new(Source::Claw, RATE, nominal, 0.0).unwrap();
    let mut sounding = Sounding::from(-1.0, &projector);
    let room = Room {
        noise: 0.1,
        bangs: 1.0,
    };
    let started = dice.normal(0.06);
    let mut waiting = vec![(started, Seen::Started { frame: -180.0 })];
    let mut next = 0.0;
    for cut in &cuts {
        // Every second or third cut is tapped, and none of the last minute matters.
        if f64::from(*cut) >= next && f64::from(*cut) < nominal * 60.0 * MINUTES {
            let at = projector.at(f64::from(*cut)) + dice.normal(0.06);
            waiting.push((at, Seen::Tap { cut: Some(*cut) }));
            next = f64::from(*cut) + 360.0;
        }
    }
    let mut waiting = waiting.into_iter().peekable();
    let pace = Pace::default();
    let mut playing: Option<Rate> = None;
    let mut worst = 0.0_f64;
    while sounding.at() < 60.0 * MINUTES {
        let (from, samples) = if by_ear {
            sounding.piece(&mut dice, &projector, room)
        } else {
            sounding.silent_piece()
        };
        while let Some((at, seen)) = waiting.next_if(|(at, _)| *at <= sounding.at()) {
            if let Seen::Started { frame } = seen {
                listener.started(at, frame);
            }
            follower.see(Event { at, seen }).unwrap();
        }
        if by_ear {
            for event in listener.hear(from, &samples) {
                follower.see(event).unwrap();
            }
        }
        // The columns come in with the picture, 180 frames after the start.
        let now = sounding.at();
        let Some(live) = follower.live(now).filter(|live| live.frame > 0.0) else {
            continue;
        };
        let mut rate = playing.unwrap_or(Rate {
            frame: live.frame,
            rate: live.speed / nominal,
            speed: nominal,
        });
        for step in 1..=5 {
            let at = now + 0.02 * f64::from(step);
            let there = follower.live(at).unwrap();
            let after = rate.after(&pace, 0.02, there.frame, there.speed);
            // No step: a slope of 0.1 % a second at most, and the place goes on evenly.
            assert!((after.rate - rate.rate).abs() <= pace.slope * 0.02 + 1e-12);
            let even = 0.5 * (after.rate + rate.rate) * nominal * 0.02;
            assert!((after.frame - rate.frame - even).abs() < 1e-9);
            rate = after;
        }
        playing = Some(rate);
        let off = rate.frame - projector.frame(now + 0.1);
        worst = worst.max(off.abs());
    }
    worst
}

#[test]
fn columns_stay_within_a_frame_for_ten_minutes_at_18() {
    play_along(18.0);
}

#[test]
fn columns_stay_within_a_frame_for_ten_minutes_at_24() {
    play_along(24.0);
}

fn play_along(nominal: f64) {
    let mut by_ear: Vec<f64> = (0..6)
        .map(|seed| ten_minutes(nominal, seed, true))
        .collect();
    let mut by_taps: Vec<f64> = (0..40)
        .map(|seed| ten_minutes(nominal, seed, false))
        .collect();
    by_ear.sort_by(f64::total_cmp);
    by_taps.sort_by(f64::total_cmp);
    let within = by_taps.iter().filter(|off| **off <= 1.0).count();
    println!(
        "{nominal} f/s, ten minutes: by ear at worst {:.2?} frames; by taps alone {within} of 40 \
         within 1, middle {:.2}, worst {:.2}",
        by_ear, by_taps[20], by_taps[39]
    );
    assert!(by_ear[4] <= 1.0, "{by_ear:?}");
}
