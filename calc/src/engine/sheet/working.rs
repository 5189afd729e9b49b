//! The working of a calculation, recorded by the evaluation itself: steps, checks, warnings, cautions.
//!
//! With recording off the same code runs and no step allocates.

use super::criterion::{Check, Criterion, State};
use super::missing::{Known, Missing, Problem, Stop};
use super::reported::Reported;
use super::sentence::Sentence;
use super::shape::{Caution, Named};
use crate::engine::quantity::{Kind, Quantity, UnitSet, kinds::NUMBER};
use std::collections::HashSet;
use std::rc::Rc;

/// What an evaluation tells beside its outputs.
#[derive(Debug, Default)]
pub struct Working {
    recording: bool,
    only_judging: bool,
    /// The ids of the criteria that a search asks about; none where all are asked.
    asked: Option<Rc<[&'static str]>>,
    scope: Vec<Bound>,
    /// Where the scope of the present sheet begins.
    floor: usize,
    sheet: &'static str,
    case: Named,
    season: Named,
    steps: Vec<Step>,
    checks: Vec<Check>,
    warnings: Vec<Warning>,
    cautions: Vec<&'static Caution>,
    problems: Vec<Problem>,
    told_warnings: HashSet<String>,
    told_problems: HashSet<String>,
}

/// What a person is told, as one text.
trait Told {
    fn told(&self) -> String;
}

impl Told for Warning {
    fn told(&self) -> String {
        format!("{} {} {}", self.field, self.id, self.sentence.show(UnitSet::Metric))
    }
}

impl Told for Problem {
    fn told(&self) -> String {
        format!("{} {:?} {}", self.field, self.cell, self.sentence.show(UnitSet::Metric))
    }
}

/// From so many on, what was told is looked up instead of compared: a report may have a fault in each of its rows.
const MANY: usize = 32;

/// Adds what was not told before.
fn push_new<T: PartialEq + Told>(
    all: &mut Vec<T>,
    told: &mut HashSet<String>,
    new: impl IntoIterator<Item = T>,
) {
    for one in new {
        if all.len() < MANY {
            if !all.contains(&one) {
                all.push(one);
            }
            continue;
        }
        if told.is_empty() {
            told.extend(all.iter().map(|one| one.told()));
        }
        if told.insert(one.told()) {
            all.push(one);
        }
    }
}

/// A name with its symbol and value, as a formula may use it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound {
    /// Its name in the code.
    pub name: &'static str,
    /// As it is shown.
    pub symbol: &'static str,
    /// In SI.
    pub value: f64,
    /// Of the value.
    pub kind: &'static Kind,
}

/// One step of the arithmetic.
#[derive(Debug, Clone)]
pub struct Step {
    /// The sheet whose step it is.
    pub sheet: &'static str,
    /// Of several runs of one sheet, which.
    pub case: Named,
    /// When in the year: `coldest`, `warmest`, `today`. None where there is one time only.
    pub season: Named,
    /// The result.
    pub result: Bound,
    /// How it came about.
    pub how: How,
}

/// How a step came about.
#[derive(Debug, Clone)]
pub enum How {
    /// A closed formula: the very text that was compiled, and the values of the names in it.
    Formula {
        /// As it stands in the code.
        text: &'static str,
        /// Every name that it uses.
        bound: Vec<Bound>,
    },
    /// The same value under another scale or unit.
    Conversion {
        /// What was converted.
        from: Bound,
    },
    /// No closed formula: an iteration, a sum over a log, a look-up.
    Procedure {
        /// What was done, over how many rows or rounds.
        what: Sentence,
    },
}

/// Something that is not wrong but must be known.
#[derive(Debug, Clone, PartialEq)]
pub struct Warning {
    /// The id of the field.
    pub field: &'static str,
    /// Permanent, kebab-case: what it says, whatever its words. `unusual` and `assumed` are those of every sheet.
    pub id: &'static str,
    /// What to know.
    pub sentence: Sentence,
    /// Whether it tells of a value that was taken since the field is empty.
    pub assumed: bool,
}

impl Working {
    /// One that records nothing but checks and warnings.
    pub fn silent() -> Self {
        Self::default()
    }

    /// One that keeps the judgements alone: for the many evaluations of a search, whose warnings nobody reads.
    pub fn judging() -> Self {
        Self { only_judging: true, ..Self::default() }
    }

