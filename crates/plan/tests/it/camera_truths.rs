//! What holds of every lens, every day and every way to count.

use onestrand_film::{Fps, Gauge};
use onestrand_plan::camera::{
    CameraError, CloseUpAsked, DepthAsked, FieldAsked, FlickerSeen, FramedSize, FramingAsked,
    PendulumSeen, SunAsked, SunStays, TurntableSeen, close_up, depth_of_field, exposure_time,
    field_of_view, framing, sun, true_speed, usual_circle,
};
use onestrand_plan::camera::{ExposureAsked, Reckoned};
use proptest::prelude::*;

fn gauges() -> impl Strategy<Value = Gauge> {
    prop::sample::select(Gauge::ALL.to_vec())
}

proptest! {
    /// It is sharp before and behind what is focused on, never elsewhere, and a smaller
    /// opening never makes it less.
    #[test]
    fn focus_lies_within_its_depth(
        gauge in gauges(), lens in 4.0..150.0_f64, stop in 1.0..32.0_f64, focus in 400.0..50_000.0_f64,
    ) {
        let asked = DepthAsked {
            lens_mm: lens, stop, circle: usual_circle(gauge), distance_mm: focus, nearest_mm: None,
        };
        let found = depth_of_field(&asked).expect("sharp").value;
        for reach in [found.exact, found.table] {
            prop_assert!(0.0 < reach.near_mm && reach.near_mm < focus);
            prop_assert!(reach.far_mm.is_none_or(|far| far > focus));
        }
        let closed = depth_of_field(&DepthAsked { stop: stop * 1.4, ..asked }).expect("sharp").value;
        prop_assert!(closed.exact.near_mm < found.exact.near_mm);
        // Focused at the hyperfocal distance it is sharp from its half.
        let hyper = found.exact.hyperfocal_mm;
        let there = depth_of_field(&DepthAsked { distance_mm: hyper, ..asked }).expect("sharp").value;
        prop_assert!((there.exact.near_mm - hyper / 2.0).abs() < 1e-6 * hyper);
        prop_assert_eq!(there.exact.far_mm, None);
    }

    /// Lens, distance and view: from each two the third comes back.
    #[test]
    fn framing_goes_both_ways(
        gauge in gauges(), lens in 4.0..150.0_f64, size in prop::sample::select(FramedSize::ALL.to_vec()),
        person in 800.0..2_000.0_f64,
    ) {
        let image = gauge.spec().camera;
        let asked = FramingAsked {
            image, person_mm: person, size: Some(size), height_mm: None,
            lens_mm: Some(lens), distance_mm: None,
        };
        let far = framing(&asked).expect("a place").value;
        let back = FramingAsked { lens_mm: None, distance_mm: Some(far.distance_mm), ..asked };
        let back = framing(&back).expect("a lens").value;
        prop_assert!((back.lens_mm - lens).abs() < 1e-9 * lens);
        let seen = FramingAsked { size: None, distance_mm: Some(far.distance_mm), ..asked };
        let seen = framing(&seen).expect("a view").value;
        prop_assert_eq!(seen.size, size);
        prop_assert!((seen.field_mm[1] - size.share() * person).abs() < 1e-6 * person);
        // The field of view says the same width, by its own way.
        let field = FieldAsked { image, lens_mm: lens, distance_mm: Some(far.distance_mm) };
        let field = field_of_view(&field).expect("a field").value;
        let wide = field.focused_mm.expect("a width")[0];
        prop_assert!((wide - far.field_mm[0]).abs() < 1e-6 * wide);
        // Nearer sizes are nearer.
        prop_assert!(far.sizes.windows(2).all(|two| two[0].distance_mm > two[1].distance_mm));
        // Head and edges: the eyes, at 0.936 of the height, are always in the picture.
        let eyes = 0.936 * person;
        prop_assert!(far.edges_mm[0] < eyes && eyes < far.edges_mm[1]);
    }

    /// Two close-up lenses are as one of both powers; nothing is nearer without one.
    #[test]
    fn powers_add(a in 0.5..5.0_f64, b in 0.5..5.0_f64, lens in 5.0..50.0_f64, focus in 500.0..9_000.0_f64) {
        let image = Gauge::Super8.spec().shown;
        let asked = |dioptres| CloseUpAsked { image, lens_mm: lens, dioptres, focus_mm: Some(focus) };
        let two = close_up(&asked(vec![a, b])).expect("near").value;
        let one = close_up(&asked(vec![a + b])).expect("near").value;
        prop_assert!((two.subject_mm - one.subject_mm).abs() < 1e-9);
        prop_assert!(two.subject_mm < focus);
        // The thin-lens equation for both together, by hand: 1/v = 1/f + D − 1/u.
        let image_distance = 1.0 / (1.0 / lens + (a + b) / 1000.0 - 1.0 / two.subject_mm);
        prop_assert!((image_distance / two.subject_mm - two.magnification).abs() < 1e-9);
    }

    /// The sun is as high before its noon as after, but for its own drift in the year.
    #[test]
    fn the_sun_is_symmetric_about_noon(
        latitude in -60.0..60.0_f64, longitude in -170.0..170.0_f64, month in 1_u32..=12, hours in 0.5..4.0_f64,
    ) {
        let asked = SunAsked {
            latitude, longitude, date: (2026, month, 15), minute: 720.0,
            clock_minutes: (longitude / 15.0).round() * 60.0, golden: SunAsked::GOLDEN,
        };
        let noon = sun(&asked).expect("a day").value.noon.expect("a noon");
        let at = |minute| sun(&SunAsked { minute, ..asked }).expect("a day").value.now;
        let (before, after) = (at(noon - 60.0 * hours), at(noon + 60.0 * hours));
        // The declination drifts by up to 0.4° a day, 0.14° in eight hours.
        prop_assert!((before.true_altitude - after.true_altitude).abs() < 0.15);
        let turned = (before.azimuth + after.azimuth).rem_euclid(360.0);
        let turned = turned.min(360.0 - turned) * before.true_altitude.to_radians().cos();
        prop_assert!(turned < 0.35, "{turned}");
        prop_assert!(at(noon).true_altitude + 0.02 >= before.true_altitude);
    }

    /// A camera filmed by a lamp and a turntable: what is counted off it leads back to it.
    #[test]
    fn a_camera_that_runs_off_is_found_out(
        speed in 15.0..21.0_f64, mains in prop::sample::select(vec![50.0, 60.0]), frames in 200.0..2_000.0_f64,
    ) {
        let frames = frames.floor();
        let pulses = 2.0 * mains / speed;
        let bands = ((pulses - pulses.round()).abs() * frames).round();
        prop_assume!(bands <= frames / 2.0);
        let lamp = FlickerSeen {
            mains_hz: mains, mains_error_hz: 0.0, bands, bands_error: 1.0, frames, set: 18.0,
        };
        let turns = (frames / speed * 100.0 / 3.0 / 60.0).max(0.25);
        let table = TurntableSeen {
            turns_a_minute: 100.0 / 3.0, error_percent: 0.2, turns, frames, frames_error: 1.0,
        };
        let seen = vec![lamp.speed().expect("bands"), table.speed().expect("turns")];
        let found = true_speed(seen).expect("a speed").value;
        prop_assert_eq!(found.agree, Some(true));
        prop_assert!((found.speed - speed).abs() <= found.error + 1e-9, "{} {}", found.speed, found.error);
    }
}

