//! Memory of a process with all its children, while they run.
//!
//! Source: proc(5), `VmRSS` of `/proc/PID/status` and
//! `/proc/PID/task/TID/children`. Pages that several of them share are counted
//! for each, so the sum is never too small at the moment it is taken.

use std::path::Path;
use std::sync::mpsc::{Receiver, RecvTimeoutError};
use std::time::Duration;

/// How often it is looked at.
const EVERY: Duration = Duration::from_millis(50);

/// The most memory that a process and its children held at a look, until
/// `ended` is told or dropped. Unit: bytes.
pub(crate) fn peak_until(ended: &Receiver<()>, process: u32) -> u64 {
    let mut peak = 0;
    loop {
        peak = peak.max(of_tree(process));
        if ended.recv_timeout(EVERY) != Err(RecvTimeoutError::Timeout) {
            return peak;
        }
    }
}

/// Whether this kernel names the children of a process; without, memory cannot
/// be measured.
pub(crate) fn can_be_seen() -> bool {
    let process = std::process::id();
    Path::new(&format!("/proc/{process}/task/{process}/children")).exists()
}

/// What a process and all its children hold now; those that have just ended
/// hold nothing.
fn of_tree(process: u32) -> u64 {
    let own = std::fs::read_to_string(format!("/proc/{process}/status"));
    let own = own.map_or(0, |status| resident(&status));
    children(process).into_iter().map(of_tree).sum::<u64>() + own
}

fn children(process: u32) -> Vec<u32> {
    let tasks = format!("/proc/{process}/task");
    let threads = std::fs::read_dir(Path::new(&tasks))
        .into_iter()
        .flatten()
        .flatten();
    threads
        .filter_map(|thread| std::fs::read_to_string(thread.path().join("children")).ok())
        .flat_map(|list| {
            list.split_whitespace()
                .filter_map(|id| id.parse().ok())
                .collect::<Vec<_>>()
        })
        .collect()
}

/// The line `VmRSS:   1234 kB`, in bytes; the kernel's kB are 1,024.
fn resident(status: &str) -> u64 {
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    let count = line.and_then(|rest| rest.split_whitespace().next()?.parse::<u64>().ok());
    count.unwrap_or(0) * 1024
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_resident_line_is_read_and_nothing_else() {
        let status = "Name:\tffmpeg\nVmHWM:\t  999 kB\nVmRSS:\t  120 kB\nRssFile:\t 7 kB\n";
        assert_eq!(resident(status), 120 * 1024);
        assert_eq!(resident("Name:\tkthreadd\n"), 0);
    }

    #[test]
    fn this_process_holds_something_and_one_that_is_not_there_nothing() {
        assert!(of_tree(std::process::id()) > 100_000);
        // Above the greatest process number of any Linux, 4,194,304.
        assert_eq!(of_tree(u32::MAX), 0);
    }

    #[test]
    fn a_look_is_taken_even_when_the_end_is_told_at_once() {
        let (end, ended) = std::sync::mpsc::channel::<()>();
        drop(end);
        assert!(peak_until(&ended, std::process::id()) > 0);
    }
}
