//! What one report of the feed water serves: the softener's hardness and iron, scale on the membrane, contaminants
//! behind it.

use super::{Newer, Plan};
use crate::engine::quantity::{Concentration, Hardness, Ratio, SaturationIndex, kinds};
use crate::engine::sheet::{
    Check, Known, Missing, Reported, Sentence, Sheet, State, Stop, Term, Working, part,
};
use crate::output_row;
use crate::trade::membrane::scale::{CALCITE, GYPSUM, SILICA, Supply};
use crate::trade::membrane::{Contaminant, IonPassage, NEVER_MET, ScaleTendency, Season, SeasonFlow};
use crate::trade::softener::SOFTENER_LASTS;
use crate::trade::tap::HardnessAsCaco3;
use crate::trade::terms::place::HARDNESS_AT_TAP;
use crate::trade::terms::report::{FEED_REPORT, FeedResult};
use crate::trade::water::{Analyte, Report};
use std::cell::OnceCell;

output_row! {
    /// How near the reject is to scale at one end of the year.
    ScaleAt {
        season     "season":               Season                 = Term::other("When"),
        recovery   "recovery":             Known<Ratio>           = Term::number(&kinds::RATIO, "Recovery", "Y"),
        calcite    "reject-calcite-index": Known<SaturationIndex> = Term::number(&kinds::SATURATION_INDEX, "Calcite saturation index of the reject", "SI_c"),
        silica     "reject-silica":        Known<Concentration>   = Term::number(&kinds::CONCENTRATION, "Silica in the reject", "SiO2_c"),
        solubility "silica-solubility":    Known<Concentration>   = Term::number(&kinds::CONCENTRATION, "Silica solubility in the reject", "S"),
        gypsum     "reject-gypsum-share":  Known<Ratio>           = Term::number(&kinds::RATIO, "Calcium sulfate in the reject, share of saturation", "Ω"),
    }
}

/// Hardness and iron of the water that reaches the softener.
#[derive(Debug, Clone, Copy)]
pub(super) struct HardWater {
    pub hardness: Known<Hardness>,
    pub iron: Known<Option<Concentration>>,
}

/// A drop test and a report that differ by more are of two waters (common practice, no source).
const ALIKE: f64 = 1.3;

/// What stands between the report and the membrane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Behind {
    /// All of the report.
    NoSoftener,
    /// A softener, with so much hardness behind it at the end of the day.
    Soft(Hardness),
    /// A softener behind which nobody has tested.
    Untested(Missing),
    /// One that is used up before it is regenerated.
    Spent,
}

impl Behind {
    /// The hardness that reaches the membrane; `None` for all of the report's.
    fn hardness(self) -> Known<Option<Hardness>> {
        match self {
            Behind::NoSoftener | Behind::Spent => Ok(None),
            Behind::Soft(hardness) => Ok(Some(hardness)),
            Behind::Untested(missing) => Err(missing),
        }
    }
}

/// The plan asks once what is left behind the softener.
fn of_softener(stop: Stop) -> Stop {
    stop.of_field("softened-hardness", "hardness-after-softener")
}

impl ScaleAt {
    fn not_asked(at: &SeasonFlow) -> Self {
        let not_asked = Missing::not_known("", "this was not asked");
        Self {
            season: at.season,
            recovery: at.recovery,
            calcite: Err(not_asked),
            silica: Err(not_asked),
            solubility: Err(not_asked),
            gypsum: Err(not_asked),
        }
    }
}

impl Plan {
    fn feed_report(&self) -> Known<Option<&[FeedResult]>> {
        match &self.report {
            Ok(report) => Ok(report.as_deref().filter(|rows| !rows.is_empty())),
            Err(missing) => Err(*missing),
        }
    }

    fn needed_report(&self) -> Known<&[FeedResult]> {
        self.feed_report()?.ok_or(Missing::empty("feed-report", FEED_REPORT.name))
    }

    /// Whether the tests at the tap are said to be newer than the report, so that they count before it.
    pub(super) fn tests_are_newer(&self) -> Known<bool> {
        Ok(self.newer? == Some(Newer::Tests))
    }

