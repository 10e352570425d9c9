//! FFmpeg's own measure of how much a frame differs from the one before.

use std::path::Path;
use std::process::Command;

use super::folder::Scan;
use crate::cost::output_of;
use crate::trouble::Trouble;

/// The scene score of each frame that FFmpeg decodes, in order. Range: 0 to 1.
///
/// Source: FFmpeg's documentation of the filters `select` (variable `scene`)
/// and `metadata`. Every score is at least 0, so every frame is listed.
///
/// # Errors
/// [`Trouble::Child`] when FFmpeg cannot read it, [`Trouble::NotDone`] when it
/// lists frames without scores.
pub(crate) fn scores(ffmpeg: &Path, scan: &Scan) -> Result<Vec<f64>, Trouble> {
    let mut command = Command::new(ffmpeg);
    command.args(["-nostdin", "-v", "error"]);
    match &scan.run_of {
        // The folder's own name may hold signs that a pattern would take for its own.
        Some(ending) => command.current_dir(&scan.path).args([
            "-f",
            "image2",
            "-pattern_type",
            "glob",
            "-i",
            &format!("*.{ending}"),
        ]),
        None => command
            .arg("-i")
            .arg(std::path::absolute(&scan.path).unwrap_or(scan.path.clone())),
    };
    command.args([
        "-vf",
        "select='gte(scene,0)',metadata=print:file=-",
        "-an",
        "-fps_mode",
        "passthrough",
        "-f",
        "null",
        "-",
    ]);
    let listed = output_of(&mut command, "ffmpeg")?;
    read(&String::from_utf8_lossy(&listed))
}

/// Reads the list: a line `frame:N …` for each frame, then `key=value` lines.
fn read(listed: &str) -> Result<Vec<f64>, Trouble> {
    let frames = listed
        .lines()
        .filter(|line| line.starts_with("frame:"))
        .count();
    let scores: Vec<f64> = listed
        .lines()
        .filter_map(|line| line.strip_prefix("lavfi.scene_score=")?.trim().parse().ok())
        .collect();
    crate::trouble::make_sure(
        "scores in FFmpeg's list",
        scores.len() as u64,
        frames as u64,
    )?;
    Ok(scores)
}

/// The frames whose score lies above a threshold, as `select='gt(scene,t)'`
/// lets them through.
pub(crate) fn above(scores: &[f64], threshold: f64) -> Vec<u32> {
    let over = (0_u32..)
        .zip(scores)
        .filter(|(_, score)| **score > threshold);
    over.map(|(frame, _)| frame).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_score_a_frame_is_read_in_order() {
        let listed = "frame:0    pts:0       pts_time:0\nlavfi.scene_score=0.000000\n\
                      frame:1    pts:512     pts_time:0.04\nlavfi.scene_score=0.412000\n";
        assert_eq!(read(listed).expect("it is whole"), [0.0, 0.412]);
        assert!(read("frame:0 pts:0\nframe:1 pts:1\nlavfi.scene_score=0.1\n").is_err());
    }

    #[test]
    fn a_threshold_is_not_met_by_a_score_equal_to_it() {
        assert_eq!(above(&[0.0, 0.4, 0.3, 0.31], 0.3), [1, 3]);
    }
}
