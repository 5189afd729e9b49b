//! Colony count and endotoxin of dialysis water and fluid against the limits and levels of action of a set.
//!
//! Rests on the sets in `limits`, on the exact interval of a Poisson count, and on the volume that a count of nothing must
//! have for a limit to be shown (−ln 0.05 over the limit). Counts on another medium, at another temperature or for another
//! time are other numbers, and none of this knows how the sample was drawn.

use super::{onto, poisson};
use crate::engine::quantity::{
    ColonyCount, Endotoxin, Ratio, Volume,
    kinds::{COLONY_COUNT, NUMBER, VOLUME},
    percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Reported, Sentence, Side, Slot, Stage, Stop, Term,
    Working, source,
};
use crate::trade::limits::{ALL, Fluid, LimitSet};
use crate::trade::terms::report;
use crate::{sheet, step};

static MICROBIAL_LIMITS: Criterion = Criterion {
    id: "microbial-limits",
    sentence: "Colony count and endotoxin below the limits of the chosen set",
    stage: Stage::Product,
    side: Side::Below,
    forecast: false,
    source: &source::COULLIETTE_2013,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

static ACT_ON_THE_WORST: Caution = Caution {
    id: "act-on-the-worst",
    text: "The worst result counts, not the mean. At or above the level of action: disinfect and test again without delay; at or above the maximum also tell the medical director and take the RO out of use, by the facility's policy.",
};

static METHODS_ARE_NOT_MIXED: Caution = Caution {
    id: "methods-are-not-mixed",
    text: "Keep medium, temperature and time with every count and never mix them in one series: R2A at 17 to 23 °C for 7 days finds more than tryptic soy agar at 35 °C for 48 hours. A loop does not do; sample before a disinfection, not after.",
};

static DEAD_IS_NOT_HARMLESS: Caution = Caution {
    id: "dead-is-not-harmless",
    text: "Dead bacteria leave endotoxin behind: a low count does not show low endotoxin, nor the other way round. One EU is one IU; how much 1 ng is depends on the kit (5 or 10 EU), so nothing is converted here.",
};

/// Every one that can be judged, of whichever set.
const CRITERIA: &[&Criterion] = &[
    &MICROBIAL_LIMITS,
    ALL[0].colonies[0],
    ALL[0].colonies[1],
    ALL[0].endotoxin[0],
    ALL[0].endotoxin[1],
    ALL[1].colonies[0],
    ALL[1].colonies[1],
    ALL[1].endotoxin[0],
    ALL[1].endotoxin[1],
    ALL[2].colonies[0],
    ALL[2].colonies[1],
    ALL[2].endotoxin[0],
    ALL[2].endotoxin[1],
    ALL[3].colonies[0],
    ALL[3].colonies[1],
    ALL[3].endotoxin[0],
    ALL[3].endotoxin[1],
    ALL[4].colonies[0],
    ALL[4].colonies[1],
    ALL[4].endotoxin[0],
    ALL[4].endotoxin[1],
];

sheet! {
    /// A colony count and an endotoxin result against limit and level of action, how sure the count is, and how much water has to be tested to show the limit at all.
    MicrobialLimits, "microbial-limits", "Microbial limits of water and fluid", Stage::Product,
    sources: &[&source::COULLIETTE_2013, &source::ISO_23500_3, &source::ISO_23500_3_2024, &source::PH_EUR_1167, &source::JSDT, &source::GARWOOD_1936],
    cautions: &[&ACT_ON_THE_WORST, &METHODS_ARE_NOT_MIXED, &DEAD_IS_NOT_HARMLESS],
    criteria: CRITERIA,
    inputs: {
        fluid       "fluid":            Known<Fluid>                      = Term::other("What was sampled").help("Dialysis water is what comes from the RO; dialysis fluid leaves the machine's mixing."),
        set         "limit-set":        Option<LimitSet>                   = report::LIMIT_SET,
        colonies    "colonies":         Known<f64>                 = report::COLONIES,
        plated      "plated-volume":    Known<Volume>              = report::PLATED_VOLUME,
        dilution    "sample-share":     Option<Ratio>              = report::SAMPLE_SHARE,
        endotoxin   "endotoxin":        Known<Reported<Endotoxin>> = report::ENDOTOXIN_RESULT,
        sensitivity "test-sensitivity": Known<Endotoxin>           = report::TEST_SENSITIVITY,
    }
    outputs Outputs: {
        count    "colony-count":       Known<ColonyCount> = Term::number(&COLONY_COUNT, "Colony count", "c"),
        low      "colony-count-low":   Known<ColonyCount> = Term::number(&COLONY_COUNT, "Lower end of its 95 % interval", "c_low"),
        high     "colony-count-high":  Known<ColonyCount> = Term::number(&COLONY_COUNT, "Upper end of its 95 % interval", "c_high"),
        bound    "colony-count-bound": Known<ColonyCount> = Term::number(&COLONY_COUNT, "Below which it is with 95 % confidence", "c_95"),
        needed   "volume-to-show":     Known<Volume>      = Term::number(&VOLUME, "Water to be tested, without a colony, to show the limit", "V_need").units("mL", "mL"),
        dilution "largest-dilution":   Known<f64>         = Term::number(&NUMBER, "Largest valid dilution of the endotoxin test", "MVD"),
    }
}

impl Evaluate for MicrobialLimits {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let limits = self.set.unwrap_or(LimitSet::Iso23500).limits();
        const NO_FLUID: Missing =
            Missing::none_exists("this set has no limits for this fluid: choose another one");
        let of_fluid = self.fluid.and_then(|fluid| limits.of_fluid(fluid).ok_or(NO_FLUID));
        const NO_LIMIT: Missing = Missing::none_exists("this set has no such limit for this fluid");
        let highest = of_fluid.and_then(|limit| limit.colonies.ok_or(NO_LIMIT));
        let tested = self.plated.map(|plated| {
            let share = self.dilution.unwrap_or(percent(100.0));
            w.bind("plated", "V_p", plated);
            w.bind("share", "s", share);
            step!(w, tested "V" = plated * share);
            tested
        });
        let count = self.colonies.and_then(|colonies| {
            let tested = tested?;
            step!(w, count "c": ColonyCount = colonies / tested.si());
            Ok(count)
        });
        let bound_of = |find: &dyn Fn(u32) -> f64, names: (&'static str, &'static str), w: &mut Working| {
            let (colonies, tested) = (self.colonies?, tested?);
            let mean = find(colonies as u32);
            let found = ColonyCount::of(mean / tested.si());
            w.procedure(names, found, || {
                Sentence::plain("{colonies} colonies: exact bound of a Poisson count (Garwood), over the water that was tested")
                    .with("colonies", Slot::Count(colonies as i64))
            });
            Ok::<ColonyCount, Missing>(found)
        };
        let low = bound_of(&|n| poisson::lower(n, 0.025), ("low", "c_low"), w);
        let high = bound_of(&|n| poisson::upper(n, 0.025), ("high", "c_high"), w);
        let bound = bound_of(&|n| poisson::upper(n, 0.05), ("bound", "c_95"), w);
        let needed = highest.map(|highest| {
            w.bind("highest", "L", highest);
            step!(w, needed "V_need": Volume = 20.0_f64.ln() / highest.si());
            needed
        });
        let shown = self.shown(count, tested, highest);
        let [maximum, action] = limits.colonies;
        self.judge_where_limited(maximum, shown, highest, w);
        self.judge_where_limited(
            action,
            shown,
            of_fluid.and_then(|limit| limit.colonies_action.ok_or(NO_LIMIT)),
            w,
        );
        let most = of_fluid.and_then(|limit| limit.endotoxin.ok_or(NO_LIMIT));
        let [maximum, action] = limits.endotoxin;
        self.judge_endotoxin(maximum, most, w);
        self.judge_endotoxin(action, of_fluid.and_then(|limit| limit.endotoxin_action.ok_or(NO_LIMIT)), w);
        if let Err(missing) = of_fluid {
            w.judge_known(&MICROBIAL_LIMITS, Err(missing), Ok(0.0));
        }
        let dilution = most.and_then(|most| {
            let sensitivity = self.sensitivity?;
            w.bind("most", "L_E", most);
            step!(w, dilution "MVD" = most / sensitivity);
            (dilution >= 1.0).then_some(dilution).ok_or(Missing::none_exists(
                "the test cannot see the limit, diluted or not: take a more sensitive one",
            ))
        });
        Ok(Outputs { count, low, high, bound, needed, dilution })
    }
}

