//! What a file says of its picture track, asked once through `ffprobe`.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::path::Path;
use std::time::Duration;

use onestrand_film::Fps;

use crate::process::{Launch, Limits};
use crate::{BrowseSize, Cancel, Ffmpeg, IntakeError};

/// An exact fraction as a file states it; either term may be zero there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Ratio {
    /// The upper term.
    pub num: u64,
    /// The lower term.
    pub den: u64,
}

impl Ratio {
    fn parse(text: &str) -> Option<Self> {
        let (num, den) = text.split_once(['/', ':'])?;
        let ratio = Self {
            num: num.parse().ok()?,
            den: den.parse().ok()?,
        };
        (ratio.num > 0 && ratio.den > 0).then_some(ratio)
    }

    /// The fraction as a film speed, where it lies in the range of one.
    #[must_use]
    pub fn as_fps(self) -> Option<Fps> {
        Fps::new(self.num, self.den).ok()
    }
}

/// The picture track of a source.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StreamFacts {
    /// FFmpeg's number of the track.
    pub stream: u32,
    /// FFmpeg's name of the coding, for example `prores`.
    pub codec: String,
    /// Pixels across, as shown (after the rotation the file asks for).
    pub width: u32,
    /// Pixels down, as shown.
    pub height: u32,
    /// Shape of a pixel as shown, width to height; 1:1 where the file is silent.
    pub pixel_aspect: Ratio,
    /// Degrees by which the file asks to be turned; 0 for nearly all scans.
    pub rotation: i32,
    /// FFmpeg's name of the pixel layout, for example `yuv422p10le`.
    pub pix_fmt: String,
    /// Bits a sample, where the file says so.
    pub bit_depth: Option<u32>,
    /// File frames a second on average; nothing for image sequences.
    pub rate: Option<Ratio>,
    /// The rate to which all frame times fit, as FFmpeg guesses it.
    pub base_rate: Option<Ratio>,
    /// Seconds in one tick of the times in [`crate::FileFrame::pts`].
    pub time_base: Option<Ratio>,
    /// The time at which the track begins, in ticks.
    pub start_pts: Option<i64>,
    /// File frames that the file promises: counted in its table, or worked out
    /// from its length.
    pub frames_promised: Option<u64>,
    /// Whether the coding never refers to other frames.
    pub is_intra: bool,
    /// `tv` for 16–235, `pc` for 0–255, where tagged.
    pub range: Option<String>,
    /// The colour matrix, where tagged.
    pub matrix: Option<String>,
    /// The colour primaries, where tagged.
    pub primaries: Option<String>,
    /// The transfer curve, where tagged.
    pub transfer: Option<String>,
    /// `progressive`, or the field order, where tagged.
    pub field_order: Option<String>,
}

/// Which field of a frame that is woven of two was exposed first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FirstField {
    /// The lines 0, 2, 4, …
    Top,
    /// The lines 1, 3, 5, …
    Bottom,
}

impl StreamFacts {
    /// Size of the browsing pictures made of this track.
    #[must_use]
    pub fn browse_size(&self) -> BrowseSize {
        let size = BrowseSize::fit(self.width, self.height, self.pixel_aspect);
        if self.first_field().is_some() {
            size.woven()
        } else {
            size
        }
    }

    /// Which field comes first, where the file says that its frames are woven of
    /// two; nothing for whole frames, and for files that are to be turned on their
    /// side, whose lines are columns.
    ///
    /// Of FFmpeg's four orders the second letter says what is shown first.
    #[must_use]
    pub fn first_field(&self) -> Option<FirstField> {
        if self.rotation.rem_euclid(180) != 0 {
            return None;
        }
        match self.field_order.as_deref() {
            Some("tt" | "bt") => Some(FirstField::Top),
            Some("bb" | "tb") => Some(FirstField::Bottom),
            _ => None,
        }
    }
}

/// The track chosen, and how many picture tracks there are.
pub(crate) struct Probed {
    pub(crate) facts: StreamFacts,
    pub(crate) picture_tracks: u32,
}

/// The smallest picture that is taken for film, in pixels either way.
pub(crate) const SIDE_LEAST: u32 = 32;
/// The most pixels of a picture: 64 Mi, above an 8K scan of a 4:3 frame.
pub(crate) const PIXELS_MOST: u64 = 64 << 20;

const ENTRIES: &str = "format=nb_streams,duration:stream=index,codec_type,codec_name,width,height,\
sample_aspect_ratio,pix_fmt,bits_per_raw_sample,r_frame_rate,avg_frame_rate,time_base,start_pts,nb_frames,\
duration,color_range,color_space,color_primaries,color_transfer,field_order\
:stream_disposition=attached_pic,default:stream_side_data=rotation";

