//! Watches the edge of the gate for things that stand still.

use crate::dark_things::{DarkThing, dark_things};
use crate::standing_thing::{Followed, StandingThing, are_like, mean, parts, shared};
use onestrand_inspect::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH};
use std::collections::VecDeque;

/// Frames over which a thing must stand to be noticed.
pub(crate) const STANDS: usize = 12;
/// Every so many frames is looked for new ones.
const LOOKS: usize = 8;
/// Planes held, so that the first frame of a thing is found.
const HELD: usize = STANDS + LOOKS;
/// Frames in a row without it after which a thing is gone.
const GONE: u32 = 3;
/// Most things followed at a time.
const FOLLOWED: usize = 24;

/// Makes the frame lines dark, what is printed in them too: rows at the top and
/// the foot of which a third is dark at one time or another.
fn darken_frame_lines(lightest: &mut [u8; PLANE_BYTES], darkest: &[u8; PLANE_BYTES]) {
    /// Rows that a frame line takes at most.
    const ROWS: usize = 8;
    const DARK: u8 = 40;
    let mostly_dark = |y: &usize| {
        let row = &darkest[y * PLANE_WIDTH..][..PLANE_WIDTH];
        let dark = row.iter().filter(|&&level| level < DARK);
        3 * dark.count() >= PLANE_WIDTH
    };
    let top = (0..ROWS).take_while(mostly_dark);
    let foot = (PLANE_HEIGHT - ROWS..PLANE_HEIGHT)
        .rev()
        .take_while(mostly_dark);
    for y in top.chain(foot) {
        lightest[y * PLANE_WIDTH..][..PLANE_WIDTH].fill(0);
    }
}

/// Watches plane after plane.
#[derive(Debug, Default)]
pub(crate) struct GateWatch {
    held: VecDeque<Box<[u8; PLANE_BYTES]>>,
    followed: Vec<Followed>,
    stood: Vec<StandingThing>,
    /// Frames seen.
    seen: u32,
    /// The last settled plane before the last stop.
    before: Option<Box<[u8; PLANE_BYTES]>>,
    /// Things that are gone, until the picture after them has settled.
    leaving: Vec<Leaving>,
}

/// A thing that is gone.
#[derive(Debug)]
struct Leaving {
    thing: Followed,
    until: u32,
    /// A plane that has it.
    with: Box<[u8; PLANE_BYTES]>,
}

/// Frames after its start in which a camera's light settles.
const SETTLES: u32 = 6;

impl GateWatch {
    pub(crate) fn push(&mut self, plane: &[u8; PLANE_BYTES]) {
        let mut still = Vec::with_capacity(self.followed.len());
        for mut one in std::mem::take(&mut self.followed) {
            match one.stands(plane) {
                Some(true) => one.missed = 0,
                Some(false) => one.missed += 1,
                None => {}
            }
            if one.missed == GONE {
                let until = self.seen + 1 - GONE;
                self.leave(one, until);
            } else {
                still.push(one);
            }
        }
        self.followed = still;
        let mut held = if self.held.len() == HELD {
            self.held.pop_front().unwrap_or_else(|| Box::new(*plane))
        } else {
            Box::new(*plane)
        };
        held.copy_from_slice(plane);
        self.held.push_back(held);
        self.seen += 1;
        self.let_go(plane);
        if self.held.len() >= STANDS && (self.seen as usize).is_multiple_of(LOOKS) {
            self.look();
        }
    }

    /// The next frame shows another picture: what stood is looked for anew, so
    /// that its outline speaks for it, not its place alone.
    pub(crate) fn another_picture(&mut self) {
        for one in std::mem::take(&mut self.followed) {
            let until = self.seen - one.missed;
            self.leave(one, until);
        }
        if self.held.len() > SETTLES as usize {
            self.before = self.held.back().cloned();
        }
        self.held.clear();
    }

    /// A thing is gone, and waits for what comes after it.
    fn leave(&mut self, thing: Followed, until: u32) {
        let behind = (self.seen - until) as usize + 1;
        let with = self.held.len().checked_sub(behind);
        match with.and_then(|at| self.held.get(at)).cloned() {
            Some(with) => self.leaving.push(Leaving { thing, until, with }),
            None => self.stood.push(thing.ended(until)),
        }
    }

