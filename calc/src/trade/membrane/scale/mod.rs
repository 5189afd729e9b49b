//! Scale: how near feed and reject are to calcium carbonate, calcium sulfate and silica, and up to which recovery.
//!
//! Rests on the carbonate equilibrium of [`carbonate`](crate::trade::water::carbonate) (constants of phreeqc.dat), on the Langelier
//! index as in Standard Methods 2330 B, on Fournier and Rowe's solubility of amorphous silica, and on the balance of ASTM
//! D3739 for the reject. Does not say how fast scale grows, nor what an antiscalant holds back; silicates of aluminium and
//! iron, sulfates of barium and strontium, fluoride and phosphate scale are not covered. The index of Stiff and Davis (ASTM
//! D4582) for very salty rejects is left out, since its printed constants were not read.

mod concentrate;
mod highest;
pub mod langelier;
mod sides;

pub use highest::Scale;

use crate::engine::quantity::{
    Concentration, Hardness, Molality, Ph, Ratio, SaturationIndex, Temperature, kinds, percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Sentence, Side as Asked, Slot, Stage,
    Stop, Term, Working, source,
};
use crate::trade::terms::report::{FEED_PH, FEED_REPORT, FeedResult, PH_TEMPERATURE, SOFTENED_HARDNESS};
use crate::trade::terms::{membrane, tap::TAP_TEMPERATURE};
use crate::trade::water::carbonate::{Totals, Unsolved};
use crate::trade::water::{Analyte, Report};
use crate::{absolute, output_row, sheet, step};
use concentrate::{Feed, NO_ALKALINITY, NO_SILICA, Side};
use highest::Highest;
use langelier::Constants;
use sides::Both;

/// Judged in the reject, where it is worst.
pub static CALCITE: Criterion = Criterion {
    id: "calcite-in-reject",
    sentence: "Calcium carbonate saturation index (SI, close to LSI) of the reject, without antiscalant",
    stage: Stage::Membrane,
    side: Asked::AtMost,
    forecast: true,
    source: &source::PLUMMER_BUSENBERG_1982,
    levers: &["recovery", "softened-hardness", "reject-flow"],
    cases: &[],
    judges: Judges::Output("reject-calcite-index"),
};

/// Judged in the reject, where it is worst.
pub static SILICA: Criterion = Criterion {
    id: "silica-in-reject",
    sentence: "Silica in the reject, within its solubility",
    stage: Stage::Membrane,
    side: Asked::AtMost,
    forecast: true,
    source: &source::FOURNIER_ROWE_1977,
    levers: &["recovery", "reject-flow"],
    cases: &[],
    judges: Judges::Output("reject-silica"),
};

/// Judged in the reject, where it is worst.
pub static GYPSUM: Criterion = Criterion {
    id: "gypsum-in-reject",
    sentence: "Calcium sulfate in the reject, share of its solubility product",
    stage: Stage::Membrane,
    side: Asked::AtMost,
    forecast: true,
    source: &source::ASTM_D4692,
    levers: &["recovery", "softened-hardness", "reject-flow"],
    cases: &[],
    judges: Judges::Output("reject-gypsum-share"),
};

/// The share of gypsum's solubility product that ASTM D4692 allows.
const GYPSUM_LIMIT: Ratio = percent(80.0);
/// A larger difference of charges shows that something is missing or misread (Standard Methods 1030 E allows less).
const IMBALANCE: Ratio = percent(10.0);

static SCALE_FORECAST: Caution = Caution {
    id: "scale-is-forecast",
    text: "An index shows what can form in the end, not how fast. Barium and strontium sulfate, calcium fluoride and silicates are not calculated here. Test hardness after the softener every day, and watch product flow and pressure: scale shows there first. Change the reject setting, acid or antiscalant only as the RO's instructions allow.",
};

static WORST_SEASONS: Caution = Caution {
    id: "scale-has-two-seasons",
    text: "Calcium carbonate is worst in the warmest water and at the highest recovery, silica in the coldest: check both. Older constants for the Langelier index, still printed, hide up to 0.35 of it in cold water.",
};

output_row! {
    /// One scale.
    ScaleLimit {
        scale   "scale":            Scale        = Term::other("Scale"),
        highest "highest-recovery": Known<Ratio> = Term::number(&kinds::RATIO, "Highest recovery without this scale", "Y_max"),
    }
}

const INDEX: Term = Term::number(&kinds::SATURATION_INDEX, "Langelier index (LSI)", "LSI");

output_row! {
    /// The index by one set of constants.
    IndexBy {
        constants  "constants":    Constants       = Term::other("Constants"),
        feed       "feed-index":   SaturationIndex = INDEX.named("LSI of the feed"),
        reject     "reject-index": Known<SaturationIndex> = INDEX.named("LSI of the reject"),
        difference "difference":   SaturationIndex = INDEX.named("Feed: difference from today's constants").symbol("ΔLSI"),
    }
}

