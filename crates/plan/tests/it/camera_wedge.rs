//! The exposure wedge against rows of takes made here, whose truth is known.

use onestrand_plan::camera::{CameraError, WedgeAsked, WedgeTake, wedge};
use proptest::prelude::*;

/// A film and its scan: contrast in the middle, then the shoulder and the foot, by a
/// logistic curve between black (−8 stops) and full white (0).
fn light_on_film(exposure: f64, contrast: f64) -> f64 {
    const SPAN: f64 = 8.0;
    // The steepest slope of a logistic curve is a quarter of its span.
    SPAN / (1.0 + (-4.0 * contrast / SPAN * exposure).exp()) - SPAN
}

/// Takes that were set by a meter which asks for `off` stops too little light. A rightly
/// exposed grey card lies in the middle of the curve.
fn row(settings: &[f64], off: f64, contrast: f64, noise: &[f64]) -> WedgeAsked {
    let take = |(at, set): (usize, &f64)| WedgeTake {
        set_stops: *set,
        light_stops: Some(light_on_film(set - off, contrast) + noise[at % noise.len()]),
    };
    WedgeAsked {
        takes: settings.iter().enumerate().map(take).collect(),
        right_light: light_on_film(0.0, contrast),
    }
}

const THIRDS: [f64; 13] = [
    -2.0, -1.667, -1.333, -1.0, -0.667, -0.333, 0.0, 0.333, 0.667, 1.0, 1.333, 1.667, 2.0,
];

proptest! {
    // A slip of the line showed in one of a thousand.
    #![proptest_config(ProptestConfig::with_cases(5_000))]

    /// The meter's error comes back to its third, on films of usual contrast, with the
    /// measure off by up to a twentieth of a stop.
    #[test]
    fn the_third_is_found(
        thirds in -4_i32..=4, contrast in 0.9..1.9_f64,
        noise in prop::collection::vec(-0.05..0.05_f64, 13),
    ) {
        let off = f64::from(thirds) / 3.0;
        let found = wedge(&row(&THIRDS, off, contrast, &noise)).expect("a wedge").value;
        prop_assert_eq!(found.thirds, thirds, "{} for {}", found.give_more_stops, off);
        prop_assert!(found.within_takes);
    }

    /// On a straight film without noise it is exact, whatever the settings.
    #[test]
    fn a_straight_film_is_exact(
        off in -1.0..1.0_f64, slope in 0.5..2.5_f64,
        settings in prop::collection::btree_set(-40_i32..=40, 3..12),
    ) {
        let take = |set: &i32| {
            let set_stops = f64::from(*set) / 10.0;
            WedgeTake { set_stops, light_stops: Some(slope * (set_stops - off) - 2.474) }
        };
        let takes = settings.iter().map(take).collect();
        let asked = WedgeAsked { takes, right_light: WedgeAsked::GREY_CARD };
        let found = wedge(&asked).expect("a wedge").value;
        prop_assert!((found.give_more_stops - off).abs() < 1e-6);
        prop_assert!((found.contrast - slope).abs() < 1e-6);
        prop_assert!(found.takes.iter().all(|take| take.left_out.is_none()));
    }
}

/// Seven takes whose upper three are on full film: left out, and told.
#[test]
fn full_film_is_left_out() {
    let settings = [-3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0];
    let take = |set: f64| WedgeTake {
        set_stops: set,
        light_stops: Some((1.5 * (set - 0.5) - 2.474).min(-1.5)),
    };
    let asked = WedgeAsked {
        takes: settings.map(take).to_vec(),
        right_light: WedgeAsked::GREY_CARD,
    };
    let found = wedge(&asked).expect("a wedge").value;
    assert!((found.give_more_stops - 0.5).abs() < 1e-6, "{found:?}");
    let left_out: Vec<f64> = found
        .takes
        .iter()
        .filter(|take| take.left_out.is_some())
        .map(|take| take.set_stops)
        .collect();
    assert_eq!(left_out, [2.0, 3.0]);
    // With the full ones counted, the line would have said another third.
    assert_eq!(found.thirds, 2);
}

#[test]
fn a_row_that_tells_nothing_is_refused() {
    let asked = |light: &[Option<f64>]| {
        let takes = light.iter().zip([-1.0, 0.0, 1.0, 2.0]);
        WedgeAsked {
            takes: takes
                .map(|(light_stops, set_stops)| WedgeTake {
                    set_stops,
                    light_stops: *light_stops,
                })
                .collect(),
            right_light: WedgeAsked::GREY_CARD,
        }
    };
    let few = wedge(&asked(&[Some(-3.0), None, Some(-1.0), None])).expect_err("two takes");
    assert_eq!(
        few,
        CameraError::TooFewTakes {
            usable: 2,
            takes: 4
        }
    );
    let darker = [Some(-1.0), Some(-2.0), Some(-3.0), Some(-4.0)];
    assert_eq!(wedge(&asked(&darker)), Err(CameraError::NotAWedge));
    let even = [Some(-1.0); 4];
    assert_eq!(wedge(&asked(&even)), Err(CameraError::NotAWedge));
    let far = WedgeAsked {
        right_light: f64::NAN,
        ..asked(&darker)
    };
    assert!(matches!(wedge(&far), Err(CameraError::OutOfRange { .. })));
}
