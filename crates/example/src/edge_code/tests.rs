use super::*;

fn blank(width: u32, height: u32, level: u8) -> Vec<u8> {
    vec![level; (width * height * 3) as usize]
}

#[test]
fn every_number_of_the_three_rolls_comes_back() {
    for roll in 1..=3 {
        for frame in 0..3600 {
            assert_eq!(decode_word(code_word(roll, frame)), Some((roll, frame)));
        }
    }
    assert_eq!(
        decode_word(code_word(MAX_ROLL, MAX_FRAME)),
        Some((MAX_ROLL, MAX_FRAME))
    );
}

#[test]
fn any_one_or_two_wrong_blocks_are_noticed() {
    let word = code_word(2, 2971);
    for a in 0..BLOCKS {
        for b in a..BLOCKS {
            let wrong = word ^ (1 << a) ^ if a == b { 0 } else { 1 << b };
            assert_eq!(decode_word(wrong), None, "blocks {a} and {b}");
        }
    }
}

#[test]
fn a_printed_code_is_read_wherever_weave_puts_it() {
    for (width, height) in [(640, 480), (320, 240), (1440, 1080), (322, 242)] {
        for (dx, dy) in [(0, 0), (4, 4), (-4, -4), (4, -4), (-3, 2)] {
            let mut rgb = blank(width, height, 10);
            print(&mut rgb, 3, (width, height), (3, 3599), [230; 3]);
            let moved = shift(&rgb, width, height, dx, dy);
            // A bar of 240 lines is 6 lines high: 4 lines down it is gone.
            if height < 300 && dy > 2 {
                continue;
            }
            assert_eq!(
                read_edge_code_rgb(&moved, width, height, width as usize * 3),
                Some((3, 3599)),
                "{width}×{height} moved {dx}, {dy}"
            );
        }
    }
}

#[test]
fn a_code_under_fog_is_read() {
    let mut rgb = blank(640, 480, 20);
    print(&mut rgb, 3, (640, 480), (1, 3590), [225; 3]);
    // Fog that grows from nothing on the left to near white on the right.
    for (index, value) in rgb.iter_mut().enumerate() {
        let x = (index / 3 % 640) as f32 / 640.0;
        let v = f32::from(*value);
        *value = (v + (255.0 - v) * x * 0.8) as u8;
    }
    assert_eq!(read_edge_code_rgb(&rgb, 640, 480, 1920), Some((1, 3590)));
}

#[test]
fn no_code_is_read_where_there_is_none() {
    assert_eq!(
        read_edge_code_rgb(&blank(640, 480, 90), 640, 480, 1920),
        None
    );
    assert_eq!(read_edge_code(&[], 640, 480, 640), None);
    assert_eq!(read_edge_code_rgb(&[], 640, 480, 1920), None);
    // Noise everywhere: sync and check must refuse it.
    let noise: Vec<u8> = (0..640 * 480)
        .map(|i| crate::noise::hash(i) as u8)
        .collect();
    assert_eq!(read_edge_code(&noise, 640, 480, 640), None);
}

fn shift(rgb: &[u8], width: u32, height: u32, dx: i32, dy: i32) -> Vec<u8> {
    let mut out = blank(width, height, 10);
    for y in 0..height as i32 {
        for x in 0..width as i32 {
            let (sx, sy) = (x - dx, y - dy);
            if sx < 0 || sy < 0 || sx >= width as i32 || sy >= height as i32 {
                continue;
            }
            let to = (y as usize * width as usize + x as usize) * 3;
            let from = (sy as usize * width as usize + sx as usize) * 3;
            out[to..to + 3].copy_from_slice(&rgb[from..from + 3]);
        }
    }
    out
}
