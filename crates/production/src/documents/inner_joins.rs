//! Joins inside lengths that are not on the reel.

use serde::Serialize;
use utoipa::ToSchema;

/// A join inside a length that hangs or lies on the bench.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct InnerJoinDocument {
    /// Where the length is: `pin 3`, or `loose on the bench`.
    pub place: String,
    /// The roll of a frame of it, which names the length.
    pub roll: String,
    /// That frame.
    pub frame: u32,
    /// Which of its joins, counted along it as it lies, from 1.
    pub join: usize,
    /// What meets there: `R2·303 | R1·400`.
    pub words: String,
    /// With what it was made.
    pub kind: String,
}