    /// What left some frames ago is held against the picture after it.
    fn let_go(&mut self, plane: &[u8; PLANE_BYTES]) {
        let settled = |leaving: &mut Leaving| self.seen > leaving.until + SETTLES;
        for one in self.leaving.extract_if(.., settled) {
            let went = one.thing.is_all_that_misses(&one.with, plane);
            let mut thing = one.thing.ended(one.until);
            thing.without.1 = went;
            self.stood.push(thing);
        }
    }

    /// A frame without a plane: what stands is taken to go on.
    pub(crate) fn skip(&mut self) {
        if let Some(last) = self.held.back().cloned() {
            self.push(&last);
        } else {
            self.seen += 1;
        }
    }

    /// Looks for things that stood on all of the last frames.
    fn look(&mut self) {
        let lightest = self.lightest();
        for thing in dark_things(&lightest) {
            let alike = |one: &Followed| are_like(&one.thing.pixels, &thing.pixels);
            if let Some(place) = self.followed.iter().position(alike) {
                self.followed[place].outlined.1 = self.seen;
                continue;
            }
            let part = |one: &Followed| {
                5 * shared(&thing.pixels, &one.thing.pixels) >= 4 * thing.pixels.len()
            };
            match self.followed.iter().position(part) {
                Some(place) => self.look_again(place, thing),
                None if self.followed.len() < FOLLOWED => {
                    self.followed.extend(self.followed_from_now(thing));
                }
                None => {}
            }
        }
    }

    /// The lightest of three means of four frames each, the last ones: weave
    /// makes nothing thinner in a mean.
    fn lightest(&mut self) -> Box<[u8; PLANE_BYTES]> {
        let newest = self.held.len() - STANDS;
        let mut lightest = Box::new([0_u8; PLANE_BYTES]);
        let mut darkest = Box::new([255_u8; PLANE_BYTES]);
        let held = self.held.make_contiguous();
        for four in held[newest..].chunks_exact(4) {
            let (a, b) = (
                four[0].iter().zip(four[1].iter()),
                four[2].iter().zip(four[3].iter()),
            );
            let both = lightest.iter_mut().zip(darkest.iter_mut());
            for (((light, dark), (&a, &b)), (&c, &d)) in both.zip(a).zip(b) {
                let (one, other) = (u16::from(a) + u16::from(b), u16::from(c) + u16::from(d));
                let mean = (one.wrapping_add(other) / 4) as u8;
                *light = (*light).max(mean);
                *dark = (*dark).min(mean);
            }
        }
        darken_frame_lines(&mut lightest, &darkest);
        lightest
    }

    /// A thing was found as a part of one that is followed: what was joined with
    /// something that has moved away gets its own outline.
    fn look_again(&mut self, place: usize, thing: DarkThing) {
        let from = self.followed[place].from;
        if let Some(mut own) = self.followed_from_now(thing) {
            own.from = from.min(own.from);
            own.came = false;
            self.followed[place] = own;
        }
    }

    /// A thing to follow, if it stood as long as it must.
    fn followed_from_now(&self, thing: DarkThing) -> Option<Followed> {
        let newest = self.held.len() - STANDS;
        let planes = || self.held.iter().skip(newest);
        let sum_of = |places: &[u16]| planes().map(|plane| mean(places, plane)).sum::<f32>();
        let around = sum_of(&thing.around);
        let parts = parts(&thing);
        let mut one = Followed {
            level: sum_of(&thing.pixels) / around,
            levels: parts.iter().map(|part| sum_of(part) / around).collect(),
            thing,
            parts,
            from: 0,
            missed: 0,
            outlined: (self.seen, self.seen),
            came: false,
        };
        let back = self.held.iter().rev();
        let stood = back
            .take_while(|plane| one.stands(plane) == Some(true))
            .count();
        if stood < STANDS {
            return None;
        }
        one.from = self.seen - stood as u32;
        let earlier = match self.held.len().checked_sub(stood + 1) {
            Some(at) => self.held.get(at),
            None => self.before.as_ref(),
        };
        let newest = self.held.back();
        one.came = earlier
            .zip(newest)
            .is_some_and(|(earlier, newest)| one.is_all_that_misses(newest, earlier));
        Some(one)
    }

    /// All that stood, in order of their first frames.
    pub(crate) fn finish(mut self) -> Vec<StandingThing> {
        self.another_picture();
        let leaving = std::mem::take(&mut self.leaving).into_iter();
        self.stood
            .extend(leaving.map(|one| one.thing.ended(one.until)));
        self.stood.sort_by_key(|thing| (thing.from, thing.until));
        self.stood
    }
}
