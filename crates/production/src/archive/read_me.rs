//! The first file that somebody opens who knows nothing of this program.

use super::BoxPlan;
use crate::documents::BoxedScanDocument;

/// What lies where in the box, in plain words.
pub(super) fn read_me(plan: &BoxPlan, scans: &[BoxedScanDocument]) -> String {
    let mut text = format!(
        "{}\n{}\n\n\
         This folder is an archive box: a bag after BagIt 1.0 (RFC 8493). The files\n\
         manifest-sha256.txt and manifest-sha512.txt above the folder data list every file\n\
         with its checksum; any BagIt program can tell whether one bit of it has changed.\n\
         Nothing in it needs the program that made it but the folder production.\n\n",
        plan.title, plan.about
    );
    for (place, what) in [
        (
            "production",
            "the production as the program keeps it: its file, sounds, artwork and, where they are in the box, the scans. Copied to a disk and opened, it is the same production.",
        ),
        (
            "text",
            "the same as open text: JSON documents, CSV forms, and each version as an OpenTimelineIO file.",
        ),
        ("sheets", "the printed sheets, as PDF."),
        (
            "mix",
            "the sound mixed to the cut, and each of its columns alone: Broadcast Wave, 48 kHz, 24 bit.",
        ),
        ("finish", "digital copies of the cut, frame for frame."),
        (
            "dublin-core.xml",
            "what is said of the film, in the terms of Dublin Core.",
        ),
        (
            "accession-sheet.pdf",
            "the same on paper, with how each statement is known, what was done and when, and the checksums of the scans and finishes.",
        ),
        (
            "scans.json",
            "which scan is of which roll, where it lies, and its checksums.",
        ),
    ] {
        text.push_str(&format!("{place}\n    {what}\n"));
    }
    let outside: Vec<&str> = scans
        .iter()
        .filter(|scan| !scan.in_box)
        .map(|scan| scan.roll.as_str())
        .collect();
    if !outside.is_empty() {
        text.push_str(&format!(
            "\nThe scans of {} do NOT lie in this box. scans.json says where they were and what\n\
             their checksums are. Without them there are no pictures but those on the sheets.\n",
            outside.join(", ")
        ));
    }
    text.push_str("\nWhat does not lie in it:\n");
    for left in &plan.left_out {
        text.push_str(&format!("  {}: {}\n", left.what, left.why));
    }
    text
}
