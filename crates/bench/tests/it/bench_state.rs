//! The bench as it is, deed by deed, on the film of the story.

use onestrand_bench::{
    AsMade, BenchHabits, BenchLog, CannotBe, Deed, Entry, Laid, Meaning, Next, StripEvent, Taking,
    Winding, WorkLeft, WorkOrder, history,
};
use onestrand_cut::{CheckRules, JoinKind, JoinTable, Strips, TrialCut};
use onestrand_film::{FrameName, FramePos, FrameRange, Gauge, RollId};

use crate::boat::{first_cut, roll, strand};

fn pos(at: u32) -> FramePos {
    FramePos::new(at).expect("a frame")
}

fn named(of: &str, at: u32) -> FrameName {
    FrameName {
        roll: roll(of),
        frame: pos(at),
    }
}

struct Bench {
    cut: TrialCut,
    strips: Strips,
    order: Vec<Taking>,
    through: Vec<RollId>,
    log: BenchLog,
}

fn bench(join: JoinKind, winding: Winding, pins: u32) -> Bench {
    let strand = strand();
    let cut = first_cut(&strand, join);
    let table = JoinTable::usual(Gauge::Super8);
    let habits = BenchHabits {
        pins,
        winding,
        ..BenchHabits::default()
    };
    let order = WorkOrder::plan(
        &cut,
        &strand,
        &CheckRules {
            table: table.clone(),
        },
        &habits,
    );
    let plan = order.expect("a checked cut").plan.expect("pins suffice");
    let strips = Strips::of(&cut, &table);
    let (order, through) = plan.takings(&strips);
    let rolls = strand.rolls().map(|r| (r.id.clone(), r.frames.count()));
    Bench {
        log: BenchLog::new(rolls.collect(), table),
        cut,
        strips,
        order,
        through,
    }
}

impl Bench {
    fn left(&self) -> WorkLeft {
        let (state, table) = (self.log.state(), self.log.table());
        WorkLeft::of(state, &self.strips, &self.order, &self.through, table).expect("it fits")
    }

    fn does(&mut self, deed: Deed) {
        self.log
            .add(Entry::Deed(deed))
            .expect("it can have happened");
        self.sums_hold();
    }

    fn sums_hold(&self) {
        for (roll, frames) in self.log.state().rolls() {
            let c = self.log.state().count(roll);
            assert_eq!(c.on_the_reel + c.hanging + c.made + c.left + c.gone, frames);
        }
    }

    /// Ticks until a deed of this kind comes, and gives it.
    fn until(&mut self, code: &str, of: &str, at: u32) -> Deed {
        loop {
            let deed = self
                .left()
                .steps
                .first()
                .expect("work is left")
                .deed
                .clone();
            let hit = match &deed {
                Deed::Cut { roll, before } => {
                    (roll.to_string(), before.index()) == (of.to_owned(), at)
                }
                Deed::Join {
                    next: Next::Film(f),
                    ..
                } => (f.roll.to_string(), f.frame.index()) == (of.to_owned(), at),
                _ => false,
            };
            if hit && deed.code() == code {
                return deed;
            }
            self.does(deed);
        }
    }

    fn tick_all(&mut self) {
        while let Some(step) = self.left().steps.first().cloned() {
            self.does(step.deed);
        }
    }

    fn reel(&self) -> Vec<FrameName> {
        let made = AsMade::of(self.log.state(), &self.strips, self.log.table());
        let all = made.parts.into_iter().flat_map(|p| match p.film {
            onestrand_bench::Film::Roll { roll, begin, end } => (begin..end)
                .map(|at| FrameName {
                    roll: roll.clone(),
                    frame: pos(at),
                })
                .collect::<Vec<_>>(),
            onestrand_bench::Film::Other { .. } => Vec::new(),
        });
        all.collect()
    }

    fn wanted(&self) -> Vec<FrameName> {
        let spans = self.cut.pieces().iter().filter_map(|p| p.span());
        spans
            .flat_map(|s| {
                let (b, e) = (s.range.begin().index(), s.range.end().index());
                (b..e)
                    .map(|at| FrameName {
                        roll: s.roll.clone(),
                        frame: pos(at),
                    })
                    .collect::<Vec<_>>()
            })
            .collect()
    }
}

