//! Reads the text of a compiled expression, so that it can be shown with symbols and with numbers, and computed again.
//!
//! It knows what a formula of this crate may use: `+ - * /`, parentheses, numbers, names, constants such as
//! `minutes(10.0)`, and methods such as `.exp()`.

use crate::engine::quantity::{Kind, Unit, UnitSet};

mod read;
mod shown;

pub use read::read;
pub use shown::shown;

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

    /// In one line, each name as `say` says it, with the parentheses without which it could be read as another tree.
    pub fn text(&self, set: UnitSet, say: &impl Fn(&str) -> String) -> String {
        self.text_in(0, set, say)
    }

    fn text_in(&self, outer: u8, set: UnitSet, say: &impl Fn(&str) -> String) -> String {
        let (text, level) = match self {
            Node::Number(value) => held(shown(*value)),
            Node::Constant(..) => held(in_set(self, set).map_or_else(String::new, |(value, _)| shown(value))),
            Node::Name(name) => (say(name), 4),
            Node::Minus(inner) => (format!("−{}", inner.text_in(3, set, say)), 1),
            Node::Two(operator, a, b) => {
                let (sign, level) = match operator {
                    Operator::Plus => (" + ", 1),
                    Operator::Minus => (" − ", 1),
                    Operator::Times => (" · ", 2),
                    Operator::Over => (" / ", 2),
                    Operator::Power => ("^", 3),
                };
                let right = level + 1;
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

/// A number with how closely it holds together: one with a sign or a power of ten is no single thing.
fn held(number: String) -> (String, u8) {
    let level = match number.as_str() {
        number if number.starts_with('−') => 1,
        number if number.contains('×') => 2,
        _ => 4,
    };
    (number, level)
}

/// A constant in the units of the set.
fn in_set(node: &Node, set: UnitSet) -> Option<(f64, &'static Unit)> {
    let Node::Constant(value, kind, unit) = node else { return None };
    let kind: &'static Kind = crate::engine::quantity::kinds::all().find(|other| other.id == *kind)?;
    let target = kind.unit_in(set);
    let si = unit.to_si(*value);
    // ten minutes are ten minutes, not 9.999…
    Some((if target == *unit { *value } else { target.of_si(si) }, target))
}
