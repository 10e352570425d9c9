//! The stock sheet.

use onestrand_film::Frames;

use super::PlanHead;

/// The film that is there, and what goes on which roll of it.
#[derive(Clone, Debug)]
pub struct StockSheet {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// The stock.
    pub held: Vec<StockHeld>,
    /// What goes on which roll.
    pub rolls: Vec<RollPacked>,
    /// Film of a roll that can be used.
    pub usable: Frames,
    /// Run-up and run-out reckoned with each take.
    pub run_up: Frames,
    /// What is said of the whole, a line each: the ratio, the price, how few rolls could do.
    pub sums: Vec<String>,
}

/// Stock as it stands on the shelf, in the maker's words; what is empty is a line to
/// write on.
#[derive(Clone, Debug, Default)]
pub struct StockHeld {
    /// Its name, as the maker calls it.
    pub stock: String,
    /// The batch on the box.
    pub batch: String,
    /// The length of a roll: `50 ft`.
    pub length: String,
    /// How many rolls.
    pub rolls: String,
    /// When it was bought.
    pub bought: String,
    /// When it expires.
    pub expires: String,
    /// Whether the process is paid with it; nothing leaves two boxes to tick.
    pub process_paid: Option<bool>,
    /// The price of a roll, in the maker's own money.
    pub price: String,
}

/// A roll and what is to be shot on it.
#[derive(Clone, Debug)]
pub struct RollPacked {
    /// Its name: `R1`.
    pub name: String,
    /// The setups on it, in the order in which they are shot.
    pub blocks: Vec<PackedOn>,
    /// Film that is left at the end.
    pub spare: Frames,
    /// Film kept back for titles and tests.
    pub kept_back: Frames,
}

/// The takes of one setup on a roll.
#[derive(Clone, Debug)]
pub struct PackedOn {
    /// The setup.
    pub setup: String,
    /// How many takes of it lie here.
    pub takes: u32,
    /// Their film.
    pub frames: Frames,
    /// Whether it was moved out of the order of the script.
    pub moved: bool,
    /// Which part of its takes lies here, of how many, where they do not fit one roll.
    pub part: Option<(u32, u32)>,
}
