//! What if the water changes: which checks would be worse, and which of them first.

use crate::engine::sheet::{Check, Entry, Known, Missing, State, Value};
use crate::trade::water::Analyte;

/// A change of the water that a technician is not asked about beforehand.
#[derive(Debug)]
pub struct Change {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// In words.
    pub name: &'static str,
    make: fn(&mut Water) -> Known<()>,
}

/// What follows from a change.
#[derive(Debug)]
pub struct Worse {
    /// The state before.
    pub before: State,
    /// The check after it.
    pub after: Check,
}

/// The inputs of the plan while a change is made.
struct Water<'a> {
    entry: &'a Entry,
    values: Vec<Option<Value>>,
}

impl Water<'_> {
    fn value(&mut self, id: &'static str) -> Option<&mut Option<Value>> {
        let index = self.entry.declaration.input(id)?;
        self.values.get_mut(index)
    }

    fn number(&mut self, id: &'static str) -> Known<f64> {
        match self.value(id) {
            Some(Some(Value::Number(si))) => Ok(*si),
            _ => {
                let input = self.entry.declaration.inputs.iter().find(|field| field.id == id);
                Err(Missing::empty(id, input.map_or("", |field| field.term.name)))
            }
        }
    }

    fn set(&mut self, id: &'static str, si: f64) {
        if let Some(value) = self.value(id) {
            *value = Some(Value::Number(si));
        }
    }

    /// The number, if there is one, multiplied.
    fn times(&mut self, id: &'static str, factor: f64) -> Known<()> {
        let number = self.number(id)?;
        self.set(id, factor * number);
        Ok(())
    }

    /// The results of these analytes in the report, multiplied; of every analyte where none is named.
    fn times_in_report(&mut self, analytes: &[Analyte], factor: f64) -> bool {
        let Some(Some(Value::Table(rows))) = self.value("feed-report") else { return false };
        let mut changed = false;
        for row in rows {
            if let [Some(Value::Choice(analyte)), Some(Value::Number(result) | Value::Below(result)), ..] =
                row.as_mut_slice()
                && (analytes.is_empty() || analytes.iter().any(|named| named.id() == *analyte))
            {
                *result *= factor;
                changed = true;
            }
        }
        changed
    }

    /// All temperatures of the tap lower, but for the one at which the RO was read.
    fn colder(&mut self, by: f64) -> Known<()> {
        // water of the tap that is colder than this is ice
        const COLDEST: f64 = 273.65;
        let ids = ["tap-temperature", "coldest-temperature", "warmest-temperature"];
        let mut changed = self.number(ids[0]).map(|_| ());
        for id in ids {
            if let Ok(temperature) = self.number(id) {
                self.set(id, (temperature - by).max(COLDEST));
                changed = Ok(());
            }
        }
        if let Some(Some(Value::Table(months))) = self.value("months") {
            for cell in months.iter_mut().flatten() {
                if let Some(Value::Number(temperature)) = cell {
                    *temperature = (*temperature - by).max(COLDEST);
                }
            }
            changed = Ok(());
        }
        changed
    }
}

/// The changes, in the order in which they are asked about.
pub static CHANGES: &[Change] = &[
    Change {
        id: "highest-chlorine",
        name: "Total chlorine at the highest of the year",
        make: |water| {
            let highest = water.number("highest-total-chlorine")?;
            water.set("total-chlorine", highest);
            Ok(())
        },
    },
    Change {
        id: "double-dose",
        name: "Chlorine doubled",
        make: |water| {
            // what is not known of free chlorine counts as chloramine, before as after
            let _ = water.times("free-chlorine", 2.0);
            water.times("total-chlorine", 2.0)
        },
    },
    Change {
        id: "all-chloramine",
        name: "Switch from chlorine to chloramine",
        make: |water| {
            water.number("total-chlorine")?;
            water.set("free-chlorine", 0.0);
            Ok(())
        },
    },
    Change {
        id: "harder",
        name: "Hardness +50 %",
        make: |water| {
            let in_report = water.times_in_report(&[Analyte::Calcium, Analyte::Magnesium], 1.5);
            let entered = water.times("hardness", 1.5);
            if in_report { Ok(()) } else { entered }
        },
    },
    Change {
        id: "more-salt",
        name: "All dissolved salts +50 %",
        make: |water| {
            let in_report = water.times_in_report(&[], 1.5);
            // hardness is a part of the salt
            let hardness = water.times("hardness", 1.5);
            let entered = water.times("conductivity", 1.5);
            if in_report { Ok(()) } else { entered.or(hardness.or(entered)) }
        },
    },
    Change { id: "colder", name: "5 °C colder all year", make: |water| water.colder(5.0) },
];

/// The checks that a change of the water makes worse, worst first; empty where every state stays.
///
/// # Errors
/// Where what would change is not known.
pub fn worse(entry: &Entry, values: &[Option<Value>], now: &[Check], change: &Change) -> Known<Vec<Worse>> {
    let mut water = Water { entry, values: values.to_vec() };
    water.values.resize(entry.declaration.inputs.len(), None);
    (change.make)(&mut water)?;
    let then = entry.assess(&water.values, false).checks;
    Ok(then
        .into_iter()
        .filter_map(|after| {
            let before = now.iter().find(|before| before.is_same(&after))?.state;
            after.state.is_worse_than(before).then_some(Worse { before, after })
        })
        .collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::record::Record;
    use crate::program::catalogue::find;

    #[test]
    fn colder_water_fails_the_capacity_first() {
        let plan = find("plan").unwrap();
        let record = Record::open(include_str!("../../../../examples/quillon-flats.json")).unwrap();
        let (values, _) = record.inputs_of_plan(0);
        let now = plan.assess(&values, false).checks;
        let of = |id| {
            let change = CHANGES.iter().find(|change| change.id == id).unwrap();
            worse(plan, &values, &now, change)
        };
        // 14.44 − 5 = 9.44 °C: form A falls by exp(−3020 · (1/282.59 − 1/287.59)), a factor of 0.830, so that
        // 0.238 gal/min are 0.198, below the peak of 0.21
        let colder = of("colder").unwrap();
        let first = &colder[0].after;
        assert_eq!((first.criterion.id, first.state), ("capacity", State::NotMet));
        let gallons = first.value / (231.0 * 0.0254f64.powi(3) / 60.0);
        assert!((gallons - 0.198).abs() < 0.001, "{gallons}");
    }

    #[test]
    fn what_is_not_known_does_not_change() {
        let plan = find("plan").unwrap();
        for change in CHANGES {
            let missing = worse(plan, &[], &[], change).map(|worse| worse.len());
            assert!(missing.is_err_and(|missing| !missing.field.is_empty()), "{}", change.id);
        }
    }
}
