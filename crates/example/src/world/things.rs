//! Rope, ferry, bell, lever, loaf: each a function of its scene's clock.

use super::motion::ease;

// Moments of the scenes' clocks. Unit: frames of the scene's clock. They follow
// from the marks of the story in the takes that carry the clocks (3-T2, 4-T2 by
// way of 4B-T2, 5-T1, 6-T2).
const ROPE_LEAVES: f32 = 312.0;
const ROPE_LET_GO: f32 = 335.0;
const SPLASH: f32 = 360.0;
const STROKES: [f32; 3] = [430.0, 448.0, 467.0];
const LEVER_HOME: f32 = 275.0;
const LOAF_OPEN: f32 = 150.0;
const FOOT_DOWN: f32 = 415.0;
// A moment reached by division may miss by this much; a frame is 1.
const HAIR: f32 = 1e-3;

/// The mooring rope of scene 3.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct RopeState {
    /// The loop is round the bollard.
    pub on_bollard: bool,
    /// How far the loop has been lifted, 0 at rest to 1 clear of the top.
    pub lift: f32,
    /// Bram has hold of it.
    pub held: bool,
    /// How far it has fallen, 0 let go to 1 at the water; `None` when not falling.
    pub fall: Option<f32>,
    /// Frames since it met the water; `None` before.
    pub splash_age: Option<f32>,
}

/// The rope at a time of scene 3. Unit: frames of the scene's clock.
#[must_use]
pub fn rope(time: f32) -> RopeState {
    let wet = time >= SPLASH - HAIR;
    RopeState {
        on_bollard: time < ROPE_LEAVES - HAIR,
        lift: ease(262.0, ROPE_LEAVES, time),
        held: (240.0..ROPE_LET_GO).contains(&time),
        fall: (time >= ROPE_LET_GO && !wet).then(|| (time - ROPE_LET_GO) / (SPLASH - ROPE_LET_GO)),
        splash_age: wet.then(|| (time - SPLASH).max(0.0)),
    }
}

/// The ferry as it lies or goes.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct FerryState {
    /// How far it has gone from the landing. Unit: pixels of the master shot.
    pub away: f32,
    /// Up and down on the water. Unit: pixels of the master shot.
    pub heave: f32,
    /// Rocking. Unit: degrees.
    pub roll: f32,
    /// The engine works: smoke comes.
    pub under_way: bool,
}

/// The ferry at a time of scene 3: at rest, then leaving.
#[must_use]
pub fn ferry_leaving(time: f32) -> FerryState {
    let since = (time - 368.0).max(0.0);
    FerryState {
        away: 1.9 * (since - 80.0 * (1.0 - (-since / 80.0).exp())),
        heave: (time * 0.11).sin() * 1.7,
        roll: (time * 0.083).sin() * 0.55 - 0.5 * ease(368.0, 400.0, time),
        under_way: time >= 345.0,
    }
}

/// The landing bell.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct BellState {
    /// Swing of the bell. Unit: degrees, positive to the right.
    pub swing: f32,
    /// Swing of the clapper against the post. Unit: degrees.
    pub clapper: f32,
    /// How far the cord is pulled, 0 to 1.
    pub pull: f32,
    /// Frames since the last stroke; `None` before the first.
    pub since_stroke: Option<f32>,
}

/// Strokes the bell has given by a time of scene 4.
#[must_use]
pub fn bell_strokes(time: f32) -> u8 {
    STROKES.iter().filter(|s| time >= **s - HAIR).count() as u8
}

/// The bell at a time of scene 4.
///
/// Each stroke falls where the bell turns back, left and right in turn.
#[must_use]
pub fn bell(time: f32) -> BellState {
    let first = STROKES[0];
    let last = STROKES[2];
    let half = 18.5;
    let phase = if time < first {
        (time - first) / half
    } else if time < STROKES[1] {
        (time - first) / (STROKES[1] - first)
    } else if time < last {
        1.0 + (time - STROKES[1]) / (last - STROKES[1])
    } else {
        2.0 + (time - last) / half
    };
    let grows = ease(first - 30.0, first, time);
    let dies = (-((time - last).max(0.0) / 40.0)).exp();
    let size = 24.0 * grows * dies;
    let turn = (phase * core::f32::consts::PI).cos();
    let late = ((phase - 0.12) * core::f32::consts::PI).cos();
    let strokes = bell_strokes(time);
    BellState {
        swing: -size * turn,
        clapper: -size * 1.5 * late,
        pull: grows * (1.0 - ease(last, last + 40.0, time)) * (0.5 - 0.5 * turn),
        since_stroke: strokes
            .checked_sub(1)
            .map(|n| time - STROKES[usize::from(n)]),
    }
}

/// The engine lever at a time of scene 5, 0 ahead to 1 astern.
#[must_use]
pub fn lever(time: f32) -> f32 {
    ease(258.0, LEVER_HOME, time)
}

/// Whether the lever has come home at a time of scene 5.
#[must_use]
pub fn lever_is_home(time: f32) -> bool {
    time >= LEVER_HOME - HAIR
}

/// Whether the paper about the loaf is being opened at a time of scene 6.
#[must_use]
pub fn loaf_is_open(time: f32) -> bool {
    time >= LOAF_OPEN - HAIR
}

/// Whether Ida's foot is on the deck at a time of scene 6.
#[must_use]
pub fn foot_is_down(time: f32) -> bool {
    time >= FOOT_DOWN - HAIR
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bell_turns_back_at_every_stroke() {
        for stroke in STROKES {
            let at = bell(stroke).swing.abs();
            assert!(at > bell(stroke - 4.0).swing.abs(), "before {stroke}");
            assert!(at > bell(stroke + 4.0).swing.abs(), "after {stroke}");
        }
        assert!(bell(300.0).swing.abs() < 0.01);
    }

    #[test]
    fn the_rope_is_somewhere_at_every_moment() {
        let mut time = 0.0;
        while time < 700.0 {
            let rope = rope(time);
            let states = [
                rope.on_bollard,
                rope.fall.is_some(),
                rope.splash_age.is_some(),
            ];
            let named = states.iter().filter(|s| **s).count();
            assert!(named <= 1, "at {time}");
            assert!(named == 1 || rope.held, "at {time}");
            time += 0.25;
        }
    }
}
