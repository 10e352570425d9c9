//! The planted faults: each shows on the frames that are said to show it, where
//! it is said, and on no other.

use onestrand_example::edge_code::read_edge_code_rgb;
use onestrand_example::{
    ExampleFault, FRAME_BYTES, FaultKind, HEIGHT, RollPainter, WIDTH, faults, takes,
};

const WIDE: usize = WIDTH as usize;

/// Green of every pixel: as good as luma for dark things.
fn painted(painter: &RollPainter, frame: u32) -> Vec<f32> {
    let mut out = vec![0; FRAME_BYTES];
    painter.paint(frame, &mut out).expect("the frame exists");
    let read = read_edge_code_rgb(&out, WIDTH, HEIGHT, WIDE * 3);
    assert_eq!(
        read,
        Some((painter.roll(), frame)),
        "its number is readable"
    );
    out.chunks_exact(3)
        .map(|pixel| f32::from(pixel[1]))
        .collect()
}

fn fault(kind: FaultKind) -> &'static ExampleFault {
    faults()
        .iter()
        .find(|fault| fault.kind == kind)
        .expect("one of each kind is planted")
}

/// Mean of the frames of a span, `step` apart: grain and dust are less in it.
fn mean(painter: &RollPainter, frames: impl Iterator<Item = u32>) -> Vec<f32> {
    let mut sum = vec![0.0; WIDE * HEIGHT as usize];
    let mut count = 0.0;
    for frame in frames {
        for (sum, value) in sum.iter_mut().zip(painted(painter, frame)) {
            *sum += value;
        }
        count += 1.0;
    }
    sum.iter().map(|sum| sum / count).collect()
}

#[test]
fn faults_lie_in_takes() {
    for fault in faults() {
        assert!(fault.span_in < fault.span_out);
        let begins = takes()
            .iter()
            .any(|t| t.roll == fault.roll && (t.span_in..t.span_out).contains(&fault.span_in));
        assert!(begins, "{fault:?}");
    }
}

#[test]
fn the_hair_lies_in_the_corner_of_its_take_and_is_gone_with_it() {
    let hair = fault(FaultKind::Hair);
    let painter = RollPainter::new(hair.roll).expect("the roll");
    let take = takes()
        .iter()
        .find(|t| t.name() == "2A-T1")
        .expect("the take");
    assert_eq!((hair.span_in, hair.span_out), (take.span_in, take.span_out));
    // The darkest ground of both takes there is path and grass, at about 100.
    let dark = |frame: u32| {
        let picture = painted(&painter, frame);
        let [left, top, right, bottom] = hair.seen;
        let mut count = 0;
        for y in (top * HEIGHT as f32) as usize..(bottom * HEIGHT as f32) as usize {
            for x in (left * WIDTH as f32) as usize..(right * WIDTH as f32) as usize {
                count += usize::from(picture[y * WIDE + x] < 35.0);
            }
        }
        count
    };
    // The first frames are flashed, and the hair with them.
    for frame in [hair.span_in + 6, 1460, hair.span_out - 1] {
        assert!(dark(frame) > 120, "R1·{frame}: {} dark pixels", dark(frame));
    }
    for frame in [hair.span_in - 1, hair.span_out, hair.span_out + 60] {
        assert!(dark(frame) < 40, "R1·{frame}: {} dark pixels", dark(frame));
    }
}

#[test]
fn the_line_runs_along_the_roll_over_two_camera_stops() {
    let line = fault(FaultKind::Scratch);
    let painter = RollPainter::new(line.roll).expect("the roll");
    let crossed = takes()
        .iter()
        .filter(|t| t.roll == line.roll)
        .filter(|t| line.span_in < t.span_in && t.span_in < line.span_out)
        .count();
    assert_eq!(crossed, 2);
    // How much darker the line's columns are than those beside it.
    let depth = |first: u32| {
        let picture = mean(&painter, (first..first + 24).step_by(4));
        let column = |x: usize| {
            let rows = 40..HEIGHT as usize - 40;
            let long = rows.len() as f32;
            rows.map(|y| picture[y * WIDE + x]).sum::<f32>() / long
        };
        let middle = (f64::from(line.seen[0] + line.seen[2]) / 2.0 * f64::from(WIDTH)) as usize;
        let darkest = (middle - 4..=middle + 4)
            .map(column)
            .fold(f32::INFINITY, f32::min);
        let beside = (column(middle - 9) + column(middle + 9)) / 2.0;
        1.0 - darkest / beside
    };
    for first in [3080, 3200, 3400, 3550] {
        assert!(depth(first) > 0.08, "R2·{first}: {}", depth(first));
    }
    for first in [2900, 3030] {
        assert!(depth(first) < 0.04, "R2·{first}: {}", depth(first));
    }
}

#[test]
fn the_soft_part_has_less_detail_than_the_same_action_in_the_other_take() {
    let soft = fault(FaultKind::Soft);
    let painter = RollPainter::new(soft.roll).expect("the roll");
    // Second differences of pictures at half size, where grain is less.
    let detail = |frame: u32| {
        let picture = mean(&painter, [frame].into_iter());
        let half = |x: usize, y: usize| {
            let at = 2 * y * WIDE + 2 * x;
            (picture[at] + picture[at + 1] + picture[at + WIDE] + picture[at + WIDE + 1]) / 4.0
        };
        let mut sum = 0.0;
        for y in 20..HEIGHT as usize / 2 - 20 {
            for x in 10..WIDE / 2 - 10 {
                let bend = half(x - 1, y) + half(x + 1, y) - 2.0 * half(x, y);
                sum += bend * bend;
            }
        }
        sum
    };
    let before = detail(soft.span_in - 1);
    let within = detail(soft.span_in + 40);
    let after = detail(soft.span_out);
    assert!(within < 0.6 * before, "{within} of {before}");
    assert!(after > 0.9 * before, "{after} of {before}");
}
