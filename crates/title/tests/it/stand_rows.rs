//! Rows of the check values and of the story: field, distance, safe field.

use onestrand_film::{Aperture, Gauge};
use onestrand_title::{
    SAFE, Stand, StandAsked, StandBy, TitleError, copy_stand, focus_behind, focus_behind_for,
    sharp_behind, stand_of,
};
use proptest::prelude::*;

const MEASURED: Aperture = Aperture {
    width_um: 5_690,
    height_um: 4_220,
    source: "measured",
};

fn asked(by: StandBy) -> StandAsked {
    StandAsked {
        gate: MEASURED,
        shown: Gauge::Super8.spec().shown,
        lens_mm: 25.0,
        by,
        safe: SAFE,
        closest_mm: None,
    }
}

fn near(found: f64, wanted: f64, by: f64) {
    assert!((found - wanted).abs() <= by, "{found}, not {wanted}");
}

/// Story 10, by its gate of 5.69 × 4.22 mm.
fn is_the_story(stand: &Stand) {
    near(stand.magnification, 0.02371, 5e-6);
    near(stand.subject_mm, 1_079.5, 0.05);
    near(stand.image_mm, 25.59, 0.005);
    near(stand.exposure_stops, 0.07, 0.005);
    near(stand.field_mm[1], 178.0, 0.05);
    near(stand.shown_mm[0], 224.0, 0.05);
    near(stand.shown_mm[1], 169.1, 0.05);
    near(stand.safe_mm[0], 179.2, 0.05);
    near(stand.safe_mm[1], 135.3, 0.05);
}

#[test]
fn the_storys_stand_both_ways() {
    let stand = copy_stand(&asked(StandBy::Width(240.0))).expect("a stand");
    is_the_story(&stand);
    let back = copy_stand(&asked(StandBy::Distance(1_079.5))).expect("a stand");
    is_the_story(&back);
    near(back.field_mm[0], 240.0, 0.02);
}

/// O060 to O066: close-up lenses on a lens at infinity; all of the shown aperture is
/// taken as the gate, as the table has it. O068 with the lens set to 2 m and 1 m.
#[test]
fn close_up_fields_come_out_when_the_width_is_asked() {
    let rows = include_str!("../tables/close_up_fields.csv");
    let mut seen = 0;
    for row in rows.lines().filter(|line| line.starts_with("O06")) {
        let cells: Vec<&str> = row.split(',').collect();
        let number = |at: usize| cells[at].parse::<f64>().expect("a figure");
        let gauge: Gauge = cells[1].parse().expect("a gauge");
        let (lens_mm, dioptres, wide, high) = (number(2), number(3), number(4), number(5));
        let shown = gauge.spec().shown;
        // The size on the film at infinity, told by the table's width, to its tenth.
        let size = lens_mm * dioptres / 1000.0;
        let asked = StandAsked {
            gate: shown,
            shown,
            lens_mm,
            ..asked(StandBy::Width(wide))
        };
        let stand = stand_of(&asked, size, 1000.0 / dioptres, None).expect("a stand");
        near(stand.shown_mm[0], wide, 0.0501);
        near(stand.shown_mm[1], high, 0.0501);
        near(stand.exposure_stops, 0.0, 1e-12);
        // The width a little under that of infinity wants a focus that is far away.
        let focus = focus_behind(shown, lens_mm, dioptres, wide - 0.1).expect("a focus");
        assert!(focus.expect("a distance") > 100.0 * lens_mm, "{row}");
        assert!(
            focus_behind(shown, lens_mm, dioptres, wide + 0.2).is_err(),
            "{row}"
        );
        seen += 1;
    }
    assert_eq!(seen, 35, "7 rows of 5 powers");
    let distances = include_str!("../tables/close_up_distances.csv");
    for row in distances.lines().filter(|line| line.starts_with("O068")) {
        let cells: Vec<f64> = row
            .split(',')
            .skip(1)
            .take(3)
            .map(|cell| cell.parse().unwrap_or(f64::INFINITY))
            .collect();
        let focus = focus_behind_for(cells[0], cells[2]).expect("a focus");
        match cells[1].is_finite() {
            // The table's tenth of a millimetre leaves the focus as uncertain as this.
            true => near(
                1000.0 / focus.expect("a distance"),
                1000.0 / cells[1],
                60.0 / cells[2] / cells[2] + 1e-3,
            ),
            false => assert!(focus.is_none_or(|focus| focus > 100_000.0), "{row}"),
        }
    }
}

/// O071 and O073: 80 per cent of what the projector shows.
#[test]
fn the_safe_field_on_the_film_is_that_of_the_table() {
    for (gauge, wide, high) in [
        (Gauge::Super8, 4.248, 3.208),
        (Gauge::Regular8, 3.496, 2.624),
        (Gauge::Sixteen, 7.720, 5.768),
    ] {
        let shown = gauge.spec().shown;
        let asked = StandAsked {
            gate: gauge.spec().camera,
            shown,
            ..asked(StandBy::Width(240.0))
        };
        let stand = copy_stand(&asked).expect("a stand");
        near(stand.safe_mm[0] * stand.magnification, wide, 5e-4);
        near(stand.safe_mm[1] * stand.magnification, high, 5e-4);
        assert!(
            stand.shown_mm[0] < stand.field_mm[0],
            "less is shown than taken"
        );
    }
}

