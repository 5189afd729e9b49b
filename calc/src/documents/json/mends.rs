//! What would mend each check that is not met, as JSON.

use super::named;
use crate::engine::quantity::UnitSet;
use crate::engine::sheet::{Case, Declaration};
use crate::engine::solve::{Mended, Mends};
use serde_json::{Value as Json, json};

/// Every lever of every check that is not met or marginal.
pub(super) fn of(case: &dyn Case, set: UnitSet) -> Json {
    Mends::of(case).map(|mended| mend(&mended, case.declaration(), set)).collect()
}

fn mend(mended: &Mended, declaration: &'static Declaration, set: UnitSet) -> Json {
    let field = declaration.input(mended.lever).and_then(|index| declaration.inputs.get(index));
    let unit = field.and_then(|field| field.term.unit(set == UnitSet::Us));
    let shown = |si: f64| unit.map(|unit| json!({ "value": unit.of_si(si), "unit": unit.symbol }));
    match &mended.mend {
        Ok(mend) => json!({
            "check": mended.check,
            "field": mended.lever,
            "to": shown(mend.value),
            "now": mend.now.and_then(shown),
            "worsens": mend.worsens.iter().map(|check| check.id()).collect::<Vec<_>>(),
        }),
        Err(missing) => json!({
            "check": mended.check,
            "field": mended.lever,
            "to": null,
            "why": named(missing.why),
        }),
    }
}
