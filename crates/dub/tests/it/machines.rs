//! Projector and tape: the story's figures and the rows of the check values.

use onestrand_dub::{
    DubError, Tap, TapeMachine, Timing, counter_table, fit_projector, fit_tape, frames_off,
    spacing_leader, tape_play,
};
use proptest::prelude::*;

fn near(found: f64, told: f64, within: f64, what: &str) {
    assert!(
        (found - told).abs() <= within,
        "{what}: {found}, told {told}"
    );
}

fn taps(rows: &[(f64, f64)]) -> Vec<Tap> {
    rows.iter()
        .map(|(frame, seconds)| Tap {
            frame: *frame,
            seconds: *seconds,
        })
        .collect()
}

const STORY: &[(f64, f64)] = &[
    (558.0, 30.47),
    (942.0, 51.25),
    (1338.0, 72.94),
    (1734.0, 94.50),
    (2202.0, 119.88),
];

#[test]
fn the_taps_of_the_story_give_its_speed_and_its_next_join() {
    let fit = fit_projector(&taps(STORY), false).expect("a machine");
    near(fit.speed, 18.37, 0.005, "speed");
    near(fit.speed_error, 0.06, 0.005, "95 %");
    near(fit.standard_error, 0.02, 0.005, "standard error");
    near(fit.predict(2346.0).seconds, 127.76, 0.005, "the next join");
    near(2346.0 / 18.0, 130.33, 0.005, "by the nominal speed");
    near(2652.0 / 18.36, 144.44, 0.005, "the reel");
    near(2652.0 / 18.0, 147.33, 0.005, "the reel, nominal");
    near(1734.0 / 18.36, 94.44, 0.005, "the music");
    near(
        frames_off(2652.0, 18.0, 18.36).expect("speeds"),
        53.0,
        0.1,
        "a bed laid to nominal",
    );
}

#[test]
fn a_tape_is_played_so_that_its_fork_is_true_and_spaced_for_the_true_speed() {
    near(
        tape_play(440.0, 433.4).expect("tones"),
        1.0152,
        0.00005,
        "play",
    );
    let gap = spacing_leader(1349.0 - 789.0, 18.36, 19.05).expect("a gap");
    near(gap.seconds, 30.50, 0.005, "seconds");
    near(gap.centimetres, 581.0, 0.06, "true speed");
    let nominal = spacing_leader(560.0, 18.0, 19.05).expect("a gap");
    near(nominal.centimetres, 592.7, 0.06, "nominal");
    let late = (nominal.centimetres - gap.centimetres) / 19.05 * 18.36;
    near(late.round(), 11.0, 0.0, "the bell late, in frames");
}

#[test]
fn the_counter_of_the_story() {
    let machine = TapeMachine {
        hub_mm: 30.0,
        thickness_mm: 0.052,
        counts_a_turn: 1.0,
        speed_cm_s: 19.05,
    };
    let law = machine.law().expect("a machine");
    let rows = counter_table(&law, [789.0], 18.36).expect("rows");
    near(rows[0].count, 41.9, 0.05, "count");
    near(rows[0].frames_a_count, 19.5, 0.05, "frames a count");
}

