//! Rows as events, and what is to be known of each row that is none.

use super::super::Remark;
use super::super::cells::{Clock, choice, plain, text_of};
use super::super::head::Head;
use super::super::records::{self, Record as Line};
use super::columns::{self, Column, Columns};
use super::write::{MORE, Places, lines, text_of as text_in, typed};
use crate::documents::reading::quoted;
use crate::documents::record::kinds::{self, CORRECTION, Kind, Names};
use crate::documents::record::{Event, Held, Id, Record, Rows, Typed, When};
use crate::engine::calendar::Moment;
use crate::engine::quantity::Unit;
use crate::engine::sheet::{Field, Sentence, Shape, Slot, why_impossible, why_unusual};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// The longest text that is read, in bytes: ten years of daily readings have a tenth of it.
pub const LONGEST: usize = 10_000_000;
/// The most characters of an id, a name, initials.
const LONGEST_WORD: usize = 200;

/// What rows would add to a record. Nothing is added before it is taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Import {
    /// Of which kind the rows are.
    pub kind: &'static Kind,
    /// The events that are new.
    pub events: Vec<Event>,
    /// How many rows are in the record already, with the same values.
    pub same: usize,
    /// The rows that are left out, each with the reason.
    pub left_out: Vec<Remark>,
    /// Rows that would be taken and are worth a second look.
    pub remarks: Vec<Remark>,
    /// Heads of the text that are no column of this kind: what stands under them is not taken.
    pub ignored: Vec<String>,
    /// The columns that the text does not have.
    pub lacking: Vec<&'static str>,
}

/// Reads rows of one kind: the one that they name, or `kind` where they name none. `at` is the moment of typing of rows that
/// have none of their own; the ids of events that have none begin with `drawn`, which has to be drawn anew for each text.
///
/// # Errors
/// One sentence, where nothing of the text can be taken.
///
/// # Example
/// ```
/// use calc::{documents::{csv::events, record::Record}, engine::calendar::Moment};
/// let now = Moment::read("2026-11-13T09:00+01:00").unwrap();
/// let text = "Date and time;Product flow (L/min);Kind of event\n2026-11-12 07:00+01:00;0,86;reading\n";
/// let import = events::read(&Record::new(), None, text, now, "drawn").unwrap();
/// assert_eq!(import.events.len(), 1);
/// assert_eq!(import.events[0].fields.word("product-flow"), Some("0,86"));
/// ```
pub fn read(
    record: &Record,
    kind: Option<&'static Kind>,
    text: &str,
    at: Moment,
    drawn: &str,
) -> Result<Import, Sentence> {
    if text.len() > LONGEST {
        return Err(Sentence::plain("this text is too long: import it in several parts"));
    }
    let all = records::of(text)?;
    let (Some(first), Some(body)) = (all.first(), all.get(1..).filter(|body| !body.is_empty())) else {
        return Err(Sentence::plain("there are no rows under a line with the names of the columns"));
    };
    let kind = named_kind(first, &body[0]).or(kind).ok_or(Sentence::plain(
        "the rows do not say which kind of event they are: choose the kind, or add the column “Kind of event”",
    ))?;
    let columns = columns::of(kind).ok_or(Sentence::plain("this kind has no columns"))?;
    let head = Head::of(columns.fields, first)?.ok_or_else(no_moment)?;
    let place_of = |wanted: Column| {
        let index = columns.columns.iter().position(|column| *column == wanted)?;
        head.columns.iter().position(|column| *column == Some(index))
    };
    place_of(Column::At).ok_or_else(no_moment)?;
    if head.unit_cell.is_some() {
        return Err(Sentence::plain(
            "a column of units cannot be read here: put each unit in brackets after the name of its column",
        ));
    }
    let lacking = columns.fields.iter().zip(&columns.columns).enumerate().filter(|(index, (_, column))| {
        **column != Column::CorrectedBy && !head.columns.contains(&Some(*index))
    });
    let mut reader = Reader {
        record,
        columns,
        places: Places::of(record),
        known: record.events().map(|event| (&*event.id, event)).collect(),
        unread: record.unread_ids().collect(),
        at,
        drawn,
        import: Import {
            kind,
            events: Vec::new(),
            same: 0,
            left_out: Vec::new(),
            remarks: Vec::new(),
            ignored: head.ignored.clone(),
            lacking: lacking.map(|(_, (field, _))| field.term.name).collect(),
        },
        head,
    };
    let groups = reader.groups(body);
    for group in reader.once(groups) {
        reader.take(group);
    }
    reader.import.left_out.sort_by_key(|remark| remark.line);
    Ok(reader.import)
}

