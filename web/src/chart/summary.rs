//! One sentence that says what a chart shows, for who does not see it and for who has no time to look.

use super::data::{Chart, Limit, Series, Spread, Wrong};
use crate::text::{WORDS, alone, fill};

/// The sentence.
pub fn summary(chart: &Chart) -> String {
    let words = &WORDS.chart;
    let (Some(first), Some(last)) = (chart.xs.there().next(), chart.xs.there().last()) else {
        return String::new();
    };
    let what = names(chart);
    let places = [
        ("what", what.as_str()),
        ("along", chart.x.name.as_str()),
        ("from", &chart.x.number(first)),
        ("to", &chart.x.value(last)),
    ];
    if chart.series.iter().all(|series| series.ys.there().next().is_none()) {
        return alone(&fill(words.nothing, &places));
    }
    let of_series =
        |series: &Series| if chart.stepped { Some(steps(chart, series)) } else { extremes(chart, series) };
    let mut parts: Vec<String> = chart.series.iter().filter_map(of_series).collect();
    parts.extend(shaded(chart));
    for limit in &chart.limits {
        if chart.stepped {
            parts.extend(chart.series.iter().filter_map(|series| at_the_end(chart, series, limit)));
            continue;
        }
        parts.extend(chart.series.iter().filter_map(|series| against(chart, series, limit)));
    }
    let drawn = if chart.stepped {
        let names: Vec<String> = chart.xs.there().map(|x| chart.x.number(x)).collect();
        fill(words.stepped, &[("what", &chart.y.name), ("steps", &names.join(", "))])
    } else {
        fill(words.drawn, &places)
    };
    alone(&format!("{drawn}: {}", parts.join("; ")))
}

/// The names of the lines; of an only line the name of the axis, which is the same in more words.
fn names(chart: &Chart) -> String {
    match chart.series.as_slice() {
        [_] => chart.y.name.to_string(),
        series => series.iter().map(|series| series.name.as_str()).collect::<Vec<_>>().join(", "),
    }
}

/// Every step of a line, one after the other.
fn steps(chart: &Chart, series: &Series) -> String {
    let said = (0..chart.xs.len()).map(|place| match series.ys.at(place) {
        Some(y) => chart.y.number(y),
        None => WORDS.not_known.to_owned(),
    });
    let values = said.collect::<Vec<_>>().join(", ");
    fill(WORDS.chart.of_steps, &[("name", &series.name), ("values", &values), ("unit", &chart.y.unit)])
}

fn extremes(chart: &Chart, series: &Series) -> Option<String> {
    let among = usize::from(chart.series.len() > 1);
    let words = &WORDS.chart;
    let by_height = |a: &(usize, f64), b: &(usize, f64)| a.1.total_cmp(&b.1);
    let (low_at, low) = series.ys.placed().min_by(by_height)?;
    // the first of several that are equally high
    let (high_at, high) = series.ys.placed().max_by(|a, b| by_height(a, b).then(b.0.cmp(&a.0)))?;
    let at = |place: usize| chart.xs.at(place).map_or_else(String::new, |x| chart.x.value(x));
    let mut said = if high == low {
        fill(words.constant[among], &[("name", &series.name), ("value", &chart.y.value(low))])
    } else {
        let is_named = matches!(chart.x.spread, Spread::Named(_));
        let places = [
            ("at", words.at[usize::from(is_named)]),
            ("name", series.name.as_str()),
            ("low", &chart.y.value(low)),
            ("low_at", &at(low_at)),
            ("high", &chart.y.value(high)),
            ("high_at", &at(high_at)),
        ];
        fill(words.extremes[among], &places)
    };
    if series.ys.there().count() < chart.xs.len() {
        said += &format!("; {}", words.gaps);
    }
    Some(said)
}

/// So many shaded stretches are named one by one.
const NAMED: usize = 3;

