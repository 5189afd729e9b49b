//! Which columns the rows of a kind have.

use crate::documents::record::kinds::{CORRECTION, KINDS, Kind, Names};
use crate::engine::sheet::{Field, Shape, Term};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// What stands in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Column {
    Id,
    At,
    Place,
    Of,
    Who,
    /// A field of the kind, by its index.
    Field(usize),
    /// A column of a table among the fields, both by their index.
    Cell(usize, usize),
    /// Of a correction: that the event never was.
    Withdrawn,
    /// Of a correction: when it happened instead.
    BecomesAt,
    /// Of a correction: where it happened instead.
    BecomesPlace,
    /// Of a correction: the field that a line is about.
    Corrected,
    /// Of a correction: what stands there instead.
    Instead,
    Note,
    Typed,
    /// What corrected or withdrew the event: for whoever reads the rows, and not read back.
    CorrectedBy,
    Kind,
}

/// The columns of a kind.
pub(super) struct Columns {
    pub fields: &'static [Field],
    pub columns: Vec<Column>,
}

const COMMON: &[Field] = crate::fields!(Input:
    id            "event-id"      : Option<String> = Term::other("Event id"),
    at            "event-at"      : Option<String> = Term::other("Date and time"),
    place         "event-place"   : Option<String> = Term::other("Place"),
    of            "event-of"      : Option<String> = Term::other("Refers to"),
    who           "event-who"     : Option<String> = Term::other("Who"),
    withdrawn     "withdrawn"     : Option<String> = Term::other("Withdrawn"),
    becomes_at    "becomes-at"    : Option<String> = Term::other("Corrected date and time"),
    becomes_place "becomes-place" : Option<String> = Term::other("Corrected place"),
    corrected     "corrected"     : Option<String> = Term::other("Corrected entry"),
    instead       "instead"       : Option<String> = Term::other("Corrected value"),
    note          "event-note"    : Option<String> = Term::other("Note"),
    typed         "event-typed"   : Option<String> = Term::other("Entered at"),
    corrected_by  "corrected-by"  : Option<String> = Term::other("Corrected by"),
    kind          "event-kind"    : Option<String> = Term::other("Kind of event"),
);

const OF_COMMON: [Column; 14] = [
    Column::Id,
    Column::At,
    Column::Place,
    Column::Of,
    Column::Who,
    Column::Withdrawn,
    Column::BecomesAt,
    Column::BecomesPlace,
    Column::Corrected,
    Column::Instead,
    Column::Note,
    Column::Typed,
    Column::CorrectedBy,
    Column::Kind,
];

/// The columns of a kind, worked out once.
pub(super) fn of(kind: &'static Kind) -> Option<&'static Columns> {
    static COLUMNS: LazyLock<BTreeMap<&'static str, Columns>> =
        LazyLock::new(|| KINDS.iter().map(|kind| (kind.id, columns(kind))).collect());
    COLUMNS.get(kind.id)
}

fn columns(kind: &'static Kind) -> Columns {
    let is_correction = kind == &CORRECTION;
    let is_common = |column: &Column| match column {
        Column::Of => kind.of != Names::Nothing,
        Column::Withdrawn
        | Column::BecomesAt
        | Column::BecomesPlace
        | Column::Corrected
        | Column::Instead => is_correction,
        _ => true,
    };
    let common = OF_COMMON.into_iter().zip(COMMON.iter().copied()).filter(|(column, _)| is_common(column));
    let (before, after): (Vec<_>, Vec<_>) = common.partition(|(column, _)| {
        matches!(column, Column::Id | Column::At | Column::Place | Column::Of | Column::Who)
    });
    let own = kind.fields.iter().enumerate().flat_map(|(index, field)| match field.shape {
        Shape::Table(columns) => {
            let cell = |(cell, column): (usize, &Field)| (Column::Cell(index, cell), of_table(field, column));
            columns.iter().enumerate().map(cell).collect()
        }
        _ => vec![(Column::Field(index), *field)],
    });
    let (columns, fields): (Vec<_>, Vec<_>) = before.into_iter().chain(own).chain(after).unzip();
    Columns { fields: fields.leak(), columns }
}

/// A column of a table, called by both. Made once in the life of the program, like the declarations that it joins.
fn of_table(table: &Field, column: &Field) -> Field {
    let term = Term {
        name: format!("{}: {}", table.term.name, column.term.name).leak(),
        symbol: "",
        ..*column.term
    };
    Field { id: format!("{}/{}", table.id, column.id).leak(), term: Box::leak(Box::new(term)), ..*column }
}
