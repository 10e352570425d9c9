//! The work order of a re-cut, carried out act by act on film with a history, and held
//! against every order there is.

use std::collections::BTreeMap;

use onestrand_bench::{BenchHabits, Recut, RecutDeed, RecutOrder, RecutSource, RecutStep, Winding};
use onestrand_cut::{CheckRules, JoinKind, JoinTable, Piece, PieceKind, Strand, TrialCut, check};
use onestrand_film::{Frames, Gauge};
use proptest::prelude::*;

use crate::boat::{first_cut, plain_roll, span, strand as boat};
use crate::by_hand::Bench;
use crate::strip::{Cell, Length, Wish, is_leader, wishes};

const ROLLS: [(&str, u32); 2] = [("A", 150), ("B", 150)];

/// What the replay measured by itself.
#[derive(Debug, Default)]
struct Measured {
    wound: u64,
    mountings: usize,
    pins: usize,
    opened: usize,
    cuts: usize,
    joins: usize,
    shown: Vec<Cell>,
    /// For each length in the order of the new version: where it lay.
    lay: Vec<(String, u32, u32)>,
}

/// The bench: what is left of reel and rolls, each a row of lengths.
struct Replay<'a> {
    gauge: Gauge,
    old: Vec<((usize, usize), Wish)>,
    new: Vec<((usize, usize), Wish)>,
    usual: JoinKind,
    film: BTreeMap<String, Vec<Length>>,
    /// Running frame of the old version, of every cell on the reel.
    running: BTreeMap<Cell, u32>,
    stands: BTreeMap<String, (u32, u32)>,
    steps: &'a [RecutStep],
}

/// Strips with their positions, from 1.
fn placed(cut: &TrialCut) -> Vec<((usize, usize), Wish)> {
    let mut at = 0;
    let mut all = Vec::new();
    for wish in wishes(cut) {
        let first = at + 1;
        let mut frames = 0;
        while frames < wish.cells.len() {
            frames += cut.pieces()[at].frames().count() as usize;
            at += 1;
        }
        all.push(((first, at), wish));
    }
    all
}

fn named(source: &RecutSource) -> String {
    match source {
        RecutSource::Reel => "the reel".to_owned(),
        RecutSource::Roll(id) => id.to_string(),
    }
}

fn leader(what: &str) -> Length {
    Length {
        cells: vec![(format!("{what} leader"), 0)],
        ..Length::default()
    }
}

