//! Losses in hoses and fittings, any number of them in series.
//!
//! Darcy and Weisbach with Colebrook's friction factor; fittings by loss coefficient or by flow coefficient.

use crate::engine::quantity::{
    Density, Flow, FlowCoefficient, Length, PressureDifference, Velocity, Viscosity, bar_difference,
};
use crate::engine::sheet::{Known, Missing, Problem, Sentence, Slot, Stop, Term, Working};
use crate::trade::terms::tap::{BORE, COEFFICIENT_OF_FLOW, HOSE_LENGTH, LOSS_COEFFICIENT, ROUGHNESS};
use crate::{input_row, trade::water::pipe};

input_row! {
    /// One length of hose or pipe.
    Hose {
        bore      "bore":      Length         = BORE,
        length    "length":    Length         = HOSE_LENGTH,
        roughness "roughness": Option<Length> = ROUGHNESS,
    }
}

input_row! {
    /// One kind of fitting, by its loss coefficient in a bore or by its flow coefficient.
    Fitting {
        coefficient "loss-coefficient": Option<f64>             = LOSS_COEFFICIENT,
        bore        "bore":             Option<Length>          = BORE.help("Of the hose or pipe that the loss coefficient is meant for."),
        capacity    "flow-coefficient": Option<FlowCoefficient> = COEFFICIENT_OF_FLOW,
        count       "count":            Option<f64>             = Term::number(&crate::engine::quantity::kinds::NUMBER, "Count", "n")
            .assumed("one").plausible(1.0, 20.0, "").possible(0.0, 1000.0, ""),
    }
}

/// Smooth plastic hose, on the rough side of it; common practice, no source.
const SMOOTH_HOSE: Length = Length::of(7e-6);

/// The water in the line.
#[derive(Debug, Clone, Copy)]
pub struct Water {
    /// At its temperature.
    pub density: Density,
    /// At its temperature.
    pub viscosity: Viscosity,
}

/// The friction loss of all hoses at one flow, and the greatest velocity in them, where there is a hose.
///
/// # Formula
/// Δp = Σ f · (L / D) · ρ v² / 2, v = 4 Q / (π D²)
///
/// # Source
/// Colebrook (1939) for f; see [`pipe::friction_factor`].
pub fn hoses(
    hoses: &[Hose],
    flow: Flow,
    water: Water,
    w: &mut Working,
) -> (PressureDifference, Known<Velocity>) {
    let mut sum = PressureDifference::of(0.0);
    let mut fastest = Velocity::of(0.0);
    let (mut rounds, mut reynolds) = (0, 0.0);
    for hose in hoses {
        let velocity = pipe::mean_velocity(flow, hose.bore);
        let number = pipe::reynolds_number(velocity, hose.bore, water.density, water.viscosity);
        let friction = pipe::friction_factor(number, hose.roughness.unwrap_or(SMOOTH_HOSE) / hose.bore);
        sum = sum
            + pipe::velocity_pressure(water.density, velocity)
                * (friction.factor * (hose.length / hose.bore));
        if velocity > fastest {
            (fastest, reynolds) = (velocity, number);
        }
        rounds += friction.rounds;
    }
    w.procedure(("in_hoses", "Δp_h"), sum, || {
        Sentence::plain("f · (L/D) · ρv²/2 over {count} lengths of hose, f after Colebrook in {rounds} rounds in all; Reynolds number in the fastest {reynolds}")
            .with("count", Slot::Count(hoses.len() as i64))
            .with("rounds", Slot::Count(i64::from(rounds)))
            .quantity("reynolds", reynolds)
    });
    let fastest = if hoses.is_empty() { Err(Missing::empty("hoses", "Hoses")) } else { Ok(fastest) };
    (sum, fastest)
}

/// The loss of all fittings at one flow.
///
/// # Formula
/// Δp = Σ n · K · ρ v² / 2, or Σ n · 1 bar · (Q / Kv)²
///
/// # Errors
/// A fitting without any coefficient, or with a loss coefficient and no bore to which it belongs.
///
/// # Source
/// By definition of the two coefficients; usual values of K from textbook tables.
pub fn fittings(
    fittings: &[Fitting],
    flow: Flow,
    water: Water,
    w: &mut Working,
) -> Result<PressureDifference, Stop> {
    let mut sum = PressureDifference::of(0.0);
    for (row, fitting) in fittings.iter().enumerate() {
        let one = match (fitting.coefficient, fitting.bore, fitting.capacity) {
            (Some(coefficient), Some(bore), _) => {
                pipe::velocity_pressure(water.density, pipe::mean_velocity(flow, bore)) * coefficient
            }
            (_, _, Some(capacity)) => bar_difference(1.0) * (flow.si() / capacity.si()).powi(2),
            (Some(_), None, None) => {
                return Err(lacks(
                    row,
                    "bore",
                    "fitting {row} has a loss coefficient but no bore: enter the bore of its hose",
                )
                .into());
            }
            (None, _, None) => {
                return Err(lacks(
                    row,
                    "loss-coefficient",
                    "fitting {row} has no coefficient: enter one of the two, or remove the row",
                )
                .into());
            }
        };
        sum = sum + one * fitting.count.unwrap_or(1.0);
    }
    w.procedure(("in_fittings", "Δp_K"), sum, || {
        Sentence::plain("K · ρv²/2 or 1 bar · (Q/Kv)² over {count} kinds of fitting")
            .with("count", Slot::Count(fittings.len() as i64))
    });
    Ok(sum)
}

fn lacks(row: usize, column: &'static str, template: &'static str) -> Problem {
    let sentence = Sentence::plain(template).with("row", Slot::Count(row as i64 + 1));
    Problem { field: "fittings", cell: Some((row, column)), sentence }
}