/// The stretches that stand apart; of many, how many more there are.
fn shaded(chart: &Chart) -> Option<String> {
    // of named places the limit names those that are short
    if matches!(chart.x.spread, Spread::Named(_)) {
        return None;
    }
    let named = chart.shades.iter().take(NAMED).map(|shade| {
        let ends = [("from", chart.x.number(shade.from)), ("to", chart.x.value(shade.to))];
        fill(WORDS.chart.shaded, &[("words", &shade.words), ("from", &ends[0].1), ("to", &ends[1].1)])
    });
    let more = chart.shades.len().saturating_sub(NAMED);
    let more = (more > 0).then(|| fill(WORDS.chart.more_shaded, &[("count", &more.to_string())]));
    let said: Vec<String> = named.chain(more).collect();
    (!said.is_empty()).then(|| said.join(", "))
}

/// How a line stands to a limit; `None` where the two never stand at one place.
fn against(chart: &Chart, series: &Series, limit: &Limit) -> Option<String> {
    let words = &WORDS.chart;
    let above: Vec<(f64, f64)> = series
        .ys
        .placed()
        .filter_map(|(place, y)| Some((chart.xs.at(place)?, y - limit.at.at(place)?)))
        .collect();
    let is_wrong = |above: f64| match limit.wrong {
        Wrong::Above => above > 0.0,
        Wrong::Below => above < 0.0,
    };
    let wrong = above.iter().filter(|(_, above)| is_wrong(*above)).count();
    let says = |template: &str, places: &[String]| {
        let said = fill(template, &[("limit", &limit.words), ("places", &places.join(", "))]);
        if chart.series.len() > 1 { format!("{} {said}", series.name) } else { said }
    };
    if above.is_empty() {
        return None;
    } else if wrong == 0 {
        return Some(says(words.never_crossed[0], &[]));
    } else if wrong == above.len() {
        return Some(says(words.never_crossed[1], &[]));
    }
    if let Spread::Named(_) = chart.x.spread {
        let places: Vec<String> =
            above.iter().filter(|(_, above)| is_wrong(*above)).map(|(x, _)| chart.x.value(*x)).collect();
        return Some(says(words.wrong_in, &places));
    }
    let places: Vec<String> = crossings(&above).into_iter().map(|x| chart.x.value(x)).collect();
    Some(says(words.crosses, &places))
}

/// How the last step of a line stands to a limit: the steps before it are on the way there. Nothing where it is not known.
fn at_the_end(chart: &Chart, series: &Series, limit: &Limit) -> Option<String> {
    let last = chart.xs.len().checked_sub(1)?;
    let above = series.ys.at(last)? - limit.at.at(last)?;
    let is_wrong = match limit.wrong {
        Wrong::Above => above > 0.0,
        Wrong::Below => above < 0.0,
    };
    let place = chart.x.value(chart.xs.at(last)?);
    let places = [("name", series.name.as_str()), ("limit", &limit.words), ("place", &place)];
    Some(fill(WORDS.chart.ends[usize::from(is_wrong)], &places))
}

/// Where a row of heights passes zero, read between its points as the eye does.
fn crossings(above: &[(f64, f64)]) -> Vec<f64> {
    let crossing = |pair: &[(f64, f64)]| {
        let [(x0, y0), (x1, y1)] = [pair[0], pair[1]];
        ((y0 < 0.0) != (y1 < 0.0)).then(|| x0 + (x1 - x0) * y0 / (y0 - y1))
    };
    above.windows(2).filter_map(crossing).collect()
}

#[cfg(test)]
mod tests {
    use super::super::data::{Axis, Course, Values};
    use super::*;

    fn chart(ys: &[f64], limits: Vec<Limit>) -> Chart {
        Chart {
            title: "".into(),
            x: Axis::even("flow", "L/min"),
            y: Axis::even("contact time", "min"),
            xs: Values::of((0..ys.len()).map(|i| 1.0 + i as f64).collect::<Vec<_>>()),
            series: vec![Series {
                name: "".into(),
                ys: Values::of(ys.to_vec()),
                half_widths: Values::of([]),
            }],
            limits,
            marks: Vec::new(),
            shades: Vec::new(),
            stepped: false,
        }
    }