impl Replay<'_> {
    fn place(&self, cell: &Cell) -> Option<u32> {
        match (self.running.get(cell), is_leader(cell)) {
            (Some(at), _) => Some(*at),
            (None, true) => None,
            (None, false) => Some(cell.1),
        }
    }

    fn carry_out(mut self) -> Measured {
        let mut done = Measured::default();
        let mut mounted: Option<String> = None;
        let mut pins: BTreeMap<u32, (Length, (String, u32, u32))> = BTreeMap::new();
        let mut reel: Option<Length> = None;
        let mut in_hand: Option<Length> = None;
        for step in self.steps {
            let name = step.source.as_ref().map(named);
            match step.deed {
                RecutDeed::Mount => {
                    assert_eq!(mounted, None, "one pair of rewinds");
                    mounted = name;
                    done.mountings += 1;
                }
                RecutDeed::Unmount => assert_eq!(mounted.take(), name),
                RecutDeed::Wind => {
                    assert_eq!(mounted, name);
                    let stand = self.stands.entry(name.expect("one")).or_default();
                    let to = step.place.expect("a place");
                    done.wound += u64::from(stand.1.abs_diff(to));
                    *stand = (stand.1, to);
                }
                RecutDeed::Open => {
                    assert_eq!(mounted, name);
                    self.open(step);
                    done.opened += 1;
                }
                RecutDeed::Cut => {
                    assert_eq!(mounted, name);
                    self.cut(&name.expect("one"), step);
                    done.cuts += 1;
                }
                RecutDeed::Hang => {
                    let freed = self.loose(mounted.as_ref());
                    let before = pins.insert(step.pin.expect("a pin"), freed);
                    assert_eq!(before, None, "the pin was free");
                    done.pins = done.pins.max(pins.len());
                }
                RecutDeed::TakeUp => {
                    assert_eq!(in_hand, None);
                    let length = match (step.pin, &step.source) {
                        (Some(pin), _) => {
                            let (length, lay) = pins.remove(&pin).expect("it hangs there");
                            done.lay.push(lay);
                            length
                        }
                        (None, Some(_)) => {
                            let (length, lay) = self.loose(mounted.as_ref());
                            done.lay.push(lay);
                            length
                        }
                        (None, None) => self.ready(step),
                    };
                    match length.cells[0].0 == "head leader" {
                        true => reel = Some(length),
                        false => in_hand = Some(length),
                    }
                }
                RecutDeed::Join => {
                    let before = reel.take().unwrap_or_else(|| leader("head"));
                    let next = in_hand.take().unwrap_or_else(|| leader("tail"));
                    let tail = next.cells[0].0 == "tail leader";
                    assert_eq!(tail, step.positions.is_none());
                    let kind = self.kind(step);
                    reel = Some(before.join(next, kind, self.gauge));
                    done.joins += 1;
                }
            }
        }
        assert_eq!((mounted, in_hand), (None, None), "the bench is cleared");
        assert!(pins.is_empty(), "nothing hangs on");
        let cells = match self.steps.is_empty() {
            true => self.film["the reel"][0].cells.clone(),
            false => reel.expect("a reel").cells,
        };
        assert_eq!(cells[0].0, "head leader");
        assert_eq!(cells[cells.len() - 1].0, "tail leader");
        done.shown = cells[1..cells.len() - 1].to_vec();
        done
    }

    /// The length between the last two places at the splicer.
    fn loose(&mut self, mounted: Option<&String>) -> (Length, (String, u32, u32)) {
        let name = mounted.expect("something is mounted");
        let (was, at) = self.stands[name];
        let (low, high) = (was.min(at), was.max(at));
        let lengths = &self.film[name];
        let inside = |cell: &Cell| self.place(cell).is_none_or(|p| low <= p && p < high);
        let some = |length: &Length| {
            let mut cells = length.cells.iter();
            cells.any(|c| self.place(c).is_some_and(|p| low <= p && p < high))
        };
        let found: Vec<usize> = (0..lengths.len()).filter(|i| some(&lengths[*i])).collect();
        assert_eq!(found.len(), 1, "one length lies between {low} and {high}");
        assert!(
            lengths[found[0]].cells.iter().all(inside),
            "it is free at both ends"
        );
        let lay = (name.clone(), low, high);
        let lengths = self.film.get_mut(name).expect("there");
        (lengths.remove(found[0]), lay)
    }

    fn cut(&mut self, name: &str, step: &RecutStep) {
        let place = step.place.expect("a place");
        assert_eq!(self.stands[name].1, place, "it lies at the splicer");
        let frame = step.frame.as_ref().expect("a frame");
        let cell = (frame.roll.to_string(), frame.frame.index());
        assert_eq!(self.place(&cell), Some(place));
        let lengths = self.film.get_mut(name).expect("there");
        let of = lengths.iter().position(|l| l.cells.contains(&cell));
        let length = lengths.remove(of.expect("the frame is there"));
        let at = length.cells.iter().position(|c| *c == cell).expect("there");
        let (one, other) = length.cut(at);
        assert_eq!(
            one.cells.last().map(|c| c.1 + 1),
            Some(cell.1),
            "whole film"
        );
        lengths.extend([one, other]);
    }

    fn open(&mut self, step: &RecutStep) {
        let place = step.place.expect("a place");
        assert_eq!(self.stands.get("the reel").map_or(0, |s| s.1), place);
        let side = |cell: &Cell| {
            let strip = self.old.iter().find(|(_, wish)| wish.cells.contains(cell));
            strip.map(|(positions, _)| *positions)
        };
        let is = |length: &Length, before: usize| {
            let after = side(&length.cells[before - 1]).map(|p| p.1);
            let behind = side(&length.cells[before]).map(|p| p.0);
            (after, behind) == (step.opens_after, step.opens_before)
        };
        let lengths = &self.film["the reel"];
        let mut found = None;
        for (of, length) in lengths.iter().enumerate() {
            for (at, splice) in length.splices.iter().enumerate() {
                if is(length, splice.before) {
                    found = Some((of, at));
                }
            }
        }
        let (of, at) = found.expect("the join is there");
        let lengths = self.film.get_mut("the reel").expect("there");
        let (one, other, _) = lengths.remove(of).open(at, self.gauge);
        lengths.extend([one, other]);
    }

    fn strip(&self, step: &RecutStep) -> usize {
        let first = step.positions.expect("positions").0;
        let is = |(positions, _): &((usize, usize), Wish)| positions.0 == first;
        self.new.iter().position(is).expect("a strip")
    }

    fn ready(&self, step: &RecutStep) -> Length {
        let cells = self.new[self.strip(step)].1.cells.clone();
        assert!(is_leader(&cells[0]));
        Length {
            cells,
            ..Length::default()
        }
    }

    fn kind(&self, step: &RecutStep) -> JoinKind {
        if step.put_back {
            return self.usual;
        }
        let strip = match step.positions {
            Some(_) => self.strip(step),
            None => self.new.len(),
        };
        strip
            .checked_sub(1)
            .map_or(self.usual, |before| self.new[before].1.join)
    }
}