#[test]
fn the_first_cut_ticked_off_from_head_to_tail_is_the_cut() {
    for join in JoinKind::ALL {
        for (winding, pins, wound, peak) in [
            (Winding::OnePass, 12, 9_724, 9),
            (Winding::Tails, 6, 13_507, 6),
        ] {
            let mut bench = bench(join, winding, pins);
            let whole = bench.left();
            if join == JoinKind::Tape {
                assert_eq!((whole.wound, whole.pins_peak), (wound, peak));
            }
            let count = |code: &str| whole.steps.iter().filter(|s| s.deed.code() == code).count();
            assert_eq!((count("cut"), count("join")), (46, 24));
            bench.tick_all();
            assert!(bench.log.state().is_ended());
            assert_eq!(bench.reel(), bench.wanted());
            assert_eq!(bench.log.state().wound(), whole.wound);
            let eaten: u32 = bench
                .log
                .state()
                .gone()
                .iter()
                .map(|g| g.frames.len().count())
                .sum();
            let expected = match join {
                JoinKind::Tape => 0,
                JoinKind::Cement => 23,
                JoinKind::Weld => 46,
            };
            assert_eq!(eaten, expected);
        }
    }
}

#[test]
fn a_cut_one_frame_late_makes_the_shot_and_the_film_one_frame_shorter() {
    let mut bench = bench(JoinKind::Tape, Winding::OnePass, 12);
    bench.until("cut", "R2", 547);
    let before = bench.log.state().clone();
    bench.does(Deed::Cut {
        roll: roll("R2"),
        before: pos(548),
    });
    let table = bench.log.table().clone();
    let meaning = Meaning::between(&before, bench.log.state(), &bench.strips, &table);
    assert_eq!(meaning.frames, (2_724, 2_723));
    assert_eq!(meaning.strips.len(), 1);
    let change = &meaning.strips[0];
    assert_eq!(
        (change.strip, change.head, change.tail, change.inside),
        (6, -1, 0, 0)
    );
    assert_eq!(change.at, 756);
    bench.tick_all();
    let mut wanted = bench.wanted();
    wanted.retain(|f| *f != named("R2", 547));
    assert_eq!(bench.reel(), wanted);
}

#[test]
fn a_cut_one_frame_early_is_trimmed_before_the_join() {
    let mut bench = bench(JoinKind::Tape, Winding::OnePass, 12);
    bench.until("cut", "R2", 547);
    let before = bench.log.state().clone();
    bench.does(Deed::Cut {
        roll: roll("R2"),
        before: pos(546),
    });
    let table = bench.log.table().clone();
    assert!(Meaning::between(&before, bench.log.state(), &bench.strips, &table).is_nothing());
    let cuts = bench
        .left()
        .steps
        .iter()
        .filter(|s| s.deed.code() == "cut")
        .count();
    bench.tick_all();
    assert!(cuts > 0);
    assert_eq!(bench.reel(), bench.wanted());
}

#[test]
fn with_cement_a_tail_cut_short_gives_its_tongue_of_its_own() {
    let mut bench = bench(JoinKind::Cement, Winding::OnePass, 12);
    bench.until("cut", "R2", 608);
    let before = bench.log.state().clone();
    bench.does(Deed::Cut {
        roll: roll("R2"),
        before: pos(607),
    });
    let table = bench.log.table().clone();
    let meaning = Meaning::between(&before, bench.log.state(), &bench.strips, &table);
    assert_eq!(meaning.frames, (2_724, 2_723));
    assert_eq!((meaning.strips[0].strip, meaning.strips[0].tail), (6, -1));
    bench.tick_all();
    let mut wanted = bench.wanted();
    wanted.retain(|f| *f != named("R2", 606));
    assert_eq!(bench.reel(), wanted);
}

#[test]
fn frames_torn_out_of_the_middle_want_one_join_more() {
    let mut bench = bench(JoinKind::Tape, Winding::OnePass, 12);
    bench.until("cut", "R2", 547);
    let before = bench.log.state().clone();
    let torn = FrameRange::new(pos(570), pos(573)).expect("frames");
    bench.does(Deed::Tear {
        roll: roll("R2"),
        frames: torn,
    });
    let table = bench.log.table().clone();
    let meaning = Meaning::between(&before, bench.log.state(), &bench.strips, &table);
    assert_eq!(
        (meaning.frames, meaning.joins, meaning.spoiled),
        ((2_724, 2_721), 1, 3)
    );
    bench.tick_all();
    let mut wanted = bench.wanted();
    wanted.retain(|f| !(f.roll == roll("R2") && torn.contains(f.frame)));
    assert_eq!(bench.reel(), wanted);
    assert_eq!(bench.log.state().reel().len(), 24);
}