fn no_moment() -> Sentence {
    Sentence::plain("the first line names no column “Date and time”: put the names of the columns there")
}

/// The kind that the first row names.
fn named_kind(head: &Line, first: &Line) -> Option<&'static Kind> {
    let is_kind = |cell: &String| ["kindofevent", "eventkind"].contains(&plain(cell).as_str());
    kind_called(first.cells.get(head.cells.iter().position(is_kind)?)?)
}

fn kind_called(text: &str) -> Option<&'static Kind> {
    let text = text.strip_prefix(MORE).unwrap_or(text).trim();
    kinds::kind(text).or_else(|| kinds::KINDS.iter().copied().find(|kind| kind.name == text))
}

/// The lines of one event: its texts in the order of the columns.
struct Group {
    line: u64,
    rows: Vec<Vec<String>>,
    /// Why it is left out, where a line of it says so by itself.
    broken: Option<Sentence>,
}

struct Reader<'a> {
    record: &'a Record,
    columns: &'static Columns,
    head: Head,
    places: Places<'a>,
    known: BTreeMap<&'a str, &'a Rc<Event>>,
    /// Ids of what lies in the record and is no event that this version knows.
    unread: BTreeSet<&'a str>,
    at: Moment,
    drawn: &'a str,
    import: Import,
}