/// Frames of a lamp, taken one by one: bands are counted off the light that a camera of
/// known speed would see, not off the formula.
#[test]
fn bands_counted_off_a_filmed_lamp() {
    for (speed, mains) in [(17.6, 50.0), (18.3, 50.0), (24.2, 60.0), (16.4, 60.0)] {
        let frames = 1_000_usize;
        let light = |frame: usize| {
            let time = frame as f64 / speed;
            // The lamp's light, over the short time in which one line is exposed.
            (2.0 * std::f64::consts::PI * 2.0 * mains * time).cos()
        };
        // Dark to light and back once is a band.
        let rises = (1..frames).filter(|at| light(at - 1) < 0.0 && light(*at) >= 0.0);
        let bands = rises.count() as f64;
        let lamp = FlickerSeen {
            mains_hz: mains,
            mains_error_hz: 0.0,
            bands,
            bands_error: 1.0,
            frames: frames as f64,
            set: 18.0_f64.max(speed.round()),
        };
        let found = lamp.speed().expect("bands");
        let mut all = found.also.clone();
        all.push(found);
        let hit = all.iter().any(|one| (one.speed - speed).abs() <= one.error);
        assert!(hit, "{speed} at {mains} Hz: {all:?}");
    }
}

/// The pendulum against its exact period, by the arithmetic-geometric mean:
/// T = 2π √(l/g) ÷ agm(1, cos(θ/2)).
#[test]
fn the_swing_of_a_pendulum() {
    for degrees in [0.0_f64, 5.0, 15.0, 30.0, 45.0, 60.0] {
        let seen = PendulumSeen {
            length_mm: 993.9,
            length_error_mm: 2.0,
            swing_degrees: degrees,
            swings: 20.0,
            frames: 720.0,
            frames_error: 1.0,
            gravity: PendulumSeen::GRAVITY,
        };
        let (mut a, mut b) = (1.0_f64, (degrees.to_radians() / 2.0).cos());
        for _ in 0..8 {
            (a, b) = (f64::midpoint(a, b), (a * b).sqrt());
        }
        let small = 2.0 * std::f64::consts::PI * (0.9939 / PendulumSeen::GRAVITY).sqrt();
        let exact = small / a;
        let found = seen.swing_seconds();
        assert!(
            (found / exact - 1.0).abs() < 5e-4,
            "{degrees}: {found} for {exact}"
        );
        assert!(seen.speed().expect("a speed").error > 0.0);
    }
}

