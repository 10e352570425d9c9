//! What the film and the scanner add to a picture.
//!
//! A painted picture goes through the stages of its life in order, and each
//! fault belongs to the stage that makes it:
//!
//! 1. **Camera**: a lens that has slipped ([`soft`]), exposure ([`exposure`]).
//! 2. **Gate**: black outside the camera gate ([`gate`]), so a frame line; a
//!    hair in it ([`hair`]).
//! 3. **Film**: stray light ([`fog`]), the printed number, a scratch that runs
//!    along the roll ([`scratch`]).
//! 4. **Scanner**: dust ([`dust`]), weave ([`weave`]).
//! 5. **Grain** ([`grain`]) comes last: drawn here at the size the scanner sees.

mod dust;
mod exposure;
mod fog;
mod gate;
mod grain;
mod hair;
mod scratch;
mod soft;
mod weave;

use tiny_skia::Pixmap;

use crate::log::{ExampleTake, FogSpan};
use crate::{HEIGHT, WIDTH, edge_code};

/// Light of the printed number's blocks and its black ground, 0 to 255.
const NUMBER_INK: [u8; 3] = [232, 228, 214];
const FRAME_LINE: u8 = 12;

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

    /// Takes a painted table through all stages into RGB24.
    ///
    /// `corner`: where the picture's left and top lie on the table.
    pub(crate) fn take(
        &self,
        table: &mut Pixmap,
        corner: (i32, i32),
        take: &ExampleTake,
        number: (u8, u32),
        out: &mut [u8],
    ) {
        let curve = exposure::transfer(exposure::gain(take, number.1));
        soft::blur(table, number);
        let mut film = self.gate.expose(table, corner, &curve);
        hair::shadow(&mut film, number);
        self.scan(film, number, out);
    }

    /// A frame no picture was taken on, but light came to.
    pub(crate) fn fogged(&self, span: &FogSpan, number: (u8, u32), out: &mut [u8]) {
        let mut film = self.gate.unexposed();
        fog::leak(&mut film, span, number.1);
        self.scan(film, number, out);
    }

    /// The stages after the laboratory.
    fn scan(&self, mut film: Vec<u8>, number: (u8, u32), out: &mut [u8]) {
        edge_code::print(&mut film, 4, (WIDTH, HEIGHT), number, NUMBER_INK);
        scratch::draw(&mut film, number);
        dust::scatter(&mut film, number);
        weave::weave(&film, weave::offset(number), &self.grain, number, out);
    }
}
