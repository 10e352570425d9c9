//! The chain of filters that makes picture and plane, in one place, since
//! exact access must make the very same plane as the reading did.

use crate::{BrowseSize, Plane, StreamFacts};

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

/// From full size to the browsing size, 8 bits, colour halved.
///
/// Luma stored as 16 to 235 stays so here: the scaler widens it on every line
/// of the original, which costs 1.6 ms a frame of ten-bit 1440×1080, and
/// [`to_jpeg`] does it on the small picture with a table for half.
pub(crate) fn to_browsing(facts: &StreamFacts) -> String {
    let BrowseSize { width, height } = facts.browse_size();
    let head = planar_first(&facts.pix_fmt);
    let fields = scaled_by_fields(facts);
    let tail = if stays_narrow(facts) {
        ":out_range=tv,format=yuv420p"
    } else {
        ",format=yuvj420p"
    };
    format!("{head}scale={width}:{height}:{FLAGS}{fields}{tail}")
}

/// Fields of two moments must not run into each other when they are scaled.
pub(crate) fn scaled_by_fields(facts: &StreamFacts) -> &'static str {
    if facts.first_field().is_some() {
        ":interl=1"
    } else {
        ""
    }
}

/// Whether the browsing size keeps 16 to 235 until [`to_jpeg`].
fn stays_narrow(facts: &StreamFacts) -> bool {
    let is_wide = facts.pix_fmt.starts_with("yuvj") || facts.range.as_deref() == Some("pc");
    facts.pix_fmt.starts_with("yuv") && (!is_wide || foreign_matrix(facts).is_some())
}

/// From there to what JPEG means by its levels and colours: 0 to 255, BT.601
/// (ITU-T T.871 §7). Ranges of the table: ITU-R BT.601-7 §2.5.
///
/// Another matrix is changed on the small picture too: asking the scaler for it
/// costs 7 ms a frame of 1440×1080, this nothing measurable.
pub(crate) fn to_jpeg(facts: &StreamFacts) -> String {
    if !stays_narrow(facts) {
        return "null".to_owned();
    }
    let matrix =
        foreign_matrix(facts).map_or_else(String::new, |from| format!("colormatrix={from}:bt601,"));
    let colour = "'round((val-128)*255/224+128)'";
    format!(
        "{matrix}lutyuv=y='round((val-16)*255/219)':u={colour}:v={colour},\
         setrange=pc,scale=in_range=pc:out_range=pc,format=yuvj420p"
    )
}

/// Packed 16-bit colour is taken apart into planes first, which loses nothing:
/// the scaler reads it so slowly otherwise that a TIFF of 1440×1080 costs 26 ms
/// instead of 9 (measured, FFmpeg 5.1).
fn planar_first(pix_fmt: &str) -> &'static str {
    match pix_fmt {
        "rgb48le" | "rgb48be" | "bgr48le" | "bgr48be" => "format=gbrp16le,",
        "rgba64le" | "rgba64be" | "bgra64le" | "bgra64be" => "format=gbrap16le,",
        _ => "",
    }
}

/// The file's matrix as FFmpeg's `colormatrix` filter names it, when it is a
/// luma and colour coding tagged with another than BT.601.
fn foreign_matrix(facts: &StreamFacts) -> Option<&'static str> {
    if !facts.pix_fmt.starts_with("yuv") {
        return None;
    }
    match facts.matrix.as_deref() {
        Some("bt709") => Some("bt709"),
        Some("bt2020nc") => Some("bt2020"),
        Some("smpte240m") => Some("smpte240m"),
        Some("fcc") => Some("fcc"),
        _ => None,
    }
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

/// Planes for a reading: of the whole frame, and where it is woven of two fields
/// also of its top and its bottom field, one below the other.
pub(crate) fn to_planes(facts: &StreamFacts) -> String {
    let plane = to_plane();
    if facts.first_field().is_none() {
        return plane;
    }
    format!(
        "split=3[w0][t0][b0];[w0]{plane}[w1];[t0]field=top,{plane}[t1];\
         [b0]field=bottom,{plane}[b1];[w1][t1][b1]vstack=inputs=3"
    )
}
