//! What a number is judged against, and the judgement.

use super::missing::Missing;
use super::shape::{Field, Named, Stage};
use super::source::Source;
use crate::engine::quantity::{Kind, kinds::NUMBER};
use std::cmp::Ordering;

/// A limit's meaning: its side, its source, and what a technician can change to fix it.
#[derive(Debug)]
pub struct Criterion {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// What is asked, in words.
    pub sentence: &'static str,
    /// Where it is judged.
    pub stage: Stage,
    /// Which side is the right one.
    pub side: Side,
    /// Whether the number is foretold (then it can be `marginal`) or read.
    pub forecast: bool,
    /// Who asks it.
    pub source: &'static Source,
    /// The ids of inputs that a technician can really change to fix it.
    pub levers: &'static [&'static str],
    /// The cases in which its sheet always judges it, each a check of its own; empty where there is one check.
    pub cases: &'static [Named],
    /// Which output holds the number that is judged.
    pub judges: Judges,
}

/// Which outputs of a sheet hold the number that a criterion judges, so that a chart of one finds its limit.
#[derive(Debug, Clone, Copy)]
pub enum Judges {
    /// None: the number stands in a table or among the inputs, or the answer is yes or no.
    NoOutput,
    /// The output of that id.
    Output(&'static str),
    /// Several, each with the case in which it is judged; empty where there is one case. A sheet has those that it declares.
    Each(&'static [(&'static str, &'static str)]),
}

impl Judges {
    /// Each output with its case.
    pub fn outputs(&self) -> impl Iterator<Item = (&'static str, &'static str)> + '_ {
        let (one, several) = match *self {
            Judges::NoOutput => (None, [].as_slice()),
            Judges::Output(id) => (Some(("", id)), [].as_slice()),
            Judges::Each(several) => (None, several),
        };
        one.into_iter().chain(several.iter().copied())
    }
}

/// The right side of a limit. An action level is passed strictly.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The limit itself is right.
    AtLeast,
    /// The limit itself is right.
    AtMost,
    /// The limit itself is wrong.
    Above,
    /// The limit itself is wrong.
    Below,
    /// Answered by yes or no: there is no number and no limit.
    Answered,
}

impl Side {
    fn holds(self, value: f64, limit: f64) -> bool {
        match self {
            Side::AtLeast => value >= limit,
            Side::AtMost => value <= limit,
            Side::Above => value > limit,
            Side::Below => value < limit,
            Side::Answered => false,
        }
    }

    /// How far on the right side the value is; negative on the wrong one.
    fn distance(self, value: f64, limit: f64) -> f64 {
        match self {
            Side::AtLeast | Side::Above => value - limit,
            Side::AtMost | Side::Below => limit - value,
            Side::Answered => f64::NAN,
        }
    }

    /// As it is read behind "needs".
    pub const fn needs(self) -> &'static str {
        match self {
            Side::AtLeast => "at least",
            Side::AtMost => "at most",
            Side::Above => "more than",
            Side::Below => "less than",
            Side::Answered => "",
        }
    }

    /// Whether the limit is the least that will do.
    pub const fn is_least(self) -> bool {
        matches!(self, Side::AtLeast | Side::Above)
    }

    /// As it is read before the limit.
    pub const fn words(self) -> &'static str {
        match self {
            Side::AtLeast => "at least",
            Side::AtMost => "at most",
            Side::Above => "above",
            Side::Below => "below",
            Side::Answered => "",
        }
    }
}

/// The judgement. There is no "safe".
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// The number itself is on the wrong side.
    NotMet,
    /// There is no number, or the reading cannot tell.
    NotKnown,
    /// A forecast on the right side whose limit lies inside its 95 % interval.
    Marginal,
    /// On the right side.
    Met,
    /// Something else is relied on.
    DoesNotApply,
}

impl State {
    /// Permanent, kebab-case.
    pub const fn id(self) -> &'static str {
        match self {
            State::NotMet => "not-met",
            State::NotKnown => "not-known",
            State::Marginal => "marginal",
            State::Met => "met",
            State::DoesNotApply => "does-not-apply",
        }
    }

    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            State::NotMet => "not met",
            State::NotKnown => "not known",
            State::Marginal => "marginal",
            State::Met => "met",
            State::DoesNotApply => "does not apply",
        }
    }

    /// Whether a check in this state comes before one in the other when they stand worst first.
    pub fn is_worse_than(self, other: State) -> bool {
        self.rank() < other.rank()
    }

    fn rank(self) -> u8 {
        match self {
            State::NotMet => 0,
            State::NotKnown => 1,
            State::Marginal => 2,
            State::Met => 3,
            State::DoesNotApply => 4,
        }
    }
}

/// One criterion judged on one number.
#[derive(Debug, Clone)]
pub struct Check {
    /// What was asked.
    pub criterion: &'static Criterion,
    /// Of several judgements of one criterion, which: `running`, `flush`. None where there is one.
    pub case: Named,
    /// When in the year it is worst: `coldest`, `warmest`, `today`. None where it was judged once.
    pub season: Named,
    /// The judgement.
    pub state: State,
    /// In SI; not a number where it is missing.
    pub value: f64,
    /// Whether it is only known to be less than that.
    pub below: bool,
    /// In SI; not a number where it is missing.
    pub limit: f64,
    /// Of value and limit.
    pub kind: &'static Kind,
    /// Why it is not known; of what is not met, why the number that is judged does not exist.
    pub missing: Option<Missing>,
    /// The empty field for which every value gives this state.
    pub decided: Option<&'static Field>,
    /// What is relied on instead, where it does not apply.
    pub instead: Option<&'static Criterion>,
    /// The standard uncertainty of the distance to the limit, where it was asked for.
    pub uncertainty: Option<f64>,
}

