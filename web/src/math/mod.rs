//! How a formula of a sheet is set: as a tree that knows fractions, indices and powers, before it becomes markup.

mod markup;

pub use markup::inline;

use calc::engine::sheet::formula::{Function, Node, Operator, shown};

/// A part of a formula as it is set.
#[derive(Debug, Clone, PartialEq)]
pub enum Math {
    /// The name of a quantity.
    Name(String),
    /// A number.
    Number(String),
    /// Words and units.
    Text(String),
    /// A sign between its parts.
    Sign(&'static str),
    /// Parts in a row.
    Row(Vec<Math>),
    /// A fraction.
    Over(Box<Math>, Box<Math>),
    /// With an index.
    Index(Box<Math>, Box<Math>),
    /// With an exponent.
    Power(Box<Math>, Box<Math>),
    /// A square root.
    Root(Box<Math>),
}

/// A symbol; `V_1` has an index.
pub fn symbol(symbol: &str) -> Math {
    match symbol.split_once('_') {
        Some((base, index)) => Math::Index(Box::new(name(base)), Box::new(index_of(index))),
        None => name(symbol),
    }
}

fn name(text: &str) -> Math {
    Math::Name(text.to_owned())
}

fn index_of(text: &str) -> Math {
    if text.chars().all(|c| c.is_ascii_digit()) {
        Math::Number(text.to_owned())
    } else {
        Math::Text(text.to_owned())
    }
}

/// A number as it is shown, `1.2 × 10⁻³` with a true exponent.
pub fn number(value: f64) -> Math {
    let text = shown(value);
    match text.split_once(" × 10") {
        Some((mantissa, power)) => Math::Row(vec![
            Math::Number(mantissa.to_owned()),
            Math::Sign("×"),
            Math::Power(Box::new(Math::Number("10".into())), Box::new(Math::Number(lowered(power)))),
        ]),
        None => Math::Number(text),
    }
}

/// Raised digits as plain ones.
fn lowered(power: &str) -> String {
    let plain = |c| match c {
        '⁻' => '−',
        '⁰' => '0',
        '¹' => '1',
        '²' => '2',
        '³' => '3',
        '⁴'..='⁹' => char::from_u32('4' as u32 + (c as u32 - '⁴' as u32)).unwrap_or(c),
        other => other,
    };
    power.chars().map(plain).collect()
}

/// How closely the parts of a row hold together; what holds less than its place asks gets parentheses.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Hold {
    Sum,
    Product,
    Power,
    Single,
}

/// A formula, with `leaf` setting its names, numbers and constants.
pub fn formula(node: &Node, leaf: &impl Fn(&Node) -> Math) -> Math {
    set(node, leaf).0
}

fn set(node: &Node, leaf: &impl Fn(&Node) -> Math) -> (Math, Hold) {
    let of = |node: &Node, least: Hold| {
        let (math, hold) = set(node, leaf);
        if hold < least { parenthesized(math) } else { math }
    };
    match node {
        Node::Number(_) | Node::Constant(..) | Node::Name(_) => {
            let math = leaf(node);
            let hold = hold_of_leaf(&math);
            (math, hold)
        }
        Node::Minus(inner) => (Math::Row(vec![Math::Sign("−"), of(inner, Hold::Product)]), Hold::Sum),
        Node::Two(operator, a, b) => match operator {
            Operator::Plus => {
                (Math::Row(vec![of(a, Hold::Sum), Math::Sign("+"), of(b, Hold::Sum)]), Hold::Sum)
            }
            Operator::Minus => {
                (Math::Row(vec![of(a, Hold::Sum), Math::Sign("−"), of(b, Hold::Product)]), Hold::Sum)
            }
            Operator::Times => {
                (Math::Row(vec![of(a, Hold::Product), Math::Sign("·"), of(b, Hold::Product)]), Hold::Product)
            }
            // The bar holds both parts together.
            Operator::Over => {
                (Math::Over(Box::new(of(a, Hold::Sum)), Box::new(of(b, Hold::Sum))), Hold::Product)
            }
            Operator::Power => {
                (Math::Power(Box::new(of(a, Hold::Single)), Box::new(of(b, Hold::Sum))), Hold::Power)
            }
        },
        Node::Call(Function::Sqrt, arguments) => (Math::Root(Box::new(list(arguments, leaf))), Hold::Single),
        Node::Call(Function::Abs, arguments) => {
            (Math::Row(vec![Math::Sign("|"), list(arguments, leaf), Math::Sign("|")]), Hold::Single)
        }
        Node::Call(function, arguments) => {
            let name = match function {
                Function::Log10 => {
                    Math::Index(Box::new(Math::Name("log".into())), Box::new(Math::Number("10".into())))
                }
                function => Math::Name(function.name().to_owned()),
            };
            (Math::Row(vec![name, parenthesized(list(arguments, leaf))]), Hold::Single)
        }
    }
}

/// A negative number or one with a power of ten is not a single thing.
fn hold_of_leaf(math: &Math) -> Hold {
    match math {
        Math::Row(_) => Hold::Product,
        Math::Number(text) if text.starts_with('−') => Hold::Sum,
        _ => Hold::Single,
    }
}

fn parenthesized(math: Math) -> Math {
    Math::Row(vec![Math::Sign("("), math, Math::Sign(")")])
}

fn list(arguments: &[Node], leaf: &impl Fn(&Node) -> Math) -> Math {
    let mut parts = Vec::new();
    for (index, argument) in arguments.iter().enumerate() {
        if index > 0 {
            parts.push(Math::Sign(";"));
        }
        parts.push(formula(argument, leaf));
    }
    if parts.len() == 1 { parts.swap_remove(0) } else { Math::Row(parts) }
}

#[cfg(test)]
mod tests;
