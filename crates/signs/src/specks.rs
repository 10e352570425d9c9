//! Dust: specks that one frame has and its neighbours have not.

use crate::movement::Step;
use crate::pyramid::Pyramid;
use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};

/// A speck is darker or lighter by at least this than all that is near its
/// place in the frames before and after. Unit: levels.
const SPECK: u8 = 26;
/// Rows and columns left out: the gate and the frame line.
const BORDER: usize = 6;

/// How many specks lie on `here`. `came` and `goes` are the movements from the
/// frame before and to the frame after.
pub(crate) fn specks(
    (before, here, after): (&Pyramid, &Pyramid, &Pyramid),
    (came, goes): (Step, Step),
) -> u16 {
    let whole = |by: f32| by.round() as i32;
    let margin = |step: Step| whole(step.right).abs().max(whole(step.down).abs()) as usize;
    let border = BORDER + margin(came).max(margin(goes));
    if border > PLANE_HEIGHT / 4 {
        return 0;
    }
    let away = |row: usize, by: Step, sign: i32| -> usize {
        let y = row as i32 + sign * whole(by.down);
        (y * PLANE_WIDTH as i32 + border as i32 + sign * whole(by.right)) as usize
    };
    let wide = PLANE_WIDTH - 2 * border;
    let mut above = [false; PLANE_WIDTH];
    let mut count = 0;
    for row in border..PLANE_HEIGHT - border {
        let here = &here.plane[row * PLANE_WIDTH + border..][..wide];
        let (from, to) = (away(row, came, -1), away(row, goes, 1));
        let dark = (
            &before.darkest[from..][..wide],
            &after.darkest[to..][..wide],
        );
        let light = (
            &before.lightest[from..][..wide],
            &after.lightest[to..][..wide],
        );
        let mut marks = [false; PLANE_WIDTH];
        let mut any = false;
        for x in 0..wide {
            let low = dark.0[x].min(dark.1[x]);
            let high = light.0[x].max(light.1[x]);
            let off = low
                .saturating_sub(here[x])
                .max(here[x].saturating_sub(high));
            marks[x] = off >= SPECK;
            any |= off >= SPECK;
        }
        if any {
            count += begun(&marks[..wide], &above[..wide]);
        }
        above = marks;
    }
    count
}

/// Runs of marks in a row that do not go on from the row above.
fn begun(marks: &[bool], above: &[bool]) -> u16 {
    let mut count = 0;
    let mut x = 0;
    while x < marks.len() {
        if !marks[x] {
            x += 1;
            continue;
        }
        let start = x;
        while x < marks.len() && marks[x] {
            x += 1;
        }
        let touches = above[start.saturating_sub(1)..(x + 1).min(above.len())]
            .iter()
            .any(|&mark| mark);
        count += u16::from(!touches);
    }
    count
}
