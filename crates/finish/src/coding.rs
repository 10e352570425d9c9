//! How a film file is coded, in FFmpeg's words.

use std::path::Path;

use onestrand_intake::PixelLayout;

use crate::PictureForm;

/// How the pictures are coded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Coding {
    /// FFV1, version 3, every frame a key frame, with checksums (RFC 9043):
    /// the same bits come out.
    Ffv1,
    /// ProRes 422 HQ, every frame a key frame (SMPTE RDD 36): ten bits, colour halved
    /// across.
    ProRes,
    /// H.264 for looking at, in the layout 4:2:0.
    H264 {
        /// Constant rate factor, 0 (lossless) to 51.
        crf: u8,
        /// Frames from key frame to key frame at most.
        group: u32,
        /// How long the coder may think: one of x264's own words, `superfast` to `slow`.
        pace: &'static str,
    },
}

/// What pictures and sound lie in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Container {
    /// Matroska (RFC 9559).
    Matroska,
    /// The movie file that MP4 was made out of.
    Mov,
    /// MP4 (ISO/IEC 14496-14).
    Mp4,
    /// FFmpeg's own open container with exact times; for parts only.
    Nut,
}

impl Container {
    /// The container that the end of a file's name asks for; Matroska where it says
    /// nothing that is known.
    #[must_use]
    pub fn of(path: &Path) -> Self {
        let ends = |word: &str| {
            path.extension()
                .is_some_and(|end| end.eq_ignore_ascii_case(word))
        };
        match () {
            () if ends("mp4") || ends("m4v") => Self::Mp4,
            () if ends("mov") => Self::Mov,
            () => Self::Matroska,
        }
    }

    /// FFmpeg's name of it.
    pub(crate) const fn muxer(self) -> &'static str {
        match self {
            Self::Matroska => "matroska",
            Self::Mov => "mov",
            Self::Mp4 => "mp4",
            Self::Nut => "nut",
        }
    }

    /// FFmpeg's name of how sound is kept in it: as it is, 24 bits, or coded for showing.
    pub(crate) const fn sound(self) -> &'static str {
        match self {
            Self::Mp4 => "-c:a aac -b:a 256k",
            _ => "-c:a pcm_s24le",
        }
    }
}

impl Coding {
    /// For showing: what is small enough to send and looks like the scan.
    pub const SHOWING: Self = Self::H264 {
        crf: 17,
        group: 250,
        pace: "medium",
    };

    /// The coding that a container is usually asked for.
    #[must_use]
    pub const fn usual(container: Container) -> Self {
        match container {
            Container::Mp4 => Self::SHOWING,
            Container::Mov => Self::ProRes,
            Container::Matroska | Container::Nut => Self::Ffv1,
        }
    }

    /// Whether this coding can lie in that container, so that others can read it.
    #[must_use]
    pub const fn lies_in(self, container: Container) -> bool {
        match (self, container) {
            (Self::Ffv1, Container::Matroska) | (Self::H264 { .. }, _) => true,
            (Self::ProRes, at) => !matches!(at, Container::Mp4),
            (Self::Ffv1, _) => false,
        }
    }

    /// Its name for people.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ffv1 => "FFV1",
            Self::ProRes => "ProRes 422 HQ",
            Self::H264 { .. } => "H.264",
        }
    }

    /// Whether the very bits of the pictures come out again.
    #[must_use]
    pub const fn is_exact(self) -> bool {
        matches!(self, Self::Ffv1)
    }

    /// Where parts of a film in this coding lie until they are put together. Matroska
    /// keeps the tags of the colours, which NUT does not; ProRes and H.264 have them in
    /// their own stream, and NUT keeps exact times, where Matroska has thousandths.
    pub(crate) const fn container_of_parts(self) -> Container {
        match self {
            Self::H264 { .. } | Self::ProRes => Container::Nut,
            Self::Ffv1 => Container::Matroska,
        }
    }

    /// FFmpeg's words for the coder.
    #[must_use]
    pub fn words(self) -> String {
        match self {
            Self::Ffv1 => {
                "-c:v ffv1 -level 3 -coder 1 -context 1 -g 1 -slices 4 -slicecrc 1 -threads 2"
                    .into()
            }
            Self::ProRes => "-c:v prores_ks -profile:v 3 -vendor apl0 -threads 2".into(),
            Self::H264 { crf, group, pace } => {
                format!("-c:v libx264 -preset {pace} -crf {crf} -g {group}")
            }
        }
    }

    /// The layout that the coder is fed with, in FFmpeg's words, where it is not the
    /// scan's own.
    #[must_use]
    pub fn layout(self) -> Option<&'static str> {
        match self {
            Self::Ffv1 => None,
            Self::ProRes => Some("yuv422p10le"),
            Self::H264 { .. } => Some("yuv420p"),
        }
    }
}

/// The way of the colours from the pictures as they are fed to those that are coded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct ColourWay {
    /// Words of FFmpeg's filters, without the shape of the pixels.
    pub(crate) filter: Option<String>,
    /// Tags of what is coded: range, matrix, primaries, transfer.
    pub(crate) tags: [Option<String>; 4],
}

