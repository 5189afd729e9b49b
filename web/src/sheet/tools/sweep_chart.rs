//! The chart of a sweep.

use super::looked::{DialOf, NumberOf};
use super::swept::{Swept, in_unit};
use crate::chart::{Axis, Chart, Course, Limit, Mark, Series, Spread, Values, Wrong};
use crate::sheet::shown;
use crate::text::{WORDS, fill, say};
use calc::engine::quantity::Unit;
use calc::engine::sheet::Side;

/// The curve with its band, the limit, and the place of the present value.
pub fn chart(swept: &Swept, number: &NumberOf, dial: &DialOf) -> Chart {
    let words = &WORDS.tools;
    let (x, y) = (dial.unit, number.unit);
    let mark = dial.present.zip(swept.present).map(|(at, height)| Mark {
        x: x.of_si(at),
        y: y.of_si(height),
        words: words.now.into(),
    });
    let (low, high) = dial.range;
    let by_logarithm = low > 0.0 && high > 10.0 * low && x.offset == 0.0 && !dial.dial.of.term.whole;
    Chart {
        title: fill(words.over, &[("number", &number.name), ("along", &dial.name)]).into(),
        x: Axis {
            name: dial.name.clone().into(),
            unit: symbol(x),
            spread: if by_logarithm { Spread::Logarithm } else { Spread::Even },
        },
        y: Axis::even(number.name.clone(), symbol(y)),
        xs: Values::of(in_unit(&swept.xs, x)),
        series: vec![Series {
            name: "".into(),
            ys: Values::of(in_unit(&swept.ys, y)),
            half_widths: Values::of(swept.half_widths.iter().map(|half| half / y.factor).collect::<Vec<_>>()),
        }],
        limits: limit(swept, y).into_iter().collect(),
        marks: mark.into_iter().collect(),
        shades: Vec::new(),
        stepped: false,
    }
}

fn symbol(unit: &'static Unit) -> yew::AttrValue {
    // A bare fraction has no sign that could be read beside a number.
    if unit.symbol == "1" { "".into() } else { unit.shown().into() }
}

fn limit(swept: &Swept, unit: &'static Unit) -> Option<Limit> {
    let side = swept.criterion?.side;
    let (value, at) = match swept.limit {
        Some(limit) => (shown::stated(limit, unit), Course::Level(unit.of_si(limit))),
        None if swept.limits.iter().any(|limit| limit.is_finite()) => {
            (WORDS.tools.moving_limit.to_owned(), Course::Over(Values::of(in_unit(&swept.limits, unit))))
        }
        None => return None,
    };
    Some(Limit {
        words: format!("{} {value}", say(side.words())).into(),
        at,
        wrong: match side {
            Side::AtLeast | Side::Above => Wrong::Below,
            Side::AtMost | Side::Below | Side::Answered => Wrong::Above,
        },
    })
}

#[cfg(test)]
mod tests {
    use super::super::looked::{Seen, tests::carbon};
    use super::*;
    use calc::engine::sweep::Sweep;
    use std::rc::Rc;

    #[test]
    fn a_sweep_is_drawn_in_the_units_that_are_shown() {
        let looked = carbon();
        let (number, dial) = (looked.number("total-contact-time").unwrap(), looked.dial("flow").unwrap());
        let mut sweep = Sweep::new(looked.case.as_ref(), number.number, dial.dial, dial.range, 50);
        assert!(sweep.step(50));
        let (number, dial) = (number.clone(), dial.clone());
        let swept = Swept {
            present: looked.present(&number, &dial),
            criterion: sweep.criterion(),
            limit: sweep.limit(),
            xs: sweep.xs.clone(),
            ys: sweep.ys.clone(),
            limits: sweep.limits.clone(),
            half_widths: vec![6.0],
            of: Default::default(),
            seen: Seen(Rc::new(looked)),
        };
        let chart = chart(&swept, &number, &dial);
        assert_eq!(chart.x.unit, "L/min");
        assert_eq!(chart.y.unit, "min");
        // 20 L over the flow, everywhere
        for (place, flow) in chart.xs.placed() {
            let minutes = chart.series[0].ys.at(place).unwrap();
            assert!((minutes * flow - 20.0).abs() < 1e-9, "{minutes} min at {flow} L/min");
        }
        let limit = &chart.limits[0];
        assert_eq!((limit.words.as_str(), limit.wrong), ("at least 10\u{a0}min", Wrong::Below));
        assert_eq!(limit.at.at(0), Some(10.0));
        let mark = &chart.marks[0];
        assert!((mark.x - 4.0).abs() < 1e-9 && (mark.y - 5.0).abs() < 1e-9, "{mark:?}");
        // six seconds
        assert_eq!(chart.series[0].half_widths.at(0), Some(0.1));
    }
}
