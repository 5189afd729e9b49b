//! Ten years of an invented RO: a reading and a chlorine test every morning, a disinfection every week, samples every month,
//! parts as they wear out, moves between two places. Seeded; no clock and no entropy, so that every run gives the same.
//!
//! All numbers are invented. They hang together as in a real RO, so that a trend over them shows something:
//! * the tap is coldest in February and warmest in August, and the home's water comes from a deeper main than the ward's;
//! * product flow follows the temperature at about 3 % per °C, falls by 4 % a year while the membrane fouls, and comes
//!   back with a new membrane; the reject valve is not touched, so recovery falls with it;
//! * salt passage grows with the membrane's age; the product's conductivity is that share of the feed's;
//! * the filter's pressure drop doubles until it is changed; the water meter counts what product and reject flows add up to;
//! * total chlorine is what the utility doses, and a little of it comes through as the carbon is used up.

use calc::documents::record::{Event, Held, Id, Record, Rows, Typed, When, kinds};
use chrono::{Datelike, Days, NaiveDate};
use serde_json::json;

/// The places, fields and sheets of the ten years, without an event.
pub fn without_events() -> Result<Record, String> {
    let mut document: serde_json::Value =
        serde_json::from_str(include_str!("../ostrin-vale.json")).map_err(|error| error.to_string())?;
    let mut home = document["places"][0].clone();
    home["id"] = json!(HOME);
    home["place-name"] = json!("Home, 4 Sallow Lane");
    if let Some(places) = document["places"].as_array_mut() {
        places.push(home);
    }
    document["instruments"] = json!([{ "id": METER, "instrument-name": "Conductivity meter 1" }]);
    document["events"] = json!([]);
    Record::from_document(document).map_err(|refused| format!("{refused:?}"))
}

const WARD: &str = "place-1";
const HOME: &str = "place-2";
const METER: &str = "meter-1";
/// Of the first reading.
const FIRST: (i32, u32, u32) = (2026, 1, 5);
/// How many mornings.
pub const DAYS: u32 = 3650;
/// Of running, a day.
const HOURS: f64 = 6.0;

/// What is true on the last evening, as the life was meant; written down while it is made, not read from the record.
#[derive(Debug, Default, PartialEq)]
pub struct Meant {
    /// The evening, as a moment.
    pub at: String,
    /// Where the RO is.
    pub place: String,
    /// The last reading.
    pub reading: String,
    /// The reading for the plan at that place, and that in good order.
    pub anchor: String,
    /// The reading in good order.
    pub baseline: String,
    /// Each part: its id, the event that changed it, days, litres and sessions since.
    pub parts: Vec<(String, String, i64, f64, f64)>,
    /// Why the RO may not be used: the reason, and since which event.
    pub locks: Vec<(String, String)>,
    /// Samples without a result.
    pub pending: Vec<String>,
    /// What was done last, and by when it is to be done again.
    pub due: Vec<(String, String)>,
    /// The event that chose the limits.
    pub limits: String,
    /// Product flows in L/min of readings that were corrected, by id.
    pub corrected: Vec<(String, f64)>,
    /// Readings that never were.
    pub withdrawn: Vec<String>,
}

struct Life {
    record: Record,
    meant: Meant,
    seed: u64,
    /// Litres and sessions on the counters.
    litres: f64,
    sessions: u32,
}

/// What stands in a field: its id and the text as somebody would type it.
type Said<'a> = (&'a str, String);

impl Life {
    /// Between -1 and 1.
    fn noise(&mut self) -> f64 {
        self.seed = self.seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.seed >> 33) as f64 / f64::from(1_u32 << 30) - 1.0
    }

    /// An event at a minute of that day by the clock there, typed five minutes later.
    fn event(
        &mut self,
        id: &str,
        kind: &'static kinds::Kind,
        (day, minute): (NaiveDate, u32),
        of: Option<&str>,
        said: &[Said],
    ) -> Result<(), String> {
        let place = Id::from(self.meant.place.as_str());
        let mut event = Event::new(id, kind, when(day, minute)?, Some(place));
        event.typed = match when(day, minute + 5)? {
            When::At(moment) => Some(moment),
            When::On(_) => None,
        };
        event.of = of.map(Id::from);
        event.who = if day.weekday().num_days_from_monday() < 5 { "AB" } else { "night nurse" }.to_owned();
        // a correction has the fields of a reading here
        let fields = if event.is_correction() { &kinds::READING } else { kind };
        for (field, text) in said {
            let field = fields.field(field).ok_or_else(|| format!("{kind:?} has no field {field}"))?;
            event.fields.set(field, Held::One(Typed::new(field, text.as_str(), None)));
        }
        self.add(event)
    }

    fn add(&mut self, event: Event) -> Result<(), String> {
        let id = event.id.clone();
        self.record.add_event(event).map_err(|sentence| format!("{id}: {sentence:?}"))
    }

    /// Of each kind, and of each part, the last one counts.
    fn due(&mut self, last: &str, id: String, by: NaiveDate) {
        self.meant.due.retain(|(done, _)| !done.starts_with(last));
        self.meant.due.push((id, by.to_string()));
    }
}

