//! How much a reading can be off before its limit is passed: the guard band, shown as information.
//!
//! After JCGM 106. A test reading is compared with its limit by the rule itself, unrounded and without a guard band; this
//! says how sure that comparison is. Takes the reading's error as normal and the reading as the best estimate.

use crate::engine::quantity::{Ratio, kinds::NUMBER, kinds::RATIO, percent};
use crate::engine::sheet::{Caution, Evaluate, Known, Missing, Sentence, Stage, Stop, Term, Working, source};
use crate::engine::statistics::{normal_below, normal_quantile};
use crate::{choice, sheet, step};

choice!(/// Which side of the limit is the right one.
LimitSide { AtMost "at-most" "At most: the reading should be below the limit", AtLeast "at-least" "At least: the reading should be above the limit" });

choice!(/// Where the reading lies.
Place {
    Inside "inside" "Within the limit, with the guard band to spare",
    Band "in-guard-band" "Within the limit, but inside the guard band",
    Beyond "beyond-limit" "At or past the limit",
});

static INFORMATION_ONLY: Caution = Caution {
    id: "guard-band-is-information",
    text: "The guard band is information. The reading itself is judged by the rule: it neither excuses a reading past the limit nor fails one within it. In the guard band, test again or use a better instrument.",
};

const VALUE: Term = Term::number(&NUMBER, "Reading", "y").possible(0.0, 1e9, "");

sheet! {
    /// The limit less its guard band, and how sure a reading is on the right side of its limit.
    GuardBand, "guard-band", "Guard band of a reading", Stage::Bench,
    also: &["measurement uncertainty"],
    sources: &[&source::JCGM_106, &source::JCGM_100],
    cautions: &[&INFORMATION_ONLY],
    criteria: &[],
    inputs: {
        limit       "limit-value":          f64               = VALUE.named("Limit").symbol("L").help("In the unit of the reading."),
        side        "limit-side":           LimitSide         = Term::other("Side of the limit"),
        value       "reading-value":        Known<f64>        = VALUE.help("In the same unit as the limit."),
        half_width  "reading-tolerance":    Option<f64>       = Term::number(&NUMBER, "Test accuracy (±)", "a")
            .help("From the instructions of the test or the instrument, in the unit of the reading.").assumed("the standard uncertainty is used").possible(1e-9, 1e9, ""),
        uncertainty "standard-uncertainty": Option<f64>       = Term::number(&NUMBER, "Standard uncertainty", "u")
            .help("If a certificate gives it. Half of an expanded uncertainty with k = 2.").assumed("accuracy / √3").possible(1e-9, 1e9, ""),
        confidence  "guard-confidence":           Option<Ratio>     = Term::number(&RATIO, "Confidence, one side", "p")
            .help("How sure the reading is to be on the right side.").assumed("95 %").plausible(90.0, 99.9, "%").possible(50.1, 99.999, "%"),
    }
    outputs Outputs: {
        acceptance  "acceptance-limit": Known<f64>   = Term::number(&NUMBER, "Limit with guard band", "A"),
        band        "guard-band":       Known<f64>   = Term::number(&NUMBER, "Guard band", "w"),
        place       "reading-place":    Known<Place> = Term::other("The reading is"),
        chance      "conformance":      Known<Ratio> = Term::number(&RATIO, "Chance that the true value is within the limit", "p_c"),
    }
}

impl Evaluate for GuardBand {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &GuardBand { limit, side, value, confidence, .. } = self;
        let uncertainty = self.uncertainty(w);
        let confidence = confidence.unwrap_or(percent(95.0));
        let band = uncertainty.and_then(|uncertainty| {
            let none = Missing::none_exists("a guard band needs a confidence between 50 and 100 %");
            let quantile = normal_quantile(confidence.si()).ok_or(none)?;
            w.bind("uncertainty", "u", uncertainty);
            w.procedure(("quantile", "z"), quantile, || {
                Sentence::plain("quantile of the normal distribution for {confidence} on one side")
                    .quantity("confidence", confidence)
            });
            step!(w, band "w" = quantile * uncertainty);
            Ok(band)
        });
        let acceptance = band.map(|band| match side {
            LimitSide::AtMost => {
                step!(w, acceptance "A" = limit - band);
                acceptance
            }
            LimitSide::AtLeast => {
                step!(w, acceptance "A" = limit + band);
                acceptance
            }
        });
        let distance = |value: f64, limit: f64| match side {
            LimitSide::AtMost => limit - value,
            LimitSide::AtLeast => value - limit,
        };
        let place = value.and_then(|value| {
            Ok(if distance(value, limit) <= 0.0 {
                Place::Beyond
            } else if distance(value, acceptance?) < 0.0 {
                Place::Band
            } else {
                Place::Inside
            })
        });
        let chance = value.and_then(|value| {
            let z = distance(value, limit) / uncertainty?;
            let chance = Ratio::of(normal_below(z));
            w.procedure(("chance", "p_c"), chance, || {
                "share of the normal distribution about the reading that lies within the limit".into()
            });
            Ok(chance)
        });
        Ok(Outputs { acceptance, band, place, chance })
    }
}

impl GuardBand {
    /// The one entered; otherwise that of a tolerance, the half-width of a rectangle (JCGM 100, 4.3.7).
    fn uncertainty(&self, w: &mut Working) -> Known<f64> {
        match (self.uncertainty, self.half_width) {
            (Some(uncertainty), _) => Ok(uncertainty),
            (None, Some(half_width)) => {
                w.bind("half_width", "a", half_width);
                step!(w, uncertainty "u": f64 = half_width / 3.0_f64.sqrt());
                Ok(uncertainty)
            }
            (None, None) => Err(Missing::empty("reading-tolerance", "Test accuracy (±)")),
        }
    }
}
