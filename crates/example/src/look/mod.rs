//! What the film and the scanner add to a picture.
//!
//! A painted picture goes through the stages of its life in order, and each
//! fault belongs to the stage that makes it:
//!
//! 1. **Camera**: exposure ([`exposure`]); a hair in the gate or a soft lens
//!    would be added to the picture here.
//! 2. **Gate**: black outside the camera gate ([`gate`]), so a frame line.
//! 3. **Film**: stray light ([`fog`]), the printed number; a scratch that runs
//!    along the roll would be added here.
//! 4. **Scanner**: dust ([`dust`]), weave ([`weave`]).
//! 5. **Grain** ([`grain`]) comes last: drawn here at the size the scanner sees.

mod dust;
mod exposure;
mod fog;
mod gate;
mod grain;
mod weave;

use tiny_skia::Pixmap;

use crate::log::{ExampleTake, FogSpan};
use crate::{HEIGHT, WIDTH, edge_code};

/// Light of the printed number's blocks and its black ground, 0 to 255.
const NUMBER_INK: [u8; 3] = [232, 228, 214];
const FRAME_LINE: u8 = 12;

/// What lies on a frame of film: a take, or only stray light.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Exposed {
    Take(&'static ExampleTake),
    Fog(&'static FogSpan),
}

/// The stages with what they keep ready.
#[derive(Debug)]
pub(crate) struct FilmLook {
    gate: gate::Gate,
    grain: grain::Grain,
}

impl FilmLook {
    pub(crate) fn new() -> Self {
        Self {
            gate: gate::Gate::new(),
            grain: grain::Grain::new(),
        }
    }

    /// Takes a painted picture through all stages into RGB24.
    ///
    /// `scene` is used up. `out` holds a whole frame.
    pub(crate) fn develop(
        &self,
        scene: &mut Pixmap,
        what: Exposed,
        number: (u8, u32),
        out: &mut [u8],
    ) {
        let film = scene.data_mut();
        match what {
            Exposed::Take(take) => {
                let gain = exposure::gain(take, number.1);
                self.gate.expose(film, &exposure::transfer(gain));
            }
            Exposed::Fog(span) => {
                self.gate.unexposed(film);
                fog::leak(film, span, number.1);
            }
        }
        edge_code::print(film, 4, (WIDTH, HEIGHT), number, NUMBER_INK);
        dust::scatter(film, number);
        weave::weave(film, weave::offset(number), &self.grain, number, out);
    }
}
