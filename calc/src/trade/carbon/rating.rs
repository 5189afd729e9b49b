//! What a cartridge's label promises, and what that is worth for dialysis.
//!
//! The usual rating runs to an outlet of 0.5 mg/L, five times the limit for dialysis, with its own inlet and flow
//! (NSF/ANSI 42). Scaled by mass of chlorine it is an upper bound; it is never scaled up.

use super::kinetics::Species;
use super::life::LIMIT;
use crate::engine::quantity::{Chlorine, Flow, Volume};
use crate::engine::sheet::{Known, Missing, Problem, Sentence, Stop, Working};
use crate::{choice, step};

choice!(/// The form of chlorine that the label is for.
    RatedFor { Chlorine "chlorine" "Free chlorine", Chloramine "chloramine" "Chloramine" });

/// A label with all five of its facts.
#[derive(Debug, Clone, Copy)]
pub(super) struct Label {
    rated_for: RatedFor,
    rated: Volume,
    rated_flow: Flow,
    rated_in: Chlorine,
    rated_out: Chlorine,
}

const OTHER_FORM: Missing = Missing::not_known(
    "rated-disinfectant",
    "the label is for the other form of chlorine and says nothing about this one",
);

impl Label {
    /// What the label says; refused where its outlet is not below its inlet.
    pub(super) fn read(
        rated_for: Known<RatedFor>,
        rated: Known<Volume>,
        rated_flow: Known<Flow>,
        rated_in: Known<Chlorine>,
        rated_out: Known<Chlorine>,
    ) -> Result<Known<Label>, Stop> {
        if let (Ok(before), Ok(after)) = (rated_in, rated_out)
            && after >= before
        {
            return Err(Problem::new(
                "rated-outlet",
                "the rated outlet must be below the rated inlet: check both on the label",
            )
            .into());
        }
        let whole = || {
            Ok(Label {
                rated_for: rated_for?,
                rated: rated?,
                rated_flow: rated_flow?,
                rated_in: rated_in?,
                rated_out: rated_out?,
            })
        };
        Ok(whole())
    }

    pub(super) fn is_for(&self, species: Species) -> bool {
        match self.rated_for {
            RatedFor::Chlorine => species == Species::FreeChlorine,
            RatedFor::Chloramine => species == Species::Chloramine,
        }
    }

    /// Least and most litres; the least is known only of a label that itself runs below the limit, within its flow and inlet.
    pub(super) fn litres(
        &self,
        species: Species,
        inlet: Chlorine,
        flow: Flow,
        w: &mut Working,
    ) -> (Known<Volume>, Known<Volume>) {
        if !self.is_for(species) {
            return (Err(OTHER_FORM), Err(OTHER_FORM));
        }
        w.bind("inlet", "C_0", inlet);
        let rated = self.rated;
        let rated_in = self.rated_in;
        step!(w, most_litres "V_max" = rated * (rated_in / inlet).min(1.0));
        if self.rated_out >= LIMIT {
            w.warn(
                "rated-outlet", "outlet-above-limit",
                Sentence::plain("the rated capacity is for an outlet of {outlet}, and dialysis needs less than {limit}: it is an upper bound")
                    .quantity("outlet", self.rated_out)
                    .quantity("limit", LIMIT),
            );
        }
        if flow > self.rated_flow {
            w.warn(
                "flow", "above-rated-flow",
                Sentence::plain("{flow} is more than the rated flow of {rated}: the rated capacity is an upper bound and promises nothing")
                    .quantity("flow", flow)
                    .quantity("rated", self.rated_flow),
            );
        }
        let is_promised = self.rated_out < LIMIT && flow <= self.rated_flow && inlet <= self.rated_in;
        let least = is_promised.then_some(most_litres).ok_or(Missing::not_known(
            "rated-outlet",
            "the label promises nothing below 0.1 mg/L for this flow and inlet: nobody measured how much less than its rated capacity that is",
        ));
        (least, Ok(most_litres))
    }

    /// The flow at which the label's contact would leave the limit of dialysis, never more than the label's own.
    pub(super) fn flow_for_limit(&self, inlet: Chlorine, w: &mut Working) -> Flow {
        if inlet <= LIMIT {
            return self.rated_flow;
        }
        w.bind("worst_inlet", "C_0", inlet);
        w.bind("limit", "C_limit", LIMIT);
        let (rated_flow, rated_in, rated_out, worst_inlet, limit) =
            (self.rated_flow, self.rated_in, self.rated_out, inlet, LIMIT);
        step!(w, first_flow "Q_max" = rated_flow * ((rated_in / rated_out).ln() / (worst_inlet / limit).ln()).min(1.0));
        first_flow
    }

    /// What the label's contact leaves at this flow, through `vessels` times the rated volume of carbon.
    pub(super) fn outlet(
        &self,
        species: Species,
        inlet: Chlorine,
        flow: Flow,
        vessels: f64,
        w: &mut Working,
    ) -> Known<Chlorine> {
        if !self.is_for(species) {
            return Err(OTHER_FORM);
        }
        w.bind("inlet", "C_0", inlet);
        w.bind("flow", "Q", flow);
        w.bind("vessels", "N", vessels);
        let (rated_flow, rated_in, rated_out) = (self.rated_flow, self.rated_in, self.rated_out);
        step!(w, outlet "C_1" = inlet * (rated_out / rated_in).powf(vessels * (rated_flow / flow)));
        Ok(outlet)
    }
}
