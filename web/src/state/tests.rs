use super::*;
use crate::store::Id;
use calc::documents::record::{Held, Part, Read, Record, Rows, Typed, offered};
use calc::engine::calendar::Moment;
use calc::engine::quantity::Unit;
use calc::engine::sheet::{Declaration, Field, Shape, Value};

/// What was read of a filling.
fn read(sheet: &'static Declaration, filling: &Filling) -> Read {
    calc::documents::record::read(sheet.inputs, &filling.entries)
}

fn contact() -> &'static Declaration {
    find("carbon-contact-time").unwrap().declaration
}

fn log() -> &'static Declaration {
    find("heat-dose").unwrap().declaration
}

fn field(sheet: &'static Declaration, id: &str) -> &'static Field {
    &sheet.inputs[sheet.input(id).unwrap()]
}

/// A state to which things happen one after the other.
struct Page(State);

impl Page {
    fn new() -> Self {
        Self(State::default())
    }

    fn does(mut self, action: Action) -> Self {
        if let Some(next) = self.0.after(action) {
            self.0 = next;
        }
        self
    }

    fn at(self, sheet: &'static Declaration, id: &str, change: Change) -> Self {
        self.does(Action::Field(sheet, field(sheet, id), change))
    }

    fn types(self, id: &str, text: &str) -> Self {
        self.at(contact(), id, Change::Text(text.into()))
    }

    fn chooses(self, id: &str, unit: &str) -> Self {
        let unit = unit_of(id, unit);
        self.at(contact(), id, Change::Unit(unit))
    }

    fn logs(self, row: usize, column: usize, text: &str) -> Self {
        self.at(log(), "log", Change::Cell(row, column, text.into()))
    }

    fn one(&self, id: &str) -> Typed {
        match self.0.filling(contact()).entries.get(id).map(|held| held.as_ref().clone()) {
            Some(Held::One(typed)) => typed,
            other => panic!("{other:?}"),
        }
    }

    fn rows(&self) -> Rows {
        match self.0.filling(log()).entries.get("log").map(|held| held.as_ref().clone()) {
            Some(Held::Rows(rows)) => rows,
            other => panic!("{other:?}"),
        }
    }

    fn number(&self, id: &str) -> Option<f64> {
        let sheet = contact();
        match read(sheet, &self.0.filling(sheet)).values[sheet.input(id).unwrap()] {
            Some(Value::Number(si)) => Some(si),
            _ => None,
        }
    }

    fn is(&self, id: &str, expected: f64) -> bool {
        self.number(id).is_some_and(|si| (si - expected).abs() < 1e-12 * expected)
    }

    fn refused(&self, sheet: &'static Declaration) -> Vec<String> {
        let problems = read(sheet, &self.0.filling(sheet)).problems;
        problems.iter().map(|problem| problem.sentence.show(UnitSet::Metric)).collect()
    }
}

fn unit_of(id: &str, symbol: &str) -> &'static Unit {
    field(contact(), id).term.kind.unwrap().unit(symbol)
}

#[test]
fn what_is_typed_stays_as_it_was_typed() {
    let page = Page::new().types("flow", " 1,50 gpm ");
    assert_eq!(page.one("flow").text, " 1,50 gpm ");
    // 1.5 US gallons of 231 cubic inches a minute: 1.5 · 231 · 0.0254³ / 60 m³/s
    assert!(page.is("flow", 1.5 * 231.0 * 0.0254f64.powi(3) / 60.0));
}

#[test]
fn another_unit_reads_the_same_digits_anew() {
    let page = Page::new().types("bed-volume", "28.3").chooses("bed-volume", "mL");
    assert_eq!(page.one("bed-volume").text, "28.3");
    assert!(page.is("bed-volume", 28.3e-6));
}

#[test]
fn the_units_of_the_page_reach_only_what_is_empty() {
    let page = Page::new().types("bed-volume", "28.3").does(Action::Units(UnitSet::Us));
    assert!(page.is("bed-volume", 28.3e-3));
    let flow = field(contact(), "flow");
    assert_eq!(offered(flow, page.0.units).map(|unit| unit.symbol), Some("gal/min"));
    let page = page.types("flow", "1");
    assert_eq!(page.one("flow").unit.map(|unit| unit.symbol), Some("gal/min"));
    // emptied again, the field offers what the page offers
    let page = page.types("flow", "").does(Action::Units(UnitSet::Metric));
    assert_eq!(page.one("flow").unit, None);
}

