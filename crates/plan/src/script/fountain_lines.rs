//! What each line of a Fountain text is, by the published syntax (version 1.1).

/// What a run of lines is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    TitlePage,
    Heading,
    Action,
    Character,
    Parenthetical,
    Speech,
    Lyric,
    Transition,
    Centred,
    Note,
    Section,
    Synopsis,
    PageBreak,
}

/// A line with what it is. Marks that force a kind are taken off.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Told {
    pub(super) line: u64,
    pub(super) kind: Kind,
    pub(super) text: String,
    /// Whether it goes on in the paragraph of the line before.
    pub(super) goes_on: bool,
}

/// A mark that is opened and never closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Open {
    pub(super) line: u64,
}

/// The text without a byte-order mark, its lines ended in one way.
fn plain_ends(text: &str) -> String {
    let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    text.replace("\r\n", "\n").replace('\r', "\n")
}

/// Takes out what stands between `open` and `close`, keeping the ends of lines, and
/// hands each piece with its line to `taken`. Gives the place of one never closed.
fn take_out(
    text: &str,
    (open, close): (&str, &str),
    mut taken: impl FnMut(u64, &str),
) -> (String, Option<Open>) {
    let mut kept = String::with_capacity(text.len());
    let mut rest = text;
    let mut line = 1;
    let count = |text: &str| text.bytes().filter(|b| *b == b'\n').count() as u64;
    while let Some(at) = rest.find(open) {
        let inside = &rest[at + open.len()..];
        let begins = line + count(&rest[..at]);
        let Some(length) = inside.find(close) else {
            kept.push_str(rest);
            return (kept, Some(Open { line: begins }));
        };
        kept.push_str(&rest[..at]);
        let piece = &inside[..length];
        taken(begins, piece.trim());
        let lines = count(piece);
        kept.extend(std::iter::repeat_n(
            '\n',
            usize::try_from(lines).unwrap_or(0),
        ));
        line = begins + lines;
        rest = &inside[length + close.len()..];
    }
    kept.push_str(rest);
    (kept, None)
}

/// Every line that says something, in order, and a part left open that hides the rest.
pub(super) fn read_lines(text: &str) -> (Vec<Told>, Option<Open>) {
    let text = plain_ends(text);
    let (text, open) = take_out(&text, ("/*", "*/"), |_, _| {});
    let mut notes = Vec::new();
    // A note that is never closed is text, says the syntax.
    let (text, _) = take_out(&text, ("[[", "]]"), |line, note| {
        notes.push(Told {
            line,
            kind: Kind::Note,
            text: note.to_owned(),
            goes_on: false,
        });
    });
    let mut told = Reader::new(&text).run();
    told.extend(notes);
    told.sort_by_key(|told| told.line);
    (told, open)
}

struct Reader<'t> {
    lines: Vec<&'t str>,
    at: usize,
    told: Vec<Told>,
}

impl<'t> Reader<'t> {
    fn new(text: &'t str) -> Self {
        Self {
            lines: text.split('\n').collect(),
            at: 0,
            told: Vec::new(),
        }
    }

    fn run(mut self) -> Vec<Told> {
        self.title_page();
        let (mut in_speech, mut before) = (false, None);
        while let Some(line) = self.lines.get(self.at).copied() {
            // Two blanks keep a speech open over an empty line.
            if line.trim().is_empty() {
                in_speech = in_speech && line.len() >= 2;
                before = None;
                self.at += 1;
                continue;
            }
            let (kind, text) = if in_speech {
                speech(line.trim())
            } else {
                self.kind_of(line, before.is_none())
            };
            in_speech = in_speech || kind == Kind::Character;
            let goes_on = kind == Kind::Action && before == Some(Kind::Action);
            self.tell(kind, text, goes_on);
            before = Some(kind);
            self.at += 1;
        }
        self.told
    }

