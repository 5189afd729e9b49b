//! A laboratory's report of product water against a set of limits, row by row.
//!
//! Rests on the sets in `limits`. A result "less than" a reporting limit shows nothing where that lies above the limit. What
//! was not tested is not within limits, and low conductivity shows none of it. Where a set limits total chlorine alone, free
//! and combined chlorine of a report are judged as the total that they add up to; one of them alone can only show too much.

use super::onto;
use crate::engine::quantity::{
    Concentration, Ratio,
    kinds::{CONCENTRATION, NUMBER, RATIO},
};
use crate::engine::sheet::{
    Caution, Compare, Compared, Criterion, Draws, Evaluate, Figure, Judges, Known, Missing, Problem,
    Reported, Sentence, Side, Slot, Stage, State, Stop, Term, Working, source,
};
use crate::trade::limits::{ALL, ChemicalLimit, LimitSet, Limits};
use crate::trade::terms::report;
use crate::trade::water::Analyte;
use crate::{choice, input_row, output_row, sheet};

choice!(/// What a result says.
Verdict {
    Over "over-limit" "Over the limit",
    NotShown "not-shown" "Inconclusive: the reporting limit is above the limit, or is not on the report",
    Within "within-limit" "Within the limit",
    NoLimit "no-limit" "This set has no limit for it",
});

choice!(/// Whether another set would say otherwise.
    Elsewhere { Same "same" "The same in every other set that limits it", Otherwise "otherwise" "Another set says otherwise" });

input_row! {
    /// One result of a laboratory's report of the product water.
    ProductResult {
        analyte "analyte": Analyte                 = report::ANALYTE,
        result  "result":  Reported<Concentration> = report::REPORTED_RESULT,
    }
}

output_row! {
    /// One result, judged.
    Judgement {
        analyte   "analyte":   Analyte                 = report::ANALYTE,
        result    "result":    Reported<Concentration> = Term::number(&CONCENTRATION, "Result", "C"),
        charges   "milliequivalents": Known<f64>       = Term::number(&NUMBER, "Result, mEq/L", "C_eq"),
        limit     "limit":     Known<Concentration>    = Term::number(&CONCENTRATION, "Limit, in the form of the report", "L"),
        verdict   "verdict":   Verdict                 = Term::other("Verdict"),
        elsewhere "elsewhere": Elsewhere               = Term::other("Other sets"),
        us        "limit-aami-rd52-2004":   Known<Concentration> = Term::number(&CONCENTRATION, "RD52:2004", "L"),
        iso_2019  "limit-iso-23500-3-2019": Known<Concentration> = Term::number(&CONCENTRATION, "ISO 23500-3:2019", "L"),
        iso_2024  "limit-iso-23500-3-2024": Known<Concentration> = Term::number(&CONCENTRATION, "ISO 23500-3:2024", "L"),
        ph_eur    "limit-ph-eur-1167":    Known<Concentration> = Term::number(&CONCENTRATION, "Ph. Eur. 1167", "L"),
    }
}

output_row! {
    /// What the set limits and the report does not have.
    NotTested {
        analyte "analyte": Analyte       = report::ANALYTE,
        limit   "limit":   Concentration = Term::number(&CONCENTRATION, "Limit", "L"),
    }
}

output_row! {
    /// One result as a share of its limit, by one or two sets.
    Share {
        analyte "analyte":        Analyte                 = report::ANALYTE,
        result  "result":         Reported<Concentration> = Term::number(&CONCENTRATION, "Result", "C"),
        limit   "limit":          Known<Concentration>    = Term::number(&CONCENTRATION, "Limit", "L"),
        share   "share":          Known<Ratio>            = Term::number(&RATIO, "Result over limit", "C/L"),
        verdict "verdict":        Verdict                 = Term::other("Verdict"),
        second_limit   "second-limit":   Known<Concentration> = Term::number(&CONCENTRATION, "Second limit", "L_2"),
        second_share   "second-share":   Known<Ratio>         = Term::number(&RATIO, "Result over second limit", "C/L_2"),
        second_verdict "second-verdict": Verdict              = Term::other("Verdict by the second set"),
    }
}

