//! What stands in the fields of one part of a record: of the RO, a place, a sheet, an event. Each part lies behind a shared
//! reference, so that a copy of a record costs nothing and a key press touches its own part alone.

use super::Typed;
use crate::engine::quantity::Unit;
use crate::engine::sheet::{Field, Shape};
use crate::program::catalogue;
use serde_json::{Map, Value as Json};
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::LazyLock;

/// What stands in one field.
#[derive(Debug, Clone, PartialEq)]
pub enum Held {
    /// Anything but a table.
    One(Typed),
    /// A table.
    Rows(Rows),
}

/// What stands in the fields of a part, by their ids.
pub type Entries = BTreeMap<&'static str, Rc<Held>>;

/// The fields of a part, and the members that this version does not know.
#[derive(Debug, Clone, Default)]
pub struct Fields {
    pub(super) entries: Rc<Entries>,
    pub(super) others: Rc<Map<String, Json>>,
}

/// The rows of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rows {
    /// The unit over each column, from the moment something stands in it.
    pub units: Vec<Option<&'static Unit>>,
    /// Row by row. A row may be shorter than the table is wide.
    pub rows: Vec<Rc<Row>>,
}

/// One row of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Row {
    /// In the order of the columns.
    pub cells: Vec<Typed>,
    others: Map<String, Json>,
}

/// The field that is called so in any sheet; the plan's, where it has one.
pub fn field(id: &str) -> Option<&'static Field> {
    static FIELDS: LazyLock<BTreeMap<&'static str, &'static Field>> = LazyLock::new(|| {
        let plan = catalogue::find("plan").map(|entry| entry.declaration);
        let sheets = plan.into_iter().chain(catalogue::SHEETS.iter().map(|entry| entry.declaration));
        let mut fields = BTreeMap::new();
        for field in sheets.flat_map(|sheet| sheet.inputs) {
            fields.entry(field.id).or_insert(field);
        }
        fields
    });
    FIELDS.get(id).copied()
}

impl PartialEq for Fields {
    fn eq(&self, other: &Self) -> bool {
        self.is(other) || (self.entries == other.entries && self.others == other.others)
    }
}

