//! The JSON Lines interface: one request a line in, one answer a line out, in the same order.
//!
//! A request is one of
//! `{"sheet": "carbon-contact-time", "inputs": {"bed-volume": "28.3 L", "flow": "1.5 gal/min"}}`,
//! `{"sheet": "plan", "record": {…}}`, `{"describe": "carbon-contact-time"}` and `{"list": true}`, each perhaps with an
//! `id`, which the answer repeats as it came, and `"units": "us"`; `"mends": true` asks what would mend each check. Of a
//! record, `"place"` chooses one of the places by its name or its number, and `"places": true` asks all of them; else it
//! is the first. `"at"` fills the sheet with what was known as of a moment, which the answer repeats; without it all that the
//! record holds counts, whatever its date. `"inputs"` beside a record say what it does not hold; for `trend` they choose the
//! `series`, which the record then fills. And `{"record": {…}, "now": "2027-03-04T07:00+01:00"}`
//! asks what is true then. Where a member stands twice, the last counts. Places and rows are counted from 1, as a person counts them.

mod answer;
mod describe;
mod inputs;
mod mends;
mod nearest;
mod of_record;
mod range;
mod steps;

pub use answer::value as answer_value;
pub use inputs::{Filled, Unknown, fill};
pub use steps::{name_in_words, step};

use crate::engine::quantity::UnitSet;
use crate::engine::sheet::{Entry, Problem, Sentence, Slot};
use crate::{documents::reading::quoted, program::catalogue};
use serde_json::value::RawValue;
use serde_json::{Map, Value as Json, json};
use std::borrow::Cow;
use std::collections::BTreeMap;

/// An answer, and whether the request was JSON at all.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// One line, without its end.
    pub text: String,
    /// Whether the request could be read as JSON, whatever it asked for.
    pub was_json: bool,
}

/// Answers one request line with one line.
///
/// # Example
/// ```
/// let answer = calc::documents::json::answer(r#"{"id": 1, "sheet": "carbon-contact-time", "inputs": {"bed-volume": "28.3 L", "flow": "1.5 gal/min"}}"#);
/// assert!(answer.contains(r#""contact-time":{"value":4.984046054490402,"unit":"min"}"#));
/// let refused = calc::documents::json::answer(r#"{"id": 2, "sheet": "carbon-contact-time", "inputs": {"flow": 1.5}}"#);
/// assert!(refused.starts_with(r#"{"id":2,"errors":[{"field":"flow","message":"#));
/// ```
pub fn answer(line: &str) -> String {
    answer_line(line).text
}

/// Answers one request line as it came in, and says whether it was JSON; bytes that are no text are none.
pub fn answer_line(line: impl AsRef<[u8]>) -> Line {
    let line = line.as_ref();
    // some programs put a byte order mark in front, which JSON does not know
    let line = line.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(line);
    let parsed = serde_json::from_slice::<Json>(line).or_else(|error| match range::as_text(line) {
        // a number beyond all computing is a fault of the field that holds it, and the line is JSON all the same
        Some(within) => serde_json::from_slice(&within),
        None => Err(error),
    });
    match parsed {
        Ok(request) => {
            let members = answer_members(&request);
            let members = Json::Object(members).to_string();
            // the id as it came: as a number it could be rounded
            Line { text: format!("{{\"id\":{},{}", id_of(line), &members[1..]), was_json: true }
        }
        Err(error) => {
            let sentence = Sentence::plain("this line is no JSON (column {column}): {why}")
                .with("column", Slot::Count(error.column() as i64))
                .with("why", Slot::Text(cause(&error)));
            let errors = Json::Object(refused(&[Refusal::of("", sentence)], UnitSet::Metric)).to_string();
            Line { text: format!("{{\"id\":null,{}", &errors[1..]), was_json: false }
        }
    }
}

/// The text of a request's id; `null` where it has none.
fn id_of(line: &[u8]) -> Cow<'_, str> {
    let members: BTreeMap<Cow<'_, str>, &RawValue> = serde_json::from_slice(line).unwrap_or_default();
    members.get("id").map_or(Cow::Borrowed("null"), |id| Cow::Owned(id.get().replace(['\r', '\n'], " ")))
}

