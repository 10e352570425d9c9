//! What the finder of breaks reports.

/// Why a take begins where it begins, as far as the picture shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Begins {
    /// The first frame of the roll.
    RollStart,
    /// The stray light of the roll's first turns ends here.
    Fog,
    /// The camera was stopped: the first frame is flashed, or the same picture
    /// goes on with things displaced.
    CameraStop,
    /// Two pieces of film are joined there: the frame line jumps for a frame or
    /// two, or the edge of a tape or of an overlap lies across the frame.
    Join,
    /// Another picture without any sign of a starting camera or of a join: the
    /// picture does not tell which.
    Cut,
    /// The light comes up out of black, or one picture has turned into another.
    Fade,
}

impl Begins {
    /// The word for lists and for programs: `roll_start`, `fog`,
    /// `camera_stop`, `join`, `cut`, `fade`.
    pub fn word(self) -> &'static str {
        match self {
            Self::RollStart => "roll_start",
            Self::Fog => "fog",
            Self::CameraStop => "camera_stop",
            Self::Join => "join",
            Self::Cut => "cut",
            Self::Fade => "fade",
        }
    }
}

/// What speaks for a break, kept so that a person can look and decide.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct BreakEvidence {
    /// Share of the picture that changes at the break and at no other frame
    /// near it. Range: 0 to 1.
    pub changed: f32,
    /// How many times that is what changes at the frames about it.
    pub stands_out: f32,
    /// How strongly the change stands out where it is greatest: the share of that
    /// part of the picture, times how many times it is what changes there at
    /// other frames.
    pub in_one_place: f32,
    /// Whether it is that place alone that speaks for the break: figures jump a
    /// little, and the camera stands still and does not flash.
    pub only_in_one_place: bool,
    /// Share of what there was to see before that stands in the same place
    /// after: high where the set-up went on. Range: 0 to 1.
    pub stays: f32,
    /// Share of the picture that stands elsewhere after a flash than before it,
    /// though little moves. Looked for at flashes only. Range: 0 to 1.
    pub displaced: f32,
    /// Light of the first frame after against the settled take. Unit: stops.
    pub flash_stops: f32,
    /// Light of the settled take after against the frame before. Unit: stops.
    pub exposure_step: f32,
    /// How far the frame sits out of its place beside the join, for a frame or
    /// two. Unit: thousandths of the picture's height.
    pub rack: f32,
    /// How much a line across the whole width stands out, beside the join only.
    /// Unit: levels.
    pub edge: f32,
    /// Movement of the whole picture across the break. Unit: thousandths of
    /// the picture's width to the right and of its height down.
    pub jump: (f32, f32),
}

impl BreakEvidence {
    /// Change times standing out: what [`least_strength`] is held against.
    ///
    /// [`least_strength`]: crate::BreakSettings::least_strength
    pub fn strength(&self) -> f32 {
        self.changed * self.stands_out
    }
}

/// A change of picture that takes its time, as the camera or the printer made
/// it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum GradualKind {
    /// The light comes up out of black.
    FadeIn,
    /// The light goes down into black.
    FadeOut,
    /// One picture turns into another.
    Dissolve,
}

impl GradualKind {
    /// The word for lists and for programs: `fade_in`, `fade_out`, `dissolve`.
    pub fn word(self) -> &'static str {
        match self {
            Self::FadeIn => "fade_in",
            Self::FadeOut => "fade_out",
            Self::Dissolve => "dissolve",
        }
    }
}

/// Something found while a roll is read. Frames count from 0.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Finding {
    /// A new take begins.
    Break {
        /// Its first frame; a flashed first frame belongs to it.
        at: u32,
        /// Why.
        begins: Begins,
        /// Over-exposed frames at its start. Unit: frames.
        flash_frames: u32,
        /// By how much the first of them is over. Unit: stops.
        flash_stops: f32,
        /// What speaks for it.
        evidence: BreakEvidence,
    },
    /// Frames inside a take that are over-exposed: lightning, a muzzle, a
    /// camera that hesitated. Not a break.
    Flash {
        /// First of them.
        at: u32,
        /// How many. Unit: frames.
        frames: u32,
        /// By how much the lightest is over. Unit: stops.
        stops: f32,
    },
    /// A fade or a dissolve.
    Gradual {
        /// Which.
        kind: GradualKind,
        /// First frame in which it is seen.
        from: u32,
        /// First frame after it.
        until: u32,
    },
    /// Film without a picture that lets light through: leader, clear or toned.
    Leader {
        /// First frame of it.
        from: u32,
        /// First frame after it.
        until: u32,
        /// How light it is. Unit: mean level, 0 black to 255 clear. A grey plane
        /// does not tell its colour.
        level: f32,
    },
    /// Black: unexposed film, a covered lens, black leader.
    Black {
        /// First black frame.
        from: u32,
        /// First frame after them.
        until: u32,
    },
    /// Stray light at an end of the roll, where no take can be.
    Fog {
        /// First fogged frame.
        from: u32,
        /// First frame after them.
        until: u32,
    },
}
