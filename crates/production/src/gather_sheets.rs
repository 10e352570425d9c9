//! What the printed forms of a version need, gathered from the production so
//! that they can be set without it.

use onestrand_bench::{Pull, PullList};
use onestrand_cut::{CheckRules, Conflict, Piece, PieceKind, Strand, TrialCut};
use onestrand_film::{FrameDelta, FrameName, FramePos, Frames, RollId, Span};
use onestrand_sheets as forms;
use onestrand_sheets::{
    CuttingRow, CuttingSheet, Head, Lies, Mount, Paper, Pin, Proof, PullOrder, RollState, Standing,
    Strip,
};
use onestrand_store::{NoteRecord, Production, RollRecord, Workprints};

use crate::finish::rolls_of;
use crate::joins_on_sheet::{after, join_word, joins};
use crate::label_sheets::labels_of_cut;
use crate::on_the_bench::{BenchAtHand, Planned};
use crate::{ProductionError, SheetName, SheetOptions, strand};

/// One printed form.
#[derive(Debug, Clone)]
pub struct PrintedSheet {
    /// Which, by its word in commands.
    pub sheet: &'static str,
    /// The name to keep it under.
    pub file_name: String,
    /// The bytes of the PDF.
    pub pdf: Vec<u8>,
    /// Each page as an SVG document, to look at: drawn from the very layout that
    /// the PDF holds, complete in itself.
    pub pages: Vec<String>,
}

/// All that the forms of one version need, apart from the production: they can
/// be set while the film is worked on, and show it as it was when they were
/// gathered.
#[derive(Debug)]
pub struct SheetsToPrint {
    wanted: Vec<SheetName>,
    pub(crate) cut: TrialCut,
    pub(crate) strand: Strand,
    pub(crate) rules: CheckRules,
    /// How the bench is set up, and what can be counted from on it.
    pub(crate) bench: BenchAtHand,
    /// The plan, once it was asked for.
    pub(crate) planned: Option<Planned>,
    /// What is taken from where; nothing for a version that cannot be made.
    list: Option<PullList>,
    /// What the strand check refuses; the sheet is for notes only then.
    pub(crate) refused: Vec<Conflict>,
    pub(crate) head: Head,
    /// Notes on frames, by roll and frame: the frame, who wrote it, what.
    pub(crate) notes: Vec<(FrameName, String, String)>,
    /// The labels of the reels that it fills.
    pub(crate) labels: Vec<forms::ReelLabel>,
    without_pictures: Vec<String>,
    prints: Workprints,
}

/// Gathers what the forms of a version need. Quick; the setting is slow.
///
/// Nothing is read again here: a roll whose workprint has been thrown away is
/// printed with empty frames, and [`SheetsToPrint::without_pictures`] names it.
///
/// # Errors
/// [`ProductionError::CutRefused`] when the strand check refuses the cut and a
/// sheet is wanted that leads the hand; [`ProductionError::Store`].
pub fn gather_sheets(
    production: &Production,
    name: &str,
    options: &SheetOptions,
) -> Result<SheetsToPrint, ProductionError> {
    SheetsToPrint::of(production, name, options)
}

impl SheetsToPrint {
    /// The forms that were asked for.
    #[must_use]
    pub fn wanted(&self) -> Vec<SheetName> {
        self.wanted.clone()
    }

    /// Whether every roll's scan is proved complete.
    #[must_use]
    pub fn is_proved(&self) -> bool {
        self.head.is_proved()
    }

    /// Rolls that have a scan but no workprint, so that their frames are empty
    /// on the sheets.
    #[must_use]
    pub fn without_pictures(&self) -> &[String] {
        &self.without_pictures
    }

    /// Sets one form, whether or not it was asked for.
    ///
    /// # Errors
    /// [`ProductionError::Sheets`], [`ProductionError::Store`] when a picture
    /// cannot be fetched, [`ProductionError::CutRefused`] for a sheet that leads
    /// the hand when only one for notes was asked for and the cut is refused.
    pub fn print_one(&mut self, sheet: SheetName) -> Result<PrintedSheet, ProductionError> {
        let forms::Printed { pdf, pages, .. } = match sheet {
            SheetName::CuttingSheet => forms::print_cutting_sheet(&self.cutting_sheet()?)?,
            SheetName::PullList => forms::print_pull_list(&self.pull_list()?)?,
            SheetName::LinedSheet => forms::print_lined_sheet(&self.lined_sheet()?)?,
            SheetName::WorkOrder => forms::print_work_order(&self.work_order()?)?,
            SheetName::FrameCards => forms::print_frame_cards(&self.frame_cards()?)?,
            SheetName::PinLabels => forms::print_pin_labels(&self.pin_labels()?)?,
            SheetName::OutsList => forms::print_outs_list(&self.outs_list()?)?,
            SheetName::ReelLabels => forms::print_reel_labels(&self.reel_labels()?)?,
            SheetName::JoinsInspection => forms::print_joins_inspection(&self.joins_inspection()?)?,
        };
        let version = file_word(&self.head.version);
        Ok(PrintedSheet {
            sheet: sheet.word(),
            file_name: format!("{version}-{}.pdf", sheet.word()),
            pdf,
            pages,
        })
    }

