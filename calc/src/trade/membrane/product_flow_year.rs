//! Product flow through the year against the demand, from one reading of product, reject and temperature.
//!
//! Rests on the published forms of the temperature correction. The reading is the anchor: the further from it, the
//! more the forms disagree, so for each question the worst ratio counts, one form at both ends.

use super::allowances::{self, Allowance, FormBand};
use super::correction::Form;
use super::operation::{Anchor, Change, Control, Forms, Question};
use super::year_end::{self, YearEnd};
use crate::engine::calendar::Month;
use crate::engine::quantity::{
    Flow, Pressure, Ratio, Temperature, celsius, kinds::FLOW, kinds::RATIO, kinds::TEMPERATURE, percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Named, Problem, Sentence, Side, Slot, Stage, Stop,
    Term, Working, source,
};
use crate::engine::solve::bracket::{Ended, Point, narrow};
use crate::trade::cases;
use crate::trade::terms::{membrane, tap};
use crate::{choice, input_row, output_row, sheet, step};

/// What the RO makes against what is drawn.
pub static CAPACITY: Criterion = Criterion {
    id: "capacity",
    sentence: "Product flow after allowances, coldest water",
    stage: Stage::Membrane,
    side: Side::AtLeast,
    forecast: true,
    source: &source::COMMON_PRACTICE,
    levers: &["tempered-temperature"],
    cases: &[cases::COLDEST],
    judges: Judges::Each(&[("coldest", "capacity-coldest")]),
};

static FORECAST_ONLY: Caution = Caution {
    id: "forecast-only",
    text: "This is an estimate of flow, not of water quality. In the coldest weeks read product flow again before a session is booked, and follow the RO's own instructions.",
};

/// What stands by every tempered feed.
pub static COLD_FEED_TEMPERED: Caution = Caution {
    id: "tempering",
    text: "Tempering mixes hot water into the feed. Only with a thermostatic valve that fails cold, only after facilities (estates) have cleared the hot side, and within the RO's limits.",
};

input_row! {
    /// The water of one month.
    MonthTemperature {
        month       "month":       Month       = Term::other("Month").unique(),
        temperature "temperature": Temperature = tap::TAP_TEMPERATURE.named("Water temperature").read_with("yearly record"),
    }
}

choice!(/// The times of the year at which everything is judged.
    Season { Today "today" "Today", Coldest "coldest" "Coldest water", Warmest "warmest" "Warmest water" });

impl Season {
    /// As it stands behind what was judged then.
    pub const fn when(self) -> Named {
        match self {
            Season::Today => cases::TODAY,
            Season::Coldest => cases::COLDEST,
            Season::Warmest => cases::WARMEST,
        }
    }
}

output_row! {
    /// The highest flows at one time of the year.
    SeasonFlow {
        season      "season":      Season             = Term::other("When"),
        temperature "temperature": Known<Temperature> = Term::number(&TEMPERATURE, "Water temperature", "T"),
        product     "product":     Known<Flow>        = Term::number(&FLOW, "Product flow, clean membrane, highest", "Q_p"),
        feed        "feed":        Known<Flow>        = Term::number(&FLOW, "Feed flow, running", "Q_f"),
        flush       "flush":       Known<Flow>        = Term::number(&FLOW, "Feed flow during flush", "Q_flush"),
        recovery    "recovery":    Known<Ratio>       = Term::number(&RATIO, "Recovery", "Y"),
    }
}

output_row! {
    /// What the RO does in one month.
    MonthFlow {
        month       "month":       Month        = Term::other("Month"),
        temperature "temperature": Temperature  = Term::number(&TEMPERATURE, "Water temperature", "T"),
        clean       "product":     Known<Flow>  = Term::number(&FLOW, "Product flow, clean membrane", "Q_p"),
        capacity    "capacity":    Known<Flow>  = Term::number(&FLOW, "Product flow after allowances", "Q_cap"),
        spare       "spare":       Known<Flow>  = Term::number(&FLOW, "Spare above required product flow", "ΔQ"),
        feed        "feed":        Known<Flow>  = Term::number(&FLOW, "Feed flow, running, highest", "Q_f"),
        flush       "flush":       Known<Flow>  = Term::number(&FLOW, "Feed flow during flush, highest", "Q_flush"),
        recovery    "recovery":    Known<Ratio> = Term::number(&RATIO, "Recovery", "Y"),
    }
}

