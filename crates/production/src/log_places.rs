//! Places on a roll, slates and marks as people write them.

use onestrand_cut::Slate;
use onestrand_film::{Fps, Frames, Gauge, Quantity, Shrinkage};

use crate::log_headings::CountedIn;

/// By what a place is read.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scale {
    pub(crate) gauge: Gauge,
    /// The speed in the camera.
    pub(crate) speed: Fps,
    /// In what a figure without a unit counts.
    pub(crate) counted: CountedIn,
}

/// A place or a length in frames: `37+60`, `37ft60`, `37 ft 60 fr`, `2724`,
/// `2724 fr`, `12,5 s`, `2:31.3`, `37.5 ft`, `15,24 m`.
pub(crate) fn frames(text: &str, scale: Scale) -> Result<u32, String> {
    let plain = text.trim().to_lowercase();
    let bad = || format!("{text:?} is no place such as 547, 37+60, 37ft60 or 12.5 s");
    if plain.is_empty() {
        return Err("nothing stands here".to_owned());
    }
    if plain.contains(':') {
        let clock: Quantity = plain.replace(',', ".").parse().map_err(|_| bad())?;
        return quantity(clock, scale).ok_or_else(bad);
    }
    if plain.contains('+') || has_feet_and_frames(&plain) {
        let joined: String = plain.chars().filter(|c| !c.is_whitespace()).collect();
        let feet = joined.replace("feet", "ft").replace("frames", "fr");
        if feet.contains(['.', ',']) {
            return Err(bad());
        }
        return quantity(feet.parse().map_err(|_| bad())?, scale).ok_or_else(bad);
    }
    let (figure, unit) = split_unit(&plain);
    let counted = match unit {
        "" => scale.counted,
        "ft" | "feet" | "foot" | "'" | "fuß" => CountedIn::Feet,
        "fr" | "frame" | "frames" | "bilder" => CountedIn::Frames,
        "s" | "sec" | "secs" | "seconds" | "sek" => CountedIn::Seconds,
        "m" => {
            let metres = format!("{}m", figure.replace(',', "."));
            return quantity(metres.parse().map_err(|_| bad())?, scale).ok_or_else(bad);
        }
        _ => return Err(bad()),
    };
    match counted {
        CountedIn::Frames => whole(figure).ok_or_else(|| not_whole(text)),
        CountedIn::Feet => {
            let feet = format!("{}ft", figure.replace(',', "."));
            quantity(feet.parse().map_err(|_| bad())?, scale).ok_or_else(bad)
        }
        CountedIn::Seconds => seconds(figure, scale.speed).ok_or_else(bad),
    }
}

fn not_whole(text: &str) -> String {
    if text.contains([',', '.']) {
        format!(
            "{text:?} is no whole frame: put the unit behind the figure or into the heading, such as \
             from (ft) or from (s), and write thousands without a sign between"
        )
    } else {
        format!("{text:?} is no frame such as 547")
    }
}

fn whole(figure: &str) -> Option<u32> {
    let digits = figure.chars().all(|c| c.is_ascii_digit());
    let frames: u32 = figure.parse().ok().filter(|_| digits)?;
    Frames::new(frames).ok().map(Frames::count)
}

/// `37ft60` and `37 ft 60 fr`, but not `37.5 ft`.
fn has_feet_and_frames(plain: &str) -> bool {
    let after = plain
        .split_once("ft")
        .or_else(|| plain.split_once("feet"))
        .map(|(_, after)| after);
    after.is_some_and(|rest| rest.contains(|c: char| c.is_ascii_digit()))
}

fn split_unit(plain: &str) -> (&str, &str) {
    let end = plain
        .rfind(|c: char| c.is_ascii_digit() || c == '.' || c == ',')
        .map_or(0, |at| at + 1);
    (plain[..end].trim(), plain[end..].trim())
}

fn quantity(quantity: Quantity, scale: Scale) -> Option<u32> {
    let frames = quantity.frames(scale.gauge, scale.speed, Shrinkage::NONE);
    frames.ok().map(Frames::count)
}

/// Seconds with a point or a comma, at the speed in the camera, to the nearest.
fn seconds(figure: &str, speed: Fps) -> Option<u32> {
    let plain = figure.replace(',', ".");
    let (whole, part) = plain.split_once('.').unwrap_or((&plain, ""));
    let digits = |text: &str| text.len() <= 9 && text.chars().all(|c| c.is_ascii_digit());
    if whole.is_empty() || !digits(whole) || !digits(part) {
        return None;
    }
    let den = 10_i128.pow(u32::try_from(part.len()).ok()?);
    let num = format!("{whole}{part}").parse::<i128>().ok()?;
    let (over, under) = (num * i128::from(speed.num()), den * i128::from(speed.den()));
    let nearest = (2 * over + under).div_euclid(2 * under);
    let frames = u32::try_from(nearest).ok()?;
    Frames::new(frames).ok().map(Frames::count)
}

