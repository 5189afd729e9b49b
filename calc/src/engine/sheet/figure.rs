//! Figures that a sheet declares over its own numbers. The page draws any of them; no sheet draws anything.

use super::criterion::{Criterion, Side, State};
use super::shape::{Declaration, Field, Stage};
use super::value::{Answer, Value};

/// A figure of a sheet.
#[derive(Debug)]
pub struct Figure {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// In words.
    pub name: &'static str,
    /// How it is read, in one sentence.
    pub about: &'static str,
    /// Where its numbers stand in tables with a row for each time of the year, it opens at the time at which this is worst.
    pub opens_at: Option<&'static Criterion>,
    /// Where a table that was entered has one number for each month, how the figure is drawn of any of them.
    pub months: Option<Months>,
    /// What is drawn.
    pub draws: Draws,
}

/// How a sheet is computed as it is in one month: with the number of that month in place of that of today.
#[derive(Debug, Clone, Copy)]
pub struct Months {
    /// The input with a row for each month, its column that names the month, and the column of its number.
    pub table: [&'static str; 3],
    /// The input that holds the same number of today.
    pub field: &'static str,
    /// The time of the year that is then that month.
    pub time: &'static str,
}

impl Months {
    /// Every month that was entered, with its number in SI; none where the cell is empty.
    pub fn entered(&self, sheet: &Declaration, values: &[Option<Value>]) -> Vec<(&'static str, Option<f64>)> {
        let rows = || {
            let index = sheet.input(self.table[0])?;
            let (super::Shape::Table(columns), Some(Value::Table(rows))) =
                (sheet.inputs[index].shape, values.get(index)?)
            else {
                return None;
            };
            let place = |id| columns.iter().position(|column: &Field| column.id == id);
            Some((rows, place(self.table[1])?, place(self.table[2])?))
        };
        let Some((rows, month, number)) = rows() else { return Vec::new() };
        let of_row = |row: &Vec<Option<Value>>| {
            let Some(Some(Value::Choice(month))) = row.get(month) else { return None };
            let number = match row.get(number) {
                Some(Some(Value::Number(si))) => Some(*si),
                _ => None,
            };
            Some((*month, number))
        };
        rows.iter().filter_map(of_row).collect()
    }

    /// The values of the sheet as they are with this number.
    pub fn with(
        &self,
        sheet: &Declaration,
        values: &[Option<Value>],
        number: Option<f64>,
    ) -> Vec<Option<Value>> {
        let mut values = values.to_vec();
        if let Some(value) = sheet.input(self.field).and_then(|index| values.get_mut(index)) {
            *value = number.map(Value::Number);
        }
        values
    }
}

/// The kinds of figures.
#[derive(Debug)]
pub enum Draws {
    /// A quantity that falls from step to step, for several flights of steps, with a limit.
    Stairs {
        /// What is read upwards.
        quantity: &'static str,
        /// What the steps are, along the stairs.
        along: &'static str,
        /// The steps, in few letters each.
        steps: &'static [&'static str],
        /// Each with a number for each step.
        flights: &'static [Flight],
        /// The least that will do.
        least: Shown,
    },
    /// The way of a flow from spot to spot, its width the flow; one may switch between its cases.
    Path {
        /// The cases: the id and the words of each.
        cases: &'static [(&'static str, &'static str)],
        /// In the order of the flow; what leaves it comes last.
        spots: &'static [Spot],
    },
    /// Lines over the rows of a table.
    Lines(Lined),
    /// Results as shares of their limits, by one set of limits or by two side by side.
    Shares(Compared),
    /// Hours of a day, one stretch after the other, within the hours that there are.
    Clock(Clocked),
}

/// Lines over the rows of a table, on one drawing or on several of the same width.
#[derive(Debug)]
pub struct Lined {
    /// The table.
    pub table: &'static str,
    /// The column that is read along.
    pub along: &'static str,
    /// Where the table holds several courses one after the other, how they are told apart.
    pub parted: Option<Parted>,
    /// The drawings, from top to bottom.
    pub panels: &'static [Panel],
    /// Stretches along the drawing that do not count.
    pub shaded: Option<Shaded>,
    /// Where one stands.
    pub here: Option<Shown>,
}

