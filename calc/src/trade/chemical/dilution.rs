//! How much stock for how much solution: a liquid by volume and by mass, as parts and total; a powder or a hydrate by mass.
//!
//! Rests on conservation of mass on one basis (C1 · V1 = C2 · V2). Volumes are taken to add up. It does not say which
//! strength an RO withstands: its own instructions do.

use super::agent::Agent;
use super::strength::{self, PercentMeans, RatioMeans, StockForm, StrengthAs, Wanted};
use crate::engine::quantity::{
    Concentration, Density, Mass, Ratio, Volume,
    kinds::{CONCENTRATION, MASS, NUMBER, VOLUME},
};
use crate::engine::sheet::{Caution, Evaluate, Known, Missing, Problem, Stage, Stop, Term, Working, source};
use crate::trade::terms::chemical;
use crate::{sheet, step};

static NEVER_MIXED: Caution = Caution {
    id: "never-mixed",
    text: "Never mix chemicals with each other. Add the stock to the water, never water to the stock. Wear goggles, gloves and apron, ventilate, follow the safety data sheet. No patient is connected. Label the RO and lock it out until the residual test has passed.",
};
static HYPOCHLORITE: Caution = Caution {
    id: "hypochlorite",
    text: "Bleach with acid gives chlorine gas. Never let it reach a polyamide membrane or a carbon: it destroys the membrane and uses up the carbon.",
};
static PERACETIC_ACID: Caution = Caution {
    id: "peracetic-acid",
    text: "Peracetic acid burns skin and eyes. With bleach or metals it decomposes and gives off heat and gas. On a membrane use iron-free water, no warmer than the RO's instructions say. A chlorine strip does not show that it is gone.",
};
static CITRIC_ACID: Caution = Caution {
    id: "citric-acid",
    text: "Acid with bleach gives chlorine gas: rinse between them and test. Citric acid removes scale; it is not a disinfectant by itself.",
};
static FORMALDEHYDE: Caution = Caution {
    id: "formaldehyde",
    text: "Formaldehyde is toxic, can cause allergy, and causes cancer. Plastics release it again after a rinse. Local rules may forbid it.",
};

sheet! {
    /// How much stock and how much water make a solution, by volume and by mass, as parts and total; how much of a powder or a hydrate.
    Dilution, "dilution", "Dilution of a disinfectant", Stage::Chemical,
    also: &["bleach", "peracetic acid", "1 in N"],
    sources: &[&source::MASS_BALANCE, &source::DEVICE_INSTRUCTIONS],
    cautions: &[&NEVER_MIXED],
    criteria: &[],
    inputs: {
        agent     "agent":                Agent                = chemical::AGENT.help("Each has its own cautions."),
        by_volume "stock-concentration":  Option<Concentration> = chemical::STOCK_CONCENTRATION,
        by_mass   "stock-share":          Option<Ratio>        = chemical::STOCK_SHARE,
        density   "stock-density":        Known<Density>       = chemical::STOCK_DENSITY,
        stock_as  "stock-counted-as":     Option<StrengthAs>   = Term::other("Strength of the stock expressed as").assumed("the substance itself"),
        wanted    "wanted-concentration": Option<Concentration> = chemical::WANTED.assumed("in % or in parts"),
        wanted_as "wanted-counted-as":    Option<StrengthAs>   = Term::other("Strength of the solution expressed as").assumed("the same as that of the stock"),
        volume    "solution-volume":      Volume               = chemical::SOLUTION_VOLUME,
        form      "stock-form":           Option<StockForm>    = Term::other("Form of the stock").assumed("a liquid"),
        percent   "wanted-percent":       Option<Ratio>        = chemical::WANTED_PERCENT,
        percent_means "percent-means":    Known<PercentMeans>  = Term::other("What the % means").help("As the instructions print it: % w/v, % w/w or % v/v."),
        solution_density "solution-density": Option<Density>   = chemical::SOLUTION_DENSITY,
        ratio     "ratio-number":         Option<f64>          = chemical::RATIO_NUMBER,
        ratio_means "ratio-means":        Known<RatioMeans>    = Term::other("What the ratio means").help("“1:100” can be either: ask the supplier."),
    }
    outputs Outputs: {
        stock      "stock-strength": Known<Concentration> = Term::number(&CONCENTRATION, "Strength of the stock, expressed as that of the solution", "C_1").units("g/L", "g/L"),
        stock_volume "stock-volume": Known<Volume> = Term::number(&VOLUME, "Disinfectant stock", "V_1").units("mL", "mL"),
        stock_mass "stock-mass":     Known<Mass>   = Term::number(&MASS, "Disinfectant stock by mass", "m_1").units("g", "g"),
        water      "water-volume":   Known<Volume> = Term::number(&VOLUME, "Water", "V_w"),
        parts      "water-parts":    Known<f64>    = Term::number(&NUMBER, "Parts of water for one part of stock", "n_w"),
        total      "total-parts":    Known<f64>    = Term::number(&NUMBER, "Parts in total", "n"),
        active     "active-mass":    Known<Mass>   = Term::number(&MASS, "Active substance in the solution", "m").units("g", "g"),
        made       "solution-strength": Known<Concentration> = Term::number(&CONCENTRATION, "Strength of the solution", "C_2").units("g/L", "g/L"),
        powder     "powder-mass":    Known<Mass>   = Term::number(&MASS, "Powder to weigh", "m_p").units("g", "g"),
    }
}

