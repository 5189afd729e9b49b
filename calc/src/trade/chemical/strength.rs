//! The strengths of stock and solution on one basis, in whatever way the instructions print them.

use super::agent::Agent;
use super::dilution::Dilution;
use crate::engine::quantity::{Concentration, Density};
use crate::engine::sheet::{Missing, Problem, Stop, Working};
use crate::{choice, step};

choice!(/// What a strength counts.
    StrengthAs { Itself "itself" "The substance itself", AvailableChlorine "available-chlorine" "Available chlorine, as Cl2" });

choice!(/// In which form the stock is.
StockForm {
    Liquid "liquid" "Liquid",
    Powder "powder" "Powder without water of crystallization (anhydrous)",
    Monohydrate "citric-monohydrate" "Citric acid monohydrate",
});

choice!(/// Of what a per cent is a share.
PercentMeans {
    ByVolume "weight-by-volume" "% w/v: grams in 100 mL of solution",
    ByMass "weight-by-weight" "% w/w: grams in 100 g of solution",
    Volumes "volume-by-volume" "% v/v: mL of the stock, as supplied, in 100 mL of solution",
});

choice!(/// Whether the stock is one of the parts that are counted.
RatioMeans {
    OneIn "one-in" "1 in N: N parts in total, one of them stock",
    OnePlus "one-plus" "1 + N: one part of stock and N parts of water",
});

impl StockForm {
    /// How many grams hold one gram of the substance, by molar masses (IUPAC 2021).
    pub(super) fn mass_of_one(self, agent: Agent) -> Result<f64, Stop> {
        match self {
            StockForm::Monohydrate if agent == Agent::CitricAcid => Ok(210.138 / 192.123),
            StockForm::Monohydrate => Err(Problem::new(
                "stock-form",
                "this is the hydrate of citric acid: choose the form of your agent",
            )
            .into()),
            StockForm::Liquid | StockForm::Powder => Ok(1.0),
        }
    }
}

/// What the instructions ask for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wanted {
    /// A strength.
    Strength(Concentration),
    /// One part of stock in so many.
    Parts(f64),
}

/// Above it a solution in per cent by mass is not as dense as water within a few per cent (common practice, no source).
const THIN: f64 = 0.05;

/// The strength of the solution, or its parts, whichever of the three ways was entered.
pub(super) fn wanted(asked: &Dilution, w: &mut Working) -> Result<Wanted, Stop> {
    match (asked.wanted, asked.percent, asked.ratio) {
        (Some(wanted), None, None) => Ok(Wanted::Strength(wanted)),
        (None, Some(percent), None) => {
            w.bind("percent", "p", percent);
            match asked.percent_means? {
                PercentMeans::ByVolume => {
                    let gram_per_millilitre = Density::of(1000.0);
                    w.bind("gram_per_millilitre", "1 g/mL", gram_per_millilitre);
                    step!(w, wanted "C_2": Concentration = percent.si() * gram_per_millilitre.si());
                    Ok(Wanted::Strength(wanted))
                }
                PercentMeans::ByMass => {
                    let of_solution = match asked.solution_density {
                        Some(density) => density,
                        None if percent.si() <= THIN => {
                            w.assume("solution-density", "taken as that of water, 1.00 g/mL");
                            Density::of(1000.0)
                        }
                        None => {
                            return Err(Missing::empty("solution-density", "Density of the solution").into());
                        }
                    };
                    w.bind("of_solution", "ρ_2", of_solution);
                    step!(w, wanted "C_2": Concentration = percent.si() * of_solution.si());
                    Ok(Wanted::Strength(wanted))
                }
                PercentMeans::Volumes => {
                    step!(w, total "n" = 1.0 / percent.si());
                    parts(total, "wanted-percent")
                }
            }
        }
        (None, None, Some(number)) => match asked.ratio_means? {
            RatioMeans::OneIn => parts(number, "ratio-number"),
            RatioMeans::OnePlus => {
                w.bind("number", "N", number);
                step!(w, total "n" = 1.0 + number);
                parts(total, "ratio-number")
            }
        },
        (None, None, None) => Err(Missing::not_known(
            "wanted-concentration",
            "enter the strength of the solution: as a concentration, in %, or in parts",
        )
        .into()),
        (_, Some(_), _) => Err(one_way("wanted-percent")),
        (_, _, Some(_)) => Err(one_way("ratio-number")),
    }
}

fn one_way(field: &'static str) -> Stop {
    Problem::new(
        field,
        "enter the strength of the solution in one way only: as a concentration, in %, or in parts",
    )
    .into()
}

fn parts(total: f64, field: &'static str) -> Result<Wanted, Stop> {
    if total > 1.0 {
        Ok(Wanted::Parts(total))
    } else {
        Err(Problem::new(field, "one part in one is the stock itself, undiluted").into())
    }
}

/// How the strengths of stock and solution are expressed.
pub(super) fn expressed(asked: &Dilution) -> Result<(StrengthAs, StrengthAs), Stop> {
    let stock_as = asked.stock_as.unwrap_or(StrengthAs::Itself);
    let wanted_as = asked.wanted_as.unwrap_or(stock_as);
    let counts_chlorine = [stock_as, wanted_as].contains(&StrengthAs::AvailableChlorine);
    if counts_chlorine && asked.agent != Agent::Hypochlorite {
        return Err(
            Problem::new("wanted-counted-as", "only bleach is expressed as available chlorine").into()
        );
    }
    Ok((stock_as, wanted_as))
}

/// The strength of a liquid stock, on the basis of the solution.
pub(super) fn of_stock(asked: &Dilution, w: &mut Working) -> Result<Concentration, Stop> {
    let plain = match (asked.by_volume, asked.by_mass) {
        (Some(_), Some(_)) => {
            return Err(
                Problem::new("stock-share", "enter the strength by volume or by mass, not both").into()
            );
        }
        (Some(by_volume), None) => by_volume,
        (None, Some(by_mass)) => {
            let density = asked.density?;
            w.bind("by_mass", "w", by_mass);
            step!(w, plain "C_0": Concentration = by_mass.si() * density.si());
            plain
        }
        (None, None) => {
            return Err(Missing::not_known(
                "stock-concentration",
                "enter the strength of the stock, by volume or by mass",
            )
            .into());
        }
    };
    let (stock_as, wanted_as) = expressed(asked)?;
    w.bind("plain", "C_0", plain);
    // molar masses of NaOCl and Cl2 (IUPAC 2021)
    Ok(match (stock_as, wanted_as) {
        (StrengthAs::Itself, StrengthAs::AvailableChlorine) => {
            step!(w, stock "C_1" = plain * (70.906 / 74.442));
            stock
        }
        (StrengthAs::AvailableChlorine, StrengthAs::Itself) => {
            step!(w, stock "C_1" = plain * (74.442 / 70.906));
            stock
        }
        _ => {
            w.bind("stock", "C_1", plain);
            plain
        }
    })
}
