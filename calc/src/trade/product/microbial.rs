//! Colony count and endotoxin of dialysis water and fluid against the limits and action levels of a set.
//!
//! Rests on the sets in `limits`, on the exact interval of a Poisson count, and on the volume in which finding nothing shows
//! a limit (−ln 0.05 over the limit). A count above a limit is above it by any method; a low count shows a limit only by the
//! method of its set, from a sample that stands for the fluid (`culture`).

use super::culture::{Culture, Medium, Sample, SamplePort, Technique};
use super::{onto, poisson};
use crate::engine::quantity::{
    ColonyCount, Endotoxin, Ratio, Temperature, Time, Volume,
    kinds::{COLONY_COUNT, NUMBER, VOLUME},
    percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Known, Missing, Reported, Sentence, Slot, Stage, Stop, Term, Working,
    source,
};
use crate::trade::limits::{self, Fluid, LimitSet, Limits, MicrobialLimit};
use crate::trade::run::Answered;
use crate::trade::terms::report;
use crate::{sheet, step};

static ACT_ON_THE_WORST: Caution = Caution {
    id: "act-on-the-worst",
    text: "The worst result counts, not the mean. At or above the action level: disinfect and retest without delay. At or above the maximum also tell the medical director and take the RO out of use, as the facility's policy says.",
};

static METHODS_ARE_NOT_MIXED: Caution = Caution {
    id: "methods-are-not-mixed",
    text: "Write down medium, temperature and time with every count, and never mix them in one series: R2A at 17 to 23 °C for 7 days finds more than tryptic soy agar at 35 °C for 48 hours. Do not use a calibrated loop. Sample before a disinfection, not after.",
};

static DEAD_IS_NOT_HARMLESS: Caution = Caution {
    id: "dead-is-not-harmless",
    text: "Dead bacteria leave endotoxin behind: a low count does not show low endotoxin, nor the other way round. One EU is one IU. How many EU are in 1 ng depends on the kit (5 or 10), so nothing is converted here.",
};

sheet! {
    /// A colony count and an endotoxin result against limit and action level, how sure the count is, and how much water must be tested to show the limit.
    MicrobialLimits, "microbial-limits", "Microbial limits of water and fluid", Stage::Product,
    also: &["culture", "colony count", "CFU", "endotoxin", "LAL"],
    sources: &[&source::COULLIETTE_2013, &source::ISO_23500_3, &source::ISO_23500_3_2024, &source::PH_EUR_1167, &source::JSDT, &source::GARWOOD_1936, &source::MICROBIAL_METHODS],
    cautions: &[&ACT_ON_THE_WORST, &METHODS_ARE_NOT_MIXED, &DEAD_IS_NOT_HARMLESS],
    criteria: &limits::MICROBIAL,
    inputs: {
        fluid       "fluid":            Known<Fluid>                      = Term::other("What was sampled").help("Dialysis water is what comes from the RO; dialysis fluid leaves the machine's mixing."),
        set         "limit-set":        Option<LimitSet>                   = report::LIMIT_SET,
        colonies    "colonies":         Known<f64>                 = report::COLONIES,
        plated      "plated-volume":    Known<Volume>              = report::PLATED_VOLUME,
        dilution    "sample-share":     Option<Ratio>              = report::SAMPLE_SHARE,
        endotoxin   "endotoxin":        Known<Reported<Endotoxin>> = report::ENDOTOXIN_RESULT,
        sensitivity "test-sensitivity": Known<Endotoxin>           = report::TEST_SENSITIVITY,
        medium      "culture-medium":   Known<Medium>              = Term::other("Culture medium").help("From the laboratory's report."),
        incubated_at "incubation-temperature": Known<Temperature>  = report::INCUBATION_TEMPERATURE,
        incubated   "incubation-time":  Known<Time>                = report::INCUBATION_TIME,
        technique   "culture-technique": Known<Technique>          = Term::other("Culture technique").help("From the laboratory's report."),
        port        "sampling-port":    Known<SamplePort>          = Term::other("Sampling port").help("Where the sample was drawn. Flush the port first."),
        carried     "time-to-laboratory": Known<Time>              = report::TIME_TO_LABORATORY,
        kept_cold   "kept-cold":        Known<Answered>            = Term::other("Kept cold until it was tested").help("At 6 °C or less, not frozen. Not needed when tested within 30 minutes."),
        confidence  "confidence":       Option<Ratio>              = report::CONFIDENCE,
    }
    outputs Outputs: {
        count    "colony-count":       Known<ColonyCount> = Term::number(&COLONY_COUNT, "Colony count", "c"),
        low      "colony-count-low":   Known<ColonyCount> = Term::number(&COLONY_COUNT, "Lower confidence limit (two-sided)", "c_low"),
        high     "colony-count-high":  Known<ColonyCount> = Term::number(&COLONY_COUNT, "Upper confidence limit (two-sided)", "c_high"),
        bound    "colony-count-bound": Known<ColonyCount> = Term::number(&COLONY_COUNT, "Upper confidence limit (one-sided)", "c_up"),
        needed   "volume-to-show":     Known<Volume>      = Term::number(&VOLUME, "Sample volume needed to show the limit, with no colonies", "V_need").units("mL", "mL"),
        dilution "largest-dilution":   Known<f64>         = Term::number(&NUMBER, "Maximum valid dilution (MVD) of the endotoxin test", "MVD"),
    }
}

