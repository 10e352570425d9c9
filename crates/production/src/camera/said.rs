//! What is said to a calculator, read as it is typed.

use onestrand_film::UnitError;

use crate::ProductionError;

fn unreadable(what: &'static str, found: &str, example: &'static str) -> ProductionError {
    ProductionError::Unit(UnitError::Unreadable {
        what,
        found: found.to_owned(),
        example,
    })
}

/// A number with a point or a comma; the long minus of print counts too.
pub(super) fn number(text: &str) -> Option<f64> {
    let plain = text.trim().replace(',', ".").replace('−', "-");
    let plain = plain.strip_prefix('+').unwrap_or(&plain);
    // What Rust reads beside figures ("inf", "nan", "1e9") nobody means.
    let is_plain = plain
        .bytes()
        .all(|b| b.is_ascii_digit() || b == b'.' || b == b'-');
    if is_plain { plain.parse().ok() } else { None }
}

/// Unit: millimetres. `3m`, `65cm`, `250mm`, `6ft`, `8in`; a bare number is metres.
pub(crate) fn length_mm(text: &str) -> Result<f64, ProductionError> {
    const UNITS: [(&str, f64); 6] = [
        ("mm", 1.0),
        ("cm", 10.0),
        ("ft", 304.8),
        ("in", 25.4),
        ("m", 1000.0),
        ("", 1000.0),
    ];
    let plain = text.trim();
    let found = UNITS
        .iter()
        .find_map(|(unit, mm)| Some(number(plain.strip_suffix(unit)?)? * mm));
    found.ok_or_else(|| unreadable("a length", text, "3m, 65cm or 6ft"))
}

/// What may be left out or left empty.
pub(super) fn maybe<T>(
    text: Option<&str>,
    read: impl FnOnce(&str) -> Result<T, ProductionError>,
) -> Result<Option<T>, ProductionError> {
    let said = text.map(str::trim).filter(|text| !text.is_empty());
    said.map(read).transpose()
}

/// Unit: degrees. `52.5`, `-33.9`, `33.9S`, `71°30'W`.
pub(super) fn place(text: &str) -> Result<f64, ProductionError> {
    let bad = || unreadable("a latitude or longitude", text, "52.5, -33.9 or 33°52'S");
    let plain = text.trim().to_ascii_uppercase();
    let sided = plain.strip_suffix(['N', 'E', 'S', 'W']);
    let is_back = plain.ends_with(['S', 'W']);
    let figures = sided.unwrap_or(&plain);
    let parts: Vec<&str> = figures
        .split(['°', '\'', '′', '"', '″', ' '])
        .filter(|part| !part.is_empty())
        .collect();
    if parts.is_empty() || parts.len() > 3 {
        return Err(bad());
    }
    let numbers: Vec<f64> = parts
        .iter()
        .map(|part| number(part))
        .collect::<Option<_>>()
        .ok_or_else(bad)?;
    let small = &numbers[1..];
    // A sign and a side at once, or more than 59 minutes, are slips.
    if (sided.is_some() && numbers[0] < 0.0) || small.iter().any(|n| !(0.0..60.0).contains(n)) {
        return Err(bad());
    }
    let sixtieths = small.iter().zip([60.0, 3600.0]).map(|(n, by)| n / by);
    let size = numbers[0].abs() + sixtieths.sum::<f64>();
    let is_minus = is_back || figures.trim_start().starts_with(['-', '−']);
    Ok(if is_minus { -size } else { size })
}

/// `2026-06-21`.
pub(super) fn date(text: &str) -> Result<(i32, u32, u32), ProductionError> {
    let bad = || unreadable("a day", text, "2026-06-21");
    let mut parts = text.trim().splitn(3, '-');
    let mut next = || -> Option<u32> {
        let part = parts.next()?;
        part.bytes()
            .all(|b| b.is_ascii_digit())
            .then(|| part.parse().ok())?
    };
    let read = || -> Option<(i32, u32, u32)> {
        let (year, month, day) = (next()?, next()?, next()?);
        Some((i32::try_from(year).ok()?, month, day))
    };
    let mut read = read;
    read().ok_or_else(bad)
}

/// Minutes since midnight, of `14:30` or `9`.
pub(super) fn hour(text: &str) -> Result<f64, ProductionError> {
    let bad = || unreadable("an hour", text, "14:30");
    let (hours, minutes) = text.trim().split_once(':').unwrap_or((text.trim(), "0"));
    let whole = |part: &str| part.parse::<u32>().ok().map(f64::from);
    let (hours, minutes) = whole(hours).zip(whole(minutes)).ok_or_else(bad)?;
    if hours > 24.0 || minutes > 59.0 {
        return Err(bad());
    }
    Ok(hours * 60.0 + minutes)
}