/// A report as shares of its limits.
static SHARES: Figure = Figure {
    id: "shares-of-limits",
    name: "Every result against its limit",
    about: "A mark right of the line is over its limit. Each step of the scale is ten times the one before it.",
    opens_at: None,
    months: None,
    draws: Draws::Shares(Compared {
        table: "shares",
        name: "analyte",
        value: "result",
        sides: &[
            Compare {
                set: "judged-by",
                limit: "limit",
                share: "share",
                verdict: "verdict",
                untested: "not-tested",
            },
            Compare {
                set: "compared-with",
                limit: "second-limit",
                share: "second-share",
                verdict: "second-verdict",
                untested: "second-not-tested",
            },
        ],
        states: &[
            (Verdict::Over.id(), State::NotMet),
            (Verdict::NotShown.id(), State::NotKnown),
            (Verdict::Within.id(), State::Met),
            (Verdict::NoLimit.id(), State::DoesNotApply),
        ],
    }),
};

/// Stands for all of a set where nothing could be judged.
pub static CHEMICAL_LIMITS: Criterion = Criterion {
    id: "chemical-limits",
    sentence: "Every substance of the chosen set tested and within its limit",
    stage: Stage::Product,
    side: Side::Answered,
    forecast: false,
    source: &source::ISO_23500_3,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

static SETS_ARE_DATED: Caution = Caution {
    id: "limit-sets-are-dated",
    text: "Limits differ between countries and editions, and some of these are quoted or from memory. The text in force where you are, the facility's policy and the medical director come first.",
};

static LOW_CONDUCTIVITY_SHOWS_NOTHING: Caution = Caution {
    id: "low-conductivity-shows-nothing",
    text: "Low conductivity does not show that contaminants are low: fluoride, aluminium (aluminum), lead or chloramine at their limits hardly change it. Only a test of each one shows it. What was not tested is not within limits.",
};

static CHLORINE_FADES: Caution = Caution {
    id: "chlorine-fades",
    text: "Chlorine fades on the way to a laboratory. A result below the limit counts only if it was read on the spot, and says nothing about another day: the total chlorine test before every session decides.",
};

/// Every one that can be judged, of whichever set.
const CRITERIA: &[&Criterion] = &[
    &CHEMICAL_LIMITS,
    ALL[0].at_most,
    ALL[0].below,
    ALL[1].at_most,
    ALL[1].below,
    ALL[2].at_most,
    ALL[2].below,
    ALL[3].at_most,
    ALL[3].below,
];

sheet! {
    /// A laboratory's report of the product water, each result against the limit of the chosen set, with what was not tested and where another set would say otherwise.
    ChemicalLimits, "chemical-limits", "Chemical limits of dialysis water", Stage::Product,
    also: &["laboratory report", "AAMI", "aluminum", "lead", "trace metals"],
    sources: &[&source::AAMI_RD62, &source::CFR_494_40, &source::ISO_23500_3, &source::ISO_23500_3_2024, &source::PH_EUR_1167, &source::AMATO_2001],
    cautions: &[&SETS_ARE_DATED, &LOW_CONDUCTIVITY_SHOWS_NOTHING],
    criteria: CRITERIA,
    figures: &[&SHARES],
    inputs: {
        report "product-report": Known<Vec<ProductResult>> = report::PRODUCT_REPORT,
        set    "limit-set":      Option<LimitSet>           = report::LIMIT_SET,
        second "second-limit-set": Option<LimitSet>         = report::LIMIT_SET.named("Second limit set, side by side").assumed("one set only"),
    }
    outputs Outputs: {
        over       "results-over-limit": Known<f64>            = Term::number(&NUMBER, "Results over their limit", "n_over").whole(),
        not_shown  "results-not-shown":  Known<f64>            = Term::number(&NUMBER, "Inconclusive results", "n_?").whole(),
        missing    "limits-not-tested":  Known<f64>            = Term::number(&NUMBER, "Limits of the set not tested", "n_0").whole(),
        judgements "judgements":         Known<Vec<Judgement>> = Term::other("Results against limits"),
        not_tested "not-tested":         Known<Vec<NotTested>> = Term::other("Not tested"),
        judged_by  "judged-by":          LimitSet              = Term::other("Judged by"),
        compared   "compared-with":      Known<LimitSet>       = Term::other("Side by side with"),
        shares     "shares":             Known<Vec<Share>>     = Term::other("Results as a share of their limits"),
        second_not_tested "second-not-tested": Known<Vec<NotTested>> = Term::other("Not tested, second set"),
    }
}

const ONE_SET: Missing = Missing::none_exists("no second set was chosen");

impl Evaluate for ChemicalLimits {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let set = self.set.unwrap_or(LimitSet::Iso23500);
        let limits = set.limits();
        let second = self.second.filter(|second| *second != set).ok_or(ONE_SET);
        // what stops the report leaves one line, not one for each criterion of each set
        let judged = w.stage(&[&CHEMICAL_LIMITS], |w| {
            let report = self.report.as_ref().map_err(|missing| *missing)?;
            no_result_twice(report)?;
            let rows = with_total_chlorine(report, limits, w);
            let judgements: Vec<Judgement> = rows.iter().map(|row| judged(row, limits, w)).collect();
            let beside = second.map(|second| {
                let limits = second.limits();
                (limits, w.quietly(|w| with_total_chlorine(report, limits, w)))
            });
            let shares = shares(&rows, limits, beside.as_ref().ok());
            let open = beside.map(|(limits, rows)| self::not_tested(&rows, limits));
            Ok((judgements, not_tested(&rows, limits), shares, open))
        });
        let (judgements, not_tested, shares, second_not_tested) = match judged {
            Ok((judgements, not_tested, shares, open)) => (Ok(judgements), Ok(not_tested), Ok(shares), open),
            Err(missing) => (Err(missing), Err(missing), Err(missing), Err(missing)),
        };
        if let (Ok(judgements), Ok(not_tested)) = (&judgements, &not_tested) {
            let fades = [Analyte::TotalChlorine, Analyte::FreeChlorine, Analyte::Chloramines];
            if judgements.iter().any(|one| one.verdict == Verdict::Within && fades.contains(&one.analyte)) {
                w.caution(&CHLORINE_FADES);
            }
            w.judge_answer(&CHEMICAL_LIMITS, all_within(judgements, not_tested, limits));
        }
        let count = |verdict| {
            let all = judgements.as_ref().map_err(|missing| *missing)?;
            Ok(all.iter().filter(|judgement| judgement.verdict == verdict).count() as f64)
        };
        Ok(Outputs {
            over: count(Verdict::Over),
            not_shown: count(Verdict::NotShown),
            missing: not_tested.as_ref().map(|open| open.len() as f64).map_err(|missing| *missing),
            judgements,
            not_tested,
            judged_by: set,
            compared: second,
            shares,
            second_not_tested,
        })
    }
}

