//! Sheets about rolls as CSV: the columns of the trade, one row a take, label, roll
//! or file, comma between cells, as RFC 4180 has it, in UTF-8.

use onestrand_film::{FrameRange, Frames, Gauge};
use onestrand_sheets::{Chosen, InspectionSheet, LogSheet, Proof, ScanSheet, TrimLabels};

use crate::ledger_sheet;
use crate::roll_sheets::Model;

/// A form as rows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetCsv {
    /// Which, by its word in commands.
    pub sheet: &'static str,
    /// The name to keep it under.
    pub file_name: String,
    /// The rows, a header first.
    pub csv: String,
}

/// `in` and `out` are frames, first kept and first thrown away; `from` and `to` the
/// first and the last frame in feet and frames, as on paper.
pub(crate) const LOG: [&str; 17] = [
    "roll",
    "slate",
    "take",
    "in",
    "out",
    "from",
    "to",
    "length",
    "frames",
    "size",
    "move",
    "direction",
    "action",
    "use",
    "begins",
    "faults",
    "note",
];
const LABELS: [&str; 10] = [
    "pin", "slate", "roll", "in", "out", "from", "to", "length", "frames", "remark",
];
const INSPECTION: [&str; 26] = [
    "roll",
    "can",
    "gauge",
    "base",
    "picture",
    "frames",
    "length",
    "measured",
    "length_on_reel",
    "wind",
    "lies",
    "shrinkage_percent",
    "hundred_frames",
    "acid",
    "vinegar",
    "warping",
    "splices",
    "perforations",
    "scratches",
    "fading",
    "sound",
    "seen",
    "fit",
    "strip",
    "note",
    "by",
];
const SCAN: [&str; 17] = [
    "roll",
    "machine",
    "date",
    "file",
    "rate",
    "width",
    "height",
    "coding",
    "bytes",
    "file_frames",
    "first",
    "last",
    "found",
    "expected",
    "difference",
    "proved",
    "checksum",
];

pub(crate) fn rows(model: &Model) -> String {
    match model {
        Model::Log(sheet) => written(&LOG, log(sheet)),
        Model::Labels(labels) => written(&LABELS, label_rows(labels)),
        Model::Inspection(sheet) => written(&INSPECTION, inspection(sheet)),
        Model::Scan(sheet) => written(&SCAN, scans(sheet)),
        Model::Handling(ledger) => written(&ledger_sheet::COLUMNS, ledger_sheet::rows(ledger)),
    }
}

pub(crate) fn written<const N: usize>(header: &[&str; N], rows: Vec<[String; N]>) -> String {
    let mut out = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    let in_memory = "a form in memory can be written";
    out.write_record(header).expect(in_memory);
    for row in rows {
        out.write_record(&row).expect(in_memory);
    }
    let bytes = out.into_inner().expect(in_memory);
    String::from_utf8_lossy(&bytes).into_owned()
}

/// Feet and frames as a counter shows them: `5+30`.
pub(crate) fn feet(gauge: Gauge, frames: u32) -> String {
    let footage = gauge.footage(Frames::new(frames).unwrap_or(Frames::MAX));
    format!("{}+{}", footage.feet(), footage.frames())
}

/// `in`, `out`, `from`, `to`, `length` and `frames` of a span.
fn places(gauge: Gauge, span: FrameRange) -> [String; 6] {
    let length = span.len().count();
    [
        span.begin().to_string(),
        span.end().to_string(),
        feet(gauge, span.begin().index()),
        feet(gauge, span.last().index()),
        feet(gauge, length),
        length.to_string(),
    ]
}

fn log(sheet: &LogSheet) -> Vec<[String; 17]> {
    let mut rows = Vec::new();
    for roll in &sheet.rolls {
        let gauge = sheet.head.gauge_of(&roll.roll);
        for take in &roll.takes {
            // A slate is a setup and a take, or nothing.
            let (setup, number) = take.slate.rsplit_once("-T").unwrap_or(("", ""));
            let [first, thrown, from, to, length, frames] = places(gauge, take.span);
            rows.push([
                roll.roll.to_string(),
                setup.to_owned(),
                number.to_owned(),
                first,
                thrown,
                from,
                to,
                length,
                frames,
                take.size.clone(),
                take.camera_move.clone(),
                take.direction.clone(),
                take.action.clone(),
                chosen(take.chosen).to_owned(),
                take.begins.clone(),
                take.signs.join("; "),
                take.note.clone(),
            ]);
        }
    }
    rows
}

