//! Cautions for work at the bench: short, never in place of the papers and
//! people that have the last word.

use serde::Serialize;

use crate::head::{JoinBite, JoinKind};

/// One caution.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct Caution {
    /// What it is about, one or two words.
    pub(crate) about: &'static str,
    /// What to do.
    pub(crate) words: &'static str,
}

/// Who has the last word.
const FIRST: Caution = Caution {
    about: "First",
    words: "What your local codes, the safety sheet of a product, or a licensed or competent \
            person says comes before anything printed here.",
};
const BLADES: Caution = Caution {
    about: "Blades",
    words: "Splicer and blade cut fingers as well as film. Look where the other hand is before \
            you press down.",
};
const POLYESTER: Caution = Caution {
    about: "Polyester",
    words: "It does not break: it pulls a hand in or wrecks the machine. Stop both rewinds before \
            you free a snag.",
};
const SOLVENT: Caution = Caution {
    about: "Solvent",
    words: "Film cement burns easily and its vapour harms. Open a window, keep flame and hot lamps away, \
            wear the gloves its safety sheet names, cap it between joins. In a classroom only \
            after the school has assessed it.",
};

const VINEGAR: Caution = Caution {
    about: "Vinegar",
    words: "Film that smells of it is decaying, and the vapour stings. Wear gloves, air the room, \
            keep that roll apart from the others, and run it through no projector.",
};

/// The cautions for whoever handles rolls without cutting them.
pub(crate) fn handling_cautions() -> Vec<Caution> {
    vec![FIRST, POLYESTER, VINEGAR]
}

/// The cautions for a bench that makes these joins. Cement is spoken of only
/// where it is used; a weld may be made with solvent too.
pub(crate) fn bench_cautions(joins: &[JoinBite]) -> Vec<Caution> {
    let solvent = |join: &JoinBite| matches!(join.kind, JoinKind::Cement | JoinKind::Weld);
    let mut cautions = vec![FIRST, BLADES, POLYESTER];
    if joins.iter().any(solvent) {
        cautions.push(SOLVENT);
    }
    cautions
}

#[cfg(test)]
mod tests {
    use super::*;
    use onestrand_film::Frames;

    fn bench(kind: JoinKind) -> Vec<&'static str> {
        let join = JoinBite {
            kind,
            out_tail: Frames::ZERO,
            in_head: Frames::ZERO,
        };
        bench_cautions(&[join])
            .iter()
            .map(|caution| caution.about)
            .collect()
    }

    #[test]
    fn solvent_is_spoken_of_only_where_it_is_used() {
        assert_eq!(bench(JoinKind::Tape), ["First", "Blades", "Polyester"]);
        assert_eq!(
            bench(JoinKind::Cement),
            ["First", "Blades", "Polyester", "Solvent"]
        );
        assert_eq!(
            bench(JoinKind::Weld),
            ["First", "Blades", "Polyester", "Solvent"]
        );
    }
}