sheet! {
    /// Which scale is expected on the membrane, from a report of the feed and the recovery, and the highest recovery without scale.
    ScaleTendency, "scale-tendency", "Scale on the membrane", Stage::Membrane,
    also: &["LSI", "Langelier", "scaling", "calcium carbonate", "gypsum"],
    sources: &[
        &source::PHREEQC_3, &source::PLUMMER_BUSENBERG_1982, &source::TRUESDELL_JONES_1974, &source::STANDARD_METHODS_2330,
        &source::FOURNIER_ROWE_1977, &source::ASTM_D3739, &source::ASTM_D4993, &source::ASTM_D4692, &source::COMMON_PRACTICE,
    ],
    cautions: &[&SCALE_FORECAST, &WORST_SEASONS],
    criteria: &[&CALCITE, &SILICA, &GYPSUM],
    inputs: {
        report         "feed-report":       Vec<FeedResult>     = FEED_REPORT,
        ph             "feed-ph":           Known<Ph>           = FEED_PH,
        temperature    "tap-temperature":   Temperature         = TAP_TEMPERATURE,
        ph_temperature "ph-temperature":    Option<Temperature> = PH_TEMPERATURE,
        recovery       "recovery":          Known<Ratio>        = membrane::RECOVERY,
        passage        "salt-passage":      Option<Ratio>       = membrane::SALT_PASSAGE,
        softened       "softened-hardness": Option<Hardness>    = SOFTENED_HARDNESS,
    }
    outputs Outputs: {
        feed_calcite    "feed-calcite-index":     Known<SaturationIndex> = Term::number(&kinds::SATURATION_INDEX, "Calcium carbonate saturation index (SI), feed", "SI_f"),
        reject_calcite  "reject-calcite-index":   Known<SaturationIndex> = Term::number(&kinds::SATURATION_INDEX, "Calcium carbonate saturation index (SI), reject", "SI_c"),
        highest         "highest-recovery-without-scale": Known<Ratio>   = Term::number(&kinds::RATIO, "Highest recovery without scale expected", "Y_max"),
        limits          "scale-limits":           Vec<ScaleLimit>        = Term::other("Each scale"),
        factor          "concentration-factor":   Known<f64>             = Term::number(&kinds::NUMBER, "Concentration factor", "CF"),
        reject_ph       "reject-ph":              Known<Ph>              = Term::number(&kinds::PH, "pH of the reject", "pH_c"),
        feed_langelier  "feed-langelier-index":   Known<SaturationIndex> = INDEX.named("Langelier index (LSI), feed").symbol("LSI_f"),
        reject_langelier "reject-langelier-index": Known<SaturationIndex> = INDEX.named("Langelier index (LSI), reject").symbol("LSI_c"),
        feed_ryznar     "feed-ryznar-index":      Known<f64>             = Term::number(&kinds::NUMBER, "Ryznar index (RSI), feed", "RSI_f"),
        by_constants    "langelier-by-constants": Vec<IndexBy>           = Term::other("Langelier index by older constants"),
        silica          "reject-silica":          Known<Concentration>   = Term::number(&kinds::CONCENTRATION, "Silica in the reject", "SiO2_c"),
        solubility      "silica-solubility":      Known<Concentration>   = Term::number(&kinds::CONCENTRATION, "Silica solubility in the reject", "S"),
        gypsum          "reject-gypsum-share":    Known<Ratio>           = Term::number(&kinds::RATIO, "Calcium sulfate in the reject, share of its solubility product", "Ω"),
        feed_strength   "feed-ionic-strength":    Known<Molality>        = Term::number(&kinds::MOLALITY, "Ionic strength of the feed", "I_f"),
        reject_strength "reject-ionic-strength":  Known<Molality>        = Term::number(&kinds::MOLALITY, "Ionic strength of the reject", "I_c"),
        imbalance       "charge-imbalance":       Known<Ratio>           = Term::number(&kinds::RATIO, "Charge imbalance of the report", "e"),
    }
}

impl Evaluate for ScaleTendency {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let supply = Supply::read(&self.report, self.softened, w)?;
        let feed = self.feed(&supply)?;
        let factor = self.factor(w);
        let both = Both::of(&feed, factor);
        both.say(w);
        let Judged { feed_calcite, calcite, silica, solubility, gypsum } =
            self.judge(&supply.report, &both, factor, w);
        let indices = both.langelier(self.temperature, w);
        let (highest, limits) = self.highest(both.feed, w);
        let (reject, strength) = (both.reject, |side: &Side| side.equilibrium.ionic_strength);
        Ok(Outputs {
            feed_calcite,
            reject_calcite: calcite,
            highest,
            limits,
            factor,
            reject_ph: reject.map(|side| side.equilibrium.ph),
            feed_langelier: indices.feed,
            reject_langelier: indices.reject,
            feed_ryznar: indices.ryznar,
            by_constants: indices.rows,
            silica,
            solubility,
            gypsum,
            feed_strength: both.feed.map(|feed| strength(&feed.side())),
            reject_strength: reject.map(|side| strength(&side)),
            imbalance: supply.imbalance.ok_or(Missing::none_exists("there is no ion in the report")),
        })
    }
}