#[test]
fn a_unit_in_the_text_counts_until_another_is_chosen_against_it() {
    let page = Page::new().types("bed-volume", "7.5 gal");
    let volume = field(contact(), "bed-volume");
    assert_eq!(
        page.one("bed-volume").shown_unit(volume, UnitSet::Metric).map(|unit| unit.symbol),
        Some("gal")
    );
    let page = page.chooses("bed-volume", "L");
    assert_eq!(page.number("bed-volume"), None);
    assert!(page.refused(contact())[0].starts_with("you typed gal, but the unit beside it is L"));
    // the shown unit is the chosen one, so the contradiction can be seen
    assert_eq!(page.one("bed-volume").shown_unit(volume, UnitSet::Metric).map(|unit| unit.symbol), Some("L"));
    let page = page.types("bed-volume", "7.5");
    assert!(page.is("bed-volume", 7.5e-3));
}

#[test]
fn what_cannot_be_read_is_not_known_and_says_why() {
    let page = Page::new().types("bed-volume", "1,234").types("flow", "2 psi");
    assert_eq!((page.number("bed-volume"), page.number("flow")), (None, None));
    let refused = page.refused(contact());
    assert!(refused[0].contains("could mean two numbers"), "{refused:?}");
    assert!(refused[1].contains("psi"), "{refused:?}");
}

#[test]
fn a_table_grows_with_what_is_typed_and_ends_with_its_last_filled_row() {
    let page = Page::new().logs(0, 1, "0").logs(0, 2, "80").logs(1, 1, "60").logs(1, 2, "81");
    let page = page.at(log(), "log", Change::AddRow);
    assert_eq!((page.rows().rows.len(), page.rows().counted()), (3, 2));
    let reading = read(log(), &page.0.filling(log()));
    assert!(matches!(&reading.values[0], Some(Value::Table(rows)) if rows.len() == 2));
    let page = page.at(log(), "log", Change::RemoveRow(0));
    assert_eq!(page.rows().text(0, 2), "81");
}

#[test]
fn the_first_row_is_added_behind_the_empty_one_on_the_screen() {
    let page = Page::new().at(log(), "log", Change::AddRow);
    assert_eq!(page.rows().rows.len(), 2);
}

#[test]
fn a_cell_that_cannot_be_read_takes_the_table_out() {
    let page = Page::new().logs(0, 1, "0").logs(0, 2, "hot");
    let reading = read(log(), &page.0.filling(log()));
    assert_eq!(reading.values[0], Some(Value::Refused));
    assert_eq!(reading.problems[0].cell, Some((0, "temperature")));
}

#[test]
fn an_error_is_said_from_leaving_on() {
    let sheet = contact();
    let page = Page::new().types("flow", "x").at(sheet, "flow", Change::Leave("flow".into()));
    assert!(page.0.filling(sheet).left.contains("flow"));
    assert_eq!(page.0.after(Action::Field(sheet, field(sheet, "flow"), Change::Leave("flow".into()))), None);
    let page = page.at(sheet, "flow", Change::Enter("flow".into()));
    assert!(page.0.filling(sheet).left.is_empty());
}

#[test]
fn an_emptied_sheet_comes_back() {
    let page = Page::new().types("flow", "2").does(Action::Clear(contact()));
    assert_eq!(page.number("flow"), None);
    let page = page.does(Action::Undo);
    assert_eq!(page.one("flow").text, "2");
    let page = page.does(Action::Redo);
    assert!(page.0.filling(contact()).is_empty());
}