fn replay(
    order: &RecutOrder,
    (old, new): (&TrialCut, &TrialCut),
    rolls: &[(&str, u32)],
    gauge: Gauge,
) -> Measured {
    let (reel, rest) = Bench::first_cut(old, rolls, gauge).laid_out();
    let mut film: BTreeMap<String, Vec<Length>> = BTreeMap::new();
    for length in rest {
        film.entry(length.cells[0].0.clone())
            .or_default()
            .push(length);
    }
    film.insert("the reel".to_owned(), vec![reel]);
    let shown = wishes(old).into_iter().flat_map(|w| w.cells);
    let plan = order.plan.as_ref().expect("an order");
    Replay {
        gauge,
        old: placed(old),
        new: placed(new),
        usual: new.usual_join(),
        film,
        running: shown.zip(0..).collect(),
        stands: BTreeMap::new(),
        steps: &plan.steps,
    }
    .carry_out()
}

/// Carries an order out and holds its figures against what was measured.
fn holds(
    order: &RecutOrder,
    versions: (&TrialCut, &TrialCut),
    (rolls, strand): (&[(&str, u32)], &Strand),
    gauge: Gauge,
) -> Measured {
    let (old, new) = versions;
    let told = Recut::price(old, new, strand, &JoinTable::usual(gauge));
    let done = replay(order, versions, rolls, gauge);
    let lost = |cell: &Cell| {
        told.lost_film.iter().any(|s| {
            let range = s.range.begin().index()..s.range.end().index();
            s.roll.as_str() == cell.0 && range.contains(&cell.1)
        })
    };
    let wanted = wishes(new).into_iter().flat_map(|w| w.cells);
    let wanted: Vec<Cell> = wanted.filter(|c| !lost(c)).collect();
    assert_eq!(done.shown, wanted, "frame for frame");
    let plan = order.plan.as_ref().expect("an order");
    assert_eq!(done.wound, plan.corner.wound_frames);
    assert_eq!(done.pins, plan.corner.pins_peak as usize);
    assert_eq!(done.mountings.saturating_sub(1), plan.corner.roll_changes);
    assert_eq!(
        (done.opened, done.cuts, done.joins),
        (order.opened, order.cuts, order.joined)
    );
    assert_eq!(done.joins, told.made + told.leader_made + told.put_back);
    assert_eq!(
        done.opened + order.left_joined,
        told.opened + told.leader_opened
    );
    done
}