    fn tell(&mut self, kind: Kind, text: &str, goes_on: bool) {
        self.told.push(Told {
            line: self.at as u64 + 1,
            kind,
            text: text.to_owned(),
            goes_on,
        });
    }

    /// Keys with values, at the very beginning, up to the first empty line.
    fn title_page(&mut self) {
        let first = self.lines.first().copied().unwrap_or_default();
        let is_key = |line: &str| {
            let key = line.split_once(':').map(|(key, _)| key);
            key.is_some_and(|key| key.starts_with(char::is_alphabetic) && !is_capitals(key))
        };
        if !is_key(first) || is_heading(first) {
            return;
        }
        while let Some(line) = self.lines.get(self.at).copied() {
            if line.trim().is_empty() {
                return;
            }
            let more = line.starts_with(char::is_whitespace);
            self.tell(Kind::TitlePage, line.trim(), more);
            self.at += 1;
        }
    }

    fn next_is_empty(&self) -> bool {
        let next = self.lines.get(self.at + 1);
        next.is_none_or(|line| line.trim().is_empty())
    }

    fn kind_of(&self, line: &'t str, after_empty: bool) -> (Kind, &'t str) {
        let text = line.trim();
        if let Some(forced) = forced(text) {
            return forced;
        }
        if !after_empty {
            return (Kind::Action, line.trim_end());
        }
        if is_heading(text) {
            return (Kind::Heading, text);
        }
        if self.next_is_empty() {
            let is_transition = is_capitals(text) && text.ends_with("TO:");
            let kind = if is_transition {
                Kind::Transition
            } else {
                Kind::Action
            };
            return (kind, text);
        }
        let name = text.split('(').next().unwrap_or(text);
        if is_capitals(name) {
            return (Kind::Character, speaker(text));
        }
        (Kind::Action, line.trim_end())
    }
}

/// What a mark at its beginning makes of a line.
fn forced(text: &str) -> Option<(Kind, &str)> {
    if text.len() >= 3 && text.bytes().all(|b| b == b'=') {
        return Some((Kind::PageBreak, ""));
    }
    let rest = text.get(1..).unwrap_or_default();
    let kind = match text.chars().next()? {
        '!' => Kind::Action,
        '.' if !rest.starts_with('.') && !rest.is_empty() => Kind::Heading,
        '@' => return Some((Kind::Character, speaker(rest))),
        '~' => Kind::Lyric,
        '#' => return Some((Kind::Section, text.trim_start_matches('#').trim())),
        '=' => Kind::Synopsis,
        '>' => {
            return Some(match rest.strip_suffix('<') {
                Some(centred) => (Kind::Centred, centred.trim()),
                None => (Kind::Transition, rest.trim()),
            });
        }
        _ => return None,
    };
    Some((kind, rest.trim()))
}

fn speech(text: &str) -> (Kind, &str) {
    if text.starts_with('(') && text.ends_with(')') {
        return (Kind::Parenthetical, text);
    }
    text.strip_prefix('~')
        .map_or((Kind::Speech, text), |sung| (Kind::Lyric, sung.trim()))
}

/// The name of who speaks, without the mark of two at once and what stands in brackets.
fn speaker(text: &str) -> &str {
    let text = text.trim().trim_end_matches('^').trim();
    text.split('(').next().unwrap_or(text).trim()
}

/// Letters, and none of them small.
fn is_capitals(text: &str) -> bool {
    text.chars().any(char::is_alphabetic) && !text.chars().any(char::is_lowercase)
}

/// The beginnings of a heading that need no mark, by the syntax.
const PLACES: [&str; 6] = ["INT./EXT", "INT/EXT", "I/E", "INT", "EXT", "EST"];

fn is_heading(text: &str) -> bool {
    let begins = |place: &str| {
        let head = text.get(..place.len());
        let next = text.get(place.len()..).unwrap_or_default();
        head.is_some_and(|head| head.eq_ignore_ascii_case(place)) && next.starts_with(['.', ' '])
    };
    PLACES.iter().any(|place| begins(place))
}
