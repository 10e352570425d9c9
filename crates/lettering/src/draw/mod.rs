//! A set card drawn as pixels.

mod border;
mod ink;
mod mixing;
mod plane;
mod surface;

use tiny_skia::Transform;

use crate::manner::Finish;
use crate::{Layer, SetCard};
pub(crate) use mixing::{DARK_PLATE, PAPER_PLATE, PLATE};
use mixing::{Mixed, Over};
use plane::{Part, Plane};

/// Largest side of a drawing. Unit: pixels.
const MOST_PIXELS: u32 = 8192;

/// Where the card lies in the picture.
pub(crate) struct View {
    pub(crate) width: u32,
    pub(crate) height: u32,
    /// Pixels to a picture height.
    pub(crate) scale: f32,
    /// Where the card's top left is, with what has gone out at the top.
    pub(crate) origin: (f32, f32),
    /// Where the top left of the projected aperture is.
    pub(crate) frame: (f32, f32),
    /// Pixels to a capital.
    pub(crate) capital: f32,
}

impl View {
    fn of(card: &SetCard, width: u32, height: u32, from_top: f64) -> Self {
        let (across, down) = (f64::from(width), f64::from(height));
        let scale = (across / card.aspect).min(down);
        let left = (across - card.aspect * scale) / 2.0;
        let top = (down - scale) / 2.0;
        Self {
            width,
            height,
            scale: scale as f32,
            origin: (left as f32, (top - from_top * scale) as f32),
            frame: (left as f32, top as f32),
            capital: (card.capital_height * scale) as f32,
        }
    }

    /// From picture heights to pixels.
    pub(crate) fn place(&self) -> Transform {
        Transform::from_row(
            self.scale,
            0.0,
            0.0,
            self.scale,
            self.origin.0,
            self.origin.1,
        )
    }

    /// Whole pixels, at least one, to so many capitals.
    pub(crate) fn pixels(&self, capitals: f32) -> usize {
        (capitals * self.capital).round().max(1.0) as usize
    }

    /// Whole pixels to so many capitals; none where the pixels are too coarse for it.
    pub(crate) fn soft(&self, capitals: f32) -> usize {
        (capitals * self.capital).round().max(0.0) as usize
    }

    /// The first row of the picture on the card, in picture heights.
    pub(crate) fn top(&self) -> f32 {
        -self.origin.1 / self.scale
    }

    /// The end of the last row of the picture on the card, in picture heights.
    pub(crate) fn bottom(&self) -> f32 {
        (self.height as f32 - self.origin.1) / self.scale
    }
}

/// The card as a layer.
pub(crate) fn layer(card: &SetCard, width: u32, height: u32, from_top: f64) -> Layer {
    let (width, height) = (width.clamp(1, MOST_PIXELS), height.clamp(1, MOST_PIXELS));
    let from_top = if from_top.is_finite() { from_top } else { 0.0 };
    let view = View::of(card, width, height, from_top);
    let manner = &card.look.manner;
    let mut ink = ink::of(card, &view);
    let bare = needs_bare(card).then(|| ink.cover.clone());
    let beyond = surface::finished(&mut ink, &view, manner.finish, card.seed);
    let colours = mixing::colours(card);
    let mut mixed = Mixed::new(width as usize, height as usize);
    if card.look.plate {
        mixing::plate(&mut mixed, card, &view, &colours);
    }
    let far = view.pixels(0.5);
    let around = ink.part.grown(far, width as usize, height as usize);
    if let Some(bare) = &bare {
        shadows(&mut mixed, bare, card, &view, around);
    }
    if let Some(beyond) = &beyond {
        mixed.lay(beyond, around, &Over::even(colours.letters, 0.9));
    }
    if card.look.outline {
        let mut contour = ink::contour(card, &view, 0.15 * view.capital);
        if let Some(bare) = &bare {
            // Where a letter is worn, its ground shows, not the contour.
            contour.each(around, |x, y, value| {
                if bare.values[y * bare.width + x] > 200 {
                    *value = 0;
                }
            });
        }
        mixed.lay(&contour, around, &Over::even(colours.against, 0.94));
    }
    let over = Over {
        colour: colours.letters,
        strength: 1.0,
        tone: ink.tone.as_deref(),
    };
    mixed.lay(&ink.cover, around, &over);
    if manner.border {
        let border = border::drawn(card, &view);
        let whole = Part {
            left: 0,
            top: 0,
            right: width as usize,
            bottom: height as usize,
        };
        mixed.lay(&border, whole, &Over::even(colours.letters, 0.96));
    }
    let margin = (1.0 - card.safe as f32) / 2.0 * view.scale;
    Layer {
        width,
        height,
        rgba: mixed.into_straight(),
        letters: ink.cover.values,
        capital: view.capital.round() as u32,
        types_on_paper: manner.finish == Finish::Ribbon,
        safe_rows: (
            (view.frame.1 + margin) as u32,
            (height as f32 - view.frame.1 - margin).max(0.0) as u32,
        ),
    }
}

/// Whether the letters without their surface are needed, for a shadow or a contour.
fn needs_bare(card: &SetCard) -> bool {
    card.look.shadow || card.look.outline || casts(card)
}

/// Paper lies above its ground, and so casts a shadow of its own.
fn casts(card: &SetCard) -> bool {
    card.look.manner.finish == Finish::Sheets
}

/// Shadows below all letters.
fn shadows(mixed: &mut Mixed, bare: &Plane, card: &SetCard, view: &View, around: Part) {
    let dark = card.look.dark;
    if card.look.shadow {
        // White letters throw a dark shadow; black ones stand before a light.
        let colour = if dark { [255, 255, 255] } else { [0, 0, 0] };
        let soft = bare.softened(around, view.pixels(0.07), 3);
        let moved = if dark { 0 } else { view.pixels(0.06) };
        mixed.lay_moved(&soft, around, moved, &Over::even(colour, 0.85));
    }
    if casts(card) && !dark {
        let soft = bare.softened(around, view.pixels(0.025), 2);
        mixed.lay_moved(
            &soft,
            around,
            view.pixels(0.045),
            &Over::even([0, 0, 0], 0.6),
        );
    }
}