impl Fields {
    /// Whether they are a copy that nobody changed.
    pub fn is(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.entries, &other.entries) && Rc::ptr_eq(&self.others, &other.others)
    }

    /// What stands in the fields, by their ids.
    pub fn entries(&self) -> &Rc<Entries> {
        &self.entries
    }

    /// What stands in one field.
    pub fn get(&self, id: &str) -> Option<&Rc<Held>> {
        self.entries.get(id)
    }

    /// What was typed into a field that holds words: a name, a choice.
    pub fn word(&self, id: &str) -> Option<&str> {
        match self.get(id)?.as_ref() {
            Held::One(typed) => Some(typed.text.trim()).filter(|text| !text.is_empty()),
            Held::Rows(_) => None,
        }
    }

    /// A member that this version does not know.
    pub fn other(&self, member: &str) -> Option<&Json> {
        self.others.get(member)
    }

    /// Whether something stands in a field.
    pub fn has(&self, id: &str) -> bool {
        self.get(id).is_some_and(|held| !held.is_empty())
    }

    /// Whether nothing stands in any of them.
    pub fn is_empty(&self) -> bool {
        self.others.is_empty() && self.entries.values().all(|held| held.is_empty())
    }

    /// Something else stands in a field from now on.
    pub fn set(&mut self, field: &'static Field, held: Held) {
        Rc::make_mut(&mut self.entries).insert(field.id, Rc::new(held));
    }

    /// Nothing stands in a field from now on.
    pub fn clear(&mut self, id: &str) {
        if self.entries.contains_key(id) {
            Rc::make_mut(&mut self.entries).remove(id);
        }
    }

    /// Whether a unit stands beside something empty.
    pub(super) fn has_idle_units(&self) -> bool {
        self.entries.values().any(|held| held.without_idle_units().is_some())
    }

    pub(super) fn free_units(&mut self) {
        let freed: Vec<_> =
            self.entries.iter().filter_map(|(id, held)| Some((*id, held.without_idle_units()?))).collect();
        for (id, held) in freed {
            Rc::make_mut(&mut self.entries).insert(id, Rc::new(held));
        }
    }

    /// From the members of a file; `find` knows the fields that this part may have.
    pub(super) fn open(
        members: impl IntoIterator<Item = (String, Json)>,
        find: impl Fn(&str) -> Option<&'static Field>,
    ) -> Self {
        let (mut entries, mut others) = (Entries::new(), Map::new());
        for (id, member) in members {
            match find(&id) {
                Some(_) if member.is_null() => {}
                Some(field) => {
                    entries.insert(field.id, Rc::new(Held::of_json(field, &member)));
                }
                None => {
                    others.insert(id, member);
                }
            }
        }
        Self { entries: Rc::new(entries), others: Rc::new(others) }
    }

    /// The same once more is known of which fields this part may have; none where that changes nothing.
    pub(super) fn reread(&self, find: impl Fn(&str) -> Option<&'static Field>) -> Option<Self> {
        self.others.keys().any(|id| find(id).is_some()).then(|| {
            let mut read = Self::open(self.others.as_ref().clone(), find);
            for (id, held) in self.entries.iter() {
                Rc::make_mut(&mut read.entries).insert(id, Rc::clone(held));
            }
            read
        })
    }

    /// As they stand in a file. Of some an empty text is kept too: that of a correction takes the field out.
    pub(super) fn json(
        &self,
        find: impl Fn(&str) -> Option<&'static Field>,
        empty: impl Fn(&str) -> bool,
    ) -> Map<String, Json> {
        let kept = self.entries.iter().filter(|(id, held)| !held.is_empty() || empty(id));
        let kept = kept.filter_map(|(id, held)| Some(((*id).to_owned(), held.json(find(id)?))));
        kept.chain(self.others.iter().map(|(id, member)| (id.clone(), member.clone()))).collect()
    }

    /// These with what another part has in their place.
    pub(super) fn under(&self, other: &Fields) -> Fields {
        let mut all = self.clone();
        let entries = Rc::make_mut(&mut all.entries);
        for (id, held) in other.entries.iter() {
            if held.is_empty() {
                entries.remove(id);
            } else {
                entries.insert(id, Rc::clone(held));
            }
        }
        all
    }
}

impl Held {
    /// From a file or a request.
    pub fn of_json(field: &'static Field, member: &Json) -> Self {
        match (field.shape, member) {
            (Shape::Table(columns), Json::Array(rows)) if rows.iter().all(Json::is_object) => {
                Self::Rows(Rows::open(columns, rows))
            }
            _ => Self::One(Typed::of_json(field, member)),
        }
    }

    /// As it is kept in a file.
    pub fn json(&self, field: &'static Field) -> Json {
        match (self, field.shape) {
            (Self::One(typed), _) => typed.json(field),
            (Self::Rows(rows), Shape::Table(columns)) => rows.json(columns),
            (Self::Rows(_), _) => Json::Null,
        }
    }

    /// The same without a unit beside what is empty, where there is one.
    fn without_idle_units(&self) -> Option<Held> {
        match self {
            Self::One(typed) if typed.is_empty() && typed.unit.is_some() => Some(Self::One(Typed::default())),
            Self::One(_) => None,
            Self::Rows(rows) => {
                let idle = |column: usize| rows.unit(column).is_some() && rows.is_empty_column(column);
                (0..rows.units.len()).any(idle).then(|| {
                    let mut rows = rows.clone();
                    for column in 0..rows.units.len() {
                        if rows.is_empty_column(column) {
                            rows.units[column] = None;
                        }
                    }
                    Self::Rows(rows)
                })
            }
        }
    }

    /// Whether nothing stands in it.
    pub fn is_empty(&self) -> bool {
        match self {
            Self::One(typed) => typed.is_empty(),
            Self::Rows(rows) => rows.counted() == 0,
        }
    }
}