/// S081 and S082: hub, tape, speed, then seconds at 100 to 500, and counts at 1, 5, 10 and
/// 15 minutes.
#[test]
fn the_counter_table_of_the_check_values() {
    let reel = |hub_mm, thickness_mm, speed_cm_s| TapeMachine {
        hub_mm,
        thickness_mm,
        counts_a_turn: 0.5,
        speed_cm_s,
    };
    let rows = [
        (
            reel(28.575, 0.052, 9.525),
            [445.59, 1028.40, 1748.41, 2605.63, 3600.05],
            [15.48, 70.53, 128.91, 179.86],
        ),
        (
            reel(28.575, 0.052, 19.05),
            [222.80, 514.20, 874.20, 1302.81, 1800.03],
            [30.17, 128.91, 225.65, 306.51],
        ),
        (
            reel(11.0, 0.016, 4.7625),
            [332.46, 749.36, 1250.70, 1836.47, 2506.68],
            [20.09, 91.25, 166.43, 231.88],
        ),
        (
            reel(11.0, 0.011, 4.7625),
            [319.27, 696.59, 1131.96, 1625.38, 2176.85],
            [20.26, 94.44, 175.81, 248.39],
        ),
    ];
    for (machine, seconds, counts) in rows {
        let law = machine.law().expect("a machine");
        for (hundreds, told) in (1..).zip(seconds) {
            near(
                law.seconds(100.0 * f64::from(hundreds)),
                told,
                0.006,
                "S081 seconds",
            );
        }
        for (minutes, told) in [1.0, 5.0, 10.0, 15.0].into_iter().zip(counts) {
            near(law.count(60.0 * minutes), told, 0.006, "S081 counts");
        }
    }
    let law = reel(28.575, 0.052, 9.525).law().expect("a machine");
    near(law.a, 3.769_911, 5e-7, "S082 a");
    near(law.b, 0.006_860_38, 5e-9, "S082 b");
}

fn timings(rows: &[(f64, f64)]) -> Vec<Timing> {
    rows.iter()
        .map(|(count, seconds)| Timing {
            count: *count,
            seconds: *seconds,
        })
        .collect()
}

#[test]
fn two_timings_give_the_machine_back() {
    let fit = fit_tape(&timings(&[(70.526, 300.0), (179.862, 900.0)])).expect("S083");
    near(fit.a, 3.769_911, 2e-4, "S083 a");
    near(fit.b, 0.006_860_38, 2e-6, "S083 b");
    near(fit.seconds(200.0), 1028.40, 0.02, "S083");
    let read = fit_tape(&timings(&[(71.0, 300.0), (180.0, 900.0)])).expect("S084");
    // The row says 1,028.43; two whole counts give this, far inside the two seconds it allows.
    near(read.seconds(200.0), 1028.43, 2.0, "S084");
    let hub = fit_tape(&timings(&[(128.913, 600.0), (225.650, 1200.0)])).expect("S085");
    near(hub.hub_in_counts(), 274.760, 0.02, "S085 R");
    near(hub.counts_squared_a_second(), 145.764, 0.01, "S085 K");
    near(hub.count(1200.0), 225.65, 0.01, "S086");
    assert!(
        (2.0 * hub.count(600.0) - hub.count(1200.0) - 32.0).abs() < 1.0,
        "S086: a straight line fails"
    );
}

/// The sum of the layers is the closed form (check values 2.4): 2π(r₀ + (i + ½)t).
#[test]
fn turn_by_turn_is_the_law() {
    let (hub, thick) = (28.575_f64, 0.052_f64);
    let turns = (0..400).map(|i| 2.0 * std::f64::consts::PI * (hub + (f64::from(i) + 0.5) * thick));
    let machine = TapeMachine {
        hub_mm: hub,
        thickness_mm: thick,
        counts_a_turn: 1.0,
        speed_cm_s: 0.1,
    };
    let length: f64 = turns.sum();
    near(length, 97_954.859, 0.001, "check values");
    near(
        machine.law().expect("a machine").seconds(400.0),
        length,
        1e-6,
        "the law, at a millimetre a second",
    );
}

/// S055, S056: what a wrong speed comes to.
#[test]
fn drift_of_a_wrong_speed() {
    for (percent, seconds, speed, told) in [
        (0.1, 60.0, 18.0, 1.08),
        (0.5, 60.0, 18.0, 5.4),
        (1.0, 60.0, 18.0, 10.8),
        (1.0, 60.0, 24.0, 14.4),
    ] {
        let frames = seconds * speed;
        let off = frames_off(frames, speed, speed * (1.0 + percent / 100.0)).expect("speeds");
        near(off, told, 1e-6, "S055");
    }
    near(
        frames_off(3600.0, 18.0, 18.0 * (1.0 + 2.0 / 3600.0)).expect("speeds"),
        2.0,
        1e-6,
        "S056",
    );
}

