//! The inputs of a sheet, above all of the plan, from a record: what is said of the RO, of one of its places, and the
//! reading at which the RO was measured.

use super::{Part, Record, Spot};
use crate::documents::json::{Filled, fill};
use crate::engine::sheet::{Declaration, Field, Problem, Value};
use crate::trade::plan::walk::{Home, home_of};
use crate::{engine::sheet::Sentence, program::catalogue};
use serde_json::{Map, Value as Json};

/// What of a reading stands for the RO, and under which id the plan asks for it. All three are of one moment: a flow
/// without its temperature, or with another day's, would be a wrong anchor.
const ANCHOR: [(&str, &str); 3] = [
    ("tap-temperature", "anchor-temperature"),
    ("product-flow", "product-flow"),
    ("reject-flow", "reject-flow"),
];

impl Record {
    /// Where a field of the plan is kept for one of the places: where it stands already, as [`Record::fill`] would find
    /// it, else where it belongs.
    pub fn home(&self, field: &'static Field, place: usize) -> Spot {
        let anchored = ANCHOR.iter().find(|(_, asked)| *asked == field.id);
        if let (Some((read, _)), Some(reading)) = (anchored, self.anchor(place))
            && let Some(read) = plan_field(read)
        {
            return Spot { part: Part::Reading(reading), field: read, cell: None };
        }
        let stands = |part: &Part| {
            self.part(*part).and_then(|part| part.get(field.id)).is_some_and(|member| !member.is_null())
        };
        let own = if home_of(field.id) == Home::Ro { Part::Ro } else { Part::Place(place) };
        let part = [Part::Place(place), Part::Ro].into_iter().find(stands).unwrap_or(own);
        Spot { part, field, cell: None }
    }

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
        let anchor = self.anchor(place).and_then(|reading| self.part(Part::Reading(reading)));
        let problem = anchor.and_then(|anchor| set_anchor(&mut members, anchor, declaration));
        (members, problem)
    }

    /// The reading that is marked as the anchor. Where several are: of this place before others, since the RO brings
    /// its own along, and the latest.
    fn anchor(&self, place: usize) -> Option<usize> {
        let here = self.word(Part::Place(place), "place-name");
        (0..self.readings())
            .filter_map(|index| Some((index, self.part(Part::Reading(index))?)))
            .filter(|(_, reading)| reading.get("anchor") == Some(&Json::Bool(true)))
            .max_by_key(|(_, reading)| {
                let word = |member: &str| reading.get(member).and_then(Json::as_str);
                (here.is_some() && word("place") == here, word("date"))
            })
            .map(|(index, _)| index)
    }
}

fn plan_field(id: &str) -> Option<&'static Field> {
    let declaration = catalogue::find("plan")?.declaration;
    declaration.inputs.iter().find(|field| field.id == id)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_is_kept_where_it_is_found() {
        let anchored = Record::open(include_str!("../../../../examples/ostrin-vale.json")).unwrap();
        let of = |record: &Record, id| record.home(plan_field(id).unwrap(), 0);
        let flow = of(&anchored, "product-flow");
        assert!(matches!(flow.part, Part::Reading(_)) && flow.field.id == "product-flow", "{flow:?}");
        assert_eq!(of(&anchored, "anchor-temperature").field.id, "tap-temperature");
        assert_eq!(of(&anchored, "shut-pressure").part, Part::Place(0));

        let mut fresh = Record::new();
        fresh.add_place("").unwrap();
        assert_eq!(of(&fresh, "product-flow").part, Part::Ro);
        assert_eq!(of(&fresh, "hardness").part, Part::Place(0));
        for field in catalogue::find("plan").unwrap().declaration.inputs {
            let spot = fresh.home(field, 0);
            assert_eq!(spot.field.id, field.id);
        }
    }
}
