//! What is printed is read back, for every type, over its whole range.

use onestrand_film::{
    FeetFrames, Fps, FrameName, FramePos, FrameRange, Frames, Gauge, Quantity, RollId, RunningTime,
    SampleRate, Shrinkage, Span, parse_position, sample_from_frame_floor,
};
use proptest::prelude::*;

fn any_gauge() -> impl Strategy<Value = Gauge> {
    prop::sample::select(Gauge::ALL.to_vec())
}

proptest! {
    #[test]
    fn footage(gauge in any_gauge(), n in 0_u32..=100_000_000) {
        let frames = Frames::new(n).expect("in range");
        let footage = gauge.footage(frames);
        prop_assert!(footage.frames() < gauge.spec().frames_per_foot);
        let read: FeetFrames = footage.to_string().parse().expect("own text");
        prop_assert_eq!(gauge.frames_from_footage(read), Ok(frames));
        let written = format!("{}+{}", footage.feet(), footage.frames());
        prop_assert_eq!(parse_position(&written, gauge).map(FramePos::index), Ok(n));
    }

    #[test]
    fn names_and_spans(letter in "[A-Za-z]", number in 0_u32..10_000, begin in 0_u32..99_999_999, len in 1_u32..1000) {
        let roll = RollId::new(&format!("{letter}{number}")).expect("a good name");
        let range = FrameRange::of(begin, (begin + len).min(100_000_000)).expect("not empty");
        let span = Span::new(roll.clone(), range);
        prop_assert_eq!(span.to_string().parse::<Span>(), Ok(span.clone()));
        let name = FrameName { roll, frame: range.last() };
        prop_assert_eq!(name.to_string().parse::<FrameName>(), Ok(name));
        prop_assert_eq!(range.last().index() + 1, range.end().index());
    }

    #[test]
    fn counted_quantities(n in 0_u32..=100_000_000, gauge in any_gauge()) {
        let frames = Frames::new(n).expect("in range");
        for text in [format!("{frames}fr"), gauge.footage(frames).to_string()] {
            let q: Quantity = text.parse().expect("own text");
            prop_assert_eq!(q.frames(gauge, Fps::EIGHTEEN, Shrinkage::NONE), Ok(frames));
        }
    }

    #[test]
    fn metres_come_back_to_the_frame(n in 0_u32..1_000_000, gauge in any_gauge()) {
        let frames = Frames::new(n).expect("in range");
        let metres = onestrand_film::Length::by_feet(frames, gauge, Shrinkage::NONE).metres_text(4);
        let q: Quantity = format!("{metres}m").parse().expect("metres");
        prop_assert_eq!(q.frames(gauge, Fps::EIGHTEEN, Shrinkage::NONE), Ok(frames));
    }

    #[test]
    fn clock_prints_the_same_again(n in 0_u32..10_000_000, num in 1_u64..60_000, den in 1_u64..1_002) {
        if let Ok(fps) = Fps::new(num, den) {
            let text = RunningTime::of(Frames::new(n).expect("in range"), fps).to_string();
            let read: RunningTime = text.parse().expect("own text");
            prop_assert_eq!(read.to_string(), text);
        }
    }

    #[test]
    fn shrinkage_prints_the_same_again(hundredths in 0_u32..=500) {
        let text = format!("{}.{:02}", hundredths / 100, hundredths % 100);
        let read: Shrinkage = text.parse().expect("in range");
        prop_assert_eq!(read.to_string(), text);
    }

    /// The frame that a sample lies in is the frame that began there.
    #[test]
    fn samples_never_drift(n in 0_u32..64_000, speed in prop::sample::select(vec!["16", "18", "24", "25", "50/3", "24000/1001"])) {
        let fps: Fps = speed.parse().expect("a speed");
        let at = sample_from_frame_floor(FramePos::new(n).expect("few"), fps, SampleRate::HZ_48000);
        let exact = f64::from(n) * 48_000.0 / fps.as_f64();
        prop_assert!((exact - at as f64) > -1e-6 && (exact - at as f64) < 1.0 + 1e-6);
    }
}

#[test]
fn nonsense_is_no_quantity() {
    for text in [
        "",
        "ft",
        "m",
        "fr",
        "12",
        "1:2:3:4",
        "2:61",
        "-5ft",
        "5 miles",
        "9999999999ft",
        "1e9m",
        "٣ft",
        "37ft60xx",
        "1:60:00",
    ] {
        let read = text.parse::<Quantity>().map_err(|_| ()).and_then(|q| {
            q.frames(Gauge::Super8, Fps::EIGHTEEN, Shrinkage::NONE)
                .map_err(|_| ())
        });
        assert!(read.is_err(), "{text:?} was read as {read:?}");
    }
}
