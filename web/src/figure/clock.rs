//! A day as a bar of the clock: low while the RO is off, half high while it runs, full while the water is used.
//!
//! The height alone tells the three apart, on paper and for every eye. Under the bar stands every time in words.

use super::read::Numbers;
use crate::sheet::shown::duration;
use crate::text::{WORDS, alone, capital, counted, fill, say};
use calc::engine::calendar::Moment;
use calc::engine::quantity::Time;
use calc::engine::sheet::{Answer, Clocked, Field, Missing, Shape, Shown};
use yew::prelude::*;

const HOUR: f64 = 3600.0;
/// Of an hour: an end that lies no further beyond the hours is at the limit.
const ROUNDING: f64 = 1e-6;
/// No more labels stand under the bar.
const LABELS: f64 = 5.0;
/// Where each of the three heights begins, in hundredths.
const TOPS: [f64; 3] = [70.0, 45.0, 12.0];

/// One row of the course: its times since the beginning, in seconds, and the same by the clock.
struct Stretch {
    number: f64,
    times: [Option<f64>; 5],
    moments: [Option<Moment>; 5],
    is_noted: bool,
}

/// The day, read.
struct Day {
    stretches: Vec<Stretch>,
    hours: Option<f64>,
}

impl Day {
    fn read(of: &Clocked, numbers: &Numbers) -> Result<Self, Option<Missing>> {
        let (columns, rows) = numbers.rows(of.course)?;
        let by_clock = of.clock.and_then(|clock| numbers.rows(clock).ok()).map(|(_, rows)| rows);
        let places = of.columns().map(|id| columns.iter().position(|column| column.id == id));
        let note = columns.iter().position(|column| column.id == of.note.0);
        let stretch = |(index, row): (usize, &Vec<Answer>)| {
            let time = |place: Option<usize>| match row.get(place?)? {
                Answer::Number(si, _) => Some(*si),
                _ => None,
            };
            let moment = |place: Option<usize>| match by_clock?.get(index)?.get(place?)? {
                Answer::Moment(moment) => Some(*moment),
                _ => None,
            };
            let note = note.and_then(|place| row.get(place));
            Stretch {
                number: time(Some(0)).unwrap_or(f64::NAN),
                times: places.map(time),
                moments: places.map(moment),
                is_noted: matches!(note, Some(Answer::Choice(named)) if named.id == of.note.1),
            }
        };
        let stretches: Vec<Stretch> = rows.iter().enumerate().map(stretch).collect();
        let hours = numbers.number(of.hours).ok().map(|(si, _)| si);
        Ok(Self { stretches, hours })
    }

    /// When the last stretch is over.
    fn end(&self) -> Option<f64> {
        self.stretches.last()?.times[4]
    }

    /// What the whole width stands for.
    fn width(&self) -> f64 {
        let longest = self.end().unwrap_or(0.0).max(self.hours.unwrap_or(0.0));
        // the last label needs room
        if longest > 0.0 { 1.02 * longest } else { HOUR }
    }

    /// The first moment, where the clock is known.
    fn begins(&self) -> Option<Moment> {
        self.stretches.first()?.moments[0]
    }

    /// A time by the clock, else since the beginning.
    fn says(stretch: &Stretch, place: usize) -> Option<String> {
        let moment = stretch.moments[place].map(Moment::clock_time);
        moment.or(stretch.times[place].map(duration))
    }

    /// What stands under the bar, and where: full hours of the clock, else hours since the beginning.
    fn ticks(&self) -> Vec<(f64, String)> {
        let step = HOUR
            * [1.0, 2.0, 3.0, 4.0, 6.0]
                .into_iter()
                .find(|hours| self.width() / HOUR / hours <= LABELS)
                .unwrap_or(12.0);
        let begins = self.begins();
        let first = begins.map_or(0.0, |moment| moment.until_full_hour().si());
        let count = ((self.width() - first) / step).floor().clamp(0.0, 24.0) as u32;
        let tick = |index: u32| {
            let at = first + step * f64::from(index);
            let label = match begins {
                Some(begins) => begins.after(Time::of(at)).map(Moment::clock_time),
                None => Some(format!("{:.0}", at / HOUR)),
            };
            Some((at, label?))
        };
        (0..=count).filter_map(tick).collect()
    }
}