impl MicrobialLimits {
    /// A count on the right side of the limit shows it only where enough water was tested.
    fn shown(
        &self,
        count: Known<ColonyCount>,
        tested: Known<Volume>,
        highest: Known<ColonyCount>,
    ) -> Known<ColonyCount> {
        let (count, tested) = (count?, tested?);
        match highest {
            Ok(highest) if onto(count, highest) < highest && tested.si() * highest.si() < 20f64.ln() => {
                Err(Missing::not_known(
                    "plated-volume",
                    "too little water was tested: not even a plate without a colony would show this limit; filter more",
                ))
            }
            _ => Ok(count),
        }
    }

    /// Where a set has no such limit, nothing is judged.
    fn judge_where_limited(
        &self,
        criterion: &'static Criterion,
        count: Known<ColonyCount>,
        limit: Known<ColonyCount>,
        w: &mut Working,
    ) {
        if limit.is_ok() {
            let count = count.and_then(|count| Ok(onto(count, limit?)));
            w.judge_known(criterion, count, limit);
        }
    }

    fn judge_endotoxin(&self, criterion: &'static Criterion, limit: Known<Endotoxin>, w: &mut Working) {
        match (limit, self.endotoxin) {
            (Ok(limit), Ok(result)) => {
                w.judge_reported(criterion, result.map(|result| onto(result, limit)), limit, "endotoxin")
            }
            (Ok(limit), Err(missing)) => w.judge_known(criterion, Err(missing), Ok(limit)),
            (Err(_), _) => {}
        }
    }
}
