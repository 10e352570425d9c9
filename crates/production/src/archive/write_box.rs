//! A gathered box written.

use std::path::{Path, PathBuf};

use onestrand_archive::{ArchiveError, BagWriter, Digests};
use onestrand_intake::Cancel;

use super::box_plan::BoxPlan;
use super::read_me::read_me;
use super::scans::{RunHash, ScanToBox};
use super::{PRODUCTION, SCANS, stopped_if, telling};
use crate::documents::{BoxDocument, BoxedFileDocument, BoxedScanDocument, LeftOutDocument};
use crate::{ProductionError, Progress, write_mix};

/// The list of scans and finishes, as it lies in a box.
#[derive(Debug, serde::Serialize, serde::Deserialize)]
pub(super) struct ScansList {
    pub(super) scans: Vec<BoxedScanDocument>,
    pub(super) finishes: Vec<BoxedFileDocument>,
}

/// What the sheets of a film come to, about, where they are not printed yet. Unit: bytes.
const A_SHEET: u64 = 400_000;

struct Writing<'a> {
    bag: BagWriter,
    cancel: &'a Cancel,
    progress: &'a mut dyn Progress,
}

impl BoxPlan {
    /// Writes the box, reads it back and gives it its name.
    ///
    /// # Errors
    /// [`ProductionError::ScanChanged`] for a scan that is not what was read,
    /// [`ProductionError::Archive`] for a disk that fills, a name that is taken, and when it
    /// was stopped; nothing of the box is left then.
    pub fn write(
        mut self,
        out: &Path,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<BoxDocument, ProductionError> {
        let out =
            std::path::absolute(out).map_err(crate::error::file("name the folder in full", out))?;
        let mut bag = BagWriter::begin(&out)?;
        let expected = self.expected();
        bag.expect(expected)?;
        let mut writing = Writing {
            bag,
            cancel,
            progress,
        };
        // The scans last but one: whatever else is the matter is told before hours of copying.
        let sheets = writing.sheets(&mut self)?;
        let mixes = writing.mixes(&self)?;
        for text in &self.texts {
            writing.bag.put(&text.path, &text.bytes)?;
        }
        writing.bag.put("dublin-core.xml", self.core.as_bytes())?;
        writing
            .progress
            .begin_in("bytes", "copying into the box", Some(expected));
        let database = self.database.path().to_owned();
        writing.copy(&format!("{PRODUCTION}/production.db"), &database)?;
        for (path, name) in &self.kept {
            writing.copy(name, path)?;
        }
        let finishes = writing.finishes(&self.finishes)?;
        let scans = writing.scans(&self.scans, self.with_scans)?;
        let list = ScansList { scans, finishes };
        let text = serde_json::to_vec_pretty(&list).map_err(onestrand_store::StoreError::from)?;
        writing.bag.put(SCANS, &text)?;
        let paper = super::accession_paper::accession_pdf(&self, &list)?;
        writing.bag.put("accession-sheet.pdf", &paper)?;
        writing
            .bag
            .put("read-me-first.txt", read_me(&self, &list.scans).as_bytes())?;
        let Writing { bag, .. } = writing;
        let info = self.info(bag.bytes());
        progress.begin_in("bytes", "reading the box back", Some(bag.bytes()));
        let bagged = bag.done(&info, &mut telling(progress, cancel))?;
        Ok(BoxDocument {
            place: crate::film_frames::path_text(&out),
            title: self.title,
            files: bagged.files,
            bytes: bagged.bytes,
            verified: true,
            scans: list.scans,
            finishes: list
                .finishes
                .into_iter()
                .filter_map(|one| one.path)
                .collect(),
            mixes,
            sheets,
            left_out: self.left_out,
        })
    }

    /// What it will have, about. Unit: bytes.
    fn expected(&self) -> u64 {
        let size = |path: &PathBuf| std::fs::metadata(path).map_or(0, |about| about.len());
        let scans: u64 = match self.with_scans {
            true => self
                .scans
                .iter()
                .flat_map(|scan| &scan.files)
                .map(size)
                .sum(),
            false => 0,
        };
        let mixes = self
            .mixes
            .iter()
            .map(|mix| mix.set.mix.samples() * 3 * mix.set.mix.channels as u64);
        size(&self.database.path().to_owned())
            + self.kept.iter().map(|(path, _)| size(path)).sum::<u64>()
            + self.finishes.iter().map(size).sum::<u64>()
            + self
                .texts
                .iter()
                .map(|text| text.bytes.len() as u64)
                .sum::<u64>()
            + self
                .papers
                .iter()
                .map(|paper| paper.count() * A_SHEET)
                .sum::<u64>()
            + mixes.sum::<u64>()
            + scans
    }

    /// What stands in `bag-info.txt`.
    fn info(&self, bytes: u64) -> Vec<(String, String)> {
        let today = jiff::Timestamp::now().to_string();
        let pairs = [
            ("Source-Organization", self.words.keeper.clone()),
            ("External-Identifier", self.words.number.clone()),
            (
                "External-Description",
                format!("{}: {}", self.title, self.about),
            ),
            ("Title", self.title.clone()),
            ("Bagging-Date", today.chars().take(10).collect()),
            ("Bag-Size", format!("{:.1} MB", bytes as f64 / 1_000_000.0)),
            (
                "Bag-Software-Agent",
                format!("Onestrand {}", env!("CARGO_PKG_VERSION")),
            ),
        ];
        pairs
            .into_iter()
            .filter(|(_, value)| !value.is_empty())
            .map(|(label, value)| (label.to_owned(), value))
            .collect()
    }
}

impl Writing<'_> {
    fn copy(&mut self, name: &str, from: &Path) -> Result<(), ProductionError> {
        self.copy_seen(name, from, &mut |_| {})
    }

