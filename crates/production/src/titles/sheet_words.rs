//! The exposure sheet in words: what lies under the camera, what the hand does next, what
//! to look out for.

use onestrand_title::{
    Background, CelIn, CrawlFault, Exposing, ExposureAsked, ExposureLine, SheetWarning,
};

use crate::camera::{figure, signed};
use crate::documents::TitleWarningDocument;

pub(super) const fn background(background: Background) -> &'static str {
    match background {
        Background::Ground => "ground",
        Background::Card => "card",
        Background::Black => "black",
        Background::Next => "next",
    }
}

pub(super) const fn cel(cel: CelIn) -> &'static str {
    match cel {
        CelIn::None => "none",
        CelIn::Blank => "blank",
        CelIn::Lettered => "lettered",
        CelIn::Second => "second",
    }
}

pub(super) const fn exposing(exposing: Exposing) -> &'static str {
    match exposing {
        Exposing::Single => "single",
        Exposing::Running => "running",
    }
}

fn frames(count: u32) -> String {
    match count {
        1 => "1 frame".to_owned(),
        n => format!("{n} frames"),
    }
}

/// What the hand does before a line; empty where it does what it did.
pub(super) fn note(
    asked: &ExposureAsked,
    before: Option<&ExposureLine>,
    line: &ExposureLine,
) -> String {
    let mut all = Vec::new();
    let first = before.filter(|before| before.pass == line.pass);
    if let (None, Some(before)) = (first, before) {
        all.push(format!(
            "cap the lens, wind back {} to frame {}",
            frames(before.to.saturating_sub(line.from)),
            line.from + 1
        ));
    }
    match line.stops {
        None => all.push("run on with the lens capped".to_owned()),
        Some(_) => all.extend(laid(asked, first, line)),
    }
    if line.iris_stops.abs() > 0.005 && !first.is_some_and(|first| first.exposing == line.exposing)
    {
        all.push(format!(
            "single frames: iris {} stop",
            signed(line.iris_stops, 2)
        ));
    }
    if line.exposing == Exposing::Running {
        all.push("run the camera".to_owned());
    }
    all.join("; ")
}

/// What is laid under the camera and taken away; nothing where all stays.
fn laid(
    asked: &ExposureAsked,
    before: Option<&ExposureLine>,
    line: &ExposureLine,
) -> Option<String> {
    let mut all = Vec::new();
    if before.map(|before| before.background) != Some(line.background) {
        all.push(match (line.background, &asked.dissolve) {
            (Background::Ground, _) => "lay the artwork".to_owned(),
            (Background::Card, _) => "lay the lettered card".to_owned(),
            (Background::Black, _) => "lay black".to_owned(),
            (Background::Next, Some(to)) => format!("lay the other card, {}", to.name),
            (Background::Next, None) => "lay the other card".to_owned(),
        });
    }
    let cel_name = |cel: CelIn| match cel {
        CelIn::None => None,
        CelIn::Blank => Some("blank cel".to_owned()),
        CelIn::Lettered => Some("lettered cel".to_owned()),
        CelIn::Second => Some(asked.second_cel.clone().unwrap_or("second cel".to_owned())),
    };
    type OfLine = fn(&ExposureLine) -> CelIn;
    let both: [OfLine; 2] = [|line| line.cel_1, |line| line.cel_2];
    for of in both {
        let was = before.map_or(CelIn::None, of);
        if was != of(line) {
            all.extend(cel_name(was).map(|name| format!("{name} out")));
            all.extend(cel_name(of(line)).map(|name| format!("{name} in")));
        }
    }
    (!all.is_empty()).then(|| all.join(", "))
}

fn warned(what: String, next: &str) -> TitleWarningDocument {
    TitleWarningDocument {
        what,
        next: next.to_owned(),
    }
}

pub(super) fn warning(warning: &SheetWarning) -> TitleWarningDocument {
    match *warning {
        SheetWarning::Darkens { stops } => warned(
            format!(
                "without a blank cel the artwork darkens by {} stop when the lettering drops",
                figure(stops, 2)
            ),
            "keep a blank cel of the same film in from the first frame",
        ),
        SheetWarning::WindsBack { frames: back, most } => warned(
            format!(
                "the film is wound back {}, and the camera does {most} at most",
                frames(back)
            ),
            "shorten what is exposed twice, or letter on a cel and drop it at once",
        ),
        SheetWarning::TimesUnknown => warned(
            "running and single frames follow each other, and their exposure times are not said"
                .to_owned(),
            "say both, such as 1/43 and 1/30 s, or expose all of it singly",
        ),
        SheetWarning::StartsWithin { starts } => warned(
            format!("the camera starts {starts} times within the card"),
            "the first frame of a run is often lighter: expose all of it singly, or cover the start with a frame to spare",
        ),
        _ => warned(
            warning_of_another_version(),
            "look at the sheet line by line",
        ),
    }
}

