//! How long a title stands.

use onestrand_film::{Fps, Frames, Gauge};
use unicode_segmentation::UnicodeSegmentation as _;

use crate::title_error::{TitleError, within};

/// Words as a reader meets them, by the word boundaries of the Unicode standard (UAX #29):
/// a piece without a letter or a figure, such as a dash, is none.
///
/// ```
/// # use onestrand_title::count_words;
/// assert_eq!(count_words("The ten-past boat — don’t be late"), 7);
/// assert_eq!(count_words(" — "), 0);
/// ```
#[must_use]
pub fn count_words(text: &str) -> usize {
    text.unicode_words().count()
}

/// A reading rule: a title of n words stands max(least, first + n · per word) seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoldRule {
    /// No title stands shorter. Unit: seconds. Range: 0 to 60.
    pub least_s: f64,
    /// For the eye to settle. Unit: seconds. Range: 0 to 60.
    pub first_s: f64,
    /// For each word. Unit: seconds. Range: over 0 to 10.
    pub per_word_s: f64,
}

impl Default for HoldRule {
    /// max(2.5, 1 + 0.5 n) s: one second to settle, then read twice at four words a second.
    /// A figure of the trade that may be changed, not a standard.
    fn default() -> Self {
        Self {
            least_s: 2.5,
            first_s: 1.0,
            per_word_s: 0.5,
        }
    }
}

impl HoldRule {
    /// So many words a minute and nothing else.
    ///
    /// # Errors
    /// [`TitleError::OutOfRange`] outside 20 to 400 words a minute.
    pub fn words_a_minute(rate: f64) -> Result<Self, TitleError> {
        let hint = "readers manage 120 to 180 words a minute";
        let rate = within("words a minute", rate, (20.0, 400.0), hint)?;
        Ok(Self {
            least_s: 0.0,
            first_s: 0.0,
            per_word_s: 60.0 / rate,
        })
    }
}

/// A reading rule that has a name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NamedHoldRule {
    /// The word in commands and files.
    pub code: &'static str,
    /// The words on screens and sheets.
    pub name: &'static str,
    /// The rule.
    pub rule: HoldRule,
    /// Where it is from, and how sure that is.
    pub source: &'static str,
}

const fn rate(words_a_minute: f64) -> HoldRule {
    HoldRule {
        least_s: 0.0,
        first_s: 0.0,
        per_word_s: 60.0 / words_a_minute,
    }
}

/// The rules with a name, our own first.
pub const HOLD_RULES: [NamedHoldRule; 6] = [
    NamedHoldRule {
        code: "own",
        name: "read twice, slowly",
        rule: HoldRule {
            least_s: 2.5,
            first_s: 1.0,
            per_word_s: 0.5,
        },
        source: "our own, after the amateurs' rule to hold a title until it is read twice: \
                 manuals of the period, from memory; change it as you like",
    },
    NamedHoldRule {
        code: "wpm120",
        name: "120 words a minute",
        rule: rate(120.0),
        source: "a slow rate for subtitles, reckoned only; no guidance was read for it",
    },
    NamedHoldRule {
        code: "wpm160",
        name: "160 words a minute",
        rule: rate(160.0),
        source: "subtitles not over 160 to 180 words a minute: the UK regulator's guidance, \
                 as quoted in an article of BBC R&D",
    },
    NamedHoldRule {
        code: "wpm180",
        name: "180 words a minute",
        rule: rate(180.0),
        source: "subtitles not over 160 to 180 words a minute: the UK regulator's guidance, \
                 as quoted in an article of BBC R&D; above 200 hard for many",
    },
    NamedHoldRule {
        code: "silent",
        name: "a second a word",
        rule: HoldRule {
            least_s: 0.0,
            first_s: 0.0,
            per_word_s: 1.0,
        },
        source: "about a second a word for the first words: manuals of the silent years, \
                 from memory",
    },
    NamedHoldRule {
        code: "study",
        name: "150 words a minute, 1.5 s at least",
        rule: HoldRule {
            least_s: 1.5,
            first_s: 0.0,
            per_word_s: 0.4,
        },
        source: "readers at 150 to 180 words a minute, the least 1.5 s: Karamitroglou 1998, \
                 from memory; the slower end is taken",
    },
];

/// How long a title of so many words stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// Its words.
    pub words: usize,
    /// By the rule. Unit: seconds.
    pub seconds: f64,
    /// The same, rounded up to whole frames.
    pub frames: Frames,
    /// Whether the least time of the rule decides.
    pub is_least: bool,
    /// Whether it stands longer than a card should: [`LONG_HOLD_S`].
    pub is_long: bool,
}

/// A card that stands longer had better be two, or a crawl. Unit: seconds. Common
/// practice, from memory; a caution, no wall.
pub const LONG_HOLD_S: f64 = 15.0;

/// A frame more is taken only where more than this is wanting, so that 1/3 s in binary
/// figures does not cost one. Unit: frames.
const HAIR: f64 = 1e-6;

/// How long a title stands, by a rule, at a speed.
///
/// # Errors
/// [`TitleError::NoWords`] without words; [`TitleError::OutOfRange`] for more than 2,000
/// words and a rule outside its ranges.
///
/// ```
/// # use onestrand_film::Fps;
/// # use onestrand_title::{HoldRule, hold};
/// let stands = hold(12, &HoldRule::default(), Fps::EIGHTEEN)?;
/// assert_eq!(stands.frames.count(), 126);
/// assert!(hold(0, &HoldRule::default(), Fps::EIGHTEEN).is_err());
/// # Ok::<(), onestrand_title::TitleError>(())
/// ```
pub fn hold(words: usize, rule: &HoldRule, speed: Fps) -> Result<Hold, TitleError> {
    if words == 0 {
        return Err(TitleError::NoWords);
    }
    let count = u32::try_from(words).map_or(f64::INFINITY, f64::from);
    let hint = "make a crawl of it, or several cards";
    let count = within("the count of words", count, (1.0, 2_000.0), hint)?;
    let hint = "such as 2.5 at least, 1 to settle and 0.5 a word";
    within("the least time in s", rule.least_s, (0.0, 60.0), hint)?;
    within("the time to settle in s", rule.first_s, (0.0, 60.0), hint)?;
    let per_word = within("the time a word in s", rule.per_word_s, (0.001, 10.0), hint)?;
    let read = rule.first_s + per_word * count;
    let seconds = read.max(rule.least_s);
    let exact = seconds * f64::from(speed.num()) / f64::from(speed.den());
    let frames = within(
        "the hold in frames",
        (exact - HAIR).ceil().max(1.0),
        (1.0, 1e8),
        hint,
    )?;
    // In range by the line above.
    let frames = Frames::new(frames as u32).map_err(|_| TitleError::OutOfRange {
        what: "the hold in frames",
        found: frames,
        min: 1.0,
        max: 1e8,
        hint,
    })?;
    Ok(Hold {
        words,
        seconds,
        frames,
        is_least: read < rule.least_s,
        is_long: seconds > LONG_HOLD_S,
    })
}

/// As the counter of a gauge shows it: feet and frames.
#[must_use]
pub fn hold_footage(hold: &Hold, gauge: Gauge) -> String {
    gauge.footage(hold.frames).to_string()
}
