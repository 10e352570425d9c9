//! The ledger of an original: each time it was run, cleaned, cut, mended or looked at.

use onestrand_store::{Act, HandlingRecord, InspectionRecord, LedgerDay, Production, RollRecord};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::bench_room::DoneAtTheBench;
use crate::change_acts::text_fits;
use crate::documents::{HandlingDocument, HandlingSumsDocument, RunDocument};
use crate::error::unfit;
use crate::reels::one_of;

/// What can be done to an original.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Handling {
    /// Run through a machine.
    Run,
    /// Cleaned.
    Cleaning,
    /// Cut with the blade.
    Cut,
    /// A join was opened.
    Opened,
    /// Mended: a torn perforation, a join made anew.
    Repair,
    /// Looked at with the film in the hand.
    Inspection,
    /// Wound over the rewinds of the bench: only its log says so.
    Wound,
}

impl Handling {
    /// Those that are written down by hand, in the order in which they are summed.
    pub const ALL: [Self; 6] = [
        Self::Run,
        Self::Cleaning,
        Self::Cut,
        Self::Opened,
        Self::Repair,
        Self::Inspection,
    ];

    /// How it is written down.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Run => "run",
            Self::Cleaning => "cleaning",
            Self::Cut => "cut",
            Self::Opened => "opened",
            Self::Repair => "repair",
            Self::Inspection => "inspection",
            Self::Wound => "wound",
        }
    }

    fn of(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.code() == code)
    }

    /// What stands before the name of the roll in the journal.
    const fn in_journal(self) -> &'static str {
        match self {
            Self::Run => "a run of",
            Self::Cleaning => "a cleaning of",
            Self::Cut => "a cut in",
            Self::Opened => "a join opened in",
            Self::Repair => "a repair of",
            Self::Inspection => "an inspection of",
            Self::Wound => "a winding of",
        }
    }
}

/// Something was done to an original.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct HandleRoll {
    /// The roll.
    pub roll: String,
    /// `run`, `cleaning`, `cut`, `opened`, `repair` or `inspection`.
    pub kind: String,
    /// The day, as `2026-03-03`.
    pub on: String,
    /// Of a run: `projector`, `viewer` or `scanner`.
    #[serde(default)]
    pub through: String,
    /// How many times on that day.
    #[serde(default = "once")]
    pub times: u32,
    /// Who did it.
    #[serde(default)]
    pub by: String,
    /// What is to be said of it.
    #[serde(default)]
    pub note: String,
}

const fn once() -> u32 {
    1
}

/// More times on one day are a slip of the pen.
const MOST_TIMES: u32 = 999;

impl HandleRoll {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let roll = production.roll(&self.roll)?;
        let kind = self.checked()?;
        let mut ledger = roll.inspection.ledger.clone();
        // Above every number that stands there; one that was struck off is only
        // used again where whoever has seen the old entry is refused.
        let number = ledger.iter().map(|entry| entry.number).max().unwrap_or(0) + 1;
        ledger.push(HandlingRecord {
            number,
            kind: kind.code().to_owned(),
            on: self.on.clone(),
            through: self.through.clone(),
            times: self.times,
            by: self.by.trim().to_owned(),
            note: self.note.trim().to_owned(),
        });
        let times = match self.times {
            1 => String::new(),
            n => format!(", {n} times"),
        };
        let through = match kind {
            Handling::Run => format!(" through the {}", self.through),
            _ => String::new(),
        };
        let words = format!(
            "{} {}{through} on {}{times}",
            kind.in_journal(),
            self.roll,
            self.on
        );
        Ok((words, with(roll, ledger)))
    }

    fn checked(&self) -> Result<Handling, ProductionError> {
        let kinds = Handling::ALL.map(Handling::code);
        one_of("kind of handling", &self.kind, &kinds)?;
        let kind = Handling::of(&self.kind).unwrap_or(Handling::Run);
        match (kind, self.through.as_str()) {
            (Handling::Run, through) => {
                one_of("machine", through, &["projector", "viewer", "scanner"])?;
            }
            (_, "") => {}
            (_, through) => {
                return Err(unfit(
                    format!("only a run goes through a {through}"),
                    "leave the machine out, or write a run down",
                ));
            }
        }
        if self.times == 0 || self.times > MOST_TIMES {
            return Err(unfit(
                format!("{} times on one day", self.times),
                "write 1 to 999 times",
            ));
        }
        text_fits("name", &self.by)?;
        text_fits("note", &self.note)?;
        a_day_that_has_come(&self.on)?;
        Ok(kind)
    }
}

fn a_day_that_has_come(day: &str) -> Result<(), ProductionError> {
    match HandlingRecord::day(day) {
        LedgerDay::Past => Ok(()),
        LedgerDay::ToCome => Err(unfit(
            format!("{day} has not come yet"),
            "only what was done is written down",
        )),
        LedgerDay::None => Err(unfit(
            format!("{day:?} is no day"),
            "write year, month and day, such as 2026-03-03",
        )),
    }
}

/// The roll with this ledger, the first day first.
pub(crate) fn with(roll: RollRecord, mut ledger: Vec<HandlingRecord>) -> Act {
    ledger.sort_by(|a, b| (&a.on, a.number).cmp(&(&b.on, b.number)));
    let inspection = InspectionRecord {
        ledger,
        ..roll.inspection.clone()
    };
    Act::PutRoll {
        name: roll.name.clone(),
        roll: Some(Box::new(RollRecord { inspection, ..roll })),
    }
}

/// The ledger of a roll as a document, the first day first, with what the bench has
/// written by itself behind what was written by hand on that day.
pub(crate) fn ledger_of(roll: &RollRecord, bench: &DoneAtTheBench) -> Vec<HandlingDocument> {
    let by_hand = roll.inspection.ledger.iter().map(Into::into);
    let mut all: Vec<HandlingDocument> = by_hand.chain(bench.lines_of(&roll.name)).collect();
    all.sort_by(|a, b| (&a.on, a.from_bench, a.number).cmp(&(&b.on, b.from_bench, b.number)));
    all
}

/// Its runs alone.
pub(crate) fn runs_of(roll: &RollRecord) -> Vec<RunDocument> {
    let ledger = roll.inspection.ledger.iter();
    ledger.filter(|e| e.kind == "run").map(Into::into).collect()
}

/// What a ledger comes to.
pub(crate) fn sums_of(ledger: &[HandlingDocument]) -> HandlingSumsDocument {
    let times = |wanted: &dyn Fn(&HandlingDocument) -> bool| {
        let wanted = ledger.iter().filter(|e| wanted(e));
        wanted.map(|e| e.times).fold(0, u32::saturating_add)
    };
    let of = |kind: Handling| times(&|e| e.kind == kind.code());
    let through = |machine: &str| times(&|e| e.kind == "run" && e.through == machine);
    HandlingSumsDocument {
        runs: of(Handling::Run),
        by_projector: through("projector"),
        by_viewer: through("viewer"),
        scans: through("scanner"),
        cleanings: of(Handling::Cleaning),
        wound: of(Handling::Wound),
        cuts: of(Handling::Cut),
        joins_opened: of(Handling::Opened),
        repairs: of(Handling::Repair),
        inspections: of(Handling::Inspection),
    }
}
