//! A series of one number from the record: the values with their days, each with its event, in one unit.

use super::fill::BASELINE;
use super::kinds::{self, READING, Reference};
use super::{Event, FromRecord, Held, Origin, Record, Rows, Typed};
use crate::engine::calendar::Moment;
use crate::engine::quantity::Unit;
use crate::engine::quantity::show::exact;
use crate::engine::sheet::{Answer, Declaration, Field, Shape};
use crate::program::catalogue;
use crate::trade::run::{SeriesOf, series};
use std::rc::Rc;

/// What a sheet that follows a series asks.
const SERIES: &str = "series";
const READINGS: &str = "readings";
const BASIS: &str = "basis";
const UNIT: &str = "unit-of-readings";

/// The fields that follow from the number that was chosen.
pub(super) fn follows(id: &str) -> bool {
    [READINGS, BASIS, UNIT].contains(&id)
}

/// Whether it is the field in which the number is chosen.
pub(super) fn is_choice(sheet: &str, id: &str) -> bool {
    id == SERIES && catalogue::find(sheet).is_some_and(|entry| entry.declaration.input(READINGS).is_some())
}

impl FromRecord {
    /// A sheet that follows a number over time is filled with the series of that id at one of the places, as of a moment.
    pub fn follow(
        &mut self,
        sheet: &'static Declaration,
        record: &Record,
        place: usize,
        at: Option<Moment>,
        id: &str,
    ) {
        let field = |id: &str| sheet.input(id).map(|index| &sheet.inputs[index]);
        let Some([choice, readings, basis, unit_of]) =
            (|| Some([field(SERIES)?, field(READINGS)?, field(BASIS)?, field(UNIT)?]))()
        else {
            return;
        };
        let Some(of) = series(id) else { return };
        let one = |field, text: &str| Rc::new(Held::One(Typed::new(field, text, None)));
        self.put(choice.id, &one(choice, id), &Origin::Series);
        let Some((rows, events, unit)) = record.followed(of, readings, place, at) else { return };
        if rows.counted() == 0 {
            return;
        }
        self.put(readings.id, &Rc::new(Held::Rows(rows)), &Origin::Events(events));
        self.put(basis.id, &one(basis, of.basis.id()), &Origin::Series);
        if let Some(unit) = unit.filter(|unit| !unit.symbol.is_empty()) {
            self.put(unit_of.id, &one(unit_of, unit.symbol), &Origin::Series);
        }
    }
}

