//! The names of units: each means one unit within its kind, however it is spelled, and the same unit in related kinds.

use calc::engine::quantity::{self, Kind, UnitSet, kinds, text};

/// The spellings of a name that people type.
fn spellings(name: &str) -> Vec<String> {
    let spaced = name.replace('/', " / ");
    let plain = name.replace('³', "3").replace('²', "2").replace('µ', "u").replace('·', "*");
    let greek = name.replace('µ', "μ");
    [name, &spaced, &plain, &greek]
        .iter()
        .flat_map(|text| [text.to_string(), text.to_lowercase(), text.to_uppercase(), format!(" {text}.")])
        .collect()
}

#[test]
fn every_name_means_one_unit() {
    for kind in kinds::all().filter(|kind| !kind.is_bare()) {
        for unit in kind.units {
            // what the page shows is read back too
            for name in [&unit.symbol, &unit.shown()].into_iter().chain(unit.aliases) {
                assert_eq!(
                    kind.written(name).map(|unit| unit.symbol),
                    Some(unit.symbol),
                    "{}: {name}",
                    kind.id
                );
                for spelling in spellings(name) {
                    let meant: Vec<_> = kind
                        .units
                        .iter()
                        .filter(|unit| unit.is_written(&spelling))
                        .map(|u| u.symbol)
                        .collect();
                    assert_eq!(meant, [unit.symbol], "{}: {spelling}", kind.id);
                    // a unit without a symbol, that of a share as a fraction, is never taken unasked
                    if !spelling.trim().is_empty() {
                        let typed = text::read(&format!("1 {spelling}"), kind, None);
                        assert_eq!(
                            typed.map(|t| t.unit.symbol),
                            Ok(unit.symbol),
                            "{}: 1 {spelling}",
                            kind.id
                        );
                    }
                }
            }
        }
    }
}

#[test]
fn a_name_that_two_kinds_share_is_one_unit() {
    let families: [&[&str]; 4] = [
        &["pressure", "pressure-difference"],
        &["chlorine", "hardness", "concentration", "density"],
        &["time", "heat-dose"],
        &["temperature", "temperature-difference", "absolute-temperature"],
    ];
    for family in families {
        let members: Vec<&Kind> = kinds::all().filter(|kind| family.contains(&kind.id)).collect();
        assert_eq!(members.len(), family.len(), "{family:?}");
        let mut shared = 0;
        for (a, b) in
            members.iter().flat_map(|a| members.iter().map(move |b| (*a, *b))).filter(|(a, b)| a != b)
        {
            for unit in a.units {
                for name in std::iter::once(&unit.symbol).chain(unit.aliases) {
                    if let Some(other) = b.written(name) {
                        assert_eq!(unit.factor, other.factor, "{name} in {} and in {}", a.id, b.id);
                        shared += 1;
                    }
                }
            }
        }
        assert!(shared > 0, "{family:?} share no name");
    }
}

#[test]
fn kinds_are_whole() {
    let mut ids = Vec::new();
    for kind in kinds::all() {
        assert!(!ids.contains(&kind.id), "{} stands twice", kind.id);
        ids.push(kind.id);
        let coherent = kind.units.iter().filter(|unit| unit.factor == 1.0 && unit.offset == 0.0).count();
        assert_eq!(coherent, 1, "{}", kind.id);
        assert_eq!((kind.si().factor, kind.si().offset), (1.0, 0.0), "{}", kind.id);
        assert!(kind.find(kind.metric).is_some() && kind.find(kind.us).is_some(), "{}", kind.id);
        for set in [UnitSet::Metric, UnitSet::Us, UnitSet::Si] {
            assert!(kind.find(kind.unit_in(set).symbol).is_some(), "{}", kind.id);
        }
    }
}

#[test]
fn a_number_written_with_its_unit_is_that_quantity() {
    let rows: [(f64, f64, &str); 11] = [
        (quantity::litres(3.0).si(), 3e-3, "litres"),
        (quantity::litres_per_minute(6.0).si(), 1e-4, "litres_per_minute"),
        (quantity::minutes(10.0).si(), 600.0, "minutes"),
        (quantity::seconds(10.0).si(), 10.0, "seconds"),
        (quantity::hours(2.0).si(), 7200.0, "hours"),
        (quantity::metres(2.0).si(), 2.0, "metres"),
        (quantity::millimetres(12.7).si(), 0.0127, "millimetres"),
        (quantity::bar(4.0).si(), 4e5, "bar"),
        (quantity::celsius(25.0).si(), 298.15, "celsius"),
        (quantity::percent(45.0).si(), 0.45, "percent"),
        (quantity::milligrams_per_litre(0.1).si(), 1e-4, "milligrams_per_litre"),
    ];
    for (si, expected, name) in rows {
        assert!((si - expected).abs() <= 1e-15 * expected, "{name}: {si} for {expected}");
        assert!(quantity::constant(name).is_some(), "{name}");
    }
}
