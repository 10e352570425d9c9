//! Clips and gaps: what becomes a piece.

use onestrand_cut::{JoinKind, Piece, PieceKind, Slate};
use onestrand_film::{FramePos, FrameRange, Frames, Span};

use crate::counting::{Range, Time};
use crate::effects;
use crate::media::{Counted, active};
use crate::place_in_file::{Node, Object};
use crate::reader::{Reader, add_words};

impl Reader<'_> {
    /// A clip: frames of a roll, or a card to be photographed.
    pub(crate) fn clip(&mut self, clip: &Object<'_>, place: &str) {
        let media = active(clip);
        let ours = clip.ours();
        let own_kind = ours.as_ref().and_then(|ours| ours.text("kind"));
        let is_made = media
            .as_ref()
            .is_some_and(|m| m.kind() == "GeneratorReference");
        let kind = if clip.field("enabled").and_then(Node::truth) == Some(false) {
            let text = "switched off there: leader stands in its place";
            self.remark(clip.line(), place, text);
            self.running_length(clip, media.as_ref(), place)
                .map(PieceKind::Leader)
        } else if own_kind.as_deref() == Some("card") || is_made {
            self.card(clip, media.as_ref(), ours.as_ref(), place)
        } else {
            self.shot(clip, media.as_ref(), place)
        };
        self.piece(clip, kind, place);
    }

    /// A gap: leader.
    pub(crate) fn gap(&mut self, gap: &Object<'_>, place: &str) {
        if gap.ours().is_none() {
            self.remark(
                gap.line(),
                place,
                "a gap: leader of its length stands there",
            );
        }
        for node in gap.items("markers") {
            self.remark(
                node.line(),
                place,
                "a mark on a gap falls on no frame: left out",
            );
        }
        let kind = self.running_length(gap, None, place).map(PieceKind::Leader);
        self.piece(gap, kind, place);
    }

    /// What every piece has besides what it is made of. Read also where the
    /// piece itself is in trouble, so that all its problems are told.
    fn piece(&mut self, object: &Object<'_>, kind: Option<PieceKind>, place: &str) {
        let effects = effects::read(object);
        let ours = object.ours();
        let own = |field: &str| ours.as_ref().and_then(|ours| ours.text(field));
        let line = object.line();
        let mut note = own("note").unwrap_or_default();
        let slate = match own("slate") {
            Some(text) => self.own_word(&text, "slate", line, place, |t| t.parse::<Slate>()),
            None if ours.is_none() => self.name_as_words(object, kind.as_ref(), &mut note, place),
            None => None,
        };
        let join = own("join")
            .and_then(|text| self.own_word(&text, "join", line, place, |t| t.parse::<JoinKind>()));
        for words in effects.told {
            self.remark(
                line,
                place,
                format!("{words}: kept, and the strand check refuses it"),
            );
            add_words(&mut note, &words);
        }
        for name in effects.left_out {
            self.remark(line, place, format!("the effect “{name}” is left out"));
            add_words(&mut note, &format!("effect {name}, left out"));
        }
        let Some(kind) = kind else { return };
        let piece = Piece {
            kind,
            slate,
            join,
            effect: effects.effect,
            note,
        };
        self.laid(piece, line, place);
    }

    /// One of our own words in a file, which somebody may have changed.
    fn own_word<T, E: std::fmt::Display>(
        &mut self,
        text: &str,
        what: &str,
        line: u64,
        place: &str,
        read: impl FnOnce(&str) -> Result<T, E>,
    ) -> Option<T> {
        match read(text) {
            Ok(value) => Some(value),
            Err(found) => {
                self.problem(line, place, format!("{what}: {found}"));
                None
            }
        }
    }

    /// The name of somebody else's clip: a slate where it reads as one, else a note.
    fn name_as_words(
        &mut self,
        object: &Object<'_>,
        kind: Option<&PieceKind>,
        note: &mut String,
        place: &str,
    ) -> Option<Slate> {
        let name = object.text("name").unwrap_or_default();
        let name = name.trim();
        if !matches!(kind, Some(PieceKind::Shot(_))) || name.is_empty() {
            return None;
        }
        if let Ok(slate) = name.parse::<Slate>() {
            let text = format!("the slate {slate} is taken from its name");
            self.remark(object.line(), place, text);
            return Some(slate);
        }
        add_words(note, name);
        None
    }

    fn card(
        &mut self,
        clip: &Object<'_>,
        media: Option<&Object<'_>>,
        ours: Option<&Object<'_>>,
        place: &str,
    ) -> Option<PieceKind> {
        let frames = self.running_length(clip, media, place)?;
        if let Some(title) = ours.and_then(|ours| ours.text("title")) {
            return Some(PieceKind::Card { frames, title });
        }
        let named = |object: Option<&Object<'_>>, field: &str| {
            object
                .and_then(|o| o.text(field))
                .filter(|t| !t.trim().is_empty())
        };
        let title = named(Some(clip), "name")
            .or_else(|| named(media, "name"))
            .or_else(|| named(media, "generator_kind"))
            .unwrap_or_default();
        let text = "a picture made by the other program: a card to be photographed stands there";
        self.remark(clip.line(), place, text);
        Some(PieceKind::Card { frames, title })
    }

    fn shot(
        &mut self,
        clip: &Object<'_>,
        media: Option<&Object<'_>>,
        place: &str,
    ) -> Option<PieceKind> {
        let counted = self.counted(clip, media, place);
        let range = self.range(clip, media, place);
        let (range, line) = range?;
        let Some(counted) = counted else {
            self.without_roll(range, line, place);
            return None;
        };
        self.marks(clip, &counted, place);
        let start = self.film_frames(range.start, &counted, line, place);
        let length = self.film_frames(range.length, &counted, line, place);
        let (start, length) = (start? - counted.origin, length?);
        let length = self.length(length, line, place)?;
        self.span(&counted, start, length, line, place)
    }

    /// What can be said of the counts of a piece whose roll is not known, so that
    /// its other problems are told in the same breath.
    fn without_roll(&mut self, range: Range, line: u64, place: &str) {
        let speed = self.film.speed;
        for time in [range.start, range.length] {
            let mut scans = self.film.rolls.iter().flat_map(|roll| &roll.scans);
            let may_be_a_scan = scans.any(|scan| scan.rate.is_some_and(|rate| time.is_at(rate)));
            if time.is_at(speed) {
                self.whole(time.whole(), time.value, line, place);
            } else if !may_be_a_scan {
                self.other_rate(time.rate, line, place);
            }
        }
        if let Some(length) = range.length.whole() {
            self.length(length, line, place);
        }
    }

    /// A span that lies on the roll, or a problem.
    fn span(
        &mut self,
        counted: &Counted,
        start: i64,
        length: Frames,
        line: u64,
        place: &str,
    ) -> Option<PieceKind> {
        let roll = &counted.roll;
        let end = start + i64::from(length.count());
        if start < 0 {
            let text =
                format!("begins at {start}, before the head of {roll}, whose first frame is 0");
            self.problem(line, place, text);
            return None;
        }
        if end > i64::from(counted.frames) {
            let text = format!(
                "{roll} has {} frames, this ends at {end}: trim it there",
                counted.frames
            );
            self.problem(line, place, text);
            return None;
        }
        let pos = |n: i64| u32::try_from(n).ok().and_then(|n| FramePos::new(n).ok());
        let range = FrameRange::new(pos(start)?, pos(end)?).ok()?;
        Some(PieceKind::Shot(Span::new(roll.clone(), range)))
    }

    /// A count of a clip as film frames of its roll.
    fn film_frames(
        &mut self,
        time: Time,
        counted: &Counted,
        line: u64,
        place: &str,
    ) -> Option<i64> {
        let speed = self.film.speed;
        if time.is_at(speed) {
            return self.whole(time.whole(), time.value, line, place);
        }
        if counted.file_rate.is_some_and(|rate| time.is_at(rate)) {
            let text = "counts the frames of the scan, each of which is one film frame";
            self.remark(line, place, text);
            return self.whole(time.whole(), time.value, line, place);
        }
        if counted.at_speed {
            return self.running(time, line, place);
        }
        self.other_rate(time.rate, line, place);
        None
    }

    /// How long a piece stands that shows no roll.
    fn running_length(
        &mut self,
        object: &Object<'_>,
        media: Option<&Object<'_>>,
        place: &str,
    ) -> Option<Frames> {
        let (range, line) = self.range(object, media, place)?;
        let frames = self.running(range.length, line, place)?;
        self.length(frames, line, place)
    }

    /// The part that is wanted: its own, else all there is.
    fn range(
        &mut self,
        object: &Object<'_>,
        media: Option<&Object<'_>>,
        place: &str,
    ) -> Option<(Range, u64)> {
        let wanted = object.field("source_range");
        let node = wanted.or_else(|| media.and_then(|m| m.field("available_range")));
        let Some(node) = node else {
            let text = "which frames are wanted is not said: give it a beginning and a length";
            self.problem(object.line(), place, text);
            return None;
        };
        match Range::of(node) {
            Some(range) => Some((range, node.line())),
            None => {
                let text = "its beginning or its length cannot be read as a time";
                self.problem(node.line(), place, text);
                None
            }
        }
    }
}