/// A report as the water reaches the RO, with what is counted of it once, whatever the temperature and the recovery.
#[derive(Debug, Clone)]
pub(crate) struct Supply {
    report: Report,
    totals: Totals,
    dissolved: Concentration,
    imbalance: Option<Ratio>,
}

impl Supply {
    /// Reads the rows, and tells what they give to think of.
    pub(crate) fn read(
        rows: &[FeedResult],
        softened: Option<Hardness>,
        w: &mut Working,
    ) -> Result<Self, Stop> {
        let report = as_softened(Report::read(rows, w)?, softened)?;
        let imbalance = said_of_the_report(&report, w);
        Ok(Self { totals: Totals::of(&report), dissolved: report.dissolved(), imbalance, report })
    }
}

/// What is judged of one water at one recovery.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Judged {
    /// Saturation index of calcite in the feed.
    feed_calcite: Known<SaturationIndex>,
    /// The same in the reject.
    pub calcite: Known<SaturationIndex>,
    /// In the reject.
    pub silica: Known<Concentration>,
    /// How much of it dissolves there.
    pub solubility: Known<Concentration>,
    /// In the reject, of its solubility product.
    pub gypsum: Known<Ratio>,
}

impl ScaleTendency {
    /// The judgements alone, of a report that was read before. Solving for the highest recovery, and the indices by other
    /// constants, cost many times as much and are left out: the plan asks this at every key press.
    pub(crate) fn judged(&self, supply: &Supply, w: &mut Working) -> Result<Judged, Stop> {
        let feed = self.feed(supply)?;
        let factor = self.factor(w);
        let both = Both::of(&feed, factor);
        both.say(w);
        Ok(self.judge(&supply.report, &both, factor, w))
    }

    fn judge(&self, report: &Report, both: &Both, factor: Known<f64>, w: &mut Working) -> Judged {
        let [feed_calcite, calcite] = both.calcite(w);
        let gypsum = both.gypsum(w);
        let (silica, solubility) = self.silica(report, both, factor, w);
        w.judge_known(&CALCITE, calcite, Ok(SaturationIndex::of(0.0)));
        w.judge_known(&SILICA, silica, solubility);
        w.judge_known(&GYPSUM, gypsum, Ok(GYPSUM_LIMIT));
        Judged { feed_calcite, calcite, silica, solubility, gypsum }
    }

    /// How much the reject is concentrated.
    fn factor(&self, w: &mut Working) -> Known<f64> {
        let passage = self.passage.unwrap_or(Ratio::of(0.0));
        w.bind("passage", "SP", passage);
        let recovery = self.recovery?;
        step!(w, factor "CF" = (1.0 - recovery * passage) / (1.0 - recovery));
        Ok(factor)
    }

