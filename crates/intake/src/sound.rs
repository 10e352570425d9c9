//! Reading sounds: any file on a list of kinds, decoded once to 32-bit floating point at its
//! own rate, by FFmpeg under the same guard as films.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fs::File;
use std::io::Read;
use std::path::Path;
use std::time::Duration;

use crate::container::{Sniffed, sniff};
use crate::guard::sound_input;
use crate::process::{Launch, Limits, Running};
use crate::{Cancel, Ffmpeg, IntakeError};

/// What a file says of its sound.
#[derive(Debug, Clone, PartialEq)]
pub struct SoundFacts {
    /// Samples a second.
    pub rate: u32,
    /// Channels in the file.
    pub channels_found: u32,
    /// Channels as they are handed on: 1 or 2. More than two are folded to two by FFmpeg:
    /// centre and surrounds 3 dB down to both sides, the whole made to fit.
    pub channels: u32,
    /// The coding, as FFmpeg calls it, with the kind of its samples.
    pub coding: String,
    /// How long the file says it is. Unit: seconds.
    pub promised_s: Option<f64>,
}

/// How reading went.
#[derive(Debug, Clone, PartialEq)]
pub struct SoundRead {
    /// What the file says.
    pub facts: SoundFacts,
    /// What came. Unit: samples of each channel.
    pub samples: u64,
    /// What FFmpeg complained of.
    pub complaint: Option<String>,
}

impl SoundRead {
    /// How much less came than the file says it has. Unit: seconds; nothing where it is
    /// whole, to a tenth of a second.
    #[must_use]
    pub fn missing_s(&self) -> Option<f64> {
        let came = self.samples as f64 / f64::from(self.facts.rate.max(1));
        let missing = self.facts.promised_s? - came;
        (missing > 0.1).then_some(missing)
    }
}

/// Where the samples of a sound go.
pub trait SoundSink {
    /// What the sound is, before its first sample.
    ///
    /// # Errors
    /// Whatever stops the reading.
    fn begin(&mut self, facts: &SoundFacts) -> Result<(), IntakeError>;

    /// The next samples, channels side by side.
    ///
    /// # Errors
    /// Whatever stops the reading.
    fn take(&mut self, samples: &[f32]) -> Result<(), IntakeError>;
}

/// Kinds of sound files that are no films, by their first bytes: RIFF and RF64 (EBU Tech
/// 3306), FLAC, AIFF, CAF, AU, and the frame marks of MP3 and AAC.
fn sound_kind(head: &[u8]) -> Option<&'static str> {
    let at = |from: usize, mark: &[u8]| head.get(from..from + mark.len()) == Some(mark);
    if (at(0, b"RIFF") || at(0, b"RF64") || at(0, b"BW64")) && at(8, b"WAVE") {
        return Some("wav");
    }
    if at(0, b"FORM") && (at(8, b"AIFF") || at(8, b"AIFC")) {
        return Some("aiff");
    }
    let marks: [(&[u8], &str); 5] = [
        (b"fLaC", "flac"),
        (b"caff", "caf"),
        (b".snd", "au"),
        (b"ID3", "mp3"),
        (b"OggS", "ogg"),
    ];
    if let Some((_, kind)) = marks.iter().find(|(mark, _)| at(0, mark)) {
        return Some(kind);
    }
    match head {
        // Layer bits 00 are AAC in ADTS, all others MPEG audio.
        [0xff, second, ..] if second & 0xf6 == 0xf0 => Some("aac"),
        [0xff, second, ..] if second & 0xe0 == 0xe0 && second & 0x06 != 0 => Some("mp3"),
        _ => None,
    }
}

/// The reader that is forced for a file.
fn demuxer(path: &Path) -> Result<&'static str, IntakeError> {
    let failed =
        |source| IntakeError::from_io("looking at the first bytes", path.to_owned(), source);
    let meta = std::fs::metadata(path).map_err(failed)?;
    if !meta.is_file() {
        let path = path.to_owned();
        return Err(IntakeError::NotAFile { path });
    }
    let mut head = Vec::new();
    let file = File::open(path).map_err(failed)?;
    file.take(16).read_to_end(&mut head).map_err(failed)?;
    if let Some(kind) = sound_kind(&head) {
        return Ok(kind);
    }
    // The sound of a film: what the sniffing of films refuses, it says why.
    match sniff(path)? {
        Sniffed::Film(container) => Ok(container.demuxer()),
        Sniffed::Picture(_) => Err(IntakeError::NoSoundTrack {
            path: path.to_owned(),
        }),
    }
}

const ENTRIES: &str = "format=nb_streams,duration:stream=index,codec_type,codec_name,sample_rate,\
channels,sample_fmt,bits_per_raw_sample,duration";

