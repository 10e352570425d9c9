//! A bench of plain lists: film is frame numbers, an act moves them.

use std::collections::BTreeMap;

use onestrand_bench::{BenchAct, Step, Towards};
use onestrand_cut::{JoinTable, PieceKind, Strand, Strips, TrialCut};

/// A frame as it lies on the reel: of a roll, or of leader.
pub(crate) type Frame = Option<(String, u32)>;

/// What the replay measured by itself.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub(crate) struct Measured {
    pub(crate) wound: u64,
    pub(crate) mountings: usize,
    pub(crate) pins: usize,
    pub(crate) cuts: usize,
    pub(crate) joins: usize,
    /// All frames on the take-up reel, as joined: what is eaten stands with it.
    pub(crate) reel: Vec<Frame>,
}

#[derive(Debug)]
struct Roll {
    /// Frames still on it.
    film: Vec<u32>,
    length: u32,
    at: u32,
    /// Where the splicer was before the last winding.
    was: u32,
    cut: Vec<u32>,
}

/// Does exactly what the steps say, and stops where an act cannot be done.
pub(crate) fn carry_out(
    steps: &[Step],
    cut: &TrialCut,
    strand: &Strand,
    table: &JoinTable,
) -> Measured {
    let strips = Strips::of(cut, table);
    let mut rolls: BTreeMap<String, Roll> = strand
        .rolls()
        .map(|r| {
            let length = r.frames.count();
            let film = (0..length).collect();
            let roll = Roll {
                film,
                length,
                at: 0,
                was: 0,
                cut: vec![0, length],
            };
            (r.id.to_string(), roll)
        })
        .collect();
    let mut bench = Measured::default();
    let mut mounted: Option<String> = None;
    let mut pins: BTreeMap<u32, Vec<Frame>> = BTreeMap::new();
    let mut in_hand: Option<Vec<Frame>> = None;
    for step in steps {
        let name = step.roll.as_ref().map(ToString::to_string);
        match step.act {
            BenchAct::Mount => {
                assert_eq!(mounted, None, "one pair of rewinds");
                mounted = name;
                bench.mountings += 1;
            }
            BenchAct::Unmount => {
                assert_eq!(mounted.take(), name);
            }
            BenchAct::Wind => {
                assert_eq!(mounted, name);
                let roll = rolls.get_mut(&name.expect("a roll")).expect("there");
                let to = step.frame.expect("a place").index();
                let way = if to > roll.at {
                    Towards::Tail
                } else {
                    Towards::Head
                };
                assert_eq!(step.direction, Some(way));
                bench.wound += u64::from(roll.at.abs_diff(to));
                (roll.was, roll.at) = (roll.at, to);
            }
            BenchAct::Cut => {
                assert_eq!(mounted, name);
                let roll = rolls.get_mut(&name.expect("a roll")).expect("there");
                assert_eq!(Some(roll.at), step.frame.map(|f| f.index()));
                assert!(!roll.cut.contains(&roll.at), "cut already");
                roll.cut.push(roll.at);
                bench.cuts += 1;
            }
            BenchAct::Hang => {
                let strip = loose(&mut rolls, &mounted);
                let before = pins.insert(step.pin.expect("a pin"), strip);
                assert_eq!(before, None, "the pin was free");
                bench.pins = bench.pins.max(pins.len());
            }
            BenchAct::TakeUp => {
                assert_eq!(in_hand, None);
                in_hand = Some(match (step.pin, &step.roll) {
                    (Some(pin), _) => pins.remove(&pin).expect("it hangs there"),
                    (None, Some(_)) => loose(&mut rolls, &mounted),
                    (None, None) => leader(cut, &strips, step.position),
                });
            }
            BenchAct::Join => {
                bench.joins += 1;
                match step.position {
                    Some(_) => bench
                        .reel
                        .extend(in_hand.take().expect("something to join")),
                    None => assert_eq!(in_hand, None),
                }
            }
        }
    }
    assert_eq!((mounted, in_hand), (None, None), "the bench is cleared");
    assert!(pins.is_empty(), "nothing hangs on");
    bench
}

/// The film between the last two places at the splicer, cut at both.
fn loose(rolls: &mut BTreeMap<String, Roll>, mounted: &Option<String>) -> Vec<Frame> {
    let name = mounted.as_ref().expect("a roll is mounted");
    let roll = rolls.get_mut(name).expect("there");
    let (low, high) = (roll.at.min(roll.was), roll.at.max(roll.was));
    assert!(high <= roll.length);
    assert!(roll.cut.contains(&low) && roll.cut.contains(&high));
    let is_in = |f: &u32| low <= *f && *f < high;
    let strip: Vec<u32> = roll.film.iter().copied().filter(is_in).collect();
    assert_eq!(strip.len(), (high - low) as usize, "none of it is gone");
    roll.film.retain(|f| !is_in(f));
    strip.into_iter().map(|f| Some((name.clone(), f))).collect()
}

fn leader(cut: &TrialCut, strips: &Strips, position: Option<usize>) -> Vec<Frame> {
    let at = position.expect("a position") - 1;
    assert!(!matches!(cut.pieces()[at].kind, PieceKind::Shot(_)));
    let strip = strips.strips.iter().find(|s| s.positions.0 == at);
    vec![None; strip.expect("a strip").frames.count() as usize]
}

/// The reel as the cut wants it: each strip with what its joins eat.
pub(crate) fn wanted(cut: &TrialCut, table: &JoinTable) -> Vec<Frame> {
    let strips = Strips::of(cut, table);
    let mut reel = Vec::new();
    for (index, strip) in strips.strips.iter().enumerate() {
        match (&strip.span, strips.extent(index)) {
            (Some(span), Some((begin, end))) => reel.extend((begin..end).map(|f| {
                let frame = u32::try_from(f).expect("inside its roll");
                Some((span.roll.to_string(), frame))
            })),
            _ => reel.extend(vec![None; strip.frames.count() as usize]),
        }
    }
    reel
}