    fn limit(level: f64, wrong: Wrong) -> Limit {
        Limit { words: "at least 10 min".into(), at: Course::Level(level), wrong }
    }

    fn said(ys: &[f64], limits: Vec<Limit>) -> String {
        summary(&chart(ys, limits)).replace('\u{a0}', " ")
    }

    #[test]
    fn it_says_where_the_limit_is_crossed() {
        // between 12 at 2 and 8 at 3 the line passes 10 half way
        assert_eq!(
            said(&[24.0, 12.0, 8.0], vec![limit(10.0, Wrong::Below)]),
            "Contact time against flow from 1.00 to 3.00 L/min: lowest 8.00 min at 3.00 L/min, highest 24.0 min at \
             1.00 L/min; crosses the limit (at least 10 min) at about 2.50 L/min."
        );
    }

    #[test]
    fn it_says_on_which_side_a_line_stays() {
        let right = said(&[24.0, 12.0], vec![limit(10.0, Wrong::Below)]);
        assert!(right.ends_with("met (at least 10 min) everywhere."), "{right}");
        let wrong = said(&[24.0, 12.0], vec![limit(10.0, Wrong::Above)]);
        assert!(wrong.ends_with("not met (at least 10 min) anywhere."), "{wrong}");
    }

    #[test]
    fn gaps_and_emptiness_are_said() {
        let gap = said(&[1.0, f64::NAN, 1.0], Vec::new());
        assert_eq!(
            gap,
            "Contact time against flow from 1.00 to 3.00 L/min: 1.00 min everywhere; not known in places."
        );
        let nothing = said(&[f64::NAN, f64::NAN], vec![limit(10.0, Wrong::Below)]);
        assert_eq!(
            nothing,
            "Contact time is not known anywhere from 1.00 to 2.00 L/min, so nothing is drawn."
        );
        assert_eq!(said(&[], Vec::new()), "");
    }

    #[test]
    fn stairs_are_said_step_by_step() {
        let mut chart = chart(&[2.1, f64::NAN, 1.36], vec![limit(1.5, Wrong::Below)]);
        chart.y = Axis::even("Pressure", "bar");
        chart.x = Axis::named("step", ["static".into(), "at tap".into(), "RO inlet".into()]);
        chart.xs = Values::of([0.0, 1.0, 2.0]);
        chart.series[0].name = "in flush".into();
        chart.stepped = true;
        assert_eq!(
            summary(&chart),
            "Pressure step by step (static, at tap, RO inlet): in flush 2.10, not known, 1.36 bar; in flush not met \
             (at least 10 min) at RO inlet."
        );
    }

    #[test]
    fn stairs_whose_end_is_not_known_say_nothing_of_the_limit() {
        let mut chart = chart(&[2.1, 2.0, f64::NAN], vec![limit(1.5, Wrong::Below)]);
        chart.x = Axis::named("step", ["static".into(), "at tap".into(), "RO inlet".into()]);
        chart.xs = Values::of([0.0, 1.0, 2.0]);
        chart.stepped = true;
        let said = summary(&chart);
        assert!(!said.contains("met"), "{said}");
    }

    #[test]
    fn months_are_named() {
        let mut chart = chart(&[9.0, 12.0, 8.0], vec![limit(10.0, Wrong::Below)]);
        chart.x = Axis::named("month", ["January".into(), "February".into(), "March".into()]);
        chart.xs = Values::of([0.0, 1.0, 2.0]);
        let said = summary(&chart);
        assert!(said.contains("highest 12.0\u{a0}min in February"), "{said}");
        assert!(said.ends_with("not met (at least 10 min) in January, March."), "{said}");
    }
}
