//! One checker for each table of the camera in `tests/tables`.

use onestrand_film::{Fps, Gauge};
use onestrand_plan::camera::{
    CircleChoice, CloseUpAsked, DepthAsked, ExposureAsked, FieldAsked, FilterAsked, FlashAsked,
    LightAsked, LightKnown, PanAsked, SunAsked, close_up, depth_of_field, exposure_time,
    field_of_view, filter_shift, flash_speed, known_filters, light_value, pan_speed, sun,
    usual_circle,
};

/// Rows by the heads of their columns.
fn rows(text: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    let all = reader.deserialize().map(|row| row.expect("a row"));
    all.collect()
}

/// A figure, a fraction such as `1/43.2`, or nothing.
fn figure(cell: &str) -> Option<f64> {
    let number = |text: &str| text.parse::<f64>().expect("a number");
    match cell.split_once('/') {
        _ if cell.is_empty() => None,
        Some((over, under)) => Some(number(over) / number(under)),
        None => Some(number(cell)),
    }
}

fn near(found: f64, row: f64, within: f64, what: &str) {
    assert!((found - row).abs() <= within, "{what}: {found} for {row}");
}

#[test]
fn every_row_of_depth_of_field() {
    let rows = rows(include_str!("../tables/depth_of_field.csv"));
    assert_eq!(rows.len(), 15);
    for row in rows {
        let cell = |name: &str| figure(&row[name]).expect("a figure");
        let gauge: Gauge = row["gauge"].parse().expect("a gauge");
        let asked = DepthAsked {
            lens_mm: cell("lens"),
            stop: cell("stop"),
            circle: CircleChoice {
                mm: cell("circle"),
                source: "the row",
            },
            distance_mm: cell("focus"),
            nearest_mm: None,
        };
        let found = depth_of_field(&asked).expect("sharp somewhere").value;
        let id = &row["id"];
        near(found.exact.hyperfocal_mm, cell("hyperfocal"), 0.1, id);
        near(found.exact.near_mm, cell("near"), 0.1, id);
        near(found.table.near_mm, cell("table_near"), 0.1, id);
        for (far, said) in [
            (found.exact.far_mm, "far"),
            (found.table.far_mm, "table_far"),
        ] {
            match row[said].as_str() {
                "inf" => assert_eq!(far, None, "{id}"),
                _ => near(far.expect("a limit"), cell(said), 0.1, id),
            }
        }
        // Rows that take the usual circle of their gauge; O021 has the older one.
        if id != "O021" {
            near(usual_circle(gauge).mm, cell("circle"), 1e-9, id);
        }
    }
}

#[test]
fn every_row_of_field_of_view_and_its_pans() {
    let rows = rows(include_str!("../tables/field_of_view.csv"));
    assert_eq!(rows.len(), 16);
    for row in rows {
        let cell = |name: &str| figure(&row[name]).expect("a figure");
        let gauge: Gauge = row["gauge"].parse().expect("a gauge");
        let (image, id) = (gauge.spec().camera, &row["id"]);
        let asked = FieldAsked {
            image,
            lens_mm: cell("lens"),
            distance_mm: Some(3_000.0),
        };
        let found = field_of_view(&asked).expect("a field").value;
        near(found.across_degrees, cell("across"), 0.0051, id);
        near(found.upright_degrees, cell("upright"), 0.0051, id);
        near(found.diagonal_degrees, cell("diagonal"), 0.0051, id);
        near(
            found.field_mm.expect("a width")[0],
            cell("width"),
            0.051,
            id,
        );
        for (speed, said) in [(Fps::TWENTY_FOUR, "pan24"), (Fps::EIGHTEEN, "pan18")] {
            let pan = PanAsked {
                image,
                lens_mm: cell("lens"),
                speed,
                frames_across: PanAsked::USUAL_FRAMES,
                turn_degrees: None,
            };
            let found = pan_speed(&pan).expect("a pan").value;
            near(found.degrees_a_second, cell(said), 0.0051, id);
        }
    }
}

