//! What the log's own words say of a take: size, who goes which way, and from
//! where it was seen.

use crate::Take;

/// Which way somebody goes in the picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// From left to right.
    LeftToRight,
    /// From right to left.
    RightToLeft,
    /// Towards the camera or away from it: after this either way may follow.
    Neutral,
}

impl Way {
    /// The words on screens and sheets.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::LeftToRight => "left to right",
            Self::RightToLeft => "right to left",
            Self::Neutral => "towards or away from the camera",
        }
    }
}

/// Somebody or something that crosses the picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mover {
    /// Who, as the log says it; empty when it names nobody.
    pub who: String,
    /// Which way.
    pub way: Way,
}

/// On which side of the line of action the camera stood.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LineSide {
    /// The side that the maker calls A.
    A,
    /// The other side.
    B,
    /// On the line itself: after this either side may follow.
    OnTheLine,
}

/// How large things are in the picture, in half steps from very wide (0) over
/// wide (2), medium (4) and close (6) to a detail (8).
///
/// Range: 0 to 8.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ViewSize(pub(super) u8);

impl ViewSize {
    /// Half steps between two sizes.
    #[must_use]
    pub const fn half_steps_to(self, other: Self) -> u8 {
        self.0.abs_diff(other.0)
    }

    /// Reads the words of a log: `very wide`, `MCU`, `close-up`, `detail`.
    ///
    /// ```
    /// # use onestrand_cut::ViewSize;
    /// let (wide, close) = (ViewSize::read("wide"), ViewSize::read("CU"));
    /// assert_eq!(wide.zip(close).map(|(a, b)| a.half_steps_to(b)), Some(4));
    /// assert_eq!(ViewSize::read("nice"), None);
    /// ```
    #[must_use]
    pub fn read(words: &str) -> Option<Self> {
        let plain: String = words
            .chars()
            .map(|c| {
                if c.is_alphanumeric() {
                    c.to_ascii_lowercase()
                } else {
                    ' '
                }
            })
            .collect();
        let plain = plain.split_whitespace().collect::<Vec<_>>().join(" ");
        let plain = plain.trim_end_matches(" shot").trim_end_matches(" view");
        SIZES
            .iter()
            .find(|(_, names)| names.contains(&plain))
            .map(|(size, _)| Self(*size))
    }
}

/// The usual words and letters for sizes. Source: common practice.
const SIZES: [(u8, &[&str]); 9] = [
    (
        0,
        &[
            "very wide",
            "very long",
            "extreme wide",
            "extreme long",
            "vws",
            "vls",
            "ews",
            "els",
            "vw",
        ],
    ),
    (1, &["rather wide"]),
    (2, &["wide", "long", "full", "ws", "ls", "fs", "w", "total"]),
    (3, &["medium wide", "medium long", "mws", "mls"]),
    (4, &["medium", "mid", "middle", "half", "ms", "m"]),
    (5, &["medium close", "medium close up", "mcu"]),
    (6, &["close", "close up", "closeup", "cu", "c", "head"]),
    (
        7,
        &[
            "very close",
            "big close",
            "big close up",
            "extreme close up",
            "very close up",
            "bcu",
            "ecu",
            "vcu",
        ],
    ),
    (8, &["detail", "insert", "thing", "macro"]),
];

/// What the log says of a take, as far as it can be read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TakeWords {
    /// Size of the view.
    pub size: Option<ViewSize>,
    /// Who goes which way.
    pub movers: Vec<Mover>,
    /// On which side of the line the camera stood: `side A`, `on the line`.
    pub side: Option<LineSide>,
    /// From which direction: `30°`. Unit: degrees, from any one mark of the scene.
    pub angle: Option<f64>,
}

impl TakeWords {
    /// Reads the columns of a take: size, direction, and what the camera does.
    #[must_use]
    pub fn read(take: &Take) -> Self {
        let direction = Words::of(&take.direction);
        let camera = Words::of(&take.camera_move);
        Self {
            size: ViewSize::read(&take.size),
            movers: direction.movers(),
            side: direction.side().or_else(|| camera.side()),
            angle: direction.angle().or_else(|| camera.angle()),
        }
    }
}

/// Words beside a name that are none.
const NO_NAMES: [&str; 9] = [
    "and", "the", "goes", "moves", "runs", "walks", "from", "both", "side",
];

/// Words of a column, each plain and as written.
struct Words(Vec<(String, String)>);

impl Words {
    fn of(text: &str) -> Self {
        let mut spaced = String::with_capacity(text.len() + 8);
        for c in text.chars() {
            match c {
                '→' | '←' | '>' | '<' | '-' | '–' | '—' | ',' | ';' | ':' | '/' | '(' | ')' =>
                {
                    spaced.push(' ');
                    spaced.push(c);
                    spaced.push(' ');
                }
                '°' => spaced.push_str(" ° "),
                _ => spaced.push(c),
            }
        }
        let word = |w: &str| (w.trim_matches('.').to_lowercase(), w.to_owned());
        Self(spaced.split_whitespace().map(word).collect())
    }

    fn plain(&self, at: usize) -> &str {
        self.0.get(at).map_or("", |w| w.0.as_str())
    }