impl Reader<'_> {
    fn index(&self, wanted: Column) -> Option<usize> {
        self.columns.columns.iter().position(|column| *column == wanted)
    }

    /// Whether the text has a column.
    fn has(&self, index: usize) -> bool {
        self.head.columns.contains(&Some(index))
    }

    /// Lines into events: those that follow with the same id, or with neither id nor moment, are of the event above.
    fn groups(&self, body: &[Line]) -> Vec<Group> {
        let (id, at) = (self.index(Column::Id).unwrap_or(0), self.index(Column::At).unwrap_or(0));
        let mut groups: Vec<Group> = Vec::new();
        for line in body {
            let (row, broken) = self.row(line);
            let goes_on = groups.last().is_some_and(|above| {
                let first = &above.rows[0];
                let is_cut = broken.is_some() && line.cells.len() < self.head.columns.len();
                match (row[id].as_str(), row[at].as_str()) {
                    // of a line that is cut off within its id nobody knows whose it is
                    (own, "") if is_cut => first[id].starts_with(own),
                    ("", "") => true,
                    (own, _) => !own.is_empty() && own == first[id],
                }
            });
            match groups.last_mut().filter(|_| goes_on) {
                Some(above) => {
                    above.rows.push(row);
                    above.broken = above.broken.take().or(broken);
                }
                None => groups.push(Group { line: line.line, rows: vec![row], broken }),
            }
        }
        if let Some(kind) = self.index(Column::Kind) {
            for group in &mut groups {
                if group.broken.is_none() && group.rows.last().is_some_and(|row| row[kind].starts_with(MORE))
                {
                    let why = "more rows of this event should stand below: the text is cut off, or its rows were sorted";
                    group.broken = Some(Sentence::plain(why));
                }
            }
        }
        groups
    }

    /// The texts of a line, and why it cannot be one.
    fn row(&self, line: &Line) -> (Vec<String>, Option<Sentence>) {
        let mut row = vec![String::new(); self.columns.fields.len()];
        for (cell, column) in line.cells.iter().zip(&self.head.columns) {
            if let Some(column) = column {
                row[*column] = cell.trim().to_owned();
            }
        }
        let (found, wanted) = (line.cells.len(), self.head.columns.len());
        let counted = |template| {
            let sentence = Sentence::plain(template);
            Some(sentence.with("found", Slot::Count(found as i64)).with("wanted", Slot::Count(wanted as i64)))
        };
        let broken = match self.index(Column::Kind).filter(|index| self.has(*index)) {
            _ if found > wanted => counted(
                "{found} cells stand under a head of {wanted}; a decimal comma between commas needs quotation marks",
            ),
            _ if found < wanted && line.cells.iter().any(|cell| cell.contains('\n')) => counted(
                "the row is cut off: {found} cells of {wanted}. A quotation mark that is not closed may have taken the lines below into it",
            ),
            _ if found < wanted => counted("the row is cut off: {found} cells of {wanted}"),
            Some(index) if row[index].is_empty() => {
                Some(Sentence::plain("the row does not name its kind of event at its end: it may be cut off"))
            }
            Some(index) if kind_called(&row[index]) != Some(self.import.kind) => Some(
                Sentence::plain("“{typed}” is not “{kind}”: rows of one kind are read at a time")
                    .with("typed", quoted(&row[index]))
                    .with("kind", Slot::Word(self.import.kind.id)),
            ),
            _ => None,
        };
        (row, broken)
    }

    /// Of the events that stand in the text twice under one id one where they are the same, else none.
    fn once(&mut self, groups: Vec<Group>) -> Vec<Group> {
        let id = self.index(Column::Id).unwrap_or(0);
        // without an id it is told by all that it says
        let key = |group: &Group| match group.rows[0][id].as_str() {
            "" => group.rows.concat().join("\u{0}"),
            id => id.to_owned(),
        };
        let mut firsts: BTreeMap<String, (usize, bool)> = BTreeMap::new();
        for (index, group) in groups.iter().enumerate() {
            let first = firsts.entry(key(group)).or_insert((index, true));
            first.1 &= groups[first.0].rows == group.rows && groups[first.0].broken.is_none();
        }
        let mut once = Vec::new();
        for (index, mut group) in groups.into_iter().enumerate() {
            match firsts.get(&key(&group)) {
                Some((first, true)) if *first != index => {
                    let sentence = Sentence::plain("the same row stood there before: it counts once");
                    self.import.remarks.push(Remark { line: group.line, column: "", sentence });
                }
                Some((_, false)) if group.broken.is_none() => {
                    group.broken = Some(
                        Sentence::plain("several rows have the id “{id}” and differ: none of them is taken")
                            .with("id", quoted(&group.rows[0][id])),
                    );
                    once.push(group);
                }
                _ => once.push(group),
            }
        }
        once
    }

    fn leave(&mut self, line: u64, column: &'static str, sentence: Sentence) {
        self.import.left_out.push(Remark { line, column, sentence });
    }

    fn take(&mut self, group: Group) {
        let line = group.line;
        if let Some(why) = group.broken {
            return self.leave(line, "", why);
        }
        let mut event = match self.event(&group) {
            Ok(event) => event,
            Err((column, why)) => return self.leave(line, column, why),
        };
        if event.id.is_empty() {
            let is_it = |known: &&Rc<Event>| {
                known.kind == event.kind && known.when == event.when && self.differs(known, &event).is_none()
            };
            if self.record.events().any(|known| is_it(&known)) {
                self.import.same += 1;
                return;
            }
            event.id = self.free_id(line);
        } else if self.unread.contains(&*event.id) {
            let why =
                Sentence::plain("the record has something else under the id “{id}”: it is left as it is");
            return self.leave(line, "", why.with("id", quoted(&event.id)));
        } else if let Some(known) = self.known.get(&*event.id).copied() {
            match self.differs(known, &event) {
                None => self.import.same += 1,
                Some((column, there, here)) => {
                    let why = Sentence::plain(
                        "“{id}” is in the record with another value: “{here}”, and “{there}” in this row. The record is left as it is; to change it, enter a correction",
                    )
                    .with("id", quoted(&event.id))
                    .with("here", quoted(&here))
                    .with("there", quoted(&there));
                    self.leave(line, column, why);
                }
            }
            return;
        }
        self.look_at(line, &event);
        if event.typed.is_none() {
            event.typed = Some(self.at);
        }
        self.import.events.push(event);
    }

    fn free_id(&self, line: u64) -> Id {
        let mut id = format!("{}-{line}", self.drawn);
        while self.known.contains_key(&*id) || self.unread.contains(&*id) {
            id.push('-');
        }
        id.into()
    }

    /// What is taken and worth a second look.
    fn look_at(&mut self, line: u64, event: &Event) {
        let mut told = Vec::new();
        for field in self.import.kind.fields {
            if let Some(value) = event.value(field.id)
                && let Some(sentence) = why_unusual(field, &value)
            {
                told.push(Remark { line, column: field.term.name, sentence });
            }
        }
        if !event.when.is_by(event.typed.unwrap_or(self.at)) {
            let sentence = Sentence::plain("it is dated after it was entered: look at its date");
            told.push(Remark { line, column: "", sentence });
        }
        if event.kind.of == Names::Event
            && let Some(of) = event.of.as_deref().filter(|of| !self.known.contains_key(of))
        {
            let sentence = Sentence::plain("it refers to “{id}”, which is not in the record");
            told.push(Remark { line, column: "", sentence: sentence.with("id", quoted(of)) });
        }
        self.import.remarks.extend(told);
    }

    /// The event that the lines are.
    fn event(&self, group: &Group) -> Result<Event, (&'static str, Sentence)> {
        let kind = self.import.kind;
        let first = &group.rows[0];
        let text = |wanted: Column| self.index(wanted).map_or("", |index| first[index].as_str());
        let at = text(Column::At);
        let name =
            |wanted: Column| self.index(wanted).map_or("", |index| self.columns.fields[index].term.name);
        let when = moment(at).map_err(|why| (name(Column::At), why))?;
        let word = |wanted: Column| match text_of_word(text(wanted)) {
            word if word.chars().count() > LONGEST_WORD => Err((
                name(wanted),
                Sentence::plain("more than {most} characters").with("most", Slot::Count(LONGEST_WORD as i64)),
            )),
            word => Ok(word),
        };
        let mut event = Event::new(word(Column::Id)?, kind, when, None);
        event.place = self
            .place(word(Column::Place)?, event.id.as_ref(), |known| known.place.clone())
            .map_err(|why| (name(Column::Place), why))?;
        event.of = Some(word(Column::Of)?).filter(|of| !of.is_empty()).map(Id::from);
        event.who = word(Column::Who)?;
        event.note = text_of_word(text(Column::Note)).replace("\r\n", "\n");
        event.typed = match text(Column::Typed) {
            "" => None,
            typed => Some(Moment::read(typed).map_err(|_| (name(Column::Typed), no_offset(typed)))?),
        };
        if kind == &CORRECTION {
            self.correct(&mut event, group)?;
        } else {
            let known = self.known.get(&*event.id).filter(|known| known.kind == kind);
            for (index, column) in self.columns.columns.iter().enumerate() {
                if let Column::Field(field) = *column
                    && !first[index].is_empty()
                {
                    let field = &kind.fields[field];
                    let known = known.and_then(|known| typed(known, field.id));
                    let typed = self.cell(field, &first[index], index, &mut Clock::default(), known)?;
                    event.fields.set(field, Held::One(typed));
                }
            }
            self.tables(&mut event, group)?;
        }
        // below its first line an event has nothing but the rows of its tables
        for row in group.rows.iter().skip(1) {
            for (index, column) in self.columns.columns.iter().enumerate() {
                let own =
                    matches!(column, Column::Cell(..) | Column::Corrected | Column::Instead | Column::Kind);
                if !own && !row[index].is_empty() && row[index] != first[index] {
                    let why = Sentence::plain("further rows of one event say something else here");
                    return Err((self.columns.fields[index].term.name, why));
                }
            }
        }
        Ok(event)
    }

    /// A place of the record, by its name or id; one that an event names already may be unknown.
    fn place(
        &self,
        text: String,
        id: &str,
        known: impl Fn(&Event) -> Option<Id>,
    ) -> Result<Option<Id>, Sentence> {
        if text.is_empty() {
            return Ok(None);
        }
        let own = || self.known.get(id).and_then(|event| known(event)).filter(|place| **place == *text);
        self.places.id(&text).map(Id::from).or_else(own).map(Some).ok_or_else(|| {
            Sentence::plain("the record has no place “{place}”: add it first, or write it as the record does")
                .with("place", quoted(&text))
        })
    }

    /// What a cell says. What the record has already need not be readable.
    fn cell(
        &self,
        field: &'static Field,
        text: &str,
        index: usize,
        clock: &mut Clock,
        known: Option<&Typed>,
    ) -> Result<Typed, (&'static str, Sentence)> {
        let unit = self.head.units[index];
        cell(field, text, unit, clock).or_else(|why| {
            let known = known.filter(|known| text_of_word(text) == text_in(known, field, unit).trim());
            known.cloned().ok_or((self.columns.fields[index].term.name, why))
        })
    }

    fn tables(&self, event: &mut Event, group: &Group) -> Result<(), (&'static str, Sentence)> {
        let known = self.known.get(&*event.id).filter(|known| known.kind == event.kind);
        for (table, field) in event.kind.fields.iter().enumerate() {
            let Shape::Table(columns) = field.shape else { continue };
            let known = known.and_then(|known| known.fields.get(field.id)).map(Rc::as_ref);
            let known = |row, place| match known {
                Some(Held::Rows(rows)) => rows.cell(row, place),
                _ => None,
            };
            let mut rows = Rows::default();
            for (place, column) in columns.iter().enumerate() {
                let Some(index) = self.index(Column::Cell(table, place)) else { continue };
                let mut clock = Clock::default();
                rows.set_unit(place, self.head.units[index]);
                for (row, texts) in
                    group.rows.iter().enumerate().filter(|(_, texts)| !texts[index].is_empty())
                {
                    let typed = self.cell(column, &texts[index], index, &mut clock, known(row, place))?;
                    if rows.unit(place).is_none() {
                        rows.set_unit(place, typed.unit);
                    }
                    rows.set(columns, (row, place), typed.text);
                }
            }
            if rows.counted() > 0 {
                event.fields.set(field, Held::Rows(rows));
            }
        }
        Ok(())
    }

    /// What a correction says besides.
    fn correct(&self, event: &mut Event, group: &Group) -> Result<(), (&'static str, Sentence)> {
        let first = &group.rows[0];
        let index = |wanted: Column| self.index(wanted).unwrap_or(0);
        let name = |wanted: Column| self.columns.fields[index(wanted)].term.name;
        let of = event.of.as_deref().and_then(|of| self.known.get(of)).ok_or_else(|| {
            let why = Sentence::plain(
                "a correction refers to an event of the record, and “{id}” is none: import that one first",
            );
            (name(Column::Of), why.with("id", quoted(event.of.as_deref().unwrap_or_default())))
        })?;
        event.becomes.withdrawn = match first[index(Column::Withdrawn)].to_lowercase().as_str() {
            "" | "no" => false,
            "yes" => true,
            other => {
                let why = Sentence::plain("“{typed}” is neither yes nor no").with("typed", quoted(other));
                return Err((name(Column::Withdrawn), why));
            }
        };
        event.becomes.when = match first[index(Column::BecomesAt)].as_str() {
            "" => None,
            at => Some(moment(at).map_err(|why| (name(Column::BecomesAt), why))?),
        };
        let place = text_of_word(&first[index(Column::BecomesPlace)]);
        event.becomes.place = self
            .place(place, event.id.as_ref(), |known| known.becomes.place.clone())
            .map_err(|why| (name(Column::BecomesPlace), why))?;
        let known = self.known.get(&*event.id).filter(|known| known.kind == event.kind);
        for row in &group.rows {
            let (id, text) = (row[index(Column::Corrected)].as_str(), row[index(Column::Instead)].as_str());
            if id.is_empty() && text.is_empty() {
                continue;
            }
            let wanted = plain(id);
            let field = of
                .kind
                .fields
                .iter()
                .find(|field| [plain(field.id), plain(field.term.name)].contains(&wanted));
            let field = field.ok_or_else(|| {
                let why = Sentence::plain("“{typed}” is no entry of the event that it refers to");
                (name(Column::Corrected), why.with("typed", quoted(id)))
            })?;
            let held = match field.shape {
                Shape::Table(_) if !text.is_empty() => {
                    let json = serde_json::from_str(text).unwrap_or_default();
                    Some(Held::of_json(field, &json))
                        .filter(|held| matches!(held, Held::Rows(_)))
                        .ok_or_else(|| {
                            (
                                name(Column::Instead),
                                Sentence::plain("the rows of a table stand there as the export writes them"),
                            )
                        })?
                }
                // an empty text takes the entry out
                _ if text.is_empty() => Held::One(Typed::default()),
                _ => {
                    let known = known.and_then(|known| typed(known, field.id));
                    Held::One(self.cell(field, text, index(Column::Instead), &mut Clock::default(), known)?)
                }
            };
            event.fields.set(field, held);
        }
        Ok(())
    }

    /// The first column in which an event of the record is another, with what stands there and here. Of a column that the
    /// text does not have nothing is asked.
    fn differs(&self, known: &Event, new: &Event) -> Option<(&'static str, String, String)> {
        let kind = self.import.kind;
        if known.kind != kind {
            return Some(("", kind.id.to_owned(), known.kind.id.to_owned()));
        }
        let withdrawn = BTreeMap::new();
        let written = |event| super::write::Written {
            record: self.record,
            event,
            places: &self.places,
            withdrawn: &withdrawn,
        };
        let (there, here) = (written(new), written(known));
        for (index, column) in self.columns.columns.iter().enumerate().filter(|(index, _)| self.has(*index)) {
            let name = self.columns.fields[index].term.name;
            match *column {
                Column::Id | Column::Kind | Column::CorrectedBy => continue,
                // a row without it would get the moment of this import
                Column::Typed if new.typed.is_none() => continue,
                Column::Field(field) => {
                    let field = &kind.fields[field];
                    if !same(field, typed(new, field.id), typed(known, field.id)) {
                        let unit = self.head.units[index];
                        return Some((name, there.cell(*column, 0, unit), here.cell(*column, 0, unit)));
                    }
                }
                _ => {
                    for row in 0..lines(known).max(lines(new)) {
                        let (there, here) = (there.cell(*column, row, None), here.cell(*column, row, None));
                        if there.trim() != here.trim().replace("\r\n", "\n") {
                            return Some((name, there, here));
                        }
                    }
                }
            }
        }
        None
    }
}