/// What the reader of JSON says, without its own count of lines and columns.
pub(crate) fn cause(error: &serde_json::Error) -> String {
    let text = error.to_string();
    text.rsplit_once(" at line ").map_or(text.as_str(), |(cause, _)| cause).to_owned()
}

/// Answers one request.
pub fn answer_request(request: &Json) -> Json {
    let mut whole = Map::new();
    whole.insert("id".into(), request.get("id").cloned().unwrap_or(Json::Null));
    whole.extend(answer_members(request));
    Json::Object(whole)
}

/// The members of the answer, without the id.
fn answer_members(request: &Json) -> Map<String, Json> {
    let (set, members) = match envelope(request) {
        Ok(read) => read,
        Err(refusal) => return refused(&[refusal], UnitSet::Metric),
    };
    let is_given = |member| members.get(member).is_some_and(|value| !value.is_null());
    let answered = match (members.get("sheet"), members.get("describe"), members.get("list")) {
        (Some(sheet), None, None) => find("sheet", sheet)
            .map_err(|refusal| vec![refusal])
            .and_then(|entry| evaluate(entry, members, set)),
        (None, Some(sheet), None) => find("describe", sheet)
            .map_err(|refusal| vec![refusal])
            .map(|entry| describe::sheet(entry.declaration)),
        (None, None, Some(Json::Bool(true))) => Ok(describe::list()),
        (None, None, None) if is_given("record") && is_given("now") => of_record::now(members, set),
        _ => Err(vec![Refusal::of(
            "",
            "a request has one of these: \"sheet\" with the id of a sheet, \"describe\" with the id of a sheet, \"list\" with true, \"now\" with a moment beside a record",
        )]),
    };
    answered.unwrap_or_else(|refusals| refused(&refusals, set))
}

const MEMBERS: &[&str] = &[
    "id", "sheet", "inputs", "record", "place", "places", "at", "now", "units", "mends", "describe", "list",
];

/// The members of a request that are there, and the units of its answer.
fn envelope(request: &Json) -> Result<(UnitSet, &Map<String, Json>), Refusal> {
    let Json::Object(members) = request else {
        return Err(Refusal::of("", "a request is an object, such as {\"list\": true}"));
    };
    if let Some(member) = members.keys().find(|key| !MEMBERS.contains(&key.as_str())) {
        let sentence = Sentence::plain("a request has no member “{member}”: it may have {members}")
            .with("member", quoted(member))
            .with("members", Slot::Text(MEMBERS.join(", ")));
        return Err(Refusal::of(member, sentence));
    }
    for member in ["mends", "places"] {
        if !matches!(members.get(member), None | Some(Json::Null | Json::Bool(_))) {
            let sentence = Sentence::plain("“{member}” is true or false").with("member", Slot::Word(member));
            return Err(Refusal::of(member, sentence));
        }
    }
    match members.get("units") {
        None | Some(Json::Null) => Ok((UnitSet::Metric, members)),
        Some(Json::String(units)) if units == "si" => Ok((UnitSet::Metric, members)),
        Some(Json::String(units)) if units == "us" => Ok((UnitSet::Us, members)),
        Some(_) => Err(Refusal::of("units", "\"units\" is \"si\" (SI practice) or \"us\"")),
    }
}