/// How the courses of a table are told apart.
#[derive(Debug)]
pub struct Parted {
    /// The column that has the number of the course, from 1 on.
    pub column: &'static str,
    /// The table and its column that has their names, in the order of the numbers.
    pub names: (&'static str, &'static str),
    /// The output that names the one which is shown at first.
    pub opens_at: &'static str,
    /// What is chosen.
    pub label: &'static str,
}

/// One drawing.
#[derive(Debug)]
pub struct Panel {
    /// What it shows.
    pub name: &'static str,
    /// What is read upwards.
    pub quantity: &'static str,
    /// In words, and the column.
    pub lines: &'static [(&'static str, &'static str)],
    /// What is asked: the number, whether it is the least that will do, and what it is.
    pub limit: Option<(Shown, Side, &'static str)>,
    /// Whether nothing is known of it in the shaded stretches.
    pub breaks: bool,
}

/// Stretches that do not count: a table of them.
#[derive(Debug)]
pub struct Shaded {
    /// The table.
    pub table: &'static str,
    /// Its columns: from where, to where, and why.
    pub columns: [&'static str; 3],
    /// What they are.
    pub name: &'static str,
}

impl Lined {
    fn shows(&self) -> Vec<Shown> {
        let at = |column| Shown::At(self.table, column);
        let mut all = vec![at(self.along)];
        for panel in self.panels {
            all.extend(panel.lines.iter().map(|(_, column)| at(column)));
            all.extend(panel.limit.map(|(limit, ..)| limit));
        }
        if let Some(parted) = &self.parted {
            all.extend([
                at(parted.column),
                Shown::At(parted.names.0, parted.names.1),
                Shown::Answered(parted.opens_at),
            ]);
        }
        if let Some(shaded) = &self.shaded {
            all.extend(shaded.columns.iter().map(|column| Shown::At(shaded.table, column)));
            all.extend(self.parted.as_ref().map(|parted| Shown::At(shaded.table, parted.column)));
        }
        all.extend(self.here);
        all
    }
}

/// Results as shares of their limits, from a table with a row for each.
#[derive(Debug)]
pub struct Compared {
    /// The table.
    pub table: &'static str,
    /// The column that names a row.
    pub name: &'static str,
    /// The column of the result itself, which may be "less than".
    pub value: &'static str,
    /// One for each set of limits; all but the first only where that set was chosen.
    pub sides: &'static [Compare],
    /// What each verdict means.
    pub states: &'static [(&'static str, State)],
}

/// One set of limits of such a comparison.
#[derive(Debug)]
pub struct Compare {
    /// The output that names the set.
    pub set: &'static str,
    /// The column of its limits.
    pub limit: &'static str,
    /// The column of the results over these limits.
    pub share: &'static str,
    /// The column of its verdicts.
    pub verdict: &'static str,
    /// The output that lists what it limits and nobody tested: its first column names, its second is the limit.
    pub untested: &'static str,
}

impl Compared {
    fn shows(&self) -> Vec<Shown> {
        let at = |column| Shown::At(self.table, column);
        let of_side = |side: &Compare| {
            let outputs = [side.set, side.untested].map(Shown::Answered);
            let columns = [side.limit, side.share, side.verdict].map(at);
            outputs.into_iter().chain(columns).collect::<Vec<_>>()
        };
        [at(self.name), at(self.value)].into_iter().chain(self.sides.iter().flat_map(of_side)).collect()
    }
}