/// A Super 8 cartridge takes little film back, and few cameras do it.
pub(super) fn cartridge_warning(wound_back: u32) -> Option<TitleWarningDocument> {
    (wound_back > 0).then(|| {
        warned(
            format!(
                "the film is wound back {}, and a Super 8 cartridge takes back about {} at \
                 most, in a camera that can do it at all (from memory)",
                frames(wound_back),
                CARTRIDGE_BACK
            ),
            "letter on a cel and drop it at once, or say how far your camera winds back",
        )
    })
}

/// What a Super 8 cartridge has room for behind its gate, from memory. Unit: frames.
const CARTRIDGE_BACK: u32 = 100;

/// The domain may learn of more; nothing is kept back then.
fn warning_of_another_version() -> String {
    "there is something to look out for".to_owned()
}

pub(super) fn crawl_warning(fault: &CrawlFault, best: f64) -> TitleWarningDocument {
    let mm = |mm: f64| format!("{} mm", figure(mm, 2));
    let what = match *fault {
        CrawlFault::OverStroke { stroke_mm } => format!(
            "the crawl steps further than a stroke is wide ({}): letters show twice",
            mm(stroke_mm)
        ),
        CrawlFault::OverHalfStroke { stroke_mm } => format!(
            "the crawl steps further than half a stroke ({}): edges shimmer",
            mm(stroke_mm / 2.0)
        ),
        CrawlFault::Strobes { most_mm } => format!(
            "the crawl steps further than 1/120 of the picture's width ({}): it strobes",
            mm(most_mm)
        ),
        CrawlFault::TooFast { in_view, wanted } => format!(
            "a line is in view for {}, and reading it takes {wanted}",
            frames(in_view)
        ),
        _ => warning_of_another_version(),
    };
    warned(
        what,
        &format!(
            "take a step of {} or less",
            mm((best * 100.0).floor() / 100.0)
        ),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use onestrand_title::{DissolveTo, ExposureTimes, LettersBy, exposure_sheet};

    fn notes(asked: &ExposureAsked) -> Vec<String> {
        let sheet = exposure_sheet(asked).expect("a sheet");
        let before = std::iter::once(None).chain(sheet.lines.iter().map(Some));
        let pairs = before.zip(&sheet.lines);
        pairs
            .map(|(before, line)| note(asked, before, line))
            .collect()
    }

    #[test]
    fn notes_tell_what_is_laid_and_taken_away() {
        let story = ExposureAsked {
            before: 36,
            after: 18,
            ..ExposureAsked::plain(126)
        };
        assert_eq!(
            notes(&story),
            [
                "lay the artwork, blank cel in",
                "blank cel out, lettered cel in",
                "lettered cel out, blank cel in",
            ]
        );
        let slow = ExposureAsked {
            letters_in: 2,
            ..story.clone()
        };
        let slow = notes(&slow);
        assert_eq!(slow[3], "run on with the lens capped");
        assert_eq!(
            slow[5],
            "cap the lens, wind back 146 frames to frame 35; lay the artwork, lettered cel in"
        );
        let white = ExposureAsked {
            letters_by: LettersBy::SecondExposure,
            ..story
        };
        assert_eq!(
            notes(&white)[1],
            "cap the lens, wind back 144 frames to frame 37; lay black, lettered cel in"
        );
    }

    #[test]
    fn notes_tell_the_iris_of_single_frames_and_the_other_card() {
        let asked = ExposureAsked {
            exposing: Exposing::Running,
            times: Some(ExposureTimes {
                running_s: 0.025,
                single_s: 0.05,
            }),
            dissolve: Some(DissolveTo {
                name: "T2".to_owned(),
                frames: 2,
            }),
            ..ExposureAsked::plain(20)
        };
        let notes = notes(&asked);
        assert_eq!(notes[0], "lay the artwork, lettered cel in; run the camera");
        assert_eq!(notes[1], "single frames: iris −1 stop");
        assert!(notes[3].contains("lay the other card, T2"), "{notes:?}");
    }
}
