//! One saving after the other, each over the revision that this window saw last.

use crate::state::{Action, Content};
use crate::store::tabs::{Tabs, show_here, shown_here};
use crate::store::{DATABASE, Head, Id, Loaded, Moment, Store, Trouble};
use calc::documents::record::Record;
use gloo_timers::callback::Timeout;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, VecDeque};
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::prelude::*;
use yew::Callback;
use yew::platform::spawn_local;
use yew::platform::time::sleep;

/// From a change to its saving, in milliseconds. What follows within that time is saved with it.
const WITHIN: u32 = 300;
/// From a saving that failed to the next, in milliseconds: the person may have made room meanwhile.
const AGAIN: u32 = 5000;

/// How long the store may take to open, in milliseconds, before it is said that nothing is kept: some browsers never
/// answer.
const SILENT: u32 = 5000;

/// How the open record stands with the store.
#[derive(Debug, Clone, PartialEq)]
pub enum Status {
    /// The store is being opened.
    Opening,
    /// There is nothing to save yet.
    Nothing,
    /// What was typed is not saved yet.
    Changed,
    /// Saved, at this moment.
    Saved(Moment),
    /// Not saved, and why.
    Troubled(Trouble),
}

/// Keeps the record of this window.
#[derive(Clone)]
pub struct Keeper(Rc<Inner>);

struct Inner {
    tell: Box<dyn Fn(Status)>,
    send: Callback<Action>,
    store: RefCell<Option<Rc<Store>>>,
    tabs: RefCell<Option<Tabs>>,
    leaving: RefCell<Option<Closure<dyn Fn()>>>,
    hiding: RefCell<Option<Closure<dyn Fn()>>>,
    /// The revision that this window saw last, by record.
    seen: RefCell<BTreeMap<Id, u64>>,
    now: RefCell<Option<Rc<Content>>>,
    /// What the store has.
    saved: RefCell<Option<(Id, Rc<Record>)>>,
    /// What left the page before it was saved.
    waiting: RefCell<VecDeque<(Id, Rc<Record>)>>,
    timer: RefCell<Option<Timeout>>,
    /// Runs while the store is being opened.
    opening: RefCell<Option<Timeout>>,
    busy: Cell<bool>,
    /// A conflict waits for the person to decide.
    halted: Cell<bool>,
    /// What was said to be wrong, until something is saved: what follows from it, such as a store that the browser closed
    /// since the disk is full, is not said in its place.
    wrong: RefCell<Option<Trouble>>,
    /// The store is being opened anew.
    reopening: Cell<bool>,
    /// Whether the person was told that nothing is kept, before the store could be opened.
    late: Cell<bool>,
}

impl Keeper {
    pub(super) fn new(tell: impl Fn(Status) + 'static, send: Callback<Action>) -> Self {
        Self(Rc::new(Inner {
            tell: Box::new(tell),
            send,
            store: RefCell::default(),
            tabs: RefCell::default(),
            leaving: RefCell::default(),
            hiding: RefCell::default(),
            seen: RefCell::default(),
            now: RefCell::default(),
            saved: RefCell::default(),
            waiting: RefCell::default(),
            timer: RefCell::default(),
            opening: RefCell::default(),
            busy: Cell::new(false),
            halted: Cell::new(false),
            wrong: RefCell::default(),
            reopening: Cell::new(false),
            late: Cell::new(false),
        }))
    }

    /// Opens the store and the record that this window, or any, showed last.
    pub(super) fn begin(&self) {
        let keeper = self.clone();
        self.0.opening.replace(Some(Timeout::new(SILENT, move || {
            keeper.0.late.set(true);
            (keeper.0.tell)(Status::Troubled(Trouble::Silent));
        })));
        self.open_store();
        let keeper = self.clone();
        let leaving = Closure::<dyn Fn()>::new(move || keeper.leave());
        if let Some(window) = web_sys::window() {
            // the last moment that every browser tells of, a phone's too
            window.set_onpagehide(Some(leaving.as_ref().unchecked_ref()));
        }
        self.0.leaving.replace(Some(leaving));
        let keeper = self.clone();
        let hiding = Closure::<dyn Fn()>::new(move || keeper.hidden());
        if let Some(document) = web_sys::window().and_then(|window| window.document()) {
            document.set_onvisibilitychange(Some(hiding.as_ref().unchecked_ref()));
        }
        self.0.hiding.replace(Some(hiding));
    }