/// Minutes before Greenwich, of `+1`, `-3` or `+5:30`.
pub(super) fn clock_lead(text: &str) -> Result<f64, ProductionError> {
    let bad = || {
        unreadable(
            "how far a clock is before Greenwich",
            text,
            "+1, -3 or +5:30",
        )
    };
    let plain = text.trim().replace('−', "-");
    let (sign, plain) = match plain.strip_prefix('-') {
        Some(rest) => (-1.0, rest),
        None => (1.0, plain.strip_prefix('+').unwrap_or(&plain)),
    };
    let minutes = match number(plain) {
        Some(hours) if !plain.contains(':') => hours * 60.0,
        _ => hour(plain).map_err(|_| bad())?,
    };
    Ok(sign * minutes)
}

/// Seconds, of `1/50` or `0.02`.
pub(super) fn seconds(text: &str) -> Result<f64, ProductionError> {
    let bad = || unreadable("an exposure time", text, "1/50 or 0.5");
    let found = match text.trim().trim_end_matches('s').trim().split_once('/') {
        Some((over, under)) => number(over).zip(number(under)).map(|(a, b)| a / b),
        None => number(text.trim().trim_end_matches('s')),
    };
    found.ok_or_else(bad)
}

/// Numbers with semicolons, spaces or commas between: `1 2`, `-1; -0.5; 0`. A comma with
/// nothing behind it but a figure is read as between two numbers, not as a point.
pub(crate) fn numbers(text: &str, example: &'static str) -> Result<Vec<f64>, ProductionError> {
    let bad = || unreadable("a row of numbers", text, example);
    let parts = text
        .split([';', ' ', ',', '+'])
        .map(str::trim)
        .filter(|part| !part.is_empty());
    let all: Option<Vec<f64>> = parts.map(number).collect();
    all.filter(|all| !all.is_empty()).ok_or_else(bad)
}

/// A size as the slate has it: `medium close`, `medium-close`, `mcu`.
pub(super) fn size(text: &str) -> Result<onestrand_plan::camera::FramedSize, ProductionError> {
    use onestrand_plan::camera::FramedSize;
    let plain = text.trim().to_ascii_lowercase().replace(['-', '_'], " ");
    let short = |size: FramedSize| match size {
        FramedSize::Long => "ls",
        FramedSize::Full => "fs",
        FramedSize::Medium => "ms",
        FramedSize::MediumClose => "mcu",
        FramedSize::Close => "cu",
        FramedSize::ExtremeClose => "ecu",
    };
    FramedSize::ALL
        .into_iter()
        .find(|size| size.word() == plain || short(*size) == plain)
        .ok_or_else(|| {
            unreadable(
                "a size",
                text,
                "long, full, medium, medium close, close or extreme close",
            )
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_typed_is_read() {
        let near = |found: Result<f64, ProductionError>, value: f64| {
            let found = found.expect("read");
            assert!((found - value).abs() < 1e-9, "{found} for {value}");
        };
        near(length_mm("3m"), 3_000.0);
        near(length_mm("2,5"), 2_500.0);
        near(length_mm("6 ft"), 1_828.8);
        near(length_mm("10in"), 254.0);
        near(place("52.5"), 52.5);
        near(place("33°52'S"), -(33.0 + 52.0 / 60.0));
        near(place("-0°30'"), -0.5);
        near(place("151.21e"), 151.21);
        near(hour("14:30"), 870.0);
        near(hour("9"), 540.0);
        near(clock_lead("+5:30"), 330.0);
        near(clock_lead("-3"), -180.0);
        near(clock_lead("−3.5"), -210.0);
        near(seconds("1/50"), 0.02);
        near(seconds("0.5 s"), 0.5);
        assert_eq!(date("2026-06-21").expect("a day"), (2026, 6, 21));
        assert_eq!(numbers("-1; -0.5 0", "").expect("three"), [-1.0, -0.5, 0.0]);
        assert_eq!(numbers("1+2", "").expect("two"), [1.0, 2.0]);
        assert_eq!(size("Medium-Close").expect("a size").word(), "medium close");
    }

    #[test]
    fn what_cannot_be_read_is_said_with_an_example() {
        let texts = ["", "far", "3 paces", "inf", "nan", "1e3", "--3", "3mm m"];
        for text in texts {
            assert!(length_mm(text).is_err(), "{text:?}");
        }
        for text in ["", "north", "52 61", "-52N", "1 2 3 4"] {
            assert!(place(text).is_err(), "{text:?}");
        }
        for text in ["2026-6", "21.6.2026", "2026--1-2", "-2026-1-1", ""] {
            assert!(date(text).is_err(), "{text:?}");
        }
        for text in ["25:00", "12:60", "noon", "", "-1"] {
            assert!(hour(text).is_err(), "{text:?}");
        }
        for text in ["", "a b", ";"] {
            assert!(numbers(text, "-1 0 1").is_err(), "{text:?}");
        }
        let refused = size("wide").expect_err("no size");
        assert_eq!(refused.code(), "film.unreadable");
        assert!(refused.hint().contains("medium close"));
    }
}
