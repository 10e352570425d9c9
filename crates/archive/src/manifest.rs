//! Manifests: a checksum and a path a line.

use std::collections::BTreeMap;
use std::path::Path;

use crate::{ArchiveError, BagPath, Digests};

/// A way to take a checksum that is known here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Algorithm {
    Sha256,
    Sha512,
}

impl Algorithm {
    pub(crate) const ALL: [Self; 2] = [Self::Sha256, Self::Sha512];

    /// As it stands in the name of a manifest.
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Sha256 => "sha256",
            Self::Sha512 => "sha512",
        }
    }

    pub(crate) fn of(self, digests: &Digests) -> &str {
        match self {
            Self::Sha256 => &digests.sha256,
            Self::Sha512 => &digests.sha512,
        }
    }
}

/// A manifest as text, in the order of the paths.
pub(crate) fn written(all: &BTreeMap<BagPath, Digests>, algorithm: Algorithm) -> String {
    let lines = all.iter();
    lines
        .map(|(path, digests)| format!("{}  {}\n", algorithm.of(digests), path.encoded()))
        .collect()
}

/// What a manifest lists.
pub(crate) fn read(place: &Path, text: &str) -> Result<BTreeMap<BagPath, String>, ArchiveError> {
    let mut all = BTreeMap::new();
    for (number, line) in (1..).zip(text.split(['\n', '\r'])) {
        if line.trim().is_empty() {
            continue;
        }
        let no_bag = |why: String| ArchiveError::NoBag {
            why: format!("line {number} of a manifest {why}"),
            path: place.to_owned(),
        };
        let (sum, path) = line
            .trim_start()
            .split_once([' ', '\t'])
            .ok_or_else(|| no_bag("has no path".to_owned()))?;
        // A star before the path is how other tools mark a binary file.
        let path = path.trim_start();
        let path = BagPath::decoded(path.strip_prefix('*').unwrap_or(path))
            .map_err(|problem| no_bag(problem.to_string()))?;
        if all.insert(path.clone(), sum.to_ascii_lowercase()).is_some() {
            return Err(no_bag(format!("lists {path} a second time")));
        }
    }
    Ok(all)
}
