//! What the camera can do, in words, with its sum.

use onestrand_production::documents::CameraOpenedDocument;

pub(crate) fn camera(opened: &CameraOpenedDocument) -> String {
    let mut lines = vec![opened.text.clone()];
    for sum in &opened.sums {
        lines.push(format!("  {}: {}", sum.what, sum.formula));
        lines.push(format!("    = {} = {}", sum.figures, sum.comes));
        lines.push(format!("    from: {}", sum.source));
    }
    for one in &opened.taken {
        lines.push(format!("  taken: {one}"));
    }
    lines.join("\n")
}
