//! Film read back: loose strips named, cut reels proved.

mod name;
mod photograph;
mod prove;
mod sketches;

pub use name::{StripRolls, name_strip_in};
pub use prove::{ReelToProve, prove_reel};
pub use sketches::SketchMemory;
