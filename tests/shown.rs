//! What a reader sees, read back: shown numbers, and formulas computed from them.

use calc::engine::quantity::UnitSet;
use calc::engine::sheet::Step;
use calc::engine::sheet::formula::{Node, shown};

/// A number as it is shown: `−1.25`, `3.6 × 10⁻⁵`.
pub fn reread(text: &str) -> Option<f64> {
    let plain: String = text.chars().map(|c| if c == '\u{2212}' { '-' } else { c }).collect();
    let (mantissa, power) = match plain.split_once(" × 10") {
        Some((mantissa, power)) => (mantissa, superscript(power)?),
        None => (plain.as_str(), 0),
    };
    format!("{mantissa}e{power}").parse().ok()
}

fn superscript(text: &str) -> Option<i32> {
    let plain: String = text
        .chars()
        .map(|c| match c {
            '⁻' => Some('-'),
            '¹' => Some('1'),
            '²' => Some('2'),
            '³' => Some('3'),
            '⁰' | '⁴'..='⁹' => char::from_digit(c as u32 - '⁰' as u32, 10),
            _ => None,
        })
        .collect::<Option<_>>()?;
    plain.parse().ok()
}

/// Half a unit of the last of seven digits, with which numbers are shown in the arithmetic.
fn rounding(value: f64) -> f64 {
    if value == 0.0 { 0.0 } else { 0.5 * 10f64.powi(value.abs().log10().floor() as i32 - 6) }
}

/// A shown formula and its shown result.
#[derive(Debug, Clone)]
pub struct Recomputed {
    /// From the shown numbers.
    pub computed: f64,
    /// As it is shown.
    pub result: f64,
    /// By how much the two can differ since every shown number is rounded.
    pub room: f64,
}

impl Recomputed {
    /// Whether a reader who computes along gets the shown result.
    pub fn agrees(&self) -> bool {
        (self.computed - self.result).abs() <= self.room
    }
}

/// Computes a step's formula from its numbers as they are shown; `None` for a step without a formula.
///
/// # Errors
/// What keeps a reader from computing along: a name without a value, a number or a formula that cannot be read.
pub fn recompute(step: &Step, wished: UnitSet) -> Result<Option<Recomputed>, String> {
    let calc::engine::sheet::How::Formula { text, .. } = &step.how else { return Ok(None) };
    let node = step.node().ok_or_else(|| format!("“{text}” cannot be read"))?;
    let set = step.coherent(wished);
    let mut leaves = Vec::new();
    let node = replaced(&node, step, set, &mut leaves)?;
    let value = |leaves: &[f64]| {
        node.value(set, &|name| name.parse::<usize>().ok().and_then(|index| leaves.get(index)).copied())
            .ok_or_else(|| format!("“{text}” has no value"))
    };
    let computed = value(&leaves)?;
    let mut room = 0.0;
    for index in 0..leaves.len() {
        let mut moved = leaves.clone();
        moved[index] += rounding(moved[index]);
        let above = (value(&moved)? - computed).abs();
        moved[index] = leaves[index] - rounding(leaves[index]);
        room += above.max((value(&moved)? - computed).abs());
    }
    let text = shown(step.unit(set).of_si(step.result.value));
    let result = reread(&text).ok_or_else(|| format!("“{text}” cannot be read"))?;
    // a number shown rounded down at one power of ten may lie at the next
    room = 1.01 * (room + rounding(result)) + f64::EPSILON * computed.abs();
    Ok(Some(Recomputed { computed, result, room }))
}

