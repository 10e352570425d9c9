//! Coverage of "The Ten-Past Boat", before the set is struck. The figures were worked
//! out beforehand, outside of this program.

use onestrand_film::{Fps, Frames, Gauge};
use onestrand_plan::{
    CameraReport, Script, StockRules, coverage, in_script_order, pack, planned_coverage,
    read_camera_report, read_script_sheet, retake,
};

use crate::boat;

fn frames(count: u32) -> Frames {
    Frames::new(count).expect("in range")
}

fn script() -> Script {
    read_script_sheet(boat::SCRIPT).expect("sound").script
}

fn report() -> CameraReport {
    read_camera_report(&boat::camera_report(), Gauge::Super8, frames(3600)).expect("sound")
}

#[test]
fn the_script_as_film_is_the_budget() {
    let blocks = script().blocks(Fps::EIGHTEEN, frames(24));
    let rules = StockRules::of_load(frames(3552));
    let plan = pack(&blocks, &rules).expect("sound");
    assert_eq!((plan.takes, plan.frames.count()), (33, 10_593));
    assert_eq!((plan.rolls.len(), plan.moved), (3, 3));
    let order = in_script_order(&blocks, &rules).expect("sound");
    assert_eq!(order, [3516, 3384, 3384, 309].map(frames));
}

#[test]
fn all_is_covered_and_two_actions_hang_on_one_take() {
    let (script, report) = (script(), report());
    assert_eq!(report.takes.len(), 31);
    let shot = coverage(&script, &report.takes_by_setup());
    assert_eq!((shot.actions.len(), shot.covered()), (15, 15));
    assert_eq!(
        shot.single_setup(),
        ["1a", "3c", "4a", "5a", "5c", "5b", "5d", "6b", "7a"]
    );
    assert_eq!(shot.single_take(), ["5a", "5c"]);
    assert_eq!(shot.fewest_setups.len(), 9);
    assert!(shot.is_fewest());
    // The set still tells the story.
    for action in &shot.actions {
        assert!(
            action
                .by
                .iter()
                .any(|by| shot.fewest_setups.contains(&by.setup))
        );
    }
    assert_eq!(planned_coverage(&script).single_take(), ["5a", "5c"]);
    // With the lever's setup not shot, two actions are shown by nothing.
    let mut takes = report.takes_by_setup();
    takes.remove("5");
    assert_eq!(coverage(&script, &takes).uncovered(), ["5a", "5c"]);
}

#[test]
fn a_retake_of_five_fits_the_third_roll_and_leaves_the_titles_short() {
    let blocks = script().blocks(Fps::EIGHTEEN, frames(24));
    let of = |name: &str| {
        blocks
            .iter()
            .find(|b| b.setup == name)
            .expect("it is there")
    };
    let needs = of("5").takes[0];
    let titles = frames(of("M").frames().count() + of("E").frames().count());
    assert_eq!((needs.count(), titles.count()), (438, 309));
    // 24 frames are lost at the tail of each roll.
    let rolls = report().rolls_left(frames(3600 - 24));
    let on = retake(needs, &rolls, titles);
    let left: Vec<_> = on
        .iter()
        .map(|r| (r.left.count(), r.left_after.map(Frames::count)))
        .collect();
    assert_eq!(left, [(4, None), (0, None), (513, Some(75))]);
    assert_eq!(on[2].short_by.count(), 309 - 75);
}

#[test]
fn off_camera_covers_nothing() {
    let text = "setup,actions,seconds\n1,1a;(1b),5\n1A,1b,5\n";
    let script = read_script_sheet(text).expect("sound").script;
    let cover = planned_coverage(&script);
    assert_eq!(cover.single_setup(), ["1a", "1b"]);
    assert_eq!(cover.fewest_setups, ["1", "1A"]);
}

#[test]
fn counters_that_cannot_be_are_told_with_their_lines() {
    let text = "roll,slate,take,start,end,weather\n\
        R1,1,1,24,390,fair\nR1,1,2,400,380,\nR1,2,1,300,500,\nR1,2,1,500,500,\n\
        R1,2,2,500,3700,\nR1,2,2,12+34,900,\nR1,,0,here,4,\n";
    let refused = read_camera_report(text, Gauge::Super8, frames(3600)).expect_err("wrong");
    let said: Vec<String> = refused.problems().iter().map(ToString::to_string).collect();
    assert_eq!(
        said[..5],
        [
            "line 3: the counter runs backwards, from 400 to 380; is one of them what was left?",
            "line 4, 2-T1: starts at 300, but the take on line 2 of R1 ended at 390",
            "line 5: the counter stands still at 500; a take has a length",
            "line 6, 2-T2: ends at 3700, beyond the load of 3600 frames",
            "line 7, 2-T2: is reported twice, first on line 6",
        ]
    );
    // 12 ft 34 fr of Super 8 are frame 898, before the end of the take on line 6.
    assert!(
        said[5].starts_with("line 7, 2-T2: starts at 898"),
        "{}",
        said[5]
    );
    assert_eq!(said.iter().filter(|s| s.starts_with("line 8")).count(), 3);
    let fair = read_camera_report(
        &text[..text.find("R1,1,2").expect("there")],
        Gauge::Super8,
        frames(3600),
    );
    assert_eq!(fair.expect("sound").takes[0].remark, "weather: fair");
}

#[test]
fn the_least_set_is_least_on_thousands_of_small_scripts() {
    let mut state = 0x2545_F491_4F6C_DD1D_u64;
    let mut below = |limit: u64| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 16) % limit
    };
    let mut harder = 0;
    for _ in 0..3000 {
        let (actions, setups) = (1 + below(9), 1 + below(9));
        // Few actions each, so that several setups are wanted, and at least one.
        let shows: Vec<u64> = (0..setups)
            .map(|_| below(1 << actions) & below(1 << actions) | 1 << below(actions))
            .collect();
        let mut text = "setup,actions,seconds\n".to_owned();
        for (at, shown) in shows.iter().enumerate() {
            let named: Vec<String> = (0..actions)
                .filter(|a| shown >> a & 1 == 1)
                .map(|a| format!("1x{a}"))
                .collect();
            text.push_str(&format!("{at}S,{},5\n", named.join(";")));
        }
        let all = shows.iter().fold(0, |all, shown| all | shown);
        let least = (0_u32..1 << setups)
            .filter(|set| {
                let shown = shows
                    .iter()
                    .enumerate()
                    .filter(|(at, _)| set >> at & 1 == 1);
                shown.fold(0, |sum, (_, shown)| sum | shown) == all
            })
            .map(u32::count_ones)
            .min()
            .expect("all of them show all");
        let script = read_script_sheet(&text).expect("sound").script;
        let cover = planned_coverage(&script);
        assert_eq!(cover.fewest_setups.len(), least as usize, "{text}");
        assert!(cover.is_fewest());
        let shown = |name: &String| {
            shows[name
                .trim_end_matches('S')
                .parse::<usize>()
                .expect("a number")]
        };
        assert_eq!(
            cover.fewest_setups.iter().map(shown).fold(0, |a, b| a | b),
            all
        );
        harder += usize::from(least >= 3);
    }
    assert!(harder > 300, "the cases ask something: {harder}");
}
