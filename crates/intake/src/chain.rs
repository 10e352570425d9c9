//! The chain of filters that makes picture and plane, in one place, since
//! exact access must make the very same plane as the reading did.

use crate::{BrowseSize, Plane};

/// Scaling by area keeps grain from flickering; the two other flags make the
/// result the same on every processor, so that plane hashes can move to
/// another computer (measured: without them AVX2 and SSE2 differ, and they
/// cost nothing measurable).
const FLAGS: &str = "flags=area+accurate_rnd+bitexact";

/// For conversions at full size: exact rounding and full colour.
pub(crate) const FLAGS_FULL: &str = "flags=bicubic+accurate_rnd+full_chroma_int+bitexact";

/// Numbers the frames by their count before any encoder sees them: encoders
/// refuse times that stand still, and scans have such.
pub(crate) const RENUMBER: &str = "settb=100,setpts=N";

/// From full size to the browsing picture, full range, as JPEG wants it.
pub(crate) fn to_browsing(size: BrowseSize) -> String {
    let BrowseSize { width, height } = size;
    format!("scale={width}:{height}:{FLAGS}:out_color_matrix=bt601,format=yuvj420p")
}

/// From the browsing picture to the measuring plane. Never from full size:
/// scaling twice from there costs twice.
pub(crate) fn to_plane() -> String {
    format!(
        "scale={}:{}:{FLAGS},format=gray",
        Plane::WIDTH,
        Plane::HEIGHT
    )
}
