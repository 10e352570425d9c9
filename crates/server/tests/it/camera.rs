//! The camera's calculators by request: no film is wanted.

use crate::served::Bench;

#[test]
fn every_calculator_answers_without_a_film() {
    let bench = Bench::new();
    for (asked, name, value) in [
        (
            "field?gauge=super8&lens_mm=9&distance=3m",
            "across_degrees",
            35.657,
        ),
        (
            "framing?gauge=super8&size=medium%20close&lens_mm=25",
            "distance_mm",
            3_522.5,
        ),
        (
            "depth?gauge=super8&lens_mm=7.5&stop=1.8&distance=2m",
            "near_mm",
            1_105.1,
        ),
        (
            "closeup?gauge=16&lens_mm=25&dioptres=1%202",
            "subject_mm",
            333.3,
        ),
        ("exposure?shutter=150&speed=18", "one_over", 43.2),
        ("ev?time=1%2F43.2&iso=40&ev100=15", "stop", 17.42),
        ("filter?from_kelvin=5500&to_kelvin=3400", "mired", 112.3),
        (
            "pan?gauge=super8&lens_mm=9&speed=18",
            "degrees_a_second",
            3.82,
        ),
        ("flash?stops=1.2&speed=18", "speed", 7.835),
        (
            "sun?latitude=52.5&longitude=13.4&date=2026-06-21&hour=15:00&clock=%2B2",
            "altitude",
            54.0,
        ),
        ("speed?set=18&turns=30&turns_frames=972", "speed", 18.0),
        ("wedge?set=-1%200%201&light=-4%20-3%20-2", "contrast", 1.0),
    ] {
        let found = bench.window.get(&format!("/api/camera/{asked}")).ok();
        let told = found[name]
            .as_f64()
            .unwrap_or_else(|| panic!("{asked}: {found}"));
        assert!((told - value).abs() < 0.002 * value, "{asked}: {told}");
        assert!(
            !found["sums"].as_array().expect("sums").is_empty(),
            "{asked}"
        );
    }
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    let bench = Bench::new();
    for (asked, status, code) in [
        ("field?gauge=super8&lens_mm=0", 422, "camera.out_of_range"),
        ("exposure?shutter=0&speed=18", 422, "camera.out_of_range"),
        (
            "sun?latitude=91&longitude=0&date=2026-06-21&clock=0",
            422,
            "camera.out_of_range",
        ),
        ("framing?gauge=super8&size=close", 422, "camera.unsaid"),
    ] {
        let answer = bench.window.get(&format!("/api/camera/{asked}"));
        assert_eq!(answer.refused(status), code, "{asked}");
    }
    // Half a request is refused too, and names what is missing.
    let answer = bench.window.get("/api/camera/field?gauge=super8");
    assert!((400..500).contains(&answer.status), "{answer:?}");
}
