//! What a sheet declares: terms, fields and their shapes.

use super::{criterion::Criterion, figure::Figure, source::Source};
use crate::engine::quantity::{Kind, Unit, unit::same};

/// What a field holds.
#[derive(Debug, Clone, Copy)]
pub enum Shape {
    /// A quantity.
    Number(&'static Kind),
    /// One of some named values.
    Choice(&'static [Named]),
    /// A calendar date.
    Date,
    /// A date and a time with the offset from UTC.
    Moment,
    /// A name that a person gives; nothing is computed from it.
    Text,
    /// Rows of typed columns.
    Table(&'static [Field]),
}

/// One value of a choice, or one of the cases and times of the year in which a sheet judges.
#[derive(Debug, Clone, Copy)]
pub struct Named {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// In words.
    pub name: &'static str,
}

impl PartialEq for Named {
    /// By the id: a name is only for whoever reads it.
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for Named {}

impl Default for Named {
    fn default() -> Self {
        Self::NONE
    }
}

impl Named {
    /// Where there is only one case, or one time of the year.
    pub const NONE: Named = Named { id: "", name: "" };

    /// Whether there is only one.
    pub fn is_none(&self) -> bool {
        self.id.is_empty()
    }

    /// The name, and where another word for it stands in brackets the ways in which people write it: with either word
    /// alone, or with the two of them the other way round.
    ///
    /// ```
    /// use calc::engine::sheet::Named;
    /// let named = Named { id: "aluminium", name: "Aluminium (aluminum), as Al" };
    /// assert_eq!(
    ///     named.spellings(),
    ///     ["Aluminium (aluminum), as Al", "Aluminium, as Al", "aluminum, as Al", "aluminum (Aluminium), as Al"]
    /// );
    /// ```
    pub fn spellings(&self) -> Vec<String> {
        let mut all = vec![self.name.to_owned()];
        if let Some((first, rest)) = self.name.split_once(" (")
            && let Some((second, after)) = rest.split_once(')')
        {
            let ways = [first.to_owned(), second.to_owned(), format!("{second} ({first})")];
            all.extend(ways.map(|way| way + after));
        }
        all
    }
}

/// The usual tolerance of an instrument: the half-width of a rectangular distribution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Tolerance {
    /// Nothing is known of it, or the value is no reading.
    None,
    /// The same over the whole scale, in SI.
    Absolute(f64),
    /// A share of the reading.
    Relative(f64),
}

/// What a field means, wherever it is asked: declared once, shared by the sheets that use it.
#[derive(Debug, Clone, Copy)]
pub struct Term {
    /// In the trade's words.
    pub name: &'static str,
    /// As it stands in formulas; `V_1` has an index.
    pub symbol: &'static str,
    /// How to measure it, and what is meant.
    pub help: &'static str,
    /// What is taken when it is left out.
    pub assumed: &'static str,
    /// For numbers.
    pub kind: Option<&'static Kind>,
    /// The unit first offered, in SI practice and in the US.
    pub units: [&'static str; 2],
    /// Outside of it a warning is given; SI.
    pub plausible: (f64, f64),
    /// Outside of it the value is refused; SI.
    pub possible: (f64, f64),
    /// Of the usual instrument.
    pub tolerance: Tolerance,
    /// Whether it counts things of which there are no parts.
    pub whole: bool,
    /// Readings of one instrument share one error. Empty: an instrument of its own.
    pub instrument: &'static str,
    /// Whether it may be reported as less than a number, as a laboratory does below its reporting limit.
    pub below: bool,
    /// Whether each row of the table stands for itself, so that one that cannot be read leaves the others.
    pub rows_alone: bool,
    /// Whether no two rows of a table may have the same value in this column.
    pub unique: bool,
    /// Whether it is a time since the first reading of a log, so that in a text of rows a clock time will do.
    pub elapsed: bool,
}

impl Term {
    /// A quantity.
    pub const fn number(kind: &'static Kind, name: &'static str, symbol: &'static str) -> Self {
        Self {
            name,
            symbol,
            help: "",
            assumed: "",
            kind: Some(kind),
            units: [kind.metric, kind.us],
            plausible: (f64::NEG_INFINITY, f64::INFINITY),
            possible: (f64::NEG_INFINITY, f64::INFINITY),
            tolerance: Tolerance::None,
            whole: false,
            instrument: "",
            below: false,
            rows_alone: false,
            unique: false,
            elapsed: false,
        }
    }

    /// A choice, a date, a text or a table.
    pub const fn other(name: &'static str) -> Self {
        let mut term = Self::number(&crate::engine::quantity::kinds::NUMBER, name, "");
        term.kind = None;
        term
    }

    /// How to measure it.
    pub const fn help(mut self, help: &'static str) -> Self {
        self.help = help;
        self
    }

    /// What is taken when it is left out.
    pub const fn assumed(mut self, assumed: &'static str) -> Self {
        self.assumed = assumed;
        self
    }

    /// The same term for another place: other words.
    pub const fn named(mut self, name: &'static str) -> Self {
        self.name = name;
        self
    }

    /// The same term under another symbol.
    pub const fn symbol(mut self, symbol: &'static str) -> Self {
        self.symbol = symbol;
        self
    }

    /// It counts things of which there are no parts.
    pub const fn whole(mut self) -> Self {
        self.whole = true;
        self
    }

    /// As a column, no two rows have the same value.
    pub const fn unique(mut self) -> Self {
        self.unique = true;
        self
    }

    /// Each row of the table stands for itself.
    pub const fn each_row_alone(mut self) -> Self {
        self.rows_alone = true;
        self
    }

    /// It is a time since the first reading of a log.
    pub const fn since_the_first(mut self) -> Self {
        self.elapsed = true;
        self
    }

    /// It may be reported as less than a number; the field's type is then `Reported`.
    pub const fn or_below(mut self) -> Self {
        self.below = true;
        self
    }

    /// The units first offered.
    pub const fn units(mut self, metric: &'static str, us: &'static str) -> Self {
        let kind = self.of_kind();
        let _ = (kind.unit(metric), kind.unit(us));
        self.units = [metric, us];
        self
    }

    /// Outside of it a warning is given.
    pub const fn plausible(mut self, low: f64, high: f64, unit: &str) -> Self {
        let unit = self.of_kind().unit(unit);
        self.plausible = (unit.to_si(low), unit.to_si(high));
        self
    }

    /// Outside of it the value is refused.
    pub const fn possible(mut self, low: f64, high: f64, unit: &str) -> Self {
        let unit = self.of_kind().unit(unit);
        self.possible = (unit.to_si(low), unit.to_si(high));
        self
    }

    /// The half-width of the usual instrument's error, the same over the whole scale.
    pub const fn within(mut self, half_width: f64, unit: &str) -> Self {
        let kind = match self.of_kind().difference {
            Some(difference) => difference,
            None => self.of_kind(),
        };
        self.tolerance = Tolerance::Absolute(half_width * kind.unit(unit).factor);
        self
    }

    /// The half-width of the usual instrument's error as a share of the reading.
    pub const fn within_share(mut self, percent: f64) -> Self {
        self.tolerance = Tolerance::Relative(percent / 100.0);
        self
    }

    /// The instrument with which other fields are read too.
    pub const fn read_with(mut self, instrument: &'static str) -> Self {
        self.instrument = instrument;
        self
    }

    const fn of_kind(&self) -> &'static Kind {
        match self.kind {
            Some(kind) => kind,
            None => panic!("only a number has units"),
        }
    }

    /// Whether this term fits a field of that shape; asked at compile time.
    pub const fn fits(&self, shape: Shape) -> bool {
        match (self.kind, shape) {
            (Some(kind), Shape::Number(other)) => same(kind.id, other.id),
            (None, Shape::Number(_)) => false,
            (Some(_), _) => false,
            (None, _) => true,
        }
    }

    /// The unit first offered to readers of that practice.
    pub fn unit(&self, us: bool) -> Option<&'static Unit> {
        self.kind.map(|kind| kind.unit(self.units[usize::from(us)]))
    }
}

/// One input or output of a sheet, or one column of a table.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// Its name in the code, under which formulas know it.
    pub name: &'static str,
    /// What it means.
    pub term: &'static Term,
    /// What it holds.
    pub shape: Shape,
    /// Whether the sheet stops without it.
    pub needed: bool,
}

/// Where in the water's way a sheet belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// The whole way.
    Plan,
    /// The room's tap and the hose.
    Tap,
    /// The sediment filter.
    Sediment,
    /// The softener.
    Softener,
    /// The carbons.
    Carbon,
    /// The RO membrane.
    Membrane,
    /// The dialysis machine.
    Machine,
    /// What the water must be when it reaches the machine.
    Product,
    /// Where the water goes, and where the current comes from.
    Drain,
    /// A day of sessions.
    Day,
    /// Heat disinfection.
    Heat,
    /// Chemical disinfection and cleaning.
    Chemical,
    /// What keeps the RO running over weeks and months.
    Run,
    /// The bench and the classroom.
    Bench,
}

