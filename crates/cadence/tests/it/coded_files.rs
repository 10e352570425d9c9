//! x
use super::coded::*;
use super::score::*;
use onestrand_telecine::*;
#[test]
fn try_coded() {
    let dir = tempfile::tempdir().unwrap();
    let look = Look {
        grain: 4.0,
        ..Look::FAIR
    };
    let size = (320, 240);
    let scenes = [
        (Scene::Walk, 130),
        (Scene::Pan(0.008), 110),
        (Scene::Still, 90),
        (Scene::Black, 40),
        (Scene::Title, 60),
        (Scene::Walk, 150),
    ];
    let roll = Roll::new(size, look, 3, &scenes);
    for coding in [
        "-c:v libx264 -preset fast -crf 18 -pix_fmt yuv420p",
        "-c:v libx264 -preset medium -crf 28 -pix_fmt yuv420p",
        "-c:v prores_ks -profile:v 2 -pix_fmt yuv422p10le",
        "-c:v mjpeg -q:v 4 -pix_fmt yuvj420p",
    ] {
        for (film, file, expo, drift) in [
            ((18, 1), (25, 1), 0.0, 0.0),
            ((24, 1), (25, 1), 0.0, 0.0),
            ((16, 1), (30000, 1001), 0.0, 0.0),
            ((18, 1), (25, 1), 1.0, 0.02),
            ((441, 25), (30000, 1001), 1.0, 0.0),
            ((24, 1), (24, 1), 0.0, 0.0),
            ((20, 1), (24, 1), 0.5, 0.01),
        ] {
            let tr = Transfer::clean(film, file)
                .exposed(expo)
                .drifting(drift, 900.0);
            let path = dir.path().join("t.mov");
            write(
                &path,
                Projection::new(&roll, &tr, Coding { noise: 0.0 }).map(|f| f.levels),
                size,
                file,
                coding,
            );
            let o = find_in(
                planes(&path).into_iter(),
                tr.truth(roll.frames()),
                settings(file),
            );
            println!(
                "{coding} {film:?} {file:?} {expo} {drift}: {} of {} misplaced {} {:?} {:.5} {} {:?}",
                o.frames.len(),
                roll.frames(),
                o.misplaced().len(),
                o.found.transfer,
                o.found.step,
                o.found.exposure,
                o.found.faults
            );
        }
    }
}
