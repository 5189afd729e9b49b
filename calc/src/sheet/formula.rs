//! Reads the text of a compiled expression, so that it can be shown with symbols and with numbers, and computed again.
//!
//! It knows what a formula of this crate may use: `+ - * /`, parentheses, numbers, names, constants such as
//! `minutes(10.0)`, and methods such as `.exp()`.

use super::working::{Bound, How, Step};
use crate::quantity::{Kind, Unit, UnitSet, constant, show};

/// A formula as a tree.
#[derive(Debug, Clone, PartialEq)]
pub enum Node {
    /// A number in the text.
    Number(f64),
    /// A number with its unit.
    Constant(f64, &'static str, &'static Unit),
    /// A name that has a value.
    Name(String),
    /// The negative.
    Minus(Box<Node>),
    /// Two parts.
    Two(Operator, Box<Node>, Box<Node>),
    /// A function of its arguments.
    Call(Function, Vec<Node>),
}

/// What joins two parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Operator {
    /// a + b
    Plus,
    /// a − b
    Minus,
    /// a · b
    Times,
    /// a / b
    Over,
    /// a to the power b
    Power,
}

/// What a formula may call.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Function {
    /// e to the power
    Exp,
    /// natural logarithm
    Ln,
    /// decadic logarithm
    Log10,
    /// square root
    Sqrt,
    /// the smaller
    Min,
    /// the greater
    Max,
    /// without sign
    Abs,
}

impl Function {
    fn by_name(name: &str) -> Option<Self> {
        Some(match name {
            "exp" => Self::Exp,
            "ln" => Self::Ln,
            "log10" => Self::Log10,
            "sqrt" => Self::Sqrt,
            "min" => Self::Min,
            "max" => Self::Max,
            "abs" => Self::Abs,
            _ => return None,
        })
    }

    /// As it is written before its arguments.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Exp => "exp",
            Self::Ln => "ln",
            Self::Log10 => "log₁₀",
            Self::Sqrt => "√",
            Self::Min => "min",
            Self::Max => "max",
            Self::Abs => "abs",
        }
    }
}

/// The names in a formula, each once.
pub fn names(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let bytes = text.as_bytes();
    let mut at = 0;
    while at < bytes.len() {
        if bytes[at].is_ascii_alphabetic() || bytes[at] == b'_' {
            let start = at;
            while at < bytes.len() && (bytes[at].is_ascii_alphanumeric() || bytes[at] == b'_') {
                at += 1;
            }
            let name = &text[start..at];
            let called = text[at..].trim_start().starts_with('(');
            if !called && !found.contains(&name) {
                found.push(name);
            }
        } else if bytes[at].is_ascii_digit() {
            // the whole number, so that the `f64` of `2.0_f64` and the `e` of `1e-3` are no names
            while at < bytes.len() && (bytes[at].is_ascii_alphanumeric() || matches!(bytes[at], b'.' | b'_'))
            {
                if bytes[at] == b'.' && bytes.get(at + 1).is_some_and(u8::is_ascii_alphabetic) {
                    break;
                }
                at += 1;
            }
        } else {
            at += 1;
        }
    }
    found
}

/// Reads a formula; `None` where it uses what this reader does not know.
pub fn read(text: &str) -> Option<Node> {
    let mut reader = Reader { rest: text };
    let node = reader.sum()?;
    reader.skip();
    reader.rest.is_empty().then_some(node)
}

struct Reader<'a> {
    rest: &'a str,
}

impl<'a> Reader<'a> {
    fn skip(&mut self) {
        self.rest = self.rest.trim_start();
    }

    fn take(&mut self, sign: char) -> bool {
        self.skip();
        match self.rest.strip_prefix(sign) {
            Some(rest) => {
                self.rest = rest;
                true
            }
            None => false,
        }
    }

