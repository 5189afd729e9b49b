//! What follows the temperature, by what the RO keeps the same: product, feed and recovery from one anchor reading.
//!
//! Osmotic pressure is neglected beside the pump's. What would need a pressure that is not known stays not known.

use super::correction::{self, Factors, Form, FormRatio};
use crate::engine::quantity::{Flow, Pressure, Ratio, Temperature};
use crate::engine::sheet::{Known, Missing, Sentence, Slot, Working};
use crate::{choice, step};

choice!(/// What stays the same when the water gets colder.
Control {
    SetValve "set-valve" "Reject flow: a set valve or orifice, constant pump pressure",
    HeldRecovery "held-recovery" "Recovery: the RO adjusts its reject",
    FixedFeed "fixed-feed" "Feed flow: a positive displacement pump without bypass",
    HeldProduct "held-product" "Product flow: the RO adjusts its pressure",
    NoPump "no-pump" "Nothing: it runs on tap pressure, without a pump",
});

impl Control {
    /// Whether the feed flow is highest at the warmest water. Not known counts as one of the two that are assumed.
    pub const fn draws_most_when_warm(control: Option<Control>) -> bool {
        matches!(control, None | Some(Control::SetValve | Control::HeldRecovery))
    }
}

choice!(/// Which temperature correction method counts.
Forms {
    Worst "worst" "The worst of all five methods for each check",
    OnlyA "a" "Method A only (no allowance)",
});

/// One reading from which all other temperatures are reached.
#[derive(Debug, Clone)]
pub struct Anchor {
    /// As read.
    product: Flow,
    /// As read.
    reject: Known<Flow>,
    /// When it was read.
    temperature: Temperature,
    /// What the RO keeps the same, where it is known.
    control: Option<Control>,
    /// Which forms count.
    forms: Forms,
    /// Highest pressure over that of the reading.
    pressure_room: Known<f64>,
    /// Of all forms at the reading's temperature.
    factors: Factors,
}

/// Nothing about a flush is to be judged.
pub const NEVER_FLUSHES: Missing = Missing::none_exists("this RO never flushes");

/// Which of the forms is the worst depends on the question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// Capacity: the lowest ratio.
    Least,
    /// Feed flow: the highest ratio.
    Most,
}

/// What another temperature does to the product flow, by the forms that count.
#[derive(Debug, Clone, Copy)]
pub struct Change {
    /// To which temperature.
    pub temperature: Temperature,
    least: FormRatio,
    most: FormRatio,
    form_a: f64,
    /// The least and the greatest of all forms, whichever count.
    of_all: (FormRatio, FormRatio),
}

impl Change {
    /// The ratio of product flows at equal pressure that answers the question, and the form that gives it.
    pub fn ratio(&self, question: Question) -> (Form, f64) {
        match question {
            Question::Least => self.least,
            Question::Most => self.most,
        }
    }

    /// The ratio that counts over that of form A alone.
    pub fn over_form_a(&self, question: Question) -> f64 {
        self.ratio(question).1 / self.form_a
    }

    /// The same change with all published forms counting.
    pub fn of_all_forms(self) -> Self {
        let (least, most) = self.of_all;
        Self { least, most, ..self }
    }
}

impl Anchor {
    /// From a reading.
    pub fn new(product: Flow, reject: Known<Flow>, temperature: Temperature) -> Self {
        Self {
            product,
            reject,
            temperature,
            control: None,
            forms: Forms::Worst,
            pressure_room: Err(Missing::empty(
                "pressure-limit",
                "Highest pump pressure (relief setting or RO's limit)",
            )),
            factors: correction::factors(temperature, &mut Working::silent()),
        }
    }

    /// With what the RO keeps the same, and which forms count.
    pub fn controlled(self, control: Option<Control>, forms: Forms) -> Self {
        Self { control, forms, ..self }
    }

    /// With the pump's pressure at the reading and its highest one.
    pub fn with_pressures(mut self, pump: Known<Pressure>, limit: Known<Pressure>) -> Self {
        self.pressure_room = pump.and_then(|pump| limit.map(|limit| limit.si() / pump.si()));
        self
    }

    /// How product flow changes up to that temperature at equal pressure.
    pub fn at(&self, temperature: Temperature) -> Change {
        let to = correction::factors(temperature, &mut Working::silent());
        let form_a = to[0] / self.factors[0];
        let of_all = correction::extreme_ratios(&to, &self.factors);
        let (least, most) = match self.forms {
            Forms::OnlyA => ((Form::A, form_a), (Form::A, form_a)),
            Forms::Worst => of_all,
        };
        Change { temperature, least, most, form_a, of_all }
    }

    /// Product flow of a clean membrane at that temperature.
    pub fn product(&self, change: &Change, question: Question, w: &mut Working) -> Known<Flow> {
        let (form, ratio) = change.ratio(question);
        w.procedure(("ratio", "r"), ratio, || {
            Sentence::plain("ratio of the correction factors at {to} and at {from}, by “{form}”")
                .quantity("to", change.temperature)
                .quantity("from", self.temperature)
                .with("form", Slot::Word(form.name()))
        });
        let product = self.product;
        w.bind("product", "Q_p0", product);
        match self.control {
            None | Some(Control::SetValve | Control::HeldRecovery) => {
                step!(w, clean "Q_p" = product * ratio);
                Ok(clean)
            }
            // warmer water needs less pressure; colder needs more, up to the limit
            Some(Control::HeldProduct) if ratio >= 1.0 => Ok(product),
            Some(Control::HeldProduct) => {
                let room = self.pressure_room?;
                w.bind("room", "p_max/p_0", room);
                step!(w, clean "Q_p" = product * (ratio * room).min(1.0));
                Ok(clean)
            }
            Some(Control::FixedFeed) => self.product_of_fixed_feed(ratio, w),
            Some(Control::NoPump) if ratio == 1.0 => Ok(product),
            Some(Control::NoPump) => Err(Missing::not_known(
                "pump-pressure",
                "without a pump product follows the pressure at the inlet, which is not known away from the reading",
            )),
        }
    }

