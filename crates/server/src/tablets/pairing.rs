//! Codes, each for one tablet, and who has come in by them. Plain values: the time and
//! the chances come from outside.

use std::sync::LazyLock;
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

use super::problem::TabletProblem;
use super::{TabletCodeDocument, TabletInDocument};

/// Figures of a code: no two of them are taken for each other as letters are, and a
/// glove finds them. One of a hundred million.
const FIGURES: usize = 8;
/// How many codes there are.
const CODES: u32 = 10_u32.pow(8);
/// How long a code opens.
const OPENS: Duration = Duration::from_secs(5 * 60);
/// How many wrong ones may be tried; with the last the code opens no more.
const TRIES: u32 = 5;
/// After a wrong one, before the next is looked at, whoever tries and wherever from.
const REST: Duration = Duration::from_secs(1);
/// How many tablets may be in at a time.
const MOST: usize = 8;
/// The longest name of a tablet. Unit: characters.
const LONGEST_NAME: usize = 40;
/// What one is called that was given no name.
const NAMELESS: &str = "tablet";

/// A moment, by two clocks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Moment {
    /// Since the program began, by a clock that never goes back: what is too old is
    /// told by it.
    pub(super) since: Duration,
    /// By the clock on the wall, to be shown. Unit: milliseconds since 1970 in UTC.
    pub(super) wall: u64,
}

impl Moment {
    pub(super) fn now() -> Self {
        static BEGAN: LazyLock<Instant> = LazyLock::new(Instant::now);
        let wall = SystemTime::now().duration_since(UNIX_EPOCH);
        Self {
            since: BEGAN.elapsed(),
            wall: wall.map_or(0, milliseconds),
        }
    }
}

fn milliseconds(time: Duration) -> u64 {
    u64::try_from(time.as_millis()).unwrap_or(u64::MAX)
}

/// A number nobody can guess.
pub(super) fn draw() -> std::io::Result<u32> {
    let mut bytes = [0; 4];
    getrandom::fill(&mut bytes).map_err(std::io::Error::other)?;
    Ok(u32::from_le_bytes(bytes))
}

/// A code out of drawn numbers, each code as likely as any other: a number beyond the
/// last whole round of codes is drawn anew.
pub(super) fn code(draw: &mut dyn FnMut() -> std::io::Result<u32>) -> std::io::Result<String> {
    const FAIR: u32 = u32::MAX - u32::MAX % CODES;
    loop {
        let drawn = draw()?;
        if drawn < FAIR {
            return Ok(format!("{:0FIGURES$}", drawn % CODES));
        }
    }
}

/// Who asks at the tablet's door.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct LetIn {
    pub(crate) id: u32,
    pub(crate) name: String,
    pub(crate) film: String,
}

/// The code that opens, and the tablets that are in.
#[derive(Debug, Default)]
pub(super) struct Pairing {
    waiting: Option<Waiting>,
    wrong: u32,
    last_wrong: Option<Duration>,
    tablets: Vec<Tablet>,
    given: u32,
}

#[derive(Debug)]
struct Waiting {
    code: String,
    film: String,
    until: Moment,
}

#[derive(Debug)]
struct Tablet {
    shown: TabletInDocument,
    /// Of the secret in its cookie, which itself is kept nowhere.
    token: blake3::Hash,
}

impl Pairing {
    /// A code opens from now on; the one before opens no more.
    pub(super) fn ask(&mut self, code: String, film: &str, now: Moment) {
        let until = Moment {
            since: now.since + OPENS,
            wall: now.wall + milliseconds(OPENS),
        };
        let film = film.to_owned();
        self.waiting = Some(Waiting { code, film, until });
        self.wrong = 0;
    }

    /// The code that opens now.
    fn opens(&mut self, now: Moment) -> Option<&Waiting> {
        self.waiting.take_if(|code| code.until.since <= now.since);
        self.waiting.as_ref()
    }

