//! The list that proves a finish: which frame of the film each frame of the file shows,
//! and the hash of its picture.

use std::fmt::Write as _;
use std::path::Path;

use onestrand_finish::{Made, Pattern};

use super::plan::Said;
use crate::ProductionError;
use crate::print_sheets::write_whole;

/// Writes the list: `file_frame,running_frame,shows,blake3`.
///
/// The hash is that of the picture as it was handed to the coder, so that for FFV1 anyone
/// who decodes the file can take it again.
///
/// # Errors
/// [`ProductionError::File`].
pub(super) fn write(
    path: &Path,
    pattern: Pattern,
    said: &[Said],
    made: &Made,
) -> Result<(), ProductionError> {
    let mut text = String::from("file_frame,running_frame,shows,blake3\n");
    for file_frame in 0..made.file_frames {
        let place = pattern.shown_at(file_frame);
        let at = usize::try_from(place).unwrap_or(usize::MAX);
        let (Some(said), Some(hash)) = (said.get(at), made.pictures.get(at)) else {
            continue;
        };
        let shows = match said {
            Said::Frame(name) => name.to_string(),
            Said::Missing(name) => format!("{name} (no scan shows it: black)"),
            Said::Card(title) => format!("\"card {}\"", title.replace('"', "\"\"")),
            Said::Leader => "leader".to_owned(),
        };
        let _ = writeln!(text, "{file_frame},{place},{shows},{}", hash.to_hex());
    }
    write_whole(path, text.as_bytes())
}
