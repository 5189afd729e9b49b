//! What is computed after the figures are on the screen, in slices, so that no key press waits for it: what an allowance
//! costs, what a change of the water worsens, what would mend a check.

use crate::sheet::judge::Judged;
use crate::still::Still;
use calc::plan::causes::{Without, causes};
use calc::plan::changes::{CHANGES, Change, Worse, worse};
use calc::sheet::{Entry, Known, Value};
use calc::solve::{Mended, Mends};
use gloo_timers::callback::Timeout;
use std::cell::RefCell;
use std::rc::Rc;
use yew::prelude::*;

/// How long the typing pauses before it is begun, in milliseconds.
const PAUSE: u32 = 150;

/// A change of the water with what it worsens.
pub type Changed = (&'static Change, Known<Vec<Worse>>);

/// What was found so far.
#[derive(Default, Clone)]
pub struct Later {
    /// What the allowances cost.
    pub causes: Rc<Vec<Without>>,
    /// What each change of the water worsens.
    pub changes: Rc<Vec<Changed>>,
    /// What would mend a check, lever by lever.
    pub mends: Vec<Mended>,
    /// Whether there is no more to come.
    pub is_whole: bool,
}

/// What was read, and what was found with it.
type Found = Option<(Rc<Vec<Option<Value>>>, Rc<Later>)>;

/// What belongs to these values; `None` until the first of it is there.
#[hook]
pub fn use_later(entry: Still<Entry>, judged: &Rc<Judged>) -> Option<Rc<Later>> {
    let found = use_state(|| Found::None);
    {
        let (found, judged) = (found.setter(), Rc::clone(judged));
        use_effect_with((entry, Rc::clone(&judged.values)), move |(entry, values)| {
            let (entry, values) = (*entry, Rc::clone(values));
            let slices = Slices::new(move |later| found.set(Some((Rc::clone(&values), Rc::new(later)))));
            slices.begin(entry, judged);
            move || slices.stop()
        });
    }
    let (of, later) = found.as_ref()?;
    (*of == judged.values).then(|| Rc::clone(later))
}

/// One slice after the other; each leaves the browser time for a key press.
#[derive(Clone)]
struct Slices {
    timer: Rc<RefCell<Option<Timeout>>>,
    found: Rc<dyn Fn(Later)>,
}

impl Slices {
    fn new(found: impl Fn(Later) + 'static) -> Self {
        Self { timer: Rc::default(), found: Rc::new(found) }
    }

    fn stop(&self) {
        self.timer.replace(None);
    }

    fn after(&self, milliseconds: u32, next: impl FnOnce() + 'static) {
        self.timer.replace(Some(Timeout::new(milliseconds, next)));
    }

    fn begin(&self, entry: Still<Entry>, judged: Rc<Judged>) {
        let slices = self.clone();
        self.after(PAUSE, move || {
            let checks = &judged.assessment.checks;
            let causes = Rc::new(causes(entry.0, &judged.values, checks));
            let changes =
                CHANGES.iter().map(|change| (change, worse(entry.0, &judged.values, checks, change)));
            let later = Later { causes, changes: Rc::new(changes.collect()), ..Later::default() };
            (slices.found)(later.clone());
            if let Ok(case) = entry.0.fill(&judged.values) {
                slices.mend(Mends::of(case.as_ref()), later);
            }
        });
    }

    fn mend(&self, mut mends: Mends, mut later: Later) {
        let slices = self.clone();
        self.after(0, move || match mends.next() {
            Some(mended) => {
                later.mends.push(mended);
                (slices.found)(later.clone());
                slices.mend(mends, later);
            }
            None => {
                later.is_whole = true;
                (slices.found)(later);
            }
        });
    }
}