#[test]
fn timings_that_cannot_be_are_refused() {
    assert!(matches!(
        fit_projector(&taps(&[(1.0, 1.0)]), false),
        Err(DubError::TooFew { .. })
    ));
    assert!(matches!(
        fit_projector(&taps(&[(1.0, 1.0), (5.0, 2.0), (4.0, 3.0)]), false),
        Err(DubError::WrongOrder { nth: 3 })
    ));
    assert!(matches!(
        fit_tape(&timings(&[(1.0, 1.0)])),
        Err(DubError::TooFew { .. })
    ));
    assert!(matches!(
        fit_tape(&timings(&[(10.0, 5.0), (20.0, 4.0)])),
        Err(DubError::WrongOrder { nth: 2 })
    ));
    assert!(tape_play(0.0, 433.0).is_err());
    let two = fit_projector(&taps(&[(0.0, 0.0), (18.0, 1.0)]), false).expect("a line");
    near(two.speed, 18.0, 1e-9, "two taps");
    assert!(
        two.speed_error.is_infinite(),
        "and nothing is known of its error"
    );
}

proptest! {
    #[test]
    fn the_fit_is_the_normal_equations(
        steps in prop::collection::vec((20.0_f64..400.0, -0.06_f64..0.06), 3..12),
    ) {
        let mut frame = 0.0;
        let taps: Vec<Tap> = steps.iter().map(|(step, off)| {
            frame += step;
            Tap { frame, seconds: 1.0 + frame / 18.3 + off }
        }).collect();
        let fit = fit_projector(&taps, false).expect("a line");
        // The slope by the plain sums, and the error of a slope by its formula.
        let n = taps.len() as f64;
        let (mean_x, mean_y) = (
            taps.iter().map(|t| t.frame).sum::<f64>() / n,
            taps.iter().map(|t| t.seconds).sum::<f64>() / n,
        );
        let sxx: f64 = taps.iter().map(|t| (t.frame - mean_x).powi(2)).sum();
        let sxy: f64 = taps.iter().map(|t| (t.frame - mean_x) * (t.seconds - mean_y)).sum();
        let slope = sxy / sxx;
        prop_assert!((fit.speed * slope - 1.0).abs() < 1e-9);
        let left: f64 = taps.iter().map(|t| (t.seconds - mean_y - slope * (t.frame - mean_x)).powi(2)).sum();
        let error = (left / (n - 2.0) / sxx).sqrt() / slope / slope;
        prop_assert!((fit.standard_error - error).abs() <= 1e-6 * error.max(1e-6));
    }

    #[test]
    fn creep_is_found_where_there_is_no_noise(bend in -2e-6_f64..2e-6, speed in 16.0_f64..26.0) {
        let taps: Vec<Tap> = (0..8).map(|n| {
            let frame = 250.0 * f64::from(n);
            Tap { frame, seconds: 2.0 + frame / speed + bend * frame * frame }
        }).collect();
        let fit = fit_projector(&taps, true).expect("a curve");
        let at_last = 1.0 / (1.0 / speed + 2.0 * bend * 1750.0);
        prop_assert!((fit.speed - at_last).abs() < 1e-6, "{} {}", fit.speed, at_last);
        prop_assert!((fit.speed_at_first - speed).abs() < 1e-6);
        let next = fit.predict(2000.0).seconds;
        prop_assert!((next - (2.0 + 2000.0 / speed + bend * 4e6)).abs() < 1e-6);
    }

    #[test]
    fn count_and_seconds_turn_into_each_other(
        hub in 8.0_f64..60.0, thick in 0.008_f64..0.06, gear in 0.2_f64..2.0, seconds in 0.0_f64..4000.0,
    ) {
        let law = TapeMachine { hub_mm: hub, thickness_mm: thick, counts_a_turn: gear, speed_cm_s: 9.525 }
            .law()
            .expect("a machine");
        prop_assert!((law.seconds(law.count(seconds)) - seconds).abs() < 1e-6);
    }
}
