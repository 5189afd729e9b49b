//! What can be chosen on a sheet as it is filled: its numbers, and the entries that can be turned.

use super::ToolProps;
use crate::sheet::shown;
use crate::text::{WORDS, fill, say};
use calc::engine::curve::{Curve, Number, usual_range};
use calc::engine::quantity::{Kind, Unit, UnitSet};
use calc::engine::sheet::{
    Case, Check, Declaration, Dial, Entry, Field, Shape, Stage, State, Value, Working,
};
use calc::trade::plan::path::OUTPUTS_OF;
use std::rc::Rc;
use yew::prelude::*;

/// A sheet as it is filled.
pub struct Looked {
    /// Filled.
    pub case: Box<dyn Case>,
    /// Its numbers, those of the outputs first.
    pub numbers: Vec<NumberOf>,
    /// The entries that can be turned.
    pub dials: Vec<DialOf>,
    /// The id of the check that is worst, and of the entry that would fix it.
    worst: Option<(String, &'static str)>,
}

/// A number of a sheet.
#[derive(Debug, Clone)]
pub struct NumberOf {
    /// Of the output; of a check with `check-` before it.
    pub id: String,
    /// In words.
    pub name: String,
    /// Which it is.
    pub number: Number,
    /// The output; `None` for a check.
    pub output: Option<&'static Field>,
    /// In which it is shown.
    pub unit: &'static Unit,
}

/// An entry that can be turned.
#[derive(Debug, Clone)]
pub struct DialOf {
    /// Of the input; of a column with that of the column behind it.
    pub id: String,
    /// In words.
    pub name: String,
    /// Which it is.
    pub dial: Dial,
    /// In which it is shown.
    pub unit: &'static Unit,
    /// Where it is usually turned, in SI.
    pub range: (f64, f64),
    /// The value that is there, in SI; of a column, no shift.
    pub present: Option<f64>,
}

impl Looked {
    /// With the numbers of one stage alone, where one is named; `None` where a field that the sheet needs is empty.
    pub fn at(entry: &Entry, values: &[Option<Value>], set: UnitSet, only: Option<Stage>) -> Option<Self> {
        let case = entry.fill(values).ok()?;
        let mut w = Working::judging();
        // A sheet that stops has no checks.
        let mut checks = if case.judge(&mut w).is_ok() { w.checks().to_vec() } else { Vec::new() };
        checks.retain(|check| only.is_none_or(|stage| check.criterion.stage == stage));
        let numbers = numbers(case.as_ref(), &checks, set, only);
        let dials = dials(case.as_ref(), set);
        let worst = worst(&checks, &dials);
        Some(Self { case, numbers, dials, worst })
    }

    /// The number of this id, else the one that is judged worst, else the first.
    pub fn number(&self, id: &str) -> Option<&NumberOf> {
        let worst = self.worst.as_ref().map_or("", |(check, _)| check);
        pick(&self.numbers, |number| &number.id, [id, worst])
    }

    /// The entry of this id, else the one that would mend what is worst, else the first that is filled.
    pub fn dial(&self, id: &str) -> Option<&DialOf> {
        let lever = self.worst.as_ref().map_or("", |(_, lever)| lever);
        let filled = self.dials.iter().find(|dial| dial.present.is_some()).map_or("", |dial| &dial.id);
        pick(&self.dials, |dial| &dial.id, [id, lever, filled])
    }

    /// A number as it is now, in SI.
    pub fn present(&self, number: &NumberOf, dial: &DialOf) -> Option<f64> {
        let y = Curve::new(self.case.as_ref(), number.number, dial.dial).at(dial.present?);
        y.is_finite().then_some(y)
    }
}

fn pick<'a, T, const N: usize>(all: &'a [T], id: fn(&T) -> &str, wished: [&str; N]) -> Option<&'a T> {
    let named = |wished: &str| all.iter().find(|one| id(one) == wished);
    wished.into_iter().find_map(named).or(all.first())
}

