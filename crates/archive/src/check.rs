//! A bag read again and held against its own checksums.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use crate::manifest::{self, Algorithm};
use crate::{ArchiveError, BagPath, BagProblem, Digests, Told, digests_of, tags};

/// A bag that was looked at from end to end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checked {
    /// Files of the payload that are there.
    pub files: u64,
    /// Their bytes.
    pub bytes: u64,
    /// What stands in `bag-info.txt`.
    pub info: Vec<(String, String)>,
    /// All that is not as it was written, by path; nothing when the bag is whole.
    pub problems: Vec<BagProblem>,
    /// What is there, with its checksums.
    pub found: BTreeMap<BagPath, Digests>,
}

/// Whether a folder has what every bag has; no more is looked at.
pub(crate) fn is_whole(bag: &Path) -> bool {
    bag.join("bagit.txt").is_file() && bag.join("data").is_dir()
}

/// Reads every file of a bag and compares it with the manifests. `told` hears the bytes
/// that were read.
///
/// # Errors
/// [`ArchiveError::NoBag`] when it is none, or its manifests cannot be read;
/// [`ArchiveError::Stopped`].
pub fn check(bag: &Path, told: Told<'_>) -> Result<Checked, ArchiveError> {
    declaration(bag)?;
    let mut looking = Looking::at(bag)?;
    let mut all: BTreeSet<BagPath> = looking.listed().cloned().collect();
    let payload = payload(bag, &mut looking.problems)?;
    all.extend(payload.iter().cloned());
    looking.read(&all, told)?;
    looking.not_listed(&payload);
    looking.sum();
    looking.problems.sort_by(|a, b| a.path().cmp(&b.path()));
    let data = looking.found.iter().filter(|(path, _)| path.is_payload());
    Ok(Checked {
        files: data.clone().count() as u64,
        bytes: data.map(|(_, digests)| digests.bytes).sum(),
        info: looking.info,
        problems: looking.problems,
        found: looking.found,
    })
}

/// One manifest that can be compared.
struct Manifest {
    name: String,
    algorithm: Algorithm,
    is_payload: bool,
    lists: BTreeMap<BagPath, String>,
}

struct Looking<'a> {
    bag: &'a Path,
    manifests: Vec<Manifest>,
    fetch: BTreeMap<BagPath, String>,
    info: Vec<(String, String)>,
    problems: Vec<BagProblem>,
    found: BTreeMap<BagPath, Digests>,
}

impl<'a> Looking<'a> {
    fn at(bag: &'a Path) -> Result<Self, ArchiveError> {
        let mut looking = Self {
            bag,
            manifests: Vec::new(),
            fetch: BTreeMap::new(),
            info: Vec::new(),
            problems: Vec::new(),
            found: BTreeMap::new(),
        };
        for name in names(bag)? {
            let (is_payload, rest) = match name.strip_prefix("tagmanifest-") {
                Some(rest) => (false, Some(rest)),
                None => (true, name.strip_prefix("manifest-")),
            };
            let Some(word) = rest.and_then(|rest| rest.strip_suffix(".txt")) else {
                continue;
            };
            let text = text(bag, &name)?;
            let known = Algorithm::ALL.into_iter().find(|one| one.word() == word);
            let Some(algorithm) = known else {
                looking
                    .problems
                    .push(BagProblem::NotCompared { manifest: name });
                continue;
            };
            let lists = manifest::read(bag, &text)?;
            looking.manifests.push(Manifest {
                name,
                algorithm,
                is_payload,
                lists,
            });
        }
        if !looking.manifests.iter().any(|one| one.is_payload) {
            return Err(no_bag(
                bag,
                "there is no manifest of a kind that is known here",
            ));
        }
        if bag.join("bag-info.txt").is_file() {
            looking.info = tags::read(&text(bag, "bag-info.txt")?);
        }
        if bag.join("fetch.txt").is_file() {
            looking.fetch = fetched(&text(bag, "fetch.txt")?);
        }
        Ok(looking)
    }

    fn listed(&self) -> impl Iterator<Item = &BagPath> {
        self.manifests.iter().flat_map(|one| one.lists.keys())
    }

    fn read(&mut self, all: &BTreeSet<BagPath>, told: Told<'_>) -> Result<(), ArchiveError> {
        let mut before = 0;
        for path in all {
            let place = path.within(self.bag);
            let about = match place.symlink_metadata() {
                Ok(about) => about,
                Err(_) => {
                    let fetch = self.fetch.get(path).cloned();
                    let path = path.clone();
                    self.problems.push(BagProblem::Missing { path, fetch });
                    continue;
                }
            };
            if !about.is_file() || leads_out(self.bag, path) {
                let why = "it is no plain file of the box".to_owned();
                let path = path.clone();
                self.problems.push(BagProblem::Unreadable { path, why });
                continue;
            }
            match digests_of(&place, before, told) {
                Ok(digests) => {
                    before += digests.bytes;
                    self.compare(path, &digests);
                    self.found.insert(path.clone(), digests);
                }
                Err(ArchiveError::File { source, .. }) => {
                    let (path, why) = (path.clone(), source.to_string());
                    self.problems.push(BagProblem::Unreadable { path, why });
                }
                Err(problem) => return Err(problem),
            }
        }
        Ok(())
    }

    /// One problem a file is enough: a bit that differs changes every checksum of it.
    fn compare(&mut self, path: &BagPath, digests: &Digests) {
        let differs = self.manifests.iter().find_map(|one| {
            let listed = one.lists.get(path)?;
            let found = one.algorithm.of(digests);
            (listed != found).then(|| BagProblem::Changed {
                path: path.clone(),
                algorithm: one.algorithm.word(),
                listed: listed.clone(),
                found: found.to_owned(),
            })
        });
        self.problems.extend(differs);
    }

