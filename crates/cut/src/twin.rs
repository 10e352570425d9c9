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
pub trait Twins {
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

/// Which frame of one take shows the same moment as a frame of another: a
/// straight line through two moments marked in both.
///
/// Unit: frames of the rolls.
///
/// ```
/// # use onestrand_cut::TimeMap;
/// // Rope leaves bollard, and splash, in a master and in a close-up.
/// let map = TimeMap::through((2923, 531), (2971, 580)).expect("two moments");
/// assert_eq!(format!("{:.2}", map.at(2939)), "547.33");
/// assert_eq!(map.nearest(2939), 547);
/// assert!(TimeMap::through((2923, 531), (2923, 580)).is_none());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct TimeMap {
    first: (i64, i64),
    second: (i64, i64),
}

impl TimeMap {
    /// The map through two moments, each as a frame of one take and the frame of
    /// the other. Nothing when they are no two moments, or run backwards.
    #[must_use]
    pub fn through(first: (u32, u32), second: (u32, u32)) -> Option<Self> {
        let wide = |m: (u32, u32)| (i64::from(m.0), i64::from(m.1));
        let (first, second) = (wide(first.min(second)), wide(first.max(second)));
        (first.0 < second.0 && first.1 < second.1).then_some(Self { first, second })
    }

    /// The frames of the other take for each frame of this: 49/48 is 1.0208.
    #[must_use]
    pub fn slope(&self) -> f64 {
        let (over, under) = self.steps();
        over as f64 / under as f64
    }

    /// Where a frame lies in the other take.
    ///
    /// Unit: frames of the roll, with their fraction.
    #[must_use]
    pub fn at(&self, frame: i64) -> f64 {
        let (over, under) = self.steps();
        self.first.1 as f64 + ((frame - self.first.0) * over) as f64 / under as f64
    }

    /// The nearest frame of the other take; the later one halfway between two.
    #[must_use]
    pub fn nearest(&self, frame: i64) -> i64 {
        let (over, under) = self.steps();
        let twice = 2 * (frame - self.first.0) * over + under;
        self.first.1 + twice.div_euclid(2 * under)
    }

    /// The map the other way.
    #[must_use]
    pub const fn back(&self) -> Self {
        Self {
            first: (self.first.1, self.first.0),
            second: (self.second.1, self.second.0),
        }
    }

    const fn steps(&self) -> (i64, i64) {
        (self.second.1 - self.first.1, self.second.0 - self.first.0)
    }
}

/// Two takes of an action, and the map from the first to the second.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MappedTakes {
    /// Where the first take lies.
    pub from: Span,
    /// Where the second take lies.
    pub to: Span,
    /// From the frames of the first to those of the second.
    pub map: TimeMap,
}

/// Twins by the maps between takes that are known, else by the setup.
#[derive(Debug, Clone)]
pub struct TakeTwins<'a> {
    strand: &'a Strand,
    maps: Vec<MappedTakes>,
}

impl<'a> TakeTwins<'a> {
    /// Twins among the takes of a strand, with the maps known so far.
    #[must_use]
    pub const fn new(strand: &'a Strand, maps: Vec<MappedTakes>) -> Self {
        Self { strand, maps }
    }

    fn by_map(&self, span: &Span) -> Vec<Twin> {
        let mut out = Vec::new();
        for known in &self.maps {
            let ways = [
                (&known.from, &known.to, known.map),
                (&known.to, &known.from, known.map.back()),
            ];
            for (from, to, map) in ways {
                if within(span, from)
                    && let Some(twin) = image(span, map, to)
                {
                    out.push(Twin {
                        slate: self
                            .strand
                            .take_at(&twin.first())
                            .and_then(|t| t.slate.clone()),
                        span: twin,
                        by: TwinBy::Map,
                    });
                }
            }
        }
        out
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
        let mut twins = self.by_map(span);
        for twin in self.by_setup(span) {
            // A map knows better than the setup.
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

/// What a map makes of a span, as far as the other take holds the whole of it.
fn image(span: &Span, map: TimeMap, take: &Span) -> Option<Span> {
    let nearest = |frame: u32| u32::try_from(map.nearest(i64::from(frame))).ok();
    let begin = nearest(span.range.begin().index())?;
    let end = nearest(span.range.end().index())?;
    let found = Span::new(take.roll.clone(), FrameRange::of(begin, end).ok()?);
    within(&found, take).then_some(found)
}
