//! The rejection that each contaminant of the feed needs, and what is expected of the membrane.
//!
//! The rejection that is needed is on the feed, from the limit alone. What is expected rests on the low end of the trade's
//! tables of rejections, which are averages of experience and no guarantee, and on the average concentration along the
//! membrane. Where the chemical form decides, and a report does not tell it, there is no number. An expected value is never
//! a result: each contaminant is known only by its own test of product water. The influence of temperature, flux and age
//! on the passage is left out.

use super::mean_concentration_factor;
use super::scale::as_softened;
use crate::engine::quantity::{Concentration, Hardness, Ratio, kinds, percent};
use crate::engine::sheet::{Caution, Evaluate, Known, Missing, Reported, Stage, Stop, Term, Working, source};
use crate::trade::limits::LimitSet;
use crate::trade::terms::membrane;
use crate::trade::terms::report::{ANALYTE, FEED_REPORT, FeedResult, LIMIT_SET, SOFTENED_HARDNESS};
use crate::trade::water::{Analyte, Report};
use crate::{choice, output_row, sheet, step};

choice!(/// What can be said of one contaminant before its test.
Expectation {
    NoneNeeded "none-needed" "The feed is within the limit already",
    Below "expected-below" "Expected below the limit; a test of product water decides",
    Above "expected-above" "Expected above the limit: this membrane is not enough",
    NotByRo "not-by-ro" "Not a job for the RO",
    NotTold "cannot-be-told" "Not known: no table gives a rejection, the recovery is not entered, or the result is “less than” too high a limit",
    NoLimit "no-limit" "No limit in this set",
    Species "species-decides" "Not known: its chemical form decides; test the product water",
});

output_row! {
    /// One contaminant.
    Contaminant {
        analyte     "analyte":     Analyte              = ANALYTE,
        feed        "feed":        Reported<Concentration> = Term::number(&kinds::CONCENTRATION, "In the feed, expressed as the limit is", "C_f"),
        limit       "limit":       Known<Concentration> = Term::number(&kinds::CONCENTRATION, "Limit", "L"),
        needed      "needed":      Known<Ratio>         = Term::number(&kinds::RATIO, "Rejection needed, feed basis", "R_need"),
        tabled      "tabled":      Known<Ratio>         = Term::number(&kinds::RATIO, "Rejection assumed, average basis", "R"),
        expected    "expected":    Known<Reported<Concentration>> = Term::number(&kinds::CONCENTRATION, "Expected in the product", "C_p"),
        expectation "expectation": Expectation          = Term::other("Expectation"),
    }
}

output_row! {
    /// One thing that passes, or may pass, even with good rejection by conductivity.
    Passes {
        what   "what":   &'static str = Term::other("What passes"),
        answer "answer": &'static str = Term::other("What deals with it"),
    }
}

/// What an RO cannot be relied on for, and what deals with it (standard reasoning of the trade, no source but for chloramine).
const PASSES: [(&str, &str); 10] = [
    (
        "Chlorine and chloramine: they pass the membrane and destroy it",
        "Carbon, and a total chlorine test after it before every session",
    ),
    (
        "Carbon dioxide: it passes freely, lowers the pH and raises the product conductivity",
        "No action. It does not mean that the membrane is failing",
    ),
    ("Ammonia, hydrogen sulfide and other dissolved gases", "Their own treatment and test"),
    ("Boron: 40 to 70 % at usual pH", "Its own test"),
    (
        "Nitrate and fluoride as the membrane ages: conductivity does not show them",
        "Their own tests, monthly if the feed is near what the membrane can do",
    ),
    ("Arsenic that is not oxidized, and mercury without charge", "Their own tests"),
    (
        "Aluminium (aluminum) at very low or high pH, as hydroxide or fine solids",
        "A test of product water in the season when the utility doses most coagulant",
    ),
    ("Small organic substances, solvents, pesticides", "Carbon, and their own tests"),
    (
        "Peroxide and chlorine dioxide dosed by the building",
        "Ask facilities (estates). Hold until they have answered",
    ),
    (
        "Bacteria and endotoxin, which grow back after the membrane",
        "Disinfection, a retentive filter, cultures and endotoxin tests",
    ),
];

/// Stands wherever such an expectation is shown.
pub static NEVER_MET: Caution = Caution {
    id: "expected-is-no-result",
    text: "An estimate from a table of rejections is not a result. Only a laboratory test of that contaminant shows whether product water is within the limit, and the medical director decides on it.",
};

static TABLE_IS_AVERAGE: Caution = Caution {
    id: "tabled-rejection-is-average",
    text: "The rejections are trade averages for sound thin-film membranes under test conditions. An old membrane, a damaged seal or low pressure holds back less, and conductivity does not show it.",
};