    /// Opens the store, again and again where what keeps it closed may pass.
    fn open_store(&self) {
        let keeper = self.clone();
        spawn_local(async move {
            let opened = Store::open(DATABASE).await;
            keeper.0.opening.replace(None);
            match opened {
                Ok(store) => keeper.take(Rc::new(store)).await,
                Err(trouble) => {
                    keeper.0.late.set(true);
                    if trouble.may_pass() {
                        let again = keeper.clone();
                        keeper.0.opening.replace(Some(Timeout::new(AGAIN, move || again.open_store())));
                    }
                    keeper.fails(trouble);
                }
            }
        });
    }

    /// Says what is wrong. What only follows from a disk that is full is not said in its place.
    fn fails(&self, trouble: Trouble) {
        let mut wrong = self.0.wrong.borrow_mut();
        let follows = matches!(trouble, Trouble::Closed | Trouble::Other(_));
        if !(follows && *wrong == Some(Trouble::Full)) {
            *wrong = Some(trouble);
        }
        if let Some(wrong) = wrong.clone() {
            (self.0.tell)(Status::Troubled(wrong));
        }
    }

    pub(super) fn end(&self) {
        if let Some(window) = web_sys::window() {
            window.set_onpagehide(None);
            if let Some(document) = window.document() {
                document.set_onvisibilitychange(None);
            }
        }
        self.0.hiding.replace(None);
        self.0.leaving.replace(None);
        self.0.tabs.replace(None);
        self.0.timer.replace(None);
        self.0.opening.replace(None);
    }

    async fn take(&self, store: Rc<Store>) {
        let listener = self.clone();
        self.0.tabs.replace(Tabs::listen(move |id| listener.heard(&id)));
        // What was left behind in the midst of typing is taken up first. Where that fails, it waits for the next time.
        let left = store.take_up().await.unwrap_or_default();
        self.0.store.replace(Some(Rc::clone(&store)));
        self.0.wrong.replace(None);
        (self.0.tell)(Status::Nothing);
        // What was typed while the store was being opened belongs to the record that was open, as far as nobody was told
        // otherwise; what was opened from a file meanwhile has a name of its own.
        let (is_late, now) = (self.0.late.get(), self.0.now.borrow().clone());
        let goes_on = now.is_none_or(|now| now.id.is_none() && (now.is_fresh || !is_late));
        if goes_on
            && let Err(trouble) = self.show_last(&store, left.first().map(|loaded| &loaded.head.id)).await
        {
            (self.0.tell)(Status::Troubled(trouble));
        }
        self.named();
        if self.next().is_some() {
            (self.0.tell)(Status::Changed);
            self.save_soon();
        }
    }

    /// Shows the record that this window showed last; where it is put away or gone, what was left behind or any window
    /// showed last.
    async fn show_last(&self, store: &Store, left: Option<&Id>) -> Result<(), Trouble> {
        let here = match shown_here() {
            Some(id) => store.head(&id).await.ok().filter(|head| head.binned.is_none()).map(|head| head.id),
            None => None,
        };
        let last = match here.or_else(|| left.cloned()) {
            Some(id) => Some(id),
            None => store.last().await?,
        };
        if let Some(id) = last {
            self.show(store.load(&id).await?);
        }
        Ok(())
    }

    /// Saves, where something went wrong with the store before after it was opened anew: a browser closes it for good when its
    /// disk is full. Nothing waits for an opening that is never answered.
    fn save_again(&self) {
        let may_pass = self.0.wrong.borrow().as_ref().is_some_and(Trouble::may_pass);
        let Some(store) = self.store().filter(|_| may_pass && !self.0.reopening.get()) else {
            return self.save();
        };
        self.0.reopening.set(true);
        let keeper = self.clone();
        spawn_local(async move {
            if let Ok(anew) = store.again(DATABASE).await {
                store.close();
                keeper.0.store.replace(Some(Rc::new(anew)));
            }
            keeper.0.reopening.set(false);
            // where it could not be opened, the saving tells why
            keeper.save();
        });
    }

    /// A record that has no name in the store gets one.
    fn named(&self) {
        let nameless = self.0.now.borrow().as_ref().is_some_and(|now| now.id.is_none());
        if let Some(id) = Id::draw().filter(|_| nameless) {
            self.0.send.emit(Action::Named(id));
        }
    }

    /// The store, once it is open.
    pub fn store(&self) -> Option<Rc<Store>> {
        self.0.store.borrow().clone()
    }

    /// The revision of a record that this window saw last.
    pub fn seen(&self, id: &Id) -> Option<u64> {
        self.0.seen.borrow().get(id).copied()
    }