fn no_result_twice(report: &[ProductResult]) -> Result<(), Stop> {
    let again = |(index, row): (usize, &ProductResult)| {
        report[..index].iter().any(|other| other.analyte == row.analyte).then(|| Problem {
            field: "product-report",
            cell: Some((index, "analyte")),
            sentence: Sentence::plain(
                "{analyte} is on the report twice: keep the result that counts; if both count, the worse one",
            )
            .with("analyte", Slot::Word(row.analyte.name())),
        })
    };
    let problems: Vec<Problem> = report.iter().enumerate().filter_map(again).collect();
    if problems.is_empty() { Ok(()) } else { Err(Stop::Problems(problems)) }
}

/// Whether the whole set is kept. One result over its limit decides it, whatever else is not known.
fn all_within(judgements: &[Judgement], not_tested: &[NotTested], limits: &Limits) -> Known<bool> {
    const NO_SET: Missing = Missing::none_exists("this set has no chemical limits here: choose another one");
    const INCONCLUSIVE: Missing = Missing::not_known(
        "product-report",
        "a reporting limit is above its limit, or a result is 0 without one: ask for a method that can detect the limit",
    );
    const OPEN: Missing =
        Missing::not_known("product-report", "not every substance of the set was tested; see “Not tested”");
    let any = |verdict| judgements.iter().any(|judgement| judgement.verdict == verdict);
    if limits.chemical.is_empty() {
        Err(NO_SET)
    } else if any(Verdict::Over) {
        Ok(false)
    } else if any(Verdict::NotShown) {
        Err(INCONCLUSIVE)
    } else if !not_tested.is_empty() {
        Err(OPEN)
    } else if !limits.beyond.is_empty() {
        Err(Missing::not_known("product-report", limits.beyond))
    } else {
        Ok(true)
    }
}