#[test]
fn a_lens_that_cannot_focus_so_near_is_refused_with_the_close_up_lens() {
    let short = StandAsked {
        closest_mm: Some(1_500.0),
        ..asked(StandBy::Width(240.0))
    };
    let refused = copy_stand(&short).expect_err("too near");
    let TitleError::TooNear { close_up, .. } = &refused else {
        panic!("{refused:?}");
    };
    assert_eq!(close_up, &[0.5], "0.93 − 0.68 to 0.93 dioptres");
    assert!(refused.hint().contains("+0.5"));
    let focus = focus_behind(MEASURED, 25.0, 0.5, 240.0).expect("a focus");
    assert!(focus.expect("a distance") > 1_500.0);
    let reaches = StandAsked {
        closest_mm: Some(1_100.0),
        ..asked(StandBy::Width(240.0))
    };
    assert!(copy_stand(&reaches).is_ok());
}

#[test]
fn what_no_stand_is_is_refused() {
    for by in [
        StandBy::Width(0.0),
        StandBy::Width(f64::NAN),
        StandBy::Width(1e9),
        StandBy::Distance(20.0),
        StandBy::Distance(-5.0),
    ] {
        assert!(copy_stand(&asked(by)).is_err(), "{by:?}");
    }
    let wide = focus_behind(MEASURED, 25.0, 3.0, 240.0).expect_err("too strong");
    assert_eq!(wide.code(), "title.close_up_too_strong");
    assert!(wide.hint().contains("+0.95"), "{}", wide.hint());
    assert!(focus_behind_for(3.0, 400.0).is_err());
}

proptest! {
    /// I2: width to distance and back, and the lens law itself.
    #[test]
    fn width_and_distance_turn_into_each_other(width in 5.0..2_000.0_f64, lens in 5.0..150.0_f64) {
        let one = copy_stand(&StandAsked { lens_mm: lens, ..asked(StandBy::Width(width)) });
        let one = one.expect("a stand");
        if let Ok(back) = copy_stand(&StandAsked { lens_mm: lens, ..asked(StandBy::Distance(one.subject_mm)) }) {
            prop_assert!((back.field_mm[0] - width).abs() < 1e-6 * width);
        }
        prop_assert!((1.0 / one.subject_mm + 1.0 / one.image_mm - 1.0 / lens).abs() < 1e-9);
    }

    /// Behind a close-up lens: rays traced through both lenses, one after the other, meet
    /// the film where the lens set so puts it, at the size asked.
    #[test]
    fn a_focus_behind_a_close_up_lens_holds_by_tracing_rays(
        width in 20.0..200.0_f64, lens in 8.0..60.0_f64, dioptres in 0.1..5.0_f64,
    ) {
        let focus = focus_behind(MEASURED, lens, dioptres, width);
        prop_assume!(focus.is_ok());
        let focus = focus.expect("a focus");
        let image = focus.map_or(lens, |s| 1.0 / (1.0 / lens - 1.0 / s));
        let subject = 1.0 / (dioptres / 1000.0 + focus.map_or(0.0, |s| 1.0 / s));
        // A ray from the rim of the field at height h, at slope t: thin lenses turn it by
        // −y/f each; on the film all slopes must meet.
        let high = width / 2.0;
        let lands = |slope: f64| {
            let y = high + slope * subject;
            let turned = slope - y * dioptres / 1000.0 - y / lens;
            y + turned * image
        };
        let (one, other) = (lands(0.0), lands(-high / subject));
        prop_assert!((one - other).abs() < 1e-6, "{} {}", one, other);
        // A field within a hundredth of a millimetre of the widest is told as infinity.
        let by_rounding = focus.map_or(5.69 / 2.0 * 0.01 / width, |_| 0.0);
        prop_assert!((one.abs() - 5.69 / 2.0).abs() < 1e-4 + by_rounding, "{}", one);
    }

    /// The identity by which the far limit is told holds for the handbook's own forms.
    #[test]
    fn near_and_far_lie_about_the_focus(h in 500.0..50_000.0_f64, s in 100.0..400.0_f64, d in 0.1..5.0_f64) {
        let f = 25.0;
        let near = s * (h - f) / (h + s - 2.0 * f);
        let far = s * (h - f) / (h - s);
        let (close, away) = sharp_behind(near, Some(s), d);
        let before = |mm: f64| 1000.0 / (1000.0 / mm + d);
        prop_assert!((close - before(near)).abs() < 1e-6);
        prop_assert!((away.expect("a limit") - before(far)).abs() < 1e-6);
    }
}