/// Whether the same stands in a field of both: the same value, whatever was typed for it.
fn same(field: &'static Field, new: Option<&Typed>, known: Option<&Typed>) -> bool {
    let empty = |typed: Option<&Typed>| typed.is_none_or(Typed::is_empty);
    match (new, known) {
        (Some(new), Some(known)) => match (new.value(field), known.value(field)) {
            (Ok(new), Ok(known)) => new == known,
            _ => new.shown().trim() == known.shown().trim(),
        },
        (new, known) => empty(new) && empty(known),
    }
}

/// What a cell says, as it would have been typed. What cannot be read or cannot be is refused: an event is not changed later.
fn cell(
    field: &'static Field,
    text: &str,
    unit: Option<&'static Unit>,
    clock: &mut Clock,
) -> Result<Typed, Sentence> {
    let text = match field.shape {
        Shape::Choice(_) => choice(field, text)?.id.to_owned(),
        _ => text_of(field, text, clock)?,
    };
    let typed = Typed::new(field, text, unit.filter(|unit| !unit.symbol.is_empty()));
    match typed.value(field)? {
        Some(value) => why_impossible(field, &value).map_or(Ok(typed), Err),
        None => Ok(typed),
    }
}

fn text_of_word(text: &str) -> String {
    super::super::write::plain_text(text).to_owned()
}

fn moment(text: &str) -> Result<When, Sentence> {
    When::read(text).ok_or_else(|| no_offset(text))
}

fn no_offset(text: &str) -> Sentence {
    let sentence = if text.is_empty() {
        Sentence::plain("the row does not say when it happened")
    } else {
        Sentence::plain(
            "“{typed}” is no moment with its offset from UTC, such as 2026-11-12 07:00+01:00, and no day such as 2026-11-12",
        )
    };
    sentence.with("typed", quoted(text))
}