fn numbers(case: &dyn Case, checks: &[Check], set: UnitSet, only: Option<Stage>) -> Vec<NumberOf> {
    let outputs = case.declaration().outputs.iter();
    let outputs = outputs.filter(|field| only.is_none_or(|stage| stands_at(stage, field.id)));
    let outputs = outputs.filter_map(|field| {
        let Shape::Number(kind) = field.shape else { return None };
        Some(NumberOf {
            id: field.id.to_owned(),
            name: say(field.term.name).to_owned(),
            number: Number::of_output(case, field.id)?,
            output: Some(field),
            unit: shown::unit_of(field, kind, set),
        })
    });
    let judged = checks.iter().filter(|check| check.value.is_finite() && check.limit.is_finite());
    let judged = judged.map(|check| NumberOf {
        id: format!("check-{}", check.id()),
        name: name_of_check(check),
        number: Number::judged(check),
        output: None,
        unit: check.kind.unit_in(set),
    });
    outputs.chain(judged).collect()
}

/// Whether an output of the plan is shown at this stage of the water's way.
fn stands_at(stage: Stage, output: &str) -> bool {
    OUTPUTS_OF.iter().any(|(of, outputs)| *of == stage && outputs.contains(&output))
}

fn name_of_check(check: &Check) -> String {
    let (sentence, case) = (say(check.criterion.sentence), say(check.case.name));
    if case.is_empty() { sentence.to_owned() } else { format!("{sentence} ({case})") }
}

fn dials(case: &dyn Case, set: UnitSet) -> Vec<DialOf> {
    let declaration: &'static Declaration = case.declaration();
    let columns = Dial::all(case).into_iter().filter(|dial| dial.is_column(case));
    let numbers = declaration.inputs.iter().filter_map(|field| Dial::of(case, field.id));
    numbers.chain(columns).filter_map(|dial| dial_of(case, dial, set)).collect()
}

fn dial_of(case: &dyn Case, dial: Dial, set: UnitSet) -> Option<DialOf> {
    let input = case.declaration().inputs.get(dial.field)?;
    let range = usual_range(case, &dial)?;
    if !dial.is_column(case) {
        let unit = shown::unit_of(input, dial.of.term.kind?, set);
        let (id, name) = (input.id.to_owned(), say(input.term.name).to_owned());
        return Some(DialOf { id, name, dial, unit, range, present: dial.value });
    }
    let kind: &'static Kind = Curve::new(case, Number::Output(0), dial).kind()?;
    let name = fill(WORDS.tools.all_readings, &[("name", say(dial.of.term.name))]);
    let id = format!("{}-{}", input.id, dial.of.id);
    Some(DialOf { id, name, dial, unit: kind.unit_in(set), range, present: Some(0.0) })
}

/// The worst check that has a number and a lever that can be turned, with the first of these.
fn worst(checks: &[Check], dials: &[DialOf]) -> Option<(String, &'static str)> {
    let judged = |check: &&Check| matches!(check.state, State::NotMet | State::Marginal | State::Met);
    let is_dial = |lever: &&&str| dials.iter().any(|dial| dial.id == **lever);
    let lever = |check: &Check| check.criterion.levers.iter().find(is_dial).copied();
    let levered = checks.iter().filter(judged).filter_map(|check| Some((check, lever(check)?)));
    let (worst, lever) = levered.min_by(|(a, _), (b, _)| a.worse(b))?;
    Some((format!("check-{}", worst.id()), lever))
}

/// A sheet that was looked at, as a property: the same while it is one.
#[derive(Clone)]
pub struct Seen(pub Rc<Looked>);

impl PartialEq for Seen {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

/// Why nothing can be chosen, or what can.
#[derive(Clone, PartialEq)]
pub enum Sight {
    /// Nobody asked.
    Folded,
    /// In words.
    Nothing(&'static str),
    /// A sheet as it is filled.
    Seen(Seen),
}

/// Looks at the sheet while the tool is open.
#[hook]
pub fn use_sight(props: &ToolProps, is_open: bool) -> Sight {
    let seen = use_memo((props.clone(), is_open), |(props, is_open)| {
        if !is_open {
            return Sight::Folded;
        } else if !props.is_whole {
            return Sight::Nothing(WORDS.tools.mend_first);
        }
        match Looked::at(props.entry.0, &props.values, props.set, props.only) {
            None => Sight::Nothing(WORDS.tools.fill_first),
            Some(looked) if props.only.is_some() && looked.numbers.is_empty() => {
                Sight::Nothing(WORDS.tools.no_number)
            }
            Some(looked) if looked.dials.is_empty() || looked.numbers.is_empty() => {
                Sight::Nothing(WORDS.tools.no_dial)
            }
            Some(looked) => Sight::Seen(Seen(Rc::new(looked))),
        }
    });
    (*seen).clone()
}

#[cfg(test)]
pub mod tests {
    use super::*;
    use crate::state::find;

