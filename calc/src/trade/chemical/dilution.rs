//! How much concentrate for how much solution, by volume and by mass, as parts and total.
//!
//! Rests on conservation of mass on one basis (C1 · V1 = C2 · V2). Volumes are taken to add up. It does not say which
//! strength an RO stands: its own instructions do.

use crate::engine::quantity::{
    Concentration, Density, Mass, Ratio, Volume,
    kinds::{CONCENTRATION, MASS, NUMBER, VOLUME},
};
use crate::engine::sheet::{Caution, Evaluate, Known, Missing, Problem, Stage, Stop, Term, Working, source};
use crate::trade::terms::chemical;
use crate::{choice, sheet, step};

choice!(/// The agent.
Agent {
    PeraceticAcid "peracetic-acid" "Peracetic acid with hydrogen peroxide",
    Hypochlorite "hypochlorite" "Sodium hypochlorite (bleach)",
    CitricAcid "citric-acid" "Citric acid",
    Formaldehyde "formaldehyde" "Formaldehyde",
    Other "other" "Something else",
});

choice!(/// What a strength counts.
    CountedAs { Itself "itself" "The substance itself", AvailableChlorine "available-chlorine" "Available chlorine, as Cl2" });

static NEVER_MIXED: Caution = Caution {
    id: "never-mixed",
    text: "Chemicals are never mixed with each other. Concentrate goes into water, never water into concentrate; goggles, gloves, apron and fresh air, by the safety data sheet. No patient is connected; label the RO and lock it out until the residual test is done.",
};
static HYPOCHLORITE: Caution = Caution {
    id: "hypochlorite",
    text: "Hypochlorite with acid gives chlorine gas. Never let it reach a polyamide membrane or a carbon: the one is destroyed, the other is used up.",
};
static PERACETIC_ACID: Caution = Caution {
    id: "peracetic-acid",
    text: "Peracetic acid burns and, with hypochlorite or metals, decomposes with heat and gas. On a membrane it wants water free of iron, and not warmer than the RO's instructions say. A chlorine strip does not show that it is gone.",
};
static CITRIC_ACID: Caution = Caution {
    id: "citric-acid",
    text: "Acid and hypochlorite give chlorine gas: rinse between them and test. Citric acid removes scale; it is no disinfectant by itself.",
};
static FORMALDEHYDE: Caution = Caution {
    id: "formaldehyde",
    text: "Formaldehyde is poisonous, sensitizes and causes cancer, and comes back out of plastics after a rinse: local rules may forbid it.",
};

sheet! {
    /// How much concentrate and how much water make a solution, by volume and by mass, as parts and total.
    Dilution, "dilution", "Dilution of a disinfectant", Stage::Chemical,
    sources: &[&source::MASS_BALANCE, &source::DEVICE_INSTRUCTIONS],
    cautions: &[&NEVER_MIXED],
    criteria: &[],
    inputs: {
        agent     "agent":                Agent                = Term::other("Agent").help("Each has its own cautions."),
        by_volume "stock-concentration":  Option<Concentration> = chemical::STOCK_CONCENTRATION,
        by_mass   "stock-share":          Option<Ratio>        = chemical::STOCK_SHARE,
        density   "stock-density":        Known<Density>       = chemical::STOCK_DENSITY,
        stock_as  "stock-counted-as":     Option<CountedAs>    = Term::other("What the strength of the concentrate counts").assumed("the substance itself"),
        wanted    "wanted-concentration": Concentration        = chemical::WANTED,
        wanted_as "wanted-counted-as":    Option<CountedAs>    = Term::other("What the strength of the solution counts").assumed("the same as that of the concentrate"),
        volume    "solution-volume":      Volume               = chemical::SOLUTION_VOLUME,
    }
    outputs Outputs: {
        stock      "stock-strength": Concentration = Term::number(&CONCENTRATION, "Strength of the concentrate, counted as the solution", "C_1").units("g/L", "g/L"),
        stock_volume "stock-volume": Volume        = Term::number(&VOLUME, "Concentrate", "V_1").units("mL", "mL"),
        stock_mass "stock-mass":     Known<Mass>   = Term::number(&MASS, "Concentrate by mass", "m_1").units("g", "g"),
        water      "water-volume":   Volume        = Term::number(&VOLUME, "Water", "V_w"),
        parts      "water-parts":    f64           = Term::number(&NUMBER, "Parts of water for one part of concentrate", "n_w"),
        total      "total-parts":    f64           = Term::number(&NUMBER, "Parts in all", "n"),
        active     "active-mass":    Mass          = Term::number(&MASS, "Active substance in the solution", "m").units("g", "g"),
    }
}

