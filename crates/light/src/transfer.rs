//! From the numbers of a picture to light and back.

/// How the numbers of a picture follow the light that fell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Transfer {
    /// The camera curve of television: ITU-R BT.709-6, item 1.2, and BT.601-7, table 3,
    /// which has the same; BT.2020 too, to the fourth place.
    #[default]
    Television,
    /// IEC 61966-2-1.
    Srgb,
    /// A plain power of 2.2, as in ITU-R BT.470 system M.
    Power22,
    /// A plain power of 2.8, as in ITU-R BT.470 system B, G.
    Power28,
    /// Numbers are light.
    Linear,
}

impl Transfer {
    /// The transfer that a file's tag names, in FFmpeg's words; none when it names none
    /// that is known here. Then [`Transfer::Television`] is taken and said.
    #[must_use]
    pub fn named(tag: &str) -> Option<Self> {
        Some(match tag {
            "bt709" | "smpte170m" | "bt2020-10" | "bt2020-12" | "iec61966-2-4" => Self::Television,
            "iec61966-2-1" => Self::Srgb,
            "bt470m" | "gamma22" => Self::Power22,
            "bt470bg" | "gamma28" => Self::Power28,
            "linear" => Self::Linear,
            _ => return None,
        })
    }

    /// In words for a person.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Television => "BT.709",
            Self::Srgb => "sRGB",
            Self::Power22 => "power 2.2",
            Self::Power28 => "power 2.8",
            Self::Linear => "linear",
        }
    }

    /// Light of a number. Unit: both 0 to 1, where 1 is the most that can be said.
    #[must_use]
    pub fn light(self, number: f64) -> f64 {
        match self {
            Self::Television if number < 0.081 => number / 4.5,
            Self::Television => ((number + 0.099) / 1.099).powf(1.0 / 0.45),
            Self::Srgb if number <= 0.040_45 => number / 12.92,
            Self::Srgb => ((number + 0.055) / 1.055).powf(2.4),
            Self::Power22 => number.max(0.0).powf(2.2),
            Self::Power28 => number.max(0.0).powf(2.8),
            Self::Linear => number,
        }
    }

    /// The number of a light. Unit: as [`Transfer::light`].
    #[must_use]
    pub fn number(self, light: f64) -> f64 {
        match self {
            Self::Television if light < 0.018 => light * 4.5,
            Self::Television => 1.099 * light.powf(0.45) - 0.099,
            Self::Srgb if light <= 0.003_130_8 => light * 12.92,
            Self::Srgb => 1.055 * light.powf(1.0 / 2.4) - 0.055,
            Self::Power22 => light.max(0.0).powf(1.0 / 2.2),
            Self::Power28 => light.max(0.0).powf(1.0 / 2.8),
            Self::Linear => light,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Transfer; 5] = [
        Transfer::Television,
        Transfer::Srgb,
        Transfer::Power22,
        Transfer::Power28,
        Transfer::Linear,
    ];

    #[test]
    fn there_and_back() {
        for transfer in ALL {
            for step in 0..=1000 {
                let number = f64::from(step) / 1000.0;
                let back = transfer.number(transfer.light(number));
                // The two branches of BT.709 meet to the fourth place only, as printed.
                assert!((back - number).abs() < 4e-4, "{transfer:?} {number} {back}");
            }
        }
    }

    /// Worked from the standards' own formulas: 18 % grey.
    #[test]
    fn eighteen_per_cent() {
        assert!((Transfer::Television.number(0.18) - 0.409).abs() < 0.001);
        assert!((Transfer::Srgb.number(0.18) - 0.461).abs() < 0.001);
    }
}