/// Fewest changes, then wound, then pins, of every order of one pass within the pins.
fn best_of_all(lay: &[(String, u32, u32)], pins: usize) -> Option<(usize, u64, usize)> {
    let mut rolls: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (turn, (name, ..)) in lay.iter().enumerate() {
        rolls.entry(name).or_default().push(turn);
    }
    let mut wound = 0;
    let mut rows: Vec<Vec<usize>> = Vec::new();
    for (_, mut turns) in rolls {
        turns.sort_by_key(|t| lay[*t].1);
        wound += u64::from(turns.iter().map(|t| lay[*t].2).max().unwrap_or(0));
        rows.push(turns);
    }
    let mut best: Option<(usize, usize)> = None;
    let mut standings = vec![(vec![0_usize; rows.len()], usize::MAX, 0_usize, 0_usize)];
    while let Some((at, mounted, changes, peak)) = standings.pop() {
        if best.is_some_and(|b| (changes, peak) >= b) {
            continue;
        }
        if (0..rows.len()).all(|r| at[r] == rows[r].len()) {
            best = Some((changes, peak));
            continue;
        }
        for r in 0..rows.len() {
            if at[r] == rows[r].len() {
                continue;
            }
            let mut next = at.clone();
            next[r] += 1;
            let taken: Vec<usize> = (0..rows.len())
                .flat_map(|i| rows[i][..next[i]].to_vec())
                .collect();
            let on = (0..lay.len()).take_while(|t| taken.contains(t)).count();
            let hanging = taken.len() - on;
            if hanging <= pins {
                let changed = usize::from(mounted != usize::MAX && mounted != r);
                standings.push((next, r, changes + changed, peak.max(hanging)));
            }
        }
    }
    best.map(|(changes, peak)| (changes, wound, peak))
}

type Drawn = (u8, u32, u32, Option<JoinKind>);

fn piece((what, begin, len, join): Drawn) -> Piece {
    let piece = match what {
        0..=8 => {
            let roll = ROLLS[usize::from(what % 2)].0;
            Piece::shot(span(roll, begin % 130, (begin % 130 + len).min(150)))
        }
        _ => Piece::leader(Frames::new(8 + len % 5).expect("a length")),
    };
    Piece { join, ..piece }
}

fn changed(cut: &TrialCut, (what, at, to, by, new): (u8, usize, usize, i8, Drawn)) -> TrialCut {
    let mut pieces = cut.pieces().to_vec();
    let count = pieces.len();
    let (at, to) = (at % count, to % count);
    match what {
        0 if count > 1 => drop(pieces.remove(at)),
        1 | 2 => {
            let moved = pieces.remove(at);
            pieces.insert(to.min(pieces.len()), moved);
        }
        3 => pieces.insert(to, piece(new)),
        _ => {
            let Some(old) = pieces[at].span().cloned() else {
                return cut.clone();
            };
            let moved = |n: u32| n.saturating_add_signed(i32::from(by % 9)).min(150);
            let (begin, end) = (old.range.begin().index(), old.range.end().index());
            let (begin, end) = match what {
                4 => (moved(begin), end),
                _ => (begin, moved(end)),
            };
            if begin < end {
                pieces[at].kind = PieceKind::Shot(span(old.roll.as_str(), begin, end));
            }
        }
    }
    TrialCut::new(pieces, cut.usual_join())
}

fn drawn() -> impl Strategy<Value = Drawn> {
    let kind = prop::option::weighted(0.2, prop::sample::select(JoinKind::ALL.to_vec()));
    (0_u8..10, 0_u32..130, 8_u32..18, kind)
}

