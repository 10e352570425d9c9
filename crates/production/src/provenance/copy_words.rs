//! What was found of two copies, in words.

use onestrand_provenance::{CopiesFound, CopyEvidence, EvidenceKind, Kinship, SURE};

use crate::documents::{CopiesDocument, CopyFinding, CopyKinship, CopyPlace, CopySpeaks};

fn kinship_word(kinship: Kinship) -> &'static str {
    match kinship {
        Kinship::FirstIsNearer => "first_is_nearer",
        Kinship::SecondIsNearer => "second_is_nearer",
        Kinship::OfAThird => "of_a_third",
        Kinship::OneStrip => "one_strip",
    }
}

fn kind_word(kind: EvidenceKind) -> &'static str {
    match kind {
        EvidenceKind::Dirt => "dirt",
        EvidenceKind::DirtShared => "dirt_shared",
        EvidenceKind::Window => "window",
        EvidenceKind::Sharpness => "sharpness",
        EvidenceKind::Contrast => "contrast",
    }
}

fn kinship_words(kinship: Kinship, (first, second): (&str, &str)) -> String {
    match kinship {
        Kinship::FirstIsNearer => {
            format!("{first} is nearer the original; {second} was printed from it")
        }
        Kinship::SecondIsNearer => {
            format!("{second} is nearer the original; {first} was printed from it")
        }
        Kinship::OfAThird => {
            format!("{first} and {second} were both printed from a third that is not here")
        }
        Kinship::OneStrip => format!("{first} and {second} are two scans of one strip"),
    }
}

/// What was found, for whoever asked.
pub(super) fn document(
    (first, second): (String, String),
    found: &CopiesFound,
    places: Vec<CopyPlace>,
    mirrored: bool,
) -> CopiesDocument {
    let names = (first.as_str(), second.as_str());
    let mut all = found.kinships.clone();
    all.sort_by(|a, b| b.1.total_cmp(&a.1));
    let (likeliest, probability) = found.likeliest();
    let said = kinship_words(likeliest, names);
    let words = if probability >= SURE {
        said
    } else {
        format!("perhaps {said}")
    };
    let kinships = all.iter().map(|&(kinship, probability)| CopyKinship {
        kinship: kinship_word(kinship),
        probability,
        words: kinship_words(kinship, names),
    });
    CopiesDocument {
        kinships: kinships.collect(),
        sure: probability >= SURE,
        words,
        evidence: found.evidence.iter().map(|e| finding(e, names)).collect(),
        unseen: found.unseen.clone(),
        places,
        size: found.size,
        mirrored,
        first,
        second,
    }
}

fn finding(found: &CopyEvidence, (first, second): (&str, &str)) -> CopyFinding {
    let speaks = Kinship::ALL.into_iter().zip(found.speaks);
    CopyFinding {
        kind: kind_word(found.kind),
        words: found
            .words
            .replace("the first", first)
            .replace("the second", second),
        speaks: speaks
            .map(|(kinship, speaks)| CopySpeaks {
                kinship: kinship_word(kinship),
                share: speaks.exp(),
            })
            .collect(),
    }
}