impl Stage {
    /// Every stage, in the order of the water's way.
    pub const ALL: &'static [Stage] = &[
        Stage::Plan,
        Stage::Tap,
        Stage::Sediment,
        Stage::Softener,
        Stage::Carbon,
        Stage::Membrane,
        Stage::Machine,
        Stage::Product,
        Stage::Drain,
        Stage::Day,
        Stage::Heat,
        Stage::Chemical,
        Stage::Run,
        Stage::Bench,
    ];

    /// Permanent, kebab-case.
    pub const fn id(self) -> &'static str {
        match self {
            Stage::Plan => "plan",
            Stage::Tap => "tap",
            Stage::Sediment => "sediment-filter",
            Stage::Softener => "softener",
            Stage::Carbon => "carbon",
            Stage::Membrane => "membrane",
            Stage::Machine => "dialysis-machine",
            Stage::Product => "product-water",
            Stage::Drain => "drain-and-socket",
            Stage::Day => "day",
            Stage::Heat => "heat",
            Stage::Chemical => "chemical",
            Stage::Run => "run",
            Stage::Bench => "bench",
        }
    }

    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            Stage::Plan => "Place and RO",
            Stage::Tap => "Tap",
            Stage::Sediment => "Sediment filter",
            Stage::Softener => "Softener",
            Stage::Carbon => "Carbon",
            Stage::Membrane => "RO membrane",
            Stage::Machine => "Dialysis machine",
            Stage::Product => "Product water",
            Stage::Drain => "Drain and socket",
            Stage::Day => "Day",
            Stage::Heat => "Heat disinfection",
            Stage::Chemical => "Chemical disinfection",
            Stage::Run => "Keeping it running",
            Stage::Bench => "Bench and classroom",
        }
    }
}