/// Rows O050 to O053: 7 s at 24 f/s are 168 frames and 9.33 s at 18; the animators' rule
/// gives 5.0 s at 24 and 6.67 s at 18; the step is 0.0345 mm on Super 8, 0.0611 on 16 mm.
#[test]
fn the_rules_of_pans() {
    let pan = |gauge: Gauge, speed, frames_across| {
        let asked = PanAsked {
            image: gauge.spec().camera,
            lens_mm: 12.5,
            speed,
            frames_across,
            turn_degrees: None,
        };
        pan_speed(&asked).expect("a pan").value
    };
    let usual = PanAsked::USUAL_FRAMES;
    let at24 = pan(Gauge::Super8, Fps::TWENTY_FOUR, usual);
    let at18 = pan(Gauge::Super8, Fps::EIGHTEEN, usual);
    near(at24.seconds_across, 7.0, 1e-9, "O050");
    near(at18.seconds_across, 9.33, 0.005, "O050");
    let drawn = PanAsked::DRAWN_FRAMES;
    let seconds = |speed| pan(Gauge::Super8, speed, drawn).seconds_across;
    near(seconds(Fps::TWENTY_FOUR), 5.0, 0.005, "O052");
    near(seconds(Fps::EIGHTEEN), 6.67, 0.005, "O052");
    near(at18.step_mm, 0.0345, 5e-5, "O053");
    let sixteen = pan(Gauge::Sixteen, Fps::EIGHTEEN, usual);
    near(sixteen.step_mm, 0.0611, 5e-5, "O053");
}

#[test]
fn every_row_of_close_up_fields() {
    let rows = rows(include_str!("../tables/close_up_fields.csv"));
    assert_eq!(rows.len(), 35);
    for row in rows {
        let cell = |name: &str| figure(&row[name]).expect("a figure");
        let gauge: Gauge = row["gauge"].parse().expect("a gauge");
        let asked = CloseUpAsked {
            image: gauge.spec().shown,
            lens_mm: cell("lens"),
            dioptres: vec![cell("dioptres")],
            focus_mm: None,
        };
        let [wide, high] = close_up(&asked).expect("a field").value.field_mm;
        near(wide, cell("wide"), 0.051, &row["id"]);
        near(high, cell("high"), 0.051, &row["id"]);
    }
}

#[test]
fn every_row_of_close_up_distances() {
    let rows = rows(include_str!("../tables/close_up_distances.csv"));
    assert_eq!(rows.len(), 21);
    for row in rows {
        let asked = CloseUpAsked {
            image: Gauge::Super8.spec().shown,
            lens_mm: 25.0,
            dioptres: row["dioptres"].split('+').filter_map(figure).collect(),
            focus_mm: figure(&row["focus"]),
        };
        let found = close_up(&asked).expect("a distance").value;
        let subject = figure(&row["subject"]).expect("a distance");
        near(found.subject_mm, subject, 0.051, &row["id"]);
    }
}

#[test]
fn every_row_of_exposure_times() {
    let rows = rows(include_str!("../tables/exposure_times.csv"));
    assert_eq!(rows.len(), 11);
    for row in rows {
        let cell = |name: &str| figure(&row[name]).expect("a figure");
        let asked = ExposureAsked {
            shutter_degrees: cell("angle"),
            speed: row["speed"].parse().expect("a speed"),
            stop: Some(8.0),
            was_speed: None,
        };
        let found = exposure_time(&asked).expect("a time").value;
        near(
            found.seconds * 1000.0,
            cell("milliseconds"),
            0.0005,
            &row["id"],
        );
        near(1.0 / found.seconds, cell("one_over"), 0.0051, &row["id"]);
        near(
            found.value.expect("a stop"),
            cell("ev_at_8"),
            0.0005,
            &row["id"],
        );
    }
}

/// Row O105: from 24 to 18 f/s with one shutter is 0.415 of a stop more light.
#[test]
fn a_slower_camera_gives_more_light() {
    let asked = ExposureAsked {
        shutter_degrees: 180.0,
        speed: Fps::EIGHTEEN,
        stop: None,
        was_speed: Some(Fps::TWENTY_FOUR),
    };
    let found = exposure_time(&asked).expect("a time").value;
    near(found.more_stops.expect("stops"), 0.415, 0.0005, "O105");
}

#[test]
fn every_row_of_exposure_values() {
    let rows = rows(include_str!("../tables/exposure_values.csv"));
    assert_eq!(rows.len(), 18);
    for row in rows {
        let known = match (figure(&row["ev100"]), figure(&row["stop"])) {
            (Some(ev), _) => LightKnown::AtHundred(ev),
            (None, stop) => LightKnown::Stop(stop.expect("a stop")),
        };
        let asked = LightAsked {
            seconds: figure(&row["time"]).expect("a time"),
            iso: figure(&row["iso"]).expect("a speed"),
            filter_stops: 0.0,
            known,
        };
        let found = light_value(&asked).expect("a light").value;
        for (name, value, within) in [
            ("stop", found.stop, 0.0051),
            ("ev", found.ev, 0.0005),
            ("candelas", found.candelas, 1e-6),
            ("lux", found.lux, 1e-6),
        ] {
            if let Some(said) = figure(&row[name]) {
                near(value, said, within, &format!("{} {name}", row["id"]));
            }
        }
        // What falls on it, and what comes from it, lead to the same stop.
        for known in [
            LightKnown::Lux(found.lux),
            LightKnown::Candelas(found.candelas),
        ] {
            let back = light_value(&LightAsked { known, ..asked }).expect("a light");
            near(back.value.stop, found.stop, 1e-9, &row["id"]);
        }
    }
}