impl Evaluate for Dilution {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        match self.agent {
            Agent::PeraceticAcid => w.caution(&PERACETIC_ACID),
            Agent::Hypochlorite => w.caution(&HYPOCHLORITE),
            Agent::CitricAcid => w.caution(&CITRIC_ACID),
            Agent::Formaldehyde => w.caution(&FORMALDEHYDE),
            Agent::Other => {}
        }
        let stock = self.strength(w)?;
        let (wanted, volume) = (self.wanted, self.volume);
        if wanted >= stock {
            return Err(Problem::new(
                "wanted-concentration",
                "the solution cannot be as strong as the concentrate or stronger: look at both, and at what each counts",
            )
            .into());
        }
        step!(w, stock_volume "V_1" = volume * (wanted / stock));
        step!(w, water "V_w" = volume - stock_volume);
        step!(w, total "n" = volume / stock_volume);
        step!(w, parts "n_w" = total - 1.0);
        step!(w, active "m": Mass = wanted.si() * volume.si());
        let stock_mass = self.density.map(|density| {
            step!(w, stock_mass "m_1" = density * stock_volume);
            stock_mass
        });
        Ok(Outputs { stock, stock_volume, stock_mass, water, parts, total, active })
    }
}

impl Dilution {
    /// The strength of the concentrate on the basis of the solution.
    fn strength(&self, w: &mut Working) -> Result<Concentration, Stop> {
        let plain = match (self.by_volume, self.by_mass) {
            (Some(_), Some(_)) => {
                return Err(
                    Problem::new("stock-share", "enter the strength by volume or by mass, not both").into()
                );
            }
            (Some(by_volume), None) => by_volume,
            (None, Some(by_mass)) => {
                let density = self.density?;
                w.bind("by_mass", "w", by_mass);
                step!(w, plain "C_0": Concentration = by_mass.si() * density.si());
                plain
            }
            (None, None) => {
                return Err(Missing::not_known(
                    "stock-concentration",
                    "enter the strength of the concentrate, by volume or by mass",
                )
                .into());
            }
        };
        let stock_as = self.stock_as.unwrap_or(CountedAs::Itself);
        let wanted_as = self.wanted_as.unwrap_or(stock_as);
        let counts_chlorine = [stock_as, wanted_as].contains(&CountedAs::AvailableChlorine);
        if counts_chlorine && self.agent != Agent::Hypochlorite {
            return Err(Problem::new(
                "wanted-counted-as",
                "only hypochlorite is counted as available chlorine",
            )
            .into());
        }
        w.bind("plain", "C_0", plain);
        // molar masses of NaOCl and Cl2 (IUPAC 2021)
        Ok(match (stock_as, wanted_as) {
            (CountedAs::Itself, CountedAs::AvailableChlorine) => {
                step!(w, stock "C_1" = plain * (70.906 / 74.442));
                stock
            }
            (CountedAs::AvailableChlorine, CountedAs::Itself) => {
                step!(w, stock "C_1" = plain * (74.442 / 70.906));
                stock
            }
            _ => {
                w.bind("stock", "C_1", plain);
                plain
            }
        })
    }
}
