//! The shapes of the chart, and what they mean.

use super::super::drawing::{Drawing, Fill, Lettering, Pen, Place};
use crate::dub::CueAnchor;

/// The shape of what a cue holds to, about its middle.
pub(super) fn anchor(drawing: &mut Drawing, at: Place, anchor: CueAnchor) {
    let [x, y] = at;
    match anchor {
        CueAnchor::Frame => drawing.ring(at, 0.9, Pen::None, Fill::Black),
        CueAnchor::Join => {
            drawing.rectangle([x - 0.4, y - 1.4], [0.8, 2.8], Pen::None, Fill::Black);
        }
        CueAnchor::Clock => {
            drawing.ring(at, 1.1, Pen::Plain, Fill::White);
            drawing.line(at, [x, y - 0.9], Pen::Thin);
            drawing.line(at, [x + 0.7, y], Pen::Thin);
        }
    }
}

/// The shapes in a row, each with its words.
pub(super) fn key() -> Drawing {
    let mut drawing = Drawing::new(super::measure::WIDE, 12.0);
    let anchors = [
        (CueAnchor::Frame, "holds to a frame"),
        (CueAnchor::Join, "holds to a join"),
        (CueAnchor::Clock, "holds to the clock"),
    ];
    for (nth, (one, words)) in anchors.into_iter().enumerate() {
        let x = 2.0 + nth as f64 * 38.0;
        anchor(&mut drawing, [x, 2.4], one);
        drawing.words(Lettering::new([x + 2.6, 0.7], 36.0, 10.0, words));
    }
    drawing.line([116.0, 2.6], [124.0, 2.6], Pen::Dotted);
    drawing.words(Lettering::new(
        [126.0, 0.7],
        62.0,
        10.0,
        "a join, to where it is heard",
    ));
    let wedge = [[1.0, 7.0], [9.0, 7.0], [1.0, 10.6]];
    drawing.hatch(&wedge, 1.1, true);
    drawing.shape(wedge.to_vec(), Pen::Plain, Fill::None);
    drawing.words(Lettering::new([11.0, 7.0], 24.0, 10.0, "a fade"));
    let may = vec![[82.0, 7.0], [87.2, 7.0], [84.6, 9.9]];
    drawing.shape(may, Pen::Dashed, Fill::None);
    drawing.words(Lettering::new([88.8, 7.0], 26.0, 10.0, "a place for it"));
    let drop = vec![[40.0, 7.0], [45.2, 7.0], [42.6, 9.9]];
    drawing.shape(drop, Pen::Plain, Fill::Black);
    drawing.words(Lettering::new(
        [47.0, 7.0],
        50.0,
        10.0,
        "its point is its frame",
    ));
    let gone = [[116.0, 7.0], [124.0, 7.0], [124.0, 10.6], [116.0, 10.6]];
    drawing.hatch(&gone, 1.8, false);
    drawing.hatch(&gone, 1.8, true);
    drawing.shape(gone.to_vec(), Pen::Plain, Fill::None);
    drawing.words(Lettering::new(
        [126.0, 7.0],
        62.0,
        10.0,
        "a cue without a place",
    ));
    drawing
}
