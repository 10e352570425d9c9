//! A lens that is not at its distance: everything on the table is soft.

use tiny_skia::Pixmap;

use crate::faults::{FaultKind, fault_on};

/// How far the light of a point is spread when the lens has slipped whole: half
/// the side of the square that is spread over twice. Unit: pixels.
const SPREAD: f32 = 1.7;
/// Frames in which the lens slips, and in which it is put right.
const SLIPS: f32 = 8.0;

/// Spreads the light of the table on a frame whose lens has slipped.
pub(crate) fn blur(table: &mut Pixmap, number: (u8, u32)) {
    let Some(fault) = fault_on(FaultKind::Soft, number) else {
        return;
    };
    let since = (number.1 - fault.span_in) as f32 + 1.0;
    let until = (fault.span_out - number.1) as f32;
    let part = (since.min(until) / SLIPS).min(1.0);
    let radius = SPREAD * part;
    let (wide, high) = (table.width() as usize, table.height() as usize);
    // Twice along each way: near enough to a round spot.
    for _ in 0..2 {
        along(table.data_mut(), (high, wide * 4), (wide, 4), radius);
        along(table.data_mut(), (wide, 4), (high, wide * 4), radius);
    }
}

/// Averages along one way, by whole pixels and the fraction of one more at each
/// end. `lines` and `steps`: how many, and bytes from one to the next.
fn along(data: &mut [u8], lines: (usize, usize), steps: (usize, usize), radius: f32) {
    let whole = radius as usize;
    let rest = radius - whole as f32;
    let sum_of_weights = 1.0 + 2.0 * radius;
    let (count, stride) = steps;
    let mut line = vec![0.0_f32; count];
    for start in (0..lines.0).map(|line| line * lines.1) {
        for channel in 0..3 {
            for (place, value) in line.iter_mut().enumerate() {
                *value = f32::from(data[start + place * stride + channel]);
            }
            let at = |place: isize| line[place.clamp(0, count as isize - 1) as usize];
            let reach = whole as isize;
            let mut sum: f32 = (-reach..=reach).map(at).sum();
            for place in 0..count as isize {
                let ends = at(place - reach - 1) + at(place + reach + 1);
                let mean = (sum + rest * ends) / sum_of_weights;
                data[start + place as usize * stride + channel] = mean as u8;
                sum += at(place + reach + 1) - at(place - reach);
            }
        }
    }
}