/// The confidence that a judgement needs, whatever is entered for the intervals.
const JUDGED: f64 = 0.95;

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
        if self.fluid == Ok(Fluid::Ultrapure) && self.colonies.is_ok_and(|colonies| colonies > 0.0) {
            w.warn(
                "colonies",
                "growth-in-ultrapure",
                "any growth in ultrapure fluid is investigated, also below the limit: find the cause and sample again",
            );
        }
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
        let confidence = self.confidence.unwrap_or(percent(100.0 * JUDGED));
        w.bind("confidence", "P", confidence);
        step!(w, tail "α" = 1.0 - confidence);
        let tail = tail.si();
        let low = bound_of(&|n| poisson::lower(n, tail / 2.0), ("low", "c_low"), w);
        let high = bound_of(&|n| poisson::upper(n, tail / 2.0), ("high", "c_high"), w);
        let bound = bound_of(&|n| poisson::upper(n, tail), ("bound", "c_up"), w);
        let needed = highest.map(|highest| {
            w.bind("highest", "L", highest);
            step!(w, needed "V_need": Volume = (1.0 / (1.0 - confidence).si()).ln() / highest.si());
            needed
        });
        let colonies = Colonies { count, tested, confidence };
        let most = of_fluid.and_then(|limit| limit.endotoxin.ok_or(NO_LIMIT));
        match of_fluid {
            Ok(of_fluid) => self.judge_all(limits, of_fluid, colonies, w),
            Err(missing) => {
                w.judge_known(limits.colonies, Err::<ColonyCount, _>(missing), Err(missing));
                w.judge_known(limits.endotoxin, Err::<Endotoxin, _>(missing), Err(missing));
            }
        }
        let dilution = most.and_then(|most| {
            let sensitivity = self.sensitivity?;
            w.bind("most", "L_E", most);
            step!(w, dilution "MVD" = most / sensitivity);
            (dilution >= 1.0).then_some(dilution).ok_or(Missing::none_exists(
                "the test cannot detect the limit, diluted or not: use a more sensitive one",
            ))
        });
        Ok(Outputs { count, low, high, bound, needed, dilution })
    }
}

/// A count, and in how much water it was found.
#[derive(Clone, Copy)]
struct Colonies {
    count: Known<ColonyCount>,
    tested: Known<Volume>,
    confidence: Ratio,
}

