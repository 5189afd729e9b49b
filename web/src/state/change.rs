//! What can happen, and what follows from it: one pure function.

use super::entry::offered;
use super::{Before, Entry, Filling, Opened, Rows, Sheets, State, Typed};
use calc::quantity::{Unit, UnitSet};
use calc::sheet::{Declaration, Field, Shape};
use std::rc::Rc;

/// What can happen.
#[derive(Debug, Clone)]
pub enum Action {
    /// In one field of a sheet.
    Field(&'static Declaration, &'static Field, Change),
    /// The page's units were chosen.
    Units(UnitSet),
    /// A record fills a sheet.
    Open(&'static Declaration, Filling, Opened),
    /// A sheet is emptied.
    Clear(&'static Declaration),
    /// What a record or an emptying replaced comes back.
    PutBack,
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
    /// A row goes.
    RemoveRow(usize),
    /// The person went into the field or cell of this id, and it shows no error: it may be mended in peace.
    Enter(String),
    /// The person left the field or cell of this id: what is wrong in it is said from now on.
    Leave(String),
}

impl State {
    /// What follows; `None` where nothing changes.
    pub fn after(&self, action: Action) -> Option<State> {
        match action {
            Action::Field(sheet, field, change) => {
                let filling = self.filling(sheet.id).after(field, change, self.units)?;
                Some(State { sheets: self.with(sheet, filling), ..self.clone() })
            }
            Action::Units(units) => (units != self.units).then(|| self.in_units(units)),
            Action::Open(sheet, filling, opened) => Some(State {
                sheets: self.with(sheet, filling),
                record: Some(opened),
                before: self.remembered(sheet),
                ..*self
            }),
            Action::Clear(sheet) => Some(State {
                sheets: self.with(sheet, Filling::default()),
                record: self.record.clone().filter(|_| !is_plan(sheet)),
                before: self.remembered(sheet),
                ..*self
            }),
            Action::PutBack => {
                let Before { sheets, record } = self.before.clone()?;
                Some(State { sheets, record, before: None, ..*self })
            }
        }
    }

    fn with(&self, sheet: &'static Declaration, filling: Filling) -> Rc<Sheets> {
        let mut sheets = Rc::clone(&self.sheets);
        Rc::make_mut(&mut sheets).insert(sheet.id, filling);
        sheets
    }

    /// What can be put back; nothing where nothing stood.
    fn remembered(&self, sheet: &'static Declaration) -> Option<Before> {
        let stood = self.sheets.get(sheet.id).is_some_and(|filling| !filling.is_empty());
        stood.then(|| Before { sheets: Rc::clone(&self.sheets), record: self.record.clone() })
    }

    /// Where something stands, the unit stays; empty fields offer the new one.
    fn in_units(&self, units: UnitSet) -> State {
        let sheets = self.sheets.iter().map(|(id, filling)| (*id, filling.free_units())).collect();
        State { units, sheets: Rc::new(sheets), ..self.clone() }
    }
}

fn is_plan(sheet: &Declaration) -> bool {
    sheet.stage == calc::sheet::Stage::Plan
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
                let mut entries = self.entries;
                Rc::make_mut(&mut entries).insert(field.id, Rc::new(entry));
                Some(Filling { entries, left: self.left })
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
            Change::RemoveRow(row) if row < self.cells.len() => {
                self.cells.remove(row);
            }
            _ => {}
        }
        self
    }
}