/// A caution that stands where the hazard is.
#[derive(Debug, PartialEq, Eq)]
pub struct Caution {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// What to beware of, and whose word counts.
    pub text: &'static str,
}

/// Everything that is known of a sheet before any number is typed.
#[derive(Debug)]
pub struct Declaration {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// In words.
    pub name: &'static str,
    /// What else people call it or look for when they want it: abbreviations, other names.
    pub also: &'static [&'static str],
    /// What it answers.
    pub about: &'static str,
    /// Where it belongs.
    pub stage: Stage,
    /// What it asks.
    pub inputs: &'static [Field],
    /// What it answers with.
    pub outputs: &'static [Field],
    /// What its numbers are judged against.
    pub criteria: &'static [&'static Criterion],
    /// What to beware of whenever it is used.
    pub cautions: &'static [&'static Caution],
    /// What it rests on.
    pub sources: &'static [&'static Source],
    /// What is drawn of its numbers, beside the bars of its checks.
    pub figures: &'static [&'static Figure],
}

impl Declaration {
    /// The index of an input.
    pub fn input(&self, id: &str) -> Option<usize> {
        self.inputs.iter().position(|field| field.id == id)
    }

    /// The outputs that are one number. Among all numbers they stand first, before the cells of the tables.
    pub fn single_numbers(&self) -> impl Iterator<Item = &'static Field> {
        self.outputs.iter().filter(|field| matches!(field.shape, Shape::Number(_)))
    }

    /// The index of an output.
    pub fn output(&self, id: &str) -> Option<usize> {
        self.outputs.iter().position(|field| field.id == id)
    }
}
