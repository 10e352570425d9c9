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
    let same = |lies: &ExposureLine| {
        (lies.background, lies.cel_1, lies.cel_2) == (line.background, line.cel_1, line.cel_2)
    };
    if line.stops.is_none() {
        all.push("run on with the lens capped".to_owned());
    } else if !first.is_some_and(same) {
        all.push(laid(asked, line));
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

/// What lies under the camera from here on.
fn laid(asked: &ExposureAsked, line: &ExposureLine) -> String {
    let other = asked.dissolve.as_ref().map_or("", |to| to.name.as_str());
    let under = match line.background {
        Background::Ground => "ground".to_owned(),
        Background::Card => "lettered card".to_owned(),
        Background::Black => "black".to_owned(),
        Background::Next => format!("the other card: {other}"),
    };
    let on = match line.cel_1 {
        CelIn::None => None,
        CelIn::Blank => Some("blank cel"),
        CelIn::Lettered => Some("lettered cel"),
        CelIn::Second => Some("second cel"),
    };
    let on = on.map(|on| format!(", {on}")).unwrap_or_default();
    let second = asked
        .second_cel
        .as_deref()
        .filter(|_| line.cel_2 != CelIn::None);
    let second = second.map(|name| format!(", {name}")).unwrap_or_default();
    format!("{under}{on}{second}")
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