/// By the clock there: an hour more from April to October.
fn when(day: NaiveDate, minute: u32) -> Result<When, String> {
    let offset = if (4..=10).contains(&day.month()) { 2 } else { 1 };
    let text = format!("{day}T{:02}:{:02}+{offset:02}:00", minute / 60, minute % 60);
    When::read(&text).ok_or(text)
}

fn later(day: NaiveDate, days: u64) -> NaiveDate {
    day.checked_add_days(Days::new(days)).unwrap_or(day)
}

const MORNING: u32 = 7 * 60;
const EVENING: u32 = 18 * 60;

/// Parts, after how many days each is changed, and on which day for the first time.
const PARTS: [(&str, u32, u32); 5] = [
    ("sediment-filter", 60, 0),
    ("first-carbon", 120, 0),
    ("second-carbon", 240, 0),
    ("membrane", 1460, 0),
    ("retentive-filter", 180, 30),
];

/// The record, and what is meant to be true on its last evening.
pub fn ten_years() -> Result<(Record, Meant), String> {
    let (year, month, day) = FIRST;
    let first = NaiveDate::from_ymd_opt(year, month, day).ok_or("no such day")?;
    let meant = Meant { place: WARD.to_owned(), ..Meant::default() };
    let mut life = Life { record: without_events()?, meant, seed: 1, litres: 0.0, sessions: 0 };
    life.event(
        "limits",
        &kinds::LIMITS_CHOSEN,
        (first, MORNING - 60),
        None,
        &[("limit-set", "iso-23500-3-2019".into())],
    )?;
    life.meant.limits = "limits".into();
    for number in 0..DAYS {
        morning(&mut life, first, number)?;
        rest_of_the_day(&mut life, first, number)?;
    }
    let last = later(first, u64::from(DAYS - 1));
    life.meant.at = when(last, 23 * 60)?.to_string();
    // as somebody would read it on the evening before the next sessions
    for (_, changed, days, litres, sessions) in &mut life.meant.parts {
        let (then, at_litres, at_sessions) = life
            .record
            .event(changed)
            .map(|event| (event.when.day(), *litres, *sessions))
            .ok_or("a part that was never changed")?;
        *days = (last - then).num_days();
        *litres = life.litres - at_litres;
        *sessions = f64::from(life.sessions) - at_sessions;
    }
    life.meant.parts.sort_by_key(|(part, ..)| PARTS.iter().position(|(named, ..)| named == part));
    Ok((life.record, life.meant))
}