    /// What the report says of an analyte, if there is one; also as "less than".
    pub(super) fn reported(&self, analyte: Analyte) -> Known<Option<Reported<Concentration>>> {
        let Some(rows) = self.feed_report()? else { return Ok(None) };
        let refused = |_| Missing::empty("feed-report", FEED_REPORT.name);
        // its warnings are given where it is read for hardness
        Report::read(rows, &mut Working::judging()).map(|report| report.reported(analyte)).map_err(refused)
    }

    /// A test at the tap beside the report: the worse of both, unless the test is said to be the newer.
    pub(super) fn test_or_report(
        &self,
        test: Known<Option<Concentration>>,
        reported: Known<Option<Reported<Concentration>>>,
    ) -> Known<Option<Reported<Concentration>>> {
        Ok(match (test?, reported?) {
            (Some(test), Some(Reported::Is(reported))) if !self.tests_are_newer()? => {
                Some(Reported::Is(test.max(reported)))
            }
            // "less than" does not contradict a test
            (Some(test), _) => Some(Reported::Is(test)),
            (None, reported) => reported,
        })
    }

    /// Hardness and iron: the worse of test and report, unless the tests are said to be newer.
    pub(super) fn hard_water(&self, w: &mut Working) -> HardWater {
        let Ok(Some(rows)) = self.feed_report() else {
            let entered = Missing::empty("hardness", HARDNESS_AT_TAP.name);
            return HardWater {
                hardness: self.hardness.and_then(|hardness| hardness.ok_or(entered)),
                iron: self.iron,
            };
        };
        let found = w.stage(&[], |w| {
            let report = Report::read(rows, w)?;
            let sheet = HardnessAsCaco3 {
                calcium: report.need(Analyte::Calcium, "the report has no calcium"),
                magnesium: report.need(Analyte::Magnesium, "the report has no magnesium"),
                drops: Err(Missing::not_known("hardness", "")),
                a_drop: Err(Missing::not_known("hardness", "")),
            };
            Ok((sheet.run(w)?.by_report, report.reported(Analyte::Iron)))
        });
        let by_report = part(&found, |found| found.0);
        let hardness = match (self.hardness, by_report) {
            (Ok(Some(entered)), Ok(by_report)) => {
                self.tests_are_newer().map(|newer| if newer { entered } else { entered.max(by_report) })
            }
            (Ok(Some(entered)), Err(_)) => Ok(entered),
            (Ok(None), _) => by_report,
            (Err(missing), _) => Err(missing),
        };
        if let (Ok(Some(entered)), Ok(by_report), Ok(counted)) = (self.hardness, by_report, hardness)
            && (entered > by_report * ALIKE || by_report > entered * ALIKE)
        {
            w.warn(
                "hardness",
                "hardness-differs",
                Sentence::plain("entered as {entered}, but {by_report} by calcium and magnesium of the report: {counted} counts for the softener, the report for scale. Check that both are of this water")
                    .quantity("entered", entered)
                    .quantity("by_report", by_report)
                    .quantity("counted", counted),
            );
        }
        let iron = self.test_or_report(self.iron, part(&found, |found| Ok(found.1)));
        HardWater { hardness, iron: iron.map(|iron| iron.map(Reported::at_most)) }
    }

    /// What stands between the report and the membrane. `softener` holds the judgements of the softener's stage.
    pub(super) fn behind_softener(&self, softener: &[Check]) -> Known<Behind> {
        if self.resin?.is_none_or(|resin| resin.si() == 0.0) {
            return Ok(Behind::NoSoftener);
        }
        let is_spent = softener
            .iter()
            .any(|check| check.criterion.id == SOFTENER_LASTS.id && check.state == State::NotMet);
        // a soft drop test of another day does not tell what passes once this one is used up
        Ok(if is_spent { Behind::Spent } else { self.softened.map_or_else(Behind::Untested, Behind::Soft) })
    }

