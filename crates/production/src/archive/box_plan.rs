//! All that goes into a box, gathered from the film so that it can be written while the
//! film is worked on.

use std::path::{Path, PathBuf};

use onestrand_intake::Cancel;
use onestrand_store::{JobKind, JobState, Production};
use tempfile::NamedTempFile;

use super::accession::accession_words;
use super::core_terms::core_terms;
use super::open_text::{OpenText, open_text};
use super::papers::Paper;
use super::scans::{ScanToBox, scans_to_box};
use super::{PRODUCTION, stopped_if};
use crate::documents::{AccessionWords, ActionDocument, LeftOutDocument};
use crate::error::{file, unfit};
use crate::gather_sheets::file_word;
use crate::{MixAsked, MixSaid, MixSet, ProductionError, Progress, version_for_sound};

/// What is wanted in a box.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BoxAsked {
    /// Whether the scans are copied into it; else their fixity and place stand in it.
    pub scans: bool,
    /// Folders in which scans and finishes that have moved are looked for.
    pub media: Vec<PathBuf>,
    /// The versions whose mix and stems are made for it; the newest that has cues when not
    /// said.
    pub mixes: Option<Vec<String>>,
    /// Digital finishes to put in, besides those that were made here and are still there.
    pub finishes: Vec<PathBuf>,
    /// Whether the sheets are printed for it.
    pub sheets: bool,
}

impl Default for BoxAsked {
    fn default() -> Self {
        Self {
            scans: true,
            media: Vec::new(),
            mixes: None,
            finishes: Vec::new(),
            sheets: true,
        }
    }
}

/// A mix, or a stem of it, that is made for the box.
pub(super) struct MixToBox {
    pub(super) path: String,
    pub(super) set: MixSet,
    pub(super) said: MixSaid,
    pub(super) stem: Option<usize>,
}

/// All that goes into a box.
pub struct BoxPlan {
    pub(super) title: String,
    pub(super) about: String,
    pub(super) words: AccessionWords,
    pub(super) actions: Vec<ActionDocument>,
    /// Each roll as it was found with the film in the hand.
    pub(super) physical: Vec<Vec<String>>,
    pub(super) database: NamedTempFile,
    /// Files of the film's folder, with where they lie in the payload.
    pub(super) kept: Vec<(PathBuf, String)>,
    pub(super) scans: Vec<ScanToBox>,
    pub(super) with_scans: bool,
    pub(super) texts: Vec<OpenText>,
    pub(super) core: String,
    pub(super) mixes: Vec<MixToBox>,
    pub(super) finishes: Vec<PathBuf>,
    pub(super) papers: Vec<Paper>,
    pub(super) left_out: Vec<LeftOutDocument>,
}

impl std::fmt::Debug for BoxPlan {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("BoxPlan")
            .field("title", &self.title)
            .field("scans", &self.scans.len())
            .finish_non_exhaustive()
    }
}

