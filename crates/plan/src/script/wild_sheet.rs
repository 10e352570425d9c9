//! The wild-sound list as a table.

use super::{Table, WildSound};
use crate::found::{Found, PlanError, unless};
use crate::seconds::Seconds;

const COLUMNS: [&str; 4] = ["sound", "place", "seconds", "distance"];

/// Reads the wild-sound list from CSV, or from a table pasted with tabs: `sound,place,
/// seconds,distance`. Only `sound` is needed.
///
/// # Errors
/// [`PlanError::Problems`], all at once, each with its line: rows without a sound,
/// seconds that cannot be read.
///
/// # Examples
/// ```
/// # use onestrand_plan::read_wild_sounds;
/// let sounds = read_wild_sounds("sound,place,seconds,distance\nchain,ferry,40,1 m\n")?;
/// assert_eq!((sounds.len(), sounds[0].place.as_str()), (1, "ferry"));
/// assert!(read_wild_sounds("sound,seconds\n,soon\n").is_err());
/// # Ok::<(), onestrand_plan::PlanError>(())
/// ```
pub fn read_wild_sounds(text: &str) -> Result<Vec<WildSound>, PlanError> {
    let mut found = Vec::new();
    let table = Table::read(text, &COLUMNS, &mut found);
    table.want(&COLUMNS[..1], &mut found);
    let mut sounds = Vec::new();
    for row in table.rows() {
        let sound = row.text("sound").to_owned();
        if sound.is_empty() {
            let said = "names no sound; say what is to be heard";
            found.push(Found::new(Some(row.line), "", said));
        }
        let seconds = row.value("seconds", &mut found, |text| match text {
            "" => Ok(Seconds::ZERO),
            text => text.parse::<Seconds>(),
        });
        sounds.push(WildSound {
            sound,
            place: row.text("place").to_owned(),
            seconds: seconds.unwrap_or(Seconds::ZERO),
            distance: row.text("distance").to_owned(),
            note: row.strange(),
        });
    }
    unless(found, sounds)
}