fn habits(pins: usize, winding: Winding) -> BenchHabits {
    BenchHabits {
        pins: u32::try_from(pins).expect("few"),
        winding,
        ..BenchHabits::default()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, ..ProptestConfig::default() })]

    #[test]
    fn every_order_makes_the_film_and_none_is_better(
        pieces in prop::collection::vec(drawn(), 1..12),
        steps in prop::collection::vec((0_u8..6, 0_usize..9, 0_usize..9, any::<i8>(), drawn()), 0..6),
        usual in prop::sample::select(JoinKind::ALL.to_vec()),
        gauge in prop::sample::select(vec![Gauge::Super8, Gauge::Sixteen]),
    ) {
        let strand = Strand::new(gauge, ROLLS.map(|(n, len)| plain_roll(n, len, gauge)), []);
        let table = JoinTable::usual(gauge);
        let rules = CheckRules { table: table.clone() };
        let can = |cut: &TrialCut| check(cut, &strand, &rules).conflicts.is_empty();
        let mut old = TrialCut::new(vec![], usual);
        for one in pieces {
            let longer = [old.pieces(), &[piece(one)]].concat();
            let longer = TrialCut::new(longer, usual);
            if can(&longer) {
                old = longer;
            }
        }
        prop_assume!(!old.pieces().is_empty());
        let mut new = old.clone();
        for step in steps {
            let next = Recut::as_made(&old, &changed(&new, step), &table);
            if can(&next) {
                new = next;
            }
        }
        let order = |pins, winding| Recut::order(&old, &new, &strand, &table, &habits(pins, winding));
        let held = |order: &RecutOrder| holds(order, (&old, &new), (&ROLLS, &strand), gauge);
        // With pins enough, and with one less each time until there is no order.
        let mut pins = 99;
        let lay = held(&order(pins, Winding::OnePass)).lay;
        prop_assume!(lay.len() <= 9);
        loop {
            let order = order(pins, Winding::OnePass);
            let best = best_of_all(&lay, pins).map(|(c, w, p)| (c, w, u32::try_from(p).expect("few")));
            let corner = order.plan.as_ref().map(|p| &p.corner);
            prop_assert_eq!(corner.map(|c| (c.roll_changes, c.wound_frames, c.pins_peak)), best);
            let Some(plan) = &order.plan else {
                let fewest = order.fewest.iter().find(|f| f.winding == Winding::OnePass);
                let fewest = fewest.expect("of each way");
                prop_assert_eq!((fewest.pins, fewest.at_least), (fewest.at_least, u32::try_from(pins + 1).expect("few")));
                break;
            };
            prop_assert!(plan.best);
            held(&order);
            let peak = plan.corner.pins_peak as usize;
            if peak == 0 {
                break;
            }
            pins = peak - 1;
        }
        // The other ways make the same film.
        held(&order(99, Winding::Tails));
        let fro = order(0, Winding::ToAndFro);
        prop_assert_eq!(held(&fro).pins, 0);
    }
}

const BOAT: [(&str, u32); 3] = [("R1", 3600), ("R2", 3600), ("R3", 3600)];

#[test]
fn the_second_cut_of_the_boat_in_one_run_of_the_reel() {
    let strand = boat();
    let table = JoinTable::usual(Gauge::Super8);
    let old = first_cut(&strand, JoinKind::Cement);
    let mut pieces = old.pieces().to_vec();
    pieces[21].kind = PieceKind::Shot(span("R3", 2505, 2730));
    pieces.swap(18, 19);
    pieces[12].kind = PieceKind::Shot(span("R2", 2300, 2372));
    pieces.remove(8);
    let new = TrialCut::new(pieces, JoinKind::Cement);
    let made = Recut::as_made(&old, &new, &table);
    let order = |pins| {
        Recut::order(
            &old,
            &made,
            &strand,
            &table,
            &habits(pins, Winding::OnePass),
        )
    };
    let found = order(12);
    holds(&found, (&old, &made), (&BOAT, &strand), Gauge::Super8);
    // Eight joins opened, the new bell and the end of shot 22 cut, seven made.
    assert_eq!((found.opened, found.left_joined), (8, 0));
    assert_eq!((found.cuts, found.joined, found.lengths), (3, 7, 8));
    let plan = found.plan.as_ref().expect("an order");
    assert!(plan.best);
    // The bell is cut first and hangs; when it is on the reel, 19 hangs while 20 goes on.
    assert_eq!((plan.corner.roll_changes, plan.corner.pins_peak), (1, 1));
    // Its roll to the end of the bell with its tongue, the reel to its end.
    assert_eq!(plan.corner.wound_frames, 2373 + 2724);
    let none = order(0);
    assert_eq!(none.plan, None);
    let fewest: Vec<u32> = none.fewest.iter().map(|f| f.pins).collect();
    assert_eq!(fewest[0], 1);
    assert_eq!(fewest[2], 0);
}

#[test]
fn where_nothing_changes_there_is_nothing_to_do() {
    let strand = boat();
    let table = JoinTable::usual(Gauge::Super8);
    let old = first_cut(&strand, JoinKind::Weld);
    let found = Recut::order(&old, &old, &strand, &table, &BenchHabits::default());
    let plan = found.plan.expect("an order");
    assert_eq!(
        (plan.steps.len(), plan.corner.wound_frames, plan.minutes),
        (0, 0, 0.0)
    );
    assert_eq!(
        (found.lengths, found.opened, found.cuts, found.joined),
        (1, 0, 0, 0)
    );
}
