//! A step of the working as it is shown: its numbers, and the set of units in which they are coherent.

use super::{Node, read};
use crate::engine::quantity::{Unit, UnitSet, show};
use crate::engine::sheet::{Bound, How, Step};

/// How a number stands in the arithmetic: enough digits that a reader who computes along gets the shown result.
pub fn shown(value: f64) -> String {
    let text = show::significant(value, 7);
    let (mantissa, power) = match text.split_once(" × ") {
        Some((mantissa, power)) => (mantissa, Some(power)),
        None => (text.as_str(), None),
    };
    let short =
        if mantissa.contains('.') { mantissa.trim_end_matches('0').trim_end_matches('.') } else { mantissa };
    match power {
        Some(power) => format!("{short} × {power}"),
        None => short.to_owned(),
    }
}

impl Step {
    /// The formula, where there is a closed one.
    pub fn node(&self) -> Option<Node> {
        match &self.how {
            How::Formula { text, .. } => read(text),
            _ => None,
        }
    }

    /// The value that a name has in this step.
    pub fn bound(&self, name: &str) -> Option<&Bound> {
        match &self.how {
            How::Formula { bound, .. } => bound.iter().find(|bound| bound.name == name),
            How::Conversion { from } => Some(from).filter(|from| from.name == name),
            How::Procedure { .. } => None,
        }
    }

    /// The wished set of units, where the formula's numbers are coherent in it; else SI, which always is.
    ///
    /// 28.3 L and 1.5 gal/min do not give 4.98 min by hand. Whether they are coherent is asked of the numbers
    /// themselves: a formula whose result does not follow from its numbers is not shown with them.
    pub fn coherent(&self, wished: UnitSet) -> UnitSet {
        let Some(node) = self.node() else { return wished };
        let expected = self.result.kind.unit_in(wished).of_si(self.result.value);
        let value = node.value(wished, &|name| {
            self.bound(name).map(|bound| bound.kind.unit_in(wished).of_si(bound.value))
        });
        match value {
            Some(value)
                if value.is_finite()
                    && (value - expected).abs() <= 1e-9 * expected.abs().max(value.abs()) =>
            {
                wished
            }
            _ => UnitSet::Si,
        }
    }

    /// The result's unit in that set.
    pub fn unit(&self, set: UnitSet) -> &'static Unit {
        self.result.kind.unit_in(set)
    }
}
