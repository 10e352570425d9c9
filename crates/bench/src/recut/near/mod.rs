//! Versions near the one wanted that cost less at the bench.
//!
//! Every strip may begin and end some frames earlier or later, so that a join that
//! is there already stays, or a frame that would be lost is not wanted.

mod clash;
mod course;
mod film;
mod windows;

use std::collections::BinaryHeap;

use onestrand_cut::{CheckRules, Piece, PieceKind, Strand, Strips, TrialCut, check};
use onestrand_film::{FrameRange, Span};

use super::Recut;
use super::joints::{Films, Joints};
use clash::without_clash;
use course::{Course, Laying};
use film::Cutting;
use windows::Windows;

/// The most frames that a boundary may be shifted by.
pub const MOST_SHIFT: u32 = 12;

/// How many cuttings are looked at before the search gives up.
const MOST_LOOKED_AT: usize = 300;

/// One boundary of a piece that lies elsewhere than wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shift {
    /// The position, counted from 1.
    pub position: usize,
    /// Whether the piece ends elsewhere; else it begins elsewhere.
    pub at_end: bool,
    /// By how many frames: later is more.
    pub frames: i64,
}

/// A version that costs less.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NearVersion {
    /// With this tolerance it is the best. Unit: frames.
    pub tolerance: u32,
    /// The version, with the joins it shares with the old one as they are there.
    pub cut: TrialCut,
    /// What lies elsewhere than in the version wanted.
    pub shifts: Vec<Shift>,
    /// Frames by which boundaries are shifted, all together.
    pub shifted: u64,
    /// What it costs.
    pub price: Recut,
}

/// The versions near the one wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NearVersions {
    /// Each better than the one before it and allowed more; none when nothing near
    /// is cheaper.
    pub found: Vec<NearVersion>,
    /// Whether it is proved that none within the tolerance is better.
    pub best: bool,
}

/// Joins worked on, frames lost, frames shifted: what is compared, in this order.
pub(super) type Worth = [i64; 3];

impl Recut {
    /// Joins opened and made, with the leaders, and those joined back inside.
    #[must_use]
    pub const fn worked(&self) -> usize {
        self.opened + self.made + self.leader_opened + self.leader_made + self.put_back
    }

    /// The cheaper versions near a new one, when every beginning and end of a strip
    /// may lie up to so many frames elsewhere (12 at most).
    ///
    /// `new` has the joins it shares with the old one as they are there
    /// ([`Recut::as_made`]). Fewest joins opened and made come first, then fewest
    /// frames lost, then the smallest shift. No take is left that was not left before,
    /// and no strip becomes too short to hold; each passes the strand check.
    #[must_use]
    pub fn near(
        old: &TrialCut,
        new: &TrialCut,
        strand: &Strand,
        rules: &CheckRules,
        tolerance: u32,
    ) -> NearVersions {
        let mut films = Films::default();
        let table = &rules.table;
        let olds = Joints::of(old, &Strips::of(old, table), &mut films);
        let news = Joints::of(new, &Strips::of(new, table), &mut films);
        let cutting = Cutting::new(&olds, &news, &films, strand, table, new.usual_join());
        let wanted = Self::price(old, new, strand, table);
        let mut least = (wanted.worked(), wanted.lost);
        let mut answer = NearVersions {
            found: Vec::new(),
            best: true,
        };
        for frames in 1..=tolerance.min(MOST_SHIFT) {
            let windows = Windows::new(new, &news, strand, &cutting, frames.into());
            let (laying, proved) = best(&cutting, windows);
            answer.best &= proved;
            let Some(laying) = laying else { continue };
            let (cut, shifts) = shifted(new, &news, &laying);
            let cut = Self::as_made(old, &cut, table);
            if !check(&cut, strand, rules).is_ok() {
                answer.best = false;
                continue;
            }
            let price = Self::price(old, &cut, strand, table);
            let found = (price.worked(), price.lost);
            if found < least {
                least = found;
                answer.found.push(NearVersion {
                    tolerance: frames,
                    cut,
                    shifted: shifts.iter().map(|s| s.frames.unsigned_abs()).sum(),
                    shifts,
                    price,
                });
            }
        }
        answer
    }
}

/// A cutting with its bound, the lowest first.
struct Standing {
    worth: Worth,
    number: usize,
    laying: Laying,
    windows: Windows,
}

impl PartialEq for Standing {
    fn eq(&self, other: &Self) -> bool {
        (self.worth, self.number) == (other.worth, other.number)
    }
}
impl Eq for Standing {}
impl PartialOrd for Standing {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Standing {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        (other.worth, other.number).cmp(&(self.worth, self.number))
    }
}

/// The best cutting in which no frame is wanted twice, and whether it is proved.
///
/// The course reckons as if strips that do not follow each other never met on a
/// roll. Where two do, all ways apart are looked at, the cheapest first.
fn best(cutting: &Cutting<'_>, windows: Windows) -> (Option<Laying>, bool) {
    let mut open: BinaryHeap<Standing> = BinaryHeap::new();
    let mut number = 0;
    let mut put = |open: &mut BinaryHeap<Standing>, windows: Windows| {
        if let Some((worth, laying)) = Course::new(cutting, &windows).best() {
            number += 1;
            open.push(Standing {
                worth,
                number,
                laying,
                windows,
            });
        }
    };
    put(&mut open, windows);
    for _ in 0..MOST_LOOKED_AT {
        let Some(standing) = open.pop() else {
            return (None, true);
        };
        let Some(ways) = without_clash(cutting, &standing.windows, &standing.laying) else {
            return (Some(standing.laying), true);
        };
        for way in ways {
            put(&mut open, way);
        }
    }
    (None, false)
}

/// The new version with its strips laid so.
fn shifted(new: &TrialCut, news: &Joints, laying: &Laying) -> (TrialCut, Vec<Shift>) {
    let mut pieces = new.pieces().to_vec();
    let mut shifts = Vec::new();
    for (strip, (begin, end)) in news.strips.iter().zip(&laying.ends) {
        let (first, last) = (strip.positions.0 - 1, strip.positions.1 - 1);
        let was = (i64::from(strip.begin), i64::from(strip.end));
        for (at, at_end, is, was) in [(first, false, *begin, was.0), (last, true, *end, was.1)] {
            if is != was {
                shifts.push(Shift {
                    position: at + 1,
                    at_end,
                    frames: is - was,
                });
            }
        }
        // Both at once where it is one piece: it may lie wholly beside where it was.
        if first == last {
            set(&mut pieces[first], Some(*begin), Some(*end));
        } else {
            set(&mut pieces[first], Some(*begin), None);
            set(&mut pieces[last], None, Some(*end));
        }
    }
    (TrialCut::new(pieces, new.usual_join()), shifts)
}

/// Lets a piece begin or end elsewhere.
fn set(piece: &mut Piece, begin: Option<i64>, end: Option<i64>) {
    let Some(span) = piece.span().cloned() else {
        return;
    };
    let place = |is: Option<i64>, was: u32| is.map_or(Ok(was), u32::try_from);
    let begin = place(begin, span.range.begin().index());
    let end = place(end, span.range.end().index());
    let (Ok(begin), Ok(end)) = (begin, end) else {
        return;
    };
    if let Ok(range) = FrameRange::of(begin, end) {
        piece.kind = PieceKind::Shot(Span::new(span.roll, range));
    }
}
