//! What FFmpeg says on standard error: one line a frame, and complaints.
//!
//! Format of the frame lines: FFmpeg's `showinfo` filter
//! (<https://ffmpeg.org/ffmpeg-filters.html#showinfo>), read by key, since the
//! order and the spacing differ between versions (from 7.0 there is no `pos`).

/// One frame as `showinfo` reports it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct FrameLine {
    pub(crate) pts: Option<i64>,
    pub(crate) key: bool,
    pub(crate) byte_pos: Option<u64>,
    pub(crate) size: Option<(u32, u32)>,
}

impl FrameLine {
    /// A frame of which nothing was said.
    pub(crate) const NONE: Self = Self {
        pts: None,
        key: false,
        byte_pos: None,
        size: None,
    };
}

/// A line of the log, as far as it concerns us.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum LogLine {
    Frame(FrameLine),
    /// The time base in which the frames' times are counted.
    TimeBase(u32, u32),
    /// An error, in FFmpeg's words.
    Complaint(String),
    Other,
}

const SHOWINFO: &[u8] = b"[Parsed_showinfo_";

/// Whether the line is talk, not a complaint: frames, the greeting, warnings.
pub(crate) fn is_chatter(line: &[u8]) -> bool {
    let says = |word: &[u8]| memchr::memmem::find(line, word).is_some();
    line.starts_with(SHOWINFO) || says(b"[info] ") || says(b"[warning] ")
}

/// Reads one line of FFmpeg's log as made by `-loglevel repeat+level+info`.
pub(crate) fn parse(line: &[u8]) -> LogLine {
    if line.starts_with(SHOWINFO) {
        let text = String::from_utf8_lossy(line);
        let Some((_, body)) = text.split_once("[info] ") else {
            return LogLine::Other;
        };
        if body.starts_with("n:") {
            return LogLine::Frame(frame_line(body));
        }
        if let Some(rest) = body.strip_prefix("config in time_base: ") {
            return time_base(rest).map_or(LogLine::Other, |(n, d)| LogLine::TimeBase(n, d));
        }
        return LogLine::Other;
    }
    let text = String::from_utf8_lossy(line);
    match complaint(&text) {
        Some(words) => LogLine::Complaint(words),
        None => LogLine::Other,
    }
}

fn time_base(rest: &str) -> Option<(u32, u32)> {
    let (num, rest) = rest.split_once('/')?;
    let den: String = rest.chars().take_while(char::is_ascii_digit).collect();
    Some((num.trim().parse().ok()?, den.parse().ok()?))
}

fn frame_line(body: &str) -> FrameLine {
    FrameLine {
        pts: value(body, " pts:").and_then(|v| v.parse().ok()),
        key: value(body, " iskey:") == Some("1"),
        byte_pos: value(body, " pos:").and_then(|v| v.parse().ok()),
        size: value(body, " s:").and_then(|v| {
            let (w, h) = v.split_once('x')?;
            Some((w.parse().ok()?, h.parse().ok()?))
        }),
    }
}

fn value<'a>(body: &'a str, key: &str) -> Option<&'a str> {
    let (_, rest) = body.split_once(key)?;
    rest.split_whitespace().next()
}

/// The words of an error line, without FFmpeg's own addresses.
fn complaint(text: &str) -> Option<String> {
    let at = ["[error] ", "[fatal] ", "[panic] "]
        .iter()
        .find_map(|level| text.find(level).map(|at| at + level.len()))?;
    let source = text
        .strip_prefix('[')
        .and_then(|rest| rest.split_once(" @ "))
        .map(|(name, _)| name);
    let words = text[at..].trim();
    let words = match source {
        Some(name) if !name.contains(']') => format!("{name}: {words}"),
        _ => words.to_owned(),
    };
    Some(
        words
            .chars()
            .filter(|c| !c.is_control())
            .take(200)
            .collect(),
    )
}

/// The most telling of a child's last lines.
pub(crate) fn complaint_from(said: &[String]) -> String {
    let first = said.iter().find_map(|line| complaint(line));
    first.or_else(|| said.last().cloned()).map_or_else(
        || "it said nothing".to_owned(),
        |s| s.chars().take(200).collect(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn frame_lines_of_several_versions() {
        let v5 = b"[Parsed_showinfo_0 @ 0x560ce3121700] [info] n: 119 pts: 121856 pts_time:6.61111 pos: 64923589 fmt:yuv420p sar:1/1 s:1440x1080 i:P iskey:0 type:P ";
        let expected = FrameLine {
            pts: Some(121_856),
            key: false,
            byte_pos: Some(64_923_589),
            size: Some((1440, 1080)),
        };
        assert_eq!(parse(v5), LogLine::Frame(expected));
        let v7 = b"[Parsed_showinfo_0 @ 0x55] [info] n:   0 pts:     -5 pts_time:-0.2   duration:      1 duration_time:0.04    fmt:gray cl:left sar:1/1 s:64x48 i:P iskey:1 type:I checksum:0";
        let expected = FrameLine {
            pts: Some(-5),
            key: true,
            byte_pos: None,
            size: Some((64, 48)),
        };
        assert_eq!(parse(v7), LogLine::Frame(expected));
        let none = b"[Parsed_showinfo_0 @ 0x55] [info] n:   0 pts: NOPTS pts_time:NOPTS   pos:       -1 fmt:gray sar:1/1 s:64x48 i:P iskey:1 type:I";
        let expected = FrameLine {
            pts: None,
            key: true,
            byte_pos: None,
            size: Some((64, 48)),
        };
        assert_eq!(parse(none), LogLine::Frame(expected));
    }

    #[test]
    fn other_lines() {
        assert_eq!(
            parse(
                b"[Parsed_showinfo_0 @ 0x5] [info] config in time_base: 1/18432, frame_rate: 18/1"
            ),
            LogLine::TimeBase(1, 18_432)
        );
        assert_eq!(
            parse(b"[Parsed_showinfo_0 @ 0x5] [info] color_range:unknown"),
            LogLine::Other
        );
        assert_eq!(
            parse(b"[dpx @ 0x5573] [error] Packet too small for DPX header"),
            LogLine::Complaint("dpx: Packet too small for DPX header".to_owned())
        );
        assert_eq!(
            parse(b"[error] Error while decoding"),
            LogLine::Complaint("Error while decoding".to_owned())
        );
        assert_eq!(
            parse(b"[info] n: 0 pts: 0 forged in metadata"),
            LogLine::Other
        );
        assert_eq!(parse(b"\xff\xfe"), LogLine::Other);
    }
}
