//! Which allowance makes a check not met: what it would be with that allowance switched off.

use crate::engine::sheet::{Check, Entry, State, Value};

/// An allowance with the input that switches it.
#[derive(Debug, PartialEq)]
pub struct Switch {
    /// The id of the input.
    pub field: &'static str,
    /// What is left out, in words.
    pub name: &'static str,
    off: Off,
}

#[derive(Debug, PartialEq)]
enum Off {
    Choice(&'static str),
    Number(f64),
}

/// The allowances of the stack.
pub static SWITCHES: &[Switch] = &[
    Switch { field: "forms", name: "the worst temperature correction", off: Off::Choice("a") },
    Switch { field: "fouling-allowance", name: "the fouling allowance", off: Off::Number(1.0) },
    Switch { field: "demand-margin", name: "the demand allowance", off: Off::Number(1.0) },
];

impl Switch {
    /// As a person would enter it.
    pub fn off(&self) -> String {
        match self.off {
            Off::Choice(id) => id.to_owned(),
            Off::Number(number) => number.to_string(),
        }
    }

    fn set(&self, entry: &Entry, values: &mut [Option<Value>]) {
        if let Some(value) = entry.declaration.input(self.field).and_then(|index| values.get_mut(index)) {
            *value = Some(match self.off {
                Off::Choice(id) => Value::Choice(id),
                Off::Number(number) => Value::Number(number),
            });
        }
    }
}

/// The state of a check without one allowance, or without all of them.
#[derive(Debug, PartialEq)]
pub struct Without {
    /// The allowance; `None` for all of them.
    pub switch: Option<&'static Switch>,
    /// The ids of the checks that are better without it.
    pub better: Vec<String>,
}

/// For each allowance, and for all together, the checks that are not met with it and are met or marginal without.
pub fn causes(entry: &Entry, values: &[Option<Value>], now: &[Check]) -> Vec<Without> {
    let each = SWITCHES.iter().map(Some).chain([None]);
    each.map(|switch| {
        let mut values = values.to_vec();
        values.resize(entry.declaration.inputs.len(), None);
        for off in SWITCHES.iter().filter(|off| switch.is_none_or(|switch| switch == *off)) {
            off.set(entry, &mut values);
        }
        let then = entry.assess(&values, false).checks;
        let better = now.iter().filter(|check| check.state == State::NotMet).filter(|check| {
            let after = then.iter().find(|after| after.is_same(check));
            after.is_some_and(|after| matches!(after.state, State::Met | State::Marginal))
        });
        Without { switch, better: better.map(Check::id).collect() }
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::record::Record;
    use crate::program::catalogue::find;

    /// Room A, February: 0.722 L/min clean against 0.65, 0.614 with 0.85 for fouling. Room C: 1.392 clean against 1.30.
    #[test]
    fn fouling_is_what_the_cold_room_is_short_by() {
        let plan = find("plan").unwrap();
        let record = Record::open(include_str!("../../../../examples/ostrin-vale.json")).unwrap();
        let (values, _) = record.inputs_of_plan(0);
        let causes = causes(plan, &values, &plan.assess(&values, false).checks);
        let of = |field: &str| {
            causes.iter().find(|one| one.switch.is_some_and(|switch| switch.field == field)).unwrap()
        };
        assert!(of("fouling-allowance").better.contains(&"capacity-feb".to_owned()), "{causes:?}");
        assert!(of("forms").better.is_empty(), "form A is the worst below the anchor: {causes:?}");
        // the peak of one machine, on which there is no allowance, decides
        assert!(of("demand-margin").better.is_empty(), "{causes:?}");
        assert!(
            causes.iter().any(|one| one.switch.is_none() && one.better.contains(&"capacity-feb".to_owned()))
        );
    }
}
