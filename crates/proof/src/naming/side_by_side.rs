//! Places looked at side by side, on all processors that there are.

use std::sync::Mutex;

/// Looks at each; in what order they are taken makes no difference to any of them.
pub(super) fn each<T: Send>(places: &mut [T], look: impl Fn(&mut T) + Sync) {
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    if threads == 1 || places.len() < 2 {
        places.iter_mut().for_each(look);
        return;
    }
    // One after the other is handed out: some take much longer than others.
    let waiting = Mutex::new(places.iter_mut());
    let next = || waiting.lock().ok()?.next();
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                while let Some(place) = next() {
                    look(place);
                }
            });
        }
    });
}