impl Rows {
    /// A column has the unit of its first cell; a cell in another unit names its own.
    fn open(columns: &'static [Field], members: &[Json]) -> Self {
        let row = |member: &Json| {
            let cell = |column: &'static Field| {
                member.get(column.id).map_or_else(Typed::default, |cell| Typed::of_json(column, cell))
            };
            let known = |id: &str| columns.iter().any(|column| column.id == id);
            let others = member.as_object().into_iter().flatten().filter(|(id, _)| !known(id));
            let others = others.map(|(id, member)| (id.clone(), member.clone())).collect();
            Row { cells: columns.iter().map(cell).collect(), others }
        };
        let mut rows: Vec<Row> = members.iter().map(row).collect();
        let units: Vec<_> =
            (0..columns.len()).map(|index| rows.iter().find_map(|row| row.cells[index].unit)).collect();
        for row in &mut rows {
            for ((cell, column), unit) in row.cells.iter_mut().zip(columns).zip(&units) {
                if cell.unit.is_some() && cell.unit != *unit {
                    cell.beside_another(column);
                }
            }
        }
        Self { units, rows: rows.into_iter().map(Rc::new).collect() }
    }

    fn json(&self, columns: &'static [Field]) -> Json {
        let row = |row: &Rc<Row>| {
            let cells = row.cells.iter().zip(columns).filter(|(cell, _)| !cell.is_empty());
            let cells = cells.map(|(cell, column)| (column.id.to_owned(), cell.json(column)));
            Json::Object(cells.chain(row.others.clone()).collect())
        };
        self.rows[..self.counted()].iter().map(row).collect()
    }

    /// What stands in a cell.
    pub fn cell(&self, row: usize, column: usize) -> Option<&Typed> {
        self.rows.get(row)?.cells.get(column)
    }

    /// The text of a cell.
    pub fn text(&self, row: usize, column: usize) -> &str {
        self.cell(row, column).map_or("", Typed::shown)
    }

    /// The unit chosen over a column.
    pub fn unit(&self, column: usize) -> Option<&'static Unit> {
        self.units.get(column).copied().flatten()
    }

    /// Whether nothing stands in a column.
    pub fn is_empty_column(&self, column: usize) -> bool {
        (0..self.rows.len()).all(|row| self.cell(row, column).is_none_or(Typed::is_empty))
    }

    /// The rows that count: all but empty ones at the end.
    pub fn counted(&self) -> usize {
        let filled = |row: &Rc<Row>| !row.others.is_empty() || row.cells.iter().any(|cell| !cell.is_empty());
        self.rows.iter().rposition(filled).map_or(0, |last| last + 1)
    }

    /// Something is typed into a cell, in the unit over its column.
    pub fn set(&mut self, columns: &'static [Field], (row, column): (usize, usize), text: String) {
        let Some(field) = columns.get(column) else { return };
        while self.rows.len() <= row {
            self.rows.push(Rc::default());
        }
        let unit = self.unit(column);
        let cells = &mut Rc::make_mut(&mut self.rows[row]).cells;
        if cells.len() <= column {
            cells.resize(column + 1, Typed::default());
        }
        let before = std::mem::take(&mut cells[column]);
        cells[column] = before.with_text(field, text, unit);
    }

    /// A unit stands over a column from now on.
    pub fn set_unit(&mut self, column: usize, unit: Option<&'static Unit>) {
        if self.units.len() <= column {
            self.units.resize(column + 1, None);
        }
        self.units[column] = unit;
    }

    /// A unit is chosen over a column: the same digits in it; a cell that names its own keeps that.
    pub fn choose_unit(&mut self, columns: &'static [Field], column: usize, unit: &'static Unit) {
        self.set_unit(column, Some(unit));
        for row in 0..self.rows.len() {
            if self.cell(row, column).is_some_and(|cell| !cell.is_empty()) {
                let text = self.text(row, column).to_owned();
                self.set(columns, (row, column), text);
            }
        }
    }
}