    fn word(&mut self) -> Option<&'a str> {
        self.skip();
        let end = self.rest.find(|c: char| !c.is_ascii_alphanumeric() && c != '_').unwrap_or(self.rest.len());
        let (word, rest) = self.rest.split_at(end);
        if word.is_empty() {
            return None;
        }
        self.rest = rest;
        Some(word)
    }

    fn sum(&mut self) -> Option<Node> {
        let mut left = self.product()?;
        loop {
            let operator = if self.take('+') {
                Operator::Plus
            } else if self.take('-') {
                Operator::Minus
            } else {
                return Some(left);
            };
            left = Node::Two(operator, Box::new(left), Box::new(self.product()?));
        }
    }

    fn product(&mut self) -> Option<Node> {
        let mut left = self.signed()?;
        loop {
            let operator = if self.take('*') {
                Operator::Times
            } else if self.take('/') {
                Operator::Over
            } else {
                return Some(left);
            };
            left = Node::Two(operator, Box::new(left), Box::new(self.signed()?));
        }
    }

    fn signed(&mut self) -> Option<Node> {
        if self.take('-') {
            return Some(Node::Minus(Box::new(self.signed()?)));
        }
        let mut node = self.plain()?;
        // methods bind closest; a point before a digit belongs to a number and cannot follow here
        while self.take('.') {
            let method = self.word()?;
            let arguments = self.arguments()?;
            node = match (method, arguments.as_slice()) {
                ("si", []) => node,
                ("powi" | "powf", [power]) => {
                    Node::Two(Operator::Power, Box::new(node), Box::new(power.clone()))
                }
                (method, _) => {
                    let function = Function::by_name(method)?;
                    Node::Call(function, std::iter::once(node).chain(arguments).collect())
                }
            };
        }
        Some(node)
    }

    fn arguments(&mut self) -> Option<Vec<Node>> {
        if !self.take('(') {
            return None;
        }
        let mut arguments = Vec::new();
        while !self.take(')') {
            arguments.push(self.sum()?);
            self.take(',');
        }
        Some(arguments)
    }

    fn plain(&mut self) -> Option<Node> {
        if self.take('(') {
            let inner = self.sum()?;
            return self.take(')').then_some(inner);
        }
        if self.rest.starts_with(|c: char| c.is_ascii_digit()) {
            return self.number();
        }
        let word = self.word()?;
        self.skip();
        if !self.rest.starts_with('(') {
            return Some(Node::Name(word.to_owned()));
        }
        let arguments = self.arguments()?;
        let (kind, unit) = constant(word)?;
        match arguments.as_slice() {
            [Node::Number(value)] => Some(Node::Constant(*value, kind.id, unit)),
            _ => None,
        }
    }

    fn number(&mut self) -> Option<Node> {
        let bytes = self.rest.as_bytes();
        let mut end = 0;
        while end < bytes.len() {
            let exponent_sign =
                matches!(bytes[end], b'+' | b'-') && end > 0 && matches!(bytes[end - 1], b'e' | b'E');
            let method = bytes[end] == b'.' && bytes.get(end + 1).is_some_and(u8::is_ascii_alphabetic);
            if method
                || !(bytes[end].is_ascii_alphanumeric() || matches!(bytes[end], b'.' | b'_') || exponent_sign)
            {
                break;
            }
            end += 1;
        }
        let (number, rest) = self.rest.split_at(end);
        self.rest = rest;
        number
            .trim_end_matches("_f64")
            .trim_end_matches("f64")
            .replace('_', "")
            .parse()
            .ok()
            .map(Node::Number)
    }
}

impl Node {
    /// The value, with `look_up` giving what each name stands for in the units of the set.
    pub fn value(&self, set: UnitSet, look_up: &impl Fn(&str) -> Option<f64>) -> Option<f64> {
        let of = |node: &Node| node.value(set, look_up);
        Some(match self {
            Node::Number(value) => *value,
            Node::Constant(..) => in_set(self, set)?.0,
            Node::Name(name) => look_up(name)?,
            Node::Minus(inner) => -of(inner)?,
            Node::Two(operator, a, b) => {
                let (a, b) = (of(a)?, of(b)?);
                match operator {
                    Operator::Plus => a + b,
                    Operator::Minus => a - b,
                    Operator::Times => a * b,
                    Operator::Over => a / b,
                    Operator::Power => a.powf(b),
                }
            }
            Node::Call(function, arguments) => {
                let first = of(arguments.first()?)?;
                let second = || arguments.get(1).and_then(of);
                match function {
                    Function::Exp => first.exp(),
                    Function::Ln => first.ln(),
                    Function::Log10 => first.log10(),
                    Function::Sqrt => first.sqrt(),
                    Function::Abs => first.abs(),
                    Function::Min => first.min(second()?),
                    Function::Max => first.max(second()?),
                }
            }
        })
    }

    /// In one line, each name as `say` says it.
    pub fn text(&self, set: UnitSet, say: &impl Fn(&str) -> String) -> String {
        self.text_in(0, set, say)
    }

    fn text_in(&self, outer: u8, set: UnitSet, say: &impl Fn(&str) -> String) -> String {
        let (text, level) = match self {
            Node::Number(value) => (shown(*value), 4),
            Node::Constant(..) => (in_set(self, set).map_or_else(String::new, |(value, _)| shown(value)), 4),
            Node::Name(name) => (say(name), 4),
            Node::Minus(inner) => (format!("−{}", inner.text_in(2, set, say)), 1),
            Node::Two(operator, a, b) => {
                let (sign, level) = match operator {
                    Operator::Plus => (" + ", 1),
                    Operator::Minus => (" − ", 1),
                    Operator::Times => (" · ", 2),
                    Operator::Over => (" / ", 2),
                    Operator::Power => ("^", 3),
                };
                // the right side of a difference or a quotient keeps its parentheses
                let right =
                    if matches!(operator, Operator::Plus | Operator::Times) { level } else { level + 1 };
                let left = if *operator == Operator::Power { level + 1 } else { level };
                (format!("{}{sign}{}", a.text_in(left, set, say), b.text_in(right, set, say)), level)
            }
            Node::Call(function, arguments) => {
                let inner: Vec<String> = arguments.iter().map(|node| node.text_in(0, set, say)).collect();
                (format!("{}({})", function.name(), inner.join("; ")), 4)
            }
        };
        if level < outer { format!("({text})") } else { text }
    }
}

/// A constant in the units of the set.
fn in_set(node: &Node, set: UnitSet) -> Option<(f64, &'static Unit)> {
    let Node::Constant(value, kind, unit) = node else { return None };
    let kind: &'static Kind = crate::quantity::kinds::all().find(|other| other.id == *kind)?;
    let target = kind.unit_in(set);
    let si = unit.to_si(*value);
    // ten minutes are ten minutes, not 9.999…
    Some((if target == *unit { *value } else { target.of_si(si) }, target))
}

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
            Some(value) if (value - expected).abs() <= 1e-9 * expected.abs().max(value.abs()) => wished,
            _ => UnitSet::Si,
        }
    }

    /// The result's unit in that set.
    pub fn unit(&self, set: UnitSet) -> &'static Unit {
        self.result.kind.unit_in(set)
    }
}
