//! Where and by what light a scene plays, out of its heading.

/// What a heading says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Placed {
    /// The place, in the user's words.
    pub(super) place: String,
    /// `interior`, `exterior`, `interior and exterior`, or nothing where it is not said.
    pub(super) side: &'static str,
    /// The light, in one of our words or in the user's; empty where it is not said.
    pub(super) light: String,
    /// The order in which light comes over a day.
    pub(super) hour: u8,
}

/// Sides by the words that headings have for them, in English and German.
const SIDES: [(&str, &[&str]); 3] = [
    (
        "interior and exterior",
        &[
            "int/ext",
            "ext/int",
            "int./ext",
            "ext./int",
            "i/e",
            "innen/aussen",
            "innen/außen",
        ],
    ),
    ("interior", &["int", "interior", "inside", "innen"]),
    (
        "exterior",
        &["ext", "exterior", "outside", "aussen", "außen"],
    ),
];

/// Light by the words for it, in the order of a day.
const LIGHTS: [(&str, &[&str]); 5] = [
    (
        "dawn",
        &["dawn", "sunrise", "daybreak", "dämmerung morgens"],
    ),
    ("morning", &["morning", "early", "morgen", "früh"]),
    ("day", &["day", "noon", "midday", "afternoon", "tag"]),
    ("dusk", &["dusk", "evening", "sunset", "twilight", "abend"]),
    ("night", &["night", "midnight", "nacht"]),
];

fn side_of(word: &str) -> Option<&'static str> {
    let plain = word.trim_end_matches(['.', ':']).to_lowercase();
    let found = SIDES
        .iter()
        .find(|(_, words)| words.contains(&plain.as_str()));
    found.map(|(side, _)| *side)
}

fn light_of(words: &str) -> Option<(&'static str, u8)> {
    let plain = words.trim_end_matches('.').to_lowercase();
    let at = LIGHTS
        .iter()
        .position(|(_, known)| known.contains(&plain.as_str()))?;
    Some((LIGHTS[at].0, u8::try_from(at).unwrap_or(u8::MAX)))
}

/// Reads a heading such as `EXT. LANDING - DAY`, or `The landing, exterior, day`.
pub(super) fn placed(heading: &str) -> Placed {
    let mut found = Placed {
        place: String::new(),
        side: "",
        light: String::new(),
        // What says nothing is shot by day.
        hour: 2,
    };
    let mut rest = heading.trim();
    if let Some((first, more)) = rest.split_once(char::is_whitespace)
        && let Some(side) = side_of(first)
    {
        (found.side, rest) = (side, more.trim());
    }
    let spaced = rest.replace([' ', '\u{a0}'], " ");
    let parted = spaced
        .replace(" – ", ", ")
        .replace(" — ", ", ")
        .replace(" - ", ", ");
    let mut place: Vec<&str> = Vec::new();
    for part in parted
        .split(", ")
        .map(str::trim)
        .filter(|part| !part.is_empty())
    {
        match (side_of(part), light_of(part)) {
            (Some(side), _) if found.side.is_empty() => found.side = side,
            (_, Some((light, hour))) if found.light.is_empty() => {
                found.light = light.to_owned();
                found.hour = hour;
            }
            _ => place.push(part),
        }
    }
    found.place = place.join(", ");
    found
}

impl Placed {
    /// All of it in words: `LANDING, exterior, day`.
    pub(super) fn words(&self) -> String {
        let all = [self.place.as_str(), self.side, self.light.as_str()];
        let said: Vec<&str> = all.into_iter().filter(|one| !one.is_empty()).collect();
        match said.is_empty() {
            true => "Place not said".to_owned(),
            false => said.join(", "),
        }
    }

    /// Whether it is, or may be, inside.
    pub(super) fn is_inside(&self) -> bool {
        self.side.starts_with("interior")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_say_where_and_by_what_light() {
        for (heading, words) in [
            ("EXT. LANDING - DAY", "LANDING, exterior, day"),
            ("INT. CABIN - NIGHT", "CABIN, interior, night"),
            (
                "INT./EXT. FERRY - DUSK",
                "FERRY, interior and exterior, dusk",
            ),
            ("I/E FERRY", "FERRY, interior and exterior"),
            ("The landing, exterior, day", "The landing, exterior, day"),
            ("AUSSEN ANLEGER – ABEND", "ANLEGER, exterior, dusk"),
            ("EXT. THE LANDING - EARLY", "THE LANDING, exterior, morning"),
            ("Ten-Past Boat, day", "Ten-Past Boat, day"),
            ("EXT. RIVER - LATER", "RIVER, LATER, exterior"),
            ("EXT. RIVER", "RIVER, exterior"),
            ("Exterminator's shed", "Exterminator's shed"),
            ("", "Place not said"),
        ] {
            assert_eq!(placed(heading).words(), words, "{heading}");
        }
        assert!(placed("INT. CABIN").is_inside() && !placed("EXT. BANK").is_inside());
        assert!(placed("A - DAWN").hour < placed("A - DAY").hour);
        assert!(placed("A - DAY").hour < placed("A - NIGHT").hour);
    }
}
