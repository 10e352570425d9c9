//! Captions for the finished film out of what its cues say: WebVTT, the W3C's form.

use std::path::Path;

use onestrand_film::Fps;
use onestrand_store::Production;
use serde::Serialize;
use utoipa::ToSchema;

use super::document::dub_document;
use super::mix_kept::{mix_of, speed_of};
use crate::ProductionError;
use crate::documents::{CueDocument, CueStateWord, DubDocument};
use crate::print_sheets::write_whole;

/// Captions of a version.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CaptionsDocument {
    /// The version.
    pub cut: String,
    /// The speed their times are for: frames a second.
    pub speed: String,
    /// How many captions.
    pub captions: usize,
    /// Cues that say something and are not among them, with why.
    pub left_out: Vec<String>,
    /// The file: WebVTT, in UTF-8. Its time 0 is the first picture.
    pub vtt: String,
}

/// A caption: when, and what.
struct Caption {
    from: u64,
    to: u64,
    lines: Vec<String>,
}

/// The captions of a version: what its cues say, at the speed the mix is made for. The
/// first picture is time 0, so that they fit a file that begins there. An empty line in
/// what a cue says begins the next caption; the time of the cue is shared out among them by
/// their letters.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such version, or it cannot be read.
pub fn captions(production: &Production, cut: &str) -> Result<CaptionsDocument, ProductionError> {
    let document = dub_document(production, cut)?;
    let speed = speed_of(production, &mix_of(production)?)?;
    let mut left_out = Vec::new();
    let mut all = Vec::new();
    for cue in &document.cues {
        let said = parts(&cue.cue.speech);
        if said.is_empty() {
            continue;
        }
        match unheard(&document, cue) {
            Some(why) => left_out.push(format!("{}: {why}", name(&document, cue))),
            None => all.extend(of_cue(&document, cue, said, speed)),
        }
    }
    // A player shows them by their times; the form wants them so ordered.
    all.sort_by_key(|caption| (caption.from, caption.to));
    Ok(CaptionsDocument {
        cut: document.cut.clone(),
        speed: document.speed.clone(),
        captions: all.len(),
        left_out,
        vtt: written(&all),
    })
}

/// The captions of a version, written to a file.
///
/// # Errors
/// As [`captions`]; [`ProductionError::File`].
pub fn write_captions(
    production: &Production,
    cut: &str,
    out: &Path,
) -> Result<CaptionsDocument, ProductionError> {
    let found = captions(production, cut)?;
    write_whole(out, found.vtt.as_bytes())?;
    Ok(found)
}

/// Why nobody hears a cue; nothing where it is heard.
fn unheard(document: &DubDocument, cue: &CueDocument) -> Option<&'static str> {
    let silent = |id: i64| {
        let mut columns = document.columns.iter();
        columns.any(|known| known.id == id && known.column.silent)
    };
    if cue.state == CueStateWord::Orphan {
        return Some("it has no place in this version");
    }
    if silent(cue.cue.column) {
        return Some("its column is silenced");
    }
    if end(cue) <= 0 {
        return Some("it is over before the first picture");
    }
    (cue.at >= i64::from(document.frames)).then_some("it begins after the last picture")
}

fn end(cue: &CueDocument) -> i64 {
    cue.at + i64::from(cue.frames.max(1))
}

fn name(document: &DubDocument, cue: &CueDocument) -> String {
    let mut sounds = document.sounds.iter();
    let sound = sounds.find(|known| Some(known.id) == cue.cue.sound);
    match (cue.cue.name.trim(), sound) {
        ("", Some(sound)) => sound.sound.name.clone(),
        ("", None) => format!("cue {}", cue.id),
        (name, _) => name.to_owned(),
    }
}