    /// One tablet comes in by the code, which opens no more then.
    ///
    /// # Errors
    /// [`TabletProblem::TooSoon`], [`TabletProblem::Name`] and [`TabletProblem::Full`]
    /// cost no try; [`TabletProblem::WrongCode`] does.
    pub(super) fn enter(
        &mut self,
        code: &str,
        name: &str,
        token: &str,
        now: Moment,
    ) -> Result<(), TabletProblem> {
        let rested = |last: Duration| now.since >= last + REST;
        if !self.last_wrong.is_none_or(rested) {
            return Err(TabletProblem::TooSoon);
        }
        let name = sound_name(name)?;
        if self.tablets.len() >= MOST {
            return Err(TabletProblem::Full);
        }
        let Some(film) = self.film_of(code, now) else {
            self.last_wrong = Some(now.since);
            return Err(TabletProblem::WrongCode);
        };
        self.given += 1;
        let shown = TabletInDocument {
            id: self.given,
            name: self.name_of_its_own(name),
            film,
            let_in: now.wall,
            last_seen: now.wall,
        };
        let token = blake3::hash(token.as_bytes());
        self.tablets.push(Tablet { shown, token });
        Ok(())
    }

    /// Takes the code, if it is the right one, and gives its film; a wrong one is counted.
    fn film_of(&mut self, code: &str, now: Moment) -> Option<String> {
        let figures: String = code.chars().filter(|c| !c.is_whitespace()).collect();
        // Hashes are compared in the same time wherever they differ.
        let tried = blake3::hash(figures.as_bytes());
        let right = blake3::hash(self.opens(now)?.code.as_bytes()) == tried;
        if !right {
            self.wrong += 1;
            self.waiting.take_if(|_| self.wrong >= TRIES);
            return None;
        }
        self.waiting.take().map(|one| one.film)
    }

    /// The log must tell two tablets apart.
    fn name_of_its_own(&self, name: &str) -> String {
        let taken = |one: &str| self.tablets.iter().any(|t| t.shown.name == one);
        let numbered = (2..).map(|number| format!("{name} {number}"));
        std::iter::once(name.to_owned())
            .chain(numbered)
            .find(|one| !taken(one))
            .unwrap_or_default()
    }

    /// Whose secret this is; they are seen by it.
    pub(super) fn who(&mut self, token: &str, now: Moment) -> Option<LetIn> {
        let hash = blake3::hash(token.as_bytes());
        let tablet = self.tablets.iter_mut().find(|one| one.token == hash)?;
        tablet.shown.last_seen = now.wall;
        Some(LetIn {
            id: tablet.shown.id,
            name: tablet.shown.name.clone(),
            film: tablet.shown.film.clone(),
        })
    }

    pub(super) fn has(&self, id: u32) -> bool {
        self.tablets.iter().any(|one| one.shown.id == id)
    }

    /// True where there was such a one.
    pub(super) fn send_away(&mut self, id: u32) -> bool {
        let before = self.tablets.len();
        self.tablets.retain(|one| one.shown.id != id);
        self.tablets.len() < before
    }

    /// No code opens, nobody is in.
    pub(super) fn forget_all(&mut self) {
        self.waiting = None;
        self.wrong = 0;
        self.tablets.clear();
    }

    /// The code as it is shown, without its square.
    pub(super) fn shown(&mut self, now: Moment) -> Option<TabletCodeDocument> {
        let tries_left = TRIES - self.wrong.min(TRIES);
        self.opens(now).map(|one| TabletCodeDocument {
            code: one.code.clone(),
            film: one.film.clone(),
            until: one.until.wall,
            tries_left,
            square: Vec::new(),
        })
    }

    /// Wrong codes since the last was asked for.
    pub(super) const fn wrong(&self) -> u32 {
        self.wrong
    }

    pub(super) fn tablets(&self) -> Vec<TabletInDocument> {
        self.tablets.iter().map(|one| one.shown.clone()).collect()
    }
}

/// A name that may stand in the log, or why not.
fn sound_name(name: &str) -> Result<&str, TabletProblem> {
    let name = name.trim();
    if name.chars().count() > LONGEST_NAME {
        return Err(TabletProblem::Name("it is too long"));
    }
    if name.chars().any(|c| c.is_control() || turns_or_hides(c)) {
        return Err(TabletProblem::Name(
            "it holds characters that cannot be seen",
        ));
    }
    Ok(if name.is_empty() { NAMELESS } else { name })
}

/// Characters that turn the direction of writing, break the line, or are not seen, so
/// that a name could look like another (Unicode 16, `Bidi_Control`, and the blanks of
/// no width).
const fn turns_or_hides(c: char) -> bool {
    matches!(c,
        '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{2069}' | '\u{feff}')
}

#[cfg(test)]
mod tests;