sheet! {
    /// What this RO makes in the coldest and warmest water and in every month, and the coldest water in which it still makes enough.
    ProductFlowYear, "product-flow-year", "Product flow through the year", Stage::Membrane,
    also: &["winter", "permeate flow", "capacity"],
    sources: &[&source::ASTM_D4516, &source::IAPWS_SR6_08, &source::COMMON_PRACTICE],
    cautions: &[&FORECAST_ONLY],
    criteria: &[&CAPACITY],
    inputs: {
        product      "product-flow":        Option<Flow>                  = membrane::PRODUCT_FLOW.assumed("the rated flow at 25 °C (label)"),
        reject       "reject-flow":         Known<Flow>                   = membrane::REJECT_FLOW,
        flush_reject "flush-reject-flow":   Known<Flow>                   = membrane::FLUSH_REJECT_FLOW,
        label        "label-flow":          Option<Flow>                  = membrane::LABEL_FLOW,
        tap          "tap-temperature":     Option<Temperature>           = tap::TAP_TEMPERATURE,
        anchor       "anchor-temperature":  Option<Temperature>           = membrane::ANCHOR_TEMPERATURE,
        coldest      "coldest-temperature": Option<Temperature>           = membrane::COLDEST_TEMPERATURE,
        warmest      "warmest-temperature": Option<Temperature>           = membrane::WARMEST_TEMPERATURE,
        tempered     "tempered-temperature": Option<Temperature>          = membrane::TEMPERED_TEMPERATURE,
        months       "months":              Option<Vec<MonthTemperature>> = Term::other("Water temperature by month").assumed("only the coldest and the warmest water are judged"),
        control      "control":             Option<Control>               = membrane::CONTROL,
        forms        "forms":               Option<Forms>                 = membrane::FORMS,
        fouling      "fouling-allowance":   Option<Ratio>                 = membrane::FOULING_ALLOWANCE,
        pump         "pump-pressure":       Known<Pressure>               = membrane::PUMP_PRESSURE,
        limit        "pressure-limit":      Known<Pressure>               = membrane::PRESSURE_LIMIT,
        demand       "demand":              Known<Flow>                   = Term::number(&FLOW, "Required product flow", "Q_need").help("The most that the dialysis machines draw at once.").possible(0.001, 500.0, "L/min").plausible(0.1, 10.0, "L/min"),
    }
    outputs Outputs: {
        clean        "product-coldest":             Known<Flow>        = Term::number(&FLOW, "Product flow in the coldest water, clean membrane", "Q_p"),
        capacity     "capacity-coldest":            Known<Flow>        = Term::number(&FLOW, "Product flow in the coldest water, after allowances", "Q_cap"),
        lowest       "lowest-workable-temperature": Known<Temperature> = Term::number(&TEMPERATURE, "Lowest workable water temperature", "T_min"),
        cold_form    "form-coldest":                Known<Form>        = Term::other("Method that counts in the coldest water"),
        warm_form    "form-warmest":                Known<Form>        = Term::other("Method that counts in the warmest water"),
        seasons      "seasons":                     Vec<SeasonFlow>    = Term::other("Highest flows, today and in the coldest and warmest water"),
        allowances   "allowances":                  Vec<Allowance>     = Term::other("Allowances on these flows"),
        band         "form-band":                   Vec<FormBand>      = Term::other("Range of the published methods"),
        months       "months":                      Vec<MonthFlow>     = Term::other("By month"),
    }
}

