//! Which of two copies is nearer the original.

mod likelihood;
mod placed;
mod sharpness;
mod specks;
mod window;

use crate::ProvenanceError;
use crate::scan_picture::{Grey, ScanPicture};

use self::placed::{Placed, placed};
use self::specks::Specks;

pub use self::likelihood::{CopyEvidence, EvidenceKind, Kinship};

/// The same three frames, one after another, in two scans.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SameFrames {
    /// In the first copy.
    pub first: [ScanPicture; 3],
    /// In the second.
    pub second: [ScanPicture; 3],
}

/// What two copies show of each other.
#[derive(Debug, Clone, PartialEq)]
pub struct CopiesFound {
    /// How probable each kinship is; together they are 1.
    pub kinships: Vec<(Kinship, f64)>,
    /// What that rests on.
    pub evidence: Vec<CopyEvidence>,
    /// What could not be looked at, in words.
    pub unseen: Vec<String>,
    /// Places of frames that could be laid over each other.
    pub laid: usize,
    /// How much larger the second shows the picture than the first.
    pub size: f64,
}

impl CopiesFound {
    /// The likeliest kinship.
    #[must_use]
    pub fn likeliest(&self) -> (Kinship, f64) {
        let best = self.kinships.iter().max_by(|a, b| a.1.total_cmp(&b.1));
        best.copied().unwrap_or((Kinship::OfAThird, 0.0))
    }
}

/// Fewest places at which the copies must be laid over each other.
const LEAST: usize = 3;

/// One place of both copies, in grey and laid over each other.
struct Pair {
    first: [Grey; 3],
    second: [Grey; 3],
    placed: Placed,
}

/// Compares two copies at some places where both show the same frames; 6 to 16 will do.
///
/// # Errors
/// [`ProvenanceError::TooFew`] when fewer than three are given or can be laid over each
/// other; [`ProvenanceError::Sizes`] when the pictures of one copy differ in size.
pub fn compare_copies(same: &[SameFrames]) -> Result<CopiesFound, ProvenanceError> {
    let sizes = |of: fn(&SameFrames) -> &[ScanPicture; 3]| {
        let mut all = same.iter().flat_map(of).map(|p| (p.width(), p.height()));
        let first = all.next();
        all.all(|size| Some(size) == first)
    };
    if !sizes(|s| &s.first) || !sizes(|s| &s.second) {
        return Err(ProvenanceError::Sizes);
    }
    let pairs = laid(same);
    if pairs.len() < LEAST {
        return Err(ProvenanceError::TooFew {
            found: pairs.len(),
            least: LEAST,
        });
    }
    let mut specks = Specks::default();
    pairs.iter().for_each(|pair| specks.add(pair));
    let (mut evidence, mut unseen) = (Vec::new(), Vec::new());
    let mut weigh = |found: Result<CopyEvidence, String>| match found {
        Ok(found) => evidence.push(found),
        Err(words) => unseen.push(words),
    };
    weigh(likelihood::dirt(&specks));
    weigh(likelihood::dirt_shared(&specks));
    weigh(likelihood::window(window::shown_more(&pairs)));
    weigh(likelihood::sharpness(sharpness::sharper(&pairs)));
    weigh(likelihood::contrast(sharpness::harder(&pairs)));
    Ok(CopiesFound {
        kinships: likelihood::together(&evidence),
        evidence,
        unseen,
        laid: pairs.len(),
        size: f64::from(pairs[0].placed.size),
    })
}

/// All places that can be laid over each other; the size is found once.
fn laid(same: &[SameFrames]) -> Vec<Pair> {
    let grey = |pictures: &[ScanPicture; 3]| [0, 1, 2].map(|i| pictures[i].grey());
    let mut pairs: Vec<Pair> = Vec::new();
    let mut known = None;
    for frames in same {
        let (first, second) = (grey(&frames.first), grey(&frames.second));
        if let Some(placed) = placed(&first[1], &second[1], known) {
            known = known.or(Some(placed));
            pairs.push(Pair {
                first,
                second,
                placed,
            });
        }
    }
    pairs
}