/// Asks `ffprobe` about `input`, whose guarding arguments are given.
pub(crate) fn probe(
    ffmpeg: &Ffmpeg,
    input: Vec<OsString>,
    path: &Path,
) -> Result<Probed, IntakeError> {
    let mut arguments: Vec<OsString> = [
        "-hide_banner",
        "-loglevel",
        "repeat+level+error",
        "-of",
        "flat=s=.",
        "-show_entries",
        ENTRIES,
    ]
    .iter()
    .map(OsString::from)
    .collect();
    arguments.extend(input);
    let launch = Launch::new(ffmpeg.ffprobe_path(), arguments, Limits::pipes_only());
    let answer = launch.collect(&Cancel::new(), Duration::from_secs(60), 4 << 20)?;
    let text = String::from_utf8_lossy(&answer.output);
    let values = flat_values(&text);
    if !answer.ended.is_success() || values.is_empty() {
        return Err(IntakeError::NotUnderstood {
            said: answer.ended.complaint(),
            path: path.to_owned(),
        });
    }
    choose(&values, path)
}

fn flat_values(text: &str) -> BTreeMap<&str, &str> {
    text.lines()
        .filter_map(|line| line.split_once('='))
        .map(|(key, value)| (key, value.trim_matches('"')))
        .collect()
}

/// FFmpeg's own choice: the largest picture track that is no cover picture.
fn choose(values: &BTreeMap<&str, &str>, path: &Path) -> Result<Probed, IntakeError> {
    let tracks = values
        .get("format.nb_streams")
        .and_then(|v| v.parse().ok())
        .unwrap_or(0);
    if tracks == 0 {
        let said = "no track of any kind in it".to_owned();
        return Err(IntakeError::NotUnderstood {
            said,
            path: path.to_owned(),
        });
    }
    let get = |n: u32, key: &str| {
        values
            .get(format!("streams.stream.{n}.{key}").as_str())
            .copied()
    };
    let number = |n: u32, key: &str| get(n, key).and_then(|v| v.parse::<u32>().ok()).unwrap_or(0);
    let is_film = |n: &u32| {
        get(*n, "codec_type") == Some("video") && get(*n, "disposition.attached_pic") != Some("1")
    };
    let film: Vec<u32> = (0..tracks).filter(is_film).collect();
    let area = |n: u32| u64::from(number(n, "width")) * u64::from(number(n, "height"));
    let best = film
        .iter()
        .copied()
        .max_by_key(|n| (area(*n), std::cmp::Reverse(*n)));
    let Some(best) = best else {
        return Err(IntakeError::NoPictureTrack {
            tracks,
            path: path.to_owned(),
        });
    };
    let facts = facts_of(|key| get(best, key), values.get("format.duration").copied());
    if facts.width == 0 || facts.height == 0 {
        let said = format!("size of the pictures unknown, coding {}", facts.codec);
        return Err(IntakeError::NotUnderstood {
            said,
            path: path.to_owned(),
        });
    }
    check_size(facts.width, facts.height, path)?;
    Ok(Probed {
        facts,
        picture_tracks: u32::try_from(film.len()).unwrap_or(u32::MAX),
    })
}

pub(crate) fn check_size(width: u32, height: u32, path: &Path) -> Result<(), IntakeError> {
    if width < SIDE_LEAST || height < SIDE_LEAST {
        return Err(IntakeError::TooSmall {
            width,
            height,
            least: SIDE_LEAST,
            path: path.to_owned(),
        });
    }
    if u64::from(width) * u64::from(height) > PIXELS_MOST {
        return Err(IntakeError::TooLarge {
            width,
            height,
            most: PIXELS_MOST,
            path: path.to_owned(),
        });
    }
    Ok(())
}

fn facts_of<'a>(
    get: impl Fn(&str) -> Option<&'a str>,
    whole_duration: Option<&str>,
) -> StreamFacts {
    let tag = |key: &str| get(key).filter(|v| *v != "unknown").map(str::to_owned);
    let ratio = |key: &str| get(key).and_then(Ratio::parse);
    let number = |key: &str| get(key).and_then(|v| v.parse::<u32>().ok());
    let rotation = rotation(&get);
    let turned = rotation.rem_euclid(180) == 90;
    let aspect = ratio("sample_aspect_ratio").filter(|a| a.num <= 4 * a.den && a.den <= 4 * a.num);
    let aspect = aspect.unwrap_or(Ratio { num: 1, den: 1 });
    let (w, h) = (number("width").unwrap_or(0), number("height").unwrap_or(0));
    let rate = ratio("avg_frame_rate").or_else(|| ratio("r_frame_rate"));
    let codec = get("codec_name").unwrap_or("unknown").to_owned();
    StreamFacts {
        stream: number("index").unwrap_or(0),
        width: if turned { h } else { w },
        height: if turned { w } else { h },
        pixel_aspect: if turned {
            Ratio {
                num: aspect.den,
                den: aspect.num,
            }
        } else {
            aspect
        },
        rotation,
        pix_fmt: get("pix_fmt").unwrap_or("unknown").to_owned(),
        bit_depth: number("bits_per_raw_sample").filter(|bits| *bits > 0),
        rate,
        base_rate: ratio("r_frame_rate"),
        time_base: ratio("time_base"),
        start_pts: get("start_pts").and_then(|v| v.parse().ok()),
        frames_promised: frames_promised(&get, whole_duration, rate),
        is_intra: is_intra_coding(&codec),
        codec,
        range: tag("color_range"),
        matrix: tag("color_space"),
        primaries: tag("color_primaries"),
        transfer: tag("color_transfer"),
        field_order: tag("field_order"),
    }
}