impl Evaluate for ProductFlowYear {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        if let (Some(coldest), Some(warmest)) = (self.coldest, self.warmest)
            && coldest > warmest
        {
            let sentence = Sentence::plain("the coldest water ({coldest}) is warmer than the warmest ({warmest}); check both and their units")
                .quantity("coldest", coldest)
                .quantity("warmest", warmest);
            return Err(Problem::new("coldest-temperature", sentence).into());
        }
        let anchor = self.anchor(w)?;
        let fouling = self.fouling.unwrap_or(FOULING);
        w.bind("fouling", "a", fouling);
        let coldest =
            self.end(f64::min, self.coldest, ("coldest-temperature", membrane::COLDEST_TEMPERATURE.name), w);
        let warmest =
            self.end(f64::max, self.warmest, ("warmest-temperature", membrane::WARMEST_TEMPERATURE.name), w);
        let at = |temperature: Known<Temperature>| temperature.map(|temperature| anchor.at(temperature));
        let (cold, warm) = (at(coldest), at(warmest));
        let (clean, capacity) = w.in_season(cases::COLDEST, |w| match cold {
            Ok(cold) => self.capacity(&anchor, &cold, fouling, w),
            Err(missing) => (Err(missing), Err(missing)),
        });
        w.in_case(cases::COLDEST, |w| w.judge_known(&CAPACITY, capacity, self.demand));
        if capacity.is_ok_and(|capacity| self.demand.is_ok_and(|demand| capacity < demand)) {
            w.caution(&COLD_FEED_TEMPERED);
        }
        let today = self.tap.map(|tap| self.tempered(tap));
        let today = today.ok_or(Missing::empty("tap-temperature", tap::TAP_TEMPERATURE.name));
        let seasons = [(Season::Today, at(today)), (Season::Coldest, cold), (Season::Warmest, warm)];
        let seasons = seasons.map(|(season, change)| {
            w.in_season(season.when(), |w| {
                let (product, feed, flush, recovery) = self.highest_flows(&anchor, change, w);
                let temperature = change.map(|change| change.temperature);
                SeasonFlow { season, temperature, product, feed, flush, recovery }
            })
        });
        Ok(Outputs {
            clean,
            capacity,
            lowest: self.lowest_workable(&anchor, fouling, w),
            cold_form: cold.map(|change| change.ratio(Question::Least).0),
            warm_form: warm.map(|change| change.ratio(Question::Most).0),
            seasons: seasons.into(),
            allowances: allowances::on_flows(self.forms, (cold, warm), fouling),
            band: w.quietly(|w| allowances::band(&anchor, cold, warm, w)),
            months: w.quietly(|w| self.months(&anchor, fouling, w)),
        })
    }
}

/// What fouling leaves of the product flow (common practice, no source).
const FOULING: Ratio = percent(85.0);
/// Where the lowest workable temperature is looked for.
const COLDEST_LOOKED_AT: Temperature = celsius(0.5);
const WARMEST_LOOKED_AT: Temperature = celsius(45.0);
/// Up to which difference it is narrowed, in kelvin.
const CLOSE_ENOUGH: f64 = 1e-7;

impl ProductFlowYear {
    /// Today's reading; the label only where nothing was measured.
    fn anchor(&self, w: &mut Working) -> Result<Anchor, Stop> {
        if let (Ok(pump), Ok(limit)) = (self.pump, self.limit)
            && limit < pump
        {
            let sentence = Sentence::plain(
                "the highest pump pressure ({limit}) is below the one read ({pump}), which cannot be; check both and their units",
            );
            let sentence = sentence.quantity("limit", limit).quantity("pump", pump);
            return Err(Problem::new("pressure-limit", sentence).into());
        }
        let anchor = match (self.product, self.label) {
            (Some(product), _) => {
                let temperature = self
                    .anchor
                    .or(self.tap)
                    .ok_or(Missing::empty("anchor-temperature", membrane::ANCHOR_TEMPERATURE.name))?;
                Anchor::new(product, self.reject, temperature)
            }
            (None, Some(label)) => {
                w.assume("product-flow", "nothing was measured, so the rated flow at 25 °C is used; a new membrane reaches it, an old one does not");
                Anchor::new(label, self.reject, celsius(25.0))
            }
            (None, None) => {
                return Err(Missing::empty("product-flow", membrane::PRODUCT_FLOW.name).into());
            }
        };
        Ok(anchor
            .controlled(self.control, self.forms.unwrap_or(Forms::Worst))
            .with_pressures(self.pump, self.limit))
    }

    /// What reaches the RO of water at that temperature.
    fn tempered(&self, temperature: Temperature) -> Temperature {
        year_end::tempered(temperature, self.tempered)
    }