#[test]
fn all_that_is_typed_in_a_field_is_one_step() {
    let page = Page::new().types("flow", "2").types("flow", "2.5").types("bed-volume", "10");
    let page = page.at(contact(), "bed-volume", Change::Leave("bed-volume".into())).types("bed-volume", "11");
    let page = page.does(Action::Undo);
    assert_eq!(page.one("bed-volume").text, "10");
    let page = page.does(Action::Undo).does(Action::Undo);
    assert!(page.0.filling(contact()).is_empty_at("flow"));
    assert!(!page.0.can_undo());
    let page = page.does(Action::Redo);
    assert_eq!(page.one("flow").text, "2.5");
    // another step makes another future
    assert!(!page.types("flow", "3").0.can_redo());
}

fn plan() -> &'static Declaration {
    crate::state::record::plan().unwrap()
}

fn opened(room: &crate::state::record::Room) -> Action {
    Action::Open(Rc::new(crate::state::record::open(room.text).unwrap()), None)
}

fn member(page: &Page, part: Part, id: &str) -> Option<String> {
    match page.0.now.record.part(part)?.get(id).filter(|held| !held.is_empty())?.as_ref() {
        Held::One(typed) => Some(typed.text.clone()),
        Held::Rows(_) => None,
    }
}

#[test]
fn what_is_typed_into_the_plan_stands_in_the_record_at_once() {
    let page = Page::new()
        .at(plan(), "shut-pressure", Change::Text("4,2 bar".into()))
        .at(plan(), "reject-flow", Change::Text("1.2".into()))
        .at(plan(), "hoses", Change::Cell(1, 0, "12.7".into()))
        .at(plan(), "source", Change::Text("well".into()));
    assert_eq!(member(&page, Part::Place(0), "shut-pressure").as_deref(), Some("4,2 bar"));
    assert_eq!(member(&page, Part::Ro, "reject-flow").as_deref(), Some("1.2"));
    assert_eq!(member(&page, Part::Place(0), "source").as_deref(), Some("well"));
    let hoses = |page: &Page| page.0.now.record.document()["places"][0]["hoses"].clone();
    assert_eq!(hoses(&page)[1]["bore"]["typed"], "12.7");
    let page = page.at(plan(), "hoses", Change::RemoveRow(0));
    assert_eq!(hoses(&page).as_array().map(Vec::len), Some(1));
    let page = page.at(plan(), "shut-pressure", Change::Text(String::new()));
    assert_eq!(member(&page, Part::Place(0), "shut-pressure"), None);
}

#[test]
fn the_record_that_was_typed_shows_the_same_form_again() {
    let page = Page::new()
        .at(plan(), "shut-pressure", Change::Text("4 psi".into()))
        .at(
            plan(),
            "shut-pressure",
            Change::Unit(field(plan(), "shut-pressure").term.kind.unwrap().unit("bar")),
        )
        .at(plan(), "total-chlorine", Change::Text("1,234".into()))
        .at(plan(), "hoses", Change::Cell(0, 1, "6 m".into()));
    let before = read(plan(), &page.0.filling(plan()));
    assert_eq!(before.problems.len(), 2);
    let again = Page::new().does(Action::Open(Rc::clone(&page.0.now.record), None));
    assert_eq!(read(plan(), &again.0.filling(plan())), before);
}

/// History never changes in silence: today's number stands beside the reading, which then counts no more.
#[test]
fn a_dated_reading_is_never_changed_by_typing() {
    let page = Page::new().does(opened(&crate::state::record::ROOMS[0]));
    let before = page.0.now.record.text();
    let events = |page: &Page| page.0.now.record.events().cloned().collect::<Vec<_>>();
    let kept = events(&page);
    let page = page.at(plan(), "product-flow", Change::Text("0.9".into()));
    assert_eq!(events(&page), kept);
    assert_eq!(member(&page, Part::Ro, "product-flow").as_deref(), Some("0.9"));
    assert!(page.0.filling(plan()).is_empty_at("reject-flow"), "that of another day");
    let tap = member(&page, Part::Place(0), "tap-temperature");
    assert_eq!(member(&page, Part::Ro, "anchor-temperature"), tap, "today's number has today's water");
    // emptied again, the form stays as it is shown, also in the file
    let page = page.at(plan(), "product-flow", Change::Text(String::new()));
    let again = crate::state::record::open(&page.0.now.record.text()).unwrap();
    let again = Page::new().does(Action::Open(Rc::new(again), None));
    for page in [&page, &again] {
        let filling = page.0.filling(plan());
        assert!(filling.is_empty_at("product-flow") && filling.is_empty_at("reject-flow"));
    }
    assert_eq!(page.does(Action::Undo).0.now.record.text(), before);
}

