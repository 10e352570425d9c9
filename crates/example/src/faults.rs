//! The faults that were planted in the rolls, so that whoever looks for faults
//! has some whose place is known.

/// What went wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum FaultKind {
    /// A hair lay in the camera gate: dark, sharp, on the same place in every
    /// frame until it was gone.
    Hair,
    /// The lens was not at its distance.
    Soft,
    /// Something in a camera or viewer drew a line along the base of the film.
    Scratch,
}

/// A fault of the example film.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ExampleFault {
    /// What it is.
    pub kind: FaultKind,
    /// Camera roll, 1 to 3.
    pub roll: u8,
    /// First frame that shows it. Unit: frames of the roll.
    pub span_in: u32,
    /// First frame that no longer shows it.
    pub span_out: u32,
    /// Where it is seen: left, top, right, bottom. Unit: parts of the frame,
    /// 0 to 1, before the film weaves.
    pub seen: [f32; 4],
}

impl ExampleFault {
    pub(crate) fn lies_on(&self, kind: FaultKind, number: (u8, u32)) -> bool {
        self.kind == kind
            && self.roll == number.0
            && (self.span_in..self.span_out).contains(&number.1)
    }
}

/// All faults, in the order of the rolls.
///
/// The hair lay in the gate through the whole of 2A-T1 and was gone when the
/// camera started again. In 3-T1 the lens slipped for 96 frames. The line on
/// roll 2 begins in the middle of 5A-T1 and crosses two camera stops: it was
/// made when the takes were already on the film.
#[must_use]
pub fn faults() -> &'static [ExampleFault] {
    const FAULTS: [ExampleFault; 3] = [
        ExampleFault {
            kind: FaultKind::Hair,
            roll: 1,
            span_in: 1352,
            span_out: 1568,
            seen: [0.80, 0.82, 0.99, 0.96],
        },
        ExampleFault {
            kind: FaultKind::Soft,
            roll: 1,
            span_in: 2010,
            span_out: 2106,
            seen: [0.0, 0.0, 1.0, 1.0],
        },
        ExampleFault {
            kind: FaultKind::Scratch,
            roll: 2,
            span_in: 3060,
            span_out: 3577,
            seen: [0.305, 0.0, 0.315, 1.0],
        },
    ];
    &FAULTS
}

/// The fault of a kind that lies on a frame.
pub(crate) fn fault_on(kind: FaultKind, number: (u8, u32)) -> Option<&'static ExampleFault> {
    faults().iter().find(|fault| fault.lies_on(kind, number))
}