sheet! {
    /// The rejection that each contaminant of this water needs, what a membrane is expected to let through, and what an RO cannot be relied on for.
    IonPassage, "ion-passage", "Contaminants through the membrane", Stage::Membrane,
    also: &["nitrate", "fluoride", "metals", "permeate quality"],
    sources: &[&source::MASS_BALANCE, &source::SOLUTION_DIFFUSION, &source::ISO_23500_3, &source::AAMI_RD62, &source::PH_EUR_1167, &source::COMMON_PRACTICE],
    cautions: &[&NEVER_MET, &TABLE_IS_AVERAGE],
    criteria: &[],
    inputs: {
        report    "feed-report":       Vec<FeedResult>  = FEED_REPORT,
        recovery  "recovery":          Known<Ratio>     = membrane::RECOVERY,
        limits    "limit-set":         Option<LimitSet> = LIMIT_SET,
        softened  "softened-hardness": Option<Hardness> = SOFTENED_HARDNESS,
        rejection "assumed-rejection": Option<Ratio>    = Term::number(&kinds::RATIO, "One rejection for every contaminant", "R_all")
            .help("Average basis. To see what a worse membrane would let through.")
            .assumed("the low end of the trade's table for each contaminant")
            .plausible(50.0, 99.9, "%").possible(0.0, 99.999, "%"),
    }
    outputs Outputs: {
        contaminants "contaminants":       Vec<Contaminant> = Term::other("Contaminants in the report"),
        most         "most-needed":        Known<Ratio>     = Term::number(&kinds::RATIO, "Highest rejection needed, feed basis", "R_most"),
        of           "most-needed-for":    Known<Analyte>   = Term::other("Contaminant that needs it"),
        mean_factor  "mean-factor":        Known<f64>       = Term::number(&kinds::NUMBER, "Average concentration factor", "LMCF"),
        passes       "not-to-be-trusted":  Vec<Passes>      = Term::other("What an RO cannot be relied on for"),
    }
}

impl Evaluate for IonPassage {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let Expected { contaminants, most, of, mean_factor } = self.expected(w)?;
        let passes = PASSES.map(|(what, answer)| Passes { what, answer });
        Ok(Outputs { contaminants, most, of, mean_factor, passes: passes.into() })
    }
}

/// What is expected of each contaminant.
#[derive(Debug)]
pub(crate) struct Expected {
    /// Of the report.
    pub contaminants: Vec<Contaminant>,
    /// Greatest rejection that is needed.
    pub most: Known<Ratio>,
    /// By which contaminant.
    pub of: Known<Analyte>,
    mean_factor: Known<f64>,
}

impl IonPassage {
    /// All but the list of what an RO cannot be relied on for, which is the same for every water.
    pub(crate) fn expected(&self, w: &mut Working) -> Result<Expected, Stop> {
        let report = as_softened(Report::read(&self.report, w)?, self.softened)?;
        let limits = self.limits.unwrap_or(LimitSet::Iso23500);
        let mean_factor = self.recovery.map(|recovery| mean_concentration_factor(recovery, w));
        let contaminants: Vec<Contaminant> = Analyte::ALL
            .iter()
            .filter_map(|analyte| Some((*analyte, report.reported(*analyte)?)))
            // alkalinity and silica are no contaminants; their place is the sheet of scale
            .filter(|(analyte, _)| {
                analyte.plain() == *analyte && !matches!(analyte, Analyte::Alkalinity | Analyte::Silica)
            })
            .map(|(analyte, feed)| self.contaminant(analyte, feed, limits, mean_factor))
            .collect();
        let by_membrane = contaminants.iter().filter(|row| row.expectation != Expectation::NotByRo);
        let most = by_membrane
            .filter_map(|row| Some((row.analyte, row.feed.at_most(), row.limit.ok()?, row.needed.ok()?)))
            .max_by(|a, b| a.3.si().total_cmp(&b.3.si()));
        if let Some((analyte, feed, limit, _)) = most {
            show(analyte, (feed, limit), mean_factor, self.rejection, w);
        }
        let nothing = Missing::none_exists("no contaminant of the report is above its limit");
        Ok(Expected {
            contaminants,
            most: most.map(|most| most.3).ok_or(nothing),
            of: most.map(|most| most.0).ok_or(nothing),
            mean_factor,
        })
    }

