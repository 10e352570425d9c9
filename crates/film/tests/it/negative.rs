//! Claims met in the wild that are wrong (N001 to N008 of the check values).

use onestrand_film::{
    Fps, Frames, Gauge, Length, RunningTime, Shrinkage, SoundTrack, Winding, diameter,
};

fn time(gauge: Gauge, feet: u32, fps: Fps) -> String {
    let frames = Frames::new(feet * gauge.spec().frames_per_foot).expect("in range");
    RunningTime::of(frames, fps).to_string()
}

/// N001: a forum says 16 frames for the optical track of Super 8.
#[test]
fn super_8_optical_is_not_sixteen_frames() {
    let leads: Vec<i32> = Gauge::Super8
        .sound_leads(SoundTrack::Optical)
        .map(|l| l.frames)
        .collect();
    assert_eq!(leads, [22]);
}

/// N002: Super 8 at 24 is said to run 3.6 in/s; that is regular 8.
#[test]
fn super_8_at_24_runs_four_inches_a_second() {
    let inches = |gauge| {
        let second = Frames::new(24).expect("few");
        Length::by_feet(second, gauge, Shrinkage::NONE).as_mm_f64() / 25.4
    };
    assert!((inches(Gauge::Super8) - 4.0).abs() < 1e-9);
    assert!((inches(Gauge::Regular8) - 3.6).abs() < 1e-9);
}

/// N003: 100 ft of 16 mm is said to last 2.5 minutes at 24.
#[test]
fn a_hundred_feet_of_16_lasts_longer_than_two_and_a_half_minutes() {
    assert_eq!(time(Gauge::Sixteen, 100, Fps::TWENTY_FOUR), "2:46.7");
    assert_eq!(time(Gauge::Super8, 50, Fps::TWENTY_FOUR), "2:30.0");
}

/// N004: 400 ft of 16 mm is said to last 10 minutes, of 35 mm 3.5.
#[test]
fn four_hundred_feet_last_what_they_last() {
    assert_eq!(time(Gauge::Sixteen, 400, Fps::TWENTY_FOUR), "11:06.7");
    assert_eq!(time(Gauge::ThirtyFive, 400, Fps::TWENTY_FOUR), "4:26.7");
}

/// N007: the Super 8 aperture is said to be 6.22 mm wide.
#[test]
fn the_super_8_aperture_is_not_the_outer_limit() {
    assert_eq!(Gauge::Super8.spec().camera.width_um, 5_790);
}

/// N008: 400 ft is said to fit a 15 cm reel. It does not, 300 ft do.
#[test]
fn four_hundred_feet_do_not_fit_a_six_inch_reel() {
    let across = |feet: u32| {
        let frames = Frames::new(feet * 72).expect("in range");
        let length = Length::by_feet(frames, Gauge::Super8, Shrinkage::NONE);
        diameter(length, Winding::new(60.0, 0.14).expect("a winding"))
    };
    assert!(across(400) > 150.0 && across(400) < 180.0);
    assert!(across(300) < 150.0);
}