/// Degrees of turning, which FFmpeg keeps among the side data.
fn rotation<'a>(get: &impl Fn(&str) -> Option<&'a str>) -> i32 {
    (0..4)
        .find_map(|n| {
            get(&format!("side_data_list.side_data.{n}.rotation"))?
                .parse()
                .ok()
        })
        .unwrap_or(0)
}

/// Counted in the file's table, or else its length times its rate.
fn frames_promised<'a>(
    get: &impl Fn(&str) -> Option<&'a str>,
    whole_duration: Option<&str>,
    rate: Option<Ratio>,
) -> Option<u64> {
    let counted = get("nb_frames").and_then(|v| v.parse().ok());
    let seconds = [get("duration"), whole_duration]
        .into_iter()
        .flatten()
        .find_map(|v| v.parse::<f64>().ok());
    let worked_out = rate
        .zip(seconds)
        .map(|(rate, s)| (s * rate.num as f64 / rate.den as f64).round() as u64);
    counted.or(worked_out).filter(|frames| *frames > 0)
}

/// Codings whose every frame stands alone. FFV1 is not among them: it may
/// carry its statistics from frame to frame.
fn is_intra_coding(codec: &str) -> bool {
    let intra = [
        "prores", "mjpeg", "dnxhd", "jpeg2000", "cfhd", "dvvideo", "v210", "v410", "rawvideo",
        "huffyuv", "ffvhuff", "utvideo", "magicyuv", "hap", "png", "dpx", "tiff",
    ];
    intra.contains(&codec)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_track_that_is_no_cover_is_chosen() {
        let text = "format.nb_streams=3\nformat.duration=\"2.0\"\n\
            streams.stream.0.codec_type=\"video\"\nstreams.stream.0.width=3000\nstreams.stream.0.height=3000\n\
            streams.stream.0.disposition.attached_pic=1\n\
            streams.stream.1.codec_type=\"audio\"\n\
            streams.stream.2.index=2\nstreams.stream.2.codec_type=\"video\"\nstreams.stream.2.codec_name=\"prores\"\n\
            streams.stream.2.width=720\nstreams.stream.2.height=480\nstreams.stream.2.avg_frame_rate=\"18/1\"\n\
            streams.stream.2.sample_aspect_ratio=\"8:9\"\nstreams.stream.2.side_data_list.side_data.0.rotation=-90\n\
            streams.stream.2.color_space=\"bt709\"\nstreams.stream.2.color_range=\"unknown\"\n";
        let probed = choose(&flat_values(text), Path::new("x")).unwrap();
        let facts = probed.facts;
        assert_eq!((facts.stream, facts.width, facts.height), (2, 480, 720));
        assert_eq!(facts.pixel_aspect, Ratio { num: 9, den: 8 });
        assert_eq!(facts.frames_promised, Some(36));
        assert_eq!(
            (facts.matrix.as_deref(), facts.range),
            (Some("bt709"), None)
        );
        assert!(facts.is_intra);
        assert_eq!(facts.rate.and_then(Ratio::as_fps), Some(Fps::EIGHTEEN));
        assert_eq!(probed.picture_tracks, 1);
    }

    #[test]
    fn sound_only_and_tiny_are_refused() {
        let sound = "format.nb_streams=1\nstreams.stream.0.codec_type=\"audio\"\n";
        let error = choose(&flat_values(sound), Path::new("x")).err().unwrap();
        assert_eq!(error.code(), "intake.no_picture_track");
        let tiny = "format.nb_streams=1\nstreams.stream.0.codec_type=\"video\"\n\
            streams.stream.0.width=1\nstreams.stream.0.height=1\n";
        let error = choose(&flat_values(tiny), Path::new("x")).err().unwrap();
        assert_eq!(error.code(), "intake.too_small");
    }
}
