//! What the water of one session costs: what is bought, what goes to the drain.
//!
//! By conservation of mass. Prices are as entered, in any one currency; filters, salt, current and work are not counted.

use crate::engine::quantity::kinds::{NUMBER, RATIO, VOLUME};
use crate::engine::quantity::{Ratio, Volume};
use crate::engine::sheet::{Caution, Evaluate, Known, Missing, Stage, Stop, Term, Working, source};
use crate::trade::terms::{cost, machine};
use crate::{sheet, step};

static QUALITY_FIRST: Caution = Caution {
    id: "cost-decides-nothing",
    text: "Higher recovery saves water and risks scale. The membrane and the water decide the recovery, not the price.",
};

const SHARE: Term = Term::number(&RATIO, "Overall recovery", "Y");

sheet! {
    /// Water drawn and water sent to the drain for one session, and what both cost.
    WaterCost, "water-cost", "Water cost", Stage::Bench,
    also: &["water bill"],
    sources: &[&source::MASS_BALANCE],
    cautions: &[&QUALITY_FIRST],
    criteria: &[],
    inputs: {
        product "product-volume": Volume     = machine::PRODUCT_VOLUME,
        share   "overall-recovery": Ratio    = SHARE.help("Product water over all water drawn, flushes included.").plausible(20.0, 80.0, "%").possible(1.0, 100.0, "%"),
        price   "water-price":    Known<f64> = cost::WATER_PRICE,
        drain   "drain-price":    Option<f64> = cost::DRAIN_PRICE,
    }
    outputs Outputs: {
        bought  "bought-volume":  Volume     = Term::number(&VOLUME, "Water drawn", "V_f"),
        drained "drained-volume": Volume     = Term::number(&VOLUME, "Reject to the drain", "V_c"),
        cost    "session-cost":   Known<f64> = Term::number(&NUMBER, "Water cost of one session", "C"),
    }
}

impl Evaluate for WaterCost {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &WaterCost { product, share, price, drain } = self;
        (share.si() > 0.0)
            .then_some(())
            .ok_or(Missing::none_exists("no product water is made of the water drawn"))?;
        step!(w, bought "V_f" = product / share);
        step!(w, drained "V_c" = bought - product);
        let drain = drain.unwrap_or(0.0);
        w.bind("drain", "c_d", drain);
        let cost = price.map(|price| {
            // what the machine has used goes down the drain too
            step!(w, cost "C": f64 = bought.si() * (price + drain));
            cost
        });
        Ok(Outputs { bought, drained, cost })
    }
}