/// What a technician does before the first session: a move, changed parts, the reading, the chlorine test.
fn morning(life: &mut Life, first: NaiveDate, number: u32) -> Result<(), String> {
    let day = later(first, u64::from(number));
    if number % 90 == 45 {
        life.meant.place = if life.meant.place == WARD { HOME } else { WARD }.to_owned();
        life.event(&format!("moved-{number}"), &kinds::MOVED, (day, MORNING - 50), None, &[])?;
    }
    for (part, every, from) in PARTS {
        if number >= from && (number - from).is_multiple_of(every) {
            let (id, by) = (format!("part-{part}-{number}"), later(day, u64::from(every)));
            let said = [
                ("part", part.to_owned()),
                ("water-counter", format!("{:.3} m³", life.litres / 1000.0)),
                ("session-counter", life.sessions.to_string()),
                ("next-due", by.to_string()),
            ];
            life.event(&id, &kinds::PART_CHANGED, (day, MORNING - 40), None, &said)?;
            life.due(&format!("part-{part}-"), id.clone(), by);
            life.meant.parts.retain(|(named, ..)| named != part);
            let litres = (life.litres / 1000.0 * 1000.0).round();
            life.meant.parts.push((part.into(), id, 0, litres, f64::from(life.sessions)));
        }
    }
    let at_home = life.meant.place == HOME;
    // 365 days round, coldest in the middle of February
    let season = -((f64::from(day.ordinal()) - 46.0) / 365.0 * std::f64::consts::TAU).cos();
    let temperature = if at_home { 10.0 + 3.0 * season } else { 10.5 + 6.5 * season } + 0.4 * life.noise();
    let age = f64::from(number % 1460) / 365.0;
    let colder = (0.03 * (temperature - 25.0)).exp();
    let product = 1.45 * colder * (1.0 - 0.04 * age) * (1.0 + 0.01 * life.noise());
    let reject = 1.2 * (1.0 + 0.01 * life.noise());
    let feed = if at_home { 310.0 } else { 90.0 } * (1.0 + 0.05 * season + 0.02 * life.noise());
    let salt =
        feed * (0.03 + 0.006 * age) * (1.0 + 0.02 * (temperature - 10.0)) * (1.0 + 0.03 * life.noise());
    let filter = 0.12 * (1.0 + f64::from(number % 60) / 60.0);
    let chlorine = if at_home { 0.6 } else { 1.2 } + 0.1 * life.noise();
    // litres are counted whole, as they stand on the meter
    life.litres += ((product + reject) * 60.0 * HOURS).round();
    life.sessions += 1;
    let id = format!("reading-{number}");
    let slipped = number % 97 == 60;
    let typed_product = if slipped { product * 10.0 } else { product };
    let said = [
        ("tap-temperature", format!("{temperature:.1} °C")),
        ("product-flow", format!("{typed_product:.2} L/min")),
        ("reject-flow", format!("{reject:.2} L/min")),
        ("pump-pressure", format!("{:.1} bar", 9.0 + 0.1 * life.noise())),
        ("product-pressure", format!("{:.1} bar", 0.4 + 0.05 * life.noise())),
        ("membrane-drop", format!("{:.2} bar", 0.1 * (product + reject) + 0.01 * life.noise())),
        ("feed-conductivity", format!("{feed:.0} µS/cm")),
        ("product-conductivity", format!("{salt:.1} µS/cm")),
        ("shut-pressure", format!("{:.1} bar", 4.2 + 0.1 * life.noise())),
        ("filter-drop", format!("{filter:.2} bar")),
        ("filter-drop-flow", format!("{:.2} L/min", product + reject)),
        ("total-chlorine", format!("{chlorine:.2} mg/L")),
        ("hardness-after-softener", format!("{:.0} mg/L", 12.0 + 3.0 * life.noise())),
        ("water-counter", format!("{:.3} m³", life.litres / 1000.0)),
        ("session-counter", life.sessions.to_string()),
    ];
    life.event(&id, &kinds::READING, (day, MORNING), None, &said)?;
    life.meant.reading = id.clone();
    if slipped {
        // a comma in the wrong place, seen at noon
        let right: f64 = format!("{product:.2}").parse().map_err(|_| "no number")?;
        let said = [("product-flow", format!("{right} L/min"))];
        life.event(&format!("correction-{number}"), &kinds::CORRECTION, (day, 12 * 60), Some(&id), &said)?;
        life.meant.corrected.push((id.clone(), right));
    }
    if number % 730 == 400 {
        // written down for the RO beside it
        let twice = format!("reading-{number}-b");
        life.event(&twice, &kinds::READING, (day, MORNING + 10), None, &said)?;
        let mut never =
            Event::new(format!("withdrawn-{number}"), &kinds::CORRECTION, when(day, 13 * 60)?, None);
        never.of = Some(Id::from(twice.as_str()));
        never.becomes.withdrawn = true;
        life.add(never)?;
        life.meant.withdrawn.push(twice);
    }
    if number % 90 == 46 || number == 1 {
        // the plan starts from the first whole day at a place
        life.event(
            &format!("anchor-{number}"),
            &kinds::REFERENCE_CHOSEN,
            (day, MORNING + 20),
            Some(&id),
            &[("reference", "anchor".into())],
        )?;
        life.meant.anchor = id.clone();
    }
    if number % 1460 == 1 {
        life.event(
            &format!("baseline-{number}"),
            &kinds::REFERENCE_CHOSEN,
            (day, MORNING + 25),
            Some(&id),
            &[("reference", "baseline".into())],
        )?;
        life.meant.baseline = id;
    }
    let through = (0.01 + 0.03 * f64::from(number % 120) / 120.0).max(0.0);
    let said = [
        ("carbons-in-series", "two".to_owned()),
        ("chlorine-after-first", format!("{through:.2} mg/L")),
        ("chlorine-after-second", "<0.02 mg/L".to_owned()),
        ("run-in-time", "15 min".to_owned()),
    ];
    life.event(&format!("chlorine-{number}"), &kinds::CHLORINE_TEST, (day, MORNING + 30), None, &said)
}

