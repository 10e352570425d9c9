//! The painter of a roll: any frame, in any order, always the same.

use tiny_skia::Pixmap;

use crate::error::ExampleError;
use crate::log::{ExampleTake, FogSpan, fog_spans, takes};
use crate::look::FilmLook;
use crate::paper::{Papers, Stage};
use crate::scene::{Moment, Set, Setup, TABLE_SPARE, stance};
use crate::world::action_time;
use crate::{FRAME_BYTES, FRAMES_PER_ROLL, HEIGHT, ROLLS, WIDTH};

/// What lies on a frame of film: a take, or only stray light.
#[derive(Debug, Clone, Copy)]
enum Exposed {
    Take(&'static ExampleTake),
    Fog(&'static FogSpan),
}

/// Paints the frames of one roll.
///
/// Making one cuts the papers and builds the sets of all setups of the roll
/// (some 30 MB and a few hundredths of a second); painting a frame then only
/// moves them. A painter may be shared among threads.
///
/// # Examples
/// ```
/// use onestrand_example::{FRAME_BYTES, HEIGHT, RollPainter, WIDTH, edge_code};
///
/// let painter = RollPainter::new(2)?;
/// let mut frame = vec![0; FRAME_BYTES];
/// painter.paint(547, &mut frame)?;
/// let read = edge_code::read_edge_code_rgb(&frame, WIDTH, HEIGHT, WIDTH as usize * 3);
/// assert_eq!(read, Some((2, 547)));
///
/// assert!(painter.paint(3600, &mut frame).is_err());
/// assert!(RollPainter::new(4).is_err());
/// # Ok::<(), onestrand_example::ExampleError>(())
/// ```
#[derive(Debug)]
pub struct RollPainter {
    roll: u8,
    papers: Papers,
    sets: Vec<(Setup, Set)>,
    look: FilmLook,
}

impl RollPainter {
    /// Cuts the papers and builds the sets for a roll, 1 to 3.
    ///
    /// # Errors
    /// [`ExampleError::NoSuchRoll`] for any other roll.
    pub fn new(roll: u8) -> Result<Self, ExampleError> {
        if !(1..=ROLLS).contains(&roll) {
            return Err(ExampleError::NoSuchRoll { asked: roll });
        }
        let papers = Papers::new();
        let mut sets: Vec<(Setup, Set)> = Vec::new();
        for take in takes().iter().filter(|t| t.roll == roll) {
            let setup = Setup::of(take);
            if sets.iter().all(|(built, _)| *built != setup) {
                sets.push((setup, setup.build(&papers)));
            }
        }
        Ok(Self {
            roll,
            papers,
            sets,
            look: FilmLook::new(),
        })
    }

    /// The roll this painter paints, 1 to 3.
    #[must_use]
    pub fn roll(&self) -> u8 {
        self.roll
    }

    /// Paints a frame of the roll into `out` as RGB24, 640×480.
    ///
    /// `frame`: 0 to 3,599. `out`: [`FRAME_BYTES`] bytes.
    ///
    /// # Errors
    /// [`ExampleError::NoSuchFrame`] beyond the roll; [`ExampleError::WrongRoom`]
    /// when `out` has another length.
    pub fn paint(&self, frame: u32, out: &mut [u8]) -> Result<(), ExampleError> {
        if out.len() != FRAME_BYTES {
            return Err(ExampleError::WrongRoom {
                width: WIDTH,
                height: HEIGHT,
                needed: FRAME_BYTES,
                given: out.len(),
            });
        }
        let what = self.exposed(frame).ok_or(ExampleError::NoSuchFrame {
            roll: self.roll,
            asked: frame,
            last: FRAMES_PER_ROLL - 1,
        })?;
        let number = (self.roll, frame);
        match what {
            Exposed::Take(take) => {
                let mut table = self.table(take, frame);
                let (x, y) = stance(take, 8.0, 5.0);
                let corner = (TABLE_SPARE as i32 + x, y);
                self.look.take(&mut table, corner, take, number, out);
            }
            Exposed::Fog(span) => self.look.fogged(span, number, out),
        }
        Ok(())
    }

    /// What lies on a frame; every frame of the roll is a take's or fogged.
    fn exposed(&self, frame: u32) -> Option<Exposed> {
        let take = takes()
            .iter()
            .find(|t| t.roll == self.roll && (t.span_in..t.span_out).contains(&frame));
        let fog = fog_spans()
            .iter()
            .find(|f| f.roll == self.roll && (f.span_in..f.span_out).contains(&frame));
        take.map(Exposed::Take).or(fog.map(Exposed::Fog))
    }

    /// The paper table as the camera finds it at a frame of a take.
    fn table(&self, take: &ExampleTake, frame: u32) -> Pixmap {
        let setup = Setup::of(take);
        let (_, set) = self
            .sets
            .iter()
            .find(|(built, _)| *built == setup)
            .expect("the sets of all takes of the roll are built");
        let wide = WIDTH + 2 * TABLE_SPARE;
        let mut table = Pixmap::new(wide, HEIGHT).expect("a frame has a size");
        let moment = Moment {
            time: action_time(take, frame),
            since: frame - take.span_in,
            take: take.take,
            frame,
        };
        let mut stage = Stage::with_spare(&mut table, &self.papers, TABLE_SPARE);
        set.lay_back(&mut stage, take);
        setup.play(&mut stage, set, &moment);
        table
    }
}