    /// The pressure rises until product through the membrane and reject through its orifice make up the feed again.
    fn product_of_fixed_feed(&self, ratio: f64, w: &mut Working) -> Known<Flow> {
        let (product, reject) = (self.product, self.reject?);
        w.bind("reject", "Q_c0", reject);
        step!(w, root "√x": f64 = ((reject.si().powi(2) + 4.0 * product.si() * ratio * (product.si() + reject.si())).sqrt() - reject.si()) / (2.0 * product.si() * ratio));
        let wanted = root * root;
        let pressure = if wanted <= 1.0 { wanted } else { wanted.min(self.pressure_room?) };
        w.procedure(("pressure", "x"), pressure, || {
            Sentence::plain("pressure over that of the reading: product grows with it, reject with its root; never above the limit")
        });
        step!(w, clean "Q_p" = product * ratio * pressure);
        Ok(clean)
    }

    /// Feed flow with that product.
    pub fn feed_with(&self, change: &Change, clean: Flow, w: &mut Working) -> Known<Flow> {
        let (product, reject) = (self.product, self.reject?);
        w.bind("product", "Q_p0", product);
        w.bind("reject", "Q_c0", reject);
        w.bind("clean", "Q_p", clean);
        match self.control {
            Some(Control::SetValve) => {
                step!(w, feed "Q_f" = clean + reject);
                Ok(feed)
            }
            // colder water asks for more pressure, which drives more through the reject's orifice as well
            Some(Control::HeldProduct) => {
                let (_, ratio) = change.ratio(Question::Least);
                let pressure = if ratio < 1.0 { (1.0 / ratio).min(self.pressure_room?) } else { 1.0 };
                w.procedure(("pressure", "x"), pressure, || {
                    Sentence::plain("pressure over that of the reading that holds the product flow, never above the limit; the reject grows with its root, and is not taken to fall")
                });
                step!(w, feed "Q_f" = clean + reject * pressure.sqrt());
                Ok(feed)
            }
            Some(Control::FixedFeed) => {
                step!(w, feed "Q_f" = product + reject);
                Ok(feed)
            }
            Some(Control::HeldRecovery) => {
                step!(w, feed "Q_f" = clean * ((product + reject) / product));
                Ok(feed)
            }
            None => {
                step!(w, feed "Q_f" = (clean + reject).max(clean * ((product + reject) / product)));
                Ok(feed)
            }
            Some(Control::NoPump) if clean == product => {
                step!(w, feed "Q_f" = product + reject);
                Ok(feed)
            }
            Some(Control::NoPump) => Err(Missing::not_known(
                "pump-pressure",
                "without a pump reject follows the pressure at the inlet",
            )),
        }
    }

    /// Recovery with that product: the higher one where the control is not known.
    pub fn recovery_with(&self, change: &Change, clean: Flow, w: &mut Working) -> Known<Ratio> {
        let (product, reject) = (self.product, self.reject?);
        w.bind("product", "Q_p0", product);
        w.bind("reject", "Q_c0", reject);
        w.bind("clean", "Q_p", clean);
        match self.control {
            Some(Control::SetValve) => {
                step!(w, recovery "Y": Ratio = clean / (clean + reject));
                Ok(recovery)
            }
            // warmer water asks for less pressure, which drives less through the reject's orifice as well
            Some(Control::HeldProduct) => {
                let (_, ratio) = change.ratio(Question::Most);
                let pressure = (1.0 / ratio).min(1.0);
                w.procedure(("pressure", "x"), pressure, || {
                    Sentence::plain("pressure over that of the reading that holds the product flow; the reject falls with its root, and is not taken to grow")
                });
                step!(w, recovery "Y": Ratio = clean / (clean + reject * pressure.sqrt()));
                Ok(recovery)
            }
            Some(Control::HeldRecovery) => {
                step!(w, recovery "Y": Ratio = product / (product + reject));
                Ok(recovery)
            }
            Some(Control::FixedFeed) => {
                step!(w, recovery "Y": Ratio = clean / (product + reject));
                Ok(recovery)
            }
            None => {
                step!(w, recovery "Y": Ratio = (clean / (clean + reject)).max(product / (product + reject)));
                Ok(recovery)
            }
            Some(Control::NoPump) if clean == product => {
                step!(w, recovery "Y": Ratio = product / (product + reject));
                Ok(recovery)
            }
            Some(Control::NoPump) => Err(Missing::not_known(
                "pump-pressure",
                "without a pump the recovery follows the pressure at the inlet",
            )),
        }
    }

    /// Feed flow while it flushes: the product is taken as unchanged.
    pub fn flush_with(&self, clean: Flow, flush_reject: Known<Flow>, w: &mut Working) -> Known<Flow> {
        let flush_reject = flush_reject?;
        if flush_reject.si() == 0.0 {
            return Err(NEVER_FLUSHES);
        }
        w.bind("clean", "Q_p", clean);
        w.bind("flush_reject", "Q_c,flush", flush_reject);
        step!(w, flush "Q_flush" = clean + flush_reject);
        Ok(flush)
    }
}