#[test]
fn ways_that_do_not_agree_are_told() {
    let table = TurntableSeen {
        turns_a_minute: 45.0,
        error_percent: 0.5,
        turns: 30.0,
        frames: 720.0,
        frames_error: 1.0,
    };
    let pendulum = PendulumSeen {
        length_mm: 993.9,
        length_error_mm: 2.0,
        swing_degrees: 5.0,
        swings: 20.0,
        frames: 650.0,
        frames_error: 1.0,
        gravity: PendulumSeen::GRAVITY,
    };
    let seen = vec![table.speed().expect("one"), pendulum.speed().expect("one")];
    let found = true_speed(seen).expect("both").value;
    assert_eq!(found.agree, Some(false));
    assert!(found.error > 0.8, "{}", found.error);
    let alone = true_speed(vec![table.speed().expect("one")])
        .expect("one")
        .value;
    assert_eq!(alone.agree, None);
    assert!((alone.speed - 18.0).abs() < 1e-9);
}

/// 70° north: the sun stays up at midsummer and down at midwinter, and golden light goes
/// on through the night.
#[test]
fn days_without_a_night_and_nights_without_a_day() {
    let day = |month, latitude| {
        let asked = SunAsked {
            latitude,
            longitude: 19.0,
            date: (2026, month, 21),
            minute: 600.0,
            clock_minutes: 60.0,
            golden: SunAsked::GOLDEN,
        };
        sun(&asked).expect("a day").value
    };
    let (summer, winter) = (day(6, 70.0), day(12, 70.0));
    assert_eq!((summer.stays, summer.rises), (Some(SunStays::Up), None));
    assert!((summer.sun_left - 840.0).abs() < 1e-9);
    assert!(!summer.golden.is_empty());
    assert_eq!(winter.stays, Some(SunStays::Down));
    assert!(winter.sun_left.abs() < 1e-9);
    assert_eq!(winter.shadow, None);
    // In Berlin golden light comes twice, about rise and about set.
    let berlin = day(9, 52.5);
    assert_eq!(berlin.golden.len(), 2);
    let (morning, evening) = (berlin.golden[0], berlin.golden[1]);
    let (rises, sets) = (berlin.rises.expect("a rise"), berlin.sets.expect("a set"));
    assert!(morning.from < rises && rises < morning.to);
    assert!(evening.from < sets && sets < evening.to);
    assert!((berlin.golden_left - (evening.to - evening.from)).abs() < 1e-6);
    assert!((berlin.sun_left - (sets - 600.0)).abs() < 1e-6);
}