fn find(member: &'static str, id: &Json) -> Result<&'static Entry, Refusal> {
    let Json::String(id) = id else {
        return Err(Refusal::of(member, "the id of a sheet is a text; {\"list\": true} names them all"));
    };
    catalogue::find(id).ok_or_else(|| {
        let ids = catalogue::SHEETS.iter().map(|entry| entry.declaration.id);
        let sentence =
            Sentence::plain("there is no sheet “{id}”; the nearest: {near}. {\"list\": true} names them all")
                .with("id", quoted(id))
                .with("near", Slot::Text(nearest::to(id, ids).join(", ")));
        Refusal::of(member, sentence)
    })
}

/// Fills the sheet from what the request hands over, and computes it.
fn evaluate(
    entry: &Entry,
    members: &Map<String, Json>,
    set: UnitSet,
) -> Result<Map<String, Json>, Vec<Refusal>> {
    let declaration = entry.declaration;
    let given = |member| members.get(member).filter(|value| !value.is_null());
    let refused = |field, sentence: &'static str| Err(vec![Refusal::of(field, sentence)]);
    if let (None, Some(member)) =
        (given("record"), ["place", "places", "at"].into_iter().find(|one| given(one).is_some()))
    {
        return refused(member, "a place and a moment are those of a record: give the record, too");
    }
    match (given("inputs"), given("record")) {
        (Some(Json::Object(inputs)), None) => computed(entry, fill(declaration, inputs), members, set),
        (None, None) => computed(entry, fill(declaration, &Map::new()), members, set),
        (None, Some(document)) => of_record::evaluate(entry, document, members, set),
        (Some(Json::Object(_)), Some(document)) => of_record::evaluate(entry, document, members, set),
        (Some(_), _) => refused("inputs", "\"inputs\" is an object with a member for each field"),
    }
}

/// The sheet with these inputs, computed.
fn computed(
    entry: &Entry,
    filled: Filled,
    members: &Map<String, Json>,
    set: UnitSet,
) -> Result<Map<String, Json>, Vec<Refusal>> {
    let declaration = entry.declaration;
    let mut refusals: Vec<Refusal> =
        filled.unknown.iter().map(|unknown| Refusal::unknown(unknown, declaration)).collect();
    let mut assessment = entry.assess(&filled.values, true);
    let of_sheet: Vec<Problem> = assessment.problems.iter().map(|problem| filled.as_given(problem)).collect();
    refusals.extend(filled.problems.iter().chain(&of_sheet).map(Refusal::from));
    if !refusals.is_empty() {
        return Err(refusals);
    }
    assessment.warnings.splice(0..0, filled.warnings);
    let mut answer = answer::assessment(declaration, &assessment, set);
    if !filled.left_out.is_empty() {
        let left_out: Json = filled.left_out.iter().map(|problem| Refusal::from(problem).json(set)).collect();
        answer.insert("left-out".into(), left_out);
    }
    if members.get("mends") == Some(&Json::Bool(true))
        && let Ok(case) = entry.fill(&filled.values)
    {
        answer.insert("mends".into(), mends::of(case.as_ref(), set));
    }
    Ok(answer)
}

/// One thing that is wrong with a request.
struct Refusal {
    field: String,
    row: Option<usize>,
    column: Option<String>,
    sentence: Sentence,
}

impl Refusal {
    fn of(field: &str, sentence: impl Into<Sentence>) -> Self {
        Self { field: field.to_owned(), row: None, column: None, sentence: sentence.into() }
    }

    fn unknown(unknown: &Unknown, declaration: &'static crate::engine::sheet::Declaration) -> Self {
        let sentence = unknown.sentence(declaration);
        match unknown.within {
            Some((table, row)) => Self {
                field: table.id.to_owned(),
                row: Some(row),
                column: Some(unknown.name.clone()),
                sentence,
            },
            None => Self::of(&unknown.name, sentence),
        }
    }

    fn json(&self, set: UnitSet) -> Json {
        let mut error = Map::new();
        error.insert("field".into(), named(&self.field));
        if let Some(row) = self.row {
            error.insert("row".into(), json!(row + 1));
        }
        if let Some(column) = &self.column {
            error.insert("column".into(), json!(column));
        }
        error.insert("message".into(), json!(self.sentence.show(set)));
        Json::Object(error)
    }
}

impl From<&Problem> for Refusal {
    fn from(problem: &Problem) -> Self {
        Self {
            field: problem.field.to_owned(),
            row: problem.cell.map(|(row, _)| row),
            column: problem.cell.map(|(_, column)| column.to_owned()).filter(|column| !column.is_empty()),
            sentence: problem.sentence.clone(),
        }
    }
}

fn refused(refusals: &[Refusal], set: UnitSet) -> Map<String, Json> {
    let errors: Json = refusals.iter().map(|refusal| refusal.json(set)).collect();
    Map::from_iter([("errors".to_owned(), errors)])
}

/// A text, or `null` where it is empty.
fn named(text: &str) -> Json {
    if text.is_empty() { Json::Null } else { json!(text) }
}