    /// 20 L at 4 L/min: 5 min.
    pub fn carbon() -> Looked {
        let entry = find("carbon-contact-time").unwrap();
        let values = [Some(Value::Number(0.02)), None, Some(Value::Number(4e-3 / 60.0)), None];
        Looked::at(entry, &values, UnitSet::Metric, None).unwrap()
    }

    #[test]
    fn numbers_and_entries_of_a_sheet_are_offered() {
        let looked = carbon();
        let numbers: Vec<&str> = looked.numbers.iter().map(|number| number.id.as_str()).collect();
        assert_eq!(
            numbers,
            [
                "contact-time",
                "total-contact-time",
                "final-contact-time",
                "check-contact-time",
                "check-final-contact-time",
                "check-two-carbons",
            ]
        );
        let dials: Vec<&str> = looked.dials.iter().map(|dial| dial.id.as_str()).collect();
        assert_eq!(dials, ["bed-volume", "second-bed-volume", "flow"], "an empty field can be turned too");
    }

    #[test]
    fn what_is_worst_is_offered_first() {
        let looked = carbon();
        assert_eq!(looked.number("").unwrap().id, "check-contact-time");
        assert_eq!(looked.number("contact-time").unwrap().id, "contact-time");
        let lever = looked.dial("").unwrap();
        assert!(calc::trade::carbon::TEN_MINUTES.levers.contains(&lever.id.as_str()), "{}", lever.id);
        assert_eq!(looked.dial("flow").unwrap().id, "flow");
        let (number, dial) = (looked.number("contact-time").unwrap(), looked.dial("flow").unwrap());
        assert!((looked.present(number, dial).unwrap() - 300.0).abs() < 1e-9);
    }

    #[test]
    fn a_sheet_that_lacks_what_it_needs_offers_nothing() {
        let entry = find("carbon-contact-time").unwrap();
        assert!(Looked::at(entry, &[], UnitSet::Metric, None).is_none());
    }

    #[test]
    fn a_column_of_readings_is_turned_as_one() {
        let entry = find("heat-dose").unwrap();
        let row = |i: u32| vec![None, Some(Value::Number(f64::from(10 * i))), Some(Value::Number(353.15))];
        let mut values = vec![None; entry.declaration.inputs.len()];
        values[entry.declaration.input("log").unwrap()] = Some(Value::Table((0..9).map(row).collect()));
        let looked = Looked::at(entry, &values, UnitSet::Metric, None).unwrap();
        let column = looked.dials.iter().find(|dial| dial.id == "log-temperature").unwrap();
        assert_eq!((column.present, column.unit.symbol), (Some(0.0), "K"));
    }

    #[test]
    fn of_a_stage_only_its_own_numbers_are_offered() {
        let plan = crate::state::record::plan_entry().unwrap();
        let record = crate::state::record::open(crate::state::record::ROOMS[2].text).unwrap();
        let values = record.inputs_of_plan(0).0;
        let offered = |stage: Stage| {
            let looked = Looked::at(plan, &values, UnitSet::Metric, Some(stage)).unwrap();
            looked.numbers.into_iter().map(|number| number.id).collect::<Vec<_>>()
        };
        let (tap, membrane) = (offered(Stage::Tap), offered(Stage::Membrane));
        assert!(tap.iter().any(|id| id == "check-inlet-pressure-flush"), "{tap:?}");
        assert!(membrane.iter().any(|id| id == "recovery-warmest"), "{membrane:?}");
        assert!(tap.iter().all(|id| !membrane.contains(id)), "{tap:?} {membrane:?}");
        assert!(offered(Stage::Bench).is_empty());
    }
}
