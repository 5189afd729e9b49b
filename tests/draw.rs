//! Inputs for any sheet, drawn from its declaration by a seeded generator, so that a failure can be repeated.

use calc::engine::calendar::Moment;
use calc::engine::sheet::{Declaration, Field, Shape, Value};
use chrono::NaiveDate;

/// A small seeded generator (SplitMix64), good enough to scatter test inputs.
#[derive(Debug, Clone)]
pub struct Draw(u64);

impl Draw {
    /// Equal seeds draw equal inputs.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 to 1.
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// From 0 to below `count`.
    pub fn below(&mut self, count: usize) -> usize {
        (self.share() * count as f64) as usize
    }

    /// Inputs of a sheet: each within its possible range, its ends more often than chance would; some left out.
    pub fn possible(&mut self, declaration: &'static Declaration) -> Vec<Option<Value>> {
        let left_out = self.below(3);
        let one = |field| {
            let absent = self.below(8) < left_out;
            (!absent).then(|| self.field(field))
        };
        declaration.inputs.iter().map(one).collect()
    }

    /// Inputs as a person would have them: within the plausible range, nothing left out.
    pub fn plausible(&mut self, declaration: &'static Declaration) -> Vec<Option<Value>> {
        let one = |field: &'static Field| {
            Some(match field.shape {
                Shape::Number(_) => {
                    let (low, high) = usual(field);
                    Value::Number(low + (high - low) * self.share())
                }
                _ => self.field(field),
            })
        };
        declaration.inputs.iter().map(one).collect()
    }

    fn field(&mut self, field: &'static Field) -> Value {
        match field.shape {
            Shape::Number(_) => {
                let number = self.number(field);
                let is_bound = field.term.below && number > field.term.possible.0 && self.below(3) == 0;
                if is_bound { Value::Below(number) } else { Value::Number(number) }
            }
            Shape::Choice(named) => Value::Choice(named[self.below(named.len())].id),
            Shape::Date => {
                Value::Date(NaiveDate::from_yo_opt(2027, 1 + self.below(365) as u32).unwrap_or_default())
            }
            Shape::Moment => {
                let (hour, minute) = (self.below(24), self.below(60));
                let offset = ["+01:00", "+02:00", "-05:00", "Z"][self.below(4)];
                let text = format!("2026-10-{}T{hour:02}:{minute:02}{offset}", 24 + self.below(2));
                Moment::read(&text).map_or(Value::Refused, Value::Moment)
            }
            Shape::Text => Value::Text(["A", "B", ""][self.below(3)].to_owned()),
            Shape::Table(columns) => {
                let rows = 1 + self.below(6);
                Value::Table((0..rows).map(|row| self.row(columns, row)).collect())
            }
        }
    }

    /// Times and months rise from row to row, so that not every table is refused.
    fn row(&mut self, columns: &'static [Field], row: usize) -> Vec<Option<Value>> {
        let rising = self.below(4) > 0;
        let cell = |column: &'static Field| {
            if !column.needed && self.below(4) == 0 {
                return None;
            }
            Some(match (self.field(column), column.shape) {
                (Value::Number(_), _) if rising && column.id == "time" => {
                    Value::Number(60.0 * row as f64 + 30.0 * self.share())
                }
                (Value::Choice(_), Shape::Choice(named)) if rising => {
                    Value::Choice(named[row % named.len()].id)
                }
                (value, _) => value,
            })
        };
        columns.iter().map(cell).collect()
    }

    fn number(&mut self, field: &'static Field) -> f64 {
        let (low, high) = bounds(field);
        let (from, to) = usual(field);
        let value = match self.below(8) {
            0 => low,
            1 => high,
            2 => from,
            3 => to,
            4 | 5 => from + (to - from) * self.share(),
            6 if low >= 0.0 && high > 0.0 => {
                // over all powers of ten
                let least = low.max(high * 1e-12);
                least * (high / least).powf(self.share())
            }
            _ => low + (high - low) * self.share(),
        };
        let whole = field.term.kind.is_some_and(|kind| kind.is_bare()) && self.below(2) == 0;
        if whole { value.round().clamp(low, high) } else { value.clamp(low, high) }
    }
}

/// The possible range; an end that is not declared is taken far out.
pub fn bounds(field: &'static Field) -> (f64, f64) {
    let (low, high) = field.term.possible;
    (low.max(-1e9), high.min(1e9))
}

/// The plausible range within the possible one.
fn usual(field: &'static Field) -> (f64, f64) {
    let (low, high) = bounds(field);
    (field.term.plausible.0.max(low), field.term.plausible.1.min(high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_generator_is_the_published_one() {
        // S. Vigna, splitmix64.c: the first value of seed 0 is 0xe220a8397b1dcdaf
        assert_eq!(Draw::new(0).next(), 0xe220_a839_7b1d_cdaf);
    }

    #[test]
    fn equal_seeds_draw_equal_inputs() {
        let sheet = calc::program::catalogue::SHEETS[0].declaration;
        assert_eq!(Draw::new(3).possible(sheet), Draw::new(3).possible(sheet));
    }
}
