//! The strand: all film of a production, every frame named once.

use std::collections::BTreeMap;

use onestrand_film::{FrameName, FrameRange, Frames, Gauge, RollId, Span};

use crate::Slate;

/// What the film is made of; decides which joins hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Base {
    /// Takes tape, cement and weld.
    Triacetate,
    /// Takes tape or an ultrasonic join only, never cement.
    Polyester,
    /// Nobody has looked yet. A pull by hand tells: triacetate tears.
    #[default]
    NotKnown,
}

/// What a roll may be used for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Fit {
    /// May be cut and projected.
    #[default]
    Project,
    /// May be scanned only.
    ScanOnly,
    /// May never be cut, whatever its state.
    NeverCut,
}

/// Which side and edge the holes are on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Wind {
    /// Reads right through the emulsion: a contact print.
    A,
    /// Reads right through the base: camera original.
    B,
}

/// One camera roll.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Roll {
    /// Its name.
    pub id: RollId,
    /// Its gauge.
    pub gauge: Gauge,
    /// Its base.
    pub base: Base,
    /// What it may be used for.
    pub fit: Fit,
    /// Its wind, if known.
    pub wind: Option<Wind>,
    /// Frames on it.
    pub frames: Frames,
    /// Whether the scan is proved complete: as many frames found as the
    /// measured length holds, none missing, no break in the counting.
    pub proved: bool,
}

/// The maker's word about a take.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Rating {
    /// Nothing said.
    #[default]
    None,
    /// Chosen on the day.
    Circled,
    /// Kept in reserve.
    Hold,
    /// No good.
    Ng,
}

/// One run of the camera.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Take {
    /// Where it lies.
    pub span: Span,
    /// What the slate says, when it has been named.
    pub slate: Option<Slate>,
    /// The maker's word.
    pub rating: Rating,
    /// Size of the view: wide, medium, close.
    pub size: String,
    /// What the camera does.
    pub camera_move: String,
    /// Who moves which way.
    pub direction: String,
    /// What happens.
    pub action: String,
    /// The user's own note.
    pub note: String,
}

/// All rolls and takes of a production.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Strand {
    gauge: Gauge,
    rolls: BTreeMap<RollId, Roll>,
    takes: Vec<Take>,
}

impl Strand {
    /// The strand of a production whose leader has this gauge.
    ///
    /// Takes are sorted by roll and place.
    #[must_use]
    pub fn new(
        gauge: Gauge,
        rolls: impl IntoIterator<Item = Roll>,
        takes: impl IntoIterator<Item = Take>,
    ) -> Self {
        let mut takes: Vec<Take> = takes.into_iter().collect();
        takes.sort_by(|a, b| a.span.cmp(&b.span));
        let rolls = rolls.into_iter().map(|r| (r.id.clone(), r)).collect();
        Self {
            gauge,
            rolls,
            takes,
        }
    }

    /// The gauge the film is to be cut in.
    #[must_use]
    pub const fn gauge(&self) -> Gauge {
        self.gauge
    }

    /// The rolls in the order of their names.
    pub fn rolls(&self) -> impl Iterator<Item = &Roll> {
        self.rolls.values()
    }

    /// A roll by its name.
    #[must_use]
    pub fn roll(&self, id: &RollId) -> Option<&Roll> {
        self.rolls.get(id)
    }

    /// All takes, by roll and place.
    #[must_use]
    pub fn takes(&self) -> &[Take] {
        &self.takes
    }

    /// The takes of one roll in order.
    #[must_use]
    pub fn takes_of(&self, roll: &RollId) -> &[Take] {
        let from = self.takes.partition_point(|t| t.span.roll < *roll);
        let len = self.takes[from..].partition_point(|t| t.span.roll == *roll);
        &self.takes[from..from + len]
    }

    /// The take that a frame belongs to.
    #[must_use]
    pub fn take_at(&self, name: &FrameName) -> Option<&Take> {
        let takes = self.takes_of(&name.roll);
        let after = takes.partition_point(|t| t.span.range.begin() <= name.frame);
        let take = takes.get(after.checked_sub(1)?)?;
        take.span.range.contains(name.frame).then_some(take)
    }

    /// The take that wholly holds a span.
    #[must_use]
    pub fn take_holding(&self, roll: &RollId, range: FrameRange) -> Option<&Take> {
        let first = FrameName {
            roll: roll.clone(),
            frame: range.begin(),
        };
        self.take_at(&first)
            .filter(|t| range.end() <= t.span.range.end())
    }
}