const IS_POWDER: Missing =
    Missing::none_exists("a powder is weighed: dissolve it and make up to the volume of the solution");
const IS_LIQUID: Missing = Missing::none_exists("the stock is a liquid");

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
        let wanted = strength::wanted(self, w)?;
        match self.form.unwrap_or(StockForm::Liquid) {
            StockForm::Liquid => self.of_liquid(wanted, w),
            form => self.of_powder(form, wanted, w),
        }
    }
}

impl Dilution {
    fn of_liquid(&self, wanted: Wanted, w: &mut Working) -> Result<Outputs, Stop> {
        let volume = self.volume;
        let strength = strength::of_stock(self, w);
        let (total, stock, made) = match wanted {
            // what is poured follows from the parts alone; the strength needs that of the stock
            Wanted::Parts(total) => {
                let stock = match strength {
                    Err(Stop::Missing(missing)) => Err(missing),
                    known => Ok(known?),
                };
                w.bind("total", "n", total);
                let made = stock.map(|stock| {
                    w.bind("stock", "C_1", stock);
                    step!(w, made "C_2" = stock / total);
                    made
                });
                (total, stock, made)
            }
            Wanted::Strength(wanted) => {
                let stock = strength?;
                if wanted >= stock {
                    return Err(Problem::new(
                        self.wanted_field(),
                        "the solution cannot be as strong as the stock or stronger: check both, and what each is expressed as",
                    )
                    .into());
                }
                w.bind("stock", "C_1", stock);
                w.bind("wanted", "C_2", wanted);
                step!(w, total "n" = stock / wanted);
                (total, Ok(stock), Ok(wanted))
            }
        };
        step!(w, stock_volume "V_1" = volume / total);
        step!(w, water "V_w" = volume - stock_volume);
        step!(w, parts "n_w" = total - 1.0);
        let active = made.map(|made| {
            w.bind("made", "C_2", made);
            step!(w, active "m": Mass = made.si() * volume.si());
            active
        });
        let stock_mass = self.density.map(|density| {
            step!(w, stock_mass "m_1" = density * stock_volume);
            stock_mass
        });
        Ok(Outputs {
            stock,
            stock_volume: Ok(stock_volume),
            stock_mass,
            water: Ok(water),
            parts: Ok(parts),
            total: Ok(total),
            active,
            made,
            powder: Err(IS_LIQUID),
        })
    }

    fn of_powder(&self, form: StockForm, wanted: Wanted, w: &mut Working) -> Result<Outputs, Stop> {
        let Wanted::Strength(made) = wanted else {
            let field = if self.ratio.is_some() { "ratio-number" } else { "wanted-percent" };
            return Err(
                Problem::new(field, "a powder has no parts: enter the strength of the solution").into()
            );
        };
        if self.by_volume.is_some() {
            return Err(Problem::new(
                "stock-concentration",
                "a powder has no strength by volume: enter its purity in % by mass, or leave both empty",
            )
            .into());
        }
        let (stock_as, wanted_as) = strength::expressed(self)?;
        if stock_as != wanted_as {
            return Err(Problem::new(
                "wanted-counted-as",
                "a powder and its solution must be expressed the same way: the conversion depends on which salt the powder is",
            )
            .into());
        }
        let ratio = form.mass_of_one(self.agent)?;
        let purity = match self.by_mass {
            Some(purity) => purity,
            // no chlorine powder is pure
            None if self.agent == Agent::Hypochlorite => {
                return Err(Missing::empty("stock-share", "Strength of the stock, by mass (% w/w)").into());
            }
            None => {
                w.assume("stock-share", "taken as pure: 100 % of the powder is the substance");
                Ratio::of(1.0)
            }
        };
        let volume = self.volume;
        w.bind("made", "C_2", made);
        step!(w, active "m": Mass = made.si() * volume.si());
        w.bind("purity", "w", purity);
        w.bind("ratio", "M_h/M", ratio);
        step!(w, powder "m_p" = active * ratio / purity);
        Ok(Outputs {
            stock: Err(IS_POWDER),
            stock_volume: Err(IS_POWDER),
            stock_mass: Ok(powder),
            water: Err(IS_POWDER),
            parts: Err(IS_POWDER),
            total: Err(IS_POWDER),
            active: Ok(active),
            made: Ok(made),
            powder: Ok(powder),
        })
    }

    /// The field that gave the strength of the solution.
    pub(super) fn wanted_field(&self) -> &'static str {
        if self.wanted.is_some() { "wanted-concentration" } else { "wanted-percent" }
    }
}
