//! The small grey picture that everything here is measured from.

use crate::InspectError;

/// Width of a measuring plane. Unit: pixels.
pub const PLANE_WIDTH: usize = 192;
/// Height of a measuring plane. Unit: pixels.
pub const PLANE_HEIGHT: usize = 144;
/// Bytes in a measuring plane, one a pixel, rows from the top, no padding.
pub const PLANE_BYTES: usize = PLANE_WIDTH * PLANE_HEIGHT;

/// A borrowed measuring plane: 192×144 pixels, grey, 0 black to 255 white,
/// area-scaled from the whole film frame.
///
/// The frame is squeezed to this shape whatever its own: only lengths given
/// as a share of the width or the height mean anything outside this crate.
#[derive(Clone, Copy)]
pub struct PlaneRef<'a>(&'a [u8; PLANE_BYTES]);

impl<'a> PlaneRef<'a> {
    /// Takes bytes as a plane without copying them.
    ///
    /// # Errors
    /// [`InspectError::PlaneSize`] unless there are exactly [`PLANE_BYTES`].
    ///
    /// # Examples
    /// ```
    /// use onestrand_inspect::{PLANE_BYTES, PlaneRef};
    /// let grey = vec![128; PLANE_BYTES];
    /// assert_eq!(PlaneRef::new(&grey)?.bytes()[0], 128);
    /// assert!(PlaneRef::new(&grey[1..]).is_err());
    /// # Ok::<(), onestrand_inspect::InspectError>(())
    /// ```
    pub fn new(bytes: &'a [u8]) -> Result<Self, InspectError> {
        match bytes.try_into() {
            Ok(plane) => Ok(Self(plane)),
            Err(_) => Err(InspectError::PlaneSize { found: bytes.len() }),
        }
    }

    /// The pixels, row by row from the top left. Range: 0 black, 255 white.
    pub fn bytes(self) -> &'a [u8; PLANE_BYTES] {
        self.0
    }
}

impl std::fmt::Debug for PlaneRef<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "PlaneRef({PLANE_WIDTH}×{PLANE_HEIGHT})")
    }
}