/// The sum of the altitude by hand, as it is opened, comes near the exact one.
#[test]
fn the_opened_sum_of_the_sun_can_be_done_by_hand() {
    for (hour, month) in [(9.0, 3), (12.5, 6), (16.0, 9), (10.0, 12)] {
        let asked = SunAsked {
            latitude: 47.5,
            longitude: 7.6,
            date: (2026, month, 10),
            minute: hour * 60.0,
            clock_minutes: 60.0,
            golden: SunAsked::GOLDEN,
        };
        let found = sun(&asked).expect("a day");
        let step = found
            .sums
            .iter()
            .find(|s| s.what == "altitude without the air");
        let (by_hand, exact) = step
            .and_then(|s| s.comes.split_once("; exactly "))
            .expect("both");
        let number = |text: &str| -> f64 {
            let plain = text.trim_end_matches('°').replace('−', "-");
            plain.parse().expect("degrees")
        };
        assert!(
            (number(by_hand) - number(exact)).abs() <= 0.03,
            "{by_hand} {exact}"
        );
    }
}

fn code<T>(found: Result<Reckoned<T>, CameraError>) -> &'static str {
    match found {
        Ok(_) => "answered",
        Err(error) => {
            assert!(!error.hint().is_empty() && !error.to_string().is_empty());
            error.code()
        }
    }
}

#[test]
fn what_cannot_be_is_refused_with_the_next_step() {
    let image = Gauge::Super8.spec().camera;
    let field = |lens_mm| FieldAsked {
        image,
        lens_mm,
        distance_mm: Some(9.0),
    };
    for lens in [0.0, -9.0, f64::NAN, f64::INFINITY, 1e9] {
        assert_eq!(
            code(field_of_view(&field(lens))),
            "camera.out_of_range",
            "{lens}"
        );
    }
    assert_eq!(code(field_of_view(&field(9.0))), "camera.too_near");
    let depth = DepthAsked {
        lens_mm: 12.5,
        stop: 2.8,
        circle: usual_circle(Gauge::Super8),
        distance_mm: 900.0,
        nearest_mm: Some(1_200.0),
    };
    let too_near = depth_of_field(&depth).expect_err("nearer than its mark");
    assert!(too_near.hint().contains("+0.3"), "{}", too_near.hint());
    let shutter = |shutter_degrees| ExposureAsked {
        shutter_degrees,
        speed: Fps::EIGHTEEN,
        stop: None,
        was_speed: None,
    };
    for degrees in [0.0, 360.0, -180.0] {
        assert_eq!(
            code(exposure_time(&shutter(degrees))),
            "camera.out_of_range"
        );
    }
    let day = |latitude, date| SunAsked {
        latitude,
        longitude: 0.0,
        date,
        minute: 720.0,
        clock_minutes: 0.0,
        golden: SunAsked::GOLDEN,
    };
    assert_eq!(code(sun(&day(90.1, (2026, 6, 21)))), "camera.out_of_range");
    for date in [
        (2026, 2, 29),
        (2026, 13, 1),
        (2026, 4, 31),
        (1212, 1, 1),
        (2026, 1, 0),
    ] {
        assert_eq!(
            code(sun(&day(50.0, date))),
            "camera.no_such_day",
            "{date:?}"
        );
    }
    assert_eq!(code(sun(&day(-90.0, (2024, 2, 29)))), "answered");
    assert_eq!(code(true_speed(Vec::new())), "camera.unsaid");
    let lamp = FlickerSeen {
        mains_hz: 50.0,
        mains_error_hz: 0.1,
        bands: 60.0,
        bands_error: 1.0,
        frames: 100.0,
        set: 18.0,
    };
    assert_eq!(
        lamp.speed().expect_err("too many bands").code(),
        "camera.out_of_range"
    );
}