    /// Scale at both ends of the year, each at its worst: calcium carbonate in the warmest water and at the highest
    /// recovery, silica in the coldest; with the softener as it is at the end of the day.
    pub(super) fn scale(
        &self,
        seasons: &[SeasonFlow],
        behind: Known<Behind>,
        w: &mut Working,
    ) -> Vec<ScaleAt> {
        if behind == Ok(Behind::Spent) {
            w.assume("hardness-after-softener", "the softener is used up before it is regenerated: scale is judged with hard water at the membrane");
        }
        let ends = seasons.iter().filter(|at| at.season != Season::Today);
        // nearly half of the plan's arithmetic, on which nothing else rests
        if !w.asks_for(&[&CALCITE, &SILICA, &GYPSUM]) {
            return ends.map(ScaleAt::not_asked).collect();
        }
        // one water for both ends
        let supply = OnceCell::new();
        w.worst_season(|w| {
            ends.map(|at| w.in_season(at.season.when(), |w| self.scale_at(at, behind, &supply, w))).collect()
        })
    }

    fn scale_at(
        &self,
        at: &SeasonFlow,
        behind: Known<Behind>,
        supply: &OnceCell<Result<Supply, Stop>>,
        w: &mut Working,
    ) -> ScaleAt {
        let judged = w.stage(&[&CALCITE, &SILICA, &GYPSUM], |w| {
            let rows = self.needed_report()?;
            let sheet = ScaleTendency {
                // it is read once for both ends of the year
                report: Vec::new(),
                ph: self.feed_ph,
                temperature: at.temperature?,
                ph_temperature: self.ph_temperature?,
                recovery: at.recovery,
                passage: None,
                softened: behind?.hardness()?,
            };
            let read = supply.get_or_init(|| Supply::read(rows, sheet.softened, w).map_err(of_softener));
            let supply = read.as_ref().map_err(Stop::clone)?;
            sheet.within(w, |sheet, w| sheet.judged(supply, w)).map_err(of_softener)
        });
        ScaleAt {
            season: at.season,
            recovery: at.recovery,
            calcite: part(&judged, |judged| judged.calcite),
            silica: part(&judged, |judged| judged.silica),
            solubility: part(&judged, |judged| judged.solubility),
            gypsum: part(&judged, |judged| judged.gypsum),
        }
    }

    /// What is expected behind the membrane at the highest recovery; never judged, since only a test can tell.
    pub(super) fn contaminants(
        &self,
        recovery: Known<Ratio>,
        behind: Known<Behind>,
        w: &mut Working,
    ) -> Known<Vec<Contaminant>> {
        let rows = self.needed_report()?;
        let behind = behind?;
        w.caution(&NEVER_MET);
        let expected = |softened, w: &mut Working| {
            w.stage(&[], |w| {
                let sheet = IonPassage {
                    report: rows.to_vec(),
                    recovery,
                    limits: self.limits?,
                    softened,
                    rejection: None,
                };
                Ok(sheet.within(w, IonPassage::expected).map_err(of_softener)?.contaminants)
            })
        };
        let mut contaminants = expected(behind.hardness().unwrap_or(None), w)?;
        if matches!(behind, Behind::Untested(_) | Behind::Spent) {
            w.assume("hardness-after-softener", "hardness after the softener is not known: for the product water, calcium and magnesium count as in the report, and sodium as if the softener had exchanged all of them");
            let sodium = w.quietly(|w| expected(Some(Hardness::of(0.0)), w))?;
            let sodium = sodium.into_iter().find(|row| row.analyte == Analyte::Sodium);
            let row = contaminants.iter_mut().find(|row| row.analyte == Analyte::Sodium);
            match (row, sodium) {
                (Some(row), Some(sodium)) => *row = sodium,
                (None, Some(sodium)) => contaminants.push(sodium),
                (_, None) => {}
            }
        }
        for row in &mut contaminants {
            // the plan asks for no rejection of its own
            let named = |missing: Missing| match missing.field {
                "assumed-rejection" => Missing { field: "", ..missing },
                _ => missing,
            };
            row.tabled = row.tabled.map_err(named);
            row.expected = row.expected.map_err(named);
        }
        Ok(contaminants)
    }
}