    fn of(
        production: &Production,
        name: &str,
        options: &SheetOptions,
    ) -> Result<Self, ProductionError> {
        let wanted = match options.only {
            Some(one) => vec![one],
            None => SheetName::FOR_THE_BENCH.to_vec(),
        };
        let only_for_notes = wanted.iter().all(|sheet| !sheet.leads_the_hand());
        let strand::Checked {
            strand,
            cut,
            rules,
            refused,
            ..
        } = if only_for_notes {
            strand::checked(production, name, options.join)?
        } else {
            strand::cuttable(production, name, options.join)?
        };
        let prints = Workprints::open(production.dir())?;
        // Nothing is pulled for a version that cannot be made.
        let list = refused
            .is_empty()
            .then(|| PullList::in_cut_order(&cut, &strand, &rules.table));
        let rolls = list
            .as_ref()
            .map_or_else(|| rolls_of(&cut), |list| list.work.rolls());
        let head = Head {
            title: production.meta().title.clone(),
            version: name.to_owned(),
            gauge: production.meta().gauge,
            speed: production.meta().speed,
            joins: joins(&cut, &rules.table)?,
            rolls: Vec::new(),
            paper: if options.letter {
                Paper::Letter
            } else {
                Paper::A4
            },
        };
        let labels = labels_of_cut(production, &cut, name, options.bench.lies);
        let mut gathered = Self {
            wanted,
            labels,
            cut,
            strand,
            rules,
            bench: BenchAtHand::of(production, &rolls, &options.bench)?,
            planned: None,
            list,
            refused,
            head,
            notes: notes(production)?,
            without_pictures: Vec::new(),
            prints,
        };
        gathered.also_of(production, rolls)?;
        Ok(gathered)
    }

    /// Film of these rolls is on the sheet too: how far their scans can be
    /// trusted stands at its head.
    pub(crate) fn also_of(
        &mut self,
        production: &Production,
        rolls: impl IntoIterator<Item = RollId>,
    ) -> Result<(), ProductionError> {
        for id in rolls {
            if self.head.rolls.iter().any(|state| state.roll == id) {
                continue;
            }
            let roll = production.roll(id.as_str())?;
            self.head.rolls.push(roll_state(&id, &roll)?);
            if !roll.scans.is_empty() && self.prints.info(&roll.name)?.is_none() {
                self.without_pictures.push(roll.name);
            }
        }
        Ok(())
    }

    /// What every form of this version has in common.
    pub(crate) fn head(&self) -> &Head {
        &self.head
    }

    /// The slate of a span: as the cut says, else as the log does.
    pub(crate) fn slate_of(&self, span: &Span, slate: Option<&onestrand_cut::Slate>) -> String {
        let take = self.strand.take_at(&span.first());
        let logged = take.and_then(|t| t.slate.clone());
        let slate = slate.cloned().or(logged);
        slate.map(|s| s.to_string()).unwrap_or_default()
    }

    pub(crate) fn picture(&mut self, name: &FrameName) -> Result<Option<Vec<u8>>, ProductionError> {
        Ok(self
            .prints
            .picture(name.roll.as_str(), name.frame.index())?)
    }

    fn cutting_sheet(&mut self) -> Result<CuttingSheet, ProductionError> {
        self.to_pull()?;
        let cut = self.cut.clone();
        let mut rows = Vec::new();
        for (index, piece) in cut.pieces().iter().enumerate() {
            rows.push(CuttingRow {
                what: self.standing(piece)?,
                after: after(&cut, index),
                note: piece.note.clone(),
            });
        }
        Ok(CuttingSheet {
            head: self.head.clone(),
            head_join: (!rows.is_empty()).then(|| join_word(cut.usual_join())),
            rows,
        })
    }

