//! Sums and plates as they are handed out.

use onestrand_plan::camera::{OpenedSum, Reckoned};

use crate::documents::{CameraOpenedDocument, CameraPlateDocument, CameraSumDocument};

/// A plate: what it is, the figure, its unit.
pub(crate) fn plate(
    label: &str,
    count: impl Into<String>,
    words: impl Into<String>,
) -> CameraPlateDocument {
    CameraPlateDocument {
        label: label.to_owned(),
        count: count.into(),
        words: words.into(),
    }
}

/// The sums of what was reckoned, with its plates and its line for the script.
pub(crate) fn opened<T>(
    found: &Reckoned<T>,
    plates: Vec<CameraPlateDocument>,
    text: String,
) -> CameraOpenedDocument {
    CameraOpenedDocument {
        plates,
        sums: found.sums.iter().map(sum).collect(),
        taken: found.taken.clone(),
        text,
    }
}

fn sum(sum: &OpenedSum) -> CameraSumDocument {
    CameraSumDocument {
        what: sum.what.to_owned(),
        formula: sum.formula.to_owned(),
        figures: sum.figures.clone(),
        comes: sum.comes.clone(),
        source: sum.source.to_owned(),
    }
}

/// With at most so many decimals, without idle noughts, the minus as it is printed.
pub(crate) fn figure(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let short = match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.'),
        false => &text,
    };
    if short == "-0" {
        return "0".to_owned();
    }
    short.replace('-', "−")
}

/// Metres of millimetres: `3.52`, far ones to the decimetre, near ones to the millimetre.
pub(super) fn metres(mm: f64) -> String {
    let decimals = match mm {
        far if far >= 10_000.0 => 1,
        usual if usual >= 1_000.0 => 2,
        _ => 3,
    };
    format!("{:.decimals$}", mm / 1000.0)
}

/// With its sign.
pub(crate) fn signed(value: f64, decimals: usize) -> String {
    let plain = figure(value, decimals);
    match value > 0.0 && plain != "0" {
        true => format!("+{plain}"),
        false => plain,
    }
}

/// Thirds of a stop as a meter has them: `+⅔`, `−1⅓`, `0`.
pub(super) fn thirds(thirds: i32) -> String {
    let sign = match thirds {
        0 => return "0".to_owned(),
        below if below < 0 => "−",
        _ => "+",
    };
    let (whole, part) = (thirds.unsigned_abs() / 3, thirds.unsigned_abs() % 3);
    let part = ["", "⅓", "⅔"][part as usize];
    match (whole, part) {
        (0, part) => format!("{sign}{part}"),
        (whole, part) => format!("{sign}{whole}{part}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thirds_stand_as_on_a_meter() {
        let all: Vec<String> = [-4, -3, -1, 0, 2, 3, 5].map(thirds).into();
        assert_eq!(all, ["−1⅓", "−1", "−⅓", "0", "+⅔", "+1", "+1⅔"]);
    }
}