impl Colonies {
    /// A count on the right side of a limit shows it only where enough water was tested.
    fn against(&self, limit: ColonyCount) -> Known<ColonyCount> {
        const TOO_LITTLE: Missing = Missing::not_known(
            "plated-volume",
            "too little water was tested: even a plate without colonies would not show this limit; filter more",
        );
        let (count, tested) = (self.count?, self.tested?);
        let empty_plate = -(1.0 - self.confidence.si().max(JUDGED)).ln();
        if onto(count, limit) < limit && tested.si() * limit.si() < empty_plate {
            Err(TOO_LITTLE)
        } else {
            Ok(count)
        }
    }
}

impl MicrobialLimits {
    fn sample(&self) -> Known<()> {
        let &MicrobialLimits { port, carried, kept_cold, .. } = self;
        Sample { port, time_to_laboratory: carried, kept_cold }.stands_for(self.fluid?)
    }

    fn culture(&self, tested: Known<Volume>) -> Known<()> {
        let &MicrobialLimits { medium, technique, incubated_at, incubated, .. } = self;
        let culture = Culture { medium, technique, temperature: incubated_at, time: incubated, tested };
        culture.shows(self.set.unwrap_or(LimitSet::Iso23500)).and(self.sample())
    }

    /// Where a set has no such limit for this fluid, nothing is judged.
    fn judge_all(
        &self,
        limits: &'static Limits,
        of_fluid: &MicrobialLimit,
        colonies: Colonies,
        w: &mut Working,
    ) {
        let levels =
            [(Some(limits.colonies), of_fluid.colonies), (limits.colonies_action, of_fluid.colonies_action)];
        for (criterion, limit) in levels {
            if let (Some(criterion), Some(limit)) = (criterion, limit) {
                self.judge_colonies(criterion, colonies, limit, w);
            }
        }
        let levels = [
            (Some(limits.endotoxin), of_fluid.endotoxin),
            (limits.endotoxin_action, of_fluid.endotoxin_action),
        ];
        for (criterion, limit) in levels {
            if let (Some(criterion), Some(limit)) = (criterion, limit) {
                self.judge_endotoxin(criterion, limit, w);
            }
        }
    }

    fn judge_colonies(
        &self,
        criterion: &'static Criterion,
        colonies: Colonies,
        limit: ColonyCount,
        w: &mut Working,
    ) {
        let count = colonies.against(limit);
        let is_over = count.is_ok_and(|count| onto(count, limit) >= limit);
        let shown = match is_over {
            true => count,
            false => count.and_then(|count| self.culture(colonies.tested).map(|()| count)),
        };
        w.judge_known(criterion, shown, Ok(limit));
    }

    fn judge_endotoxin(&self, criterion: &'static Criterion, limit: Endotoxin, w: &mut Working) {
        let result = self.endotoxin.map(|result| result.map(|result| onto(result, limit)));
        let is_over = matches!(result, Ok(Reported::Is(found)) if found >= limit);
        let shown = if is_over {
            result
        } else {
            result.and_then(|result| self.seen(result)).and_then(|result| self.sample().map(|()| result))
        };
        match shown {
            Ok(result) => w.judge_reported(criterion, result, limit, "endotoxin"),
            Err(missing) => w.judge_known(criterion, Err(missing), Ok(limit)),
        }
    }

    /// A test shows no number below its own sensitivity, and never nothing at all.
    fn seen(&self, result: Reported<Endotoxin>) -> Known<Reported<Endotoxin>> {
        let too_fine = |found: Endotoxin| {
            found.si() == 0.0 || self.sensitivity.is_ok_and(|least| onto(found, least) < least)
        };
        match result {
            Reported::Is(found) if too_fine(found) => Err(Missing::not_known(
                "endotoxin",
                "the test shows nothing below its sensitivity: enter “<” and the sensitivity",
            )),
            result => Ok(result),
        }
    }
}