    /// What stands at a position, with its pictures.
    pub(crate) fn standing(&mut self, piece: &Piece) -> Result<Standing, ProductionError> {
        Ok(match &piece.kind {
            PieceKind::Shot(span) => Standing::Piece(self.piece(span, piece.slate.as_ref())?),
            PieceKind::Leader(frames) => Standing::Leader { frames: *frames },
            PieceKind::Card { frames, title } => Standing::Card {
                frames: *frames,
                title: title.clone(),
            },
        })
    }

    fn piece(
        &mut self,
        span: &Span,
        slate: Option<&onestrand_cut::Slate>,
    ) -> Result<forms::Piece, ProductionError> {
        let take = self.strand.take_at(&span.first());
        let action = take.map(|t| t.action.clone()).unwrap_or_default();
        Ok(forms::Piece {
            slate: self.slate_of(span, slate),
            action,
            span: span.clone(),
            first: self.picture(&span.first())?,
            last: self.picture(&span.last())?,
        })
    }

    /// The list of what is taken, where the version can be made.
    pub(crate) fn to_pull(&self) -> Result<PullList, ProductionError> {
        self.list
            .clone()
            .ok_or_else(|| ProductionError::CutRefused {
                cut: self.head.version.clone(),
                conflicts: self.refused.clone(),
            })
    }

    fn pull_list(&mut self) -> Result<forms::PullList, ProductionError> {
        let list = self.to_pull()?;
        let mut mounts: Vec<Mount> = Vec::new();
        for pull in list.pulls {
            if pull.mount {
                let roll = pull.extent.roll.clone();
                let was_there = mounts.iter().any(|m| m.roll == roll);
                mounts.push(Mount {
                    roll,
                    lies: if was_there {
                        Lies::AsLeft
                    } else {
                        Lies::HeadsOut
                    },
                    strips: Vec::new(),
                });
            }
            let strip = self.strip(&pull)?;
            if let Some(mount) = mounts.last_mut() {
                mount.strips.push(strip);
            }
        }
        let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        let work = &list.work;
        Ok(forms::PullList {
            head: self.head.clone(),
            order: PullOrder::Cut,
            mounts,
            running: self.cut.frames(),
            cuts: count(work.cuts),
            joins: count(work.joins),
            leftovers: count(work.leftovers),
            wound: Frames::new(u32::try_from(list.wound).unwrap_or(u32::MAX))?,
        })
    }

    fn strip(&mut self, pull: &Pull) -> Result<Strip, ProductionError> {
        let extent = &pull.extent;
        let first = FrameName {
            roll: extent.roll.clone(),
            frame: extent.shown.begin(),
        };
        let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Ok(Strip {
            kept: extent.shown,
            cut: extent.taken,
            landmark: forms::Landmark {
                words: pull.landmark.words(),
                at: pull.landmark.at.frame,
            },
            wind: FrameDelta::new(i32::try_from(pull.wind).unwrap_or(0))?,
            pin: Pin::None,
            position: count(extent.positions.0),
            last_position: count(extent.positions.1),
            picture: self.picture(&first)?,
        })
    }
}

fn notes(production: &Production) -> Result<Vec<(FrameName, String, String)>, ProductionError> {
    let one = |(_, note): (i64, NoteRecord)| {
        let frame = FrameName {
            roll: RollId::new(&note.roll)?,
            frame: FramePos::new(note.frame)?,
        };
        Ok((frame, note.writer, note.words))
    };
    production.notes()?.into_iter().map(one).collect()
}

/// A version's name as part of a file name.
pub(crate) fn file_word(name: &str) -> String {
    let plain = |c: char| {
        if c.is_alphanumeric() || c == '-' {
            c
        } else {
            '_'
        }
    };
    name.chars().map(plain).collect()
}

pub(crate) fn roll_state(id: &RollId, roll: &RollRecord) -> Result<RollState, ProductionError> {
    let model = roll.to_model()?;
    let shrinkage = crate::roll_measures::shrinkage(roll)?;
    let proof = if model.proved {
        Proof::Proved
    } else if roll.scans.is_empty() {
        Proof::PaperOnly
    } else {
        Proof::NotProved {
            found: Frames::new(roll.frames - roll.missing)?,
            expected: roll.expected.map(Frames::new).transpose()?,
            why: match roll.missing {
                0 => String::new(),
                n => format!("{n} frames have no picture"),
            },
        }
    };
    Ok(RollState {
        roll: id.clone(),
        gauge: model.gauge,
        proof,
        shrinkage,
        measured_by: roll.inspection.condition.by.clone(),
    })
}