/// the-job, stage 2.3: 5500 to 3400 K is +112 mired; row O107: an 85 takes ⅔ of a stop.
#[test]
fn daylight_on_film_for_lamps() {
    let asked = FilterAsked {
        from_kelvin: 5_500.0,
        to_kelvin: 3_400.0,
    };
    let found = filter_shift(&asked).expect("a shift").value;
    near(found.mired, 112.0, 0.5, "mired");
    let filter = found.nearest.expect("a filter");
    assert_eq!((filter.number, filter.thirds), ("85", 2));
    // A filter's number says which way it turns the light.
    for filter in known_filters() {
        let is_warm = filter.number.starts_with("85") || filter.number.starts_with("81");
        assert_eq!(filter.mired > 0.0, is_warm, "{}", filter.number);
    }
    let same = FilterAsked {
        to_kelvin: 5_500.0,
        ..asked
    };
    assert_eq!(filter_shift(&same).expect("none").value.nearest, None);
}

/// the-job, section 5: +1.2 stop is a shutter open 2.30 times as long, 7.8 f/s of 18.
#[test]
fn the_flash_frame_of_the_example() {
    let asked = FlashAsked {
        stops: 1.2,
        speed: Fps::EIGHTEEN,
    };
    let found = flash_speed(&asked).expect("a speed").value;
    near(found.open_times, 2.30, 0.005, "open");
    near(found.speed, 7.8, 0.05, "speed");
}

/// The algorithm is stated to 0.0003°; the table has four decimals, and its package
/// takes the sun's place from another theory. UT1 is taken for UTC: up to 0.9 s, 0.004°.
/// Measured here: 0.0032° and 0.018 minutes at the most.
#[test]
fn the_sun_stands_where_another_theory_has_it() {
    let rows = rows(include_str!("../tables/sun.csv"));
    assert_eq!(rows.len(), 70);
    for row in &rows {
        let cell = |name: &str| figure(&row[name]).expect("a figure");
        let day: Vec<i32> = row["day"]
            .split('-')
            .map(|p| p.parse().expect("a day"))
            .collect();
        let asked = SunAsked {
            latitude: cell("latitude"),
            longitude: cell("longitude"),
            date: (day[0], day[1] as u32, day[2] as u32),
            minute: cell("minute"),
            clock_minutes: cell("clock_minutes"),
            golden: SunAsked::GOLDEN,
        };
        let found = sun(&asked).expect("a day").value;
        let what = format!("{} {}", row["place"], row["day"]);
        near(found.now.true_altitude, cell("true_altitude"), 0.006, &what);
        // Near the zenith a small step turns the azimuth far.
        let turn = (found.now.azimuth - cell("azimuth") + 180.0).rem_euclid(360.0) - 180.0;
        let turned = turn * found.now.true_altitude.to_radians().cos();
        near(turned, 0.0, 0.006, &what);
        for (name, minute) in [
            ("rise", found.rises),
            ("set", found.sets),
            ("dawn", found.dawn),
            ("dusk", found.dusk),
        ] {
            let said = figure(&row[name]);
            assert_eq!(minute.is_some(), said.is_some(), "{what} {name}");
            if let Some((minute, said)) = minute.zip(said) {
                near(minute, said, 0.05, &format!("{what} {name}"));
            }
        }
    }
}

/// The worked example of the algorithm's own paper (NREL/TP-560-34302, appendix A.5),
/// from memory: 2003-10-17, 12:30:30 at UTC−7, zenith 50.11162° and azimuth 194.34024°
/// for 820 hPa, 11 °C and 1,830 m; height and air differ here by less than 0.01°.
#[test]
fn the_example_of_the_paper() {
    let asked = SunAsked {
        latitude: 39.742_476,
        longitude: -105.178_6,
        date: (2003, 10, 17),
        minute: 12.0 * 60.0 + 30.5,
        clock_minutes: -420.0,
        golden: SunAsked::GOLDEN,
    };
    let now = sun(&asked).expect("a day").value.now;
    near(now.azimuth, 194.340_24, 0.005, "azimuth");
    near(90.0 - now.altitude, 50.111_62, 0.01, "zenith");
}