/// The captions of one cue, clipped to the film.
fn of_cue(
    document: &DubDocument,
    cue: &CueDocument,
    said: Vec<Vec<String>>,
    speed: Fps,
) -> Vec<Caption> {
    let clip = |frame: i64| frame.clamp(0, i64::from(document.frames)).unsigned_abs();
    let letters = |part: &[String]| -> u64 {
        let of = part.iter().map(|line| line.chars().count() as u64);
        of.sum()
    };
    let whole: u64 = said.iter().map(|part| letters(part)).sum();
    let mut read = 0;
    let frames = (clip(cue.at), clip(end(cue)));
    let place = |read: u64| shared(frames, (read, whole.max(1)), speed);
    let one = |lines: Vec<String>| {
        let begins = place(read);
        read += letters(&lines);
        Caption {
            from: begins,
            // The form wants an end behind the beginning.
            to: place(read).max(begins + 1),
            lines,
        }
    };
    said.into_iter().map(one).collect()
}

/// What is said, caption by caption, line by line.
fn parts(speech: &str) -> Vec<Vec<String>> {
    let mut all: Vec<Vec<String>> = vec![Vec::new()];
    for line in speech.lines().map(plain) {
        match (line.is_empty(), all.last_mut()) {
            (false, Some(last)) => last.push(line),
            _ => all.push(Vec::new()),
        }
    }
    all.retain(|part| !part.is_empty());
    all
}

/// A line without what no text file should hold.
fn plain(line: &str) -> String {
    let kept = line.chars().map(|c| if c.is_control() { ' ' } else { c });
    kept.collect::<String>().trim().to_owned()
}

/// When so much of the time between two running frames is over, from the first picture.
/// Rounded once, at the end. Unit: thousandths of a second.
fn shared((from, to): (u64, u64), (part, whole): (u64, u64), speed: Fps) -> u64 {
    let (part, whole) = (u128::from(part), u128::from(whole));
    let frames = u128::from(from) * whole + u128::from(to.saturating_sub(from)) * part;
    let over = frames * u128::from(speed.den()) * 1000;
    let under = u128::from(speed.num()) * whole;
    u64::try_from((over + under / 2) / under).unwrap_or(u64::MAX)
}

/// The file. W3C, WebVTT, sections 4.1 and 4.2: the word WEBVTT, then blocks with an empty
/// line between; `&`, `<` and `>` are written as their names, so that no text can end a
/// block or look like times.
fn written(all: &[Caption]) -> String {
    let mut out = "WEBVTT\n".to_owned();
    for (nth, caption) in all.iter().enumerate() {
        out.push_str(&format!(
            "\n{}\n{} --> {}\n",
            nth + 1,
            stamp(caption.from),
            stamp(caption.to)
        ));
        for line in &caption.lines {
            out.push_str(&escaped(line));
            out.push('\n');
        }
    }
    out
}

fn escaped(line: &str) -> String {
    line.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

/// `00:02:24.415`: hours of two figures or more.
fn stamp(milliseconds: u64) -> String {
    let (seconds, thousandths) = (milliseconds / 1000, milliseconds % 1000);
    let (minutes, hours) = (seconds / 60 % 60, seconds / 3600);
    format!(
        "{hours:02}:{minutes:02}:{:02}.{thousandths:03}",
        seconds % 60
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_those_of_the_speed() {
        // Reckoned by hand: 1734 / 18 = 96.3333… s.
        assert_eq!(shared((1734, 1734), (0, 1), Fps::EIGHTEEN), 96_333);
        let measured: Fps = "18.37".parse().expect("a speed");
        // 1734 / 18.37 = 94.39303… s, reckoned by hand.
        assert_eq!(shared((1734, 1734), (0, 1), measured), 94_393);
        assert_eq!(stamp(94_393), "00:01:34.393");
        assert_eq!(stamp(3_600_000 * 101 + 59_999), "101:00:59.999");
    }

    #[test]
    fn no_word_can_break_the_form() {
        let said = parts("Come & see <this> --> there\u{7}\r\n \nWEBVTT\n\n\n");
        assert_eq!(said.len(), 2);
        let of = |lines: &Vec<String>| Caption {
            from: 0,
            to: 1,
            lines: lines.clone(),
        };
        let text = written(&said.iter().map(of).collect::<Vec<_>>());
        let told = "WEBVTT\n\n1\n00:00:00.000 --> 00:00:00.001\nCome &amp; see &lt;this&gt; --&gt; \
                    there\n\n2\n00:00:00.000 --> 00:00:00.001\nWEBVTT\n";
        assert_eq!(text, told);
        assert!(parts(" \n\t\n").is_empty());
    }
}