const fn chosen(chosen: Chosen) -> &'static str {
    match chosen {
        Chosen::NotSaid => "",
        Chosen::Circled => "yes",
        Chosen::Hold => "maybe",
        Chosen::NotUsed => "no",
    }
}

fn label_rows(labels: &TrimLabels) -> Vec<[String; 10]> {
    let row = |label: &onestrand_sheets::TrimLabel| {
        let [first, thrown, from, to, length, frames] =
            places(labels.head.gauge_of(&label.roll), label.span);
        [
            label.pin.to_string(),
            label.slate.clone(),
            label.roll.to_string(),
            first,
            thrown,
            from,
            to,
            length,
            frames,
            label.remark.clone(),
        ]
    };
    labels.labels.iter().map(row).collect()
}

fn inspection(sheet: &InspectionSheet) -> Vec<[String; 26]> {
    let row = |roll: &onestrand_sheets::InspectedRoll| {
        let gauge = sheet.head.gauge_of(&roll.roll);
        let state = sheet.head.rolls.iter().find(|s| s.roll == roll.roll);
        let shrinkage = state.and_then(|state| state.shrinkage);
        let found = roll.found.clone();
        [
            roll.roll.to_string(),
            roll.kept.clone(),
            gauge.to_string(),
            roll.base.clone(),
            found.picture,
            roll.frames.to_string(),
            feet(gauge, roll.frames.count()),
            roll.measured.clone(),
            roll.wound.clone(),
            roll.wind.clone(),
            found.lies,
            shrinkage.map(|s| s.to_string()).unwrap_or_default(),
            roll.hundred.clone(),
            found.acid,
            found.vinegar,
            found.warping,
            splices(roll),
            found.perforations,
            found.scratches,
            found.fading,
            found.sound,
            roll.signs.join("; "),
            roll.fit.clone(),
            roll.half.clone(),
            found.note,
            found.by,
        ]
    };
    sheet.rolls.iter().map(row).collect()
}

/// Joins between takes, then those found by hand: `1 join; 720 tape`.
fn splices(roll: &onestrand_sheets::InspectedRoll) -> String {
    let seen = Some(roll.joins.clone()).filter(|words| !words.is_empty());
    let found = roll.joins_found.iter().map(|join| {
        let note = match join.note.as_str() {
            "" => String::new(),
            note => format!(" ({note})"),
        };
        format!("{} {}{note}", join.frame, join.kind)
    });
    seen.into_iter().chain(found).collect::<Vec<_>>().join("; ")
}

fn scans(sheet: &ScanSheet) -> Vec<[String; 17]> {
    let row = |scan: &onestrand_sheets::ScanRow| {
        let found = i64::from(scan.found.count());
        let expected = scan.expected.map(|frames| i64::from(frames.count()));
        let state = sheet.head.rolls.iter().find(|s| s.roll == scan.roll);
        let proved = state.is_some_and(|state| state.proof == Proof::Proved);
        [
            scan.roll.to_string(),
            // Nobody has told the program: room to write.
            String::new(),
            String::new(),
            scan.file.clone(),
            scan.rate.clone(),
            scan.size.0.to_string(),
            scan.size.1.to_string(),
            scan.coding.clone(),
            scan.bytes.to_string(),
            scan.file_frames.to_string(),
            scan.film.map(|f| f.begin().to_string()).unwrap_or_default(),
            scan.film.map(|f| f.last().to_string()).unwrap_or_default(),
            found.to_string(),
            expected.map(|n| n.to_string()).unwrap_or_default(),
            expected
                .map(|n| (found - n).to_string())
                .unwrap_or_default(),
            if proved { "yes" } else { "no" }.to_owned(),
            scan.checksum.clone(),
        ]
    };
    sheet.scans.iter().map(row).collect()
}