/// The hours of a day, from a table with a row for each of what follows one another.
#[derive(Debug)]
pub struct Clocked {
    /// The table: its columns are times from the beginning of the first row on; the first column counts the rows.
    pub course: &'static str,
    /// The table with the same columns by the clock, in the same order.
    pub clock: Option<&'static str>,
    /// Columns between which it is drawn low, half high and full.
    pub low: [&'static str; 2],
    /// See `low`.
    pub half: [&'static str; 2],
    /// See `low`.
    pub full: [&'static str; 2],
    /// What the full height is.
    pub full_name: &'static str,
    /// What lies between two rows.
    pub between: &'static str,
    /// A column, and which of its choices is marked before the row.
    pub note: (&'static str, &'static str),
    /// How long the day is.
    pub hours: Shown,
    /// Said under it.
    pub last: &'static [Shown],
}

/// A spot on a path.
#[derive(Debug)]
pub struct Spot {
    /// Where it is.
    pub stage: Stage,
    /// In words.
    pub name: &'static str,
    /// What flows there, in each case.
    pub flow: &'static [Shown],
    /// What is read there, and with what.
    pub reads: &'static [Read],
    /// What is shown there: a short name, and the number in each case; one that is the same in all stands once.
    pub shows: &'static [(&'static str, &'static [Shown])],
}

/// What is read at a spot.
#[derive(Debug, Clone, Copy)]
pub struct Read {
    /// With what.
    pub tool: Tool,
    /// The input that it is for.
    pub field: &'static str,
}

/// What one reads with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tool {
    /// A pressure gauge.
    Gauge,
    /// A jug and a watch.
    Jug,
    /// A thermometer.
    Thermometer,
    /// A sample, from its port.
    Sample,
}

/// One flight of steps.
#[derive(Debug)]
pub struct Flight {
    /// In words.
    pub name: &'static str,
    /// Its number at each step.
    pub at: &'static [Shown],
}

/// A number of a sheet, by where it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// An input.
    Entered(&'static str),
    /// The first of these inputs that was entered.
    FirstEntered(&'static [&'static str]),
    /// An output.
    Answered(&'static str),
    /// A column of an output with a row for each time of the year.
    At(&'static str, &'static str),
    /// The number of a check, at its worst time of the year: the id of its criterion, and its case.
    Checked(&'static str, &'static str),
    /// What only a test at the spot can tell.
    ByTest,
}

impl Shown {
    /// Whether the sheet has it.
    pub fn is_declared(self, sheet: &Declaration) -> bool {
        match self {
            Shown::Entered(id) => sheet.input(id).is_some(),
            Shown::FirstEntered(ids) => !ids.is_empty() && ids.iter().all(|id| sheet.input(id).is_some()),
            Shown::Answered(id) => sheet.output(id).is_some(),
            Shown::At(table, column) => sheet.column(table, column).is_some(),
            Shown::Checked(id, case) => sheet.criteria.iter().any(|criterion| {
                criterion.id == id
                    && (criterion.cases.is_empty() || criterion.cases.iter().any(|one| one.id == case))
            }),
            Shown::ByTest => true,
        }
    }
}

impl Figure {
    /// Every number that it shows.
    pub fn shows(&self) -> Vec<Shown> {
        match &self.draws {
            Draws::Stairs { flights, least, .. } => {
                flights.iter().flat_map(|flight| flight.at).chain([least]).copied().collect()
            }
            Draws::Path { spots, .. } => {
                let of_spot =
                    |spot: &'static Spot| spot.flow.iter().chain(spot.shows.iter().flat_map(|(_, at)| *at));
                spots.iter().flat_map(of_spot).copied().collect()
            }
            Draws::Lines(lined) => lined.shows(),
            Draws::Shares(compared) => compared.shows(),
            Draws::Clock(clocked) => clocked.shows(),
        }
    }

    /// The outputs whose every number it says in words: they need no table of their own beside it.
    pub fn tells(&self) -> Vec<&'static str> {
        match &self.draws {
            Draws::Stairs { .. } | Draws::Path { .. } => Vec::new(),
            Draws::Lines(lined) => vec![lined.table],
            Draws::Shares(compared) => {
                // the name of a set is told too, but there is one also where nothing is drawn
                compared.sides.iter().map(|side| side.untested).chain([compared.table]).collect()
            }
            Draws::Clock(clocked) => clocked.clock.into_iter().chain([clocked.course]).collect(),
        }
    }

    /// The table by whose rows the time of the year is chosen.
    pub fn table(&self) -> Option<&'static str> {
        if !matches!(self.draws, Draws::Stairs { .. } | Draws::Path { .. }) {
            return None;
        }
        self.shows().into_iter().find_map(|shown| match shown {
            Shown::At(table, _) => Some(table),
            _ => None,
        })
    }
}

impl Clocked {
    /// The columns that are drawn, in the order of the day.
    pub fn columns(&self) -> [&'static str; 5] {
        [self.low[0], self.half[0], self.full[0], self.full[1], self.half[1]]
    }

    fn shows(&self) -> Vec<Shown> {
        let columns = self.columns().into_iter().chain([self.note.0]);
        let columns = columns.map(|column| Shown::At(self.course, column));
        columns
            .chain(self.clock.map(Shown::Answered))
            .chain([self.hours])
            .chain(self.last.iter().copied())
            .collect()
    }
}

impl Declaration {
    /// The output that is a table, and the index of its column.
    pub fn column(&self, table: &str, column: &str) -> Option<(usize, usize)> {
        let index = self.output(table)?;
        let super::Shape::Table(columns) = self.outputs[index].shape else { return None };
        Some((index, columns.iter().position(|field| field.id == column)?))
    }
}

