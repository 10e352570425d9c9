//! The lined cutting sheet of a version: room for notes, and those there are.

use onestrand_film::{FrameName, Frames};
use onestrand_sheets::{LinedRow, LinedSheet, ScreeningNote, Standing};

use crate::ProductionError;
use crate::gather_sheets::SheetsToPrint;
use crate::reason_of_refusal::reason;
use crate::sheet_csv::{feet, written};

/// A row a piece, then one for each note on its frames.
const COLUMNS: [&str; 13] = [
    "position", "roll", "in", "out", "slate", "at", "at_frame", "seconds", "frames", "note",
    "writer", "noted_at", "noted",
];

impl SheetsToPrint {
    /// The form with its pictures.
    pub(crate) fn lined_sheet(&mut self) -> Result<LinedSheet, ProductionError> {
        let cut = self.cut.clone();
        let mut rows = Vec::with_capacity(cut.pieces().len());
        for (piece, start) in cut.pieces().iter().zip(cut.starts()) {
            rows.push(LinedRow {
                what: self.standing(piece)?,
                note: piece.note.clone(),
                notes: piece
                    .span()
                    .map(|span| self.notes_on(span, start))
                    .unwrap_or_default(),
            });
        }
        Ok(LinedSheet {
            head: self.head.clone(),
            not_cuttable: self.refused.iter().map(reason).collect(),
            rows,
        })
    }

    /// The notes on the frames of a span that begins at a running frame, by frame.
    fn notes_on(&self, span: &onestrand_film::Span, start: Frames) -> Vec<ScreeningNote> {
        let on = |frame: &&(FrameName, String, String)| {
            frame.0.roll == span.roll && span.range.contains(frame.0.frame)
        };
        let one = |(frame, writer, words): &(FrameName, String, String)| {
            let into = frame.frame.index() - span.range.begin().index();
            let into = Frames::new(into).unwrap_or(Frames::ZERO);
            ScreeningNote {
                writer: writer.clone(),
                frame: frame.clone(),
                at: Frames::total([start, into]),
                words: words.clone(),
            }
        };
        self.notes.iter().filter(on).map(one).collect()
    }
}

/// The form as rows. `at` is feet and frames of the running cut.
pub(crate) fn lined_csv(sheet: &LinedSheet) -> String {
    let gauge = sheet.head.gauge;
    let speed = sheet.head.speed;
    let mut rows = Vec::new();
    let mut start = Frames::ZERO;
    for (place, row) in sheet.rows.iter().enumerate() {
        let (roll, begin, end, slate, frames) = match &row.what {
            Standing::Piece(piece) => (
                piece.span.roll.to_string(),
                piece.span.range.begin().to_string(),
                piece.span.range.end().to_string(),
                piece.slate.clone(),
                piece.span.range.len(),
            ),
            Standing::Leader { frames } => {
                let length = frames.to_string();
                (
                    "leader".to_owned(),
                    "0".to_owned(),
                    length,
                    String::new(),
                    *frames,
                )
            }
            Standing::Card { frames, title } => {
                let length = frames.to_string();
                (
                    "card".to_owned(),
                    "0".to_owned(),
                    length,
                    title.clone(),
                    *frames,
                )
            }
        };
        let seconds = f64::from(start.count()) / speed.as_f64();
        let fixed = [
            (place + 1).to_string(),
            roll,
            begin,
            end,
            slate,
            feet(gauge, start.count()),
            start.count().to_string(),
            format!("{seconds:.1}"),
            frames.to_string(),
        ];
        let line = |words: [String; 4]| {
            let mut cells = fixed.clone().into_iter().chain(words);
            std::array::from_fn::<String, 13, _>(|_| cells.next().unwrap_or_default())
        };
        let none = String::new;
        rows.push(line([row.note.clone(), none(), none(), none()]));
        for note in &row.notes {
            rows.push(line([
                none(),
                note.writer.clone(),
                note.frame.to_string(),
                note.words.clone(),
            ]));
        }
        start = Frames::total([start, frames]);
    }
    written(&COLUMNS, rows)
}
