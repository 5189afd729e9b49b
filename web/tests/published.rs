//! Every row of the tables of check values, inside a browser: its `exp` and `ln` are not those of this machine.

/// A table by its name.
macro_rules! tables {
    ($($name:literal)*) => {
        &[$(($name, include_str!(concat!("../../tests/published/", $name)))),*]
    };
}

/// Their names and texts.
const TABLES: &[(&str, &str)] = tables! {
    "bench.csv"
    "carbon-vessel.csv"
    "carbon.csv"
    "chemical.csv"
    "chlorine-test.csv"
    "day.csv"
    "drain.csv"
    "heat-up.csv"
    "heat.csv"
    "inlet-pressure.csv"
    "machine.csv"
    "membrane.csv"
    "passage.csv"
    "plan.csv"
    "product.csv"
    "run.csv"
    "scale.csv"
    "sediment.csv"
    "softener.csv"
    "tap.csv"
};

#[cfg(not(target_arch = "wasm32"))]
#[test]
fn no_table_is_forgotten() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/published");
    let names =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let mut names: Vec<String> = names.filter(|name| name.ends_with(".csv")).collect();
    names.sort();
    let listed: Vec<&str> = TABLES.iter().map(|(name, _)| *name).collect();
    assert_eq!(listed, names, "list it above");
}

#[cfg(target_arch = "wasm32")]
mod inside {
    use super::TABLES;
    use tests::rows::{Row, of_table};
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    #[wasm_bindgen_test]
    fn every_row_meets_its_value() {
        let mut rows: Vec<Row> = Vec::new();
        for (name, text) in TABLES {
            rows.extend(of_table(name, text).unwrap_or_else(|why| panic!("{why}")));
        }
        let failures: Vec<String> = rows.iter().filter_map(|row| row.compare().err()).collect();
        assert!(failures.is_empty(), "{} of {} rows:\n{}", failures.len(), rows.len(), failures.join("\n"));
    }

    #[wasm_bindgen_test]
    fn every_formula_meets_its_value() {
        let rows = tests::formulas::all().unwrap_or_else(|why| panic!("{why}"));
        let failures: Vec<String> = rows.iter().filter_map(|row| row.compare().err()).collect();
        assert!(failures.is_empty(), "{} of {} rows:\n{}", failures.len(), rows.len(), failures.join("\n"));
    }
}
