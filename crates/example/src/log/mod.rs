//! The camera's log: every take of the three rolls, and the fogged ends.

mod list;

/// How much of the scene a take shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum ShotSize {
    /// Figures are small in the place.
    VeryWide,
    /// The whole action and the place about it.
    Wide,
    /// A figure fills the picture.
    Medium,
    /// A face, or a thing of that size.
    Close,
    /// Hands, feet, a small thing.
    Detail,
    /// Lettering over artwork.
    Title,
}

impl ShotSize {
    /// The word for a log sheet.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::VeryWide => "very wide",
            Self::Wide => "wide",
            Self::Medium => "medium",
            Self::Close => "close",
            Self::Detail => "detail",
            Self::Title => "title",
        }
    }
}

/// Which way the mover goes in the picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Direction {
    /// Left to right.
    LeftToRight,
    /// Right to left.
    RightToLeft,
    /// Towards the camera.
    Towards,
    /// Nothing crosses the picture.
    Still,
}

impl Direction {
    /// The words for a log sheet; empty when nothing crosses the picture.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::LeftToRight => "left to right",
            Self::RightToLeft => "right to left",
            Self::Towards => "towards camera",
            Self::Still => "",
        }
    }
}

/// What the makers thought of a take on the day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum TakeUse {
    /// The take they liked.
    Circled,
    /// Kept in reserve.
    Hold,
}

impl TakeUse {
    /// The word for a log sheet.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Circled => "circled",
            Self::Hold => "hold",
        }
    }
}

/// One take of the example film, as its log sheet says it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct ExampleTake {
    /// Camera roll, 1 to 3.
    pub roll: u8,
    /// Setup as slated, "3A"; "M" and "E" are the titles.
    pub slate: &'static str,
    /// Take of that setup, from 1.
    pub take: u8,
    /// First frame of the take. Unit: frames of the roll.
    pub span_in: u32,
    /// First frame after the take. Unit: frames of the roll.
    pub span_out: u32,
    /// Size of the shot.
    pub size: ShotSize,
    /// What the camera does: "still", "follows".
    pub camera: &'static str,
    /// Who or what moves across; empty when nobody does.
    pub mover: &'static str,
    /// Which way the mover goes.
    pub direction: Direction,
    /// What happens, in words.
    pub action: &'static str,
    /// Actions of the script the take covers: "3a;3b".
    pub covers: &'static str,
    /// What the makers thought of it.
    pub chosen: TakeUse,
    /// Remark of the log; may be empty.
    pub note: &'static str,
}

impl ExampleTake {
    /// Name as said aloud: "3A-T2".
    #[must_use]
    pub fn name(&self) -> String {
        format!("{}-T{}", self.slate, self.take)
    }

    /// Length. Unit: frames.
    #[must_use]
    pub fn frames(&self) -> u32 {
        self.span_out - self.span_in
    }
}

/// Frames at the end of a roll that stray light reached: \[in, out).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct FogSpan {
    /// Camera roll, 1 to 3.
    pub roll: u8,
    /// First fogged frame.
    pub span_in: u32,
    /// First frame after the fog.
    pub span_out: u32,
}

/// The fogged ends of the three rolls, in roll order.
#[must_use]
pub fn fog_spans() -> &'static [FogSpan] {
    const fn fog(roll: u8, span_in: u32, span_out: u32) -> FogSpan {
        FogSpan {
            roll,
            span_in,
            span_out,
        }
    }
    const SPANS: [FogSpan; 6] = [
        fog(1, 0, 24),
        fog(1, 3572, 3600),
        fog(2, 0, 18),
        fog(2, 3577, 3600),
        fog(3, 0, 21),
        fog(3, 3375, 3600),
    ];
    &SPANS
}

/// Every take, in the order shot.
///
/// Together with [`fog_spans`] they fill the three rolls, each frame once.
#[must_use]
pub fn takes() -> &'static [ExampleTake] {
    &list::TAKES
}
