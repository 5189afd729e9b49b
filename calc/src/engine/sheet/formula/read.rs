//! The reader of a compiled expression's text.

use super::{Function, Node, Operator};
use crate::engine::quantity::constant;

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