/// The row of a table of answers whose first cell is this choice.
pub fn row<'a>(rows: &'a [Vec<Answer>], choice: &str) -> Option<&'a [Answer]> {
    let is_it = |row: &&Vec<Answer>| matches!(row.first(), Some(Answer::Choice(named)) if named.id == choice);
    rows.iter().find(is_it).map(Vec::as_slice)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::sheet::Shape;
    use crate::program::catalogue::SHEETS;

    #[test]
    fn a_month_puts_its_number_in_place_of_that_of_today() {
        let plan = crate::program::catalogue::find("plan").unwrap().declaration;
        let months = plan.figures.iter().find_map(|figure| figure.months).unwrap();
        let place = |id: &str| plan.input(id).unwrap();
        let mut values: Vec<Option<Value>> = vec![None; plan.inputs.len()];
        assert!(months.entered(plan, &values).is_empty());
        let row = |month: &'static str, kelvins: Option<f64>| {
            vec![Some(Value::Choice(month)), kelvins.map(Value::Number)]
        };
        values[place("months")] = Some(Value::Table(vec![row("feb", Some(276.65)), row("mar", None)]));
        values[place("tap-temperature")] = Some(Value::Number(285.0));
        assert_eq!(months.entered(plan, &values), [("feb", Some(276.65)), ("mar", None)]);
        let today = |number| months.with(plan, &values, number)[place("tap-temperature")].clone();
        assert_eq!(today(Some(276.65)), Some(Value::Number(276.65)));
        assert_eq!(today(None), None, "not known in that month");
    }

    #[test]
    fn everything_that_is_drawn_is_declared() {
        let mut figures = 0;
        for sheet in SHEETS.iter().map(|entry| entry.declaration) {
            for figure in sheet.figures {
                figures += 1;
                if let Some(months) = figure.months {
                    assert!(sheet.input(months.field).is_some() && sheet.input(months.table[0]).is_some());
                }
                for shown in figure.shows() {
                    assert!(shown.is_declared(sheet), "{}, {}: {shown:?}", sheet.id, figure.id);
                }
                match &figure.draws {
                    Draws::Stairs { steps, flights, .. } => {
                        assert!(flights.iter().all(|flight| flight.at.len() == steps.len()), "{}", figure.id);
                    }
                    Draws::Path { cases, spots } => {
                        for spot in *spots {
                            assert_eq!(spot.flow.len(), cases.len(), "{}", spot.name);
                            for read in spot.reads {
                                assert!(sheet.input(read.field).is_some(), "{}: {read:?}", spot.name);
                            }
                            assert!(
                                spot.shows.iter().all(|(_, at)| [1, cases.len()].contains(&at.len())),
                                "{}",
                                spot.name
                            );
                        }
                        let order = |spot: &Spot| Stage::ALL.iter().position(|stage| *stage == spot.stage);
                        assert!(spots.is_sorted_by_key(order), "in the order of the water");
                    }
                    Draws::Lines(lined) => assert!(!lined.panels.is_empty(), "{}", figure.id),
                    Draws::Shares(compared) => {
                        let Shape::Table(columns) =
                            sheet.outputs[sheet.output(compared.table).unwrap()].shape
                        else {
                            panic!("{}", compared.table);
                        };
                        for side in compared.sides {
                            let (_, verdict) = sheet.column(compared.table, side.verdict).unwrap();
                            let Shape::Choice(named) = columns[verdict].shape else {
                                panic!("{}", figure.id)
                            };
                            let ids = compared.states.iter().map(|(id, _)| *id);
                            assert!(ids.eq(named.iter().map(|choice| choice.id)), "{}: {named:?}", figure.id);
                        }
                    }
                    Draws::Clock(clocked) => {
                        let (_, note) = sheet.column(clocked.course, clocked.note.0).unwrap();
                        let Shape::Table(columns) =
                            sheet.outputs[sheet.output(clocked.course).unwrap()].shape
                        else {
                            panic!("{}", clocked.course);
                        };
                        let Shape::Choice(named) = columns[note].shape else { panic!("{}", figure.id) };
                        assert!(named.iter().any(|choice| choice.id == clocked.note.1), "{}", figure.id);
                    }
                }
            }
        }
        assert!(figures > 1);
    }
}
