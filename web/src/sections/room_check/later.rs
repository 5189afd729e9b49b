//! What is computed after the figures are on the screen, in slices, so that no key press waits for it: what an allowance
//! costs, what a change of the water worsens, what would fix a check.

use crate::browser::slices::in_slices;
use crate::page::still::Still;
use crate::sheet::fixes::Fixes;
use crate::sheet::judge::Judged;
use calc::engine::sheet::{Entry, Known, Value};
use calc::engine::solve::Mends;
use calc::trade::plan::causes::{Without, causes};
use calc::trade::plan::changes::{CHANGES, Change, Worse, worse};
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
    /// What would fix a check, lever by lever; whole when there is no more to come.
    pub fixes: Fixes,
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
            let values = Rc::clone(values);
            let mut search = Search::new(*entry, judged);
            let slices = in_slices(PAUSE, move || {
                let is_whole = search.go_on();
                found.set(Some((Rc::clone(&values), Rc::new(search.found.clone()))));
                is_whole
            });
            move || drop(slices)
        });
    }
    let (of, later) = found.as_ref()?;
    (*of == judged.values).then(|| Rc::clone(later))
}

/// The work of one filling: first what is cheap, then one lever after the other.
struct Search {
    entry: Still<Entry>,
    judged: Rc<Judged>,
    found: Later,
    mends: Option<Mends>,
}

impl Search {
    fn new(entry: Still<Entry>, judged: Rc<Judged>) -> Self {
        Self { entry, judged, found: Later::default(), mends: None }
    }

    /// One round; whether there is no more to find.
    fn go_on(&mut self) -> bool {
        match &mut self.mends {
            None => {
                let (entry, values) = (self.entry.0, &self.judged.values);
                let checks = &self.judged.assessment.checks;
                let changes = CHANGES.iter().map(|change| (change, worse(entry, values, checks, change)));
                self.found.changes = Rc::new(changes.collect());
                self.found.causes = Rc::new(causes(entry, values, checks));
                self.mends = entry.fill(values).ok().map(|case| Mends::of(case.as_ref()));
                self.found.fixes.is_whole = self.mends.is_none();
            }
            Some(mends) => match mends.next() {
                Some(mended) => self.found.fixes.tried.push(mended),
                None => self.found.fixes.is_whole = true,
            },
        }
        self.found.fixes.is_whole
    }
}
