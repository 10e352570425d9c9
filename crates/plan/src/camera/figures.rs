//! Figures as they stand in a sum.

/// A figure with at most so many decimals, without idle noughts at its end.
pub(crate) fn figure(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let short = match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.'),
        false => &text,
    };
    match short {
        "-0" => "0".to_owned(),
        other => other.replace('-', "−"),
    }
}

/// Millimetres, to a tenth.
pub(crate) fn mm(value: f64) -> String {
    format!("{} mm", figure(value, 1))
}

/// Metres to the centimetre, of millimetres.
pub(crate) fn metres(mm: f64) -> String {
    format!("{} m", figure(mm / 1000.0, 2))
}

/// Degrees, to a hundredth.
pub(crate) fn degrees(value: f64) -> String {
    format!("{}°", figure(value, 2))
}

#[cfg(test)]
mod tests {
    use super::figure;

    #[test]
    fn figures_are_as_short_as_they_are_true() {
        for (value, decimals, text) in [
            (2.5, 2, "2.5"),
            (100.0, 0, "100"),
            (100.0, 1, "100"),
            (-0.004, 2, "0"),
            (-1.25, 2, "−1.25"),
        ] {
            assert_eq!(figure(value, decimals), text);
        }
    }
}
