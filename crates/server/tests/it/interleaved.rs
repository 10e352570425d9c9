//! Two windows that change one film in any order, held against a model that
//! was thought out apart: what is acknowledged is there, what is refused is not.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use crate::served::{Bench, Window, film};

/// Numbers that look like chance and are the same in each run.
#[derive(Debug)]
struct Chance(u64);

impl Chance {
    fn below(&mut self, bound: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        usize::try_from(self.0 >> 33).expect("31 bits") % bound
    }
}

/// The film as it must be: the notes of the pieces of v1, and what is said of
/// two takes.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
struct State {
    pieces: Vec<String>,
    takes: BTreeMap<u32, String>,
}

/// What a change touches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Part {
    Cut,
    Take(u32),
}

/// A change, as a window asks for it and as the model makes it.
#[derive(Debug, Clone)]
enum Ask {
    LayIn(usize, String),
    Lift(usize),
    Swap(usize, String),
    Move(usize, usize),
    Say(u32, String),
}

impl Ask {
    fn part(&self) -> Part {
        match self {
            Self::Say(first, _) => Part::Take(*first),
            _ => Part::Cut,
        }
    }

    fn wire(&self) -> Value {
        let piece = |note: &str| json!({ "kind": "leader", "frames": 10, "note": note });
        let change = match self {
            Self::LayIn(at, note) => json!({ "change": "insert", "at": at, "piece": piece(note) }),
            Self::Lift(at) => json!({ "change": "remove", "at": at }),
            Self::Swap(at, note) => json!({ "change": "replace", "at": at, "piece": piece(note) }),
            Self::Move(from, to) => json!({ "change": "move", "from": from, "to": to }),
            Self::Say(first, action) => {
                return json!({ "film_change": "name_take", "roll": "R1", "in": first, "words": {
                    "setup": null, "take": null, "rating": "none", "size": "", "camera_move": "",
                    "direction": "", "action": action, "note": "" } });
            }
        };
        json!({ "film_change": "change_cut", "cut": "v1", "cut_change": change })
    }

    /// The same by hand.
    fn make(&self, state: &State) -> State {
        let mut next = state.clone();
        match self {
            Self::LayIn(at, note) => next.pieces.insert(*at, note.clone()),
            Self::Lift(at) => drop(next.pieces.remove(*at)),
            Self::Swap(at, note) => next.pieces[*at].clone_from(note),
            Self::Move(from, to) => {
                let piece = next.pieces.remove(*from);
                next.pieces.insert(*to, piece);
            }
            Self::Say(first, action) => drop(next.takes.insert(*first, action.clone())),
        }
        next
    }
}

/// The model: every state there was, and when each part was touched.
#[derive(Debug)]
struct Model {
    before: Vec<(State, Part)>,
    now: State,
    after: Vec<(State, Part)>,
    revision: u64,
    touched: BTreeMap<Part, u64>,
}

impl Model {
    fn touch(&mut self, part: Part, step: bool) {
        self.revision += 1;
        self.touched.insert(part, self.revision);
        // Undo puts the whole log of the roll back as it was.
        if step && matches!(part, Part::Take(_)) {
            for take in [100, 200] {
                self.touched.insert(Part::Take(take), self.revision);
            }
        }
    }

    fn is_stale(&self, part: Part, seen: u64) -> bool {
        self.touched.get(&part).is_some_and(|at| *at > seen)
    }

    fn change(&mut self, ask: &Ask) {
        let next = ask.make(&self.now);
        let before = std::mem::replace(&mut self.now, next);
        self.before.push((before, ask.part()));
        self.after.clear();
        self.touch(ask.part(), false);
    }

    /// Whether there was a step to take.
    fn step(&mut self, back: bool) -> bool {
        let (from, to) = if back {
            (&mut self.before, &mut self.after)
        } else {
            (&mut self.after, &mut self.before)
        };
        let Some((state, part)) = from.pop() else {
            return false;
        };
        to.push((std::mem::replace(&mut self.now, state), part));
        self.touch(part, true);
        true
    }
}

/// What one window shows.
#[derive(Debug, Clone)]
struct Shown {
    revision: u64,
    state: State,
}

fn look(window: &Window) -> Shown {
    let log = window.get(&film("rolls/R1")).ok();
    let cut = window.get(&film("cuts/v1")).ok();
    let takes = log["takes"].as_array().expect("takes").iter();
    let pieces = cut["pieces"].as_array().expect("pieces").iter();
    let text = |v: &Value| v.as_str().expect("text").to_owned();
    Shown {
        revision: cut["revision"].as_u64().expect("a revision"),
        state: State {
            pieces: pieces.map(|p| text(&p["note"])).collect(),
            takes: takes
                .map(|t| (t["in"].as_u64().expect("a frame"), text(&t["action"])))
                .map(|(first, action)| (u32::try_from(first).expect("small"), action))
                .collect(),
        },
    }
}

