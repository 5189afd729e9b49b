//! Work in slices: each short enough that no key press waits for it, and none before the page is painted.

use gloo_timers::callback::Timeout;
use std::cell::{Cell, RefCell};
use std::rc::Rc;

/// How long a slice lasts, in milliseconds; a single round of the work may last longer.
const SLICE: f64 = 6.0;

/// Work that goes on until it is done, or this is dropped.
pub struct Slices(Rc<Running>);

#[derive(Default)]
struct Running {
    timer: RefCell<Option<Timeout>>,
    is_stopped: Cell<bool>,
}

/// Begins after so many milliseconds: calls `round` again and again until it says that it is done.
pub fn in_slices(pause: u32, round: impl FnMut() -> bool + 'static) -> Slices {
    let running = Rc::new(Running::default());
    next(&running, pause, round);
    Slices(running)
}

fn next(running: &Rc<Running>, pause: u32, mut round: impl FnMut() -> bool + 'static) {
    let here = Rc::clone(running);
    let timer = Timeout::new(pause, move || {
        let end = now() + SLICE;
        // a round may itself bring about that the work is no longer wanted
        while !here.is_stopped.get() && !round() {
            if now() >= end {
                return next(&here, 0, round);
            }
        }
    });
    running.timer.replace(Some(timer));
}

impl Drop for Slices {
    fn drop(&mut self) {
        self.0.is_stopped.set(true);
        drop(self.0.timer.take());
    }
}

fn now() -> f64 {
    // Without a clock every slice ends after one round.
    web_sys::window().and_then(|window| window.performance()).map_or(f64::INFINITY, |clock| clock.now())
}
