//! What a reader sees, read back: shown numbers, and formulas computed from them.

use calc::engine::quantity::UnitSet;
use calc::engine::sheet::Step;
use calc::engine::sheet::formula::{Function, Node, Operator, shown};

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

/// The formula of a step in the very numbers that are shown: what a reader of its text should understand.
///
/// # Errors
/// A number that cannot be read.
pub fn as_shown(node: &Node, set: UnitSet) -> Result<Node, String> {
    let number = |value: f64| {
        let value = reread(&shown(value)).ok_or_else(|| format!("{value} cannot be read"))?;
        let number = Node::Number(value.abs());
        Ok::<_, String>(if value < 0.0 { Node::Minus(Box::new(number)) } else { number })
    };
    let of = |node: &Node| as_shown(node, set).map(Box::new);
    Ok(match node {
        Node::Number(value) => number(*value)?,
        Node::Constant(..) => number(node.value(set, &|_| None).ok_or("a constant has no unit")?)?,
        Node::Name(_) => node.clone(),
        Node::Minus(inner) => Node::Minus(of(inner)?),
        Node::Two(operator, a, b) => Node::Two(*operator, of(a)?, of(b)?),
        Node::Call(function, arguments) => {
            Node::Call(*function, arguments.iter().map(|one| as_shown(one, set)).collect::<Result<_, _>>()?)
        }
    })
}

/// Reads a formula as it is shown in one line, by the rules of the schoolbook: powers first, then products and quotients
/// from left to right, then sums and differences from left to right.
pub fn read_shown(text: &str) -> Option<Node> {
    let mut reader = Shown(text);
    let node = reader.sum()?;
    reader.0.trim().is_empty().then_some(node)
}

struct Shown<'a>(&'a str);

impl Shown<'_> {
    fn take(&mut self, sign: &str) -> bool {
        match self.0.trim_start().strip_prefix(sign) {
            Some(rest) => {
                self.0 = rest;
                true
            }
            None => false,
        }
    }

    fn joined(&mut self, signs: [(&str, Operator); 2], part: fn(&mut Self) -> Option<Node>) -> Option<Node> {
        let mut left = part(self)?;
        while let Some((_, operator)) = signs.iter().find(|(sign, _)| self.take(sign)) {
            left = Node::Two(*operator, Box::new(left), Box::new(part(self)?));
        }
        Some(left)
    }

    fn sum(&mut self) -> Option<Node> {
        self.joined([("+", Operator::Plus), ("−", Operator::Minus)], Self::product)
    }

    fn product(&mut self) -> Option<Node> {
        self.joined([("·", Operator::Times), ("/", Operator::Over)], Self::signed)
    }

    fn signed(&mut self) -> Option<Node> {
        if self.take("−") { Some(Node::Minus(Box::new(self.power()?))) } else { self.power() }
    }

    fn power(&mut self) -> Option<Node> {
        let base = self.single()?;
        if !self.take("^") {
            return Some(base);
        }
        Some(Node::Two(Operator::Power, Box::new(base), Box::new(self.single()?)))
    }

    fn single(&mut self) -> Option<Node> {
        if self.take("(") {
            let inner = self.sum()?;
            return self.take(")").then_some(inner);
        }
        self.0 = self.0.trim_start();
        if self.0.starts_with(|c: char| c.is_ascii_digit()) {
            return self.number();
        }
        let is_of_name = |c: char| c.is_alphanumeric() || matches!(c, '_' | '√' | '₁' | '₀');
        let end = self.0.find(|c| !is_of_name(c)).unwrap_or(self.0.len());
        let (name, rest) = self.0.split_at(end);
        self.0 = rest;
        if name.is_empty() || !rest.starts_with('(') {
            return (!name.is_empty()).then(|| Node::Name(name.to_owned()));
        }
        use Function::{Abs, Exp, Ln, Log10, Max, Min, Sqrt};
        let function =
            [Exp, Ln, Log10, Sqrt, Min, Max, Abs].into_iter().find(|function| function.name() == name)?;
        self.take("(");
        let mut arguments = vec![self.sum()?];
        while self.take(";") {
            arguments.push(self.sum()?);
        }
        self.take(")").then_some(Node::Call(function, arguments))
    }

    /// `1.2` or `1.2 × 10⁻³`.
    fn number(&mut self) -> Option<Node> {
        let is_raised = |c: char| matches!(c, '⁻' | '⁰' | '¹' | '²' | '³' | '⁴'..='⁹');
        let mantissa = self.0.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(self.0.len());
        let end = match self.0[mantissa..].strip_prefix(" × 10") {
            Some(power) => self.0.len() - power.trim_start_matches(is_raised).len(),
            None => mantissa,
        };
        let (number, rest) = self.0.split_at(end);
        self.0 = rest;
        reread(number).map(Node::Number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calc::engine::quantity::kinds::{FLOW, TIME, VOLUME};
    use calc::engine::sheet::{Bound, How, Named};

    #[test]
    fn shown_numbers_are_read_back() {
        for value in [0.0, 4.984046, -0.25, 1234.5, 3.6e-5, -2.5e12, 1e6, 0.001] {
            assert_eq!(reread(&shown(value)), Some(value), "{}", shown(value));
        }
        assert_eq!(reread("4 minutes"), None);
    }

    #[test]
    fn a_shown_formula_keeps_the_parentheses_that_it_needs() {
        for (text, expected) in [
            ("a - (b - c)", "a − (b − c)"),
            ("a - b - c", "a − b − c"),
            ("a / (b * c)", "a / (b · c)"),
            ("a * (b / c)", "a · (b / c)"),
            ("-(a + b) * c", "(−(a + b)) · c"),
            ("a + -b", "a + (−b)"),
            ("-(a * b)", "−(a · b)"),
            ("(-a).powi(2)", "(−a)^2"),
            ("-a.powi(2)", "−a^2"),
            ("a.powf(b + 1.0)", "a^(b + 1)"),
            ("a.powf(b).powf(c)", "(a^b)^c"),
            ("a / 1e-9", "a / (1 × 10⁻⁹)"),
            ("(a + b).max(c).sqrt()", "√(max(a + b; c))"),
        ] {
            let node = calc::engine::sheet::formula::read(text).unwrap();
            let shown = node.text(UnitSet::Si, &str::to_owned);
            assert_eq!(shown, expected);
            assert_eq!(read_shown(&shown), Some(as_shown(&node, UnitSet::Si).unwrap()), "{shown}");
        }
        assert_eq!(read_shown("a + "), None);
        assert_eq!(read_shown("(a + b"), None);
    }

    /// A step of 28.3 L at 5.678118 L/min, with that result in minutes.
    fn step(text: &'static str, minutes: f64) -> Step {
        let bound = vec![
            Bound { name: "volume", symbol: "V", value: 28.3e-3, kind: &VOLUME },
            Bound { name: "flow", symbol: "Q", value: 5.678118e-3 / 60.0, kind: &FLOW },
        ];
        Step {
            sheet: "",
            case: Named::NONE,
            season: Named::NONE,
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
