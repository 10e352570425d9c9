//! Twins: the same action in another take.

use onestrand_film::{FrameRange, Span};

use crate::{Slate, Strand};

/// How a twin was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TwinBy {
    /// By a time map between the two takes.
    Map,
    /// By its setup alone: as far from the first frame of its take. Where the
    /// action lies in it is not known; two marks in each take settle it.
    Setup,
}

/// The frames that show an action in another take.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Twin {
    /// The frames.
    pub span: Span,
    /// What the slate of that take says.
    pub slate: Option<Slate>,
    /// How it was found.
    pub by: TwinBy,
}

/// Whoever knows twins of a span.
pub trait Twins: std::fmt::Debug {
    /// The twins of a span, best first.
    fn twins_of(&self, span: &Span) -> Vec<Twin>;
}

/// Nobody knows of any.
#[derive(Debug, Clone, Copy, Default)]
pub struct NoTwins;

impl Twins for NoTwins {
    fn twins_of(&self, _: &Span) -> Vec<Twin> {
        Vec::new()
    }
}

/// Twins that somebody knows, else those of the same setup.
#[derive(Debug, Clone, Copy)]
pub struct TakeTwins<'a> {
    strand: &'a Strand,
    known: &'a dyn Twins,
}

impl<'a> TakeTwins<'a> {
    /// Twins among the takes of a strand; `known` goes by what it was told of the
    /// action, and is asked first.
    #[must_use]
    pub const fn new(strand: &'a Strand, known: &'a dyn Twins) -> Self {
        Self { strand, known }
    }

    fn by_setup(&self, span: &Span) -> Vec<Twin> {
        let Some(take) = self.strand.take_holding(&span.roll, span.range) else {
            return Vec::new();
        };
        let Some(slate) = &take.slate else {
            return Vec::new();
        };
        let others = self.strand.takes().iter().filter(|other| {
            let same = |s: &Slate| s.setup() == slate.setup() && s.take() != slate.take();
            other.slate.as_ref().is_some_and(same)
        });
        let moved = |other: &crate::Take| {
            let by = other.span.range.begin().since(take.span.range.begin());
            let begin = span.range.begin().moved(by).ok()?;
            let end = span.range.end().moved(by).ok()?;
            let range = FrameRange::new(begin, end).ok()?;
            let found = Span::new(other.span.roll.clone(), range);
            within(&found, &other.span).then(|| Twin {
                span: found,
                slate: other.slate.clone(),
                by: TwinBy::Setup,
            })
        };
        others.filter_map(moved).collect()
    }
}

impl Twins for TakeTwins<'_> {
    fn twins_of(&self, span: &Span) -> Vec<Twin> {
        let mut twins = self.known.twins_of(span);
        for twin in self.by_setup(span) {
            // Who was told knows better than the setup.
            if twins.iter().all(|t| t.slate != twin.slate) {
                twins.push(twin);
            }
        }
        twins
    }
}

fn within(span: &Span, take: &Span) -> bool {
    span.roll == take.roll
        && take.range.begin() <= span.range.begin()
        && span.range.end() <= take.range.end()
}
