//! What can happen, and what follows from it: one pure function.

use super::content::is_plan;
use super::{Content, Filling, STEPS, State};
use crate::store::Id;
use calc::documents::csv::Read;
use calc::documents::record::{Event, Given, Held, Offer, Record, Rows, Typed, offered};
use calc::engine::calendar::Moment;
use calc::engine::quantity::{Unit, UnitSet};
use calc::engine::sheet::{Declaration, Field, Shape};
use std::rc::Rc;

/// What can happen.
#[derive(Debug, Clone)]
pub enum Action {
    /// In one field of a sheet.
    Field(&'static Declaration, &'static Field, Change),
    /// The page's units were chosen.
    Units(UnitSet),
    /// Another record is shown, from its first place on, under this name in the store. One that came from a file is
    /// kept at once, an invented one or a blank from its first change on.
    Open(Rc<Record>, Option<Id>),
    /// A record is shown as the store has it. No step: what was typed before lies in the store too. What was typed before
    /// the store was open goes on in it.
    Load(Rc<Record>, Id),
    /// The same as a step that can be undone: what stands on the page is kept nowhere else.
    Take(Rc<Record>, Id),
    /// The open record is called so in the store; it had no name.
    Named(Id),
    /// The open record goes on under another name in the store.
    Renamed(Id),
    /// Another place of the record is shown.
    Place(usize),
    /// A place is added to the record under this id, and shown.
    AddPlace(Id),
    /// The empty fields of a sheet are filled with what the record knows of them.
    Fill(&'static Declaration),
    /// A field is filled with a number that another sheet has worked out.
    Hand(&'static Declaration, &'static Field, String, &'static str),
    /// What stands in a sheet is kept with its date under this id.
    Keep(&'static Declaration, Id, Moment),
    /// What stood in the kept sheet of this id is what is being worked on.
    StartFrom(Rc<str>),
    /// The open record goes on with what another state of it, from a file, has besides.
    Merge(Rc<Record>),
    /// Events from the rows of a text are written down.
    AddEvents(Rc<Vec<Event>>),
    /// It is this moment now.
    Clock(Moment),
    /// A sheet is emptied; where it is the plan, a blank record is begun.
    Clear(&'static Declaration),
    /// The last step is taken back.
    Undo,
    /// The step that was taken back is done again.
    Redo,
}

/// What can happen in one field.
#[derive(Debug, Clone)]
pub enum Change {
    /// Something was typed or chosen.
    Text(String),
    /// A unit was chosen beside the field. The text stays: the same digits in the new unit.
    Unit(&'static Unit),
    /// Something was typed into a cell: row, column, text.
    Cell(usize, usize, String),
    /// A unit was chosen over a column.
    ColumnUnit(usize, &'static Unit),
    /// An empty row is wanted.
    AddRow,
    /// A row for each value of the first column, which is a choice, is wanted.
    EachRow,
    /// Rows from a text take the place of those that are there.
    Rows(Rc<Read>),
    /// A row goes.
    RemoveRow(usize),
    /// The person went into the field or cell of this id, and it shows no error: it may be mended in peace.
    Enter(String),
    /// The person left the field or cell of this id: what is wrong in it is said from now on.
    Leave(String),
}

impl Change {
    /// The field or cell that is typed in; `None` for what is a step of its own.
    fn typed_in(&self, sheet: &Declaration, field: &Field) -> Option<String> {
        match self {
            Change::Text(_) => Some(format!("{} {}", sheet.id, field.id)),
            Change::Cell(row, column, _) => Some(format!("{} {} {row} {column}", sheet.id, field.id)),
            _ => None,
        }
    }
}

impl State {
    /// What follows; `None` where nothing changes.
    pub fn after(&self, action: Action) -> Option<State> {
        let now = &self.now;
        match action {
            Action::Field(sheet, field, change) => self.in_field(sheet, field, change),
            Action::Units(units) => (units != self.units).then(|| self.in_units(units)),
            Action::Open(record, id) => {
                let is_fresh = record.is_invented() || record.is_blank();
                Some(self.step(Content { id, is_fresh, ..now.opened(record, 0) }))
            }
            Action::Load(record, id) => {
                let loaded = now.loaded(record, id);
                if now.id.is_some() && now.id == loaded.id {
                    return Some(self.with_what_another_did(loaded));
                }
                if now.id.is_some() || now.is_fresh {
                    return Some(State { now: Rc::new(loaded), typing: None, ..self.clone() });
                }
                // typed in the first moments: a step after the record, still being typed
                let typed = now.typed_over(&loaded);
                let opened = State { now: Rc::new(loaded), past: Rc::default(), ..self.clone() };
                Some(State { typing: self.typing.clone(), ..opened.step(typed) })
            }
            Action::Take(record, id) => Some(self.step(now.loaded(record, id))),
            Action::Named(id) => {
                now.id.is_none().then(|| self.everywhere(|content| content.id.is_none(), &id))
            }
            Action::Renamed(id) => {
                let before = now.id.clone();
                Some(self.everywhere(|content| content.id == before, &id))
            }
            Action::Place(place) => (place != now.place && place < now.record.places().len())
                .then(|| self.step(now.opened(Rc::clone(&now.record), place))),
            Action::AddPlace(id) => {
                let mut record = now.record.as_ref().clone();
                let place = record.add_place(id.text()).ok()?;
                Some(self.step(Content { is_fresh: false, ..now.opened(Rc::new(record), place) }))
            }
            Action::Fill(sheet) => now.given(sheet, now.offers(sheet)).map(|content| self.step(content)),
            Action::Hand(sheet, field, text, by) => {
                let held = Rc::new(Held::One(Typed::new(field, text, None)));
                let offer = Offer { field, held, given: Given::Sheet(by) };
                now.given(sheet, vec![offer]).map(|content| self.step(content))
            }
            Action::Keep(sheet, id, at) => now.keeping(sheet, &id, at).map(|content| self.step(content)),
            Action::StartFrom(kept) => now.starting_from(&kept).map(|content| self.step(content)),
            Action::Merge(record) => {
                Some(self.step(Content { is_fresh: false, ..now.opened(record, now.place) }))
            }
            Action::AddEvents(events) => now.adding(&events).map(|content| self.step(content)),
            // no step, and whatever is being typed goes on
            Action::Clock(at) => {
                (now.at != Some(at)).then(|| State { now: Rc::new(now.as_of(Some(at))), ..self.clone() })
            }
            Action::Clear(sheet) if is_plan(sheet) => {
                let blank = now.opened(Rc::new(crate::state::record::blank()), 0);
                Some(self.step(Content { is_fresh: false, ..blank }))
            }
            Action::Clear(sheet) => now.emptied(sheet).map(|content| self.step(content)),
            Action::Undo => {
                let mut past = Rc::clone(&self.past);
                let before = Rc::make_mut(&mut past).pop()?;
                let mut future = Rc::clone(&self.future);
                Rc::make_mut(&mut future).push(Rc::clone(now));
                Some(State { now: self.at_this_moment(before), past, future, typing: None, ..*self })
            }
            Action::Redo => {
                let mut future = Rc::clone(&self.future);
                let after = Rc::make_mut(&mut future).pop()?;
                let mut past = Rc::clone(&self.past);
                Rc::make_mut(&mut past).push(Rc::clone(now));
                Some(State { now: self.at_this_moment(after), past, future, typing: None, ..*self })
            }
        }
    }

    /// Another window saved the record that is shown here: its part stays, whichever step is undone here.
    fn with_what_another_did(&self, loaded: Content) -> State {
        let before = &self.now;
        let with_it = |content: &Rc<Content>| {
            let merged = match content.id == before.id {
                true => content.record.merge(&loaded.record, Some(&before.record)).ok(),
                false => None,
            };
            match merged {
                Some(merged) => {
                    let place = content.place.min(merged.record.places().len().saturating_sub(1));
                    Rc::new(content.with(Rc::new(merged.record), place))
                }
                None => Rc::clone(content),
            }
        };
        State {
            past: Rc::new(self.past.iter().map(with_it).collect()),
            future: Rc::new(self.future.iter().map(with_it).collect()),
            now: Rc::new(loaded),
            typing: None,
            ..*self
        }
    }

    /// The name of a record in the store, given to it in every step that can be undone or done again.
    fn everywhere(&self, is_it: impl Fn(&Content) -> bool, id: &Id) -> State {
        let renamed = |content: &Rc<Content>| match is_it(content) {
            true => Rc::new(Content { id: Some(id.clone()), ..content.as_ref().clone() }.identified()),
            false => Rc::clone(content),
        };
        State {
            now: renamed(&self.now),
            past: Rc::new(self.past.iter().map(renamed).collect()),
            future: Rc::new(self.future.iter().map(renamed).collect()),
            ..self.clone()
        }
    }

    fn in_field(&self, sheet: &'static Declaration, field: &'static Field, change: Change) -> Option<State> {
        let filling = self.now.filling(sheet);
        let mut left = Rc::clone(&self.now.left);
        match change {
            Change::Enter(id) if !filling.left.contains(&id) => return None,
            Change::Leave(id) if filling.left.contains(&id) => return None,
            Change::Enter(ref id) | Change::Leave(ref id) => {
                let of_sheet = Rc::make_mut(Rc::make_mut(&mut left).entry(sheet.id).or_default());
                match change {
                    Change::Enter(_) => of_sheet.remove(id),
                    _ => of_sheet.insert(id.clone()),
                };
                let content = Content { left, ..self.now.as_ref().clone() };
                return Some(State { now: Rc::new(content), typing: None, ..self.clone() });
            }
            // nobody is typing: what is wrong in the rows is said at once
            Change::Rows(_) => {
                let of_sheet = Rc::make_mut(&mut left).entry(sheet.id).or_default();
                Rc::make_mut(of_sheet).insert(field.id.to_owned());
            }
            _ => {}
        }
        let typing = change.typed_in(sheet, field);
        let standing = filling.entries.get(field.id).map(|held| held.as_ref().clone());
        let is_text = matches!(change, Change::Text(_));
        let mut content = self.now.holding(sheet, field, after(field, standing, change, self.units))?;
        if is_text {
            content = content.with_its_water(sheet, field);
        }
        let content = Content { left, ..content };
        if typing.is_some() && typing == self.typing {
            return Some(State { now: Rc::new(content), future: Rc::default(), ..self.clone() });
        }
        Some(State { typing, ..self.step(content) })
    }

    /// What was undone or is done again, as it is now: the clock is not set back.
    fn at_this_moment(&self, content: Rc<Content>) -> Rc<Content> {
        match content.at == self.now.at {
            true => content,
            false => Rc::new(content.as_of(self.now.at)),
        }
    }

    /// The content after a step that can be undone. Steps share all that did not change.
    fn step(&self, content: Content) -> State {
        let content = content.identified();
        let mut past = Rc::clone(&self.past);
        let steps = Rc::make_mut(&mut past);
        steps.push(Rc::clone(&self.now));
        if steps.len() > STEPS {
            steps.remove(0);
        }
        State { now: Rc::new(content), past, future: Rc::default(), typing: None, ..*self }
    }

    /// Where something stands, the unit stays; empty fields offer the new one.
    fn in_units(&self, units: UnitSet) -> State {
        let mut record = self.now.record.as_ref().clone();
        record.free_units();
        State { units, now: Rc::new(self.now.with(Rc::new(record), self.now.place)), ..self.clone() }
    }
}

impl Filling {
    /// Whether nothing stands in any field.
    pub fn is_empty(&self) -> bool {
        self.entries.values().all(|held| held.is_empty())
    }

    /// Whether nothing stands in this field.
    pub fn is_empty_at(&self, field: &str) -> bool {
        self.entries.get(field).is_none_or(|held| held.is_empty())
    }
}

/// What stands in a field after a change.
fn after(field: &'static Field, standing: Option<Held>, change: Change, set: UnitSet) -> Held {
    match (field.shape, standing) {
        (Shape::Table(columns), Some(Held::Rows(rows))) => Held::Rows(rows_after(rows, columns, change, set)),
        (Shape::Table(columns), _) => Held::Rows(rows_after(Rows::default(), columns, change, set)),
        (_, Some(Held::One(typed))) => Held::One(typed_after(typed, field, change, set)),
        _ => Held::One(typed_after(Typed::default(), field, change, set)),
    }
}

fn typed_after(typed: Typed, field: &'static Field, change: Change, set: UnitSet) -> Typed {
    match change {
        // The unit that was shown when the first digit was typed is the one that was meant.
        Change::Text(text) => {
            let unit = typed.unit.or_else(|| offered(field, set));
            typed.with_text(field, text, unit)
        }
        Change::Unit(unit) => typed.with_unit(field, unit),
        _ => typed,
    }
}

fn rows_after(mut rows: Rows, columns: &'static [Field], change: Change, set: UnitSet) -> Rows {
    match change {
        Change::Cell(row, column, text) => {
            if let Some(field) = columns.get(column) {
                let unit = rows.unit(column).or_else(|| offered(field, set));
                rows.set_unit(column, unit);
                rows.set(columns, (row, column), text);
            }
        }
        Change::ColumnUnit(column, unit) => rows.choose_unit(columns, column, unit),
        Change::AddRow => {
            // Where nothing was typed, one empty row is on the screen already.
            if rows.rows.is_empty() {
                rows.rows.push(Rc::default());
            }
            rows.rows.push(Rc::default());
        }
        Change::EachRow => {
            if let Some(Field { shape: Shape::Choice(named), .. }) = columns.first() {
                rows.rows.clear();
                for (row, one) in named.iter().enumerate() {
                    rows.set(columns, (row, 0), one.id.to_owned());
                }
            }
        }
        Change::Rows(read) => {
            rows.rows.clear();
            for (column, field) in columns.iter().enumerate() {
                let named = read.units.get(column).copied().flatten();
                rows.set_unit(column, named.or_else(|| offered(field, set)));
            }
            for (row, cells) in read.rows.iter().enumerate() {
                for (column, text) in cells.iter().enumerate() {
                    rows.set(columns, (row, column), text.clone());
                }
            }
        }
        Change::RemoveRow(row) if row < rows.rows.len() => {
            rows.rows.remove(row);
        }
        _ => {}
    }
    rows
}