    /// The feed at equilibrium.
    fn feed<'a>(&self, supply: &'a Supply) -> Result<Known<Feed<'a>>, Stop> {
        let ph = match supply.report.need(Analyte::Alkalinity, NO_ALKALINITY).and(self.ph) {
            Ok(ph) => ph,
            Err(missing) => return Ok(Err(missing)),
        };
        let passage = self.passage.unwrap_or(Ratio::of(0.0));
        match Feed::new(supply, (ph, self.ph_temperature), self.temperature, passage) {
            Ok(feed) => Ok(Ok(feed)),
            Err(Unsolved::TooSalty) => Ok(Err(Unsolved::TooSalty.into())),
            Err(Unsolved::PhDoesNotFit) => Err(Problem::new(
                "feed-ph",
                Sentence::plain(
                    "a pH of {ph} does not fit this alkalinity: hydroxide alone would be more; check both",
                )
                .quantity("ph", ph),
            )
            .into()),
        }
    }

    /// Silica in the reject, and how much of it dissolves there.
    ///
    /// # Formula
    /// log₁₀ S_0 = 4.52 − 731/T, S = S_0 (1 + K_1 / a_H)
    ///
    /// # Source
    /// `fournier-rowe-1977`, with the first dissociation of silicic acid of `phreeqc-3`.
    fn silica(
        &self,
        report: &Report,
        both: &Both,
        factor: Known<f64>,
        w: &mut Working,
    ) -> (Known<Concentration>, Known<Concentration>) {
        let silica = report.need(Analyte::Silica, NO_SILICA).and_then(|in_feed| {
            let factor = factor?;
            w.bind("in_feed", "SiO2_f", in_feed);
            step!(w, silica "SiO2_c" = in_feed * factor);
            Ok(silica)
        });
        let temperature = self.temperature;
        absolute!(w, kelvins "T_K" = temperature);
        step!(w, uncharged "S_0": Concentration = 10.0_f64.powf(4.52 - 731.0 / kelvins.si()) / 1000.0);
        let by_ph = match (both.feed, both.reject) {
            (Ok(feed), Ok(side)) => feed.silica_by_ph(&side),
            _ => {
                w.assume(
                    "feed-ph",
                    "the pH of the reject is not known, so silica is taken to dissolve as in neutral water",
                );
                1.0
            }
        };
        w.procedure(("by_ph", "1 + K_1/a_H"), by_ph, || {
            "how much more silica dissolves because some of it is charged at the pH of the reject".into()
        });
        step!(w, solubility "S" = uncharged * by_ph);
        (silica, Ok(solubility))
    }

    /// Each scale solved backwards for the recovery.
    fn highest(&self, feed: Known<&Feed>, w: &mut Working) -> (Known<Ratio>, Vec<ScaleLimit>) {
        let dissolves = 10f64.powf(4.52 - 731.0 / self.temperature.si()) / 1000.0;
        let of = |scale: Scale| {
            let feed = match feed {
                Ok(feed) => feed,
                Err(missing) => return Highest::Unknown(missing),
            };
            Highest::of(feed, |side| match scale {
                Scale::Calcite => Ok(feed.calcite(side)?.si()),
                Scale::Gypsum => Ok((feed.gypsum(side)? / GYPSUM_LIMIT).ln()),
                Scale::Silica => {
                    let silica = feed.concentration(side, Analyte::Silica, NO_SILICA)?;
                    if silica.si() <= 0.0 {
                        return Err(Missing::none_exists("there is no silica"));
                    }
                    Ok((silica.si() / (dissolves * feed.silica_by_ph(side))).ln())
                }
            })
        };
        let found = [Scale::Calcite, Scale::Silica, Scale::Gypsum].map(|scale| (scale, of(scale)));
        let highest = Highest::first(&found.map(|(_, highest)| highest)).known();
        if let Ok(highest) = highest {
            w.procedure(("highest", "Y_max"), highest, || {
                "the lowest recovery at which one of the scales reaches its limit, each found by narrowing"
                    .into()
            });
        }
        let limits = found.map(|(scale, highest)| ScaleLimit { scale, highest: highest.known() });
        (highest, limits.into())
    }
}

/// The report as the water leaves a softener with that hardness.
///
/// # Errors
/// More hardness behind the softener than in the report.
pub(super) fn as_softened(report: Report, softened: Option<Hardness>) -> Result<Report, Stop> {
    let Some(softened) = softened else { return Ok(report) };
    let before = Hardness::of(concentrate::hardness(&report));
    if before.si() <= 0.0 {
        return Ok(report);
    }
    if softened > before {
        let sentence = Sentence::plain(
            "the hardness after the softener ({after}) is above that of the report ({before}); check that both are of the same water",
        );
        let sentence = sentence.quantity("after", softened).quantity("before", before);
        return Err(Problem::new("softened-hardness", sentence).into());
    }
    Ok(concentrate::softened(&report, before.si(), softened.si()))
}

/// What the report itself gives to think of.
fn said_of_the_report(report: &Report, w: &mut Working) -> Option<Ratio> {
    let usual = [Analyte::Magnesium, Analyte::Sodium, Analyte::Chloride, Analyte::Sulfate];
    let lacking: Vec<&str> =
        usual.into_iter().filter(|analyte| report.of(*analyte).is_none()).map(Analyte::name).collect();
    if !lacking.is_empty() {
        let sentence = Sentence::plain(
            "missing from the report: {lacking}. Counted as 0, which makes the indices a little too high",
        );
        w.assume("feed-report", sentence.with("lacking", Slot::Words(lacking)));
    }
    if let Some(below) = report.first_below() {
        let sentence = Sentence::plain(
            "“less than” counts as the full reporting limit ({analyte} and others so reported), which makes the indices a little too high",
        );
        w.assume("feed-report", sentence.with("analyte", Slot::Word(below.name())));
    }
    let imbalance = report.charge_imbalance()?;
    if imbalance > IMBALANCE || imbalance < -IMBALANCE {
        w.warn(
            "feed-report",
            "charge-imbalance",
            Sentence::plain("positive and negative charges of the report differ by {imbalance}: a result is missing, or has another form or unit")
                .quantity("imbalance", imbalance),
        );
    }
    Some(imbalance)
}

#[cfg(test)]
mod tests;
