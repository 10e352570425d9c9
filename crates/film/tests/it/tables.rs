//! One checker for each table in `tests/tables`.

use onestrand_film::{
    Fps, Frames, Gauge, Length, Quantity, RunningTime, SampleRate, Shrinkage, SoundTrack, Sureness,
    Winding, capacity, diameter, thickness_from_capacity, turns,
};

pub(crate) fn rows(text: &str) -> Vec<csv::StringRecord> {
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes())
        .records()
        .map(|r| r.expect("the table is well formed"))
        .collect()
}

fn frames_of(quantity: &str, gauge: Gauge, fps: Fps) -> Frames {
    let quantity: Quantity = quantity.parse().expect("a quantity");
    quantity
        .frames(gauge, fps, Shrinkage::NONE)
        .expect("in range")
}

#[test]
fn every_row_of_the_running_time_grid() {
    let rows = rows(include_str!("../tables/running_times.csv"));
    assert_eq!(rows.len(), 28, "the grid has 28 rows");
    for row in rows {
        let gauge: Gauge = row[0].parse().expect("a gauge");
        let frames = frames_of(&format!("{}ft", &row[1]), gauge, Fps::EIGHTEEN);
        assert_eq!(frames.to_string(), row[3], "{row:?}");
        let length = Length::by_feet(frames, gauge, Shrinkage::NONE);
        assert_eq!(length.metres_text(2), row[2], "{row:?}");
        for (cell, speed) in [(4, "16"), (5, "18"), (6, "24"), (7, "25")] {
            let time = RunningTime::of(frames, speed.parse().expect("a speed"));
            assert_eq!(time.to_string(), row[cell], "{row:?} at {speed}");
        }
    }
}

fn seconds(clock: &str) -> f64 {
    let time: RunningTime = clock.parse().expect("a clock time");
    time.as_seconds_f64()
}

#[test]
fn every_worked_length() {
    for row in rows(include_str!("../tables/worked_lengths.csv")) {
        let gauge: Gauge = row[2].parse().expect("a gauge");
        let fps: Fps = row[3].parse().expect("a speed");
        let frames = frames_of(&row[1], gauge, fps);
        let length = Length::by_feet(frames, gauge, Shrinkage::NONE);
        let published = &row[8] == "found" && row[5].len() <= 5;
        if !row[4].is_empty() {
            assert_eq!(frames.to_string(), row[4], "{row:?}");
        }
        let time = RunningTime::of(frames, fps);
        if published {
            let off = (time.as_seconds_f64() - seconds(&row[5])).abs();
            assert!(off <= 1.0, "{row:?}: {time}");
        } else {
            assert_eq!(time.to_string(), row[5], "{row:?}");
        }
        assert_eq!(length.metres_text(2), row[6], "{row:?}");
        if !row[7].is_empty() {
            assert_eq!(length.feet_text(0), row[7], "{row:?}");
        }
    }
}

#[test]
fn every_reel() {
    for row in rows(include_str!("../tables/reels.csv")) {
        let number = |i: usize| row[i].parse::<f64>().expect("a number");
        let gauge: Gauge = row[2].parse().expect("a gauge");
        let length = Length::by_feet(
            frames_of(&row[1], gauge, Fps::EIGHTEEN),
            gauge,
            Shrinkage::NONE,
        );
        let on = Winding::new(number(3), number(4)).expect("a winding");
        let across = diameter(length, on);
        assert!((across - number(5)).abs() <= number(7), "{row:?}: {across}");
        if !row[6].is_empty() {
            let turns = turns(length, on);
            assert!((turns - number(6)).abs() <= 0.05, "{row:?}: {turns}");
        }
        // And back: what a reel of that width holds is the length.
        let held = capacity(across, on) / length.as_mm_f64();
        assert!((held - 1.0).abs() < 1e-9, "{row:?}");
    }
}