    /// The same for a search that looks at a single number: of the other criteria than those that have to do with it, and of
    /// the tables, a sheet may leave out what is dear.
    pub(crate) fn asking(asked: Option<Rc<[&'static str]>>) -> Self {
        Self { asked, ..Self::judging() }
    }

    /// Whether anybody asks for the judgements of one of these criteria, or for the tables beside them.
    pub fn asks_for(&self, criteria: &[&'static Criterion]) -> bool {
        self.asked.as_ref().is_none_or(|asked| criteria.iter().any(|one| asked.contains(&one.id)))
    }

    /// One that records every step.
    pub fn recording() -> Self {
        Self { recording: true, ..Self::default() }
    }

    /// Whether steps are recorded.
    pub fn is_recording(&self) -> bool {
        self.recording
    }

    /// The recorded steps.
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// The judgements so far.
    pub fn checks(&self) -> &[Check] {
        &self.checks
    }

    /// The judgements so far, to be settled.
    pub fn checks_mut(&mut self) -> &mut [Check] {
        &mut self.checks
    }

    /// What must be known.
    pub fn warnings(&self) -> &[Warning] {
        &self.warnings
    }

    /// The cautions that these inputs raised.
    pub fn cautions(&self) -> &[&'static Caution] {
        &self.cautions
    }

    /// What was refused in single stages while the others went on.
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }

    /// Forgets everything, and keeps the room for the next evaluation.
    pub fn clear(&mut self) {
        self.scope.clear();
        self.floor = 0;
        self.steps.clear();
        self.checks.clear();
        self.warnings.clear();
        self.cautions.clear();
        self.problems.clear();
        self.told_warnings.clear();
        self.told_problems.clear();
    }

    /// Runs one sheet in a scope of its own, so that its names do not leak into another's formulas.
    pub fn within<T>(&mut self, sheet: &'static str, run: impl FnOnce(&mut Self) -> T) -> T {
        let (floor, outer) = (self.floor, self.sheet);
        self.floor = self.scope.len();
        self.sheet = sheet;
        let result = run(self);
        self.scope.truncate(self.floor);
        self.floor = floor;
        self.sheet = outer;
        result
    }

    /// Names the case (`running`, `flush`) of everything judged and recorded inside.
    pub fn in_case<T>(&mut self, case: Named, run: impl FnOnce(&mut Self) -> T) -> T {
        let outer = std::mem::replace(&mut self.case, case);
        let result = run(self);
        self.case = outer;
        result
    }

    /// Names the time of the year of everything judged and recorded inside.
    pub fn in_season<T>(&mut self, season: Named, run: impl FnOnce(&mut Self) -> T) -> T {
        let outer = std::mem::replace(&mut self.season, season);
        let result = run(self);
        self.season = outer;
        result
    }

    /// Of the same judgement at several times of the year, keeps the worst: each is judged in its own worst month.
    pub fn worst_season<T>(&mut self, run: impl FnOnce(&mut Self) -> T) -> T {
        let before = self.checks.len();
        let result = run(self);
        let mut kept = before;
        for index in before..self.checks.len() {
            let earlier = (before..kept).find(|&earlier| self.checks[earlier].is_same(&self.checks[index]));
            match earlier {
                Some(earlier) if self.checks[index].worse(&self.checks[earlier]).is_lt() => {
                    self.checks.swap(earlier, index);
                }
                Some(_) => {}
                None => {
                    self.checks.swap(kept, index);
                    kept += 1;
                }
            }
        }
        self.checks.truncate(kept);
        result
    }

    /// Of what is judged inside, keeps the judgements of one criterion: where a sheet judges several, and only one of them is
    /// asked of these inputs.
    pub fn only_of<T>(&mut self, criterion: &'static Criterion, run: impl FnOnce(&mut Self) -> T) -> T {
        let before = self.checks.len();
        let result = run(self);
        let mut place = 0;
        self.checks.retain(|check| {
            place += 1;
            place <= before || check.criterion.id == criterion.id
        });
        result
    }

    /// Runs without recording: for the rows of a table of which only a few are worth showing.
    pub fn quietly<T>(&mut self, run: impl FnOnce(&mut Self) -> T) -> T {
        let outer = std::mem::replace(&mut self.recording, false);
        let result = run(self);
        self.recording = outer;
        result
    }

    /// One stage of a plan: what stops it is kept, its criteria are not known, and the next stage goes on. What the stage
    /// had judged before it was stopped is withdrawn: it was judged with an entry that cannot be so.
    pub fn stage<T>(
        &mut self,
        criteria: &[&'static Criterion],
        run: impl FnOnce(&mut Self) -> Result<T, Stop>,
    ) -> Known<T> {
        let before = self.checks.len();
        let known = self.attempt(run);
        if let Err(missing) = &known {
            for criterion in criteria {
                for check in Check::not_judged(criterion, self.case, *missing) {
                    let withdrawn =
                        (before..self.checks.len()).find(|&earlier| self.checks[earlier].is_same(&check));
                    if let Some(earlier) = withdrawn {
                        self.checks.remove(earlier);
                    }
                    self.push_check(check);
                }
            }
        }
        known
    }

    fn attempt<T>(&mut self, run: impl FnOnce(&mut Self) -> Result<T, Stop>) -> Known<T> {
        run(self).map_err(|stop| match stop {
            Stop::Missing(missing) => missing,
            Stop::Problems(problems) => {
                let field = problems.first().map_or("", |problem| problem.field);
                if !self.only_judging {
                    push_new(&mut self.problems, &mut self.told_problems, problems);
                }
                Missing::not_known(field, "what was entered cannot be so")
            }
        })
    }

    /// Makes a value known to the formulas that follow.
    pub fn bind<Q: Quantity>(&mut self, name: &'static str, symbol: &'static str, value: Q) {
        self.bind_si(name, symbol, value.si(), Q::KIND);
    }

    /// Makes a value known to the formulas that follow.
    pub fn bind_si(&mut self, name: &'static str, symbol: &'static str, value: f64, kind: &'static Kind) {
        if self.recording {
            self.scope.push(Bound { name, symbol, value, kind });
        }
    }

    /// Records a closed formula; called by `step!`.
    pub fn formula<Q: Quantity>(
        &mut self,
        name: &'static str,
        symbol: &'static str,
        text: &'static str,
        value: Q,
    ) {
        if self.recording {
            self.record_formula(Bound { name, symbol, value: value.si(), kind: Q::KIND }, text);
        }
    }

    fn record_formula(&mut self, result: Bound, text: &'static str) {
        let bound = super::formula::names(text).into_iter().filter_map(|name| self.look_up(name)).collect();
        self.record(result, How::Formula { text, bound });
    }

    /// Records the change to another scale.
    pub fn conversion<A: Quantity, B: Quantity>(
        &mut self,
        (name, symbol): (&'static str, &'static str),
        from: &'static str,
        given: A,
        value: B,
    ) {
        if self.recording {
            let from = self.look_up(from).unwrap_or(Bound {
                name: from,
                symbol: from,
                value: given.si(),
                kind: A::KIND,
            });
            self.record(Bound { name, symbol, value: value.si(), kind: B::KIND }, How::Conversion { from });
        }
    }

    /// Records what is no closed formula; the sentence is built only when somebody reads it.
    pub fn procedure<Q: Quantity>(
        &mut self,
        (name, symbol): (&'static str, &'static str),
        value: Q,
        what: impl FnOnce() -> Sentence,
    ) {
        if self.recording {
            let result = Bound { name, symbol, value: value.si(), kind: Q::KIND };
            self.record(result, How::Procedure { what: what() });
        }
    }

    fn record(&mut self, result: Bound, how: How) {
        self.scope.push(result);
        self.steps.push(Step { sheet: self.sheet, case: self.case, season: self.season, result, how });
    }

    fn look_up(&self, name: &str) -> Option<Bound> {
        self.scope[self.floor..].iter().rev().find(|bound| bound.name == name).copied()
    }

    /// Judges a number.
    pub fn judge<Q: Quantity>(&mut self, criterion: &'static Criterion, value: Q, limit: Q) {
        self.push_check(Check::judged(criterion, self.case, value.si(), limit.si(), Q::KIND));
    }

    /// Judges a number that may be missing, or whose limit may be.
    pub fn judge_known<Q: Quantity>(
        &mut self,
        criterion: &'static Criterion,
        value: Known<Q>,
        limit: Known<Q>,
    ) {
        let si = |known: &Known<Q>| known.map_or(f64::NAN, Quantity::si);
        let mut check = Check::judged(criterion, self.case, si(&value), si(&limit), Q::KIND);
        check.missing = value.err().or(limit.err());
        self.push_check(check);
    }

    /// Judges a number that may be missing because it does not exist: what is never reached is not reached within any
    /// limit. Without a limit nothing is judged.
    pub fn judge_or_never<Q: Quantity>(
        &mut self,
        criterion: &'static Criterion,
        value: Known<Q>,
        limit: Known<Q>,
    ) {
        let before = self.checks.len();
        self.judge_known(criterion, value, limit);
        let is_never = value.is_err_and(|missing| missing.is_none()) && limit.is_ok();
        if let Some(check) = self.checks.get_mut(before).filter(|_| is_never) {
            check.state = State::NotMet;
        }
    }

    /// Judges what is answered by yes or no: there is no number and no limit.
    pub fn judge_answer(&mut self, criterion: &'static Criterion, is_met: Known<bool>) {
        let mut check = Check::judged(criterion, self.case, f64::NAN, f64::NAN, &NUMBER);
        match is_met {
            Ok(is_met) => check.state = if is_met { State::Met } else { State::NotMet },
            Err(missing) => check.missing = Some(missing),
        }
        self.push_check(check);
    }

    /// Judges what may only be known to be less than a number. A bound on the wrong side of the limit shows nothing.
    pub fn judge_reported<Q: Quantity>(
        &mut self,
        criterion: &'static Criterion,
        value: Reported<Q>,
        limit: Q,
        field: &'static str,
    ) {
        let check = Check::judged(criterion, self.case, value.at_most().si(), limit.si(), Q::KIND);
        self.push_check(match value {
            Reported::Is(_) => check,
            Reported::Below(_) => check.judged_below(Missing::not_known(
                field,
                "the result is “less than” a reporting limit that lies above this limit: it is inconclusive; ask for a method that can detect the limit",
            )),
        });
    }

    /// Says that a criterion is not judged here, and what is relied on instead. Number and limit, where there are
    /// any, are told all the same.
    pub fn does_not_apply<Q: Quantity>(
        &mut self,
        criterion: &'static Criterion,
        instead: &'static Criterion,
        numbers: Option<(Q, Q)>,
    ) {
        let (value, limit) = numbers.map_or((f64::NAN, f64::NAN), |(value, limit)| (value.si(), limit.si()));
        let mut check = Check::judged(criterion, self.case, value, limit, Q::KIND);
        check.state = State::DoesNotApply;
        check.instead = Some(instead);
        self.push_check(check);
    }

    fn push_check(&mut self, mut check: Check) {
        check.season = self.season;
        self.checks.push(check);
    }

    /// Something of a field that is not wrong but must be known; the id names what is said.
    pub fn warn(&mut self, field: &'static str, id: &'static str, sentence: impl Into<Sentence>) {
        self.push_warning(field, id, sentence, false);
    }

    /// A value that was taken since the field is empty.
    pub fn assume(&mut self, field: &'static str, sentence: impl Into<Sentence>) {
        self.push_warning(field, "assumed", sentence, true);
    }

    fn push_warning(
        &mut self,
        field: &'static str,
        id: &'static str,
        sentence: impl Into<Sentence>,
        assumed: bool,
    ) {
        if self.only_judging {
            return;
        }
        let warning = Warning { field, id, sentence: sentence.into(), assumed };
        push_new(&mut self.warnings, &mut self.told_warnings, [warning]);
    }

    /// A hazard that these inputs raise.
    pub fn caution(&mut self, caution: &'static Caution) {
        if !self.only_judging && !self.cautions.contains(&caution) {
            self.cautions.push(caution);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::sheet::Slot;

    #[test]
    fn nothing_is_told_twice_however_much_is_told() {
        let mut w = Working::silent();
        for round in 0..2 * MANY as i64 {
            for count in [round, 0, round] {
                w.warn("report", "row", Sentence::plain("row {row}").with("row", Slot::Count(count)));
            }
        }
        assert_eq!(w.warnings().len(), 2 * MANY);
    }
}