/// The report, with total chlorine as its parts show it. The parts are never less than what they add up to: that counts
/// where the report has no total, or a lower one. A part that was not tested leaves the total open, unless the other one
/// alone is already too much.
fn with_total_chlorine(report: &[ProductResult], limits: &Limits, w: &mut Working) -> Vec<ProductResult> {
    let mut rows = report.to_vec();
    let of = |analyte| report.iter().find(|row| row.analyte == analyte).map(|row| row.result);
    let (free, combined) = (of(Analyte::FreeChlorine), of(Analyte::Chloramines));
    let Some(limit) = limits.of(Analyte::TotalChlorine) else { return rows };
    let read = |part: Option<Reported<Concentration>>| match part {
        Some(Reported::Is(value)) => value,
        Some(Reported::Below(_)) | None => Concentration::of(0.0),
    };
    let least = read(free) + read(combined);
    if let Some(row) = rows.iter_mut().find(|row| row.analyte == Analyte::TotalChlorine) {
        if onto(least, row.result.at_most()) > row.result.at_most() {
            w.warn(
                "product-report",
                "parts-above-total",
                Sentence::plain("free and combined chlorine add up to {parts}, and total chlorine is {total}: one of the results is wrong. The higher one counts")
                    .quantity("parts", least)
                    .quantity("total", row.result.at_most()),
            );
            row.result = Reported::Is(least);
        }
        return rows;
    }
    // the two limits of the parts stand in place of that of the total
    if limits.of(Analyte::Chloramines).is_some() {
        return rows;
    }
    let total = match (free, combined) {
        _ if verdict(Reported::Is(least), Some(limit)) == Verdict::Over => Reported::Is(least),
        (Some(Reported::Is(_)), Some(Reported::Is(_))) => Reported::Is(least),
        (Some(free), Some(combined)) => Reported::Below(free.at_most() + combined.at_most()),
        _ => return rows,
    };
    rows.push(ProductResult { analyte: Analyte::TotalChlorine, result: total });
    rows
}

/// Limits without a result. Total chlorine stands for its two parts, and both of them for the total where both are limited.
fn not_tested(report: &[ProductResult], limits: &Limits) -> Vec<NotTested> {
    let has = |analyte: Analyte| report.iter().any(|row| row.analyte.plain() == analyte.plain());
    let covered = |analyte: Analyte| match analyte {
        Analyte::FreeChlorine | Analyte::Chloramines => has(Analyte::TotalChlorine),
        Analyte::TotalChlorine => {
            limits.of(Analyte::Chloramines).is_some()
                && has(Analyte::FreeChlorine)
                && has(Analyte::Chloramines)
        }
        _ => false,
    };
    let open = limits.chemical.iter().filter(|row| !has(row.analyte) && !covered(row.analyte));
    open.map(|row| NotTested { analyte: row.analyte, limit: row.limit }).collect()
}

/// No method shows that there is nothing at all.
const NOTHING_FOUND: Missing = Missing::not_known(
    "product-report",
    "a result of 0 does not show what the method can detect: enter “<” and its reporting limit",
);

/// One result, by the chosen set and beside it by the others.
fn judged(row: &ProductResult, limits: &'static Limits, w: &mut Working) -> Judgement {
    let &ProductResult { analyte, result } = row;
    let by = |limits: &Limits| limits.of(analyte);
    let chosen = by(limits);
    let onto_limit = |limit: ChemicalLimit| result.map(|value| onto(value, limit.limit));
    if let Some(limit) = chosen {
        let criterion = if limit.strict { limits.below } else { limits.at_most };
        w.in_case(analyte.named(), |w| match result {
            Reported::Is(value) if value.si() == 0.0 => {
                w.judge_known(criterion, Err(NOTHING_FOUND), Ok(limit.limit));
            }
            _ => w.judge_reported(criterion, onto_limit(limit), limit.limit, "product-report"),
        });
    }
    if result == Reported::Is(Concentration::of(0.0)) {
        w.warn(
            "product-report", "zero-result",
            Sentence::plain("{analyte}: a result of 0 does not show what the method can detect, so it is inconclusive. Where the laboratory found nothing, enter “<” and its reporting limit")
                .with("analyte", Slot::Word(analyte.name())),
        );
    }
    let verdict = verdict(result, chosen);
    let others = ALL.iter().filter_map(|limits| by(limits));
    let is_same = others
        .map(|limit| self::verdict(result, Some(limit)))
        .all(|other| chosen.is_none() || other == verdict);
    const NO_LIMIT: Missing = Missing::none_exists("this set has no limit for it");
    let limit_of = |set: LimitSet| by(set.limits()).map(|limit| limit.limit).ok_or(NO_LIMIT);
    Judgement {
        analyte,
        result,
        charges: milliequivalents(analyte, result),
        limit: chosen.map(|limit| limit.limit).ok_or(NO_LIMIT),
        verdict,
        elsewhere: if is_same { Elsewhere::Same } else { Elsewhere::Otherwise },
        us: limit_of(LimitSet::AamiRd52),
        iso_2019: limit_of(LimitSet::Iso23500),
        iso_2024: limit_of(LimitSet::Iso2024),
        ph_eur: limit_of(LimitSet::PhEur1167),
    }
}

