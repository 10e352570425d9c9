//! `camera` at the command line: figures as a checker would ask for them.

use serde_json::{Value, json};

use crate::program::call;

/// The answer to `camera …`, its arguments in one line.
fn camera(line: &str) -> crate::program::Called {
    let arguments = ["camera"].into_iter().chain(line.split(' '));
    call(arguments.map(|part| part.replace('_', " ")))
}

fn figure(found: &Value, name: &str) -> f64 {
    found[name]
        .as_f64()
        .unwrap_or_else(|| panic!("{name} in {found}"))
}

/// A field of the answer, its value, and how near it must be.
type Figure = (&'static str, f64, f64);

/// Rows O010, O012, O031, O050, O065, O080, O098, the shift of the-job's stage 2.3, and
/// the flash frame of its section 5.
#[test]
fn every_calculator_answers_with_its_sum() {
    let rows: [(&str, &[Figure]); 9] = [
        (
            "depth --gauge super8 --lens 7.5 --stop 1.8 --distance 2m",
            &[
                ("hyperfocal_mm", 2468.1, 0.1),
                ("near_mm", 1105.1, 0.1),
                ("far_mm", 10512.6, 0.1),
            ],
        ),
        (
            "field --gauge super8 --lens 9 --distance 3m",
            &[
                ("across_degrees", 35.66, 0.006),
                ("diagonal_degrees", 42.74, 0.006),
            ],
        ),
        (
            "framing --gauge super8 --size medium-close --lens 25",
            &[("distance_mm", 3522.5, 0.5)],
        ),
        (
            "pan --gauge super8 --lens 9 --turn 90",
            &[
                ("degrees_a_second", 3.82, 0.006),
                ("seconds_across", 9.33, 0.005),
            ],
        ),
        (
            "closeup --gauge 16 --lens 25 --dioptres 1,2",
            &[("subject_mm", 333.3, 0.1)],
        ),
        (
            "exposure --shutter 150 --stop 8",
            &[("one_over", 43.2, 0.001), ("ev", 11.433, 0.0006)],
        ),
        (
            "ev --time 1/43.2 --iso 40 --ev100 15",
            &[("stop", 17.42, 0.006)],
        ),
        ("filter --from 5500 --to 3400", &[("mired", 112.3, 0.05)]),
        (
            "flash --stops 1.2",
            &[("open_times", 2.30, 0.005), ("speed", 7.8, 0.05)],
        ),
    ];
    for (line, figures) in rows {
        let found = camera(line).ok();
        for (name, value, within) in figures {
            let told = figure(&found, name);
            assert!(
                (told - value).abs() <= *within,
                "{line}: {name} {told} for {value}"
            );
        }
        let sums = found["sums"].as_array().expect("sums");
        assert!(!sums.is_empty(), "{line}");
        for sum in sums {
            for part in ["what", "formula", "figures", "comes", "source"] {
                assert!(
                    !sum[part].as_str().expect("a text").is_empty(),
                    "{line}: {part}"
                );
            }
        }
        assert!(!found["text"].as_str().expect("a line").is_empty());
        assert!(!found["taken"].as_array().expect("taken").is_empty());
    }
}

#[test]
fn sharp_to_infinity_is_a_null() {
    let found = camera("depth --gauge super8 --lens 9 --stop 8 --distance 1m").ok();
    assert_eq!(found["far_mm"], json!(null));
    assert!(
        found["text"]
            .as_str()
            .expect("a line")
            .ends_with("to infinity")
    );
}

/// The row of `crates/plan/tests/tables/sun.csv`: Berlin, 2026-06-21, 15:00 by UTC+1.
#[test]
fn the_sun_of_a_day() {
    let found =
        camera("sun --latitude 52.5 --longitude 13.4 --date 2026-06-21 --hour 15:00 --clock +1")
            .ok();
    let row = include_str!("../../../plan/tests/tables/sun.csv")
        .lines()
        .find(|line| line.starts_with("Berlin,52.5,13.4,2026-06-21,60,900,"))
        .expect("a row");
    let cells: Vec<f64> = row
        .split(',')
        .skip(6)
        .map(|cell| cell.parse().expect("a figure"))
        .collect();
    assert!((figure(&found, "azimuth") - cells[0]).abs() < 0.01);
    assert!((figure(&found, "true_altitude") - cells[1]).abs() < 0.01);
    let clock = |minute: f64| {
        format!(
            "{}:{:02}",
            minute.round() as u32 / 60,
            minute.round() as u32 % 60
        )
    };
    assert_eq!(found["rises"], clock(cells[2]));
    assert_eq!(found["sets"], clock(cells[3]));
    assert_eq!(found["path"].as_array().expect("a path").len(), 49);
    assert_eq!(found["golden"].as_array().expect("golden").len(), 2);
}

/// A camera at 17.6 f/s: 319 bands in 1,000 frames might be 18.8 f/s as well; the turntable
/// chooses.
#[test]
fn two_ways_to_the_true_speed() {
    let lamp = "--bands 319 --bands-frames 1000";
    let alone = camera(&format!("speed {lamp}")).ok();
    assert_eq!(alone["agree"], json!(null));
    let both = camera(&format!("speed {lamp} --turns 31.57 --turns-frames 1000")).ok();
    assert_eq!(both["agree"], json!(true));
    assert!((figure(&both, "speed") - 17.6).abs() < 0.02, "{both}");
    let apart = camera(&format!("speed {lamp} --turns 30 --turns-frames 1000")).ok();
    assert_eq!(apart["agree"], json!(false));
}

#[test]
fn a_wedge_that_was_measured_elsewhere() {
    let found = camera("wedge --set -1_0_1_2 --light -4.47_-3.47_-2.47_-1.47").ok();
    assert_eq!(found["thirds"], 3);
    assert_eq!(found["takes"].as_array().expect("takes").len(), 4);
}

#[test]
fn what_cannot_be_is_refused_with_the_next_step() {
    for (line, code) in [
        ("field --gauge super8 --lens 0", "camera.out_of_range"),
        (
            "depth --gauge super8 --lens 12.5 --stop 2.8 --distance 80cm --nearest 1.2m",
            "camera.too_near",
        ),
        ("framing --gauge super8 --lens 12.5", "camera.unsaid"),
        ("exposure --shutter 0", "camera.out_of_range"),
        ("ev --time 1/50 --iso 50", "camera.unsaid"),
        ("filter --from 5500 --to 0", "camera.out_of_range"),
        (
            "sun --latitude 91 --longitude 0 --date 2026-06-21 --clock 0",
            "camera.out_of_range",
        ),
        (
            "sun --latitude 50 --longitude 0 --date 2026-02-30 --clock 0",
            "camera.no_such_day",
        ),
        ("speed --bands 12", "production.unfit"),
        ("speed", "camera.unsaid"),
        ("wedge --set 0_1 --light -3_-2", "camera.too_few_takes"),
        ("field --gauge 8mm --lens 9", "film.unreadable"),
    ] {
        let refused = camera(line).refused();
        assert_eq!(refused["code"], code, "{line}");
        assert!(
            !refused["hint"].as_str().expect("a hint").is_empty(),
            "{line}"
        );
    }
}
