//! What was heard, in words.

use onestrand_production::documents::{
    BeatsDocument, FoundDocument, ListenedDocument, SeamDocument, SpeedDocument, StrokeFitDocument,
    StrokesDocument,
};

pub(crate) fn listened(found: &ListenedDocument) -> String {
    match &found.found {
        FoundDocument::Seams { seams } => lines(seams.iter().map(seam)),
        FoundDocument::Speed(speed) => self::speed(speed),
        FoundDocument::Strokes(strokes) => self::strokes(strokes),
        FoundDocument::Beats(beats) => self::beats(beats),
    }
}

fn lines(all: impl Iterator<Item = String>) -> String {
    all.collect::<Vec<_>>().join("\n")
}

fn seam(seam: &SeamDocument) -> String {
    let heard = if seam.heard {
        "it is likely to be heard"
    } else {
        "nobody should hear it"
    };
    format!(
        "{:>8.2} s round, samples {} to {}: the seam changes {:.2} times the usual, its loudest moment stands out {:.1} dB; {heard}",
        seam.seconds, seam.round.from, seam.round.to, seam.times_usual, seam.stands_out_db
    )
}

fn speed(found: &SpeedDocument) -> String {
    let off = match found.play {
        play if play > 1.0 => format!("{:.2} % slow", (play - 1.0) * 100.0),
        play => format!("{:.2} % fast", (1.0 - play) * 100.0),
    };
    let mut text = format!(
        "{:.3} Hz heard, ± {:.4}, where {} Hz are true: it runs {off}. Play it × {:.4}",
        found.heard_hertz, found.error_hertz, found.true_hertz, found.play
    );
    if let Some(wander) = found.wander_percent {
        text.push_str(&format!("; from second to second it wanders {wander:.2} %"));
    }
    if !found.harmonics.is_empty() {
        text.push_str("; mains wander by 0.1 % themselves, it says no more than that");
    }
    text
}

fn strokes(found: &StrokesDocument) -> String {
    let mut text = format!("{} strokes heard:", found.heard.len());
    for (nth, stroke) in found.heard.iter().enumerate() {
        text.push_str(&format!("\n{:>5}  {:.3} s", nth + 1, stroke.seconds));
    }
    for fit in &found.fits {
        text.push('\n');
        text.push_str(&stroke_fit(fit, found.half_frame_ms));
    }
    text
}

fn stroke_fit(fit: &StrokeFitDocument, half: f64) -> String {
    let which: Vec<String> = fit.strokes.iter().map(ToString::to_string).collect();
    if let Some(louder) = fit.times_louder {
        return format!(
            "stroke {} on the frame: {louder:.0} times louder after than before",
            which.join(", ")
        );
    }
    let how = if fit.one_piece {
        "in one piece"
    } else {
        "each laid by itself"
    };
    let holds = if fit.holds { "they fit" } else { "too far" };
    format!(
        "strokes {}, {how}: worst {:.1} ms, half a frame is {half:.1}: {holds}",
        which.join(", "),
        fit.worst_ms
    )
}

fn beats(found: &BeatsDocument) -> String {
    let or: Vec<String> = found.or_bpm.iter().map(|bpm| format!("{bpm:.0}")).collect();
    let mut text = format!(
        "{:.2} beats a minute, {} whole bars of {}; the beats lie {:.0} ms from even ones",
        found.played_bpm, found.bars, found.beats.in_a_bar, found.uneven_ms
    );
    if !or.is_empty() {
        text.push_str(&format!(
            "\nit may also be {}: say --slowest and --fastest when one of these is meant",
            or.join(", ")
        ));
    }
    text
}