    /// Every file of the payload stands in every manifest of it (RFC 8493, 2.1.3).
    fn not_listed(&mut self, payload: &BTreeSet<BagPath>) {
        for path in payload {
            let manifests = self.manifests.iter().filter(|one| one.is_payload);
            let lacking = manifests
                .filter(|one| !one.lists.contains_key(path))
                .map(|one| one.name.clone())
                .next();
            if let Some(manifest) = lacking {
                let path = path.clone();
                self.problems.push(BagProblem::NotListed { path, manifest });
            }
        }
    }

    fn sum(&mut self) {
        let said = self.info.iter().find(|(label, _)| label == "Payload-Oxum");
        let Some((_, listed)) = said else { return };
        let data = self.found.iter().filter(|(path, _)| path.is_payload());
        let bytes: u64 = data.clone().map(|(_, digests)| digests.bytes).sum();
        let found = format!("{bytes}.{}", data.count());
        if *listed != found {
            let listed = listed.clone();
            self.problems.push(BagProblem::Sum { listed, found });
        }
    }
}

fn no_bag(bag: &Path, why: &str) -> ArchiveError {
    ArchiveError::NoBag {
        why: why.to_owned(),
        path: bag.to_owned(),
    }
}

/// The first two lines of every bag (RFC 8493, 2.1.1).
fn declaration(bag: &Path) -> Result<(), ArchiveError> {
    if !bag.join("bagit.txt").is_file() {
        return Err(no_bag(bag, "it has no bagit.txt"));
    }
    if !bag.join("data").is_dir() {
        return Err(no_bag(bag, "it has no folder data"));
    }
    let said = tags::read(&text(bag, "bagit.txt")?);
    let of = |label: &str| {
        said.iter()
            .find(|one| one.0 == label)
            .map(|one| one.1.as_str())
    };
    match (of("BagIt-Version"), of("Tag-File-Character-Encoding")) {
        (Some("1.0" | "0.97" | "0.96" | "0.95" | "0.94" | "0.93"), Some(coding))
            if coding.eq_ignore_ascii_case("utf-8") =>
        {
            Ok(())
        }
        (version, coding) => Err(no_bag(
            bag,
            &format!(
                "its version is {}, its letters are {}; 0.93 to 1.0 and UTF-8 are known here",
                version.unwrap_or("not said"),
                coding.unwrap_or("not said")
            ),
        )),
    }
}

/// The largest tag file that is read: a million files have one of 200 MB.
const LARGEST_TAG: u64 = 512 << 20;

fn text(bag: &Path, name: &str) -> Result<String, ArchiveError> {
    let path = bag.join(name);
    let wrong = || ArchiveError::file("read", &path);
    if std::fs::metadata(&path).map_err(wrong())?.len() > LARGEST_TAG {
        return Err(no_bag(
            bag,
            &format!("{name} is larger than any list of files"),
        ));
    }
    let text = std::fs::read(&path).map_err(wrong())?;
    String::from_utf8(text).map_err(|_| no_bag(bag, &format!("{name} is no UTF-8 text")))
}

/// Names in the top folder, in order.
fn names(bag: &Path) -> Result<Vec<String>, ArchiveError> {
    let entries = std::fs::read_dir(bag).map_err(ArchiveError::file("read the folder", bag))?;
    let mut names = Vec::new();
    for entry in entries {
        let entry = entry.map_err(ArchiveError::file("read the folder", bag))?;
        names.push(entry.file_name().to_string_lossy().into_owned());
    }
    names.sort();
    Ok(names)
}

/// Every file of the payload; links are not followed.
fn payload(bag: &Path, problems: &mut Vec<BagProblem>) -> Result<BTreeSet<BagPath>, ArchiveError> {
    let mut found = BTreeSet::new();
    let mut folders = vec!["data".to_owned()];
    while let Some(folder) = folders.pop() {
        let place = bag.join(&folder);
        let wrong = || ArchiveError::file("read the folder", &place);
        for entry in std::fs::read_dir(&place).map_err(wrong())? {
            let entry = entry.map_err(wrong())?;
            let name = entry.file_name();
            let path = format!("{folder}/{}", name.to_string_lossy());
            if entry.file_type().map_err(wrong())?.is_dir() {
                folders.push(path);
                continue;
            }
            let known = BagPath::new(&path)?;
            if name.to_str().is_none() {
                let why = "its name is no text that a manifest could hold".to_owned();
                problems.push(BagProblem::Unreadable { path: known, why });
            } else {
                found.insert(known);
            }
        }
    }
    Ok(found)
}

/// Whether a folder on the way to a file is a link.
fn leads_out(bag: &Path, path: &BagPath) -> bool {
    let place = path.within(bag);
    let folders = place.ancestors().skip(1).take_while(|at| *at != bag);
    folders
        .into_iter()
        .any(|at| at.symlink_metadata().is_ok_and(|about| about.is_symlink()))
}

/// `fetch.txt`: address, length, path.
fn fetched(text: &str) -> BTreeMap<BagPath, String> {
    let lines = text.lines().filter_map(|line| {
        let mut words = line.splitn(3, [' ', '\t']);
        let (from, _length, path) = (words.next()?, words.next()?, words.next()?);
        Some((BagPath::decoded(path.trim()).ok()?, from.to_owned()))
    });
    lines.collect()
}
