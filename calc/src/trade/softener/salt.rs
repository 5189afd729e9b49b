//! What a salt dose gives: the trade's tables of strong-acid resin.

use crate::engine::quantity::{Density, ResinCapacity, Volume, kinds};
use crate::engine::sheet::{Known, Missing, Sentence, Slot, Working};

/// Salt in lb for each ft³ of resin, and capacity in grains for each ft³: the lowest that any of the tables prints.
const LOWEST_PRINTED: [(f64, f64); 4] =
    [(6.0, 20_000.0), (8.0, 22_500.0), (10.0, 25_000.0), (15.0, 30_000.0)];

/// One mole of CaCO3 is exchanged against two of NaCl: 100.086 / (2 · 58.44).
pub(super) const MOST_FOR_SALT: f64 = 100.086 / (2.0 * 58.44);

/// Capacity at a salt dose, between the printed doses on a straight line; beyond them it is not known.
pub(super) fn capacity(dose: Density, w: &mut Working) -> Known<ResinCapacity> {
    const OUTSIDE: Missing = Missing::not_known(
        "resin-capacity",
        "the tables only cover salt doses from 6 to 15 lb/ft³ (96 to 240 kg/m³): enter the capacity from the softener's label",
    );
    let pounds = kinds::DENSITY.unit("lb/ft³").of_si(dose.si());
    // 6 lb/ft³ and the 96 kg/m³ that is printed for it differ by a thousandth
    let at = LOWEST_PRINTED
        .windows(2)
        .find(|pair| (pair[0].0 * (1.0 - 2e-3)..=pair[1].0 * (1.0 + 2e-3)).contains(&pounds))
        .ok_or(OUTSIDE)?;
    let [(low, from), (high, to)] = at else { return Err(OUTSIDE) };
    let grains = from + (to - from) * (pounds.clamp(*low, *high) - low) / (high - low);
    let found = ResinCapacity::of(kinds::RESIN_CAPACITY.unit("gr/ft³").to_si(grains));
    w.procedure(("capacity", "q_r"), found, || {
        Sentence::plain(
            "lowest capacity in {rows} rows of printed tables, on a straight line between the doses",
        )
        .with("rows", Slot::Count(LOWEST_PRINTED.len() as i64))
    });
    Ok(found)
}

/// Bed volumes an hour above which leakage rises (5 gal/min for each ft³).
pub(super) fn flow_for(resin: Volume) -> crate::engine::quantity::Flow {
    crate::engine::quantity::Flow::of(
        kinds::FLOW.unit("gal/min").to_si(5.0) * resin.si() / kinds::VOLUME.unit("ft³").to_si(1.0),
    )
}
