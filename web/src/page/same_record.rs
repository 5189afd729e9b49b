//! A file that is another state of the open record: what merging the two would bring, and where they differ.

use crate::sections::kept_sheets::written;
use crate::state::find;
use crate::text::{WORDS, alone, counted, fill, say, tell};
use calc::documents::record::kinds::INSTRUMENT;
use calc::documents::record::{Conflict, Merged, Part, Record, field};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::Field;
use yew::prelude::*;

/// What would come of it, in words.
pub fn preview(open: &Record, file: &Record, merged: &Merged) -> Html {
    let words = &WORDS.exchange;
    let new = merged.record.count().saturating_sub(open.count());
    let wrong = merged.record.faults().iter().filter(|fault| !open.faults().contains(fault));
    let wrong: Vec<String> = wrong.map(|fault| alone(&tell(&fault.sentence(), UnitSet::Metric))).collect();
    html! {
        <>
            <p>{ if new == 0 { words.merge_adds_none.to_owned() } else { counted(words.merge_adds, new) } }</p>
            if !merged.conflicts.is_empty() {
                <p>{ words.conflicts }</p>
                <ul id="merge-conflicts">{ for merged.conflicts.iter().map(|one| html! { <li>{ told(one, open, file, merged) }</li> }) }</ul>
            }
            if !wrong.is_empty() {
                <p>{ words.then_wrong }</p>
                <ul id="merge-faults">{ for wrong.iter().map(|fault| html! { <li>{ fault }</li> }) }</ul>
            }
        </>
    }
}

/// What stands in a field on either side.
fn told(conflict: &Conflict, open: &Record, file: &Record, merged: &Merged) -> String {
    let field = field_of(&merged.record, conflict);
    let stands = |side: &Record| {
        let part = merged.record.part_in(conflict.part, side)?;
        let held = side.part(part)?.get(&conflict.field).filter(|held| !held.is_empty())?;
        Some(written(field?, held))
    };
    let text = |side: &Record| stands(side).unwrap_or_else(|| WORDS.exchange.empty.to_owned());
    let place = place_of(&merged.record, conflict.part);
    let name = field.map_or(&*conflict.field, |field| say(field.term.name));
    let (here, there) = (text(open), text(file));
    fill(WORDS.exchange.conflict, &[("where", &place), ("field", name), ("here", &here), ("there", &there)])
}

fn field_of(record: &Record, conflict: &Conflict) -> Option<&'static Field> {
    let id = &*conflict.field;
    match conflict.part {
        Part::Ro | Part::Place(_) => field(id),
        Part::Instrument(_) => INSTRUMENT.iter().find(|field| field.id == id),
        Part::Sheet(_) => {
            let sheet = find(&record.filled(conflict.part)?.sheet)?.declaration;
            sheet.inputs.iter().find(|field| field.id == id)
        }
    }
}

fn place_of(record: &Record, part: Part) -> String {
    let name = |id: &str| record.part(part).and_then(|fields| fields.word(id)).map(str::to_owned);
    match part {
        Part::Ro => Some(WORDS.exchange.ro.to_owned()),
        Part::Place(_) => name("place-name"),
        Part::Instrument(_) => name("instrument-name"),
        Part::Sheet(_) => record.filled(part).map(|filled| {
            let sheet = find(&filled.sheet).map_or(&*filled.sheet, |entry| say(entry.declaration.name));
            fill(WORDS.exchange.sheet, &[("sheet", sheet)])
        }),
    }
    .unwrap_or_else(|| WORDS.section.unnamed_place.to_owned())
}