fn probe(ffmpeg: &Ffmpeg, input: Vec<OsString>, path: &Path) -> Result<SoundFacts, IntakeError> {
    let words = [
        "-hide_banner",
        "-loglevel",
        "error",
        "-of",
        "flat=s=.",
        "-show_entries",
        ENTRIES,
    ];
    let mut arguments: Vec<OsString> = words.iter().map(OsString::from).collect();
    arguments.extend(input);
    let launch = Launch::new(ffmpeg.ffprobe_path(), arguments, Limits::pipes_only());
    let answer = launch.collect(&Cancel::new(), Duration::from_secs(60), 4 << 20)?;
    let text = String::from_utf8_lossy(&answer.output);
    let values: BTreeMap<&str, &str> = text
        .lines()
        .filter_map(|line| line.split_once('='))
        .map(|(key, value)| (key, value.trim_matches('"')))
        .collect();
    if !answer.ended.is_success() || values.is_empty() {
        return Err(IntakeError::NotUnderstood {
            said: answer.ended.complaint(),
            path: path.to_owned(),
        });
    }
    let get = |n: usize, key: &str| {
        values
            .get(format!("streams.stream.{n}.{key}").as_str())
            .copied()
    };
    let none = || IntakeError::NoSoundTrack {
        path: path.to_owned(),
    };
    let track = (0..64).find(|n| get(*n, "codec_type") == Some("audio"));
    let track = track.ok_or_else(none)?;
    let number = |key: &str| get(track, key).and_then(|v| v.parse::<u32>().ok());
    let (rate, channels_found) = (number("sample_rate"), number("channels"));
    let (Some(rate), Some(channels_found)) = (rate, channels_found) else {
        return Err(none());
    };
    if !(1000..=768_000).contains(&rate) || channels_found == 0 {
        return Err(none());
    }
    let seconds = |v: &str| v.parse::<f64>().ok().filter(|s| s.is_finite() && *s > 0.0);
    let own = get(track, "duration").and_then(seconds);
    let whole = values.get("format.duration").copied().and_then(seconds);
    let samples = get(track, "sample_fmt").unwrap_or("");
    Ok(SoundFacts {
        rate,
        channels_found,
        channels: channels_found.min(2),
        coding: format!(
            "{} ({samples})",
            get(track, "codec_name").unwrap_or("not known")
        ),
        promised_s: own.or(whole),
    })
}

/// Reads a sound from its beginning to its end: `sink` is told what it is and given
/// the samples. What breaks off is handed on as far as it goes.
///
/// # Errors
/// [`IntakeError`] for what is no sound or cannot be read; [`IntakeError::Cancelled`].
pub fn read_sound(
    ffmpeg: &Ffmpeg,
    path: &Path,
    cancel: &Cancel,
    sink: &mut dyn SoundSink,
) -> Result<SoundRead, IntakeError> {
    let path = std::path::absolute(path)
        .map_err(|source| IntakeError::from_io("looking for it", path.to_owned(), source))?;
    let kind = demuxer(&path)?;
    let facts = probe(ffmpeg, sound_input(&path, kind), &path)?;
    sink.begin(&facts)?;
    let mut arguments: Vec<OsString> = [
        "-hide_banner",
        "-nostdin",
        "-loglevel",
        "repeat+level+error",
    ]
    .iter()
    .map(OsString::from)
    .collect();
    let mut input = sound_input(&path, kind);
    input.insert(input.len() - 1, OsString::from("-i"));
    arguments.extend(input);
    let channels = facts.channels.to_string();
    let out = [
        "-map",
        "0:a:0",
        "-vn",
        "-sn",
        "-dn",
        "-ac",
        &channels,
        "-c:a",
        "pcm_f32le",
        "-f",
        "f32le",
        "pipe:1",
    ];
    arguments.extend(out.iter().map(OsString::from));
    let launch = Launch::new(ffmpeg.ffmpeg_path(), arguments, Limits::pipes_only());
    let mut running = launch.start()?;
    let count = decoded(&mut running, &facts, &path, cancel, sink)?;
    let ended = running.wait()?;
    if count == 0 {
        return Err(IntakeError::NotUnderstood {
            said: ended.complaint(),
            path,
        });
    }
    let complaint =
        Some(ended.complaint()).filter(|said| !said.is_empty() && !ended.said.is_empty());
    Ok(SoundRead {
        facts,
        samples: count,
        complaint,
    })
}

/// Hands on what FFmpeg writes, to its end; how many samples of each channel came.
fn decoded(
    running: &mut Running,
    facts: &SoundFacts,
    path: &Path,
    cancel: &Cancel,
    sink: &mut dyn SoundSink,
) -> Result<u64, IntakeError> {
    let mut stdout = running
        .take_stdout()
        .expect("standard output was piped at the start");
    let frame = 4 * facts.channels as usize;
    let (mut bytes, mut kept) = (vec![0_u8; 1 << 18], 0);
    let mut samples: Vec<f32> = Vec::new();
    let mut count = 0_u64;
    loop {
        if cancel.is_cancelled() {
            running.kill();
            return Err(IntakeError::Cancelled { frames: 0 });
        }
        let read = match stdout.read(&mut bytes[kept..]) {
            Ok(read) => read,
            Err(error) if error.kind() == std::io::ErrorKind::Interrupted => continue,
            Err(source) => {
                return Err(IntakeError::from_io(
                    "reading the sound",
                    path.to_owned(),
                    source,
                ));
            }
        };
        let there = kept + read;
        let whole = there / frame * frame;
        samples.clear();
        let (words, _) = bytes[..whole].as_chunks::<4>();
        samples.extend(words.iter().map(|word| f32::from_le_bytes(*word)));
        sink.take(&samples)?;
        count += (whole / frame) as u64;
        bytes.copy_within(whole..there, 0);
        kept = there - whole;
        if read == 0 {
            break;
        }
    }
    Ok(count)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_of_sound_by_their_first_bytes() {
        for (head, kind) in [
            (&b"RIFF....WAVEfmt "[..], Some("wav")),
            (b"RF64....WAVEds64", Some("wav")),
            (b"FORM....AIFFCOMM", Some("aiff")),
            (b"fLaC\0\0", Some("flac")),
            (b"OggS", Some("ogg")),
            (b"ID3\x04", Some("mp3")),
            (b"\xff\xfb\x90\0", Some("mp3")),
            (b"\xff\xf1\x50\x80", Some("aac")),
            (b"RIFF....AVI LIST", None),
            (b"#EXTM3U", None),
            (b"", None),
        ] {
            assert_eq!(sound_kind(head), kind, "{head:?}");
        }
    }
}
