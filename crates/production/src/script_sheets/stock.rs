//! The stock sheet, from the plan of the film.

use onestrand_film::Frames;
use onestrand_sheets::{PackedOn, RollPacked, StockHeld, StockSheet};

use super::{ScriptSheetsToPrint, planned};
use crate::documents::{PackedRollDocument, PackedSetupDocument, PlanDocument, StockWords};

pub(super) fn sheet(gathered: &ScriptSheetsToPrint) -> StockSheet {
    let stock = &gathered.script.stock;
    let (rolls, sums) = match planned(gathered) {
        Ok(plan) => (rolls(&plan), sums(&plan)),
        // What keeps it from being planned is printed, and the stock all the same.
        Err(problem) => (Vec::new(), vec![format!("Not packed: {problem}")]),
    };
    StockSheet {
        head: gathered.head.clone(),
        held: held(gathered, stock),
        rolls,
        usable: frames(stock.load),
        run_up: frames(stock.run_up),
        sums,
    }
}

fn frames(count: u32) -> Frames {
    Frames::new(count).unwrap_or(Frames::MAX)
}

/// Money in the smallest coin, with two decimals: `42.00 €`.
fn money(coins: u64, name: &str) -> String {
    let words = format!("{}.{:02} {name}", coins / 100, coins % 100);
    words.trim_end().to_owned()
}

/// The stock of which something is said.
fn held(gathered: &ScriptSheetsToPrint, stock: &StockWords) -> Vec<StockHeld> {
    if stock.stock.is_empty() && stock.price_stock == 0 {
        return Vec::new();
    }
    let load = gathered.head.gauge.spec().load;
    vec![StockHeld {
        stock: stock.stock.clone(),
        length: load.map_or_else(String::new, |(frames, _)| {
            let feet = frames / gathered.head.gauge.spec().frames_per_foot;
            format!("{feet} ft")
        }),
        price: match stock.price_stock {
            0 => String::new(),
            coins => money(coins, &stock.money),
        },
        ..StockHeld::default()
    }]
}

fn rolls(plan: &PlanDocument) -> Vec<RollPacked> {
    let last = plan.by_roll.len().saturating_sub(1);
    let roll = |(at, roll): (usize, &PackedRollDocument)| RollPacked {
        name: format!("roll {}", at + 1),
        blocks: roll.blocks.iter().map(block).collect(),
        spare: frames(roll.spare),
        kept_back: match at == last {
            true => frames(plan.stock.kept_back),
            false => Frames::ZERO,
        },
    };
    plan.by_roll.iter().enumerate().map(roll).collect()
}

fn block(block: &PackedSetupDocument) -> PackedOn {
    PackedOn {
        setup: block.setup.clone(),
        takes: block.takes,
        frames: frames(block.frames),
        moved: block.moved,
        part: block.part.as_deref().and_then(part),
    }
}

/// `1 of 2`.
fn part(words: &str) -> Option<(u32, u32)> {
    let (part, of) = words.split_once(" of ")?;
    Some((part.parse().ok()?, of.parse().ok()?))
}

/// What it comes to, in words.
fn sums(plan: &PlanDocument) -> Vec<String> {
    let rolls = counted(plan.rolls, "roll", "rolls");
    let proved = plan.rolls == plan.rolls_at_least;
    let mut sums = vec![match proved {
        true => format!("{rolls}: no plan does with fewer."),
        false => format!("{rolls}; at least {} are needed.", plan.rolls_at_least),
    }];
    let moved = counted(plan.moved, "setup is", "setups are");
    if plan.moved > 0 {
        sums.push(match plan.moved == plan.moved_at_least {
            true => format!("{moved} moved out of the order of the script: the fewest there are."),
            false => format!(
                "{moved} moved out of the order of the script; at least {} have to be.",
                plan.moved_at_least
            ),
        });
    }
    if plan.script_order.rolls > plan.rolls {
        let order = counted(plan.script_order.rolls, "roll", "rolls");
        sums.push(format!("In the order of the script it would take {order}."));
    }
    if plan.stock.kept_back > 0 && !plan.stock.kept_for.is_empty() {
        sums.push(format!("Kept back for {}.", plan.stock.kept_for));
    }
    if let Some(ratio) = &plan.ratio {
        sums.push(format!("Shooting ratio {ratio}."));
    }
    if plan.cost.whole > 0 {
        let mut cost = format!(
            "All rolls cost {}",
            money(plan.cost.whole, &plan.cost.money)
        );
        if let Some(second) = plan.cost.shown_second {
            cost.push_str(&format!(
                ", a shown second {}",
                money(second, &plan.cost.money)
            ));
        }
        sums.push(format!("{cost}."));
    }
    for over in &plan.over_wound {
        sums.push(format!(
            "{} is {} frames longer than one wind of the motor.",
            over.setup, over.over
        ));
    }
    sums
}

fn counted(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}
