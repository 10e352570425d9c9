//! The film that is planned with, kept with the production.

use onestrand_film::{Fps, Frames, Gauge};
use onestrand_plan::{RollPrice, Seconds, StockRules};
use onestrand_store::{Act, Production};

use super::changes::seconds_fit;
use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::StockWords;
use crate::error::unfit;

/// The name under which it is kept.
pub(crate) const STOCK: &str = "stock";

/// The name under which setups are kept whose one take is meant so.
pub(crate) const SET_MAY_GO: &str = "set_may_go";

/// Frames lost at both ends of a load together, unless the user says otherwise: what a
/// Super 8 cartridge loses (the house's first story; common practice, editable).
const LOST: u32 = 48;

/// The stock as it was set, or what a roll of the film's gauge usually holds. What a later
/// version of the program wrote in a way that cannot be read here counts as nothing.
pub(crate) fn stock_of(production: &Production) -> Result<StockWords, ProductionError> {
    let text = production.setting(STOCK)?;
    let kept = text.and_then(|text| serde_json::from_str::<StockWords>(&text).ok());
    Ok(kept.unwrap_or_else(|| usual(production.meta().gauge)))
}

fn usual(gauge: Gauge) -> StockWords {
    let load = gauge.spec().load.map_or(0, |(frames, _)| frames);
    StockWords {
        load: load.saturating_sub(LOST),
        ..StockWords::default()
    }
}

/// The act that sets load and run-up of a new production, the rest as it stands.
///
/// # Errors
/// [`ProductionError::Unfit`] when they do not fit, [`ProductionError::Store`].
pub fn stock_for_load(
    production: &Production,
    load: u32,
    run_up: u32,
) -> Result<Act, ProductionError> {
    let stock = StockWords {
        load,
        run_up,
        ..stock_of(production)?
    };
    stock_fits(&stock)?;
    Ok(Act::PutSetting {
        name: STOCK.to_owned(),
        value: serde_json::to_string(&stock).ok(),
    })
}

pub(super) fn stock_fits(stock: &StockWords) -> Result<(), ProductionError> {
    for frames in [stock.load, stock.run_up, stock.kept_back, stock.wind_back] {
        Frames::new(frames)?;
    }
    seconds_fit(&stock.one_wind)?;
    seconds_fit(&stock.shown)?;
    text_fits("stock", &stock.stock)?;
    text_fits("reason", &stock.kept_for)?;
    if stock.money.chars().count() > 12 {
        return Err(unfit(
            "the name of the money is longer than 12 letters".to_owned(),
            "write its sign or its short name",
        ));
    }
    let price = stock
        .price_stock
        .max(stock.price_process)
        .max(stock.price_scan);
    if price > 1_000_000_000 {
        return Err(unfit(
            "a roll costs more than ten million".to_owned(),
            "write the price of one roll",
        ));
    }
    Ok(())
}

pub(super) fn rules(stock: &StockWords, speed: Fps) -> Result<StockRules, ProductionError> {
    let wind = match stock.one_wind.as_str() {
        "" => None,
        text => Some(seconds(text)?.frames_up(speed)),
    };
    Ok(StockRules {
        load: Frames::new(stock.load)?,
        kept_back: Frames::new(stock.kept_back)?,
        one_wind: wind,
    })
}

pub(super) fn price(stock: &StockWords) -> RollPrice {
    RollPrice {
        stock: stock.price_stock,
        process: stock.price_process,
        scan: stock.price_scan,
    }
}

pub(super) fn seconds(text: &str) -> Result<Seconds, ProductionError> {
    text.parse::<Seconds>()
        .map_err(|e| unfit(e.to_string(), "write seconds, such as 7.5"))
}