type Followed = (Rows, Vec<Rc<Event>>, Option<&'static Unit>);

impl Record {
    /// The rows of a series, and of each row its event.
    fn followed(
        &self,
        of: &SeriesOf,
        readings: &'static Field,
        place: usize,
        at: Option<Moment>,
    ) -> Option<Followed> {
        let Shape::Table(columns) = readings.shape else { return None };
        let here = self.places().get(place).map(|place| Rc::clone(&place.id));
        let kind = kinds::kind(of.kind)?;
        let number = of.series.id();
        let unit = match of.sheet {
            None => kind.field(number)?.term.unit(false),
            Some(sheet) => {
                let outputs = catalogue::find(sheet)?.declaration.outputs;
                outputs.iter().find(|output| output.id == number)?.term.unit(false)
            }
        };
        let counts = |event: &&Rc<Event>| event.place == here && at.is_none_or(|at| event.when.is_by(at));
        let (mut rows, mut events) = (Rows::default(), Vec::new());
        for event in self.of_kind(kind).iter().filter(counts) {
            let value = match of.sheet {
                None => read_in(event, number, unit),
                Some(sheet) => self.worked_out(event, sheet, number, place, at).map(|si| in_unit(si, unit)),
            };
            if let Some(value) = value {
                let row = events.len();
                rows.set(columns, (row, 0), event.when.day().to_string());
                rows.set(columns, (row, 1), value);
                events.push(Rc::clone(event));
            }
        }
        Some((rows, events, unit))
    }

    /// What a sheet works out of one reading, compared with the baseline that is in force as of a moment.
    fn worked_out(
        &self,
        event: &Rc<Event>,
        sheet: &str,
        output: &str,
        place: usize,
        at: Option<Moment>,
    ) -> Option<f64> {
        let entry = catalogue::find(sheet)?;
        let declaration = entry.declaration;
        let mut filled = FromRecord::default();
        let place = self.places().get(place).map(|place| &place.fields);
        for fields in [Some(self.ro()), place] {
            filled.take(declaration, fields, &Origin::Ro);
        }
        let asked: Vec<&'static Field> =
            declaration.inputs.iter().filter(|field| READING.field(field.id).is_some()).collect();
        filled.take_event(event, &asked);
        filled.take_chosen(declaration, self.chosen(Reference::Baseline, None, at), &BASELINE);
        let read = filled.read(declaration);
        if !read.problems.is_empty() {
            return None;
        }
        let index = declaration.outputs.iter().position(|one| one.id == output)?;
        match entry.figures(&read.values, false).answers.get(index)? {
            Answer::Number(si, _) => Some(*si),
            _ => None,
        }
    }
}

/// The number in a field of an event, in this unit. "Less than" is no number to draw a line through.
fn read_in(event: &Event, id: &str, unit: Option<&'static Unit>) -> Option<String> {
    let si = event.number(id)?;
    match event.fields.get(id).map(Rc::as_ref) {
        Some(Held::One(typed)) if typed.read_unit() == unit => Some(typed.in_a_cell(unit)),
        _ => Some(in_unit(si, unit)),
    }
}

/// To nine digits: a change of units leaves no others behind.
fn in_unit(si: f64, unit: Option<&'static Unit>) -> String {
    let value = unit.map_or(si, |unit| unit.of_si(si));
    let value = format!("{value:.8e}").parse().unwrap_or(value);
    exact(value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::record::{Given, field};
    use crate::trade::run::SERIES;

    fn trend() -> &'static Declaration {
        catalogue::find("trend").unwrap().declaration
    }

    /// Of each series the number that it names is there, and is called as the choice is.
    #[test]
    fn each_series_is_a_number_of_the_record_or_of_a_sheet() {
        let choice = &trend().inputs[trend().input("series").unwrap()];
        let Shape::Choice(named) = choice.shape else { panic!() };
        assert_eq!(named.len(), SERIES.len());
        for (of, named) in SERIES.iter().zip(named) {
            let number = match of.sheet {
                None => kinds::kind(of.kind).unwrap().field(named.id),
                Some(sheet) => {
                    let outputs = catalogue::find(sheet).unwrap().declaration.outputs;
                    outputs.iter().find(|output| output.id == named.id)
                }
            };
            let number = number.unwrap_or_else(|| panic!("{}", named.id));
            assert_eq!(number.term.name, named.name);
            assert!(matches!(number.shape, Shape::Number(_)), "{}", named.id);
        }
        assert!(follows("readings") && !follows("trigger") && is_choice("trend", "series"));
        assert_eq!(field("series").map(|field| field.id), Some("series"));
    }

    /// Readings of two places, one of them withdrawn, one dated later, one without the number and one in another unit.
    fn record() -> Record {
        let reading = |id: &str, day: u32, place: &str, fields: &str| {
            format!(
                r#"{{ "id": "{id}", "kind": "reading", "at": "2026-11-{day:02}T07:00+01:00", "place": "{place}", "fields": {{ {fields} }} }}"#
            )
        };
        let events = [
            reading("e1", 1, "ward", r#""hardness-after-softener": "2,5 mg/L""#),
            reading("e2", 2, "bay", r#""hardness-after-softener": "9 mg/L""#),
            reading("e3", 3, "ward", r#""hardness-after-softener": "1 gpg""#),
            reading("e4", 4, "ward", r#""product-flow": "1 L/min""#),
            reading("e5", 5, "ward", r#""hardness-after-softener": "7 mg/L""#),
            r#"{ "id": "c", "kind": "correction", "at": "2026-11-06", "of": "e5", "becomes": { "withdrawn": true } }"#.to_owned(),
            reading("e6", 20, "ward", r#""hardness-after-softener": "4 mg/L""#),
        ];
        let text = format!(
            r#"{{ "format": "tapside-record", "version": 2, "places": [{{ "id": "ward" }}, {{ "id": "bay" }}], "events": [{}] }}"#,
            events.join(",")
        );
        Record::open(&text).unwrap()
    }

    #[test]
    fn a_series_has_one_unit_and_of_each_value_its_event() {
        let record = record();
        let at = Moment::read("2026-11-10T00:00Z").ok();
        let mut filled = record.fill(trend(), 0, at);
        filled.follow(trend(), &record, 0, at, "hardness-after-softener");
        let Held::Rows(rows) = filled.entries["readings"].as_ref() else { panic!() };
        let texts: Vec<[&str; 2]> =
            (0..rows.counted()).map(|row| [rows.text(row, 0), rows.text(row, 1)]).collect();
        // 1 grain per US gallon is 17.118 mg/L: 64.79891 mg in 3.785411784 L
        assert_eq!(texts[0], ["2026-11-01", "2.5"]);
        assert_eq!(texts[1][0], "2026-11-03");
        assert!((texts[1][1].parse::<f64>().unwrap() - 64.79891 / 3.785411784).abs() < 1e-6, "{texts:?}");
        assert_eq!(texts.len(), 2);
        let Origin::Events(events) = &filled.origins["readings"] else { panic!() };
        assert_eq!(events.iter().map(|event| &*event.id).collect::<Vec<_>>(), ["e1", "e3"]);
        let word = |id: &str| match filled.entries[id].as_ref() {
            Held::One(typed) => typed.text.clone(),
            Held::Rows(_) => panic!(),
        };
        assert_eq!((word("basis"), word("unit-of-readings")), ("unaffected".to_owned(), "mg/L".to_owned()));
    }

    #[test]
    fn another_number_takes_the_series_out_that_was_filled() {
        let mut record = record();
        let choose = |record: &mut Record, id: &str| {
            let part = record.sheet_part("trend").unwrap();
            let choice = &trend().inputs[trend().input("series").unwrap()];
            record.set(part, choice, Held::One(Typed::new(choice, id, None))).unwrap();
        };
        choose(&mut record, "hardness-after-softener");
        record.give("trend", record.offers(trend(), 0, None)).unwrap();
        let filled = |record: &Record| record.filled(record.worked_on("trend").unwrap()).cloned().unwrap();
        assert_eq!(
            filled(&record).given["readings"],
            Given::Events(vec!["e1".into(), "e3".into(), "e6".into()])
        );
        let again = Record::open(&record.text()).unwrap();
        assert_eq!(filled(&again).given, filled(&record).given);
        assert!(record.offers(trend(), 0, None).is_empty());
        choose(&mut record, "total-chlorine");
        assert!(!filled(&record).fields.has("readings") && !filled(&record).fields.has("unit-of-readings"));
        // the record has none of it
        assert!(record.offers(trend(), 0, None).is_empty());
        // what somebody typed stays
        let readings = &trend().inputs[trend().input("readings").unwrap()];
        let Shape::Table(columns) = readings.shape else { panic!() };
        let mut rows = Rows::default();
        rows.set(columns, (0, 1), "5".to_owned());
        let part = record.worked_on("trend").unwrap();
        record.set(part, readings, Held::Rows(rows)).unwrap();
        choose(&mut record, "hardness-after-softener");
        assert!(filled(&record).fields.has("readings") && record.offers(trend(), 0, None).is_empty());
    }

    /// Each reading as the sheet works it out by hand of the same numbers.
    #[test]
    fn normalized_flows_are_those_of_the_sheet_with_the_baseline_in_force() {
        let reading = |id: &str, day: u32, temperature: f64, flow: f64| {
            format!(
                r#"{{ "id": "{id}", "kind": "reading", "at": "2026-11-{day:02}T07:00+01:00", "place": "ward", "fields": {{
                "tap-temperature": "{temperature} °C", "product-flow": "{flow} L/min", "reject-flow": "1.4 L/min",
                "feed-conductivity": "300 µS/cm", "product-conductivity": "6 µS/cm", "pump-pressure": "9 bar", "product-pressure": "0.2 bar", "membrane-drop": "0.5 bar" }} }}"#
            )
        };
        let events = [
            reading("e1", 1, 12.0, 0.9), reading("e2", 2, 8.0, 0.8),
            r#"{ "id": "b", "kind": "reference-chosen", "at": "2026-11-03", "of": "e1", "fields": { "reference": "baseline" } }"#.to_owned(),
        ];
        let record = Record::open(&format!(
            r#"{{ "format": "tapside-record", "version": 2, "places": [{{ "id": "ward" }}], "events": [{}] }}"#, events.join(","))).unwrap();
        let mut filled = FromRecord::default();
        filled.follow(trend(), &record, 0, None, "normalized-flow");
        let Held::Rows(rows) = filled.entries["readings"].as_ref() else { panic!() };
        // the baseline normalized to itself is itself
        assert_eq!((rows.counted(), rows.text(0, 1)), (2, "0.9"));
        let sheet = catalogue::find("normalized-performance").unwrap();
        let own = record.fill(sheet.declaration, 0, None).read(sheet.declaration);
        let Answer::Number(si, kind) = sheet.figures(&own.values, false).answers[0] else { panic!() };
        let by_sheet = kind.unit("L/min").of_si(si);
        let by_series: f64 = rows.text(1, 1).parse().unwrap();
        assert!((by_series / by_sheet - 1.0).abs() < 1e-8 && by_series > 0.8, "{by_series} {by_sheet}");
    }
}
