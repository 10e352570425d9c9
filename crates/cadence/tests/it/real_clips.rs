//! Real film, read by everybody's eyes but ours.
use super::coded::planes;
use super::score::*;
#[test]
fn try_clips() {
    let base = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/media/video");
    for f in std::fs::read_dir(base).unwrap() {
        let p = f.unwrap().path();
        if p.extension().is_some_and(|e| e == "csv") {
            continue;
        }
        let pl = planes(&p);
        let n = pl.len();
        let rate = if p.to_string_lossy().contains("hbomb")
            || p.to_string_lossy().contains("edison")
            || p.to_string_lossy().contains("pulldown")
        {
            (30000, 1001)
        } else if p.to_string_lossy().contains("sintel") || p.to_string_lossy().contains("tears") {
            (24, 1)
        } else {
            (25, 1)
        };
        let o = find_in(pl.into_iter(), vec![], settings(rate));
        println!(
            "{:?} file {n} film {} {:?} {} {:?} {:?}",
            p.file_name().unwrap(),
            o.frames.len(),
            o.found.transfer,
            o.found.step,
            o.found.exposure,
            o.found.faults
        );
    }
}