/// A change of what the window shows, which may be old.
fn any_ask(chance: &mut Chance, shown: &State, note: String) -> Ask {
    let pieces = shown.pieces.len();
    match chance.below(if pieces == 0 { 2 } else { 6 }) {
        0 => Ask::Say([100, 200][chance.below(2)], note),
        1 | 2 => Ask::LayIn(chance.below(pieces + 1), note),
        3 => Ask::Lift(chance.below(pieces)),
        4 => Ask::Swap(chance.below(pieces), note),
        _ => Ask::Move(chance.below(pieces), chance.below(pieces)),
    }
}

fn bench_with_takes() -> Bench {
    let bench = Bench::new();
    for (key, frame) in [("x", 100), ("y", 200)] {
        let seen = look(&bench.window).revision;
        let change = json!({ "film_change": "break_at", "roll": "R1", "frame": frame });
        bench.change(key, seen, &change).ok();
    }
    bench
}

fn interleave(seed: u64) -> (usize, usize) {
    let bench = bench_with_takes();
    let first = look(&bench.window);
    let mut model = Model {
        before: Vec::new(),
        now: first.state.clone(),
        after: Vec::new(),
        revision: first.revision,
        touched: BTreeMap::new(),
    };
    let mut chance = Chance(seed);
    let mut windows = [first.clone(), first];
    let (mut kept, mut refused) = (0, 0);
    for turn in 0..90 {
        let who = chance.below(2);
        let key = format!("{seed}-{turn}");
        match chance.below(9) {
            // Events come late, or never: only now and then a window looks.
            0 | 1 => windows[who] = look(&bench.window),
            choice @ (2 | 3) => {
                let (step, back) = if choice == 2 {
                    ("undo", true)
                } else {
                    ("redo", false)
                };
                // Nothing from before this test is undone.
                if !back || !model.before.is_empty() {
                    let answer = bench.window.post(&film(step), &json!({ "key": key }));
                    assert_eq!(answer.status == 200, model.step(back), "{answer:?}");
                }
            }
            _ => {
                let shown = &windows[who];
                let ask = any_ask(&mut chance, &shown.state, key.clone());
                let answer = bench.change(&key, shown.revision, &ask.wire());
                if model.is_stale(ask.part(), shown.revision) {
                    assert_eq!(answer.refused(409), "store.stale", "{seed} {turn}");
                    refused += 1;
                } else {
                    let document = answer.ok();
                    model.change(&ask);
                    assert_eq!(document["revision"], model.revision, "{seed} {turn}");
                    kept += 1;
                }
            }
        }
        let there = look(&bench.window);
        assert_eq!(there.state, model.now, "seed {seed}, turn {turn}");
        assert_eq!(there.revision, model.revision, "seed {seed}, turn {turn}");
    }
    (kept, refused)
}

#[test]
fn two_windows_in_any_order_end_where_the_model_does() {
    let (mut kept, mut refused) = (0, 0);
    for seed in 1..=4 {
        let (more_kept, more_refused) = interleave(seed);
        kept += more_kept;
        refused += more_refused;
    }
    // Both happen, so that both are tested.
    assert!(kept > 60 && refused > 20, "{kept} kept, {refused} refused");
}

/// Truly at the same time: each keeps trying against what it has seen, and
/// what was acknowledged is there, once.
#[test]
fn four_windows_at_once_lose_nothing() {
    let bench = Bench::new();
    let lay_in = |window: &Window, name: &str| -> (Vec<String>, usize) {
        let (mut kept, mut refused) = (Vec::new(), 0);
        for number in 0..12 {
            let note = format!("{name}{number}");
            for attempt in 0.. {
                let seen = window.get(&film("cuts/v1")).ok()["revision"].clone();
                let ask = Ask::LayIn(0, format!("{note}/{attempt}")).wire();
                let key = format!("{note}/{attempt}");
                let asked = json!({ "key": key, "revision": seen, "change": ask });
                let answer = window.post(&film("changes"), &asked);
                if answer.status == 200 {
                    kept.push(key);
                    break;
                }
                assert_eq!(answer.refused(409), "store.stale");
                refused += 1;
            }
        }
        (kept, refused)
    };
    let ended: Vec<(Vec<String>, usize)> = std::thread::scope(|scope| {
        let lay_in = &lay_in;
        let window = &bench.window;
        let threads: Vec<_> = ["a", "b", "c", "d"]
            .into_iter()
            .map(|name| scope.spawn(move || lay_in(window, name)))
            .collect();
        let end = |t: std::thread::ScopedJoinHandle<'_, _>| t.join().expect("ended");
        threads.into_iter().map(end).collect()
    });
    let mut kept: Vec<String> = ended.iter().flat_map(|(kept, _)| kept.clone()).collect();
    let mut there = look_at_pieces(&bench.window);
    kept.sort();
    there.sort();
    assert_eq!(there, kept);
    assert_eq!(there.len(), 48);
}

fn look_at_pieces(window: &Window) -> Vec<String> {
    let cut = window.get(&film("cuts/v1")).ok();
    let pieces = cut["pieces"].as_array().expect("pieces");
    let note = |p: &Value| p["note"].as_str().expect("a note").to_owned();
    pieces.iter().map(note).collect()
}