#[test]
fn a_strip_joined_end_for_end_is_opened_and_joined_again() {
    let mut bench = bench(JoinKind::Tape, Winding::OnePass, 12);
    bench.until("join", "R2", 547);
    let wrong = Deed::Join {
        next: Next::Film(named("R2", 547)),
        kind: JoinKind::Tape,
        laid: Laid::EndForEnd,
    };
    let before = bench.log.state().clone();
    bench.does(wrong);
    let table = bench.log.table().clone();
    let meaning = Meaning::between(&before, bench.log.state(), &bench.strips, &table);
    assert_eq!(meaning.strips[0].laid, Some(Laid::EndForEnd));
    let joins = bench.log.state().reel().len() - 1;
    bench.does(Deed::Open { join: joins });
    let events = history(&bench.log, &roll("R2"), 600);
    assert!(events.iter().any(|(_, e)| *e == StripEvent::Opened));
}

#[test]
fn what_cannot_have_happened_is_refused_and_nothing_is_changed() {
    let mut bench = bench(JoinKind::Tape, Winding::OnePass, 12);
    bench.until("cut", "R2", 547);
    let before = bench.log.clone();
    let cut = |of: &str, at| Deed::Cut {
        roll: roll(of),
        before: pos(at),
    };
    let torn = |of: &str, a, b| Deed::Tear {
        roll: roll(of),
        frames: FrameRange::new(pos(a), pos(b)).expect("frames"),
    };
    let hang = |of: &str, at, pin| Deed::Hang {
        frame: named(of, at),
        pin,
    };
    let join = |of: &str, at| Deed::Join {
        next: Next::Film(named(of, at)),
        kind: JoinKind::Tape,
        laid: Laid::Right,
    };
    let mut refuses = |deed: Deed, code: &str| {
        let refused = bench.log.add(Entry::Deed(deed)).expect_err(code);
        assert_eq!(refused.code(), code);
        assert!(!refused.hint().is_empty() && !refused.to_string().is_empty());
        assert_eq!(bench.log, before);
    };
    refuses(cut("R2", 0), "ends_there");
    refuses(cut("R2", 3_600), "beyond");
    refuses(cut("R9", 10), "no_roll");
    // Shot 2 was cut there before, and R1 is off the rewinds.
    refuses(cut("R1", 402), "ends_there");
    refuses(cut("R1", 30), "not_mounted");
    refuses(torn("R2", 3_590, 3_601), "beyond");
    refuses(hang("R2", 547, 0), "no_pin");
    refuses(hang("R2", 547, 1), "pin_taken");
    refuses(hang("R3", 3_075, 12), "on_the_reel");
    refuses(join("R3", 3_075), "on_the_reel");
    refuses(Deed::Open { join: 99 }, "no_join");
    refuses(Deed::Mount { roll: roll("R9") }, "no_roll");
}

#[test]
fn frames_that_are_no_more_are_told_by_what_became_of_them() {
    let mut bench = bench(JoinKind::Cement, Winding::OnePass, 12);
    bench.tick_all();
    let tongue = Deed::Tear {
        roll: roll("R2"),
        frames: FrameRange::new(pos(607), pos(608)).expect("a frame"),
    };
    let refused = bench
        .log
        .add(Entry::Deed(tongue))
        .expect_err("the tongue of 7 | 8");
    assert_eq!(
        refused,
        CannotBe::NoMore {
            frame: named("R2", 607),
            how: "eaten by a join"
        }
    );
    let more = Deed::Join {
        next: Next::Film(named("R1", 30)),
        kind: JoinKind::Tape,
        laid: Laid::Right,
    };
    assert_eq!(bench.log.add(Entry::Deed(more)), Err(CannotBe::Ended));
}

#[test]
fn a_line_is_struck_out_only_while_nothing_came_of_it() {
    let mut bench = bench(JoinKind::Tape, Winding::OnePass, 12);
    bench.until("cut", "R2", 547);
    let last = bench.log.last().expect("something was done");
    let states: Vec<_> = (0..=bench.log.entries().len())
        .map(|lines| bench.log.at(lines).expect("it was so"))
        .collect();
    assert_eq!(states.last(), Some(bench.log.state()));
    bench
        .log
        .add(Entry::Strike { entry: last })
        .expect("nothing came of it");
    assert_eq!(bench.log.state(), &states[last]);
    assert_eq!(
        bench.log.add(Entry::Strike { entry: last }),
        Err(CannotBe::NoEntry { entry: last + 1 })
    );
    let refused = bench
        .log
        .add(Entry::Strike { entry: 0 })
        .expect_err("R3 was put on");
    assert_eq!(refused.code(), "later_holds_on");
    // What was thought before the line was struck out is still to be had.
    assert_eq!(bench.log.at(last + 1), Ok(states[last + 1].clone()));
    bench.tick_all();
    assert_eq!(bench.reel(), bench.wanted());
}

