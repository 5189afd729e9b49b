//! The allowances, as a stack, and the band of the published temperature correction methods.

use super::correction::Form;
use super::operation::{Anchor, Change, Forms, Question};
use super::product_flow_year::Season;
use crate::engine::quantity::{
    Flow, Ratio, Temperature,
    kinds::{FLOW, NUMBER, TEMPERATURE},
};
use crate::engine::sheet::{Known, Missing, Term, Working};
use crate::{choice, output_row};

choice!(/// Something that is allowed for.
Allowed {
    TemperatureForm "temperature-form" "Worst temperature correction method, over method A",
    Fouling "fouling" "Fouling allowance",
    DemandMargin "demand-margin" "Allowance on dialysate flow",
    All "all" "All together",
});

choice!(/// What an allowance applies to.
AppliesTo {
    Capacity "capacity" "Product flow, coldest water",
    Feed "feed" "Feed flow, warmest water",
    Demand "demand" "Demand",
    CapacityOverDemand "capacity-over-demand" "Product flow over demand, coldest water",
});

choice!(/// Whether an allowance counts.
    Switched { On "on" "On", Off "off" "Off" });

output_row! {
    /// One allowance of the stack.
    Allowance {
        allowance  "allowance":  Allowed    = Term::other("Allowance"),
        factor     "factor":     Known<f64> = Term::number(&NUMBER, "Factor", "k"),
        applies_to "applies-to": AppliesTo  = Term::other("Applies to"),
        switched   "switched":   Switched   = Term::other("State"),
        counted    "counted":    Known<f64> = Term::number(&NUMBER, "Effect on product flow over demand", "k_counted"),
    }
}

output_row! {
    /// Lowest and highest product flow by the published methods, at one end of the year.
    FormBand {
        season       "season":         Season             = Term::other("When"),
        temperature  "temperature":    Known<Temperature> = Term::number(&TEMPERATURE, "Water temperature", "T"),
        lowest       "lowest-product": Known<Flow>        = Term::number(&FLOW, "Product flow, clean membrane, lowest method", "Q_p,low"),
        highest      "highest-product": Known<Flow>       = Term::number(&FLOW, "Product flow, clean membrane, highest method", "Q_p,high"),
        lowest_form  "lowest-form":    Known<Form>        = Term::other("Lowest method"),
        highest_form "highest-form":   Known<Form>        = Term::other("Highest method"),
    }
}

/// The allowances on product and feed flow.
pub(super) fn on_flows(
    forms: Option<Forms>,
    (cold, warm): (Known<Change>, Known<Change>),
    fouling: Ratio,
) -> Vec<Allowance> {
    let switched = if forms == Some(Forms::OnlyA) { Switched::Off } else { Switched::On };
    let over_a = |change: Known<Change>, question| change.map(|change| change.over_form_a(question));
    let form = |factor, applies_to, counted| Allowance {
        allowance: Allowed::TemperatureForm,
        factor,
        applies_to,
        switched,
        counted,
    };
    let in_capacity = over_a(cold, Question::Least);
    vec![
        form(in_capacity, AppliesTo::Capacity, in_capacity),
        form(over_a(warm, Question::Most), AppliesTo::Feed, Ok(1.0)),
        Allowance {
            allowance: Allowed::Fouling,
            factor: Ok(fouling.si()),
            applies_to: AppliesTo::Capacity,
            switched: Switched::of(fouling.si()),
            counted: Ok(fouling.si()),
        },
    ]
}

impl Switched {
    /// A factor of 1 is an allowance that is switched off.
    fn of(factor: f64) -> Self {
        if factor == 1.0 { Switched::Off } else { Switched::On }
    }
}

impl Allowance {
    /// The stack where the flows are not known.
    pub fn unknown(missing: Missing) -> Vec<Allowance> {
        [
            (Allowed::TemperatureForm, AppliesTo::Capacity),
            (Allowed::TemperatureForm, AppliesTo::Feed),
            (Allowed::Fouling, AppliesTo::Capacity),
        ]
        .map(|(allowance, applies_to)| Allowance {
            allowance,
            factor: Err(missing),
            applies_to,
            switched: Switched::On,
            counted: Err(missing),
        })
        .into()
    }

    /// The stack with the allowance on the demand, which counts for nothing where a peak is more, and all together.
    pub fn with_demand(mut stack: Vec<Allowance>, margin: Known<f64>, raised: Known<f64>) -> Vec<Allowance> {
        stack.push(Allowance {
            allowance: Allowed::DemandMargin,
            factor: margin,
            applies_to: AppliesTo::Demand,
            switched: margin.map_or(Switched::On, Switched::of),
            counted: raised.map(|raised| 1.0 / raised),
        });
        let all = stack.iter().try_fold(1.0, |product, one| Ok(product * one.counted?));
        let any = stack.iter().any(|one| one.switched == Switched::On);
        stack.push(Allowance {
            allowance: Allowed::All,
            factor: all,
            applies_to: AppliesTo::CapacityOverDemand,
            switched: if any { Switched::On } else { Switched::Off },
            counted: all,
        });
        stack
    }
}

impl FormBand {
    /// The band where the flows are not known.
    pub fn unknown(missing: Missing) -> Vec<FormBand> {
        [Season::Coldest, Season::Warmest]
            .map(|season| FormBand::at(season, Err(missing), |_| Err(missing)))
            .into()
    }

    fn at(season: Season, change: Known<Change>, mut product: impl FnMut(Question) -> Known<Flow>) -> Self {
        FormBand {
            season,
            temperature: change.map(|change| change.temperature),
            lowest: product(Question::Least),
            highest: product(Question::Most),
            lowest_form: change.map(|change| change.ratio(Question::Least).0),
            highest_form: change.map(|change| change.ratio(Question::Most).0),
        }
    }
}

/// The band at both ends of the year, of all published forms whichever of them count.
pub(super) fn band(
    anchor: &Anchor,
    cold: Known<Change>,
    warm: Known<Change>,
    w: &mut Working,
) -> Vec<FormBand> {
    let mut end = |season, change: Known<Change>| {
        let change = change.map(Change::of_all_forms);
        FormBand::at(season, change, |question| {
            change.and_then(|change| anchor.product(&change, question, w))
        })
    };
    vec![end(Season::Coldest, cold), end(Season::Warmest, warm)]
}
