//! The production as open text: JSON documents, CSV forms, OpenTimelineIO.

use onestrand_store::{Production, Workprints};
use serde::Serialize;

use super::accession::accession_document;
use crate::documents::ActionDocument;
use crate::error::file;
use crate::gather_sheets::file_word;
use crate::{
    ProductionError, RollSheet, bench_room, captions, check_cut, cue_list, cues_csv, cut_document,
    decision_list, dub_document, export_cut, export_log, export_script, export_wild_sounds,
    gather_roll_sheet, grading_card, production_document, roll_log, script_document, sound_list,
    titles_document, write_exchange,
};

/// A file of text with where it lies in the payload.
#[derive(Debug)]
pub(super) struct OpenText {
    pub(super) path: String,
    pub(super) bytes: Vec<u8>,
}

/// More lines of the journal than any film has.
const ALL_LINES: u32 = u32::MAX;

/// Files of text, none under the name of another.
#[derive(Default)]
struct Texts(Vec<OpenText>);

impl Texts {
    fn put(&mut self, path: &str, text: impl Into<Vec<u8>>) {
        let (stem, ending) = path.rsplit_once('.').unwrap_or((path, "txt"));
        let is_taken = |path: &str| {
            let all = self.0.iter();
            all.map(|one| &one.path)
                .any(|taken| taken.eq_ignore_ascii_case(path))
        };
        let mut path = path.to_owned();
        for nth in 2.. {
            if !is_taken(&path) {
                break;
            }
            path = format!("{stem}-{nth}.{ending}");
        }
        self.0.push(OpenText {
            path,
            bytes: text.into(),
        });
    }

    fn json(&mut self, path: &str, document: &impl Serialize) -> Result<(), ProductionError> {
        let text =
            serde_json::to_vec_pretty(document).map_err(onestrand_store::StoreError::from)?;
        self.put(path, text);
        Ok(())
    }
}

/// All of a production as text.
pub(super) fn open_text(production: &Production) -> Result<Vec<OpenText>, ProductionError> {
    let prints = Workprints::open(production.dir())?;
    let mut texts = Texts::default();
    texts.json("text/film.json", &production_document(production, &prints)?)?;
    let accession = accession_document(production)?;
    texts.put("text/actions.csv", actions_csv(&accession.actions)?);
    texts.put("text/statements.csv", statements_csv(&accession.words)?);
    texts.json("text/accession.json", &accession)?;
    texts.put("text/log.csv", export_log(production)?);
    texts.put("text/journal.csv", journal_csv(production)?);
    for roll in production.rolls()? {
        let log = roll_log(production, &prints, &roll.name)?;
        texts.json(&format!("text/rolls/{}.json", file_word(&roll.name)), &log)?;
    }
    for sheet in RollSheet::ALL {
        let rows = gather_roll_sheet(production, sheet, None, false)?.csv();
        texts.put(&format!("text/rolls/{}", rows.file_name), rows.csv);
    }
    for cut in production.cut_names()? {
        of_cut(production, &cut, &mut texts)?;
    }
    texts.json("text/sounds.json", &sound_list(production)?)?;
    let script = script_document(production)?;
    if !script.scenes.is_empty() {
        texts.put("text/script.csv", export_script(production)?);
        texts.put("text/wild-sounds.csv", export_wild_sounds(production)?);
        texts.json("text/script.json", &script)?;
    }
    let card = grading_card(production)?;
    if !card.shots.is_empty() {
        texts.json("text/light.json", &card)?;
        texts.put("text/light.ccc", decision_list(production)?.0);
    }
    texts.json("text/titles.json", &titles_document(production)?)?;
    texts.json("text/bench.json", &bench_room(production)?)?;
    Ok(texts.0)
}

fn of_cut(production: &Production, cut: &str, texts: &mut Texts) -> Result<(), ProductionError> {
    let at = format!("text/versions/{}", file_word(cut));
    texts.json(&format!("{at}.json"), &cut_document(production, cut)?)?;
    texts.put(&format!("{at}.csv"), export_cut(production, cut)?);
    let check = check_cut(production, cut, None)?;
    texts.json(&format!("{at}-check.json"), &check)?;
    let place = tempfile::tempdir().map_err(file("make a folder", &std::env::temp_dir()))?;
    let written = place.path().join("version.otio");
    write_exchange(production, cut, &written)?;
    let otio = std::fs::read(&written).map_err(file("read", &written))?;
    texts.put(&format!("{at}.otio"), otio);
    let dub = dub_document(production, cut)?;
    if !dub.cues.is_empty() {
        texts.json(&format!("{at}-sound.json"), &dub)?;
        texts.json(&format!("{at}-cues.json"), &cue_list(production, cut)?)?;
        texts.put(&format!("{at}-cues.csv"), cues_csv(production, cut)?);
        texts.json(&format!("{at}-captions.json"), &captions(production, cut)?)?;
    }
    Ok(())
}

fn table<const N: usize>(
    header: [&str; N],
    rows: impl IntoIterator<Item = [String; N]>,
) -> Result<Vec<u8>, ProductionError> {
    let wrong = |problem: csv::Error| {
        crate::error::unfit(
            format!("a form could not be written: {problem}"),
            "tell us of it",
        )
    };
    let mut out = csv::Writer::from_writer(Vec::new());
    out.write_record(header).map_err(wrong)?;
    for row in rows {
        out.write_record(row).map_err(wrong)?;
    }
    out.into_inner().map_err(|problem| {
        crate::error::unfit(
            format!("a form could not be written: {problem}"),
            "tell us of it",
        )
    })
}

fn actions_csv(actions: &[ActionDocument]) -> Result<Vec<u8>, ProductionError> {
    let rows = actions
        .iter()
        .map(|action| [&action.on, &action.to, &action.what, &action.by].map(String::clone));
    table(["on", "to", "what", "by"], rows)
}

fn statements_csv(words: &crate::documents::AccessionWords) -> Result<Vec<u8>, ProductionError> {
    let rows = words
        .statements
        .iter()
        .map(|said| [&said.what, &said.value, &said.known, &said.source].map(String::clone));
    table(["what", "value", "known", "source"], rows)
}

fn journal_csv(production: &Production) -> Result<Vec<u8>, ProductionError> {
    let mut lines = production.journal(ALL_LINES)?;
    lines.reverse();
    let rows = lines
        .into_iter()
        .map(|line| [line.seq.to_string(), line.at, line.state, line.words]);
    table(["number", "at", "state", "words"], rows)
}
