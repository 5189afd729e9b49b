//! How long the bar of a check is: all checks lie on one scale, whatever they measure.
//!
//! The scale is the margin, the distance to the limit over the limit. At its left end as much as the limit is spare, or more;
//! the limit is one upright line for all; beyond it is the wrong side. So a bar says how much of the spare is used up, of a
//! least as of a most, and the worst check has the longest one. What runs further than the scale is broken off: its number
//! stands beside it.

use calc::engine::sheet::criterion::COVERAGE;
use calc::engine::sheet::{Check, State};

/// Where the limit stands, as a share of the width; the rest is room for the wrong side.
pub const LIMIT: f64 = 0.625;
/// No bar is shorter: it would not be seen.
const SHORTEST: f64 = 0.012;

/// What is drawn of a check, in shares of the width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bar {
    /// A bar from the left end.
    To {
        /// Where it ends.
        end: f64,
        /// Whether it would run on beyond the scale.
        breaks_off: bool,
        /// The 95 % interval, where one is known.
        interval: Option<(f64, f64)>,
    },
    /// A distance on a scale without a zero, or from a limit that is zero, is no share of anything: only its side is drawn.
    Side {
        /// Whether it is the wrong one.
        is_wrong: bool,
    },
    /// There is no number.
    Nothing,
}

/// The bar of a check.
pub fn bar(check: &Check) -> Bar {
    if !matches!(check.state, State::NotMet | State::Marginal | State::Met) || !check.distance().is_finite() {
        return Bar::Nothing;
    }
    let Some(margin) = check.margin() else { return Bar::Side { is_wrong: check.state == State::NotMet } };
    let half =
        check.uncertainty.filter(|_| check.criterion.forecast).map(|u| COVERAGE * u / check.limit.abs());
    // at the end of the scale an interval would lie on the edge
    let interval = half.filter(|half| half.is_finite() && margin - half > margin_at_the_end());
    Bar::To {
        end: at(margin).max(SHORTEST),
        breaks_off: margin < margin_at_the_end(),
        interval: interval.map(|half| (at(margin + half), at(margin - half))),
    }
}

/// Where a margin lies.
fn at(margin: f64) -> f64 {
    (LIMIT * (1.0 - margin)).clamp(0.0, 1.0)
}

/// The margin at the right end; negative, since it is the wrong side.
pub fn margin_at_the_end() -> f64 {
    1.0 - 1.0 / LIMIT
}

#[cfg(test)]
mod tests {
    use super::*;
    use calc::documents::record::Record;
    use calc::engine::sheet::{Entry, Field, Shape, Value};
    use calc::program::catalogue::SHEETS;

    fn judged(values: &[(&str, f64)]) -> Check {
        let entry = crate::state::find("inlet-pressure").unwrap();
        let mut given = vec![None; entry.declaration.inputs.len()];
        for (id, si) in values {
            given[entry.declaration.input(id).unwrap()] = Some(Value::Number(*si));
        }
        let checks = entry.assess(&given, false).checks;
        checks.into_iter().find(|check| check.criterion.id == "hose-rating").unwrap()
    }

    fn end(highest: f64, rating: f64) -> Bar {
        bar(&judged(&[
            ("highest-shut-pressure", highest),
            ("hose-rating", rating),
            ("shut-pressure", highest),
        ]))
    }

    #[test]
    fn a_most_is_read_as_the_share_of_it_that_is_used() {
        let to = |end, breaks_off| Bar::To { end, breaks_off, interval: None };
        // half of what is allowed ends half way to the line, all of it at the line
        assert_eq!(end(2e5, 4e5), to(0.5 * LIMIT, false));
        assert_eq!(end(4e5, 4e5), to(LIMIT, false));
        // by half too much, and twelve times as much
        assert_eq!(end(6e5, 4e5), to(1.5 * LIMIT, false));
        assert_eq!(end(12e5, 1e5), to(1.0, true));
    }

    #[test]
    fn a_limit_of_nothing_has_a_side_and_no_share() {
        let mut check =
            judged(&[("highest-shut-pressure", 2e5), ("hose-rating", 4e5), ("shut-pressure", 2e5)]);
        check.limit = 0.0;
        check.state = State::NotMet;
        assert_eq!(bar(&check), Bar::Side { is_wrong: true });
        check.value = f64::NAN;
        assert_eq!(bar(&check), Bar::Nothing);
        check.state = State::NotKnown;
        assert_eq!(bar(&check), Bar::Nothing);
    }

    /// A value for a field: at a share of its plausible range, or the first of its choices.
    fn filled(field: &Field, share: f64) -> Option<Value> {
        let number = || {
            let (low, high) = field.term.plausible;
            let si = low + share * (high - low);
            let si = if field.term.whole { si.round() } else { si };
            si.is_finite().then_some(Value::Number(si))
        };
        match field.shape {
            Shape::Number(_) => number(),
            Shape::Choice(named) => named.first().map(|one| Value::Choice(one.id)),
            Shape::Table(columns) => {
                Some(Value::Table(vec![columns.iter().map(|column| filled(column, share)).collect()]))
            }
            _ => None,
        }
    }

    fn all_finite(entry: &'static Entry, values: &[Option<Value>]) -> usize {
        let within = |share: f64| (0.0..=1.0).contains(&share);
        let mut drawn = 0;
        for check in entry.assess(values, false).checks {
            if let Bar::To { end, interval, .. } = bar(&check) {
                drawn += 1;
                let (low, high) = interval.unwrap_or((end, end));
                assert!(within(end) && within(low) && within(high) && low <= high, "{}: {end}", check.id());
                let is_past = end > LIMIT || check.is_at_limit();
                assert!(
                    is_past || check.state != State::NotMet,
                    "{} is not met and ends at {end}",
                    check.id()
                );
                assert!(
                    end <= LIMIT + 1e-9 || check.state == State::NotMet,
                    "{} is met and ends at {end}",
                    check.id()
                );
            }
        }
        drawn
    }

    #[test]
    fn the_judgements_of_every_sheet_lie_on_the_scale() {
        let mut drawn = 0;
        for entry in SHEETS {
            for share in [0.0, 0.1, 0.5, 0.9, 1.0] {
                let inputs = entry.declaration.inputs.iter();
                let values: Vec<Option<Value>> = inputs.map(|field| filled(field, share)).collect();
                drawn += all_finite(entry, &values);
            }
        }
        assert!(drawn > 100, "only {drawn} bars");
    }

    #[test]
    fn the_judgements_of_the_invented_rooms_lie_on_the_scale() {
        let plan = crate::state::find("plan").unwrap();
        for room in [
            include_str!("../../../examples/ostrin-vale.json"),
            include_str!("../../../examples/quillon-flats.json"),
            include_str!("../../../examples/tolby-marsh.json"),
        ] {
            let (values, _) = Record::open(room).unwrap().inputs_of_plan(0);
            assert!(all_finite(plan, &values) > 5);
        }
    }
}