/// The bar, its sentence and every time in words; or what is needed for it.
pub fn clock(id: &str, of: &'static Clocked, numbers: &Numbers) -> (Html, Vec<Missing>) {
    let day = match Day::read(of, numbers) {
        Ok(day) if !day.stretches.is_empty() => day,
        Ok(_) => return (html! { <p class="chart-summary">{ WORDS.figure.empty_day }</p> }, Vec::new()),
        Err(why) => return (Html::default(), why.into_iter().collect()),
    };
    let missing = match numbers.number(of.hours) {
        Err(Some(why)) => vec![why],
        _ => Vec::new(),
    };
    let drawn = html! {
        <>
            <p class="chart-summary" id={format!("{id}-summary")}>{ sentence(&day) }</p>
            { bar(of, &day) }
            <ol class="day-times">
                { for day.stretches.iter().map(|stretch| times(of, stretch, numbers)) }
            </ol>
            { for of.last.iter().filter_map(|shown| said(*shown, numbers)) }
        </>
    };
    (drawn, missing)
}

/// How many there are, from when to when, and what is left.
fn sentence(day: &Day) -> String {
    let count = counted(WORDS.figure.sessions, day.stretches.len());
    let from = day.stretches.first().and_then(|stretch| Day::says(stretch, 0)).unwrap_or_default();
    let to = day.stretches.last().and_then(|stretch| Day::says(stretch, 4)).unwrap_or_default();
    let places = [("count", count.as_str()), ("from", &from), ("to", &to)];
    let said = fill(WORDS.figure.day, &places);
    let left = day.hours.zip(day.end()).map(|(hours, end)| {
        let over = end - hours;
        let template = WORDS.figure.day_left[usize::from(over > ROUNDING * HOUR)];
        fill(template, &[("time", &duration(over.abs())), ("hours", &duration(hours))])
    });
    let how = if day.begins().is_none() { WORDS.figure.since_set_up } else { "" };
    [alone(&said), left.unwrap_or_default(), how.to_owned()].join(" ").trim().to_owned()
}

