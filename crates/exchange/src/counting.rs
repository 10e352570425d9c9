//! The standard counts time as a decimal number at a decimal rate; we count
//! film frames at an exact speed. Here one becomes the other, or does not.

use onestrand_film::Fps;

use crate::place_in_file::{Node, Object};

/// By how much a rate may differ from the film's speed and still be it, as a
/// part of it. A rate is a decimal there, and other programs write 16.6667 for
/// 50/3; the rates in use differ by a thousandth at least (24 and 24000/1001).
const SAME_SPEED: f64 = 1e-5;
/// By how much a decimal may differ from a whole number that it is meant to be.
const WHOLE: f64 = 1e-6;

/// A moment or a length as the standard has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Time {
    pub(crate) value: f64,
    pub(crate) rate: f64,
}

/// A range as the standard has it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Range {
    pub(crate) start: Time,
    pub(crate) length: Time,
}

impl Time {
    /// Reads it; nothing when it is none.
    pub(crate) fn of(node: Node<'_>) -> Option<Self> {
        let object = node.object()?;
        let value = object.field("value")?.number()?;
        let rate = object.field("rate")?.number()?;
        let sound = value.is_finite() && rate.is_finite() && rate > 0.0;
        sound.then_some(Self { value, rate })
    }

    /// Whether it counts at this speed.
    pub(crate) fn is_at(self, speed: Fps) -> bool {
        let speed = speed.as_f64();
        (self.rate - speed).abs() <= speed * SAME_SPEED
    }

    /// Its count, if that is a whole number.
    pub(crate) fn whole(self) -> Option<i64> {
        whole(self.value)
    }

    /// The same time in frames at a speed; seldom a whole number.
    pub(crate) fn frames_at(self, speed: Fps) -> f64 {
        self.value * speed.as_f64() / self.rate
    }
}

/// A whole number, if a decimal is one.
pub(crate) fn whole(value: f64) -> Option<i64> {
    let near = value.round();
    let is_whole = (value - near).abs() <= WHOLE && near.abs() <= 1e15;
    is_whole.then_some(near as i64)
}

impl Range {
    pub(crate) fn of(node: Node<'_>) -> Option<Self> {
        let object: Object<'_> = node.object()?;
        Some(Self {
            start: Time::of(object.field("start_time")?)?,
            length: Time::of(object.field("duration")?)?,
        })
    }
}

/// A decimal as short as it can be said: `24`, `23.976`, `37.5`.
pub(crate) fn decimal(value: f64) -> String {
    let text = format!("{value:.4}");
    let plain = text.trim_end_matches('0').trim_end_matches('.');
    match plain {
        "" | "-" | "-0" => "0".to_owned(),
        plain => plain.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(value: f64, rate: f64) -> Time {
        Time { value, rate }
    }

    fn fps(text: &str) -> Fps {
        text.parse().expect("a speed")
    }

    /// The rows of the standard's own arithmetic: 36 at 18 a second are 48 at 24,
    /// 50 at 24 are no whole number at 18.
    #[test]
    fn times_at_other_rates() {
        assert_eq!(whole(at(48.0, 24.0).frames_at(Fps::EIGHTEEN)), Some(36));
        assert_eq!(whole(at(50.0, 24.0).frames_at(Fps::EIGHTEEN)), None);
        assert_eq!(decimal(at(50.0, 24.0).frames_at(Fps::EIGHTEEN)), "37.5");
    }

    #[test]
    fn a_speed_that_is_no_decimal_is_known_again() {
        for text in ["50/3", "24000/1001", "30000/1001", "18"] {
            let speed = fps(text);
            assert!(at(1.0, speed.as_f64()).is_at(speed), "{text}");
            let rounded: f64 = format!("{:.4}", speed.as_f64()).parse().expect("a number");
            assert!(at(1.0, rounded).is_at(speed), "{text} as {rounded}");
        }
        assert!(!at(1.0, 24.0).is_at(fps("24000/1001")));
        assert!(!at(1.0, 16.66).is_at(fps("50/3")));
    }

    #[test]
    fn decimals_are_said_shortly() {
        for (value, text) in [
            (24.0, "24"),
            (23.976, "23.976"),
            (-0.0, "0"),
            (120.0, "120"),
        ] {
            assert_eq!(decimal(value), text);
        }
    }
}