/// A result by a set: the limit, the result over it (of a "less than", at most), and what that says.
fn side(row: Option<&ProductResult>, limits: &Limits) -> (Known<Concentration>, Known<Ratio>, Verdict) {
    const NO_LIMIT: Missing = Missing::none_exists("this set has no limit for it");
    const BY_PARTS: Missing = Missing::none_exists("this set judges it by its parts");
    let Some(row) = row else { return (Err(BY_PARTS), Err(BY_PARTS), Verdict::NoLimit) };
    let Some(limit) = limits.of(row.analyte) else { return (Err(NO_LIMIT), Err(NO_LIMIT), Verdict::NoLimit) };
    let share = match row.result {
        Reported::Is(value) if value.si() == 0.0 => Err(NOTHING_FOUND),
        result => Ok(Ratio::of(onto(result.at_most(), limit.limit) / limit.limit)),
    };
    (Ok(limit.limit), share, verdict(row.result, Some(limit)))
}

/// Every result by the chosen set and by the one beside it; total chlorine stands there where either set judges it.
fn shares(
    rows: &[ProductResult],
    limits: &Limits,
    beside: Option<&(&'static Limits, Vec<ProductResult>)>,
) -> Vec<Share> {
    let of = |rows: &'_ [ProductResult], analyte| rows.iter().find(|row| row.analyte == analyte).cloned();
    let only_beside = beside.iter().flat_map(|(_, second)| second.iter());
    let only_beside = only_beside.filter(|row| of(rows, row.analyte).is_none());
    let all = rows.iter().chain(only_beside);
    let share = |row: &ProductResult| {
        let (limit, share, verdict) = side(of(rows, row.analyte).as_ref(), limits);
        let (second_limit, second_share, second_verdict) = match beside {
            Some((limits, second)) => side(of(second, row.analyte).as_ref(), limits),
            None => (Err(ONE_SET), Err(ONE_SET), Verdict::NoLimit),
        };
        let &ProductResult { analyte, result } = row;
        Share { analyte, result, limit, share, verdict, second_limit, second_share, second_verdict }
    };
    all.map(share).collect()
}

/// The same result as charges, as some laboratories and editions print it beside calcium, magnesium, potassium and sodium.
fn milliequivalents(analyte: Analyte, result: Reported<Concentration>) -> Known<f64> {
    let charge = analyte.substance().charge.abs();
    match result {
        _ if charge == 0.0 => Err(Missing::none_exists("not counted as an ion")),
        Reported::Is(value) => Ok(1000.0 * charge * analyte.moles(value)),
        Reported::Below(_) => Err(Missing::none_exists("less than its reporting limit")),
    }
}

fn verdict(result: Reported<Concentration>, limit: Option<ChemicalLimit>) -> Verdict {
    let Some(ChemicalLimit { limit, strict, .. }) = limit else { return Verdict::NoLimit };
    match result.map(|value| onto(value, limit)) {
        Reported::Is(value) if value.si() == 0.0 => Verdict::NotShown,
        Reported::Is(value) if value > limit || (strict && value >= limit) => Verdict::Over,
        Reported::Below(bound) if bound > limit => Verdict::NotShown,
        Reported::Is(_) | Reported::Below(_) => Verdict::Within,
    }
}