fn bar(of: &Clocked, day: &Day) -> Html {
    let width = day.width();
    let at = |time: f64| format!("{:.2}%", 100.0 * time / width);
    let block = |class: &'static str, height: usize, span: (Option<f64>, Option<f64>)| match span {
        (Some(from), Some(to)) if to > from => {
            let (top, high) = (TOPS[height], 100.0 - TOPS[height]);
            html! { <rect {class} x={at(from)} width={at(to - from)} y={format!("{top}%")} height={format!("{high}%")} /> }
        }
        _ => Html::default(),
    };
    let stretch = |stretch: &Stretch| {
        let [set_up, on, ready, ends, done] = stretch.times;
        let middle = ready.zip(ends).or(on.zip(done)).map(|(from, to)| at((from + to) / 2.0));
        html! {
            <>
                { block("day-low", 0, (set_up, on)) }
                { block("day-half", 1, (on, done)) }
                { block("day-full", 2, (ready, ends)) }
                if let Some(x) = middle {
                    <text class={if ready.is_some() && ends.is_some() { "day-number day-number-full" } else { "day-number" }} text-anchor="middle" {x} y="80%">{ stretch.number }</text>
                }
                if let (true, Some(set_up)) = (stretch.is_noted, set_up) {
                    <svg class="day-note" x={at(set_up)} y="18%"><path d="M8 -7L14 0L8 7L2 0Z" /></svg>
                }
            </>
        }
    };
    let over = day.hours.zip(day.end()).filter(|(hours, end)| end - hours > ROUNDING * HOUR);
    html! {
        <>
            <svg class="day" aria-hidden="true" focusable="false">
                if let Some(hours) = day.hours { <rect class="day-track" x="0" y="12%" width={at(hours)} height="88%" /> }
                { for day.stretches.iter().map(stretch) }
                if let Some((hours, end)) = over {
                    <rect class="day-over" x={at(hours)} y="94%" width={at(end - hours)} height="6%" />
                }
                if let Some(hours) = day.hours {
                    <line class="bar-halo" x1={at(hours)} x2={at(hours)} y1="0" y2="100%" />
                    <line class="bar-limit" x1={at(hours)} x2={at(hours)} y1="0" y2="100%" />
                }
            </svg>
            <svg class="day-scale" aria-hidden="true" focusable="false">
                { for day.ticks().into_iter().map(|(time, label)| {
                    let anchor = if time < 0.04 * width { "start" } else if time > 0.87 * width { "end" } else { "middle" };
                    html! {
                        <>
                            <line x1={at(time)} x2={at(time)} y1="0" y2="25%" />
                            <text x={at(time)} y="85%" text-anchor={anchor}>{ label }</text>
                        </>
                    }
                }) }
            </svg>
            <ul class="day-key" aria-hidden="true">
                { key("day-low", 0, WORDS.figure.ro_off) }
                { key("day-half", 1, WORDS.figure.ro_on) }
                { key("day-full", 2, say(of.full_name)) }
                if day.hours.is_some() {
                    <li><svg><line class="bar-limit" x1="50%" x2="50%" y1="0" y2="100%" /></svg>{ WORDS.figure.day_ends }</li>
                }
                if day.stretches.iter().any(|stretch| stretch.is_noted) {
                    <li><svg><svg class="day-note" x="20%" y="50%"><path d="M8 -7L14 0L8 7L2 0Z" /></svg></svg>{ WORDS.figure.carbon_change }</li>
                }
            </ul>
        </>
    }
}

fn key(class: &'static str, height: usize, words: &'static str) -> Html {
    let (top, high) = (TOPS[height], 100.0 - TOPS[height]);
    html! {
        <li>
            <svg><rect {class} x="10%" width="80%" y={format!("{top}%")} height={format!("{high}%")} /></svg>
            { words }
        </li>
    }
}

/// The times of one stretch, each with its name.
fn times(of: &Clocked, stretch: &Stretch, numbers: &Numbers) -> Html {
    let Ok((columns, _)) = numbers.rows(of.course) else { return Html::default() };
    let name =
        |id: &str| columns.iter().find(|column| column.id == id).map(|column: &Field| say(column.term.name));
    let note = columns.iter().find(|column| column.id == of.note.0).and_then(|column| match column.shape {
        Shape::Choice(named) => {
            named.iter().find(|choice| choice.id == of.note.1).map(|choice| (column, choice))
        }
        _ => None,
    });
    html! {
        <li>
            <strong>{ capital(say(of.full_name)) }{ " " }{ stretch.number }</strong>
            <dl>
                { for of.columns().into_iter().enumerate().map(|(place, id)| html! {
                    <div>
                        <dt>{ name(id).unwrap_or_default() }</dt>
                        <dd>
                            if let Some(said) = Day::says(stretch, place) { <strong>{ said }</strong> }
                            else { <span class="missing">{ WORDS.not_known }</span> }
                        </dd>
                    </div>
                }) }
                if let (true, Some((column, choice))) = (stretch.is_noted, note) {
                    <div><dt>{ say(column.term.name) }</dt><dd><strong>{ say(choice.name) }</strong></dd></div>
                }
            </dl>
        </li>
    }
}

/// A number under the bar, with its name.
fn said(shown: Shown, numbers: &Numbers) -> Option<Html> {
    let Shown::Answered(id) = shown else { return None };
    let field = &numbers.sheet.outputs[numbers.sheet.output(id)?];
    let words = numbers.words(shown)?;
    Some(html! { <p class="day-said">{ say(field.term.name) }{ ": " }<strong>{ words }</strong></p> })
}
