//! What is told: a sign, where, how much, and what to look at.

/// What a sign speaks of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum SignKind {
    /// Edges are less sharp than in the sharpest frames of the take.
    Soft,
    /// More light than the take's middle.
    Over,
    /// Less light than the take's middle.
    Under,
    /// The whole picture moves to and fro, more than weave does.
    Shake,
    /// The whole picture trembles through a whole take.
    Weave,
    /// Something dark stands at the edge of the gate.
    Hair,
    /// A thin upright line stays where it is.
    Scratch,
    /// Stray light lies over the picture.
    Fog,
    /// The light changes from frame to frame.
    Flicker,
    /// Specks lie on the frames.
    Dust,
    /// Nothing was exposed.
    Black,
    /// All of the picture is white.
    Clear,
}

impl SignKind {
    /// The word for it in documents.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Soft => "soft",
            Self::Over => "over",
            Self::Under => "under",
            Self::Shake => "shake",
            Self::Weave => "weave",
            Self::Hair => "hair",
            Self::Scratch => "scratch",
            Self::Fog => "fog",
            Self::Flicker => "flicker",
            Self::Dust => "dust",
            Self::Black => "black",
            Self::Clear => "clear",
        }
    }

    /// What its measure is counted in.
    #[must_use]
    pub fn unit(self) -> &'static str {
        match self {
            Self::Soft => "of the best frame of the take",
            Self::Over | Self::Under => "stops",
            Self::Shake | Self::Weave => "% of width",
            Self::Hair => "% of the picture",
            Self::Scratch => "% of the level beside it",
            Self::Fog => "% of full light",
            Self::Flicker => "stops, peak to peak",
            Self::Dust => "specks a frame",
            Self::Black | Self::Clear => "of the picture",
        }
    }
}

/// Whether a line is darker or lighter than what stands beside it.
///
/// By common practice a dark line lies on the base, which bends the light of
/// the projector away; a light or coloured one was torn out of the emulsion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineTone {
    /// Darker: the base side.
    Dark,
    /// Lighter: the emulsion side.
    Light,
}

/// How a scratch lies to the camera stops, and so when it was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineRun {
    /// It begins and ends with camera stops: made in the camera, while it ran.
    WithTheCamera,
    /// It runs on over camera stops, and begins or ends inside a take: made
    /// after the camera.
    AcrossStops,
    /// It lies inside one take.
    WithinATake,
}

/// Where in the picture a sign is.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Place {
    /// A rectangle. Unit: thousandths of the picture, from the left and the
    /// top; right and bottom are past it.
    Box {
        /// Left side.
        left: u16,
        /// Upper side.
        top: u16,
        /// Right side.
        right: u16,
        /// Lower side.
        bottom: u16,
    },
    /// An upright line.
    Line {
        /// Unit: per cent of the width, from the left.
        x: f32,
        /// Darker or lighter than what is beside it.
        tone: LineTone,
        /// How it lies to the camera stops.
        run: LineRun,
    },
}

/// Two frames to look at side by side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pair {
    /// Where the sign is strongest.
    pub seen: u32,
    /// The frame of the take that has least of it.
    pub beside: u32,
}

/// A sign: a measure with its place, no verdict.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sign {
    /// What it speaks of.
    pub kind: SignKind,
    /// First frame that has it. Frames are counted from the roll's first, 0.
    pub from: u32,
    /// First frame that has it no more.
    pub until: u32,
    /// How much. Unit: see [`SignKind::unit`].
    pub measure: f32,
    /// Where in the picture, if it is not everywhere.
    pub place: Option<Place>,
    /// What to look at; nothing where the roll shows it nowhere else.
    pub compare: Option<Pair>,
    /// Share of the frame `seen` that is clipped to white, where that matters
    /// (`over`). Range: 0 to 1.
    pub clipped: Option<f32>,
}

impl Sign {
    /// A sign with neither place nor frames to compare yet.
    pub(crate) fn new(kind: SignKind, span: std::ops::Range<usize>, measure: f32) -> Self {
        Self {
            kind,
            from: span.start as u32,
            until: span.end as u32,
            measure,
            place: None,
            compare: None,
            clipped: None,
        }
    }

    /// The same, with two frames to look at.
    pub(crate) fn beside(mut self, seen: Option<usize>, beside: Option<usize>) -> Self {
        self.compare = seen.zip(beside).map(|(seen, beside)| Pair {
            seen: seen as u32,
            beside: beside as u32,
        });
        self
    }
}