    /// A way that begins at a word, and how many words say it.
    fn way_at(&self, at: usize) -> Option<(Way, usize)> {
        let left = |w: &str| matches!(w, "left" | "l");
        let right = |w: &str| matches!(w, "right" | "r");
        let to = |w: &str| matches!(w, "to" | "→" | ">" | "-" | "–" | "—" | "→>");
        let (a, b, c) = (self.plain(at), self.plain(at + 1), self.plain(at + 2));
        if left(a) && to(b) && right(c) {
            return Some((Way::LeftToRight, 3));
        }
        if right(a) && to(b) && left(c) {
            return Some((Way::RightToLeft, 3));
        }
        let camera = |from: usize| {
            let the = usize::from(self.plain(from) == "the");
            (self.plain(from + the) == "camera").then_some(the + 1)
        };
        match (a, b) {
            ("lr" | "ltr" | "rightwards" | "→", _) => Some((Way::LeftToRight, 1)),
            ("rl" | "rtl" | "leftwards" | "←", _) => Some((Way::RightToLeft, 1)),
            ("to", "the") if c == "right" => Some((Way::LeftToRight, 3)),
            ("to", "the") if c == "left" => Some((Way::RightToLeft, 3)),
            ("towards" | "toward", _) => Some((Way::Neutral, 1 + camera(at + 1).unwrap_or(0))),
            ("away", "from") => Some((Way::Neutral, 2 + camera(at + 2).unwrap_or(0))),
            ("away", _) => Some((Way::Neutral, 1)),
            ("to", _) => camera(at + 1).map(|n| (Way::Neutral, 1 + n)),
            _ => None,
        }
    }

    /// Who goes which way: the words before each way since the one before.
    fn movers(&self) -> Vec<Mover> {
        let mut out = Vec::new();
        let (mut at, mut from) = (0, 0);
        while at < self.0.len() {
            let Some((way, words)) = self.way_at(at) else {
                at += 1;
                continue;
            };
            let who = self.name(from, at);
            out.push(Mover { who, way });
            at += words;
            from = at;
        }
        out
    }

    /// A name out of some words: of the last clause among them that holds one.
    fn name(&self, from: usize, to: usize) -> String {
        let clauses = self.0[from..to].split(|(plain, _)| plain == ";");
        let named = |words: &[(String, String)]| {
            let names = words.iter().filter(|(plain, _)| {
                let mark = plain.chars().all(|c| !c.is_alphanumeric());
                !mark && !NO_NAMES.contains(&plain.as_str())
            });
            names.map(|w| w.1.as_str()).collect::<Vec<_>>().join(" ")
        };
        let names: Vec<String> = clauses.map(named).filter(|n| !n.is_empty()).collect();
        names.last().cloned().unwrap_or_default()
    }

    fn side(&self) -> Option<LineSide> {
        (0..self.0.len()).find_map(|at| {
            let three = (self.plain(at), self.plain(at + 1), self.plain(at + 2));
            match three {
                ("side", "a", _) => Some(LineSide::A),
                ("side", "b", _) => Some(LineSide::B),
                ("on", "the", "line") => Some(LineSide::OnTheLine),
                _ => None,
            }
        })
    }

    fn angle(&self) -> Option<f64> {
        (0..self.0.len()).find_map(|at| {
            let degrees = matches!(self.plain(at + 1), "°" | "degrees" | "deg");
            let number: Option<f64> = self.plain(at).parse().ok();
            number.filter(|n| degrees && (0.0..=360.0).contains(n))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn movers(text: &str) -> Vec<(String, Way)> {
        let of = |m: Mover| (m.who, m.way);
        Words::of(text).movers().into_iter().map(of).collect()
    }

    #[test]
    fn who_goes_which_way() {
        use Way::{LeftToRight, Neutral, RightToLeft};
        let one = |who: &str, way| vec![(who.to_owned(), way)];
        for (text, expected) in [
            ("Ida, left to right", one("Ida", LeftToRight)),
            ("Ida right to left", one("Ida", RightToLeft)),
            ("Ida: L→R", one("Ida", LeftToRight)),
            ("R-L", one("", RightToLeft)),
            ("ferry, towards camera", one("ferry", Neutral)),
            ("the ferry goes away from the camera", one("ferry", Neutral)),
            ("Old Bram → ", one("Old Bram", LeftToRight)),
            ("small to medium", vec![]),
            ("", vec![]),
            ("still", vec![]),
        ] {
            assert_eq!(movers(text), expected, "{text}");
        }
        assert_eq!(
            movers("Ida, left to right; side B; ferry, right to left"),
            [
                ("Ida".to_owned(), LeftToRight),
                ("ferry".to_owned(), RightToLeft)
            ]
        );
    }

    #[test]
    fn from_where_it_was_seen() {
        let words = Words::of("Ida, left to right; side B, 45°");
        assert_eq!(words.side(), Some(LineSide::B));
        assert_eq!(words.angle(), Some(45.0));
        assert_eq!(Words::of("on the line").side(), Some(LineSide::OnTheLine));
        assert_eq!(Words::of("beside a boat, 3 boats").side(), None);
        assert_eq!(Words::of("3 boats").angle(), None);
    }

    #[test]
    fn sizes_of_the_example_are_a_step_apart() {
        let sizes = ["very wide", "wide", "medium", "close", "detail"];
        let read: Vec<u8> = sizes
            .iter()
            .filter_map(|s| ViewSize::read(s))
            .map(|s| s.0)
            .collect();
        assert_eq!(read, [0, 2, 4, 6, 8]);
        assert_eq!(ViewSize::read("Close-Up"), ViewSize::read("CU"));
        assert_eq!(ViewSize::read("title"), None);
    }
}