impl Check {
    pub(super) fn judged(
        criterion: &'static Criterion,
        case: Named,
        value: f64,
        limit: f64,
        kind: &'static Kind,
    ) -> Self {
        // what a difference of two equal numbers leaves is nothing
        let limit = if limit.abs() <= ROUNDING * value.abs() { 0.0 } else { limit };
        // the last bit of a conversion is no reason to be on one side or the other
        let compared = if is_equal(value, limit) { limit } else { value };
        let state = if !value.is_finite() || !limit.is_finite() {
            State::NotKnown
        } else if criterion.side.holds(compared, limit) {
            State::Met
        } else {
            State::NotMet
        };
        Self {
            criterion,
            case,
            season: Named::NONE,
            state,
            value,
            below: false,
            limit,
            kind,
            missing: None,
            decided: None,
            instead: None,
            uncertainty: None,
        }
    }

    /// One for each case in which the criterion is judged, since nothing was computed; the ids are those of what is judged.
    pub(super) fn not_judged(
        criterion: &'static Criterion,
        case: Named,
        missing: Missing,
    ) -> impl Iterator<Item = Self> {
        let alone = if criterion.cases.is_empty() { Some(case) } else { None };
        criterion.cases.iter().copied().chain(alone).map(move |case| Self {
            missing: Some(missing),
            ..Self::judged(criterion, case, f64::NAN, f64::NAN, &NUMBER)
        })
    }

    /// The same for a value of which only a bound is known: it is less than that.
    pub(super) fn judged_below(mut self, too_coarse: Missing) -> Self {
        self.below = true;
        let shown = self.value <= self.limit;
        self.state = match (self.criterion.side, shown) {
            (Side::Below | Side::AtMost, true) => State::Met,
            (Side::Above | Side::AtLeast, true) => State::NotMet,
            (Side::Answered, _) | (_, false) => State::NotKnown,
        };
        if self.state == State::NotKnown {
            self.missing = Some(too_coarse);
        }
        self
    }

    /// The id in answers: the criterion's, with the case where there are several.
    pub fn id(&self) -> String {
        if self.case.is_none() {
            self.criterion.id.to_owned()
        } else {
            format!("{}-{}", self.criterion.id, self.case.id)
        }
    }

    /// Whether it is the same judgement, perhaps of other numbers.
    pub fn is_same(&self, other: &Check) -> bool {
        let is_one = std::ptr::eq(self.criterion, other.criterion);
        (is_one || self.criterion.id == other.criterion.id) && self.case == other.case
    }

    /// The distance to the limit, positive on the right side; in SI.
    pub fn distance(&self) -> f64 {
        self.criterion.side.distance(self.value, self.limit)
    }

    /// Whether the number is the limit itself, up to rounding.
    pub fn is_at_limit(&self) -> bool {
        is_equal(self.value, self.limit)
    }

    /// The distance over the limit, where it is judged and the scale has a true zero; none where the limit is nothing.
    pub fn margin(&self) -> Option<f64> {
        let share = self.distance() / self.limit.abs();
        let is_judged = self.state != State::DoesNotApply;
        (is_judged && self.kind.true_zero && share.is_finite()).then_some(share)
    }

    /// Takes the standard uncertainty of the distance: what is met and within twice of it is marginal.
    pub fn settle(&mut self, uncertainty: f64) {
        // what rounding leaves of a distance on which no uncertain input bears
        if uncertainty <= ROUNDING * self.value.abs().max(self.limit.abs()) {
            return;
        }
        self.uncertainty = Some(uncertainty);
        if self.state == State::Met && self.criterion.forecast && self.distance() < COVERAGE * uncertainty {
            self.state = State::Marginal;
        }
    }

    /// Worst first: by state, then by margin; those with a distance only come after the others of their state.
    pub fn worse(&self, other: &Check) -> Ordering {
        let ranks = self.state.rank().cmp(&other.state.rank());
        ranks
            .then_with(|| {
                let by = |check: &Check| {
                    let margin = check.margin();
                    (margin.is_none(), margin.unwrap_or_else(|| check.distance()))
                };
                let ((none, ours), (none_other, theirs)) = (by(self), by(other));
                none.cmp(&none_other).then_with(|| ours.total_cmp(&theirs))
            })
            .then_with(|| self.criterion.stage.cmp(&other.criterion.stage))
    }
}

/// The share of a number below which a difference is what the last bits of a computation leave.
pub(crate) const ROUNDING: f64 = 1e-12;

fn is_equal(value: f64, limit: f64) -> bool {
    (value - limit).abs() <= ROUNDING * value.abs().max(limit.abs())
}

/// How many standard uncertainties make a 95 % interval (JCGM 100, 6.3.3).
pub const COVERAGE: f64 = 2.0;
