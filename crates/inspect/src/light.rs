//! How much more light one frame had than another.

use crate::small::Small;

/// Levels below this are in the frame line or too dark to tell light from
/// grain; levels above `LIGHTEST` may be clipped.
const DARKEST: u8 = 16;
const LIGHTEST: u8 = 243;

/// Light of `frame` against `other`, two pictures of the same thing, in stops.
///
/// The levels that a twentieth, two twentieths … of each frame lie below are set
/// against each other; those too dark or clipped in either are left out. What
/// is nearly clipped, and what stray light has lifted, shows too little of the
/// difference, never too much: so the ratio counts that a quarter of the others
/// exceed. `None` when nothing but black and white is left.
pub(crate) fn stops_over(frame: &Small, other: &Small, exponent: f32) -> Option<f32> {
    stops_between(
        |share| frame.level_at(share),
        |share| other.level_at(share),
        exponent,
    )
}

/// The same of frames of which the levels are told that so large a share lies below.
pub(crate) fn stops_between(
    frame: impl Fn(f32) -> u8,
    other: impl Fn(f32) -> u8,
    exponent: f32,
) -> Option<f32> {
    let usable = DARKEST..=LIGHTEST;
    let mut ratios: Vec<f32> = (1..20)
        .map(|part| part as f32 / 20.0)
        .map(|share| (frame(share), other(share)))
        .filter(|(a, b)| usable.contains(a) && usable.contains(b))
        .map(|(a, b)| exponent * (f32::from(a) / f32::from(b)).log2())
        .collect();
    ratios.sort_by(f32::total_cmp);
    let middle = *ratios.get(ratios.len() / 2)?;
    let quarter = ratios.len() / 4;
    let place = if middle > 0.0 {
        ratios.len() - 1 - quarter
    } else {
        quarter
    };
    ratios.get(place).copied()
}

/// The middle one of some values; 0 when there are none.
pub(crate) fn middle_of(mut values: Vec<f32>) -> f32 {
    values.sort_by(f32::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::small::SMALL_PIXELS;

    /// A slope of light from 0.02 to 0.4, exposed by so many stops.
    fn slope(stops: f32) -> Small {
        let level = |place: usize| {
            let light = 0.02 + 0.38 * place as f32 / SMALL_PIXELS as f32;
            (255.0 * (light * stops.exp2()).powf(1.0 / 2.2)).min(255.0) as u8
        };
        let pixels: Vec<u8> = (0..SMALL_PIXELS).map(level).collect();
        Small::from_pixels(pixels.try_into().expect("as many pixels as asked for"))
    }

    #[test]
    fn exposure_is_read_in_stops_clipped_or_not() {
        for stops in [-1.0, -0.3, 0.0, 0.5, 1.2, 2.0] {
            let read = stops_over(&slope(stops), &slope(0.0), 2.2).expect("there are middle tones");
            assert!((read - stops).abs() < 0.06, "{stops} read as {read}");
        }
    }

    #[test]
    fn black_against_black_says_nothing() {
        let black = Small::from_pixels(Box::new([3; SMALL_PIXELS]));
        assert_eq!(stops_over(&black, &black, 2.2), None);
    }
}
