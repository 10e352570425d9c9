//! The stock sheet as a form.

use onestrand_film::Frames;
use serde::Serialize;

use super::furniture::{count_of, film_words, plan_form, say_missing};
use crate::forms::record::{Figure, FormRecord};
use crate::plan::{PackedOn, RollPacked, StockHeld, StockSheet};
use crate::words;

/// What the form calls itself.
pub(super) const FORM: &str = "Stock sheet";
/// Empty lines below the stock, for what is bought yet.
const BLANK: usize = 3;

#[derive(Serialize)]
pub(super) struct StockRecord {
    pub(super) form: FormRecord,
    held: Vec<HeldRecord>,
    blank: usize,
    rolls: Vec<RollRecord>,
    sums: Vec<String>,
}

#[derive(Serialize)]
struct HeldRecord {
    words: Vec<String>,
    paid: &'static str,
    price: String,
}

#[derive(Serialize)]
struct RollRecord {
    name: String,
    shot: String,
    spare: String,
    kept_back: String,
    /// What lies where on the roll, as parts of what can be used of it.
    parts: Vec<BarPart>,
    blocks: Vec<BlockRecord>,
}

/// A part of a roll, drawn to scale.
#[derive(Serialize)]
struct BarPart {
    share: f64,
    words: String,
    what: &'static str,
}

#[derive(Serialize)]
struct BlockRecord {
    setup: String,
    words: String,
    moved: bool,
}

pub(super) fn record(sheet: &StockSheet) -> StockRecord {
    StockRecord {
        form: furniture(sheet),
        held: sheet.held.iter().map(held).collect(),
        blank: BLANK,
        rolls: sheet.rolls.iter().map(|roll| packed(sheet, roll)).collect(),
        sums: sheet.sums.iter().map(|sum| words::plain(sum)).collect(),
    }
}

fn held(stock: &StockHeld) -> HeldRecord {
    let all = [&stock.stock, &stock.batch, &stock.length, &stock.rolls];
    let all = all.into_iter().chain([&stock.bought, &stock.expires]);
    HeldRecord {
        words: all.map(|said| words::plain(said)).collect(),
        paid: match stock.process_paid {
            Some(true) => "yes",
            Some(false) => "no",
            None => "",
        },
        price: words::plain(&stock.price),
    }
}

fn shot(roll: &RollPacked) -> Frames {
    Frames::total(roll.blocks.iter().map(|block| block.frames))
}

fn packed(sheet: &StockSheet, roll: &RollPacked) -> RollRecord {
    let whole = Frames::total([shot(roll), roll.spare, roll.kept_back]);
    let share = |frames: Frames| f64::from(frames.count()) / f64::from(whole.count().max(1));
    let mut parts: Vec<BarPart> = roll
        .blocks
        .iter()
        .map(|block| BarPart {
            share: share(block.frames),
            words: words::plain(&block.setup),
            what: "shot",
        })
        .collect();
    for (frames, what) in [(roll.spare, "spare"), (roll.kept_back, "kept")] {
        if frames > Frames::ZERO {
            parts.push(BarPart {
                share: share(frames),
                words: String::new(),
                what,
            });
        }
    }
    let kept = roll.kept_back;
    RollRecord {
        name: words::plain(&roll.name),
        shot: format!(
            "{}, {}",
            words::counted(shot(roll).count(), "frame", "frames"),
            film_words(&sheet.head, shot(roll))
        ),
        spare: words::count(roll.spare.count()),
        kept_back: match kept == Frames::ZERO {
            true => String::new(),
            false => words::count(kept.count()),
        },
        parts,
        blocks: roll.blocks.iter().map(block).collect(),
    }
}

fn block(block: &PackedOn) -> BlockRecord {
    let part = match block.part {
        Some((part, of)) => format!(", part {part} of {of}"),
        None => String::new(),
    };
    BlockRecord {
        setup: words::plain(&block.setup),
        words: format!(
            "{}, {}{part}",
            words::counted(block.takes, "take", "takes"),
            words::counted(block.frames.count(), "frame", "frames"),
        ),
        moved: block.moved,
    }
}

fn furniture(sheet: &StockSheet) -> FormRecord {
    let head = &sheet.head;
    let mut form = plan_form(head, FORM, "what is there, and what goes on it", &[]);
    let all = Frames::total(sheet.rolls.iter().map(shot));
    let spare = Frames::total(sheet.rolls.iter().map(|roll| roll.spare));
    let kept = Frames::total(sheet.rolls.iter().map(|roll| roll.kept_back));
    let blocks = || sheet.rolls.iter().flat_map(|roll| &roll.blocks);
    let takes = blocks().map(|one| one.takes).fold(0, u32::saturating_add);
    form.figures = vec![
        Figure::counted(
            count_of(sheet.rolls.len()),
            "roll to shoot",
            "rolls to shoot",
        ),
        Figure::counted(takes, "take", "takes"),
        Figure::counted(all.count(), "frame", "frames"),
        Figure::counted(spare.count(), "frame to spare", "frames to spare"),
    ];
    if kept > Frames::ZERO {
        form.figures
            .push(Figure::new(words::count(kept.count()), "kept back"));
    }
    form.foot = vec!["Tick a setup when its last take is on the camera report.".to_owned()];
    form.totals = vec![film_words(head, all)];
    form.assumptions = vec![format!(
        "{} of a roll can be used; a take has {} of run-up and run-out. No take lies across the \
         end of a roll.",
        words::counted(sheet.usable.count(), "frame", "frames"),
        words::counted(sheet.run_up.count(), "frame", "frames"),
    )];
    if blocks().any(|block| block.moved) {
        form.assumptions
            .push("Moved: shot out of the order of the script.".to_owned());
    }
    let held = sheet.held.iter();
    let said = held.flat_map(|one| [&*one.stock, &*one.batch, &*one.price]);
    let sums = sheet.sums.iter().map(String::as_str);
    say_missing(&mut form, head, said.chain(sums));
    form
}
