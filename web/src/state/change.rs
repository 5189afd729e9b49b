//! What can happen, and what follows from it: one pure function.

use super::content::is_plan;
use super::entry::offered;
use super::{Content, Entry, Filling, HELD, Rows, STEPS, State, Typed};
use crate::store::Id;
use calc::documents::csv::Read;
use calc::documents::record::Record;
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
    /// A place is added to the record, and shown.
    AddPlace,
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
                let is_fresh = record.is_invented() || record.as_ref() == &crate::record::blank();
                let size = record.text().len();
                Some(self.step(Content { id, is_fresh, size, ..now.showing(record, 0) }))
            }
            Action::Load(record, id) => {
                let loaded = now.loaded(record, id);
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
            Action::Place(place) => (place != now.place && place < now.record.places())
                .then(|| self.step(now.showing(Rc::clone(&now.record), place))),
            Action::AddPlace => {
                let mut record = now.record.as_ref().clone();
                let place = record.add_place("").ok()?;
                Some(self.step(Content { is_fresh: false, ..now.showing(Rc::new(record), place) }))
            }
            Action::Clear(sheet) if is_plan(sheet) => {
                let blank = now.showing(Rc::new(crate::record::blank()), 0);
                Some(self.step(Content { is_fresh: false, ..blank }))
            }
            Action::Clear(sheet) => Some(self.step(now.with(sheet, Filling::default()))),
            Action::Undo => {
                let mut past = Rc::clone(&self.past);
                let before = Rc::make_mut(&mut past).pop()?;
                let mut future = Rc::clone(&self.future);
                Rc::make_mut(&mut future).push(Rc::clone(now));
                Some(State { now: before, past, future, typing: None, ..*self })
            }
            Action::Redo => {
                let mut future = Rc::clone(&self.future);
                let after = Rc::make_mut(&mut future).pop()?;
                let mut past = Rc::clone(&self.past);
                Rc::make_mut(&mut past).push(Rc::clone(now));
                Some(State { now: after, past, future, typing: None, ..*self })
            }
        }
    }

    /// The name of a record in the store, given to it in every step that can be undone or done again.
    fn everywhere(&self, is_it: impl Fn(&Content) -> bool, id: &Id) -> State {
        let renamed = |content: &Rc<Content>| match is_it(content) {
            true => Rc::new(Content { id: Some(id.clone()), ..content.as_ref().clone() }),
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
        let filling = self.now.filling(sheet.id).after(field, change.clone(), self.units)?;
        let entry = filling.entries.get(field.id).cloned();
        let content = self.now.with(sheet, filling);
        if matches!(change, Change::Enter(_) | Change::Leave(_)) {
            return Some(State { now: Rc::new(content), typing: None, ..self.clone() });
        }
        let content = match entry {
            Some(entry) if is_plan(sheet) => {
                content.keeping(field, &entry, &change).with_its_water(sheet, field, &change)
            }
            _ => content,
        };
        let typing = change.typed_in(sheet, field);
        if typing.is_some() && typing == self.typing {
            return Some(State { now: Rc::new(content), future: Rc::default(), ..self.clone() });
        }
        Some(State { typing, ..self.step(content) })
    }

    /// The content after a step that can be undone.
    fn step(&self, content: Content) -> State {
        let mut past = Rc::clone(&self.past);
        let steps = Rc::make_mut(&mut past);
        steps.push(Rc::clone(&self.now));
        let mut held: usize = steps.iter().map(|step| step.size).sum();
        while steps.len() > STEPS || (held > HELD && steps.len() > 1) {
            held -= steps.remove(0).size;
        }
        State { now: Rc::new(content), past, future: Rc::default(), typing: None, ..*self }
    }

    /// Where something stands, the unit stays; empty fields offer the new one.
    fn in_units(&self, units: UnitSet) -> State {
        let sheets = self.now.sheets.iter().map(|(id, filling)| (*id, filling.free_units())).collect();
        let now = Rc::new(Content { sheets: Rc::new(sheets), ..self.now.as_ref().clone() });
        State { units, now, ..self.clone() }
    }
}

impl Filling {
    /// Whether nothing stands in any field.
    pub fn is_empty(&self) -> bool {
        self.entries.keys().all(|field| self.is_empty_at(field))
    }

