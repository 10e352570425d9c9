//! The table of reels. Data only; each row says where its figures come from.
//!
//! What a reel takes depends on hub, flange and thickness: the length printed on
//! it is a nominal one for film of usual thickness. Hubs differ from maker to
//! maker and are suggestions: measure yours.

use crate::{Gauge, Length, Sureness, Winding, capacity, diameter};

/// Thickness of triacetate camera film. Unit: millimetres. Source: makers' data
/// sheets, 0.14 to 0.15 mm, from memory; what nominal lengths are counted for here.
pub const TRIACETATE_MM: f64 = 0.145;

/// Thickness of thin polyester film. Unit: millimetres. Source: SMPTE 212M-1995,
/// 2.4.2, the film that reel clips are tested with. Polyester print stock is
/// thicker, 0.13 to 0.14 mm.
pub const POLYESTER_MM: f64 = 0.10;

/// A reel as it is sold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReelSpec {
    /// How it is asked for: `50ft`.
    pub code: &'static str,
    /// The nominal length. Unit: feet.
    pub feet: u32,
    /// Across the flange. Unit: millimetres.
    pub flange_mm: f64,
    /// Across the hub. Unit: millimetres.
    pub hub_mm: f64,
    /// Where flange and length come from.
    pub source: &'static str,
    /// How sure flange and length are; every hub is a suggestion.
    pub sureness: Sureness,
}

const fn row(
    code: &'static str,
    feet: u32,
    (flange_mm, hub_mm): (f64, f64),
    source: &'static str,
    sureness: Sureness,
) -> ReelSpec {
    ReelSpec {
        code,
        feet,
        flange_mm,
        hub_mm,
        source,
        sureness,
    }
}

use Sureness::{Found, Memory};

const SERVICE: &str = "list of a transfer house: 7.5 cm 15 m, 13 cm 60 m, 15 cm 90 m, 18 cm 120 m";

/// Super 8 and regular 8 alike: the same flanges, different holes for the spindle.
static EIGHT: [ReelSpec; 5] = [
    row(
        "50ft",
        50,
        (75.0, 32.0),
        "SMPTE 212M-1995: 75 mm; 15 m in the list of a transfer house",
        Found,
    ),
    row("200ft", 200, (130.0, 38.0), SERVICE, Found),
    row("300ft", 300, (150.0, 60.0), SERVICE, Found),
    row("400ft", 400, (180.0, 60.0), SERVICE, Found),
    row(
        "1200ft",
        1_200,
        (312.0, 100.0),
        "SMPTE 160M-1995: the largest, 312 mm, up to 360 m",
        Found,
    ),
];

const TRADE: &str = "trade sizes of 16 mm reels, from memory";

static SIXTEEN: [ReelSpec; 6] = [
    row("100ft", 100, (92.0, 32.0), TRADE, Memory),
    row("400ft", 400, (178.0, 60.0), TRADE, Memory),
    row("800ft", 800, (267.0, 114.0), TRADE, Memory),
    row("1200ft", 1_200, (311.0, 124.0), TRADE, Memory),
    row("1600ft", 1_600, (349.0, 124.0), TRADE, Memory),
    row("2000ft", 2_000, (381.0, 124.0), TRADE, Memory),
];

/// The reels of a gauge, the smallest first; none where no list is known.
///
/// ```
/// # use onestrand_film::{Gauge, standard_reels};
/// assert_eq!(standard_reels(Gauge::Super8)[0].flange_mm, 75.0);
/// assert!(standard_reels(Gauge::NineFive).is_empty());
/// ```
#[must_use]
pub fn standard_reels(gauge: Gauge) -> &'static [ReelSpec] {
    match gauge {
        Gauge::Super8 | Gauge::Regular8 => &EIGHT,
        Gauge::Sixteen => &SIXTEEN,
        Gauge::NineFive | Gauge::ThirtyFive => &[],
    }
}

/// How far a reel may be filled, and on what film is wound there.
///
/// Unit: millimetres, both.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReelRoom {
    /// Across the hub.
    pub hub_mm: f64,
    /// Across the wound film when the reel is full.
    pub full_mm: f64,
}

impl ReelRoom {
    /// The room of a reel that takes `nominal` of film of usual thickness
    /// ([`TRIACETATE_MM`]). Thinner film gets on it in proportion.
    ///
    /// Nothing when the hub is none that film is wound on.
    #[must_use]
    pub fn by_length(hub_mm: f64, nominal: Length) -> Option<Self> {
        let on = Winding::new(hub_mm, TRIACETATE_MM).ok()?;
        Some(Self {
            hub_mm,
            full_mm: diameter(nominal, on),
        })
    }

    /// What of film of this thickness it takes. Unit: millimetres of film; none
    /// where hub or thickness lie outside of what a [`Winding`] is made of.
    #[must_use]
    pub fn takes_mm(self, thickness_mm: f64) -> f64 {
        Winding::new(self.hub_mm, thickness_mm).map_or(0.0, |on| capacity(self.full_mm, on))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Frames, Shrinkage};

    /// What is printed on a reel fits on it, and leaves the rim free.
    #[test]
    fn the_nominal_length_lies_within_the_flange() {
        for gauge in [Gauge::Super8, Gauge::Sixteen] {
            for reel in standard_reels(gauge) {
                let frames = Frames::new(reel.feet * gauge.spec().frames_per_foot).expect("fits");
                let nominal = Length::by_feet(frames, gauge, Shrinkage::NONE);
                let room = ReelRoom::by_length(reel.hub_mm, nominal).expect("a hub");
                assert!(room.full_mm < reel.flange_mm - 2.0, "{gauge} {}", reel.code);
                assert!(room.full_mm > reel.flange_mm * 0.8, "{gauge} {}", reel.code);
                let back = room.takes_mm(TRIACETATE_MM);
                assert!((back - nominal.as_mm_f64()).abs() < 1e-6);
                // Single-8 film of 0.10 mm: about 1.4 times as much.
                let thin = room.takes_mm(POLYESTER_MM) / back;
                assert!((thin - 1.45).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn a_hub_of_nothing_has_no_room() {
        let length = Length::by_feet(
            Frames::new(72).expect("fits"),
            Gauge::Super8,
            Shrinkage::NONE,
        );
        assert_eq!(ReelRoom::by_length(0.0, length), None);
    }
}
