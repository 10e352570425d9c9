//! A record as bytes, so that it can be kept beside the workprint and judged
//! again without reading the roll.

use crate::kept::{KeptFrame, TILES};
use crate::record::SignRecord;
use crate::sharpness::Edges;
use crate::standing_thing::StandingThing;
use crate::upright_lines::{LINES, UprightLine};

/// The first bytes: what it is, and the form. Another form has other measures.
const FORM: [u8; 8] = *b"signs 2\n";
/// Specks that nobody counted.
const NOT_COUNTED: u16 = u16::MAX;

impl SignRecord {
    /// The record as bytes, some 170 a frame.
    #[must_use]
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut out = Writer(FORM.to_vec());
        out.number(self.frames.len() as u32);
        self.frames.iter().for_each(|frame| out.frame(frame));
        out.number(self.things.len() as u32);
        self.things.iter().for_each(|thing| out.thing(thing));
        out.0
    }

    /// What [`to_bytes`](Self::to_bytes) wrote. `None` for anything else, bytes of
    /// another version of the measures too: then the roll must be read again.
    #[must_use]
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        let mut from = Reader(bytes.strip_prefix(&FORM)?);
        let number = from.number()?;
        let frames = (0..number).map(|_| from.frame()).collect::<Option<_>>()?;
        let number = from.number()?;
        let things = (0..number).map(|_| from.thing()).collect::<Option<_>>()?;
        from.0.is_empty().then(|| Self::new(frames, things))
    }
}

struct Writer(Vec<u8>);

impl Writer {
    fn byte(&mut self, byte: u8) {
        self.0.push(byte);
    }

    fn short(&mut self, number: u16) {
        self.0.extend(number.to_le_bytes());
    }

    fn number(&mut self, number: u32) {
        self.0.extend(number.to_le_bytes());
    }

    fn value(&mut self, value: f32) {
        self.0.extend(value.to_le_bytes());
    }

    fn edges(&mut self, edges: Edges) {
        self.value(edges.sharp);
        self.byte(edges.blocks);
    }

    fn frame(&mut self, frame: &KeptFrame) {
        self.byte(u8::from(frame.seen));
        self.edges(frame.across);
        self.edges(frame.along);
        for value in [frame.light, frame.alike, frame.right, frame.down] {
            self.value(value);
        }
        for value in [frame.agree, frame.went.0, frame.went.1] {
            self.value(value);
        }
        self.value(frame.white);
        self.value(frame.black);
        self.short(frame.specks.unwrap_or(NOT_COUNTED));
        for line in frame.lines {
            self.value(line.x);
            self.value(line.contrast);
            self.byte(line.lacking);
        }
        self.0.extend(frame.darkest);
        self.0.extend(frame.means);
    }

    fn thing(&mut self, thing: &StandingThing) {
        for number in [thing.from, thing.until, thing.outlined.0, thing.outlined.1] {
            self.number(number);
        }
        thing.bounds.iter().for_each(|&at| self.short(at as u16));
        self.value(thing.share);
        self.value(thing.depth);
        self.byte(u8::from(thing.without.0));
        self.byte(u8::from(thing.without.1));
        self.number(thing.pixels.len() as u32);
        thing.pixels.iter().for_each(|&at| self.short(at));
    }
}

struct Reader<'a>(&'a [u8]);

impl Reader<'_> {
    fn take<const BYTES: usize>(&mut self) -> Option<[u8; BYTES]> {
        let (taken, rest) = self.0.split_first_chunk()?;
        self.0 = rest;
        Some(*taken)
    }

    fn byte(&mut self) -> Option<u8> {
        self.take().map(u8::from_le_bytes)
    }

    fn short(&mut self) -> Option<u16> {
        self.take().map(u16::from_le_bytes)
    }

    fn number(&mut self) -> Option<u32> {
        self.take().map(u32::from_le_bytes)
    }

    fn value(&mut self) -> Option<f32> {
        self.take().map(f32::from_le_bytes)
    }

    fn edges(&mut self) -> Option<Edges> {
        Some(Edges {
            sharp: self.value()?,
            blocks: self.byte()?,
        })
    }

    fn line(&mut self) -> Option<UprightLine> {
        Some(UprightLine {
            x: self.value()?,
            contrast: self.value()?,
            lacking: self.byte()?,
        })
    }

    fn lines(&mut self) -> Option<[UprightLine; LINES]> {
        let mut lines = [UprightLine::default(); LINES];
        for line in &mut lines {
            *line = self.line()?;
        }
        Some(lines)
    }

    fn frame(&mut self) -> Option<KeptFrame> {
        Some(KeptFrame {
            seen: self.byte()? != 0,
            across: self.edges()?,
            along: self.edges()?,
            light: self.value()?,
            alike: self.value()?,
            right: self.value()?,
            down: self.value()?,
            agree: self.value()?,
            went: (self.value()?, self.value()?),
            white: self.value()?,
            black: self.value()?,
            specks: Some(self.short()?).filter(|&specks| specks != NOT_COUNTED),
            lines: self.lines()?,
            darkest: self.take::<TILES>()?,
            means: self.take::<TILES>()?,
        })
    }

    fn thing(&mut self) -> Option<StandingThing> {
        let (from, until) = (self.number()?, self.number()?);
        let outlined = (self.number()?, self.number()?);
        let mut bounds = [0; 4];
        for bound in &mut bounds {
            *bound = usize::from(self.short()?);
        }
        let (share, depth) = (self.value()?, self.value()?);
        let without = (self.byte()? != 0, self.byte()? != 0);
        let number = self.number()?;
        let pixels = (0..number).map(|_| self.short()).collect::<Option<_>>()?;
        Some(StandingThing {
            from,
            until,
            bounds,
            share,
            depth,
            pixels,
            outlined,
            without,
        })
    }
}