#[test]
fn frames_that_are_let_go_are_not_waited_for() {
    let mut bench = bench(JoinKind::Tape, Winding::OnePass, 12);
    bench.until("cut", "R2", 547);
    // Half a second late: the frames before it would make a piece of their own.
    bench.does(Deed::Cut {
        roll: roll("R2"),
        before: pos(559),
    });
    let joins = |b: &Bench| {
        b.left()
            .steps
            .iter()
            .filter(|s| s.deed.code() == "join")
            .count()
    };
    let with = joins(&bench);
    let frames = FrameRange::new(pos(547), pos(559)).expect("frames");
    bench.does(Deed::LetGo {
        roll: roll("R2"),
        frames,
    });
    assert_eq!(joins(&bench), with - 1);
    bench.tick_all();
    let mut wanted = bench.wanted();
    wanted.retain(|f| !(f.roll == roll("R2") && frames.contains(f.frame)));
    assert_eq!(bench.reel(), wanted);
}

/// Everything ticked off and then the join before R2·547 opened: what came off.
fn came_off(join: JoinKind) -> Bench {
    let mut bench = bench(join, Winding::OnePass, 12);
    bench.tick_all();
    let reel = bench.log.state().reel();
    let at = reel.iter().position(|l| l.film.holds(&roll("R2"), 580));
    let join = at.expect("shot 7 is on the reel");
    bench.does(Deed::Open { join });
    bench
}

#[test]
fn strips_joined_to_each_other_are_led_on_again_whole() {
    // Opened and joined anew; and the tail leader, which came off with the film,
    // is thought to be joined anew as well.
    for (join, lost) in [
        (JoinKind::Tape, 0),
        (JoinKind::Cement, 2 + 1),
        (JoinKind::Weld, 4 + 1),
    ] {
        let mut bench = came_off(join);
        let left = bench.left();
        let codes: Vec<&str> = left.steps.iter().map(|s| s.deed.code()).collect();
        // One join for all that came off, and the tail leader again.
        assert_eq!(codes, ["join", "join"]);
        bench.tick_all();
        assert!(bench.log.state().is_ended());
        assert_eq!(bench.wanted().len() - bench.reel().len(), lost);
        assert_eq!(bench.log.state().reel().len(), 23);
    }
}

#[test]
fn a_length_led_on_end_for_end_is_mended_only_when_asked() {
    let mut bench = came_off(JoinKind::Tape);
    let table = bench.log.table().clone();
    bench.does(Deed::Join {
        next: Next::Film(named("R2", 580)),
        kind: JoinKind::Tape,
        laid: Laid::EndForEnd,
    });
    let opens = |left: &WorkLeft| {
        let opens = left.steps.iter().filter(|s| s.deed.code() == "open");
        opens.count()
    };
    assert_eq!(opens(&bench.left()), 0);
    let mending = |bench: &Bench| {
        let (state, table) = (bench.log.state(), bench.log.table());
        WorkLeft::mending(state, &bench.strips, &bench.order, &bench.through, table).expect("fits")
    };
    // The length was turned as a whole: only its last strip lies at the join.
    assert!(opens(&mending(&bench)) > 0);
    while let Some(step) = mending(&bench).steps.first().cloned() {
        bench.does(step.deed);
    }
    let made = AsMade::of(bench.log.state(), &bench.strips, &table);
    assert!(made.parts.iter().all(|p| p.laid == Laid::Right));
    assert_eq!(bench.reel(), bench.wanted());
}

#[test]
fn a_reel_ended_too_early_has_passed_the_rest_until_it_is_mended() {
    let mut bench = bench(JoinKind::Tape, Winding::OnePass, 12);
    bench.until("join", "R2", 547);
    bench.does(Deed::Join {
        next: Next::TailLeader,
        kind: JoinKind::Tape,
        laid: Laid::Right,
    });
    let table = bench.log.table().clone();
    let made = AsMade::of(bench.log.state(), &bench.strips, &table);
    assert!(made.next().is_none() && !made.passed.is_empty());
    let (state, strips) = (bench.log.state().clone(), bench.strips.clone());
    let left = WorkLeft::mending(&state, &strips, &bench.order, &bench.through, &table);
    let first = left.expect("it fits").steps.remove(0).deed;
    assert_eq!(first.code(), "open");
    bench.does(first);
    bench.tick_all();
    assert_eq!(bench.reel(), bench.wanted());
}
