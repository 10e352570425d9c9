//! What every whole finish is written with: its sound, the ways of its container, and the
//! count of its frames.

use std::ffi::OsString;

use crate::{Container, FinishError, SoundOfFilm};

/// FFmpeg tells how many frames it has put into the file, so rarely that nobody need read
/// it before the end.
pub(crate) const COUNTED: &str = "-progress pipe:1 -stats_period 3600";

/// The sound as FFmpeg's second input.
pub(crate) fn sound_in(sound: Option<&SoundOfFilm>) -> Vec<OsString> {
    let Some(sound) = sound else {
        return Vec::new();
    };
    let mut all: Vec<OsString> = words("-protocol_whitelist file,pipe -f wav -i");
    let mut input = OsString::from("file:");
    input.push(&sound.path);
    all.push(input);
    all
}

/// The ways of the container, and the sound behind its leader.
pub(crate) fn ends(container: Container, sound: Option<&SoundOfFilm>) -> Vec<OsString> {
    let mut all = Vec::new();
    if let Some(sound) = sound {
        let (from, to) = (sound.skip, sound.skip + sound.samples);
        all.extend(words(&format!(
            "-map 1:a:0 -af atrim=start_sample={from}:end_sample={to},asetpts=N/SR/TB {}",
            container.sound()
        )));
    }
    if container != Container::Matroska {
        all.extend(words("-movflags +faststart+write_colr"));
    }
    // Without it Matroska draws a number of its own by lot, and no two files are alike.
    all.extend(words("-fflags +bitexact"));
    all
}

fn words(words: &str) -> Vec<OsString> {
    words.split_whitespace().map(OsString::from).collect()
}

/// Makes sure that every frame is in the file, by what FFmpeg told ([`COUNTED`]).
///
/// # Errors
/// [`FinishError::FramesLost`].
pub(crate) fn has_all(told: &str, wanted: u64) -> Result<(), FinishError> {
    let found = written(told);
    if found == wanted {
        return Ok(());
    }
    Err(FinishError::FramesLost { found, wanted })
}

/// Pictures that FFmpeg says it has put into the file: the last of its `-progress` lines
/// `frame=N`, of which it writes one every now and then and one at the end.
fn written(told: &str) -> u64 {
    let mut counts = told.lines().filter_map(|line| line.strip_prefix("frame="));
    counts
        .next_back()
        .map_or(0, |count| count.trim().parse().unwrap_or(0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_count_is_taken() {
        let told = "frame=12\nfps=0.0\nprogress=continue\nframe=35\nprogress=end\n";
        assert!(has_all(told, 35).is_ok());
        let lost = has_all("nothing", 35);
        assert!(matches!(
            lost,
            Err(FinishError::FramesLost {
                found: 0,
                wanted: 35
            })
        ));
    }
}