    /// Whether nothing stands in this field.
    pub fn is_empty_at(&self, field: &str) -> bool {
        self.entries.get(field).is_none_or(|entry| match entry.as_ref() {
            Entry::One(typed) => typed.is_empty(),
            Entry::Rows(rows) => rows.counted() == 0,
        })
    }

    fn after(self, field: &'static Field, change: Change, set: UnitSet) -> Option<Filling> {
        match change {
            Change::Enter(id) => self.left.contains(&id).then(|| self.mark(|left| left.remove(&id))),
            Change::Leave(id) => (!self.left.contains(&id)).then(|| self.mark(|left| left.insert(id))),
            change => {
                let old = self.entries.get(field.id).map(|entry| entry.as_ref().clone());
                let is_whole = matches!(change, Change::Rows(_));
                let entry = match (field.shape, old) {
                    (Shape::Table(columns), old) => {
                        let rows = match old {
                            Some(Entry::Rows(rows)) => rows,
                            _ => Rows::default(),
                        };
                        Entry::Rows(rows.after(columns, change, set))
                    }
                    (_, Some(Entry::One(typed))) => Entry::One(typed.after(field, change, set)),
                    _ => Entry::One(Typed::default().after(field, change, set)),
                };
                let (mut entries, mut left) = (self.entries, self.left);
                Rc::make_mut(&mut entries).insert(field.id, Rc::new(entry));
                if is_whole {
                    // nobody is typing: what is wrong in them is said at once
                    Rc::make_mut(&mut left).insert(field.id.to_owned());
                }
                Some(Filling { entries, left })
            }
        }
    }

    fn mark(self, mark: impl FnOnce(&mut std::collections::BTreeSet<String>) -> bool) -> Filling {
        let mut left = self.left;
        mark(Rc::make_mut(&mut left));
        Filling { left, ..self }
    }

    fn free_units(&self) -> Filling {
        let free = |entry: &Rc<Entry>| match entry.as_ref() {
            Entry::One(typed) if typed.is_empty() => Rc::new(Entry::One(Typed::default())),
            Entry::Rows(rows) => {
                let free =
                    |(column, unit): (usize, &Option<_>)| unit.filter(|_| !rows.is_empty_column(column));
                let units = rows.units.iter().enumerate().map(free).collect();
                Rc::new(Entry::Rows(Rows { units, cells: rows.cells.clone() }))
            }
            Entry::One(_) => Rc::clone(entry),
        };
        let entries = self.entries.iter().map(|(id, entry)| (*id, free(entry))).collect();
        Filling { entries: Rc::new(entries), left: Rc::clone(&self.left) }
    }
}

impl Typed {
    fn after(self, field: &'static Field, change: Change, set: UnitSet) -> Typed {
        match change {
            // The unit that was shown when the first digit was typed is the one that was meant.
            Change::Text(text) => {
                Typed { text, unit: self.unit.or_else(|| offered(field, set)), insisted: false }
            }
            Change::Unit(unit) => {
                let insisted = self.own_unit(field).is_some();
                Typed { unit: Some(unit), insisted, ..self }
            }
            _ => self,
        }
    }
}

impl Rows {
    fn after(mut self, columns: &'static [Field], change: Change, set: UnitSet) -> Rows {
        match change {
            Change::Cell(row, column, text) => {
                if let Some(field) = columns.get(column) {
                    let unit = self.unit(column).or_else(|| offered(field, set));
                    self.set_unit(column, unit);
                    self.set(row, column, text);
                }
            }
            Change::ColumnUnit(column, unit) => self.set_unit(column, Some(unit)),
            Change::AddRow => {
                // Where nothing was typed, one empty row is on the screen already.
                if self.cells.is_empty() {
                    self.cells.push(Rc::default());
                }
                self.cells.push(Rc::default());
            }
            Change::EachRow => {
                if let Some(Field { shape: Shape::Choice(named), .. }) = columns.first() {
                    self.cells = named.iter().map(|one| Rc::new(vec![one.id.to_owned()])).collect();
                }
            }
            Change::Rows(read) => {
                for (column, field) in columns.iter().enumerate() {
                    let named = read.units.get(column).copied().flatten();
                    self.set_unit(column, named.or_else(|| offered(field, set)));
                }
                self.cells = read.rows.iter().map(|row| Rc::new(row.clone())).collect();
            }
            Change::RemoveRow(row) if row < self.cells.len() => {
                self.cells.remove(row);
            }
            _ => {}
        }
        self
    }
}