/// The formula with every number replaced by the index of its shown value.
fn replaced(node: &Node, step: &Step, set: UnitSet, leaves: &mut Vec<f64>) -> Result<Node, String> {
    let mut leaf = |value: f64| {
        let text = shown(value);
        leaves.push(reread(&text).ok_or_else(|| format!("“{text}” cannot be read"))?);
        Ok::<_, String>(Node::Name((leaves.len() - 1).to_string()))
    };
    Ok(match node {
        Node::Number(value) => leaf(*value)?,
        Node::Constant(..) => leaf(node.value(set, &|_| None).ok_or("a constant has no unit")?)?,
        Node::Name(name) => {
            let bound = step.bound(name).ok_or_else(|| format!("“{name}” has no value"))?;
            leaf(bound.kind.unit_in(set).of_si(bound.value))?
        }
        Node::Minus(inner) => Node::Minus(Box::new(replaced(inner, step, set, leaves)?)),
        Node::Two(operator, a, b) => Node::Two(
            *operator,
            Box::new(replaced(a, step, set, leaves)?),
            Box::new(replaced(b, step, set, leaves)?),
        ),
        Node::Call(function, arguments) => Node::Call(
            *function,
            arguments.iter().map(|one| replaced(one, step, set, leaves)).collect::<Result<_, _>>()?,
        ),
    })
}

/// Whether the formula holds in the set in which it is shown, with unrounded numbers.
pub fn is_coherent(step: &Step, wished: UnitSet) -> bool {
    let Some(node) = step.node() else { return true };
    let set = step.coherent(wished);
    let number = |si: f64, kind: &'static calc::engine::quantity::Kind| kind.unit_in(set).of_si(si);
    let value = node.value(set, &|name| step.bound(name).map(|bound| number(bound.value, bound.kind)));
    let expected = number(step.result.value, step.result.kind);
    // the last bits that a difference of two nearly equal numbers leaves
    let scale = match &step.how {
        calc::engine::sheet::How::Formula { bound, .. } => bound
            .iter()
            .filter(|bound| bound.kind.of_difference() == step.result.kind.of_difference())
            .map(|bound| number(bound.value, bound.kind).abs())
            .fold(expected.abs(), f64::max),
        _ => expected.abs(),
    };
    value.is_some_and(|value| (value - expected).abs() <= 1e-9 * scale)
}

#[cfg(test)]
mod tests {
    use super::*;
    use calc::engine::quantity::kinds::{FLOW, TIME, VOLUME};
    use calc::engine::sheet::{Bound, How};

    #[test]
    fn shown_numbers_are_read_back() {
        for value in [0.0, 4.984046, -0.25, 1234.5, 3.6e-5, -2.5e12, 1e6, 0.001] {
            assert_eq!(reread(&shown(value)), Some(value), "{}", shown(value));
        }
        assert_eq!(reread("4 minutes"), None);
    }

    /// A step of 28.3 L at 5.678118 L/min, with that result in minutes.
    fn step(text: &'static str, minutes: f64) -> Step {
        let bound = vec![
            Bound { name: "volume", symbol: "V", value: 28.3e-3, kind: &VOLUME },
            Bound { name: "flow", symbol: "Q", value: 5.678118e-3 / 60.0, kind: &FLOW },
        ];
        Step {
            sheet: "",
            case: "",
            season: "",
            result: Bound { name: "time", symbol: "t", value: 60.0 * minutes, kind: &TIME },
            how: How::Formula { text, bound },
        }
    }

    #[test]
    fn a_formula_that_does_not_give_its_result_is_found() {
        let right = step("volume / flow", 28.3 / 5.678118);
        let agrees = |step: &Step| recompute(step, UnitSet::Metric).map(|one| one.map(|one| one.agrees()));
        assert_eq!(agrees(&right), Ok(Some(true)));
        assert!(is_coherent(&right, UnitSet::Metric));
        // two units of the seventh digit
        assert_eq!(agrees(&step("volume / flow", 28.3 / 5.678118 + 2e-6)), Ok(Some(false)));
        assert_eq!(agrees(&step("volume * flow", 28.3 / 5.678118)), Ok(Some(false)));
        assert!(!is_coherent(&step("volume * flow", 28.3 / 5.678118), UnitSet::Metric));
        assert!(agrees(&step("volume / stream", 5.0)).is_err());
        assert!(agrees(&step("volume % flow", 5.0)).is_err());
    }
}