/// What is typed into any sheet is part of the record, and a step touches its own part alone.
#[test]
fn a_sheet_is_part_of_the_record_and_steps_share_the_rest() {
    let page = Page::new().does(opened(&crate::state::record::ROOMS[0]));
    let before = Rc::clone(&page.0.now.record);
    let page = page.types("flow", "2 L/min");
    let after = &page.0.now.record;
    let again = crate::state::record::open(&after.text()).unwrap();
    let again = Page::new().does(Action::Open(Rc::new(again), None));
    assert!(again.is("flow", 2e-3 / 60.0));
    let events = |record: &calc::documents::record::Record| record.events().cloned().collect::<Vec<_>>();
    let shared = events(&before).iter().zip(&events(after)).all(|(a, b)| Rc::ptr_eq(a, b));
    assert!(shared && Rc::ptr_eq(before.ro().entries(), after.ro().entries()));
}

#[test]
fn an_ro_moves_to_another_place() {
    let page = Page::new()
        .does(opened(&crate::state::record::ROOMS[0]))
        .does(Action::AddPlace(crate::store::Id::read(&"a".repeat(32)).unwrap()));
    assert_eq!((page.0.now.place, page.0.now.record.places().len()), (1, 2));
    let filling = page.0.filling(plan());
    assert!(filling.is_empty_at("shut-pressure") && !filling.is_empty_at("flush-reject-flow"));
    let page = page.at(plan(), "place-name", Change::Text("Ward 7".into())).does(Action::Place(0));
    assert_ne!(page.0.now.name(), "Ward 7");
    assert_eq!(page.0.after(Action::Place(7)), None);
    let page = page.does(Action::Place(1));
    assert_eq!(page.0.now.name(), "Ward 7");
}

#[test]
fn a_record_replaces_what_stood_there_and_that_comes_back() {
    let page = Page::new().at(plan(), "shut-pressure", Change::Text("4".into()));
    let page = page.does(opened(&crate::state::record::ROOMS[1]));
    assert!(page.0.now.record.is_invented());
    let page = page.does(Action::Undo);
    assert!(!page.0.now.record.is_invented());
    assert_eq!(member(&page, Part::Place(0), "shut-pressure").as_deref(), Some("4"));
}

