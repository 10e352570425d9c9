//! What of the outside world is here.

use onestrand_intake::Ffmpeg;
use serde::Serialize;

/// The answer of `ready`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReadyDocument {
    /// Whether all that is needed is here.
    pub ready: bool,
    /// FFmpeg: its version, or what to do.
    pub ffmpeg: PartDocument,
    /// The letters of sheets and titles, which are built in.
    pub fonts: PartDocument,
}

impl ReadyDocument {
    /// What is missing, each with what to do.
    #[must_use]
    pub fn missing(&self) -> Vec<String> {
        [&self.ffmpeg, &self.fonts]
            .into_iter()
            .filter(|part| !part.here)
            .map(|part| match &part.hint {
                Some(hint) => format!("{}; {hint}", part.words),
                None => part.words.clone(),
            })
            .collect()
    }
}

/// One thing that is needed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PartDocument {
    /// Whether it is here.
    pub here: bool,
    /// Version, or what is missing.
    pub words: String,
    /// What to do when it is not.
    pub hint: Option<String>,
}

/// Looks at what of the outside world is here.
#[must_use]
pub fn ready() -> ReadyDocument {
    let ffmpeg = match Ffmpeg::locate() {
        Ok(found) => PartDocument {
            here: true,
            words: format!("FFmpeg {}", found.version_text()),
            hint: None,
        },
        Err(problem) => PartDocument {
            here: false,
            words: problem.to_string(),
            hint: Some(problem.hint().to_string()),
        },
    };
    ReadyDocument {
        ready: ffmpeg.here,
        ffmpeg,
        fonts: PartDocument {
            here: true,
            words: "Bitter and Barlow Semi Condensed, built in".to_owned(),
            hint: None,
        },
    }
}