    fn contaminant(
        &self,
        analyte: Analyte,
        feed: Reported<Concentration>,
        limits: LimitSet,
        mean_factor: Known<f64>,
    ) -> Contaminant {
        let limit =
            limits.plain_limit(analyte).ok_or(Missing::none_exists("this set of limits has none for it"));
        let tabled = taken(analyte, self.rejection);
        // the product cannot hold more than all of the feed's
        let left = tabled.and_then(|rejection| Ok(((1.0 - rejection.si()) * mean_factor?).min(1.0)));
        let expected = left.map(|left| feed.map(|feed| feed * left));
        let needed = limit.and_then(|limit| match feed {
            Reported::Is(feed) | Reported::Below(feed) if feed <= limit => {
                Err(Missing::none_exists("the feed is within the limit already"))
            }
            Reported::Is(feed) => Ok(1.0 - Ratio::of(limit / feed)),
            Reported::Below(_) => Err(Missing::not_known(
                "feed-report",
                "the reporting limit of the laboratory is above the limit",
            )),
        });
        let is_within = |limit: Concentration| expected.is_ok_and(|expected| expected.at_most() <= limit);
        let expectation = match (limit, feed) {
            _ if is_left_to_carbon(analyte) => Expectation::NotByRo,
            (Err(_), _) => Expectation::NoLimit,
            (Ok(limit), _) if feed.at_most() <= limit => Expectation::NoneNeeded,
            _ if form_decides(analyte).is_some() => Expectation::Species,
            (Ok(limit), _) if is_within(limit) => Expectation::Below,
            (Ok(_), Reported::Is(_)) if expected.is_ok() => Expectation::Above,
            _ => Expectation::NotTold,
        };
        Contaminant { analyte, feed, limit, needed, tabled, expected, expectation }
    }
}

/// The arithmetic of the contaminant that needs most.
///
/// # Formula
/// R_need = 1 − L / C_f, C_p = C_f (1 − R) LMCF
///
/// # Source
/// `mass-balance` for what is needed; `solution-diffusion` for what is expected.
fn show(
    analyte: Analyte,
    (feed, limit): (Concentration, Concentration),
    mean_factor: Known<f64>,
    rejection: Option<Ratio>,
    w: &mut Working,
) {
    w.in_case(analyte.named(), |w| {
        w.bind("feed", "C_f", feed);
        w.bind("limit", "L", limit);
        step!(w, needed "R_need": Ratio = 1.0 - limit / feed);
        let _ = needed;
        if let (Ok(rejection), Ok(mean_factor)) = (taken(analyte, rejection), mean_factor) {
            w.bind("rejection", "R", rejection);
            w.bind("mean_factor", "LMCF", mean_factor);
            step!(w, expected "C_p" = feed * (1.0 - rejection) * mean_factor);
            let _ = expected;
        }
    });
}

/// Chlorine is left to the carbon.
fn is_left_to_carbon(analyte: Analyte) -> bool {
    matches!(analyte, Analyte::TotalChlorine | Analyte::FreeChlorine | Analyte::Chloramines)
}

/// Why no number can be given, where one form of a substance is held back and another passes.
const fn form_decides(analyte: Analyte) -> Option<&'static str> {
    Some(match analyte {
        Analyte::Arsenic => {
            "oxidized arsenic is held back and the other form passes; a report gives only their sum"
        }
        Analyte::Mercury => {
            "dissolved mercury is partly without charge and passes; a report does not say how much"
        }
        Analyte::Boron => "boric acid passes, and how much of it depends on pH and flow",
        Analyte::AmmoniumNitrogen | Analyte::Ammonium => {
            "ammonia gas passes, and how much of it there is depends on pH"
        }
        _ => return None,
    })
}

/// The rejection with which is computed, on the average of the feed side.
fn taken(analyte: Analyte, assumed: Option<Ratio>) -> Known<Ratio> {
    if is_left_to_carbon(analyte) {
        return Err(Missing::none_exists("the carbon removes chlorine, not the RO"));
    }
    if let Some(why) = form_decides(analyte) {
        return Err(Missing::not_known("", why));
    }
    let tabled = low_end(analyte).map(percent);
    assumed.or(tabled).ok_or(Missing::not_known("assumed-rejection", "no table gives a rejection for it"))
}

/// The low end of what the trade's tables print for a thin-film membrane, in per cent; of two tables the lower (common
/// practice: manufacturers' averages as quoted by secondary pages, no guarantee).
const fn low_end(analyte: Analyte) -> Option<f64> {
    Some(match analyte {
        Analyte::Sodium | Analyte::Potassium => 92.0,
        Analyte::Calcium | Analyte::Magnesium => 96.0,
        Analyte::Iron => 98.0,
        Analyte::Manganese => 96.0,
        Analyte::Aluminium => 97.0,
        Analyte::Copper | Analyte::Nickel => 97.0,
        Analyte::Zinc => 98.0,
        Analyte::Cadmium | Analyte::Lead => 96.0,
        // as chromate
        Analyte::Chromium => 90.0,
        Analyte::Silver => 95.0,
        Analyte::Selenium => 97.0,
        Analyte::Barium | Analyte::Strontium => 97.0,
        Analyte::Chloride => 94.0,
        Analyte::Fluoride => 90.0,
        Analyte::Nitrate | Analyte::NitrateNitrogen => 85.0,
        Analyte::Sulfate => 98.0,
        Analyte::Phosphate => 99.0,
        Analyte::Alkalinity | Analyte::Bicarbonate => 95.0,
        Analyte::Silica => 85.0,
        _ => return None,
    })
}