impl BoxPlan {
    /// Gathers what goes into a box. Quick, unless a scan has moved and is looked for.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] for scans that are wanted and not found, all named, and
    /// for finishes that are not there; [`ProductionError::Store`].
    pub fn gather(
        production: &Production,
        asked: &BoxAsked,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<Self, ProductionError> {
        let scans = scans_to_box(production, &asked.media, cancel, progress)?;
        stopped_if(cancel)?;
        if asked.scans {
            all_found(&scans)?;
        }
        let words = accession_words(production)?;
        let mut left_out = vec![LeftOutDocument {
            what: "workprints".to_owned(),
            why: "they are made again from the scans".to_owned(),
        }];
        let finishes = finishes(production, asked, cancel, &mut left_out)?;
        let mixes = mixes(production, asked, &mut left_out)?;
        let papers = match asked.sheets {
            true => super::papers::papers(production, &mut left_out)?,
            false => Vec::new(),
        };
        let database = NamedTempFile::new().map_err(file("make a file", &std::env::temp_dir()))?;
        Production::backup(production.dir(), database.path())?;
        let meta = production.meta();
        Ok(Self {
            title: meta.title.clone(),
            about: format!("{} film, {} f/s", meta.gauge.spec().name, meta.speed),
            core: core_terms(production, &words)?,
            words,
            actions: super::actions::actions(production)?,
            physical: physical(production)?,
            database,
            kept: kept_files(production.dir(), &scans, asked.scans),
            scans,
            with_scans: asked.scans,
            texts: open_text(production)?,
            mixes,
            finishes,
            papers,
            left_out,
        })
    }
}

/// Name, length, base and shrinkage, and the state of each roll.
fn physical(production: &Production) -> Result<Vec<Vec<String>>, ProductionError> {
    let mut rows = Vec::new();
    for roll in production.rolls()? {
        let model = roll.to_model()?;
        let shrunk = crate::roll_measures::shrinkage(&roll)?;
        let shrunk = shrunk.map_or_else(
            || "shrinkage not measured".to_owned(),
            |s| format!("shrunk {s} %"),
        );
        let found = &roll.inspection.condition;
        let state = [
            ("", &found.picture),
            ("acid ", &found.acid),
            ("vinegar ", &found.vinegar),
            ("", &found.warping),
            ("perforations ", &found.perforations),
            ("scratches ", &found.scratches),
            ("", &found.fading),
            ("sound ", &found.sound),
            ("", &found.note),
        ];
        let state = state.into_iter().filter(|(_, words)| !words.is_empty());
        let state: Vec<String> = state
            .map(|(what, words)| format!("{what}{words}"))
            .collect();
        let lies = match roll.inspection.lies.as_str() {
            "heads" => "heads out",
            "tails" => "tails out",
            _ => "heads or tails out: not looked at",
        };
        let state = match state.is_empty() {
            true => format!("not inspected; {lies}"),
            false => format!("{}; {lies}", state.join(", ")),
        };
        let base = match roll.base.as_str() {
            "not-known" => "base not known",
            base => base,
        };
        rows.push(vec![
            roll.name.clone(),
            format!(
                "{} frames, {}",
                super::words::counted(u64::from(roll.frames)),
                crate::reel_plan::footage_words(model.gauge, model.frames)
            ),
            format!("{base}, {shrunk}"),
            state,
        ]);
    }
    Ok(rows)
}

fn all_found(scans: &[ScanToBox]) -> Result<(), ProductionError> {
    let lost = scans.iter().filter(|scan| scan.files.is_empty());
    let lost: Vec<String> = lost
        .map(|scan| {
            let was = scan.record.paths.first().map_or("", String::as_str);
            format!("the scan of {}, read at {was}", scan.document.roll)
        })
        .collect();
    match lost.is_empty() {
        true => Ok(()),
        false => Err(unfit(
            format!("not found by name or checksum: {}", lost.join("; ")),
            "name the folder in which they lie now with --media, or make the box with --without-scans: their fixity and place stand in it then",
        )),
    }
}

/// What lies in the film's folder and belongs to it: all but what can be made again, what
/// is under way, and the file that is copied safely.
fn kept_files(dir: &Path, scans: &[ScanToBox], with_scans: bool) -> Vec<(PathBuf, String)> {
    let whole = |path: &Path| path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let of_scans: Vec<PathBuf> = scans
        .iter()
        .flat_map(|scan| &scan.files)
        .map(|p| whole(p))
        .collect();
    let dir = whole(dir);
    let is_ours = |rest: &Path| {
        let first = rest
            .iter()
            .next()
            .and_then(|name| name.to_str())
            .unwrap_or("");
        let name = rest
            .file_name()
            .and_then(|name| name.to_str())
            .unwrap_or("");
        first != "workprints"
            && !first.starts_with("production.")
            && !first.starts_with("production-before-")
            && !name.ends_with(".part")
            && !name.starts_with("arriving-")
            && !name.contains(super::HARD_SIGNS)
    };
    let folder = [dir.clone()];
    let all = super::find_again::files_in(&folder, &Cancel::new()).into_iter();
    all.filter_map(|(path, _)| {
        let rest = path.strip_prefix(&dir).ok()?;
        // Scans of rolls go their own way, with their fingerprint.
        let is_scan = of_scans.contains(&path) || (rest.starts_with("scans") && !with_scans);
        let plain = rest.to_str().filter(|_| is_ours(rest) && !is_scan)?;
        let name = format!("{PRODUCTION}/{plain}");
        Some((path.clone(), name))
    })
    .collect()
}

/// Finishes that were made here and are still there, and those that were named.
fn finishes(
    production: &Production,
    asked: &BoxAsked,
    cancel: &Cancel,
    left_out: &mut Vec<LeftOutDocument>,
) -> Result<Vec<PathBuf>, ProductionError> {
    let mut all: Vec<PathBuf> = Vec::new();
    for named in &asked.finishes {
        if !named.is_file() {
            return Err(unfit(
                format!("there is no file {}", named.display()),
                "name the finish where it lies now",
            ));
        }
        all.push(named.clone());
    }
    for job in production.jobs()? {
        if job.kind != JobKind::Finish || job.state != JobState::Done {
            continue;
        }
        let params: serde_json::Value = serde_json::from_str(&job.params).unwrap_or_default();
        let Some(out) = params["out"].as_str().map(PathBuf::from) else {
            continue;
        };
        let same_name = |path: &PathBuf| path.file_name() == out.file_name();
        if all.iter().any(|known| *known == out || same_name(known)) {
            continue;
        }
        if out.is_file() {
            all.push(out);
            continue;
        }
        let moved = super::find_again::files_in(&asked.media, cancel);
        let mut moved = moved.into_iter().map(|(path, _)| path).filter(same_name);
        match moved.next() {
            Some(path) => all.push(path),
            None => left_out.push(LeftOutDocument {
                what: job.words,
                why: format!("it is no longer at {}", out.display()),
            }),
        }
    }
    Ok(all)
}

/// The mixes that are wanted, each with its stems.
fn mixes(
    production: &Production,
    asked: &BoxAsked,
    left_out: &mut Vec<LeftOutDocument>,
) -> Result<Vec<MixToBox>, ProductionError> {
    let wanted = match &asked.mixes {
        Some(named) => named.clone(),
        None => version_for_sound(production, None).into_iter().collect(),
    };
    let mut all = Vec::new();
    for cut in wanted {
        let set = match MixSet::of(production, &cut, &MixAsked::default()) {
            Ok(set) if set.mix.cues.is_empty() => Err("no sound is laid to it".to_owned()),
            Ok(set) => Ok(set),
            Err(problem) => Err(problem.to_string()),
        };
        // A sound that is not there is told with its name when the mix is begun.
        match set {
            Ok(set) => {
                let word = file_word(&cut);
                let folder = format!("mix/{word}");
                for stem in std::iter::once(None).chain((0..set.names.len()).map(Some)) {
                    let name = stem.map_or("", |nth| set.names[nth].as_str());
                    let path = match stem {
                        None => format!("{folder}/{word}-mix.wav"),
                        Some(nth) => format!("{folder}/{word}-{}-{}.wav", nth + 1, file_word(name)),
                    };
                    all.push(MixToBox {
                        path,
                        said: MixSaid::of(production, &cut, name),
                        set: set.clone(),
                        stem,
                    });
                }
            }
            Err(why) => left_out.push(LeftOutDocument {
                what: format!("the mix of {cut}"),
                why,
            }),
        }
    }
    Ok(all)
}
