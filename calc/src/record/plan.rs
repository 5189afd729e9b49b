//! The inputs of a sheet, above all of the plan, from a record: what is said of the RO, of one of its places, and the
//! reading at which the RO was measured.

use super::{Part, Record};
use crate::json::{Filled, fill};
use crate::sheet::{Declaration, Problem, Value};
use crate::{catalogue, sheet::Sentence};
use serde_json::{Map, Value as Json};

/// What of a reading stands for the RO, and under which id the plan asks for it. All three are of one moment: a flow
/// without its temperature, or with another day's, would be a wrong anchor.
const ANCHOR: [(&str, &str); 3] = [
    ("tap-temperature", "anchor-temperature"),
    ("product-flow", "product-flow"),
    ("reject-flow", "reject-flow"),
];

impl Record {
    /// The inputs of the plan for one of the places.
    pub fn inputs_of_plan(&self, place: usize) -> (Vec<Option<Value>>, Vec<Problem>) {
        let filled =
            catalogue::find("plan").map(|entry| self.fill(entry.declaration, place)).unwrap_or_default();
        (filled.values, filled.problems)
    }

    /// The inputs of a sheet for one of the places. What is said of the place counts before what is said of the RO,
    /// and the reading that is marked as the anchor before both.
    pub fn fill(&self, declaration: &'static Declaration, place: usize) -> Filled {
        let (members, problem) = self.members_and_problem(declaration, place);
        let mut filled = fill(declaration, &members);
        // a record may hold more than this version knows
        filled.unknown.clear();
        filled.problems.extend(problem);
        filled
    }

    /// The same as it is kept, for whoever shows what was typed.
    pub fn members(&self, declaration: &'static Declaration, place: usize) -> Map<String, Json> {
        self.members_and_problem(declaration, place).0
    }

    fn members_and_problem(
        &self,
        declaration: &'static Declaration,
        place: usize,
    ) -> (Map<String, Json>, Option<Problem>) {
        let mut members = Map::new();
        for part in [Part::Ro, Part::Place(place)] {
            for (id, member) in self.part(part).into_iter().flatten() {
                if declaration.input(id).is_some() && !member.is_null() {
                    members.insert(id.clone(), member.clone());
                }
            }
        }
        let problem = self.anchor(place).and_then(|anchor| set_anchor(&mut members, anchor, declaration));
        (members, problem)
    }

    /// The reading that is marked as the anchor. Where several are: of this place before others, since the RO brings
    /// its own along, and the latest.
    fn anchor(&self, place: usize) -> Option<&Map<String, Json>> {
        let here = self.word(Part::Place(place), "place-name");
        (0..self.readings())
            .filter_map(|index| self.part(Part::Reading(index)))
            .filter(|reading| reading.get("anchor") == Some(&Json::Bool(true)))
            .max_by_key(|reading| {
                let word = |member: &str| reading.get(member).and_then(Json::as_str);
                (here.is_some() && word("place") == here, word("date"))
            })
    }
}

/// Puts the anchor in place of what was there, also where it has nothing.
fn set_anchor(
    members: &mut Map<String, Json>,
    reading: &Map<String, Json>,
    declaration: &'static Declaration,
) -> Option<Problem> {
    for (read, asked) in ANCHOR {
        members.shift_remove(asked);
        if let (Some(member), Some(_)) = (reading.get(read), declaration.input(asked)) {
            members.insert(asked.to_owned(), member.clone());
        }
    }
    let field = declaration.inputs.iter().find(|field| field.id == "anchor-temperature")?;
    reading.get("tap-temperature").is_none_or(Json::is_null).then(|| {
        Problem::new(
            field.id,
            Sentence::plain(
                "the reading that is marked as the anchor has no tap temperature: enter it, or mark another reading",
            ),
        )
    })
}