    /// Remembers what the store now has of a record.
    pub fn saw(&self, head: &Head) {
        self.0.seen.borrow_mut().insert(head.id.clone(), head.revision);
    }

    /// Shows a record as the store has it.
    pub fn show(&self, loaded: Loaded) {
        self.show_as(loaded, Action::Load);
    }

    fn show_as(&self, loaded: Loaded, action: impl FnOnce(Rc<Record>, Id) -> Action) {
        if let Some(store) = self.store() {
            store.shows(&loaded);
        }
        let record = Rc::new(loaded.record);
        self.saw(&loaded.head);
        show_here(&loaded.head.id);
        self.0.halted.set(false);
        self.0.saved.replace(Some((loaded.head.id.clone(), Rc::clone(&record))));
        (self.0.tell)(Status::Saved(loaded.head.saved));
        self.0.send.emit(action(record, loaded.head.id));
    }

    /// After a conflict: what is typed here goes on as a record of its own.
    pub fn keep_both(&self) {
        self.0.halted.set(false);
        if let Some(id) = Id::draw() {
            self.0.send.emit(Action::Renamed(id));
        }
    }

    /// After a conflict: what the other window saved is shown here. What was typed here is one step back.
    pub fn take_other(&self) {
        self.show_other(Action::Take, false);
    }

    /// Shows what another window saved of the open record; unasked only while nothing else is typed here.
    fn show_other(&self, action: fn(Rc<Record>, Id) -> Action, is_unasked: bool) {
        let Some((store, id)) = self.store().zip(self.id()) else { return };
        let keeper = self.clone();
        spawn_local(async move {
            match store.load(&id).await {
                // what was typed meanwhile is merged with it when it is saved
                Ok(_) if is_unasked && keeper.unsaved().is_some() => {}
                Ok(loaded) => keeper.show_as(loaded, action),
                Err(trouble) => (keeper.0.tell)(Status::Troubled(trouble)),
            }
        });
    }

    fn id(&self) -> Option<Id> {
        self.0.now.borrow().as_ref().and_then(|now| now.id.clone())
    }

    /// Hears of what stands on the page now.
    pub(super) fn changed(&self, now: Rc<Content>) {
        let has_id = now.id.is_some();
        if self.is_another(&now) {
            self.let_go();
        }
        self.0.now.replace(Some(now));
        if self.0.store.borrow().is_none() {
            return;
        }
        if !has_id {
            self.named();
        }
        if self.next().is_some() {
            // what is wrong stays on the screen until something is saved
            let wrong = self.0.wrong.borrow().clone();
            (self.0.tell)(wrong.map_or(Status::Changed, Status::Troubled));
            self.save_soon();
        }
    }

    /// Whether the page now shows another record than before; under another name it is still the same.
    fn is_another(&self, now: &Content) -> bool {
        let before = self.0.now.borrow();
        before.as_ref().is_some_and(|before| {
            before.id.is_some() && before.id != now.id && !Rc::ptr_eq(&before.record, &now.record)
        })
    }

    /// Another record takes the page: what was typed into this one within the last moment is saved before it. Where a
    /// conflict was not decided, both are kept.
    fn let_go(&self) {
        self.0.timer.replace(None);
        let undecided = self.0.halted.replace(false);
        let Some((id, record)) = self.unsaved() else { return };
        if undecided {
            self.keep_apart(&id, record);
        } else {
            self.0.waiting.borrow_mut().push_back((id, record));
        }
    }

    /// What may not be written over its record any more is saved as one of its own.
    fn keep_apart(&self, id: &Id, record: Rc<Record>) {
        match Id::draw() {
            Some(own) => self.0.waiting.borrow_mut().push_back((own, record)),
            None => self.leave_behind(id, &record),
        }
    }

    /// What has to be saved next.
    fn next(&self) -> Option<(Id, Rc<Record>)> {
        let waiting = self.0.waiting.borrow().front().cloned();
        waiting.or_else(|| self.unsaved().filter(|_| !self.0.halted.get()))
    }

    /// What stands on the page and is not saved, with its name in the store.
    fn unsaved(&self) -> Option<(Id, Rc<Record>)> {
        let now = self.0.now.borrow().clone()?;
        let id = now.id.clone().filter(|_| !now.is_fresh)?;
        let saved = self.0.saved.borrow();
        let is_saved =
            saved.as_ref().is_some_and(|(of, record)| *of == id && Rc::ptr_eq(record, &now.record));
        (!is_saved).then(|| (id, Rc::clone(&now.record)))
    }

