//! Takes of the example film: the same action played and drawn again, at its
//! own pace and under its own grain, closer in 3A.

use onestrand_example::world::action_time;
use onestrand_example::{ExampleTake, FRAME_BYTES, HEIGHT, RollPainter, WIDTH, takes};
use onestrand_film::FramePos;
use onestrand_twins::{GreyPicture, MovementReader, TakeMovement, TimeMap, lay_beside, twins_of};

fn logged(slate: &str, take: u8) -> &'static ExampleTake {
    let found = takes().iter().find(|t| t.slate == slate && t.take == take);
    found.expect("it is in the log")
}

/// The take, or a part of it, as small pictures of an eighth.
fn read(of: &ExampleTake, from: u32, until: u32) -> TakeMovement {
    const EIGHTH: usize = 8;
    let painter = RollPainter::new(of.roll).expect("a roll");
    let mut rgb = vec![0; FRAME_BYTES];
    let mut reader = MovementReader::new(FramePos::new(from).expect("a frame"));
    let (wide, high) = (WIDTH as usize / EIGHTH, HEIGHT as usize / EIGHTH);
    for frame in from..until {
        painter.paint(frame, &mut rgb).expect("a frame of the roll");
        let pixel = |at: usize| {
            let (x, y) = (EIGHTH * (at % wide), EIGHTH * (at / wide));
            let mut sum = 0_u32;
            for row in y..y + EIGHTH {
                let line = &rgb[3 * (row * WIDTH as usize + x)..][..3 * EIGHTH];
                sum += line.iter().map(|&level| u32::from(level)).sum::<u32>();
            }
            (sum / (3 * EIGHTH * EIGHTH) as u32) as u8
        };
        let levels: Vec<u8> = (0..wide * high).map(pixel).collect();
        let picture = GreyPicture::new(wide, high, &levels).expect("a picture");
        reader.push(picture).expect("of one size");
    }
    reader.finish().expect("there are frames")
}

/// The place in `there` of the moment that a frame of `here` shows.
fn truth(here: &ExampleTake, there: &ExampleTake, frame: u32) -> Option<f64> {
    let time = f64::from(action_time(here, frame));
    let at = |frame: u32| f64::from(action_time(there, frame));
    let mut frames = there.span_in..there.span_out - 1;
    let before = frames.find(|&f| at(f) <= time && time < at(f + 1))?;
    Some(f64::from(before) + (time - at(before)) / (at(before + 1) - at(before)))
}

fn assert_true(here: &ExampleTake, there: &ExampleTake, map: &TimeMap, least: usize) {
    let range = map.found_over().expect("a found map");
    let (mut told, mut right) = (0, 0);
    for frame in range.begin().index()..range.end().index() {
        let place = map.there(FramePos::new(frame).expect("a frame"));
        let place = place.expect("in range");
        if place.uncertain > 2.0 {
            continue;
        }
        told += 1;
        let truth = truth(here, there, frame);
        right += usize::from(truth.is_some_and(|t| (t - place.decimal()).abs() <= 2.0));
    }
    let name = format!("{} and {}", here.name(), there.name());
    assert!(told >= least, "{name}: {told} frames told");
    assert!(right * 10 >= told * 9, "{name}: {right} of {told} right");
}

#[test]
fn twins_drawn_anew_are_laid_within_two_frames() {
    for (slate, least) in [("3B", 120), ("4B", 100), ("6B", 100)] {
        let (one, two) = (logged(slate, 1), logged(slate, 2));
        let read = |take: &ExampleTake| read(take, take.span_in, take.span_out);
        let map = lay_beside(&read(one), &read(two)).expect("the same action");
        assert_true(one, two, &map, least);
    }
}

/// Bram lifts the rope, wide and nearer: 3-T2 [2760,2940) and 3A-T1, all of it.
#[test]
fn a_closer_setup_is_laid_on_its_master_and_found_among_others() {
    let (master, closer) = (logged("3", 2), logged("3A", 1));
    let wide = read(master, 2760, 2940);
    let near = read(closer, closer.span_in, closer.span_out);
    let other = logged("4B", 2);
    let other = read(other, other.span_in, other.span_out);
    let twins = twins_of(&near, &[&other, &wide]);
    assert_eq!(twins.len(), 1, "{twins:?}");
    assert_eq!(twins[0].which, 1);
    assert_true(closer, master, &twins[0].map, 90);
}