    fn copy_seen(
        &mut self,
        name: &str,
        from: &Path,
        seen: &mut dyn FnMut(&[u8]),
    ) -> Result<(), ProductionError> {
        let mut told = telling(self.progress, self.cancel);
        Ok(self.bag.put_file(name, from, seen, &mut told)?)
    }

    fn sheets(&mut self, plan: &mut BoxPlan) -> Result<usize, ProductionError> {
        let all = plan.papers.iter().map(super::papers::Paper::count).sum();
        self.progress
            .begin_in("sheets", "printing the sheets", Some(all));
        let mut printed = 0;
        let mut left: Vec<LeftOutDocument> = Vec::new();
        for paper in &mut plan.papers {
            paper.print(self.cancel, &mut left, &mut |path, pdf| {
                self.bag.put(path, pdf)?;
                printed += 1;
                self.progress.at(printed);
                Ok(())
            })?;
        }
        plan.left_out.append(&mut left);
        Ok(usize::try_from(printed).unwrap_or(usize::MAX))
    }

    fn mixes(&mut self, plan: &BoxPlan) -> Result<Vec<String>, ProductionError> {
        let mut all = Vec::new();
        for mix in &plan.mixes {
            stopped_if(self.cancel)?;
            let (cancel, progress) = (self.cancel, &mut *self.progress);
            self.bag.put_made(&mix.path, &mut |_| true, |place| {
                write_mix(&mix.set, &mix.said, place, mix.stem, cancel, progress).map(|_| ())
            })?;
            all.push(mix.path.clone());
        }
        Ok(all)
    }

    fn finishes(
        &mut self,
        finishes: &[PathBuf],
    ) -> Result<Vec<BoxedFileDocument>, ProductionError> {
        let mut all = Vec::new();
        for from in finishes {
            let name = from.file_name().unwrap_or_default().to_string_lossy();
            let name = format!("finish/{}", name.replace(super::HARD_SIGNS, "_"));
            self.copy(&name, from)?;
            let digests = self.digests(&name)?;
            all.push(boxed(from, Some(&name), &digests));
        }
        Ok(all)
    }

    /// Checksums of what was just written.
    fn digests(&self, name: &str) -> Result<Digests, ProductionError> {
        let path = onestrand_archive::BagPath::payload(name)?;
        let mut written = self.bag.written();
        let found = written.find(|(known, _)| **known == path);
        found.map(|(_, digests)| digests.clone()).ok_or_else(|| {
            ArchiveError::NotAsWritten {
                first: name.to_owned(),
            }
            .into()
        })
    }

    fn scans(
        &mut self,
        scans: &[ScanToBox],
        copied: bool,
    ) -> Result<Vec<BoxedScanDocument>, ProductionError> {
        let mut all = Vec::new();
        for scan in scans {
            let mut document = scan.document.clone();
            document.in_box = copied;
            let mut hash = RunHash::default();
            for (nth, from) in scan.files.iter().enumerate() {
                hash.begin(Path::new(&scan.record.paths[nth]));
                let name = &scan.names[nth];
                let (name, digests) = match copied {
                    true => {
                        self.copy_seen(name, from, &mut |piece| hash.take(piece))?;
                        (Some(name), self.digests(name)?)
                    }
                    false => (None, self.only_read(from, &mut hash)?),
                };
                hash.end();
                document
                    .files
                    .push(boxed(from, name.map(String::as_str), &digests));
            }
            if scan.files.is_empty() {
                let count = scan.record.paths.len();
                document.files = (0..count).map(|nth| scan.file(nth)).collect();
            } else if hash.hex() != scan.record.blake3 {
                return Err(ProductionError::ScanChanged {
                    roll: document.roll,
                    found: "not the same to the bit".to_owned(),
                    path: scan.files[0].clone(),
                });
            }
            all.push(document);
        }
        Ok(all)
    }

    /// The checksums of a scan that stays where it is.
    fn only_read(&mut self, from: &Path, hash: &mut RunHash) -> Result<Digests, ProductionError> {
        let mut told = telling(self.progress, self.cancel);
        Ok(onestrand_archive::digests_seen(
            from,
            &mut |piece| hash.take(piece),
            &mut told,
        )?)
    }
}

/// Where a file lies, in full.
fn in_full(path: &Path) -> String {
    let full = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    crate::film_frames::path_text(&full)
}

fn boxed(from: &Path, name: Option<&str>, digests: &Digests) -> BoxedFileDocument {
    BoxedFileDocument {
        place: in_full(from),
        path: name.map(str::to_owned),
        bytes: digests.bytes,
        sha256: Some(digests.sha256.clone()),
        sha512: Some(digests.sha512.clone()),
    }
}