/// Disinfections, samples and reports.
fn rest_of_the_day(life: &mut Life, first: NaiveDate, number: u32) -> Result<(), String> {
    let day = later(first, u64::from(number));
    if number % 7 == 5 {
        let (id, by) = (format!("heat-{number}"), later(day, 7));
        let said = [
            ("set-temperature", format!("{:.1} °C", 82.0 + life.noise())),
            ("set-time", "30 min".to_owned()),
            ("next-due", by.to_string()),
        ];
        life.event(&id, &kinds::HEAT_DISINFECTION, (day, EVENING), None, &said)?;
        life.due("heat-", id, by);
    }
    if number % 91 == 9 || number + 1 == DAYS {
        let (id, by) = (format!("chemical-{number}"), later(day, 91));
        let said = [
            ("agent", "peracetic-acid".to_owned()),
            ("disinfectant-name", "Invented PAA 4 %".to_owned()),
            ("dwell-time", "30 min".to_owned()),
            ("next-due", by.to_string()),
        ];
        life.event(&id, &kinds::CHEMICAL_DISINFECTION, (day, EVENING + 60), None, &said)?;
        life.due("chemical-", id.clone(), by);
        if number + 1 == DAYS {
            // on the last evening nobody has tested yet
            life.meant.locks.push(("disinfectant-inside".into(), id));
        } else {
            let said = [
                ("disinfectant-name", "Invented PAA 4 %".to_owned()),
                ("residual-test", "own-test".to_owned()),
                ("residual-limit", "1 mg/L".to_owned()),
                ("residual-now", "<0.5 mg/L".to_owned()),
                ("residual-later", "<0.5 mg/L".to_owned()),
                ("pause", "15 min".to_owned()),
                ("needed-pause", "15 min".to_owned()),
            ];
            life.event(
                &format!("residual-{number}"),
                &kinds::RESIDUAL_TEST,
                (day, EVENING + 150),
                None,
                &said,
            )?;
        }
    }
    if number % 182 == 100 {
        let (id, by) = (format!("meter-{number}"), later(day, 365));
        let said = [("check-result", "within".to_owned()), ("next-due", by.to_string())];
        life.event(&id, &kinds::INSTRUMENT_CHECKED, (day, 14 * 60), Some(METER), &said)?;
        life.due("meter-", id, by);
    }
    // a sample a month; the results come eight days later, and a whole report once a year
    if number % 30 == 14 {
        let id = format!("sample-{number}");
        let said = [
            ("sample-point", "product-water".to_owned()),
            ("laboratory", "Invented Water Laboratory".to_owned()),
        ];
        life.event(&id, &kinds::SAMPLE_DRAWN, (day, MORNING + 40), None, &said)?;
        life.meant.pending.push(id);
    }
    if number % 30 == 22 {
        let sample = format!("sample-{}", number - 8);
        let (id, by) = (format!("culture-{number}"), later(day, 30));
        let said = [
            ("fluid", "dialysis-water".to_owned()),
            ("colonies", format!("{:.0}", 2.0 + 2.0 * life.noise())),
            ("plated-volume", "1 mL".to_owned()),
            ("endotoxin", "<0.03 EU/mL".to_owned()),
            ("next-due", by.to_string()),
        ];
        life.event(&id, &kinds::CULTURE_AND_ENDOTOXIN, (day, 15 * 60), Some(&sample), &said)?;
        life.due("culture-", id, by);
        life.meant.pending.retain(|pending| *pending != sample);
        if number % 360 == 22 {
            report(life, number, day, &sample)?;
        }
    }
    Ok(())
}

/// The substances of a yearly report, in mg/L behind the RO.
const REPORTED: [(&str, &str); 6] = [
    ("calcium", "0.4"),
    ("magnesium", "<0.1"),
    ("sodium", "1.8"),
    ("potassium", "<0.2"),
    ("chloride", "1.1"),
    ("sulfate", "<0.5"),
];

fn report(life: &mut Life, number: u32, day: NaiveDate, sample: &str) -> Result<(), String> {
    let kind = &kinds::LABORATORY_REPORT;
    let place = Id::from(life.meant.place.as_str());
    let mut event = Event::new(format!("report-{number}"), kind, when(day, 15 * 60 + 5)?, Some(place));
    event.of = Some(Id::from(sample));
    let field = kind.field("product-report").ok_or("no such field")?;
    if let calc::engine::sheet::Shape::Table(columns) = field.shape {
        let column = |id: &str| columns.iter().position(|column| column.id == id).ok_or("no such column");
        let (analyte, result) = (column("analyte")?, column("result")?);
        let mut rows = Rows::default();
        for (row, (name, found)) in REPORTED.iter().enumerate() {
            rows.set(columns, (row, analyte), (*name).to_owned());
            rows.set(columns, (row, result), format!("{found} mg/L"));
        }
        event.fields.set(field, Held::Rows(rows));
    }
    life.add(event)
}