impl ColourWay {
    /// `fed` is how the pictures come, `scan` how the scan has them: they differ where
    /// pictures were changed on the way.
    pub(crate) fn of(fed: &PictureForm, scan: &PictureForm, coding: Coding) -> Self {
        let layout = coding.layout().unwrap_or(scan.layout.name());
        let mut tags = scan.colour.clone();
        if fed.layout.name() == layout && is_full(fed) == is_full(scan) {
            return Self { filter: None, tags };
        }
        if is_plain_rgb(scan) && fed == scan {
            // Nothing is said of what colours these are, so nothing is claimed.
            tags[0] = Some("tv".to_owned());
            let filter = Some(format!("format={layout}"));
            return Self { filter, tags };
        }
        let mut to = scan.clone();
        if let Some(layout) = coding.layout().and_then(PixelLayout::from_name) {
            to.layout = layout;
            to.colour[0] = Some("tv".to_owned());
            tags[0] = Some("tv".to_owned());
        }
        Self {
            filter: Some(Self::between(fed, &to)),
            tags,
        }
    }
}

impl ColourWay {
    /// Words of a filter that brings pictures of one form into another's layout.
    pub(crate) fn between(from: &PictureForm, to: &PictureForm) -> String {
        let range = |form| if is_full(form) { "pc" } else { "tv" };
        let mut words = format!(
            "scale=flags=bicubic+accurate_rnd+full_chroma_int:in_range={}:out_range={}",
            range(from),
            range(to)
        );
        // Red, green and blue have no matrix; colour difference without a tag is read
        // by FFmpeg as ITU-R BT.601 has it, so it goes the same way back.
        if is_colour_difference(from) {
            words.push_str(&format!(":in_color_matrix={}", matrix(from)));
        }
        if is_colour_difference(to) {
            words.push_str(&format!(":out_color_matrix={}", matrix(to)));
        }
        format!("{words},format={}", to.layout.name())
    }
}

fn is_colour_difference(form: &PictureForm) -> bool {
    form.layout.name().starts_with("yuv")
}

/// Red, green and blue of which no matrix is said either.
fn is_plain_rgb(form: &PictureForm) -> bool {
    !is_colour_difference(form) && !is_gray(form) && form.colour[1].is_none()
}

fn is_gray(form: &PictureForm) -> bool {
    form.layout.is_gray()
}

/// Whether the numbers run from black to white over their whole range.
pub(crate) fn is_full(form: &PictureForm) -> bool {
    let name = form.layout.name();
    !is_colour_difference(form)
        || name.starts_with("yuvj")
        || form.colour[0].as_deref() == Some("pc")
}

/// The matrix in the words of FFmpeg's scaler.
fn matrix(form: &PictureForm) -> &'static str {
    match form.colour[1].as_deref() {
        Some("bt709") => "bt709",
        Some("fcc") => "fcc",
        Some("smpte240m") => "smpte240m",
        Some("bt2020nc" | "bt2020c") => "bt2020",
        _ => "bt601",
    }
}

/// A colour tag: the encoder's option for it, and the words that FFmpeg reports
/// with those it wants, where the two differ. FFmpeg names some of its own
/// tables in two ways (libavutil's names and libavcodec's options).
struct Tag {
    flag: &'static str,
    known: &'static [&'static str],
    otherwise: &'static [(&'static str, &'static str)],
}

impl Tag {
    /// The encoder's word for a reported one; none where it has none, so that
    /// an odd tag never keeps a film from being finished.
    fn word<'a>(&self, reported: &'a str) -> Option<&'a str> {
        let other = self.otherwise.iter().find(|pair| pair.0 == reported);
        match other {
            Some(pair) => Some(pair.1),
            None => self.known.contains(&reported).then_some(reported),
        }
    }
}

/// FFmpeg's filter that puts the tags on every picture: its coder of ProRes looks there
/// and nowhere else.
pub(crate) fn tags_on_pictures(tags: &[Option<String>; 4]) -> Option<String> {
    let names = ["range", "colorspace", "color_primaries", "color_trc"];
    let one = |((tag, name), value): ((&Tag, &str), &Option<String>)| {
        let word = tag.word(value.as_deref()?)?;
        Some(format!("{name}={word}"))
    };
    let all: Vec<String> = TAGS.iter().zip(names).zip(tags).filter_map(one).collect();
    (!all.is_empty()).then(|| format!("setparams={}", all.join(":")))
}

/// FFmpeg's options for the tags that are known.
pub(crate) fn tag_words(tags: &[Option<String>; 4]) -> Vec<String> {
    let one = |(tag, value): (&Tag, &Option<String>)| {
        let word = tag.word(value.as_deref()?)?;
        Some(format!("-{} {word}", tag.flag))
    };
    TAGS.iter().zip(tags).filter_map(one).collect()
}

const TAGS: [Tag; 4] = [
    Tag {
        flag: "color_range",
        known: &["tv", "pc"],
        otherwise: &[],
    },
    Tag {
        flag: "colorspace",
        known: &[
            "bt709",
            "fcc",
            "bt470bg",
            "smpte170m",
            "smpte240m",
            "bt2020nc",
            "bt2020c",
        ],
        otherwise: &[("gbr", "rgb")],
    },
    Tag {
        flag: "color_primaries",
        known: &[
            "bt709",
            "bt470m",
            "bt470bg",
            "smpte170m",
            "smpte240m",
            "film",
            "bt2020",
            "smpte428",
            "smpte431",
            "smpte432",
        ],
        otherwise: &[],
    },
    Tag {
        flag: "color_trc",
        known: &[
            "bt709",
            "smpte170m",
            "smpte240m",
            "linear",
            "iec61966-2-1",
            "bt2020-10",
            "bt2020-12",
            "smpte2084",
            "smpte428",
            "arib-std-b67",
        ],
        otherwise: &[
            ("bt470m", "gamma22"),
            ("bt470bg", "gamma28"),
            ("log100", "log"),
            ("log316", "log_sqrt"),
        ],
    },
];
