//! How long a title stands, told with its sum.

use onestrand_film::{Fps, Gauge};
use onestrand_title::{self as title, HOLD_RULES, HoldRule};
use serde::Deserialize;
use utoipa::IntoParams;

use crate::ProductionError;
use crate::camera::{figure, plate};
use crate::documents::{CameraOpenedDocument, CameraSumDocument, TitleHoldDocument};
use crate::error::unfit;
use crate::throw::round;

/// Words and a rule, to know how long they stand.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct TitleHoldRequest {
    /// How many words; or say the text.
    pub words: Option<usize>,
    /// The text itself, whose words are counted.
    pub text: Option<String>,
    /// Frames a second; `18` when not said.
    pub speed: Option<String>,
    /// A rule by its word: `own`, `wpm120`, `wpm160`, `wpm180`, `silent`, `study`.
    pub rule: Option<String>,
    /// The least a title stands, instead of the rule's. Unit: seconds.
    pub least: Option<f64>,
    /// For the eye to settle, instead of the rule's. Unit: seconds.
    pub first: Option<f64>,
    /// For each word, instead of the rule's. Unit: seconds.
    pub per_word: Option<f64>,
    /// The gauge, for feet and frames.
    pub gauge: Option<String>,
}

/// How long a title stands.
///
/// # Errors
/// [`ProductionError::Title`] without words, [`ProductionError::Unit`] for a speed that
/// cannot be, [`ProductionError::Unfit`] for a rule that is not there.
pub fn title_hold(request: &TitleHoldRequest) -> Result<TitleHoldDocument, ProductionError> {
    let speed: Fps = request.speed.as_deref().unwrap_or("18").parse()?;
    let counted = request.text.as_deref().map(title::count_words);
    let words = request.words.or(counted).unwrap_or_default();
    let code = request.rule.as_deref().map_or("own", str::trim);
    let named = HOLD_RULES.iter().find(|named| named.code == code);
    let named = named.ok_or_else(|| {
        let codes: Vec<&str> = HOLD_RULES.iter().map(|named| named.code).collect();
        unfit(
            format!("there is no reading rule {code:?}"),
            &format!("say one of {}", codes.join(", ")),
        )
    })?;
    let rule = HoldRule {
        least_s: request.least.unwrap_or(named.rule.least_s),
        first_s: request.first.unwrap_or(named.rule.first_s),
        per_word_s: request.per_word.unwrap_or(named.rule.per_word_s),
    };
    let found = title::hold(words, &rule, speed)?;
    let gauge: Option<Gauge> = request.gauge.as_deref().map(str::parse).transpose()?;
    let footage = gauge.map(|gauge| title::hold_footage(&found, gauge));
    let source = match rule == named.rule {
        true => named.source,
        false => "a rule of your own",
    };
    let opened = opened(&found, &rule, speed, source, footage.as_deref());
    Ok(TitleHoldDocument {
        words,
        speed: speed.to_string(),
        seconds: round(found.seconds, 4),
        frames: found.frames.count(),
        footage,
        rule_s: [rule.least_s, rule.first_s, rule.per_word_s].map(|s| round(s, 4)),
        is_long: found.is_long,
        opened,
    })
}

fn opened(
    found: &title::Hold,
    rule: &HoldRule,
    speed: Fps,
    source: &str,
    footage: Option<&str>,
) -> CameraOpenedDocument {
    let (words, frames) = (found.words, found.frames.count());
    let seconds = figure(found.seconds, 2);
    let counts = match words {
        1 => "1 word".to_owned(),
        n => format!("{n} words"),
    };
    let footage = footage.map(|text| format!(", {text}")).unwrap_or_default();
    let mut taken = vec!["words are counted as a reader meets them: a dash is none".to_owned()];
    if found.is_long {
        taken.push(format!(
            "longer than {} s (common practice, from memory): make it two cards, or a crawl",
            title::LONG_HOLD_S
        ));
    }
    CameraOpenedDocument {
        plates: vec![
            plate("hold", frames.to_string(), "frames"),
            plate("hold", seconds.clone(), "seconds"),
            plate("words", words.to_string(), "to read"),
        ],
        sums: vec![
            CameraSumDocument {
                what: "seconds".to_owned(),
                formula: "the longer of the least and to settle + words × a word".to_owned(),
                figures: format!(
                    "the longer of {} and {} + {words} × {}",
                    figure(rule.least_s, 2),
                    figure(rule.first_s, 2),
                    figure(rule.per_word_s, 3)
                ),
                comes: format!("{seconds} s"),
                source: source.to_owned(),
            },
            CameraSumDocument {
                what: "frames".to_owned(),
                formula: "seconds × speed, up to a whole frame".to_owned(),
                figures: format!("{seconds} × {speed}"),
                comes: format!("{frames} frames"),
                source: "frames are whole".to_owned(),
            },
        ],
        taken,
        text: format!("{counts}: {seconds} s, {frames} frames at {speed} f/s{footage}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_a_count_and_a_rule_are_read() {
        let asked = |text: &str| TitleHoldRequest {
            text: Some(text.to_owned()),
            ..TitleHoldRequest::default()
        };
        let found = title_hold(&asked("The Ten-Past Boat")).expect("a hold");
        assert_eq!((found.words, found.frames), (4, 54));
        let rated = TitleHoldRequest {
            words: Some(10),
            rule: Some("wpm160".to_owned()),
            gauge: Some("super8".to_owned()),
            ..TitleHoldRequest::default()
        };
        let found = title_hold(&rated).expect("a hold");
        assert_eq!(
            (found.frames, found.footage.as_deref()),
            (68, Some("0ft68"))
        );
        assert_eq!(
            title_hold(&asked("—")).expect_err("none").code(),
            "title.no_words"
        );
        let odd = TitleHoldRequest {
            rule: Some("quick".to_owned()),
            ..asked("The end")
        };
        assert!(
            title_hold(&odd)
                .expect_err("no rule")
                .hint()
                .contains("wpm120")
        );
    }
}