    /// The end of the year: the most extreme of the stated one, of the months and of today's water.
    fn end(
        &self,
        extreme: fn(f64, f64) -> f64,
        stated: Option<Temperature>,
        (field, name): (&'static str, &'static str),
        w: &mut Working,
    ) -> Known<Temperature> {
        let year_end = year_end::year_end(extreme, stated, self.months.as_deref(), self.tap);
        let YearEnd { stated, end } = year_end.ok_or(Missing::empty(field, name))?;
        if end != stated {
            w.warn(
                field,
                "today-beyond-year",
                Sentence::plain("today's water ({today}) is more extreme than the {stated} entered for the year, so today's counts")
                    .quantity("today", end)
                    .quantity("stated", stated),
            );
        }
        Ok(self.tempered(end))
    }

    fn capacity(
        &self,
        anchor: &Anchor,
        change: &Change,
        fouling: Ratio,
        w: &mut Working,
    ) -> (Known<Flow>, Known<Flow>) {
        let clean = anchor.product(change, Question::Least, w);
        let capacity = clean.map(|clean| {
            w.bind("clean", "Q_p", clean);
            step!(w, capacity "Q_cap" = clean * fouling);
            capacity
        });
        (clean, capacity)
    }

    /// Product, feed while it runs, feed in flush, recovery: each at its highest.
    fn highest_flows(
        &self,
        anchor: &Anchor,
        change: Known<Change>,
        w: &mut Working,
    ) -> (Known<Flow>, Known<Flow>, Known<Flow>, Known<Ratio>) {
        let product = change.and_then(|change| Ok((change, anchor.product(&change, Question::Most, w)?)));
        match product {
            Ok((change, clean)) => (
                Ok(clean),
                anchor.feed_with(&change, clean, w),
                anchor.flush_with(clean, self.flush_reject, w),
                anchor.recovery_with(&change, clean, w),
            ),
            Err(missing) => (Err(missing), Err(missing), Err(missing), Err(missing)),
        }
    }

    fn months(&self, anchor: &Anchor, fouling: Ratio, w: &mut Working) -> Vec<MonthFlow> {
        let rows = self.months.iter().flatten().map(|row| {
            let temperature = self.tempered(row.temperature);
            let change = anchor.at(temperature);
            let (clean, capacity) = self.capacity(anchor, &change, fouling, w);
            w.in_case(row.month.named(), |w| w.judge_known(&CAPACITY, capacity, self.demand));
            let (_, feed, flush, recovery) = self.highest_flows(anchor, Ok(change), w);
            let spare = capacity.and_then(|capacity| self.demand.map(|demand| capacity - demand));
            MonthFlow { month: row.month, temperature, clean, capacity, spare, feed, flush, recovery }
        });
        rows.collect()
    }

    /// By narrowing, since the worst form may change on the way.
    fn lowest_workable(&self, anchor: &Anchor, fouling: Ratio, w: &mut Working) -> Known<Temperature> {
        let demand = self.demand?;
        let mut rounds = 0;
        let mut spare = |kelvins: f64| -> Known<Point> {
            rounds += 1;
            let change = anchor.at(Temperature::of(kelvins));
            let clean = w.quietly(|w| anchor.product(&change, Question::Least, w))?;
            // by its logarithm, which is nearly straight over the temperature
            Ok(Point { x: kelvins, above: (clean * fouling / demand).ln() })
        };
        let (low, high) = (spare(COLDEST_LOOKED_AT.si())?, spare(WARMEST_LOOKED_AT.si())?);
        if low.above >= 0.0 {
            return Err(Missing::none_exists("it makes enough down to freezing"));
        }
        if high.above < 0.0 {
            return Err(Missing::none_exists(
                "it does not make enough at any temperature up to 45 °C (113 °F)",
            ));
        }
        let mut at = |kelvins| spare(kelvins).unwrap_or(Point { x: kelvins, above: f64::NAN });
        let enough = match narrow(low, high, CLOSE_ENOUGH, &mut at) {
            Ended::Across(_, enough) | Ended::Equal(_, enough, _) => enough,
            Ended::Missing(..) => return Err(Missing::empty("control", membrane::CONTROL.name)),
        };
        let lowest = Temperature::of(enough.x);
        w.procedure(("lowest", "T_min"), lowest, || {
            Sentence::plain("narrowed in {rounds} rounds: the coldest water in which product flow after allowances reaches {demand}")
                .with("rounds", Slot::Count(rounds))
                .quantity("demand", demand)
        });
        Ok(lowest)
    }
}
