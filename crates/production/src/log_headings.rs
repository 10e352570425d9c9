//! The headings under which logs and camera reports keep what a take is.

/// What a column of a log says, by its name in our own form.
const HEADINGS: [(&str, &[&str]); 15] = [
    (
        "roll",
        &[
            "roll",
            "reel",
            "camera roll",
            "film roll",
            "roll no",
            "roll number",
            "rolle",
        ],
    ),
    ("scene", &["scene", "szene", "sc"]),
    (
        "slate",
        &[
            "slate",
            "setup",
            "scene setup",
            "setup scene",
            "scene take",
            "slate take",
            "scene setup take",
            "einstellung",
            "szene einstellung",
            "klappe",
        ],
    ),
    ("take", &["take", "take no", "take number", "tk"]),
    ("in", &["in"]),
    ("out", &["out"]),
    (
        "from",
        &[
            "from",
            "start",
            "begin",
            "counter start",
            "start counter",
            "counter in",
            "counter from",
            "footage start",
            "von",
            "anfang",
            "zähler von",
            "zähler anfang",
        ],
    ),
    (
        "to",
        &[
            "to",
            "end",
            "counter end",
            "end counter",
            "counter out",
            "counter to",
            "footage end",
            "bis",
            "ende",
            "zähler bis",
            "zähler ende",
        ],
    ),
    ("length", &["length", "frames", "länge", "laenge", "bilder"]),
    (
        "size",
        &[
            "size",
            "size angle",
            "shot size",
            "view",
            "größe",
            "grösse",
            "einstellungsgröße",
        ],
    ),
    ("move", &["move", "camera move", "kamerabewegung"]),
    (
        "direction",
        &[
            "direction",
            "mover and direction",
            "mover direction",
            "richtung",
        ],
    ),
    (
        "action",
        &[
            "action",
            "description",
            "what happens",
            "picture action",
            "handlung",
        ],
    ),
    (
        "use",
        &["use", "use yes maybe no", "mark", "circled", "verwendung"],
    ),
    (
        "note",
        &[
            "note",
            "notes",
            "remark",
            "remarks",
            "comment",
            "comments",
            "bemerkung",
            "bemerkungen",
        ],
    ),
];

/// In what a column counts, where its heading says so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CountedIn {
    /// Frames.
    Frames,
    /// Feet, whole or with a point.
    Feet,
    /// Seconds of running in the camera.
    Seconds,
}

/// A heading, understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Heading {
    /// The column of our own form that it is, if it is one.
    pub(crate) column: Option<&'static str>,
    /// In what its figures count.
    pub(crate) counted: Option<CountedIn>,
    /// Whether it is a counter, which may count feet or frames.
    pub(crate) counter: bool,
}

/// Understands a heading: `Counter start (ft)` is `from`, in feet.
pub(crate) fn heading(written: &str) -> Heading {
    let lower = written.to_lowercase();
    let (name, unit) = match lower.split_once(['(', '[']) {
        Some((name, unit)) => (
            name.to_owned(),
            unit.trim_end_matches([')', ']', ' ']).to_owned(),
        ),
        None => (lower, String::new()),
    };
    let spaced: String = name
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { ' ' })
        .collect();
    let plain = spaced.split_whitespace().collect::<Vec<_>>().join(" ");
    if plain == "pin" {
        return Heading {
            column: Some("pin"),
            counted: None,
            counter: false,
        };
    }
    let known = HEADINGS
        .iter()
        .find(|(_, words)| words.contains(&plain.as_str()));
    Heading {
        column: known.map(|(column, _)| *column),
        counted: counted_in(&unit),
        counter: plain.contains("counter") || plain.contains("footage") || plain.contains("zähler"),
    }
}

fn counted_in(unit: &str) -> Option<CountedIn> {
    match unit.trim() {
        "ft" | "feet" | "foot" | "ft+fr" | "fuß" | "fuss" => Some(CountedIn::Feet),
        "fr" | "frames" | "frame" | "bilder" => Some(CountedIn::Frames),
        "s" | "sec" | "secs" | "seconds" | "sekunden" => Some(CountedIn::Seconds),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_of_the_trade_are_known_however_they_are_written() {
        for (written, column) in [
            ("Roll", "roll"),
            ("CAMERA ROLL", "roll"),
            ("Scene/Setup", "slate"),
            ("scene / setup", "slate"),
            ("Scene", "scene"),
            ("Take #", "take"),
            ("counter-start", "from"),
            ("Von (Fuß)", "from"),
            ("Länge", "length"),
            ("size/angle", "size"),
            ("Mover and direction", "direction"),
            ("Use (yes / maybe / no)", "use"),
            ("Remarks:", "note"),
        ] {
            assert_eq!(heading(written).column, Some(column), "{written}");
        }
        for unknown in ["f/s", "lens", "stop", "camera", "faults", "sound", ""] {
            assert_eq!(heading(unknown).column, None, "{unknown}");
        }
    }

    #[test]
    fn a_heading_says_in_what_it_counts() {
        assert_eq!(heading("from (ft)").counted, Some(CountedIn::Feet));
        assert_eq!(heading("Start [s]").counted, Some(CountedIn::Seconds));
        assert_eq!(heading("out (frames)").counted, Some(CountedIn::Frames));
        assert_eq!(heading("use (yes)").counted, None);
        assert!(heading("Counter end").counter && !heading("end").counter);
    }
}