    fn save_soon(&self) {
        self.save_after(WITHIN);
    }

    fn save_after(&self, milliseconds: u32) {
        if self.0.busy.get() || self.0.timer.borrow().is_some() {
            return;
        }
        let keeper = self.clone();
        self.0.timer.replace(Some(Timeout::new(milliseconds, move || {
            keeper.0.timer.replace(None);
            keeper.save_again();
        })));
    }

    fn save(&self) {
        let (Some((id, record)), Some(store), false) = (self.next(), self.store(), self.0.busy.get()) else {
            return;
        };
        self.0.busy.set(true);
        let keeper = self.clone();
        spawn_local(async move {
            let result = store.save(&id, keeper.seen(&id), &record).await;
            keeper.0.busy.set(false);
            let is_it = |waiting: &(Id, Rc<Record>)| waiting.0 == id && Rc::ptr_eq(&waiting.1, &record);
            keeper.0.waiting.borrow_mut().retain(|waiting| !is_it(waiting));
            match result {
                Ok(head) => keeper.was_saved(&head, Rc::clone(&record)),
                Err(trouble) if keeper.id().as_ref() != Some(&id) => match trouble {
                    Trouble::Conflict(_) | Trouble::Gone => keeper.keep_apart(&id, record),
                    _ => keeper.leave_behind(&id, &record),
                },
                Err(trouble) => {
                    let halts = matches!(trouble, Trouble::Conflict(_) | Trouble::Gone);
                    keeper.0.halted.set(halts);
                    let is_final = trouble == Trouble::TooLarge;
                    keeper.fails(trouble);
                    if halts || is_final {
                        // the next change, or the person, will try again
                        return;
                    }
                    keeper.save_after(AGAIN);
                }
            }
            if keeper.next().is_some() {
                keeper.save_soon();
            }
        });
    }

    /// Saves what is not saved yet, before another state or record takes its place.
    ///
    /// # Errors
    /// Where it could not be saved; then nothing may take its place.
    pub async fn save_now(&self) -> Result<(), Trouble> {
        // a saving on its way has yet to tell over which revision the next one goes
        while self.0.busy.get() {
            sleep(Duration::from_millis(10)).await;
        }
        let (Some((id, record)), Some(store)) = (self.unsaved(), self.store()) else { return Ok(()) };
        self.0.timer.replace(None);
        self.0.busy.set(true);
        let result = store.save(&id, self.seen(&id), &record).await;
        self.0.busy.set(false);
        self.was_saved(&result?, record);
        Ok(())
    }

    fn was_saved(&self, head: &Head, record: Rc<Record>) {
        self.saw(head);
        self.0.wrong.replace(None);
        if let Some(tabs) = self.0.tabs.borrow().as_ref() {
            tabs.tell(&head.id);
        }
        if self.id().as_ref() != Some(&head.id) {
            return;
        }
        show_here(&head.id);
        self.0.saved.replace(Some((head.id.clone(), record)));
        if self.unsaved().is_none() {
            (self.0.tell)(Status::Saved(head.saved));
            if self.store().is_some_and(|store| store.has_more(&head.id)) {
                self.show_other(Action::Load, true);
            }
        }
    }

    /// Another window saved a record. Where it is the one shown here and nothing is unsaved, it is shown anew.
    fn heard(&self, id: &Id) {
        if self.id().as_ref() != Some(id) || self.unsaved().is_some() || self.0.busy.get() {
            return;
        }
        self.show_other(Action::Load, true);
    }

    /// The page is out of sight: a phone may end it without another word.
    fn hidden(&self) {
        let document = web_sys::window().and_then(|window| window.document());
        let is_hidden = document.is_some_and(|document| document.hidden());
        if is_hidden && !self.0.busy.get() && !self.0.halted.get() {
            self.0.timer.replace(None);
            self.save();
        }
    }

    /// The window is closed or loaded anew.
    fn leave(&self) {
        for (id, record) in self.0.waiting.take().iter().chain(&self.unsaved()) {
            self.leave_behind(id, record);
        }
    }

    /// Leaves a record as last words, which are taken up when the page is opened the next time.
    fn leave_behind(&self, id: &Id, record: &Record) {
        if let Some(store) = self.store() {
            // Nobody is left to hear of a refusal.
            let _ = store.leave(id, self.seen(id), record);
        }
    }
}

impl PartialEq for Keeper {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}