/// A slate and take as they are written: `3A` and `2`, or both in one as `3/2`,
/// `3-T2`, `3 take 2`, `3A T2`. Nothing where nobody has named it.
pub(crate) fn slate(setup: &str, take: &str) -> Result<Option<Slate>, String> {
    let (setup, take) = (setup.trim(), take.trim());
    if setup.is_empty() && take.is_empty() {
        return Ok(None);
    }
    let together = both_in_one(setup);
    let (name, number) = match (together, take) {
        (Some((name, number)), "") => (name, number),
        (Some((name, number)), take) if number_of(take) == number_of(&number) => (name, number),
        (Some((_, number)), take) => {
            return Err(format!(
                "{setup:?} says take {number}, and the take says {take}"
            ));
        }
        (None, _) => (setup.to_owned(), take.to_owned()),
    };
    let number =
        number_of(&number).ok_or_else(|| format!("{number:?} is no take number such as 2"))?;
    Slate::new(&name, number)
        .map(Some)
        .map_err(|_| format!("{name:?} is no setup such as 3A"))
}

fn number_of(take: &str) -> Option<u16> {
    let plain = take.trim().to_ascii_lowercase();
    let plain = plain.trim_start_matches("take").trim_start_matches('t');
    plain.trim().trim_start_matches(['.', '#']).parse().ok()
}

/// Setup and take out of one text, where it holds both.
fn both_in_one(text: &str) -> Option<(String, String)> {
    let lower = text.to_ascii_lowercase();
    for between in ["/", " take ", "-take ", "-t", " t", "_t", "-"] {
        if let Some(at) = lower.rfind(between) {
            let (name, number) = (text[..at].trim(), &text[at + between.len()..]);
            if !name.is_empty() && number_of(number).is_some() {
                return Some((name.to_owned(), number.trim().to_owned()));
            }
        }
    }
    None
}

/// What is to become of a take; `yes`, `maybe` and `no` are the log's words, the
/// others those of the day.
pub(crate) fn rating(text: &str) -> Result<&'static str, String> {
    match text.trim().to_lowercase().as_str() {
        "" | "none" | "-" => Ok("none"),
        "yes" | "y" | "circled" | "ok" | "good" | "x" | "ja" | "gut" => Ok("circled"),
        "maybe" | "hold" | "vielleicht" | "reserve" => Ok("hold"),
        "no" | "n" | "ng" | "n.g." | "nein" => Ok("ng"),
        other => Err(format!(
            "{other:?}: yes (circled), maybe (hold) or no (NG) is meant?"
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str, counted: CountedIn) -> Result<u32, String> {
        frames(
            text,
            Scale {
                gauge: Gauge::Super8,
                speed: Fps::EIGHTEEN,
                counted,
            },
        )
    }

    #[test]
    fn places_are_read_as_they_are_written_here_and_there() {
        for (text, found) in [
            ("547", 547),
            ("547 fr", 547),
            ("547 frames", 547),
            ("37+60", 2724),
            ("37 + 60", 2724),
            ("37ft60", 2724),
            ("37 ft 60 fr", 2724),
            ("37 feet 60 frames", 2724),
            ("37.5 ft", 2700),
            ("37,5ft", 2700),
            ("12 ft", 864),
            ("12,5 s", 225),
            ("12.5s", 225),
            ("2:31.3", 2723),
            ("2:31,3", 2723),
            ("15,24 m", 3600),
        ] {
            assert_eq!(at(text, CountedIn::Frames), Ok(found), "{text}");
        }
        assert_eq!(at("37,5", CountedIn::Feet), Ok(2700));
        assert_eq!(at("12,5", CountedIn::Seconds), Ok(225));
        assert_eq!(at("12", CountedIn::Feet), Ok(864));
        for text in [
            "",
            "2,724",
            "2.724",
            "12.5",
            "1.5+3",
            "three",
            "-4",
            "12 km",
            "4294967296",
            "1e3",
            "ft",
            "37ft6x",
            ",s",
            "9999999999999999999 s",
        ] {
            assert!(at(text, CountedIn::Frames).is_err(), "{text}");
        }
    }

    #[test]
    fn slates_are_read_in_one_or_in_two() {
        let said = |setup: &str, take: &str| slate(setup, take).map(|s| s.map(|s| s.to_string()));
        for (setup, take, found) in [
            ("3A", "2", "3A-T2"),
            ("3A", "T2", "3A-T2"),
            ("3A", "take 2", "3A-T2"),
            ("3/2", "", "3-T2"),
            ("3A/2", "2", "3A-T2"),
            ("3-T2", "", "3-T2"),
            ("3 take 2", "", "3-T2"),
            ("3A T2", "", "3A-T2"),
            ("3A-2", "", "3A-T2"),
            ("3A Take 12", "", "3A-T12"),
        ] {
            assert_eq!(
                said(setup, take),
                Ok(Some(found.to_owned())),
                "{setup} {take}"
            );
        }
        assert_eq!(said("", ""), Ok(None));
        for (setup, take) in [
            ("3A", ""),
            ("", "2"),
            ("3/2", "1"),
            ("3/x", ""),
            ("3 ✂", "2"),
            ("3A", "0"),
        ] {
            assert!(said(setup, take).is_err(), "{setup} {take}");
        }
    }
}
