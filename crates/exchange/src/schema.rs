//! The standard's own names: objects, fields and words that stand in its files.
//!
//! Source: the serialized schema of OpenTimelineIO 0.18.1 (Academy Software
//! Foundation), fields only.

/// The field that says what an object is.
pub(crate) const SCHEMA: &str = "OTIO_SCHEMA";
/// The outermost object.
pub(crate) const VERSION: &str = "Timeline.1";
pub(crate) const STACK: &str = "Stack.1";
pub(crate) const TRACK: &str = "Track.1";
pub(crate) const CLIP: &str = "Clip.2";
pub(crate) const GAP: &str = "Gap.1";
pub(crate) const MARKER: &str = "Marker.2";
pub(crate) const EFFECT: &str = "Effect.1";
pub(crate) const TIME_EFFECT: &str = "TimeEffect.1";
pub(crate) const TIME_WARP: &str = "LinearTimeWarp.1";
pub(crate) const FREEZE: &str = "FreezeFrame.1";
pub(crate) const FILE: &str = "ExternalReference.1";
pub(crate) const PICTURES: &str = "ImageSequenceReference.1";
pub(crate) const NO_FILE: &str = "MissingReference.1";
pub(crate) const TIME: &str = "RationalTime.1";
pub(crate) const RANGE: &str = "TimeRange.1";

/// The key of the one reference a clip needs.
pub(crate) const ONLY_MEDIA: &str = "DEFAULT_MEDIA";

/// Under which key our own words stand in an object's metadata.
pub(crate) const OURS: &str = "onestrand";
/// The form of our own words; a newer one would be read by a newer program.
pub(crate) const FORM: u64 = 1;

/// An object's name without its version: `Clip` of `Clip.2`.
pub(crate) fn kind(schema: &str) -> &str {
    schema.split_once('.').map_or(schema, |(kind, _)| kind)
}

/// Whether a name without version is that of the outermost object.
pub(crate) fn is_version(name: &str) -> bool {
    name == kind(VERSION)
}
