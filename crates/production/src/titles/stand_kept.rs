//! The copy stand and the hall, kept with the production.

use onestrand_store::{Act, Production};

use crate::ProductionError;
use crate::documents::StandWords;
use crate::error::unfit;

/// The name under which it is kept.
pub(crate) const STAND: &str = "copy_stand";

/// The stand as it was set, or as the program begins. What a later version of the program
/// wrote in a way that cannot be read here counts as nothing.
pub(crate) fn stand_of(production: &Production) -> Result<StandWords, ProductionError> {
    let text = production.setting(STAND)?;
    let kept = text.and_then(|text| serde_json::from_str::<StandWords>(&text).ok());
    Ok(kept.unwrap_or_default())
}

/// The act that keeps it.
pub(crate) fn put(stand: &StandWords) -> Result<Act, ProductionError> {
    fits(stand)?;
    Ok(Act::PutSetting {
        name: STAND.to_owned(),
        value: serde_json::to_string(stand).ok(),
    })
}

/// A number as it was typed; nothing where nothing was.
pub(crate) fn number(what: &str, text: &str) -> Result<Option<f64>, ProductionError> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    // A comma is how half of Europe writes it.
    let read = text.replace(',', ".").parse::<f64>().ok();
    let fits = read.filter(|n| n.is_finite() && (0.0..=1e6).contains(n));
    fits.map(Some).ok_or_else(|| {
        unfit(
            format!("{what}: {text:?} is no such number"),
            "write it in figures, such as 25 or 0.5",
        )
    })
}

/// An exposure time: `1/43` or `0.023`. Unit: seconds.
pub(crate) fn time(what: &str, text: &str) -> Result<Option<f64>, ProductionError> {
    let Some((one, parts)) = text.split_once('/') else {
        return number(what, text);
    };
    let parts = number(what, parts)?.filter(|n| *n > 0.0);
    let wrong = || unfit(format!("{what}: {text:?} is no time"), "write it as 1/43");
    let (one, parts) = number(what, one)?.zip(parts).ok_or_else(wrong)?;
    Ok(Some(one / parts))
}

/// A gate as it was measured: `5.69x4.22`. Unit: mm.
pub(crate) fn gate(text: &str) -> Result<Option<(f64, f64)>, ProductionError> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let wrong = || {
        unfit(
            format!("the gate: {text:?} is no width and height"),
            "write both in millimetres, such as 5.69x4.22",
        )
    };
    let (wide, high) = text.split_once(['x', '×', 'X']).ok_or_else(wrong)?;
    let wide = number("the gate's width", wide)?.filter(|n| *n > 0.0);
    let high = number("the gate's height", high)?.filter(|n| *n > 0.0);
    wide.zip(high).map(Some).ok_or_else(wrong)
}

fn fits(stand: &StandWords) -> Result<(), ProductionError> {
    for (what, text) in [
        ("the least a title stands", &stand.least),
        ("the time before the first word", &stand.first),
        ("the time for a word", &stand.per_word),
        ("the lens", &stand.lens),
        ("the width of the field", &stand.width),
        ("the distance of the artwork", &stand.distance),
        ("how near the lens focuses", &stand.closest),
        ("the close-up lens", &stand.close_up),
        ("the stop", &stand.stop),
        ("the circle of confusion", &stand.blur),
        ("the angle of the lamps", &stand.lamp_angle),
        ("the distance of the lamps", &stand.lamp_distance),
        ("the density of the cels", &stand.cel_density),
        ("the last row", &stand.last_row),
        ("the screen", &stand.screen),
    ] {
        number(what, text)?;
    }
    time("the exposure while running", &stand.running_time)?;
    time("the exposure of a single frame", &stand.single_time)?;
    gate(&stand.gate)?;
    if !(50..=100).contains(&stand.safe) {
        return Err(unfit(
            format!("a safe field of {} per cent", stand.safe),
            "between 50 and 100; 80 is usual for titles",
        ));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_gates_are_read_as_they_are_typed() {
        assert_eq!(number("x", " 2,5 ").expect("a number"), Some(2.5));
        assert_eq!(number("x", "").expect("nothing"), None);
        assert!(number("x", "-1").is_err());
        assert!(number("x", "inf").is_err());
        assert_eq!(gate("5.69 x 4,22").expect("a gate"), Some((5.69, 4.22)));
        assert_eq!(gate("").expect("nothing"), None);
        assert_eq!(time("x", "1/40").expect("a time"), Some(0.025));
        assert_eq!(time("x", "0,5").expect("a time"), Some(0.5));
        assert!(time("x", "1/0").is_err());
        assert!(gate("5.69").is_err());
        assert!(gate("0x4").is_err());
    }
}