#[test]
fn what_was_typed_is_kept_as_text_field_by_field() {
    let entries = |page: &Page| page.0.filling(contact()).entries;
    let page = Page::new().types("bed-volume", "28,3").types("flow", "1.5 gpm").types("rule", "contact-time");
    let before = entries(&page);
    let all = kept(contact(), None, &before);
    let typed: Vec<(&str, &str)> = all
        .iter()
        .map(|(field, text)| (*field, text.as_str()))
        .filter(|(_, text)| !text.is_empty())
        .collect();
    assert_eq!(typed, [("bed-volume", "28,3 L"), ("flow", "1.5 gpm"), ("rule", "contact-time")]);
    assert_eq!(all.len(), contact().inputs.len(), "what stood there from another record is forgotten");

    let page = page.types("flow", "1.6 gpm").types("bed-volume", "");
    let changed = kept(contact(), Some(&before), &entries(&page));
    assert_eq!(changed, [("bed-volume", String::new()), ("flow", "1.6 gpm".to_owned())]);
    assert_eq!(kept(contact(), Some(&before), &before), []);

    let page = Page::new().logs(0, 1, "60").logs(0, 2, "80");
    let logged = kept(log(), Some(&Default::default()), &page.0.filling(log()).entries);
    assert_eq!(logged, [("log", r#"[{"time":"60 s","temperature":"80 °C"}]"#.to_owned())]);
}

#[test]
fn rows_from_a_text_stand_in_the_record_and_are_taken_back_in_one_step() {
    let plan = find("plan").unwrap().declaration;
    let Shape::Table(columns) = field(plan, "months").shape else { panic!("months are a table") };
    let read =
        calc::documents::csv::read(columns, "month;water temperature (°F)\nJanuary;39,2\nfeb;38\n").unwrap();
    let page = Page::new().at(plan, "months", Change::Rows(Rc::new(read)));
    let kept = page.0.now.record.text();
    assert!(kept.contains(r#""month":"jan""#) && kept.contains(r#""typed":"39,2""#), "{kept}");
    let filling = page.0.now.filling(plan);
    let Some(Held::Rows(rows)) = filling.entries.get("months").map(AsRef::as_ref) else { panic!("no rows") };
    assert_eq!((rows.counted(), rows.unit(1).map(|unit| unit.symbol)), (2, Some("°F")));
    let back = page.does(Action::Undo);
    assert!(back.0.now.filling(plan).is_empty_at("months"));
}

#[test]
fn one_result_that_cannot_be_read_hides_no_other() {
    let sheet = find("chemical-limits").unwrap().declaration;
    let report = |page: Page, row: usize, analyte: &str, result: &str| {
        let page = page.at(sheet, "product-report", Change::Cell(row, 0, analyte.into()));
        page.at(sheet, "product-report", Change::Cell(row, 1, result.into()))
    };
    let page = report(report(Page::new(), 0, "lead", "ND"), 1, "copper", "0.12");
    let reading = read(sheet, &page.0.now.filling(sheet));
    let Some(Value::Table(rows)) = &reading.values[0] else { panic!("{reading:?}") };
    assert_eq!((rows.len(), &rows[0][0]), (1, &Some(Value::Choice("copper"))));
    assert_eq!(
        reading.problems.iter().filter_map(|problem| problem.cell).collect::<Vec<_>>(),
        [(0, "result")]
    );
    // what the sheet says of its first row is said of the second on the page
    let twice = calc::engine::sheet::Problem {
        field: "product-report",
        cell: Some((0, "analyte")),
        sentence: "twice".into(),
    };
    assert_eq!(reading.on_the_page(twice).cell, Some((1, "analyte")));
    // a log is read whole or not at all: a gap would be another log
    let log_page = Page::new().logs(0, 0, "0").logs(0, 1, "hot").logs(1, 0, "60").logs(1, 1, "80");
    assert!(read(log(), &log_page.0.now.filling(log())).values.contains(&Some(Value::Refused)));
}

/// A record whose place and RO were typed, as the store has it.
fn saved(shut: &str) -> (Rc<Record>, Id) {
    let page = Page::new().at(plan(), "ro-name", Change::Text("RO 1".into()));
    let page = page.at(plan(), "shut-pressure", Change::Text(shut.into()));
    (Rc::clone(&page.0.now.record), Id::read(&"a".repeat(32)).unwrap())
}

fn of_plan(page: &Page, id: &str) -> String {
    match page.0.filling(plan()).entries.get(id).map(AsRef::as_ref) {
        Some(Held::One(typed)) => typed.text.clone(),
        _ => String::new(),
    }
}

#[test]
fn a_flow_keeps_the_temperature_of_the_water_in_which_it_was_read() {
    let page = Page::new()
        .at(plan(), "tap-temperature", Change::Text("8".into()))
        .at(plan(), "product-flow", Change::Text("0.8".into()))
        .at(plan(), "product-flow", Change::Text("0.86".into()));
    assert_eq!(of_plan(&page, "anchor-temperature"), "8");
    assert_eq!(member(&page, Part::Ro, "anchor-temperature").as_deref(), Some("8"));
    // the tap of another day, and of another place, changes nothing about that reading
    let page = page
        .at(plan(), "tap-temperature", Change::Text("17".into()))
        .does(Action::AddPlace(crate::store::Id::read(&"a".repeat(32)).unwrap()));
    let page = page.at(plan(), "tap-temperature", Change::Text("20".into()));
    assert_eq!(of_plan(&page, "anchor-temperature"), "8");
    // nor is a temperature that somebody typed replaced by another flow
    let page = page.at(plan(), "product-flow", Change::Text("0.95".into()));
    assert_eq!(of_plan(&page, "anchor-temperature"), "8");
    // without a tap temperature there is nothing to keep
    let page = Page::new().at(plan(), "product-flow", Change::Text("0.86".into()));
    assert_eq!(of_plan(&page, "anchor-temperature"), "");
}

#[test]
fn what_is_typed_before_the_store_is_open_goes_on_in_the_record_that_was_open() {
    let (record, id) = saved("4.2");
    let page = Page::new().at(plan(), "open-pressure", Change::Text("3".into()));
    let page = page.does(Action::Load(record, id.clone()));
    let page = page.at(plan(), "open-pressure", Change::Text("3.1".into()));
    assert_eq!(page.0.now.id, Some(id));
    for (field, text) in [("ro-name", "RO 1"), ("shut-pressure", "4.2"), ("open-pressure", "3.1")] {
        assert_eq!(of_plan(&page, field), text, "{field}");
    }
    let again = Page::new().does(Action::Open(Rc::clone(&page.0.now.record), None));
    for field in ["ro-name", "shut-pressure", "open-pressure"] {
        assert_eq!(of_plan(&again, field), of_plan(&page, field), "the record has {field}");
    }
    // one step back is the record as it was kept
    let page = page.does(Action::Undo);
    assert_eq!(
        (of_plan(&page, "open-pressure").as_str(), of_plan(&page, "shut-pressure").as_str()),
        ("", "4.2")
    );
    assert!(!page.0.can_undo());
}

#[test]
fn what_another_window_saved_is_shown_as_a_step() {
    let (record, id) = saved("4.2");
    let page = Page::new().does(Action::Load(record, id.clone()));
    let page = page.at(plan(), "open-pressure", Change::Text("3.1".into()));
    let (other, _) = saved("5.5");
    let page = page.does(Action::Take(other, id));
    assert_eq!(
        (of_plan(&page, "open-pressure").as_str(), of_plan(&page, "shut-pressure").as_str()),
        ("", "5.5")
    );
    let page = page.does(Action::Undo);
    assert_eq!(
        (of_plan(&page, "open-pressure").as_str(), of_plan(&page, "shut-pressure").as_str()),
        ("3.1", "4.2")
    );
}

#[test]
fn what_another_window_saved_stays_when_a_step_is_undone_here() {
    let (record, id) = saved("4.2");
    let page = Page::new().does(Action::Load(record, id.clone()));
    let page = page.at(plan(), "open-pressure", Change::Text("3.1".into()));
    let mut other = page.0.now.record.as_ref().clone();
    let name = plan().inputs.iter().find(|field| field.id == "ro-name").unwrap();
    other.set(Part::Ro, name, Held::One(Typed::new(name, "RO 9", None))).unwrap();
    let day = calc::documents::record::When::read("2026-11-12").unwrap();
    let moved =
        calc::documents::record::Event::new("moved", &calc::documents::record::kinds::MOVED, day, None);
    other.add_event(moved).unwrap();
    let page = page.does(Action::Load(Rc::new(other), id)).does(Action::Undo);
    assert_eq!((of_plan(&page, "open-pressure").as_str(), of_plan(&page, "ro-name").as_str()), ("", "RO 9"));
    assert_eq!(page.0.now.record.count(), 1);
    let page = page.does(Action::Redo);
    assert_eq!(
        (of_plan(&page, "open-pressure").as_str(), of_plan(&page, "ro-name").as_str()),
        ("3.1", "RO 9")
    );
    assert_eq!(page.0.now.record.count(), 1);
}

/// A record with one place, and a reading there; the numbers are invented.
const WITH_A_READING: &str = r#"{ "format": "tapside-record", "version": 2, "ro": {},
    "places": [{ "id": "place-1", "place-name": "Ward 6" }],
    "events": [{ "id": "e1", "kind": "reading", "at": "2026-11-12T07:00+01:00", "place": "place-1",
        "fields": { "product-flow": "0.86 L/min", "reject-flow": "1.4 L/min" } }] }"#;

fn recovery() -> &'static Declaration {
    find("recovery").unwrap().declaration
}

fn with_a_reading() -> Page {
    let record = Record::open(WITH_A_READING).unwrap();
    Page::new().does(Action::Open(Rc::new(record), None))
}

/// What stands in a field of the recovery sheet, and whether somebody typed it.
fn standing(page: &Page, id: &str) -> (String, bool) {
    let filling = page.0.filling(recovery());
    let text = match filling.entries.get(id).map(|held| held.as_ref().clone()) {
        Some(Held::One(typed)) => typed.shown().to_owned(),
        _ => String::new(),
    };
    (text, !filling.given.contains_key(id))
}

#[test]
fn a_sheet_is_filled_from_the_record_in_one_step() {
    let page = with_a_reading().does(Action::Fill(recovery()));
    assert_eq!(standing(&page, "product-flow"), ("0.86 L/min".into(), false));
    assert_eq!(standing(&page, "reject-flow"), ("1.4 L/min".into(), false));
    // nothing is left to fill, and nothing happens
    assert!(page.0.after(Action::Fill(recovery())).is_none());
    let page = page.does(Action::Undo);
    assert_eq!((standing(&page, "product-flow").0, standing(&page, "reject-flow").0), Default::default());
    let page = page.does(Action::Redo).at(recovery(), "reject-flow", Change::Text("1.5".into()));
    assert_eq!(standing(&page, "reject-flow"), ("1.5".into(), true));
    assert_eq!(standing(&page, "product-flow"), ("0.86 L/min".into(), false));
    let page = page.does(Action::Clear(recovery()));
    assert!(page.0.filling(recovery()).given.is_empty());
}

#[test]
fn what_is_typed_is_never_written_over() {
    let page = with_a_reading().at(recovery(), "product-flow", Change::Text("0.5".into()));
    // the reject flow of the reading belongs to its own product flow
    assert!(page.0.after(Action::Fill(recovery())).is_none());
    assert_eq!(standing(&page, "product-flow"), ("0.5".into(), true));
}

#[test]
fn a_kept_sheet_is_a_start_and_stays_what_it_was() {
    let at = calc::engine::calendar::Moment::read("2026-11-12T07:05+01:00").unwrap();
    let id = Id::read(&"c".repeat(32)).unwrap();
    assert!(with_a_reading().0.after(Action::Keep(recovery(), id.clone(), at)).is_none(), "nothing to keep");
    let page = with_a_reading().does(Action::Fill(recovery())).does(Action::Keep(recovery(), id.clone(), at));
    let kept = |page: &Page| page.0.now.record.sheets().iter().find(|sheet| sheet.kept.is_some()).cloned();
    let then = kept(&page);
    assert!(then.is_some());
    let page = page.at(recovery(), "product-flow", Change::Text("0.4".into()));
    assert_eq!(kept(&page), then);
    let page = page.does(Action::StartFrom(id.text().into()));
    assert_eq!(standing(&page, "product-flow"), ("0.86 L/min".into(), false));
    let page = page.does(Action::Undo);
    assert_eq!(standing(&page, "product-flow"), ("0.4".into(), true));
    assert_eq!(kept(&page), then);
    assert!(page.0.after(Action::StartFrom("no-such".into())).is_none());
}

#[test]
fn a_number_handed_over_says_from_which_sheet() {
    let flow = field(recovery(), "product-flow");
    let hand = |text: &str| Action::Hand(recovery(), flow, text.into(), "timed-jug");
    let page =
        with_a_reading().at(recovery(), "product-flow", Change::Text("0.5".into())).does(hand("0.9 L/min"));
    assert_eq!(standing(&page, "product-flow"), ("0.9 L/min".into(), false));
    let page = page.does(Action::Undo);
    assert_eq!(standing(&page, "product-flow"), ("0.5".into(), true));
}

fn drawn(letter: &str) -> Option<Id> {
    Id::read(&letter.repeat(32))
}

fn moment(text: &str) -> Moment {
    Moment::read(text).unwrap()
}

#[test]
fn a_record_gets_its_own_id_with_the_first_change() {
    let room = Rc::new(record::open(record::ROOMS[0].text).unwrap());
    let page = Page::new().does(Action::Open(room, drawn("a")));
    assert_eq!(page.0.now.record.id(), None, "nobody changed it");
    let page = page.types("bed-volume", "28").types("bed-volume", "28.3");
    let id = page.0.now.record.id().cloned();
    assert_eq!(id.as_deref(), Some(&*"a".repeat(32)));
    // under another name in the store it is still a state of the same record
    let page = page.does(Action::Renamed(drawn("b").unwrap())).types("flow", "1");
    assert_eq!(page.0.now.record.id(), id.as_ref());
    // of a record that was begun before the store was open
    let page = Page::new().types("bed-volume", "1").does(Action::Named(drawn("c").unwrap()));
    assert_eq!(page.0.now.record.id().map(|id| id.to_string()), Some("c".repeat(32)));
}

#[test]
fn another_state_of_the_record_is_merged_in_one_step() {
    let page = Page::new().does(Action::Named(drawn("a").unwrap())).types("bed-volume", "28.3");
    let here = Rc::clone(&page.0.now.record);
    let mut file = here.as_ref().clone();
    file.add_place("place-2").unwrap();
    assert!(file.is_same_record(&here));
    let merged = here.merge(&file, None).unwrap();
    assert_eq!(merged.conflicts, []);
    let page = page.does(Action::Merge(Rc::new(merged.record)));
    assert_eq!((page.0.now.record.places().len(), page.one("bed-volume").text), (2, "28.3".into()));
    let page = page.does(Action::Undo);
    assert_eq!(page.0.now.record.places().len(), 1);
    assert_eq!(page.0.now.id, drawn("a"));
}

#[test]
fn what_is_dated_later_does_not_count_until_then() {
    let page = with_a_reading().does(Action::Clock(moment("2026-11-12T06:59+01:00")));
    assert_eq!(page.0.now.offers(recovery()).len(), 0);
    // an undone step is not as of the moment when it was done
    let page = page.types("bed-volume", "1").does(Action::Clock(moment("2026-11-12T07:00+01:00")));
    assert_eq!(page.0.now.offers(recovery()).len(), 2);
    let page = page.does(Action::Undo);
    assert_eq!(page.0.now.offers(recovery()).len(), 2);
    assert!(page.0.after(Action::Clock(moment("2026-11-12T07:00+01:00"))).is_none(), "the same minute");
}

#[test]
fn events_from_rows_are_one_step() {
    use calc::documents::csv::events;
    let page = with_a_reading();
    let count = page.0.now.record.count();
    let text =
        "Date and time,Product flow (L/min),Kind of event\n2026-11-13,0.5,reading\n2026-11-14,0.6,reading\n";
    let import = events::read(&page.0.now.record, None, text, moment("2026-11-15T08:00Z"), "drawn").unwrap();
    let events = Rc::new(import.events);
    let page = page.does(Action::AddEvents(Rc::clone(&events)));
    assert_eq!(page.0.now.record.count(), count + 2);
    assert!(page.0.after(Action::AddEvents(events)).is_none(), "they are there already");
    let page = page.does(Action::Undo);
    assert_eq!(page.0.now.record.count(), count);
}

#[test]
fn events_dated_later_than_the_clock_are_counted() {
    let page = with_a_reading();
    assert_eq!(page.0.now.dated_later(), 0, "of a page that has no clock yet nobody knows");
    let page = page.does(Action::Clock(moment("2026-11-12T06:59+01:00")));
    assert_eq!(page.0.now.dated_later(), 1);
    assert_eq!(page.does(Action::Clock(moment("2026-11-12T07:00+01:00"))).0.now.dated_later(), 0);
    // an invented room is the same on any day
    let room = record::open(record::ROOMS[0].text).unwrap();
    let early = Page::new()
        .does(Action::Clock(moment("2020-01-01T00:00Z")))
        .does(Action::Open(Rc::new(room.clone()), None));
    let plan = |page: &Page| Rc::clone(&page.0.now.plan.entries);
    assert_eq!(
        (early.0.now.dated_later(), plan(&early)),
        (0, plan(&Page::new().does(Action::Open(Rc::new(room), None))))
    );
}
