//! What a command costs: processor time, time on the clock, memory.

use std::process::{Command, Output, Stdio};
use std::sync::mpsc;
use std::time::Instant;

use nix::sys::resource::{UsageWho, getrusage};
use nix::sys::time::TimeValLike;

use crate::memory::peak_until;
use crate::trouble::Trouble;

/// What one run of a command cost.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Cost {
    /// User and system time of the command and of all children it waited for.
    /// Unit: seconds.
    pub(crate) processor: f64,
    /// Time on the clock. Unit: seconds.
    pub(crate) wall: f64,
    /// The most memory it and its children held together. Unit: bytes.
    pub(crate) peak: u64,
}

/// Runs a command to its end and says what it cost. No other child of this
/// process may end meanwhile: the system counts them all together.
///
/// # Errors
/// [`Trouble::Child`] when it cannot be started or fails.
pub(crate) fn of(command: &mut Command, name: &str) -> Result<Cost, Trouble> {
    let before = processor_of_children()?;
    let began = Instant::now();
    let (output, peak) = watched(command).map_err(|problem| failed(name, &problem.to_string()))?;
    let wall = began.elapsed().as_secs_f64();
    let processor = processor_of_children()? - before;
    success(&output, name)?;
    Ok(Cost {
        processor,
        wall,
        peak,
    })
}

/// Runs a command to its end and gives what it wrote.
///
/// # Errors
/// [`Trouble::Child`] when it cannot be started or fails.
pub(crate) fn output_of(command: &mut Command, name: &str) -> Result<Vec<u8>, Trouble> {
    let output = command
        .stdin(Stdio::null())
        .output()
        .map_err(|problem| failed(name, &problem.to_string()))?;
    success(&output, name)?;
    Ok(output.stdout)
}

fn watched(command: &mut Command) -> std::io::Result<(Output, u64)> {
    let child = command
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()?;
    let process = child.id();
    std::thread::scope(|scope| {
        let (end, ended) = mpsc::channel();
        let looking = scope.spawn(move || peak_until(&ended, process));
        let output = child.wait_with_output();
        drop(end);
        let peak = looking.join().unwrap_or(0);
        Ok((output?, peak))
    })
}

fn processor_of_children() -> Result<f64, Trouble> {
    let used = getrusage(UsageWho::RUSAGE_CHILDREN)?;
    let both = used.user_time() + used.system_time();
    Ok(both.num_microseconds() as f64 / 1e6)
}

fn success(output: &Output, name: &str) -> Result<(), Trouble> {
    if output.status.success() {
        return Ok(());
    }
    let said = String::from_utf8_lossy(&output.stderr);
    let last: Vec<&str> = said.trim().lines().rev().take(3).collect();
    let last: Vec<&str> = last.into_iter().rev().collect();
    Err(failed(
        name,
        &format!("{} ({})", last.join(" / "), output.status),
    ))
}

fn failed(name: &str, said: &str) -> Trouble {
    Trouble::Child {
        program: name.to_owned(),
        said: said.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn work_of_a_child_is_counted_and_its_failure_told() {
        let busy = "i=0; while [ $i -lt 20000 ]; do i=$((i+1)); done";
        let cost = of(Command::new("sh").args(["-c", busy]), "sh").expect("a shell counts");
        assert!(cost.processor > 0.0 && cost.wall > 0.0, "{cost:?}");
        let told = of(
            Command::new("sh").args(["-c", "echo no film >&2; exit 3"]),
            "sh",
        );
        assert!(told.is_err_and(|trouble| trouble.to_string().contains("no film")));
    }
}