/// G100: three published capacities imply the same thickness within 0.02 %.
#[test]
fn published_capacities_agree_on_one_thickness() {
    let rows = rows(include_str!("../tables/reels.csv"));
    let implied: Vec<f64> = rows
        .iter()
        .filter(|r| &r[8] == "found")
        .map(|r| {
            let length = Length::by_feet(
                frames_of(&r[1], Gauge::ThirtyFive, Fps::TWENTY_FOUR),
                Gauge::ThirtyFive,
                Shrinkage::NONE,
            );
            let number = |i: usize| r[i].parse::<f64>().expect("a number");
            thickness_from_capacity(number(5), number(3), length).expect("some film")
        })
        .collect();
    assert_eq!(implied.len(), 3);
    for t in &implied {
        assert!((t / 0.1346 - 1.0).abs() < 0.0005, "{t}");
        assert!((t / implied[0] - 1.0).abs() < 0.0002, "{implied:?}");
    }
}

#[test]
fn every_sound_lead() {
    for row in rows(include_str!("../tables/sound_leads.csv")) {
        let gauge: Gauge = row[1].parse().expect("a gauge");
        let track: SoundTrack = row[2].parse().expect("a track");
        let frames: i32 = row[3].parse().expect("a lead");
        let lead = gauge
            .sound_leads(track)
            .find(|l| l.frames == frames)
            .unwrap_or_else(|| panic!("no such lead: {row:?}"));
        let sureness = match &row[9] {
            "found" => Sureness::Found,
            "memory" => Sureness::Memory,
            _ => Sureness::Suggestion,
        };
        assert_eq!(lead.sureness, sureness, "{row:?}");
        let Ok(count) = Frames::new(u32::try_from(frames).unwrap_or(u32::MAX)) else {
            continue;
        };
        let length = Length::by_feet(count, gauge, Shrinkage::NONE);
        assert_eq!(length.mm_text(2), row[4], "{row:?}");
        for (cell, speed) in [(5, "16"), (6, "18"), (7, "24"), (8, "25")] {
            let time = RunningTime::of(count, speed.parse().expect("a speed"));
            assert_eq!(
                format!("{:.4}", time.as_seconds_f64()),
                row[cell],
                "{row:?} at {speed}"
            );
        }
    }
}

/// S012: leads in samples at 48 kHz.
#[test]
fn leads_in_samples() {
    let samples = |gauge: Gauge, track, speed: &str| {
        let fps = speed.parse().expect("a speed");
        let lead = gauge.sound_leads(track).next().expect("a lead");
        lead.samples(fps, SampleRate::HZ_48000).to_string()
    };
    use SoundTrack::{Magnetic, Optical};
    assert_eq!(samples(Gauge::Super8, Magnetic, "18"), "48000");
    assert_eq!(samples(Gauge::Super8, Magnetic, "24"), "36000");
    assert_eq!(samples(Gauge::Super8, Optical, "24"), "44000");
    assert_eq!(samples(Gauge::Sixteen, Optical, "24"), "52000");
    assert_eq!(samples(Gauge::Sixteen, Magnetic, "24"), "56000");
    assert_eq!(samples(Gauge::Regular8, Magnetic, "16"), "168000");
    assert_eq!(samples(Gauge::Regular8, Magnetic, "18"), "448000/3");
    assert_eq!(samples(Gauge::Regular8, Magnetic, "24"), "112000");
}

/// G041, by the definition S = (L0 - L)/L0.
#[test]
fn shrinkage_from_a_hundred_frames() {
    let percent = |gauge, mm| {
        Shrinkage::from_hundred_frames(gauge, mm)
            .expect("a shrinkage")
            .to_string()
    };
    assert_eq!(percent(Gauge::Sixteen, "757.43"), "0.60");
    assert_eq!(percent(Gauge::Regular8, "378.00"), "0.79");
    assert_eq!(percent(Gauge::Regular8, "377.6"), "0.89");
    assert_eq!(percent(Gauge::Super8, "423.40"), "0.00");
}

/// Story 7: where the cards of shot 7 say to cut.
#[test]
fn card_lengths_of_shot_seven() {
    let mm = |n| {
        Length::by_pitch(Frames::new(n).expect("few"), Gauge::Super8, Shrinkage::NONE).mm_text(1)
    };
    assert_eq!(
        [mm(77), mm(16), mm(137), mm(27)],
        ["326.0", "67.7", "580.1", "114.3"]
    );
}
